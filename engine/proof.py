"""A whole pattern in every size: planned, written, and knitted on the bed before it is shown."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from .band import BandPlan, plan_band, too_long_for_bed
from .bed import run
from .model import Band, Pattern
from .problems import Problem, Severity, error, has_errors, in_order, note
from .program import Layout, band_program, lay_out
from .steps import Program, Side
from .trace import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One strip of knitting: a band for one front, with the program that was run for it."""

    plan: BandPlan
    front: Side
    with_holes: bool
    layout: Layout
    program: Program
    run: Run


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeProof:
    """One size: every band of it, for both fronts."""

    size: str
    plans: tuple[BandPlan, ...]
    strips: tuple[Strip, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """A pattern whose every size was knitted on the bed to its end.

    `findings` holds what does not stop it: warnings, cautions, remarks.
    """

    pattern: Pattern
    sizes: tuple[SizeProof, ...]
    findings: tuple[Problem, ...]


def prove(pattern: Pattern) -> tuple[Proof | None, tuple[Problem, ...]]:
    """Return the proof of a pattern in all its sizes, and every finding in order.

    Without an error in any size there is a proof; with one there is none: a pattern is
    published in all its sizes or not at all.
    """
    problems: list[Problem] = []
    plans: dict[str, list[BandPlan]] = {size: [] for size in pattern.sizes}
    for band in pattern.bands.values():
        planned = []
        for size in pattern.sizes:
            plan, found = plan_band(pattern, band, size)
            problems += found
            if plan is not None:
                planned.append(plan)
                plans[size].append(plan)
        problems += too_long_for_bed(pattern, band, planned)
        problems += _against_neighbours(pattern, band, planned)
    if has_errors(problems):
        return None, in_order(problems)
    sizes = []
    for size in pattern.sizes:
        strips = tuple(strip for plan in plans[size] for strip in _knit(pattern, plan))
        problems += [_refused(pattern, strip) for strip in strips if strip.run.refusal]
        sizes.append(SizeProof(size=size, plans=tuple(plans[size]), strips=strips))
    findings = in_order(problems)
    if has_errors(findings):
        return None, findings
    return Proof(pattern=pattern, sizes=tuple(sizes), findings=findings), findings


def _knit(pattern: Pattern, plan: BandPlan) -> tuple[Strip, ...]:
    """Both fronts of a band, each run on the bed; the one with buttonholes first."""
    holes = plan.band.buttonholes
    first = holes.front if holes else Side.RIGHT
    edge = pattern.edges[plan.band.edge]
    strips = []
    for front in (first, first.other):
        with_holes = holes is not None and front is first
        program = band_program(
            plan, front=front, bed_needles=pattern.bed.needles, with_holes=with_holes,
            garment_dial=pattern.fabrics[edge.fabric].dial, edge_name=f"{edge.key} edge")
        strips.append(Strip(plan=plan, front=front, with_holes=with_holes, program=program,
                            layout=lay_out(plan.stitches.value, front), run=run(program)))
    return tuple(strips)


def _refused(pattern: Pattern, strip: Strip) -> Problem:
    refusal = strip.run.refusal
    assert refusal is not None
    return error("bed-refuses", pattern.place(f"bands.{strip.plan.band.key}"),
                 size=strip.plan.size, found=f"{strip.program.name}, {refusal}",
                 expected="a program that the virtual bed can knit to its end",
                 remedy="Please report this: the plan and the bed disagree.")


def _against_neighbours(pattern: Pattern, band: Band, plans: list[BandPlan]) -> list[Problem]:
    """A band that shrinks where its edge grows, or grows where the edge shrinks, is reported."""
    problems = []
    for a, b in pairwise(plans):
        edge = b.edge_rows.value - a.edge_rows.value
        stitches = b.stitches.value - a.stitches.value
        if edge * stitches < 0:
            problems.append(note(
                Severity.WARNING, "against-neighbours",
                pattern.place(f"edges.{band.edge}", b.size), size=b.size,
                found=f"{b.stitches} for {b.edge_rows}, after {a.stitches} for {a.edge_rows} "
                      f"in size {a.size}",
                expected="a band that grows with its edge",
                remedy="Change the buttonholes' number or ends, or give them less room to move "
                       "the band."))
    return problems

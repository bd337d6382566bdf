"""A whole pattern in every size: planned, written, and knitted on the bed before it is shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from ..bed.handed_on import left_waiting, taken
from ..bed.run import run
from ..catalogue.edge_roles import side_of
from ..core.problems import Problem, error, has_errors, in_order
from ..fabric.piece_fabrics import piece_fabric
from ..machine.programs import Program
from ..machine.records import dataclass
from ..machine.steps import Side
from ..machine.trace import Trace
from ..pattern.edges import EdgeShape, EdgeSpec
from ..pattern.fabrics import Fabric, NeedleBed
from ..pattern.model import Band, GarmentSpec, Pattern
from ..pattern.places import Places
from ..plan.arranged import looser_dial
from ..plan.assembled import PAIRS, Assembled
from ..plan.band import BandPlan
from ..program import whole_programs
from ..program.bands import band_program
from ..program.layout import Layout, lay_out_band
from ..program.waiting import in_halves
from ..shape.piece import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One strip of knitting: a band for one front, with the program that was run for it.

    A band that goes round a neck is one strip; its `front` is then where it starts.
    """

    plan: BandPlan
    front: Side
    with_holes: bool
    layout: Layout
    program: Program
    trace: Trace


@dataclass(frozen=True, slots=True, kw_only=True)
class KnittedPiece:
    """A piece of a garment with the program that was run for it."""

    piece: Piece
    program: Program
    trace: Trace


Work = Strip | KnittedPiece  # what has a program


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeProof:
    """One size: its garment's pieces, if there is one, and every band of it."""

    size: str
    plans: tuple[BandPlan, ...]
    strips: tuple[Strip, ...]
    assembled: Assembled | None = None
    pieces: tuple[KnittedPiece, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """A pattern whose every size was knitted on the bed to its end.

    `findings` holds what does not stop it: warnings, cautions, remarks.
    """

    pattern: Pattern
    sizes: tuple[SizeProof, ...]
    findings: tuple[Problem, ...]


def prove(pattern: Pattern, only: str | None = None) -> tuple[Proof | None, tuple[Problem, ...]]:
    """Return the proof of a pattern in all its sizes, and every finding in order.

    Without an error in any size there is a proof; with one there is none: a pattern is
    published in all its sizes or not at all. `only` is for a first look at one size: all sizes are
    planned, and this one is knitted.
    """
    return _proved(pattern, pattern.sizes if only is None else (only,), pattern)


def prove_alone(pattern: Pattern, size: str) -> tuple[Proof | None, tuple[Problem, ...]]:
    """Return the proof of one size, that no other can refuse, and its findings."""
    proof, found = _proved(replace(pattern, sizes=(size,)), (size,), pattern)
    return proof and replace(proof, pattern=pattern), found


def _proved(pattern: Pattern, knitted: Sequence[str], whole: Pattern
            ) -> tuple[Proof | None, tuple[Problem, ...]]:
    assembled, problems = assemble_all(pattern, whole)
    if has_errors(problems):
        return None, in_order(problems)
    plans, found = plan_all(pattern, assembled)
    problems += found
    if has_errors(problems):
        return None, in_order(problems)
    sizes = []
    for size in knitted:
        made = _knit_size(pattern, size, plans[size], assembled.get(size))
        problems += _refusals(pattern.places, made)
        sizes.append(made)
    findings = in_order(problems)
    if has_errors(findings):
        return None, findings
    return Proof(pattern=pattern, sizes=tuple(sizes), findings=findings), findings


def assemble_all(pattern: Pattern, whole: Pattern) -> tuple[dict[str, Assembled], list[Problem]]:
    """Return the garment in every size in which it can be shaped, with all findings; its measures
    are made from what the chart has in every size of the `whole`. What shapes garments is imported
    for those patterns that have one."""
    if pattern.garment is None:
        return {}, []
    from ..plan.all_sizes import garment_in_sizes
    return garment_in_sizes(pattern, pattern.garment, whole)


def plan_all(pattern: Pattern, assembled: Mapping[str, Assembled]
             ) -> tuple[dict[str, list[BandPlan]], list[Problem]]:
    """Return the bands of every size as they are planned, in the order of their work, with all
    findings. What plans bands is imported for those patterns that have one."""
    if not pattern.bands:
        return {size: [] for size in pattern.sizes}, []
    from ..plan.all_bands import bands_in_sizes
    return bands_in_sizes(pattern, assembled)


def _knit_size(pattern: Pattern, size: str, plans: list[BandPlan], assembled: Assembled | None
               ) -> SizeProof:
    pieces = _knit_pieces(pattern.garment, pattern.fabrics, pattern.bed, assembled, plans) \
        if assembled else ()
    strips = [_knit(pattern, part, front)
              for plan in plans for front in _fronts(pattern.edges, plan)
              for part in plan.at(front).strips]
    return SizeProof(size=size, plans=tuple(plans), assembled=assembled, pieces=pieces,
                     strips=_handed_on(strips, assembled, pieces))


def _handed_on(strips: Sequence[Strip], assembled: Assembled | None, pieces: Sequence[KnittedPiece]
               ) -> tuple[Strip, ...]:
    """The strips, refused where one takes what no piece, or no strip before it, left waiting."""
    if assembled is None:
        return tuple(strips)
    waits = [each for p in pieces for _ in range(assembled.garment.times.get(p.piece.key, 1))
             for each in left_waiting(p.trace)]
    made = []
    for strip in strips:
        waits, refusal = taken(waits, strip.program)
        made.append(replace(strip, trace=replace(strip.trace,
                                                 refusal=strip.trace.refusal or refusal)))
    return tuple(made)


def _knit_pieces(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], bed: NeedleBed,
                 assembled: Assembled, plans: Sequence[BandPlan]) -> tuple[KnittedPiece, ...]:
    made = []
    for piece in (in_halves(piece, plans) for piece in assembled.garment.pieces):
        dial = piece_fabric(spec, fabrics, piece.key).dial
        program = whole_programs.piece_program(piece, dial=dial, bed_needles=bed.needles,
                                second_needles=bed.needles if bed.second else 0)
        made.append(KnittedPiece(piece=piece, program=program, trace=run(program)))
    return tuple(made)


def _fronts(edges: Mapping[str, EdgeSpec], plan: BandPlan) -> tuple[Side, ...]:
    """The fronts a band is knitted for, the one with buttonholes last: the plain band proves the
    count, and shows where they go (Mary Anne Oger, "Button detail", B11).

    An edge that is there once, such as a neck, takes one strip.
    """
    own = _own_front(plan)
    if not _is_paired(edges, plan.band):
        return (own,)
    return (own.other, own) if plan.band.buttonholes else (own, own.other)


def _own_front(plan: BandPlan) -> Side:
    """The front that has a band's buttonholes, or its edge; else the right one."""
    if side_of(plan.band.garment_edge) is Side.LEFT:
        return Side.LEFT
    return plan.band.buttonholes.front if plan.band.buttonholes else Side.RIGHT


def _knit(pattern: Pattern, plan: BandPlan, front: Side) -> Strip:
    """A band, or a part of one, for one front, run on the bed."""
    with_holes = plan.placing is not None and front is _own_front(plan)
    dial = looser_dial(pattern.garment, pattern.fabrics, pattern.edges, plan.band)
    program = band_program(plan, front=front, bed_needles=pattern.bed.needles,
                           with_holes=with_holes, garment_dial=dial)
    return Strip(plan=plan, front=front, with_holes=with_holes, program=program,
                 layout=lay_out_band(plan, front), trace=run(program))


def _is_paired(edges: Mapping[str, EdgeSpec], band: Band) -> bool:
    if band.edge in edges:
        return edges[band.edge].shape is EdgeShape.FRONT
    return band.edge in PAIRS


def _refusals(places: Places, made: SizeProof) -> list[Problem]:
    runs = [(f"bands.{s.plan.band.key}", s.program, s.trace) for s in made.strips]
    runs += [("garment.form", p.program, p.trace) for p in made.pieces]
    return [error("bed-refuses", places.of(path), size=made.size,
                  found=f"{program.name}, {result.refusal}",
                  expected="a program that the virtual bed can knit to its end",
                  remedy="Please report this: the plan and the bed disagree.")
            for path, program, result in runs if result.refusal]

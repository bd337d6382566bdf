"""Waste yarn is drawn out only when every stitch that waits on it is hung, whoever took them off.

Open stitches run as soon as nothing holds them (common practice, no source): so each set of
stitches that is hung together waits on a separate strip of waste yarn, and the stitches that lie
in a seam are hung with their neighbours.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from walebook.bed.handed_on import left_waiting, taken
from walebook.bed.run import run
from walebook.catalogue.forms import Construction
from walebook.core.problems import Problem, Severity
from walebook.fabric.gauge import Gauge
from walebook.machine.edge_steps import DrawCord, Hang
from walebook.machine.needles import NONE, centred
from walebook.machine.programs import Program
from walebook.machine.steps import Side, Step
from walebook.pattern.edges import EdgeSection, EdgeShape, Offer
from walebook.pattern.model import Band
from walebook.plan.meeting import PickUpRate, meet
from walebook.program.waiting import beside_missed, seam_needles
from walebook.proof.proof import SizeProof, prove
from walebook.shape import edging
from walebook.shape.edge_path import EdgePath
from walebook.shape.ribs import RIBS, fitting

from tests.laws import bands
from tests.whole_collection import collection

ROOT = Path(__file__).parents[2]
GAUGE = Gauge(Fraction(5), Fraction(7, 2), "")


@pytest.fixture(scope="module")
def sizes() -> list[SizeProof]:
    """Every size of the collection."""
    return [size for proof in collection().proofs for size in proof.sizes]


def changed(program: Program, how: Callable[[Step], Step | None]) -> Program:
    """The program with each step as `how` gives it, None left out."""
    sections = tuple(replace(section, steps=tuple(
        new for step in section.steps if (new := how(step)) is not None))
        for section in program.sections)
    return replace(program, sections=sections)


def banded(sizes: list[SizeProof], slug: str) -> Program:
    """The program of the first neckband of a form that hangs waiting stitches."""
    return next(strip.program for size in sizes if size.assembled
                and size.assembled.garment.form.value == slug for strip in size.strips
                if strip.program.strips)


@pytest.mark.parametrize("form", ["raglan", "saddle raglan", "set-in"])
def test_waste_yarn_is_drawn_out_of_whole_strips(sizes: list[SizeProof], form: str) -> None:
    program = banded(sizes, form)
    assert run(program).refusal is None
    drawn = [step for step in program.steps if isinstance(step, DrawCord)
             and step.edge in program.on_waste]
    assert len(drawn) == len(program.strips)
    more = replace(program, strips=tuple((edge, name, count + 2)
                                         for edge, name, count in program.strips))
    refusal = run(more).refusal
    assert refusal and refusal.code == "stitches-run"


def test_a_seam_stitch_that_is_not_hung_runs(sizes: list[SizeProof]) -> None:
    """The raglan's outermost stitches on their neighbours' needles, or refused."""
    program = banded(sizes, "raglan")
    seams = [step for step in program.steps if isinstance(step, Hang) and step.doubled]
    assert len(seams) == 3  # back neck and both sleeves
    assert all(len(step.doubled) == 2 for step in seams)
    first = seams[0]

    def left(step: Step) -> Step:
        if step is first:
            return replace(first, doubled=NONE,
                           claim=step.claim._replace(loops=step.claim.loops - 2))
        return step

    assert isinstance(program.steps[program.steps.index(first) + 1], DrawCord)
    refusal = run(changed(program, left)).refusal
    assert refusal and refusal.code == "stitches-run"


def test_a_strip_that_is_never_drawn_out_is_left_in_the_work(sizes: list[SizeProof]) -> None:
    program = banded(sizes, "raglan")
    refusal = run(changed(program, lambda step: None if isinstance(step, DrawCord) and
                          step.edge in program.on_waste else step)).refusal
    assert refusal and refusal.code == "cord-left"


def test_a_band_takes_what_the_pieces_left_strip_by_strip(sizes: list[SizeProof]) -> None:
    """Across programs: each strip was taken off by a piece, with so many stitches, and once."""
    named = 0
    for size in sizes:
        if size.assembled is None:
            continue
        waits = [each for p in size.pieces
                 for _ in range(size.assembled.garment.times.get(p.piece.key, 1))
                 for each in left_waiting(p.trace)]
        for strip in size.strips:
            waits, refusal = taken(waits, strip.program)
            assert refusal is None, f"{size.size}: {refusal}"
            named += len([name for _, name, _ in strip.program.strips if name])
    assert named > 100


def test_a_strip_that_holds_others_too_is_refused(sizes: list[SizeProof]) -> None:
    """The whole back of a saddle raglan, its shoulders with it, is on no single strip."""
    size = next(s for s in sizes if s.assembled
                and s.assembled.garment.form is Construction.SADDLE_RAGLAN
                and len(s.strips) == 1)
    back = next(p for p in size.pieces if p.piece.key == "back")
    strip = next(s for s in size.strips if s.program.strips)
    apart = left_waiting(back.trace)
    assert len(apart) == 3
    others = [each for p in size.pieces if p is not back
              for each in left_waiting(p.trace) * (2 if p.piece.key == "sleeve" else 1)]
    assert taken([*apart, *others], strip.program)[1] is None
    one = ("back neck", sum(count for _, count in apart))
    refusal = taken([one, *others], strip.program)[1]
    assert refusal and refusal.code == "strip-waits"


def test_a_back_neck_that_two_parts_take_waits_on_two_strips(sizes: list[SizeProof]) -> None:
    cut = 0
    for size in sizes:
        halves = [name for strip in size.strips for _, name, _ in strip.program.strips
                  if name.endswith("half")]
        cut += len(halves)
        left = [name for p in size.pieces for name, _ in left_waiting(p.trace)
                if name.endswith("half")]
        assert sorted(halves) == sorted(left)
    assert cut


@pytest.mark.parametrize("counts", [(41, 40), (39, 40), (43, 41), (20, 21)])
def test_an_edge_of_the_designer_own_is_hung_whole(counts: tuple[int, int]) -> None:
    """Where a rib needs fewer stitches than wait, two go on one needle; none is left to run."""
    source = bands.pattern(rows=80, front=Side.RIGHT, holes=0)
    parts = tuple(EdgeSection(title=title, stitches={"one": count}, offer=Offer.WAITING)
                  for title, count in zip(("one half", "other half"), counts, strict=True))
    edge = replace(source.edges["front"], rows=None, length=None, sections=parts,
                   shape=EdgeShape.OPEN, ends=("one end", "other end"))
    works = RIBS["2x2"]
    band = replace(source.bands["front"], kind="ribbed", rib=works,
                   rounding=fitting(works, seamed=False))
    sizes = tuple(source.sizes)
    parts = tuple(replace(p, stitches=dict.fromkeys(sizes, c))
                  for p, c in zip(parts, counts, strict=True))
    edge = replace(edge, sections=parts)
    proof, problems = prove(replace(source, edges={"front": edge}, bands={"front": band}))
    assert proof is not None, [str(p) for p in problems]


@pytest.mark.parametrize("seams", [(False, False), (True, False), (False, True), (True, True)])
@pytest.mark.parametrize("hem", list(Side))
@pytest.mark.parametrize("waiting", range(1, 15))
def test_every_waiting_stitch_has_a_place_whatever_a_facing_counts(
        waiting: int, hem: Side, seams: tuple[bool, bool]) -> None:
    """A needle takes two stitches at most, so that a seam's and a missed one lie on two needles."""
    section = replace(edging.waiting("back neck", waiting, GAUGE), seams=seams)
    for wide in range(2, 4 * waiting + 1):
        band = Gauge(GAUGE.stitch * wide / 4, GAUGE.row, "")
        (met,) = meet(EdgePath(key="neck", what="neck", sections=(section,)),
                      PickUpRate(body=GAUGE, gauge=band, rule=None, one_for_one=False))
        if met.stitches.value > waiting:
            continue  # then needles between them get a loop from beside
        needles = centred(met.stitches.value)
        two = [*seam_needles(met, needles, hem), *beside_missed(met, needles, hem)]
        if len(needles) > 1:
            assert len(set(two)) == len(two), (wide, two)
            assert len(needles) + len(two) == waiting + sum(seams), wide


@pytest.mark.parametrize("seed", range(8))
def test_a_raglan_with_a_facing_is_knitted_at_any_gauge(seed: int) -> None:
    """Sizes 2 and 8 of a child's cardigan, each fabric 0.7 to 1.4 times as wide as its swatch: a
    finding that says why, or a program that the bed knits."""
    drawn = Random(seed)
    pattern = next(p.pattern for p in collection().proofs if p.pattern.slug == "ropewalk-cardigan")
    fabrics = {}
    for key, fabric in pattern.fabrics.items():
        wide, high = (Fraction(drawn.randint(70, 140), 100) for _ in range(2))
        fabrics[key] = replace(fabric, swatches=tuple(
            replace(s, width=s.width.times(wide), height=s.height.times(high))
            for s in fabric.swatches))
    _, found = prove(replace(pattern, fabrics=fabrics,
                             sizes=("2", "8")))
    assert not [str(p) for p in found if p.code == "bed-refuses"]


@pytest.mark.parametrize("kind", ["single", "folded", "enclosing", "facing"])
@pytest.mark.parametrize("edge", ["neck", "front_edge", "front_and_neck"])
def test_the_stitches_round_a_neck_are_asked_for_by_one_band(kind: str, edge: str) -> None:
    """The bed found the strip of the back neck gone, where the source has two bands for it."""
    pattern = next(proof.pattern for proof in collection().proofs
                   if proof.pattern.slug == "slack-tide-cardigan")
    neck = replace(pattern.bands["neck"], kind=kind, edge=edge)
    around = replace(neck, key="around", edge="front_and_neck")
    _, found = prove(replace(pattern, sizes=("M",), bands={"neck": neck, "around": around}))
    assert {p.code for p in found if p.severity is Severity.ERROR} == {"edge-shared"}


@pytest.mark.parametrize("edge", ["neck", "front_edge"])
def test_either_way_out_that_is_named_leaves_one_band_to_an_edge(edge: str) -> None:
    pattern = next(proof.pattern for proof in collection().proofs
                   if proof.pattern.slug == "slack-tide-cardigan")
    bands = {"one": replace(pattern.bands["neck"], key="one", edge=edge),
             "around": replace(pattern.bands["neck"], key="around", edge="front_and_neck")}

    def shared(bands: dict[str, Band]) -> list[Problem]:
        _, found = prove(replace(pattern, sizes=("M",), bands=bands))
        return [problem for problem in found if problem.code == "edge-shared"]

    (problem,) = shared(bands)
    named = re.fullmatch(r'Delete band "(.+)", or write edge: (\w+) for band "(.+)"\.',
                         problem.remedy)
    assert named is not None, problem.remedy
    assert not shared({key: band for key, band in bands.items() if key != named[1]})
    assert not shared({**bands, named[3]: replace(bands[named[3]], edge=named[2])})


def test_what_is_left_waiting_is_what_waits_after_the_last_step(sizes: list[SizeProof]) -> None:
    """A program that is cut short behind the step at which a strip begins to wait."""
    piece = next(one for size in sizes for one in size.pieces if left_waiting(one.trace))
    states = piece.trace.states
    first = next(n for n, state in enumerate(states) if state.waiting)
    assert left_waiting(replace(piece.trace, states=states[:first + 1])) == states[first].waiting
    assert left_waiting(replace(piece.trace, states=states[:first])) == ()

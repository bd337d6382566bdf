"""Every way on and off, on random widths, is knitted to its end, and a spoiled one is refused."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.catalogue.bands import KINDS
from walebook.catalogue.methods import (
    BIND_OFF_STEPS,
    BIND_OFFS,
    CAST_ON_STEPS,
    CAST_ONS,
    CHAIN_OFF,
    SEWN,
    SHOULDERS,
    STITCH_OVER,
    TOPS,
    WASTE_ON,
    Method,
)
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import BindOff, TakeOff
from walebook.machine.needles import NONE
from walebook.machine.programs import Program
from walebook.machine.step_keys import CastOnMethod, StepYarn
from walebook.machine.steps import CastOn, Resume, Slip
from walebook.pages.making_up import making_up
from walebook.pattern.model import Fold, Neck, Pattern
from walebook.pattern.stitch_chart import StitchChart
from walebook.plan.band import BandPlan
from walebook.proof.proof import SizeProof, prove
from walebook.proof.yarn_extras import sewing
from walebook.shape.piece import Ending, Piece
from walebook.shape.profile import Profile

from tests.against import wardrobe
from tests.laws import pieces
from tests.laws.bands import pattern as banded
from tests.laws.test_spoiled_programs import SURVIVORS, spoiled
from tests.scale import examples
from tests.site.garments import made_up
from tests.small_patterns import cells_of

BAND_WAYS = [(kind.name, method) for kind in KINDS.values() for method in kind.bind_offs]
ON_PIECES = st.sampled_from(tuple(CAST_ONS.values()))
# Spoiled ways that live, beside those argued for bands in test_spoiled_programs.
ARGUED = {
    ("dropped", "SetDial"): "the loose row is knitted at a dial that only the knitter's eye judges",
    ("dropped", "SetCounter"): "a counter that stands at 0 is set to 0",
    ("dropped", "Bring"): "needles emptied by the last step, pushed back out of work",
    ("moved", "Bring"): "the same, or needles beside the work that stay empty",
    ("keep_last flipped", "BindOff"): "no stitch is left after it to tell by",
}


def straight(width: int, rows: int, on: Method, off: Method, *, mirrored: bool = False) -> Piece:
    """A straight piece between two ways; one to be sewn off waits."""
    ends = Ending.WASTE if off.waits else Ending.BIND_OFF
    return Piece(
        key="p",
        title="Piece",
        left=Profile(rows),
        right=Profile(rows),
        ends=ends,
        stitches=stated(width, Unit.STITCHES),
        mirrored=mirrored,
        waits=("piece, top",) if off.waits else (),
        cast_on_method=on.name,
        bind_off_method=off.name,
    )


GUIDES = Path(__file__).parents[2] / "site_src" / "techniques"
SLIPPED = StitchChart(title="Slips", rows=(cells_of("v|||"), cells_of("||||")), edge=1)


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("on", CAST_ONS.values(), ids=lambda on: on.name)
def test_a_first_row_slips_where_the_way_on_leaves_its_needles(on: Method, mirrored: bool) -> None:
    """A carriage set to slip knits what stands forward of working position (site:
    techniques/stitch-chart). Where a way's own page leaves the needles fully forward, all are put
    back before the row, and those that it slips are held; else none is moved."""
    guide = " ".join((GUIDES / on.page.partition(".")[0]).with_suffix(".md").read_text().split())
    forward = "named in the step fully forward, latches open" in guide
    assert forward != ("to working position" in guide.partition("{ #steps }")[2])
    piece = replace(straight(18, 9, on, STITCH_OVER, mirrored=mirrored), chart=SLIPPED)
    program, result = pieces.knit(piece)
    assert result.refusal is None, str(result.refusal)
    first, *rest = program.of(Slip)
    assert [back.needles for back in program.of(Resume)] == [piece.needles] * forward
    assert first.needles and first.by_holding == (first.needles if forward else NONE)
    assert rest and not any(slip.by_holding for slip in rest)


@given(width=st.integers(2, 180), rows=st.integers(2, 60), on=ON_PIECES,
       off=st.sampled_from(TOPS), mirrored=st.booleans())
@settings(max_examples=examples(75), deadline=None)
def test_every_way_is_knitted_and_leaves_what_it_says(
        width: int, rows: int, on: Method, off: Method, mirrored: bool) -> None:
    piece = straight(width, rows, on, off, mirrored=mirrored)
    program, result = pieces.knit(piece)
    assert result.refusal is None, str(result.refusal)
    left = {"piece, top": width} if off.waits else {}
    if on is WASTE_ON:
        left[piece.lower_edge] = width
    assert pieces.waiting(result) == left
    assert not result.states[-1].loaded
    other, _ = pieces.knit(replace(piece, mirrored=not mirrored))
    assert pieces.mirrored(program) == tuple(section.steps for section in other.sections)


@given(width=st.integers(2, 180), rows=st.integers(2, 60), on=ON_PIECES, off=st.sampled_from(TOPS))
@settings(max_examples=examples(60), deadline=None)
def test_a_way_adds_no_row_but_the_chain_one(
    width: int, rows: int, on: Method, off: Method
) -> None:
    """The loose row of a chain is its own; everything else leaves the rows as planned."""
    _, result = pieces.knit(straight(width, rows, on, off))
    assert dict(result.rows)[StepYarn.MAIN] == rows + (off is CHAIN_OFF)


@given(width=st.integers(2, 120), off=st.sampled_from(TOPS))
@settings(max_examples=examples(40), deadline=None)
def test_binding_off_begins_where_the_yarn_hangs_and_a_chain_ends_there(width: int, off: Method
                                                                       ) -> None:
    program, result = pieces.knit(straight(width, 10, CAST_ONS["by hand"], off))
    last = [step for step in program.steps if isinstance(step, BindOff | TakeOff)]
    assert len(last) == 1
    if isinstance(last[0], BindOff):
        at = result.states[-1].side
        assert last[0].toward is (at if off is CHAIN_OFF else at.other)
    else:
        assert off is SEWN


@pytest.mark.parametrize("on", CAST_ONS.values(), ids=lambda method: method.name)
@pytest.mark.parametrize("off", TOPS, ids=lambda method: method.name)
def test_spoiled_ways_are_refused_or_argued_by_name(on: Method, off: Method) -> None:
    program, _ = pieces.knit(straight(9, 4, on, off))
    lived = {(what, type(step).__name__) for what, step, wrong in spoiled(program)
             if run(wrong).refusal is None}
    assert lived <= set(SURVIVORS) | set(ARGUED)
    if off is not CHAIN_OFF:
        assert ("toward flipped", "BindOff") not in lived  # begun where the yarn hangs


# Bands


def asked(kind: str, method: Method, rows: int, fold: Fold) -> Pattern:
    """A pattern with one band that ends by a way."""
    source = banded(rows=rows, fold=fold, holes=0)
    band = replace(source.bands["front"], kind=kind, bind_off=method.name)
    return replace(source, bands={"front": band})


def last_row(plan: BandPlan) -> int:
    """The stitches of a band's last row: along its edge, or across a lengthwise band.

    A lengthwise one has its depth in each layer and one stitch more for the seam."""
    if "lengthwise" not in plan.band.kind:
        return plan.stitches.value
    return (plan.depth.value + 1) * (2 if plan.band.kind.startswith("folded") else 1)


@pytest.mark.parametrize(("kind", "method"), BAND_WAYS, ids=lambda v: getattr(v, "name", v))
@given(rows=st.integers(20, 220), fold=st.sampled_from(Fold))
@settings(max_examples=examples(12), deadline=None)
def test_a_band_ends_by_every_way_it_can_have(
    kind: str, method: Method, rows: int, fold: Fold
) -> None:
    proof, problems = prove(asked(kind, method, rows, fold))
    assert proof is not None, [str(p) for p in problems]
    for strip in proof.sizes[0].strips:
        waits = {"the band's last row": last_row(strip.plan)} if method.waits else {}
        assert pieces.waiting(strip.trace) == waits
        last = [s for s in strip.program.steps if isinstance(s, BindOff)]
        assert [s.method for s in last] == ([] if method.waits else [BIND_OFF_STEPS[method]])


# Whole garments: what waits is counted, and both sides of a graft are equal


def joined(form: str, method: Method) -> tuple[SizeProof, ...]:
    made = wardrobe.pattern(form)
    assert made.garment is not None
    spec = replace(made.garment, bind_off={"shoulders": method.name})
    return wardrobe.proved(replace(made, garment=spec)).sizes


@pytest.mark.parametrize("form", [name for name in FORMS if name.startswith(("drop", "set-in"))])
@pytest.mark.parametrize("method", SHOULDERS, ids=lambda method: method.name)
def test_both_sides_of_a_shoulder_have_the_stitches_that_wait(form: str, method: Method) -> None:
    for size in joined(form, method):
        assert size.assembled is not None
        joins = [j for j in size.assembled.garment.joins if j.method == method.name]
        halves = {loops for piece in size.pieces
                  for name, loops in pieces.waiting(piece.trace).items() if "shoulder" in name}
        assert joins and halves == {join.one for join in joins} == {j.other for j in joins}


def test_what_is_left_on_waste_yarn_is_counted_in_the_making_up() -> None:
    made = wardrobe.pattern("drop-shoulder pullover", fold=None)
    assert made.garment is not None
    spec = replace(made.garment, cast_on={"": "waste yarn"}, bind_off={"sleeve": "back-stitched"})
    for size in wardrobe.proved(replace(made, garment=spec)).sizes:
        assert size.assembled is not None
        told = " ".join(made_up(size.assembled.garment))
        for piece in size.pieces:
            for name, loops in pieces.waiting(piece.trace).items():
                if name.endswith(("lower edge", "top")):
                    assert f"{loops} stitches" in told


def test_the_end_that_sews_a_lower_edge_is_in_the_yarn() -> None:
    """Three times the edge's width on the bed, up to 5 cm, and a hand's length of 15 cm."""
    made = wardrobe.pattern("drop-shoulder pullover", fold=None)
    assert made.garment is not None
    sewn = replace(made, garment=replace(made.garment, cast_on={"": "waste yarn"}))
    for plain, size in zip(wardrobe.proved(made).sizes, wardrobe.proved(sewn).sizes, strict=True):
        assert size.assembled is not None
        (before,) = sewing(made.garment, made.materials, made.bed, plain)
        (after,) = sewing(sewn.garment, sewn.materials, sewn.bed, size)
        times = size.assembled.garment.times
        cut = sum((-(-p.piece.stitches.value * 3 * made.bed.pitch.mm // 50) * 50 + 150)
                  * times.get(p.piece.key, 1) for p in size.pieces)
        assert before.amount.metres is not None and after.amount.metres is not None
        assert after.amount.metres - before.amount.metres == Fraction(cut, 1000)


@pytest.mark.parametrize("neck", [Neck.ROUND, Neck.V], ids=lambda neck: neck.value)
def test_both_halves_of_a_front_wait_where_its_top_is_sewn_off(neck: Neck) -> None:
    made = wardrobe.pattern("raglan pullover", neck=neck)
    assert made.garment is not None
    spec = replace(made.garment, bind_off={"front": "back-stitched"})
    for size in wardrobe.proved(replace(made, garment=spec)).sizes:
        assert size.assembled is not None
        front = next(p for p in size.pieces if p.piece.key == "front")
        halves = [loops for name, loops in pieces.waiting(front.trace).items() if "top" in name]
        assert len(halves) == 2 and halves[0] == halves[1]
        said = next(s for s in made_up(size.assembled.garment) if "Back-stitch" in s)
        assert f"{halves[0]} stitch" in said and "either side" in said


@pytest.mark.parametrize(
    "method", [*CAST_ONS.values(), *BIND_OFFS.values()], ids=lambda method: method.name
)
def test_a_way_says_what_it_takes(method: Method) -> None:
    assert method.phrase and method.look and method.page.partition("#")[0].endswith(".html")
    assert method.yarn >= 0


def casts_on(program: Program) -> CastOnMethod:
    return next(step.method for step in program.steps if isinstance(step, CastOn))


@pytest.mark.parametrize("method", CAST_ONS.values(), ids=lambda method: method.name)
def test_the_first_step_is_the_way_that_was_asked_for(method: Method) -> None:
    program, _ = pieces.knit(straight(20, 10, method, TOPS[0]))
    assert casts_on(program) is CAST_ON_STEPS[method]


@pytest.mark.parametrize("form", [name for name in FORMS if name.startswith(("drop", "set-in"))])
def test_a_joining_off_waste_yarn_names_its_way_and_the_end_it_takes(form: str) -> None:
    """Four times the width of the shoulder, as any chain of that width, by the needles it hangs on,
    and a hand's length of 15 cm to work with: common practice, no source. "Exercise 3: Joining
    Shoulder Seams" (oocities.org/subby_ribble/Shoulder.htm) asks for three at least."""
    made = wardrobe.pattern(form, sizes=("M",))
    assembled = wardrobe.proved(made).sizes[0].assembled
    assert assembled is not None
    garment = assembled.garment
    for said in made_up(garment):
        if said.startswith("Join") and "waste yarn" in said:
            shoulders = [j for j in garment.joins if j.title.startswith("shoulder")]
            least = 4 * max(int(j.one) for j in shoulders) * made.bed.pitch.mm / 10 + 15
            end = re.search(r"pieces' yarn about (\d+) cm.*Bind them off as one", said)
            assert end and least <= int(end[1]) < least + 5, (form, said)
            assert any("joining-shoulders" in told for told in making_up(garment).values())

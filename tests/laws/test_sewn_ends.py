"""Every length that a step cuts to sew with is said in centimetres and is in the yarn of the size.

Three times what is sewn: "Sewn hem", victoriamarchantknits.com ("a tail three times the length of
the seam"), and for a sewn row Diana Sullivan, "Mobius scarf: waste knitting", 2015 (W3-030). A
hand's length, 15 cm, at each end is common practice, no source.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from walebook.core.yarn_parts import Beside
from walebook.machine.edge_steps import BindOff, TakeOff
from walebook.machine.programs import Program
from walebook.machine.reasons import Reason
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Attend, Step
from walebook.pages.program import steps_html
from walebook.pattern.model import Pattern
from walebook.proof.proof import SizeProof, Work
from walebook.proof.yarn_ends import ends_of_band, ends_of_piece
from walebook.proof.yarn_requirement import yarn_requirements

from tests.laws.random_sources import BandSpec, written
from tests.laws.test_any_source import judged
from tests.laws.test_yarn_sums import CASES, source, worn

CM = re.compile(r"about (\d+) cm")


def banded(kind: str, **more: str) -> BandSpec:
    return source(garment=worn("set-in cardigan"), bands={
        "front": {"edge": "front_edge", "kind": kind, "fabric": "band", "depth": "4 cm", **more}})


PLACKET = source(garment=worn("set-in pullover", placket="16 cm"), bands={
    "placket": {"edge": "placket", "fabric": "band", "depth": "3 cm"},
    "neck": {"edge": "neck", "fabric": "band", "depth": "3 cm"}})
HAND = 150  # [mm]
PI = Fraction(355, 113)  # less than a millionth too much
ROUND_TOPICS = ("sew slits", "join slits", "overcast holes", "sew round holes", "make loops")


def told_by(pattern: Pattern, work: Work) -> list[str]:
    """The steps of a piece or band in words."""
    return [re.sub(r"<[^>]*>", "", step) for step in steps_html(work, pattern, "x").split("<li ")]


def made(text: BandSpec) -> tuple[Pattern, SizeProof]:
    proof, found = judged(written(text))
    assert proof is not None, [str(p) for p in found]
    return proof.pattern, proof.sizes[0]


def cm_said(told: list[str], what: str) -> list[int]:
    """The centimetres of every step that says `what`."""
    return [int(found[1]) for step in told if what in step and (found := CM.search(step))]


def up_to_five(mm: Fraction) -> int:
    """Centimetres, up to the next five."""
    return int(-(-mm // 50) * 5)


def left_out(program: Program, steps: list[Step]) -> Program:
    """The program without these steps."""
    return replace(program, sections=tuple(
        replace(section, steps=tuple(s for s in section.steps if s not in steps))
        for section in program.sections))


@pytest.mark.parametrize("lining", ["", "lining"])
def test_the_end_that_sews_a_facing_down_is_said_and_used(lining: str) -> None:
    pattern, size = made(banded("facing", **({"facing_fabric": lining} if lining else {})))
    for strip in size.strips:
        told = told_by(pattern, strip)
        waits = next(s for s in strip.program.steps if isinstance(s, TakeOff)
                     and "sewn down" in s.edge).needles
        width = len(waits) * pattern.bed.pitch.mm
        assert cm_said(told, "facing is sewn down with this end") == [up_to_five(3 * width + HAND)]
        assert sum("With the end that was left" in step for step in told) == 1
        sewn = ends_of_band(strip)[StepYarn.FACING if lining else StepYarn.MAIN]
        assert sewn.length(pattern.bed.pitch).mm >= 3 * width + HAND


@pytest.mark.parametrize("kind", ["enclosing", "folded"])
def test_what_shuts_the_short_ends_is_said_and_counted(kind: str) -> None:
    pattern, size = made(banded(kind))
    rows = Fraction(140, 40)  # of the band's swatch [mm]
    for strip in size.strips:
        deep = strip.plan.depth.value * rows
        told = cm_said(told_by(pattern, strip), "two short ends shut")
        assert told == [up_to_five(3 * deep + 2 * HAND)]
        without = replace(strip, program=left_out(strip.program, [
            s for s in strip.program.steps if isinstance(s, Attend) and s.to == "sew ends"]))
        pitch = pattern.bed.pitch
        more = ends_of_band(strip)[StepYarn.MAIN].length(pitch).mm - \
            ends_of_band(without)[StepYarn.MAIN].length(pitch).mm
        assert more == 2 * (3 * deep + 2 * HAND)


def test_a_join_of_two_parts_is_sewn_layer_by_layer() -> None:
    pattern, size = made(CASES["a band in parts"])
    rows = Fraction(140, 40)
    joins = [cm for strip in size.strips for cm in cm_said(told_by(pattern, strip), "Join this")]
    deep = size.strips[0].plan.depth.value * rows
    assert joins == [up_to_five(2 * 3 * deep + 2 * HAND)]


def test_the_spare_end_at_the_foot_of_a_placket_is_in_the_yarn_with_both_its_tails() -> None:
    pattern, size = made(PLACKET)
    front = next(p for p in size.pieces if p.piece.key == "front")
    foot = next(s for s in front.program.steps if isinstance(s, BindOff)
                and s.reason is Reason.FOOT_OF_PLACKET)
    length = 3 * len(foot.needles) * pattern.bed.pitch.mm + 2 * HAND
    told = cm_said(told_by(pattern, front), "the foot of the placket")
    assert told == [up_to_five(length)]
    without = replace(front, program=left_out(front.program, [foot]))
    pitch = pattern.bed.pitch
    more = ends_of_piece(front)[StepYarn.MAIN].length(pitch).mm - \
        ends_of_piece(without)[StepYarn.MAIN].length(pitch).mm
    assert more == length


# Three times a slit's length, sewn; six times the edge round a hole of two rows, of which an eyelet
# is one stitch wide; ten times a loop, chained and worked over: common practice, no source.
ROUND = [("slit", "single", "Sew the foot and the head of every slit", 1),
         ("slit", "folded", "Sew the two layers together round every slit", 3),
         ("eyelet", "single", "Overcast every eyelet", 3),
         ("eyelet", "folded", "Overcast every eyelet", 3),
         ("one stitch", "single", "Sew round every buttonhole", 3),
         ("two stitches", "single", "Sew round every buttonhole", 3),
         ("loops", "single", "loops.", 3)]


@pytest.mark.parametrize(("closing", "kind", "what", "ends"), ROUND)
def test_what_is_sewn_round_a_closing_is_said_and_counted(closing: str, kind: str, what: str,
                                                          ends: int) -> None:
    pattern, size = made(banded(kind, buttonholes={"button": "15 mm", "number": 3,
                                                   "closing": closing}))
    strip = next(s for s in size.strips if any(
        isinstance(step, Attend) and step.to in ROUND_TOPICS for step in s.program.steps))
    rows = strip.plan.slit.value if strip.plan.slit else 0
    stitch, row = strip.plan.gauge.stitch, strip.plan.gauge.row
    along = {"slit": 3 * rows * row, "eyelet": 6 * 2 * (stitch + 2 * row),
             "one stitch": 6 * 2 * (stitch + 2 * row),
             "two stitches": 6 * 2 * (2 * stitch + 2 * row), "loops": 10 * 15 * PI / 2}[closing]
    assert cm_said(told_by(pattern, strip), what) == [up_to_five(along + 2 * HAND)]
    without = replace(strip, program=left_out(strip.program, [
        s for s in strip.program.steps if isinstance(s, Attend) and s.to in ROUND_TOPICS]))
    pitch = pattern.bed.pitch
    more = ends_of_band(strip)[StepYarn.MAIN].length(pitch).mm - \
        ends_of_band(without)[StepYarn.MAIN].length(pitch).mm
    if closing == "slit" and kind == "folded":
        ends += 2  # the slit beside the part knitted first, of either layer
    assert more == ends * (along + 2 * HAND)


@pytest.mark.parametrize("form", ["saddle raglan pullover", "saddle raglan cardigan"])
def test_both_edges_of_both_straps_are_in_the_seams(form: str) -> None:
    """Stitches that meet stitches are met on both sides of a pullover too."""
    pattern, size = made(source(garment=worn(form)))
    assert size.assembled is not None
    garment = size.assembled.garment
    (end,) = {task.end for task in garment.tasks if task.end}
    strap = next(join.bars for join in garment.joins if join.bars)
    assert end is not None and strap is not None
    gauge = next(join for join in garment.joins if join.bars)
    assert end.mm >= 3 * gauge.other + 2 * HAND
    seams = next(e.amount.metres for need in yarn_requirements(pattern, size) for e in need.extras
                 if e.part.what is Beside.SEAMS)
    sides = sum(p.piece.rows * garment.times.get(p.piece.key, 1) for p in size.pieces)
    width = gauge.one / strap.stitches
    shoulders = sum(int(join.one) * (1 if join.side else 2) for join in garment.joins
                    if "wait for the strap" in join.title or "underarm" in join.title)
    assert seams is not None
    assert seams * 1000 == 3 * sides * gauge.other / strap.rows + 3 * shoulders * width + 8 * HAND


def test_pocket_linings_and_tops_are_in_the_seams() -> None:
    """A lining up both sides and along its foot; a top's two ends, as those of every band."""
    pattern, size = made(CASES["pockets with their linings"])
    row, stitch = Fraction(140, 40), Fraction(150, 30)
    seams, before = (next(e.amount.metres for need in yarn_requirements(*each) for e in need.extras
                          if e.part.what is Beside.SEAMS) for each in (
        (pattern, size), made(source(garment=worn("set-in cardigan")))))
    lining = next(p.piece for p in size.pieces if p.piece.key == "pocket_lining")
    sewn = 2 * (2 * lining.rows * row + lining.stitches.value * stitch)
    sewn += sum(2 * s.plan.depth.value * row for s in size.strips) \
        * Fraction(size.strips[0].plan.edge_path.times)
    assert seams is not None and before is not None
    assert seams - before == 3 * sewn / 1000

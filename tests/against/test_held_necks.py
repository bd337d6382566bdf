"""Held necks against published ones, from the text of a pattern source to the steps on the bed.

A machine-knitter's neck that is bound off becomes a held one by its key alone: the stitches and the
steps are the same.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from published_more import against
from sourced import counts, garment, proved, swatch
from walebook.fabric.gauge import Gauge
from walebook.machine.edge_steps import TakeOff
from walebook.machine.needles import NONE, Needles
from walebook.machine.programs import Program
from walebook.machine.steps import Hold, Knit, Resume, Side, Step
from walebook.machine.trace import State
from walebook.pattern.edges import Offer
from walebook.proof.proof import KnittedPiece
from walebook.shape.edging import Section
from walebook.shape.outline import outline

PLAIN = swatch(20, 25)  # a stitch is 5 mm wide and a row 4 mm high
ROW = 4  # [mm]


def slipover(neck: int, rows: int, neckline: str, shown: str = PLAIN, **wide: str) -> str:
    """A slipover with a held front neck of so many stitches and rows, the row over it included."""
    measures = {"neck_width": f"{5 * neck} mm", "front_neck": f"{ROW * (rows - 1)} mm",
                "shoulder_drop": "0 cm", **wide}
    return garment("set-in slipover", shown, measures,
                   neckline=f"{{front_sides: held, {neckline}}}")


def front(text: str) -> KnittedPiece:
    return next(each for each in proved(text).sizes[0].pieces if each.piece.key == "front")


def steps_of(program: Program) -> list[Step]:
    return [step for section in program.sections for step in section.steps]


def after_opening(knitted: KnittedPiece) -> list[tuple[Step, State]]:
    """The steps from where the front divides, each with the bed after it."""
    every = list(zip(steps_of(knitted.program), knitted.trace.states, strict=True))
    first = next(n for n, (step, _) in enumerate(every) if isinstance(step, Hold))
    return every[first:]


def holds(knitted: KnittedPiece, side: Side) -> list[tuple[int, Side, Needles]]:
    """What goes into hold at a side of a half's stitches: the row, the carriage's side, needles."""
    found = []
    for (_, before), (step, after) in pairwise(after_opening(knitted)):
        if isinstance(step, Hold):
            work = before.loaded - before.holding
            at = Side.RIGHT if step.needles.last == work.last else Side.LEFT
            found += [(after.counter, after.side, step.needles)] if at is side else []
    return found


def sections(text: str) -> list[Section]:
    assembled = proved(text).sizes[0].assembled
    assert assembled is not None
    return list(assembled.garment.edges["neck"].sections)


@against("S07")
def test_all_but_one_then_that_one_and_a_single_needle_at_the_neck(case):
    assert case["outputs"]["method"].startswith("hold n - 1 with the carriage at the far side")
    made = holds(front(slipover(40, 40, "front_steps: [4, 3, 1, 1]")), Side.LEFT)
    right = made[1:]  # after the needle beside the centre
    assert [len(needles) for _, _, needles in right] == [3, 1, 2, 1, 1, 1]
    for _, carriage, needles in right:
        assert carriage is Side.LEFT if len(needles) == 1 else carriage is Side.RIGHT
    rows = [row for row, _, _ in right]
    assert [b - a for a, b in pairwise(rows)] == [1, 1, 1, 2, 2]


@against("W3-039")
def test_the_order_of_a_held_neck(case):
    """The near half, its shoulder off while the neck stays held, then the other half mirrored."""
    order = case["outputs"]["order"]
    assert order[0] == "hold left half" and order[-1] == "mirror"
    knitted = front(slipover(60, 60, f"front_centre: 0, front_steps: {[1, 2] * 10}"))
    seen = after_opening(knitted)
    (first, bed), *_ = seen
    assert isinstance(first, Hold) and bed.side is Side.RIGHT  # "carriage: right"
    assert case["inputs"]["carriage"] == "right"
    assert {needle.name[0] for needle in first.needles} == {"L"} == {
        case["inputs"]["held_first"].split()[1][0].upper()}  # all left of 0
    off = [(step, after) for step, after in seen if isinstance(step, TakeOff)]
    assert [step.edge for step, _ in off] == ["front, right shoulder", "front, left shoulder",
                                              "front, neck"]
    (_, one), (_, other), _ = off
    assert one.loaded == one.holding and other.loaded == other.holding  # the neck stays held
    assert len(other.loaded) == 60


@against("W3-041")
def test_groups_are_held_opposite_and_a_row_over_all_closes_the_neck(case):
    order = case["outputs"]["order"]
    assert order[-2:] == ["at the end all back to upper working", "1 row over all"]
    knitted = front(slipover(40, 40, "front_steps: [4, 3, 2]"))
    for side in Side:
        for _, carriage, needles in holds(knitted, side):
            assert len(needles) == 1 or carriage is side.other
    seen = after_opening(knitted)
    last = max(n for n, (step, _) in enumerate(seen) if isinstance(step, Resume))
    rows = [step for step, _ in seen[last:] if isinstance(step, Knit)]
    assert seen[last][1].holding == NONE and len(seen[last][1].loaded) == 40
    assert [step.rows for step in rows] == [1]


@against("W3-059")
@pytest.mark.parametrize("plan", ["a", "b"])
def test_a_v_of_held_needles(case, plan):
    """Its steps begin 2 rows above the point, and its rows are those of the steps alone."""
    said, wanted = case["inputs"], case["outputs"]
    half, rows = said["half_neck_sts"], wanted[f"rows_{plan}"]
    steps = [1] * half if plan == "a" else [1, 2] * 10
    shown = swatch(said["sts_per_10cm"], said["rows_per_10cm"])
    deep = f"{wanted[f'depth_{plan}_cm']} cm + {4 * 10} / {said['rows_per_10cm']} * 1 cm"
    text = garment("set-in slipover", shown, {
        "neck_width": f"{20 * half} / {said['sts_per_10cm']} * 1 cm", "front_neck": deep,
        "shoulder_drop": "0 cm"},
        neckline=f"{{front_centre: 0, front_steps: {steps}, front_sides: held}}")
    made = holds(front(text), Side.LEFT)[1:]
    assert sum(len(needles) for _, _, needles in made) == half
    assert 2 * len(steps) == rows
    assert made[-1][0] - made[0][0] in (rows - 2, rows - 1)  # the first of 1, or of more, needles
    neck = next(s for s in sections(text) if s.waits == "front, neck")
    assert [str(neck.places // 2)] * 2 == wanted["held_at_end"].split("-0-")


@against("W4-001")
def test_a_neck_that_was_bound_off_is_held_instead(case):
    """A needle goes into hold every row there, every 2nd row here, where the carriage wraps it."""
    said, wanted = case["inputs"], case["outputs"]
    times, even = said["hold_1_times"], said["rows_even"]
    neck = wanted["neck_sts"]
    assert neck == said["centre"] + 2 * times
    rows = 2 * (times + 1) + even  # the centre takes two rows as well, one of them over the neck
    text = slipover(neck, rows, f"front_centre: {said['centre']}, front_steps: {[1] * times}")
    assert counts(text)["front"]["neck_rows"] == rows
    made = sections(text)
    waiting = [s for s in made if s.offer is Offer.WAITING and s.waits == "front, neck"]
    assert [s.places for s in waiting] == [neck]
    assert {s.places for s in made if s.title == "front neck, side"} == {even}


def test_bound_off_or_held_the_neck_has_the_same_stitches_and_steps():
    """What the 2011 lesson (W4-001) says of any pattern; the front is no deeper for it."""
    text = slipover(40, 40, "front_steps: [4, 3, 2, 1, 1]")
    off = text.replace("front_sides: held, ", "")
    held, bound = front(text).piece.opening, front(off).piece.opening
    assert held is not None and bound is not None
    assert held.steps == tuple(c.stitches for c in bound.inner.changes)
    assert held.centre == bound.centre
    assert abs(held.row + held.rise - bound.row) <= 1


def test_a_held_neck_is_as_deep_as_asked_with_the_row_over_it():
    """38.6 rows are asked for: the edge of a held neck lies an odd number of rows below the top, a
    row above where the halves part, so that 39 is nearest (arithmetic, no source)."""
    text = slipover(40, 40, "front_steps: [4, 3, 2, 1, 1]", front_neck=f"{ROW * 386} mm / 10")
    knitted = front(text)
    assert counts(text)["front"]["neck_rows"] == 40
    shown = outline(knitted.piece, Gauge(Fraction(5), Fraction(ROW)))
    deep = next(d.length.mm for d in shown.dimensions if "neck depth" in str(d.name).lower())
    assert deep == 39 * ROW

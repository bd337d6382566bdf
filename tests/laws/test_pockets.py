"""Pockets in any front, at any row and width: both edges wait, nothing else changes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given, reject, settings
from hypothesis import strategies as st
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import Hang, lower, upper
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import HandKnit
from walebook.pattern.model import Fold, Neck
from walebook.shape.garment import CannotShape
from walebook.shape.piece import Piece
from walebook.shape.pocket_slots import PocketSlot
from walebook.shape.profile import Profile
from walebook.sizing.quantities import Quantity

from tests.laws import pieces
from tests.scale import examples

FRONTED = ("drop-shoulder pullover", "drop-shoulder cardigan", "set-in cardigan",
           "set-in slipover", "raglan cardigan", "raglan pullover")
WOMEN = pieces.chart("women")


def known(size: str) -> dict[str, Quantity]:
    """A body of the women's chart."""
    return dict(WOMEN.measurements(size))


@st.composite
def fronts(draw: st.DrawFn) -> Piece:
    """A front of a garment with one pocket or two somewhere in it."""
    form = draw(st.sampled_from(FRONTED))
    around = draw(st.integers(12, 34))
    cut = pieces.cut(form, known(draw(st.sampled_from(WOMEN.sizes))),
                     pieces.gauge(around, around * Fraction(draw(st.integers(110, 170)), 100)),
                     hem=draw(st.none() | st.builds(pieces.hem, st.integers(10, 60),
                                                    st.sampled_from((Fold.LOOSE, Fold.PICOT)))),
                     neck=draw(st.sampled_from((Neck.ROUND, Neck.V))),
                     moved=draw(st.integers(1, 5)))
    try:
        garment = FORMS[form].shape(cut)
    except CannotShape:
        reject()  # refused with its figures, as other laws hold
    front = draw(st.sampled_from([p for p in garment.pieces if "front" in p.key]))
    row = draw(st.integers(1, front.left.rows - 1))
    low, high = front.room(row)
    assume(high - low >= 8)
    n = draw(st.integers(1, (high - low) // 2 - 2))
    first = draw(st.integers(low, (low + high) // 2 - n))
    slots = [PocketSlot(key="right_pocket", row=row, start=first, stitches=n)]
    if draw(st.booleans()):
        slots.append(PocketSlot(key="left_pocket", row=row, start=(low + high) // 2 + 1,
                                stitches=min(n, high - (low + high) // 2 - 1)))
    return replace(front, pockets=tuple(slots))


@given(fronts())
@settings(max_examples=examples(60), deadline=None)
def test_both_edges_of_a_pocket_wait_and_the_front_is_knitted_to_its_end(front: Piece) -> None:
    _, run = pieces.knit(front)
    assert run.refusal is None, str(run.refusal)
    waits = pieces.waiting(run)
    for slot in front.pockets:
        assert waits[lower(slot.name)] == slot.stitches
        # n stitches inside the fabric offer n + 1 loops from above: worked example D04
        assert waits[upper(slot.name)] == slot.stitches + 1


@given(fronts())
@settings(max_examples=examples(30), deadline=None)
def test_a_pocket_costs_no_row_and_no_stitch_of_the_front(front: Piece) -> None:
    _, run = pieces.knit(front)
    _, plain = pieces.knit(replace(front, pockets=()))
    assert dict(run.stitches)[StepYarn.MAIN] == dict(plain.stitches)[StepYarn.MAIN]
    assert run.states[-1].counter == plain.states[-1].counter


@given(fronts())
@settings(max_examples=examples(30), deadline=None)
def test_a_mirrored_front_has_its_pocket_mirrored(front: Piece) -> None:
    program, _ = pieces.knit(front)
    other, _ = pieces.knit(replace(front, mirrored=not front.mirrored))
    mine = [s.needles for s in program.steps if isinstance(s, HandKnit) and s.cord]
    theirs = [s.needles for s in other.steps if isinstance(s, HandKnit) and s.cord]
    assert mine == [needles.mirrored() for needles in theirs]


@given(st.integers(1, 90), st.integers(1, 200))
def test_a_lining_hangs_on_every_loop_above_the_cord(loops: int, rows: int) -> None:
    lining = Piece(key="pocket_lining", title="Pocket lining", hung_on="the upper edge",
                   stitches=stated(loops, Unit.STITCHES), left=Profile(rows),
                   right=Profile(rows))
    program, run = pieces.knit(lining)
    assert run.refusal is None
    (hung,) = [s for s in program.steps if isinstance(s, Hang)]
    assert hung.onto_empty and hung.picks == tuple(range(1, loops + 1))
    assert dict(run.stitches)[StepYarn.MAIN] == loops * rows


@pytest.mark.parametrize("start", (0, 60))
def test_a_piece_refuses_a_pocket_at_its_edges(start: int) -> None:
    with pytest.raises(ValueError, match="no room"):
        Piece(key="front", title="Front", stitches=stated(70, Unit.STITCHES),
              left=Profile(80), right=Profile(80),
              pockets=(PocketSlot(key="pocket", row=40, start=start, stitches=10),))

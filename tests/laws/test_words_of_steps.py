"""One stitch is no "stitches" (English), and a loop is lifted from a neighbour that holds one.

The first was lost by a change of the engine that no test noticed (`.ci/mutants.py`).
"""

from __future__ import annotations

import pytest
from walebook.machine.needles import Needle, bed_of, of
from walebook.program.chart_actions import Action, Doing
from walebook.words.chart import action_said
from walebook.words.filled import under_neighbour


@pytest.mark.parametrize(("needles", "said"), [(1, "move the stitch of "),
                                               (2, "move the stitches of "),
                                               (3, "move the stitches of ")])
def test_one_needle_has_one_stitch_to_move(needles: int, said: str) -> None:
    some = bed_of(10).leftmost(needles)
    assert action_said(Action(Doing.MOVE, some, by=1)).startswith(said)


@pytest.mark.parametrize(("empty", "side"), [
    ((2, 4), "left,"), ((0, 4), "right,"), ((2, 3), "left, or on the right where only that one"),
    ((0, 6), "left, or on the right where only that one")])
def test_an_empty_needle_is_filled_from_a_neighbour_that_holds_a_stitch(
        empty: tuple[int, ...], side: str) -> None:
    """Of 0 to 6, the others hold a stitch; two side by side are filled from either side."""
    all_of = of(*(Needle(place) for place in range(7)))
    gaps = of(*(Needle(place) for place in empty))
    assert f"neighbour on the {side}" in under_neighbour(gaps, all_of - gaps)

"""One stitch is no "stitches" (English), and a loop is lifted from a neighbour that holds one.

The first was lost by a change of the engine that no test noticed (`.ci/mutants.py`).
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from walebook.machine.edge_steps import DrawCord, Hang
from walebook.machine.needles import Needle, bed_of, of
from walebook.pattern.cells import Cell
from walebook.program.chart_actions import Action, Doing
from walebook.words.band_ends import BandEnds
from walebook.words.chart_text import action_text
from walebook.words.filled import under_neighbour
from walebook.words.hanging_text import marked
from walebook.words.lying import cuts

from tests.whole_collection import collection


@pytest.mark.parametrize(("needles", "said"), [(1, "move the stitch of "),
                                               (2, "move the stitches of "),
                                               (3, "move the stitches of ")])
def test_one_needle_has_one_stitch_to_move(needles: int, said: str) -> None:
    some = bed_of(10).leftmost(needles)
    assert action_text(Action(Doing.MOVE, some, by=1)).startswith(said)


@pytest.mark.parametrize(("empty", "side"), [
    ((2, 4), "left"), ((0, 4), "right"), ((2, 3), "left, or on its right where only that needle"),
    ((0, 6), "left, or on its right where only that needle")])
def test_an_empty_needle_is_filled_from_a_neighbour_that_holds_a_stitch(
        empty: tuple[int, ...], side: str) -> None:
    """Of 0 to 6, the others hold a stitch; two side by side are filled from either side."""
    all_of = of(*(Needle(place) for place in range(7)))
    gaps = of(*(Needle(place) for place in empty))
    assert re.search(f"below the stitch on its {side}( |$)", under_neighbour(gaps, all_of - gaps))


@pytest.mark.parametrize(("ends", "named"), [
    (BandEnds("", "hem", "top"), ("hem end", "top end")),
    (BandEnds("", "start", "end"), ("start", "end"))])
def test_ends_quarters_and_middle_are_named_at_the_stitch_nearest_to_them(
        ends: BandEnds, named: tuple[str, str]) -> None:
    """Both ends first, then the middle, then halves of halves (worked example P05)."""
    for count in range(5, 160):
        found = [(stitch, name) for stitch, names in marked(count, ends).items()
                 for name in names.split(" and ")]
        assert [name for _, name in found] == [named[0], "¼", "middle", "¾", named[1]]
        for k, (stitch, _) in enumerate(found):
            assert abs(stitch - 1 - Fraction(k * (count - 1), 4)) <= Fraction(1, 2)


# A part of the rule, and the marks of a chart by which it is needed.
PLAIN = {"would move": {Cell.LEFT, Cell.RIGHT},
         "of a crossing": {Cell.FRONT_LEFT, Cell.FRONT_RIGHT, Cell.BEHIND_LEFT, Cell.BEHIND_RIGHT},
         "tuck": {Cell.TUCK}, "slip": {Cell.SLIP}}


def test_what_of_a_chart_is_knitted_plain_is_told_by_the_marks_that_it_has() -> None:
    """A rule about crossings in a chart without any is no help; left out, a cable is cut in two."""
    met = set()
    for proof in collection().proofs:
        for piece in (knitted.piece for size in proof.sizes for knitted in size.pieces):
            if piece.placed is None:
                continue
            told, marks = cuts(piece, piece.placed, "plain"), set(piece.placed.chart.cells)
            for said, needed in PLAIN.items():
                assert (said in told) == bool(marks & needed), (proof.pattern.slug, said)
                met.add((said, said in told))
    assert met == {(said, is_told) for said in PLAIN for is_told in (True, False)}


def test_the_cords_of_holes_are_drawn_in_the_step_that_hangs_their_stitches() -> None:
    """So the link of that step, and the count that it asks for, are theirs."""
    seen = 0
    for proof in collection().proofs:
        for strip in (strip for size in proof.sizes for strip in size.strips):
            before = None
            for step in strip.program.steps:
                if isinstance(step, DrawCord):
                    if step.edge not in (*strip.program.on_waste, strip.program.first_row):
                        assert isinstance(before, Hang), proof.pattern.slug
                        seen += 1
                else:
                    before = step
    assert seen > 100

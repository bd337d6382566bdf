"""Lengths to cut, ways to narrow and ways to close: what the words say comes to the figures."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from walebook.core.units import Length
from walebook.machine.edge_steps import CloseUp
from walebook.machine.needles import bed_of
from walebook.machine.steps import Claim, Side
from walebook.words.cut_lengths import to_cut
from walebook.words.making_up_instructions import unfastened
from walebook.words.put_by import _two_on
from walebook.words.shaping import _fashioned


@pytest.mark.parametrize(("needles", "pitch", "times"), [
    (40, "4.5", 3), (1, "4.5", 1), (117, "9", 4), (12, "3.6", 2), (200, "4.5", 1)])
def test_what_is_cut_is_as_long_as_the_needles_so_many_times(
        needles: int, pitch: str, times: int) -> None:
    """40 needles of 4.5 mm are 18 cm, three times 54 cm: 55 cm, up to the next 5 (arithmetic)."""
    wide = Fraction(pitch) * needles * times / 10
    (said,) = re.findall(r"^(\d+)\s?cm", to_cut(needles, Length(Fraction(pitch)), times))
    assert int(said) % 5 == 0 and wide <= int(said) < wide + 5
    (longer,) = re.findall(r"^(\d+)\s?cm", to_cut(needles, Length(Fraction(pitch)), times, 2))
    assert int(longer) > int(said)


def test_a_childs_fronts_are_not_closed_with_a_belt() -> None:
    """EN 14682 leaves no free ends round a young child's waist, as the cautions page has it."""
    assert "belt" in unfastened(child=False)
    assert "belt" not in unfastened(child=True)
    assert all("open" in unfastened(child=child) for child in (False, True))


def test_a_decrease_of_several_stitches_is_worked_as_many_times() -> None:
    """One move takes one stitch away (arithmetic)."""
    for moved in (2, 3, 5):
        assert "as many times" not in _fashioned(moved, 1)
        assert "as many times" in _fashioned(moved, 2)
        assert f"{moved} end stitches" in _fashioned(moved, 2)


@pytest.mark.parametrize("odd", [0, 1, 2, 5])
def test_the_needles_that_take_one_stitch_or_two_are_named(odd: int) -> None:
    """Twice as many stitches as needles leave two on each, and one less leaves one by itself."""
    onto = bed_of(20).leftmost(8)
    alone = onto.leftmost(odd) if odd else onto - onto
    step = CloseUp(needles=bed_of(20).leftmost(16 - odd), onto=onto, doubled=onto - alone,
                   claim=Claim(counter=0, stitches=8, loops=16 - odd, side=Side.LEFT))
    said = _two_on(step)
    named = set(re.findall(r"[LR]\d+", said))
    if not odd:
        assert said.startswith("two on each") and not named
    elif odd == 1:
        assert said.startswith("two on each, but one on") and named == {str(alone.first)}
    else:
        assert said.startswith("one on each, but two on each of") and str(onto.last) in named

"""Where a figure is calculated in another way, a comparison says which it was and is.

The figures are made by hand: 78 stitches come of 104 rows, three stitches to four rows, and a
choice takes another number for its own reason. A stitch is 4 mm wide, so three stitches are 12 mm.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from walebook.compare.moves import Known, moves
from walebook.core.counts import Unit
from walebook.core.expression import Chosen, Expression, LookUp, Operand, Rounded, Rule, Term, plain
from walebook.core.operands import ChoiceReason, Role
from walebook.core.text_kinds import TableKey
from walebook.words.moved import move_text
from walebook.words.terms.working import working

DIVIDE = "so that the buttonholes divide, clear of ends and joins"
SLACK = (("loose", 2), ("tight", 3))


def rows(many: int) -> Expression:
    """So many rows as band stitches, three to four rows."""
    return Rounded(Operand(Fraction(many), Role.ROWS) * plain(3) / plain(4), pitch=Fraction(4))


def holes(many: int, taken: int) -> Chosen:
    """Another number of stitches than the rows give, so that the buttonholes divide."""
    return Chosen((rows(many), plain(taken)), Rule.NEAREST_TO, ChoiceReason.BUTTONHOLES,
                  (plain(taken),))


def at_least(*figures: int) -> Chosen:
    return Chosen(tuple(map(plain, figures)), Rule.LARGEST, ChoiceReason.LEAST_ONE)


def slack(key: str) -> LookUp:
    return LookUp(TableKey("t"), key, SLACK)


def told(before: Expression, after: Expression) -> list[str]:
    """What is said of another way of calculating."""
    texts = [move_text(move) for move in moves(before, after, Known())]
    assert texts, "nothing is said at all"
    return [one for one in texts if one.startswith("calculated otherwise")]


@pytest.mark.parametrize(("before", "after", "text"), [
    (holes(104, 75), rows(108), f"75 {DIVIDE} → 81 as calculated"),
    (rows(108), holes(104, 75), f"81 as calculated → 75 {DIVIDE}"),
    (holes(104, 75), holes(104, 78), f"75 {DIVIDE} → 78 as calculated"),
    (Term(holes(104, 75), Role.NUMBER), at_least(1, 6), f"75 {DIVIDE} → 6, the least there is"),
    (plain(3) + plain(4), plain(3) * plain(5), "3 + 4 = 7 → 3 × 5 = 15"),
    (plain(3) + plain(4), plain(1) + plain(2) + plain(3) + plain(4) + plain(5),
     "3 + 4 = 7 → 15, the sum of 5 figures"),
    (slack("loose"), slack("tight"), "loose: 2 → tight: 3"),
])
def test_both_ways_are_named(before: Expression, after: Expression, text: str) -> None:
    assert told(before, after) == [f"calculated otherwise: {text}"]


def test_a_choice_that_falls_alike_is_no_other_way() -> None:
    assert not told(holes(104, 75), holes(108, 80))


def test_the_sentence_of_a_count_still_says_what_the_choice_is_worth() -> None:
    assert working(holes(104, 75), Unit.STITCHES).endswith(
        "clear of ends and joins: 75 = 75 stitches (12 mm from the edge)")

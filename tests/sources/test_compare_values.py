"""What a fact was and what it is are printed so that they differ, and with their unit.

A mass of a swatch that is a hundredth of a gram larger moves the mass of a stitch in its sixth
decimal; a measure that is a hundredth of a millimetre longer does so in the third of a centimetre.
"""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from walebook.compare.compared_facts import Fact, shown_apart
from walebook.compare.moves import Known, Move, moves
from walebook.core.expression import Chosen, Operand, Rule, plain
from walebook.core.operands import ChoiceReason, Role
from walebook.words.moved import join_closer, join_shown, move_text
from walebook_site.comparing import what_if

ROOT = Path(__file__).parents[2]
UNIT = re.compile(r"\b(mm|cm|g|m|stitches|rows|needles|metres|grams|buttonholes|packages)\b")
CHANGES = [
    ("slack-tide-cardigan", "fabrics.body.swatches.1.mass", "18.01 g"),
    ("slack-tide-cardigan", "garment.measures.body_length", "back_waist_length + 160.01 mm"),
    ("ropewalk-cardigan", "fabrics.body.swatches.1.width", "16 cm")]


@pytest.mark.parametrize(("slug", "key", "value"), CHANGES)
def test_values_that_differ_are_printed_differently(slug: str, key: str, value: str) -> None:
    """A report that prints a figure twice alike says that nothing moved."""
    found = [one for one in what_if(ROOT, slug, [(key, value)], steps=False).changes
             if one.name and one.before and one.after and one.kind not in ("steps", "finding")]
    assert found
    assert not [one for one in found if one.before == one.after]


@pytest.mark.parametrize(("slug", "key", "value"), CHANGES)
def test_counts_and_the_figures_they_came_by_have_a_unit(slug: str, key: str, value: str) -> None:
    """The name of a figure may be its unit: "band stitches 68 → 66"; one of a schedule has none."""
    found = [one for one in what_if(ROOT, slug, [(key, value)], steps=False).changes
             if one.kind in ("count", "yarn") and one.before and one.after]
    assert not [one for one in found if not UNIT.search(one.before)]
    assert not [way for one in found for way in one.path
                if not UNIT.search(way) and not way.startswith("schedule ")]


def test_both_sides_of_a_join_that_did_not_move_have_their_ease() -> None:
    """What is allowed to differ is another; both sides have 66 rows."""
    sewn = (Fraction(66), Fraction(66))

    def join(allowed: int) -> Fact:
        return Fact(allowed, join_shown(sewn, "rows"), closer=lambda: join_closer(
            sewn, "rows", Fraction(5, 2), Fraction(allowed)))

    assert shown_apart(join(1), join(2)) == tuple(
        f"66 and 66 rows, with an ease of 2.5 rows and {n} rows allowed" for n in (1, 2))


@pytest.mark.parametrize(("role", "name", "text"), [
    (Role.TITLED, "front edge", "3 → 2 stitches (front edge)"),
    (Role.SEAMS, "", "3 → 2 stitches for the seams"),
    (Role.AT_ENDS, "", "3 → 2 rows at the ends"),
    (Role.ROWS, " of the hem", "3 → 2 rows of the hem"),
    (Role.OF_SCHEDULE, "front.neck.steps.1", "schedule front.neck.steps.1: 3 → 2")])
def test_a_figure_that_moved_has_its_unit(role: Role, name: str, text: str) -> None:
    assert move_text(Move(role, (name, name), Fraction(3), Fraction(2))) == text


def test_a_choice_has_the_unit_of_what_it_is_of() -> None:
    """Of two candidates in stitches the count is so many stitches; 25 stand before another why."""
    def stitches(many: int) -> Operand:
        return Operand(Fraction(many), Role.STITCHES, " across")

    chosen = Chosen((stitches(25), stitches(26)), Rule.NEAREST_TO, ChoiceReason.NECK,
                    (plain(26),))
    found = [move_text(one) for one in moves(chosen, stitches(25), Known())]
    assert found[1:] == [
        "calculated otherwise: 26 stitches so that the neck is nearer to the width asked for → "
        "25 stitches as calculated"]

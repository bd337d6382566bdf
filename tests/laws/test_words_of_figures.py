"""What came and what went, packages to buy, whose side is meant, and eyelets in their order."""

from __future__ import annotations

import re
from types import SimpleNamespace

import pytest
from walebook.compare.report import Changed
from walebook.machine.needles import Needle, of
from walebook.machine.steps import Side
from walebook.words.casing_instructions import choose_eyelets
from walebook.words.comparison_text import values_text
from walebook.words.declared import sides_named
from walebook.words.garment_text import amount_text


@pytest.mark.parametrize(("before", "after", "said"), [
    ("", "12 rows", "new: 12 rows"), ("12 rows", "", "gone: 12 rows")])
def test_a_fact_of_one_side_alone_is_new_or_gone(before: str, after: str, said: str) -> None:
    """What only the state after has is new (the meaning of the words)."""
    assert values_text(Changed(size="", kind="count", place="front", title="Front", name="rows",
                               before=before, after=after)) == said


@pytest.mark.parametrize(("packages", "said"), [(1, "1 ball or cone"), (2, "2 balls or cones")])
def test_each_number_of_packages_says_of_what(packages: int, said: str) -> None:
    """One is a ball, two are balls (English)."""
    need = SimpleNamespace(grams=None, metres=None, yarn=SimpleNamespace(package_g=None),
                           packages=SimpleNamespace(value=packages))
    assert amount_text(need) == said


def test_sides_of_a_wearer_are_named_on_worn_pieces_alone() -> None:
    """A piece that nobody wears has no wearer's left."""
    assert "wearer" in sides_named(worn=True)
    assert "wearer" not in sides_named(worn=False)
    assert sides_named(worn=True).startswith(sides_named(worn=False))


@pytest.mark.parametrize(("hem", "named"), [(Side.LEFT, ["L9", "L2", "R6"]),
                                            (Side.RIGHT, ["R6", "L2", "L9"])])
def test_eyelets_are_numbered_from_one_in_order_from_the_hem(hem: Side, named: list[str]) -> None:
    """The first is the one nearest to the lower edge, at whichever end of the bed that lies."""
    both = of(*(Needle(at + more) for at in (-9, -2, 5) for more in (0, 1)))
    told = choose_eyelets(SimpleNamespace(strip=SimpleNamespace(layout=SimpleNamespace(hem=hem))),
                          SimpleNamespace(needles=both))
    found = [re.fullmatch(r"Eyelet (\d): <b>(\w+) and \w+</b>", place) for place in told.places]
    assert [(int(each[1]), each[2]) for each in found if each] == list(enumerate(named, 1))

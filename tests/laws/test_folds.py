"""How high a folded piece is comes from the corner at which it is folded, and from no other count.

42 rows to 10 cm, so that a row is 100/42 mm high: shown at each figure.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from walebook.core.expression import Expression, Operand
from walebook.core.expression_parts import inside
from walebook.core.operands import Role

from tests.laws.test_outlines import made

ROW = Fraction(100, 42)
MEASURES = {"wide": "30 cm", "edge": "15 cm", "narrow": "9 cm", "whole": "40 cm", "top": "26 cm",
            "other_top": "20 cm", "low": "13 cm", "as_low": "13.05 cm", "lower_yet": "10 cm"}


def side(low: str, top: str = "top", inward: str = "") -> list[dict[str, str]]:
    """An edge in two parts, between which stitches are bound off where it goes `inward`."""
    between = [{"height": low, "width": inward}] if inward else []
    return [{"height": low, "width": "edge", "name": "front"}, *between,
            {"height": top, "width": inward or "edge", "name": "back"}]


def bag(left: list[dict[str, str]], right: list[dict[str, str]]) -> dict[str, Any]:
    return {"title": "Bag", "width": "wide", "height": "whole", "left": left, "right": right}


def depth(pieces: dict[str, Any], folded: dict[str, str], key: str = "bag"
          ) -> Expression:
    """The depth of a piece, where each piece in `folded` is sewn to itself at one edge."""
    _, assembled, errors = made({
        "measures": MEASURES, "pieces": pieces,
        "joins": [{"sew": f"{piece}.{edge}.front", "to": f"{piece}.{edge}.back"}
                  for piece, edge in folded.items()]})
    assert assembled is not None, [str(p) for p in errors]
    return assembled.garment.lengths[f"{key} depth"].made


def measures(tree: Expression) -> set[str]:
    """The measures that an expression takes, by their names."""
    own = {tree.name} if isinstance(tree, Operand) and tree.role is Role.MEASURE else set()
    return own.union(*map(measures, inside(tree)))


@pytest.mark.parametrize(("edge", "named"), [("left", "low"), ("right", "as_low")])
def test_the_fold_is_counted_by_the_edge_that_is_sewn(edge: str, named: str) -> None:
    """13 and 13.05 cm are 54.6 and 54.81 rows: both are 54 as even numbers, and two measures."""
    found = depth({"bag": bag(side("low"), side("as_low"))}, {"bag": edge})
    assert found.value == 54 * ROW
    assert measures(found) == {named}


def test_a_fold_under_bound_off_stitches_has_the_row_before_them() -> None:
    """At the left they are bound off after a row that brings the carriage there: 54 rows and 1."""
    pieces = {"bag": bag(side("low", inward="narrow"), side("low"))}
    assert depth(pieces, {"bag": "left"}).value == 55 * ROW


def test_pieces_of_one_title_are_folded_each_at_its_corner() -> None:
    """13 cm are 54 rows; 10 cm are 42."""
    pieces = {"bag": bag(side("low"), side("low")),
              "lining": bag(side("lower_yet", "other_top"), side("low"))}
    folded = {"bag": "left", "lining": "left"}
    assert depth(pieces, folded, "bag").value == 54 * ROW
    assert depth(pieces, folded, "lining").value == 42 * ROW

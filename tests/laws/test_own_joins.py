"""Joins of own pieces: which edges become rings, and which copy of a piece takes part.

What is a ring follows from the plane: the two ends of an edge meet where the two edges beside it
are sewn to each other.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from walebook.fabric.gauge import Gauge
from walebook.proof.seam_yarn import seams
from walebook.shape.garment import Kindred
from walebook.shape.tasks import TaskKind
from walebook.words.declared import join_sewn

from tests.laws.test_outlines import made

MEASURES = {"wide": "30 cm", "high": "40 cm", "half": "20 cm"}
HALVES = [{"height": "half", "width": "wide", "name": "lower"},
          {"height": "high", "width": "wide", "name": "upper"}]
WHOLE = [{"height": "high", "width": "wide", "name": "side"}]


def joined(joins: list[dict[str, str]], **more: Any) -> dict[str, Any]:
    """A rectangle, joined to itself."""
    piece = {"width": "wide", "height": "high", **more}
    return {"measures": MEASURES, "pieces": {"bag": piece}, "joins": joins}


@pytest.mark.parametrize(("join", "corners", "rings"), [
    (("bag.top", "bag.bottom"), [], {"bag.left", "bag.right"}),
    (("bag.bottom", "bag.top"), WHOLE, {"bag.left", "bag.right", "bag.left.side",
                                        "bag.right.side"}),
    (("bag.top", "bag.bottom"), HALVES, {"bag.left", "bag.right"}),
    (("bag.left", "bag.right"), [], {"bag.top", "bag.bottom"}),
    (("bag.left.lower", "bag.right.lower"), HALVES, {"bag.bottom"}),
    (("bag.left.upper", "bag.right.upper"), HALVES, {"bag.top"}),
    (("bag.left.lower", "bag.left.upper"), HALVES, set())])
def test_an_edge_is_a_ring_where_the_edges_beside_it_meet(
        join: tuple[str, str], corners: list[dict[str, str]], rings: set[str]) -> None:
    sides = {"sides": corners} if corners else {}
    _, assembled, errors = made(joined([{"sew": join[0], "to": join[1]}], **sides))
    assert assembled is not None, [str(p) for p in errors]
    assert {key for key, edge in assembled.garment.edges.items() if edge.ring} == rings
    (task,) = [one for one in assembled.garment.tasks if one.kind is TaskKind.DECLARED]
    assert {*task.meet} == rings


@pytest.mark.parametrize(("times", "said"), [
    (1, "the left edge of the bag to the right edge of the bag"),
    (2, "the left edge of each bag to the right edge of the same bag")])
def test_a_piece_that_is_joined_to_itself_is_joined_each_time(times: int, said: str) -> None:
    _, assembled, errors = made(joined([{"sew": "bag.left", "to": "bag.right"}], times=str(times)))
    assert assembled is not None, [str(p) for p in errors]
    (told,) = [join_sewn(one) for one in assembled.garment.tasks
               if one.kind is TaskKind.DECLARED]
    assert told.startswith(f"<b>Sew {said}</b>")


@pytest.mark.parametrize("times", [1, 2])
def test_stitches_that_are_joined_take_their_yarn_as_often_as_they_are_sewn(times: int) -> None:
    """Three times the width for a grafted row (common practice, as `SEAM` has it): once for each
    copy, and not once for either side of the wearer, since a source declares each join."""
    _, assembled, errors = made(joined([{"sew": "bag.top", "to": "bag.bottom"}], times=str(times)))
    assert assembled is not None, [str(p) for p in errors]
    (join,) = assembled.garment.joins
    assert join.kindred is Kindred.STITCHES
    gauge = Gauge(Fraction(5), Fraction(3))
    assert seams([], [], (join,), gauge.stitch).value == times * 3 * join.one * 5


def test_the_copies_of_a_piece_are_joined_in_their_order() -> None:
    """Two straps, each between the upper and the lower edge of a bag: the first at the first use
    of an edge, the second at the next."""
    own = {"measures": {**MEASURES, "narrow": "15 cm"}, "pieces": {
        "bag": {"width": "wide", "height": "high", "sides": HALVES},
        "strap": {"width": "narrow", "height": "half", "times": "2"}}, "joins": [
        {"sew": "strap.left", "to": "bag.left.lower"},
        {"sew": "strap.left", "to": "bag.right.lower"},
        {"sew": "bag.left.upper", "to": "strap.right"},
        {"sew": "bag.right.upper", "to": "strap.right"}]}
    _, assembled, errors = made(own)
    assert assembled is not None, [str(p) for p in errors]
    told = [join_sewn(one) for one in assembled.garment.tasks if one.kind is TaskKind.DECLARED]
    for number, which in enumerate(("first", "second", "first", "second")):
        assert f" of the {which} strap" in told[number]
        assert told[number].count("strap") == 1

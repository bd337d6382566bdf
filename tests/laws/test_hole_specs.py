"""What holds for holes in a hem and above it, and for holes about a chosen one."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.expression import plain
from walebook.core.units import Length
from walebook.pattern.holes import HemHoles
from walebook.pattern.model import Pattern
from walebook.plan import hole_specs
from walebook.plan.buttonholes import number_every
from walebook.proof.proof import prove

from tests.laws.bands import pattern
from tests.scale import examples

A_LENGTH = st.fractions(1, 60, max_denominator=8)


def figures(middles: hole_specs.Middles) -> tuple[Fraction, ...]:
    return tuple(one.value for one in middles)


def about(at: Fraction, low: Fraction, top: Fraction, *, number: int | None,
          apart: Fraction | None) -> tuple[Fraction, ...]:
    return figures(hole_specs.about(plain(at), plain(low), plain(top), number=number,
                                    apart=apart and plain(apart)))


def steps(middles: tuple[Fraction, ...]) -> list[Fraction]:
    return [b - a for a, b in pairwise(middles)]


@given(A_LENGTH, A_LENGTH, A_LENGTH, st.integers(1, 12))
def test_about_a_chosen_hole_each_side_is_even(low: Fraction, down: Fraction, up: Fraction,
                                               number: int) -> None:
    at, top = low + down, low + down + up
    middles = about(at, low, top, number=number, apart=None)
    assert len(middles) == max(number, 1) or number == 2
    assert at in middles
    if number > 2:
        assert middles[0] == low and middles[-1] == top
        below = steps(tuple(m for m in middles if m <= at))
        above = steps(tuple(m for m in middles if m >= at))
        assert len(set(below)) <= 1 and len(set(above)) <= 1
        for other in range(1, number - 1):  # no other sharing is more alike
            unlike = abs(down / other - up / (number - 1 - other))
            assert abs(below[0] - above[0]) <= unlike


@given(A_LENGTH, A_LENGTH, A_LENGTH, st.fractions(2, 20, max_denominator=4))
def test_about_a_chosen_hole_the_spacing_is_as_near_as_whole_spaces(
        low: Fraction, down: Fraction, up: Fraction, apart: Fraction) -> None:
    at, top = low + down, low + down + up
    middles = about(at, low, top, number=None, apart=apart)
    assert at in middles and all(low <= m <= top for m in middles)
    for length, count in ((down, middles.index(at)), (up, len(middles) - 1 - middles.index(at))):
        assert abs(length / apart - count) <= Fraction(1, 2)


@given(A_LENGTH, A_LENGTH, st.integers(1, 12))
def test_a_chosen_place_outside_has_no_holes(low: Fraction, length: Fraction, number: int) -> None:
    top = low + length
    if number > 1:
        assert about(low - 1, low, top, number=number, apart=None) == ()
        assert about(top + 1, low, top, number=number, apart=None) == ()


@given(st.integers(1, 4), st.integers(1, 8), st.integers(6, 30), st.integers(10, 100))
def test_holes_above_a_hem_share_the_room_above_it(number: int, rest: int, depth: int,
                                                   room: int) -> None:
    hem = hole_specs.in_hem(plain(number), plain(depth), plain(2))
    inside, middles = figures(hem), figures(hole_specs.above_hem(
        hem, plain(depth), plain(depth + room), number=plain(rest), apart=None))
    assert middles[:number] == inside and all(0 < m < depth for m in inside)
    assert inside[0] == depth - inside[-1]  # as far from the hem's one border as from the other
    assert set(steps((Fraction(depth), *middles[number:]))) == {Fraction(room, rest)}
    assert middles[-1] == depth + room


@given(st.integers(2, 5), st.integers(10, 200), st.fractions(4, 30, max_denominator=4))
def test_a_centre_hole_makes_the_number_odd(hole: int, span: int, every: Fraction) -> None:
    number = number_every(span, hole, every, odd=True)
    assert number % 2 == 1
    if span >= hole:
        assert abs((number - 1) - (span - hole) / every) <= 1


def asked(rows: int, number: int, **more: object) -> Pattern:
    source = pattern(rows=rows, holes=number, hole=2, button="9 mm")
    band = source.bands["front"]
    assert band.buttonholes is not None
    return replace(source, bands={"front": replace(
        band, buttonholes=replace(band.buttonholes, **more))})  # type: ignore[arg-type]


@pytest.mark.parametrize("kind", ["in_hem", "through"])
@given(rows=st.integers(80, 240), number=st.integers(2, 5), share=st.integers(3, 7))
@settings(max_examples=examples(30), deadline=None)
def test_wished_holes_are_knitted_nearest_to_their_places(kind: str, rows: int, number: int,
                                                          share: int) -> None:
    length = rows * Fraction(5, 2)  # rows are 2.5 mm high
    more: dict[str, object] = {"through": {"one": f"{int(length) * share // 10} mm"}}
    if kind == "in_hem":
        more = {"in_hem": HemHoles(buttonhole_count=2, depth={"one": Length(length / 4)},
                                   ends=Length(Fraction(8)))}
    proof, problems = prove(asked(rows, number, **more))
    if proof is None:
        assert {p.code for p in problems if p.severity.value == "error"} == {"holes-too-close"}
        return
    plan = proof.sizes[0].plans[0]
    assert plan.placing is not None
    middles = [(start - 1 + Fraction(plan.placing.hole, 2)) * plan.gauge.stitch
               for start in plan.placing.starts]
    wanted = Fraction(int(length) * share // 10)
    if kind == "through":
        assert min(abs(m - wanted) for m in middles) <= plan.gauge.stitch / 2
        assert len(middles) == number
    else:
        assert sum(m < length / 4 for m in middles) == 2 and len(middles) == 2 + number
    assert all(strip.trace.refusal is None for strip in proof.sizes[0].strips)


def test_where_the_holes_are_further_apart_than_the_room_the_top_still_has_one() -> None:
    """A jacket is closed at its top, however few its holes (common practice, no source)."""
    for room in range(1, 12):
        top = Fraction(20 + room)
        (only,) = hole_specs.above_hem((), plain(20), plain(top), number=None, apart=plain(30))
        assert only.value == top

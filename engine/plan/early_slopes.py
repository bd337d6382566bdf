"""Slopes whose rates, as the designer gives them, end long before the slope does."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..core.counted import Count
from ..core.expression import Operand, Sum, Term
from ..core.operands import Role
from ..core.problems import Problem, Severity, note
from ..pattern.model import GarmentSpec
from ..pattern.places import Places
from ..pattern.slope_specs import SIDES, Slope, SlopeSpec
from ..shape.garment import Garment

MOST = Fraction(1, 3)  # of a slope's rows, plain above its shaping: common practice, no source
COUNTS: Mapping[Slope, tuple[tuple[str, ...], str]] = {
    Slope.SLEEVE: (("sleeve",), "rows_shaped"),
    Slope.RAGLAN_BODY: (("back",), "raglan_rows_shaped"),
    Slope.RAGLAN_SLEEVE: (("sleeve",), "raglan_rows_shaped"),
    Slope.V_NECK: (("front", "right_front"), "neck_rows_shaped"),
    **{side: (("back",), f"{side.value}_rows_shaped") for side in SIDES}}


def early_slopes(places: Places, spec: GarmentSpec, garment: Garment) -> tuple[Problem, ...]:
    """Warn of each slope that stays plain for more than a third of its rows, unasked: its piece is
    then wider or narrower there than its measures say."""
    found = []
    for slope in spec.slopes:
        pieces, name = COUNTS[slope.slope]
        for key, called, count in garment.counts:
            if key in pieces and called == name and slope.plain_end is None:
                after = _after(count)
                if after > MOST * count.value:
                    found.append(_warning(places, slope, garment.size, after, count))
    return tuple(found)


def _after(count: Count) -> int:
    """The plain rows after the last event of a slope's schedule."""
    assert isinstance(count.made, Sum)
    return sum(int(part.value) for part in count.made.parts
               if isinstance(part, Operand | Term) and part.role is Role.ROWS_AFTER)


def _warning(places: Places, slope: SlopeSpec, size: str, after: int, count: Count) -> Problem:
    path = f"garment.slopes.{slope.slope.value}"
    rated = slope.rates is not None
    return note(Severity.WARNING, "slope-ends-early",
                places.of(f"{path}.rates" if rated else path, size), size=size,
                found=f"{after} of {count} plain after the last {slope.slope.change}",
                expected="at most a third of them, so that the edge keeps near to a straight line",
                remedy="Write slower rates, or plain_end where the plain rows are meant.")

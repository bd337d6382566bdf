"""Slopes whose rates, as the designer gives them, end long before the slope does."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..core.counted import Count
from ..core.expression import Operand, Sum, Term
from ..core.operands import Role
from ..core.problems import Problem, Severity, note
from ..core.text_kinds import FindingText
from ..pattern.model import GarmentSpec
from ..pattern.outlines import EdgeSide, OutlineSpec
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
    for path, slope, pieces, name in _scheduled(spec):
        for key, called, count in garment.counts:
            if key in pieces and called == name and slope.plain_end is None:
                after = _after(count)
                if after > MOST * count.value:
                    found.append(_warning(places, path, slope, garment.size, after, count))
    return tuple(found)


def _scheduled(spec: GarmentSpec) -> Iterator[tuple[str, SlopeSpec, tuple[str, ...], str]]:
    """Each slope that the designer schedules: its path in the source, what is asked, the pieces
    that it is at, and what the count of its rows is called."""
    for slope in spec.slopes:
        if slope.slope is not None:
            yield f"garment.slopes.{slope.slope.value}", slope, *COUNTS[slope.slope]
    if spec.outline.pieces:
        yield from _at_corners(spec.outline)


def _at_corners(spec: OutlineSpec) -> Iterator[tuple[str, SlopeSpec, tuple[str, ...], str]]:
    """The same of the edges of own pieces."""
    from ..forms.outline_widths import label
    for piece in spec.pieces:
        for side in (EdgeSide.RIGHT,) if piece.alike else (EdgeSide.LEFT, EdgeSide.RIGHT):
            key, before = ("sides", "") if piece.alike else (side.value, f"{side.value}_")
            for number, point in enumerate(piece.points(side)):
                if point.slope is not None:
                    yield (f"garment.pieces.{piece.key}.{key}.{number}.slope", point.slope,
                           (piece.key,),
                           f"{before}edge_to_{label(point, number + 1)}_rows_shaped")


def _after(count: Count) -> int:
    """The plain rows after the last event of a slope's schedule."""
    assert isinstance(count.made, Sum)
    return sum(int(part.value) for part in count.made.parts
               if isinstance(part, Operand | Term) and part.role is Role.ROWS_AFTER)


def _warning(places: Places, path: str, slope: SlopeSpec, size: str, after: int, count: Count
             ) -> Problem:
    change: FindingText = slope.slope.change if slope.slope else "shaped row"
    rated = slope.rates is not None
    return note(Severity.WARNING, "slope-ends-early",
                places.of(f"{path}.rates" if rated else path, size), size=size,
                found=f"{after} of {count} plain after the last {change}",
                expected="at most a third of them, so that the edge keeps near to a straight line",
                remedy="Write slower rates, or plain_end where the plain rows are meant.")

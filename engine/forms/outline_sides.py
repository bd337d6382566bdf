"""The edges of a piece that is given by points: corners in whole stitches and rows, and between.

Sources: Jimmy Simmons, "Decrease and increase formulas" (R01, R02); Lynne Vogel (author inferred),
"Twisted Sisters Knit Sweaters".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.expression import NOTHING, Expression, plain
from ..core.operands import Role
from ..machine.records import dataclass
from ..pattern.outlines import EdgeSide, Going, OutlinePiece
from ..shape.foot import Foot
from ..shape.garment import CannotShape, Cut
from ..shape.own_corners import OwnCorner
from ..shape.profile import Change, How, Profile, shifted
from ..shape.roundings import CountKind
from ..shape.step_sizes import CountedSlope, SteppedSlope
from ..words.terms.section_names import corner_name, end_of_stretch, on_side, stretch_name
from .body_counts import rows_below
from .outline_corners import OutlineCorner, corner_request
from .outline_seams import seams_of
from .outline_widths import check_typed, half_widths, label, whole_widths

Counted = tuple[tuple[str, Count], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StretchOf:
    """A part of an edge from one corner to the next: the rows that it takes, what changes on it,
    and how it goes. `top` is the row at which it ends, from the count of its corner, `bottom` the
    row at which it begins; `slopes` compute what changes, `counts` are those of what the designer
    schedules, by name."""

    name: str
    low: int
    high: int
    top: Expression
    changes: tuple[Change, ...] = ()
    slopes: tuple[CountedSlope, ...] = ()
    bottom: Expression = NOTHING
    counts: Counted = ()

    @property
    def rows(self) -> int:
        """Its rows [rows]."""
        return self.high - self.low

    @property
    def rows_made(self) -> Expression:
        """The same rows as they are computed."""
        return self.top if self.bottom is NOTHING else self.top - self.bottom

    @property
    def level(self) -> int:
        """The stitches that are bound off in it [stitches]."""
        return sum(c.stitches for c in self.changes if c.how is How.BIND_OFF)

    @property
    def bound_off(self) -> tuple[Expression, ...]:
        """The same stitches as they are computed; none where none are."""
        return tuple(one.steps.stitches for one in self.slopes if isinstance(one, SteppedSlope))

    @property
    def own(self) -> Profile:
        """It alone, as an edge that begins where it does."""
        return Profile(self.rows, shifted(self.changes, -self.low))


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnEdges:
    """Both edges of a piece by their parts, the stitches cast on, all `counts`, the corners as a
    drawing shows them, and the stitches that `seams` take at the left and at the right, at the
    lower edge and at each corner. `across_top` are the stitches at the upper edge."""

    cast_on: Count
    across_top: Expression
    rows: Count
    left: tuple[StretchOf, ...]
    right: tuple[StretchOf, ...]
    counts: Counted
    corners: tuple[OwnCorner, ...]
    seams: tuple[tuple[int, ...], tuple[int, ...]]

    def of(self, side: EdgeSide) -> tuple[StretchOf, ...]:
        """The parts of one edge."""
        return self.right if side is EdgeSide.RIGHT else self.left

    def seams_at(self, corner: int) -> tuple[int, int]:
        """The stitches that seams take at a corner, at the left and at the right; 0 is the lower
        edge, -1 the uppermost corner."""
        return self.seams[0][corner], self.seams[1][corner]

    def profile(self, side: EdgeSide) -> Profile:
        """One edge as it is knitted."""
        return Profile(self.rows.value, tuple(c for part in self.of(side) for c in part.changes))

    @property
    def slopes(self) -> tuple[CountedSlope, ...]:
        """The calculations of both edges: those of the left one where they are others."""
        right, left = ([one for part in parts for one in part.slopes]
                       for parts in (self.right, self.left))
        alike = {one.name: _figures(one) for one in right}
        return (*right, *(one if one.name not in alike else replace(one, name=f"left_{one.name}")
                          for one in left if alike.get(one.name) != _figures(one)))


def kinds(piece: OutlinePiece) -> Iterator[tuple[str, CountKind]]:
    """Yield the counts of a piece that a designer can have rounded, each with its kind."""
    if piece.alike:
        yield "cast_on", CountKind.WIDTH if piece.left else CountKind.REPEAT
    yield "rows", CountKind.SINGLE
    for side in (EdgeSide.LEFT,) if piece.alike else (EdgeSide.LEFT, EdgeSide.RIGHT):
        before = "" if piece.alike else f"{side.value}_"
        seen = {piece.height}
        for number, point in enumerate(piece.points(side), 1):
            kind = CountKind.WIDTH if piece.alike else CountKind.SINGLE
            yield f"{before}at_{label(point, number)}", kind
            if point.height not in seen:
                yield f"{before}rows_to_{label(point, number)}", CountKind.ROWS
            seen.add(point.height)
    if not piece.alike:
        yield "left_at_edge", CountKind.SINGLE
        yield "right_at_edge", CountKind.SINGLE


def own_edges(cut: Cut, piece: OutlinePiece, foot: Foot | None) -> OwnEdges:
    """Return both edges of a piece, with a stitch more wherever one lies in a seam.

    A slope is made a stitch at a time, two gaps evenly mixed ("Twisted Sisters"), so that it is the
    straight line between its corners; one that ends a named part, at the top or below what is bound
    off, is followed by plain rows, a gap more than events (R01, R02). Steps are bound off every
    second row. Raises CannotShape, with the figures and the corner.
    """
    rows = rows_below(cut, f"{piece.key} rows", cut.measure(piece.height), (), foot,
                      CountKind.SINGLE)
    if rows.value < 2:
        raise CannotShape(f"{piece.title.lower()} of {rows}", f"Make {piece.height} longer.")
    tops, found = _rows(cut, piece, foot, rows)
    if foot is None:
        check_typed(cut, {f"{piece.key} rows": (piece.height, 0)}, {f"{piece.key} rows": rows})
    heights = {side: [count.value for count in counts] for side, counts in tops.items()}
    seams = tuple(seams_of(cut, piece, side, heights[side], rows.value)
                  for side in (EdgeSide.LEFT, EdgeSide.RIGHT))
    if piece.alike:
        cast_on, widths = whole_widths(cut, piece, [a + b for a, b in zip(*seams, strict=True)])
        sides = {side: [cast_on, *widths.values()] for side in (EdgeSide.LEFT, EdgeSide.RIGHT)}
    else:
        cast_on, widths, sides = half_widths(cut, piece, seams)
    left, right = (_stretches(cut, piece, side, (tops[side], sides[side], rows))
                   for side in (EdgeSide.LEFT, EdgeSide.RIGHT))
    halves = {side: [Fraction(one.value, 1 + piece.alike) for one in counts]
              for side, counts in sides.items()}
    return OwnEdges(cast_on=cast_on, across_top=_across_top(piece, sides), rows=rows,
                    left=left, right=right,
                    counts=(("cast_on", cast_on), ("rows", rows), *widths.items(), *found,
                            *_scheduled(left if not piece.alike else (), right)),
                    seams=(seams[0], seams[1]), corners=tuple(_corners(piece, heights, halves)))


def _across_top(piece: OutlinePiece, sides: Mapping[EdgeSide, list[Count]]) -> Expression:
    """The stitches at the upper edge: those at the last corner, or of both halves there."""
    left, right = (sides[side][-1] for side in (EdgeSide.LEFT, EdgeSide.RIGHT))
    return left.made if piece.alike else left.term(Role.STITCHES) + right.term(Role.STITCHES)


def _corners(piece: OutlinePiece, heights: Mapping[EdgeSide, list[int]],
             halves: Mapping[EdgeSide, list[Fraction]]) -> Iterator[OwnCorner]:
    """The corners of both edges where these are alike, else those of either."""
    for side in (EdgeSide.LEFT,) if piece.alike else (EdgeSide.LEFT, EdgeSide.RIGHT):
        for number, point in enumerate(piece.points(side), 1):
            out = int(halves[side][number] - halves[side][0])
            where = "" if piece.alike else side.value
            name = on_side(stretch_name(point.stretch), where) if point.stretch else \
                corner_name(number, where)
            before = "" if piece.alike else f"{side.value}_"
            at = label(point, number)
            yield OwnCorner(end_of_stretch(name) if point.stretch else name,
                            heights[side][number - 1], (out, out) if piece.alike else None,
                            (f"{before}at_{at}", f"{before}rows_to_{at}"))


def _rows(cut: Cut, piece: OutlinePiece, foot: Foot | None, rows: Count
          ) -> tuple[dict[EdgeSide, list[Count]], Counted]:
    """The row of every corner of both edges, and those that the piece has by name; a corner that
    is as high as the piece is counted as its top is."""
    at: dict[EdgeSide, list[Count]] = {}
    counts: dict[str, Count] = {}
    for side in (EdgeSide.LEFT, EdgeSide.RIGHT):
        before = "" if piece.alike else f"{side.value}_"
        known = {piece.height: rows}
        for number, point in enumerate(piece.points(side), 1):
            name = f"{before}rows_to_{label(point, number)}"
            if point.height not in known:
                height = cut.measure(point.height)
                is_top = height.value == cut.measure(piece.height).value
                kind = CountKind.SINGLE if is_top else CountKind.ROWS
                known[point.height] = rows_below(cut, f"{piece.key} {name}", height, (), foot, kind)
                counts[name] = known[point.height]
                if foot is None:
                    check_typed(cut, {f"{piece.key} {name}": (point.height, 0)},
                                {f"{piece.key} {name}": counts[name]})
            at.setdefault(side, []).append(known[point.height])
        at.setdefault(side, [])
    return at, tuple(counts.items())


def _scheduled(*edges: Sequence[StretchOf]) -> Iterator[tuple[str, Count]]:
    """The counts of what the designer schedules; those of the right edge where both are alike."""
    for edge in edges:
        for part in edge:
            yield from part.counts


def _stretches(cut: Cut, piece: OutlinePiece, side: EdgeSide,
               counts: tuple[list[Count], list[Count], Count]) -> tuple[StretchOf, ...]:
    """The parts of an edge, the last one up to the top, by the rows and the widths at its corners
    and all rows of the piece. The widths are those of the piece where both its edges are alike,
    else of a half."""
    tops, widths, rows = counts
    made: list[StretchOf] = []
    low, points, top = 0, piece.points(side), rows.value
    before = "" if piece.alike else f"{side.value}_"
    for number, (point, count) in enumerate(zip(points, tops, strict=True)):
        high, (go, events) = count.value, _gone(widths[number], widths[number + 1], piece.alike)
        after = points[number + 1] if number + 1 < len(points) else None
        plain_after = bool(point.stretch) or high >= top or (after is not None and (
            tops[number + 1].value == high or after.by is Going.STEPS))
        corner = OutlineCorner(piece, side, number, made[-1].top if made else NOTHING,
                               count.made, top, f"{before}edge_to_{label(point, number + 1)}",
                               corner_request(cut, piece, side, number))
        changes, slopes, counted = corner.made(point.by, go, events, plain_after=plain_after)
        if side is EdgeSide.LEFT and _is_bound_off(changes) and changes[0].row == low + 1:
            low += 1  # the row that brings the carriage there is the last one of the part below
            made[-1] = replace(made[-1], high=low, top=made[-1].top + plain(1))
        made.append(StretchOf(name=point.stretch, low=low, high=max(low, high), changes=changes,
                              slopes=slopes, counts=counted,
                              bottom=made[-1].top if made else NOTHING,
                              top=made[-1].top if low > high else count.term(Role.ROWS)))
        low = max(low, high)
    if low < top:
        made.append(StretchOf(name="", low=low, high=top, top=rows.term(Role.ROWS),
                              bottom=made[-1].top if made else NOTHING))
    return tuple(made)


def _gone(one: Count, other: Count, alike: bool) -> tuple[int, Expression]:
    """How many stitches go at an edge between two widths, less than 0 where they come, and how many
    these are as a calculation: half of them where both edges are `alike`."""
    go = one.value - other.value
    more, fewer = ((one, other) if go > 0 else (other, one))
    made: Expression = more.term(Role.STITCHES) - fewer.term(Role.STITCHES)
    return (go // 2, made / plain(2)) if alike else (go, made)


def _figures(slope: CountedSlope) -> tuple[int, ...]:
    """The numbers of a slope."""
    sizes = slope.sizes if isinstance(slope, SteppedSlope) else ()
    return tuple(one.value for one in (*(count for _, count in slope.figures), *sizes))


def _is_bound_off(changes: Sequence[Change]) -> bool:
    return bool(changes) and changes[0].how is How.BIND_OFF

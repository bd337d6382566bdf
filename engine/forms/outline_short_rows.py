"""Short rows of own pieces: a heel or a toe, a dart, a sloped top or a lower edge that hangs lower.

A needle at the carriage goes into hold before every row, and one opposite it comes back before
every row: "Men's socks, knitted flat", a pattern from 1979 (W3-110); Ann, "Baby booties 3-6
months" (W3-111). Two stitches between them stay in work at least: Maggie Andrews, "Sun, sea and
sand: back in short-row triangles" (W3-042). Rows that are asked for as a length come in pairs: Lara
Neel, "Short rows as bust darts", 2010 (W3-051).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..core.branched import as_even_as
from ..core.counted import Count
from ..core.counts import EVEN, ODD, Unit
from ..core.expression import Expression
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.text_kinds import FindingText
from ..fabric.gauge import counted, rows_along, stitches_in
from ..pattern.conventions import Larger
from ..pattern.outlines import EdgeSide, OutlinePiece, OwnShortRows
from ..pattern.short_rows import BesideEdge, Turning
from ..shape.foot import Foot
from ..shape.garment import CannotShape, Cut
from ..shape.held_rows import LAST_ROWS, HeldRows
from ..shape.roundings import CountKind, fitted, rule
from ..shape.shoulders import shoulder_steps
from ..words.terms.part_names import part_name
from .body_counts import rows_below
from .outline_sides import OwnEdges, StretchOf
from .outline_widths import check_typed, label

BETWEEN = 2  # stitches that are never held, at least: a triangle down to two (W3-042)
FIRST = 2  # rows over all stitches below them, which hold the edge


def rows_name(number: int) -> str:
    """Return what the rows up to short rows are called in the counts."""
    return f"rows_to_short_rows_{number}"


def middle_name(number: int) -> str:
    """Return what the stitches are called that stay in work."""
    return f"middle_of_short_rows_{number}"


def over_name(number: int) -> str:
    """Return what the stitches are called that they are knitted over, where these are not all."""
    return f"stitches_of_short_rows_{number}"


def extra_name(number: int) -> str:
    """Return what the rows are called that the middle has more."""
    return f"rows_added_by_short_rows_{number}"


def kinds_of_short_rows(piece: OutlinePiece) -> Iterator[tuple[str, CountKind]]:
    """Yield the counts of a piece's short rows that a designer can have rounded."""
    seen = {piece.height, *(point.height for point in (*piece.left, *piece.right))}
    for number, short in enumerate(piece.short_rows, 1):
        if short.height not in seen:
            yield rows_name(number), CountKind.SINGLE
        seen.add(short.height)
        if short.over:
            yield over_name(number), CountKind.SINGLE
        yield middle_name(number), CountKind.SINGLE
        if short.extra:
            yield extra_name(number), CountKind.ROWS


def own_short_rows(cut: Cut, piece: OutlinePiece, edges: OwnEdges, foot: Foot | None
                   ) -> tuple[tuple[HeldRows, ...], tuple[tuple[str, Count], ...]]:
    """Return the short rows of a piece, with their counts. Raises CannotShape, with the figures."""
    made: list[HeldRows] = []
    counts: dict[str, Count] = {}
    if piece.short_rows and (cut.chart or cut.repeat):
        raise CannotShape(f"{piece.title.lower()}: short rows in a fabric with a stitch chart or "
                          "with needles left out of work", "Use a plain fabric, or delete them.",
                          f"pieces.{piece.key}.short_rows")
    for number, short in enumerate(piece.short_rows):
        one = _OneOfThem(cut, piece, number, edges)
        rows = one.rows(foot, counts)
        row = rows.value
        wide = one.wide(row)
        if one.short.over:
            counts[over_name(number + 1)] = part = one.part(wide, row)
            wide = part.term(Role.STITCHES)
        middle = one.middle(wide)
        counts[middle_name(number + 1)] = middle
        held = (int(wide.value) - middle.value) // 2
        if short.turning is Turning.BOTH:
            steps: tuple[int, ...] = (1,) * held
        else:
            extra = one.extra()
            counts[extra_name(number + 1)] = extra
            steps = one.steps(held, extra)
        for _ in range(short.times):
            made.append(HeldRows(row=row, steps=steps, turning=short.turning,
                                 over=int(wide.value) if short.over else 0,
                                 at_left=short.beside is BesideEdge.LEFT))
            row += LAST_ROWS
        one.check(made, rows.value, row)
    return tuple(made), tuple(counts.items())


class _OneOfThem:
    """Short rows of a piece, the `number`th from 0, as they are counted."""

    def __init__(self, cut: Cut, piece: OutlinePiece, number: int, edges: OwnEdges) -> None:
        self.cut, self.piece, self.edges, self.number = cut, piece, edges, number
        self.short: OwnShortRows = piece.short_rows[number]

    def rows(self, foot: Foot | None, counts: dict[str, Count]) -> Count:
        """The rows up to them: those of a corner of the same height, else their own; so many that
        the carriage stands beside the part that they are knitted over."""
        known = self._known(counts)
        if self.short.height in known:
            return known[self.short.height]
        name, cut = rows_name(self.number + 1), self.cut
        key = f"{self.piece.key} {name}"
        if self.short.over:
            stands = ODD if self.short.beside is BesideEdge.LEFT else EVEN
            cut = replace(cut, rounding={**cut.rounding, key: fitted(
                key, rule(cut, key, CountKind.SINGLE), stands)})
        made = rows_below(cut, key, cut.measure(self.short.height), (), foot, CountKind.SINGLE)
        counts[name] = made
        if foot is None:
            self._check(name, self.short.height, made)
        return made

    def _check(self, name: str, measure: str, made: Count) -> None:
        """Raise CannotKeep where a measure in stitches or rows comes to another count."""
        key = f"{self.piece.key} {name}"
        check_typed(self.cut, {key: (measure, 0)}, {key: made})

    def _known(self, counts: dict[str, Count]) -> dict[str, Count]:
        """The rows of every measure that is counted already."""
        of_edges = dict(self.edges.counts)
        known = {self.piece.height: self.edges.rows}
        for side in (EdgeSide.LEFT,) if self.piece.alike else (EdgeSide.LEFT, EdgeSide.RIGHT):
            before = "" if self.piece.alike else f"{side.value}_"
            for number, point in enumerate(self.piece.points(side), 1):
                name = f"{before}rows_to_{label(point, number)}"
                if name in of_edges:
                    known.setdefault(point.height, of_edges[name])
        for number, short in enumerate(self.piece.short_rows[:self.number], 1):
            if rows_name(number) in counts:
                known.setdefault(short.height, counts[rows_name(number)])
        return known

    def wide(self, row: int) -> Expression:
        """The stitches of the piece at a row: at a corner, or where both edges go straight up."""
        if self.piece.alike:
            return self._at(EdgeSide.LEFT, row, "cast_on").term(
                Role.STITCHES, part_name(PartRole.ACROSS))
        left, right = (self._at(side, row, f"{side.value}_at_edge").term(
            Role.STITCHES, part_name(part)) for side, part in (
                (EdgeSide.LEFT, PartRole.AT_LEFT), (EdgeSide.RIGHT, PartRole.AT_RIGHT)))
        return left + right

    def _at(self, side: EdgeSide, row: int, lowest: str) -> Count:
        """How wide the piece or a half of it is at a row, from the corner below it."""
        counts, before = dict(self.edges.counts), "" if self.piece.alike else f"{side.value}_"
        at = lowest
        for number, (part, point) in enumerate(zip(self.edges.of(side), self.piece.points(side),
                                                   strict=False), 1):
            if _is_shaped_past(part, row):
                edges: FindingText = "both edges are" if self.piece.alike else "an edge is"
                raise self.cannot(f"at row {row}, where {edges} shaped up to row {part.high}",
                                  "Give the edges a corner of the same height.", "height")
            if part.high <= row:
                at = f"{before}at_{label(point, number)}"
        return counts[at]

    def part(self, wide: Expression, row: int) -> Count:
        """The stitches that they are knitted over, fewer than all. Raises CannotShape, also where
        the carriage stands at the other edge."""
        name = f"{self.piece.key} {over_name(self.number + 1)}"
        made = counted(stitches_in(self.cut.measure(self.short.over), self.cut.gauge),
                       Unit.STITCHES, self.cut.gauge.stitch, rule(self.cut, name, CountKind.SINGLE))
        self._check(over_name(self.number + 1), self.short.over, made)
        if not BETWEEN + 2 <= made.value < wide.value:
            raise self.cannot(f"over {made}, where it takes {BETWEEN + 2} to "
                              f"{int(wide.value) - 1} of the {int(wide.value)} there",
                              f"Change {self.short.over}, or delete over.", "over")
        stands, side = BesideEdge.LEFT if row % 2 else BesideEdge.RIGHT, self.short.beside
        if side is not stands:
            raise self.cannot(f"beside the {side.value} edge from row {row}, where the carriage is "
                              f"at the {stands.value}",
                              f"Write beside: {stands.value}, or a height that is no corner's.",
                              "beside" if side is BesideEdge.LEFT else "height")
        return made

    def middle(self, wide: Expression) -> Count:
        """The stitches between them, even or odd as those of the piece are there."""
        name = f"{self.piece.key} {middle_name(self.number + 1)}"
        parity = ODD if wide.value % 2 else EVEN
        made = counted(stitches_in(self.cut.measure(self.short.middle), self.cut.gauge),
                       Unit.STITCHES, self.cut.gauge.stitch,
                       fitted(name, rule(self.cut, name, CountKind.SINGLE), parity))
        made = Count(as_even_as(made.made, wide), made.unit)
        self._check(middle_name(self.number + 1), self.short.middle, made)
        if not BETWEEN <= made.value < wide.value:
            raise self.cannot(f"with {made} between them, where it takes {BETWEEN} to "
                              f"{int(wide.value) - 2} of the {int(wide.value)} there",
                              f"Change {self.short.middle}.", "middle")
        return made

    def extra(self) -> Count:
        """The rows that the middle has more, an even number."""
        name = f"{self.piece.key} {extra_name(self.number + 1)}"
        made = rows_along(self.cut.length(self.short.extra), self.cut.gauge,
                          rule(self.cut, name, CountKind.ROWS), self.cut.measure(self.short.extra))
        self._check(extra_name(self.number + 1), self.short.extra, made)
        if made.value < LAST_ROWS:
            raise self.cannot(f"of {made} more in the middle", f"Make {self.short.extra} more.",
                              "extra")
        return made

    def steps(self, held: int, extra: Count) -> tuple[int, ...]:
        """The stitches of each step: as many as there are pairs of rows, in equal parts."""
        pairs = extra.value // LAST_ROWS
        if pairs > held:
            raise self.cannot(f"of {extra} more in the middle, in {pairs} steps of the {held} "
                              "stitches held at each edge",
                              f"Make {self.short.extra} less, or {self.short.middle} less.",
                              "extra")
        return shoulder_steps(held, pairs, Larger.ARMHOLE)

    def check(self, made: list[HeldRows], row: int, end: int) -> None:
        """Raise CannotShape where other shaping, a mark or the top lies in their way."""
        before = made[:-self.short.times]
        if row < FIRST:
            raise self.cannot(f"above {Unit.ROWS.of(row)}, where it takes {FIRST}",
                              "Make their height more.", "height")
        if before and row < before[-1].row + LAST_ROWS:
            raise self.cannot(f"at row {row}, where others end at row "
                              f"{before[-1].row + LAST_ROWS}",
                              "Write them from the lowest up, or change their heights.", "height")
        if end > self.edges.rows.value:
            raise self.cannot(f"from row {row} to row {end}, where the top is at row "
                              f"{self.edges.rows.value}",
                              "Make their height less, or the piece higher.", "height")
        parts = (*self.edges.left, *self.edges.right)
        shaped = {c.row for part in parts for c in part.changes}
        if met := sorted((shaped | {part.high for part in parts}) & set(range(row + 1, end))):
            raise self.cannot(f"from row {row} to row {end}, where an edge is shaped or has a "
                              f"corner at row {met[0]}",
                              "Move the corner, or their height, by some rows.", "height")

    def cannot(self, found: FindingText, remedy: FindingText, key: str) -> CannotShape:
        """What is wrong, at a key of these short rows."""
        piece = self.piece
        return CannotShape(f"{piece.title.lower()}, short rows {self.number + 1} {found}", remedy,
                           f"pieces.{piece.key}.short_rows.{self.number}.{key}")


def _is_shaped_past(part: StretchOf, row: int) -> bool:
    """True where a stretch of an edge is shaped and goes on above a row that lies in it."""
    return bool(part.changes) and part.low < row < part.high

"""How own pieces meet: their joins with both sides' figures, and their edges for bands."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Operand, Sum, Term
from ..core.operands import Role
from ..machine.records import dataclass
from ..pattern.edges import EdgeShape, Offer
from ..pattern.outlines import EdgeOf, EdgeSide, OutlineJoin, OutlinePiece, TopEnds
from ..shape.bars import Bars, BoundOff, SteppedSeam
from ..shape.counted_edge import NamedSlope, counted_segments, line_along
from ..shape.edge_counts import rows_of_edge
from ..shape.edge_path import EdgePath, run_of
from ..shape.edging import Section, shaped, straight, waiting
from ..shape.garment import CannotShape, Cut, Join, Kindred
from ..shape.openings import Ending
from ..shape.outline import last_row
from ..shape.piece import Piece
from ..shape.profile import How
from ..shape.seams import sewn_rows, sewn_stitches
from ..shape.tasks import Seam, Sewing
from ..words.terms.join_names import (
    COPY,
    CROSSWISE_ENDS,
    EACH_COPY,
    LENGTHWISE_ENDS,
    declared_edge,
    declared_name,
    side_of_piece,
)
from ..words.terms.section_names import stretch_name
from .lengths import on_foot, stitches_wide
from .opened import side_of, upright
from .outline_copies import Copies, copies_of
from .outline_rings import called, ring_at, ring_seam
from .outline_rows import rows_made
from .outline_sides import OwnEdges, StretchOf

ENDS_OF = {EdgeSide.LEFT: LENGTHWISE_ENDS, EdgeSide.RIGHT: LENGTHWISE_ENDS,
           EdgeSide.TOP: CROSSWISE_ENDS, EdgeSide.BOTTOM: CROSSWISE_ENDS}
ROUNDED = 2  # how far two counts of one length may be apart, each rounded to an even number


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPiece:
    """A piece as asked for and as it is knitted, its edges, and the rows of its hem."""

    spec: OutlinePiece
    piece: Piece
    edges: OwnEdges
    hem_rows: Count | None


@dataclass(frozen=True, slots=True)
class _Side:
    """One side of a join: what it is called, its rows or its stitches, how long it is [mm], what
    holds the ends of its bound-off stitches, whether its rows end below such stitches, after which
    rows these are bound off, how many rows lie above the last of them, and what its rows or
    its stitches are computed by, part by part."""

    name: str
    rows: int
    stitches: int
    length: Expression
    bound_off: BoundOff | None = None
    under: bool = False
    off_at: tuple[int, ...] = ()
    above: int = 0
    counted: tuple[Expression, ...] = ()

    @property
    def sewn(self) -> Operand | Term:
        """Its rows, or its stitches, as they are counted where they are sewn."""
        made = _added(self.counted) if self.counted else None
        return sewn_rows(self.rows, made) if self.rows else sewn_stitches(self.stitches, made)


def joins_of(cut: Cut, pieces: Mapping[str, OwnPiece]) -> tuple[tuple[Join, Sewing], ...]:
    """Return the joins in the order of the source, each with what is sewn to what.

    Rows meet rows and stitches meet stitches by their numbers, rows meet stitches by length; either
    may be off by what rounding makes of it. Raises CannotShape for an edge of rows and of stitches.
    """
    copies = copies_of(cut.outline.joins, {key: own.spec for key, own in pieces.items()})
    return tuple(_join(cut, pieces, join, number, copies[number])
                 for number, join in enumerate(cut.outline.joins))


def _join(cut: Cut, pieces: Mapping[str, OwnPiece], join: OutlineJoin, number: int, copies: Copies
          ) -> tuple[Join, Sewing]:
    at = f"joins.{number}"
    one, other = (_side(cut, pieces, edges, which, at) for edges, which in zip(
        (join.one, join.other), copies, strict=True))
    times = pieces[join.one[0].piece].spec.times if EACH_COPY in copies[0] else 1
    title, g = declared_name(one.name, other.name), cut.gauge
    sides = (side_of_piece(one.name), side_of_piece(other.name))
    if bool(one.rows) is bool(other.rows):
        kindred = Kindred.ROWS if one.rows else Kindred.STITCHES
        first, last = one.sewn, other.sewn
        made = Join(title=title, seam=Seam.DECLARED, kindred=kindred, sewn=(first, last),
                    ease=first.value * join.ease, share=join.ease,
                    tolerance=Fraction(ROUNDED), sides=sides,
                    number=number + 1, copies=times, bound_off=one.bound_off or other.bound_off,
                    stepped=_stepped(one, other), at_top=abs(one.rows - other.rows) == 1
                    and (one if one.rows > other.rows else other).under)
        return made, Sewing.ROWS if one.rows else Sewing.STITCHES
    rows, stitches = (one, other) if one.rows else (other, one)
    bars = Bars(rows=rows.rows, row_edge=rows.name, stitches=stitches.stitches,
                stitch_edge=stitches.name, first=Unit.ROWS if one.rows else Unit.STITCHES)
    along = (Term(one.length, Role.ALONG, sides[0]), Term(other.length, Role.ALONG, sides[1]))
    return Join(title=title, seam=Seam.DECLARED, kindred=Kindred.LENGTH, sewn=along,
                ease=one.length.value * join.ease, share=join.ease,
                tolerance=g.stitch + g.row, sides=sides,
                bars=bars, bound_off=stitches.bound_off, number=number + 1,
                copies=times), Sewing.MIXED


def _side(cut: Cut, pieces: Mapping[str, OwnPiece], edges: tuple[EdgeOf, ...],
          which: tuple[str, ...], at: str) -> _Side:
    """Edges that follow one another, all of rows or all of stitches, and of which copy each is."""
    parts = [_measured(cut, pieces[edge.piece], edge, copy, at)
             for edge, copy in zip(edges, which, strict=True)]
    rows, stitches = sum(p.rows for p in parts), sum(p.stitches for p in parts)
    name = " and ".join(dict.fromkeys(p.name for p in parts))
    if rows and stitches:
        raise CannotShape(f"{name}: {rows} rows and {stitches} bound-off stitches in one edge",
                          "Name the parts of the edge by their corners, and join each.", at)
    if not rows and not stitches:
        raise CannotShape(f"{name}, of 0 rows and 0 stitches", "Delete the join.", at)
    return _Side(name, rows, stitches, _added(p.length for p in parts),
                 parts[0].bound_off if len(parts) == 1 else None, parts[-1].under,
                 parts[0].off_at if len(parts) == 1 else (), parts[-1].above,
                 tuple(one for part in parts for one in part.counted))


def _measured(cut: Cut, own: OwnPiece, edge: EdgeOf, which: str, at: str) -> _Side:
    name, g = _name(own, edge, which), cut.gauge
    if not edge.side.is_upright:
        if edge.side is EdgeSide.TOP and own.spec.top is TopEnds.WAITING:
            raise CannotShape(f"{name} on waste yarn, in a join of {own.piece.top} stitches",
                              "Write top: bound off, or take the edge out of the join.", at)
        at_top = edge.side is EdgeSide.TOP
        all_, made = (own.piece.top, own.edges.across_top) if at_top else (
            own.piece.stitches.value, own.piece.stitches.made)
        if seams := sum(own.edges.seams_at(-1 if at_top else 0)):
            made = Term(made, Role.STITCHES) - Operand(Fraction(seams), Role.SEAMS)
        stitches = all_ - seams
        return _Side(name, 0, stitches, stitches_wide(sewn_stitches(stitches, made), g),
                     counted=(made,))
    parts = _parts(own, edge)
    foot = own.piece.hem
    below = foot.height if foot and parts[0].low == 0 else 0
    rows = below + sum(part.rows for part in parts if not part.level)
    length = _added(line_along(counted_segments(
        part.own.segments(), _slopes(own, edge.side, (part,))), g, part.rows_made)
        for part in parts)
    if below and foot:
        length = on_foot(length, foot, g)
    return _Side(name, rows, sum(part.level for part in parts), length,
                 _bound_off(own, edge, parts), _under(own, edge, parts[-1]),
                 tuple(c.row for part in parts for c in part.changes if c.how is How.BIND_OFF),
                 _above(own, edge, parts[-1]),
                 tuple(rows_made(parts, foot if below else None)) if rows else
                 tuple(one for part in parts for one in part.bound_off))


def _above(own: OwnPiece, edge: EdgeOf, last: StretchOf) -> int:
    """The rows of a side above the bound-off stitches in which its edge ends, to the upper edge."""
    off = [c.row for c in last.changes if c.how is How.BIND_OFF]
    return own.edges.rows.value - off[-1] if off and last is own.edges.of(edge.side)[-1] else 0


def _stepped(one: _Side, other: _Side) -> SteppedSeam | None:
    """How two bound-off edges climb in steps, where either does, or ends below an upper edge."""
    most = max(one.off_at, other.off_at, key=len)
    if len(most) < 2 and not (one.above or other.above):
        return None
    return SteppedSeam(steps=len(most), climb=most[1] - most[0] if most[1:] else 0,
                   above=(one.above, other.above))


def _added(lengths: Iterable[Expression]) -> Expression:
    first, *rest = lengths
    return Sum((first, *rest)) if rest else first


def _bound_off(own: OwnPiece, edge: EdgeOf, parts: tuple[StretchOf, ...]) -> BoundOff | None:
    """What holds the ends of a part that is bound off: the seams of the parts beside it."""
    if len(parts) != 1 or not parts[0].level:
        return None
    all_ = own.edges.of(edge.side)
    at, seams = all_.index(parts[0]), own.edges.seams[edge.side is EdgeSide.RIGHT]
    below, above = (stretch_name(next((part.name for part in parts if not part.level), ""))
                    for parts in (all_[:at][::-1], all_[at + 1:]))
    return BoundOff(stitches=parts[0].level, below=below if seams[at] else "",
                    above=above if seams[at + 1] else "")


def _under(own: OwnPiece, edge: EdgeOf, last: StretchOf) -> bool:
    """True where the rows of an edge end below stitches that are bound off."""
    above = [part for part in own.edges.of(edge.side) if part.level and part.low == last.high]
    return not last.level and bool(above)


def _parts(own: OwnPiece, edge: EdgeOf) -> tuple[StretchOf, ...]:
    """The part of a side that has the name, or all of them."""
    all_ = own.edges.of(edge.side)
    return tuple(part for part in all_ if part.name == edge.stretch) if edge.stretch else all_


def _name(own: OwnPiece, edge: EdgeOf, which: str = COPY) -> str:
    stretch = stretch_name(edge.stretch) if edge.stretch else ""
    return declared_edge(called(edge.side), stretch, which, own.piece.title)


# Edges for bands


def edges_of(cut: Cut, own: OwnPiece) -> Iterator[tuple[str, EdgePath]]:
    """Yield every edge of a piece that a band can take, by its key."""
    for side in EdgeSide:
        edge = EdgeOf(own.piece.key, side)
        sections = _upright(cut, own, edge) if side.is_upright else _level(cut, own, edge)
        yield from _path(cut, own, edge, sections)
        if side.is_upright:
            for stretch in dict.fromkeys(p.name for p in own.edges.of(side) if p.name):
                named = EdgeOf(own.piece.key, side, stretch)
                yield from _path(cut, own, named, _upright(cut, own, named))


def _path(cut: Cut, own: OwnPiece, edge: EdgeOf, sections: list[Section]
          ) -> Iterator[tuple[str, EdgePath]]:
    """An edge, and the seam in which its two ends meet, where a join makes it a ring."""
    if sections:
        name = _name(own, edge)
        ring = ring_at(cut.outline.joins, own.edges, edge) is not None
        yield edge.key, replace(
            run_of(edge.key, name[:1].upper() + name[1:], sections,
                   shape=EdgeShape.ROUND if ring else EdgeShape.OPEN,
                   seam=ring_seam(edge) if ring else None, times=own.spec.times),
            ends=ENDS_OF[edge.side], mirrored=edge.side in (EdgeSide.RIGHT, EdgeSide.BOTTOM))


def rings_of(cut: Cut, own: OwnPiece) -> Iterator[tuple[int, str]]:
    """Yield the number of a join, from 1, with the key of each edge whose two ends meet in it."""
    for side in EdgeSide:
        names = dict.fromkeys(p.name for p in own.edges.of(side) if p.name) if side.is_upright \
            else ()
        for edge in (EdgeOf(own.piece.key, side, name) for name in ("", *names)):
            if (at := ring_at(cut.outline.joins, own.edges, edge)) is not None:
                yield at + 1, edge.key


def _level(cut: Cut, own: OwnPiece, edge: EdgeOf) -> list[Section]:
    """An upper or lower edge, stitch for stitch; none below a hem."""
    piece, name = own.piece, _name(own, edge)
    if edge.side is EdgeSide.BOTTOM:
        return [] if piece.hem else [
            waiting(name, piece.stitches.value, cut.gauge, Offer.CAST_ON, made=piece.stitches.made)]
    if own.spec.top is TopEnds.WAITING:
        return [waiting(name, piece.top, cut.gauge, waits=piece.waits[0],
                        made=own.edges.across_top)]
    return [] if piece.ends is Ending.WASTE else [
        waiting(name, piece.top, cut.gauge, Offer.BOUND_OFF, made=own.edges.across_top)]


def _slopes(own: OwnPiece, side: EdgeSide, parts: Iterable[StretchOf]) -> tuple[NamedSlope, ...]:
    """The slopes of parts of a side by the names of their schedules: those of a left edge have
    others where they are not as the right one's."""
    names = {one.name for one in own.edges.slopes}
    return tuple(NamedSlope(f"{own.piece.key}.{_published(one.name, side, names)}", one)
                 for part in parts for one in part.slopes)


def _published(name: str, side: EdgeSide, names: Container[str]) -> str:
    left = f"left_{name}"
    return left if side is EdgeSide.LEFT and left in names else name


def _upright(cut: Cut, own: OwnPiece, edge: EdgeOf) -> list[Section]:
    """A side from the lower edge up, or a part of it, as it is drawn."""
    name, parts = _name(own, edge), _parts(own, edge)
    last = last_row(own.piece) if parts[-1].high == own.edges.rows.value else 0
    if edge.stretch:
        segments = [segment for part in parts
                    for segment in part.own.drawn(last * (part is parts[-1]))]
    else:
        segments = list(own.edges.profile(edge.side).drawn(last))
    foot = own.piece.hem if parts[0].low == 0 else None
    up, above = upright(segments)
    below = side_of(foot, up, cut.gauge, name) if foot and foot.rows_to_join + up else \
        [straight(name, up, cut.gauge.row, made=rows_of_edge(up, own.edges.rows))] if up else []
    slope = shaped(name, above, cut.gauge, slopes=_slopes(own, edge.side, parts))
    return [*below, slope] if slope else below

"""A garment of the designer's own pieces: each by points in measures, joined as declared."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..catalogue.forms import Construction, FormKind
from ..catalogue.methods import SEWN
from ..core.counted import Count
from ..core.expression import Expression
from ..core.operands import Role
from ..pattern.outlines import EdgeSide, OutlinePiece, OutlineSpec, TopEnds
from ..shape.garment import CannotShape, Cut, Extent, Garment
from ..shape.openings import Ending
from ..shape.piece import Piece
from ..shape.roundings import CountKind, Roundable
from ..words.terms.waiting_names import upper_edge_of
from . import form_tasks
from .body_counts import hem_of
from .builder import Builder
from .lengths import Lengths, across, lengths, on_foot, rows_high
from .outline_around import all_round
from .outline_corners import check_corners
from .outline_folds import folds_of, lowest_folds, mark_roles
from .outline_joins import OwnPiece, edges_of, joins_of, rings_of
from .outline_short_rows import kinds_of_short_rows, own_short_rows
from .outline_sides import OwnEdges, kinds, own_edges

HEM = "hem_rows"


def rounds(spec: OutlineSpec) -> Roundable:
    """Return the counts of own pieces that a designer can have rounded; the hem's is the first
    piece's."""
    made = {f"{piece.key} {name}": kind for piece in spec.pieces
            for name, kind in (*kinds(piece), *kinds_of_short_rows(piece))}
    return {**made, **{f"{piece.key} {HEM}": CountKind.ROWS for piece in spec.pieces[:1]}}


def builder(kind: FormKind) -> Builder:
    """Return how what a designer outlines is built."""
    return Builder(build)


def build(cut: Cut) -> Garment:
    """Return the pieces of an own outline, their joins, and every edge of theirs.

    Wherever a side lies in a seam it has a stitch more for it. Raises CannotShape, with the entry
    of the source and the figures.
    """
    spec = cut.outline
    made = [_piece(cut, piece, spec.pieces[0].key) for piece in spec.pieces]
    made = [replace(own, piece=replace(own.piece, mark_roles=mark_roles(cut, own))) for own in made]
    by_key = {own.piece.key: own for own in made}
    joins = joins_of(cut, by_key)
    rings = [ring for own in made for ring in rings_of(cut, own)]
    return Garment(form=Construction.OUTLINE, size=cut.size,
                   pieces=tuple(own.piece for own in made),
                   counts=tuple(_counts(made)), joins=tuple(join for join, _ in joins),
                   edges={key: edge_path for own in made for key, edge_path in edges_of(cut, own)},
                   tasks=form_tasks.outlined(joins, rings, folds_of(cut, by_key),
                                            several=len(made) > 1 or any(
                                                own.spec.times > 1 for own in made)),
                   lengths=_lengths(cut, made),
                   times={own.piece.key: own.spec.times for own in made if own.spec.times > 1},
                   sewn_below=frozenset(edge.piece for join in spec.joins for edge in join.edges
                                        if edge.side is EdgeSide.BOTTOM))


def _piece(cut: Cut, spec: OutlinePiece, first: str) -> OwnPiece:
    hem, hem_rows = hem_of(cut, first)
    check_corners(cut, spec)
    edges = own_edges(cut, spec, hem)
    short_rows, counted = own_short_rows(cut, spec, edges, hem)
    straight = not any(part.changes for part in (*edges.left, *edges.right))
    sewn_off = straight and (cut.repeat is not None
                             or (cut.chart is not None and cut.chart.leaves_out))
    waits = upper_edge_of(spec.title) \
        if sewn_off or spec.top is TopEnds.WAITING else ""
    try:
        piece = Piece(key=spec.key, title=spec.title, stitches=edges.cast_on, hem=hem,
                      left=edges.profile(EdgeSide.LEFT), right=edges.profile(EdgeSide.RIGHT),
                      moved=cut.moved, corners=edges.corners, slopes=edges.slopes,
                      marks=_marks(cut, spec, edges), short_rows=short_rows,
                      ends=Ending.WASTE if waits else Ending.BIND_OFF,
                      waits=(waits,) if waits else (),
                      top_is_free=not any(edge.piece == spec.key and edge.side is EdgeSide.TOP
                                          for join in cut.outline.joins for edge in join.edges),
                      repeat=cut.repeat if straight else None,
                      chart=cut.chart if straight else None,
                      bind_off_method=SEWN.name if sewn_off and spec.top is not TopEnds.WAITING
                      else "")
    except ValueError as fault:
        raise CannotShape(str(fault), "Change the widths of its corners.",
                          f"pieces.{spec.key}") from fault
    return OwnPiece(spec=spec, piece=piece, hem_rows=hem_rows,
                    edges=replace(edges, counts=(*edges.counts, *counted)))


def _marks(cut: Cut, spec: OutlinePiece, edges: OwnEdges) -> tuple[int, ...]:
    """The rows at which a thread shows where a joined part of an edge begins or ends, but where
    stitches that are bound off show it."""
    rows: set[int] = set()
    for edge in (edge for join in cut.outline.joins for edge in join.edges):
        if edge.piece != spec.key or not edge.stretch:
            continue
        parts = edges.of(edge.side)
        shown = {row for part in parts if part.level for row in (part.low, part.high)}
        rows |= {row for part in parts if part.name == edge.stretch
                 for row in (part.low, part.high)} - shown
    return tuple(sorted(row for row in rows if 0 < row < edges.rows.value))


def _counts(made: list[OwnPiece]) -> Iterator[tuple[str, str, Count]]:
    for own in made:
        yield from ((own.piece.key, name, count) for name, count in own.edges.counts)
        if own.hem_rows is not None:
            yield own.piece.key, HEM, own.hem_rows


def _lengths(cut: Cut, made: list[OwnPiece]) -> Lengths:
    """How far two pieces go round, how wide every piece is at its lower edge, without what its
    seams take, and how high it is."""
    around = all_round(cut, {own.piece.key: own for own in made})
    found: dict[str, Expression] = {"around": around} if around else {}
    for own in made:
        rows = own.edges.rows.term(Role.ROWS)
        found[Extent.WIDTH.of(own.piece.key)] = across(own.edges.cast_on, cut.gauge,
                                                 seams=sum(own.edges.seams_at(0)))
        found[Extent.HEIGHT.of(own.piece.key)] = on_foot(rows_high(rows, cut.gauge), own.piece.hem,
                                                   cut.gauge)
    found |= {Extent.DEPTH.of(key): deep for key, deep in _folded(cut, made)}
    return lengths(**found)


def _folded(cut: Cut, made: list[OwnPiece]) -> Iterator[tuple[str, Expression]]:
    """How high every piece is that is folded across, from its lower edge to the first fold."""
    pieces = {own.piece.key: own for own in made}
    for key, row in lowest_folds(cut, pieces).items():
        yield key, on_foot(rows_high(row, cut.gauge), pieces[key].piece.hem, cut.gauge)

"""The counts and shapings of a pattern as facts, each as it is shown: what its record keeps."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from ..compare.compared_facts import Fact, FactKey, FactKind
from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Operand
from ..core.note_arguments import Noted
from ..core.operands import Note, Role
from ..machine.top_row import top_row
from ..plan.band import BandPlan
from ..plan.pickup import PickUp
from ..proof.needles_used import needles_of
from ..proof.proof import KnittedPiece, Proof, SizeProof
from ..proof.yarn_shares import free_key
from ..shape.piece import Piece
from ..shape.profile import Profile
from ..words.moved import (
    LEFT_EDGE,
    LEFT_TAKEN,
    NECK_EDGE,
    OUTER_EDGE,
    RIGHT_EDGE,
    ROWS_TAKEN,
    count_shown,
    edge_closer,
    edge_shaped,
    rows_taken_closer,
    rows_taken_shown,
)
from .figures import ShownFigure, figures

FactPairs = Iterator[tuple[FactKey, Fact]]


def titles_of(proof: Proof) -> dict[str, str]:
    """Return what yarns, pieces and bands are called, by their keys."""
    titles = {key: yarn.name for key, yarn in proof.pattern.yarns.items()}
    for size in proof.sizes:
        taken = {plan.band.key for plan in size.plans}
        titles |= {free_key(p.piece.key, "piece", taken): p.piece.title for p in size.pieces}
        titles |= {plan.band.key: plan.band.title for plan in size.plans}
    return titles


def counted_places(size: SizeProof) -> Iterator[tuple[str, KnittedPiece | BandPlan]]:
    """Return the pieces of a size, then its bands, each with the key that its counts stand under.
    """
    yield from counted_pieces(size)
    for plan in size.plans:
        yield plan.band.key, plan


def counted_pieces(size: SizeProof) -> Iterator[tuple[str, KnittedPiece]]:
    """Return the pieces of a size, each with the key that its counts stand under."""
    taken = {plan.band.key for plan in size.plans}
    for piece in size.pieces:
        yield free_key(piece.piece.key, "piece", taken), piece


def counts_and_shapings(proof: Proof) -> FactPairs:
    """Return every count and shaping of all sizes."""
    for size in proof.sizes:
        for key, place in counted_places(size):
            if isinstance(place, BandPlan):
                yield from band_facts(place)
            else:
                yield from piece_facts(size, place, key)


def piece_facts(size: SizeProof, knitted: KnittedPiece, key: str) -> FactPairs:
    """Return the counts of a piece and the shaping of its edges; they stand under `key`."""
    for name, count in piece_counts(size, knitted):
        yield FactKey(size.size, FactKind.COUNT, key, name), count_fact(count)
    for name, edge in edges_of(knitted.piece).items():
        yield (FactKey(size.size, FactKind.SCHEDULE, key, name),
               Fact(edge.changes, partial(edge_shaped, edge), closer=partial(edge_closer, edge)))


def band_facts(plan: BandPlan) -> FactPairs:
    """Return the counts of a band, and which rows of its edge are taken."""
    for figure in figures(plan):
        yield FactKey(plan.size, FactKind.COUNT, plan.band.key, figure.name), _figure(figure)
    yield (FactKey(plan.size, FactKind.SCHEDULE, plan.band.key, ROWS_TAKEN),
           _taken(plan.pick_up))
    if plan.left:
        yield (FactKey(plan.size, FactKind.SCHEDULE, plan.band.key, LEFT_TAKEN),
               _taken(plan.left.pick_up))


def piece_counts(size: SizeProof, knitted: KnittedPiece) -> Iterator[tuple[str, Count]]:
    """A piece's own counts by name, its rows from 0 and the needles it takes at its widest."""
    assert size.assembled is not None
    piece = knitted.piece
    for key, name, count in size.assembled.garment.counts:
        if key == piece.key:
            yield name, count
    if (piece.key, "stitches") not in {(k, n) for k, n, _ in size.assembled.garment.counts}:
        yield "stitches", piece.stitches
    top = top_row(knitted.program.steps, knitted.trace.states)
    yield "rows", Count(Noted(Operand(Fraction(top), Role.BED), Note.TOP_ROW), Unit.ROWS)
    wide = Operand(Fraction(needles_of(knitted)), Role.BED)
    yield "widest", Count(Noted(wide, Note.WIDEST), Unit.NEEDLES)


def edges_of(piece: Piece) -> dict[str, Profile]:
    """Return the edges of a piece by what they are called."""
    edges = {LEFT_EDGE: piece.left, RIGHT_EDGE: piece.right}
    if piece.opening:
        edges |= {OUTER_EDGE: piece.opening.outer, NECK_EDGE: piece.opening.inner}
    return edges


def count_fact(count: Count) -> Fact:
    """Return a count as a fact."""
    return Fact(count.value, count_shown(count.value, count.unit.value), (count.made,),
                unit=count.unit.value)


def _taken(pick: PickUp) -> Fact:
    return Fact(pick.runs, partial(rows_taken_shown, pick), closer=partial(rows_taken_closer, pick))


def _figure(figure: ShownFigure) -> Fact:
    made = figure.made if isinstance(figure.made, tuple) else (figure.made,)
    return Fact(figure.value, count_shown(figure.value, figure.unit), made, unit=figure.unit)

"""The section of each piece of a garment: how it begins, then its steps."""

from __future__ import annotations

from ..pattern.model import GarmentSpec, Pattern
from ..proof.needles_used import needles_of
from ..proof.proof import KnittedPiece, SizeProof
from ..shape.piece import Piece
from ..words.begins import begins_text
from ..words.lying import is_shaped
from ..words.piece_text import piece_lead
from ..words.rolling import lower_edge_rolls, sides_roll
from ..words.stripe_instructions import stripes_lead
from .anchors import piece_anchor
from .chart_section import chart_section
from .placed_designer_notes import notes_at
from .program import steps_html
from .shaping_explained import sets_to_hold


def times_of(size: SizeProof, piece: KnittedPiece) -> int:
    """How often a piece is knitted."""
    return size.assembled.garment.times.get(piece.piece.key, 1) if size.assembled else 1


def piece_body(pattern: Pattern, size: SizeProof, piece: KnittedPiece) -> str:
    """Return what stands under a piece's heading: how it begins, and all its steps."""
    anchor, notes = piece_anchor(piece), notes_at(pattern.designer_notes, size, piece)
    rolls = lower_edge_rolls(pattern.bands, size, piece.piece) + sides_roll(
        pattern.garment, pattern.bands, piece.piece)
    return notes.around(piece_lead(piece, begins_text(size, piece), widest=needles_of(piece),
                                   times=times_of(size, piece), rolls=rolls,
                                   plain=_is_plain(pattern.garment, size, piece.piece))
            + stripes_lead(pattern.garment, pattern.materials, piece.piece)
            + chart_section(piece, anchor, rules=_rules_at(size, piece),
                            holds=sets_to_hold(size.pieces))
            + steps_html(piece, pattern, anchor, notes))


def _is_plain(spec: GarmentSpec | None, size: SizeProof, piece: Piece) -> bool:
    """True for a plain piece in a fabric apart from one that has a stitch pattern."""
    apart = spec is not None and bool(spec.piece_fabrics)
    return apart and piece.chart is None and not piece.repeat and any(
        other.piece.chart for other in size.pieces)


def _rules_at(size: SizeProof, piece: KnittedPiece) -> tuple[str, Piece]:
    """The first piece that is knitted from a chart by the same rules, and the id of its section."""
    first = next((p for p in size.pieces if p.piece.chart and not p.piece.is_straight
                  and is_shaped(p.piece) == is_shaped(piece.piece)), piece)
    return piece_anchor(first), first.piece

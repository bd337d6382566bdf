"""The ids of the sections of a size's page: of its pieces and of its bands."""

from __future__ import annotations

from ..markup.html import anchor
from ..proof.proof import KnittedPiece, Strip


def piece_anchor(piece: KnittedPiece) -> str:
    """The id of a piece's section; its steps' ids begin with it."""
    return anchor_of(piece.piece.key)


def anchor_of(key: str) -> str:
    """The id of the section of the piece with that key."""
    return f"p-{key.replace('_', '-')}"


def strip_anchor(strip: Strip) -> str:
    """The id of a strip's section; its steps' ids begin with it."""
    part = f"-{strip.plan.part.number}" if strip.plan.part else ""
    return f"{anchor(strip.plan.band.key)}-{strip.front.value}{part}"

"""The section of each piece of a garment, in knitting order: how it begins, then its steps."""

from __future__ import annotations

from ..core.counts import times_said
from ..markup.html import block, heading
from ..pattern.model import Pattern
from ..proof.proof import KnittedPiece, SizeProof
from ..shape.ribs import Rib
from ..words.words import counted, needles_said, stitches
from .chart_section import chart_section
from .materials import needles_of
from .program import tell


def piece_anchor(piece: KnittedPiece) -> str:
    """The id of a piece's section; its steps' ids begin with it."""
    return anchor_of(piece.piece.key)


def anchor_of(key: str) -> str:
    """The id of the section of the piece with that key."""
    return f"p-{key.replace('_', '-')}"


def piece_title(size: SizeProof, piece: KnittedPiece) -> str:
    """The heading of a piece: "Back", "Sleeve, knitted twice"."""
    times = times_of(size, piece)
    again = f", knitted {times_said(times)}" if times > 1 else ""
    return f"{piece.piece.title}{again}"


def _when(piece: KnittedPiece) -> str:
    return "above its rib" if isinstance(piece.piece.hem, Rib) else "to begin with"


def times_of(size: SizeProof, piece: KnittedPiece) -> int:
    """How often a piece is knitted."""
    return size.dressed.garment.times.get(piece.piece.key, 1) if size.dressed else 1


def piece_section(pattern: Pattern, size: SizeProof, piece: KnittedPiece) -> str:
    """Return a piece's heading, how it begins, and all its steps."""
    anchor, program = piece_anchor(piece), piece.program
    start, widest = piece.piece.needles, needles_of(piece)
    wide = f" At its widest it takes {counted(widest, 'needle')}." if widest > len(start) else ""
    times = times_of(size, piece)
    again = (f" Knit all of it {times_said(times)}; the pieces are alike."
             if times > 1 else "")
    where = needles_said(start) if len(start.spans()) < 4 else f"{start.first} to {start.last}"
    return (heading(2, piece_title(size, piece), anchor)
            + block(f"<p>{stitches(len(start))} {_when(piece)}, on needles "
                    f"<strong>{where}</strong>.{wide} Begin with an empty bed, no yarn in the "
                    f"feeder, and the carriage on the {program.starts.value}, set to knit."
                    f"{again}</p>")
            + chart_section(piece, anchor, first=_is_first_charted(size, piece))
            + tell(piece, pattern, anchor))


def _is_first_charted(size: SizeProof, piece: KnittedPiece) -> bool:
    """True for the first piece that is knitted from a chart."""
    return piece is next((p for p in size.pieces if p.piece.chart), None)

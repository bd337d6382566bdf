"""Names a size page for its scripts: which pattern, version and size, and what is knitted again."""

from __future__ import annotations

from ..markup.html import esc
from ..pattern.model import Pattern
from ..proof.proof import SizeProof
from ..source.materials import size_slug
from .pieces import anchor_of, piece_anchor, times_of


def edition(pattern: Pattern, size: SizeProof) -> str:
    """Attributes that name the pattern, version and size, and what is knitted again or in pairs."""
    again = " ".join(f"{piece_anchor(p)}:{times_of(size, p)}" for p in size.pieces
                     if times_of(size, p) > 1)
    marked = pattern.garment.side_by_side if pattern.garment else ()
    pairs = " ".join("+".join(map(anchor_of, keys)) for keys in marked)
    told = (("pattern", pattern.slug), ("version", pattern.version),
            ("size", size_slug(size.size)), ("title", f"{pattern.title}, size {size.size}"),
            ("times", again), ("pairs", pairs))
    return "".join(f' data-wb-{name}="{esc(value)}"' for name, value in told if value)

"""Names a size page for its scripts: which pattern, version and size, and what is knitted again."""

from __future__ import annotations

from ..model import Pattern
from ..proof import SizeProof
from ..read_materials import size_slug
from .html import esc
from .pieces import piece_anchor, times_of


def edition(pattern: Pattern, size: SizeProof) -> str:
    """Attributes that name the pattern, version and size, and pieces knitted more than once."""
    again = " ".join(f"{piece_anchor(p)}:{times_of(size, p)}" for p in size.pieces
                     if times_of(size, p) > 1)
    told = (("pattern", pattern.slug), ("version", pattern.version),
            ("size", size_slug(size.size)), ("title", f"{pattern.title}, size {size.size}"),
            ("times", again))
    return "".join(f' data-wb-{name}="{esc(value)}"' for name, value in told if value)

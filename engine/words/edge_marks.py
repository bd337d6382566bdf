"""What the threads tied into the edges of a piece mark: the making up calls them by these names."""

from __future__ import annotations

from collections.abc import Iterable

from ..markup.html import esc
from ..proof.proof import Strip, Work
from ..shape.mark_roles import MarkRole
from ..shape.piece import Piece
from .words import joined

_NAMED = {
    MarkRole.ARMHOLE: "the armhole mark, where the armhole begins",
    MarkRole.SLIT_BEGINS: "the lower mark, where the thumb's slit begins",
    MarkRole.SLIT_ENDS: "the upper mark, where the slit ends",
    MarkRole.NECK_BEGINS: "the lower neck mark, where the neck begins",
    MarkRole.NECK_ENDS: "the upper neck mark, where the neck ends",
    MarkRole.FOLD: "the fold mark, where the {title} is folded",
    MarkRole.FOLD_ENDS: "the upper mark, where the folded part ends",
}


def named_marks(work: Work, rows: Iterable[int]) -> str:
    """Return what the threads tied in when the row counter shows `rows` mark, as HTML after a
    space; "" where nothing names it. A corner of an own piece has the name that its source gives.
    """
    if isinstance(work, Strip):
        return ""
    return "".join(f" {_named(work.piece, row)}" for row in rows if _named(work.piece, row))


def _named(piece: Piece, row: int) -> str:
    text = _NAMED.get(piece.mark_role(row) or MarkRole.CORNER)
    if text:
        return f"This is {text.format(title=esc(piece.title.lower()))}."
    corners = [corner.name for corner in piece.corners or () if corner.row == row]
    return f"The threads mark {esc(joined(corners))}." if corners else ""

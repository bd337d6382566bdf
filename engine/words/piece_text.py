"""Words for how a piece of a garment begins: its title, its needles, how often it is knitted."""

from __future__ import annotations

from ..proof.proof import KnittedPiece
from ..shape.piece import Piece
from ..shape.ribs import Rib
from .begins import back_text
from .terms.schedules import times_text
from .words import counted, needles_text, stitches


def piece_title(piece: Piece, times: int) -> str:
    """The heading of a piece: "Back", "Sleeve, knitted twice"."""
    again = f", knitted {times_text(times)}" if times > 1 else ""
    return f"{piece.title}{again}"


def piece_lead(knitted: KnittedPiece, begins: str, *, widest: int, times: int, rolls: str = "",
               plain: bool = False) -> str:
    """How a piece begins that takes `widest` needles and is knitted so many `times`, as HTML.

    `begins` is `begins.begins_text` of it, and `rolls` says how its lower edge lies. One is `plain`
    where others have a stitch pattern.
    """
    start = knitted.piece.needles
    wide = f" At its widest it takes {counted(widest, 'needle')}." if widest > len(start) else ""
    if widest == len(start.stretch) > len(start):
        wide = f" With those left out of work it takes {counted(widest, 'needle')}."
    again = (f" Knit all of it {times_text(times)}; the pieces are alike.{back_text(knitted)}"
             if times > 1 else "")
    where = needles_text(start) if len(start.spans()) < 4 else f"{start.first} to {start.last}"
    made = " It is knitted in stocking stitch." if plain else ""
    has = "Above its rib the piece has" if isinstance(knitted.piece.hem, Rib) else \
        "The piece begins with"
    return (f"<p>{has} {stitches(len(start))} on needles "
            f"<strong>{where}</strong>.{wide}{made}{begins}{again}{rolls}</p>")

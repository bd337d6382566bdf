"""The folded band: knitted onto the edge, folded inward, closed along the line where it began."""

from __future__ import annotations

from ..band import BandPlan
from ..ledger import Ledger
from ..model import Closing, Fold
from ..needles import Needles
from ..program import (
    HOLE_CORD,
    Layout,
    all_of,
    close_holes,
    cord_of,
    fold,
    hole_spans,
    picots,
)
from ..steps import Dial
from .hung import SEAM_LINE, close_inside, ends, first_row, hang_edge
from .kind import Kind, Made


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> Made:
    """Return the steps: 1 row at the garment's dial, the rest tighter, equal layers (D04)."""
    book = Ledger(side=layout.hem.other)
    holes = hole_spans(plan, layout) if with_holes else ()
    rows = plan.rows
    hang_edge(book, plan, layout, garment_dial)
    done = first_row(book, plan)
    if holes:
        book.knit(rows.to_holes - done, "to the buttonholes")
        book.attend("choose holes", all_of(holes))
        for number, span in enumerate(holes, 1):
            book.hand_knit(span, HOLE_CORD, f"buttonhole {number}", cord=cord_of(number))
        book.attend("clip ends", all_of(holes))
        done = rows.to_holes
    book.knit(rows.to_holes + rows.holes_to_fold - done, "to the fold")
    book.section("First layer")
    fold(book, plan, layout)
    fills = picots(layout) if plan.band.fold is Fold.PICOT else Needles(0)
    if holes:
        book.knit(rows.fold_to_holes, "from the fold to the buttonholes' row", fills=fills)
        book.section("Second layer")
        close_holes(book, plan, layout, holes)
        book.knit(rows.to_finish, "to the end of the second layer")
        book.attend("look at holes")
    else:
        book.knit(rows.fold_to_holes + rows.to_finish, "to the end of the second layer",
                  fills=fills)
        book.section("Second layer")
    close_inside(book, plan, layout)
    ends(book, plan, bool(holes), folded=True)
    return Made(sections=tuple(book.sections), totals=book.totals,
                seams=((SEAM_LINE, plan.stitches.value),))


KIND = Kind(name="folded", layers=2, closings=(Closing.ENCLOSED,), page="bands/folded.html",
            stands=True,
            summary="knitted onto the edge and folded to the inside", make=make)

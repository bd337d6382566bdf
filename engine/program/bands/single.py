"""The single band: one layer knitted onto the edge, bound off, or left to roll.

Source: an online book, "How to Become an Expert Knitter" (B12).
"""

from __future__ import annotations

from ...machine.headings import Heading
from ...machine.needles import NONE, Needles
from ...machine.reasons import Reason
from ...machine.step_keys import Topic
from ...machine.steps import Dial
from ...pattern.holes import ButtonholeKind
from ...plan.band import BandPlan
from ..band_steps import knit_rows
from ..layout import Layout, hole_spans
from ..ledger import Ledger
from ..marks import second_needles
from . import layer_parts
from .buttonhole_steps import buttonhole_kind, feet, slits
from .hung import bind_off_all, ends, first_row, hang_edge, single_holes
from .kind import MadeBand


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return the steps: holes on the middle row (B12), bound off after a loose last row."""
    book = Ledger(side=layout.hem.other)
    holes = hole_spans(plan, layout) if with_holes else ()
    rows = plan.rows
    hang_edge(book, plan, layout, garment_dial)
    done = first_row(book, plan, layout)
    kind = buttonhole_kind(plan)
    if plan.mitre is not None:
        layout = layer_parts.mitred_first_layer(book, plan, layout,
                                                Reason.TO_END_OF_BAND, done=done)
    elif not holes or kind is ButtonholeKind.LOOPS or kind is None:
        knit_rows(book, plan, rows.to_holes + rows.holes_to_fold - done, Reason.TO_END_OF_BAND,
                  done=done)
        if holes:
            feet(book, holes)
    elif kind is ButtonholeKind.SLIT:
        slits(book, plan, layout, holes, rows.to_holes, rows.holes_to_fold, done=done)
    else:
        knit_rows(book, plan, rows.to_holes - done, Reason.TO_BUTTONHOLES, done=done)
        fills: Needles = single_holes(book, kind, holes, layout)
        _above_holes(book, plan, fills)
        book.attend(Topic.LOOK_AT_HOLES)
    book.section(Heading.BAND)
    leaves = bind_off_all(book, plan, layout)
    ends(book, plan, bool(holes), folded=False)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, leaves=leaves)


def _above_holes(book: Ledger, plan: BandPlan, fills: Needles) -> None:
    """The rows behind the holes; a row over two empty needles lays a long loop, to be turned."""
    rows, done = plan.rows.holes_to_fold, plan.rows.to_holes
    if buttonhole_kind(plan) is ButtonholeKind.TWO_STITCHES:
        knit_rows(book, plan, 1, Reason.OVER_EMPTY_NEEDLES, done=done, fills=fills)
        book.turn_loops(second_needles(fills, book.side))
        rows, done, fills = rows - 1, done + 1, NONE
    knit_rows(book, plan, rows, Reason.TO_END_OF_BAND, done=done, fills=fills)

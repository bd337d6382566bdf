"""The facing: knitted onto the edge, turned inside along a fold row, sewn down from waste yarn."""

from __future__ import annotations

from ...machine.headings import Heading
from ...machine.needles import Needles
from ...machine.reasons import Reason
from ...machine.step_keys import Topic
from ...machine.steps import Dial, Position
from ...pattern.model import Fold
from ...plan.band import BandPlan
from ...words.terms.waiting_names import facing_waits
from ..band_steps import fold, picots
from ..layout import Layout, hole_spans
from ..ledger import Ledger
from . import layer_parts
from .buttonhole_steps import feet
from .facing_fabric import behind_fold
from .hung import ends, first_row, hang_edge
from .kind import MadeBand


def make(plan: BandPlan, layout: Layout, garment_dial: Dial, with_holes: bool) -> MadeBand:
    """Return the steps: a row, the fold row, one layer, the stitches kept on waste yarn."""
    book = Ledger(side=layout.hem.other)
    hang_edge(book, plan, layout, garment_dial)
    first_row(book, plan, layout)
    if loops := hole_spans(plan, layout) if with_holes else ():
        feet(book, loops)
    book.section(Heading.JOINING_ROW)
    fold(book, plan, layout)
    fills = picots(layout) if plan.band.fold is Fold.PICOT else Needles(0)
    if plan.mitre is not None:
        layout = layer_parts.mitred_first_layer(book, plan, layout,
                                                Reason.TO_FACING_DEPTH, fills=fills)
    elif plan.facing is None:
        book.knit(plan.depth.value, Reason.TO_FACING_DEPTH, fills=fills)
    else:
        layout = behind_fold(book, plan, layout, fills)
    book.unthread(cut=True, reason=Reason.TO_SEW_DOWN)
    label = facing_waits(plan.part.number if plan.part else None)
    if plan.part is None:
        book.section(Heading.FACING)
    book.take_off(layout.needles, label)
    book.bring(layout.needles, Position.NON_WORKING)
    if plan.part is None:
        book.attend(Topic.SEW_FACING)
    book.section(Heading.FACING if plan.part else Heading.SEWING_DOWN)
    ends(book, plan, bool(loops), folded=False)
    return MadeBand(sections=tuple(book.sections), totals=book.totals, leaves=(label,))

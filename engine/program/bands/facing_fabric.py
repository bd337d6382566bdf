"""The change at the fold to the facing's own fabric: its needles, its dial, its yarn.

Source: It's All About the Color, "Faced Band" (P09).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ...machine.headings import Heading
from ...machine.needles import NONE, Needles, centred, of
from ...machine.reasons import Reason
from ...machine.set_up_steps import Weight
from ...machine.step_keys import StepYarn
from ...machine.steps import Position
from ...plan.band import BandPlan
from ..band_steps import AT_FOLD
from ..layout import Layout
from ..ledger import Ledger

if TYPE_CHECKING:
    from ...plan.facings import FacingPlan


def layer_yarn(plan: BandPlan) -> StepYarn:
    """The name of the yarn behind the fold."""
    return StepYarn.FACING if plan.facing and plan.facing.yarn != plan.band.yarn else StepYarn.MAIN


def behind_fold(book: Ledger, plan: BandPlan, layout: Layout, fills: Needles) -> Layout:
    """Knit the whole layer behind the fold in the facing's fabric; return where it lies.

    All stitches off on waste yarn and back on as many needles as the facing has stitches, what
    comes or goes spread evenly (P09); that they go by waste yarn is common practice, no source.
    Picots are filled by its first row, before the change.
    """
    facing = plan.facing
    assert facing is not None
    if fills:
        book.knit(1, Reason.TO_FILL_PICOTS, fills=fills)
    lies = layout
    if facing.places or layer_yarn(plan) == StepYarn.FACING:
        lies = _onto_its_needles(book, plan, layout, facing)
    book.set_dial(facing.dial, Reason.FOR_FACING)
    book.section(Heading.ANOTHER_FABRIC)
    book.knit(facing.rows.value - bool(fills), Reason.TO_FACING_DEPTH)
    return lies


def _onto_its_needles(book: Ledger, plan: BandPlan, layout: Layout, facing: FacingPlan) -> Layout:
    yarn = layer_yarn(plan)
    book.unthread(cut=yarn != StepYarn.MAIN)
    lies = layout
    if facing.places:
        row = book.counter
        book.take_off(layout.needles, AT_FOLD)
        if yarn == StepYarn.MAIN:  # its end hangs where the waste yarn began
            book.free_pass(Reason.TO_SIDE_WHERE_YARN_HANGS)
        book.set_counter(row, Reason.BEFORE_WASTE)
        lies = Layout(centred(facing.stitches.value, extra=layout.hem.value), layout.hem)
        if idle := layout.needles - lies.needles:
            book.bring(idle, Position.NON_WORKING)
        if more := lies.needles - layout.needles:
            book.bring(more)
        places = of(*map(lies.at, facing.places))
        gaps, doubled = (places, NONE) if facing.grows else (NONE, places)
        book.hang(AT_FOLD, lies.needles - gaps, onto_empty=True, doubled=doubled)
        if gaps:
            book.increase(gaps)
        book.hang_weights(Weight.EVEN, lies.needles, Reason.AGAIN)
    book.thread(yarn, fresh=yarn != StepYarn.MAIN)
    return lies

"""How a piece begins with a rib: needles left out, columns latched up, or two beds.

Source: Wikibooks, "Machine Knitting / Edges" (D03).
"""

from __future__ import annotations

from ..catalogue.methods import Method
from ..machine.headings import Heading
from ..machine.needles import NONE, Needles, of
from ..machine.reasons import Reason
from ..machine.rib_steps import Beds
from ..machine.set_up_steps import Carriage, Weight
from ..machine.step_keys import StepYarn, Topic
from ..machine.steps import Dial, Side
from ..pattern.rib_specs import RibEnds, RibMake
from ..shape.rib_stitches import changed_at
from ..shape.ribs import Rib, standing_out
from .hems import close_hem, first_layer, fold_row
from .ledger import Ledger
from .method_steps import cast_on, weigh_edge

FOOT = 1  # the row that stays as it was knitted, and stops a dropped column
# The zigzag row as tight as it goes, the round a number looser, then the rib's own: "2X2 Ribbing
# Circular Cast On", tommachineknittingguy, 2014 (T0, T1); the first also "Casting on, binding off
# double bed", alessandrina.com, 2019.
ZIGZAG, ROUND = Dial(0), Dial(3)


def knit_rib(book: Ledger, needles: Needles, rib: Rib, dial: Dial, *, inner: Side,
             method: Method, above: Needles) -> None:
    """The rib on its `needles`, then a stitch on every needle of the piece `above`, at its `dial`.

    A rib in one layer on one bed is cast on by its `method`.
    """
    shown = standing_out(needles, rib.works, rib.make, mirrored=inner is Side.RIGHT
                         and rib.ends is not RibEnds.RUN_ON)
    if rib.make is RibMake.MOCK:
        _mock(book, needles, shown, rib, method)
    elif rib.make is RibMake.LATCHED:
        _latched(book, needles, shown, rib, method)
    elif rib.make is RibMake.HUNG:
        _hung(book, needles, shown, rib, dial, inner)
    else:
        _two_beds(book, needles, shown, rib, above, inner)
    if needles != above and rib.make is not RibMake.TWO_BED:
        spread(book, needles, above, inner)
    book.set_dial(dial, Reason.FOR_PIECE)
    if book.counter:
        book.set_counter(0)
    if len(needles) > len(above) or (rib.make is RibMake.TWO_BED and rib.full):
        book.attend(Topic.DOUBLED_FORWARD, above)
    book.section(Heading.RIB)


def _mock(book: Ledger, needles: Needles, shown: Needles, rib: Rib, method: Method) -> None:
    """Needles left out for the rib's rows, then filled from the stitches beside them.

    Filled from beside, so that no row of holes is left (common practice, no source).
    """
    cast_on(book, shown, rib.dial, method)
    weigh_edge(book, shown, method)
    book.knit(rib.rows, Reason.OF_RIB)
    _fill(book, needles - shown)


def spread(book: Ledger, needles: Needles, above: Needles, inner: Side) -> None:
    """All stitches off and on again on the needles of the piece `above`, what is more or fewer
    spread evenly from its `inner` side: two on a needle, or a loop from beside on one that stays
    empty.

    By hand a bed spreads no other way, but for a few stitches: all beyond each place are moved
    (common practice, no source).
    """
    along = list(above) if inner is Side.LEFT else list(above)[::-1]
    places = of(*(along[at - 1] for at in changed_at(len(needles), len(above))))
    doubled, empty = (places, NONE) if len(needles) > len(above) else (NONE, places)
    book.close_up(needles, above, doubled, empty, Reason.ABOVE_RIB)


def _fill(book: Ledger, empty: Needles) -> None:
    if empty:
        book.increase(empty, Reason.TO_FILL_RIB)


def _hung(book: Ledger, needles: Needles, shown: Needles, rib: Rib, dial: Dial, inner: Side
          ) -> None:
    """Twice the depth over the needles in work, filled, and its first row hung (D03)."""
    first_layer(book, shown, rib.rows, rib.dial, dial)
    fold_row(book, rib.dial, Reason.FOR_OTHER_LAYER_OF_RIB)
    book.knit(rib.rows, Reason.TO_END_OF_RIB)
    _fill(book, needles - shown)
    close_hem(book, shown, rib, dial, inner)


def _latched(book: Ledger, needles: Needles, shown: Needles, rib: Rib, method: Method) -> None:
    """Plain rows, then every column that lies back dropped to the first row and latched up."""
    cast_on(book, needles, rib.dial, method)
    weigh_edge(book, needles, method)
    book.knit(rib.rows, Reason.OF_RIB)
    if back := needles - shown:
        book.latch(back, rib.rows - FOOT)


def _two_beds(book: Ledger, needles: Needles, shown: Needles, rib: Rib, above: Needles,
              inner: Side) -> None:
    """A zigzag row by turns, a round, the stitches to their beds, the rows, all to the main bed.

    The rib is begun with needles of the two beds by turns, whatever it is: side by side on one
    bed they form no loops in the zigzag row (Knitting Technology, 7.3.1; in this order common
    practice, no source).
    """
    main, second = _by_turns(needles, shown, rib)
    book.set_counter(0)
    book.raise_second()
    book.couple()
    if rib.full:
        book.rack(1, Reason.FOR_RIB)
    book.bring(main)
    book.bring_second(second)
    book.thread(StepYarn.MAIN, fresh=True)
    book.set_dial(min(ZIGZAG, rib.dial), Reason.FOR_ZIGZAG)
    book.set_carriage(Carriage.KNIT, Beds.BOTH)
    book.zigzag(main, second)
    book.hang_weights(Weight.COMB)
    book.set_dial(min(ROUND, rib.dial), Reason.FOR_CLOSING_ROWS)
    book.set_carriage(Carriage.SLIP, Beds.MAIN)
    book.knit_beds(1, Beds.SECOND, Reason.TO_CLOSE_EDGE)
    book.set_carriage(Carriage.KNIT, Beds.MAIN)
    book.set_carriage(Carriage.SLIP, Beds.SECOND)
    book.knit_beds(1, Beds.MAIN, Reason.TO_CLOSE_EDGE)
    if not rib.full:
        _arrange(book, main, second, shown)
        second = needles - shown
    book.set_carriage(Carriage.KNIT, Beds.BOTH)
    book.set_counter(0)
    book.set_dial(rib.dial, Reason.FOR_RIB)
    book.knit_beds(rib.rows, Beds.BOTH, Reason.FOR_RIB)
    if rib.full:
        book.rack(0, Reason.NEEDLE_FACES_NEEDLE)
    book.across(second, Beds.MAIN, Reason.ALL_OF_THEM, fewer=len(second) if rib.full else 0)
    book.weights_off()
    book.unthread(cut=False)
    book.uncouple()
    book.lower_second()
    if needles == above:
        book.hang_weights(Weight.EVEN, needles, Reason.AGAIN_ON_RIB)
    else:
        spread(book, needles, above, inner)
    book.thread(StepYarn.MAIN, fresh=False)


def _by_turns(needles: Needles, shown: Needles, rib: Rib) -> tuple[Needles, Needles]:
    """Return the needles of the main and of the second bed that the rib is cast on.

    With every needle in work the second bed's lie between the main bed's, one fewer. Else the
    beds take turns at every place, so that the fewest stitches have to move afterwards.
    """
    if rib.full:
        return needles, needles - of(needles.last)
    odd = of(*list(needles)[::2])
    turns = min((odd, needles - odd), key=lambda on: len(on - shown) + len(shown - on))
    return turns, needles - turns


def _arrange(book: Ledger, main: Needles, second: Needles, shown: Needles) -> None:
    """Stitches straight across to the bed that their place in the rib has them on."""
    if back := second & shown:
        book.across(back, Beds.MAIN, Reason.TO_SET_RIB)
    if out := main - shown:
        book.across(out, Beds.SECOND, Reason.TO_SET_RIB)


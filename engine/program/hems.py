"""How a piece begins with a hem hung on the bed: both layers, the fold, the row that closes it.

Sources: a web lesson, "Hems" (D02); Wikibooks, "Machine Knitting / Edges" (D03).
"""

from __future__ import annotations

from ..fabric.arrangement import onto_neighbours
from ..machine.headings import Heading
from ..machine.needles import NONE, Needle, Needles, of
from ..machine.reasons import Reason
from ..machine.set_up_steps import Weight
from ..machine.step_keys import StepYarn, Topic
from ..machine.steps import Dial, Side
from ..pattern.model import Fold
from ..shape.foot import Foot, Hem
from ..shape.ribs import Rib
from ..words.terms.waiting_names import HEM_FIRST_ROW, RIB_FIRST_ROW
from .band_steps import LOOSER, LOOSEST
from .ledger import Ledger
from .method_steps import waste_start


def knit_hem(book: Ledger, needles: Needles, hem: Hem, dial: Dial, *, inner: Side) -> None:
    """A hung hem: twice the depth at a tighter dial, a loose joining row (D02, D03).

    Its half loop is at the `inner` side, to the left of a piece that is not mirrored: there its
    first row ended.
    """
    first_layer(book, needles, hem.rows, hem.dial, dial)
    fills = _picots(book, needles, inner) if hem.fold is Fold.PICOT else fold_row(book, hem.dial)
    if hem.eyelets:
        book.knit(hem.rows // 2, Reason.TO_CORD_EYELETS, fills=fills)
        fills = _eyelets(book, needles, hem.eyelets, inner)
        book.knit(hem.rows - hem.rows // 2, Reason.TO_END_OF_HEM, fills=fills)
    else:
        book.knit(hem.rows, Reason.TO_END_OF_HEM, fills=fills)
    close_hem(book, needles, hem, dial, inner)
    book.section(Heading.HEM)


def _eyelets(book: Ledger, needles: Needles, places: tuple[int, ...], inner: Side) -> Needles:
    """A stitch moved onto the next one at every place; return the needles that are then empty.

    The layer above the fold is the outer one: the first row is folded up behind it.
    """
    along = list(needles) if inner is Side.LEFT else list(needles)[::-1]
    moved = of(*(Needle(along[at][0]) for at in places))
    book.transfer(moved, 1 if inner is Side.LEFT else -1, Reason.FOR_CORD, fewer=len(moved))
    return moved


def first_layer(book: Ledger, needles: Needles, rows: int, own: Dial, dial: Dial) -> None:
    """The rows up to the fold at a dial of their `own`, begun on waste yarn at the piece's."""
    waste_start(book, needles, dial)
    book.unthread(cut=True)
    book.thread(StepYarn.MAIN, fresh=True)
    book.set_dial(own)
    book.set_counter(0)
    book.knit(rows, Reason.TO_FOLD)


def folded_row(foot: Foot | None) -> str:
    """What the first row of a folded hem or rib is called, which is hung."""
    return RIB_FIRST_ROW if isinstance(foot, Rib) else HEM_FIRST_ROW


def fold_row(book: Ledger, dial: Dial, other: Reason = Reason.FOR_OTHER_LAYER) -> Needles:
    """A very loose row to fold along; it leaves no needle empty."""
    book.set_dial(min(LOOSEST, Dial(dial.thirds + LOOSER.thirds)), Reason.FOR_FOLD_ROW)
    book.knit(1, Reason.LOOSE_FOLD_ROW)
    book.set_dial(dial, other)
    return NONE


def close_hem(book: Ledger, needles: Needles, hem: Foot, dial: Dial, inner: Side) -> None:
    """The first row hung on the same needles, and the loose row that joins both layers.

    The cord comes out after that row: Hems, clearwaterknits.com; Cut and sew neckbands,
    longbuckbymk.com; Mock rib hem, myknittingmachinesandme.wordpress.com (needles forward).
    """
    book.weights_off()
    rib, row = isinstance(hem, Rib), folded_row(hem)
    book.hang(row, needles, onto_empty=False, half_at=inner)
    book.set_dial(hem.joining or Dial(dial.thirds + 3), Reason.FOR_JOINING_ROW)
    book.attend(Topic.NEEDLES_FORWARD, needles)
    book.knit(1, Reason.TO_JOIN_RIB if rib else Reason.TO_JOIN_HEM)
    book.draw_cord(row)
    book.hang_weights(Weight.EVEN, needles, Reason.AGAIN_ON_RIB if rib else Reason.AGAIN_ON_HEM)
    if hem.fold is Fold.PICOT:
        book.set_dial(dial, Reason.FOR_PIECE)
        book.knit(1, Reason.TO_BRING_CARRIAGE_BACK)
    book.set_dial(dial, Reason.FOR_PIECE)
    book.set_counter(0)


def _picots(book: Ledger, needles: Needles, inner: Side) -> Needles:
    """Every second stitch onto the next one; return the needles that are then empty."""
    places = list(needles) if inner is Side.LEFT else list(needles)[::-1]
    fills = NONE
    for by, moved in onto_neighbours(stay=places[2::2], move=places[1:-1:2]):
        book.transfer(moved, by, Reason.FOR_PICOTS, fewer=len(moved))
        fills |= moved
    return fills

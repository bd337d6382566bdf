"""The steps at a pocket: its opening in a front, and the way on for its lining.

Source: the author of The Neckline Encyclopedia, "Buttonhole band, method 1 revised" (D04).
"""

from __future__ import annotations

from ..machine.edge_steps import lower, upper
from ..machine.headings import Heading
from ..machine.needles import Needles
from ..machine.set_up_steps import Weight
from ..machine.step_keys import StepYarn
from ..machine.steps import Dial, Side
from ..shape.piece import Piece
from ..shape.pocket_slots import PocketSlot
from .ledger import Ledger


def open_pocket(book: Ledger, slot: PocketSlot, needles: Needles) -> None:
    """Knit the pocket's stitches by hand with a cord: its two edges wait on it.

    As large buttonholes are made (D04), which offer n stitches below and n + 1 loops above.
    """
    book.hand_knit(needles, StepYarn.POCKET_CORD, cord=slot.name)


def pocket_edges(piece: Piece) -> tuple[str, ...]:
    """The edges that a piece's pockets leave waiting on their cords."""
    return tuple(edge for slot in piece.pockets for edge in (lower(slot.name), upper(slot.name)))


def hang_on(book: Ledger, needles: Needles, edge: str, dial: Dial) -> None:
    """A piece that grows out of another: the loops of its edge on bare needles, one on each."""
    book.set_counter(0)
    book.bring(needles)
    book.hang(edge, needles, onto_empty=True,
              picks=tuple(range(1, len(needles) + 1)), from_side=Side.LEFT)
    book.thread(book.next_yarn, fresh=True)
    book.set_dial(dial)
    book.section(Heading.HANGING)
    book.hang_weights(Weight.EVEN, needles)

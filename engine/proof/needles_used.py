"""How many needles a piece or a strip of a band takes, and a bed that has them."""

from __future__ import annotations

from ..core.kept import kept_of
from ..machine import edge_steps, steps
from ..machine.needles import NONE, Needles
from .proof import KnittedPiece, Strip


@kept_of(64)  # a page has them several times
def needles_of(work: KnittedPiece | Strip) -> int:
    """The needles from the first to the last that a piece or strip ever has in work [needles]."""
    return work.plan.widest if isinstance(work, Strip) else _of_piece(work).across


@kept_of(64)
def bed_for(work: KnittedPiece | Strip) -> int:
    """The needles of the shortest bed that has all those that a piece or strip takes [needles].

    A bed has as many on either side of its middle (common practice, no source), so that it is
    twice as long as its longer side.
    """
    ever = _of_piece(work) if isinstance(work, KnittedPiece) else NONE
    for state in work.trace.states if isinstance(work, Strip) else ():
        ever |= state.loaded
    return 2 * max(ever.last.place + 1, -ever.first.place)


def _of_piece(work: KnittedPiece) -> Needles:
    """The needles that a piece ever has in work."""
    program, ever = work.program, work.piece.needles | work.piece.rib_needles
    for cast_on in program.of(steps.CastOn):
        ever |= cast_on.needles
    for increase in program.of(steps.Increase):
        ever |= increase.needles
    for hang in program.of(edge_steps.Hang):
        ever |= hang.needles if hang.onto_empty else NONE
    return ever

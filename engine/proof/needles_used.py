"""How many needles a piece or a strip of a band takes."""

from __future__ import annotations

from ..core.kept import kept_of
from ..machine import edge_steps, steps
from ..machine.needles import NONE
from .proof import KnittedPiece, Strip


@kept_of(64)  # a page has them several times
def needles_of(work: KnittedPiece | Strip) -> int:
    """The needles from the first to the last that a piece or strip ever has in work [needles]."""
    if isinstance(work, Strip):
        return work.plan.widest
    program, ever = work.program, work.piece.needles
    for cast_on in program.of(steps.CastOn):
        ever |= cast_on.needles
    for increase in program.of(steps.Increase):
        ever |= increase.needles
    for hang in program.of(edge_steps.Hang):
        ever |= hang.needles if hang.onto_empty else NONE
    return ever.across

"""How many ravel cords are in use at once: one stays in a piece until its edge is closed."""

from __future__ import annotations

from ..machine.edge_steps import DrawCord
from ..machine.programs import Program
from ..proof.proof import SizeProof


def cords_at_once(size: SizeProof) -> int:
    """Return the most ravel cords that are in use at a time, 0 where no program has one.

    A cord that its own program draws out is free again. Any other stays in the work until the
    making up draws it, which is done before the bands; one that a band hangs stays until then.
    """
    times = size.dressed.garment.times if size.dressed else {}
    staying = most = 0
    for knitted in size.pieces:
        if knitted.program.cord_yarn:
            each = times.get(knitted.piece.key, 1)
            stays = _stays(knitted.program)
            most = max(most, staying + (each if stays else 1))
            staying += each * stays
    for strip in size.strips:
        if strip.program.cord_yarn:
            most = max(most, 1)
    return most


def _stays(program: Program) -> bool:
    """True where the cord is still in the work at the program's end."""
    return not any(isinstance(step, DrawCord) and step.edge == program.first_row
                   for step in program.steps)

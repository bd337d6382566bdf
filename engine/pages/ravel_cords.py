"""How many ravel cords are in use at once: one stays in a piece until its edge is closed."""

from __future__ import annotations

from collections.abc import Iterator

from ..machine.edge_steps import DrawCord
from ..machine.programs import Program
from ..pattern.edges import Offer
from ..plan.band import BandPlan
from ..plan.method_choice import LOWER_EDGES
from ..proof.proof import SizeProof
from ..proof.yarn_extras import times_of


def cords_at_once(size: SizeProof) -> int:
    """Return the most ravel cords that are in use at a time, 0 where no program has one.

    A cord that its own program draws out is free again. Any other stays in its piece: until the
    making up draws it, which is done before the bands, or until a band has taken the stitches above
    it. Bands before that one, and that one too, need any cord of theirs besides.
    """
    staying: dict[str, int] = {}
    most = 0
    for knitted in size.pieces:
        if knitted.program.cord_yarn:
            each = times_of(size, knitted)
            stays = _stays(knitted.program)
            most = max(most, sum(staying.values()) + (each if stays else 1))
            staying[knitted.piece.key] = each * stays
    for key in staying.keys() - {k for plan in size.plans for k in _taken(plan)}:
        staying[key] = 0
    for strip in size.strips:
        for _ in range(strip.plan.edge_path.times):
            most = max(most, sum(staying.values()) + bool(strip.program.cord_yarn))
            for key in _taken(strip.plan):
                staying[key] = max(0, staying.get(key, 0) - 1)
    return most


def cord_starts(size: SizeProof) -> int:
    """Return how often pieces and bands begin above a ravel cord."""
    return sum(times_of(size, p) for p in size.pieces if p.program.cord_yarn) + \
        sum(s.plan.edge_path.times for s in size.strips if s.program.cord_yarn)


def _stays(program: Program) -> bool:
    """True where the cord is still in the work at the program's end."""
    return all(step.edge != program.first_row for step in program.of(DrawCord))


def _taken(plan: BandPlan) -> Iterator[str]:
    """The piece whose stitches above the cord a band takes."""
    if any(section.offer is Offer.ABOVE_CORD for section in plan.edge_path.sections):
        yield LOWER_EDGES[plan.band.garment_edge]

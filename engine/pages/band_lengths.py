"""The lengths of a band in one size: finished, at the back of a collar, from hole to hole."""

from __future__ import annotations

from ..core.counted import Reckoned
from ..core.expression import Operand, Term
from ..core.operands import Role
from ..core.units import Length
from ..machine.records import dataclass
from ..plan.band import BandPlan


def back_depth(plan: BandPlan) -> Reckoned | None:
    """How deep a collar with short rows is behind the neck; None for any other band."""
    short = plan.collar.short_rows
    if short is None:
        return None
    rows = plan.depth.term(Role.AT_ENDS) + short.extra.term(Role.NUMBER)
    return Reckoned(Term(rows, Role.ROWS) * Operand(plan.gauge.row, Role.ROW_HEIGHT))


def hole_spacing(plan: BandPlan) -> tuple[Length, ...]:
    """How far apart the holes lie, from the start of one to the start of the next, each width
    once."""
    if plan.placing is None:
        return ()
    return tuple(Length((gap + plan.placing.hole) * plan.along)
                 for gap in sorted(set(plan.placing.gaps)))


@dataclass(frozen=True, slots=True)
class Finished:
    """The finished band: its length along the edge and its depth when folded."""

    length: Reckoned
    depth: Reckoned


def finished(plan: BandPlan) -> Finished:
    """Return what the finished band measures."""
    if plan.is_lengthwise:
        return Finished(
            Reckoned(plan.stitches.term(Role.ROWS)
                     * Operand(plan.gauge.stitch, Role.ROW_HEIGHT)
                     * Operand(1 + plan.band.stretch, Role.SEWN_LONGER)),
            Reckoned(plan.deep))
    return Finished(
        Reckoned(plan.stitches.term(Role.STITCHES)
                 * Operand(plan.gauge.stitch, Role.STITCH_WIDTH)),
        Reckoned(plan.deep))

"""Words for the square corners that a band turns: what becomes of its free edge there."""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counts import whole
from ..core.units import Length
from ..markup.html import esc
from ..plan.band import BandPlan, depth_mm
from ..plan.mitres import MitrePlan
from ..shape.corners import Square, squares
from .words import counted, stitches


def _of(plan: BandPlan) -> tuple[Square, ...]:
    """Those of the whole edge, where a band in parts is sewn down in one."""
    return squares(plan.edge_path.sections if plan.part else [m.section for m in plan.meetings])


def _at(corners: tuple[Square, ...]) -> str:
    return f"each of its {len(corners)} square corners" if len(corners) > 1 else \
        "its square corner"


def _length(long: Fraction) -> str:
    return f"{Length(long).in_cm()} ({Length(long).in_inches()})"


def _taken(mitre: MitrePlan) -> Fraction:
    """By how many stitches a mitre makes the free edge longer at each corner [stitches]."""
    return Fraction(mitre.wider, len(mitre.turns.corners))


def corners_sewn(plan: BandPlan) -> str:
    """How far a facing is stretched at square corners, or laid in a fold; "" where it turns none.

    The line behind is longer, or shorter, by its depth on either side (geometry), less what a
    mitre gives or takes there. That the corners
    are pinned first is common practice, no source.
    """
    corners, own = _of(plan), plan.facing
    if not corners:
        return ""
    deep = own.rows.value * own.gauge.row if own else depth_mm(plan)
    off = corners[0].longer(deep, stands=False)
    if plan.mitre:
        off -= _taken(plan.mitre) * plan.gauge.stitch
    if off > 0:
        return (f" At {_at(corners)} it is longer by {_length(off)}, half of it on either side: "
                "pin the facing there first.")
    return (f" At {_at(corners)} the line behind it is {_length(-off)} shorter: lay so much of the "
            "facing in one flat fold, from the corner inward, and sew the fold down.")


def corners_turned(plan: BandPlan) -> str:
    """What a band that stands does at square corners for which it has too few stitches, as HTML.

    Its outer edge should be longer, or shorter, by its depth on either side (bands/one-piece.md);
    that a surplus is laid in a fold is common practice, no source. What a mitred facing leaves is
    said where it is sewn down.
    """
    corners, stands = squares(plan.edge_path.sections), KINDS[plan.band.kind].stands
    if not corners or (not stands and not plan.mitre) or (plan.band.mitre and not plan.mitre):
        return ""
    off = corners[0].longer(depth_mm(plan), stands=True)
    if plan.mitre:
        turned = counted(len(plan.mitre.turns.corners), "square corner")
        left = abs(off - _taken(plan.mitre) * plan.gauge.stitch)
        return esc(f" It is mitred at {turned}." + (
            f" At each the fabric gives the rest of the turn, {_length(left)}." if stands else ""))
    many = stitches(whole(abs(off) / plan.gauge.stitch))
    turns = counted(len(corners), "square corner")
    turns = f"{'The whole band' if plan.part else 'It'} turns {turns}"
    if off < 0:
        return esc(f" {turns}. At each its outer edge is {_length(-off)} too long, "
                   f"{many}: lay these in a fold from the corner outward, and sew it down inside.")
    return esc(f" {turns}. At each its outer edge is {_length(off)} too short, {many}: it "
               "draws the corner in where the fabric does not give enough.")

"""Words for the drawing of a band opened out flat."""

from __future__ import annotations

from ..pattern.holes import ButtonholeKind
from ..plan.band import BandPlan
from ..plan.buttonholes import Placing
from ..program.bands.buttonhole_steps import buttonhole_kind
from .words import counted, joined, stitches

TITLE = "The band opened out flat"


def drawing_text(plan: BandPlan, *, with_holes: bool, start: str = "hem") -> str:
    """The drawing in words; `start` names the end from which it is described."""
    r, holes = plan.rows, holes_drawn(plan, with_holes)
    text = f"{TITLE}: {stitches(plan.stitches.value)} along it. "
    if holes is None:
        closing = "" if plan.placing is None else \
            " Loops stand along the fold." if with_holes else " No buttonholes."
        return (text + f"{counted(plan.depth.value, 'row')} to the fold (the dashed line), "
                       f"{plan.depth.value} after it.{closing}")
    along = [stitches(holes.lower), f"{holes.buttonhole_count} buttonholes of {holes.hole}"]
    if holes.buttonhole_count == 1:
        along = [stitches(holes.lower), f"one buttonhole of {holes.hole}"]
    if holes.gaps:
        along.append(f"between them {', '.join(map(str, holes.gaps))}")
    along.append(f"then {stitches(holes.upper)} to the upper end")
    return (text + f"From the {start}: {joined(along)}. "
            f"{counted(r.to_holes, 'row')} to the buttonholes, {r.holes_to_fold} to the fold (the "
            f"dashed line), {r.fold_to_holes} to {_second(plan)} (dotted), "
            f"{r.to_finish} to the end. To scale along the band, not across it.")


def holes_drawn(plan: BandPlan, with_holes: bool) -> Placing | None:
    """The holes that the layers have; loops are no holes."""
    looped = buttonhole_kind(plan) is ButtonholeKind.LOOPS
    return plan.placing if with_holes and not looped else None


def _second(plan: BandPlan) -> str:
    return "where the holes are closed" if buttonhole_kind(plan) is ButtonholeKind.ENCLOSED else \
        "the same holes in the second layer"

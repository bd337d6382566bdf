"""The lengths of a band in one size: finished, at the back of a collar, from hole to hole."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..core.counts import decimal
from ..core.units import Length
from ..plan.band import BandPlan, depth_mm


def back_depth(plan: BandPlan) -> Length:
    """How deep a collar with short rows is behind the neck."""
    short = plan.collar.short_rows
    return Length((plan.depth.value + (short.extra.value if short else 0)) * plan.gauge.row)


def hole_spacing(plan: BandPlan) -> tuple[Length, ...]:
    """How far apart the holes lie, from the start of one to the start of the next, each width
    once."""
    if plan.placing is None:
        return ()
    return tuple(Length((gap + plan.placing.hole) * plan.gauge.stitch)
                 for gap in sorted(set(plan.placing.gaps)))


@dataclass(frozen=True, slots=True)
class Finished:
    """The finished band: its length along the edge and its depth when folded, with workings."""

    length: Length
    depth: Length
    length_working: str
    depth_working: str


def finished(plan: BandPlan) -> Finished:
    """Return what the finished band measures."""
    length, depth = Length(plan.stitches.value * plan.gauge.stitch), Length(depth_mm(plan))
    return Finished(
        length, depth,
        _product(plan.stitches.value, "stitches", plan.gauge.stitch, "a stitch", length),
        _product(plan.depth.value, "rows", plan.gauge.row, "a row", depth))


def _product(count: int, unit: str, each: Fraction, one: str, whole: Length) -> str:
    return f"{count} {unit} × {decimal(each, 3)} mm {one} = {whole.in_mm()}"

"""What is looked at in a whole garment beside its joins: does its neck go over a head, its hem."""

from __future__ import annotations

from fractions import Fraction

from .counts import decimal
from .garment import Garment
from .model import GarmentWish, HemWish, Pattern
from .problems import Problem, Severity, note
from .sizing.charts import Chart

STRETCH = Fraction(1, 3)  # what a knitted neck gives over its length; common practice, no source
OPENS = ("right_front.front_edge", "right_placket")  # edges of a garment that opens at the neck


def neck_over_head(pattern: Pattern, chart: Chart, garment: Garment) -> tuple[Problem, ...]:
    """Warn of a closed neck that must give more than a third to go over the chart's head.

    Its edge is measured as knitted, without a band; nothing is said where the chart has no head.
    """
    neck, head = garment.edges.get("neck"), chart.cell("head", garment.size)
    if neck is None or head is None or any(edge in garment.edges for edge in OPENS):
        return ()
    give = head.high.mm / neck.length - 1
    if give <= STRETCH:
        return ()
    return (note(Severity.WARNING, "neck-over-head", pattern.place("garment.measures"),
                 size=garment.size,
                 found=f"a neck {decimal(neck.length / 10, 1)} cm around for a head of "
                       f"{head.high.in_cm()}: it must give {decimal(give * 100, 0)} %",
                 expected=f"at most {decimal(STRETCH * 100, 0)} %",
                 remedy="Widen neck_width, deepen front_neck, or open the front."),)


def hem_not_swatched(pattern: Pattern, wish: GarmentWish, size: str, swatched: bool
                     ) -> tuple[Problem, ...]:
    """Say once that the rows of a hung hem are counted at the garment's own gauge."""
    if not isinstance(wish.hem, HemWish) or swatched or size != pattern.sizes[0]:
        return ()
    return (note(Severity.REMARK, "hem-not-swatched", pattern.place("garment.hem"),
                 found=f"a hem at dial {wish.hem.dial} counted by the rows of fabric {wish.fabric}",
                 expected="a swatch at the hem's dial",
                 remedy="Give a fabric of the same yarn at that dial with its swatch."),)

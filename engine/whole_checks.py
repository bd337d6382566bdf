"""What is looked at in a whole garment beside its joins: neck over head, neck to wrist, hem."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from .counts import decimal
from .fabrics.gauge import Gauge
from .garment import Garment
from .model import GarmentWish, HemWish, Pattern
from .problems import Problem, Severity, note
from .shaping.profile import Run, length_along
from .sizing.charts import Chart
from .units import Length

STRETCH = Fraction(1, 3)  # what a knitted neck gives over its length; common practice, no source
NECK_TO_WRIST = "centre back neck to wrist"
# How far the sleeve may end from the wrist, as a share of the way; common practice, no source.
MOST_OFF = Fraction(1, 10)
SEAM = 1  # stitches a seam takes of each side
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


def with_neck_to_wrist(garment: Garment, gauge: Gauge) -> Garment:
    """Return the garment with its way from the centre of the back neck to the wrist [mm].

    As knitted, along the fabric: half the back neck, over the shoulder to the sleeve, and the
    sleeve along its middle. In a raglan the shoulder is half the sleeve's top, in a saddle
    raglan the sleeve itself reaches the neck. A garment without sleeves is returned as it is.
    """
    sleeve = next((p for p in garment.pieces if p.key == "sleeve"), None)
    if sleeve is None:
        return garment
    along = sleeve.left.rows * gauge.row + (sleeve.hem.depth(gauge.row) if sleeve.hem else 0)
    way = Length(_to_the_sleeve(garment, gauge) + along)
    return replace(garment, finished={**garment.finished, NECK_TO_WRIST: way})


def _to_the_sleeve(garment: Garment, gauge: Gauge) -> Fraction:
    """From the centre of the back neck to the middle of the sleeve's upper edge [mm]."""
    counts = {(key, name): count.value for key, name, count in garment.counts}
    if ("back", "neck_opening_rows") in counts:  # knitted sideways: all of it is rows
        return (Fraction(counts["back", "neck_opening_rows"], 2)
                + counts["back", "shoulder_rows"]) * gauge.row
    half_neck = Fraction(counts["back", "neck_stitches"], 2) * gauge.stitch
    if ("back", "across") in counts:
        wide = (counts["back", "across"] - counts["back", "neck_stitches"]) // 2 - SEAM
        return half_neck + length_along([Run(wide, counts["back", "shoulder_rows"], None)], gauge)
    if ("sleeve", "top") in counts:
        top = Fraction(counts["sleeve", "top"], 2) - SEAM
        return half_neck + (top - SEAM) * gauge.stitch
    return half_neck


def neck_to_wrist(pattern: Pattern, chart: Chart, garment: Garment) -> tuple[Problem, ...]:
    """Warn of a sleeve that ends far from the wrist of the chart's body, beyond its range.

    Nothing is said where the chart has no such measure, nor of a short sleeve where the designer
    gave sleeve_length herself: that is her own wish.
    """
    way, cell = garment.finished.get(NECK_TO_WRIST), chart.cell("neck_to_wrist", garment.size)
    wish = pattern.garment
    if way is None or cell is None or wish is None:
        return ()
    off = max(cell.low.mm - way.mm, way.mm - cell.high.mm, Fraction(0))
    middle = (cell.low.mm + cell.high.mm) / 2
    short = way < cell.low
    if off <= MOST_OFF * middle or (short and "sleeve_length" in wish.measures):
        return ()
    return (note(Severity.WARNING, "neck-to-wrist", pattern.place("garment.measures"),
                 size=garment.size,
                 found=f"{way.in_cm()} from the centre of the back neck to the wrist for a body "
                       f"of {cell.span}: {decimal(off / middle * 100, 1)} % too "
                       f"{'short' if short else 'long'}",
                 expected=f"at most {decimal(MOST_OFF * 100, 0)} %",
                 remedy="Give sleeve_length, or change what lies across the shoulders."),)


def hem_not_swatched(pattern: Pattern, wish: GarmentWish, size: str, swatched: bool
                     ) -> tuple[Problem, ...]:
    """Say once that the rows of a hung hem are counted at the garment's own gauge."""
    if not isinstance(wish.hem, HemWish) or swatched or size != pattern.sizes[0]:
        return ()
    return (note(Severity.REMARK, "hem-not-swatched", pattern.place("garment.hem"),
                 found=f"a hem at dial {wish.hem.dial} counted by the rows of fabric {wish.fabric}",
                 expected="a swatch at the hem's dial",
                 remedy="Give a fabric of the same yarn at that dial with its swatch."),)

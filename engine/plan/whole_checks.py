"""What is looked at in a whole garment beside its joins: neck over head, neck to wrist, hem."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..catalogue.form_measures import HEADS
from ..core.counts import Unit, decimal, tenth
from ..core.problems import Problem, Severity, note
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..pattern.model import GarmentSpec, HemSpec, Pattern
from ..shape.garment import Garment
from ..shape.outline import outline
from ..shape.profile import Run, length_along
from ..shape.ribs import Rib
from ..sizing.charts import Chart

STRETCH = Fraction(1, 3)  # what a knitted neck gives over its length; common practice, no source
NECK_TO_WRIST = "centre back neck to wrist"
# How far the sleeve may end from the wrist, as a share of the way; common practice, no source.
MOST_OFF = Fraction(1, 10)
SEAM = 1  # stitches a seam takes of each side
OPENS = ("right_front.front_edge", "right_placket")  # edges of a garment that opens at the neck


def neck_over_head(pattern: Pattern, chart: Chart, garment: Garment) -> tuple[Problem, ...]:
    """Warn of a closed neck that must give more than a third to go over the chart's largest head.

    Its edge is measured as knitted, without a band; nothing is said where the chart has no head.
    """
    neck = garment.edges.get("neck")
    heads = [cell.high for row in HEADS if (cell := chart.cell(row, garment.size))]
    if neck is None or not heads or any(edge in garment.edges for edge in OPENS):
        return ()
    head = max(heads)
    give = head.mm / neck.length - 1
    if give <= STRETCH:
        return ()
    return (note(Severity.WARNING, "neck-over-head", pattern.place("garment.measures"),
                 size=garment.size,
                 found=f"a neck {decimal(neck.length / 10, 1)} cm around for a head of "
                       f"{head.in_cm()}: it must give {decimal(give * 100, 0)} %",
                 expected=f"at most {decimal(STRETCH * 100, 0)} %",
                 remedy="Widen neck_width, deepen front_neck, or open the front."),)


def with_neck_to_wrist(garment: Garment, gauge: Gauge) -> Garment:
    """Return the garment with its way from the centre of the back neck to the wrist [mm].

    As knitted, along the fabric: half the back neck, over the shoulder to the sleeve, and the
    sleeve along its middle, as high as it is drawn. In a raglan the shoulder is half the sleeve's
    top, in a saddle raglan the sleeve itself reaches the neck. Stitches that seams take are left
    out. The parts are measured to a tenth of a millimetre, so that they add up as they are
    printed. A garment without sleeves is returned as it is.
    """
    sleeve = next((p for p in garment.pieces if p.key == "sleeve"), None)
    if sleeve is None:
        return garment
    foot = "rib" if isinstance(sleeve.hem, Rib) else "hem"
    hem = f", with its {foot}," if sleeve.hem else ""
    parts = [*_to_the_sleeve(garment, gauge), (f"sleeve{hem}", outline(sleeve, gauge).height)]
    tenths = [(said, tenth(mm)) for said, mm in parts]
    way = Length(sum((mm for _, mm in tenths), Fraction(0)))
    working = " + ".join(f"{said} {decimal(mm, 1)}" for said, mm in tenths)
    return replace(garment, finished={**garment.finished, NECK_TO_WRIST: way},
                   workings={**garment.workings, NECK_TO_WRIST: f"{working} = {way.in_mm()}"})


Parts = list[tuple[str, Fraction]]  # what each is, and how long [mm]


def _to_the_sleeve(garment: Garment, gauge: Gauge) -> Parts:
    """From the centre of the back neck to the middle of the sleeve's upper edge."""
    counts = {(key, name): count.value for key, name, count in garment.counts}
    if ("back", "neck_opening_rows") in counts:  # knitted sideways: all of it is rows
        neck, rows = counts["back", "neck_opening_rows"], counts["back", "shoulder_rows"]
        return [(f"half of {Unit.ROWS.of(neck)} of neck", Fraction(neck, 2) * gauge.row),
                (f"{Unit.ROWS.of(rows)} of shoulder", rows * gauge.row)]
    neck = counts["back", "neck_stitches"]
    if ("sleeve", "top") in counts:  # a raglan: its seams take a stitch of either side
        neck, top = neck - 2 * SEAM, counts["sleeve", "top"] - 2 * SEAM
        return [_half(neck, "back neck", gauge), _half(top, "the sleeve's top", gauge)]
    half = _half(neck, "back neck", gauge)
    if ("back", "across") not in counts:
        return [half]
    wide, high = (counts["back", "across"] - neck) // 2 - SEAM, counts["back", "shoulder_rows"]
    return [half, (f"{Unit.STITCHES.of(wide)} of shoulder, sloping over {Unit.ROWS.of(high)},",
                   length_along([Run(wide, high, None)], gauge))]


def _half(stitches: int, what: str, gauge: Gauge) -> tuple[str, Fraction]:
    return (f"half of {Unit.STITCHES.of(stitches)} of {what}",
            Fraction(stitches, 2) * gauge.stitch)


def neck_to_wrist(pattern: Pattern, chart: Chart, garment: Garment) -> tuple[Problem, ...]:
    """Warn of a sleeve that ends far from the wrist of the chart's body, beyond its range.

    Nothing is said where the chart has no such measure, nor of a short sleeve where the designer
    gave sleeve_length herself: that is what she asks for.
    """
    way, cell = garment.finished.get(NECK_TO_WRIST), chart.cell("neck_to_wrist", garment.size)
    spec = pattern.garment
    if way is None or cell is None or spec is None:
        return ()
    off = max(cell.low.mm - way.mm, way.mm - cell.high.mm, Fraction(0))
    middle = (cell.low.mm + cell.high.mm) / 2
    short = way < cell.low
    if off <= MOST_OFF * middle or (short and "sleeve_length" in spec.measures):
        return ()
    return (note(Severity.WARNING, "neck-to-wrist", pattern.place("garment.measures"),
                 size=garment.size,
                 found=f"{way.in_cm()} from the centre of the back neck to the wrist for a body "
                       f"of {cell.span}: {decimal(off / middle * 100, 1)} % too "
                       f"{'short' if short else 'long'}",
                 expected=f"at most {decimal(MOST_OFF * 100, 0)} %",
                 remedy="Give sleeve_length, or change what lies across the shoulders."),)


def hem_not_swatched(pattern: Pattern, spec: GarmentSpec, size: str, swatched: bool
                     ) -> tuple[Problem, ...]:
    """Say once that the rows of a hung hem are counted at the garment's own gauge."""
    if not isinstance(spec.hem, HemSpec) or swatched or size != pattern.sizes[0]:
        return ()
    return (note(Severity.REMARK, "hem-not-swatched", pattern.place("garment.hem"),
                 found=f"a hem at dial {spec.hem.dial} counted by the rows of fabric {spec.fabric}",
                 expected="a swatch at the hem's dial",
                 remedy="Give a fabric of the same yarn at that dial with its swatch."),)

"""Words for gauges: of which fabric each is, and what its swatch is knitted as and counted by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import ceil

from ..core.expression import Expression, Operand
from ..core.units import Length
from ..fabric.arrangement import repeat_text
from ..fabric.chart_on_bed import place_repeat
from ..fabric.gauge import Gauge, measurements, row_made, stitch_made
from ..fabric.piece_fabrics import feet_of
from ..machine.steps import Dial
from ..markup.html import esc, link
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, GarmentSpec, HemSpec
from ..pattern.rib_specs import RibMake, RibSpec
from ..pattern.stitch_chart import StitchChart
from ..shape.ribs import RIBS
from .terms.spelled import spelled
from .words import counted, dial_text, joined, needles_text, stitches

LEAST = Fraction(9, 10)  # of the depth of a hem that is knitted tighter; common practice
BESIDE = 4  # stitches at either side of what is measured; common practice, no source
TRIED, TRIED_ROWS = 20, 10  # stitches and rows of a trial; common practice, no source
MEASURED = ("<p>Measured after washing and rest. "
            + link("../../techniques/swatch-and-gauge.html", "How to swatch and measure")
            + ". If your gauge differs, the page's counts give other measures.</p>")


def from_rule(band: Band, rule: Fraction, row: Fraction, *, alike: bool, whose: str) -> str:
    """By what a band is counted that was not swatched, and what to swatch, as HTML.

    `alike`: it is knitted in the yarn and at the dial of the garment, or of the pieces `whose` edge
    it takes. Else the width of its swatch is compared with that of a stitch by the rule, and a
    `row` of the garment [mm] is named as what its depth is counted by: at another dial a row is
    not as high.
    """
    wide, high = Length(10 * row / rule), Length(10 * row)
    swatch = "" if alike else (
        f" Knit a swatch of it first, which is not in the amounts of yarn: 10 stitches should be "
        f"about {wide} wide. Where they are narrower, set a higher number on the dial; where they "
        "are wider, a lower one. Its depth is counted by the rows of the edge, 10 of which are "
        f"about {high} high.")
    apart = f"no separate swatch, for yarn and dial are {esc(whose)}" if alike else "not swatched"
    return (f"<p>{esc(band.title)}: {apart}. Its stitches come from a rule, "
            f"{stitches(rule.numerator)} for every "
            f"{counted(rule.denominator, 'row')} of the edge; knitted at "
            f"dial {dial_text(band.dial)}.{swatch}</p>")


def hem_not_swatched(hem: HemSpec | RibSpec, depth: Length | None, *, tighter: bool, apart: bool
                     ) -> str:
    """By what a hem or rib is counted that was not swatched, and how it is tried first and
    measured as a swatch is (common practice, no source), as HTML; where all are of one `depth`, as
    counted, how deep it should be. `tighter`: than what it is counted by, so that its rows are less
    high. `apart`: the pieces are of several fabrics."""
    what = "rib" if isinstance(hem, RibSpec) else "hem"
    folded = not isinstance(hem, RibSpec) or hem.make is RibMake.HUNG
    span = ", from the fold to the top of the joining row" * folded
    right = f"{Length(depth.mm * LEAST)} to {depth}" if depth and tighter else f"about {depth}"
    slack = ", or slack" * tighter
    deep = (f": it should be {right} deep{span}. If it is deeper or shallower than that{slack}, "
            "change the dial setting and try again") if depth else ""
    whose = "the gauge of the piece above it" if apart else "the gauge of the pieces"
    less = (f" It is knitted tighter, at dial {dial_text(hem.dial)}, and may come out shallower: "
            "by how much is not known.") if tighter else ""
    return (f"<p>{what.capitalize()}: not swatched. Its rows are counted by {whose}.{less} "
            f"Try it first: knit the {what} and {TRIED_ROWS} rows above it over about {TRIED} "
            "stitches. This is not in the amounts of yarn. Measure it after washing and rest"
            f"{deep}.</p>")


def latched_not_swatched(band: Band, stitch: Fraction) -> str:
    """That a latched rib is narrower than the plain knitting it is counted by, a `stitch` of which
    is so wide [mm], and how far it has to reach all the same (common practice, no source); HTML."""
    return (f"<p>{esc(band.title)}: counted as stocking stitch. The latched rib draws in: latch up "
            "a part of the swatch, as wide as you can, and measure that too. Measure half-way up, "
            "away from the cast-on and the bound-off edge, the rib flat and drawn out gently. "
            f"It should then reach {Length(10 * stitch)} over 10 stitches, as counted. Where it is "
            "narrower, set a higher number on the dial.</p>")


def gauge_text(gauge: Gauge, yarn: str, dial: Dial) -> str:
    """A gauge with its yarn and its dial, as HTML."""
    return f"{gauge}, {esc(yarn)}, dial {dial_text(dial)}"


def gauge_short(gauge: Gauge, dial: Dial) -> str:
    """A gauge with its dial, as HTML."""
    return f"{gauge}, dial {dial_text(dial)}"


def gauge_working(name: str) -> str:
    """The label of the working of a gauge, as HTML."""
    return f"Working: {esc(name)} gauge"


def gauge_worked(gauge: Gauge) -> str:
    """How a gauge comes from its swatches: "40 stitches over 20 cm, 60 rows over 24 cm: ..."."""
    across, up = (list(_measurements(made(gauge.swatches))) for made in (stitch_made, row_made))
    each = "; ".join(map(", ".join, zip(across, up, strict=True)))
    mean = f", mean of {len(across)} measurements" if len(across) > 1 else ""
    return f"{each}{mean}: {gauge}"


def _measurements(made: Expression) -> Iterator[str]:
    """Every measurement of which a width or height is the mean: "40 stitches over 20 cm"."""
    for one in measurements(made):
        yield " over ".join(spelled(each.value, each.role, each.name) for each in (one.by, one.of)
                            if isinstance(each, Operand))


def knit_swatch(names: Sequence[str], spec: GarmentSpec | None, charts: Mapping[str, StitchChart],
                fabric: Fabric) -> str:
    """What the swatch of a fabric is knitted as, for the parts of those names; a sentence, HTML."""
    return f"{esc(joined(names))}: knit the swatch {_knitted_as(spec, charts, fabric)}"


def _knitted_as(spec: GarmentSpec | None, charts: Mapping[str, StitchChart], fabric: Fabric) -> str:
    for foot in feet_of(spec):
        if isinstance(foot, RibSpec) and foot.fabric == fabric.key:
            return _rib_text(foot, fabric)
    if fabric.repeat:
        return (f"with needles {repeat_text(fabric.repeat)} of work. Only the "
                "needles in work are counted.")
    chart = charts.get(fabric.chart)
    if chart is not None:
        out = " Only the needles in work are counted." if chart.leaves_out else ""
        return f"in the stitch pattern {esc(chart.title)}.{_charted(chart, fabric)}{out}"
    measured = max(swatch.stitches for swatch in fabric.swatches)
    return (f"in stocking stitch, with one needle out of work on each side of the {measured} "
            "stitches you measure.")


def _charted(chart: StitchChart, fabric: Fabric) -> str:
    """On which needles the swatch of a chart is knitted, and which of them are measured: the
    fabric's own number, with whole repeats of `BESIDE` stitches or more on both sides."""
    measured = max(swatch.stitches for swatch in fabric.swatches)
    inner, outer = ceil(Fraction(measured, chart.stitches)), ceil(Fraction(BESIDE, chart.stitches))
    laid = place_repeat(chart, (inner + 2 * outer) * chart.stitches + 2 * chart.edge)
    over = laid.at(range(laid.bounds[outer], laid.bounds[outer + inner])) & laid.needles
    left_out = laid.taken - laid.needles
    without = f", with {needles_text(left_out)} out of work" if left_out else ""
    return (f" Cast on {stitches(len(laid.needles))}, {laid.taken.first} to {laid.taken.last}"
            f"{without}. Measure the {len(over)} from {over.first} to {over.last}, "
            f"{counted(inner, 'repeat')}.")


def _rib_text(hem: RibSpec, fabric: Fabric) -> str:
    """A swatch of the rib itself, which of its stitches are counted, and what marks them."""
    name = next((name for name, works in RIBS.items() if works == hem.works), "")
    arranged = f"{name} " if name else ""
    if hem.make is RibMake.TWO_BED:
        many = max(swatch.stitches for swatch in fabric.swatches)
        each = (f": {many} are {many - many // 2} of the main bed and {many // 2} of the second"
                if all(hem.works) else "")
        return (f"as {arranged}rib on two beds. The stitches of both beds are counted{each}. Mark "
                f"the first and the last of the {many} stitches with a thread.")
    if hem.make is RibMake.LATCHED:
        return (f"as {arranged}latched rib. Every stitch is counted, latched or "
                "not.")
    return (f"as {arranged}mock rib, with the needles left out of work. Only the "
            "needles in work are counted.")

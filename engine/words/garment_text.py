"""Words for what a garment measures, whom it fits, and the yarn it takes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..core.counts import decimal
from ..core.units import Length
from ..markup.html import esc
from ..pattern.model import Band
from ..proof.yarn_requirement import ALLOWANCE, YarnRequirement
from ..shape.garment import Extent, OwnLength
from ..shape.own_corners import OwnCorner
from ..sizing.charts import Chart, Remark
from .terms.body_length_names import NECK_TO_WRIST
from .terms.working import working_of, workings_from
from .terms.yarn_shares_named import yarn_caution

COUNTS, YARN = "Counts of the pieces", "Yarn"
ABOUT_CHART = "What is known of this size chart"


def finished(measure: str, band: str, *, own: bool = False) -> str:
    """The label of a finished measure, with the band that it ends at; both are HTML. That of an
    `own` piece says how it lies on the bed: no seam is sewn yet."""
    return f"{measure[:1].upper()}{measure[1:]}{band}" if own else f"Finished {measure}{band}"


def fits_body(label: str) -> str:
    """The label of the body that a size is for."""
    return f"Fits {esc(label)}"


def ease_of(measure: str) -> str:
    """The label of the ease of a measure, which is HTML."""
    return f"Ease, {measure}"


def ease_in(measure: str) -> str:
    """The label of a row of ease of a measure, which is HTML."""
    return f"Ease: {measure}"


def body_of(label: str) -> str:
    """The label of a row of body measurements."""
    return f"Body: {esc(label)}"


def to_the_band(band: Band) -> str:
    """That a measure ends where a band is hung."""
    return esc(f", to the {band.title.lower()}")


def in_inches_too(text: str, low: Length, high: Length) -> str:
    """A length or a range in centimetres with its inches, to the quarter."""
    ends = dict.fromkeys((low.inch_figure(), high.inch_figure()))
    return f"{text} ({'–'.join(ends)} in)"


NECK_STRETCHED, HEAD = "Neck opening, stretched by a third", "head"
_KNITTED = {Extent.WIDTH: "width at the lower edge as knitted",
            Extent.HEIGHT: "length as knitted", Extent.DEPTH: "depth when folded"}
AROUND = "around"  # two own pieces, where the seams at both their sides end


BESIDE_BANDS = ", without the armhole bands"
FRONTS_FLAT = ", the front bands laid flat"  # they roll as they are worn, and cover less
AT_SIDES = " at the sides"
BEFORE_DRAWN = ", before the top is drawn up"
BEFORE_BANDS = ", without its bands"


def measure_text(name: str, *, short_sleeve: bool = False,
                 own: OwnLength | None = None) -> str:
    """A finished measure as a reader knows it; a `short_sleeve` reaches no wrist. One of an `own`
    piece is as knitted: what is its length there may go round a neck once it is sewn."""
    if own:
        seams = ", without seam stitches" if own.sewn and own.extent is Extent.WIDTH else ""
        return f"{own.piece.replace('_', ' ')}, {_KNITTED[own.extent]}{seams}"
    if name == AROUND:
        return "all round, where the side seams end"
    text = {"across": "width across the back", "hem": "lower edge, all round",
            "each side": "length of either short side"}
    if short_sleeve:
        text[NECK_TO_WRIST] = "centre back neck to the sleeve's edge"
    return text.get(name, name)


def all_round(title: str) -> str:
    """How far a piece goes round that its own seam makes a ring."""
    return f"{title}, all round"


def high_with_bands(title: str) -> str:
    """How high such a piece is with the bands on its edges."""
    return f"{title}, height with its bands"


# Counts whose key is the name of a measure too, which is not what they come to.
_COUNTED = {"across": "across the back", "underarm": "underarm stitches",
            "cap_top": "stitches of the cap's top", "panels": "how often the panel is knitted",
            "increases_above_rib": "stitches more above the rib",
            "decreases_above_rib": "stitches fewer above the rib",
            "rib_on_main_bed": "rib stitches on the main bed",
            "rib_on_second_bed": "rib stitches on the second bed",
            "rib_on_both_beds": "rib stitches on both beds",
            "apart_in_rib": "rib stitches from one of these to the next, at least",
            "plain_rows_first": "fewest plain rows at the start",
            "plain_rows_last": "fewest plain rows at the end",
            **{f"side_to_{to}_plain_rows_{which}":
               f"fewest plain rows at the {end} of the side to the {to}"
               for to in ("hip", "waist", "chest")
               for which, end in (("first", "start"), ("last", "end"))}}


_OF_RIB = {"cast_on": "stitches above the rib", "hem_rows": "rib rows"}


def count_text(name: str, *, ribbed: bool) -> str:
    """A count of a piece by its key, as a reader knows it; fewer are cast on for a rib, whose rows
    have the key of a hem's."""
    if ribbed and name in _OF_RIB:
        return _OF_RIB[name]
    return _COUNTED.get(name) or name.replace("_", " ")


def corner_counts(corners: Iterable[OwnCorner]) -> dict[str, str]:
    """The counts at the corners of own pieces, by their keys, as a reader knows them: each says of
    which part of the edge the corner is the end."""
    texts = {f"{side}_at_edge": f"at the lower edge at the {side}" for side in ("left", "right")}
    for corner in corners:
        at, rows_to = corner.counts
        texts |= {at: f"at {corner.name}", rows_to: f"rows to {corner.name}"}
    return texts


def yarn_lead(*, seams: bool, swatches: bool, pieces: bool) -> str:
    """What the amounts of yarn include, as HTML; without `pieces` the bands are all that counts."""
    sewn = ", the seams (estimated from the sizes of the pieces)" if seams else ""
    bands = "" if pieces else " of the bands"
    swatch = f" and a swatch of every fabric{bands} with its margins" if swatches else ""
    return (f"<p>The amounts cover all stitches, {decimal(ALLOWANCE * 100, 0)} % more for knots, "
            f"mending and a looser hand, the ends that are cut{sewn}{swatch}:</p>")


def yarn_text(requirement: YarnRequirement) -> str:
    """What is needed of a yarn, as a sentence of HTML, with what to take care of."""
    text = f"<strong>{esc(requirement.yarn.called)}:</strong> about {amount_text(requirement)}"
    if requirement.cautions:
        text += f". Take care: {esc('; '.join(map(yarn_caution, requirement.cautions)))}"
    return f"{text}."


def yarn_worked(requirement: YarnRequirement) -> str:
    """The sums of the grams, the metres and the packages, as far as they are known."""
    of_it = [(label, count) for label, count in (
        ("Metres: ", requirement.metres_made), ("Balls or cones: ", requirement.packages))
             if count is not None]
    labels, counts = [label for label, _ in of_it], [count for _, count in of_it]
    if requirement.grams is None:
        labels, workings = ["", *labels[1:]], tuple(map(working_of, counts))
    else:
        labels, workings = ["", *labels], workings_from(requirement.grams, counts)
    return ". ".join(f"{label}{one}" for label, one in zip(labels, workings, strict=False))


def amount_text(requirement: YarnRequirement) -> str:
    """Grams, metres and yards, packages and what is in one, as far as they are known."""
    parts = []
    if requirement.grams:
        parts.append(f"{requirement.grams.value} g")
    if requirement.metres:
        ends = f" of {requirement.yarn.ends} ends together" if requirement.yarn.ends > 1 else ""
        parts.append(f"{requirement.metres.value} m{ends} ({requirement.yards} yd)")
    weighed, each = "", requirement.yarn.package_g
    if requirement.packages and each:
        weighed = f": {requirement.packages.value} × {decimal(each, 0)} g"
    elif requirement.packages:
        whole = "ball or cone" if requirement.packages.value == 1 else "balls or cones"
        parts.append(f"{requirement.packages.value} {whole}")
    return ", ".join(parts) + weighed or "an amount that is not known"


def chart_named(chart: Chart) -> str:
    """Which size chart the body measurements are from, as HTML."""
    own = "".join(f" Size {esc(size)} is the chart's {esc(column)}." if column else
                  f" The body of size {esc(size)} is the designer's." for size, column in
                  chart.columns.items() if size != column)
    return f"<p>Body measurements: {esc(chart.title)}, {esc(chart.publisher)}.{own}</p>"


MEASURE_BODY = ("<p>So measure the wearer, and compare with the finished measures above. Where "
                "they do not suit, take another size.</p>")


def of_the_chart(remarks: Sequence[Remark]) -> str:
    """What is known of the measures of the body on a page, a line each, and what to do about it, as
    HTML."""
    notes = "".join(f"<p>A note of the size chart: {esc(remark.line.partition(':')[0])}.</p>"
                    for remark in remarks)
    return notes + MEASURE_BODY * bool(notes)


def chart_remark(remark: Remark, sizes: Sequence[str]) -> str:
    """What is known of a chart, of which `sizes` it is (none: of all), and its source; HTML."""
    whose = f"size{'s' if len(sizes) > 1 else ''} {', '.join(sizes)}" if sizes else "all sizes"
    return f"{esc(remark.text)} ({whose}; {esc(remark.source)})"

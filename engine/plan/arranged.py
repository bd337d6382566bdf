"""Bands and needles left out of work: which are laid out so, and which are refused, and why.

A band is counted from the swatch of its fabric. Where that was knitted with needles left out of
work, the band is too: so only rows without holes, moved stitches and chains are laid out, and
what waits one for one must lie on the same needles (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..catalogue.bands import KINDS, kinds_that
from ..catalogue.forms import FORM_KINDS
from ..core.counts import Rounding, outright
from ..core.problems import Problem, error
from ..core.text_kinds import FindingText
from ..fabric.arrangement import allowed_counts, repeat_text
from ..machine.steps import Dial
from ..pattern.edges import EdgeSpec, Offer
from ..pattern.fabrics import Fabric, Materials, Repeat, swatched_plain
from ..pattern.model import Band, Fold, GarmentSpec, Pattern
from ..pattern.places import Places
from ..shape.edge_path import EdgePath

CLOSED = ("brim", "cuff")  # edges of a piece whose two sides one seam joins
SEWN_OFF = "back-stitched"  # a chain needs stitches on needles side by side
_NUMBERS: Mapping[str, FindingText] = {"even": "an even number", "odd": "an odd number"}
PLAIN: FindingText = "name a fabric of every needle"


def edge_fabrics(spec: GarmentSpec | None, edges: Mapping[str, EdgeSpec], band: Band
                ) -> tuple[str, ...]:
    """The fabrics of the edge a band takes: its own where the source gives one, else those of the
    pieces that have it, of a front first."""
    if band.edge in edges:
        return (edges[band.edge].fabric,)
    assert spec is not None
    pieces = FORM_KINDS[spec.form].pieces_at(band.edge)
    return tuple(dict.fromkeys(map(spec.fabric_of, pieces)))


def edge_fabric(spec: GarmentSpec | None, edges: Mapping[str, EdgeSpec], band: Band) -> str:
    """The fabric of the edge a band takes, of several that of the front."""
    return edge_fabrics(spec, edges, band)[0]


def knits_as_edge(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric],
                  edges: Mapping[str, EdgeSpec], band: Band) -> bool:
    """True for a band in the yarn and at the dial of its edge, where that is stocking stitch."""
    fabric = fabrics[edge_fabric(spec, edges, band)]
    return (band.yarn, band.dial) == (fabric.yarn, fabric.dial) and not (
        fabric.chart or fabric.repeat)


def looser_dial(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric],
                edges: Mapping[str, EdgeSpec], band: Band) -> Dial:
    """The dial at which the edge of a band was knitted, of several fabrics the looser one."""
    return max(fabrics[key].dial
               for key in edge_fabrics(spec, edges, band))


def arranged(fabrics: Mapping[str, Fabric], edges: Mapping[str, EdgeSpec], band: Band
            ) -> Repeat | None:
    """The needles in and out of work of the band's own fabric; None where every needle works."""
    return _laid(fabrics, edges, band, band.fabric) if band.fabric else None


def _laid(fabrics: Mapping[str, Fabric], edges: Mapping[str, EdgeSpec], band: Band, fabric: str
         ) -> Repeat | None:
    """The repeat of a fabric as it lies along the band's edge.

    A hat's brim and a mitten's cuff are closed by the seam of the piece, so that it runs on.
    """
    repeat = fabrics[fabric].repeat
    closed = band.edge in CLOSED and band.edge not in edges
    return repeat.closed() if repeat and closed else repeat


def refusals(pattern: Pattern, band: Band) -> tuple[Problem, ...]:
    """Return an error for everything in the band that needles left out of work do not allow."""
    repeat = arranged(pattern.fabrics, pattern.edges, band)
    if repeat is None:
        return (*_in_two_fabrics(pattern.places, pattern.garment, pattern.edges, band),
                *_by_rule(pattern, band))
    return tuple(
        error("needles-in-band", pattern.places.of(f"bands.{band.key}.{key}"),
              found=f'{found} in a band of the fabric "{band.fabric}", with needles '
                    f"{repeat_text(repeat)} of work",
              expected=expected, remedy=f"{remedy}, or {PLAIN}.")
        for key, found, expected, remedy in _not_laid_out(pattern.places, pattern.fabrics, band))


def _not_laid_out(places: Places, fabrics: Mapping[str, Fabric], band: Band
                  ) -> Iterator[tuple[str, FindingText, FindingText, FindingText]]:
    """What cannot be: its key, what is found, what is expected, what to do."""
    kind = KINDS[band.kind]
    if not kind.lays_out:
        key = "kind" if f"bands.{band.key}.kind" in places else "fabric"
        yield (key, f"the kind {band.kind}",
               f"one of {', '.join(kinds_that(lambda one: one.lays_out))}", "Choose another kind")
        return
    if kind.lengthwise and swatched_plain(fabrics, band.fabric or "") is None:
        yield ("fabric", "rows along its edge", "another fabric of the same yarn at the same dial, "
               "with every needle in work: its swatch tells the width of the stitches that stand "
               "side by side at the band's edges", "Knit that swatch, and describe it as a fabric")
    if kind.fold is not None and band.fold is not Fold.LOOSE:
        yield ("fold", f"a {band.fold.value} fold", "a loose fold row", "Write fold: loose")
    if kind.bind_offs and band.bind_off != SEWN_OFF:
        yield ("bind_off", "stitches chained off" if not band.bind_off else
               f"bind_off: {band.bind_off}", "stitches sewn off waste yarn: a chain needs them on "
               "needles side by side", f"Write bind_off: {SEWN_OFF}")
    if band.buttonholes:
        yield ("buttonholes", "buttonholes", "none: a hole needs stitches on needles side by side",
               "Leave them out")
    if band.mitre:
        yield "mitre", "a mitre", "none: it moves stitches", "Leave it out"
    if band.facing_fabric:
        yield ("facing_fabric", "a facing of another fabric", "the same needles in both layers",
               "Leave it out")


def _in_two_fabrics(places: Places, spec: GarmentSpec | None, edges: Mapping[str, EdgeSpec],
                    band: Band) -> tuple[Problem, ...]:
    """A rule counts by rows of the edge, which are of two heights where it lies in two fabrics."""
    fabrics = edge_fabrics(spec, edges, band)
    if band.pick_up is None or len(fabrics) == 1:
        return ()
    named = " and ".join(f'"{key}"' for key in fabrics)
    return (error("edge-in-two-fabrics", places.of(f"bands.{band.key}.pick_up"),
                  found=f"a band without a swatch along an edge of the fabrics {named}",
                  expected="a fabric of the band's own: rows and stitches of the edge are not all "
                           "alike",
                  remedy="Knit a swatch of the band, and name its fabric in place of pick_up."),)


def _by_rule(pattern: Pattern, band: Band) -> tuple[Problem, ...]:
    """A rule counts depth and stitches from the edge's fabric, which is knitted otherwise."""
    edge = edge_fabric(pattern.garment, pattern.edges, band)
    left_out = _leaves_out(pattern.materials, edge)
    if band.pick_up is None or not left_out:
        return ()
    return (error("needles-at-edge", pattern.places.of(f"bands.{band.key}.pick_up"),
                  found=f'a band without a swatch along an edge of fabric "{edge}", with '
                        f"needles {left_out} of work",
                  expected="a fabric of the band's own: a row and a stitch of the edge's are not "
                           "those of every needle",
                  remedy="Knit a swatch of the band, and name its fabric in place of pick_up."),)


def _leaves_out(materials: Materials, key: str) -> FindingText:
    """Which needles of a fabric work, in words; "" where every needle does."""
    fabric = materials.fabrics[key]
    chart = materials.stitch_charts.get(fabric.chart)
    if chart is not None and chart.leaves_out:
        return f"{chart.stitches} in, {chart.width - chart.stitches} out"
    return repeat_text(fabric.repeat) if fabric.repeat else ""


def rounded_to(places: Places, band: Band, size: str, repeat: Repeat | None
               ) -> tuple[Rounding, tuple[Problem, ...]]:
    """Return what the band's stitches are rounded to, so that its needles fit the repeat: to the
    number that the designer gives, where she does.

    With the error where what was asked of the count never does.
    """
    if size in band.along:
        return _given(places, band, size, repeat)
    if repeat is None:
        return band.rounding, ()
    fits = allowed_counts(repeat)
    both = band.rounding.among(fits)
    if both is not None:
        return both, ()
    return fits, (error(
        "cannot-round", places.of(f"bands.{band.key}.round"),
        found=f'band "{band.key}" rounded to {band.rounding}',
        expected=f"{fits}, as needles {repeat_text(repeat)} of work need it",
        remedy="Leave the rounding out, or use another fabric."),)


def _given(places: Places, band: Band, size: str, repeat: Repeat | None
           ) -> tuple[Rounding, tuple[Problem, ...]]:
    """The number that the designer gives; with the error where no band of its kind has it."""
    given = outright(band.along[size])
    fits = allowed_counts(repeat) if repeat is not None else band.rounding
    if given.among(fits) is not None:
        return given, ()
    return given, (error(
        "cannot-round", places.of(f"bands.{band.key}.stitches", size), size=size,
        found=f'band "{band.key}" of {band.along[size]} stitches',
        expected=f"{_NUMBERS.get(fits.rule, fits)}, as its rib or the needles left out of work "
                 "need it",
        remedy="Write such a number, or leave stitches out."),)


def not_closed(places: Places, fabrics: Mapping[str, Fabric], edges: Mapping[str, EdgeSpec],
               band: Band, size: str, stitches: int) -> tuple[Problem, ...]:
    """Return an error where so many stitches do not fit the repeat of the band's fabric."""
    repeat = arranged(fabrics, edges, band)
    if repeat is None:
        return ()
    fits = allowed_counts(repeat)
    over = stitches - fits.plus
    if over >= 0 and over % fits.of == 0:
        return ()
    return (error("needles-in-band", places.of(f"bands.{band.key}.fabric"), size=size,
                  found=f"a band of {stitches} stitches, needles {repeat_text(repeat)} of work",
                  expected=f"stitches that fit whole repeats: {fits}",
                  remedy="Change edge_stitches or the length of the edge, or "
                         "name a fabric of every needle."),)


def stitches_apart(pattern: Pattern, band: Band, size: str, edge_path: EdgePath
                   ) -> tuple[Problem, ...]:
    """Return an error where stitches hung one for one would lie closer, or farther, than they did.

    That is so where the edge's fabric and the band's do not have the same needles in work.
    """
    edge = next((key for key in edge_fabrics(pattern.garment, pattern.edges, band)
                 if _leaves_out(pattern.materials, key)),
                edge_fabric(pattern.garment, pattern.edges, band))
    own = arranged(pattern.fabrics, pattern.edges, band)
    below = _laid(pattern.fabrics, pattern.edges, band, edge)
    left_out = _leaves_out(pattern.materials, edge)
    waits = next((s for s in edge_path.sections if s.offer is not Offer.ROWS), None)
    if waits is None or band.pick_up is not None or (own is None and not left_out) or (
            own and own == below):
        return ()
    band_text = f"needles {repeat_text(own)} of work" if own else "every needle in work"
    edge_text = f"needles {left_out} of work" if left_out else "every needle in work"
    return (error("needles-at-edge", pattern.places.of(f"bands.{band.key}.fabric"), size=size,
                  found=f"a band with {band_text} on {waits.places} stitches of the "
                        f"{waits.name}, knitted with {edge_text}",
                  expected="the same needles in both, where stitches are hung one for one",
                  remedy="Give the band a fabric with "
                         + (f"needles: {left_out.replace(',', '')}." if left_out and below else
                            "every needle in work.")),)

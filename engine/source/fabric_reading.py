"""What a pattern is made of: its fabrics with their swatches, and sizes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import TypeVar

from ..catalogue.bands import KINDS
from ..core.text import clip
from ..core.units import length_cm
from ..fabric.piece_fabrics import foot_fabrics, piece_fabrics
from ..pattern.cells import Cell
from ..pattern.fabrics import Fabric, Repeat, Swatch, Yarn, swatched_plain
from ..pattern.model import Pattern
from ..pattern.stitch_chart import StitchChart
from .fields import Fields, Findings, open_fields
from .keys.fabric_keys import FabricKeys, SwatchKeys
from .keys.pattern_keys import PatternKeys
from .likely import check_gauge, check_mass, check_measured
from .spellings import NeedleRepeat
from .values import Entry, Reader, name_of

T = TypeVar("T")

SMALL_SWATCH = length_cm(10)  # a narrower one is warned about: its edges weigh too much


def named(what: str, known: Mapping[str, T | None]) -> Reader[T | None]:
    """A reader of a name among `known`; None for one whose own entry has a recorded fault.

    Where nothing is known the whole section is at fault, and its users are not to blame.
    """
    return name_of(what, known) if known else lambda entry: None


def whole(found: Mapping[str, T | None]) -> dict[str, T]:
    """Those of `found` that have no fault."""
    return {key: value for key, value in found.items() if value is not None}


def read_fabrics(fields: Fields, yarns: Mapping[str, Yarn | None],
                 charts: Mapping[str, StitchChart | None] | None) -> dict[str, Fabric | None]:
    """The pattern's fabrics by their keys; None for one with a fault."""
    return {entry.label: _fabric(fields.findings, entry, yarns, charts)
            for entry in fields.each(PatternKeys.fabrics)}


def _fabric(findings: Findings, entry: Entry, yarns: Mapping[str, Yarn | None],
            charts: Mapping[str, StitchChart | None] | None) -> Fabric | None:
    own = open_fields(findings, entry, f'fabric "{clip(entry.label)}"', FabricKeys)
    if own is None:
        return None
    yarn = own.need_as(FabricKeys.yarn, named("yarn", yarns))
    setting = own.need(FabricKeys.dial)
    swatches = _swatches(own, yarn)
    repeat = _repeat(own)
    chart = _chart(own, charts)
    contrast, most = _contrast(own, yarns, charts, chart), _longest_float(own)
    if (yarn is None or setting is None or not swatches or chart is None
            or contrast is None or (repeat is None and "needles" in own)):
        return None
    return Fabric(key=entry.label, yarn=yarn.key, dial=setting, swatches=swatches, repeat=repeat,
                  chart=chart, contrast=contrast, longest_float=most)


def _chart(fabric: Fields, charts: Mapping[str, StitchChart | None] | None) -> str | None:
    """The name of the fabric's chart, "" where it has none; None once a fault is recorded.

    Where all charts are at fault (None), their users are not to blame.
    """
    if "chart" not in fabric or charts is None:
        return ""
    if "needles" in fabric:
        fabric.refuse_both(FabricKeys.needles, FabricKeys.chart)
        return None
    return fabric.need_as(FabricKeys.chart, name_of("chart", {name: name for name in charts}))


def _contrast(fabric: Fields, yarns: Mapping[str, Yarn | None],
              charts: Mapping[str, StitchChart | None] | None, chart: str | None) -> str | None:
    """The key of the yarn for a chart's second colour, "" where there is none to knit.

    None once a fault is recorded, here or in chart or yarn.
    """
    entry = fabric.entry(FabricKeys.contrast)
    made = charts.get(chart) if charts and chart else None
    if made is None and (entry is None or chart != ""):
        return ""  # none asked for, or the chart itself is at fault
    two = made is not None and Cell.SECOND in made.cells
    if entry is None:
        if two and made:
            fabric.findings.fault(
                "chart-contrast", fabric.place, f'no "contrast" in {fabric.what}, whose chart '
                f'"{made.title}" has the mark "{Cell.SECOND.value}"',
                "the yarn of the second colour",
                f'Add a line such as "{FabricKeys.contrast.line}".')
            return None
        return ""
    yarn = fabric.need_as(FabricKeys.contrast, named("yarn", yarns))
    if not two:
        fabric.findings.fault(
            "chart-contrast", entry.place, f"a contrast yarn in {fabric.what} without a second "
            "colour", f'a chart with the mark "{Cell.SECOND.value}"',
            "Write the mark, or delete the line.")
        return None
    return None if yarn is None else yarn.key


def _longest_float(fabric: Fields) -> int | None:
    """The most stitches that a yarn is to float past; a warning in a fabric without a chart."""
    entry = fabric.entry(FabricKeys.longest_float)
    if entry is not None and FabricKeys.chart.name not in fabric:
        fabric.findings.warn("unused", entry.place, f"longest_float in {fabric.what}, which has no "
                             "chart and so no floats", remedy="Delete it.")
    return fabric.get(FabricKeys.longest_float)


def _repeat(fabric: Fields) -> Repeat | None:
    """Which needles of the fabric work, with the stitches at either end: 1 if not said."""
    entry = fabric.entry(FabricKeys.edge_stitches)
    if entry is not None and "needles" not in fabric:
        fabric.findings.fault("edge-without-repeat", entry.place,
                              f'edge_stitches in {fabric.what} without "needles"',
                              "a repeat they stand beside",
                              "Add needles: 2 in 1 out, or delete it.")
    edge = fabric.get(FabricKeys.edge_stitches)
    return fabric.get_as(FabricKeys.needles, NeedleRepeat(edge), None)


def _swatches(fabric: Fields, yarn: Yarn | None) -> tuple[Swatch, ...]:
    key = fabric.one_of(FabricKeys.swatch, FabricKeys.swatches)
    entry = fabric.entry(key) if key else None
    if entry is None:
        return ()
    entries = [entry] if key is FabricKeys.swatch else fabric.each(FabricKeys.swatches)
    return tuple(s for e in entries if (s := _swatch(fabric.findings, e, yarn)) is not None)


def _swatch(findings: Findings, entry: Entry, yarn: Yarn | None) -> Swatch | None:
    own = open_fields(findings, entry, "a swatch", SwatchKeys)
    if own is None:
        return None
    stitches, width = own.need(SwatchKeys.stitches), own.need(SwatchKeys.width)
    rows, height = own.need(SwatchKeys.rows), own.need(SwatchKeys.height)
    weighed, long = own.get(SwatchKeys.mass), own.get(SwatchKeys.yarn)
    if stitches is None or width is None or rows is None or height is None:
        return None
    for measured, side, direction in ((width, SwatchKeys.width, "wide"),
                                      (height, SwatchKeys.height, "high")):
        if measured < SMALL_SWATCH:
            findings.warn("small-swatch", own.at(side),
                          f"a swatch {measured.in_cm()} {direction}", "10 cm or more",
                          "Knit and measure a larger one.")
    made = Swatch(stitches=stitches, width=width, rows=rows, height=height, mass_g=weighed,
                  yarn=long, place=own.place)
    sound = check_gauge(own, made) and check_measured(own, made) and (
        yarn is None or check_mass(findings, own.path, made, yarn))
    return made if sound else None


def size_slug(size: str) -> str:
    """The name of a size's page: small letters and digits, a hyphen for anything between."""
    return re.sub(r"[^a-z0-9]+", "-", size.lower()).strip("-")


def warn_unused(findings: Findings, pattern: Pattern) -> None:
    """Warn of yarns, charts, fabrics and edges that are described but lead to no knitting."""
    bands, edges = tuple(pattern.bands.values()), tuple(pattern.edges.values())
    yarns = [b.yarn for b in bands] + [f.yarn for f in pattern.fabrics.values()]
    yarns += [f.contrast for f in pattern.fabrics.values()]
    if pattern.garment and pattern.garment.stripes:
        yarns += pattern.garment.stripes.yarns
    fabrics = [b.fabric for b in bands if b.fabric] + [e.fabric for e in edges]
    fabrics += [b.facing_fabric for b in bands]
    fabrics += [plain.key for b in bands if b.fabric and KINDS[b.kind].lengthwise
                and pattern.fabrics[b.fabric].repeat
                and (plain := swatched_plain(pattern.fabrics, b.fabric))]
    fabrics += [own.key for own in (*piece_fabrics(pattern.garment, pattern.fabrics),
                                    *foot_fabrics(pattern.garment, pattern.materials))]
    sections: tuple[tuple[str, Iterable[str], list[str]], ...] = (
        ("yarn", pattern.yarns, yarns),
        ("chart", pattern.stitch_charts, [f.chart for f in pattern.fabrics.values()]),
        ("fabric", pattern.fabrics, fabrics),
        ("edge", pattern.edges, [b.edge for b in bands]))
    for what, keys, used in sections:
        for key in keys:
            if key not in used:
                findings.warn("unused", findings.places[f"{what}s.{key}"],
                              f'{what} "{key}", which nothing uses',
                              remedy="Use it, or delete it.")

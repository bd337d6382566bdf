"""What a pattern is made of: its yarns, fabrics with their swatches, and sizes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import TypeVar

from ..core.problems import Place
from ..core.text import clip
from ..core.units import Length, length_cm
from ..fabric.arrangement import read_repeat
from ..fabric.hem_fabric import hem_fabric
from ..pattern.cells import Cell
from ..pattern.fabrics import Fabric, Repeat, Swatch, Yarn
from ..pattern.model import Pattern
from ..pattern.stitch_chart import StitchChart
from .fields import Fields, Findings, listed_entries, named_entries, open_fields, read_by_size
from .likely import check_gauge, check_mass, check_package
from .page_names import page_flaw
from .stitch_chart import chart_among
from .values import Entry, Fault, Reader, dial, length, mass, name_of, text, whole_number

T = TypeVar("T")

SMALL_SWATCH = length_cm(10)  # a narrower one is warned about: its edges weigh too much
YARN_EXAMPLE = "{name: Harbour Bulky, fibre: 100 % wool}"
FABRIC_EXAMPLE = "{yarn: main, dial: 6, swatch: {...}}"
SWATCH_EXAMPLE = "{stitches: 20, width: 14.2 cm, rows: 30, height: 15 cm}"
_SIZE = re.compile(r"[A-Za-z0-9 /.-]{1,12}")


def each_named(fields: Fields, key: str, what: str, example: str, most: int) -> Iterator[Entry]:
    """The entries of the mapping that must stand under `key`."""
    entry = fields.required(key, example)
    return iter(()) if entry is None else named_entries(
        fields.findings, entry, what, example, most)


def by_size(fields: Fields, key: str, reader: Reader[T],
            sizes: tuple[str, ...]) -> dict[str, T] | None:
    """The values by size under `key`; None where it is left out or at fault."""
    entry = fields.entry(key)
    return None if entry is None else read_by_size(fields.findings, entry, reader, sizes)


def named(what: str, known: Mapping[str, T | None]) -> Reader[T | None]:
    """A reader of a name among `known`; None for one whose own entry has a recorded fault.

    Where nothing is known the whole section is at fault, and its users are not to blame.
    """
    return name_of(what, known) if known else lambda entry: None


def whole(found: Mapping[str, T | None]) -> dict[str, T]:
    """Those of `found` that have no fault."""
    return {key: value for key, value in found.items() if value is not None}


def read_yarns(fields: Fields) -> dict[str, Yarn | None]:
    """The pattern's yarns by their keys; None for one with a fault."""
    example = "{main: {name: Harbour Bulky}}"
    return {entry.label: _yarn(fields.findings, entry)
            for entry in each_named(fields, "yarns", "yarns", example, 20)}


def _yarn(findings: Findings, entry: Entry) -> Yarn | None:
    own = open_fields(findings, entry, f'yarn "{clip(entry.label)}"', ("name", "fibre", "package"),
                      YARN_EXAMPLE)
    if own is None:
        return None
    name = own.need("name", text(120), "Harbour Bulky")
    fibre = own.get("fibre", text(120), "")
    package_g, package_length = _package(own)
    return None if name is None else Yarn(key=entry.label, name=name, fibre=fibre,
                                          package_g=package_g, package_length=package_length)


def _package(yarn: Fields) -> tuple[Fraction | None, Length | None]:
    entry = yarn.entry("package")
    package = None if entry is None else open_fields(
        yarn.findings, entry, "the package", ("mass", "length"), "{mass: 100 g, length: 120 m}")
    if package is None:
        return None, None
    grams = package.need("mass", mass("mass of a package"), "100 g")
    metres = package.need("length", length("length of a package"), "120 m")
    return (grams, metres) if check_package(package, grams, metres) else (None, None)


def read_fabrics(fields: Fields, yarns: Mapping[str, Yarn | None],
                 charts: Mapping[str, StitchChart | None] | None) -> dict[str, Fabric | None]:
    """The pattern's fabrics by their keys; None for one with a fault."""
    example = f"{{body: {FABRIC_EXAMPLE}}}"
    return {entry.label: _fabric(fields.findings, entry, yarns, charts)
            for entry in each_named(fields, "fabrics", "fabrics", example, 20)}


def _fabric(findings: Findings, entry: Entry, yarns: Mapping[str, Yarn | None],
            charts: Mapping[str, StitchChart | None] | None) -> Fabric | None:
    own = open_fields(findings, entry, f'fabric "{clip(entry.label)}"',
                      ("yarn", "dial", "swatch", "swatches", "needles", "edge_stitches",
                       "chart", "contrast"),
                      FABRIC_EXAMPLE)
    if own is None:
        return None
    yarn = own.need("yarn", named("yarn", yarns), "main")
    setting = own.need("dial", dial(), "6")
    swatches = _swatches(own, yarn)
    repeat = _repeat(own)
    chart = _chart(own, charts)
    contrast = _contrast(own, yarns, charts, chart)
    if (yarn is None or setting is None or not swatches or chart is None
            or contrast is None or (repeat is None and "needles" in own)):
        return None
    return Fabric(key=entry.label, yarn=yarn.key, dial=setting, swatches=swatches, repeat=repeat,
                  chart=chart, contrast=contrast)


def _chart(fabric: Fields, charts: Mapping[str, StitchChart | None] | None) -> str | None:
    """The name of the fabric's chart, "" where it has none; None once a fault is recorded.

    Where all charts are at fault (None), their users are not to blame.
    """
    if "chart" not in fabric or charts is None:
        return ""
    if "needles" in fabric:
        fabric.one_of("needles", "chart", "chart: ladder")
        return None
    return fabric.need("chart", chart_among(charts), "ladder")


def _contrast(fabric: Fields, yarns: Mapping[str, Yarn | None],
              charts: Mapping[str, StitchChart | None] | None, chart: str | None) -> str | None:
    """The key of the yarn for a chart's second colour, "" where there is none to knit.

    None once a fault is recorded, here or in chart or yarn.
    """
    entry = fabric.entry("contrast")
    made = charts.get(chart) if charts and chart else None
    if made is None and (entry is None or chart != ""):
        return ""  # none asked for, or the chart itself is at fault
    two = made is not None and Cell.SECOND in made.cells
    if entry is None:
        if two and made:
            fabric.findings.fault(
                "chart-contrast", fabric.place, f'no "contrast" in {fabric.what}, whose chart '
                f'"{made.title}" has the mark "{Cell.SECOND.value}"',
                "the yarn of the second colour", 'Add a line such as "contrast: lamp".')
            return None
        return ""
    yarn = fabric.need("contrast", named("yarn", yarns), "lamp")
    if not two:
        fabric.findings.fault(
            "chart-contrast", entry.place, f"a contrast yarn in {fabric.what} without a second "
            "colour", f'a chart with the mark "{Cell.SECOND.value}"',
            "Write the mark, or delete the line.")
        return None
    return None if yarn is None else yarn.key


def _repeat(fabric: Fields) -> Repeat | None:
    """Which needles of the fabric work, with the stitches at either end: 1 if not said."""
    entry = fabric.entry("edge_stitches")
    if entry is not None and "needles" not in fabric:
        fabric.findings.fault("edge-without-repeat", entry.place,
                              f'edge_stitches in {fabric.what} without "needles"',
                              "a repeat they stand beside",
                              "Add needles: 2 in 1 out, or delete it.")
    edge = fabric.get("edge_stitches", whole_number("stitches beside repeats"), 1)
    return fabric.get("needles", lambda e: _needle_repeat(e, edge), None)


def _needle_repeat(entry: Entry, edge: int) -> Repeat | None:
    said = text(60, "needles in and out of work", "Write it as 2 in 1 out.")(entry)
    try:
        return read_repeat(said, edge=edge)
    except ValueError as fault:
        raise Fault("bad-repeat", entry.place, f'"{clip(said)}"', str(fault),
                    "Begin with the needles in work, end with those out of work.") from None


def _swatches(fabric: Fields, yarn: Yarn | None) -> tuple[Swatch, ...]:
    key = fabric.one_of("swatch", "swatches", f"swatch: {SWATCH_EXAMPLE}")
    entry = fabric.entry(key) if key else None
    if entry is None:
        return ()
    entries = [entry] if key == "swatch" else listed_entries(
        fabric.findings, entry, "swatches", f"[{SWATCH_EXAMPLE}]", 20)
    return tuple(s for e in entries if (s := _swatch(fabric.findings, e, yarn)) is not None)


def _swatch(findings: Findings, entry: Entry, yarn: Yarn | None) -> Swatch | None:
    own = open_fields(findings, entry, "a swatch",
                      ("stitches", "width", "rows", "height", "mass"), SWATCH_EXAMPLE)
    if own is None:
        return None
    stitches = own.need("stitches", whole_number("stitches of a swatch"), "20")
    width = own.need("width", length("side of a swatch"), "14.2 cm")
    rows = own.need("rows", whole_number("rows of a swatch"), "30")
    height = own.need("height", length("side of a swatch"), "15 cm")
    weighed = own.get("mass", _weighed, None)
    if stitches is None or width is None or rows is None or height is None:
        return None
    for measured, side, way in ((width, "width", "wide"), (height, "height", "high")):
        if measured < SMALL_SWATCH:
            findings.warn("small-swatch", findings.places[f"{own.path}.{side}"],
                          f"a swatch {measured.in_cm()} {way}", "10 cm or more",
                          "Knit and measure a larger one.")
    made = Swatch(stitches=stitches, width=width, rows=rows, height=height, mass_g=weighed)
    sound = check_gauge(own, made) and (yarn is None or check_mass(findings, own.path, made, yarn))
    return made if sound else None


def _weighed(entry: Entry) -> Fraction | None:
    return mass("mass of a swatch")(entry)


def size_slug(size: str) -> str:
    """The name of a size's page: small letters and digits, a hyphen for anything between."""
    return re.sub(r"[^a-z0-9]+", "-", size.lower()).strip("-")


def read_sizes(fields: Fields) -> tuple[str, ...]:
    """The pattern's sizes in their order, each able to name a page; none if any is at fault."""
    findings, before = fields.findings, len(fields.findings.problems)
    entry = fields.required("sizes", "[S, M, L]")
    sizes: dict[str, tuple[str, Place]] = {}  # by page name
    for item in listed_entries(findings, entry, "sizes", "[S, M, L]", 40) if entry else ():
        size = findings.read(item, _size_name)
        page = size_slug(size or "")
        if size is not None and page in sizes:
            other, there = sizes[page]
            findings.fault("same-page", item.place, f'the size "{size}", whose page would be '
                           f'called "{page}" like that of "{other}" ({there.short})',
                           "sizes that differ in letters or digits", "Rename one of the two.")
        elif size is not None:
            sizes[page] = size, item.place
    return tuple(size for size, _ in sizes.values()) if len(findings.problems) == before else ()


def _size_name(entry: Entry) -> str:
    expected = "1 to 12 letters A to Z, digits, spaces and / . -"
    size = text(120, expected, "Write a size such as M or 36/38.")(entry)
    if not _SIZE.fullmatch(size) or not size_slug(size):
        raise Fault("bad-size-name", entry.place, f'the size "{size}"', expected, "Rename it.")
    if flaw := page_flaw(size_slug(size)):
        raise Fault("bad-size-name", entry.place, f'the size "{size}"', flaw, "Rename it.")
    return size


def warn_unused(findings: Findings, pattern: Pattern) -> None:
    """Warn of yarns, charts, fabrics and edges that are described but lead to no knitting."""
    bands, edges = tuple(pattern.bands.values()), tuple(pattern.edges.values())
    yarns = [b.yarn for b in bands] + [f.yarn for f in pattern.fabrics.values()]
    yarns += [f.contrast for f in pattern.fabrics.values()]
    fabrics = [b.fabric for b in bands if b.fabric] + [e.fabric for e in edges]
    fabrics += [b.facing_fabric for b in bands]
    fabrics += [pattern.garment.fabric] if pattern.garment else []
    if hem := hem_fabric(pattern):
        fabrics.append(hem.key)
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

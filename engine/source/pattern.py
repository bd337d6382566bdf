"""A located tree to a Pattern or a Bed, with every fault in it found at once.

What a designer may leave out, and what is then taken:

    skills, pictures, corrections, accepted   none
    yarn: fibre, package            not stated
    fabric: needles, chart          every needle works, plain
          edge_stitches             1, where others are left out of work
    swatch: mass                    not weighed
    band: title                     its key, as words that end in "band"
          dial                      its fabric's; with pick_up two numbers below the edge's fabric
          yarn                      its fabric's; with pick_up the edge's fabric's
          fold                      turned
          ease                      0 %
          round                     nearest
          waste_rows, stitches_in   8, 2
    buttonholes: stitches           left to the rule
          ends                      the larger of the button's width and 1.25 cm
          front                     right for women, children, babies; left for men
          odd_gap, lean             spread, neck
          end_give, band_give       2, 2
          tolerance                 2 %

With a garment, whose own defaults read_garment tells, edges and bands may be left out.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..core.codes import REMARK_CODES
from ..core.problems import Place, Problem, has_errors, in_order
from ..core.text import clip, suggest
from ..core.units import Length
from ..pattern.edges import Edge
from ..pattern.fabrics import Bed, Fabric
from ..pattern.model import Band, GarmentWish, Pattern, Picture, Wearer
from ..pattern.stitch_chart import StitchChart
from ..sizing.charts import Chart
from .bands import Around, read_bands
from .edges import read_edges
from .fields import Fields, Findings, listed_entries, open_fields
from .garment import Ground, OpenEdge, garment_edges, read_garment
from .materials import read_fabrics, read_sizes, read_yarns, warn_unused, whole
from .page_names import alike, device_flaw, normal
from .source import Node, Scalar
from .stitch_chart import read_stitch_charts
from .values import Entry, Fault, iso_date, length, name_of, text, version, whole_number, word

PATTERN_KEYS = ("title", "version", "date", "designer", "licence", "summary", "wearer", "bed",
                "skills", "pictures", "corrections", "accepted", "yarns", "charts", "fabrics",
                "sizes", "garment", "edges", "bands")
PICTURE_KINDS = ("png", "jpg", "jpeg", "webp")  # not svg, which can carry scripts
_ACCEPTED = re.compile(r"[a-z-]+ [0-9a-f]{8}")
BED_EXAMPLE = "{pitch: 9 mm, needles: 110}"


def read_pattern(node: Node, *, slug: str, beds: Mapping[str, Bed], notes: str = "",
                 pictures: frozenset[str] = frozenset(),
                 charts: Mapping[str, Chart | None] = MappingProxyType({}),
                 flawed: Mapping[str, str] = MappingProxyType({}),
                 ) -> tuple[Pattern | None, tuple[Problem, ...]]:
    """Return the pattern that `node` says, and all findings; no pattern if any is an error.

    `slug` is the name of the pattern's folder, `beds` the known beds by name, `notes` the text
    of notes.md, `pictures` the names of the files beside the source, `flawed` what is wrong with
    those of them that are no sound pictures, `charts` the known size
    charts by name, None for one whose faults are recorded where it was read.
    """
    findings = Findings()
    root = Entry("the pattern", node, "", node.place)
    fields = open_fields(findings, root, "the pattern", PATTERN_KEYS, "title: My cardigan bands")
    if fields is None:
        return None, in_order(findings.problems)
    pattern = _pattern(fields, slug, _Shelf(beds, charts, pictures, flawed), notes)
    if pattern is None or has_errors(findings.problems):
        return None, in_order(findings.problems)
    warn_unused(findings, pattern)
    return pattern, in_order(findings.problems)


def read_bed(node: Node, *, name: str) -> tuple[Bed | None, tuple[Problem, ...]]:
    """Return the bed that a bed file says, called `name`, and all findings."""
    findings = Findings()
    fields = open_fields(findings, Entry("the bed", node, "", node.place), "the bed",
                         ("pitch", "needles", "second_bed", "source"), BED_EXAMPLE)
    if fields is None:
        return None, in_order(findings.problems)
    fields.need("source", text(600), "where its figures come from")
    bed = _own_bed(fields, name)
    return (None if has_errors(findings.problems) else bed), in_order(findings.problems)


@dataclass(frozen=True, slots=True)
class _Shelf:
    """What lies ready for all patterns, and the pictures beside this one."""

    beds: Mapping[str, Bed]
    charts: Mapping[str, Chart | None]
    pictures: frozenset[str]
    flawed: Mapping[str, str]


def _pattern(fields: Fields, slug: str, shelf: _Shelf, notes: str) -> Pattern | None:
    title = fields.need("title", text(120), "Slack Tide cardigan bands")
    release = fields.need("version", version, "1.0.0")
    date = fields.need("date", iso_date(), "2026-10-30")
    designer = fields.need("designer", text(120), "Wren Ashdown")
    licence = fields.need("licence", text(120), "CC BY-NC 4.0")
    summary = fields.need("summary", text(600), "Folded bands for a cardigan.")
    wearer = fields.need("wearer", word({w.value: w for w in Wearer}), "women")
    bed = _bed(fields, shelf.beds)
    skills = tuple(skill for entry in _optional_list(fields, "skills", "skills", "[knit rows]", 40)
                   if (skill := fields.findings.read(entry, text(80))))
    shown = _pictures(fields, shelf)
    corrections = _corrections(fields)
    accepted = tuple(one for entry in _optional_list(
        fields, "accepted", "remarks", "[chart-remark 1a2b3c4d]", 100)
        if (one := fields.findings.read(entry, _accepted)))
    yarns = read_yarns(fields)
    charts = _charts(fields)
    fabrics = read_fabrics(fields, yarns, charts)
    sizes = read_sizes(fields)
    garment = read_garment(fields, Ground(fabrics, sizes, wearer, shelf.charts, bed))
    edges = read_edges(fields, fabrics, sizes) if _wants(fields, "edges") else {}
    takes = _edges_to_take(fields, fabrics, edges)
    bands = read_bands(fields, Around(yarns, fabrics, takes, sizes, wearer, _hem_depth(garment))) \
        if _wants(fields, "bands") else {}
    _refuse_charted(fields.findings, whole(bands), fabrics)
    if garment is None and "garment" in fields:
        return None
    if (title is None or release is None or date is None or designer is None or licence is None
            or summary is None or wearer is None or bed is None):
        return None
    return Pattern(slug=slug, title=title, version=release, date=date, designer=designer,
                   licence=licence, summary=summary, wearer=wearer, bed=bed,
                   yarns=whole(yarns), fabrics=whole(fabrics), sizes=sizes, edges=whole(edges),
                   bands=whole(bands), garment=garment, stitch_charts=whole(charts or {}),
                   skills=skills, pictures=shown, corrections=corrections, accepted=accepted,
                   notes=notes,
                   places=fields.findings.places)


def _hem_depth(garment: GarmentWish | None) -> Length | None:
    """How deep the garment's hem is, where it has one."""
    return garment.hem.depth if garment is not None and garment.hem is not None else None


def _wants(fields: Fields, key: str) -> bool:
    """True where `key` stands, or must, as no garment takes its place."""
    return key in fields or not ("garment" in fields or "garment" in fields.misspelt)


def _charts(fields: Fields) -> Mapping[str, StitchChart | None] | None:
    """The stitch charts by name; None where the whole section is at fault."""
    entry = fields.entry("charts")
    if entry is None:
        return None if "charts" in fields.misspelt else {}
    return read_stitch_charts(fields.findings, entry) or None


def _refuse_charted(findings: Findings, bands: Mapping[str, Band],
                    fabrics: Mapping[str, Fabric | None]) -> None:
    """Record bands whose own fabric is knitted from a chart."""
    for band in bands.values():
        fabric = fabrics.get(band.fabric or "")
        if fabric is not None and fabric.chart:
            findings.fault("chart-in-band", findings.places[f"bands.{band.key}.fabric"],
                           f'the fabric "{fabric.key}" of a band, with the chart "{fabric.chart}"',
                           "a band in a plain fabric", "Give the band a fabric of its own.")


def _edges_to_take(fields: Fields, fabrics: Mapping[str, Fabric | None],
                   edges: Mapping[str, Edge | None]) -> dict[str, OpenEdge | None]:
    """The edges that a band can take: those given, and the garment's; none where any may be."""
    own = garment_edges(fields, fabrics)
    given = {key: OpenEdge(key, edge.fabric, shape=edge.shape) if edge else None
             for key, edge in edges.items()}
    return {} if own is None or (not given and "edges" in fields) else {**own, **given}


def _bed(fields: Fields, beds: Mapping[str, Bed]) -> Bed | None:
    entry = fields.entry("bed")
    if entry is None or isinstance(entry.node, Scalar):
        return fields.need("bed", name_of("bed", beds), "bulky")
    own = open_fields(fields.findings, entry, "the bed", ("pitch", "needles", "second_bed", "name"),
                      BED_EXAMPLE)
    return None if own is None else _own_bed(own, own.get("name", text(60), ""))


def _own_bed(fields: Fields, name: str) -> Bed | None:
    pitch = fields.need("pitch", length("needle pitch"), "9 mm")
    needles = fields.need("needles", _even_needles, "110")
    if pitch is None or needles is None:
        return None
    return Bed(name=name or f"{pitch.in_mm()} bed", pitch=pitch, needles=needles,
               second=fields.get("second_bed", word({"yes": True, "no": False}), False))


def _even_needles(entry: Entry) -> int:
    needles = whole_number("needles of a bed")(entry)
    if needles % 2:
        raise Fault("odd-needles", entry.place, f"{needles} needles",
                    "an even number, half on each side of 0",
                    f"Write {needles - 1} or {needles + 1}.")
    return needles


def _optional_list(fields: Fields, key: str, what: str, example: str, most: int) -> list[Entry]:
    entry = fields.entry(key)
    return [] if entry is None else list(
        listed_entries(fields.findings, entry, what, example, most))


def _pictures(fields: Fields, shelf: _Shelf) -> tuple[Picture, ...]:
    example = "[{file: front.png, alt: The front band}]"
    shown: list[Picture] = []
    seen: dict[str, tuple[str, Place]] = {}
    for entry in _optional_list(fields, "pictures", "pictures", example, 20):
        own = open_fields(fields.findings, entry, "a picture", ("file", "alt"), example)
        if own is not None:
            file = own.need("file", lambda e: _picture_file(e, shelf), "front.png")
            alt = own.need("alt", text(300), "The front band, folded")
            if file is not None and alt is not None:
                shown.append(Picture(file=file, alt=alt))
                _need_own_name(fields.findings, own, file, seen)
    return tuple(shown)


def _need_own_name(findings: Findings, picture: Fields, file: str,
                   seen: dict[str, tuple[str, Place]]) -> None:
    """Record a picture whose name some file system takes for that of one `seen` before it."""
    place = findings.places[f"{picture.path}.file"]
    other, there = seen.setdefault(alike(file), (file, place))
    if other != file:
        findings.fault("same-picture", place, f'the picture "{file}" beside "{other}" '
                       f"({there.short})", "names that differ in more than capital letters and the "
                       "way an accent is written", "Rename one of the two files.")


def _picture_file(entry: Entry, shelf: _Shelf) -> str:
    file = text(100, "the name of a picture file", "Write a name such as front.png.")(entry)
    kinds = ", ".join(PICTURE_KINDS)
    if any(mark in file for mark in "/\\:") or file.startswith("."):
        raise Fault("bad-picture", entry.place, f'"{file}"', "a plain file name without a folder",
                    "Put the picture beside the source and write its name.")
    if file.rpartition(".")[2].lower() not in PICTURE_KINDS or "." not in file:
        raise Fault("bad-picture", entry.place, f'"{file}"', f"a file of the kind {kinds}",
                    "Save the picture as one of these.")
    if flaw := device_flaw(file):
        raise Fault("bad-picture", entry.place, f'"{file}"', flaw, "Rename the file.")
    if file not in shelf.pictures:
        same = {normal(name): name for name in sorted(shelf.pictures)}
        file = same.get(normal(file), file)
    if file not in shelf.pictures:
        expected, remedy = suggest(file, sorted(shelf.pictures),
                                   "Put the picture beside the source.")
        raise Fault("missing-picture", entry.place, f'no file "{file}" beside the source',
                    expected, remedy)
    if fault := shelf.flawed.get(file):
        kind = file.rpartition(".")[2].lower()
        raise Fault("false-picture", entry.place, f'"{file}", {fault}', f"a whole {kind} picture",
                    f"Save the picture again as {kind}.")
    return file


def _corrections(fields: Fields) -> tuple[tuple[str, str], ...]:
    example = "[{date: 2026-11-02, text: Rows of size M put right.}]"
    made = []
    for entry in _optional_list(fields, "corrections", "corrections", example, 100):
        own = open_fields(fields.findings, entry, "a correction", ("date", "text"), example)
        if own is not None:
            date = own.need("date", iso_date(), "2026-11-02")
            what = own.need("text", text(600), "Rows of size M put right.")
            if date is not None and what is not None:
                made.append((date, what))
    return tuple(made)


def _accepted(entry: Entry) -> str:
    expected = "the code and the mark of a remark, such as chart-remark 1a2b3c4d"
    said = text(60, expected, "Copy it from what the check prints.")(entry)
    code = said.partition(" ")[0]
    if not _ACCEPTED.fullmatch(said) or code not in REMARK_CODES:
        raise Fault("bad-accepted", entry.place, f'"{clip(said)}"', expected,
                    "Copy it from what the check prints; only remarks can be accepted.")
    return said

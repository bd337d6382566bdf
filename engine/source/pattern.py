"""A located tree to a Pattern or a Bed, with every fault in it found at once.

The keys, and what is taken where one is left out, are declared in `keys`.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from ..core.problems import Place, Problem, has_errors, in_order
from ..core.text import suggest
from ..core.units import Length
from ..machine.records import dataclass
from ..pattern.edges import EdgeSpec
from ..pattern.fabrics import Fabric, NeedleBed
from ..pattern.model import Band, BySize, GarmentSpec, Pattern
from ..pattern.pictures import Picture
from ..pattern.places import Places
from ..pattern.stitch_chart import StitchChart
from ..sizing.charts import Chart
from . import part_readers as parts
from . import section_readers as sections
from .correction_reading import compare_with_version, read_corrections
from .fabric_reading import read_fabrics, warn_unused, whole
from .fields import Fields, Findings, open_fields
from .keys.pattern_keys import BedFileKeys, BedKeys, PatternKeys, PictureKeys
from .open_edges import OpenEdge, garment_edges
from .page_names import COLLECTION, alike, normal, picture_flaw
from .renamed import with_new_names
from .sizes import read_sizes, read_withdrawn, warn_without_chart
from .source import Node, Scalar
from .values import Entry, Fault, name_of
from .yarns import read_yarns

PICTURE_KINDS = ("png", "jpg", "jpeg", "webp")  # not svg, which can carry scripts


def read_pattern(node: Node, *, slug: str, beds: Mapping[str, NeedleBed], notes: str = "",
                 pictures: frozenset[str] = frozenset(),
                 charts: Mapping[str, Chart | None] = MappingProxyType({}),
                 flawed: Mapping[str, str] = MappingProxyType({}),
                 large: Mapping[str, tuple[int, int]] = MappingProxyType({}),
                 collection: Mapping[str, str] = MappingProxyType({}),
                 ) -> tuple[Pattern | None, tuple[Problem, ...]]:
    """Return the pattern that `node` says, and all findings; no pattern if any is an error.

    `slug` is the name of the pattern's folder, `beds` the known beds by name, `notes` the text
    of notes.md, `pictures` the names of the files beside the source, `flawed` what is wrong with
    those of them that are no sound pictures, `large` how large they are [pixels], `charts` the
    known size charts by name, None for one whose faults are recorded where it was read.
    `collection` has, by key, what holds where `node` has no such key: a licence.
    """
    findings = Findings()
    root = Entry("the pattern", with_new_names(findings, node, PatternKeys), "", node.place)
    fields = open_fields(findings, root, "the pattern", PatternKeys)
    if fields is None:
        return None, in_order(findings.problems)
    pattern = _pattern(fields, slug, _Shelf(beds, charts, pictures, flawed, large, collection),
                       notes)
    if pattern is None or has_errors(findings.problems):
        return None, in_order(findings.problems)
    warn_unused(findings, pattern)
    return pattern, in_order(findings.problems)


def read_bed(node: Node, *, name: str) -> tuple[NeedleBed | None, tuple[Problem, ...]]:
    """Return the bed that a bed file says, called `name`, and all findings."""
    findings = Findings()
    node = with_new_names(findings, node, BedFileKeys)
    fields = open_fields(findings, Entry("the bed", node, "", node.place), "the bed", BedFileKeys)
    if fields is None:
        return None, in_order(findings.problems)
    fields.need(BedFileKeys.source)
    bed = _own_bed(fields, name)
    return (None if has_errors(findings.problems) else bed), in_order(findings.problems)


@dataclass(frozen=True, slots=True)
class _Shelf:
    """What lies ready for all patterns, and the pictures beside this one."""

    beds: Mapping[str, NeedleBed]
    charts: Mapping[str, Chart | None]
    pictures: frozenset[str]
    flawed: Mapping[str, str]
    large: Mapping[str, tuple[int, int]]
    collection: Mapping[str, str]


def _pattern(fields: Fields, slug: str, shelf: _Shelf, notes: str) -> Pattern | None:
    title, release = fields.need(PatternKeys.title), fields.need(PatternKeys.version)
    date, designer = fields.need(PatternKeys.date), fields.need(PatternKeys.designer)
    licence, summary = _licence(fields, shelf.collection), fields.need(PatternKeys.summary)
    wearer, status = fields.need(PatternKeys.wearer), fields.get(PatternKeys.status)
    publish = fields.get(PatternKeys.publish)
    bed = _bed(fields, shelf.beds)
    skills = fields.listed(PatternKeys.skills)
    shown = _pictures(fields, shelf)
    accepted = fields.listed(PatternKeys.accepted)
    yarns = read_yarns(fields)
    charts = _charts(fields)
    fabrics = read_fabrics(fields, yarns, charts)
    own_sizes = read_sizes(fields)
    sizes = tuple(size.name for size in own_sizes)
    withdrawn = read_withdrawn(fields, own_sizes)
    corrections = read_corrections(fields, sizes, [size.label for size in withdrawn])
    compare_with_version(fields, release, date, corrections)
    placed = parts.read_designer_notes(fields, sizes) if "notes" in fields else ()
    shows = parts.read_techniques(fields) if "techniques" in fields else {}
    garment = sections.read_garment(fields, sections.Ground(
        fabrics, own_sizes, wearer, shelf.charts, bed, yarns)) if "garment" in fields else None
    if "garment" not in fields:
        warn_without_chart(fields.findings, own_sizes)
    edges = sections.read_edges(fields, fabrics, sizes) if _wants(fields, "edges") else {}
    takes = _edges_to_take(fields, fabrics, edges)
    bands = sections.read_bands(fields, sections.BandContext(yarns, fabrics, takes, sizes, wearer,
                                                             _hem_depths(garment))) \
        if _wants(fields, "bands") else {}
    _refuse_charted(fields.findings, whole(bands), fabrics)
    kept = parts.read_kept(fields, garment) if "reader_must_keep" in fields else ()
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
                   notes=notes, designer_notes=placed, techniques=shows,
                   status=status, publish=publish,
                   reader_change=fields.get(PatternKeys.reader_may_change),
                   reader_keeps=kept,
                   contact=fields.get(PatternKeys.contact),
                   former_sizes={one.name: one.former for one in own_sizes if one.former},
                   withdrawn_sizes=withdrawn,
                   places=Places(fields.findings.places))


def _licence(fields: Fields, collection: Mapping[str, str]) -> str | None:
    """The pattern's licence, else the collection's; None once it is recorded that none is there."""
    key = PatternKeys.licence
    if key.name in fields or key.name in fields.misspelt:
        return fields.get_as(key, key.read, None)
    licence = collection.get(key.name)
    if licence is None:
        fields.findings.fault(
            "missing-key", fields.place, f'no "{key.name}" in the pattern, and none in '
            f"{COLLECTION}", remedy=f'Add a line such as "{key.line}" to one of them.')
    return licence


def _hem_depths(garment: GarmentSpec | None) -> BySize[Length] | None:
    """How deep the garment's hem is by size, where it has one that is given as lengths."""
    depths = {size: hem.depth for size, hem in (garment.hems if garment else {}).items()}
    given = {size: depth for size, depth in depths.items() if isinstance(depth, Length)}
    return given if given and len(given) == len(depths) else None


def _wants(fields: Fields, key: str) -> bool:
    """True where `key` stands, or must, as no garment takes its place."""
    return key in fields or not ("garment" in fields or "garment" in fields.misspelt)


def _charts(fields: Fields) -> Mapping[str, StitchChart | None] | None:
    """The stitch charts by name; None where the whole section is at fault."""
    entry = fields.entry(PatternKeys.charts)
    if entry is None:
        return None if "charts" in fields.misspelt else {}
    return parts.read_stitch_charts(fields.findings, entry) or None


def _refuse_charted(findings: Findings, bands: Mapping[str, Band],
                    fabrics: Mapping[str, Fabric | None]) -> None:
    """Record bands whose own fabric is knitted from a chart."""
    for band in bands.values():
        fabric = fabrics.get(band.fabric or "")
        if fabric is not None and fabric.chart:
            findings.fault("chart-in-band", findings.places[f"bands.{band.key}.fabric"],
                           f'the fabric "{fabric.key}" of a band, with the chart "{fabric.chart}"',
                           "a band in a plain fabric", "Give the band a separate fabric.")


def _edges_to_take(fields: Fields, fabrics: Mapping[str, Fabric | None],
                   edges: Mapping[str, EdgeSpec | None]) -> dict[str, OpenEdge | None]:
    """The edges that a band can take: those given, and the garment's; none where any may be."""
    own = garment_edges(fields, fabrics)
    given = {key: OpenEdge(key, edge.fabric, shape=edge.shape) if edge else None
             for key, edge in edges.items()}
    return {} if own is None or (not given and "edges" in fields) else {**own, **given}


def _bed(fields: Fields, beds: Mapping[str, NeedleBed]) -> NeedleBed | None:
    entry = fields.entry(PatternKeys.bed)
    if entry is None or isinstance(entry.node, Scalar):
        return fields.need_as(PatternKeys.bed, name_of("bed", beds))
    own = fields.opened(PatternKeys.bed, "the bed")
    return None if own is None else _own_bed(own, own.get(BedKeys.name_))


def _own_bed(fields: Fields, name: str) -> NeedleBed | None:
    pitch, needles = fields.need(BedKeys.pitch), fields.need(BedKeys.needles)
    if pitch is None or needles is None:
        return None
    return NeedleBed(name=name or f"{pitch.in_mm()} bed", pitch=pitch, needles=needles,
                     second=fields.get(BedKeys.second_bed), place=fields.at(BedKeys.pitch))


def _pictures(fields: Fields, shelf: _Shelf) -> tuple[Picture, ...]:
    shown: list[Picture] = []
    seen: dict[str, tuple[str, Place]] = {}
    for entry in fields.each(PatternKeys.pictures):
        own = open_fields(fields.findings, entry, "a picture", PictureKeys)
        if own is not None:
            file = own.need_as(PictureKeys.file, lambda e: _picture_file(e, shelf))
            alt = own.need(PictureKeys.alt)
            if file is not None and alt is not None:
                shown.append(Picture(file=file, alt=alt, size=shelf.large.get(file),
                                     caption=own.get(PictureKeys.caption)))
                _need_own_name(fields.findings, own, file, seen)
    return tuple(shown)


def _need_own_name(findings: Findings, picture: Fields, file: str,
                   seen: dict[str, tuple[str, Place]]) -> None:
    """Record a picture whose name some file system takes for that of one `seen` before it."""
    place = picture.at(PictureKeys.file)
    other, there = seen.setdefault(alike(file), (file, place))
    if other != file:
        findings.fault("same-picture", place, f'the picture "{file}" beside "{other}" '
                       f"({there.short})", "names that differ in more than capital letters and the "
                       "way an accent is written", "Rename one of the two files.")


def _picture_file(entry: Entry, shelf: _Shelf) -> str:
    file = PictureKeys.file.read(entry)
    kinds = ", ".join(PICTURE_KINDS)
    if any(mark in file for mark in "/\\:") or file.startswith("."):
        raise Fault("bad-picture", entry.place, f'"{file}"', "a plain file name without a folder",
                    "Put the picture into the pattern's folder and write its name.")
    if file.rpartition(".")[2].lower() not in PICTURE_KINDS or "." not in file:
        raise Fault("bad-picture", entry.place, f'"{file}"', f"a file of the kind {kinds}",
                    "Save the picture as one of these.")
    if flaw := picture_flaw(file):
        raise Fault("bad-picture", entry.place, f'"{file}"', flaw, "Rename the file.")
    if file not in shelf.pictures:
        same = {normal(name): name for name in sorted(shelf.pictures)}
        file = same.get(normal(file), file)
    if file not in shelf.pictures:
        expected, remedy = suggest(file, sorted(shelf.pictures),
                                   "Put the picture into the pattern's folder.")
        raise Fault("missing-picture", entry.place, f'no file "{file}" in the pattern\'s folder',
                    expected, remedy)
    if fault := shelf.flawed.get(file):
        kind = file.rpartition(".")[2].lower()
        raise Fault("false-picture", entry.place, f'"{file}", {fault}', f"a whole {kind} picture",
                    f"Save the picture again as {kind}.")
    return file

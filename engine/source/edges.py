"""The edges a source describes itself: how each lies, and what its sections offer to be hung."""

from __future__ import annotations

from collections.abc import Mapping

from ..core.text import clip
from ..pattern.edges import Edge, EdgeSection, Offer, Shape
from ..pattern.fabrics import Fabric
from .band_wishes import YES
from .fields import Fields, Findings, listed_entries, open_fields
from .materials import by_size, each_named, named
from .values import Entry, length, text, whole_number, word

EDGE_EXAMPLE = "{fabric: body, length: 52 cm}"
SECTION_EXAMPLE = "[{title: right front, rows: 58}, {title: left front, rows: 58}]"
MOST_SECTIONS = 12
GIVEN_BY = ("length", "rows", "stitches")
FRONT = "front"  # an edge of this name, without sections, is one of a pair of fronts
OFFERS = {offer.value: offer for offer in (Offer.WAITING, Offer.BOUND_OFF, Offer.CAST_ON)}


def read_edges(fields: Fields, fabrics: Mapping[str, Fabric | None],
               sizes: tuple[str, ...]) -> dict[str, Edge | None]:
    """The edges of the source by their keys; None for one with a fault."""
    return {entry.label: _edge(fields.findings, entry, fabrics, sizes)
            for entry in each_named(fields, "edges", "edges", f"{{front: {EDGE_EXAMPLE}}}", 40)}


def _edge(findings: Findings, entry: Entry, fabrics: Mapping[str, Fabric | None],
          sizes: tuple[str, ...]) -> Edge | None:
    own = open_fields(findings, entry, f'edge "{clip(entry.label)}"',
                      ("kind", "fabric", "length", "rows", "sections", "ends"), EDGE_EXAMPLE)
    if own is None:
        return None
    fabric = own.need("fabric", named("fabric", fabrics), "body")
    shape = _shape(own, entry.label)
    ends = _ends(own, shape)
    if "sections" in own:
        sections = read_sections(own, sizes)
        return Edge(key=entry.label, fabric=fabric.key, shape=shape, ends=ends,
                    sections=sections) if fabric and sections and shape else None
    measure = own.one_of("length", "rows", "length: 52 cm")
    lengths = by_size(own, "length", length("length of an edge"), sizes)
    rows = by_size(own, "rows", whole_number("rows of an edge"), sizes)
    if fabric is None or shape is None or measure is None or (lengths is None and rows is None):
        return None
    return Edge(key=entry.label, fabric=fabric.key, shape=shape, ends=ends, length=lengths,
                rows=rows)


def _shape(own: Fields, key: str) -> Shape | None:
    """How the edge lies; None once it is recorded that it does not say so."""
    if "kind" not in own:
        if key == FRONT and "sections" not in own:
            return Shape.FRONT
        if "kind" not in own.misspelt:
            own.findings.fault(
                "edge-not-said", own.place, f'no "kind" in {own.what}',
                f"one of {', '.join(shape.value for shape in Shape)}",
                'Add a line such as "kind: one edge" or "kind: closed round".')
        return None
    shape = own.need("kind", word({shape.value: shape for shape in Shape}), Shape.OPEN.value)
    if shape is Shape.AROUND and "sections" not in own:
        own.findings.fault(
            "edge-not-said", own.place, f'no "sections" in {own.what}, which goes from hem to hem',
            "its sections from one hem round the neck to the other, the first along a front",
            f'Write sections such as "{SECTION_EXAMPLE}", or another kind.')
        return None
    return shape


def _ends(own: Fields, shape: Shape | None) -> tuple[str, str]:
    """What the two ends are called, "" where the source does not name them."""
    entry = own.entry("ends")
    if entry is None:
        return "", ""
    if shape is Shape.ROUND:
        own.findings.fault("edge-without-ends", entry.place,
                           f"ends of {own.what}, which is closed round", "an edge with two ends",
                           "Delete them, or write kind: one edge.")
    names = [own.findings.read(item, text(40)) for item in
             listed_entries(own.findings, entry, "ends", "[hem, top]", 2)]
    if len(names) == 1:
        own.findings.fault("missing-key", entry.place, f"one end of {own.what}", "both its ends",
                           'Write two, such as "ends: [hem, top]".')
    return (names[0] or "", names[1] or "") if len(names) == 2 else ("", "")


def read_sections(edge: Fields, sizes: tuple[str, ...]) -> tuple[EdgeSection, ...] | None:
    """The sections of an edge in order; None where any has a fault."""
    for other in ("length", "rows"):
        if other in edge:
            edge.findings.fault("two-answers", edge.place,
                                f'both "{other}" and "sections" in {edge.what}',
                                "one of the two", "Delete one of them.")
            return None
    entry = edge.entry("sections")
    assert entry is not None
    found = [_section(edge.findings, item, sizes) for item in
             listed_entries(edge.findings, entry, "sections", SECTION_EXAMPLE, MOST_SECTIONS)]
    whole = tuple(section for section in found if section is not None)
    return whole if whole and len(whole) == len(found) else None


def _section(findings: Findings, entry: Entry, sizes: tuple[str, ...]) -> EdgeSection | None:
    own = open_fields(findings, entry, f"{entry.label} of the sections",
                      ("title", "length", "rows", "stitches", "stitches_are", "centre_back"),
                      "{title: right front, rows: 58}")
    if own is None:
        return None
    title = own.need("title", text(60), "right front")
    given = [key for key in GIVEN_BY if key in own]
    if len(given) != 1:
        said = " and ".join(f'"{key}"' for key in given)
        findings.fault("two-answers" if given else "missing-key", own.place,
                       f"{said} in {own.what}" if given else
                       f'neither "length" nor "rows" nor "stitches" in {own.what}',
                       "one of length, rows and stitches",
                       "Delete all but one of them." if given else
                       'Add a line such as "rows: 58".')
        return None
    lengths = by_size(own, "length", length("length of a section"), sizes)
    rows = by_size(own, "rows", whole_number("rows of a section"), sizes)
    stitches = by_size(own, "stitches", whole_number("stitches of a section"), sizes)
    offer = _offer(own)
    if title is None or offer is None or not (lengths or rows or stitches):
        return None
    return EdgeSection(title=title, length=lengths, rows=rows, stitches=stitches, offer=offer,
                       centre_back=own.get("centre_back", word(YES), False))


def _offer(own: Fields) -> Offer | None:
    """What a section's stitches are; None once it is recorded that it does not say so."""
    if "stitches" in own and "stitches_are" not in own:
        if "stitches_are" not in own.misspelt:
            own.findings.fault(
                "stitches-not-said", own.place, f'no "stitches_are" in {own.what}',
                f"one of {', '.join(OFFERS)}", 'Add a line such as "stitches_are: bound off".')
        return None
    if "stitches_are" not in own:
        return Offer.ROWS
    if "stitches" not in own:
        entry = own.entry("stitches_are")
        own.findings.fault("stitches-not-said", entry.place if entry else own.place,
                           f'"stitches_are" in {own.what}, which has none', "a section of stitches",
                           'Delete it, or write "stitches: 22" for the rows or length.')
        return None
    return own.need("stitches_are", word(OFFERS), Offer.WAITING.value)

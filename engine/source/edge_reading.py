"""The edges a source describes itself: how each lies, and what its sections offer to be hung."""

from __future__ import annotations

from collections.abc import Mapping

from ..core.text import clip
from ..pattern.edges import EdgeSection, EdgeShape, EdgeSpec, Offer
from ..pattern.fabrics import Fabric
from .fabric_reading import named
from .fields import Fields, Findings, open_fields
from .keys.edge_keys import OFFERS, EdgeKeys, SectionKeys
from .keys.pattern_keys import PatternKeys
from .values import Entry, Text

GIVEN_BY = (SectionKeys.length, SectionKeys.rows, SectionKeys.stitches)


def read_edges(fields: Fields, fabrics: Mapping[str, Fabric | None],
               sizes: tuple[str, ...]) -> dict[str, EdgeSpec | None]:
    """The edges of the source by their keys; None for one with a fault."""
    return {entry.label: _edge(fields.findings, entry, fabrics, sizes)
            for entry in fields.each(PatternKeys.edges, needed=True)}


def _edge(findings: Findings, entry: Entry, fabrics: Mapping[str, Fabric | None],
          sizes: tuple[str, ...]) -> EdgeSpec | None:
    own = open_fields(findings, entry, f'edge "{clip(entry.label)}"', EdgeKeys)
    if own is None:
        return None
    fabric = own.need_as(EdgeKeys.fabric, named("fabric", fabrics))
    shape = _shape(own)
    ends = _ends(own, shape)
    if "sections" in own:
        sections = read_sections(own, sizes)
        return EdgeSpec(key=entry.label, fabric=fabric.key, shape=shape, ends=ends,
                        sections=sections) if fabric and sections and shape else None
    measure = own.one_of(EdgeKeys.length, EdgeKeys.rows)
    lengths, rows = own.sized(EdgeKeys.length, sizes), own.sized(EdgeKeys.rows, sizes)
    if fabric is None or shape is None or measure is None or (lengths is None and rows is None):
        return None
    return EdgeSpec(key=entry.label, fabric=fabric.key, shape=shape, ends=ends, length=lengths,
                    rows=rows)


def _shape(own: Fields) -> EdgeShape | None:
    """How the edge lies; None once it is recorded that it does not say so."""
    if "kind" not in own:
        if "kind" not in own.misspelt:
            own.findings.fault(
                "edge-not-said", own.place, f'no "kind" in {own.what}',
                f"one of {', '.join(shape.value for shape in EdgeShape)}",
                f'Add a line such as "kind: {EdgeShape.FRONT.value}" or "kind: '
                f'{EdgeShape.OPEN.value}".')
        return None
    shape = own.need(EdgeKeys.kind)
    if shape is EdgeShape.AROUND and "sections" not in own:
        own.findings.fault(
            "edge-not-said", own.place, f'no "sections" in {own.what}, which goes from hem to hem',
            "its sections from one hem round the neck to the other, the first along a front",
            f'Write sections such as "{EdgeKeys.sections.example}", or another kind.')
        return None
    return shape


def _ends(own: Fields, shape: EdgeShape | None) -> tuple[str, str]:
    """What the two ends are called, "" where the source does not name them."""
    entry = own.entry(EdgeKeys.ends)
    if entry is None:
        return "", ""
    if shape is EdgeShape.ROUND:
        own.findings.fault("edge-without-ends", entry.place,
                           f"ends of {own.what}, which is closed round", "an edge with two ends",
                           "Delete them, or write kind: one edge.")
    names = [own.findings.read(item, Text(40)) for item in own.each(EdgeKeys.ends)]
    if len(names) == 1:
        own.findings.fault("missing-key", entry.place, f"one end of {own.what}", "both its ends",
                           'Write two, such as "ends: [hem, top]".')
    return (names[0] or "", names[1] or "") if len(names) == 2 else ("", "")


def read_sections(edge: Fields, sizes: tuple[str, ...]) -> tuple[EdgeSection, ...] | None:
    """The sections of an edge in order; None where any has a fault."""
    for other in (EdgeKeys.length, EdgeKeys.rows):
        if other.name in edge:
            edge.refuse_both(other, EdgeKeys.sections)
            return None
    found = [_section(edge.findings, item, sizes) for item in edge.each(EdgeKeys.sections)]
    whole = tuple(section for section in found if section is not None)
    return whole if whole and len(whole) == len(found) else None


def _section(findings: Findings, entry: Entry, sizes: tuple[str, ...]) -> EdgeSection | None:
    own = open_fields(findings, entry, f"{entry.label} of the sections", SectionKeys)
    if own is None:
        return None
    title = own.need(SectionKeys.title)
    given = [key.name for key in GIVEN_BY if key.name in own]
    if len(given) != 1:
        keys = " and ".join(f'"{key}"' for key in given)
        findings.fault("two-answers" if given else "missing-key", own.place,
                       f"{keys} in {own.what}" if given else
                       f'neither "length" nor "rows" nor "stitches" in {own.what}',
                       "one of length, rows and stitches",
                       "Delete all but one of them." if given else
                       f'Add a line such as "{SectionKeys.rows.line}".')
        return None
    lengths, rows, stitches = (own.sized(SectionKeys.length, sizes),
                               own.sized(SectionKeys.rows, sizes),
                               own.sized(SectionKeys.stitches, sizes))
    offer = _offer(own)
    if title is None or offer is None or not (lengths or rows or stitches):
        return None
    return EdgeSection(title=title, length=lengths, rows=rows, stitches=stitches, offer=offer,
                       centre_back=own.get(SectionKeys.centre_back),
                       place=findings.places.get(f"{own.path}.{given[0]}", own.place))


def _offer(own: Fields) -> Offer | None:
    """What a section's stitches are; None once it is recorded that it does not say so."""
    if "stitches" in own and "stitches_are" not in own:
        if "stitches_are" not in own.misspelt:
            own.findings.fault(
                "stitches-not-said", own.place, f'no "stitches_are" in {own.what}',
                f"one of {', '.join(OFFERS.choices)}",
                'Add a line such as "stitches_are: bound off".')
        return None
    if "stitches_are" not in own:
        return Offer.ROWS
    if "stitches" not in own:
        entry = own.entry(SectionKeys.stitches_are)
        own.findings.fault("stitches-not-said", entry.place if entry else own.place,
                           f'"stitches_are" in {own.what}, which has none', "a section of stitches",
                           'Delete it, or write "stitches: 22" for the rows or length.')
        return None
    return own.need(SectionKeys.stitches_are)

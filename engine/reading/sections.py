"""An edge given section by section: what each offers to be hung, in every size."""

from __future__ import annotations

from typing import TypeVar

from ..model import EdgeSection
from .fields import Fields, Findings, listed_entries, open_fields, read_by_size
from .values import Entry, Reader, length, text, whole_number

SECTION_EXAMPLE = "[{title: right front, rows: 58}, {title: back neck, stitches: 22}]"
MOST_SECTIONS = 12
GIVEN_BY = ("length", "rows", "stitches")
T = TypeVar("T")


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
                      ("title", "length", "rows", "stitches"), "{title: right front, rows: 58}")
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
    lengths = _by_size(own, "length", length("length of a section"), sizes)
    rows = _by_size(own, "rows", whole_number("rows of a section"), sizes)
    stitches = _by_size(own, "stitches", whole_number("stitches of a section"), sizes)
    if title is None or not (lengths or rows or stitches):
        return None
    return EdgeSection(title=title, length=lengths, rows=rows, stitches=stitches)


def _by_size(own: Fields, key: str, reader: Reader[T], sizes: tuple[str, ...]
             ) -> dict[str, T] | None:
    entry = own.entry(key)
    return None if entry is None else read_by_size(own.findings, entry, reader, sizes)

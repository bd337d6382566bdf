"""The sizes of a pattern or of a chart: each a name, or in a pattern a size of the designer's own.

    sizes:
      - M
      - {label: 1X, as: XL}                    # the chart's XL, by her own name
      - {label: 6X, body: {chest: 160 cm, ...}} # in no column of the chart
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from ..core.problems import Place
from ..core.text import clip, suggest
from ..core.units import Length
from ..pattern.corrections import WithdrawnSize
from ..sizing.charts import Chart
from ..sizing.own_sizes import OwnSize
from . import part_readers as parts
from .fabric_reading import size_slug
from .fields import Fields, Findings, open_fields
from .keys.garment_keys import BODY_LENGTH
from .keys.pattern_keys import PatternKeys, SizeKeys, WithdrawnSizeKeys
from .likely import check_body
from .measure_reading import plain
from .page_names import page_flaw
from .source import Table
from .values import Entry, Fault, Text

_SIZE = re.compile(r"[A-Za-z0-9 /.-]{1,12}")


def read_sizes(fields: Fields) -> tuple[OwnSize, ...]:
    """The sizes in their order, each able to name a page; none if any is at fault."""
    findings, before = fields.findings, len(fields.findings.problems)
    key = fields.keys.keys["sizes"]
    sizes: dict[str, tuple[OwnSize, Place]] = {}  # by page name
    for item in fields.each(key, needed=True):
        size = _own_size(findings, item) if key.table else _plain(findings, item)
        page = size_slug(size.name if size else "")
        if size is not None and page in sizes and size.name == sizes[page][0].name:
            findings.fault("same-page", item.place, f'the size "{size.name}" again '
                           f"({sizes[page][1].short})", "each size once", "Rename or delete it.")
        elif size is not None and page in sizes:
            other, there = sizes[page]
            findings.fault("same-page", item.place, f'the size "{size.name}", whose page would be '
                           f'called "{page}" like that of "{other.name}" ({there.short})',
                           "sizes that differ in letters or digits", "Rename one of the two.")
        elif size is not None:
            sizes[page] = size, item.place
    names = {size.name for size, _ in sizes.values()}
    findings.labels.update({size.column: size.name for size, _ in sizes.values()
                            if size.column not in names})
    own = [size for size, _ in sizes.values()]
    if any(size.former for size in own):
        parts.hold_former(findings, own)
    return tuple(size for size, _ in sizes.values()) if len(findings.problems) == before else ()


def _plain(findings: Findings, item: Entry) -> OwnSize | None:
    label = findings.read(item, _size_name)
    return None if label is None else OwnSize(name=label, column=label, path=item.path)


def _own_size(findings: Findings, item: Entry) -> OwnSize | None:
    if not isinstance(item.node, Table):
        return _plain(findings, item)
    own = open_fields(findings, item, "a size", SizeKeys)
    if own is None:
        return None
    label = own.need_as(SizeKeys.label, _size_name)
    column = own.get_as(SizeKeys.as_, Text(120), "")
    body = {plain(entry.label): findings.read(entry, BODY_LENGTH)
            for entry in own.each(SizeKeys.body)}
    age = own.get(SizeKeys.age)
    former = tuple(findings.read(entry, _size_name) for entry in own.each(SizeKeys.former))
    if label is None:
        return None
    return OwnSize(name=label, column=column or ("" if body else label), path=item.path,
                   body={name: length for name, length in body.items() if length is not None},
                   former=tuple(filter(None, former)), age=age)

def read_withdrawn(fields: Fields, sizes: Sequence[OwnSize]) -> tuple[WithdrawnSize, ...]:
    """Return the sizes that were withdrawn; one at fault is recorded and left out.

    At fault is one whose page a size has now or had before, and one that is named again.
    """
    pages = {size_slug(label) for size in sizes for label in (size.name, *size.former)}
    made: dict[str, WithdrawnSize] = {}
    for entry in fields.each(PatternKeys.withdrawn_sizes):
        own = open_fields(fields.findings, entry, "a withdrawn size", WithdrawnSizeKeys)
        if own is None:
            continue
        label, date = own.need_as(WithdrawnSizeKeys.label, _size_name), own.need(
            WithdrawnSizeKeys.date)
        if label is None or date is None:
            continue
        page = size_slug(label)
        if page in pages or page in made:
            own.findings.fault("same-page", own.at(WithdrawnSizeKeys.label),
                               f'the withdrawn size "{label}", whose page was called "{page}" '
                               "like that of another size", "a label that no other size has or "
                               "had", "Delete it, or take the size out of sizes.")
        else:
            made[page] = WithdrawnSize(label, date, own.get(WithdrawnSizeKeys.why))
    return tuple(made.values())


def _size_name(entry: Entry) -> str:
    expected = "1 to 12 letters A to Z or a to z, digits, spaces and / . -"
    size = Text(120, expected, "Write a size such as M or 36/38.")(entry)
    if not _SIZE.fullmatch(size) or not size_slug(size):
        raise Fault("bad-size-name", entry.place, f'the size "{size}"', expected, "Rename it.")
    if flaw := page_flaw(size_slug(size)):
        raise Fault("bad-size-name", entry.place, f'the size "{size}"', flaw, "Rename it.")
    return size


def check_sizes(findings: Findings, chart: Chart, sizes: Sequence[OwnSize]) -> None:
    """Record sizes that the chart does not have, or has in another order."""
    of_chart = [size for size in sizes if size.column]
    for size in of_chart:
        if size.column not in chart.sizes:
            place = findings.places.get(f"{size.path}.as", findings.places[size.path])
            remedy = _chart_remedy(size, chart, named=f"{size.path}.as" in findings.places)
            findings.fault("size-not-in-chart", place, f'the size "{clip(size.column)}", which is '
                           f'not in the chart "{chart.key}"',
                           f"sizes among {', '.join(chart.sizes)}", remedy)
    if any(size.column not in chart.sizes for size in of_chart):
        return
    ordered = sorted(of_chart, key=lambda size: chart.sizes.index(size.column))
    if of_chart != ordered:
        findings.fault("size-order", findings.places["sizes"],
                       f"the sizes {', '.join(size.name for size in of_chart)}",
                       f'the order of the chart "{chart.key}"',
                       f"Write [{', '.join(size.name for size in ordered)}].")


def _chart_remedy(size: OwnSize, chart: Chart, *, named: bool) -> str:
    """What to do about a size that the chart has not: it names the chart's size with `as`, or is
    the pattern's own and may be there by another name (XXL is 2X); like letters mean little."""
    meant = _meant(size.column, chart)
    own = " or ".join(f"{{label: {size.name}, as: {one}}}"
                      for one in ([meant] if meant else _beside(size.column, chart)))
    if meant and (named or meant.lower() == size.column.lower()):
        return f"Write {meant}."
    if meant:
        return f"Write {meant}, or {own}."
    otherwise = (f"Use one of these, or write {own} with the chart's size that it is for, or take "
                 "another chart.")
    return suggest(size.column, chart.sizes, otherwise)[1] if named else otherwise


def _beside(label: str, chart: Chart) -> list[str]:
    """The chart's sizes nearest to a label that is a number, one or two; or SIZE, which is none."""
    numbers = {int(size): size for size in chart.sizes if size.isdecimal()}
    if not label.isdecimal() or not numbers:
        return ["SIZE"]
    under = max((n for n in numbers if n < int(label)), default=None)
    over = min((n for n in numbers if n > int(label)), default=None)
    return [numbers[n] for n in (under, over) if n is not None]


def _meant(label: str, chart: Chart) -> str:
    """The chart's size that a label is another name of: XXL and 2XL are its 2X; or ""."""
    large = re.fullmatch(r"(X{2,}|[2-9]X)L?", label.upper())
    spelt = (f"{len(large[1])}X" if large[1][0] == "X" else large[1]) if large else label
    return next((size for size in chart.sizes if size.lower() == spelt.lower()), "")


def by_chart(findings: Findings, chart: Chart, sizes: Sequence[OwnSize]) -> tuple[OwnSize, ...]:
    """The sizes with their measurements by the chart's own names; those it has not are recorded."""
    rows = {plain(name): name for name in chart.rows}
    return tuple(OwnSize(name=size.name, column=size.column, path=size.path, age=size.age,
                         body=dict(_measured(findings, chart, size, rows))) for size in sizes)


def _measured(findings: Findings, chart: Chart, size: OwnSize, rows: Mapping[str, str]
              ) -> Iterator[tuple[str, Length]]:
    for name, length in size.body.items():
        path = f"{size.path}.body.{name}"
        if name in rows:
            check_body(findings, path, chart.rows[rows[name]], {size.column: length})
            yield rows[name], length
            continue
        expected, remedy = suggest(name, chart.rows, "Use one of these, or put the length under "
                                   "measures.")
        where = f'in the chart "{chart.key}"' if chart.key else "without a size chart"
        findings.fault("unknown-name", findings.places.get(path, findings.places[size.path]),
                       f'no measurement called "{clip(name)}" {where}', expected, remedy)


def warn_without_chart(findings: Findings, sizes: Sequence[OwnSize]) -> None:
    """Warn of sizes that name a body in a pattern that is cut for none."""
    for size in sizes:
        if size.is_plain:
            continue
        key = "body" if size.body else "as"
        findings.warn("unused", findings.places[size.path], f'"{key}" of the size "{size.name}" '
                      "in a pattern without a size chart", remedy="Delete it.")

"""A located tree to a body size chart, with every fault in it found at once.

    title: Women's body sizes
    publisher: Lantern Quay
    source: measured on 40 friends
    authority: cm            # or in: the column that the values are taken from
    sizes: [S, M]
    measurements:
      chest:
        label: bust          # the name, in words, if left out
        cm: {S: 81–86, M: 91.5–96.5}       # exactly as printed
        in: {S: 32–34, M: 36–38}
        mended:              # a printed error replaced: by what (cm, in), and how it is known
          M: {cm: 91.5–96.5, how: why}
        filled:              # cells that are empty in print, and from what they were filled
          cm: {M: 28}
          how: from what
    remarks:
      - {text: tight at the upper arm, source: who says so, rows: [upper_arm], sizes: [M]}

Left out, url, version, read, how and remarks are none. A cell whose printed units part by more
than half a centimetre, and that is not mended, is warned of: nothing is put right silently.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from ..core.problems import Problem, Severity, has_errors, in_order, note
from ..core.text import suggest
from ..core.units import Length, UnitError
from ..sizing.charts import AGREEMENT, MM_IN, Cell, Chart, Remark, Row, mismatches, read_span
from ..sizing.grading import look_across
from .fields import Fields, Findings, listed_entries, named_entries, open_fields
from .materials import read_sizes
from .source import Node
from .values import Entry, Fault, Reader, table_like, text, word

KEYS = ("title", "publisher", "source", "url", "version", "read", "authority", "sizes",
        "measurements", "remarks")
ROW_KEYS = ("label", "how", "source", "cm", "in", "mended", "filled")
ROW_EXAMPLE = "{cm: {S: 81–86, M: 91.5–96.5}}"
LARGEST = Length(Fraction(4000))


def read_chart(node: Node, *, key: str) -> tuple[Chart | None, tuple[Problem, ...]]:
    """Return the chart that a chart file says, called `key`, and all findings.

    There is no chart if any finding is an error. Raises nothing.
    """
    findings = Findings()
    fields = open_fields(findings, Entry("the chart", node, "", node.place), "the chart", KEYS,
                         "title: Women's body sizes")
    chart = None if fields is None else _chart(fields, key)
    if chart is None or has_errors(findings.problems):
        return None, in_order(findings.problems)
    _warn_of_steps(findings, chart)
    for parted in mismatches(chart):
        if not chart.rows[parted.row].cells[parted.size].mended:
            findings.warn("units-apart", findings.places[f"measurements.{parted.row}"],
                          str(parted), f"units that agree within {AGREEMENT.in_cm()}",
                          "Say under mended which of the two holds, and how that is known.")
    return chart, in_order(findings.problems)


def _warn_of_steps(findings: Findings, chart: Chart) -> None:
    """Warn of a figure that falls, or more than doubles, from one size to the next."""
    for row in chart.rows.values():
        cells = [(size, row.cells[size].middle.cm) for size in chart.sizes if size in row.cells]
        for pair in pairwise(cells):
            for found in look_across(f"{row.label} in cm", pair, rises=True):
                findings.problems.append(note(
                    Severity.WARNING, "out-of-step", findings.places[f"measurements.{row.name}"],
                    size=found.size, found=found.text, remedy="Check the figure.",
                    expected="sizes, the smallest first, that grow by even steps"))


def _chart(fields: Fields, key: str) -> Chart | None:
    title = fields.need("title", text(120), "Women's body sizes")
    publisher = fields.need("publisher", text(120), "Lantern Quay")
    source = fields.need("source", text(600), "measured on 40 friends")
    url = fields.get("url", text(300), "")
    edition = fields.get("version", text(300), "")
    route = fields.get("read", text(600), "")
    authority = fields.need("authority", word({"cm": "cm", "in": "in"}), "cm")
    sizes = read_sizes(fields)
    rows = _rows(fields, _Columns(authority or "cm", sizes))
    remarks = _remarks(fields, rows, sizes)
    if title is None or publisher is None or source is None or authority is None or not sizes:
        return None
    return Chart(key=key, title=title, publisher=publisher, source=source, url=url,
                 version=edition, read=route, authority=authority, sizes=sizes, rows=rows,
                 remarks=remarks)


@dataclass(frozen=True, slots=True)
class _Columns:
    """The column that counts, and the sizes there are."""

    authority: str
    sizes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Mending:
    """What a printed figure was replaced by ("" for nothing: the column that counts holds)."""

    figures: str
    how: str


def _rows(fields: Fields, columns: _Columns) -> dict[str, Row]:
    entry = fields.required("measurements", f"measurements: {{chest: {ROW_EXAMPLE}}}")
    entries = () if entry is None else named_entries(
        fields.findings, entry, "measurements", f"{{chest: {ROW_EXAMPLE}}}", 60)
    return {e.label: row for e in entries if (row := _row(fields.findings, e, columns))}


def _row(findings: Findings, entry: Entry, columns: _Columns) -> Row | None:
    own = open_fields(findings, entry, f'measurement "{entry.label}"', ROW_KEYS, ROW_EXAMPLE)
    if own is None:
        return None
    label = own.get("label", text(60), entry.label.replace("_", " "))
    how = own.get("how", text(300), "")
    source = own.get("source", text(600), "")
    printed = {unit: _figures(own, unit, columns.sizes) for unit in ("cm", "in")}
    mended = _mended(own, columns)
    filled, from_what = _filled(own, columns)
    cells = {}
    for size in columns.sizes:
        counts = printed[columns.authority].get(size, "")
        mending = mended.get(size, _Mending("", ""))
        figures = mending.figures or counts or filled.get(size)
        if figures:
            low, high = (Length(end * MM_IN[columns.authority]) for end in read_span(figures))
            cells[size] = Cell(low, high, printed["cm"].get(size, ""), printed["in"].get(size, ""),
                               mending.how, "" if counts else from_what)
    _check_columns(own, columns, printed, filled, cells)
    return Row(entry.label, label, how, source, cells)


def _check_columns(row: Fields, columns: _Columns, printed: Mapping[str, Mapping[str, str]],
                   filled: Mapping[str, str], cells: Mapping[str, Cell]) -> None:
    """Record cells that are both printed and filled, and print that comes to nothing."""
    findings, unit = row.findings, columns.authority
    for size in (s for s in filled if s in printed[unit]):
        findings.fault("two-answers", findings.places[f"{row.path}.filled.{unit}.{size}"],
                       f"size {size} both printed in {unit} and filled", "one of the two",
                       "Replace a printed error under mended.")
    idle = [size for other in printed for size in printed[other] if size not in cells]
    if has_errors(findings.problems):
        return
    if not cells:
        findings.fault("missing-key", row.place, f"no figures in {unit} in {row.what}",
                       "figures in the column that counts", f"Add {unit}: {{S: 81–86}}.")
    elif idle:
        findings.warn("missing-size", row.place, f"no {unit} in {row.what} for {', '.join(idle)}",
                      "figures in the column that counts",
                      "Add them under filled, saying how they follow from the other column.")


def _figures(row: Fields, unit: str, sizes: tuple[str, ...]) -> dict[str, str]:
    """The printed figures of one column, by size, as typed."""
    entry = row.entry(unit)
    if entry is None:
        return {}
    return {size.label: figures for size in _by_size(row.findings, entry, sizes)
            if (figures := row.findings.read(size, _span_in(unit))) is not None}


def _by_size(findings: Findings, entry: Entry, sizes: tuple[str, ...]) -> Iterator[Entry]:
    table = findings.read(entry, table_like("figures by size", "{S: 81–86, M: 91.5–96.5}"))
    for size, keyed in (table.entries.items() if table else ()):
        if size not in sizes:
            if sizes:
                expected, remedy = suggest(size, sizes, "Delete it, or add it to sizes.")
                findings.fault("unknown-size", keyed.place, f'the unknown size "{size[:40]}"',
                               expected, remedy)
            continue
        yield Entry(size, keyed.node, f"{entry.path}.{size}", keyed.place)


def _span_in(unit: str) -> Reader[str]:
    """A reader of a figure or range in `unit`, as typed."""
    def read(entry: Entry) -> str:
        figures = text(40, "a number or a range such as 28–30", "Write the figures.")(entry)
        try:
            _, high = read_span(figures)
        except UnitError as fault:
            raise Fault("bad-span", entry.place, fault.found, fault.expected,
                        fault.remedy or "Check the figures.") from None
        if Length(high * MM_IN[unit]) > LARGEST:
            raise Fault("out-of-range", entry.place, f'"{figures}" {unit}',
                        f"at most {LARGEST.in_cm()}", "Check the figure and its column.")
        return figures
    return read


def _mended(row: Fields, columns: _Columns) -> dict[str, _Mending]:
    entry = row.entry("mended")
    mended = {}
    for size in () if entry is None else _by_size(row.findings, entry, columns.sizes):
        own = open_fields(row.findings, size, f"the mending of size {size.label}",
                          ("cm", "in", "how"), "{cm: 67.5, how: 26.5 in is 67.3 cm}")
        how = None if own is None else own.need("how", text(400), "26.5 in is 67.3 cm")
        if own is not None and how is not None:
            spans = {unit: own.get(unit, _span_in(unit), "") for unit in ("cm", "in")}
            mended[size.label] = _Mending(spans[columns.authority], how)
    return mended


def _filled(row: Fields, columns: _Columns) -> tuple[dict[str, str], str]:
    entry = row.entry("filled")
    own = None if entry is None else open_fields(
        row.findings, entry, "filled", ("cm", "in", "how"), "{cm: {M: 28}, how: from what}")
    if own is None:
        return {}, ""
    how = own.need("how", text(600), "the mean of 40 friends")
    own.required(columns.authority, f"{columns.authority}: {{M: 28}}")
    return _figures(own, columns.authority, columns.sizes), how or ""


def _remarks(fields: Fields, rows: Mapping[str, Row], sizes: tuple[str, ...],
             ) -> tuple[Remark, ...]:
    entry = fields.entry("remarks")
    example = "[{text: Tight at the upper arm., source: who says so}]"
    remarks = []
    for item in () if entry is None else listed_entries(fields.findings, entry, "remarks",
                                                        example, 40):
        own = open_fields(fields.findings, item, "a remark",
                          ("short", "text", "source", "rows", "sizes"), example)
        if own is not None:
            short = own.get("short", text(100), "")
            said = own.need("text", text(600), "Tight at the upper arm.")
            source = own.need("source", text(600), "who says so")
            about = _names(own, "rows", "measurement", rows)
            among = _names(own, "sizes", "size", dict.fromkeys(sizes))
            if said is not None and source is not None:
                remarks.append(Remark(said, source, about, among, short))
    return tuple(remarks)


def _names(own: Fields, key: str, what: str, known: Mapping[str, object]) -> tuple[str, ...]:
    entry = own.entry(key)
    if entry is None or not known:
        return ()
    names = []
    for item in listed_entries(own.findings, entry, key, f"[{next(iter(known))}]", 60):
        name = own.findings.read(item, text(60))
        if name is not None and name not in known:
            expected, remedy = suggest(name, known, f"Use one of these, or add the {what}.")
            own.findings.fault("unknown-name", item.place, f'no {what} called "{name}"', expected,
                               remedy)
        elif name is not None:
            names.append(name)
    return tuple(names)

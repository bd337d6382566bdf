"""A located tree to a body size chart, with every fault in it found at once.

Its keys are declared in `keys.size_chart_keys`. A cell whose printed units part by more
than half a centimetre, and that is not mended, is warned of: nothing is put right silently.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

from ..core.problems import Problem, Severity, has_errors, in_order, note
from ..core.text import suggest
from ..core.units import Length
from ..machine.records import dataclass
from ..sizing.ages import Age
from ..sizing.charts import AGREEMENT, Chart, Remark, Row, SizeCell, mismatches
from ..sizing.grading import look_across
from ..sizing.printed_figures import MM_IN, read_span
from .fields import Fields, Findings, open_fields, sized_entries
from .keys.key import Key
from .keys.size_chart_keys import ChartFileKeys, FilledKeys, MendedKeys, RemarkKeys, RowKeys
from .page_names import OWN_CHART
from .renamed import with_new_names
from .sizes import read_sizes
from .source import Node
from .spellings import Span
from .values import Entry, Text, table_like, word

_PRINTED = {"cm": RowKeys.cm, "in": RowKeys.in_}
_MENDED = {"cm": MendedKeys.cm, "in": MendedKeys.in_}
_FILLED = {"cm": FilledKeys.cm, "in": FilledKeys.in_}


def read_chart(node: Node, *, key: str) -> tuple[Chart | None, tuple[Problem, ...]]:
    """Return the chart that a chart file says, called `key`, and all findings.

    There is no chart if any finding is an error. Raises nothing.
    """
    findings = Findings()
    node = with_new_names(findings, node, ChartFileKeys)
    fields = open_fields(findings, Entry("the chart", node, "", node.place), "the chart",
                         ChartFileKeys)
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
    title, publisher = fields.need(ChartFileKeys.title), fields.need(ChartFileKeys.publisher)
    source, authority = fields.need(ChartFileKeys.source), fields.need(ChartFileKeys.authority)
    sizes = tuple(size.name for size in read_sizes(fields))
    rows = _rows(fields, _Columns(authority or "cm", sizes))
    remarks = _remarks(fields, rows, sizes)
    if title is None or publisher is None or source is None or authority is None or not sizes:
        return None
    return Chart(key=key, title=title, publisher=publisher, source=source,
                 url=fields.get(ChartFileKeys.url),
                 version=fields.get(ChartFileKeys.version), read=fields.get(ChartFileKeys.read),
                 authority=authority, sizes=sizes, rows=rows,
                 remarks=remarks, ages=_ages(fields, sizes),
                 at=fields.at(ChartFileKeys.measurements) if key == OWN_CHART else None)


def _ages(fields: Fields, sizes: tuple[str, ...]) -> dict[str, Age]:
    """Whose bodies the sizes are, by size."""
    entry = fields.entry(ChartFileKeys.ages)
    if entry is None:
        return {}
    return {size.label: age for size in _by_size(fields.findings, entry, sizes)
            if (age := fields.findings.read(size, word(Age))) is not None}


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
    return {entry.label: row for entry in fields.each(ChartFileKeys.measurements)
            if (row := _row(fields.findings, entry, columns))}


def _row(findings: Findings, entry: Entry, columns: _Columns) -> Row | None:
    own = open_fields(findings, entry, f'measurement "{entry.label}"', RowKeys)
    if own is None:
        return None
    label = own.get(RowKeys.label) or entry.label.replace("_", " ")
    how, source = own.get(RowKeys.how), own.get(RowKeys.source)
    printed = {unit: _figures(own, key, columns.sizes) for unit, key in _PRINTED.items()}
    mended = _mended(own, columns)
    filled, from_what = _filled(own, columns)
    cells = {}
    for size in columns.sizes:
        counts = printed[columns.authority].get(size, "")
        mending = mended.get(size, _Mending("", ""))
        figures = mending.figures or counts or filled.get(size)
        if figures:
            low, high = (Length(end * MM_IN[columns.authority]) for end in read_span(figures))
            cells[size] = SizeCell(low, high, printed["cm"].get(size, ""),
                                   printed["in"].get(size, ""),
                                   mending.how, "" if counts else from_what)
    _check_columns(own, columns, printed, filled, cells)
    column = next((key for key in (*(_PRINTED[unit] for unit in (columns.authority, "cm", "in")),)
                   if own.entry(key) is not None), None)
    return Row(entry.label, label, how, source, cells,
               at=own.at(column) if column else entry.place)


def _check_columns(row: Fields, columns: _Columns, printed: Mapping[str, Mapping[str, str]],
                   filled: Mapping[str, str], cells: Mapping[str, SizeCell]) -> None:
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
        _no_column(row, columns, [other for other, given in printed.items() if given])
    elif idle:
        findings.warn("missing-size", row.place, f"no {unit} in {row.what} for {', '.join(idle)}",
                      "figures in the column that counts",
                      "Add them under filled, saying how they follow from the other column.")


def _no_column(row: Fields, columns: _Columns, given: Sequence[str]) -> None:
    """Record a measurement without the column that counts; `given` are those that it has."""
    unit = columns.authority
    example = f"{unit}: {{{columns.sizes[0] if columns.sizes else 'S'}: " \
        f"{'81–86' if unit == 'cm' else '32–34'}}}"
    other = f"write authority: {given[0]}, or " if given else ""
    remedy = f"{other}add the figures of your sizes, such as {example}."
    row.findings.fault("missing-key", row.place,
                       f'no column "{unit}" in {row.what}, though authority says {unit}',
                       "figures in the column that counts", f"{remedy[0].upper()}{remedy[1:]}")


def _figures(row: Fields, key: Key[Any], sizes: tuple[str, ...]) -> dict[str, str]:
    """The printed figures of one column, by size, as typed."""
    entry = row.entry(key)
    if entry is None:
        return {}
    return {size.label: figures for size in _by_size(row.findings, entry, sizes)
            if (figures := row.findings.read(size, Span(key.name))) is not None}


def _by_size(findings: Findings, entry: Entry, sizes: tuple[str, ...]) -> Iterator[Entry]:
    """The figures of a column, for the sizes that the chart has; none where it has none."""
    table = findings.read(entry, table_like("figures by size", "{S: 81–86, M: 91.5–96.5}"))
    return sized_entries(findings, entry, sizes) if table and sizes else iter(())


def _mended(row: Fields, columns: _Columns) -> dict[str, _Mending]:
    entry = row.entry(RowKeys.mended)
    mended = {}
    for size in () if entry is None else _by_size(row.findings, entry, columns.sizes):
        own = open_fields(row.findings, size, f"the mending of size {size.label}", MendedKeys)
        how = None if own is None else own.need(MendedKeys.how)
        if own is not None and how is not None:
            spans = {unit: own.get(key) for unit, key in _MENDED.items()}
            mended[size.label] = _Mending(spans[columns.authority], how)
    return mended


def _filled(row: Fields, columns: _Columns) -> tuple[dict[str, str], str]:
    own = row.opened(RowKeys.filled, "filled")
    if own is None:
        return {}, ""
    how, column = own.need(FilledKeys.how), _FILLED[columns.authority]
    own.required(column)
    other = FilledKeys.in_ if column is FilledKeys.cm else FilledKeys.cm
    if _figures(own, other, columns.sizes):
        row.findings.warn("unused", own.at(other), f"{other.name} filled in {row.what}, "
                          "which nothing uses", f"figures in {column.name}, the column that counts",
                          "Delete it.")
    return _figures(own, column, columns.sizes), how or ""


def _remarks(fields: Fields, rows: Mapping[str, Row], sizes: tuple[str, ...],
             ) -> tuple[Remark, ...]:
    remarks = []
    for item in fields.each(ChartFileKeys.remarks):
        own = open_fields(fields.findings, item, "a remark", RemarkKeys)
        if own is not None:
            short, text = own.get(RemarkKeys.short), own.need(RemarkKeys.text)
            source = own.need(RemarkKeys.source)
            about = _names(own, RemarkKeys.rows, "measurement", rows)
            among = _names(own, RemarkKeys.sizes, "size", dict.fromkeys(sizes))
            if text is not None and source is not None:
                remarks.append(Remark(text, source, about, among, short))
    return tuple(remarks)


def _names(own: Fields, key: Key[Any], what: str, known: Mapping[str, object]) -> tuple[str, ...]:
    if not known:
        return ()
    names = []
    for item in own.each(key):
        name = own.findings.read(item, Text(60))
        if name is not None and name not in known:
            expected, remedy = suggest(name, known, f"Use one of these, or add the {what}.")
            own.findings.fault("unknown-name", item.place, f'no {what} called "{name}"', expected,
                               remedy)
        elif name is not None:
            names.append(name)
    return tuple(names)

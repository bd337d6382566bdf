"""The body measurements that a garment changes: `body`, for some sizes or for all."""

from __future__ import annotations

from ..core.text import clip, suggest
from ..core.units import Length
from ..sizing.charts import Chart
from .fields import Fields, Findings, named_entries, open_fields
from .likely import check_body
from .measures import plain
from .source import Table
from .values import Entry, length

BODY_EXAMPLE = "{upper_arm: {M: 30 cm}}"
_BODY_LENGTH = length("body measurement")


def read_body(garment: Fields, chart: Chart | None, sizes: tuple[str, ...],
              ) -> dict[str, dict[str, Length]]:
    """The changed body measurements by the chart's own names, each for the sizes it is given."""
    entry = garment.entry("body")
    if entry is None:
        return {}
    rows = {plain(name): name for name in chart.rows} if chart else {}
    body: dict[str, dict[str, Length]] = {}
    for item in named_entries(garment.findings, entry, "body measurements", BODY_EXAMPLE, 60):
        name = rows.get(plain(item.label))
        if chart is not None and name is None:
            _unknown_row(garment.findings, entry, item, chart)
        lengths = _for_sizes(garment.findings, item, sizes)
        if name is not None and chart is not None:
            body[name] = lengths
            check_body(garment.findings, item.path, chart.rows[name], lengths)
    return body


def _unknown_row(findings: Findings, body: Entry, item: Entry, chart: Chart) -> None:
    place = body.node.entries[item.label].place if isinstance(body.node, Table) else item.place
    use = "Use one of these" if chart.rows else "Name a size chart"
    expected, remedy = suggest(item.label, chart.rows, f"{use}, or put the length under measures.")
    where = f'in the chart "{chart.key}"' if chart.key else "without a size chart"
    findings.fault("unknown-name", place,
                   f'no measurement called "{clip(item.label)}" {where}', expected, remedy)


def _for_sizes(findings: Findings, entry: Entry, sizes: tuple[str, ...]) -> dict[str, Length]:
    """A length for all sizes, or for those that a mapping names."""
    if not isinstance(entry.node, Table):
        value = findings.read(entry, _BODY_LENGTH)
        return {} if value is None else dict.fromkeys(sizes, value)
    own = open_fields(findings, entry, entry.label, tuple(entry.node.entries), "{M: 30 cm}")
    lengths: dict[str, Length] = {}
    for size in () if own is None else own.table.entries:
        if sizes and size not in sizes:
            expected, remedy = suggest(size, sizes, "Delete it, or add it to sizes.")
            findings.fault("unknown-size", entry.node.entries[size].place,
                           f'the unknown size "{clip(size)}"', expected, remedy)
        elif own and (value := own.need(size, _BODY_LENGTH, "30 cm")) is not None:
            lengths[size] = value
    return lengths

"""The body measurements that a garment changes: `body`, for some sizes or for all."""

from __future__ import annotations

from ..catalogue.body_measurements import BODY_MEASUREMENTS
from ..core.text import clip, suggest
from ..core.units import Length
from ..sizing.charts import Chart
from .fields import Fields, Findings, sized_entries
from .keys.garment_keys import BODY_LENGTH, GarmentKeys
from .likely import check_body
from .measure_reading import not_in_chart, plain
from .source import Table
from .values import Entry, table_like


def read_body(garment: Fields, chart: Chart | None, sizes: tuple[str, ...],
              ) -> dict[str, dict[str, Length]]:
    """The changed body measurements by the chart's own names, each for the sizes it is given."""
    entry = garment.entry(GarmentKeys.body)
    if entry is None:
        return {}
    rows = {plain(name): name for name in chart.rows} if chart else {}
    body: dict[str, dict[str, Length]] = {}
    for item in garment.each(GarmentKeys.body):
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
    if chart.key and plain(item.label) in BODY_MEASUREMENTS:
        findings.fault("missing-measurement", place, *not_in_chart(plain(item.label), chart))
        return
    use = "Use one of these" if chart.rows else "Name a size chart"
    expected, remedy = suggest(item.label, chart.rows, f"{use}, or put the length under measures.")
    expected = expected or "a measurement of a size chart"
    where = f'in the chart "{chart.key}"' if chart.key else "without a size chart"
    findings.fault("unknown-name", place,
                   f'no measurement called "{clip(item.label)}" {where}', expected, remedy)


def _for_sizes(findings: Findings, entry: Entry, sizes: tuple[str, ...]) -> dict[str, Length]:
    """A length for all sizes, or for those that a mapping names."""
    if not isinstance(entry.node, Table):
        value = findings.read(entry, BODY_LENGTH)
        return {} if value is None else dict.fromkeys(sizes, value)
    findings.read(entry, table_like(entry.label, "{M: 30 cm}"))
    read = {at.label: findings.read(at, BODY_LENGTH)
            for at in sized_entries(findings, entry, sizes)}
    return {size: value for size, value in read.items() if value is not None}

"""Sizes as a designer calls them, in a body size chart: by another name, or beside its sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace

from ..core.body_figures import FigureBy
from ..core.units import Length
from ..machine.records import dataclass
from .ages import Age
from .charts import Chart, Remark, Row, SizeCell, changed, facts_of


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSize:
    """A size as it is called in a pattern.

    `column` is the size of the chart whose figures it has, "" for none; `body` has the designer's
    own figures by the chart's names, `age` says whose body it is, None where that is not said.
    `former` are labels that it had before. `path` leads to its place in the source.
    """

    name: str
    column: str
    body: Mapping[str, Length] = field(default_factory=dict)
    path: str = ""
    former: tuple[str, ...] = ()
    age: Age | None = None

    @property
    def is_plain(self) -> bool:
        """True for a size that is called as the chart calls it, with the chart's figures."""
        return self.name == self.column and not self.body


def bodiless(sizes: tuple[str, ...]) -> Chart:
    """Return the chart of a form that is cut from no body: no rows, sizes called at will."""
    return Chart(key="", title="", publisher="", source="", url="", version="", read="",
                 authority="cm", sizes=sizes, rows={})


def with_own_sizes(chart: Chart, sizes: Sequence[OwnSize]) -> Chart:
    """Return the chart with these sizes in place of those it has; where all are plain, only with
    whose bodies they are.

    A size that is in no column of the chart has the designer's figures, and no others. Those that
    are named with figures of the chart keep its print, and its remarks.
    """
    if any(size.age for size in sizes) or not all(size.is_plain for size in sizes):
        chart = replace(chart, ages=_ages(chart, sizes))
    if all(size.is_plain for size in sizes):
        return chart
    rows = {name: replace(row, cells=dict(_cells(row, sizes))) for name, row in chart.rows.items()}
    return replace(chart, sizes=tuple(size.name for size in sizes), rows=rows,
                   remarks=tuple(_remarks(chart, sizes)),
                   columns={size.name: size.column for size in sizes})


def _ages(chart: Chart, sizes: Sequence[OwnSize]) -> dict[str, Age]:
    """Whose bodies the sizes are, by their own names: as they say, else as the chart does."""
    return {size.name: age for size in sizes
            if (age := size.age or chart.ages.get(size.column)) is not None}


def _cells(row: Row, sizes: Sequence[OwnSize]) -> Iterator[tuple[str, SizeCell]]:
    for size in sizes:
        cell, own = row.cells.get(size.column), size.body.get(row.name)
        if own is not None:
            yield size.name, changed(cell, own, FigureBy.DESIGNER)
        elif cell is not None:
            yield size.name, cell


def _remarks(chart: Chart, sizes: Sequence[OwnSize]) -> Iterator[Remark]:
    """The chart's remarks on these sizes, by their own names; each keeps the facts of the chart, so
    that it is accepted under one mark whatever the sizes are called."""
    of_chart = tuple(size for size in sizes if size.column)
    for remark in chart.remarks:
        labels = tuple(size.name for size in of_chart
                       if not remark.sizes or size.column in remark.sizes)
        if labels:
            yield replace(remark, sizes=labels, facts=facts_of(chart, remark))

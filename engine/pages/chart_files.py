"""The files of a pattern's stitch charts: their names, what is in them, and the links to them."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator, Mapping

from ..drawings.chart_pixels import chart_png, colours
from ..pattern.stitch_chart import StitchChart, turned_over
from ..source.page_names import CHARTS
from ..words.chart_file_text import files_text

CSV, PNG = ".csv", ".png"
BINARY = (PNG,)
"""The endings of files whose text is the base64 of their bytes (RFC 4648)."""

def chart_files(charts: Mapping[str, StitchChart]) -> Iterator[tuple[str, str]]:
    """Yield the name of each file beside the pattern's pages, and its text."""
    for key, chart in _at_machine(charts).items():
        yield _name(key, CSV), chart_csv(chart)
        yield _name(key, PNG), b64encode(chart_png(chart)).decode()


def chart_csv(chart: StitchChart) -> str:
    """Return one repeat as CSV (RFC 4180): a line a row, the last row first.

    The first line numbers the stitches from the left; each line begins with the row's number.
    """
    head = ",".join(("row", *map(str, range(1, chart.width + 1))))
    rows = (",".join((str(number), *(cell.value for cell in chart.rows[number - 1])))
            for number in range(chart.height, 0, -1))
    return "\r\n".join((head, *rows, ""))


def chart_links(charts: Mapping[str, StitchChart]) -> str:
    """Return the links to all files of the charts, as HTML."""
    return "".join(files_text(chart, _name(key, CSV), _name(key, PNG), colours(chart))
                   for key, chart in _at_machine(charts).items())


def _at_machine(charts: Mapping[str, StitchChart]) -> dict[str, StitchChart]:
    """The charts by name as they are seen at the machine: a source has them from the knit side."""
    return {key: turned_over(chart) for key, chart in charts.items()}


def _name(key: str, ending: str) -> str:
    return f"{CHARTS}{key.replace('_', '-').replace(' ', '-')}{ending}"

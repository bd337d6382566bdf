"""Is a swatch measured over whole repeats of what its fabric is knitted in?

A part of a repeat can be wider or narrower than the rest: it counts for more than it is worth
(technique page swatch-and-gauge: its marks lie whole repeats apart).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..core.problems import Problem, Severity, note
from ..core.text_kinds import FindingText
from ..pattern.fabrics import Fabric, Materials
from ..pattern.places import Places
from ..pattern.stitch_chart import StitchChart


def cut_repeats(places: Places, materials: Materials) -> Iterator[Problem]:
    """Yield a warning for every swatch whose stitches, or rows, are no whole number of repeats."""
    for fabric in materials.fabrics.values():
        what, wide, high = _repeat(materials.stitch_charts, fabric)
        for swatch in fabric.swatches:
            for measured, size, unit in ((swatch.stitches, wide, "stitches"),
                                         (swatch.rows, high, "rows")):
                if measured % size:
                    yield note(
                        Severity.WARNING, "swatch-cuts-repeat",
                        swatch.place or places.of(f"fabrics.{fabric.key}"),
                        found=f"a swatch measured over {measured} {unit} {what} of {size} {unit}",
                        expected=f"whole repeats: {_near(measured, size)} {unit}",
                        remedy="Measure the swatch again between threads that lie whole repeats "
                               "apart, and write what you measured.")


def _repeat(charts: Mapping[str, StitchChart], fabric: Fabric) -> tuple[FindingText, int, int]:
    """What a fabric repeats, over how many stitches and rows; needles out of work give none."""
    if fabric.repeat:
        return "in repeats", sum(fabric.repeat.works), 1
    if chart := charts.get(fabric.chart):
        return f'in repeats of "{chart.title}",', chart.stitches, chart.height
    return "", 1, 1


def _near(measured: int, size: int) -> FindingText:
    """The whole repeats next to what was measured."""
    below = measured // size * size
    return f"{below} or {below + size}" if below else f"{size}"

"""The gauges of a pattern: what each swatch is knitted as, and which of its needles are counted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from ..catalogue.bands import KINDS
from ..fabric.gauge import Gauge, measure
from ..fabric.hem_fabric import depth_of, feet_of, foot_fabric
from ..markup.html import details, esc, facts
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, Pattern
from ..plan.arranged import edge_fabric
from ..proof.fabric_names import fabric_names
from ..words import gauges as words
from ..words.words import joined


@dataclass(frozen=True, slots=True)
class _Knitted:
    """A fabric of the pattern under the name a reader knows it by."""

    name: str
    fabric: Fabric
    gauge: Gauge
    yarn: str


def gauges(pattern: Pattern, bands: Iterable[Band]) -> str:
    """Return every gauge that the bands are counted by, with dial, yarn and working."""
    found = fabric_names(pattern)
    rules: list[str] = []
    rules += dict.fromkeys(words.hem_not_swatched(foot, depth_of(pattern, foot))
                           for foot in feet_of(pattern)
                           if foot_fabric(pattern, foot) is None)
    for band in bands:
        if KINDS[band.kind].latched and _is_plain(pattern, band.fabric):
            rules.append(words.latched_not_swatched(band))
        if band.pick_up is not None and not band.facing_fabric:
            rules.append(words.from_rule(band, band.pick_up, alike=_is_alike(pattern, band)))
    told = [_Knitted(joined(names), pattern.fabrics[key], measure(pattern.fabrics[key].swatches),
                     pattern.yarns[pattern.fabrics[key].yarn].called)
            for key, names in found.items()]
    return (facts((esc(k.name), words.gauge_said(k.gauge, k.yarn, k.fabric.dial)) for k in told)
            + "".join(rules)
            + "".join(details(words.gauge_working(k.name), esc(words.gauge_worked(k.gauge)))
                      for k in told)
            + "".join(f"<p>{said}</p>" for said in _measured(pattern, found))
            + words.MEASURED)


def _is_alike(pattern: Pattern, band: Band) -> bool:
    """True for a band in the yarn and at the dial of its edge, where that is stocking stitch."""
    key = edge_fabric(pattern, band)
    fabric = pattern.fabrics[key]
    return (band.yarn, band.dial) == (fabric.yarn, fabric.dial) and not (
        fabric.chart or fabric.repeat)


def _is_plain(pattern: Pattern, key: str | None) -> bool:
    """True for a fabric whose swatch is stocking stitch on every needle."""
    own = [foot_fabric(pattern, foot) for foot in feet_of(pattern)]
    if key is None or any(each and each.key == key for each in own):
        return False
    return not pattern.fabrics[key].chart and not pattern.fabrics[key].repeat


def _measured(pattern: Pattern, found: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """For each fabric what its swatch, as the yarn is summed up, is knitted as: sentences, HTML."""
    for key, names in found.items():
        yield words.knit_swatch(names, pattern, pattern.fabrics[key])

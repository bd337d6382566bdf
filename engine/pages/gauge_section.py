"""The gauges of a pattern: what each swatch is knitted as, and which of its needles are counted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from ..catalogue.bands import KINDS
from ..fabric.gauge import Gauge, measure
from ..fabric.hem_fabric import hem_fabric
from ..markup.html import details, esc, facts
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, Pattern
from ..plan.arranged import edge_fabric
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
    found: dict[str, list[str]] = {}
    rules = []
    if pattern.garment is not None:
        found[pattern.garment.fabric] = [words.GARMENT]
        if hem := hem_fabric(pattern):
            found.setdefault(hem.key, [words.hem_called(pattern.garment.hem)])
    for band in bands:
        found.setdefault(edge_fabric(pattern, band), [words.GARMENT])
        if band.fabric is not None:
            names = found.setdefault(band.fabric, [])
            if names != [words.GARMENT]:
                names.append(band.title.lower() if names else band.title)
        if KINDS[band.kind].latched and _is_plain(pattern, band.fabric):
            rules.append(words.latched_not_swatched(band))
        if band.facing_fabric:
            found.setdefault(band.facing_fabric, [words.behind_fold(band)])
        elif band.pick_up is not None:
            rules.append(words.from_rule(band, band.pick_up))
    told = [_Knitted(joined(names), pattern.fabrics[key], measure(pattern.fabrics[key].swatches),
                     pattern.yarns[pattern.fabrics[key].yarn].name) for key, names in found.items()]
    return (facts((esc(k.name), words.gauge_said(k.gauge, k.yarn, k.fabric.dial)) for k in told)
            + "".join(rules)
            + "".join(details(words.gauge_working(k.name), esc(k.gauge.working)) for k in told)
            + "".join(f"<p>{said}</p>" for said in _measured(pattern, found))
            + words.MEASURED)


def _is_plain(pattern: Pattern, key: str | None) -> bool:
    """True for a fabric whose swatch is stocking stitch on every needle."""
    hem = hem_fabric(pattern)
    if key is None or (hem and hem.key == key):
        return False
    return not pattern.fabrics[key].chart and not pattern.fabrics[key].repeat


def _measured(pattern: Pattern, found: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """For each fabric what its swatch, as the yarn is summed up, is knitted as: sentences, HTML."""
    for key, names in found.items():
        yield words.knit_swatch(names, pattern, pattern.fabrics[key])

"""The gauges of a pattern: what each swatch is knitted as, and which of its needles are counted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from ..fabric.arrangement import repeat_said
from ..fabric.gauge import Gauge, measure
from ..fabric.hem_fabric import hem_fabric
from ..markup.html import details, esc, facts, link
from ..pattern.fabrics import Fabric
from ..pattern.model import Band, Pattern, RibMake, RibWish
from ..plan.arranged import edge_fabric
from ..shape.ribs import RIBS
from ..words.words import counted, dial_said, joined, stitches


@dataclass(frozen=True, slots=True)
class _Knitted:
    """A fabric of the pattern under the name a reader knows it by."""

    name: str
    fabric: Fabric
    gauge: Gauge
    yarn: str


def gauges(pattern: Pattern, bands: Iterable[Band]) -> str:
    """Return every gauge that the bands lean on, with dial, yarn and working."""
    found: dict[str, list[str]] = {}
    rules = []
    if pattern.garment is not None:
        found[pattern.garment.fabric] = ["Garment"]
        if hem := hem_fabric(pattern):
            found.setdefault(hem.key, ["Rib" if isinstance(pattern.garment.hem, RibWish)
                                       else "Hem"])
    for band in bands:
        found.setdefault(edge_fabric(pattern, band), ["Garment"])
        if band.fabric is not None:
            names = found.setdefault(band.fabric, [])
            if names != ["Garment"]:
                names.append(band.title.lower() if names else band.title)
        if band.facing_fabric:
            found.setdefault(band.facing_fabric, [f"{band.title}, behind its fold"])
        elif band.pick_up is not None:
            rules.append(f"<p>{esc(band.title)}: not swatched. Its stitches come from a rule, "
                         f"{stitches(band.pick_up.numerator)} for every "
                         f"{counted(band.pick_up.denominator, 'row')} of the edge; knitted at "
                         f"dial {dial_said(band.dial)}.</p>")
    told = [_Knitted(joined(names), pattern.fabrics[key], measure(pattern.fabrics[key].swatches),
                     pattern.yarns[pattern.fabrics[key].yarn].name) for key, names in found.items()]
    return (facts((esc(k.name), f"{k.gauge}, {esc(k.yarn)}, dial {dial_said(k.fabric.dial)}")
                  for k in told) + "".join(rules)
            + "".join(details(f"Working: {esc(k.name)} gauge", esc(k.gauge.working)) for k in told)
            + "".join(f"<p>{said}</p>" for said in _measured(pattern, found))
            + "<p>Measured after washing and rest. "
            + link("../../techniques/swatch-and-gauge.html", "How to swatch and measure")
            + ". If your gauge differs, the counts of this page are not yours.</p>")


def _measured(pattern: Pattern, found: Mapping[str, Sequence[str]]) -> Iterator[str]:
    """For each fabric what its swatch, as the yarn is summed up, is knitted as: sentences, HTML."""
    for key, names in found.items():
        yield (f"{esc(joined(names))}: knit the swatch of {esc(key)} "
               f"{_knitted_as(pattern, pattern.fabrics[key])}")


def _knitted_as(pattern: Pattern, fabric: Fabric) -> str:
    hem = pattern.garment.hem if pattern.garment else None
    if isinstance(hem, RibWish) and hem.fabric == fabric.key:
        return _rib_said(hem)
    if fabric.repeat:
        return (f"with needles {repeat_said(fabric.repeat)} of work. Only the "
                "needles in work are counted.")
    chart = pattern.stitch_charts.get(fabric.chart)
    if chart is not None:
        out = " Only the needles in work are counted." if chart.leaves_out else ""
        return f"in the stitch pattern {esc(chart.title)}.{out}"
    return "in stocking stitch, on every needle."


def _rib_said(hem: RibWish) -> str:
    """A swatch of the rib itself, and which of its stitches are counted."""
    name = next((name for name, works in RIBS.items() if works == hem.works), "")
    arranged = f"{name} " if name else ""
    if hem.make is RibMake.TWO_BED:
        return (f"as {arranged}rib on two beds. The stitches of both beds are "
                "counted.")
    if hem.make is RibMake.LATCHED:
        return (f"as {arranged}latched rib. Every stitch is counted, latched or "
                "not.")
    return (f"as {arranged}mock rib, with the needles left out of work. Only the "
            "needles in work are counted.")

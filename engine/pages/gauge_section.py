"""The gauges of a pattern: what each swatch is knitted as, and which of its needles are counted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from ..catalogue.bands import KINDS
from ..core.units import Length
from ..fabric.gauge import Gauge, measure
from ..fabric.piece_fabrics import (
    SLEEVE,
    FootSpec,
    cuff_spec,
    foot_fabric,
    foot_fabrics,
    hem_spec,
    piece_fabric,
    piece_fabrics,
)
from ..machine.records import dataclass
from ..markup.html import details, esc, facts
from ..pattern.fabrics import Fabric, Materials
from ..pattern.model import Band, GarmentSpec, Pattern
from ..pattern.rib_specs import RibSpec
from ..plan.arranged import edge_fabric, knits_as_edge
from ..proof.parts_of_fabrics import Parts, parts_of_fabrics
from ..proof.proof import SizeProof
from ..shape.foot import Hem
from ..shape.ribs import Rib
from ..words import gauges as words
from ..words.fabric_names import fabric_called, fabric_names, whole_called
from ..words.words import joined


@dataclass(frozen=True, slots=True)
class _Knitted:
    """A fabric of the pattern under the name a reader knows it by."""

    name: str
    fabric: Fabric
    gauge: Gauge
    yarn: str


def gauges(pattern: Pattern, bands: Iterable[Band], sizes: Iterable[SizeProof]) -> str:
    """Return every gauge that the bands are counted by, with dial, yarn and working; of a hem that
    was not swatched its depth, where it is one in all `sizes`."""
    spec, materials, parts = pattern.garment, pattern.materials, parts_of_fabrics(pattern)
    found = fabric_names(parts)
    rules: list[str] = []
    rules += dict.fromkeys(
        words.hem_not_swatched(foot, _depth(spec, pattern.fabrics, foot, sizes),
                               tighter=foot.dial < piece_fabric(spec, pattern.fabrics, key).dial,
                               apart=len(piece_fabrics(spec, pattern.fabrics)) > 1)
        for foot, key in _feet(spec) if foot_fabric(spec, materials, foot, key) is None)
    for band in bands:
        if band.fabric and KINDS[band.kind].latched and _is_plain(spec, materials, band.fabric):
            rules.append(words.latched_not_swatched(
                band, measure(pattern.fabrics[band.fabric].swatches).stitch))
        if band.pick_up is not None and not band.facing_fabric:
            edge = pattern.fabrics[edge_fabric(spec, pattern.edges, band)]
            rules.append(words.from_rule(band, band.pick_up, measure(edge.swatches).row,
                                         alike=knits_as_edge(spec, pattern.fabrics, pattern.edges,
                                                             band),
                                         whose=_whose(spec, pattern.fabrics, parts, edge)))
    knitted = [_Knitted(joined(names), pattern.fabrics[key], measure(pattern.fabrics[key].swatches),
                        pattern.yarns[pattern.fabrics[key].yarn].called)
               for key, names in found.items()]
    return (facts((esc(k.name), words.gauge_text(k.gauge, k.yarn, k.fabric.dial)) for k in knitted)
            + "".join(rules)
            + "".join(details(words.gauge_working(k.name), esc(words.gauge_worked(k.gauge)))
                      for k in knitted)
            + "".join(f"<p>{sentence}</p>" for sentence in _measured(spec, materials, found))
            + words.MEASURED)


def _depth(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], foot: FootSpec,
           sizes: Iterable[SizeProof]) -> Length | None:
    """How deep trials of the hems, or ribs, of all pieces come out; None where they differ."""
    kind = Rib if isinstance(foot, RibSpec) else Hem
    depths = {knitted.piece.hem.tried(
        measure(piece_fabric(spec, fabrics, knitted.piece.key).swatches).row)
        for size in sizes for knitted in size.pieces if isinstance(knitted.piece.hem, kind)}
    return Length(depths.pop()) if len(depths) == 1 else None


def _feet(spec: GarmentSpec | None) -> Iterator[tuple[FootSpec, str]]:
    """The hems, ribs and cuffs of a garment, each with a piece that it is below."""
    if hem := hem_spec(spec):
        yield from ((hem, key) for key in ("", *(
            spec.piece_fabrics if spec else ()))
            if key != SLEEVE or cuff_spec(spec) is None)
    if cuff := cuff_spec(spec):
        yield cuff, SLEEVE


def _whose(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], parts: Mapping[str, Parts],
           edge: Fabric) -> str:
    """Whose yarn and dial a band along an edge may have: the garment's, or that of its pieces."""
    if len(piece_fabrics(spec, fabrics)) < 2:
        return f"the {whole_called(spec).lower()}'s"
    return f"those of {fabric_called(parts, edge.key)}"


def _is_plain(spec: GarmentSpec | None, materials: Materials, key: str | None) -> bool:
    """True for a fabric whose swatch is stocking stitch on every needle."""
    if key is None or any(each.key == key for each in foot_fabrics(spec, materials)):
        return False
    return not materials.fabrics[key].chart and not materials.fabrics[key].repeat


def _measured(spec: GarmentSpec | None, materials: Materials, found: Mapping[str, Sequence[str]]
             ) -> Iterator[str]:
    """For each fabric what its swatch, as the yarn is summed up, is knitted as: sentences, HTML."""
    for key, names in found.items():
        yield words.knit_swatch(names, spec, materials.stitch_charts, materials.fabrics[key])

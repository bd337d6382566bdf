"""A pattern's tree with what a reader measured in the place of the designer's swatches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from .keys.fabric_keys import FabricKeys
from .keys.pattern_keys import PatternKeys
from .source import Keyed, Node, Scalar, Table

TypedSwatch = Mapping[str, str]
"""What was measured of a swatch, by the keys that a swatch has in a source, as it was typed."""


def with_swatches(node: Node, swatches: Mapping[str, TypedSwatch]) -> Node:
    """Return the tree with the swatches of these fabrics, each in the place of all that it had.

    A fabric that the tree does not have is left out. A swatch stands where the first one stood.
    """
    name = PatternKeys.fabrics.name
    fabrics = node.entries.get(name) if isinstance(node, Table) else None
    if not isinstance(node, Table) or fabrics is None or not isinstance(fabrics.node, Table):
        return node
    entries = {key: Keyed(each.place, _swatched(each.node, swatches[key]))
               if key in swatches else each for key, each in fabrics.node.entries.items()}
    changed = Keyed(fabrics.place, replace(fabrics.node, entries=entries))
    return replace(node, entries={**node.entries, name: changed})


def _swatched(fabric: Node, measured: TypedSwatch) -> Node:
    own, several = FabricKeys.swatch.name, FabricKeys.swatches.name
    if not isinstance(fabric, Table):
        return fabric
    place = next((fabric.entries[key].place for key in (own, several) if key in fabric.entries),
                 fabric.place)
    swatch = Table({key: Keyed(place, Scalar(text, place)) for key, text in measured.items()},
                   place)
    kept = {key: each for key, each in fabric.entries.items() if key != several}
    return replace(fabric, entries={**kept, own: Keyed(place, swatch)})

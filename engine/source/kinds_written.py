"""The kind of a front edge, written into a text that says in another way what the edge is.

Before an own edge had to say its kind, one called `front`, not in sections, was read as one of a
pair of fronts. That was a guess, except where a band on it has a zip, or says which front has the
buttonholes, or where a published version counted the band: its pages had two fronts.
"""

from __future__ import annotations

import re
from collections.abc import Collection

from ..core.problems import Place
from ..machine.records import dataclass
from ..pattern.edges import EdgeShape
from .keys.band_keys import BandKeys
from .keys.edge_keys import EdgeKeys
from .keys.hole_keys import HoleKeys
from .keys.pattern_keys import PatternKeys
from .source import Node, Scalar, Table, parse_source

FRONT = "front"
_LINE_ENDS = re.compile("(\r\n|\r|\n)")
_FRONT_KIND = f"{EdgeKeys.kind.name}: {EdgeShape.FRONT.value}"


@dataclass(frozen=True, slots=True)
class KindWritten:
    """A front edge at `place` whose kind is `written`, or left to the designer."""

    place: Place
    written: bool


def with_kind(text: str, published: Collection[str], *,
              name: str) -> tuple[str, KindWritten | None]:
    """Return a source with the kind of its edge `front`, all else as it is, and what was done.

    `published` are the keys of the bands that a record of a published version counts. None where
    the edge says its kind, there is no such edge, or the text cannot be read.
    """
    node, _ = parse_source(text, name=name)
    edge = _under(node, PatternKeys.edges.name, FRONT)
    if not isinstance(edge, Table) or not edge.entries or not _has_no_kind(edge):
        return text, None
    place = edge.place
    if not _is_pair(node, published):
        return text, KindWritten(place, False)
    parts = _LINE_ENDS.split(text)
    index, start = 2 * (place.line - 1), place.column - 1
    line = parts[index]
    if line[start:start + 1] == "{":
        parts[index] = f"{line[:start]}{{{_FRONT_KIND}, {line[start + 1:].lstrip(' ')}"
    elif not line[:start].strip():
        parts[index] = line[:start] + _FRONT_KIND + parts[index + 1] + line
    else:
        return text, KindWritten(place, False)
    return "".join(parts), KindWritten(place, True)


def _has_no_kind(edge: Table) -> bool:
    """True for an edge that was read as one of a pair without saying so."""
    return not {EdgeKeys.kind.name, EdgeKeys.sections.name} & edge.entries.keys()


def _is_pair(node: Node | None, published: Collection[str]) -> bool:
    """True where a band on the edge tells that there are two fronts."""
    bands = _under(node, PatternKeys.bands.name)
    if not isinstance(bands, Table):
        return False
    for key, keyed in bands.entries.items():
        on = _under(keyed.node, BandKeys.edge.name)
        if isinstance(on, Scalar) and on.text.strip() == FRONT and (
                key in published or _under(keyed.node, BandKeys.zip.name) is not None
                or _under(keyed.node, BandKeys.buttonholes.name, HoleKeys.front.name) is not None):
            return True
    return False


def _under(node: Node | None, *keys: str) -> Node | None:
    """What stands under the keys, one in the other; None where there is nothing."""
    for key in keys:
        keyed = node.entries.get(key) if isinstance(node, Table) else None
        node = keyed.node if keyed is not None else None
    return node

"""The edges that a band can take, as far as a source tells them before its garment is cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..catalogue.forms import ROUND_THE_NECK
from ..catalogue.pocket_edges import edge_names
from ..core.text import clip
from ..forms.registry import FORMS, Form
from ..machine.records import dataclass
from ..pattern.edges import EdgeShape
from ..pattern.fabrics import Fabric
from ..pattern.model import Neck
from ..pattern.outlines import EdgeOf, EdgeSide
from .fabric_reading import named
from .fields import Fields
from .keys.garment_keys import GarmentKeys
from .keys.outline_keys import PointKeys
from .measure_reading import plain
from .source import Listing, Node, Scalar, Table
from .values import Entry, Fault, Reader

ONE_EDGE = "front_and_neck"  # one edge only where a band can follow it round the neck
SLIT_EDGE = "placket"
BRIM_EDGE = "brim"
# For each edge that not every garment of its form has: what it needs, and the way to it.
_NEEDS = {ONE_EDGE: ("a round or v neck, whose fronts and neck are one edge",
                   "Write neck: v, or give the fronts and the neck bands of their own."),
          SLIT_EDGE: ("a slit at the front",
                      "Add a line such as placket: 12 cm to the garment."),
          BRIM_EDGE: ("a hat with a lower edge", "Delete both_ends, or the band.")}


@dataclass(frozen=True, slots=True)
class OpenEdge:
    """An edge that a band can take, given or the garment's own, and the fabric it is of.

    `unless` says what keeps the garment from having it, "" where nothing does; `shape` is that of
    one the source describes, None for the garment's own.
    """

    key: str
    fabric: str
    unless: str = ""
    shape: EdgeShape | None = None


def garment_edges(fields: Fields, fabrics: Mapping[str, Fabric | None],
                  ) -> dict[str, OpenEdge | None] | None:
    """The edges of the form that is named, by their keys, each None without a sound fabric.

    No mapping at all where a garment is given whose form cannot be known: then any edge may be
    a separate one. Records nothing: what is wrong is found where the garment is read.
    """
    keyed = fields.table.entries.get("garment")
    if keyed is None:
        return None if "garment" in fields.misspelt else {}
    form = FORMS.get(_typed(keyed.node, "form"))
    if form is None:
        return None
    neck = _typed(keyed.node, "neck") or Neck.ROUND.value
    follows = neck in {n.value for n in ROUND_THE_NECK}
    lacks = {ONE_EDGE: "" if follows else f"a {neck} neck",
             SLIT_EDGE: "" if _has(keyed.node, "placket") else "no placket",
             BRIM_EDGE: "a crown at both ends" if _drawn_at_both(keyed.node) else ""}
    of = {key: fabrics.get(_of_edge(keyed.node, form, key)) for key in (
        *form.edges, *_pocket_edges(keyed.node, form), *_edges_described(keyed.node))}
    return {key: OpenEdge(key, fabric.key, lacks.get(key, "")) if fabric else None
            for key, fabric in of.items()}


def _of_edge(garment: Node, form: Form, edge: str) -> str:
    """The fabric that is named for the first of the pieces at an edge."""
    piece = form.pieces_at(edge)[0]
    apart = garment.entries.get("piece_fabrics") if isinstance(garment, Table) else None
    if apart is not None and isinstance(apart.node, Table):
        for name in apart.node.entries:
            if plain(name) == piece:
                return _typed(apart.node, name)
    return _typed(garment, "fabric")


def _pocket_edges(garment: Node, form: Form) -> tuple[str, ...]:
    """The edges of the pockets asked for, as far as can be told."""
    pockets = garment.entries.get("pockets") if isinstance(garment, Table) else None
    if pockets is None:
        return ()
    return edge_names(opens="front_edge" in form.edges,
                      number=1 if _typed(pockets.node, "number") == "1" else 2)


def edge_among(known: Mapping[str, OpenEdge | None]) -> Reader[OpenEdge | None]:
    """A reader of the edge that a band takes; None for one with a recorded fault."""
    there = {name: edge for name, edge in known.items() if edge is None or not edge.unless}
    by_name = named("edge", there or known)

    def read(entry: Entry) -> OpenEdge | None:
        edge = known.get(entry.node.text.strip()) if isinstance(entry.node, Scalar) else None
        if edge is None or not edge.unless:
            edge = by_name(entry)
        if edge is not None and edge.unless:
            raise Fault("no-such-edge", entry.place, f'the edge "{edge.key}" of a garment with '
                        f"{clip(edge.unless)}", *_NEEDS[edge.key])
        return edge
    return read


def _has(node: object, key: str) -> bool:
    return isinstance(node, Table) and key in node.entries


def _drawn_at_both(garment: Node) -> bool:
    """True for a hat that has no lower edge, as far as can be told."""
    crown = garment.entries.get("crown") if isinstance(garment, Table) else None
    return crown is not None and _typed(crown.node, "both_ends") == "yes"


def _typed(node: object, key: str) -> str:
    keyed = node.entries.get(key) if isinstance(node, Table) else None
    return keyed.node.text.strip() if keyed and isinstance(keyed.node, Scalar) else ""


def _edges_described(garment: Node) -> Iterator[str]:
    """Yield the names of the edges of own pieces that a band can take, as far as can be told."""
    for label, piece in _entries(garment, GarmentKeys.pieces.name):
        for side in EdgeSide:
            yield EdgeOf(plain(label), side).key
        for name, sides in (("sides", ("left", "right")), ("left", ("left",)),
                            ("right", ("right",))):
            for _, corner in _entries(piece, name):
                if stretch := _corner_name(corner):
                    yield from (EdgeOf(plain(label), EdgeSide(side), plain(stretch)).key
                                for side in sides)


def _entries(node: Node, key: str) -> Iterator[tuple[str, Node]]:
    """The entries of the mapping or list under a key, by name or number."""
    keyed = node.entries.get(key) if isinstance(node, Table) else None
    if keyed and isinstance(keyed.node, Table):
        yield from ((name, one.node) for name, one in keyed.node.entries.items())
    elif keyed and isinstance(keyed.node, Listing):
        yield from ((str(number), one) for number, one in enumerate(keyed.node.items))


def _corner_name(corner: Node) -> str:
    """The name of a corner, "" where it has none."""
    keyed = corner.entries.get(PointKeys.name_.name) if isinstance(corner, Table) else None
    return keyed.node.text.strip() if keyed and isinstance(keyed.node, Scalar) else ""

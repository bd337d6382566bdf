"""What a designer asks of a pattern's bands and their buttonholes, defaults filled in."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from ..catalogue.bands import KINDS, BandKind
from ..core.counts import NEAREST, Rounding, Unit
from ..core.problems import Place
from ..core.text import clip
from ..core.units import Length, UnitError, length_cm, read_length
from ..machine.records import dataclass
from ..machine.steps import Dial, Side
from ..pattern.fabrics import Fabric, Yarn
from ..pattern.holes import ButtonholeKind, Buttonholes, Distance
from ..pattern.model import Band, BandRows, BySize, CollarSpec, Wearer
from . import part_readers as parts
from .band_specs import graded_dials, mitred, read_hole_places, right_unit
from .depths import BAND_DEPTH, BandCount
from .fabric_reading import named
from .fields import Fields, Findings, open_fields, warn_of_steps
from .keys.band_keys import BandKeys, BandRowsKeys
from .keys.hole_keys import EndsKeys, HoleKeys
from .keys.pattern_keys import PatternKeys
from .method_reading import read_band_method
from .open_edges import OpenEdge, edge_among
from .source import Node, Scalar, Table
from .values import Entry

SEAM = 1  # stitches from its edge that a garment is sewn to a band in, not hung
LEAST_END = length_cm(Fraction(5, 4))  # a default end is no shorter; common practice, no source
# Holes on women's right front and on men's left: a yarn shop's lesson, "The One-Row
# Buttonhole" (B09); children as women is common practice, no source.
_FRONTS = {Wearer.WOMEN: Side.RIGHT, Wearer.CHILDREN: Side.RIGHT, Wearer.BABIES: Side.RIGHT,
           Wearer.MEN: Side.LEFT}
_OF_COLLARS = ("points", "outer_dial", "back_depth", "shows")


@dataclass(frozen=True, slots=True)
class BandContext:
    """What the rest of the pattern says that a band may use."""

    yarns: Mapping[str, Yarn | None]
    fabrics: Mapping[str, Fabric | None]
    edges: Mapping[str, OpenEdge | None]
    sizes: tuple[str, ...]
    wearer: Wearer | None
    hem: BySize[Length] | None = None


def read_bands(fields: Fields, around: BandContext) -> dict[str, Band | None]:
    """The pattern's bands by their keys; None for one with a fault."""
    return {entry.label: _band(fields.findings, entry, around)
            for entry in fields.each(PatternKeys.bands, needed=True)}


def _band(findings: Findings, entry: Entry, around: BandContext) -> Band | None:
    own = open_fields(findings, entry, f'band "{clip(entry.label)}"', BandKeys)
    if own is None:
        return None
    title = own.get(BandKeys.title) or _title(entry.label)
    kind = own.get(BandKeys.kind)
    _refuse_of_other_kinds(own, kind)
    if kind.lengthwise:
        parts.refuse_otherwise(own, kind)
    edge = own.need_as(BandKeys.edge, edge_among(around.edges))
    stuff = own.one_of(BandKeys.fabric, BandKeys.pick_up, BandKeys.pick_up)
    fabric = own.get_as(BandKeys.fabric, named("fabric", around.fabrics), None)
    pick_up = own.get(BandKeys.pick_up)
    by_rule = stuff is BandKeys.pick_up
    base = fabric or (around.fabrics.get(edge.fabric) if edge and by_rule else None)
    dials, mitre = graded_dials(own, kind), mitred(own, kind)
    setting = dials[0] if dials else _dial(own, base)
    facing = parts.read_facing_fabric(own, kind, around.fabrics) \
        if "facing_fabric" in own else None
    yarn = own.get_as(BandKeys.yarn, named("yarn", around.yarns), None)
    measure = own.one_of(BandKeys.depth, BandKeys.rows)
    depth, across = _depth(own, kind, around.sizes)
    along = _along(own, kind, around.sizes)
    rows = _band_rows(own, kind)
    rounding = _rounding(own)
    rib, rounding = parts.read_band_rib(own, kind, rounding) if "rib" in kind.asks \
        else (BandKeys.rib.fallback, rounding)
    fold = own.get(BandKeys.fold) if "fold" in own else kind.fold or BandKeys.fold.fallback
    ease = own.get(BandKeys.ease)
    stretch = own.get(BandKeys.stretch) if kind.lengthwise else Fraction(0)
    waste_rows = own.get(BandKeys.waste_rows)
    stitches_in = SEAM if kind.lengthwise else own.get(BandKeys.stitches_in)
    holes = _buttonholes(own, around, kind)
    bind_off = read_band_method(own, kind)
    collar = parts.read_collar(own, kind, around.sizes) \
        if kind.collar or any(key in own for key in _OF_COLLARS) else CollarSpec()
    zip_ = parts.read_zip(own, edge) if "zip" in own else None
    cord = parts.read_band_cord(own, kind, around.wearer) if "cord" in own else None
    if (edge is None or base is None or setting is None or stuff is None or measure is None
            or (depth is None and not across and rows is None)
            or (fabric is None and pick_up is None)):
        return None
    return Band(key=entry.label, title=title, edge=edge.key, yarn=yarn.key if yarn else base.yarn,
                dial=setting, dials=dials, mitre=mitre, kind=kind.name,
                fabric=fabric.key if fabric else None, pick_up=pick_up, depth=depth, rows=rows,
                across=across, along=along, fold=fold, ease=ease, rounding=rounding,
                waste_rows=waste_rows, stitches_in=stitches_in, buttonholes=holes,
                bind_off=bind_off, collar=collar, rib=rib, zip=zip_, cord=cord,
                facing_fabric=facing.key if facing else "", stretch=stretch,
                own_edge=edge.shape is not None, places=_places(own))


def _along(band: Fields, kind: BandKind, sizes: tuple[str, ...]) -> dict[str, int]:
    """The stitches along the edge by size, of one sewn on the rows; none where none are given."""
    key = BandKeys.rows_along if kind.lengthwise else BandKeys.stitches
    if key.name in band and BandKeys.round.name in band:
        band.refuse_both(BandKeys.round, key)
    return band.sized(key, sizes) or {}


def _depth(band: Fields, kind: BandKind, sizes: tuple[str, ...]
           ) -> tuple[dict[str, Length] | None, dict[str, int]]:
    """How deep the band is in the sizes where that is a length, and the rows of a layer, or the
    stitches of one sewn on, in those where it is a count."""
    given = band.sized(BandKeys.depth, sizes)
    if given is None:
        return None, {}
    unit = Unit.STITCHES if kind.lengthwise else Unit.ROWS
    wrong = next((one for one in given.values() if isinstance(one, BandCount)
                  and one.unit is not unit), None)
    if wrong is not None:
        example = "5 stitches" if kind.lengthwise else "9 rows"
        band.findings.fault(
            "not-this-kind", band.at(BandKeys.depth),
            f"a depth in {wrong.unit.value} in a {kind.name} band",
            f"a length, or {unit.value}", f"Write {example}, or a length such as 3 cm.")
        return None, {}
    lengths = {size: one for size, one in given.items() if isinstance(one, Length)}
    entry = band.required(BandKeys.depth)
    if entry is not None and isinstance(entry.node, Table) and len(lengths) == len(given):
        warn_of_steps(band.findings, entry, BAND_DEPTH, lengths)
    return lengths or None, {size: one.number for size, one in given.items()
                             if isinstance(one, BandCount)}


def _places(band: Fields) -> Mapping[str, Place]:
    """Where each entry of a band stands, by its path within it."""
    inside = f"{band.path}."
    return {"": band.place, **{path.removeprefix(inside): place for path, place in
                               band.findings.places.items() if path.startswith(inside)}}


def _refuse_of_other_kinds(band: Fields, kind: BandKind) -> None:
    """Record each key that only other kinds of band ask for."""
    for key in BandKeys.keys.values():
        able = [one.name for one in KINDS.values() if key.name in one.asks]
        entry = band.entry(key)
        if able and entry is not None and kind.name not in able:
            band.findings.fault(
                "not-this-kind", entry.place, f"{key.name} in a band of the kind {kind.name}",
                f"it only in a band of the kind {' or '.join(able)}",
                f"Delete it, or write kind: {able[0]}." if len(able) == 1 else
                "Delete it, or choose one of these kinds.")


def _title(key: str) -> str:
    """A band's key as words: "Left front band" for left_front, "Neckband" for neckband."""
    words = re.sub("[-_]+", " ", key).strip().capitalize()
    return words if words.lower().endswith("band") else f"{words} band"


def _dial(band: Fields, base: Fabric | None) -> Dial | None:
    """The band's own dial, else that of the fabric by whose gauge it is counted."""
    if "dial" in band:
        return band.need(BandKeys.dial)
    return base.dial if base else None


def _band_rows(band: Fields, kind: BandKind) -> BandRows | None:
    entry = band.entry(BandKeys.rows)
    if entry is not None and not kind.doubled:
        band.findings.fault("rows-of-one-layer", entry.place,
                            f"rows from fold to fold in {band.what}, a {kind.name} band of one "
                            "layer", "its depth", 'Write it as a length, such as "depth: 3 cm".')
        return None
    own = band.opened(BandKeys.rows, f"the rows of {band.what}")
    if own is None:
        return None
    keys = (BandRowsKeys.to_holes, BandRowsKeys.holes_to_fold, BandRowsKeys.fold_to_holes,
            BandRowsKeys.to_finish)
    to_holes, holes_to_fold, fold_to_holes, to_finish = (own.need(key) for key in keys)
    if to_holes is None or holes_to_fold is None or fold_to_holes is None or to_finish is None:
        return None
    for near, far, names in ((holes_to_fold, fold_to_holes, keys[1:3]),
                             (to_holes, to_finish, (keys[0], keys[3]))):
        if near != far:
            own.findings.fault(
                "unequal-layers", own.at(names[1]),
                f"{names[0].name} {near} but {names[1].name} {far}", "as many rows in both layers",
                f"Make both {near} or both {far}.")
    return BandRows(to_holes=to_holes, holes_to_fold=holes_to_fold, fold_to_holes=fold_to_holes,
                    to_finish=to_finish)


def _rounding(band: Fields) -> Rounding:
    entry = band.entry(BandKeys.round)
    if entry is None or not isinstance(entry.node, Table):
        return band.get(BandKeys.round)
    own = band.opened(BandKeys.round, "the rounding")
    return (parts.read_multiple(own) if own else None) or NEAREST


def _buttonholes(band: Fields, around: BandContext, kind: BandKind) -> Buttonholes | None:
    own = band.opened(BandKeys.buttonholes, f"the buttonholes of {band.what}", _meant_by_length)
    if own is None:
        return None
    places = read_hole_places(own, around.sizes, around.hem)
    rows = parts.hole_rows(own, kind, around.sizes) if "rows" in own else None
    button, at = own.need(HoleKeys.button), own.sized(HoleKeys.at, around.sizes)
    spacing = HoleKeys.at if "at" in own and not ("number" in own or "every" in own) else \
        own.one_of(HoleKeys.number, HoleKeys.every)
    buttonhole_count = own.sized(HoleKeys.number, around.sizes)
    every = own.get(HoleKeys.every)
    stitches = own.sized(HoleKeys.stitches, around.sizes)
    lower, upper = _ends(own, button)
    front = _front(own, around.wearer)
    hole_kind = _buttonhole_kind(own, kind)
    odd_gap, lean = own.get(HoleKeys.odd_gap), own.get(HoleKeys.lean)
    gaps = own.get(HoleKeys.gaps)
    fits = right_unit(own, kind, lower, upper)
    end_give, band_give = own.get(HoleKeys.end_give), own.get(HoleKeys.band_give)
    tolerance = own.get(HoleKeys.tolerance)
    if button is None or spacing is None or lower is None or upper is None or front is None:
        return None
    if hole_kind is None:  # said already
        return None
    at_fault = places.at_fault or not fits or ("rows" in own and rows is None)
    if at_fault or (spacing is HoleKeys.at and at is None):
        return None
    return Buttonholes(kind=hole_kind, at=at, button=button, stitches=stitches,
                       buttonhole_count=buttonhole_count,
                       every=every, lower=lower, upper=upper, front=front, odd_gap=odd_gap,
                       ends_by_default="ends" not in own,
                       lean=lean, end_give=end_give, band_give=band_give, tolerance=tolerance,
                       through=places.through, in_hem=places.in_hem,
                       centre_hole=places.centre_hole, rows=rows, gaps=gaps)


def _buttonhole_kind(own: Fields, kind: BandKind) -> ButtonholeKind | None:
    """The kind of hole, by default the band's first; one the band cannot have is a fault."""
    first = kind.buttonhole_kinds[0] if kind.buttonhole_kinds else None
    hole_kind = own.get_as(HoleKeys.closing, HoleKeys.closing.read, first)
    if hole_kind in kind.buttonhole_kinds:
        return hole_kind
    able = " or ".join(c.value for c in kind.buttonhole_kinds)
    own.findings.fault(
        "no-such-closing", own.at(HoleKeys.closing),
        f"{'buttonholes' if hole_kind is None else hole_kind.value} in a {kind.name} band",
        able or "a band without buttonholes",
        f"Write closing: {kind.buttonhole_kinds[0].value}." if able else
        "Leave the buttonholes out, or choose another kind of band.")
    return None


def _meant_by_length(node: Node) -> tuple[str, str] | None:
    """An unknown key of the buttonholes with a length most likely says how far apart they are."""
    try:
        read_length(node.text if isinstance(node, Scalar) else "")
    except UnitError:
        return None
    return "every", ("Write every for the distance from hole to hole, or ends for that from the "
                     "band's ends.")


def _front(holes: Fields, wearer: Wearer | None) -> Side | None:
    if "front" in holes:
        return holes.need(HoleKeys.front)
    if wearer is Wearer.ANYONE:
        holes.findings.fault("front-not-stated", holes.place,
                             f'no "front" in {holes.what}, in a pattern for anyone',
                             "right or left", f'Add a line such as "{HoleKeys.front.line}".')
    return _FRONTS.get(wearer) if wearer else None


def _ends(holes: Fields, button: Length | None) -> tuple[Distance | None, Distance | None]:
    entry = holes.entry(HoleKeys.ends)
    if entry is None:
        end = None if button is None else Distance(length=max(button, LEAST_END))
        return end, end
    if not isinstance(entry.node, Table):
        end = holes.need(HoleKeys.ends)
        return end, end
    own = holes.opened(HoleKeys.ends, "the ends")
    return (None, None) if own is None else (own.need(EndsKeys.lower), own.need(EndsKeys.upper))

"""What a designer asks of a pattern's bands and their buttonholes, defaults filled in."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from ..catalogue.bands import KINDS, BandKind
from ..core.counts import NEAREST, RULES, Rounding
from ..core.text import clip
from ..core.units import Length, UnitError, length_cm, read_length
from ..machine.steps import Dial, Side
from ..pattern.fabrics import Fabric, Yarn
from ..pattern.holes import Buttonholes, Closing, Distance, Lean, OddGap
from ..pattern.model import Band, BandRows, Fold, Wearer
from .band_wishes import graded_dials, mitred, read_hole_places
from .collars import COLLAR_KEYS, read_collar
from .cord import read_band_cord
from .facings import read_facing_fabric
from .fields import Fields, Findings, open_fields
from .garment import OpenEdge, edge_among
from .hem import read_band_rib
from .materials import by_size, each_named, named
from .source import Node, Scalar, Table
from .values import Entry, dial, length, listing_like, ratio, share, text, whole_number, word
from .ways import read_band_way
from .zips import read_zip

BAND_KEYS = ("title", "edge", "fabric", "pick_up", "dial", "dials", "mitre", "yarn", "depth",
             "rows", "fold", "ease", "round", "waste_rows", "stitches_in", "buttonholes", "kind",
             "bind_off", "rib", "zip", "cord", "facing_fabric", *COLLAR_KEYS)
HOLE_KEYS = ("button", "stitches", "number", "every", "ends", "front", "odd_gap", "lean",
             "end_give", "band_give", "tolerance", "closing", "at", "in_hem", "through",
             "centre_hole")
BAND_EXAMPLE = "{edge: front, pick_up: 3/4, depth: 3 cm}"
ROWS_EXAMPLE = "{to_holes: 4, holes_to_fold: 4, fold_to_holes: 4, to_finish: 4}"
BUTTON_SIZES = "18 mm, 3/4 in or 28 ligne"
LEAST_END = length_cm(Fraction(5, 4))  # a default end is no shorter; common practice, no source
DIALS_BELOW = Dial(2 * 3)  # a picked-up band is knitted two numbers tighter; common practice
_SIDES = {side.value: side for side in (Side.RIGHT, Side.LEFT)}
_LEANS = {lean.value: lean for lean in Lean}
# Holes on women's right front and on men's left: B09, The Naked Sheep, The One-Row Buttonhole;
# children as women is common practice, no source.
_FRONTS = {Wearer.WOMEN: Side.RIGHT, Wearer.CHILDREN: Side.RIGHT, Wearer.BABIES: Side.RIGHT,
           Wearer.MEN: Side.LEFT}
_STITCHES = re.compile(r"(.*\S)\s*(?:stitch|stitches|st|sts)")


@dataclass(frozen=True, slots=True)
class Around:
    """What the rest of the pattern says that a band may lean on."""

    yarns: Mapping[str, Yarn | None]
    fabrics: Mapping[str, Fabric | None]
    edges: Mapping[str, OpenEdge | None]
    sizes: tuple[str, ...]
    wearer: Wearer | None
    hem: Length | None = None


def read_bands(fields: Fields, around: Around) -> dict[str, Band | None]:
    """The pattern's bands by their keys; None for one with a fault."""
    return {entry.label: _band(fields.findings, entry, around)
            for entry in each_named(fields, "bands", "bands", f"{{front: {BAND_EXAMPLE}}}", 20)}


def _band(findings: Findings, entry: Entry, around: Around) -> Band | None:
    own = open_fields(findings, entry, f'band "{clip(entry.label)}"', BAND_KEYS, BAND_EXAMPLE)
    if own is None:
        return None
    title = own.get("title", text(120), _title(entry.label))
    kind = own.get("kind", word(KINDS), KINDS["enclosing"])
    edge = own.need("edge", edge_among(around.edges), "front")
    stuff = own.one_of("fabric", "pick_up", "pick_up: 3/4")
    fabric = own.get("fabric", named("fabric", around.fabrics), None)
    pick_up = own.get("pick_up", _pick_up, None)
    base = fabric or (around.fabrics.get(edge.fabric) if edge and stuff == "pick_up" else None)
    dials, mitre = graded_dials(own, kind), mitred(own, kind)
    setting = dials[0] if dials else \
        _dial(own, base, below=stuff == "pick_up" and not kind.rolls)
    facing = read_facing_fabric(own, kind, around.fabrics)
    yarn = own.get("yarn", named("yarn", around.yarns), None)
    measure = own.one_of("depth", "rows", "depth: 3 cm")
    depth = by_size(own, "depth", length("depth of a band"), around.sizes)
    rows = _band_rows(own, kind)
    fold = own.get("fold", word({f.value: f for f in Fold}), Fold.TURNED)
    ease = own.get("ease", share("ease of a band"), Fraction(0))
    rib, rounding = read_band_rib(own, kind, _rounding(own))
    waste_rows = own.get("waste_rows", whole_number("rows of waste yarn"), 8)
    stitches_in = own.get("stitches_in", whole_number("stitches taken in"), 2)
    holes = _buttonholes(own, around, kind)
    bind_off = read_band_way(own, kind)
    collar = read_collar(own, kind, around.sizes)
    zip_ = read_zip(own, edge)
    cord = read_band_cord(own, kind, around.wearer)
    if (edge is None or base is None or setting is None or stuff is None or measure is None
            or (depth is None and rows is None) or (fabric is None and pick_up is None)):
        return None
    return Band(key=entry.label, title=title, edge=edge.key, yarn=yarn.key if yarn else base.yarn,
                dial=setting, dials=dials, mitre=mitre, kind=kind.name,
                fabric=fabric.key if fabric else None, pick_up=pick_up, depth=depth, rows=rows,
                fold=fold, ease=ease, rounding=rounding,
                waste_rows=waste_rows, stitches_in=stitches_in, buttonholes=holes,
                bind_off=bind_off, collar=collar, rib=rib, zip=zip_, cord=cord,
                facing_fabric=facing.key if facing else "",
                own_edge=edge.shape is not None)


def _title(key: str) -> str:
    """A band's key as words: "Left front band" for left_front, "Neckband" for neckband."""
    words = re.sub("[-_]+", " ", key).strip().capitalize()
    return words if words.lower().endswith("band") else f"{words} band"


def _pick_up(entry: Entry) -> Fraction | None:
    return ratio("stitches to a row")(entry)


def _dial(band: Fields, base: Fabric | None, *, below: bool) -> Dial | None:
    entry = band.entry("dial")
    if entry is not None:
        return band.findings.read(entry, dial())
    if base is None or not below:
        return base.dial if base else None
    thirds = base.dial.thirds - DIALS_BELOW.thirds
    if thirds < 0:
        band.findings.fault("no-dial", band.place, f"no dial in {band.what}, and two numbers below "
                            f"the {base.dial} of the edge's fabric is off the dial",
                            remedy='Add a line such as "dial: 1".')
        return None
    return Dial(thirds)


def _band_rows(band: Fields, kind: BandKind) -> BandRows | None:
    entry = band.entry("rows")
    if entry is not None and kind.layers == 1:
        band.findings.fault("rows-of-one-layer", entry.place,
                            f"rows from fold to fold in {band.what}, a {kind.name} band of one "
                            "layer", "its depth", 'Write it as a length, such as "depth: 3 cm".')
        return None
    own = None if entry is None else open_fields(
        band.findings, entry, f"the rows of {band.what}",
        ("to_holes", "holes_to_fold", "fold_to_holes", "to_finish"), ROWS_EXAMPLE)
    if own is None:
        return None
    to_holes, holes_to_fold, fold_to_holes, to_finish = (
        own.need(key, whole_number("rows of a band"), "4")
        for key in ("to_holes", "holes_to_fold", "fold_to_holes", "to_finish"))
    if to_holes is None or holes_to_fold is None or fold_to_holes is None or to_finish is None:
        return None
    for near, far, names in ((holes_to_fold, fold_to_holes, ("holes_to_fold", "fold_to_holes")),
                             (to_holes, to_finish, ("to_holes", "to_finish"))):
        if near != far:
            own.findings.fault(
                "unequal-layers", own.findings.places[f"{own.path}.{names[1]}"],
                f"{names[0]} {near} but {names[1]} {far}", "as many rows in both layers",
                f"Make both {near} or both {far}.")
    return BandRows(to_holes=to_holes, holes_to_fold=holes_to_fold, fold_to_holes=fold_to_holes,
                    to_finish=to_finish)


def _rounding(band: Fields) -> Rounding:
    entry = band.entry("round")
    if entry is None or not isinstance(entry.node, Table):
        words = {rule: Rounding(rule) for rule in RULES if rule != "multiple"}
        return band.get("round", word(words), NEAREST)
    own = open_fields(band.findings, entry, "the rounding", ("multiple", "plus"),
                      "{multiple: 4, plus: 1}")
    multiple = None if own is None else own.need("multiple", whole_number("multiple"), "4")
    if own is None or multiple is None:
        return NEAREST
    return Rounding("multiple", multiple, own.get(
        "plus", whole_number("stitches over a multiple", most=multiple - 1), 0))


def _buttonholes(band: Fields, around: Around, kind: BandKind) -> Buttonholes | None:
    entry = band.entry("buttonholes")
    own = None if entry is None else open_fields(
        band.findings, entry, f"the buttonholes of {band.what}", HOLE_KEYS,
        "{button: 22 mm, number: 5}", _meant_by_length)
    if own is None:
        return None
    places = read_hole_places(own, around.sizes, around.hem)
    button = own.need("button", length("button", BUTTON_SIZES), "22 mm")
    at = by_size(own, "at", _middles, around.sizes)
    spacing = "at" if "at" in own and not ("number" in own or "every" in own) else \
        own.one_of("number", "every", "number: 5")
    number = by_size(own, "number", whole_number("number of holes"), around.sizes)
    every = own.get("every", _spacing, None)
    stitches = by_size(own, "stitches", whole_number("stitches of a hole"), around.sizes)
    lower, upper = _ends(own, button)
    front = _front(own, around.wearer)
    closing = _closing(own, kind)
    odd_gap = own.get("odd_gap", word({o.value: o for o in OddGap}), OddGap.SPREAD)
    lean = own.get("lean", word(_LEANS), Lean.NECK)
    end_give = own.get("end_give", whole_number("give of an end"), 2)
    band_give = own.get("band_give", whole_number("give of a band"), 2)
    tolerance = own.get("tolerance", share("tolerance of a band"), Fraction(1, 50))
    if button is None or spacing is None or lower is None or upper is None or front is None:
        return None
    if closing is None:  # said already
        return None
    if places.at_fault or (spacing == "at" and at is None):
        return None
    return Buttonholes(closing=closing, at=at, button=button, stitches=stitches, number=number,
                       every=every, lower=lower, upper=upper, front=front, odd_gap=odd_gap,
                       lean=lean, end_give=end_give, band_give=band_give, tolerance=tolerance,
                       through=places.through, in_hem=places.in_hem,
                       centre_hole=places.centre_hole)


def _closing(own: Fields, kind: BandKind) -> Closing | None:
    """The kind of hole, by default the band's first; one the band cannot have is a fault."""
    first = kind.closings[0] if kind.closings else None
    closing = own.get("closing", word({c.value: c for c in Closing}), first)
    if closing in kind.closings:
        return closing
    able = " or ".join(c.value for c in kind.closings)
    own.findings.fault(
        "no-such-closing", own.findings.places.get(f"{own.path}.closing", own.place),
        f"{'buttonholes' if closing is None else closing.value} in a {kind.name} band",
        able and f"{able}", f"Write closing: {kind.closings[0].value}." if able else
        "Leave the buttonholes out, or choose another kind of band.")
    return None


def _middles(entry: Entry) -> tuple[Length, ...]:
    """A list of distances, at least one; below 0 from the upper end."""
    items = listing_like("distances", "[1.5 cm, 9 cm, -1.5 cm]")(entry).items
    read = length("place of a hole")
    return tuple(read(replace(entry, label=f"{entry.label}.{n}", node=node,
                              path=f"{entry.path}.{n}", place=node.place))
                 for n, node in enumerate(items))


def _meant_by_length(node: Node) -> tuple[str, str] | None:
    """An unknown key of the buttonholes with a length most likely says how far apart they are."""
    try:
        read_length(node.text if isinstance(node, Scalar) else "")
    except UnitError:
        return None
    return "every", ("Write every for the distance from hole to hole, or ends for that from the "
                     "band's ends.")


def _spacing(entry: Entry) -> Length | None:
    return length("distance of holes")(entry)


def _front(holes: Fields, wearer: Wearer | None) -> Side | None:
    if "front" in holes:
        return holes.need("front", word(_SIDES), "right")
    if wearer is Wearer.ANYONE:
        holes.findings.fault("front-not-stated", holes.place,
                             f'no "front" in {holes.what}, in a pattern for anyone',
                             "right or left", 'Add a line such as "front: right".')
    return _FRONTS.get(wearer) if wearer else None


def _ends(holes: Fields, button: Length | None) -> tuple[Distance | None, Distance | None]:
    entry = holes.entry("ends")
    if entry is None:
        end = None if button is None else Distance(length=max(button, LEAST_END))
        return end, end
    if not isinstance(entry.node, Table):
        end = holes.findings.read(entry, _distance)
        return end, end
    own = open_fields(holes.findings, entry, "the ends", ("lower", "upper"),
                      "{lower: 2 stitches, upper: 3 stitches}")
    if own is None:
        return None, None
    return own.need("lower", _distance, "2 stitches"), own.need("upper", _distance, "2 stitches")


def _distance(entry: Entry) -> Distance:
    expected = "a distance such as 2 stitches or 1.5 cm"
    value = text(40, expected, "Write stitches or a length.")(entry)
    match = _STITCHES.fullmatch(value)
    if match:
        count = whole_number("stitches at an end")(
            replace(entry, node=Scalar(match[1], entry.place)))
        return Distance(stitches=count)
    return Distance(length=length("end of a band")(entry))

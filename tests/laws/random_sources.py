"""Whole pattern sources drawn at random: every key of a source, over all forms, beds and charts.

Keys and their values come from the declarations (`from_keys`). Here stands what makes of them a
source that can be knitted: what goes together, and smaller ranges; and a few that cannot be
together.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import isqrt
from typing import Any

import yaml
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy
from walebook.catalogue.bands import KINDS, BandKind
from walebook.catalogue.forms import Construction
from walebook.catalogue.methods import BIND_OFFS, CAST_ONS, SHOULDERS
from walebook.forms.registry import FORMS
from walebook.machine.steps import Side
from walebook.pattern.conventions import CapCurve
from walebook.pattern.holes import ButtonholeKind
from walebook.pattern.model import Neck, Wearer
from walebook.pattern.rib_specs import RibMake
from walebook.pattern.slope_specs import SIDES, Slope
from walebook.pattern.specs import CrownShape
from walebook.source.keys.band_keys import BandKeys, BandRowsKeys, CasingCordKeys
from walebook.source.keys.convention_keys import ArmholeKeys, CapKeys, NecklineKeys, ShoulderKeys
from walebook.source.keys.dart_keys import BustKeys, DartsKeys, TailKeys
from walebook.source.keys.edge_keys import EdgeKeys, SectionKeys
from walebook.source.keys.fabric_keys import (
    ChartKeys,
    FabricKeys,
    PackageKeys,
    SwatchKeys,
    YarnKeys,
)
from walebook.source.keys.garment_keys import (
    CordKeys,
    CrownKeys,
    GarmentKeys,
    PocketKeys,
    RoundingKeys,
)
from walebook.source.keys.hem_keys import HemKeys
from walebook.source.keys.hole_keys import EndsKeys, HoleKeys, HoleRowsKeys, InHemKeys
from walebook.source.keys.pattern_keys import BedKeys, PatternKeys, SizeKeys
from walebook.source.keys.slope_keys import SlopeKeys, SlopesKeys
from walebook.source.keys.stripe_keys import StripeKeys, StripesKeys

from tests.laws.from_keys import Known, lengths, mappings, sized, values
from tests.laws.pieces import chart
from tests.laws.random_outlines import outlines

BandSpec = dict[str, Any]

# Repeats that a sound source can have; the last three are of two colours, the one before leaves
# a needle out.
REPEATS = ("||||\n||>|\n||||\n|<||\n", "||||||\n|//((|\n||||||\n||||||\n", "||\n|u\n||\nu|\n",
           "|||\n|v|\n|v|\n|||\n", "|)\\\\\\|\n||||||\n".replace("\\\\\\", "\\\\", 1),
           "|||.\n", "|x\nx|\n", "||||x\n|x|x|\nxxx||\n|||||\n", "||||||\n|xxxx|\n|x||x|\n")
WORN = {"women": ("S", "M", "L", "XL", "5X"), "men": ("S", "M", "XL", "4X"),
        "children": ("2", "8", "16"), "babies": ("3 mo", "12 mo", "24 mo"),
        "heads": ("baby", "child", "woman")}
BEDS = ("fine", "standard", "standard-double", "mid", "chunky", "bulky")
NAMES = {"yarn": ("main",), "fabric": ("body", "band", "welt"), "chart": ("mesh",),
         "edge": ("neck", "front_edge"), "bed": BEDS}
# The pieces of a form that ways on and off can be chosen for, most likely; of one with a back and
# fronts its edges say which (none here).
PIECES: Mapping[Construction, tuple[str, ...]] = {
    Construction.DROP_SHOULDER: (), Construction.SET_IN: (), Construction.RAGLAN: (),
    Construction.SADDLE_RAGLAN: (), Construction.SIDEWAYS: (), Construction.HAT: ("hat",),
    Construction.SHAWL: ("shawl",), Construction.BLANKET: ("panel",),
    Construction.MITTEN: ("hand", "thumb"), Construction.OUTLINE: ("bag",)}
NEVER, ALWAYS = 0, 10
FLAT_PIECES = next(name for name, form in FORMS.items()
                   if form.construction is Construction.OUTLINE)


class _Plain(yaml.SafeDumper):
    """Writes every value out where it stands."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


def written(source: BandSpec) -> str:
    """A source as text."""
    return yaml.dump(source, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=100)


def values_of(kinds: Any) -> SearchStrategy[str]:
    """One of the words of an enumeration."""
    return st.sampled_from([each.value for each in kinds])


def some(draw: DrawFn, tenths: int, **keys: SearchStrategy[Any]) -> BandSpec:
    """Some of these entries, each so many times in ten."""
    return {key: draw(value) for key, value in keys.items()
            if draw(st.integers(0, 9)) >= 10 - tenths}


def known(sizes: tuple[str, ...]) -> Known:
    """What every source has that is drawn here."""
    return Known(sizes, NAMES)


@st.composite
def fabrics(draw: DrawFn, around: int, yarn: str, likely: int) -> BandSpec:
    """A fabric of about so many stitches to 10 cm."""
    count = draw(st.integers(max(5, around - 2), around + 2))
    rows = count * draw(st.integers(115, 170)) // 100
    swatch = draw(mappings(SwatchKeys, known(()), {
        "stitches": str(count), "width": "10 cm", "rows": str(rows), "height": "10 cm"},
        near={"mass": st.integers(4, 40).map(lambda g: f"{g} g"),
              "yarn": st.sampled_from((4, 5, 6)).map(lambda n: f"{n * _a_fifth(count, rows)} cm")},
        tenths={"mass": 6, "yarn": 2}))
    several = {"swatches": [swatch, dict(swatch)]} if draw(st.booleans()) else {"swatch": swatch}
    setting = st.integers(likely * 3, 30).map(lambda n: f"{n // 3}.{n % 3}".removesuffix(".0"))
    return draw(mappings(FabricKeys, known(()), {"yarn": yarn, "dial": draw(setting), **several},
                         tenths={"needles": NEVER, "chart": NEVER, "contrast": NEVER,
                                 "edge_stitches": NEVER}))


def _a_fifth(count: int, rows: int) -> int:
    """A fifth of the yarn in 10 cm of plain knitting [cm]: 4.8 mm of it in a stitch of 1 mm²."""
    return isqrt(23 * 100 * 100 * count * rows) // 50


@st.composite
def charts(draw: DrawFn) -> BandSpec:
    """A stitch chart that may be sound."""
    marks = st.text("||||x", min_size=4, max_size=4)
    own = st.lists(marks, min_size=1, max_size=5).map(lambda rows: "\n".join(rows) + "\n")
    return draw(mappings(ChartKeys, known(()), near={
        "repeat": st.sampled_from(REPEATS) | own, "edge": st.integers(0, 3).map(str)},
        tenths={"title": 2, "edge": 2, "key": NEVER if draw(st.integers(0, 9)) else 9}))


@st.composite
def roundings(draw: DrawFn, counts: tuple[str, ...] = ()) -> Any:
    """How a count is rounded."""
    if draw(st.booleans()):
        return draw(values(BandKeys.round, known(())))
    most = draw(st.integers(1, 6))
    made = draw(mappings(RoundingKeys, known(()), near={
        "multiple": st.just(str(most)), "plus": st.integers(0, most - 1).map(str),
        "parity_of": st.sampled_from(counts or ("back cast on",))}))
    return made if counts or "multiple" in made else {"multiple": str(most)}


@st.composite
def hems(draw: DrawFn, pieces: tuple[str, ...] = ("back",)) -> BandSpec:
    """A hem or a rib, some of which have other stitches than one of these pieces."""
    make = draw(st.none() | st.just("hung") | values_of(RibMake))
    hem = {"depth": draw(lengths(10, 90)), **({"kind": make} if make else {})}
    if make in (None, "hung"):
        return draw(mappings(HemKeys, known(()), hem, tenths={
            "fold": 5, "dial": 5, "kind": NEVER, "rib": NEVER, "needles": NEVER, "fabric": NEVER,
            "ends": NEVER, "stitches": NEVER}))
    ribs = ["1x1", "2x1", "2x2", *(["full needle"] if make == "two-bed rib" else [])]
    key = "needles" if "mock" in make and draw(st.booleans()) else "rib"
    other = "dial" if draw(st.booleans()) else "fabric"
    return draw(mappings(HemKeys, known(()), hem, near={
        "rib": st.sampled_from(ribs), "fabric": st.just("welt"),
        "stitches": st.dictionaries(
            st.sampled_from(pieces or ("back",)), st.integers(75, 125).map("{} %".format)
            | st.integers(10, 130), min_size=1, max_size=1)}, tenths={
        "ends": 3, "stitches": 4 if pieces else NEVER, "rib": NEVER, "needles": NEVER,
        "fabric": NEVER, "fold": NEVER, "dial": NEVER, key: 10, other: 5}))


def _measures(form: str, sizes: tuple[str, ...]) -> SearchStrategy[BandSpec]:
    """At most two of the form's own measures, a little or a good deal changed."""
    own = FORMS[form].measures
    share = st.sampled_from((50, 80, 90, 95, 105, 110, 130, 200))

    def changed(name: str) -> SearchStrategy[Any]:
        return sized(sizes, share.map(lambda part: f"({own[name]}) * {part} %"))
    return st.just({}) | st.fixed_dictionaries({}, optional={
        name: changed(name) for name in own if name != "panels"}).map(
            lambda asked: dict(list(asked.items())[:2]))


def _ways(pieces: tuple[str, ...], methods: Any) -> SearchStrategy[Any]:
    """One for all pieces, or one for a piece or two and the shoulders."""
    one = st.sampled_from(list(methods))
    each = {
        piece: st.sampled_from([method.name for method in SHOULDERS])
        if piece == "shoulders"
        else one
        for piece in pieces
    }
    return one | st.sampled_from(pieces).map(lambda piece: {piece: each[piece]}).flatmap(
        st.fixed_dictionaries)


def _pieces(form: str) -> tuple[str, ...]:
    """What ways can be chosen for, most likely."""
    if own := PIECES[FORMS[form].construction]:
        return own
    edges = FORMS[form].edges
    return ("back", *(("right_front", "left_front") if "front_edge" in edges else ("front",)),
            *(("sleeve",) if "armhole" not in edges else ()),
            *(("shoulders",) if "raglan" not in form else ()))


@st.composite
def garments(draw: DrawFn, form: str, sizes: tuple[str, ...], body: str | None) -> BandSpec:
    """A garment of a form."""
    shape, counts = FORMS[form], tuple(FORMS[form].rounds)
    spec = {"form": form, "fabric": "body", **({"chart": body} if body else {})}
    begun = tuple(name.removesuffix(" cast_on") for name in counts if name.endswith(" cast_on"))
    spec |= {"hem": draw(hems(begun))} if draw(st.booleans()) else {}
    outlined = draw(outlines()) if form == FLAT_PIECES else {}
    own = {**draw(_measures(form, sizes)), **outlined.pop("measures", {})}
    if body == "men" and "body_length" in shape.measures:
        own["body_length"] = "back_hip_length + 2 cm"
    sided = "hem_width" in shape.optional
    if sided and draw(st.integers(0, 2)) == 2:
        own["waist_width"] = "chest_width * 85 %"
    if "sleeve_ease" in shape.optional and draw(st.integers(0, 3)) == 3:
        own["sleeve_ease"] = f"{draw(st.integers(-10, 30))} mm"
    spec |= {"measures": own, **outlined} if own else {}
    fits = 3 if "neck" in shape.edges else 1
    slit = "placket" in shape.edges or draw(st.integers(0, 19)) == 19
    folds = "neck" in shape.edges and "fold" in spec.get("hem", ())
    measured = "chest" in (chart(body).rows if body else ())
    near: Mapping[str, SearchStrategy[Any]] = {
        "bind_off": _ways(_pieces(form), BIND_OFFS), "cast_on": _ways(_pieces(form), CAST_ONS),
        "bind_off_stretch": st.dictionaries(st.sampled_from([*BIND_OFFS]), st.integers(
            -5, 210).map("{} %".format), min_size=1, max_size=2),
        "side_by_side": st.lists(st.sampled_from(list(shape.pairs) or ["sleeves"]), min_size=1,
                                 max_size=2),
        "round": st.dictionaries(st.sampled_from(counts or ("back_cast_on",)).map(
            lambda name: name.replace("_", " ")), roundings(counts), min_size=1, max_size=2),
        "counts": st.dictionaries(st.sampled_from(counts or ("back_cast_on",)).map(
            lambda name: name.replace("_", " ")), st.integers(4, 60).map(lambda half: 2 * half),
            min_size=1, max_size=1),
        "body": st.fixed_dictionaries({"chest": lengths(450, 1300) | st.just({sizes[0]: "80 cm"})}),
        "placket": sized(sizes, lengths(60, 250)), "pockets": pockets(sizes), "cord": cords(),
        "crown": crowns(), "slopes": slopes(form, sizes, "waist_width" in own),
        "armhole": armholes(sizes),
        "cap": caps(sizes), "neckline": necklines(sizes), "shoulders": shoulders(sizes),
        "stripes": stripes(), "darts": darts(sizes),
        "bust_darts": bust_darts(sizes), "shirt_tail": tails(sizes)}
    tenths = {"hem": NEVER, "measures": NEVER, "pieces": NEVER, "joins": NEVER,
              "chart": NEVER, "neck": 3, "moved": 2, "bind_off": 2,
              "bind_off_stretch": 2, "side_by_side": 2, "cast_on": NEVER if "hem" in spec else 5,
              "round": 2 if counts else NEVER, "counts": 1 if counts else NEVER,
              "body": 1 if measured else NEVER,
              "placket": 4 if slit else NEVER, "pockets": fits, "cord": 6 if folds else NEVER,
              "slopes": 3 if shape.slopes(Neck.V) else NEVER, "stripes": 2,
              "bust_darts": 1 if sided and not shape.opens else NEVER,
              "shirt_tail": 2 if sided and not shape.opens and "hem" not in spec else NEVER,
              "darts": 7 if "waist_width" in own else NEVER,
              "crown": 6 if form == "hat" or draw(st.integers(0, 19)) == 19 else NEVER,
              "armhole": 1 if "set-in" in form else NEVER,
              "cap": 1 if form in ("set-in pullover", "set-in cardigan") else NEVER,
              "neckline": 1 if "chest_width" in shape.measures and "raglan" not in form else NEVER,
              "shoulders": 1 if form.startswith(("set-in", "drop")) else NEVER}
    return draw(mappings(GarmentKeys, known(sizes), spec, near=near, tenths=tenths))


def darts(sizes: tuple[str, ...]) -> SearchStrategy[BandSpec]:
    """Vertical darts with an inset or a share."""
    return mappings(DartsKeys, known(sizes), near={"inset": sized(sizes, lengths(40, 160))},
                    tenths={"inset": 6, "share": 5}).filter(bool)


def bust_darts(sizes: tuple[str, ...]) -> SearchStrategy[BandSpec]:
    """Bust darts, some of them with all their lengths."""
    near = {"extra": sized(sizes, lengths(10, 60)), "below": sized(sizes, lengths(10, 90)),
            "from_side": sized(sizes, lengths(15, 40)), "reach": sized(sizes, lengths(60, 160))}
    return mappings(BustKeys, known(sizes), near=near,
                    tenths={"extra": 10, "below": 4, "from_side": 4, "reach": 4})


def tails(sizes: tuple[str, ...]) -> SearchStrategy[BandSpec]:
    """A shirt tail."""
    return mappings(TailKeys, known(sizes), near={
        "depth": sized(sizes, lengths(10, 90)), "reach": sized(sizes, lengths(60, 200))},
        tenths={"depth": 10, "reach": 4, "curve": 5})


@st.composite
def slopes(draw: DrawFn, form: str, sizes: tuple[str, ...], waisted: bool) -> BandSpec:
    """The slopes of a form, one of them at least; of sides those that a waist has."""
    has = [one for one in FORMS[form].slopes(Neck.V) if one not in SIDES
           or (waisted and one is not Slope.SIDE_TO_HIP)]
    first = draw(st.sampled_from(has or tuple(Slope))).value
    return draw(mappings(SlopesKeys, known(sizes), {first: draw(slope(sizes))},
                         near={each.value: slope(sizes) for each in Slope},
                         tenths={each.value: 3 if each in has else NEVER for each in Slope}))


def slope(sizes: tuple[str, ...]) -> SearchStrategy[BandSpec]:
    """A slope with an order or rates, and plain rows before or after."""
    plain = st.integers(0, 20).map("{} rows".format) | lengths(5, 60)
    return mappings(SlopeKeys, known(sizes), near={
        "rates": sized(sizes, rates()), "first_row": sized(sizes, st.integers(1, 12).map(str)),
        "plain_start": sized(sizes, plain), "plain_end": sized(sizes, plain)},
        tenths={"order": 5, "rates": 3, "first_row": 3, "plain_start": 2, "plain_end": 3}).filter(
            bool)


@st.composite
def rates(draw: DrawFn) -> str:
    """Rates of which the last leaves its times open, or its rows."""
    every = st.integers(1, 12).map(lambda rows: "every row" if rows == 1 else f"every {rows} rows")
    times = st.integers(1, 8).map(lambda many: "once" if many == 1 else f"{many} times")
    first = draw(st.lists(st.tuples(every, times).map(" ".join), max_size=2))
    return ", then ".join([*first, draw(every | times | st.just("every 2nd and 3rd row in turn"))])


@st.composite
def pockets(draw: DrawFn, sizes: tuple[str, ...]) -> BandSpec:
    """Pockets in the fronts."""
    return draw(mappings(PocketKeys, known(sizes), near={
        "width": sized(sizes, lengths(50, 140)), "height": sized(sizes, lengths(70, 260)),
        "depth": sized(sizes, lengths(40, 160)), "from_side": sized(sizes, lengths(20, 80))},
        tenths={"depth": 4, "from_side": 4, "number": 4}))


def steps(most: int, highest: int) -> SearchStrategy[list[str]]:
    """Stitches of some steps, most likely falling."""
    return st.lists(st.integers(1, highest), min_size=1, max_size=most).map(
        lambda made: [str(step) for step in sorted(made, reverse=True)])


@st.composite
def armholes(draw: DrawFn, sizes: tuple[str, ...]) -> BandSpec:
    """How armholes are shaped."""
    bound = steps(4, 4) | st.integers(1, 9).map(str) | st.integers(10, 60).map("{} %".format)
    return draw(mappings(ArmholeKeys, known(sizes), near={"bind_off": sized(sizes, bound)},
                         tenths={"curve": 5, "bind_off": 5}).filter(bool))


@st.composite
def caps(draw: DrawFn, sizes: tuple[str, ...]) -> BandSpec:
    """How caps are shaped."""
    every = st.lists(st.integers(0, 6).map(str), min_size=2, max_size=2)
    curve = draw(values_of(CapCurve))
    bell = curve == CapCurve.BELL.value or not draw(st.integers(0, 19))
    return draw(mappings(CapKeys, known(sizes), {"curve": curve}, near={
        "top_bind_offs": sized(sizes, steps(2, 4)), "every_row": sized(sizes, every)},
        tenths={"top_bind_offs": 5, "every_row": 5 if bell else NEVER}))


@st.composite
def necklines(draw: DrawFn, sizes: tuple[str, ...]) -> BandSpec:
    """How a neck is shaped."""
    near = {key: sized(sizes, steps(5, 4) if "steps" in key else st.integers(2, 30).map(str))
            for key in ("front_steps", "back_steps", "front_centre", "back_centre")}
    return draw(mappings(NecklineKeys, known(sizes), near=near,
                         tenths={"curve": 5, **dict.fromkeys(near, 3)}).filter(bool))


@st.composite
def shoulders(draw: DrawFn, sizes: tuple[str, ...]) -> BandSpec:
    """How shoulders are held."""
    return draw(mappings(ShoulderKeys, known(sizes), near={"steps": sized(sizes, steps(3, 8))},
                         tenths={"steps": 5, "remainder": 5}).filter(bool))


@st.composite
def cords(draw: DrawFn) -> BandSpec:
    """A cord for the hem."""
    return draw(mappings(CordKeys, known(()), near={
        "width": lengths(2, 25), "ties": lengths(20, 400)}, tenths={"ties": 5}))


@st.composite
def crowns(draw: DrawFn) -> BandSpec:
    """The crown of a hat, mostly with keys that its shape takes."""
    shape = draw(st.sampled_from(list(CrownShape)))
    takes = {"wedges": {"wedges", "beside", "every", "remain"}, "halvings": {"halvings"},
             "side decreases": {"every", "remain"}, "quarters": {"every", "remain"},
             "gathered": {"step", "step_rows", "looser", "rows_after"}}
    tenths = {name: 5 if name in takes[shape.value] or draw(st.integers(0, 39)) == 39 else NEVER
              for names in takes.values() for name in sorted(names)}
    return draw(mappings(CrownKeys, known(()), {"shape": shape.value}, near={
        "halvings": st.lists(st.integers(1, 5).map(str), min_size=1, max_size=3),
        "step": st.sampled_from(("0.1", "0.2", "1", "2"))}, tenths=tenths))


@st.composite
def stripes(draw: DrawFn) -> BandSpec:
    """Stripes in the two yarns of every source, seldom of an odd number of rows."""
    odd = draw(st.integers(0, 9)) == 9
    rows = st.integers(1, 15).map(lambda n: str(2 * n - draw(st.booleans()) if odd else 2 * n))
    sequence = [draw(mappings(StripeKeys, known(()), {"yarn": yarn, "rows": draw(rows)}))
                for yarn in draw(st.sampled_from((("main", "second"), ("second", "main"),
                                                  ("second", "main", "second"))))]
    pieces = st.sampled_from((["back"], ["sleeve"], ["back", "front"]))
    return draw(mappings(StripesKeys, known(()), {"sequence": sequence}, near={"pieces": pieces},
                         tenths={"repeat": 4, "begin": 4, "pieces": 1, "odd_rows": 9 * odd}))


@st.composite
def casing_cords(draw: DrawFn) -> BandSpec:
    """A cord for a casing."""
    return draw(mappings(CasingCordKeys, known(()), near={
        "width": lengths(2, 15), "ties": lengths(20, 300),
        "at": st.sampled_from(("front neck", "back neck", "neck"))},
        tenths={"ties": 4, "at": 4, "openings": 4}))


@st.composite
def holes(draw: DrawFn, sizes: tuple[str, ...], wearer: str, *, lengthwise: bool = False
          ) -> BandSpec:
    """The buttonholes of a band, which is knitted `lengthwise` or not."""
    spaced = draw(st.sampled_from(("number", "every", "every", "at")))
    near = {"number": sized(sizes, st.integers(1, 9).map(str)), "every": lengths(25, 150),
            "at": st.just(["2 cm", "6 cm", "-2 cm"]), "in_hem": in_hem(sizes),
            "through": sized(sizes, lengths(30, 300)), "centre_hole": st.just("yes"),
            "rows": hole_rows(sizes),
            "stitches": sized(sizes, st.integers(1, 9).map(str)),
            "button": st.sampled_from(("9 mm", "12 mm", "15 mm", "18 mm", "3/4 in", "28 ligne",
                                       "25 mm", "40 mm"))}
    spec = {"button": draw(near["button"]), spaced: draw(near[spaced])}
    if wearer == "anyone":
        spec["front"] = draw(values_of((Side.RIGHT, Side.LEFT)))
    own = draw(st.sampled_from((*6 * ("",), "in_hem", "through", "centre_hole")))
    if lengthwise and spaced == "number" and draw(st.booleans()):
        spec["rows"] = draw(near["rows"])
    elif own and spaced != "at":
        spec[own] = draw(near[own])
    what = "rows" if lengthwise else "stitches"
    ends = st.integers(1, 8).map(lambda n: f"{n} {what}") | lengths(5, 60)
    both = mappings(EndsKeys, known(()), near={"lower": ends, "upper": ends})
    return draw(mappings(HoleKeys, known(sizes), spec, near={**near, "ends": ends | both}, tenths={
        "in_hem": NEVER, "through": NEVER, "centre_hole": NEVER, "closing": NEVER, "front": NEVER,
        "rows": NEVER, "gaps": 3,
        "ends": 4, "odd_gap": 2, "lean": 2, "end_give": 2, "band_give": 2, "tolerance": 2}))


@st.composite
def hole_rows(draw: DrawFn, sizes: tuple[str, ...]) -> BandSpec:
    """Holes by the row counter."""
    return draw(mappings(HoleRowsKeys, known(sizes), {
        "first": draw(sized(sizes, st.integers(1, 9).map(str))),
        "every": draw(sized(sizes, st.integers(4, 24).map(str)))}))


@st.composite
def in_hem(draw: DrawFn, sizes: tuple[str, ...]) -> BandSpec:
    """Holes in a hem or rib."""
    return draw(mappings(InHemKeys, known(sizes), {"depth": draw(sized(sizes, lengths(20, 80)))},
                         near={"number": st.integers(1, 4).map(str), "ends": lengths(5, 25)},
                         tenths={"number": 5, "ends": 5}))


def _depths(sizes: tuple[str, ...], kind: BandKind) -> SearchStrategy[Any]:
    """How deep a band is: most often a length, else what lies across it."""
    unit = "stitches" if kind.lengthwise else "rows"
    count = st.integers(2, 16).map(lambda half: f"{2 * half} {unit}")
    return st.sampled_from((False, False, False, True)).flatmap(
        lambda counted: sized(sizes, count if counted else lengths(12, 60)))


@st.composite
def bands(draw: DrawFn, edge: str, sizes: tuple[str, ...], wearer: str) -> BandSpec:
    """A band for an edge, of a kind that it might have."""
    likely = [kind.name for kind in KINDS.values()
              if ("collar" in kind.name) <= (edge in ("neck", "front_and_neck"))]
    kind = KINDS[draw(st.sampled_from(likely if draw(st.integers(0, 29)) else list(KINDS)))]
    spec = {"edge": edge, **({"kind": kind.name} if kind.name != "enclosing"
                             or draw(st.booleans()) else {})}
    rules = ({"pick_up": "3/4"}, {"pick_up": "1"})
    if kind.lengthwise and draw(st.integers(0, 9)):
        rules = ({"fabric": "band"}, {"fabric": "body"})
    spec |= draw(st.sampled_from((*rules, {"fabric": "band"}, {"fabric": "band"})))
    if kind.layers == 2 and not kind.lengthwise and draw(st.integers(0, 2)) == 2:
        near, far = (str(draw(st.integers(1, 9))) for _ in range(2))
        spec["rows"] = draw(mappings(BandRowsKeys, known(()), {
            "to_holes": near, "holes_to_fold": far, "fold_to_holes": far, "to_finish": near}))
    else:
        spec["depth"] = draw(_depths(sizes, kind))
    counted = draw(st.integers(0, 9)) > 7
    if "back_depth" in kind.needs:
        spec["back_depth"] = draw(sized(sizes, lengths(40, 160)))
    fastened = draw(st.integers(0, 9))
    if kind.buttonhole_kinds and "pocket" not in edge and fastened > 5:
        spec["buttonholes"] = draw(holes(sizes, wearer, lengthwise=kind.lengthwise))
        if draw(st.integers(0, 9)) > 3:
            spec["buttonholes"]["closing"] = draw(
                values_of(kind.buttonhole_kinds if draw(st.integers(0, 9)) else ButtonholeKind))
    graded = kind.grades and draw(st.booleans())
    asked = {name: 5 if name in kind.asks else NEVER
             for name in ("points", "outer_dial", "shows", "rib", "cord", "stretch")}
    along = "rows_along" if kind.lengthwise else "stitches"
    return draw(
        mappings(
            BandKeys,
            known(sizes),
            spec,
            near={
                "ease": st.integers(-6, 6).map(lambda n: f"{n} %"),
                "round": roundings(),
                "stitches": sized(sizes, st.integers(8, 300).map(str)),
                "rows_along": sized(sizes, st.integers(20, 300).map(str)),
                "stitches_in": st.integers(1, 3).map(str),
                "points": sized(sizes, lengths(0, 40)),
                "bind_off": st.sampled_from(
                    [method.name for method in kind.bind_offs] or ["back-stitched"]
                ),
                "cord": casing_cords(),
                "mitre": st.just("yes"),
                "zip": st.sampled_from(("1 cm", "5 cm", "cut")),
            },
            tenths={
                **asked,
                "kind": NEVER,
                "stitches": NEVER,
                "rows_along": NEVER,
                **({along: ALWAYS, "round": NEVER} if counted else {}),
                "back_depth": NEVER,
                "buttonholes": NEVER,
                "fold": 4 if kind.layers == 2 and not kind.lengthwise else NEVER,
                **({"ease": NEVER, "stitches_in": NEVER, "waste_rows": NEVER, "zip": NEVER}
                   if kind.lengthwise and draw(st.integers(0, 9)) else {}),
                "dials": 4 if graded else NEVER,
                "dial": NEVER if graded else 2,
                "mitre": 1 if kind.mitres else NEVER,
                "bind_off": 3 if kind.bind_offs else NEVER,
                "facing_fabric": 1 if "facing_fabric" in kind.asks else NEVER,
                "zip": 3 if "front" in edge and "buttonholes" not in spec else NEVER,
            },
        )
    )


@st.composite
def edges(draw: DrawFn, sizes: tuple[str, ...]) -> BandSpec:
    """An edge of no garment."""
    kind = draw(st.sampled_from(list(EdgeKeys.kind.read.choices)))
    sections = [] if draw(st.booleans()) else draw(st.lists(mappings(
        SectionKeys, known(sizes), near={
            "title": st.sampled_from(("front", "neck", "back")), "length": sized(
                sizes, lengths(20, 500)), "rows": sized(sizes, st.integers(12, 160).map(str)),
            "stitches": sized(sizes, st.integers(4, 40).map(str))},
        tenths={"stitches_are": NEVER}), min_size=1, max_size=5))
    for section in sections:
        if "stitches" in section:
            section["stitches_are"] = draw(values(SectionKeys.stitches_are, known(sizes)))
    spec = {"fabric": "body", "kind": kind, **({"sections": sections} if sections else {})}
    if not sections:
        spec |= {"rows": draw(sized(sizes, st.integers(12, 160).map(str)))} \
            if draw(st.booleans()) else {"length": draw(sized(sizes, lengths(80, 700)))}
    return draw(mappings(EdgeKeys, known(sizes), spec, near={
        "ends": st.just(["waist", "shoulder"])}, tenths={"ends": 1 if "round" in kind else 4}))


def _own_edges(spec: BandSpec | None) -> list[str]:
    if spec is None:
        return []
    found = [edge for edge in FORMS[spec["form"]].edges
             if edge != "placket" or "placket" in spec]
    if "front_and_neck" in found and spec.get("neck", "round") not in ("round", "v"):
        found.remove("front_and_neck")
    return found


def _pocket_edge(spec: BandSpec) -> str:
    opens = "front_edge" in FORMS[spec["form"]].edges
    return "pocket" if spec["pockets"].get("number") != "1" else \
        "left_pocket" if opens else "front_pocket"


@st.composite
def beds(draw: DrawFn) -> Any:
    """A bed by name, or one of the designer's own."""
    own = mappings(BedKeys, known(()), near={"pitch": st.sampled_from(("4.5 mm", "9 mm")),
                                             "needles": st.sampled_from(("120", "250"))},
                   tenths={"second_bed": 5})
    return draw(st.sampled_from(BEDS) | own)


def one_size(size: str, body: str | None) -> SearchStrategy[Any]:
    """A size by its name, or now and then as one of the designer's own."""
    own = mappings(SizeKeys, known(()), {"label": size, "as": size}, near={
        "body": st.fixed_dictionaries({"chest": lengths(450, 1300)})})
    return st.integers(0, 9).flatmap(lambda tenth: own if body and tenth > 7 else st.just(size))


@st.composite
def sources(draw: DrawFn) -> str:
    """The text of a whole pattern source."""
    form = draw(st.none() | st.sampled_from(list(FORMS)) | st.sampled_from(list(FORMS)))
    body = None
    if form and FORMS[form].is_worn:
        heads = form == "hat" and draw(st.booleans())
        body = "heads" if heads else draw(st.sampled_from(
            ("babies", "children", "babies", "children", "women", "men")))
    own = chart(body).sizes if body else ("S", "M", "L")
    sizes = draw(st.lists(st.sampled_from(WORN[body] if body else own), min_size=1, max_size=2,
                          unique=True).map(lambda some: tuple(sorted(some, key=own.index))))
    wearer = body if body in {w.value for w in Wearer} and draw(st.integers(0, 9)) else \
        draw(values_of(Wearer))
    around = draw(st.integers(8, 26))
    body_fabric = draw(fabrics(around, "main", 4))
    repeat = {"mesh": draw(charts())} if draw(st.integers(0, 9)) > 6 else {}
    if repeat:
        body_fabric |= {"chart": "mesh"}
        if "x" in repeat["mesh"]["repeat"] or not draw(st.integers(0, 19)):
            body_fabric["contrast"] = "second"
    elif draw(st.integers(0, 9)) == 9:
        body_fabric |= {"needles": "3 in 1 out"}
        body_fabric |= {"edge_stitches": "2"} if draw(st.booleans()) else {}
    garment = draw(garments(form, sizes, body)) if form else None
    if garment and repeat and draw(st.integers(0, 9)) >= 7:
        garment["align"] = draw(values(GarmentKeys.align, known(sizes)))
    given = {f"rail {n}": draw(edges(sizes)) for n in range(draw(st.integers(0 if form else 1, 2)))
             if not form or not draw(st.integers(0, 5))}
    taken = [edge for edge in _own_edges(garment) if draw(st.integers(0, 9)) >
             (5 if edge in ("front_edge", "neck", "placket", "brim", "cuff") else 8)]
    if garment and "pockets" in garment:
        taken.append(_pocket_edge(garment))
    if garment and "placket" in garment and "placket" not in taken:
        taken.append("placket")
    made = {f"band {n}": draw(bands(edge, sizes, wearer))
            for n, edge in enumerate((*taken, *given))}
    plain: tuple[BandSpec, ...] = 18 * ({},)
    arranged = st.sampled_from((*plain, {"needles": "1 in 1 out"}, {"needles": "2 in 1 out"}))
    text: BandSpec = {
        "title": "Lantern", "version": "1", "date": "2026-11-20", "designer": "Isolde Penhallow",
        "licence": "CC BY-NC 4.0", "summary": "A garment.", "wearer": wearer, "bed": draw(beds()),
        "yarns": {"main": draw(mappings(YarnKeys, known(sizes), {"name": "Quay"}, near={
            "package": mappings(PackageKeys, known(()), {"mass": "50 g", "length": "120 m"}),
            "count": st.sampled_from(("2/10 Nm", "8/4 cotton", "300 tex")),
            "hank": st.just("500 yd"), "ends": st.sampled_from("12")},
            tenths={"package": 5, "count": 2})),
            "second": {"name": "Lamp"}},
        **({"charts": repeat} if repeat else {}),
        "fabrics": {"body": body_fabric, **{
            name: draw(fabrics(around + more, "main", 2)) | draw(arranged)
            for name, more in (("band", 2), ("welt", 1))}},
        "sizes": [draw(one_size(size, body)) for size in sizes],
        **({"garment": garment} if garment else {}), **({"edges": given} if given else {}),
        **({"bands": made} if made else {})}
    return written(draw(mappings(PatternKeys, known(sizes), text, tenths={
        "pictures": NEVER, "charts": NEVER, "garment": NEVER, "edges": NEVER, "bands": NEVER})))

"""Whole pattern sources drawn at random: every key of a source, over all forms, beds and charts.

A wish is made of likely values, so that many can be knitted, and of a few that cannot be together.
"""

from __future__ import annotations

from typing import Any

import yaml
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy
from walebook.catalogue.bands import KINDS
from walebook.catalogue.ways import SHOULDERS, WAYS_OFF, WAYS_ON
from walebook.core.counts import RULES
from walebook.forms.registry import FORMS
from walebook.machine.steps import Side
from walebook.pattern.edges import Shape
from walebook.pattern.holes import Closing, Lean, OddGap
from walebook.pattern.model import Alignment, Fold, Neck, RibMake, Shown, Wearer

from tests.laws.pieces import chart

Wish = dict[str, Any]

# Repeats that a sound source can have; the last three are of two colours, the one before leaves
# a needle out.
REPEATS = ("||||\n||>|\n||||\n|<||\n", "||||||\n|//((|\n||||||\n||||||\n", "||\n|u\n||\nu|\n",
           "|||\n|v|\n|v|\n|||\n", "|)\\\\\\|\n||||||\n".replace("\\\\\\", "\\\\", 1),
           "|||.\n", "|x\nx|\n", "||||x\n|x|x|\nxxx||\n|||||\n", "||||||\n|xxxx|\n|x||x|\n")
WORN = {"women": ("S", "M", "L", "XL", "5X"), "men": ("S", "M", "XL", "4X"),
        "children": ("2", "8", "16"), "babies": ("3 mo", "12 mo", "24 mo"),
        "heads": ("baby", "child", "woman")}
BEDS = ("fine", "standard", "standard-double", "mid", "chunky", "bulky")


class _Plain(yaml.SafeDumper):
    """Writes every value out where it stands."""

    def ignore_aliases(self, data: Any) -> bool:
        return True


def written(source: Wish) -> str:
    """A source as text."""
    return yaml.dump(source, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=100)


def values_of(kinds: Any) -> SearchStrategy[str]:
    """One of the words of an enumeration."""
    return st.sampled_from([each.value for each in kinds])


def lengths(low: int, high: int) -> SearchStrategy[str]:
    """A length in one of the ways a source has it [mm]."""
    return st.integers(low, high).map(lambda mm: f"{mm} mm") | st.integers(
        -(-low // 10), high // 10).map(lambda cm: f"{cm} cm")


def dials(low: int = 0, high: int = 10) -> SearchStrategy[str]:
    """A dial setting."""
    return st.builds(lambda whole, dots: f"{whole}{dots}", st.integers(low, high - 1),
                     st.sampled_from(("", ".1", ".2")))


def some(draw: DrawFn, tenths: int, **keys: SearchStrategy[Any]) -> Wish:
    """Some of these entries, each so many times in ten."""
    return {key: draw(value) for key, value in keys.items()
            if draw(st.integers(0, 9)) >= 10 - tenths}


def sized(sizes: tuple[str, ...], value: SearchStrategy[Any]) -> SearchStrategy[Any]:
    """One value for all sizes, or one for each."""
    return value | st.fixed_dictionaries(dict.fromkeys(sizes, value))


@st.composite
def fabrics(draw: DrawFn, around: int, yarn: str, likely: int) -> Wish:
    """A fabric of about so many stitches to 10 cm."""
    count = draw(st.integers(max(5, around - 2), around + 2))
    rows = count * draw(st.integers(115, 170)) // 100
    swatch = {"stitches": str(count), "width": "10 cm", "rows": str(rows), "height": "10 cm",
              **some(draw, 6, mass=st.integers(4, 40).map(lambda g: f"{g} g"))}
    several = {"swatches": [swatch, dict(swatch)]} if draw(st.booleans()) else {"swatch": swatch}
    return {"yarn": yarn, "dial": draw(dials(likely)), **several}


@st.composite
def charts(draw: DrawFn) -> Wish:
    """A stitch chart that may be sound."""
    marks = st.text("||||x", min_size=4, max_size=4)
    own = st.lists(marks, min_size=1, max_size=5).map(lambda rows: "\n".join(rows) + "\n")
    return {"repeat": draw(st.sampled_from(REPEATS) | own),
            **some(draw, 2, title=st.just("Harbour mesh"), edge=st.integers(0, 3).map(str))}


@st.composite
def roundings(draw: DrawFn, counts: tuple[str, ...] = ()) -> Any:
    """How a count is rounded."""
    words = st.sampled_from([rule for rule in RULES if rule != "multiple"])
    tables = st.integers(1, 6).flatmap(lambda n: st.fixed_dictionaries(
        {"multiple": st.just(str(n))}, optional={"plus": st.integers(0, n - 1).map(str)}))
    named = st.sampled_from(counts).map(lambda name: {"parity_of": name})
    return draw(words | tables | named if counts else words | tables)


@st.composite
def hems(draw: DrawFn) -> Wish:
    """A hem or a rib."""
    make = draw(st.none() | st.just("hung") | values_of(RibMake))
    hem = {"depth": draw(lengths(10, 90)), **({"kind": make} if make else {})}
    if make in (None, "hung"):
        return {**hem, **some(draw, 5, fold=st.sampled_from(("loose", "picot")), dial=dials())}
    ribs = ["1x1", "2x1", "2x2", *(["full needle"] if make == "two-bed rib" else [])]
    if "mock" in make and draw(st.booleans()):
        hem["needles"] = draw(st.sampled_from(("2 in 1 out", "3 in 1 out, 1 in 1 out",
                                               "2 in 2 out", "5 in 1 out")))
    else:
        hem["rib"] = draw(st.sampled_from(ribs))
    return hem | draw(st.sampled_from(({}, {"fabric": "welt"}))) or some(draw, 5, dial=dials())


def _measures(form: str, sizes: tuple[str, ...]) -> SearchStrategy[Wish]:
    """At most two of the form's own measures, a little or a good deal changed."""
    own = FORMS[form].measures
    share = st.sampled_from((50, 80, 90, 95, 105, 110, 130, 200))

    def changed(name: str) -> SearchStrategy[Any]:
        return sized(sizes, share.map(lambda part: f"({own[name]}) * {part} %"))
    return st.just({}) | st.fixed_dictionaries({}, optional={
        name: changed(name) for name in own if name != "panels"}).map(
            lambda asked: dict(list(asked.items())[:2]))


def _ways(pieces: tuple[str, ...], ways: Any) -> SearchStrategy[Any]:
    """One for all pieces, or one for a piece or two and the shoulders."""
    one = st.sampled_from(list(ways))
    each = {piece: st.sampled_from([way.name for way in SHOULDERS]) if piece == "shoulders" else one
            for piece in pieces}
    return one | st.sampled_from(pieces).map(lambda piece: {piece: each[piece]}).flatmap(
        st.fixed_dictionaries)


def _pieces(form: str) -> tuple[str, ...]:
    """What ways can be chosen for, most likely."""
    own = {"hat": ("hat",), "triangular shawl": ("shawl",), "panelled blanket": ("panel",),
           "mitten": ("hand", "thumb")}
    if form in own:
        return own[form]
    edges = FORMS[form].edges
    return ("back", *(("right_front", "left_front") if "front_edge" in edges else ("front",)),
            *(("sleeve",) if "armhole" not in edges else ()),
            *(("shoulders",) if "raglan" not in form else ()))


@st.composite
def garments(draw: DrawFn, form: str, sizes: tuple[str, ...], body: str | None) -> Wish:
    """A garment of a form."""
    shape, counts = FORMS[form], tuple(FORMS[form].rounds)
    pairs = list(shape.pairs) or ["sleeves"]
    wish = {"form": form, "fabric": "body", **({"chart": body} if body else {})}
    wish |= some(draw, 5, hem=hems())
    wish |= some(draw, 3, neck=values_of(Neck))
    own = draw(_measures(form, sizes))
    if body == "men" and "body_length" in shape.measures:
        own["body_length"] = "back_hip_length + 2 cm"
    wish |= {"measures": own} if own else {}
    wish |= some(draw, 2, moved=st.integers(1, 7).map(str), bind_off=_ways(_pieces(form), WAYS_OFF),
                 bind_off_stretch=st.dictionaries(st.sampled_from([*WAYS_OFF]), st.integers(
                     -5, 210).map("{} %".format), min_size=1, max_size=2),
                 side_by_side=st.lists(st.sampled_from(pairs), min_size=1, max_size=2))
    wish |= some(draw, 0 if "hem" in wish else 5, cast_on=_ways(_pieces(form), WAYS_ON))
    if counts:
        wish |= some(draw, 2, round=st.dictionaries(
            st.sampled_from(counts).map(lambda c: c.replace("_", " ")), roundings(counts),
            min_size=1, max_size=2))
    if "chest" in (chart(body).rows if body else ()):
        wish |= some(draw, 1, body=st.fixed_dictionaries(
            {"chest": lengths(450, 1300) | st.just({sizes[0]: "80 cm"})}))
    if "placket" in shape.edges or draw(st.integers(0, 19)) == 19:
        wish |= some(draw, 4, placket=sized(sizes, lengths(60, 250)))
    wish |= some(draw, 3 if "neck" in shape.edges else 1, pockets=pockets(sizes))
    return wish | some(draw, 3 if "neck" in shape.edges and "fold" in wish.get("hem", ()) else 0,
                       cord=cords())


@st.composite
def pockets(draw: DrawFn, sizes: tuple[str, ...]) -> Wish:
    """Pockets in the fronts."""
    return {"width": draw(sized(sizes, lengths(50, 140))),
            "height": draw(sized(sizes, lengths(70, 260))),
            **some(draw, 4, depth=sized(sizes, lengths(40, 160)),
                   from_side=sized(sizes, lengths(20, 80)), number=st.sampled_from("12"))}


@st.composite
def cords(draw: DrawFn) -> Wish:
    """A cord for the hem."""
    return {"width": draw(lengths(2, 25)), **some(draw, 5, ties=lengths(20, 400))}


@st.composite
def casing_cords(draw: DrawFn) -> Wish:
    """A cord for a casing."""
    where = st.sampled_from(("front neck", "back neck", "neck"))
    return {"width": draw(lengths(2, 15)),
            **some(draw, 4, ties=lengths(20, 300), at=where,
                   openings=st.sampled_from(("eyelets", "slits", "ends")))}


@st.composite
def holes(draw: DrawFn, sizes: tuple[str, ...], wearer: str) -> Wish:
    """The buttonholes of a band."""
    number = st.integers(1, 9).map(str)
    spaced = draw(st.sampled_from(("number", "every", "every", "at")))
    wish = {"button": draw(st.sampled_from(("9 mm", "12 mm", "15 mm", "18 mm", "3/4 in",
                                            "28 ligne", "25 mm", "40 mm")))}
    wish[spaced] = draw({"number": sized(sizes, number), "every": lengths(25, 150),
                         "at": st.just(["2 cm", "6 cm", "-2 cm"])}[spaced])
    if wearer == "anyone":
        wish["front"] = draw(values_of((Side.RIGHT, Side.LEFT)))
    own = draw(st.sampled_from((*6 * ("",), "in_hem", "through", "centre_hole")))
    if own and spaced != "at":
        wish[own] = draw({"in_hem": in_hem(sizes), "through": sized(sizes, lengths(30, 300)),
                          "centre_hole": st.just("yes")}[own])
    ends = st.integers(1, 8).map(lambda n: f"{n} stitches") | lengths(5, 60)
    both = st.fixed_dictionaries({"lower": ends, "upper": ends})
    wish |= some(draw, 2, ends=ends | both, odd_gap=values_of(OddGap), lean=values_of(Lean),
                 end_give=st.integers(0, 6).map(str), band_give=st.integers(0, 2).map(str),
                 tolerance=st.integers(0, 10).map(lambda n: f"{n} %"))
    return wish | some(draw, 1, stitches=sized(sizes, st.integers(1, 9).map(str)))


@st.composite
def in_hem(draw: DrawFn, sizes: tuple[str, ...]) -> Wish:
    """Holes in a hem or rib."""
    return {"depth": draw(sized(sizes, lengths(20, 80))),
            **some(draw, 5, number=st.integers(1, 4).map(str), ends=lengths(5, 25))}


@st.composite
def bands(draw: DrawFn, edge: str, sizes: tuple[str, ...], wearer: str) -> Wish:
    """A band for an edge, of a kind that it might have."""
    likely = [kind.name for kind in KINDS.values()
              if ("collar" in kind.name) <= (edge in ("neck", "front_and_neck"))]
    kind = KINDS[draw(st.sampled_from(likely if draw(st.integers(0, 29)) else list(KINDS)))]
    wish = {"edge": edge, **({"kind": kind.name} if kind.name != "enclosing"
                             or draw(st.booleans()) else {})}
    wish |= draw(st.sampled_from(({"pick_up": "3/4"}, {"pick_up": "1"}, {"fabric": "band"},
                                  {"fabric": "band"})))
    if kind.layers == 2 and draw(st.integers(0, 4)) == 4:
        near, far = (str(draw(st.integers(1, 9))) for _ in range(2))
        wish["rows"] = {"to_holes": near, "holes_to_fold": far, "fold_to_holes": far,
                        "to_finish": near}
    else:
        wish["depth"] = draw(sized(sizes, lengths(12, 60)))
    wish |= some(draw, 1, title=st.just("Rail band"), yarn=st.just("main"),
                 ease=st.integers(-6, 6).map(lambda n: f"{n} %"),
                 waste_rows=st.integers(6, 10).map(str),
                 stitches_in=st.integers(1, 3).map(str), round=roundings())
    wish |= some(draw, 4, fold=values_of(Fold)) if kind.layers == 2 else {}
    wish |= some(draw, 2, **{"dials": st.lists(dials(), min_size=1, max_size=4)} if kind.grades
                 and draw(st.booleans()) else {"dial": dials()})
    wish |= some(draw, 1, mitre=st.just("yes")) if kind.mitres else {}
    if kind.ways_off:
        wish |= some(draw, 3, bind_off=st.sampled_from([way.name for way in kind.ways_off]))
    asked = {"points": sized(sizes, lengths(0, 40)), "outer_dial": dials(),
             "shows": values_of(Shown), "rib": st.sampled_from(("1x1", "2x1", "2x2"))}
    wish |= some(draw, 5, **{key: asked[key] for key in kind.asks if key in asked})
    if kind.name == "casing":
        wish |= some(draw, 5, cord=casing_cords())
    if "back_depth" in kind.needs:
        wish["back_depth"] = draw(sized(sizes, lengths(40, 160)))
    if kind.closings and "pocket" not in edge:
        wish |= some(draw, 4, buttonholes=holes(sizes, wearer))
        if "buttonholes" in wish:
            wish["buttonholes"] |= some(draw, 6, closing=values_of(kind.closings)
                                        if draw(st.integers(0, 9)) else values_of(Closing))
    if "front" in edge and "buttonholes" not in wish:
        wish |= some(draw, 3, zip=st.sampled_from(("1 cm", "5 cm", "cut")))
    return wish


@st.composite
def edges(draw: DrawFn, sizes: tuple[str, ...]) -> Wish:
    """An edge of no garment."""
    rows, width = st.integers(12, 160).map(str), st.integers(4, 40).map(str)
    kind = draw(st.sampled_from([shape.value for shape in Shape]))
    own = {"fabric": "body", "kind": kind, **some(draw, 1 if kind == "closed round" else 4,
           ends=st.just(["waist", "shoulder"]))}
    if draw(st.booleans()):
        return {**own, **draw(st.sampled_from(("rows", "length")).flatmap(
            lambda key: st.fixed_dictionaries({key: sized(sizes, rows if key == "rows"
                                                          else lengths(80, 700))})))}
    section = st.sampled_from((("rows", rows), ("stitches", width), ("length", lengths(20, 500))))
    are = st.sampled_from(("on waste yarn", "bound off", "cast on"))
    parts = st.lists(section.flatmap(lambda pair: st.fixed_dictionaries(
        {"title": st.sampled_from(("front", "neck", "back")), pair[0]: sized(sizes, pair[1]),
         **({"stitches_are": are} if pair[0] == "stitches" else {})})), min_size=1, max_size=5)
    return {**own, "sections": draw(parts)}


def _own_edges(wish: Wish | None) -> list[str]:
    if wish is None:
        return []
    found = [edge for edge in FORMS[wish["form"]].edges
             if edge != "placket" or "placket" in wish]
    if "front_and_neck" in found and wish.get("neck", "round") not in ("round", "v"):
        found.remove("front_and_neck")
    return found


def _pocket_edge(wish: Wish) -> str:
    opens = "front_edge" in FORMS[wish["form"]].edges
    return "pocket" if wish["pockets"].get("number") != "1" else \
        "left_pocket" if opens else "front_pocket"


@st.composite
def beds(draw: DrawFn) -> Any:
    """A bed by name, or one of the designer's own."""
    own = st.fixed_dictionaries(
        {"pitch": st.sampled_from(("4.5 mm", "9 mm")), "needles": st.sampled_from(("120", "250"))},
        optional={"second_bed": st.sampled_from(("yes", "no")), "name": st.just("Loft bed")})
    return draw(st.sampled_from(BEDS) | own)


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
        body_fabric |= {"needles": "3 in 1 out", **some(draw, 5, edge_stitches=st.just("2"))}
    garment = draw(garments(form, sizes, body)) if form else None
    if garment and repeat:
        garment |= some(draw, 3, align=values_of(Alignment))
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
    arranged = st.sampled_from(("1 in 1 out", "2 in 1 out"))
    text: Wish = {
        "title": "Lantern", "version": "1", "date": "2026-11-20", "designer": "Isolde Penhallow",
        "licence": "CC BY-NC 4.0", "summary": "A wish.", "wearer": wearer, "bed": draw(beds()),
        **some(draw, 1, skills=st.just(["hold stitches"]), corrections=st.just(
            [{"date": "2026-11-21", "text": "Rows put right."}])),
        "yarns": {"main": {"name": "Quay", **some(draw, 5, fibre=st.just("wool"), package=st.just(
            {"mass": "50 g", "length": "120 m"}))}, "second": {"name": "Lamp"}},
        **({"charts": repeat} if repeat else {}),
        "fabrics": {"body": body_fabric, "band": draw(fabrics(around + 2, "main", 2))
                    | some(draw, 1, needles=arranged),
                    "welt": draw(fabrics(around + 1, "main", 2)) | some(draw, 1, needles=arranged)},
        "sizes": list(sizes), **({"garment": garment} if garment else {}),
        **({"edges": given} if given else {}), **({"bands": made} if made else {})}
    return written(text)

"""Every measure of every form moves what it is the measure of, by as many millimetres.

A garment is drawn with all measures at their defaults and with one of them changed. Each feature
of either drawing is read out of its SVG and held against the counts of the pieces times the
gauge; the measure's own feature must have moved by as much as the counts have, and by more than
rounding. What is a convention of the drawing (how long the bend at a shoulder is, how deep a dome)
is taken from the module that says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from math import dist

import pytest
from walebook.catalogue.forms import Construction
from walebook.drawings.garment_conventions import (
    CAP_BEND,
    CAP_BEND_SHARE,
    CROWN_FROM,
    SLEEVE_HANGS,
    THUMB_STANDS,
    TIP_FROM,
)
from walebook.drawings.garment_sketch import View, garment
from walebook.drawings.schematic import outlines
from walebook.forms.registry import FORMS
from walebook.pattern.model import Pattern
from walebook.plan.assembled import Assembled
from walebook.proof.proof import SizeProof, assemble_all
from walebook.shape.dimension_names import ABOVE_UNDERARM, GATHERED, NECK_DEPTH, WHOLE

from tests.laws.sketches import Drawn, Point, drawn, sketches
from tests.laws.test_any_source import read
from tests.laws.test_measures_heard import BODY, GAUGE, asked

STITCH, ROW = 100 / GAUGE[0], 100 / GAUGE[1]
NEAR = 1.5  # [mm]: two places, each in whole millimetres, and a length in two directions
HANGS = tuple(float(one) for one in SLEEVE_HANGS)
BELOW = (HANGS[1], -HANGS[0])
STANDS = tuple(float(one) for one in THUMB_STANDS)


@dataclass(frozen=True)
class Case:
    """A garment in one size: its counts, its outlines' measures, its drawings' lines."""

    counts: Mapping[tuple[str, str], int]
    measured: Mapping[tuple[str, str], float]
    front: tuple[Drawn, ...]
    back: tuple[Drawn, ...]
    assembled: Assembled

    def sts(self, piece: str, name: str, less: int = 0) -> float:
        return (self.counts[piece, name] - less) * STITCH

    def rows(self, piece: str, name: str) -> float:
        return self.counts[piece, name] * ROW

    def finished(self, name: str) -> float:
        return float(self.assembled.garment.finished[name].mm)

    def filled(self, part: str, at: int = 0) -> Drawn:
        lines = [one for one in (*self.front, *self.back)
                 if one.part == part and "wb-fill" in one.looks]
        return lines[at]

    @property
    def body(self) -> Drawn:
        return next(one for one in self.back if one.part == "back")

    @property
    def corner(self) -> int:
        """The first of the highest points of the back at the right."""
        return next(i for i, (x, y) in enumerate(self.body.points)
                    if y == max(self.body.ys) and x >= 0)


@cache
def case(form: str, measures: tuple[tuple[str, str], ...]) -> Case | None:
    pattern, _ = read(asked(form, "round", dict(measures)))
    if pattern is None:
        return None
    assembled = assemble_all(pattern, pattern)[0].get(BODY[form][1])
    return None if assembled is None else _case(pattern, assembled)


def _case(pattern: Pattern, assembled: Assembled) -> Case:
    size = SizeProof(size=assembled.garment.size, plans=(), strips=(), assembled=assembled)
    shapes = outlines(pattern.garment, pattern.fabrics, size)
    svgs = sketches(garment(pattern, size, shapes, views=(View.FRONT, View.BACK)))
    views = [tuple(drawn(svg)) for svg in svgs]
    return Case(
        counts={(piece, name): count.value for piece, name, count in assembled.garment.counts},
        measured={(o.key, d.name): float(d.length.mm) for o in shapes for d in o.dimensions},
        front=views[0], back=views[-1], assembled=assembled)


Feature = tuple[Callable[[Case], float], Callable[[Case], float]]  # as drawn, as counted


# The body


def shoulder(one: Case) -> Point:
    return one.body.points[one.corner - 1]


def underarm(one: Case) -> Point:
    wide = max(one.body.xs)
    return max(((x, y) for x, y in one.body.points if x == wide), key=lambda p: p[1])


def middle(line: Drawn) -> float:
    """How far below its highest point the neck is at its lowest."""
    points = line.points
    at = max(range(len(points)), key=lambda i: points[i][1])
    left = {x for x, y in points if y == points[at][1]}
    inner = [y for x, y in points if min(left | {-x for x in left}) <= x <= max(left)
             and y > max(line.ys) / 2]
    return max(line.ys) - min(inner)


WIDTH: Feature = (lambda c: max(c.body.xs), lambda c: c.sts("back", "cast_on", 2) / 2)
LENGTH: Feature = (lambda c: max(c.body.ys), lambda c: c.measured["back", WHOLE])
NECK: Feature = (lambda c: c.body.points[c.corner][0],
                 lambda c: c.sts("back", "neck_stitches") / 2)
SLOPE: Feature = (lambda c: max(c.body.ys) - shoulder(c)[1],
                  lambda c: c.rows("back", "shoulder_rows"))
ACROSS: Feature = (lambda c: shoulder(c)[0], lambda c: c.finished("across") / 2)
ARMHOLE: Feature = (lambda c: shoulder(c)[1] - underarm(c)[1],
                    lambda c: c.rows("back", "armhole_rows"))
BACK_NECK: Feature = (lambda c: max(c.body.ys) - max(y for x, y in c.body.points if x == 0),
                      lambda c: c.measured["back", NECK_DEPTH])
FRONT_NECK: Feature = (
    lambda c: max(c.body.ys) - min(y for x, y in c.filled("front").points if x == 0),
    lambda c: c.measured["front", NECK_DEPTH])
FRONT_EDGE: Feature = (
    lambda c: max(c.body.ys) - max(y for x, y in c.filled("left_front").points
                                   if x == min(c.filled("left_front").xs)),
    lambda c: c.measured["right_front", NECK_DEPTH])
LINE: Feature = (lambda c: max(c.body.ys) - underarm(c)[1],
                 lambda c: c.measured["back", ABOVE_UNDERARM])
UNDERARM: Feature = (
    lambda c: underarm(c)[0] - min(x for x, y in c.body.points if y == underarm(c)[1] and x > 0),
    lambda c: c.sts("back", "underarm"))
RAGLAN_NECK: Feature = (NECK[0], lambda c: c.sts("back", "neck_stitches", 2) / 2)

# Sleeves, along the way in which they hang and square to it


def hung(one: Case) -> list[Point]:
    right = max((line for line in one.front if line.part == "sleeve" and "wb-fill" in line.looks),
                key=lambda line: max(line.xs))
    return [(x * HANGS[0] + y * HANGS[1], x * BELOW[0] + y * BELOW[1]) for x, y in right.points]


def at_cuff(one: Case) -> list[float]:
    points = hung(one)
    return [wide for along, wide in points if along > max(a for a, _ in points) - 1.5]


def widest(one: Case) -> Point:
    """The lower end of the sleeve's seam, at the underarm."""
    points = hung(one)
    cuff = max(range(len(points)), key=lambda i: (round(points[i][0]), points[i][1]))
    # From there on the line runs up the seam; what lies at the middle is behind the body.
    seam = [(along, wide) for along, wide in points[cuff:-1]
            if abs(along * HANGS[0] + wide * BELOW[0]) > 1]
    most = max(wide for _, wide in seam)
    return min((p for p in seam if p[1] > most - 0.8), key=lambda p: p[0])


CUFF: Feature = (lambda c: max(at_cuff(c)) - min(at_cuff(c)),
                 lambda c: c.sts("sleeve", "cast_on", 2) / 2)
ARM: Feature = (lambda c: widest(c)[1] - min(at_cuff(c)),
                lambda c: c.sts("sleeve", "upper_arm", 2) / 2)


def to_underarm(name: str) -> Feature:
    return (lambda c: max(a for a, _ in hung(c)) - widest(c)[0], lambda c: c.rows("sleeve", name))


def _cap(one: Case) -> float:
    cap = one.rows("sleeve", "cap_rows")
    bend = CAP_BEND / 100 + float(CAP_BEND_SHARE) * cap
    long = cap + one.rows("sleeve", "rows_to_underarm")
    right, drop = shoulder(one)[0] - one.body.points[one.corner][0], \
        one.body.points[one.corner][1] - shoulder(one)[1]
    slope = (right * HANGS[0] - drop * HANGS[1]) / dist((0, 0), (right, drop))
    return long - bend + bend * slope


CAP: Feature = (lambda c: max(a for a, _ in hung(c)) - hung(c)[0][0], _cap)
SLEEVE_TOP: Feature = (
    lambda c: dist(hung(c)[0], hung(c)[1]), lambda c: c.sts("sleeve", "top", 2) / 2)
def _strap(one: Case) -> float:
    """The strap at the neck, in the sleeve and in the far side of the neck."""
    far = next(line for line in one.front if "wb-far" in line.looks)
    both = dist(hung(one)[0], hung(one)[1]), max(far.ys) - max(one.body.ys)
    assert both[0] == pytest.approx(both[1], abs=NEAR)
    return both[0]


STRAP: Feature = (_strap,
                  lambda c: c.sts("sleeve", "strap", 2) / 2)
SADDLE: Feature = (
    lambda c: c.body.points[c.corner][0] - c.body.points[c.corner + 1][0],
    lambda c: c.sts("back", "shoulder", 1))
SADDLE_NECK: Feature = (lambda c: c.body.points[c.corner + 1][0],
                        lambda c: c.sts("back", "neck_stitches") / 2)

BODY_OF = {"ease": WIDTH, "chest_width": WIDTH, "body_length": LENGTH}
SLEEVE = {"cuff_width": CUFF, "upper_arm_width": ARM}
SHOULDERS = {**BODY_OF, "shoulder_drop": SLOPE, "back_neck": BACK_NECK, "neck_width": NECK,
             "armhole": ARMHOLE, "across": ACROSS}
RAGLAN = {**BODY_OF, **SLEEVE, "raglan_depth": LINE, "underarm": UNDERARM,
          "sleeve_length": to_underarm("rows_to_raglan")}

# What lies flat


def side_top(line: Drawn) -> float:
    """Where a straight side ends."""
    return max(y for x, y in line.points if x == max(line.xs))


def _thumb(one: Case) -> list[Point]:
    """The thumb of the mitten at the left, which points to the right."""
    return list(min((line for line in one.front if line.part == "thumb"),
                    key=lambda line: min(line.xs)).points)


def _hand(one: Case) -> Drawn:
    return min((line for line in one.front if line.part == "hand" and "wb-fill" in line.looks),
               key=lambda line: min(line.xs))


def _thumb_long(one: Case) -> float:
    along = [x * STANDS[0] + y * STANDS[1] for x, y in _thumb(one)]
    return max(along) - along[1]


HAT: dict[str, Feature] = {
    "hat_width": (lambda c: max(c.filled("hat").xs), lambda c: c.sts("hat", "cast_on", 2) / 4),
    "hat_depth": (lambda c: max(c.filled("hat").ys),
                  lambda c: float(c.assembled.garment.finished["depth"].mm)),
    "turn_up": (lambda c: max(c.filled("hat", -1).ys) if len(
        {line for line in c.front if "wb-fill" in line.looks}) > 1 else 0.0,
        lambda c: float(c.assembled.garment.finished["length"].mm
                        - c.assembled.garment.finished["depth"].mm)),
    "crown": (lambda c: max(c.filled("hat").ys) - side_top(c.filled("hat")),
              lambda c: float(CROWN_FROM) * c.measured["hat", GATHERED])}
SHAWL: dict[str, Feature] = {
    "wingspan": (lambda c: 2 * max(c.filled("shawl").xs), lambda c: c.sts("shawl", "cast_on")),
    "depth": (lambda c: -min(c.filled("shawl").ys), lambda c: c.rows("shawl", "rows"))}
BLANKET: dict[str, Feature] = {
    "blanket_width": (lambda c: max(c.filled("panel").xs), lambda c: (
        c.counts["panel", "panels"] * (c.counts["panel", "cast_on"] - 2) + 2) * STITCH),
    "blanket_length": (lambda c: max(c.filled("panel").ys), lambda c: c.rows("panel", "rows")),
    "panels": (lambda c: 1 + sum("wb-seam" in line.looks for line in c.front),
               lambda c: c.counts["panel", "panels"])}
MITTEN: dict[str, Feature] = {
    "mitten_width": (lambda c: max(_hand(c).xs) - min(_hand(c).xs),
                     lambda c: c.sts("hand", "cast_on", 2) / 2),
    "mitten_length": (lambda c: max(_hand(c).ys), lambda c: c.rows("hand", "rows")),
    "to_thumb": (lambda c: _thumb(c)[0][1], lambda c: c.rows("hand", "rows_to_thumb")),
    "thumb_width": (lambda c: dist(_thumb(c)[1], _thumb(c)[-2]),
                    lambda c: c.sts("thumb", "cast_on", 2) / 2),
    "thumb_length": (_thumb_long, lambda c: c.rows("thumb", "rows")),
    "tip": (lambda c: max(_hand(c).ys) - side_top(_hand(c)),
            lambda c: float(TIP_FROM) * c.measured["hand", GATHERED])}


def features(form: str) -> dict[str, Feature]:
    """What each measure of a form is the measure of."""
    flat = {"hat": {**HAT, "hat_length": (HAT["hat_depth"])}, "triangular shawl": SHAWL,
            "panelled blanket": BLANKET,
            "mitten": {**MITTEN, "hand_circumference": MITTEN["mitten_width"],
                       "hand_length": MITTEN["mitten_length"],
                       "cuff_depth": MITTEN["to_thumb"]}}
    if form in flat:
        return flat[form]
    opens = "cardigan" in form or "waistcoat" in form
    front: dict[str, Feature] = {"front_neck": FRONT_EDGE if opens else FRONT_NECK}
    if form.startswith("saddle"):
        return {**RAGLAN, **front, "saddle_width": STRAP, "saddle_length": SADDLE,
                "neck_width": SADDLE_NECK}
    if form.startswith("raglan"):
        return {**RAGLAN, **front, "neck_width": RAGLAN_NECK, "sleeve_top": SLEEVE_TOP}
    if form.startswith("sideways"):
        return {
            "ease": (WIDTH[0], lambda c: c.rows("back", "rows") / 2),
            "chest_width": (WIDTH[0], lambda c: c.rows("back", "rows") / 2),
            "body_length": (LENGTH[0], lambda c: c.sts("back", "cast_on", 1)),
            "neck_width": (lambda c: c.body.points[c.corner + 1][0],
                           lambda c: c.rows("back", "neck_opening_rows") / 2),
            "armhole": (ARM[0], lambda c: c.sts("back", "armhole_stitches")), **SLEEVE,
            "sleeve_length": to_underarm("rows_to_underarm")}
    made: dict[str, Feature] = {**SHOULDERS, **front, **SLEEVE,
                                "sleeve_length": to_underarm("rows_to_underarm"),
                                "cap_ease": CAP}
    if FORMS[form].construction is Construction.DROP_SHOULDER:
        # Without an armhole's shaping the body is as wide at the shoulder as below; the sleeve is
        # as wide as the armhole is high.
        del made["cap_ease"]
        made["across"] = NECK
        made["armhole"] = ARM
        if not FORMS[form].sleeved:  # a bare armhole loses no stitch to a seam: it is the widest
            bare = (WIDTH[0], lambda c: c.sts("back", "cast_on") / 2)
            made |= {"ease": bare, "chest_width": bare}
    return {name: made[name] for name in made if name in FORMS[form].measures}


CHANGES = ("+ 30 mm", "- 30 mm", "+ 15 mm", "- 15 mm", "+ 60 mm", "+ 1", "+ 2 %")
# Nothing of these is drawn by itself: an armhole without a sleeve or a band has no end to be seen.
UNSEEN = {(form.name, "armhole") for form in FORMS.values()
          if form.construction is Construction.DROP_SHOULDER and not form.sleeved}


def moved(form: str, name: str, feature: Feature) -> Iterator[tuple[str, Case]]:
    rest = FORMS[form].measures[name]
    for change in CHANGES:
        found = case(form, ((name, f"({rest}) {change}"),))
        if found is not None:
            yield change, found


@pytest.mark.sampled(40, each=("form", "name"))
@pytest.mark.parametrize(("form", "name"), [
    (form, name) for form in FORMS for name in FORMS[form].measures if (form, name) not in UNSEEN])
def test_a_measure_moves_its_feature_by_as_many_millimetres(form: str, name: str) -> None:
    assert name in features(form), f"give features() what {name} of a {form} is in the drawing"
    read_, counted = features(form)[name]
    before = case(form, ())
    assert before is not None
    assert read_(before) == pytest.approx(counted(before), abs=NEAR)
    for change, after in moved(form, name, (read_, counted)):
        far = counted(after) - counted(before)
        assert read_(after) == pytest.approx(counted(after), abs=NEAR), change
        assert read_(after) - read_(before) == pytest.approx(far, abs=2 * NEAR), change
        if abs(far) > 2 * NEAR or name == "panels":
            return
    if name not in FORMS[form].followed:
        pytest.fail(f"{form}: {name} moves nothing that is drawn")

"""One edge, one length: what is drawn, hung, counted and told of it are the same millimetres."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import hypot

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.counts import whole
from walebook.core.expression import plain
from walebook.core.units import Length
from walebook.fabric.gauge import Gauge
from walebook.forms.registry import FORMS
from walebook.machine.steps import Dial, Side
from walebook.pages.hanging import hanging_table
from walebook.pattern.edges import EdgeShape, Offer
from walebook.pattern.fabrics import Swatch
from walebook.pattern.model import CollarSpec, Fold, HemSpec, Neck, Pattern
from walebook.pattern.rib_specs import RibMake, RibSpec
from walebook.plan.band import BandPlan
from walebook.plan.band_findings import too_long_for_bed
from walebook.plan.band_parts import in_parts
from walebook.plan.meeting import PickUpRate, all_stitches, meet
from walebook.plan.sense import check
from walebook.program.layout import corner_loops, lay_out_band, sections
from walebook.program.waiting import faced_needles
from walebook.proof.proof import Strip, prove
from walebook.proof.seam_yarn import seams
from walebook.shape import edging
from walebook.shape.corners import Square, squares
from walebook.shape.dimension_names import FRONT_EDGE, HEM, RIB
from walebook.shape.edge_path import run_of
from walebook.shape.edging import Section, Stretch, straight, waiting
from walebook.shape.garment import CannotShape, Garment
from walebook.shape.outline import last_row, outline
from walebook.shape.piece import Piece
from walebook.shape.profile import EdgeSegment, How
from walebook.shape.ribs import Rib
from walebook.words.strip_lead import strip_lead

from tests import small_patterns as small
from tests.against import wardrobe
from tests.laws import pieces
from tests.scale import examples
from tests.small_patterns import given_length

OPEN = [name for name, form in FORMS.items() if "front_edge" in form.edges]
DEPTH = Length(Fraction(55))
HEMS: dict[str, HemSpec | RibSpec | None] = {
    "no hem": None,
    "hung hem": HemSpec(depth=DEPTH, fold=Fold.LOOSE, dial=Dial(12)),
    "picot hem": HemSpec(depth=DEPTH, fold=Fold.PICOT, dial=Dial(12)),
    **{make.value: RibSpec(depth=DEPTH, make=make, works=(True, True, False), dial=Dial(12))
       for make in RibMake}}


def shaped(form: str, hem: str, neck: Neck, size: str, gauge: Gauge, own: Gauge) -> Garment | None:
    """The garment, its hem of another gauge than the rest; None where it is refused."""
    made = pieces.cut(form, dict(pieces.chart("women").measurements(size)), gauge, neck=neck,
                      hem=HEMS[hem], band=24)
    try:
        return FORMS[form].shape(replace(made, hem_gauge=own))
    except CannotShape:
        return None


gauges = st.builds(pieces.gauge, st.integers(20, 34), st.integers(32, 52))
sizes = st.sampled_from(pieces.chart("women").sizes)


@pytest.mark.parametrize("form", OPEN)
@given(hem=st.sampled_from(list(HEMS)), neck=st.sampled_from((Neck.ROUND, Neck.V)), size=sizes,
       gauge=gauges, own=gauges)
@settings(max_examples=examples(6), deadline=None)
def test_a_front_edge_is_as_long_as_it_is_drawn(form: str, hem: str, neck: Neck, size: str,
                                                gauge: Gauge, own: Gauge) -> None:
    garment = shaped(form, hem, neck, size, gauge, own)
    if garment is None:
        return
    for piece in garment.pieces:
        drawn = outline(piece, gauge).dimension(FRONT_EDGE)
        if drawn is not None:
            assert garment.edges[f"{piece.key}.front_edge"].length == drawn.length.mm


@pytest.mark.parametrize("form", list(FORMS))
@given(hem=st.sampled_from(list(HEMS)), size=sizes, gauge=gauges, own=gauges)
@settings(max_examples=examples(3), deadline=None)
def test_a_seam_takes_yarn_for_as_long_as_its_edge_is_drawn(form: str, hem: str, size: str,
                                                            gauge: Gauge, own: Gauge) -> None:
    """From the lower edge, the hem in rows of its fabric, to where the edge's last row is: three
    times that. The rows above the edges' last one, over held stitches, lie in no seam."""
    garment = shaped(form, hem, Neck.ROUND, size, gauge, own)
    for piece in garment.pieces if garment else ():
        if piece.quarters is None:
            drawn = outline(piece, gauge).height - last_row(piece) * gauge.row
            sewn = seams([(piece, 2, gauge, plain(piece.rows))], (), (), gauge.stitch)
            assert sewn.value == 3 * 2 * drawn


def along_corners(path: list[tuple[float, float]], gauge: Gauge) -> float:
    """The length of a drawn path, upward, its small steps pulled smooth as a band does [mm]."""
    stitch, row = float(gauge.stitch), float(gauge.row)
    steps = [(round(abs(b[0] - a[0]) / stitch), round((b[1] - a[1]) / row))
             for a, b in pairwise(path)]
    total, high = 0.0, 0
    for wide, rows in steps:
        few = not wide and 0 < rows <= 4
        if high and not (wide and not rows and wide <= 4):
            total, high = total + high * row, 0
        if few:
            high = rows
        else:
            total, high = total + hypot(wide * stitch, (rows or high) * row), 0
    return total + high * row


@given(first=st.integers(0, 9), steps=st.lists(st.integers(1, 4), min_size=1, max_size=6),
       plain=st.integers(5, 20), gauge=gauges)
@settings(max_examples=examples(20), deadline=None)
def test_a_neck_that_grows_ever_steeper_is_as_long_as_a_thread_pulled_round_it(
        first: int, steps: list[int], plain: int, gauge: Gauge) -> None:
    """Steps that only fall lie on a convex line: the hull of their corners, by shapely."""
    falling = sorted(steps, reverse=True)
    runs = [EdgeSegment(first, 0, How.BIND_OFF)] if first else []
    x, y = first * float(gauge.stitch), 0.0
    corners = [(0.0, 0.0), (x, y)]
    for step in falling:
        runs += [EdgeSegment(0, 2, None), EdgeSegment(step, 0, How.BIND_OFF)]
        x, y = x + step * float(gauge.stitch), y + 2 * float(gauge.row)
        corners.append((x, y))
    corners.append((x, y + plain * float(gauge.row)))
    runs.append(EdgeSegment(0, plain, None))
    round_it = shapely.MultiPoint(corners).convex_hull
    chord = shapely.LineString([corners[0], corners[-1]]).length
    section = edging.shaped("neck", runs, gauge)
    assert section is not None
    assert float(section.length) == pytest.approx(round_it.length - chord, abs=.02)


@given(steps=st.lists(st.integers(1, 4), min_size=1, max_size=6), gauge=gauges)
@settings(max_examples=examples(10), deadline=None)
def test_a_neck_cast_on_is_as_long_as_the_same_neck_bound_off(steps: list[int], gauge: Gauge
                                                              ) -> None:
    bound_off = [run for step in steps for run in (EdgeSegment(0, 2, None),
                                                   EdgeSegment(-step, 0, How.BIND_OFF))]
    cast_on = [EdgeSegment(-run.stitches, run.rows, run.how and How.CAST_ON)
               for run in bound_off[::-1]]
    down, up = (edging.shaped("neck", runs, gauge) for runs in (bound_off, cast_on))
    assert down is not None and up is not None and down.length == up.length


def drawn(piece: Piece, gauge: Gauge) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in outline(piece, gauge).corners]


def long(sections: tuple[Section, ...], *stretches: Stretch) -> float:
    return float(sum(s.length for s in sections if not stretches or s.stretch in stretches))


@pytest.mark.parametrize("form", OPEN)
@given(neck=st.sampled_from((Neck.ROUND, Neck.V)), size=sizes, gauge=gauges)
@settings(max_examples=examples(5), deadline=None)
def test_from_hem_round_the_neck_is_as_long_as_the_drawn_fronts(form: str, neck: Neck, size: str,
                                                                gauge: Gauge) -> None:
    garment = shaped(form, "no hem", neck, size, gauge, gauge)
    if garment is None:
        return
    front = next(p for p in garment.pieces if p.key == "right_front")
    corners = drawn(front, gauge)
    high = max(y for _, y in corners)
    up = [corners[0], *reversed(corners[1:])]
    path = up[:1 + next(i for i, (_, y) in enumerate(up) if y == high)]
    behind = [s for s in garment.edges["neck"].sections if s.title != "front neck"]
    whole = garment.edges["front_and_neck"].sections
    assert 2 * along_corners(path, gauge) + long(tuple(behind)) == \
        pytest.approx(long(whole), abs=.02)


@pytest.mark.parametrize("form", [name for name, form in FORMS.items() if form.edges
                                  and form.edges[0] == "neck" and "sideways" not in name])
@given(neck=st.sampled_from(Neck), size=sizes, gauge=gauges)
@settings(max_examples=examples(5), deadline=None)
def test_a_closed_neck_is_as_long_as_it_is_drawn(form: str, neck: Neck, size: str, gauge: Gauge
                                                 ) -> None:
    garment = shaped(form, "no hem", neck, size, gauge, gauge)
    if garment is None:
        return
    piece = next(p for p in garment.pieces if p.key == "front")
    assert piece.opening is not None
    corners = drawn(piece, gauge)
    high = max(y for _, y in corners)
    ends = [i for i, (a, b) in enumerate(pairwise(corners), 1) if a[1] < high == b[1]]
    low = float(piece.opening.row * gauge.row)
    foot = max(i for i, (_, y) in enumerate(corners[:ends[-1]]) if y == low)
    side = along_corners(corners[foot:ends[-1] + 1], gauge)
    centre = 2 * abs(corners[foot][0])
    front = [s for s in garment.edges["neck"].sections if s.title.startswith("front neck")]
    assert 2 * side + centre == pytest.approx(long(tuple(front)), abs=.02)


@pytest.mark.parametrize("form", OPEN)
@given(hem=st.sampled_from(list(HEMS)), size=sizes, gauge=gauges, own=gauges)
@settings(max_examples=examples(4), deadline=None)
def test_a_hem_is_hung_by_its_own_rows_through_its_layers(form: str, hem: str, size: str,
                                                          gauge: Gauge, own: Gauge) -> None:
    """A folded hem lies double: its edge is half its knitted rows long (geometry)."""
    garment = shaped(form, hem, Neck.ROUND, size, gauge, own)
    if garment is None:
        return
    front = next(p for p in garment.pieces if p.key == "right_front")
    hems = [s for s in garment.edges["right_front.front_edge"].sections
            if s.stretch is Stretch.HEM]
    if front.hem is None:
        assert not hems
        return
    (section,) = hems
    measured = outline(front, gauge).dimension(RIB if isinstance(front.hem, Rib) else HEM)
    assert measured is not None and section.length == measured.length.mm
    assert section.pitch == own.row and section.layers == (2 if front.hem.fold else 1)


def banded(form: str, neck: Neck, hem: HemSpec | RibSpec | None, kind: str) -> Pattern:
    """A garment whose hem has rows of another height, with every band its form takes."""
    source = wardrobe.pattern(form, neck=neck, sizes=("M",))
    assert source.garment is not None
    edges = [edge for edge in ("neck", "front_edge", "armhole") if edge in FORMS[form].edges]
    made = small.band(fabric="band", kind=kind, depth={"M": Length(Fraction(30))}, stitches_in=1)
    own = replace(source.fabrics["band"], key="hem", dial=Dial(10), swatches=(
        small.swatch(20, "13 cm", 30, "12.2 cm", grams=11),))
    if isinstance(hem, HemSpec):
        hem = replace(hem, dial=Dial(10))
    if isinstance(hem, RibSpec):
        hem = replace(hem, fabric="hem")
    return replace(source, fabrics={**source.fabrics, "hem": own},
                   garment=replace(source.garment, hem=hem), bands={
        edge: replace(made, key=edge, edge=edge, title=f"{edge} band") for edge in edges})


def told(strip: Strip) -> list[Fraction]:
    """The lengths that a hanging table gives its sections [mm]."""
    return [10 * Fraction(cm) for cm in
            re.findall(r", <?[^,]*?([\d.]+) cm \(", hanging_table(strip))]


@pytest.mark.parametrize(("form", "neck", "hem", "kind"), [
    ("set-in cardigan", Neck.ROUND, "hung hem", "enclosing"),
    ("drop-shoulder waistcoat", Neck.V, "picot hem", "folded"),
    ("raglan cardigan", Neck.ROUND, "mock rib", "single"),
    ("saddle raglan cardigan", Neck.V, "hung mock rib", "facing"),
    ("set-in slipover", Neck.V, "no hem", "enclosing")])
def test_a_band_is_counted_by_the_length_that_is_drawn_and_told(
        form: str, neck: Neck, hem: str, kind: str) -> None:
    proof, problems = prove(banded(form, neck, HEMS[hem], kind))
    assert proof is not None, [str(p) for p in problems]
    for plan in proof.sizes[0].plans:
        for meeting in plan.meetings:
            if meeting.section.offer is Offer.ROWS:
                assert meeting.stitches.exact * plan.gauge.stitch == meeting.section.length
        assert sum(m.section.length for m in plan.meetings) == plan.edge_path.length
        if all(m.section.is_straight_rows for m in plan.meetings):
            exact = plan.edge_path.length / plan.gauge.stitch
            assert abs(plan.stitches.value - exact) <= Fraction(1, 2)
        lengths = told(next(s for s in proof.sizes[0].strips if s.plan is plan))
        assert len(lengths) == len(plan.meetings)
        assert abs(sum(lengths) - plan.edge_path.length) <= Fraction(len(lengths), 2)


@pytest.mark.parametrize("form", OPEN)
@pytest.mark.parametrize("kind", ["enclosing", "single", "facing"])
def test_rows_within_a_neckband_are_not_hung_again(form: str, kind: str) -> None:
    """A neckband hung 2 stitches from a level edge takes the 2 topmost rows of the front edge into
    its end, where the front band cannot reach them (geometry: below the neckband's line lie so
    many rows fewer). One edge, one length: nothing is counted twice."""
    proof, problems = prove(banded(form, Neck.ROUND, HEMS["hung hem"], kind))
    assert proof is not None, [str(p) for p in problems]
    size = proof.sizes[0]
    assert size.assembled is not None
    neck = next(p for p in size.plans if p.band.garment_edge == "neck")
    front = next(p for p in size.plans if p.band.garment_edge != "neck")
    own = size.assembled.garment.edges[front.edge_path.key].sections[-1]
    if neck.edge_path.sections[0].segments[0].how is How.DECREASE:
        return  # a slope from the front edge on: nothing lies level there
    side = front.edge_path.sections[-1]
    if kind != "facing":  # which is turned in with the rows, and stands nowhere above them
        assert side.stretch is Stretch.BAND_END
        side = front.edge_path.sections[-2]
    assert side.places == own.places - neck.band.stitches_in
    assert side.covered == neck.band.stitches_in
    assert " above these: " in hanging_table(
        next(s for s in size.strips if s.plan is front))


@pytest.mark.parametrize("form", OPEN)
def test_stitches_within_the_end_of_a_front_band_are_told_by_its_name(form: str) -> None:
    """The other order: front bands hung 2 stitches in, then a collar that meets over their tops.
    The ends hide the 2 stitches of either front that are nearest to its edge, where a round neck
    begins level (geometry)."""
    source = banded(form, Neck.ROUND, None, "single")
    front, neck = source.bands["front_edge"], source.bands["neck"]
    proof, problems = prove(replace(source, bands={
        "front_edge": replace(front, stitches_in=2),
        "neck": replace(neck, kind="shirt collar", collar=CollarSpec())}))
    assert proof is not None, [str(p) for p in problems]
    size = proof.sizes[0]
    collar = next(strip for strip in size.strips if strip.plan.band.garment_edge == "neck")
    told = re.findall(r"Leave the (\d) stitches more that were bound off there: they lie "
                      "within the front band",
                      hanging_table(collar))
    assert told == ["2", "2"]
    assert [s.covered for s in collar.plan.edge_path.sections if s.covered] == [2, 2]


def test_rows_of_a_hem_count_as_high_as_they_are() -> None:
    """28 rib rows of 2.22 mm and 173 body rows of 2.43 mm on band stitches of 3.25 mm.

    28 × 2.22 + 173 × 2.43 = 482.55 mm, ÷ 3.25 = 148.48: 148 stitches. As 201 rows of 2.43 mm
    they would be 488.43 mm, and 150 stitches.
    """
    body, band = (Gauge(Fraction(s, 100), Fraction(r, 100)) for s, r in
                  ((400, 243), (325, 250)))
    edge = run_of("front", "Front edge", [
        straight("rib", 28, Fraction(222, 100), stretch=Stretch.HEM),
        straight("front edge", 173, body.row)], shape=EdgeShape.FRONT)
    meetings = meet(edge, PickUpRate(body=body, gauge=band, rule=None))
    assert edge.length == Fraction(48255, 100)
    assert all_stitches(meetings).value == whole(Fraction(48255, 325)) == 148


@pytest.mark.parametrize(("form", "edge"), [("hat", "brim"), ("mitten", "cuff")])
@given(hem=st.sampled_from(list(HEMS)), gauge=gauges, own=gauges)
@settings(max_examples=examples(5), deadline=None)
def test_a_lower_edge_is_as_wide_as_the_stitches_of_its_hem(form: str, edge: str, hem: str,
                                                            gauge: Gauge, own: Gauge) -> None:
    """A brim or cuff lies along the hem, where there is one, in the hem's fabric (geometry)."""
    known = {"head": given_length(Length(Fraction(560)))}
    made = replace(pieces.cut(form, known, gauge, hem=HEMS[hem]), hem_gauge=own)
    try:
        garment = FORMS[form].shape(made)
    except CannotShape:
        return
    (section,) = garment.edges[edge].sections
    width = own.stitch if HEMS[hem] else gauge.stitch
    assert section.length == garment.pieces[0].stitches.value * width


def faced(form: str, neck: Neck, swatch: Swatch) -> Pattern:
    """A garment with a facing, counted by its own gauge, at every neck and front edge."""
    made = banded(form, neck, None, "facing")
    own = replace(made.fabrics["band"], swatches=(swatch,))
    return replace(made, fabrics={**made.fabrics, "band": own})


# Beside stitches of 7.1 mm: 6 and 9 mm.
NARROW, WIDE = (small.swatch(30, "18 cm", 40, "20 cm"), small.swatch(30, "27 cm", 40, "20 cm"))


@pytest.mark.parametrize("swatch", [NARROW, WIDE])
@pytest.mark.parametrize(("form", "neck"), [
    ("set-in pullover", Neck.SQUARE), ("drop-shoulder pullover", Neck.BOAT),
    ("raglan pullover", Neck.ROUND), ("drop-shoulder cardigan", Neck.ROUND)])
def test_a_facing_is_as_long_as_its_edge_in_every_section(form: str, neck: Neck, swatch: Swatch
                                                          ) -> None:
    """A facing has the edge's length × its own gauge in stitches (bands/facing.md, from "Faced
    Band", It's All About the Color, 2007), along stitches that wait as along rows."""
    proof, problems = prove(faced(form, neck, swatch))
    assert proof is not None, [str(p) for p in problems]
    for strip in proof.sizes[0].strips:
        assert strip.trace.refusal is None, strip.trace.refusal
        plan = strip.plan
        for meeting in plan.meetings:
            long = meeting.stitches.value * plan.gauge.stitch
            assert abs(long - meeting.section.length) <= plan.gauge.stitch / 2 + (
                plan.gauge.stitch / 2 if meeting.section.is_straight_rows else 0) or (
                    meeting.stitches.value == meeting.section.places == 1), meeting.section


def test_stitches_that_wait_are_hung_on_as_many_needles_as_a_facing_has() -> None:
    """46 stitches of 4.95 mm behind a facing of 4.4 mm: 227.7 ÷ 4.4 = 51.75, so 52."""
    body, own = (Gauge(Fraction(s, 100), Fraction(325, 100)) for s in (495, 440))
    edge = run_of("neck", "Neck", [straight("side", 12, body.row),
                                   waiting("front neck", 46, body),
                                   straight("side", 12, body.row)], shape=EdgeShape.ROUND)
    rate = PickUpRate(body=body, gauge=own, rule=None, one_for_one=False)
    assert meet(edge, rate)[1].stitches.value == 52
    assert meet(edge, replace(rate, one_for_one=True))[1].stitches.value == 46


def test_a_facing_far_off_the_stitches_that_wait_is_refused() -> None:
    """More than one in three comes or goes: it puckers (common practice, no source)."""
    proof, problems = prove(faced("set-in pullover", Neck.SQUARE,
                                  small.swatch(30, "8 cm", 40, "13 cm")))
    assert proof is None
    fault = next(p for p in problems if p.code == "facing-far-off")
    assert "stitches of the front neck that become" in fault.found


def faced_round(needles: int) -> Pattern:
    """A raglan cardigan with one facing round its neck and down both fronts."""
    made = faced("raglan cardigan", Neck.ROUND, NARROW)
    return replace(made, bed=replace(made.bed, needles=needles), bands={
        "neck": replace(made.bands["neck"], edge="front_and_neck")})


@pytest.mark.parametrize("needles", [110, 130, 150])
def test_a_facing_in_parts_leaves_no_waiting_stitch_behind(needles: int) -> None:
    """Cut where sections meet, or at the centre back: each part is knitted to its end."""
    proof, problems = prove(faced_round(needles))
    assert proof is not None, [str(p) for p in problems]
    plan, = proof.sizes[0].plans
    assert len(plan.parts) > 1
    hung = [m for part in plan.parts for m in part.meetings]
    corners = sum(len(squares([m.section for m in part.meetings])) for part in plan.parts)
    assert corners == 2, "a part begins at a corner that another part ends at"
    assert sum(m.section.places for m in hung) == plan.edge_path.places
    assert sum(m.stitches.value for m in hung) == plan.stitches.value
    assert all(strip.trace.refusal is None for strip in proof.sizes[0].strips)


@pytest.mark.parametrize("form", OPEN)
def test_the_top_of_a_front_edge_is_hung_through_the_facing_behind_it(form: str) -> None:
    """A neck's facing that is turned in hangs down its own depth behind the front edge (geometry),
    and a band over its end goes through all layers (bands/one-piece.md, step 4)."""
    proof, problems = prove(banded(form, Neck.ROUND, None, "facing"))
    assert proof is not None, [str(p) for p in problems]
    size = proof.sizes[0]
    neck = next(p for p in size.plans if p.band.garment_edge == "neck")
    if neck.edge_path.sections[0].segments[0].how is How.DECREASE:
        return  # no level edge: the facing begins on the slope
    for strip in (s for s in size.strips if s.plan.edge_path.shape is EdgeShape.FRONT):
        (meeting,) = strip.plan.meetings
        deep = neck.depth.value * neck.gauge.row
        through = [row for row in meeting.pick_up.rows
                   if (meeting.section.places - row + 1) * meeting.section.pitch <= deep
                   + meeting.section.pitch / 2]
        (_, _, needles), = sections(strip.plan, strip.layout)
        far = needles.rightmost if strip.layout.hem is Side.LEFT else needles.leftmost
        assert faced_needles(meeting, needles, strip.layout.hem) == far(len(through))
        assert through


@pytest.mark.parametrize(("form", "neck", "edge", "hollow", "jutting"), [
    ("set-in pullover", Neck.SQUARE, "neck", 2, 0), ("set-in pullover", Neck.BOAT, "neck", 4, 0),
    ("set-in pullover", Neck.ROUND, "neck", 0, 0), ("set-in pullover", Neck.V, "neck", 0, 0),
    ("drop-shoulder pullover", Neck.SQUARE, "neck", 2, 0),
    ("raglan pullover", Neck.V, "neck", 0, 0),
    ("raglan pullover", Neck.ROUND, "neck", 0, 0),
    ("saddle raglan pullover", Neck.SQUARE, "neck", 2, 0),
    ("set-in cardigan", Neck.ROUND, "front_and_neck", 0, 2),
    ("raglan cardigan", Neck.ROUND, "front_and_neck", 0, 2),
    ("set-in cardigan", Neck.V, "front_and_neck", 0, 0)])
def test_an_edge_knows_its_square_corners(form: str, neck: Neck, edge: str, hollow: int,
                                          jutting: int) -> None:
    """A square neck has two, a boat neck four, a round neck between two fronts one at the top of
    either front edge (geometry); each lies where a row meets a column of the drawn piece."""
    gauge = pieces.gauge(28, 40)
    garment = shaped(form, "no hem", neck, "M", gauge, gauge)
    assert garment is not None
    found = squares(garment.edges[edge].sections)
    assert [sum(s.juts is juts for s in found) for juts in (False, True)] == [hollow, jutting]


@pytest.mark.parametrize(("juts", "stands", "longer"), [
    (True, True, 60), (True, False, -60), (False, True, -60), (False, False, 60)])
def test_a_free_edge_differs_by_its_depth_on_either_side(juts: bool, stands: bool, longer: int
                                                         ) -> None:
    """Round a square of 200 mm a band 30 mm deep has an outer square of 260 mm, one within it a
    square of 140 mm (geometry): 60 mm a corner, of which each side has half."""
    outer = 200 + 2 * 30
    assert (outer - 200) == abs(longer)
    assert Square(1, juts).longer(Fraction(30), stands=stands) == longer


@pytest.mark.parametrize("form", ["set-in cardigan", "raglan cardigan"])
def test_a_band_round_a_corner_hangs_nothing_of_it_twice(form: str) -> None:
    """Hung so many stitches in, the lines of the front edge and of the neck cross as many rows
    below the neck, and as many stitches from the front edge: what is beyond lies in the corner."""
    made = banded(form, Neck.ROUND, None, "enclosing")
    made = replace(made, bands={"neck": replace(made.bands["neck"], edge="front_and_neck",
                                                stitches_in=2)})
    proof, problems = prove(made)
    assert proof is not None, [str(p) for p in problems]
    size = proof.sizes[0]
    (plan,) = size.plans
    assert size.assembled is not None
    own = size.assembled.garment.edges["front_and_neck"].sections
    lost = [a.places - b.places for a, b in zip(own, plan.edge_path.sections, strict=True)]
    assert lost == [2, 2, *[0] * (len(own) - 4), 2, 2]
    assert all(s.covered == 2 for s in (*plan.edge_path.sections[:2],
                                        *plan.edge_path.sections[-2:]))
    assert all(strip.trace.refusal is None for strip in size.strips)


@pytest.mark.parametrize(("form", "kind", "remarked"), [
    ("set-in slipover", "folded", True), ("raglan pullover", "single", True),
    ("set-in pullover", "facing", False), ("saddle raglan pullover", "folded", False),
    ("set-in cardigan", "folded", False)])
def test_a_band_that_runs_straight_round_the_point_of_a_v_says_so(
        form: str, kind: str, remarked: bool) -> None:
    """A band that stands has the shorter edge inside the point, whatever its depth (geometry);
    a facing behind it, and the fronts of a cardigan, have no such point."""
    made = banded(form, Neck.V, None, kind)
    assert any(p.code == "band-corner" for p in check(made)) is remarked
    mitred = replace(made, bands={key: replace(band, mitre=True)
                                  for key, band in made.bands.items()})
    assert not any(p.code == "band-corner" for p in check(mitred))


@pytest.mark.parametrize(("kind", "remarked"), [("folded", True), ("single", True),
                                                ("facing", False)])
def test_a_band_without_stitches_for_a_corner_says_so(kind: str, remarked: bool) -> None:
    """Round a square neck a band 30 mm deep has an outer edge of the neck's length, and the line
    where that lies is shorter by 60 mm a corner: 60 ÷ 6.6 = 9 stitches of the band (geometry)."""
    proof, problems = prove(banded("set-in pullover", Neck.SQUARE, None, kind))
    assert proof is not None, [str(p) for p in problems]
    assert any(p.code == "band-corner" for p in check(proof.pattern)) is remarked
    strip = next(s for s in proof.sizes[0].strips if s.plan.band.garment_edge == "neck")
    lead = strip_lead(strip, proof.pattern.fabrics, "")
    assert ("It turns 2 square corners" in lead) is remarked
    if remarked:
        long = 2 * strip.plan.depth.value * strip.plan.gauge.row
        assert f"{whole(long / strip.plan.gauge.stitch)} stitches: lay these in a fold" in lead


@pytest.mark.parametrize("form", ["set-in cardigan", "raglan cardigan"])
def test_a_band_round_the_outside_of_a_corner_says_what_its_outer_edge_lacks(form: str) -> None:
    """At the top of a front edge the line on which the outer edge lies is longer than its foot, by
    the band's depth on either side of the corner (geometry)."""
    made = banded(form, Neck.ROUND, None, "single")
    proof, problems = prove(replace(made, bands={
        "neck": replace(made.bands["neck"], edge="front_and_neck")}))
    assert proof is not None, [str(p) for p in problems]
    strip, = proof.sizes[0].strips
    long = 2 * strip.plan.depth.value * strip.plan.gauge.row
    lead = strip_lead(strip, proof.pattern.fabrics, "").replace("\N{NO-BREAK SPACE}", " ")
    said = re.search(r"It turns 2 square corners\. At each its outer edge is ([\d.]+) cm \([^)]+\) "
                     r"too short, (\d+) stitches: it draws the corner in", lead)
    assert said is not None, lead
    assert abs(Fraction(said[1]) * 10 - long) <= Fraction(1, 2)
    assert int(said[2]) == whole(long / strip.plan.gauge.stitch)


@pytest.mark.parametrize(("form", "neck"), [
    ("set-in pullover", Neck.SQUARE), ("drop-shoulder pullover", Neck.BOAT)])
@pytest.mark.parametrize("needles", [60, 70])
def test_a_facing_is_cut_beside_its_square_corners(form: str, neck: Neck, needles: int) -> None:
    """The loop of a corner, and what is stretched there, belong to both its sides."""
    made = faced(form, neck, NARROW)
    plan = next(p for p in _plans(replace(made, bed=replace(made.bed, needles=needles)))
                if p.band.garment_edge == "neck")
    found = [len(squares([m.section for m in part.meetings])) for part in plan.parts]
    assert len(found) == 2 and sum(found) == len(squares(plan.edge_path.sections))


@pytest.mark.parametrize("needles", range(30, 130, 10))
@pytest.mark.parametrize("neck", [Neck.SQUARE, Neck.BOAT])
def test_a_facing_is_never_cut_at_a_square_corner(wide_necks: dict[Neck, BandPlan], neck: Neck,
                                                  needles: int) -> None:
    """However many parts it takes: the corner's loop, and what is stretched there, are one."""
    cut = in_parts(wide_necks[neck], needles)
    found = sum(len(squares([m.section for m in part.meetings])) for part in cut.parts)
    assert not cut.parts or found == len(squares(cut.edge_path.sections))


def test_a_facing_that_could_only_be_cut_at_a_corner_is_refused_with_a_way_out() -> None:
    proof, problems = prove(faced_round(100))
    assert proof is None
    (fault,) = [p for p in problems if p.code == "bed-too-short"]
    assert "a facing is not cut at a square corner" in fault.remedy
    assert "choose kind: folded" in fault.remedy


@pytest.mark.parametrize("needles", [40, 50, 60])
@pytest.mark.parametrize(("form", "neck"), [
    ("set-in pullover", Neck.SQUARE), ("drop-shoulder pullover", Neck.BOAT)])
def test_no_band_in_parts_leaves_a_hollow_corner_open(form: str, neck: Neck, needles: int) -> None:
    """A part that ended there would hang no loop of the corner: a hole (bands/facing.md)."""
    made = banded(form, neck, None, "folded")
    plan = next(p for p in _plans(made) if p.band.garment_edge == "neck")
    cut = in_parts(plan, needles)
    loops = [loop for part in cut.strips for loop in corner_loops(part, lay_out_band(
        part, Side.RIGHT))]
    assert len(loops) == len(squares(plan.edge_path.sections))


def test_a_band_that_could_only_be_cut_at_a_hollow_corner_is_refused_by_its_name() -> None:
    made = banded("set-in pullover", Neck.SQUARE, None, "folded")
    plan = next(p for p in _plans(made) if p.band.garment_edge == "neck")
    short = replace(made, bed=replace(made.bed, needles=30))
    (fault,) = too_long_for_bed(short, plan.band, [in_parts(plan, 30)])
    assert "no band is cut at a hollow corner" in fault.remedy


@pytest.fixture(scope="module")
def wide_necks() -> dict[Neck, BandPlan]:
    """The facings of a square and of a boat neck, on a bed that takes them whole."""
    found = {}
    for form, neck in (("set-in pullover", Neck.SQUARE), ("drop-shoulder pullover", Neck.BOAT)):
        found[neck] = next(p for p in _plans(faced(form, neck, NARROW))
                           if p.band.garment_edge == "neck")
    return found


def _plans(made: Pattern) -> tuple[BandPlan, ...]:
    """The bands alone: so narrow a bed has no room for the pieces."""
    wide, _ = prove(replace(made, bed=replace(made.bed, needles=240)))
    assert wide is not None
    return tuple(in_parts(plan, made.bed.needles) for plan in wide.sizes[0].plans)

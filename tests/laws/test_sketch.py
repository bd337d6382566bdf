"""The sketch of a garment is drawn from its pieces: read back, it has their measures.

Library: shapely 2 (planar areas). A sketch is in whole millimetres, so that a place may be off by
half of one, and a distance by one.
"""

from __future__ import annotations

import re
from itertools import pairwise
from math import dist
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon, unary_union
from walebook.core.problems import has_errors
from walebook.drawings.garment_flat import FLAT
from walebook.drawings.garment_pen import PenPoint, flattened
from walebook.drawings.garment_sketch import View, garment
from walebook.drawings.schematic import outlines
from walebook.fabric.gauge import measure
from walebook.fabric.piece_fabrics import piece_fabric
from walebook.pattern.cells import Cell
from walebook.pattern.model import Neck
from walebook.proof.proof import Proof, SizeProof, assemble_all, plan_all
from walebook.shape.foot import Hem
from walebook.shape.polygon import Outline
from walebook.words.sketch_text import body_line

from tests.laws.random_sources import sources
from tests.laws.sketches import Drawn, drawn, repeats, sketches
from tests.laws.test_any_source import read
from tests.scale import examples
from tests.whole_collection import collection, files_of

GRAIN = 1.01  # [mm], for either end of a distance half a millimetre


def has_body(proof: Proof) -> bool:
    return any("back" in [piece.key for piece in size.assembled.garment.pieces]
               for size in proof.sizes[:1] if size.assembled
               and size.assembled.garment.form not in FLAT)


def turned(proof: Proof) -> bool:
    """True where the body is knitted sideways: its outline lies turned."""
    return proof.pattern.garment is not None and \
        proof.pattern.garment.form == "sideways pullover"


def proofs() -> dict[str, Proof]:
    return {proof.pattern.slug: proof for proof in collection().proofs if has_body(proof)}


def knitted_upright() -> list[Proof]:
    """Every pattern with a body that is knitted from its lower edge up."""
    return [proof for proof in proofs().values() if not turned(proof)]


def outlines_in(proof: Proof, size: SizeProof) -> tuple[Outline, ...]:
    return outlines(proof.pattern.garment, proof.pattern.fabrics, size)


def view(proof: Proof, size: SizeProof, seen: View) -> list[Drawn]:
    text = garment(proof.pattern, size,
                   outlines_in(proof, size), views=(seen,))
    (svg,) = sketches(text)
    return list(drawn(svg))


def body(lines: list[Drawn], part: str) -> Drawn:
    return max((one for one in lines if one.part == part and "wb-fill" in one.looks),
               key=lambda one: Polygon(one.points).area)


@pytest.mark.parametrize(("slug", "has_points"), [("ropewalk-cardigan", True),
                                                  ("slack-tide-cardigan", False)])
def test_a_picot_hem_has_a_point_for_every_second_stitch(slug: str, has_points: bool) -> None:
    """An eyelet is two stitches wide, and the fold makes a point of what lies between two."""
    proof = proofs()[slug]
    size = proof.sizes[0]
    assert size.assembled is not None
    back = body(view(proof, size, View.BACK), "back")
    heights = [y for y in back.ys if y < 8]
    tips = sum(a > b <= c for a, b, c in zip(heights, heights[1:], heights[2:], strict=False))
    between_seams = size.assembled.garment.pieces[0].stitches.value - 2
    assert tips == (between_seams // 2 if has_points else 0)


def test_a_back_is_as_large_as_its_pieces_less_their_seams() -> None:
    for proof in knitted_upright():
        for size in (proof.sizes[0], proof.sizes[-1]):
            assert size.assembled is not None
            back = body(view(proof, size, View.BACK), "back")
            outline = next(o for o in outlines_in(proof, size) if o.key == "back")
            piece = size.assembled.garment.pieces[0]
            stitch = float(outline.dimensions[0].length.mm) / piece.stitches.value
            assert max(back.xs) - min(back.xs) == pytest.approx(
                float(outline.width) - 2 * stitch, abs=GRAIN)
            assert max(back.ys) - min(back.ys) == pytest.approx(
                float(outline.height + outline.low), abs=GRAIN)
            # A stitch of seam goes off each side as high as the shoulder's outer end; edges are
            # pulled smooth, which changes what is covered by less than 1.5 %.
            seams = 2 * stitch * max(float(y) for x, y in outline.corners if x > 0)
            assert Polygon(back.points).area == pytest.approx(
                Polygon([(float(x), float(y)) for x, y in outline.edge]).area - seams, rel=0.015)


def across(back: Drawn) -> float:
    """How far apart the outer ends of the shoulders are [mm]."""
    corner = next(i for i, (x, y) in enumerate(back.points) if y == max(back.ys) and x >= 0)
    return 2 * back.points[corner - 1][0]


def test_a_back_is_as_wide_across_as_what_is_printed() -> None:
    """A sleeve's seam takes a stitch at each side, a band as many as it is hung in (geometry)."""
    met = set()
    for proof in knitted_upright():
        for size in (proof.sizes[0], proof.sizes[-1]):
            assert size.assembled is not None
            if wide := size.assembled.garment.finished.get("across"):
                back = body(view(proof, size, View.BACK), "back")
                assert across(back) == pytest.approx(float(wide.mm), abs=GRAIN), (
                    proof.pattern.slug, size.size)
                met.add("sleeve" in {piece.key for piece in size.assembled.garment.pieces})
    assert met == {True, False}


def test_a_front_covers_what_its_outline_does_less_its_seams() -> None:
    """A whole front has two side seams, half a one has one."""
    for proof in knitted_upright():
        for size in (proof.sizes[0], proof.sizes[-1]):
            lines = view(proof, size, View.FRONT)
            for outline in outlines_in(proof, size):
                if outline.key not in ("front", "right_front", "left_front"):
                    continue
                seams = 2 if outline.key == "front" else 1
                piece = next(p.piece for p in size.pieces if p.piece.key == outline.key)
                stitch = float(outline.dimensions[0].length.mm) / piece.stitches.value
                corners = [(float(x), float(y)) for x, y in outline.corners]
                outer = max(x for x, _ in corners) if outline.key != "left_front" \
                    else min(x for x, _ in corners)
                high = max(y for x, y in corners if abs(x - outer) < 0.01)
                top = max(y for x, y in corners)
                covered = Polygon([(float(x), float(y)) for x, y in outline.edge]).area
                # The seam runs up the side, and on along the armhole or the raglan to the shoulder.
                assert covered - seams * stitch * top * 1.02 \
                    <= Polygon(body(lines, outline.key).points).area * 1.015
                assert Polygon(body(lines, outline.key).points).area \
                    <= (covered - seams * stitch * high) * 1.015


def test_a_front_neck_is_as_long_as_the_edge_a_band_takes() -> None:
    """The neckline as drawn, against the edge's sections of the front neck (smoothed steps)."""
    for proof in knitted_upright():
        for size in (proof.sizes[0], proof.sizes[-1]):
            assert size.assembled is not None
            edge = size.assembled.garment.edges.get("neck")
            if edge is None or proof.pattern.garment is None or proof.pattern.garment.placket:
                continue  # the drawn edge of a front with a placket goes down its slit as well
            long = sum(float(s.length) for s in edge.sections if s.name == "front neck")
            keys = {p.key for p in size.assembled.garment.pieces}
            key = "front" if "front" in keys else "left_front"
            line = body(view(proof, size, View.FRONT), key)
            top = max(line.ys)
            at = [i for i, (x, y) in enumerate(line.points) if y == top and x > 0]
            neck = [p for p in line.points[max(at):] if abs(p[0]) <= line.points[max(at)][0] + 1]
            last = next((i for i, p in enumerate(neck) if key == "front" and i and p[1] == top),
                        len(neck) - 2 if key == "left_front" else len(neck) - 1)
            drawn_long = LineString(neck[:last + 1]).length * (1 if key == "front" else 2)
            # A band pulls an edge rounder than its steps: most of all a boat neck's steep corners.
            give = 0.17 if proof.pattern.garment.neck is Neck.BOAT else 0.12
            assert drawn_long == pytest.approx(long, rel=give), (proof.pattern.slug, size.size)


def test_buttons_lie_at_the_middles_of_the_holes() -> None:
    proof = proofs()["slack-tide-cardigan"]
    for size in proof.sizes[::8]:
        plan = next(p for p in size.plans if p.placing)
        assert plan.placing is not None
        places = sorted(one.points[0][1] for one in view(proof, size, View.FRONT)
                        if "wb-button" in one.looks)
        edge = float(plan.edge_path.length)
        assert places == pytest.approx(
            [edge * (start - 1 + plan.placing.hole / 2) / plan.placing.stitches
             for start in plan.placing.starts], abs=1)


@pytest.mark.parametrize(("slug", "colour"), [
    ("bowline-waistcoat", "#7f9a8c"), ("capstan-hat", "#6f8c5f")])
def test_a_sketch_has_the_colour_that_its_source_gives_the_yarn(slug: str, colour: str) -> None:
    (page,) = [text for path, text in files_of(slug).items() if path.endswith("index.md")]
    sketches = re.findall(r'<svg class="wb-garment[^>]*>', page)
    assert sketches and all(f"--wb-yarn:{colour}" in one for one in sketches)



def test_a_second_colour_lies_where_the_chart_has_it() -> None:
    """Every stitch of a hat, in its row, is in the colour that the bed knitted it in."""
    proof = next(p for p in collection().proofs if p.pattern.slug == "lamplighter-hat")
    assert proof.pattern.garment is not None
    gauge = measure(proof.pattern.fabrics[proof.pattern.garment.fabric].swatches)
    stitch, row = float(gauge.stitch), float(gauge.row)
    for size in (proof.sizes[0], proof.sizes[-1]):
        knitted = size.pieces[0]
        placed = knitted.piece.placed
        assert placed is not None
        outline = outlines_in(proof, size)[0]
        (svg,) = sketches(garment(proof.pattern, size, (outline,)))
        (tile,) = repeats(svg)
        boxes = unary_union([Polygon(box) for box in tile.boxes])
        foot = float(outline.hem) + row  # the row that closes the hem
        second = {(up, at) for up in range(1, 31) for at, cell in enumerate(placed.row(up))
                  if cell is Cell.SECOND}
        assert second
        for up in range(1, 31):
            for at in range(len(placed.columns)):
                # The left of the bed is at the right of whoever looks at the knit side.
                x = (len(placed.columns) / 2 - at - 0.5) * stitch
                y = foot + (up - 0.5) * row
                inside = boxes.contains(Point((x - tile.x) % tile.wide, (y - tile.y) % tile.high))
                assert inside == ((up, at) in second), (size.size, up, at)


def test_an_eyelet_is_drawn_in_the_middle_of_its_stitch() -> None:
    """Half a stitch into its column and half a row into its row, where the chart of the source has
    them as seen on the knit side: < in column 3 of row 1, > in column 5 of row 5, from 0."""
    proof = next(p for p in collection().proofs if p.pattern.slug == "net-loft-blanket")
    size = proof.sizes[0]
    charted = next(knitted.piece for knitted in size.pieces if knitted.piece.placed)
    gauge = measure(piece_fabric(proof.pattern.garment, proof.pattern.fabrics,
                                 charted.key).swatches)
    tile = next(tile for svg in sketches(garment(proof.pattern, size,
                                                 outlines_in(proof, size)))
                for tile in repeats(svg))
    middles = sorted(tuple((min(along) + max(along)) / 2 for along in zip(*line, strict=True))
                     for line in tile.lines)
    wanted = [((at + 0.5) * float(gauge.stitch), (row - 0.5) * float(gauge.row))
              for at, row in ((3, 1), (5, 5))]
    assert len(middles) == 2
    assert all(dist(a, b) < GRAIN / 2 for a, b in zip(middles, wanted, strict=True)), middles


def test_the_body_hangs_in_its_garment_where_that_is_asked_for() -> None:
    """A quarter of the chart's chest from the middle at its armholes, and nothing unasked."""
    proof = proofs()["tide-pool-top"]
    spec = proof.pattern.garment
    assert spec is not None
    for size in proof.sizes:
        chest = spec.chart.measurement("chest", size.size).length.mm
        (line, _) = [one for one in view(proof, size, View.FRONT) if "wb-body" in one.looks]
        assert max(line.xs) <= float(chest) / 4 + GRAIN
        assert max(line.xs) == pytest.approx(float(chest) / 4, abs=12)  # its corner is rounded
        assert min(line.ys) == 0
    assert body_line(proof.pattern.garment)
    for other in ("gangway-pullover", "slack-tide-cardigan"):
        assert not body_line(proofs()[other].pattern.garment)
        assert not [one for one in view(proofs()[other], proofs()[other].sizes[0], View.FRONT)
                    if "wb-body" in one.looks]


@settings(max_examples=examples(8), deadline=None)
@given(source=sources())
def test_whatever_a_source_asks_for_is_drawn(source: str) -> None:
    """The same bytes each time, nothing beyond the drawing's edge, no more than 16 kB a view."""
    pattern, _ = read(source)
    assembled, problems = assemble_all(pattern, pattern) if pattern else ({}, [])
    plans, more = plan_all(pattern, assembled) if pattern and not has_errors(problems) \
        else ({}, [])
    for name in pattern.sizes[:1] if pattern and plans and not has_errors(more) else ():
        size = SizeProof(size=name, plans=tuple(plans[name]), strips=(),
                         assembled=assembled.get(name))
        assert pattern is not None
        text = garment(pattern, size, outlines(pattern.garment, pattern.fabrics, size))
        assert text == garment(pattern, size, outlines(pattern.garment, pattern.fabrics, size))
        for svg in sketches(text):
            assert len(ElementTree.tostring(svg)) < 16_000
            x, y, wide, tall = map(int, svg.attrib["viewBox"].split())
            unit = int(svg.attrib["data-mm"])
            for one in drawn(svg):
                assert min(one.xs) * unit >= x and max(one.xs) * unit <= x + wide
                assert -max(one.ys) * unit >= y and -min(one.ys) * unit <= y + tall


def test_a_cardigan_is_light_enough_for_its_page() -> None:
    """Its front view, which a size page has, in at most 6 kB."""
    for slug, proof in proofs().items():
        for size in (proof.sizes[0], proof.sizes[-1]):
            text = garment(proof.pattern, size,
                           outlines_in(proof, size),
                           views=(View.FRONT,))
            assert len(text.encode()) <= 6000, (slug, size.size)


def test_the_eyelets_of_a_hem_lie_beside_both_front_edges() -> None:
    """As far from the middle on either side, where the hem is made with them, half-way up it."""
    proof = proofs()["lock-keeper-gilet"]
    for size in proof.sizes[::4]:
        holes = sorted(one.points[0] for one in view(proof, size, View.FRONT)
                       if "wb-hole" in one.looks)
        assert [y for _, y in holes] == [holes[0][1]] * 2
        assert holes[0][0] == pytest.approx(-holes[1][0], abs=GRAIN)
        front = next(one for one in size.pieces if one.piece.key == "right_front").piece
        assert isinstance(front.hem, Hem)
        gauge = measure(proof.pattern.fabrics["body"].swatches)
        edge = min(x for x, _ in body(view(proof, size, View.FRONT), "left_front").points)
        assert holes[1][0] - edge == pytest.approx(
            (front.hem.eyelets[0] + 0.5) * float(gauge.stitch), abs=GRAIN)


def test_own_pieces_are_drawn_put_together_by_their_joins() -> None:
    """By the counts: a body as wide as its stitches between the seams, with a sleeve as long as its
    rows at each armhole, which is as deep as half the sleeve's upper edge."""
    (proof,) = (one for one in collection().proofs if one.pattern.slug == "spar-pullover")
    for size in proof.sizes:
        assert size.assembled is not None
        lines = view(proof, size, View.FRONT)
        one = next(o for o in outlines_in(proof, size) if o.key == "front")
        front, sleeve = body(lines, "front"), body(lines, "sleeve")
        count = {(key, name): count.value for key, name, count in size.assembled.garment.counts}
        stitch = float(one.width) / count["front", "cast_on"]
        assert max(front.xs) - min(front.xs) == pytest.approx(
            (count["front", "cast_on"] - 2) * stitch, abs=GRAIN)
        armhole = (count["front", "at_indent"] - 2) * stitch / 2
        near = min(map(abs, sleeve.xs))
        assert near == pytest.approx(armhole, abs=GRAIN)
        long = float(next(o for o in outlines_in(proof, size) if o.key == "sleeve").height)
        assert max(map(abs, sleeve.xs)) - near == pytest.approx(long, abs=GRAIN)
        at_armhole = [y for x, y in sleeve.points if abs(abs(x) - near) < GRAIN]
        assert max(at_armhole) - min(at_armhole) == pytest.approx(
            (count["sleeve", "at_gusset"] - 2) * stitch / 2, abs=GRAIN)
        filled = [line for line in lines if line.part == "sleeve" and "wb-fill" in line.looks]
        assert len(filled) == 2


@given(st.lists(st.tuples(st.integers(0, 200), st.integers(0, 200)), min_size=2, max_size=9,
                unique=True), st.integers(0, 40))
def test_a_line_without_its_slight_corners_goes_on_from_its_ends_and_strays_no_further(line, by):
    """Library: shapely (distances). Places are rounded down, so that a corner may lie one off."""
    points = [PenPoint(x, y) for x, y in line]
    left = flattened(points, by)
    assert (left[0], left[-1]) == (points[0], points[-1])
    assert [p for p in points if p in left] == list(left), "corners of the line, in its order"
    for at, (a, b) in enumerate(pairwise(left)):
        between = points[points.index(a) + 1:points.index(b)]
        assert all(_off(p, a, b) <= by + 1 for p in between), at


def _off(point, a, b) -> float:
    """How far a corner lies from the straight line through two others."""
    far = 1000 / dist(a[:2], b[:2])
    wide, high = (b.x - a.x) * far, (b.y - a.y) * far
    through = LineString([(a.x - wide, a.y - high), (b.x + wide, b.y + high)])
    return Point(point.x, point.y).distance(through)


@pytest.mark.parametrize("by", [1, 5])
def test_a_corner_that_lies_far_off_stays(by: int) -> None:
    """Three corners of a saw, each 60 off: none is slight."""
    saw = [PenPoint(20 * n, 60 * (n % 2)) for n in range(6)]
    assert list(flattened(saw, by)) == saw

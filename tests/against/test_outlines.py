"""Outlines of pieces against a geometry library and against what the bed knitted.

Library: shapely 2 (planar areas, validity). A stitch's edge is drawn through the middle
of its slope, so that areas may part from the bed's stitches by half a stitch an edge and row.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from walebook.core.counted import stated as count
from walebook.core.counts import Unit
from walebook.fabric.gauge import Gauge, measure
from walebook.machine.step_keys import StepYarn
from walebook.pattern.model import Fold, Neck
from walebook.proof.proof import KnittedPiece
from walebook.shape.dimension_names import (
    ABOVE_HEM,
    ACROSS,
    ARMHOLE,
    CAST_ON,
    FRONT_EDGE,
    HEM,
    NECK,
    NECK_DEPTH,
    SHOULDER,
    SLOPE,
    TO_UNDERARM,
    TOP,
    UNDERARM,
    WHOLE,
)
from walebook.shape.heights import rows_to_join
from walebook.shape.outline import Outline, last_row, outline
from walebook.shape.piece import Piece
from walebook.shape.profile import Change, How, Profile
from wardrobe import BODIES, BODY, SIZES, pattern, proved

from tests.laws import pieces
from tests.scale import examples

GAUGE = measure([BODY])
SHAPED = (*BODIES, "panelled blanket", "triangular shawl")


@cache
def knitted(form: str, neck: Neck = Neck.ROUND, fold: Fold | None = Fold.LOOSE,
            ) -> tuple[KnittedPiece, ...]:
    """Every piece of a garment in every size."""
    made = pattern(form, neck=neck, fold=None if "shawl" in form else fold, band=None)
    return tuple(piece for size in proved(made).sizes for piece in size.pieces)


def drawn(form: str) -> list[tuple[KnittedPiece, Outline]]:
    return [(k, outline(k.piece, GAUGE)) for k in knitted(form)]


def polygon(made: Outline) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in made.corners])


@pytest.mark.parametrize("form", SHAPED)
def test_outlines_are_sound_and_as_large_as_they_say(form):
    for _, made in drawn(form):
        shape = polygon(made)
        assert shape.is_valid, made.title
        assert shape.exterior.is_ccw
        left, low, right, high = shape.bounds
        assert (low, float(made.width)) == pytest.approx((0, right - left))
        assert float(made.height) == pytest.approx(high)


def hidden(piece: Piece) -> int:
    """Stitches of a hem that lie inside it: its second layer and, of a loose fold, the fold."""
    if piece.hem is None:
        return 0
    return piece.stitches.value * (piece.hem.rows + (piece.hem.fold is not Fold.PICOT))


@pytest.mark.parametrize("form", SHAPED)
def test_an_outline_covers_the_stitches_that_the_bed_knitted(form):
    for k, made in drawn(form):
        stitches = dict(k.trace.stitches)[StepYarn.MAIN] - hidden(k.piece)
        covered = polygon(made).area / float(GAUGE.stitch * GAUGE.row)
        edges = 4 if k.piece.opening else 2
        slack = Fraction(edges, 2) * (k.piece.rows + 2) + k.piece.stitches.value
        assert abs(covered - stitches) <= slack, f"{form}, {made.title}: {covered} {stitches}"
        assert covered == pytest.approx(stitches, rel=0.03)


@pytest.mark.sampled(12, each=("form", "fold"))
@pytest.mark.parametrize("fold", [None, Fold.LOOSE, Fold.PICOT])
@pytest.mark.parametrize("form", SHAPED)
def test_the_height_is_the_rows_that_the_bed_counted(form, fold):
    for k in knitted(form, fold=fold):
        made = outline(k.piece, GAUGE)
        hem = (k.piece.hem.rows + rows_to_join(k.piece)) if k.piece.hem else 0
        assert made.height == (pieces.last_row(k.program, k.trace) + hem) * GAUGE.row
        whole = made.dimension(WHOLE)
        assert whole is not None
        assert whole.length.mm == made.height


@pytest.mark.parametrize("form", SHAPED)
def test_measures_lie_between_their_ends(form):
    for _, made in drawn(form):
        names = [d.name for d in made.dimensions]
        assert len(set(names)) == len(names)
        for d in made.dimensions:
            (x, y), (u, v) = d.start, d.end
            assert (x == u) != (y == v), d.name
            assert d.is_level == (y == v)
            assert d.length.mm == abs(u - x) + abs(v - y) > 0


def mm(made: Outline, name: str) -> Fraction:
    found = made.dimension(name)
    assert found is not None, f"{made.title} has no {name}"
    return found.length.mm


@pytest.mark.sampled(10, each=("form", "neck"))
@pytest.mark.parametrize("neck", list(Neck))
@pytest.mark.parametrize("form", [f for f in BODIES if not f.startswith("raglan")])
def test_widths_are_counts_by_gauge_and_add_up(form, neck):
    for k in knitted(form, neck):
        made = outline(k.piece, GAUGE)
        lowest = ABOVE_HEM if k.piece.hem else CAST_ON
        assert mm(made, lowest) == k.piece.stitches.value * GAUGE.stitch
        if k.piece.key == "sleeve":
            widest = TOP if form.startswith("drop") else UNDERARM
            assert mm(made, widest) == k.piece.widest * GAUGE.stitch
            continue
        across = mm(made, ACROSS) if made.dimension(ACROSS) else mm(made, lowest)
        if k.piece.opening:
            assert 2 * mm(made, SHOULDER) + mm(made, NECK) == across
        else:
            armhole = sum(c.stitches for c in k.piece.right.changes if c.how is not How.HOLD)
            assert (mm(made, SHOULDER) + mm(made, NECK) + armhole * GAUGE.stitch
                    == mm(made, lowest))
            assert mm(made, FRONT_EDGE) + mm(made, NECK_DEPTH) == made.height
        assert mm(made, TO_UNDERARM) + mm(made, ARMHOLE) + mm(made, SLOPE) == made.height
        assert mm(made, HEM) == k.piece.hem.rows * GAUGE.row


@pytest.mark.parametrize("form", BODIES)
def test_measures_of_a_garment_are_those_of_its_counts(form):
    for size in proved(pattern(form, band=None)).sizes:
        made = {k.piece.key: outline(k.piece, GAUGE) for k in size.pieces}
        counts = {(key, name): c.value for key, name, c in size.assembled.garment.counts}
        assert mm(made["back"], ABOVE_HEM) == counts["back", "cast_on"] * GAUGE.stitch
        if ("back", "armhole_rows") in counts:
            assert mm(made["back"], ARMHOLE) == counts["back", "armhole_rows"] * GAUGE.row
            assert mm(made["back"], NECK) == counts["back", "neck_stitches"] * GAUGE.stitch
        else:
            assert mm(made["back"], TOP) == counts["back", "neck_stitches"] * GAUGE.stitch
        if ("sleeve", "upper_arm") in counts:
            widest = UNDERARM if made["sleeve"].dimension(UNDERARM) else TOP
            assert mm(made["sleeve"], widest) == counts["sleeve", "upper_arm"] * GAUGE.stitch


def test_left_and_right_fronts_mirror():
    for form in (f for f in BODIES if "cardigan" in f or f.endswith("waistcoat")):
        pieces = {k.piece.key: k.piece for k in knitted(form)[:4]}
        right, left = (outline(pieces[f"{s}_front"], GAUGE) for s in ("right", "left"))
        assert {(-x, y) for x, y in left.corners} == set(right.corners)
        assert [(d.name, d.length) for d in left.dimensions] == \
            [(d.name, d.length) for d in right.dimensions]


def test_a_trapezium_by_hand():
    """20 stitches, one more at each side every 4th row, 5 times, 4 plain rows after the last.

    2 mm a stitch and 1.5 mm a row: 40 mm wide below and 60 mm above, 36 mm high, the sides
    sloped over 20 rows of 24 (30 mm): 30 × (40 + 60) / 2 + 6 × 60 = 1860 mm².
    """
    edge = Profile(24, tuple(Change(4 * i, 1, How.INCREASE) for i in range(1, 6)))
    piece = Piece(key="x", title="X", stitches=count(20, Unit.STITCHES), left=edge, right=edge)
    made = outline(piece, Gauge(Fraction(2), Fraction(3, 2)))
    assert polygon(made).area == 1860
    assert set(made.corners) >= {(-20, 0), (20, 0), (30, 30), (30, 36), (-30, 36), (-30, 30)}


@st.composite
def tapered(draw: st.DrawFn) -> tuple[Piece, Gauge]:
    rows = draw(st.integers(4, 60))
    at = sorted(draw(st.sets(st.integers(1, rows), max_size=8)))
    hows = draw(st.lists(st.sampled_from((How.DECREASE, How.INCREASE)), min_size=len(at),
                         max_size=len(at)))
    edge = Profile(rows, tuple(Change(r, 1, h) for r, h in zip(at, hows, strict=True)))
    gauge = Gauge(Fraction(draw(st.integers(100, 900)), 100),
                  Fraction(draw(st.integers(100, 700)), 100))
    piece = Piece(key="x", title="X", stitches=count(draw(st.integers(20, 90)), Unit.STITCHES),
                  left=edge, right=edge)
    return piece, gauge


@settings(max_examples=examples(80), deadline=None)
@given(tapered())
def test_any_shaped_edge_is_sound_and_covers_its_stitches(made):
    piece, gauge = made
    shape = outline(piece, gauge)
    poly = polygon(shape)
    assert poly.is_valid
    stairs = sum(piece.stitches.value + 2 * w for w in piece.left.widths()[:-1])
    stairs += last_row(piece) * piece.top
    assert abs(poly.area / float(gauge.stitch * gauge.row) - stairs) <= 2 * (piece.rows + 2)


def test_sizes_grow():
    for form in BODIES:
        backs = [outline(k.piece, GAUGE) for k in knitted(form) if k.piece.key == "back"]
        assert len(backs) == len(SIZES)
        areas = [polygon(o).area for o in backs]
        assert sorted(areas) == areas

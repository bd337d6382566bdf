"""What must hold for hats, shawls, blankets and mittens in every sensible size and gauge."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from walebook.catalogue.forms import ROUND_THE_NECK
from walebook.core.counts import Unit
from walebook.core.problems import Place, Severity
from walebook.core.ranges import MEASURES
from walebook.core.units import Length
from walebook.fabric.arrangement import read_repeat
from walebook.forms.registry import FORMS
from walebook.machine.step_keys import StepYarn
from walebook.pages.shared_by_pages import shared
from walebook.pages.size_page import size_page
from walebook.pattern.fabrics import Repeat
from walebook.pattern.model import Fold, GarmentSpec, HemSpec, Neck
from walebook.proof.advice import advise_all
from walebook.proof.proof import prove
from walebook.proof.yarn_requirement import yarn_requirements
from walebook.shape.garment import CannotShape, Cut, Garment
from walebook.shape.piece import Ending, Piece
from walebook.shape.profile import How
from walebook.sizing.measures import Definition
from walebook.sizing.own_sizes import bodiless
from walebook.sizing.quantities import Quantity
from walebook.words.terms.yarn_shares_named import share_title

from tests.laws import pieces
from tests.laws.test_pieces import BODY_FORMS
from tests.scale import examples
from tests.small_patterns import given_length
from tests.sources.reading import changed, read

ARRANGED = (None, read_repeat("2 in 1 out"), read_repeat("3 in 1 out", edge=2),
            read_repeat("4 in 2 out", edge=0))
MORE_FORMS = ("hat", "triangular shawl", "panelled blanket", "mitten")


def lengths(**figures: Fraction | int) -> dict[str, Quantity]:
    """Measures given outright [mm]."""
    return {name: given_length(Length(Fraction(mm))) for name, mm in figures.items()}


def texts(**figures: int) -> dict[str, str]:
    """A designer's own measures [mm]."""
    return {name: f"{mm} mm" for name, mm in figures.items()}


@st.composite
def cuts(draw: st.DrawFn, form: str, arranged: tuple[Repeat | None, ...] = ARRANGED,
         hem: st.SearchStrategy[HemSpec | None] | None = None) -> Cut:
    """What a form is cut from, at 8 to 40 stitches to 10 cm."""
    around = Fraction(draw(st.integers(16, 80)), 2)
    gauge = pieces.gauge(around, around * Fraction(draw(st.integers(105, 190)), 100))
    hems = st.none() | st.builds(pieces.hem, st.integers(10, 60), st.sampled_from(
        (Fold.LOOSE, Fold.PICOT)))
    own = {
        "hat": st.builds(texts, turn_up=st.integers(0, 60)),
        "triangular shawl": st.builds(texts, wingspan=st.integers(300, 2000),
                                      depth=st.integers(100, 1200)),
        "panelled blanket": st.builds(
            lambda panels, **figures: {**texts(**figures), "panels": str(panels)},
            panels=st.integers(1, 9), blanket_width=st.integers(400, 2000),
            blanket_length=st.integers(400, 2500)),
        "mitten": st.builds(texts, hand_circumference=st.integers(100, 260),
                            hand_length=st.integers(90, 220), cuff_depth=st.integers(20, 90)),
    }[form]
    known = lengths(head=draw(st.integers(300, 620))) if form == "hat" else {}
    return pieces.cut(form, known, gauge, own=draw(own), hem=draw(hems if hem is None else hem),
                      repeat=draw(st.sampled_from(arranged)))


def shape(form: str, cut: Cut) -> Garment | None:
    """The garment; None once it is seen that it was refused with its figures."""
    try:
        return FORMS[form].shape(cut)
    except CannotShape as fault:
        assert any(mark.isdigit() for mark in fault.found) or "hem" in fault.found
        assert fault.remedy
        return None


def half(cut: Cut) -> Fraction:
    """Half a stitch, or half a repeat of stitches where needles are left out [mm]."""
    of = sum(cut.repeat.works) if cut.repeat else 1
    return of * cut.gauge.stitch / 2


def off(cut: Cut, name: str, finished: Length) -> Fraction:
    """How far a finished measure is from what was asked [mm]."""
    return abs(finished.mm - cut.length(name).mm)


def test_every_form_is_drawn_by_a_law_and_each_of_its_measures_has_a_range() -> None:
    """A new form goes into MORE_FORMS with its draws in `cuts`, its measures into core/ranges."""
    # The last two in test_sideways.py and test_outlines.py.
    drawn = {*MORE_FORMS, *BODY_FORMS, "sideways pullover", "own outline"}
    assert drawn == FORMS.keys()
    assert {name for form in FORMS.values() for name in form.names} <= MEASURES.keys()


@pytest.mark.parametrize("form", MORE_FORMS)
@given(data=st.data())
@settings(max_examples=examples(25), deadline=None)
def test_a_form_is_refused_with_figures_or_knitted_with_every_join_closed(
        form: str, data: st.DataObject) -> None:
    garment = shape(form, data.draw(cuts(form)))
    if garment is not None:
        assert pieces.faults(garment) == []
        assert set(garment.edges) == set(FORMS[form].edges)


@pytest.mark.parametrize("form", MORE_FORMS)
@given(data=st.data())
@settings(max_examples=examples(30), deadline=None)
def test_all_rows_and_stitches_are_in_the_counts(form: str, data: st.DataObject) -> None:
    garment = shape(form, data.draw(cuts(form)))
    if garment is None:
        return
    counts = {(key, name): count for key, name, count in garment.counts}
    for piece in garment.pieces:
        assert counts[piece.key, "cast_on"] == piece.stitches
        knitted = dict(pieces.knit(piece)[1].rows)
        hem = 2 * piece.hem.rows + 2 if piece.hem else 0
        assert counts[piece.key, "rows"].value == knitted[StepYarn.MAIN] - hem
        assert counts[piece.key, "rows"].unit is Unit.ROWS


@given(cuts("hat"))
def test_a_hat_measures_what_was_asked_within_half_a_stitch_and_row(cut: Cut) -> None:
    hat = shape("hat", cut)
    if hat is None:
        return
    assert off(cut, "hat_width", hat.finished["circumference"]) <= half(cut)
    assert off(cut, "hat_depth", hat.finished["depth"]) <= cut.gauge.row / 2
    assert off(cut, "hat_length", hat.finished["length"]) <= cut.gauge.row / 2


@given(cuts("hat"))
def test_a_crown_is_gathered_to_a_half_and_drawn_up(cut: Cut) -> None:
    """Once, as in the published crowns of tests/against/test_crowns.py."""
    hat = shape("hat", cut)
    if hat is None:
        return
    piece, = hat.pieces
    least = -(-piece.stitches.value // 2)
    drawn = pieces.waiting(pieces.knit(piece)[1])["crown"]
    assert least <= drawn <= least + (1 if cut.repeat else 0)
    assert drawn == piece.drawn
    assert piece.ends is Ending.DRAWN_UP and len(piece.gathers) == 1


@given(cuts("panelled blanket"))
def test_a_panel_measures_its_share_within_half_a_stitch_and_row(cut: Cut) -> None:
    blanket = shape("panelled blanket", cut)
    if blanket is None:
        return
    panels = blanket.times["panel"]
    assert off(cut, "blanket_width", blanket.finished["width"]) <= panels * half(cut)
    assert off(cut, "blanket_length", blanket.finished["length"]) <= cut.gauge.row / 2


@pytest.mark.parametrize("panels", ["0", "2.5", "41", "-1", "3 cm"])
def test_a_blanket_has_whole_panels(panels: str) -> None:
    cut = pieces.cut("panelled blanket", {}, pieces.gauge(20, 28), own={"panels": panels})
    with pytest.raises(CannotShape, match="panels"):
        FORMS["panelled blanket"].shape(cut)


@given(cuts("mitten"))
def test_a_mitten_measures_what_was_asked_within_half_a_stitch_and_row(cut: Cut) -> None:
    mitten = shape("mitten", cut)
    if mitten is None:
        return
    assert off(cut, "mitten_width", mitten.finished["hand"]) <= half(cut)
    assert off(cut, "mitten_length", mitten.finished["length"]) <= cut.gauge.row / 2
    assert off(cut, "thumb_width", mitten.finished["thumb"]) <= half(cut)
    assert off(cut, "thumb_length", mitten.finished["thumb length"]) <= cut.gauge.row / 2


@given(cuts("mitten"))
def test_the_thumb_fits_its_slit_within_a_row(cut: Cut) -> None:
    mitten = shape("mitten", cut)
    if mitten is None:
        return
    hand = mitten.pieces[0]
    start, end = hand.marks
    assert 0 < start < end < hand.gathers[0]
    sides = 2 * (end - start) * cut.gauge.row
    assert abs(sides - mitten.finished["thumb"].mm) <= cut.gauge.row


@given(cuts("triangular shawl", (None,), st.none()))
def test_a_shawl_measures_what_was_asked_within_half_a_stitch_and_row(cut: Cut) -> None:
    shawl = shape("triangular shawl", cut)
    if shawl is None:
        return
    assert off(cut, "wingspan", shawl.finished["wingspan"]) <= cut.gauge.stitch / 2
    assert off(cut, "depth", shawl.finished["depth"]) <= cut.gauge.row / 2


@pytest.mark.parametrize(("rows", "is_knitted"), [(6, False), (7, True), (8, True), (9, True)])
def test_the_least_shawl_has_one_pair_of_rows_that_are_held(rows: int, is_knitted: bool) -> None:
    """Two plain rows, the two of a pair, a plain row, and two over the stitches held at either
    side: 2 + 2 + 1 + 2 = 7 rows (S06, S07)."""
    cut = pieces.cut("triangular shawl", {}, pieces.gauge(20, 25), own={
        "wingspan": "500 mm", "depth": f"{rows * 4} mm"})
    shawl = shape("triangular shawl", cut)
    assert (shawl is not None) == is_knitted
    if shawl is not None:
        (piece,) = shawl.pieces
        assert {c.row for c in piece.left.changes} == ({2, 3} if rows < 9 else {2, 3, 4, 5})


def outline(piece: Piece, cut: Cut) -> Polygon:
    """A shawl's outline from the needles that knit in each row, a corner for every step [mm]."""
    left, right = piece.left.widths(), piece.right.widths()
    width, row, stitch = piece.stitches.value, float(cut.gauge.row), float(cut.gauge.stitch)
    up = [(-x * stitch, y * row) for y, x in enumerate(left)]
    down = [((width + x) * stitch, y * row) for y, x in enumerate(right)]
    return Polygon([*up, *reversed(down)])


@given(cuts("triangular shawl", (None,), st.none()))
@settings(max_examples=examples(30), deadline=None)
def test_a_shawl_is_a_triangle(cut: Cut) -> None:
    shawl = shape("triangular shawl", cut)
    if shawl is None:
        return
    piece, = shawl.pieces
    g, width, tip = cut.gauge, piece.stitches.value, piece.top
    assert piece.left.held == piece.right.held == (width - tip) // 2 and tip in (4, 5)
    # the steps leave a straight line from corner to tip by at most a step and the rows around it
    side = (width - tip) / 2
    pairs = max(1, (piece.rows - 3) // 2)
    slant = Polygon([(0, 0), (width * g.stitch, 0), ((width + tip) / 2 * g.stitch,
                     piece.rows * g.row), (side * float(g.stitch), piece.rows * g.row)])
    most = (side / pairs + 1) * float(g.stitch) + 4 * float(g.row)
    assert outline(piece, cut).hausdorff_distance(slant) <= most
    length = hypot(side * g.stitch, (piece.rows + 2) * g.row)
    assert float(shawl.finished["each side"].mm) == pytest.approx(length, abs=0.01)


@given(cuts("triangular shawl", (None,), st.none()))
def test_both_sides_of_a_shawl_are_held_alike_a_row_apart(cut: Cut) -> None:
    shawl = shape("triangular shawl", cut)
    if shawl is None:
        return
    piece, = shawl.pieces
    assert [c._replace(row=c.row + 1) for c in piece.left.changes] == list(piece.right.changes)
    assert all(a - b in (0, 1) for a, b in zip(
        [-x for x in piece.left.widths()], [-x for x in piece.right.widths()],
        strict=True)) or max(c.stitches for c in piece.left.changes) > 1


def test_a_cuffs_band_is_knitted_for_both_mittens_and_the_page_says_so() -> None:
    pattern, problems = read(changed(FABRIC, FABRIC))
    assert pattern is not None and not problems
    place = Place("law", 1, 1)
    spec = GarmentSpec(form="mitten", chart=bodiless(("M",)), fabric="body", neck=Neck.ROUND,
                       hem=None, body={}, measures={"tip": {"M": Definition("1.5 cm", place)}})
    band = replace(next(iter(pattern.bands.values())), key="cuff", title="Cuff band", edge="cuff",
                   own_edge=False, buttonholes=None, fabric="body",
                   depth={"M": Length(Fraction(20))}, rows=None)
    proof, problems = prove(replace(pattern, sizes=("M",), edges={}, bands={"cuff": band},
                                    garment=spec))
    assert proof is not None, [str(p) for p in problems]
    size, = proof.sizes
    strip, = size.strips
    own, = (part for need in yarn_requirements(proof.pattern, size) for part in need.parts
            if part.key == "cuff")
    assert (own.times, share_title(own.part)) == (2, "Cuff band, both together")
    assert own.stitches.value == 2 * dict(strip.trace.stitches)[StepYarn.MAIN]
    page = size_page(proof.pattern, size, shared(proof), advise_all(proof).sizes[0])
    assert "Cuff band, worked twice" in page
    assert "Work all of it twice, once for each cuff; the bands are alike." in page
    assert "Hand, knitted twice" in page
    assert "Work the cuff band on each lower edge" in re.sub("</?b>", "", page)


# A saddle raglan


@given(st.sampled_from(pieces.chart("women").sizes), st.integers(10, 40), st.integers(105, 190))
@settings(max_examples=examples(20), deadline=None)
def test_a_saddle_raglan_meets_row_for_row_and_its_strap_covers_the_shoulder(
        size: str, around: int, share: int) -> None:
    known = pieces.chart("women").measurements(size)
    cut = pieces.cut("saddle raglan pullover", known,
                     pieces.gauge(around, around * Fraction(share, 100)))
    garment = shape("saddle raglan pullover", cut)
    if garment is None:
        return
    back, front, sleeve = garment.pieces
    strap = sleeve.rows - max(c.row for c in sleeve.right.changes)  # plain above the raglan
    line = back.rows - back.right.changes[0].row
    assert sleeve.right.changes[-1].row - next(
        c.row for c in sleeve.right.changes if c.how is How.BIND_OFF) == line
    assert back.rows == front.rows
    waits = pieces.waiting(pieces.knit(front)[1])
    shoulder = waits["front, right shoulder"]
    assert abs(strap * cut.gauge.row - (shoulder - 1) * cut.gauge.stitch) <= cut.gauge.row / 2
    opening = front.opening
    assert opening is not None
    assert back.top == 2 * shoulder + opening.centre + 2 * -opening.inner.net


@given(st.sampled_from(pieces.chart("women").sizes), st.integers(10, 40), st.integers(105, 190),
       st.sampled_from(Neck), st.integers(0, 60))
@settings(max_examples=examples(20), deadline=None)
def test_a_saddle_raglan_opens_at_the_front_as_the_pullover_is_whole(
        size: str, around: int, share: int, neck: Neck, band: int) -> None:
    known = pieces.chart("women").measurements(size)
    gauge = pieces.gauge(around, around * Fraction(share, 100))
    form = "saddle raglan cardigan"
    garment = shape(form, pieces.cut(form, known, gauge, neck=neck, band=band))
    if garment is None:
        return
    assert pieces.faults(garment) == []
    back, right, left, sleeve = garment.pieces
    waits = [pieces.waiting(pieces.knit(front)[1]) for front in (right, left)]
    counts = {(key, name): count.value for key, name, count in garment.counts}
    assert [list(w.values()) for w in waits] == 2 * [[counts["back", "shoulder"]]]
    assert right.rows == left.rows == back.rows and left.mirrored
    assert set(garment.edges) == {edge for edge in FORMS[form].edges if edge != "front_edge"
                                  and (edge != "front_and_neck" or neck in ROUND_THE_NECK)}
    # both fronts lie over one another by the band; half a stitch at each of the three pieces
    chest = 2 * pieces.cut(form, known, gauge).length("chest_width").mm
    assert abs(garment.finished["chest"].mm - chest) <= 2 * gauge.stitch
    assert sleeve.rows - back.rows == counts["sleeve", "rows_to_raglan"] \
        - counts["back", "rows_to_raglan"] + counts["sleeve", "strap_rows"]


def test_a_saddle_raglan_has_rows_below_its_neck() -> None:
    """A neck as deep as the whole front would begin where the front is cast on (geometry)."""
    form, gauge = "saddle raglan pullover", pieces.gauge(30, 42)
    known = pieces.chart("women").measurements("M")
    rows = FORMS[form].shape(pieces.cut(form, known, gauge)).pieces[0].rows
    begins = []
    for deep in range(rows - 8, rows + 9, 2):
        garment = shape(form, pieces.cut(form, known, gauge, own={
            "front_neck": f"{float(deep * gauge.row):.6f} mm"}))
        opening = garment.pieces[1].opening if garment else None
        begins += [opening.row] if opening else []
    assert begins == [8, 6, 4, 2]


# Measures worked out by hand


def test_a_hat_of_a_known_head() -> None:
    # 20 stitches over 14.2 cm, 30 rows over 15 cm: a head of 56 cm less 2 cm is 76.06 stitches,
    # 78.06 with the seams; 56 × 0.32 + 3 = 20.92 cm are 41.84 rows, its sixth 6.97 rows
    cut = pieces.cut("hat", lengths(head=560), pieces.gauge(Fraction(2000, 142), 20))
    hat = FORMS["hat"].shape(cut)
    piece, = hat.pieces
    assert (piece.stitches.value, piece.rows, piece.gathers) == (78, 42, (41,))
    assert [t.row for t in piece.tightens] == [34, 36, 38, 40]  # every 2 of the crown's 7 rows
    assert piece.drawn == 39  # 78, 39
    assert {name: count.value for _, name, count in hat.counts} == {
        "cast_on": 78, "rows": 42, "rows_to_crown": 34, "crown_rows": 7, "drawn_up": 39}


def test_a_mock_rib_hat_closes_its_repeat() -> None:
    # 78.06 stitches as above, the nearest 2 × 38 + 2 edge stitches: 78 on 38 × 3 + 2 needles
    cut = pieces.cut("hat", lengths(head=560), pieces.gauge(Fraction(2000, 142), 20),
                     repeat=read_repeat("2 in 1 out"))
    piece, = FORMS["hat"].shape(cut).pieces
    assert (piece.stitches.value, piece.widest, len(piece.needles)) == (78, 116, 78)


def test_a_cast_on_of_96_is_21_3_inches_around() -> None:
    # Worked example H01 (Cassidy and Kaya, Binary hat, take 2): 96 stitches at 4.5 to the inch
    # are 21.3 in; ours has two more, which the seam takes
    around = f"{Fraction(213, 10)} in"
    cut = pieces.cut("hat", lengths(head=560), pieces.gauge(Fraction(45000, 2540), 24),
                     own={"hat_width": around})
    piece, = FORMS["hat"].shape(cut).pieces
    assert piece.stitches.value == 96 + 2


def test_a_shaped_piece_of_a_mock_rib_is_refused() -> None:
    cut = pieces.cut("triangular shawl", {}, pieces.gauge(20, 28),
                     repeat=read_repeat("2 in 1 out"))
    with pytest.raises(CannotShape, match=r"shawl, shaped with \d+ stitches .* 2 in, 1 out"):
        FORMS["triangular shawl"].shape(cut)


def test_a_sleeve_of_a_mock_rib_is_refused() -> None:
    chart = pieces.chart("women")
    cut = pieces.cut("drop-shoulder pullover", chart.measurements(chart.sizes[2]),
                     pieces.gauge(20, 28), repeat=read_repeat("2 in 1 out"))
    with pytest.raises(CannotShape, match=r"shaped with \d+ stitches"):
        FORMS["drop-shoulder pullover"].shape(cut)


# Read from a source


FABRIC = "    dial: 6\n"


def with_lines(*lines: str) -> str:
    return changed(FABRIC, FABRIC + "".join(f"    {line}\n" for line in lines))


def test_a_fabric_says_which_needles_work() -> None:
    pattern, problems = read(with_lines("needles: 2 in 1 out"))
    assert pattern is not None and not problems
    assert pattern.fabrics["body"].repeat == Repeat(works=(True, True, False), edge=1)


def test_a_fabric_says_how_many_stitches_stand_at_its_edges() -> None:
    pattern, _ = read(with_lines('needles: "3 in 1 out, 1 in 1 out"', "edge_stitches: 2"))
    assert pattern is not None
    assert pattern.fabrics["body"].repeat == Repeat(
        works=(True, True, True, False, True, False), edge=2)


def test_without_a_word_every_needle_works() -> None:
    pattern, _ = read(changed(FABRIC, FABRIC))
    assert pattern is not None and pattern.fabrics["body"].repeat is None


# In a pattern


def proved(form: str, needles: int, repeat: Repeat | None = None, **own: str) -> list[str]:
    """The codes of what is found in a pattern of a form in three sizes; it has a proof or not."""
    chart = pieces.chart("women")
    sizes = chart.sizes[1:4]
    base, _ = read(changed(FABRIC, FABRIC))
    assert base is not None
    place = Place("law", 1, 1)
    spec = GarmentSpec(form=form, chart=chart, fabric="body", neck=Neck.ROUND, hem=None, body={},
                       measures={name: dict.fromkeys(sizes, Definition(text, place))
                                 for name, text in own.items()})
    fabric = replace(base.fabrics["body"], repeat=repeat)
    proof, problems = prove(replace(
        base, sizes=sizes, edges={}, bands={}, fabrics={"body": fabric}, garment=spec,
        bed=replace(base.bed, needles=needles)))
    errors = [p for p in problems if p.severity is Severity.ERROR]
    assert (proof is None) == bool(errors)
    return [str(p).partition("found ")[2].partition(".")[0] for p in errors]


@pytest.mark.parametrize("repeat", [None, read_repeat("2 in 1 out")])
@pytest.mark.parametrize("form", ["hat", "panelled blanket", "mitten"])
def test_a_straight_form_is_proved_in_every_size(form: str, repeat: Repeat | None) -> None:
    assert proved(form, 200, repeat) == []


def test_a_shawl_is_proved_in_every_size() -> None:
    assert proved("triangular shawl", 200) == []


def test_needles_left_out_of_work_count_on_a_bed_too_short() -> None:
    # 54 cm at the mean of 14.2 and 14.1 cm to 20 stitches: 78.32 with the seams, 78 on 116 needles
    assert set(proved("hat", 110, read_repeat("2 in 1 out"), hat_width="54 cm")) == {
        "hat of 116 needles, 38 of them left out of work, on a bed of 110 needles; expected at "
        "most 110: 6 needles short"}

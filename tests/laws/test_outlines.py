"""Whatever pieces a designer draws by points are refused in words, or knitted and closed.

Areas and lengths are held to the geometry library: to the polygon of the points as they are given,
and to the line that is drawn.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from copy import deepcopy
from fractions import Fraction
from itertools import accumulate
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon
from walebook.core.problems import Problem, Severity
from walebook.core.units import read_length
from walebook.fabric.gauge import Gauge, measure
from walebook.pages.expression_json import TreeWriter
from walebook.pattern.model import Pattern
from walebook.plan.assembled import Assembled
from walebook.proof.proof import assemble_all
from walebook.shape.heights import heights
from walebook.shape.outline import outline
from walebook.shape.piece import Piece
from walebook.shape.profile import FEW, Change, How, Profile
from walebook.shape.step_sizes import CountedSlope, SteppedSlope
from walebook.source.keys.slope_keys import SlopeKeys

from tests.laws import pieces
from tests.laws.random_outlines import Outline, outlines
from tests.laws.random_sources import written
from tests.laws.recomputed import value
from tests.scale import examples
from tests.sources.reading import read

HEAD = {"title": "Net bag", "version": "1.0.0", "date": "2026-11-29", "designer": "Wren Ashdown",
        "licence": "CC BY-NC 4.0", "summary": "Own pieces.", "wearer": "anyone", "bed": "standard",
        "yarns": {"main": {"name": "Pier Fingering"}}, "sizes": ["one"]}
REFUSALS = {"cannot-shape", "edges-apart", "bed-too-short", "joined-twice", "cannot-round",
            "top-waits", "slope-does-not-fit"}
BAG = {"measures": {"wide": "30 cm", "high": "40 cm"},
       "pieces": {"bag": {"width": "wide", "height": "high"}}}


def source(own: Outline, around: int = 30, **more: Any) -> str:
    swatch = more.pop("swatch", {"stitches": str(around), "width": "10 cm",
                                 "rows": str(around * 7 // 5), "height": "10 cm"})
    garment = {"form": "own outline", "fabric": "body", **own, **more}
    return written({**HEAD, "fabrics": {"body": {"yarn": "main", "dial": "6", "swatch": swatch}},
                    "garment": garment})


def made(own: Outline, around: int = 30, **more: Any
         ) -> tuple[Pattern | None, Assembled | None, tuple[Problem, ...]]:
    """The pattern, its garment in its one size, and every error."""
    pattern, found = read(source(own, around, **more))
    if pattern is None:
        return None, None, found
    assembled, said = assemble_all(pattern, pattern)
    return pattern, assembled.get("one"), tuple(
        p for p in (*found, *said) if p.severity is Severity.ERROR)


def unscheduled(own: Outline, *keys: str) -> Outline:
    """The same pieces without slopes that have one of these keys."""
    made = deepcopy(own)
    for piece in made["pieces"].values():
        for side in ("sides", "left", "right"):
            for corner in piece.get(side, []):
                if corner.get("slope", {}).keys() & set(keys):
                    del corner["slope"]
    return made


def asked(own: Outline, key: str) -> Polygon:
    """The polygon of a piece's points [mm], its lower edge's middle at 0."""
    def mm(name: str) -> float:
        return float(read_length(own["measures"][name]).mm)

    piece = own["pieces"][key]
    half = mm(piece["width"]) / 2
    sides = []
    for side in ("left", "right"):
        corners = piece.get("sides") or piece.get(side, [])
        line = [(half, 0.0), *((mm(c["width"]) / (2 if "sides" in piece else 1), mm(c["height"]))
                               for c in corners)]
        sides.append([*line, (line[-1][0], mm(piece["height"]))])
    return Polygon([*((-x, y) for x, y in sides[0]), *reversed(sides[1])])


def knitted(piece: Piece, gauge: Gauge) -> Polygon:
    """A piece as it is drawn, its lower edge's middle at 0, seams' stitches and all [mm]."""
    return Polygon([(float(x), float(y)) for x, y in outline(piece, gauge).corners])


@given(outlines(), st.integers(16, 36))
@settings(max_examples=examples(40), deadline=None)
def test_an_outline_is_refused_in_words_or_knitted_and_closed(own: Outline, around: int) -> None:
    _, assembled, errors = made(own, around)
    if assembled is None:
        assert errors and {p.code for p in errors} <= REFUSALS, [str(p) for p in errors]
        assert all("Write" in str(p) or "Give" in str(p) or "Make" in str(p) or "Change" in str(p)
                   or "Name" in str(p) or "Leave" in str(p) or "write" in str(p)
                   or "Move" in str(p)
                   for p in errors)
        return
    assert pieces.faults(assembled.garment) == []
    for piece in assembled.garment.pieces:
        cast_on, changes = piece.stitches.value, pieces.changes(piece)
        assert piece.top == cast_on + changes[How.INCREASE] - changes[How.DECREASE] \
            - changes[How.BIND_OFF]


@given(outlines(), st.integers(16, 36))
@settings(max_examples=examples(40), deadline=None)
def test_an_edge_changes_as_its_schedules_say(own: Outline, around: int) -> None:
    """Their figures alone, each as another program computes its published expression, but for
    rates that the designer writes and for a first row."""
    _, assembled, _ = made(unscheduled(own, "rates", "first_row"), around)
    for piece in assembled.garment.pieces if assembled else ():
        names = {slope.name for slope in piece.slopes}
        for left, edge in ((False, piece.right), (True, piece.left)):
            moves = [move for slope in piece.slopes for move in moved(slope, left)
                     if not slope.name.startswith("right_" if left else "left_")
                     and not (left and f"left_{slope.name}" in names)]
            assert sorted(moves) == sorted((c.row, c.outward) for c in edge.changes)


def moved(slope: CountedSlope, left: bool) -> Iterator[tuple[int, int]]:
    """The rows at which an edge moves, and by how many stitches outward."""
    of = {name: int(value(json.loads(TreeWriter().of(count.made))))
          for name, count in slope.figures}
    if isinstance(slope, SteppedSlope):
        for n, size in enumerate(slope.sizes):
            yield (of["rows_below"] + n * of["rows_apart"] + left,
                   -int(value(json.loads(TreeWriter().of(size.made)))))
        return
    gaps = slope.gaps.in_turn
    assert gaps.count(of["shorter_gap"]) == of["shorter_times"] or not of["shorter_times"]
    assert len(gaps) == of["events"] == of["shorter_times"] + of["longer_times"]
    for row in accumulate(gaps, initial=of["rows_below"]):
        if row > of["rows_below"]:
            yield row, 1 if slope.how is How.INCREASE else -1


@given(outlines(), st.integers(16, 36))
@settings(max_examples=examples(40), deadline=None)
def test_an_outline_covers_what_its_points_enclose(own: Outline, around: int) -> None:
    """Off by at most a stitch and a half and two rows along the whole edge: rounding to even
    numbers, a seam's stitch, steps, and plain rows that follow a slope's last event. What the
    designer schedules may lie elsewhere."""
    own = unscheduled(own, *SlopeKeys.keys)
    pattern, assembled, _ = made(own, around)
    if pattern is None or assembled is None:
        return
    gauge = measure(pattern.fabrics["body"].swatches)
    for piece in assembled.garment.pieces:
        wanted, drawn = asked(own, piece.key), knitted(piece, gauge)
        if not wanted.is_valid:
            continue
        give = float(gauge.stitch * Fraction(5, 2) + gauge.row * 2)
        assert abs(drawn.area - wanted.area) <= wanted.length * give + 4 * give * give


@given(outlines(), st.integers(16, 36))
@settings(max_examples=examples(40), deadline=None)
def test_an_edge_for_a_band_is_as_long_as_it_is_drawn(own: Outline, around: int) -> None:
    pattern, assembled, _ = made(own, around)
    if pattern is None or assembled is None:
        return
    gauge = measure(pattern.fabrics["body"].swatches)
    for piece in assembled.garment.pieces:
        corners = [(float(x), float(y)) for x, y in outline(piece, gauge).corners]
        top = max(y for _, y in corners)
        last = max(n for n, (_, y) in enumerate(corners) if y == top)
        right = LineString(corners[1:min(n for n, (_, y) in enumerate(corners) if y == top) + 1])
        left = LineString([*corners[last:], corners[0]])
        for side, line in (("left", left), ("right", right)):
            length = float(assembled.garment.edges[f"{piece.key}.{side}"].length)
            # Small steps are measured along their corners, as a band takes them.
            assert line.length / 2 ** 0.5 - 1 <= length <= line.length + 0.01


# A slope of one stitch over two rows: at 16 stitches and 22 rows to 10 cm the corner is at row 2.
LOW_STRAP: Outline = {
    "measures": {"wide": "120 mm", "high": "12 mm", "up": "10 mm", "out": "59 mm"},
    "pieces": {"strap": {"width": "wide", "height": "high",
                         "left": [{"height": "up", "width": "out"}]}}}
# Two plain rows and a slope of one stitch above them, which is drawn from the lower edge on.
LOW_BAG: Outline = {
    "measures": {"wide": "100 mm", "high": "20 mm", "up": "10 mm", "out": "107 mm"},
    "pieces": {"bag": {"width": "wide", "height": "high", "sides": [
        {"height": "up", "width": "wide"}, {"height": "high", "width": "out"}]}}}


@given(outlines(), st.integers(16, 36))
@example(LOW_STRAP, 16)
@example(LOW_BAG, 16)
@settings(max_examples=examples(40), deadline=None)
def test_every_corner_is_drawn_as_wide_as_it_is_knitted_and_has_its_height(
        own: Outline, around: int) -> None:
    """The stitches that there are at its row, from the changes of the edges alone; a drawing names
    each height at which corners lie, the top too where a part of the edges ends there."""
    pattern, assembled, _ = made(own, around)
    if pattern is None or assembled is None:
        return
    gauge = measure(pattern.fabrics["body"].swatches)
    for piece in assembled.garment.pieces:
        assert drawn_wrong(piece, gauge) == []


def drawn_wrong(piece: Piece, gauge: Gauge) -> list[str]:
    """What of a piece's corners its drawing has not."""
    drawn, high, found = outline(piece, gauge), heights(piece, gauge), []
    edge = knitted(piece, gauge).exterior
    ends = {(d.start[1], d.end[1]) for d in drawn.dimensions if d.name.corner}
    rows = sorted({corner.row for corner in piece.corners or ()})
    top = drawn.height
    for row in rows:
        up = top if row == piece.rows else high(row)
        below = [each for each in rows if each < row]
        if (below or row < piece.rows) and not any(end == up for _, end in ends):
            found.append(f"row {row} ends no measure")
        for profile, side in ((piece.left, -1), (piece.right, 1)):
            # A slope whose last stitch goes at the corner's own row ends there (`Profile.drawn`);
            # of a level step at it both ends are drawn.
            out = sum(c.outward for c in profile.changes
                      if c.row < row or (c.row == row and not c.how.is_level))
            x = side * (Fraction(piece.stitches.value, 2) + out) * gauge.stitch
            off = 0.01 + float(_passed_over(profile, row) * gauge.stitch)
            if row < piece.rows and edge.distance(Point(float(x), float(up))) > off:
                found.append(f"row {row} is not {float(x):.1f} mm from the middle")
    return found


def _passed_over(profile: Profile, row: int) -> int:
    """How far the slope above a corner may run past it [stitches]: all of its first change, where
    it begins below the corner's row. It begins at the change before, of few plain rows or of a
    slope that goes the same way; else as far down as the next change lies above (`Profile.drawn`).
    """
    changes = profile.changes
    at = next((i for i, c in enumerate(changes) if c.row > row), None)
    if at is None or changes[at].how.is_level:
        return 0
    first = changes[at]
    plain = first.row - (changes[at - 1].row if at else 0)
    after = next((c.row - first.row for c in changes[at + 1:]
                  if c.row > first.row and _one_way(first, c)), 2)
    goes_on = plain <= FEW or (at and _one_way(changes[at - 1], first))
    begins = first.row - (plain if goes_on else min(plain, after))
    return first.stitches if begins < row else 0


def _one_way(one: Change, other: Change) -> bool:
    return not (one.how.is_level or other.how.is_level) and one.outward * other.outward > 0


@pytest.mark.parametrize("rows", [8, 9])
def test_a_hem_of_own_pieces_has_any_rows(rows: int) -> None:
    _, assembled, errors = made(BAG, hem={"depth": f"{rows} rows"})
    assert assembled is not None, [str(p) for p in errors]
    assert {count.value for _, name, count in assembled.garment.counts
            if name == "hem_rows"} == {rows}
    assert pieces.faults(assembled.garment) == []


def test_every_count_of_own_pieces_can_be_given() -> None:
    own = {"measures": {"wide": "30 cm", "high": "40 cm", "up": "20 cm", "narrow": "20 cm"},
           "pieces": {"bag": {"width": "wide", "height": "high", "sides": [
               {"height": "up", "width": "narrow", "name": "side"}]}}}
    for name, number in (("bag cast on", 96), ("bag rows", 171), ("bag at side", 58),
                         ("bag rows to side", 80)):
        _, assembled, errors = made(own, counts={name: str(number)})
        assert assembled is not None, [str(p) for p in errors]
        counts = {f"{key} {of}".replace("_", " "): count.value
                  for key, of, count in assembled.garment.counts}
        assert counts[name] == number


@pytest.mark.parametrize(("above", "stitches"), [
    ({"width": "narrow", "by": "steps"}, 60), ({"width": "narrow"}, 60), ({"width": "wide"}, 92)])
def test_above_a_seam_no_stitch_is_counted_for_it(above: dict[str, str], stitches: int) -> None:
    """30 stitches to 10 cm: a neck of 20 cm between stitches that are bound off, or above a slope
    that no seam holds, is 60; an edge that runs straight out of its seam stays as it is."""
    own = {"measures": {"wide": "30 cm", "up": "30 cm", "high": "50 cm", "narrow": "20 cm"},
           "pieces": {"bag": {"width": "wide", "height": "high", "sides": [
               {"height": "up", "width": "wide", "name": "side"},
               {"height": "high", **above, "name": "above"}]}},
           "joins": [{"sew": "bag.left.side", "to": "bag.right.side"}]}
    _, assembled, errors = made(own)
    assert assembled is not None, [str(p) for p in errors]
    counts = {name: count.value for _, name, count in assembled.garment.counts}
    assert (counts["cast_on"], counts["at_side"], counts["at_above"]) == (92, 92, stitches)
    assert assembled.garment.pieces[0].top == stitches


@pytest.mark.parametrize(("joins", "around"), [
    ((("bag.left", "strap.right"), ("bag.right", "strap.left")), 500),
    ((("bag.left", "strap.right"),), None),
    ((("bag.left", "strap.left"), ("bag.right", "strap.right")), None)])
def test_two_pieces_sewn_at_both_sides_go_round(joins: Any, around: int | None) -> None:
    """30 cm and 20 cm between their seams."""
    own = {"measures": {"wide": "30 cm", "high": "50 cm", "narrow": "20 cm"},
           "pieces": {"bag": {"width": "wide", "height": "high"},
                      "strap": {"width": "narrow", "height": "high"}},
           "joins": [{"sew": one, "to": other} for one, other in joins]}
    _, assembled, errors = made(own)
    assert assembled is not None, [str(p) for p in errors]
    found = assembled.garment.finished.get("around")
    assert (found.mm if found else None) == around


def test_a_side_in_a_seam_has_a_stitch_for_it() -> None:
    """30 cm at 30 stitches to 10 cm: 90, and one for each side that is sewn."""
    for joins, stitches in (([], 90), ([{"sew": "bag.left", "to": "bag.right"}], 92)):
        _, assembled, _ = made({**BAG, "joins": joins} if joins else BAG)
        assert assembled is not None
        assert assembled.garment.pieces[0].stitches.value == stitches


@pytest.mark.parametrize(("to", "off"), [("bag.right", 0), ("bag.bottom", 1)])
def test_edges_that_do_not_meet_are_found(to: str, off: int) -> None:
    """Of 30 cm by 40 cm, the sides meet each other and not the lower edge."""
    _, assembled, errors = made({**BAG, "joins": [{"sew": "bag.left", "to": to}]})
    assert (assembled is None) == bool(off)
    assert [p.code for p in errors] == ["edges-apart"] * off


def test_an_ease_is_how_much_longer_the_other_edge_is() -> None:
    """Sides of 40 cm sewn to edges of 40 cm and of 42 cm: 168 rows and 176."""
    own = {"measures": {"wide": "30 cm", "high": "40 cm", "higher": "42 cm"},
           "pieces": {"bag": {"width": "wide", "height": "high"},
                      "strap": {"width": "wide", "height": "higher"}}}
    for ease, codes in (("0 %", ["edges-apart"]), ("5 %", []), ("10 %", ["edges-apart"])):
        join = {"sew": "bag.left", "to": "strap.right", "ease": ease}
        _, _, errors = made({**own, "joins": [join]})
        assert [p.code for p in errors] == codes


@pytest.mark.parametrize("width", ["wide", "narrow"])
@pytest.mark.parametrize("key", ["sides", "left", "right"])
def test_a_corner_above_the_top_is_refused(key: str, width: str) -> None:
    """At 42 rows to 10 cm a piece of 40 cm has 168 rows, and a corner at 50 cm is at row 210."""
    wide = "30 cm" if key == "sides" else "15 cm"  # of the piece, or from its middle
    own = {"measures": {"around": "30 cm", "high": "40 cm", "wide": wide, "narrow": "10 cm",
                        "higher": "50 cm"},
           "pieces": {"bag": {"width": "around", "height": "high", key: [
               {"height": "higher", "width": width}]}}}
    _, assembled, errors = made(own)
    assert assembled is None
    assert [(p.code, p.found) for p in errors] == [("cannot-shape", (
        f"bag, corner 1 of {key}: a corner at row 210, above the top at row 168"))]


@pytest.mark.parametrize(("key", "which", "found"), [
    ("left", "width", "−6 cm wide, past the middle of the lower edge"),
    ("right", "width", "−6 cm wide, past the middle of the lower edge"),
    ("sides", "width", "−6 cm wide"),
    ("left", "height", "−6 cm high, below the lower edge"),
    ("sides", "height", "−6 cm high, below the lower edge")])
def test_a_corner_of_less_than_nothing_is_refused(key: str, which: str, found: str) -> None:
    """It was taken as 0, and the piece knitted so much wider; the finding stands at the measure."""
    own = {"measures": {"around": "30 cm", "high": "40 cm", "half": "15 cm", "less": "4 cm - 10 cm",
                        "nothing": "10 cm - 10 cm"},
           "pieces": {"bag": {"width": "around", "height": "high", key: [
               {"height": "high", "width": "half"} | {which: "less"}]}}}
    _, assembled, errors = made(own)
    assert assembled is None
    assert [(p.code, p.found) for p in errors] == [
        ("cannot-shape", f"bag, corner 1 of {key}: {found}")]
    assert "0 cm" in errors[0].remedy
    at = "      - height: less" if which == "height" else "        width: less"
    assert errors[0].place.line == source(own).split("\n").index(at) + 1


def test_a_corner_at_the_middle_is_knitted() -> None:
    """At 30 stitches to 10 cm half of 30 cm are 45 stitches: all of them go, and no more."""
    own = {"measures": {"around": "30 cm", "high": "40 cm", "middle": "10 cm - 10 cm"},
           "pieces": {"bag": {"width": "around", "height": "high", "left": [
               {"height": "high", "width": "middle"}]}}}
    _, assembled, errors = made(own)
    assert assembled is not None, errors
    (piece,) = assembled.garment.pieces
    assert (piece.stitches.value, piece.top) == (90, 45)


@pytest.mark.parametrize("name", ["right front", "right_front", "left-front", "shoulders",
                                  "pocket lining"])
def test_a_name_that_a_piece_cannot_have_is_refused_with_all_of_them(name: str) -> None:
    _, _, errors = made({**BAG, "pieces": {name: BAG["pieces"]["bag"]}})
    assert [p.code for p in errors] == ["bad-name"]
    assert name in errors[0].found
    named = errors[0].expected
    assert all(one in named for one in ("left front", "right front", "shoulders", "pocket lining"))
    renamed = errors[0].remedy.removeprefix("Write another, such as ").split(".")[0]
    _, assembled, errors = made({**BAG, "pieces": {renamed: BAG["pieces"]["bag"]}})
    assert assembled is not None, errors


def test_a_fault_of_a_piece_with_two_words_stands_at_its_line() -> None:
    own = {"measures": {"around": "30 cm", "high": "40 cm", "less": "4 cm - 10 cm"},
           "pieces": {"shopping bag": {"width": "around", "height": "high", "left": [
               {"height": "high", "width": "less"}]}}}
    _, _, errors = made(own)
    line = source(own).split("\n").index("        width: less")
    assert [p.place.line for p in errors] == [line + 1]


def test_a_corner_as_high_as_its_piece_lies_at_the_top() -> None:
    """Under whatever name its measure goes: 10.3 cm at 42 rows to 10 cm are 43.26, so 43 rows."""
    own = {"measures": {"wide": "30 cm", "high": "10.3 cm", "side": "10.3 cm", "narrow": "28 cm"},
           "pieces": {"bag": {"width": "wide", "height": "high", "sides": [
               {"height": "side", "width": "narrow"}]}}}
    _, assembled, errors = made(own)
    assert assembled is not None, [str(p) for p in errors]
    counts = {name: count.value for _, name, count in assembled.garment.counts}
    assert (counts["rows"], counts["rows_to_corner_1"]) == (43, 43)


@pytest.mark.parametrize("width", ["wide", "narrow"])
def test_a_thread_shows_where_a_joined_part_ends(width: str) -> None:
    """At 20 of 40 cm: 84 rows at 42 to 10 cm. Without a join no thread is tied."""
    corner = {"height": "half", "width": width, "name": "front"}
    own = {"measures": {"wide": "30 cm", "high": "40 cm", "half": "20 cm", "narrow": "26 cm"},
           "pieces": {"bag": {"width": "wide", "height": "high", "sides": [
               corner, {**corner, "height": "high", "name": "back"}]}}}
    join = {"sew": "bag.left.front", "to": "bag.left.back"}
    for joins in ([], [join]):
        _, assembled, errors = made({**own, "joins": joins} if joins else own)
        assert assembled is not None, [str(p) for p in errors]
        assert assembled.garment.pieces[0].marks == ((84,) if joins else ())


def test_bound_off_stitches_show_an_end_without_a_thread() -> None:
    own = {"measures": {"wide": "30 cm", "high": "40 cm", "half": "20 cm", "narrow": "26 cm"},
           "pieces": {"bag": {"width": "wide", "height": "high", "times": "2", "sides": [
               {"height": "half", "width": "wide", "name": "side"},
               {"height": "half", "width": "narrow", "name": "step"}]}}}
    joins = [{"sew": "bag.left.side", "to": "bag.right.side"}]
    _, assembled, errors = made({**own, "joins": joins})
    assert assembled is not None, [str(p) for p in errors]
    assert assembled.garment.pieces[0].marks == ()


@given(st.integers(40, 150), st.integers(-40, 60), st.integers(60, 200))
@settings(max_examples=examples(20), deadline=None)
def test_a_slope_is_the_straight_line_between_its_corners(half: int, go: int, high: int) -> None:
    """In every row the edge is within a stitch of the line; the last gap stays plain."""
    own = {"measures": {"wide": f"{2 * half} mm", "narrow": f"{2 * max(half - go, 20)} mm",
                        "high": f"{high} mm"},
           "pieces": {"bag": {"width": "wide", "height": "high", "sides": [
               {"height": "high", "width": "narrow"}]}}}
    _, assembled, _ = made(own)
    if assembled is None:
        return
    piece, = assembled.garment.pieces
    widths = piece.right.widths()
    for row, wide in enumerate(widths):
        assert abs(wide - Fraction(piece.right.net * row, piece.right.rows)) <= 1


@given(outlines(), st.integers(16, 36))
@settings(max_examples=examples(40), deadline=None)
def test_short_rows_lengthen_the_middle_and_leave_both_edges_alike(own: Outline, around: int
                                                                   ) -> None:
    """From what the bed did: two rows of the edges each time, or one and three where stitches go
    one by one; the middle has the rows that were asked for, and all stitches are put back. Over a
    part, the edge beside it has one row more than the other one's two."""
    pattern, assembled, _ = made(own, around)
    if pattern is None or assembled is None:
        return
    gauge = measure(pattern.fabrics["body"].swatches)
    for piece in assembled.garment.pieces:
        asked_for = [short for short in own["pieces"][piece.key].get("short_rows", [])
                     for _ in range(int(short.get("times", 1)))]
        knitted_so = zip(pieces.short_rows(piece), asked_for, piece.short_rows, strict=True)
        for (whole, rows), short, held in knitted_so:
            left, middle, right = (sum(each in row for row in rows) for each in (
                whole.first, list(whole)[len(whole) // 2], whole.last))
            if "over" in short:
                assert (left, right) == ((3, 2) if short["beside"] == "left" else (2, 3))
                part = rows[-3]
                assert len(part) == held.over < len(whole) and rows[-2:] == [whole, whole]
                assert len(rows) - 2 == 2 * (len(part) - min(map(len, rows)))
                continue
            assert left + right == 4
            assert left == right or max(held.steps) == 1
            if "extra" in short:
                off = (middle - 2) * gauge.row - read_length(own["measures"][short["extra"]]).mm
                assert abs(off) <= gauge.row
            else:
                assert middle == len(rows) == 2 * (len(whole) - min(map(len, rows)))
            assert rows[-1] == whole

"""An edge is as long as the line through what the bed bound off and decreased at it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import hypot
from typing import NamedTuple

import pytest
from walebook.fabric.gauge import Gauge
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import BindOff, TakeOff
from walebook.machine.steps import Side, Transfer
from walebook.pattern.conventions import Conventions, NeckCurve, NeckSpec
from walebook.pattern.edges import Offer
from walebook.pattern.model import Neck
from walebook.shape.edging import Section
from walebook.shape.garment import Garment, Kindred
from walebook.shape.piece import Piece
from walebook.words.terms.working import working_of

from tests.laws import pieces
from tests.laws.test_armhole_edges import (
    CLOSED,
    SLEEVELESS,
    armhole,
    outermost,
    rows_at_the_edge,
    rows_beside_the_neck,
    traced,
)

SET_IN = [name for name in FORMS if name.startswith("set-in") and "sleeve" in FORMS[name].pieces]
GAUGES = [(26, 38), (28, 40), (15, 22), (30, 46)]  # stitches and rows to 10 cm
LEVEL_TOPS = [name for name in CLOSED if "raglan" not in name]
SIZES = ["XS", "M", "2X"]
FEW = 4  # rows, and stitches: a band pulls so small a step smooth; common practice, no source


class Event(NamedTuple):
    """Stitches that an edge lost when the row counter read `row`; `level` where bound off."""

    row: int
    stitches: int
    level: bool


def outer_events(piece: Piece, side: Side) -> list[Event]:
    """What the bed bound off and decreased at a `side` of a piece, until its stitches leave it."""
    found = []
    for step, before, after in traced(piece):
        if not before.loaded:
            continue
        edge = outermost(before.loaded, side)
        if isinstance(step, TakeOff) and edge in step.needles:
            break
        if isinstance(step, BindOff | Transfer) and after.loaded:
            gone = abs(edge.place - outermost(after.loaded, side).place)
            if gone and edge in step.needles:
                found.append(Event(before.counter, gone, isinstance(step, BindOff)))
    return found


def neck_events(piece: Piece) -> list[list[Event]]:
    """What the bed bound off and decreased on the neck's side of either half, in turn."""
    assert piece.opening is not None
    halves: list[list[Event]] = []
    sides = [Side.RIGHT, Side.LEFT][::-1 if piece.mirrored else 1]
    begun = False
    for step, before, after in traced(piece):
        if after.counter == piece.opening.row and (before.counter > after.counter or not halves):
            halves.append([])
            begun = False
        active = before.loaded & before.working
        if not halves or not active or not after.loaded:
            continue
        begun = begun or before.counter > piece.opening.row
        inner = outermost(active, sides[len(halves) - 1].other)
        left = after.loaded & after.working
        if isinstance(step, BindOff | Transfer) and inner in step.needles and begun and left:
            gone = abs(inner.place - outermost(left, sides[len(halves) - 1].other).place)
            if gone:
                halves[-1].append(Event(before.counter, gone, isinstance(step, BindOff)))
    return halves


def along(events: Sequence[Event], start: int, rows: int, gauge: Gauge, *, smooth: bool) -> float:
    """The length of an edge from row `start`, `rows` high [mm].

    What is bound off runs along its row. Decreases lie on a slope from the event before. A band
    pulls steps `smooth` that are few rows above the event before: each is a slope as well. A slope
    above more plain rows begins as far below its first decrease as the next one lies above it, 2
    rows where none follows.
    """
    stitch, row = float(gauge.stitch), float(gauge.row)
    long, at = 0.0, start
    for n, event in enumerate(events):
        up, wide, at = event.row - at, event.stitches * stitch, event.row
        follows = n > 0 and not events[n - 1].level
        few = smooth and up <= FEW and event.stitches <= FEW
        if event.level:
            long += hypot(wide, up * row) if few else up * row + wide
        elif few or follows or not smooth:
            long += hypot(wide, up * row)
        else:
            above = events[n + 1:n + 2]
            steep = min(up, above[0].row - event.row if above and not above[0].level else 2)
            long += (up - steep) * row + hypot(wide, steep * row)
    return long + (start + rows - at) * row


def of(form: str, size: str, gauge: Gauge, neck: Neck = Neck.ROUND,
       curve: NeckCurve = NeckCurve.STEPS) -> Garment:
    known = pieces.chart("women").measurements(size)
    own = {"front_neck": "20 cm"} if neck is Neck.V else {}
    spec = NeckSpec(curve=curve)
    return FORMS[form].shape(replace(
        pieces.cut(form, known, gauge, neck=neck, own=own),
        conventions=Conventions(front_neck=spec, back_neck=spec)))


def lengths(sections: Sequence[Section]) -> list[float]:
    return [float(s.length) for s in sections if s.offer is Offer.ROWS]


@pytest.mark.sampled(9, each=("form", "size", "per"))
@pytest.mark.parametrize("form", SLEEVELESS)
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("per", GAUGES)
def test_an_armhole_is_as_long_as_what_the_bed_did_at_it(form: str, size: str,
                                                        per: tuple[int, int]) -> None:
    gauge = pieces.gauge(*per)
    made = of(form, size, gauge)
    (under,) = [count.value for _, name, count in made.counts if name == "rows_to_armhole"]
    for worn in ("right", "left"):
        edge, sides = armhole(made, worn)
        told = {s.worn.value: float(s.length) for s in edge.sections
                if s.worn and s.offer is Offer.ROWS}
        for key, (piece, side) in sides.items():
            all_ = [e for e in outer_events(piece, side) if e.row >= under]
            bound, above = (all_[0].row, all_[1:]) if all_ and all_[0].level else (under, all_)
            seen = along(above, bound, rows_at_the_edge(piece, side, under), gauge, smooth=True)
            assert told[key] == pytest.approx(seen, abs=.01), (worn, key, all_)


@pytest.mark.sampled(24, each=("form", "neck", "curve", "size", "per"))
@pytest.mark.parametrize("form", LEVEL_TOPS)
@pytest.mark.parametrize(("neck", "curve"), [
    (Neck.ROUND, NeckCurve.STEPS), (Neck.ROUND, NeckCurve.ELLIPSE), (Neck.V, NeckCurve.STEPS),
    (Neck.SQUARE, NeckCurve.STEPS)])
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("per", GAUGES)
def test_the_side_of_a_neck_is_as_long_as_what_the_bed_did_at_it(
        form: str, neck: Neck, curve: NeckCurve, size: str, per: tuple[int, int]) -> None:
    gauge = pieces.gauge(*per)
    made = of(form, size, gauge, neck, curve)
    for key in ("front", "back"):
        piece = next(p for p in made.pieces if p.key == key)
        told = lengths([s for s in made.edges["neck"].sections if s.name == f"{key} neck"])
        if piece.opening and told and not piece.opening.held:
            seen = [along(events, piece.opening.row, rows, gauge, smooth=True)
                    for events, rows in zip(neck_events(piece), rows_beside_the_neck(piece),
                                            strict=True)]
            assert told == pytest.approx(seen, abs=.01), (key, neck_events(piece))


@pytest.mark.sampled(9, each=("form", "size", "per"))
@pytest.mark.parametrize("form", SET_IN)
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("per", GAUGES)
def test_cap_and_armhole_are_as_long_as_what_the_bed_did_at_them(
        form: str, size: str, per: tuple[int, int]) -> None:
    """Sewn, nothing pulls the steps smooth. Of the two edges that make an armhole, and a cap, one
    is bound off a row later: the row below lies in the seam of the side, or of the sleeve. The left
    front of two is a mirror image: both edges of the left armhole are bound off in one row."""
    gauge = pieces.gauge(*per)
    made = of(form, size, gauge)
    joins = [join for join in made.joins if join.kindred is Kindred.LENGTH]
    by_key = {piece.key: piece for piece in made.pieces}
    (under,) = [count.value for _, name, count in made.counts if name == "rows_to_armhole"]
    (up,) = [c.value for key, name, c in made.counts if (key, name) == (
        "sleeve", "rows_to_underarm")]

    def seen(key: str, side: Side, low: int) -> float:
        events = [e for e in outer_events(by_key[key], side) if e.row >= low]
        first = events[0].row if events and events[0].level else low
        rows = rows_at_the_edge(by_key[key], side, low) if key != "sleeve" else (
            max(after.counter for *_, after in traced(by_key[key])) - first)
        return along(events, first, rows, gauge, smooth=False)

    cap = sum(seen("sleeve", side, up) for side in Side) + by_key["sleeve"].top * float(
        gauge.stitch)
    whole = sum(seen("back", side, under) for side in Side)
    worn = {side: seen("back", side.other, under) + seen(f"{side.value}_front", side, under)
            for side in Side if f"{side.value}_front" in by_key}
    apart = len({round(length, 2) for length in worn.values()}) > 1
    assert [join.side for join in joins] == ([Side.RIGHT, Side.LEFT] if apart else [None])
    for join in joins:
        armhole = worn[join.side] if join.side else whole
        assert float(join.one) == pytest.approx(armhole, abs=.01)
        assert float(join.other) == pytest.approx(cap, abs=.01)


@pytest.mark.parametrize("size", SIZES)
def test_the_straight_rows_of_an_armhole_say_where_one_of_them_lies(size: str) -> None:
    """The row between the bind-offs of the two sides counts with those above the slope."""
    gauge = pieces.gauge(28, 40)
    known = pieces.chart("women").measurements(size)
    made = FORMS["set-in pullover"].shape(pieces.cut("set-in pullover", known, gauge, own={
        "armhole_straight": "9 cm"}))
    counts = {name: count for key, name, count in made.counts if key == "back"}
    back = next(piece for piece in made.pieces if piece.key == "back")
    under, straight = counts["rows_to_armhole"].value, counts["armhole_straight_rows"]
    for side in Side:
        last = max(event.row for event in outer_events(back, side))
        above = under + counts["armhole_rows"].value - last
        assert straight.value == above + 1
    assert "one of them between the two bind-offs" in working_of(straight)

"""Own outlines drawn at random: pieces by points, joined as they can be, or as they cannot."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from walebook.source.keys.outline_keys import (
    OwnJoinKeys,
    OwnPieceKeys,
    OwnShortRowKeys,
    PointKeys,
)

from tests.laws.from_keys import Known, mappings

Outline = dict[str, Any]
NOTHING = Known(())
SCHEDULED = st.sampled_from((
    {"order": "slow first"}, {"order": "fast first"}, {"order": "one rate"},
    {"plain_end": "4 rows"}, {"order": "mixed evenly", "plain_start": "2 rows"},
    {"first_row": "3"}, {"rates": "every 2nd row once then evenly"},
    {"rates": "every 1st and 1st and 2nd row in turn"}))


@st.composite
def short_rows(draw: DrawFn, measure: Callable[[int, int], str], heights: list[str], high: int,
               wide: int) -> Outline:
    """Short rows of a piece: at one of its corners or elsewhere, below about `high` [mm]."""
    corner = heights and draw(st.booleans())
    own = {"height": draw(st.sampled_from(heights)) if corner else measure(5, high + 60),
           "middle": measure(5, wide)}
    if (rows := draw(st.sampled_from(("", "shorter", "longer")))):
        own |= {"rows": rows, "extra": measure(5, 60)}
    elif draw(st.booleans()):
        own |= {"over": measure(20, wide), "beside": draw(st.sampled_from(("left", "right")))}
    tenths = {"rows": 0, "extra": 0, "times": 2, "over": 0, "beside": 0}
    return dict(draw(mappings(OwnShortRowKeys, NOTHING, own, near={
        "times": st.integers(1, 4).map(str)}, tenths=tenths)))


@st.composite
def outlines(draw: DrawFn) -> Outline:
    """The measures, pieces and joins of a garment, one or two pieces of at most four corners."""
    measures: dict[str, str] = {}

    def measure(low: int, high: int) -> str:
        name = f"m{'abcdefghijklmnopqrstuvwxyz'[len(measures) // 26]}"
        name += "abcdefghijklmnopqrstuvwxyz"[len(measures) % 26]
        measures[name] = f"{draw(st.integers(low, high))} mm"
        return name

    pieces = {}
    for key in draw(st.sampled_from((("bag",), ("bag", "strap")))):
        corners, at = [], 0
        alike = draw(st.integers(0, 2)) > 0
        wide = draw(st.integers(100, 400)) if alike else draw(st.integers(60, 200))
        own: Outline = {"width": measure(*((wide if alike else 2 * wide),) * 2)}
        for number in range(draw(st.integers(0, 4))):
            level = number and draw(st.integers(0, 3)) == 0
            up = 0 if level else draw(st.integers(10, 120))
            at += up
            wide += draw(st.integers(-40, 0) if level else st.integers(-up, up))
            height = corners[-1]["height"] if level else measure(at, at)
            corner = {"height": height, "width": measure(max(wide, 30), max(wide, 30))}
            corner |= {"by": "steps"} if draw(st.integers(0, 4)) == 4 else {}
            corner |= {"name": f"part {number}"} if draw(st.booleans()) else {}
            corners.append(draw(mappings(
                PointKeys, NOTHING, corner, near={"slope": SCHEDULED},
                tenths={"by": 0, "name": 0, "slope": 0 if "by" in corner or level else 2})))
        own["height"] = measure(at + draw(st.sampled_from((0, 20))), at + 150)
        if corners:
            own[draw(st.sampled_from(("left", "right"))) if not alike else "sides"] = corners
        own |= {"times": "2"} if draw(st.integers(0, 5)) == 5 else {}
        heights = [corner["height"] for corner in corners]
        short = [draw(short_rows(measure, heights, at, max(wide, 30))) for _ in range(
            draw(st.sampled_from((0, 0, 0, 1, 2))))]
        own |= {"short_rows": short} if short else {}
        pieces[key] = draw(mappings(OwnPieceKeys, NOTHING, own, near={
            "top": st.sampled_from(("bound off", *["waste yarn"] * (draw(st.integers(0, 9)) > 8)))},
            tenths={"sides": 0, "left": 0, "right": 0, "times": 0, "short_rows": 0}))
    joins = draw(st.sampled_from(
        ([], [{"sew": "bag.left", "to": "bag.right"}], [{"sew": "bag.top", "to": "bag.bottom"}],
         [{"sew": "bag.left", "to": "bag.bottom", "ease": "5 %"}])))
    joins = [draw(mappings(OwnJoinKeys, NOTHING, join, tenths={"ease": 1})) for join in joins]
    return {"measures": measures, "pieces": pieces, **({"joins": joins} if joins else {})}

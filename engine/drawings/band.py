"""Draws a band opened out flat: both layers, the fold, the buttonholes to scale along it."""

from __future__ import annotations

from ..machine.steps import Side
from ..markup.html import esc
from ..pattern.holes import Closing
from ..plan.band import BandPlan
from ..plan.buttonholes import Placing
from ..program.bands.closings import closing_of
from ..words.words import counted, joined, stitches

LEFT, LONG, RIGHT = 8, 300, 308  # the band's ends, and its length between them
FIRST, HOLES, FOLD, JOINED, LAST = 44, 66, 88, 110, 132


def band_drawing(plan: BandPlan, *, hem: Side, with_holes: bool, prefix: str, ends: tuple[str, str],
                 start: str = "hem") -> str:
    """Return the figure of a band whose `start` lies at `hem`; `ends` name its left and right."""
    holes = _drawn(plan, with_holes)
    said = esc(drawing_said(plan, with_holes=with_holes, start=start))
    return (
        f'<figure class="wb-drawing"><svg viewBox="0 0 340 140" width="612" height="252" role="img"'
        f' aria-labelledby="{prefix}-t" aria-describedby="{prefix}-d">'
        f'<title id="{prefix}-t">The band opened out flat</title>'
        f'<g fill="none" stroke="currentColor"><path stroke-width="2" d="M{LEFT} {FIRST}H{RIGHT}'
        f'V{LAST}H{LEFT}z"/><path stroke-dasharray="7 5" stroke-width="2" d="M{LEFT} {FOLD}'
        f'H{RIGHT}"/>{_holes(holes, hem)}</g><g fill="currentColor" font-size="15">'
        f"{_text(LEFT, 16, esc(ends[0]), 'start')}{_text(RIGHT, 16, esc(ends[1]), 'end')}"
        f"{_numbers(holes, hem)}{_row_numbers(plan, with_holes)}</g></svg>"
        f'<figcaption id="{prefix}-d">{said}</figcaption></figure>')


def drawing_said(plan: BandPlan, *, with_holes: bool, start: str = "hem") -> str:
    """The drawing in words."""
    r, holes = plan.rows, _drawn(plan, with_holes)
    text = f"The band opened out flat: {stitches(plan.stitches.value)} along it. "
    if holes is None:
        closing = "" if plan.placing is None else \
            " Loops stand along the fold." if with_holes else " No buttonholes."
        return (text + f"{counted(plan.depth.value, 'row')} to the fold (the dashed line), "
                       f"{plan.depth.value} after it.{closing}")
    along = [stitches(holes.lower), f"{holes.holes} buttonholes of {holes.hole}"]
    if holes.holes == 1:
        along = [stitches(holes.lower), f"one buttonhole of {holes.hole}"]
    if holes.gaps:
        along.append(f"between them {', '.join(map(str, holes.gaps))}")
    along.append(f"then {stitches(holes.upper)} to the upper end")
    return (text + f"From the {start}: {joined(along)}. "
            f"{counted(r.to_holes, 'row')} to the buttonholes, {r.holes_to_fold} to the fold (the "
            f"dashed line), {r.fold_to_holes} to {_second(plan)} (dotted), "
            f"{r.to_finish} to the end. To scale along the band, not across it.")


def _drawn(plan: BandPlan, with_holes: bool) -> Placing | None:
    """The holes that the layers have; loops are no holes."""
    return plan.placing if with_holes and closing_of(plan) is not Closing.LOOPS else None


def _second(plan: BandPlan) -> str:
    return "where the holes are closed" if closing_of(plan) is Closing.ENCLOSED else \
        "the same holes in the second layer"


def _x(stitch_edges: int, total: int, hem: Side) -> str:
    """Where a stitch boundary counted from the hem lies, in tenths of a unit, as text."""
    tenths = 10 * LONG * stitch_edges // total
    tenths = 10 * LEFT + tenths if hem is Side.LEFT else 10 * RIGHT - tenths
    return f"{tenths // 10}.{tenths % 10}"


def _holes(holes: Placing | None, hem: Side) -> str:
    if holes is None:
        return ""
    spans = [(_x(s - 1, holes.stitches, hem), _x(s - 1 + holes.hole, holes.stitches, hem))
             for s in holes.starts]
    slots = "".join(f"M{a} {HOLES}H{b}" for a, b in spans)
    closed = "".join(f"M{a} {JOINED}H{b}" for a, b in spans)
    return (f'<path stroke-width="5" d="{slots}"/>'
            f'<path stroke-width="3" stroke-dasharray="2 2" d="{closed}"/>')


def _numbers(holes: Placing | None, hem: Side) -> str:
    """The stitches of ends and gaps above the band, where there is room for all of them."""
    if holes is None:
        return ""
    runs = [(0, holes.lower)]
    runs += [(start - 1 + holes.hole, gap)
             for start, gap in zip(holes.starts, holes.gaps, strict=False)]
    runs.append((holes.stitches - holes.upper, holes.upper))
    if any(LONG * gap // holes.stitches < 9 * len(str(gap)) for _, gap in runs[1:-1]):
        return ""
    return "".join(_text(_x(2 * at + gap, 2 * holes.stitches, hem), 37, str(gap), "middle")
                   for at, gap in runs)


def _row_numbers(plan: BandPlan, with_holes: bool) -> str:
    r = plan.rows
    marks: tuple[tuple[int, int], ...]
    if _drawn(plan, with_holes) is None:
        marks = ((HOLES, plan.depth.value), (JOINED, plan.depth.value))
    else:
        marks = (((FIRST + HOLES) // 2, r.to_holes), ((HOLES + FOLD) // 2, r.holes_to_fold),
                 ((FOLD + JOINED) // 2, r.fold_to_holes), ((JOINED + LAST) // 2, r.to_finish))
    return "".join(_text(RIGHT + 6, y + 5, str(rows), "start") for y, rows in marks)


def _text(x: int | str, y: int, said: str, anchor: str) -> str:
    return f'<text x="{x}" y="{y}" text-anchor="{anchor}">{said}</text>'

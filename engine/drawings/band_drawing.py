"""Draws a band opened out flat: both layers, the fold, the buttonholes to scale along it."""

from __future__ import annotations

from ..machine.steps import Side
from ..markup.html import esc, svg_text
from ..plan.band import BandPlan
from ..plan.buttonholes import Placing
from ..words.band_drawn import TITLE, drawing_text, holes_drawn
from .dimensions import px

LEFT, LONG, RIGHT = 8, 300, 308  # the band's ends, and its length between them
FIRST, HOLES, FOLD, JOINED, LAST = 44, 66, 88, 110, 132


def band_drawing(plan: BandPlan, *, hem: Side, with_holes: bool, prefix: str, ends: tuple[str, str],
                 start: str = "hem") -> str:
    """Return the figure of a band whose `start` lies at `hem`; `ends` name its left and right."""
    holes = holes_drawn(plan, with_holes)
    caption = esc(drawing_text(plan, with_holes=with_holes, start=start))
    return (
        f'<figure class="wb-drawing"><svg viewBox="0 0 340 140" width="340" height="140" role="img"'
        f' aria-labelledby="{prefix}-t" aria-describedby="{prefix}-d">'
        f'<title id="{prefix}-t">{TITLE}</title>'
        f'<g fill="none" stroke="currentColor"><path stroke-width="2" d="M{LEFT} {FIRST}H{RIGHT}'
        f'V{LAST}H{LEFT}z"/><path stroke-dasharray="7 5" stroke-width="2" d="M{LEFT} {FOLD}'
        f'H{RIGHT}"/>{_holes(holes, hem)}</g><g fill="currentColor" font-size="15">'
        f"{svg_text(LEFT, 16, esc(ends[0]), 'start')}{svg_text(RIGHT, 16, esc(ends[1]), 'end')}"
        f"{_numbers(holes, hem)}{_row_numbers(plan, with_holes)}</g></svg>"
        f'<figcaption id="{prefix}-d">{caption}</figcaption></figure>')


def _x(stitch_edges: int, total: int, hem: Side) -> str:
    """Where a stitch boundary counted from the hem lies, in tenths of a unit, as text."""
    tenths = 10 * LONG * stitch_edges // total
    tenths = 10 * LEFT + tenths if hem is Side.LEFT else 10 * RIGHT - tenths
    return px(tenths)


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
    if any(LONG * gap // holes.stitches < 8 * len(str(gap)) for _, gap in runs[1:-1]):
        return ""
    return "".join(svg_text(_x(2 * at + gap, 2 * holes.stitches, hem), 37, str(gap), "middle")
                   for at, gap in runs)


def _row_numbers(plan: BandPlan, with_holes: bool) -> str:
    r = plan.rows
    marks: tuple[tuple[int, int], ...]
    if holes_drawn(plan, with_holes) is None:
        marks = ((HOLES, plan.depth.value), (JOINED, plan.depth.value))
    else:
        marks = (((FIRST + HOLES) // 2, r.to_holes), ((HOLES + FOLD) // 2, r.holes_to_fold),
                 ((FOLD + JOINED) // 2, r.fold_to_holes), ((JOINED + LAST) // 2, r.to_finish))
    return "".join(svg_text(RIGHT + 6, y + 5, str(rows), "start") for y, rows in marks)

"""A band mitred at the point of a V: how many stitches go at either side of it, and when.

Towards the neck each row inside the corner is shorter. Each side loses in every row the height
of the row over the width of a stitch, times how steep the V is (geometry): 0.75 a row at a square
corner where a row is three quarters as high as a stitch is wide.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import Chosen, Operand, Rule, plain
from ..core.operands import Reason, Role
from ..fabric.gauge import Gauge, counted
from ..shape.edging import Corner
from ..shape.schedule import Finish, spread_events
from .meeting import Meeting


@dataclass(frozen=True, slots=True, kw_only=True)
class MitrePlan:
    """`corner` is its stitch, from 1 at the first end; `rows` those of a layer, from the garment
    to the fold, after which a stitch goes at either side of it."""

    corner: int
    pairs: Count
    rows: tuple[int, ...]


def plan_mitre(corner: Corner, meetings: Sequence[Meeting], gauge: Gauge, rows: int) -> MitrePlan:
    """Return the mitre over a layer of `rows` [rows].

    A pair goes at most after every second row, and never after the last, and no more than leaves
    two stitches on either side: the fabric gives the rest (one published band: a pair every two
    rows, Mary Anne Oger, That mitre, knitwords.blogspot.com, 2020-04).
    """
    before = sum(m.stitches.value for m in meetings[:corner.before])
    at = before + 1 if corner.own else before
    total = sum(m.stitches.value for m in meetings)
    high = Operand(Fraction(rows), Role.ROWS) * Operand(gauge.row, Role.MILLIMETRES)
    asked = counted(high * Operand(corner.steep, Role.STEEPNESS)
                    / Operand(gauge.stitch, Role.STITCH_WIDTH), Unit.STITCHES, gauge.stitch, DOWN)
    most = max(0, min((rows - 1) // 2, at - 3, total - at - 2))
    pairs = Count(Chosen((asked.made, plain(most)), Rule.SMALLEST, Reason.MITRE), Unit.STITCHES)
    schedule = spread_events(pairs.value, rows - 1, finish=Finish.EVENT)
    return MitrePlan(corner=at, pairs=pairs, rows=schedule.event_rows)

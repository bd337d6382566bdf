"""A band mitred where it turns: how many stitches go or come at either side of a corner, and when.

Towards the free edge each row inside a corner is shorter, each row outside one longer. Either side
loses or gains in every row the height of the row over the width of a stitch, times how steep the
corner is (geometry): 0.75 a row at a square one where a row is three quarters as high as a stitch
is wide.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field, replace
from fractions import Fraction
from itertools import pairwise

from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import (
    NOTHING,
    Chosen,
    Expression,
    Operand,
    Rounded,
    Rule,
    Sum,
    Term,
    plain,
)
from ..core.operands import ChoiceReason, Role
from ..fabric.gauge import Gauge, counted
from ..machine.records import dataclass
from ..pattern.edges import Offer
from ..shape.corners import squares
from ..shape.edge_path import EdgePath
from ..shape.edging import Section
from ..shape.even_gaps import Finish
from ..shape.schedule import spread_events
from .meeting import Meeting

LEFT = 2  # stitches that stay beside every corner; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Turns:
    """The corners of an edge at which a band can be mitred: the numbers of the stitches that stay,
    from 1 at the first end, how steep they are, and whether the band's free edge is `longer` than
    its foot there. `counted` computes these numbers."""

    corners: tuple[int, ...]
    steep: Expression
    longer: bool
    counted: tuple[Expression, ...] = field(default=(), compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class MitrePlan:
    """`turns` are its corners; `rows` those of a layer, from the garment on, after which a stitch
    goes, or comes, at either side of every corner: `pairs` at each."""

    turns: Turns
    pairs: Count
    rows: tuple[int, ...]

    @property
    def wider(self) -> int:
        """How many stitches the band has more at its free edge than at its foot [stitches]."""
        every = 2 * len(self.turns.corners) * self.pairs.value
        return every if self.turns.longer else -every


def can_turn(edge_path: EdgePath) -> bool:
    """True for an edge with the point of a V, or with square corners that are all alike."""
    return edge_path.corner is not None or \
        len({corner.juts for corner in squares(edge_path.sections)}) == 1


def turns_of(edge_path: EdgePath, meetings: Sequence[Meeting], *, stands: bool) -> Turns | None:
    """Return the corners at which a band along an edge turns, None where there is none.

    The point of a V, inside which a band lies that `stands`; or square corners, all inward or all
    outward. There the stitch that stays is the end of the straight side.
    """
    if edge_path.corner is not None:
        before = _upto(meetings, edge_path.corner.before)
        return _turns([before + plain(1) if edge_path.corner.own else before],
                      edge_path.corner.steep, longer=not stands)
    found = squares([m.section for m in meetings])
    if len({corner.juts for corner in found}) != 1:
        return None
    return _turns([_stays(meetings, corner.before) for corner in found],
                  Operand(Fraction(1), Role.STEEPNESS), longer=found[0].juts is stands)


def _turns(counted: Sequence[Expression], steep: Expression, *, longer: bool) -> Turns:
    return Turns(corners=tuple(int(one.value) for one in counted), steep=steep, longer=longer,
                 counted=tuple(counted))


def _upto(meetings: Sequence[Meeting], number: int) -> Expression:
    """The stitches of the first sections."""
    parts = tuple(m.stitches.term(Role.NUMBER) for m in meetings[:number])
    return parts[0] if len(parts) == 1 else Sum(parts)


def _stays(meetings: Sequence[Meeting], before: int) -> Expression:
    """The last stitch of the straight side before a corner, or the first of the one behind it."""
    upto = _upto(meetings, before)
    return upto if _is_side(meetings[before - 1].section) else upto + plain(1)


def _is_side(section: Section) -> bool:
    return section.offer is Offer.ROWS and not any(segment.stitches for segment in section.segments)


def plan_mitre(turns: Turns, stitches: Count, gauge: Gauge, rows: Count) -> MitrePlan:
    """Return the mitre over a layer of `rows` [rows] of a band of so many `stitches`.

    A pair goes or comes at most after every second row, and never after the last; no more go than
    leave two stitches beside every corner. The fabric gives the rest. A pair every two rows:
    inward Mary Anne Oger, That mitre, knitwords.blogspot.com, 2020-04, and Make some mitred
    squares, lovecrafts.com; outward Josephine's squares, adding a border,
    stitchtherapyknitalong.blogspot.com, 2013-03, and Knitting around the corner, knitting.today.
    """
    high = rows.term(Role.ROWS) * Operand(gauge.row, Role.MILLIMETRES)
    depth = counted(high * Term(turns.steep, Role.STEEPNESS)
                    / Operand(gauge.stitch, Role.STITCH_WIDTH), Unit.STITCHES, gauge.stitch, DOWN)
    every_second = Rounded((rows.term(Role.ROWS) - plain(1)) / plain(2), DOWN)
    room = () if turns.longer else map(_not_below_none, _room(turns, stitches))
    pairs = Count(Chosen((depth.made, every_second, *room), Rule.SMALLEST, ChoiceReason.MITRE),
                  Unit.STITCHES)
    schedule = spread_events(pairs.value, rows.value - 1, finish=Finish.EVENT)
    return MitrePlan(turns=turns, pairs=pairs, rows=schedule.event_rows)


def turned_between(mitre: MitrePlan, start: int, end: int, *, joined: int) -> MitrePlan | None:
    """Return the mitre of a part with the stitches after `start` up to `end` [stitches], which has
    `joined` more before them; None where no corner lies in it."""
    inside = tuple(corner - start + joined for corner in mitre.turns.corners
                   if start < corner <= end)
    return replace(mitre, turns=replace(mitre.turns, corners=inside)) if inside else None


def _room(turns: Turns, stitches: Count) -> Iterator[Expression]:
    """How many pairs each stretch between corners, or beside one, has stitches for."""
    corners = turns.counted or tuple(map(plain, turns.corners))
    yield Term(corners[0] - plain(1), Role.NUMBER) - plain(LEFT)
    yield from (Rounded((Term(b - a - plain(1), Role.NUMBER) - plain(LEFT)) / plain(2), DOWN)
                for a, b in pairwise(corners))
    yield Term(stitches.term(Role.NUMBER) - corners[-1], Role.NUMBER) - plain(LEFT)


def _not_below_none(room: Expression) -> Expression:
    if room.value >= 0:
        return room
    return Chosen((room, NOTHING), Rule.LARGEST, ChoiceReason.NO_ROOM)

"""Reads a program's steps as shaping: what is done at which edge when the row counter shows what.

A piece's program changes its edges between rows. Changes that follow each other and are alike
are put together, and where two edges change by turns their rows are put into one list, so that
nothing has to be done "meanwhile" or "the other way round".
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from ..machine import edge_steps, steps
from ..machine.members import Members
from ..machine.needles import Needles
from ..machine.reasons import Reason
from ..machine.records import dataclass
from ..machine.set_up_steps import Carriage, HangWeights, SetCarriage, Weight
from ..machine.step_keys import Topic
from ..machine.steps import Side, Step
from ..machine.trace import State
from .charted_rows import plain_rows, rows_from
from .instruction import Moment
from .set_up_instructions import sets_hold

LONGEST_MOVE = 12  # stitches moved inward with a decrease, at most


class Done(Members):
    """What is done to an edge between two rows."""

    DECREASE = "decrease"
    INCREASE = "increase"
    BIND_OFF = "bind off"
    HOLD = "hold"
    BACK = "put back"
    MARK = "mark"
    DART_LESS = "dart, fewer"
    DART_MORE = "dart, more"


DARTS = {Done.DART_LESS, Done.DART_MORE}
_AT_EDGES = {steps.Transfer, steps.Increase, steps.Hold, steps.Resume, steps.Attend, steps.Bring,
             edge_steps.BindOff}
_SETS = {SetCarriage, HangWeights}
_AT_DART = {Reason.DART_LESS: Done.DART_LESS, Reason.DART_MORE: Done.DART_MORE}


class Act(NamedTuple):
    """`stitches` changed at the edge at `side`; `moved` with each decrease; `needles` concerned.

    For what is bound off `needles` are those emptied. A mark is at each edge whose end needle is
    among its `needles` (`side` None).
    """

    done: Done
    side: Side | None
    stitches: int
    moved: int
    needles: Needles

    @property
    def alike(self) -> tuple[Done, Side | None, int, int]:
        """What acts that are told together have in common."""
        return self.done, self.side, self.stitches, self.moved

    @property
    def order(self) -> tuple[str, str]:
        """A fixed order of the acts of one row."""
        return self.done.value, self.side.value if self.side else ""


class Event(NamedTuple):
    """All `acts` between two rows, after `rows` rows, and the states of the bed around them.

    Where they are `charted`, the rows are knitted from a stitch chart. `sets` are the steps that
    set the carriage for the acts, and hang claw weights. `first` and `upto` say which
    steps of the program it takes up, the rows before included.
    """

    first: int
    upto: int
    rows: int
    acts: tuple[Act, ...]
    before: State
    after: State
    charted: bool = False
    sets: tuple[Step, ...] = ()

    @property
    def counter(self) -> int:
        """What the row counter shows."""
        return self.after.counter

    @property
    def is_mark(self) -> bool:
        """True for a thread tied into an edge, which is all that is done then."""
        return self.acts[0].done is Done.MARK

    @property
    def alike(self) -> tuple[object, ...]:
        """What events told together have in common."""
        return tuple(act.alike for act in self.acts)


@dataclass(frozen=True, slots=True)
class ShapingBlock:
    """Events told as one numbered step: all alike, or a list of rows where they are `mixed`.

    What is done `before` the first row is told with them.
    """

    events: tuple[Event, ...]
    mixed: bool
    before: Moment | None = None

    @property
    def first(self) -> int:
        """The first of its steps."""
        return self.before.at if self.before else self.events[0].first

    @property
    def upto(self) -> int:
        """The step after its last one."""
        return self.events[-1].upto


def act_of(step: Step, before: State) -> Act | None:
    """Return what a step does to an edge of the work; None where it does something else."""
    if type(step) not in _AT_EDGES:  # most steps of a program are others
        return None
    if not isinstance(step.reason, tuple) and (done := _AT_DART.get(step.reason)):
        return _act_at_dart(step, done, before)
    match step:
        case steps.Transfer() if _moves_an_edge(step, before):
            side = Side.RIGHT if step.by < 0 else Side.LEFT
            return Act(Done.DECREASE, side, 1, len(step.needles), step.needles)
        case steps.Increase() if not _lies_within(step.needles, before.loaded):
            work = before.loaded
            side = Side.RIGHT if step.needles.last > work.last else Side.LEFT
            return Act(Done.INCREASE, side, len(step.needles), 0, step.needles)
        case edge_steps.BindOff(keep_last=True, rest=True, layers=1):
            gone = len(step.needles) - 1
            off = step.needles.rightmost(gone) if step.toward is Side.LEFT else \
                step.needles.leftmost(gone)
            return Act(Done.BIND_OFF, step.toward.other, gone, 0, off)
        case steps.Hold():
            held = _held_at(step.needles, before.loaded - before.holding)
            return held and Act(Done.HOLD, held, len(step.needles), 0, step.needles)
        case steps.Resume(reason=Reason.BACK_TO_SHORT_ROWS):
            work = before.loaded - before.holding
            side = Side.RIGHT if step.needles.first > work.last else Side.LEFT
            return Act(Done.BACK, side, len(step.needles), 0, step.needles)
        case steps.Attend(to=Topic.MARK_EDGES):
            return Act(Done.MARK, None, len(step.needles), 0, step.needles)
    return None


def _act_at_dart(step: Step, done: Done, before: State) -> Act:
    """What one of the steps of a dart moves, brings or fills, the first or last of them counted."""
    assert isinstance(step, steps.Transfer | steps.Bring | steps.Increase)
    work = before.loaded - before.holding
    first = isinstance(step, steps.Transfer) and abs(step.by) == 1 and done is Done.DART_LESS
    counted = 2 if first or isinstance(step, steps.Increase) else 0
    middle = work.first.place + work.last.place
    side = Side.RIGHT if step.needles.first.place + step.needles.last.place > middle else Side.LEFT
    return Act(done, side, counted, 0, step.needles)


def _lies_within(needles: Needles, work: Needles) -> bool:
    """True for needles between others with stitches, as those of a rib that are filled."""
    return needles.first > work.first and needles.last < work.last


def _moves_an_edge(step: steps.Transfer, before: State) -> bool:
    """True where neighbouring stitches at an edge of what is in work go one needle inward."""
    if not step.rest or abs(step.by) != 1 or not step.needles.is_unbroken:
        return False
    work = before.loaded - before.holding
    outer = step.needles.last if step.by < 0 else step.needles.first
    return len(step.needles) <= LONGEST_MOVE and outer == (
        work.last if step.by < 0 else work.first)


def _held_at(needles: Needles, work: Needles) -> Side | None:
    """The side at which needles in work are pushed to holding; None where none would be left."""
    if not needles <= work or needles == work or not needles.is_unbroken:
        return None
    if needles.last == work.last:
        return Side.RIGHT
    return Side.LEFT if needles.first == work.first else None


def read_events(section: Sequence[Step], states: Sequence[State], start: int, *,
                charted: bool = False) -> list[Event]:
    """Return the events of a section whose first step is the program's `start`th (from 0).

    `states` are those of the whole program. Steps that are neither shaping nor the rows before
    it belong to no event, nor do rows before which the carriage is not yet set as an act needs
    it. In a `charted` section a row is all that a chart asks for in it.
    """
    events, at = [], 0
    while at < len(section):
        rows, after = rows_from(section, at) if charted else (0, at)
        if not rows:
            rows = plain_rows(section[at])
            after = at + bool(rows)
        acts, sets, upto = _acts(section, states, start, after)
        if rows and sets_hold(sets):  # the rows are knitted as the carriage was set before
            rows, at = 0, after
        if acts:
            events.append(Event(start + at, start + upto, rows, acts,
                                _state(states, start + at), states[start + upto - 1], charted,
                                sets))
        at = max(upto, at + 1)
    return events


def _acts(section: Sequence[Step], states: Sequence[State], start: int, at: int
          ) -> tuple[tuple[Act, ...], tuple[Step, ...], int]:
    """The acts from step `at` of the section to the next row, what is set for them, and where
    that row is."""
    acts: list[Act] = []
    sets: list[Step] = []
    while at < len(section):
        if not start + at:
            break
        if _sets_up(section, states, start, at, acts):
            sets.append(section[at])
            at += 1
            continue
        act = act_of(section[at], states[start + at - 1])
        if act is None or (act.done is Done.MARK and acts):
            break
        if act.done is Done.MARK:  # told by itself: its edge is that of no shaping
            return (act,), tuple(sets), at + 1
        acts.append(act)
        at += 1
    return tuple(_together(acts)), tuple(sets), at


def _sets_up(section: Sequence[Step], states: Sequence[State], start: int, at: int,
             acts: Sequence[Act]) -> bool:
    """True for a lever set, or claw weights hung, for the acts of this row."""
    if type(section[at]) not in _SETS:
        return False
    match section[at]:
        case SetCarriage(to=Carriage.HOLD):
            return at + 1 < len(section) and isinstance(section[at + 1], steps.Hold) and (
                act_of(section[at + 1], states[start + at]) is not None)
        case SetCarriage(to=Carriage.KNIT):
            return bool(acts) and acts[-1].done is Done.BACK
        case HangWeights(weight=Weight.CLAWS):
            return bool(acts) and acts[-1].done in (Done.HOLD, Done.DECREASE)
    return False


def _together(acts: list[Act]) -> Iterator[Act]:
    """The acts of a row in a fixed order, those of a kind at one edge as one."""
    ordered = sorted(acts, key=lambda act: act.order)
    for _, group in groupby(ordered, key=lambda act: (act.done, act.side)):
        first, *more = group
        mask = first.needles.mask
        for act in more:
            mask |= act.needles.mask
        yield Act(first.done, first.side, first.stitches + sum(a.stitches for a in more),
                  first.moved, Needles(mask))


def _state(states: Sequence[State], at: int) -> State:
    return states[at - 1] if at else states[0]

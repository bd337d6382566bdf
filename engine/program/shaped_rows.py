"""The rows of a shaped piece, with every change of its edges on its row."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from ..fabric.arrangement import gathering
from ..machine.needles import NONE, Needles, centred, of
from ..machine.reasons import Reason
from ..machine.step_keys import BindOffMethod, Topic
from ..machine.steps import Dial, Side
from ..shape.crowns import PLAIN, Closed, Tighter, Top
from ..shape.held_rows import LAST_ROWS, HeldRows
from ..shape.pocket_slots import PocketSlot
from ..shape.profile import Change, How, Profile, at_row, by_row, merged
from . import row_parts
from .chart_actions import make_ready
from .ledger import AT, Ledger
from .part import ShapedStitches

FEW = 5  # stitches under which a weight for a wide piece has no hold; common practice, no source


def shape_rows(part: ShapedStitches, left: Profile, right: Profile, *, start: int = 0,
           marks: tuple[int, ...] = (), top: Top = PLAIN, pockets: tuple[PocketSlot, ...] = (),
           inside_left: bool = False, neck: int = 0, short: tuple[HeldRows, ...] = (),
           above: Profile | None = None) -> None:
    """Knit from row `start` to the edges' last row, making every change on its row.

    A left edge that is `inside`, at a neck or a front's opening, is not marked, but where a
    front edge goes over into a `neck`, at that row. `short` rows are knitted after the changes
    of their row. `above` is the right edge of the half that follows.
    """
    at, origin = start, part.first
    on_left, on_right = by_row(left), by_row(right)
    part.book.holds = {part.side(side): tuple(part.book.counter + row for row in held)
                       for side, held in ((Side.LEFT, _holds(left)),
                                          (Side.RIGHT, (*_holds(right), *(
                                              left.rows + row for row in _holds(above)))))}
    make_ready(part.chart, part.book)
    rows = {*merged(left, right), *marks, *((neck,) if neck else ()), *top.narrows,
            *(p.row for p in pockets), *(t.row for t in top.tightens),
            *(each.row for each in short)}
    for row in sorted(rows):
        # Only a chart may have chosen needles that are worked on by hand after the row.
        calm = _soon(part, left, right, row, top.narrows) if part.chart else NONE
        part.knit(start + row - at, calm)
        at = start + row
        for slot in pockets:
            if slot.row == row:
                first = origin + slot.start
                row_parts.open_pocket(part.book, slot, part.span(first, first + slot.stitches - 1))
        if row in marks:
            far = NONE if inside_left else part.edge(Side.LEFT, 1)
            part.book.attend(Topic.MARK_EDGES, far | part.edge(Side.RIGHT, 1))
        if neck and row == neck:
            part.book.attend(Topic.MARK_NECK, part.edge(Side.LEFT, 1))
        _narrow(part, top, row)
        for side, changes in ((Side.RIGHT, on_right), (Side.LEFT, on_left)):
            for change in changes.get(row, ()):
                _make(part, side, change)
        for each in short:
            if each.row == row:
                row_parts.knit_held_rows(part, each)
                at += LAST_ROWS
        if part.working <= FEW and row < left.rows and any(
                c.how is How.DECREASE for on in (on_left, on_right) for c in on.get(row, ())):
            part.book.hang_claws(part.span(part.first + part.idle_left,
                                           part.last - part.idle_right))
    part.knit(start + left.rows - at, part.span(part.first, part.last))
    part.book.cut_contrast()
    part.book.tuck_by_holding(False)


def _holds(edge: Profile | None) -> tuple[int, ...]:
    """The rows of an edge after which needles are held."""
    return tuple(change.row for change in edge.changes if change.how is How.HOLD) if edge else ()


def _narrow(part: ShapedStitches, top: Top, row: int) -> None:
    """What gathers or closes up the top at this row, and the dial that goes with it."""
    if row in top.gathers:
        _gather(part)
    for closed in top.closes:
        if closed.row == row:
            _close_up(part, closed)
    for tighter in top.tightens:
        if tighter.row == row:
            _tighten(part.book, tighter)


def _gather(part: ShapedStitches) -> None:
    """Every second stitch onto the one before it, the emptied needles out of work."""
    part.chart, part.reason = None, Reason.ABOVE_GATHERING  # from here on every row is plain
    part.book.cut_contrast()
    part.works, moves = gathering(part.stitches, mirrored=part.pivot is not None)
    for by, moved in moves:
        part.book.transfer(moved, by, fewer=len(moved), rest=True)


def _close_up(part: ShapedStitches, closed: Closed) -> None:
    """All stitches off and on again, side by side about the bed's centre."""
    part.chart, part.reason = None, Reason.NONE  # from here on every row is plain
    part.book.cut_contrast()
    old, mirrored = part.stitches, part.pivot is not None
    onto = centred(len(old) - closed.fewer, extra="right" if mirrored else "left")
    places = list(onto)[::-1] if mirrored else list(onto)
    part.book.close_up(old, onto, of(*(places[at] for at in closed.doubled)))
    part.first, part.last = onto.first.place, onto.last.place
    if part.pivot is not None:
        part.first, part.last = part.pivot - part.last, part.pivot - part.first


def _tighten(book: Ledger, tighter: Tighter) -> None:
    assert book.dial is not None
    why = Reason.TO_NARROW_TOP if tighter.thirds > 0 else Reason.FOR_GATHERING
    book.set_dial(Dial(max(0, book.dial.thirds - tighter.thirds)), why)


def _soon(part: ShapedStitches, left: Profile, right: Profile, row: int, tops: Collection[int]
          ) -> Needles:
    """The needles that are worked on by hand when the counter reads `row`."""
    if row in tops or row == left.rows:
        return part.span(part.first, part.last)
    needles = NONE
    for side, profile in ((Side.LEFT, left), (Side.RIGHT, right)):
        if changes := at_row(profile, row):
            needles |= part.edge(side, min(_reached(changes, part.moved), part.working))
    return needles


def _reached(changes: Iterable[Change], moved: int) -> int:
    """How many end stitches are moved, bound off or held for these changes, and the one beside
    them; of an increase, the end stitch that it is made from [stitches]."""
    changes = tuple(changes)
    gone = sum(c.stitches for c in changes if c.how is not How.INCREASE)
    most = moved if any(c.how is How.DECREASE for c in changes) else 1
    return gone + most if gone else 1


def _make(part: ShapedStitches, side: Side, change: Change) -> None:
    if change.how.at_dart:
        row_parts.shape_dart(part, side, change)
        return
    {How.DECREASE: _decrease, How.INCREASE: _increase, How.BIND_OFF: _bind_off,
     How.HOLD: _hold}[change.how](part, side, change.stitches)


def _decrease(part: ShapedStitches, side: Side, count: int) -> None:
    """Move the outermost stitches inward, so that the doubled one lies inside the edge.

    Where few are left, fewer are moved: both edges' doubled stitches lie on needles of their own.
    """
    inward = -1 if side is Side.RIGHT else 1
    for _ in range(count):
        moved = max(1, min(part.moved, (part.working - 2) // 2))
        by = inward if part.pivot is None else -inward
        edge = part.edge(side, moved)
        part.book.transfer(edge, by, fewer=1, rest=True)
        part.laid |= edge.shifted(by)
        part.narrow(side, 1)
    if count:
        inner = part.edge(side, moved)
        part.book.pile(inner.first if by < 0 else inner.last, count)


def _increase(part: ShapedStitches, side: Side, count: int) -> None:
    for _ in range(count):
        part.narrow(side, -1)
        part.book.increase(part.edge(side, 1))


def _bind_off(part: ShapedStitches, side: Side, count: int) -> None:
    """The last loop of what is bound off goes to the next stitch, which stays."""
    part.book.bind_off(part.edge(side, count + 1), part.book.yarn,
                       toward=part.side(side).other, keep_last=True,
                       method=BindOffMethod.STITCH_OVER, rest=True)
    part.narrow(side, count)
    part.laid |= part.edge(side, 1)


def _hold(part: ShapedStitches, side: Side, count: int) -> None:
    part.book.hold(part.edge(side, count), AT[part.side(side)])
    if side is Side.RIGHT:
        part.idle_right += count
    else:
        part.idle_left += count
    part.hang_claws()

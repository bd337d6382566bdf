"""The stitches of a vertical dart moved: two go or two come round its middle stitch."""

from __future__ import annotations

from ..machine.needles import Needles
from ..machine.prongs import IN_GOES
from ..machine.reasons import Reason
from ..machine.steps import Position, Side
from ..shape.profile import Change, How
from .part import ShapedStitches


def shape_dart(part: ShapedStitches, side: Side, change: Change) -> None:
    """Make a dart's change at one side of a part, all stitches outside it moved two needles.

    They are moved in goes, as many side by side as a transfer tool can take in several: those
    nearest to where they go first. Between them no stitch lies in work that is not moved.
    """
    if change.how is How.DART_LESS:
        _less(part, side, change.inset)
    else:
        _more(part, side, change.inset)


def _less(part: ShapedStitches, side: Side, outside: int) -> None:
    """The middle stitch and both beside it one needle inward, all others outside it two.

    The innermost of either group lands on a stitch: two are doubled, the middle one between them.
    """
    inward, book = _inward(part, side), part.book
    book.transfer(_from_edge(part, side, outside - 1, 3), inward, Reason.DART_LESS, fewer=1)
    goes = _goes(outside - 1)
    for number, (start, many) in enumerate(reversed(goes), 1):
        book.transfer(_from_edge(part, side, start, many), 2 * inward, Reason.DART_LESS,
                      fewer=int(number == 1), rest=number == len(goes))
    part.narrow(side, 2)


def _more(part: ShapedStitches, side: Side, outside: int) -> None:
    """All stitches outside the middle one two needles outward, the middle one one; both needles
    that are then empty get a loop from the stitch beside them."""
    outward, book = -_inward(part, side), part.book
    book.bring(_from_edge(part, side, -2, 2), Position.WORKING, Reason.DART_MORE)
    for start, many in _goes(outside):
        book.transfer(_from_edge(part, side, start, many), 2 * outward, Reason.DART_MORE, fewer=0)
    book.transfer(_from_edge(part, side, outside, 1), outward, Reason.DART_MORE, fewer=0)
    empty = _from_edge(part, side, outside, 1) | _from_edge(part, side, outside - 2, 1)
    book.increase(empty, Reason.DART_MORE)
    part.narrow(side, -2)


def _inward(part: ShapedStitches, side: Side) -> int:
    """One needle towards the middle, as the bed has it."""
    return -1 if part.side(side) is Side.RIGHT else 1


def _from_edge(part: ShapedStitches, side: Side, start: int, many: int) -> Needles:
    """So many needles, the outermost of them `start` inside the end stitch (outside below 0)."""
    if side is Side.RIGHT:
        return part.span(part.last - start - many + 1, part.last - start)
    return part.span(part.first + start, part.first + start + many - 1)


def _goes(stitches: int) -> tuple[tuple[int, int], ...]:
    """Each group of an edge's stitches, from the outermost: where it starts, and how many."""
    return tuple((start, min(IN_GOES, stitches - start)) for start in range(0, stitches, IN_GOES))

"""Stitches held step by step at both sides by turns, and put back with a row over each side.

Source: a web lesson, "Crew neck collar on a drop-shoulder sweater" (S07).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..machine.needles import NONE, Needles, between
from ..machine.reasons import Reason
from ..machine.steps import Side
from ..pattern.short_rows import Turning
from ..shape.held_rows import LAST_ROWS, HeldRows
from .ledger import Ledger
from .part import ShapedStitches


def knit_held_rows(part: ShapedStitches, short: HeldRows) -> None:
    """Knit a piece's short rows, and set the row counter to the rows that its edges have."""
    book, needles, start = part.book, part.stitches, part.book.counter
    book.section(short.before)
    steps = dict.fromkeys(Side, short.steps)
    if short.over:
        over_a_part(book, needles, short)
    elif short.turning is Turning.BOTH:
        there_and_back(book, needles, len(short.steps))
    elif short.turning is Turning.LONGER:
        back_by_steps(book, needles, steps)
    elif max(short.steps) == 1:
        back_over_all(book, needles, hold_one_by_one(book, needles, len(short.steps)))
    else:
        back_over_all(book, needles, hold_by_steps(book, needles, steps))
    book.claws_off()
    book.set_counter(start + LAST_ROWS, (Reason.ROWS_OF_SIDES, book.counter))
    book.section(short.heading)


def hold_one_by_one(book: Ledger, needles: Needles, pairs: int) -> Needles:
    """Hold a needle at the carriage before each row, `pairs` at either side; return what then is
    not held.

    Sources: "Men's socks, knitted flat", a pattern from 1979 (W3-110); Maggie Andrews, "Sun, sea
    and sand: back in short-row triangles", 2018 (W3-042). The yarn goes round a needle
    held so by itself (S07).
    """
    work = needles
    for _ in range(2 * pairs):
        near = outermost(work, book.side, 1)
        work -= near
        hold(book, near, work)
        book.knit(1)
    return work


def there_and_back(book: Ledger, needles: Needles, pairs: int) -> None:
    """Hold a needle at the carriage before each row; then put one back on the other side from the
    carriage before each row, until none is held.

    Sources: "Men's socks, knitted flat", a pattern from 1979 (W3-110); Ann, "Baby booties 3-6
    months" (W3-111), which lays the yarn round the next held needle by hand on the way back.
    """
    work = hold_one_by_one(book, needles, pairs)
    for _ in range(2 * pairs):
        far = book.side.other
        back = outermost(_beyond(needles, work, far), far.other, 1)
        work |= back
        book.resume(back, Reason.BACK_TO_SHORT_ROWS)
        book.knit(1)


def over_a_part(book: Ledger, needles: Needles, short: HeldRows) -> None:
    """Hold all stitches but those of a part beside the carriage, knit that there and back, and then
    two rows over all.

    Source: "Men's socks, knitted flat", a pattern from 1979 (W3-110): the heel over half of the
    stitches, the other half held.
    """
    part = outermost(needles, Side.LEFT if short.at_left else Side.RIGHT, short.over)
    hold(book, needles - part, part)
    there_and_back(book, part, len(short.steps))
    book.resume(needles - part, Reason.FOR_ROWS_OVER_ALL)
    book.claws_off()
    book.knit(LAST_ROWS, Reason.OVER_ALL)


def _beyond(needles: Needles, work: Needles, side: Side) -> Needles:
    """The needles that are held on one side of what is in work."""
    return needles - (between(needles.first, work.last) if side is Side.RIGHT else
                      between(work.first, needles.last))


def hold_by_steps(book: Ledger, needles: Needles, steps: Mapping[Side, Sequence[int]]) -> Needles:
    """Hold step by step at the side the carriage goes to; return what then is not held.

    A step of n goes as n − 1 before the row towards it, its last needle when the carriage has
    come, so that the yarn goes round it (S07).
    """
    work, arrived = needles, NONE
    for pair in range(len(steps[Side.LEFT])):
        for side in (book.side.other, book.side):
            before = outermost(work - arrived, side, steps[side][pair] - 1)
            hold(book, arrived)
            work -= arrived | before
            hold(book, before, work)
            book.knit(1)
            arrived = outermost(work, side, 1)
    hold(book, arrived)
    return work - arrived


def back_over_all(book: Ledger, needles: Needles, middle: Needles) -> None:
    """Held needles back in work, those away from the carriage first, a row over each side."""
    for reason in (Reason.OVER_THESE_TOO, Reason.OVER_ALL):
        away = needles - between(
            middle.first if book.side is Side.RIGHT else needles.first,
            needles.last if book.side is Side.RIGHT else middle.last)
        book.resume(away, Reason.AWAY_FROM_CARRIAGE)
        book.knit(1, reason)
        middle |= away


def back_by_steps(book: Ledger, needles: Needles, steps: Mapping[Side, Sequence[int]]) -> None:
    """All but the middle into hold, the innermost step of each side back before each row to it.

    The last needle of what is held goes when the carriage has come (S07); beside every step put
    back the yarn is laid round the next held needle by hand (common practice, no source).
    """
    held = {side: outermost(needles, side, sum(steps[side])) for side in steps}
    arrived = NONE
    for side in (book.side.other, book.side):
        hold(book, arrived)
        arrived = outermost(held[side], side.other, 1)
        hold(book, held[side] - arrived, needles - held[Side.LEFT] - held[Side.RIGHT])
        book.knit(1)
    for pair in range(len(steps[Side.LEFT])):
        for side in (book.side.other, book.side):
            hold(book, arrived)
            arrived = NONE
            back = outermost(held[side], side.other, steps[side][-1 - pair])
            held[side] -= back
            book.resume(back, Reason.BACK_TO_SHORT_ROWS)
            book.knit(1)


def hold(book: Ledger, needles: Needles, work: Needles = NONE) -> None:
    """Hold `needles`; claw weights go under `work`, the stitches left, where none are yet."""
    if needles:
        book.hold(needles, Reason.FOR_SHORT_ROWS)
    book.hang_claws(work)


def outermost(needles: Needles, side: Side, count: int) -> Needles:
    """The `count` needles of these nearest to a side."""
    return needles.leftmost(count) if side is Side.LEFT else needles.rightmost(count)

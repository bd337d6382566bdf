"""Words for a turn beside held needles that no list of rows tells: the yarn laid round by hand.

Source: a web lesson, "Crew neck collar on a drop-shoulder sweater" (S07).
"""

from __future__ import annotations

from collections.abc import Iterator

from ..machine import steps
from ..machine.needles import NONE, Needle, Needles
from ..machine.reasons import Reason
from ..machine.steps import Side
from ..machine.trace import State
from .instruction import Moment
from .words import joined

SHORT_ROWS = (Reason.AT_LEFT, Reason.AT_RIGHT, Reason.FOR_SHORT_ROWS)


def turns_text(m: Moment, step: steps.Knit) -> str:
    """What is done at the turns of plain rows beside needles held for short rows; "" for nothing.

    Where one needle more is held on the carriage's own side the yarn goes round that by itself
    (S07); elsewhere it is laid by hand under the first held needle (common practice, no source).
    """
    if not m.after.holding:
        return ""
    bare = [needle.name for needle in _bare(m, step)]
    if not bare:
        return ""
    if len(bare) == 1:
        return turn_text(bare[0])
    lay = "lay the yarn by hand under the held needle"
    which = ", then ".join(bare) if len(bare) == 2 else f"{joined(dict.fromkeys(bare))} in turn"
    return f" After each row {lay} beside the carriage ({which}), so that no hole is left."


def _bare(m: Moment, step: steps.Knit) -> Iterator[Needle]:
    """The held needle at each turn round which no yarn lies by itself."""
    held, at_neck = _held_for_short_rows(m), _held_at_neck(m)
    side = m.after.side
    for left in range(step.rows - 1, -1, -1):
        at = side.other if left % 2 else side
        near = beside(m.after, at)
        if near is not None and near in held - at_neck and (left or not _wrapped_later(m)):
            yield near


def _held_for_short_rows(m: Moment) -> Needles:
    held = NONE
    for step in m.earlier if m.earlier_of(steps.Hold) else ():
        if isinstance(step, steps.Resume):
            held -= step.needles
        elif isinstance(step, steps.Hold) and step.reason in SHORT_ROWS:
            held |= step.needles
    return held & m.after.holding


def _held_at_neck(m: Moment) -> Needles:
    """What stays in hold for a neck: the yarn went round its last needle as that was held, and the
    rows beside it are the neck's edge (common practice, no source)."""
    return next((step.needles for step in m.later if isinstance(step, steps.Resume)
                 and step.reason is Reason.FOR_NECK_ROW), NONE)


def beside(state: State, side: Side) -> Needle | None:
    """Return the loaded needle next to those that the carriage knits, at a side; None for none."""
    work = state.loaded - state.holding
    if not work:
        return None
    if side is Side.RIGHT:
        return next((n for n in state.loaded if n > work.last), None)
    beyond = [n for n in state.loaded if n < work.first]
    return beyond[-1] if beyond else None


def turn_text(needle: str) -> str:
    """Say that the yarn is laid by hand round the held needle at a turn, as HTML."""
    return (f" Before the carriage goes back, lay the yarn by hand under the held needle {needle}, "
            "so that no hole is left.")


def _wrapped_later(m: Moment) -> bool:
    """True where no row follows, or where a needle is held before it, at the carriage."""
    for step in m.later:
        if isinstance(step, steps.Hold):
            return True
        if isinstance(step, steps.Knit):
            return False
    return True

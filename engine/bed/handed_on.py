"""What waits from one program to the next: strips of waste yarn, and the stitches on each."""

from __future__ import annotations

from collections.abc import Iterable

from ..machine.needles import NONE
from ..machine.programs import Program
from ..machine.trace import Refusal, Trace

WaitingStrip = tuple[str, int]  # what it is called, and its stitches


def left_waiting(result: Trace) -> tuple[WaitingStrip, ...]:
    """Return what waits off the needles when a program has been run."""
    return result.states[-1].waiting if result.states else ()


def taken(waiting: Iterable[WaitingStrip], program: Program) -> tuple[list[WaitingStrip],
                                                                      Refusal | None]:
    """Return what still waits once `program` has hung its strips, and why it cannot, if so.

    A strip that a program draws out must be there whole: with another number of stitches on it,
    some would run that nobody has hung.
    """
    left = list(waiting)
    for edge, name, stitches in program.strips:
        if not name:
            continue
        if (name, stitches) not in left:
            there = ", ".join(str(held) for called, held in left if called == name) or "none"
            return left, Refusal(step=0, code="strip-waits", counter=0, needles=NONE,
                                 expected=f"{stitches} stitches on one strip of waste yarn as "
                                          f"{name}, for {edge}", found=there)
        left.remove((name, stitches))
    return left, None

"""Which mark every needle of a diagram gets, read off a state of the bed."""

from __future__ import annotations

from collections.abc import Mapping

from ..machine.members import Members
from ..machine.needles import NONE, Needles
from ..machine.step_keys import StepYarn
from ..machine.trace import State


class Mark(Members):
    """What a needle diagram can say of a needle; each has a different shape."""

    ONE = "one"
    CHOSEN = "chosen"
    UPPER = "upper"
    MANY = "many"
    LATCHED = "latched"
    CORD = "cord"
    HELD = "held"
    EMPTY = "empty"
    OUT = "out"


# What a bracket under neighbours says they are.
SHORT: Mapping[Mark, str] = {
    Mark.ONE: "in work", Mark.CHOSEN: "chosen", Mark.UPPER: "upper",
    Mark.LATCHED: "latched", Mark.CORD: "cord", Mark.HELD: "held", Mark.EMPTY: "empty"}


def levels(state: State) -> list[Needles]:
    """The needles with at least one loop, at least two, and so on."""
    if len(state.loops) == 1:
        return [state.loops[0][1]]
    masks: list[int] = []
    for _, on in state.loops:
        carry = on.mask
        for place, mask in enumerate(masks):
            masks[place], carry = mask | carry, mask & carry
        if carry:
            masks.append(carry)
    return [Needles(mask) for mask in masks]


def sorted_needles(state: State, shown: Needles, chosen: Needles = NONE,
                   mark: Mark = Mark.CHOSEN) -> tuple[tuple[Mark, int, Needles], ...]:
    """Return (mark, loops, needles) for all `shown` needles, each needle once.

    `chosen` are needles singled out by `mark`: to be knitted by hand next, put back in upper
    working position, or just latched up.
    """
    by_count = [*levels(state), NONE]
    cord = state.on(StepYarn.HOLE_CORD) | state.on(StepYarn.POCKET_CORD)
    taken = state.holding | cord | chosen
    out = [(Mark.ONE, 1, by_count[0] - by_count[1] - taken if len(by_count) > 1 else NONE),
           (mark, 1, chosen)]
    out += [(Mark.MANY, number, by_count[number - 1] - by_count[number] - taken)
            for number in range(2, len(by_count))]
    out += [(Mark.CORD, 1, cord), (Mark.HELD, 1, state.holding),
            (Mark.EMPTY, 0, state.working - by_count[0]),
            (Mark.OUT, 0, shown - state.working - state.holding - by_count[0])]
    return tuple((each, loops, needles & shown) for each, loops, needles in out
                 if needles & shown)


def unlike(state: State) -> tuple[Needles, ...]:
    """How the needles from the first to the last in use differ: all of them, then those held,
    empty and out of work among them; () where they are alike, or no stitch is there."""
    loaded = state.loaded
    if not loaded.mask or state.second:
        return ()
    used = loaded | state.working
    span = used.stretch
    held, empty, out = state.holding & loaded, state.working - loaded, span - used
    differ = held.mask or empty.mask or out.mask
    return (span, held, empty, out) if differ and span not in (held, empty, out) else ()


def all_alike(state: State, band: Needles, chosen: Needles = NONE) -> bool:
    """True when every needle of the band would get the same mark."""
    if len(state.loops) == 1 and not chosen and state.loops[0][1] == state.working == band:
        return True
    return len(sorted_needles(state, band, chosen)) < 2

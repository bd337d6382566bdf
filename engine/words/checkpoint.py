"""The checkpoint after a step: what lies on the needles, the row counter, the carriage's side."""

from __future__ import annotations

from functools import lru_cache

from ..core.counts import Unit
from ..machine.needles import Needles
from ..machine.trace import State
from .needle_marks import levels
from .words import counted, needles_text

CHECK = "Check"


def checkpoint(state: State, *, where: bool = True) -> str:
    """Return a checkpoint as HTML: its three parts are cells that a style sheet lays out.

    It says `where` the stitches lie, and which are held; in a band that is known.
    """
    number = len(state.loaded) + (len(state.second.loaded) if where and state.second else 0)
    what = f"{Unit.STITCHES.name_of(number)}{(_where if where else _on_the_needles)(state)}" \
        if state.loaded or number else "stitches on the needles"
    return (f'<p class="wb-check"><b>{CHECK}</b> <i><b>{number or "no"}</b> {what}</i> '
            f"<i>row counter <b>{state.counter}</b></i> "
            f"<i>carriage on the <b>{state.side.value}</b></i></p>")


def _on_the_needles(state: State) -> str:
    """What the needles hold, behind their number."""
    return f"{_loops_text(state)}{_empty_text(state)}"


def _empty_text(state: State) -> str:
    """How many needles stay in work without a stitch, "" where none does."""
    empty = state.working - state.loaded
    return f", {counted(len(empty), 'needle')} empty in working position" if empty else ""


def _loops_text(state: State) -> str:
    """How many needles hold more than one loop, "" where none does."""
    if len(state.loops) == 1:
        return ""
    loaded, by_count = state.loaded, levels(state)
    if len(by_count) > 1 and by_count[-1] == loaded:
        return f", {counted(len(by_count), 'loop')} on {'each' if len(loaded) > 1 else 'it'}"
    text = ""
    for number in range(2, len(by_count) + 1):
        exactly = by_count[number - 1] - (by_count[number] if number < len(by_count)
                                          else Needles(0))
        if exactly:
            text += (f"{' and' if text else ','} {counted(len(exactly), 'needle')} "
                     f"with {number} loops")
    return text


def _where(state: State) -> str:
    """Where the stitches lie, and which are held, behind their number.

    Needles that hold two stitches, as after a decrease, are counted, in plain pieces too.
    """
    loaded, held = state.loaded, state.holding & state.loaded
    if state.second and state.second.loaded:
        return _on_both(loaded, state.second.loaded)
    text, work = _loops_text(state), loaded - held
    if held and work:
        text += (f": {len(work)} in work, {_ends_text(work)}, and {len(held)} held, "
                 f"{_ends_text(held)}")
    else:
        text += f", {'all held, ' if held else ''}{_ends_text(loaded)}"
    return text + _empty_text(state)


def _on_both(main: Needles, second: Needles) -> str:
    return (f", {len(main)} of them on the main bed, "
            f"{main.first} to {main.last}, and {len(second)} on the second bed, {second.first} to "
            f"{second.last}")


@lru_cache(maxsize=4096)
def _ends_text(needles: Needles) -> str:
    """The needles, or only the first and last of many groups."""
    if len(needles.spans()) > 3:
        return f"{needles.first} to {needles.last}"
    return needles_text(needles)

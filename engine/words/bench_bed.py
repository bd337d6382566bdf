"""What the scripts of a size page need of the needles after each step, to draw and count them.

A token a step. `L27-R8+R12` are the needles in work that hold a stitch, in runs from left to
right; from four runs on that are alike and at even distances, `L43*2/3*29` stands for 29 runs of 2
needles, every 3 needles, the first at L43. Behind a letter follow `h` the needles held, `e` those
in work without a stitch, `b` those of the second bed, `n` those that the step is about where it is
not about all, and `l2:3` that 3 needles hold 2 loops each. A `-` says that all is as it was.
A list of rows in which needles are held, or which are of a stitch chart, has a token a row, with
`;` between them.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from ..machine import edge_steps, rib_steps, steps
from ..machine.needles import NONE, Needles
from ..machine.steps import Step
from ..machine.trace import State
from .instruction import Moment
from .needle_marks import levels
from .shaped_edges import Done, Event, ShapingBlock

_FEW = 4  # runs of needles at even distances that are written as one
_ABOUT = (steps.Bring, steps.Transfer, steps.Hold, steps.Resume, steps.Increase, steps.TurnLoop,
          steps.HandKnit, steps.Attend, edge_steps.Hang, edge_steps.BindOff, edge_steps.TakeOff,
          rib_steps.Latch, rib_steps.Across)
_DRAWN = {Done.HOLD, Done.BACK, Done.BIND_OFF, Done.INCREASE}


def bed_of(group: Sequence[Moment | ShapingBlock], known: str) -> tuple[str, str]:
    """Return the attribute for a list of steps, and the last token of it that says all."""
    tokens = []
    for each in group:
        shown = _block(each) if isinstance(each, ShapingBlock) else [_moment(each)]
        written = [_token(*one) for one in shown]
        token, known, before = ";".join(one for one, _ in written), written[-1][1], known
        tokens.append("-" if token == known == before else token)
    return f' data-wb-bed="{" ".join(tokens)}"', known


def _moment(m: Moment) -> tuple[State, Needles]:
    """What is seen after a moment, and which needles it is about."""
    about = NONE
    for step in m.steps:
        about = _about(step, about)
    return m.after, about


def _about(step: Step, before: Needles) -> Needles:
    """The needles of a step, those of its like before it too."""
    if not isinstance(step, _ABOUT) or not step.needles:
        return before
    return before | step.needles


def _block(block: ShapingBlock) -> list[tuple[State, Needles]]:
    is_held = any(act.done in (Done.HOLD, Done.BACK) for e in block.events for act in e.acts)
    is_charted = any(e.charted for e in block.events)
    drawn = block.events if is_held or is_charted else block.events[-1:]
    return [(e.after, _acted(e)) for e in drawn]


def _acted(event: Event) -> Needles:
    about = NONE
    for act in event.acts:
        if act.done in _DRAWN:
            about |= act.needles
    return about


def _token(state: State, about: Needles) -> tuple[str, str]:
    """What all needles are, and those that a step is about where it is not about all; and that
    without these: what the next step may leave as it was. Only where none is about needles apart
    does "0" stand for no needles at all."""
    every = _needles(state)
    if not _is_apart(state, about):
        return every or "0", every or "0"
    return f"{every}n{spans(about)}", every


def _is_apart(state: State, about: Needles) -> bool:
    return bool(about) and about not in (state.loaded, state.working)


def _needles(state: State) -> str:
    loaded = state.loaded
    held = state.holding & loaded
    parts = [spans(loaded - held)]
    if held.mask:
        parts.append(f"h{spans(held)}")
    if empty := state.working - loaded:
        parts.append(f"e{spans(empty)}")
    if state.second and state.second.loaded:
        parts.append(f"b{spans(state.second.loaded)}")
    if len(state.loops) > 1:
        by_count = [*levels(state), NONE]
        parts += [f"l{number}:{some}" for number in range(2, len(by_count))
                  if (some := len(by_count[number - 1] - by_count[number]))]
    return "".join(parts)


@lru_cache(maxsize=4096)
def spans(needles: Needles) -> str:
    """The needles as a token has them; "" for none."""
    runs, out = needles.spans(), []
    while runs:
        size, far = runs[0][1].place - runs[0][0].place + 1, 0
        upto = 1
        if len(runs) > 1:
            far = runs[1][0].place - runs[0][0].place
            while upto < len(runs) and runs[upto][1].place - runs[upto][0].place + 1 == size and \
                    runs[upto][0].place - runs[upto - 1][0].place == far:
                upto += 1
        if upto < _FEW:
            first, last = runs[0]
            out.append(f"{first}" if first == last else f"{first}-{last}")
            runs = runs[1:]
        else:
            out.append(f"{runs[0][0]}*{size}/{far}*{upto}")
            runs = runs[upto:]
    return "+".join(out)

"""What the scripts of a size page need of each step beside its text: counter, side, dial, yarn.

A token a step, `8r+8`: the row counter after it [rows], the carriage's side after it (r or l),
and the rows it knits [rows]. Where they change, `d7` is the dial and `y0` the yarn in the feeder,
by its place in the part's list of yarns (`y` alone: an empty feeder). `@52:88,54:86` are the row
counters within the step at which something is done, each with the stitches then in work; it is
left out where the step's text lists them.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..machine import rib_steps, steps
from ..machine.programs import Program
from ..machine.records import dataclass
from ..machine.step_keys import StepYarn
from ..machine.trace import State
from .instruction import Moment
from .shaped_edges import ShapingBlock

LISTED = 5  # from so many changes on the step's text lists every row


@dataclass(frozen=True, slots=True)
class _Known:
    """What the step before left: dial and yarn as they were last told."""

    dial: steps.Dial | None = None
    yarn: StepYarn = StepYarn.NONE


def run_of(group: Sequence[Moment | ShapingBlock], known: _Known, yarns: Sequence[StepYarn]
           ) -> tuple[str, _Known]:
    """Return the attribute for a list of steps, and what is known after it."""
    tokens = []
    for each in group:
        after = each.after if isinstance(each, Moment) else each.events[-1].after
        token = _token(each, after)
        if after.feeder != known.yarn or after.dial != known.dial:
            now = _Known(after.dial or known.dial, after.feeder)
            token, known = token + _changes(known, now, yarns), now
        tokens.append(token + _stops(each))
    return f' data-wb-run="{" ".join(tokens)}"', known


def yarns_of(program: Program) -> tuple[StepYarn, ...]:
    """All yarns that a program threads, in that order."""
    return tuple(dict.fromkeys(step.yarn for step in program.of(steps.Thread)))


NOTHING = _Known()


def _token(each: Moment | ShapingBlock, after: State) -> str:
    rows = sum(e.rows for e in each.events) if isinstance(each, ShapingBlock) else sum(
        _rows(step) for step in each.steps)
    return f"{after.counter}{after.side.value[0]}{f'+{rows}' if rows else ''}"


_KNITS = (steps.Knit, rib_steps.KnitBeds)


def _rows(step: steps.Step) -> int:
    if isinstance(step, _KNITS):
        return step.rows
    return int(isinstance(step, rib_steps.Zigzag))


def _changes(known: _Known, now: _Known, yarns: Sequence[StepYarn]) -> str:
    dial = f"d{now.dial}" if now.dial != known.dial else ""
    if now.yarn == known.yarn:
        return dial
    return f"{dial}y{yarns.index(now.yarn) if now.yarn in yarns else ''}"


def _stops(each: Moment | ShapingBlock) -> str:
    """A few changes told in a sentence; more are listed in the text, and a single one ends it."""
    if isinstance(each, Moment) or each.mixed or not 1 < len(each.events) < LISTED:
        return ""
    return "@" + ",".join(f"{e.counter}:{len(e.after.loaded - e.after.holding)}"
                          for e in each.events)

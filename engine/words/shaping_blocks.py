"""Which shapings stand together: as one numbered step, or as a list of rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from ..machine.steps import Side
from .shaped_edges import DARTS, Done, Event, ShapingBlock

FEWEST = 3  # changes that make a list of rows; fewer stand one by one


def in_blocks(events: Sequence[Event]) -> Iterator[ShapingBlock]:
    """Return the events put together, in their order and without losing any.

    Events that follow each other and are alike are one block. Where the same comes back after
    something else, everything between is one list of rows, but for long stretches of the same
    at its ends; so are changes of one kind at one edge that differ in their stitches.
    """
    for stretch in _unbroken(events):
        runs = [tuple(run) for _, run in groupby(stretch, key=lambda e: e.alike)]
        for block in _blocks(runs):
            yield from _named_apart(block)


def _named_apart(block: ShapingBlock) -> Iterator[ShapingBlock]:
    """Bind-offs that are alike and follow each other: each a step or a list; darts: a list.

    What is bound off, or moved at a dart, is named by its needles, which a single sentence for
    several could not.
    """
    if any(act.done in DARTS for event in block.events for act in event.acts):
        yield ShapingBlock(block.events, mixed=True)
        return
    alike = len(block.events) > 1 and not block.mixed
    if not (alike and any(act.done is Done.BIND_OFF for act in block.events[0].acts)):
        yield block
    elif len(block.events) >= FEWEST:
        yield ShapingBlock(block.events, mixed=True)
    else:
        yield from (ShapingBlock((event,), mixed=False) for event in block.events)


def _unbroken(events: Sequence[Event]) -> Iterator[list[Event]]:
    """Cut where steps of another kind lie between two events, and before and after each mark: a
    line of a list names no edge for it."""
    stretch: list[Event] = []
    for event in events:
        if stretch and (stretch[-1].upto != event.first or event.is_mark or stretch[-1].is_mark):
            yield stretch
            stretch = []
        stretch.append(event)
    if stretch:
        yield stretch


def _blocks(runs: list[tuple[Event, ...]]) -> Iterator[ShapingBlock]:
    kinds = [_kinds(run) for run in runs]
    at = 0
    while at < len(runs):
        last = _entangled(kinds, at)
        if last == at:
            yield ShapingBlock(runs[at], mixed=False)
        else:
            yield from _mixed(runs[at:last + 1])
        at = last + 1


def _entangled(kinds: Sequence[set[tuple[Done, Side | None]]], at: int) -> int:
    """The last run in which something comes back that is done in run `at`, or in one up to it."""
    last, look = at, at
    while look <= last:
        for later in range(len(kinds) - 1, last, -1):
            if not kinds[look].isdisjoint(kinds[later]):
                last = later
                break
        look += 1
    return last


def _kinds(run: tuple[Event, ...]) -> set[tuple[Done, Side | None]]:
    return {(act.done, act.side) for act in run[0].acts}


def _mixed(runs: list[tuple[Event, ...]]) -> Iterator[ShapingBlock]:
    """One list of rows, but for a long stretch of the same before and after it."""
    head = [runs.pop(0)] if len(runs[0]) > FEWEST else []
    tail = [runs.pop()] if runs and len(runs[-1]) > FEWEST else []
    events = tuple(event for run in runs for event in run)
    yield from (ShapingBlock(run, mixed=False) for run in head)
    if len(events) >= FEWEST:
        yield ShapingBlock(events, mixed=True)
    else:
        yield from (ShapingBlock(run, mixed=False) for run in runs)
    yield from (ShapingBlock(run, mixed=False) for run in tail)

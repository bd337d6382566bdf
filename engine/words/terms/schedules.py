"""How often something is done, and on which rows, in the trade's words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

MANY = 3  # blocks that are still followed when read aloud


class Events(Protocol):
    """Events on rows: gaps and how many times each comes, after a `first` row or none."""

    @property
    def first(self) -> int | None:
        """The row of the first event, where the blocks follow it."""

    @property
    def blocks(self) -> Sequence[tuple[int, int]]:
        """Each gap [rows], and how many times it comes."""


def event_rows(events: Events) -> tuple[int, ...]:
    """Return what the row counter reads at each event."""
    rows = [] if events.first is None else [events.first]
    at = events.first or 0
    for every, times in events.blocks:
        rows += range(at + every, at + every * times + 1, every)
        at += every * times
    return tuple(rows)


def take_turns(gaps: Sequence[int]) -> bool:
    """Return True for two gaps that alternate from the start, often enough to be written so."""
    return (len(gaps) > MANY and gaps[0] != gaps[1]
            and all(gap == gaps[i % 2] for i, gap in enumerate(gaps)))


def schedule_text(events: Events, what: str = "decrease 1 stitch", where: str = "at each end",
                  above: int = 0) -> str:
    """Return a schedule: "decrease 1 stitch at each end of every 6th row 5 times".

    Single rows are named by the row counter, which reads `above` where the schedule starts.
    """
    link = f"{what} {where} of" if where else f"{what} on"
    again = "of" if where else "on"
    return f"{link} {f', then {again} '.join(_parts(events, above))}" if event_rows(events) \
        else "plain"


def _parts(events: Events, above: int) -> list[str]:
    blocks, first, at = events.blocks, events.first, event_rows(events)
    if len(at) == 1:
        return [f"row {at[0] + above}"]
    opening = [] if first is None else [f"row {first + above}"]
    if len(blocks) <= MANY:
        return opening + [f"{every_text(every)} {once_text(times)}" for every, times in blocks]
    if take_turns([every for every, times in blocks for _ in range(times)]):
        two = f"{every_text(blocks[0][0])} and {every_text(blocks[1][0])}"
        return [*opening, f"{two} alternately, {len(blocks)} times in all"]
    rows = [str(row + above) for row in at]
    return [f"rows {', '.join(rows[:-1])} and {rows[-1]}"]


def every_text(rows: int) -> str:
    """Return "every row", "every 6th row"."""
    if rows == 1:
        return "every row"
    ending = {1: "st", 2: "nd", 3: "rd"}.get(rows % 10, "th")
    return f"every {rows}{'th' if rows % 100 in (11, 12, 13) else ending} row"


def once_text(number: int) -> str:
    """Return "once", "twice", "5 times"."""
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def times_text(times: int) -> str:
    """Return "twice", "three times", "12 times"."""
    return {2: "twice", 3: "three times", 4: "four times"}.get(times, f"{times} times")

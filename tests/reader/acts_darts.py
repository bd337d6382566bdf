"""Vertical darts: what a line of a table tells to move, and what is said of how it is done."""

from __future__ import annotations

import re

from tests.reader.bed import OUT, need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import NAME, parse, spoken

LESS = re.compile(rf"dart, 2 fewer: ({NAME} to {NAME}) by (\d), "
                  rf"then ({NAME}(?: to {NAME})?) by (\d)")
MORE = re.compile(rf"dart, 2 more: ({NAME}(?: to {NAME})?) by (\d), then ({NAME}) by (\d), "
                  rf"fill ({NAME}) from ({NAME}) and ({NAME}) from ({NAME})")


@act("dart_less", "dart_in", "dart_doubled", "dart_rest", "dart_more", "dart_out", "dart_middle",
     "dart_fill")
def told(k: Knitter, said: dict) -> None:
    """Held by the lines of the table that follows, which cannot be done without it."""
    k.explained.add("dart")


def dart(k: Knitter, side: str, entry: str) -> None:
    """Do what a line tells of a dart at one side."""
    here = k.bed.main.knitting()
    less, more = LESS.fullmatch(entry), MORE.fullmatch(entry)
    need(less or more, "table", f"this cannot be read: {entry!r}")
    need(("dart_less" if less else "dart_more") in k.told, "left-out",
         "how such a dart is worked is not said")
    step = 1 if side == "left" else -1  # the way inward
    end = here[0] if side == "left" else here[-1]
    if less:
        first, by, others, far = less.groups()
        need((by, far) == ("1", "2"), "dart", "it takes one stitch on either side of its middle")
        _less(k, parse(first), parse(others), step, end)
    else:
        assert more is not None
        others, far, middle, by, *fills = more.groups()
        need((by, far) == ("1", "2"), "dart", "it gives one stitch on either side of its middle")
        from_, to = [parse(name)[0] for name in fills[1::2]], [parse(n)[0] for n in fills[::2]]
        _more(k, parse(others), parse(middle)[0], dict(zip(to, from_, strict=True)), step, end)
    k.fashions += [3, len(parse(others)) % 3 or 3]  # three at a time, and what is left
    k.edges.append((k.bed.rows, side, "dart fewer" if less else "dart more", 2,
                    k.bed.counter or 0))


def _less(k: Knitter, three: tuple[int, ...], others: tuple[int, ...], step: int, end: int) -> None:
    need(len(three) == 3, "dart", f"{spoken(three)} are not three needles")
    main = k.bed.main
    inner = min(three) if step < 0 else max(three)
    place = [*sorted(three), *sorted(others)] if step < 0 else [*sorted(others), *sorted(three)]
    whole = list(range(place[0], place[-1] + 1))
    need(place == whole and end in others, "range", f"the edge is {spoken([end])}")
    main.move(three, step)
    main.move(others, 2 * step)
    middle = inner
    need([len(main.loops[middle + at]) for at in (-1, 0, 1)] == [2, 1, 2], "dart",
         f"{spoken([middle])} does not lie between two doubled stitches")
    main.push_out([end, end + step])


def _more(k: Knitter, others: tuple[int, ...], middle: int, fill: dict[int, int], step: int,
          end: int) -> None:
    main = k.bed.main
    place = sorted({*others, middle})
    need(place == list(range(place[0], place[-1] + 1)) and end in others and middle not in others
         and middle == (place[0] if step < 0 else place[-1]), "range",
         f"the edge is {spoken([end])}")
    fresh = [end - step, end - 2 * step]
    need(all(main.at(spot) == OUT for spot in fresh), "increase", "they are in work already")
    main.bring(fresh)
    main.move(others, -2 * step)
    main.move([middle], -step)
    need(set(fill) == {middle, middle - 2 * step} == set(main.empty()), "fills",
         f"empty are {spoken(main.empty())}")
    need(fill == {middle: middle + step, middle - 2 * step: middle - 3 * step}, "fills",
         "each is filled from its neighbour away from the dart's middle stitch")
    main.hang(sorted(fill), "loop below", on=False)


@act("counter_sides")
def counter_sides(k: Knitter, said: dict) -> None:
    """After short rows the counter goes back to the rows of the edges: one over each side since
    the first were held, the other one before."""
    need(not k.bed.main.held(), "held", "needles are still held")
    begun = k.notes.get("sides since", 0)
    held = [edge for edge in k.edges[begun:] if edge[2] == "hold"]  # type: ignore[misc]
    need(held, "out-of-place", "no short rows were knitted")
    k.note("sides since", len(k.edges))
    began = held[0][4]
    least = len(k.bed.main.loops) - sum(edge[3] for edge in held)
    k.notes.setdefault("short rows", []).append(  # type: ignore[attr-defined]
        (began, least, int(said["rc2"]) - began))
    need(said["rc2"] == k.bed.counter, "counter", f"the row counter shows {k.bed.counter}")
    k.bed.counter = said["rc"]
    k.note("set back", (said["rc"], len(k.bed.seen)))
    need(said["rc"] == began + 2, "counter",
         f"the sides have {began} rows, and two over the held stitches")

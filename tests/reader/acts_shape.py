"""Shaping: row by row from a table, at intervals, once; marks; stitches moved; mitres; turning."""

from __future__ import annotations

import re

from tests.reader.acts_darts import dart
from tests.reader.acts_hold import held_at_neck, push_forward
from tests.reader.acts_rows import counted, knit_rows
from tests.reader.bed import HOLD, OUT, WORK, need, other
from tests.reader.knitter import Knitter, act
from tests.reader.needles import NAME, parse, place, rising, spoken
from tests.reader.visible import Block
from tests.reader.ways import AT_EDGE, DECREASE, HOLDING, INCREASE

ENTRY = re.compile(rf"(bind off|hold|put back|decrease|increase) (\d+): ({NAME}(?: to {NAME})?)"
                   r"(?: \(move (\d+|the end stitch) only\))?")


def edge(k: Knitter, side: str) -> int:
    """The outermost needle in work on one side."""
    here = k.bed.main.knitting()
    need(here, "no-needles", "no stitch is in work")
    return here[0] if side == "left" else here[-1]


def inward(side: str) -> int:
    """The way from an edge towards the middle."""
    return 1 if side == "left" else -1


def towards(k: Knitter, spot: int, step: int) -> str:
    """Whether a step from a needle goes inward, to the middle of what is in work, or outward."""
    low, high = k.bed.main.knitting()[0], k.bed.main.knitting()[-1]
    middle = (min(low, spot) + max(high, spot)) / 2
    return "inward" if abs(spot + step - middle) <= abs(spot - middle) else "outward"


def bind_off(k: Knitter, side: str, spots: tuple[int, ...]) -> None:
    """Bind stitches off at the edge where the carriage stands; their needles go out of work."""
    need(k.bed.carriage == side, "side", f"the carriage is on the {k.bed.carriage}")
    start, step = edge(k, side), inward(side)
    want = [start + step * i for i in range(len(spots))]
    k.bed.main.drop(spots)
    for spot in spots:
        k.bed.main.position.pop(spot, None)
    need(list(spots) == want, "range", f"the edge is {spoken([start])}")
    k.edges.append((k.bed.rows, side, "bind off", len(spots), k.bed.counter or 0))
    k.did |= {(AT_EDGE, "way_only", "words", "stands" if k.bed.carriage == side else "is not"),
              (AT_EDGE, "way_over", "words2", towards(k, spots[0], step)),
              (AT_EDGE, "way_last", "words", k.bed.main.at(edge(k, side)))}


def decrease(k: Knitter, side: str, spot: int, moved: int | None = None) -> None:
    """Move the end stitches one needle inward; the outermost needle goes out of work."""
    start, step = edge(k, side), inward(side)
    full = moved or int(str(k.notes.get("fashioned", 1)))
    here = k.bed.main.knitting()
    full = min(full, len(here) - 1) if moved is None else full
    moving = [start + step * i for i in range(full)]
    need(start + step * full in k.bed.main.loops and
         k.bed.main.at(start + step * full) != HOLD, "decrease", "too few stitches are left")
    k.bed.main.move(moving, step)
    if k.bed.holds and not any("needles of the moved" in block.text for block in k.step.blocks):
        k.fault("hold-forward", "the carriage, set to hold, passes by needles of moved stitches")
    k.bed.main.loops[start + step * full] = ["decreased"] * 2
    k.bed.main.position.pop(start, None)
    k.edges.append((k.bed.rows, side, "decrease", 1, k.bed.counter or 0))
    doubled = next(s for s in k.bed.main.loops if len(k.bed.main.loops[s]) == 2
                   and s - step in moving)
    far = "outermost" if start in (here[0], here[-1]) else "innermost"
    near = {"outermost": "innermost", "innermost": "outermost"}[far]
    k.did |= {(DECREASE, "way_take", "words2", towards(k, start, step)),
              (DECREASE, "way_lands", "words", near if doubled - step == moving[-1] else far),
              (DECREASE, "way_push", "words", far),
              (DECREASE, "way_push", "words2", k.bed.main.at(start))}
    need(spot == start, "range", f"the edge is {spoken([start])}")


def increase(k: Knitter, side: str, spot: int | None = None) -> None:
    """Bring the next empty needle into work with the loop under the end stitch."""
    start, step = edge(k, side), inward(side)
    new = start - step
    need(k.bed.main.at(new) == OUT, "increase", f"{spoken([new])} is in work")
    k.bed.main.bring([new])
    k.bed.main.hang([new], "loop below", on=False)
    k.edges.append((k.bed.rows, side, "increase", 1, k.bed.counter or 0))
    k.did |= {(INCREASE, "way_bring", "words", "beside" if abs(new - start) == 1 else "beyond"),
              (INCREASE, "way_bring", "words2", k.bed.main.at(new)),
              (INCREASE, "way_lift", "words2", {"loop below": "below"}[k.bed.main.loops[new][0]])}
    need(spot in (None, new), "range", f"the next needle is {spoken([new])}")


def hold(k: Knitter, side: str, spots: tuple[int, ...]) -> None:
    """Push stitches at an edge forward: several at once only away from the carriage."""
    start, step = edge(k, side), inward(side)
    push_forward(k, spots)
    k.bed.short.update(spots)
    held_at_neck(k, spots)
    k.edges.append((k.bed.rows, side, "hold", len(spots), k.bed.counter or 0))
    need(list(spots) == [start + step * i for i in range(len(spots))], "range",
         f"the edge is {spoken([start])}")
    k.did.add((HOLDING, "way_forward", "words2", k.bed.main.at(spots[0])))
    if len(spots) > 1:
        where = "away from" if k.bed.carriage == other(side) else "of"
        k.did.add((HOLDING, "way_forward", "words3", where))
    need(len(spots) == 1 or k.bed.carriage == other(side), "hold-side",
         "several at once are held only on the side away from the carriage")


def put_back(k: Knitter, side: str, spots: tuple[int, ...]) -> None:
    """Put held needles next to those in work back into work."""
    need(k.notes.get("put back where") is k.step, "position",
         "pushed back by hand to working position a needle drops its stitch: which is not said")
    start, step = edge(k, side), inward(side)
    for spot in spots:
        need(k.bed.main.at(spot) == HOLD, "hold", f"{spoken([spot])} is not held")
    k.bed.main.bring(spots, WORK)
    k.bed.short.difference_update(spots)
    k.edges.append((k.bed.rows, side, "put back", len(spots), k.bed.counter or 0))
    need(list(spots) == [start - step * i for i in range(len(spots), 0, -1)], "range",
         f"the edge is {spoken([start])}")


# --- row by row, from a table


@act("shape_rows")
def shape_rows(k: Knitter, said: dict) -> None:
    first, last = said["rc"], said["rc2"]
    k.attempt(lambda: need(k.bed.counter == first, "hidden-rows",
                           f"the row counter shows {k.bed.counter}: rows before the table's first "
                           "line are said nowhere"))
    k.note("table", (first, last, said.get("side")))
    k.note("fashioned", 1)
    holds = any("hold " in b.text for b in k.step.blocks if b.kind == "row")
    k.attempt(lambda: need(k.bed.holds or not holds, "hold-off",
                           "the carriage is not set to hold before needles are held"))
    k.expects = lambda blocks: table(k, blocks)
    k.owe("how", "how the rows between are knitted is not said")


@act("shape_now")
def shape_now(k: Knitter, said: dict) -> None:
    """The row counter shows the number of the first line already: knitted first, it is too late."""
    need(k.last == "shape_rows" and said["rc"] == k.notes["table"][0], "counter",
         "the table's first line is another")
    k.note("line now")


@act("shape_knit", "shape_knit_chart")
def shape_knit(k: Knitter, said: dict) -> None:
    k.paid("how", "no shaping row by row is announced")
    need(k.notes.pop("line now", None), "order", "the line for this row is not said to come first")
    need(("stitch pattern" in k.sentence) == bool(k.notes.get("chart")), "chart",
         "it is said of a piece with a stitch pattern, and of no other")


def table(k: Knitter, blocks: list[Block]) -> None:
    """Knit up to each row of a table and do what it says."""
    first, last, side = k.notes["table"]
    head, lines = blocks[0].cells, blocks[1:]
    sides = [cell.removeprefix("At the ") for cell in head[1:-1]]
    need(head[0] == "Row counter, carriage" and head[-1] == "Then in work" and sides
         and all(s in ("left", "right") for s in sides), "table", f"unknown columns {head}")
    need(([side] if side else ["left", "right"]) == sides, "table", "columns of other edges")
    counters = [int(line.cells[0].split(",")[0]) for line in lines]
    for line in lines:
        k.sentence = line.text
        k.attempt(lambda line=line: table_row(k, sides, line))
    if k.notes.pop("knit then", None):
        need(not k.bed.main.held(), "hold", "needles are still held")
        k.bed.holds = False
    k.sentence = blocks[0].text
    need((counters[0], counters[-1]) == (first, last), "counter",
         f"the table runs from {counters[0]} to {counters[-1]}")
    need(counters == sorted(set(counters)), "table", "its rows are not in order")


def table_row(k: Knitter, sides: list[str], line: Block) -> None:
    """One row of a shaping table."""
    when, where = re.fullmatch(r"(\d+), (left|right)", line.cells[0]).groups()  # type: ignore[union-attr]
    rows = int(when) - (k.bed.counter or 0)
    need(rows >= 0, "counter", f"the row counter is past it: {k.bed.counter}")
    if rows:
        k.attempt(lambda: knit_rows(k, {"rows": rows, "rc": int(when)}))
    k.attempt(lambda: need(k.bed.carriage == where, "side",
                           f"the carriage is on the {k.bed.carriage}"))
    if sum(cell != "–" for cell in line.cells[1:-1]) > 1:
        need(k.notes.get("left first") == k.step.number, "left-out",
             "which of two acts comes first is not said")
    for side, cell in zip(sides, line.cells[1:-1], strict=True):
        for entry in cell.split("; "):
            if entry != "–":
                k.attempt(lambda entry=entry, side=side: one_entry(k, side, entry))
    number, _, names = line.cells[-1].partition(", ")
    here = k.bed.main.knitting()
    need(len(here) == int(number), "stitches", f"{len(here)} stitches are in work")
    ends(names, here)


def ends(names: str, here: list[int]) -> None:
    """Hold the ends of a range to the needles that are there."""
    named = rising(names)
    need({named[0], named[-1]} == {here[0], here[-1]} if here else False, "range",
         f"they are {spoken(here)[:80]}")


def one_entry(k: Knitter, side: str, entry: str) -> None:
    """One thing that a table tells to do at one edge."""
    if entry.startswith("dart"):
        dart(k, side, entry)
        return
    match = ENTRY.fullmatch(entry)
    need(match, "table", f"this cannot be read: {entry!r}")
    what, number, names, only = match.groups()  # type: ignore[union-attr]
    spots = parse(names)
    need(what not in ("decrease", "increase") or number == "1", "table", "one stitch at a time")
    need(what != "bind off" or int(number) > 1, "table", "one stitch alone is decreased")
    if what == "hold" and k.bed.claws and "claws kept" not in k.notes:
        k.fault("claws", "that they follow the stitches in work is not said")
    if what == "hold" and side == k.bed.carriage:
        need("wrap_self" in {*k.told, *k.explained}, "left-out",
             "that it is wrapped by itself is not said")
    if what == "decrease":
        full, few = int(str(k.notes.get("fashioned", 1))), len(k.bed.main.knitting()) - 1
        moved = None if not only else 1 if only.startswith("the") else int(only)
        need(not only or (moved or 0) < full, "fashioned", f"{full} are moved, not fewer")
        need(only or full <= few, "fashioned", f"only {few} stitches can be moved")
        k.fashions.append(moved or 1)
        for spot in spots:
            decrease(k, side, spot, moved)
    elif what == "increase":
        for spot in spots:
            increase(k, side, spot)
    else:
        {"bind off": bind_off, "hold": hold, "put back": put_back}[what](k, side, spots)
    counted(spots, int(number))


@act("fashioned")
def fashioned(k: Knitter, said: dict) -> None:
    k.note("fashioned", said["n"])
    k.fashions.append(said["n"])
    k.owed.pop("fashioned", None)


@act("moved_back")
def moved_back(k: Knitter, said: dict) -> None:
    """Where the carriage passes by what stands fully forward, as a moved stitch's needle does."""
    need(k.bed.holds, "out-of-place", "the carriage knits needles that stand fully forward")


@act("left_first")
def left_first(k: Knitter, said: dict) -> None:
    k.note("left first", k.step.number)


@act("shape_once", "shape_once_side")
def shape_once(k: Knitter, said: dict) -> None:
    what = k.sentence.split(" ", 1)[0]
    need(said["stitches"] == 1, "count", "one stitch at a time")
    pairs = [(said["side"], said["needle"])] if "side" in said else [
        ("left", said["needle"]), ("right", said["needle2"])]
    later = re.search(r"Fully fashioned: move the (\d+) end stitches",
                      " ".join(block.text for block in k.step.blocks))
    for side, name in pairs:
        k.note("fashioned", int(later[1]) if later and what == "Decrease" else 1)
        (decrease if what == "Decrease" else increase)(k, side, place(name))


@act("hold_side")
def hold_side(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    need(k.bed.holds, "hold-off", "the carriage is not set to hold")
    hold(k, said["side"], spots)
    counted(spots, said["stitches"])


@act("bind_side")
def bind_side(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    bind_off(k, said["side"], spots)
    counted(spots, said["stitches"])

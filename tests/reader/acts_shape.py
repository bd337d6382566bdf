"""Shaping: row by row from a table, at intervals, once; marks; stitches moved; mitres; turning."""

from __future__ import annotations

import re

from tests.reader.acts_off import push_forward
from tests.reader.acts_rows import counted, knit_rows
from tests.reader.bed import HOLD, OUT, WORK, Needles, Wrong, need, other
from tests.reader.grammar import ordinal
from tests.reader.knitter import Knitter, act
from tests.reader.needles import NAME, parse, place, rising, spoken
from tests.reader.visible import Block

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
    k.bed.main.loops[start + step * full] = ["decreased"] * 2
    k.bed.main.position.pop(start, None)
    k.edges.append((k.bed.rows, side, "decrease", 1, k.bed.counter or 0))
    need(spot == start, "range", f"the edge is {spoken([start])}")


def increase(k: Knitter, side: str, spot: int | None = None) -> None:
    """Bring the next empty needle into work with the loop under the end stitch."""
    start, step = edge(k, side), inward(side)
    new = start - step
    need(k.bed.main.at(new) == OUT, "increase", f"{spoken([new])} is in work")
    k.bed.main.bring([new])
    k.bed.main.hang([new], "loop below", on=False)
    k.edges.append((k.bed.rows, side, "increase", 1, k.bed.counter or 0))
    need(spot in (None, new), "range", f"the next needle is {spoken([new])}")


def hold(k: Knitter, side: str, spots: tuple[int, ...]) -> None:
    """Push stitches at an edge forward: several at once only away from the carriage."""
    start, step = edge(k, side), inward(side)
    push_forward(k, spots)
    k.edges.append((k.bed.rows, side, "hold", len(spots), k.bed.counter or 0))
    need(list(spots) == [start + step * i for i in range(len(spots))], "range",
         f"the edge is {spoken([start])}")
    need(len(spots) == 1 or k.bed.carriage == other(side), "hold-side",
         "several at once are held only on the side away from the carriage")


def put_back(k: Knitter, side: str, spots: tuple[int, ...]) -> None:
    """Put held needles next to those in work back into work."""
    start, step = edge(k, side), inward(side)
    for spot in spots:
        need(k.bed.main.at(spot) == HOLD, "hold", f"{spoken([spot])} is not held")
    k.bed.main.bring(spots, WORK)
    k.edges.append((k.bed.rows, side, "put back", len(spots), k.bed.counter or 0))
    need(list(spots) == [start - step * i for i in range(len(spots), 0, -1)], "range",
         f"the edge is {spoken([start])}")


# --- row by row, from a table


@act("shape_rows")
def shape_rows(k: Knitter, said: dict) -> None:
    first, last = said["rc"], said["rc2"]
    k.note("table", (first, last, said.get("side")))
    k.note("fashioned", 1)
    holds = any("hold " in b.text for b in k.step.blocks if b.kind == "row")
    k.attempt(lambda: need(k.bed.holds or not holds, "hold-off",
                           "the carriage is not set to hold before needles are held"))
    k.expects = lambda blocks: table(k, blocks)
    k.owe("how", "how the rows between are knitted is not said")


@act("shape_knit", "shape_knit_chart")
def shape_knit(k: Knitter, said: dict) -> None:
    k.paid("how", "no shaping row by row is announced")
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
    for side, cell in zip(sides, line.cells[1:-1], strict=True):
        for entry in re.split(r"; |, (?=mark)", cell):
            if entry == "mark":
                k.marks.append((k.bed.counter or 0, k.part))
                k.tools["thread"] = True
            elif entry != "–":
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
    match = ENTRY.fullmatch(entry)
    need(match, "table", f"this cannot be read: {entry!r}")
    what, number, names, only = match.groups()  # type: ignore[union-attr]
    spots = parse(names)
    need(what not in ("decrease", "increase") or number == "1", "table", "one stitch at a time")
    need(what != "bind off" or int(number) > 1, "table", "one stitch alone is decreased")
    if what == "hold" and side == k.bed.carriage:
        need("wrap_self" in k.told, "left-out", "that it is wrapped by itself is not said")
    if what == "decrease":
        full, few = int(str(k.notes.get("fashioned", 1))), len(k.bed.main.knitting()) - 1
        moved = None if not only else 1 if only.startswith("the") else int(only)
        need(not only or (moved or 0) < full, "fashioned", f"{full} are moved, not fewer")
        need(only or full <= few, "fashioned", f"only {few} stitches can be moved")
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
    need(said["n"] == said["nth"], "fashioned",
         f"{said['n']} moved stitches double the {said['n']}th needle from the edge")
    k.note("fashioned", said["n"])
    k.fashions.append(said["n"])
    k.owed.pop("fashioned", None)


# --- at intervals

AFTER = re.compile(r"(?:then )?(?:at once|(once )?after (\d+) rows?(?: of the stitch pattern)?|"
                   r"on every (?:(\d+(?:st|nd|rd|th)) )?row(?: (\d+) times?)?)"
                   r"(?: \(row counter (\d+)\))?")


def moments(k: Knitter, text: str) -> list[int]:
    """The row counters at which a shaping is done, from the words that tell its intervals."""
    listed = None
    match = re.fullmatch(r"when the row counter shows ([\d, and]+): (.*)", text)
    if match:
        listed, text = [int(x) for x in re.findall(r"\d+", match[1])], match[2]
    now, out = k.bed.counter or 0, []
    start = now
    for part in re.split(r", then |, and |, | and (?=on every|once|after)", text):
        found = AFTER.fullmatch(part)
        need(found, "schedule", f"this cannot be read: {part!r}")
        _, after, nth, times, shown = found.groups()  # type: ignore[union-attr]
        step = int(after) if after else ordinal(nth) if nth else 1
        if part.removeprefix("then ").startswith("at once"):
            out.append(now)
        else:
            for _ in range(1 if after else int(times or 1)):
                now += step
                out.append(now)
        need(shown is None or int(shown) == now, "schedule", f"that is row counter {now}")
        need(("stitch pattern" in part) <= bool(k.notes.get("chart")), "chart",
             "there is no stitch pattern")
    need(listed is None or listed == out, "schedule", f"that is {out}")
    need(len(set(out)) == len(out) and out[0] >= start, "schedule", "two of them at one row")
    return out


def run_schedule(k: Knitter, text: str, do: list[tuple[str, str]]) -> None:
    """Knit to each moment of a schedule and do the same at each."""
    trace = []
    for when in moments(k, text):
        rows = when - (k.bed.counter or 0)
        if rows:
            k.attempt(lambda rows=rows, when=when: knit_rows(k, {"rows": rows, "rc": when}))
        for what, side in do:
            if what == "Decrease":
                decrease(k, side, edge(k, side))
            elif what == "Increase":
                increase(k, side)
            elif what == "Hold":
                hold(k, side, (edge(k, side),))
        trace.append((when, len(k.bed.main.knitting())))
    k.note("trace", trace)


@act("shape", "shape_side", "shape_hold")
def shape(k: Knitter, said: dict) -> None:
    what = k.sentence.split(" ", 1)[0]
    need(said["stitches"] == 1, "count", "one stitch at a time")
    sides = [said["side"]] if "side" in said else ["left", "right"]
    later = [s for s in grammar_of(k) if s.startswith("Fully fashioned: move the ")]
    k.note("fashioned", int(re.search(r"\d+", later[0])[0]) if later else 1)  # type: ignore[index]
    if what == "Decrease":
        k.plain = not later
    run_schedule(k, said["schedule"], [(what, side) for side in sides])
    many = len(k.notes.get("trace", ())) > 4
    if many and len(sides) == 2 and what != "Hold":
        k.owe("rows listed", "the rows are not listed")


def grammar_of(k: Knitter) -> list[str]:
    """Every sentence of the step at hand."""
    from tests.reader.grammar import sentences
    return [s for b in k.step.blocks if b.kind == "p" for s in sentences(b.text)]


@act("rows_listed")
def rows_listed(k: Knitter, said: dict) -> None:
    k.owed.pop("rows listed", None)
    k.expects = lambda blocks: listed(k, blocks)


def listed(k: Knitter, blocks: list[Block]) -> None:
    """The list of row counters with the stitches then in work."""
    told = []
    for block in blocks:
        pair = re.fullmatch(r"(\d+) (\d+)", block.text)
        need(pair, "list", f"this cannot be read: {block.text!r}")
        told.append((int(pair[1]), int(pair[2])))  # type: ignore[index]
    trace = k.notes.get("trace")
    if told != trace:
        odd = [pair for pair in told if pair not in (trace or ())]
        raise Wrong("list", f"the bed says otherwise than {odd[:3] or 'this order'}")


@act("shape_once", "shape_once_side")
def shape_once(k: Knitter, said: dict) -> None:
    what = k.sentence.split(" ", 1)[0]
    need(said["stitches"] == 1, "count", "one stitch at a time")
    pairs = [(said["side"], said["needle"])] if "side" in said else [
        ("left", said["needle"]), ("right", said["needle2"])]
    for side, name in pairs:
        k.note("fashioned", 1)
        (decrease if what == "Decrease" else increase)(k, side, place(name))


@act("bind_side")
def bind_side(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    bind_off(k, said["side"], spots)
    counted(spots, said["stitches"])


@act("mark")
def mark(k: Knitter, said: dict) -> None:
    here = k.bed.main.knitting()
    k.marks.append((k.bed.counter or 0, k.part))
    k.tools["thread"] = True
    need((place(said["needle"]), place(said["needle2"])) == (here[0], here[-1]), "range",
         f"the edges are {spoken([here[0]])} and {spoken([here[-1]])}")


@act("mark_rows")
def mark_rows(k: Knitter, said: dict) -> None:
    here = k.bed.main.knitting()
    run_schedule(k, said["schedule"], [])
    k.marks.extend((when, k.part) for when, _ in k.notes["trace"])
    k.tools["thread"] = True
    need((place(said["needle"]), place(said["needle2"])) == (here[0], here[-1]), "range",
         f"the edges are {spoken([here[0]])} and {spoken([here[-1]])}")


# --- moving stitches


@act("move", "move_far")
def move(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    by = said.get("needles_count", 1) * (1 if said["side"] == "right" else -1)
    bed = k.bed.main
    for spot in spots:
        need(spot + by in bed.loops and spot + by not in spots, "move",
             f"{spoken([spot + by])} holds no stitch")
    bed.move(spots, by)
    k.note("emptied", spots)
    k.owe("emptied", "what becomes of the emptied needles is not said")
    if "stitches" in said:
        counted(spots, said["stitches"])


@act("emptied_stay")
def emptied_stay(k: Knitter, said: dict) -> None:
    emptied = k.notes.get("emptied")
    k.owed.pop("emptied", None)
    need(emptied, "out-of-place", "no needle was emptied")
    k.bed.main.bring(emptied, WORK)  # type: ignore[arg-type]
    many = len(emptied) > 1  # type: ignore[arg-type]
    need(("needles" in k.sentence) == many, "number", "one needle, or more than one")


@act("mitre_close", "mitre_open")
def mitre(k: Knitter, said: dict) -> None:
    k.note("mitre", k.sentence)


@act("mitre_in")
def mitre_in(k: Knitter, said: dict) -> None:
    point = place(said["needle"])
    left, right = parse(said["needles"]), parse(said["needles2"])
    need("Close" in str(k.notes.get("mitre")), "mitre", "the mitre is not closed here")
    need((said["side"], said["side2"], said["side3"], said["side4"]) ==
         ("left", "right", "right", "left"), "side", "both sides move towards the point")
    full = k.bed.main.full()
    need(set(left) == {s for s in full if s < point} and
         set(right) == {s for s in full if s > point}, "range", "these are not all of them")
    k.bed.main.move(left, 1)
    k.bed.main.move(right, -1)
    k.note("emptied", [full[0], full[-1]])
    k.note("three", point)
    k.owe("three", "what the point's needle holds is not said")
    k.owe("emptied", "what becomes of the emptied needles is not said")
    counted(left, said["stitches"])
    counted(right, said["stitches2"])


@act("mitre_three")
def mitre_three(k: Knitter, said: dict) -> None:
    k.paid("three", "no stitches were moved")
    spot = place(said["needle"])
    need(len(k.bed.main.loops.get(spot, ())) == 3, "loops", "it holds another number")


@act("bring_pair")
def bring_pair(k: Knitter, said: dict) -> None:
    a, b = place(said["needle"]), place(said["needle2"])
    full = k.bed.main.full()
    k.bed.main.bring((a, b))
    need((a, b) == (full[0] - 1, full[-1] + 1), "range", "these are not beside the ends")


@act("mitre_out")
def mitre_out(k: Knitter, said: dict) -> None:
    left, right = parse(said["needles"]), parse(said["needles2"])
    need("Open" in str(k.notes.get("mitre")), "mitre", "the mitre is not opened here")
    need((said["side"], said["side2"], said["side3"], said["side4"]) ==
         ("left", "left", "right", "right"), "side", "both sides move away from the point")
    full = k.bed.main.full()
    point = set(range(full[0], full[-1] + 1)) - set(left) - set(right)
    k.bed.main.move(left, -1)
    k.bed.main.move(right, 1)
    need(len(point) == 1 and max(left) + 1 == min(right) - 1 == min(point), "range",
         "one needle is the point")
    counted(left, said["stitches"])
    counted(right, said["stitches2"])


@act("mitre_fill")
def mitre_fill(k: Knitter, said: dict) -> None:
    spots = (place(said["needle"]), place(said["needle2"]))
    empty = k.bed.main.empty()
    k.bed.main.hang(spots, "loop beside", on=False)
    need(set(spots) == set(empty), "range", f"empty are {spoken(empty)}")


@act("turn")
def turn(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    full = k.bed.main.full()
    need(not k.bed.weights, "weights-on", "the weights still hang")
    need(k.bed.feeder is None, "feeder-full", "the yarn is still in the feeder")
    turned = Needles()
    turned.bring(spots)
    turned.hang(spots, "turned", on=False)
    k.bed.main = turned
    k.bed.hangs = other(k.bed.hangs)
    k.note("face", "purl" if k.notes.get("face") == "knit" else "knit")
    k.owe("face", "which side faces is not said")
    need(list(spots) == full, "range", f"they hung on {spoken(full)}")
    counted(full, said["stitches"])


@act("turned_face", "turned_back")
def turned_face(k: Knitter, said: dict) -> None:
    k.paid("face", "the work was not turned")
    face = "knit" if "knit side" in k.sentence else "purl"
    need(k.notes.get("face") == face, "face", "the other side faces you")


@act("caution_bar")
def caution_bar(k: Knitter, said: dict) -> None:
    """A warning about cords at a garter bar; what is owed is said at the turning."""


@act("latch")
def latch(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    full = k.bed.main.full()
    need(set(spots) <= set(full), "range", "not all of them hold stitches")
    k.note("latched", spots)
    k.owe("latch row", "from which row is not said")
    k.owe("latch bars", "how many bars is not said")
    need(full[0] not in spots and full[-1] not in spots, "range", "an edge column cannot run")
    counted(spots, said["columns"])


@act("latch_row")
def latch_row(k: Knitter, said: dict) -> None:
    k.paid("latch row", "no column is latched")
    k.note("latch from", said["n"])


@act("latch_bars")
def latch_bars(k: Knitter, said: dict) -> None:
    k.paid("latch bars", "no column is latched")
    bars = (k.bed.counter or 0) - int(str(k.notes.get("latch from", 0)))
    need(said["n"] == bars, "bars", f"{bars} bars lie above that row")

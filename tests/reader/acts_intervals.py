"""Shaping at intervals, told by its rows; marks at the edges."""

from __future__ import annotations

import re

from tests.reader.acts_rows import knit_rows
from tests.reader.acts_shape import decrease, edge, hold, increase
from tests.reader.bed import Wrong, need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import place, spoken
from tests.reader.visible import Block

NUMBERS = r"(\d+( \(now\))?(?:, \d+)*(?: and \d+)?)"
LISTED = re.compile(rf"when the row counter shows {NUMBERS}")
THEN = re.compile(rf"when the row counter shows {NUMBERS}, then (.*), up to (\d+)")
AFTER = re.compile(r"once after (\d+) rows?|after every (?:row|(\d+) rows) \((\d+) times\)")
TURNS = re.compile(r"(\d+) times, (after \d+ rows?(?:, after \d+ rows?)? and after \d+ rows?) "
                   r"in turn")
GAPS = re.compile(r"after ((?:\d+, )+\d+ and \d+) rows")
FEW = 8  # more row counters than these are not listed


def gaps_of(text: str) -> list[int]:
    """The rows from one moment to the next, from the words that tell them."""
    if found := TURNS.fullmatch(text):
        gaps = [int(gap) for gap in re.findall(r"\d+", found[2])]
        return [gaps[n % len(gaps)] for n in range(int(found[1]))]
    if found := GAPS.fullmatch(text):
        return [int(gap) for gap in re.findall(r"\d+", found[1])]
    out: list[int] = []
    for part in re.split(r", | and ", text):
        found = AFTER.fullmatch(part)
        need(found, "schedule", f"this cannot be read: {part!r}")
        after, every, times = found.groups()  # type: ignore[union-attr]
        need(times != "1", "schedule", "what is done once is not done 1 times")
        out += [int(after)] if after else [int(every or 1)] * int(times)
    return out


def moments(k: Knitter, text: str) -> list[int]:
    """The row counters at which a shaping is done: all of them named, or the first ones, how far
    apart the others are, and the last. "Now" is at the row counter that it shows."""
    found = LISTED.fullmatch(text) or THEN.fullmatch(text)
    need(found, "schedule", f"this cannot be read: {text!r}")
    assert found
    out = [int(x) for x in re.findall(r"\d+", found[1])]
    need((out[0] == k.bed.counter) == bool(found[2]), "schedule", "whether it begins now is not so")
    if found.re is THEN:
        for gap in gaps_of(found[3]):
            out.append(out[-1] + gap)
        need(int(found[4]) == out[-1], "schedule", f"that is row counter {out[-1]}")
    need((len(out) > FEW) == (found.re is THEN), "schedule", f"they are {len(out)}")
    need(out == sorted(set(out)) and out[0] >= (k.bed.counter or 0), "schedule",
         "two of them at one row")
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
    k.owe("rows between", "how the rows between are knitted is not said")
    many = len(k.notes.get("trace", ())) > 4
    if many and len(sides) == 2 and what != "Hold":
        k.owe("rows listed", "the rows are not listed")


@act("shape_first")
def shape_first(k: Knitter, said: dict) -> None:
    """The rows from one to the next: a schedule alone names where they end, and no knitting."""
    k.paid("rows between", "nothing is done at intervals here")
    need(("stitch pattern" in k.sentence) == bool(k.notes.get("chart")), "chart",
         "it is said of a piece with a stitch pattern, and of no other")


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


@act("mark_one")
def mark_one(k: Knitter, said: dict) -> None:
    """A front has its side edge marked alone: nothing is sewn to its front edge by a mark. Of a
    piece that is turned one edge is the top, which alone has marks: `joins.marks_alike` holds it to
    the making up."""
    here = k.bed.main.knitting()
    k.marks.append((k.bed.counter or 0, k.part))
    k.tools["thread"] = True
    side = re.search(r"\b(left|right) front", k.title.lower())
    at = place(said["needle"])
    if not side:
        need(at in (here[0], here[-1]), "range", "no edge lies there")
        k.note("marked edges", ("left",) if at == here[0] else ("right",))
        return
    want = here[0] if side[1] == "left" else here[-1]  # type: ignore[index]
    need(at == want, "range", f"the side edge is {spoken([want])}")


@act("mark_neck")
def mark_neck(k: Knitter, said: dict) -> None:
    """A front's front edge ends where the neck's first stitch goes: at the other side's edge."""
    here = k.bed.main.knitting()
    k.tools["thread"] = True
    side = re.search(r"\b(left|right) front", k.title.lower())
    need(side, "range", "no front is knitted here")
    want = here[-1] if side[1] == "left" else here[0]  # type: ignore[index]
    need(place(said["needle"]) == want, "range", f"the front edge is {spoken([want])}")
    k.note("neck begins", k.bed.counter or 0)


@act("mark_of")
def mark_of(k: Knitter, said: dict) -> None:
    """Of an own piece: the corner that is tied, by the name that its drawing has."""
    need(k.last == "mark", "out-of-place", "no threads are tied in here")
    k.note("tied at", [*k.notes.get("tied at", []), said["words"]])
    sides = re.findall(r"\b(?:left|right)\b", said["words"])
    need(len(sides) == len(set(sides)), "side", "threads in both edges mark one of them twice")


@act("mark")
def mark(k: Knitter, said: dict) -> None:
    here = k.bed.main.knitting()
    k.marks.append((k.bed.counter or 0, k.part))
    need(k.notes.get("marked at") != k.step.number, "left-out",
         "a mark before this one has no checkpoint")
    k.note("marked at", k.step.number)
    k.note("marked edges", ("left", "right"))
    k.tools["thread"] = True
    need(not re.search(r"\b(?:left|right) front", k.title.lower()), "range",
         "nothing is sewn to a front's front edge by a mark")
    need((place(said["needle"]), place(said["needle2"])) == (here[0], here[-1]), "range",
         f"the edges are {spoken([here[0]])} and {spoken([here[-1]])}")

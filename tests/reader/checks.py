"""The checkpoints and the needle diagrams, held against the bed."""

from __future__ import annotations

import re
from itertools import pairwise

from tests.reader.acts_rows import passes_counted
from tests.reader.bed import HOLD, OUT, UPPER, WORK, Needles, need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import NAME, rising, spoken

RANGES = rf"{NAME}(?: to {NAME})?(?:(?:, | and ){NAME}(?: to {NAME})?)*"


@act("check")
def check(k: Knitter, said: dict) -> None:
    match = re.fullmatch(r"Check: (.*); row counter (\d+); carriage on the (left|right)\.",
                         said["words"])
    need(match, "check", "this checkpoint cannot be read")
    k.checks += 1
    k.note("unchecked", None)
    stitches, counter, side = match.groups()  # type: ignore[union-attr]
    k.attempt(lambda: passes_counted(k))
    k.attempt(lambda: need(k.bed.carriage == side, "check-side",
                           f"the carriage is on the {k.bed.carriage}"))
    if k.bed.counter is None:
        k.bed.counter = int(counter)
        k.fault("counter-unset", "the row counter was never set")
    k.attempt(lambda: need(k.bed.counter == int(counter), "check-counter",
                           f"the row counter shows {k.bed.counter}"))
    k.attempt(lambda: on_needles(k, stitches))


def on_needles(k: Knitter, words: str) -> None:
    """What hangs on the needles, as a checkpoint says it."""
    full = k.bed.main.full()
    if words == "no stitches on the needles":
        need(not full, "check-stitches", f"{len(full)} are on the needles")
        return
    if " second bed" in words:
        two_beds(k, words)
        return
    match = re.match(r"(\d+) stitch(?:es)?\b", words)
    need(match, "check", f"this cannot be read: {words!r}")
    need(int(match[1]) == len(full), "check-stitches",  # type: ignore[index]
         f"{len(full)} are on the needles")
    need((match[1] == "1") == match[0].endswith("stitch"), "check",  # type: ignore[index]
         "one stitch, or more")
    rest = loops_told(k, words[match.end():])  # type: ignore[union-attr]
    empty = k.bed.main.empty()
    if found := re.match(rf", ({RANGES})", rest):
        exact(found[1], full)
        rest = rest[found.end():]
    found = re.match(r", (\d+) needles? empty in working position", rest)
    need(int(found[1] if found else 0) == len(empty), "check-empty", f"{len(empty)} are empty")
    rest = rest[found.end():] if found else rest
    need(not rest, "check", f"this cannot be read: {rest!r}")


def loops_told(k: Knitter, rest: str) -> str:
    """What a checkpoint says of held needles and of loops; returns the words after it."""
    bed, full, held = k.bed.main, k.bed.main.full(), k.bed.main.held()
    told: dict[int, int | None] = {1: None}
    loops: dict[int, int] = {}
    for spot in full:
        # Two stitches decreased to one are told as two loops where a stitch pattern is knitted.
        number = len(bed.loops[spot])
        loops[number] = loops.get(number, 0) + 1
    tucked = re.match(r", (\d+) needles? with 2 loops", rest)
    chart = k.notes.get("chart")
    if tucked and chart and chart.tucks and (  # type: ignore[attr-defined]
            {"knit_chart", "shape_first"} & set(k.told)):  # laid by the chart's last row
        need(int(tucked[1]) < len(full), "check-loops", "no row tucks on every needle")
        return rest[tucked.end():]
    rest = of_which(rest, loops, told)
    if found := re.match(rf": (\d+) in work, ({RANGES}), and (\d+) held, ({RANGES})", rest):
        work = bed.knitting()
        need((int(found[1]), int(found[3])) == (len(work), len(held)), "check-stitches",
             f"{len(work)} are in work, {len(held)} held")
        exact(found[2], work)
        exact(found[4], held)
        rest = rest[found.end():]
    elif found := re.match(rf", all held, ({RANGES})", rest):
        need(held == full, "check-stitches", f"{len(held)} are held")
        exact(found[1], held)
        rest = rest[found.end():]
    elif found := re.match(r", (\d) loops on (?:each|it)", rest):
        need(set(loops) == {int(found[1])}, "check-loops", f"loops on a needle: {loops}")
        told, rest = {int(found[1]): None}, rest[found.end():]
    else:
        need(not held or k.sections or k.notes.get("parts"), "check", "held stitches are not named")
    rest = of_which(rest, loops, told)
    need(set(loops) <= set(told), "check-loops", f"loops on a needle: {loops}")
    return rest


def of_which(rest: str, loops: dict[int, int], told: dict[int, int | None]) -> str:
    """What a checkpoint says of needles with more loops; returns the words after it."""
    join = ","
    while found := re.match(rf"{join} (\d+) needles? with (\d) loops", rest):
        join = " and"
        number, each = int(found[1]), int(found[2])
        need(loops.get(each) == number, "check-loops", f"loops on a needle: {loops}")
        told[each], rest = number, rest[found.end():]
    return rest


def exact(words: str, here: list[int]) -> None:
    """Hold the ranges that a checkpoint names to the needles that are there.

    Where they lie in many groups the first and last may stand for all; of two or three groups each
    is named, or the range has other needles than the count beside it.
    """
    named = rising(words)
    ends_alike = (min(named), max(named)) == (here[0], here[-1]) if here else False
    gapless = set(named) == set(here)
    apart = len(named) == max(named) - min(named) + 1
    many = sum(b - a > 1 for a, b in pairwise(here)) > 2
    need(gapless or (many and apart and ends_alike and set(here) <= set(named)), "check-range",
         f"they are {spoken(here)[:80]}")


def two_beds(k: Knitter, words: str) -> None:
    """A checkpoint over two beds."""
    match = re.fullmatch(rf"(\d+) stitches, (\d+) of them on the main bed, ({RANGES}), and (\d+) on"
                         rf" the second bed, ({RANGES})", words)
    need(match, "check", f"this cannot be read: {words!r}")
    need(k.bed.second, "second-bed", "the second bed is not up")
    main, other = k.bed.main.full(), k.bed.second.full()  # type: ignore[union-attr]
    told = tuple(int(match[i]) for i in (1, 2, 4))  # type: ignore[index]
    need(told == (len(main) + len(other), len(main), len(other)), "check-stitches",
         f"{len(main)} and {len(other)}")
    for names, here in ((match[3], main), (match[5], other)):  # type: ignore[index]
        spots = rising(names)
        need((spots[0], spots[-1]) == (here[0], here[-1]), "check-range",
             f"they are {spoken(here)[:70]}")


# --- needle diagrams, by the words under them


@act("diagram")
def diagram(k: Knitter, said: dict) -> None:
    k.diagrams += 1
    words = said["words"]
    if known := re.fullmatch(r"Needles as after step (\d+)\.", words):
        words = k.drawn_after.get(int(known[1]), "")
        need(words, "diagram", f"no diagram stands at step {known[1]}")
    k.drawn_after[k.step.number] = words
    if words.startswith("Main bed: "):
        main, _, rest = words.partition(" Second bed: ")
        two_bed_diagram(k, main.removeprefix("Main bed: "), rest)
        return
    seen: set[int] = set()
    total = 0
    plain = re.sub(r",? and beyond\b", "", words)
    for part in re.split(r"(?<=[^.])\. ?(?=[A-Z0-9]|$)", plain):
        if part:
            marked = shown(k, k.bed.main, part, seen)
            total += len(marked)
            seen |= marked
    need(total == len(seen), "diagram", "a needle has two marks")
    need(not seen or len(seen) == max(seen) - min(seen) + 1, "diagram", "a needle has no mark")
    # Of the needles out of work beside the work only the nearest are drawn.
    need(not seen or (plain != words) == any(k.bed.main.at(end) == OUT
                                             for end in (min(seen), max(seen))),
         "diagram", "more needles than the outermost are in non-working position, or none is")
    missing = set(k.bed.main.full()) - seen
    need(not missing, "diagram", f"it does not show {spoken(missing)[:60]}")
    standing = set(k.bed.main.standing(WORK, UPPER, HOLD)) - seen
    need(not standing, "diagram", f"it does not show {spoken(standing)[:60]}")


def shown(k: Knitter, bed: Needles, words: str, before: set[int]) -> set[int]:
    """The needles of one mark of a diagram, held against the bed. "All others" are those of a range
    that no mark `before` has."""
    label, _, names = words.partition(": ")
    others = names.removeprefix("all others from ")
    spots = set(rising(others)) - (before if others != names else set())
    label = label.removesuffix(" on each needle")
    rows, put_back = k.notes.get("put back", (-1, ()))
    upper = put_back if rows == k.bed.rows else ()  # the next row brings them to working position
    tests = {
        "One stitch": lambda s: len(bed.loops.get(s, ())) == 1 and bed.at(s) in (WORK, UPPER)
        and s not in upper,
        "One stitch, in upper working position":
            lambda s: len(bed.loops.get(s, ())) == 1 and s in upper,
        "One stitch, chosen needle":
            lambda s: len(bed.loops.get(s, ())) == 1 and (
                bed.at(s) == UPPER or s in k.notes.get("slit needles", ())
                or s in {x for pair in k.notes.get("loops", ()) for x in pair}),
        "One stitch, its column latched up":
            lambda s: s in k.notes.get("latched", ()) and s in bed.loops,
        "A loop of cord": lambda s: bed.loops.get(s) == ["cord"],
        "2 loops": lambda s: len(bed.loops.get(s, ())) == 2,
        "3 loops": lambda s: len(bed.loops.get(s, ())) == 3,
        "In holding position": lambda s: bed.at(s) == HOLD and s in bed.loops,
        "Empty, in working position": lambda s: bed.at(s) == WORK and s not in bed.loops,
        "In non-working position": lambda s: bed.at(s) == OUT,
    }
    need(label in tests, "diagram", f"an unknown mark: {label!r}")
    odd = [s for s in sorted(spots) if not tests[label](s)]
    need(not odd, "diagram", f"{label} is not so on {spoken(odd)[:60]}")
    return spots


def two_bed_diagram(k: Knitter, main: str, rest: str) -> None:
    """A diagram over two beds: what each holds, and how they face each other."""
    other, _, pitch = rest.partition(". ")
    need(k.bed.second is not None, "second-bed", "the second bed is not up")
    for bed, words in ((k.bed.main, main.rstrip(".")), (k.bed.second, other)):
        found = re.fullmatch(r"(empty, in working position: |(\d+) stitches on )(.*)", words)
        need(found, "diagram", f"this cannot be read: {words!r}")
        spots = set(rising(found[3]))  # type: ignore[index]
        if found[2]:  # type: ignore[index]
            need(int(found[2]) == len(spots) and spots == set(bed.full()),  # type: ignore
                 "diagram", "the bed holds others")
        else:
            need(spots == set(bed.empty()), "diagram", "other needles are empty")  # type: ignore
    need(pitch.lower().startswith(str(k.notes.get("pitch"))), "diagram",
         f"the beds stand at {k.notes.get('pitch')} pitch")
    from tests.reader import grammar
    said = grammar.read(pitch)
    need(said.act in ("pitch_full", "pitch_half"), "diagram", "the beds stand otherwise")
    names = [said.slots[key] for key in ("needle", "needle2", "needle3") if key in said.slots]
    need(len(set(names[:2])) == 1 or (len(names) == 3 and names[0] in names[1:]), "diagram",
         "these needles do not face each other")

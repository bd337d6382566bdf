"""Stitches moved: onto a neighbour, in a mitre, by turning the work; columns latched up."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from tests.reader.acts_rows import counted
from tests.reader.bed import WORK, Needles, need, other
from tests.reader.knitter import Knitter, act
from tests.reader.needles import parse, place, rising, spoken
from tests.reader.visible import Block


@act("move")
def move(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    by = said.get("needles_count", 1) * (1 if said["side"] == "right" else -1)
    bed = k.bed.main
    for spot in spots:
        need(spot + by in bed.loops and spot + by not in spots, "move",
             f"{spoken([spot + by])} holds no stitch")
    bed.move(spots, by)
    k.note("emptied", spots)
    k.note("to fill in", None)
    k.owe("emptied", "what becomes of the emptied needles is not said")
    if "stitches" in said:
        counted(spots, said["stitches"])


@act("emptied_stay")
def emptied_stay(k: Knitter, said: dict) -> None:
    emptied = k.notes.get("emptied")
    k.owed.pop("emptied", None)
    need(emptied, "out-of-place", "no needle was emptied")
    k.bed.main.bring(emptied, WORK)  # type: ignore[arg-type]
    if k.last == "move":
        k.note("to fill in")
    many = len(emptied) > 1  # type: ignore[arg-type]
    need(("needles" in k.sentence) == many, "number", "one needle, or more than one")


@act("mitred_at")
def mitred_at(k: Knitter, said: dict) -> None:
    k.note("mitred at", said["n"])


@act("mitre_rest")
def mitre_rest(k: Knitter, said: dict) -> None:
    need(k.last == "mitred_at", "out-of-place", "at which corners is said just before")
    k.note("rest", said["cm"])


@act("mitre_close", "mitre_open")
def mitre(k: Knitter, said: dict) -> None:
    k.note("mitre", k.sentence)
    if "n" in said:
        k.notes.setdefault("turns", sorted(k.corners.values()))
        need(said["n"] == len(k.notes["turns"]), "mitre",  # type: ignore[arg-type]
             f"loops of {len(k.corners)} corners were lifted")
        need(said["n"] == k.notes.get("mitred at"), "mitre", "the head names other corners")


@act("bring_ends")
def bring_ends(k: Knitter, said: dict) -> None:
    spots, full = parse(said["needles"]), k.bed.main.full()
    need("Open" in str(k.notes.get("mitre")), "mitre", "the mitre is not opened here")
    k.bed.main.bring(spots)
    more = len(k.notes["turns"])  # type: ignore[arg-type]
    need(sorted(spots) == [*range(full[0] - more, full[0]),
                           *range(full[-1] + 1, full[-1] + 1 + more)], "range",
         f"{more} at either end have room for what comes")


@act("mitre_moves")
def mitre_moves(k: Knitter, said: dict) -> None:
    """What lies between several corners, and their own stitches, told one by one. With what they
    move is said at a band's first pair, and later pairs go the same way."""
    again = k.sentence.startswith("In the same way")
    need(again == bool(k.notes.get("mitre moved")), "repeated" if not again else "left-out",
         "how a mitre's stitches move is said at its first pair, and there alone")
    k.note("mitre moved")
    need(k.last in ("mitre_close", "bring_ends"), "out-of-place", "no mitre is worked here")
    k.expects = lambda blocks: moved_lines(k, blocks)


def moved_lines(k: Knitter, blocks: list[Block]) -> None:
    bed, before = k.bed.main, k.bed.main.full()
    turns = list(k.notes["turns"])  # type: ignore[call-overload]
    left = set(before)
    for block in blocks:
        match = re.fullmatch(r"(.*) \((\d+) stitch(?:es)?\): (\d+) needles? to the (left|right)",
                             block.text)
        need(match, "list", f"this cannot be read: {block.text!r}")
        spots = parse(match[1])  # type: ignore[index]
        by = int(match[3]) * (1 if match[4] == "right" else -1)  # type: ignore[index]
        need(set(spots) <= left, "range", "they were moved before, or hold nothing")
        left -= set(spots)
        bed.move(spots, by)
        turns = [t + by if t in spots and t in k.notes["turns"] else t  # type: ignore[operator]
                 for t in turns]
        counted(spots, int(match[2]))  # type: ignore[index]
    k.note("turns", sorted(turns))
    close = "Close" in str(k.notes.get("mitre"))
    k.note("emptied" if close else "to open", sorted(set(before) - set(bed.full())))
    if close:
        k.owe("three", "what the corners' needles hold is not said")
        k.owe("emptied", "what becomes of the emptied needles is not said")
        full = bed.full()
        need(full == list(range(full[0], full[-1] + 1)), "range", "needles between are empty")


@act("mitre_three_each")
def mitre_three_each(k: Knitter, said: dict) -> None:
    k.paid("three", "no stitches were moved")
    spots = sorted(parse(said["needles"]))
    need(spots == [s for s in k.bed.main.full() if len(k.bed.main.loops[s]) == 3], "loops",
         "others hold three loops")
    need(spots == k.notes["turns"], "range", f"the corners are {spoken(k.notes['turns'])}")


def filled(k: Knitter, spots: list[int] | tuple[int, ...], told: Sequence[int]) -> None:
    """A loop from the neighbour away from the corner, as `told`: the corner's one stitch gives not
    two."""
    beside = []
    for spot in spots:
        away = [s for s in (spot - 1, spot + 1) if not {2 * s - spot, spot} <= set(spots)]
        need(len(away) == 1 and away[0] in k.bed.main.loops, "no-loop",
             f"no neighbour of {spoken([spot])} away from the corner gives a loop")
        beside += away
    need(beside == list(told), "range", f"these are {[spoken([s]) for s in beside]}")
    k.bed.main.hang(tuple(spots), "loop beside", on=False)


@act("mitre_fill_all")
def mitre_fill_all(k: Knitter, said: dict) -> None:
    spots, empty = sorted(parse(said["needles"])), k.bed.main.empty()
    filled(k, spots, parse(said["needles2"]))
    need(spots == empty, "range", f"empty are {spoken(empty)}")
    need(spots == sorted(t + by for t in k.notes["turns"] for by in (-1, 1)),  # type: ignore
         "range", "they do not lie beside the corners")


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


@act("mitre_forward")
def mitre_forward(k: Knitter, said: dict) -> None:
    """Three loops knit off an open latch alone; the row brings the needle back."""
    need(k.last in ("mitre_three", "mitre_three_each"), "out-of-place", "no step says three loops")


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
    need("needle" not in said or {place(said["needle"])} == point, "range",
         "the corner's stitch lies elsewhere")
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
    filled(k, spots, parse(said["needles"]))
    need(set(spots) == set(empty), "range", f"empty are {spoken(empty)}")


@act("turn")
def turn(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    full = k.bed.main.full()
    need(not k.bed.weights, "weights-on", "the weights still hang")
    need(k.bed.feeder is None, "feeder-full", "the yarn is still in the feeder")
    k.note("turned", max(int(str(k.notes.get("turned", 0))), spots[-1] - spots[0] + 1))
    turned = Needles()
    turned.bring(spots)
    turned.hang(spots, "turned", on=False)
    k.bed.main = turned
    k.bed.hangs = other(k.bed.hangs)
    k.bed.resting = {yarn: other(side) for yarn, side in k.bed.resting.items()}
    k.note("face", "purl" if k.notes.get("face") == "knit" else "knit")
    k.owe("face", "which side faces is not said")
    need(list(spots) == full, "range", f"they hung on {spoken(full)}")
    counted(full, said["stitches"])


@act("close_up")
def close_up(k: Knitter, said: dict) -> None:
    full = k.bed.main.full()
    need(not k.bed.weights, "weights-on", "the weights still hang")
    need("clear of" not in k.notes or k.notes.get("held by hand") == k.step.number, "left-out",
         "nothing holds the work when it is off the needles")
    need(k.bed.main.knitting() == full, "range", "not all of them are in work")
    k.note("off all", full)
    k.owe("on again", "where they are hung again is not said")
    if any(len(k.bed.main.loops[spot]) > 1 for spot in full):
        k.owe("two as one", "that the two loops of a needle stay together is not said")
    counted(full, said["stitches"])


@act("close_on", "close_pairs")
def close_on(k: Knitter, said: dict) -> None:
    """The stitches in their order, one or two to a needle; the needles side by side."""
    k.paid("on again", "no stitches were taken off")
    off, onto = k.notes.pop("off all", []), rising(said["needles"])
    alone = [place(said["needle"])] if "needle" in said else []
    twice = rising(said["needles2"]) if "needles2" in said else \
        tuple(spot for spot in onto if spot not in alone)
    need(list(onto) == list(range(onto[0], onto[-1] + 1)), "range", "they are not side by side")
    need(set(twice) <= set(onto) and set(alone) <= set(onto), "range",
         "some of them are not among these needles")
    if ribbed := "clear of" in k.notes:
        above_rib(k, onto)
    loops = [k.bed.main.loops.pop(spot) for spot in off]  # type: ignore[attr-defined]
    k.bed.main.bring(onto)
    for spot in onto:
        for _ in range(1 + (spot in twice)):
            k.bed.main.loops.setdefault(spot, []).extend(loops.pop(0) if loops else ["none"])
    k.note("emptied", [spot for spot in off if spot not in onto])  # type: ignore[attr-defined]
    k.notes.setdefault("rib of", (len(off), len(onto)))  # type: ignore[arg-type]
    k.owe("emptied", "what becomes of the emptied needles is not said")
    if ribbed:
        k.bed.heavy = "doubled"
        k.owe("waste if", "when the waste yarn is drawn out is not said")
    need(len(onto) + len(twice) == len(off), "count",  # type: ignore[arg-type]
         f"there are {len(off)} stitches to hang")  # type: ignore[arg-type]


@act("stay_in_work")
def stay_in_work(k: Knitter, said: dict) -> None:
    """Which needles get no stitch, before the others do."""
    need("off all" in k.notes, "out-of-place", "no stitches were taken off")
    k.note("to stay", rising(said["needles"]))


@act("caution_spread")
def caution_spread(k: Knitter, said: dict) -> None:
    """The work is held before it comes off the needles."""
    need(k.last == "carriage_clear", "out-of-place", "the carriage is out of the way first")
    k.note("held by hand", k.step.number)


@act("close_gaps")
def close_gaps(k: Knitter, said: dict) -> None:
    """The stitches in their order on needles of which some stay empty: these are filled next."""
    k.paid("on again", "no stitches were taken off")
    off, onto = k.notes.pop("off all", []), rising(said["needles"])
    gaps: tuple[int, ...] = tuple(k.notes.get("to stay", ()))  # type: ignore[arg-type]
    need(list(onto) == list(range(onto[0], onto[-1] + 1)), "range", "they are not side by side")
    need(set(gaps) <= set(onto[1:-1]), "range", "some of them are not between these needles")
    above_rib(k, onto)
    loops = [k.bed.main.loops.pop(spot) for spot in off]  # type: ignore[attr-defined]
    need(len(loops) == len(onto) - len(gaps), "count", f"there are {len(loops)} stitches to hang")
    for spot in onto:
        if spot not in gaps and loops:
            k.bed.main.loops.setdefault(spot, []).extend(loops.pop(0))
    steps = [b - a for a, b in pairwise(gaps)]
    need(not steps or max(steps) - min(steps) <= 1, "range", "they are not evenly spread")
    k.note("to fill", gaps)
    k.notes.setdefault("rib of", (len(off), len(onto)))  # type: ignore[arg-type]


def above_rib(k: Knitter, onto: Sequence[int]) -> None:
    """All needles that get or will get a stitch are in work, and the carriage is out of the way."""
    idle = [spot for spot in onto if k.bed.main.at(spot) != WORK]
    need(not idle, "needle-out", f"{spoken(idle)} are in non-working position")
    clear = k.notes.pop("clear of", None)
    k.note("spread")
    ends = [*onto, *k.bed.main.full()]
    far = max(ends) if k.bed.carriage == "right" else min(ends)
    need(clear == far, "carriage", f"it is not pushed clear of {spoken([far])}")


@act("carriage_clear")
def carriage_clear(k: Knitter, said: dict) -> None:
    need(said["side"] == said["side2"] == k.bed.carriage, "side",
         f"the carriage is on the {k.bed.carriage}")
    k.note("clear of", place(said["needle"]))


@act("two_one")
def two_one(k: Knitter, said: dict) -> None:
    k.paid("two as one", "no needle holds two loops")
    need(k.last == "close_up", "out-of-place", "no stitches were taken off just now")


@act("bring_more")
def bring_more(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    need("clear of" in k.notes, "carriage", "the carriage is in the way")
    need("off all" in k.notes, "order", "the stitches are still on the needles")
    inside = [spot for spot in spots if k.bed.main.at(spot) == WORK]
    need(not inside, "brought-twice", f"{spoken(inside)} are in work already")
    k.bed.main.bring(spots)


@act("waste_if")
def waste_if(k: Knitter, said: dict) -> None:
    k.paid("waste if", "no stitches can be on waste yarn here")


@act("rib_more")
def rib_more(k: Knitter, said: dict) -> None:
    """How many new stitches a piece has above its rib; all of them have a loop now."""
    k.paid("why filled", "no needle stayed empty above a rib")
    k.owe("waste if", "when the waste yarn is drawn out is not said")
    need(k.last in ("fill_gaps", "fill_bump"), "out-of-place", "no needles were given loops")
    need(said["stitches"] == len(k.notes["to fill"]), "count",  # type: ignore[arg-type]
         f"{len(k.notes['to fill'])} loops came")  # type: ignore[arg-type]


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
    k.note("rib on", full)
    k.owe("latch row", "from which row is not said")
    k.owe("latch bars", "how many bars is not said")
    need(full[0] not in spots and full[-1] not in spots, "range", "an edge column cannot run")
    counted(spots, said["columns"])


@act("latch_beside")
def latch_beside(k: Knitter, said: dict) -> None:
    need("latched" in k.notes, "out-of-place", "no column is latched")
    k.note("beside bands", (said["words2"], said["words"]))
    k.owe("rib over", "why the fronts are not alike is not said")


@act("latch_over")
def latch_over(k: Knitter, said: dict) -> None:
    k.paid("rib over", "nothing is said of the ribs beside the bands")


@act("latch_row")
def latch_row(k: Knitter, said: dict) -> None:
    k.paid("latch row", "no column is latched")
    k.note("latch from", said["n"])


@act("latch_bars")
def latch_bars(k: Knitter, said: dict) -> None:
    k.paid("latch bars", "no column is latched")
    bars = (k.bed.counter or 0) - int(str(k.notes.get("latch from", 0)))
    need(said["n"] == bars, "bars", f"{bars} bars lie above that row")

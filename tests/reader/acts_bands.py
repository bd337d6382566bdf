"""Edges hung on the needles, bands closed round them, buttonholes, pockets, facings."""

from __future__ import annotations

import re
from itertools import pairwise

from tests.reader.acts_rows import counted
from tests.reader.bed import FOREIGN, UPPER, WORK, need, other
from tests.reader.knitter import Knitter, act
from tests.reader.needles import parse, place, rising, spoken
from tests.reader.visible import Block


def hung(k: Knitter, said: dict, on: bool) -> None:
    """Hang a piece of an edge, on empty needles or on top of stitches."""
    spots = parse(said["needles"])
    need(not on or not k.bed.weights, "weights-on", "the weights still hang")
    k.bed.main.hang(spots, "edge", on=on)
    k.note("unchecked")
    words = said.get("words", "")
    before = [number for number, _, _ in k.sections]
    number = said.get("n", 1)
    k.sections.append((number, words, spots))
    need(number == len(before) + 1, "section", f"this is section {len(before) + 1}")
    need(list(spots) == sorted(spots), "range", "an edge is hung from left to right")
    if on:
        need(k.bed.cloth, "cloth", "no cloth lies over the bed")


@act("hang_edge", "hang_section")
def hang_edge(k: Knitter, said: dict) -> None:
    hung(k, said, on=False)


@act("hang_over", "hang_section_over")
def hang_over(k: Knitter, said: dict) -> None:
    hung(k, said, on=True)


@act("edge_hangs", "edge_lies")
def edge_hangs(k: Knitter, said: dict) -> None:
    need(k.sections, "out-of-place", "no edge is hung")
    k.note("first end", (said["words"], said["side"]))
    end = k.notes.get("end told")
    need(end is None or end == (said["words"], said["side"]), "end",
         f"the section's head says {end}")
    if "cloth" in k.sentence:
        need(k.bed.cloth, "cloth", "no cloth lies over the bed")


@act("go_in")
def go_in(k: Knitter, said: dict) -> None:
    need(k.last in ("hang_edge", "hang_section", "hang_over", "hang_section_over", "edge_hangs",
                    "edge_lies", "mark_edge", "transfer_tool"), "out-of-place",
         "no edge is hung here")
    k.depths.append(said["stitches"])


@act("mark_edge")
def mark_edge(k: Knitter, said: dict) -> None:
    k.tools["thread"] = True
    k.note("needs table")
    k.note("marked at", k.step.number)
    need(k.told == ["mark_edge"], "out-of-place", "rows are marked before the edge is hung")


@act("hang_order")
def hang_order(k: Knitter, said: dict) -> None:
    if "ordered at" not in k.notes:
        k.note("ordered at", k.step.number)
    need(k.last in ("go_in", "hang_section_over", "hang_section", "hang_over", "hang_edge",
                    "edge_lies", "edge_hangs", "mark_edge", "transfer_tool"), "out-of-place",
         "no edge is hung here")
    k.note("needs table")


@act("from_waste")
def from_waste(k: Knitter, said: dict) -> None:
    need(k.sections and "waiting stitches" in k.sections[-1][1], "out-of-place",
         "no waiting stitches are hung here")


@act("waiting_out")
def waiting_out(k: Knitter, said: dict) -> None:
    need(k.last == "from_waste", "out-of-place", "no stitches were taken off waste yarn")


@act("from_cord")
def from_cord(k: Knitter, said: dict) -> None:
    need(k.sections and "on their cord" in k.sections[-1][1], "out-of-place",
         "no stitches on a cord are hung here")


@act("give_loop")
def give_loop(k: Knitter, said: dict) -> None:
    spots = [place(said[key]) for key in ("needle", "needle2") if key in said]
    join = k.notes.get("join needles")
    k.note("unchecked")
    for spot in spots:
        need(spot - 1 in k.bed.main.loops or spot + 1 in k.bed.main.loops, "loop",
             "no stitch is beside it")
    empty = k.bed.main.empty()
    k.bed.main.hang(spots, "loop beside", on=False)
    need(set(spots) == set(empty), "range", f"empty are {spoken(empty)}")
    need(join is None or set(spots) == set(join), "range",  # type: ignore[arg-type]
         "the section's head names other needles for the join")


@act("cloth")
def cloth(k: Knitter, said: dict) -> None:
    need(not k.bed.weights, "weights-on", "the weights still hang")
    k.bed.cloth = True
    k.tools["cloth"] = True


@act("fold_around")
def fold_around(k: Knitter, said: dict) -> None:
    full = k.bed.main.full()
    need(k.sections, "edge", "no edge is hung")
    need(k.bed.cord, "cord", "no row was knitted with the cord")
    k.bed.main.hang(full, "first row", on=True)
    k.note("hung")
    k.owe("half loop", "one loop fewer than stitches lies above the cord")
    need(len(full) == k.bed.cord, "loops", f"the first row has {k.bed.cord} stitches")


@act("fold_inside")
def fold_inside(k: Knitter, said: dict) -> None:
    need(not k.bed.weights, "weights-on", "the weights still hang")
    k.note("folded in")


@act("hang_line")
def hang_line(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    need(k.notes.get("folded in"), "fold", "the band was not folded to the inside")
    k.bed.main.hang(spots, "first row", on=True)
    need(set(spots) == set(k.bed.main.full()), "range",
         f"the stitches are on {spoken(k.bed.main.full())[:60]}")


@act("hand_row")
def hand_row(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    full = k.bed.main.full()
    end = k.notes.pop("hand end", None)
    need(end, "end", "no end was left for it")
    for spot in full:
        k.bed.main.loops[spot] = ["hand row"]
    k.note("end at", said["side2"])
    k.note("joined")
    need(said["side"] == end and said["side2"] == other(said["side"]), "side",
         f"the end hangs on the {end}")
    need(set(spots) == set(full), "range", f"the stitches are on {spoken(full)[:60]}")
    need(("right" if spots[-1] > spots[0] else "left") == said["side2"], "side",
         f"{said['needles']} runs the other way")


@act("chain_off")
def chain_off(k: Knitter, said: dict) -> None:
    full = k.bed.main.full()
    first, last = place(said["needle"]), place(said["needle2"])
    need(full, "no-stitches", "no stitches are on the needles")
    weights, k.bed.weights = k.bed.weights or k.bed.claws, False
    k.bed.claws = False
    k.bed.main.drop(full)
    end = k.notes.pop("end at", None) or k.bed.carriage  # the end that was cut hangs there
    need({first, last} == {full[0], full[-1]}, "range", f"the stitches are on {spoken(full)[:60]}")
    need(("right" if last > first else "left") == end, "side", f"the yarn's end is on the {end}")
    need(not weights, "weights-on", "the weights still hang")


@act("stay")
def stay(k: Knitter, said: dict) -> None:
    need(k.last in ("hand_row", "by_hand", "cast_each", "pocket_back", "clipped_back", "loops_tie",
                    "cord_each", "pocket_cord"), "out-of-place", "nothing was knitted by hand")


@act("turn_in", "turn_in_uneven")
def turn_in(k: Knitter, said: dict) -> None:
    need(k.waiting, "waiting", "no stitches wait")
    if "stitches" in said:
        need(said["stitches"] == list(k.waiting.values())[-1], "count",
             f"{list(k.waiting.values())[-1]} wait")
        begun = len(k.sections[0][2]) if k.sections else k.notes.get("cast on")
        need(said["n"] == begun, "count", f"it began on {begun}")
    k.note("sewn down")


@act("waste_out")
def waste_out(k: Knitter, said: dict) -> None:
    need(k.last in ("turn_in", "turn_in_uneven", "sew_off"), "out-of-place", "no waste yarn is in")


@act("sew_off")
def sew_off(k: Knitter, said: dict) -> None:
    need(k.notes.get("sewing end"), "end", "no end was left to sew with")
    waits = list(k.waiting.values())
    need(waits and said["stitches"] == waits[-1], "count", f"{waits[-1:]} wait")


# --- buttonholes


def hole_lines(k: Knitter, blocks: list[Block], what: str = "Buttonhole") -> list[str]:
    """The lines of a numbered list of holes, without their numbers."""
    out = []
    for number, block in enumerate(blocks, 1):
        match = re.fullmatch(rf"{what} (\d+): (.*)", block.text)
        need(match and int(match[1]) == number, "list", f"this is not {what.lower()} {number}")
        out.append(match[2])  # type: ignore[index]
    return out


@act("choose")
def choose(k: Knitter, said: dict) -> None:
    k.note("holes told", (said["n"], said["stitches"]))
    k.owe("upper", "where the needles are brought is not said")


@act("upper")
def upper(k: Knitter, said: dict) -> None:
    k.paid("upper", "no needles are chosen")
    k.owe("count across", "how to count across is not said")
    k.expects = lambda blocks: chosen(k, blocks)


def chosen(k: Knitter, blocks: list[Block]) -> None:
    """The needles of the buttonholes."""
    holes = [rising(line) for line in hole_lines(k, blocks)]
    number, stitches = k.notes["holes told"]
    for hole in holes:
        for spot in hole:
            need(spot in k.bed.main.loops, "range", f"{spoken([spot])} holds no stitch")
        k.bed.main.bring(hole, UPPER)
    k.note("holes", holes)
    k.note("band", (k.bed.main.full()[0], k.bed.main.full()[-1]))
    need(len(holes) == number, "count", f"{len(holes)} holes are listed")
    for hole in holes:
        counted(hole, stitches)
    firsts = [h[0] for h in holes]
    need(sorted(firsts) in (firsts, firsts[::-1]), "range", "the holes are not in order")


def ordered(k: Knitter, holes: list[tuple[int, ...]]) -> None:
    """Hold a later list of holes to the needles that were chosen."""
    need(holes == k.notes.get("holes"), "range", "other needles were chosen")


@act("count_across")
def count_across(k: Knitter, said: dict) -> None:
    k.paid("count across", "no needles are chosen")
    full = k.bed.main.full()
    runs, last = [], full[0]
    for hole in sorted(k.notes.get("holes", ()), key=min):  # type: ignore[call-overload]
        runs += [str(min(hole) - last), f"a hole of {len(hole)}"]
        last = max(hole) + 1
    runs.append(str(full[-1] + 1 - last))
    if said["side"] == "right":
        runs.reverse()
    told = ", ".join(runs[:-1]) + " and " + runs[-1]
    need(told == said["list"], "count-across", f"it is {told}")
    k.note("gaps", [int(run) for run in runs if run.isdigit()])


@act("by_hand")
def by_hand(k: Knitter, said: dict) -> None:
    k.owe("cord", "what the cords are is not said")


@act("cord_each")
def cord_each(k: Knitter, said: dict) -> None:
    k.paid("cord", "no stitches are knitted by hand")
    k.cords.append(said["cm"])
    k.expects = lambda blocks: on_cords(k, blocks)


def on_cords(k: Knitter, blocks: list[Block]) -> None:
    """The holes' stitches knitted by hand with cords."""
    holes = [rising(line) for line in hole_lines(k, blocks)]
    for hole in holes:
        for spot in hole:
            need(k.bed.main.at(spot) == UPPER, "range", f"{spoken([spot])} was not chosen")
            k.bed.main.loops[spot] = ["cord"]
    k.note("cords in", len(holes))
    ordered(k, holes)


@act("clips")
def clips(k: Knitter, said: dict) -> None:
    need(said["cords"] == k.notes.get("cords in"), "count", f"{k.notes.get('cords in')} cords")
    need(said["clips"] == 2 * said["cords"], "count", "two clips for a cord")
    k.note("clips", said["clips"])


@act("clipped_back")
def clipped_back(k: Knitter, said: dict) -> None:
    back = k.bed.main.standing(UPPER)
    need(back, "out-of-place", "no needle stands forward")
    k.bed.main.bring(back, WORK)


@act("fold_layer")
def fold_layer(k: Knitter, said: dict) -> None:
    need(not k.bed.weights, "weights-on", "the weights still hang")
    need(k.notes.get("cords in"), "cord", "no cords are in the work")
    k.note("layer folded")


@act("hole_edges")
def hole_edges(k: Knitter, said: dict) -> None:
    need(k.notes.get("layer folded"), "fold", "the layer was not folded up")
    k.owe("hole loops", "how many loops a hole has is not said")


@act("hole_loops")
def hole_loops(k: Knitter, said: dict) -> None:
    k.paid("hole loops", "no edges of holes are hung")
    holes = k.notes["holes"]
    size = len(holes[0])
    step = 1 if said["side"] == "right" else -1
    over = []
    for hole in holes:
        run = sorted(hole)
        run.append(run[-1] + 1) if step > 0 else run.insert(0, run[0] - 1)
        k.bed.main.hang(run, "hole", on=True)
        over.append(set(run))
    k.note("one more", step)
    k.note("hung over", over)
    k.expects = lambda blocks: hung_over(k, blocks)
    need(said["n"] == said["needles_count"] == size, "count", f"a hole has {size} stitches")
    need(said["loops"] == size + 1, "count", "one loop more than stitches")


def hung_over(k: Knitter, blocks: list[Block]) -> None:
    """The needles over which each hole's loops go."""
    told = [set(rising(line)) for line in hole_lines(k, blocks)]
    need(told == k.notes["hung over"], "range", "other needles were told before")


@act("bind_holes")
def bind_holes(k: Knitter, said: dict) -> None:
    k.note("binding", said["side"])
    step = 1 if said["side"] == "right" else -1
    k.expects = lambda blocks: bound(k, blocks)
    need(step == k.notes.get("one more"), "side", "the loop more is on the other side")


def bound(k: Knitter, blocks: list[Block]) -> None:
    """Each hole bound off: its needles empty, the last loop on the one named."""
    towards = 1 if k.notes["binding"] == "right" else -1
    for line, hole in zip(hole_lines(k, blocks), k.notes["holes"], strict=True):
        match = re.fullmatch(r"bind off (.*?); the last (?:stitch|loop) stays on ([LR]\d+)"
                             r"(?:, and (.*?) (?:are|is) empty)?", line)
        need(match, "list", f"this cannot be read: {line!r}")
        spots, last = parse(match[1]), place(match[2])  # type: ignore[index]
        if towards < 0:
            spots = tuple(sorted(spots, reverse=True))
        empty = spots[:-1]
        k.bed.main.drop(empty)
        k.bed.main.loops[last] = ["bound"]
        need(not match[3] or set(parse(match[3])) == set(empty), "range",  # type: ignore[index]
             f"{spoken(empty)} are emptied")
        need(spots[-1] == last, "range", f"it stays on {spoken([spots[-1]])}")
        need(set(empty) == set(hole), "range", f"the hole is {spoken(hole)}")
    k.note("emptied", [s for h in k.notes["holes"] for s in h if s not in k.bed.main.loops])


@act("begin_hole")
def begin_hole(k: Knitter, said: dict) -> None:
    side, holes = k.notes.get("binding"), k.notes["holes"]
    rightward = min(holes[0]) < min(holes[-1])
    want = 1 if (side == "right") == rightward else len(holes)
    need(said["n"] == want, "hole", f"towards the {side} the first is {want}")


@act("hang_cord")
def hang_cord(k: Knitter, said: dict) -> None:
    need(said["stitches"] == len(k.notes["holes"][0]), "count", "a hole has another number")
    k.expects = lambda blocks: hung_cords(k, blocks)


def hung_cords(k: Knitter, blocks: list[Block]) -> None:
    """The stitches on the cords back on the empty needles."""
    holes = [rising(line) for line in hole_lines(k, blocks)]
    for hole in holes:
        k.bed.main.hang(hole, "from cord", on=False)
    ordered(k, holes)


@act("every_one")
def every_one(k: Knitter, said: dict) -> None:
    full = k.bed.main.full()
    need((place(said["needle"]), place(said["needle2"])) == (full[0], full[-1]) and
         all(len(loops) == 1 for loops in k.bed.main.loops.values()) and
         len(full) == full[-1] - full[0] + 1, "range", f"it is so from {spoken(full)[:60]}")


@act("cords_out")
def cords_out(k: Knitter, said: dict) -> None:
    need(said["cords"] == k.notes.get("cords in"), "count", f"{k.notes.get('cords in')} are in")
    need(not k.bed.main.empty(), "cord", "edges of holes are not safe")
    k.note("cords drawn", said["cords"])
    k.owe("clips off", "the clips are still on")


@act("clips_off")
def clips_off(k: Knitter, said: dict) -> None:
    k.paid("clips off", "no cords are drawn out")


@act("bind_each")
def bind_each(k: Knitter, said: dict) -> None:
    k.note("binding", said["side"])
    k.expects = lambda blocks: bound(k, blocks)


@act("cast_each")
def cast_each(k: Knitter, said: dict) -> None:
    k.expects = lambda blocks: cast_again(k, blocks)


def cast_again(k: Knitter, blocks: list[Block]) -> None:
    """New loops over each hole."""
    empty = set(k.bed.main.empty())
    told = [spot for line in hole_lines(k, blocks) for spot in rising(line)]
    k.bed.main.hang(told, "cast on", on=False)
    need(set(told) == empty, "range", f"empty were {spoken(empty)}")


# --- slits and loops


@act("slits")
def slits(k: Knitter, said: dict) -> None:
    k.note("slits told", said["n"])
    k.note("slit rows", said["rows"])
    k.owe("parts", "how many parts there are is not said")


@act("slit_threads")
def slit_threads(k: Knitter, said: dict) -> None:
    k.tools["thread"] = True
    k.expects = lambda blocks: slit_lines(k, blocks)


def slit_lines(k: Knitter, blocks: list[Block]) -> None:
    """Where the slits are, and the parts between them."""
    full = k.bed.main.full()
    cuts = []
    for line in hole_lines(k, blocks, "Slit"):
        match = re.fullmatch(r"between ([LR]\d+) and ([LR]\d+)", line)
        need(match, "list", f"this cannot be read: {line!r}")
        a, b = place(match[1]), place(match[2])  # type: ignore[index]
        need(b == a + 1 and a in full and b in full, "range", "these are not neighbours")
        cuts.append(b)
    bounds = [full[0], *cuts, full[-1] + 1]
    parts = [tuple(range(a, b)) for a, b in pairwise(bounds)]
    k.note("slit needles", [s for b in cuts for s in (b - 1, b)])
    k.note("parts", parts if k.bed.carriage == "left" else parts[::-1])
    need(len(cuts) == k.notes["slits told"], "count", f"{len(cuts)} slits are listed")


@act("slit_parts")
def slit_parts(k: Knitter, said: dict) -> None:
    k.paid("parts", "no slits begin here")
    need(said["n"] == len(k.notes.get("parts", ())), "count",
         f"there are {len(k.notes.get('parts', ()))} parts")


@act("slit_sew")
def slit_sew(k: Knitter, said: dict) -> None:
    need(k.notes.get("parts"), "out-of-place", "there are no slits")


@act("overcast")
def overcast(k: Knitter, said: dict) -> None:
    need(k.notes.get("holes"), "out-of-place", "there are no eyelets")


@act("loops_tie")
def loops_tie(k: Knitter, said: dict) -> None:
    k.tools["thread"] = True
    k.expects = lambda blocks: loop_lines(k, blocks)


def loop_lines(k: Knitter, blocks: list[Block]) -> None:
    """The stitches in which each loop will stand."""
    pairs = [parse(line) for line in hole_lines(k, blocks, "Loop")]
    full = k.bed.main.full()
    for pair in pairs:
        need(len(pair) == 2 and all(full[0] <= s <= full[-1] for s in pair), "range",
             "two stitches of the band")
    k.note("loops", pairs)
    need(len({b[0] - a[0] for a, b in pairwise(pairs)}) <= 2, "range",
         "the loops are not evenly spaced")


@act("loops_feet")
def loops_feet(k: Knitter, said: dict) -> None:
    need(all(abs(b - a) + 1 == said["stitches"] for a, b in k.notes["loops"]), "count",
         "the feet are another number of stitches apart")


@act("loops_make")
def loops_make(k: Knitter, said: dict) -> None:
    need(said["loops"] == len(k.notes.get("loops", ())), "count",
         f"{len(k.notes.get('loops', ()))} loops are marked")


@act("loops_chain")
def loops_chain(k: Knitter, said: dict) -> None:
    k.note("loop chain", (said["chains"], said["list"]))


# --- pockets, facings of another fabric


@act("pocket_cord")
def pocket_cord(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    for spot in spots:
        need(k.bed.main.at(spot) == WORK, "range", f"{spoken([spot])} is not in work")
        k.bed.main.loops[spot] = ["cord"]
    k.note("pocket", spots)
    k.cords.append(said["cm"])
    need(said["side"] in k.title.lower(), "side", "this is the other front")
    counted(spots, said["stitches"])


@act("pocket_back")
def pocket_back(k: Knitter, said: dict) -> None:
    need(k.notes.get("pocket"), "out-of-place", "no pocket is knitted by hand")


@act("hang_pocket")
def hang_pocket(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.bed.main.hang(spots, "edge", on=False)
    k.note("lining", (said["loops"], said["stitches"]))
    counted(spots, said["loops"])
    need(said["loops"] == said["stitches"] + 1, "count", "one loop more than stitches")


@act("waits_again")
def waits_again(k: Knitter, said: dict) -> None:
    spots, but = rising(said["needles"]), rising(said["needles2"])
    waits = list(k.waiting.values())[-1]
    for spot in but:
        need(spot in spots, "range", f"{spoken([spot])} is not among them")
    over = [spot for spot in spots if spot not in but]
    k.bed.main.hang(over, "again", on=False)
    k.note("to fill", but)
    need(said["stitches"] == waits, "count", f"{waits} wait")
    counted(over, said["stitches"])
    k.owe("all drawn", "the waste yarn is still in")


@act("waste_drawn")
def waste_drawn(k: Knitter, said: dict) -> None:
    k.paid("all drawn", "no waste yarn is in")


@act("facing_count")
def facing_count(k: Knitter, said: dict) -> None:
    want = len(k.bed.main.full()) + len(k.notes.get("to fill", ()))
    need(said["stitches"] == want, "count", f"it will have {want}")


@act("facing_fill")
def facing_fill(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.bed.main.bring(spots)
    k.bed.main.hang(spots, "loop beside", on=False)
    need(set(spots) == set(k.notes.get("to fill", ())), "range", "other needles were left empty")


__all__ = ["FOREIGN"]

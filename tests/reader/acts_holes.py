"""Buttonholes: chosen, knitted on cords, their edges hung, bound off, hung again."""

from __future__ import annotations

import re

from tests.reader.acts_marks import none_shut_in
from tests.reader.acts_rows import counted
from tests.reader.bed import UPPER, WORK, need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import parse, place, rising, spoken
from tests.reader.visible import Block


def hole_lines(k: Knitter, blocks: list[Block], what: str = "Hole") -> list[str]:
    """The lines of a numbered list of holes, without their numbers."""
    out = []
    made = len(k.notes.get("hole rows", ()))  # along a band's rows one hole is made at a time
    for number, block in enumerate(blocks, 1):
        if made:
            layer = f", {('outer', 'inner')[number - 1]} layer" if len(blocks) == 2 else ""
            match = re.fullmatch(rf"{what} {made}{layer}: (.*)", block.text)
            need(match, "list", f"this is not {what.lower()} {made}{layer}")
            out.append(match[1])  # type: ignore[index]
            continue
        match = re.fullmatch(rf"{what} (\d+): (.*)", block.text)
        need(match and int(match[1]) == number, "list", f"this is not {what.lower()} {number}")
        out.append(match[2])  # type: ignore[index]
    return out


@act("choose")
def choose(k: Knitter, said: dict) -> None:
    k.note("holes told", (said["n"], said["stitches"]))
    k.owe("upper", "where the needles are brought is not said")


@act("choose_both")
def choose_both(k: Knitter, said: dict) -> None:
    choose(k, {**said, "n": 2})


@act("upper")
def upper(k: Knitter, said: dict) -> None:
    k.paid("upper", "no needles are chosen")
    k.owe("count across", "how to count across is not said")
    gaps = k.notes.get("flat holes", [])[1:-1]
    if gaps and 2 * min(gaps) < max(gaps):
        k.owe("foot holes", "gaps so unlike look like a misprint, and nothing says why they are")
    k.expects = lambda blocks: chosen(k, blocks)


@act("foot_holes")
def foot_holes(k: Knitter, said: dict) -> None:
    k.paid("foot holes", "no gap is unlike the others")
    gaps = k.notes["flat holes"][1:-1]
    need((said["n"], said["n2"]) == (1, 2) and gaps[0] == min(gaps), "holes",
         f"the gaps are {gaps}")


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
    told = ", ".join(runs)
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
    none_shut_in(k)


@act("hole_edges")
def hole_edges(k: Knitter, said: dict) -> None:
    need(k.notes.get("layer folded"), "fold", "the layer was not folded up")
    k.owe("hole loops", "how many loops a hole has is not said")


@act("hole_loops")
def hole_loops(k: Knitter, said: dict) -> None:
    need("hole loops" in k.owed, "out-of-place", "no edges of holes are hung")
    holes = k.notes["holes"]
    need(said["n"] == len(holes[0]) and said["loops"] == said["n"] + 1, "count",
         "a hole has another number")


@act("hole_takes")
def hole_takes(k: Knitter, said: dict) -> None:
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
    need(said["needles_count"] == size, "count", f"a hole has {size} stitches")
    need(said["loops"] == size + 1, "count", "one loop more than stitches")


def hung_over(k: Knitter, blocks: list[Block]) -> None:
    """The needles over which each hole's loops go."""
    told = [set(rising(line)) for line in hole_lines(k, blocks)]
    need(told == k.notes["hung over"], "range", "other needles were told before")


@act("bind_holes")
def bind_holes(k: Knitter, said: dict) -> None:
    k.note("binding", said["side"])
    k.note("binding inside")  # all loops of a needle together: the yarn runs between two layers
    step = 1 if said["side"] == "right" else -1
    k.expects = lambda blocks: bound(k, blocks)
    need(step == k.notes.get("one more"), "side", "the loop more is on the other side")


def bound(k: Knitter, blocks: list[Block]) -> None:
    """Each hole bound off: the needles named are emptied, as in every step that binds off; the last
    loop is on the one beside them."""
    towards = 1 if k.notes["binding"] == "right" else -1
    for line, hole in zip(hole_lines(k, blocks), k.notes["holes"], strict=True):
        match = re.fullmatch(r"(.*?); the last loop stays on ([LR]\d+)", line)
        need(match, "list", f"this cannot be read: {line!r}")
        empty, last = parse(match[1]), place(match[2])  # type: ignore[index]
        beside = (max(empty) if towards > 0 else min(empty)) + towards
        k.bed.main.drop(empty)
        k.bed.main.loops[last] = ["bound"]
        need(beside == last, "range", f"it stays on {spoken([beside])}")
        need(set(empty) == set(hole), "range", f"the hole is {spoken(hole)}")
    k.note("emptied", [s for h in k.notes["holes"] for s in h if s not in k.bed.main.loops])


@act("begin_hole")
def begin_hole(k: Knitter, said: dict) -> None:
    side, holes = k.notes.get("binding"), k.notes["holes"]
    rightward = min(holes[0]) < min(holes[-1])
    want = 1 if (side == "right") == rightward else len(holes)
    need(said["n"] == want, "hole", f"towards the {side} the first is {want}")


@act("cord_holds")
def cord_holds(k: Knitter, said: dict) -> None:
    need(said["stitches"] == len(k.notes["holes"][0]), "count", "a hole has another number")


@act("hang_cord")
def hang_cord(k: Knitter, said: dict) -> None:
    need(k.last == "cord_holds", "out-of-place", "which stitches these are is not said")
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
    k.paid("clips off", "the clips are still on")


@act("clips_off")
def clips_off(k: Knitter, said: dict) -> None:
    need(bool(k.notes.get("clips")), "cord", "no clips are on")
    k.owe("clips off", "the cords are still in")


@act("bind_each")
def bind_each(k: Knitter, said: dict) -> None:
    k.note("binding", said["side"])


@act("spare_each")
def spare_each(k: Knitter, said: dict) -> None:
    """One end cannot go from a hole in one layer to that in the other."""
    layers = 2 if "for either layer" in k.sentence else 1
    k.cords += [said["cm"]] * layers
    need(layers == k.notes.get("layers", 1), "ends", "a hole in each layer has a separate end")
    k.expects = lambda blocks: bound(k, blocks)


@act("pegs_off", "ends_hang")
def done_by_hand(k: Knitter, said: dict) -> None:
    """What changes nothing on the needles; what it belongs to is in obligations.py."""


@act("emptied_back")
def emptied_back(k: Knitter, said: dict) -> None:
    emptied = k.notes.get("emptied")
    k.owed.pop("emptied", None)
    need(emptied, "out-of-place", "no needle was emptied")
    k.bed.main.bring(emptied, WORK)  # type: ignore[arg-type]


@act("brought_back")
def brought_back(k: Knitter, said: dict) -> None:
    back = k.bed.main.standing(UPPER)
    k.bed.main.bring(back, WORK)
    k.owed.pop("emptied", None)
    need(back, "out-of-place", "no needle stands forward")
    if "new loop" in k.sentence:
        k.note("to fill in")
        need(k.bed.main.empty(), "fills", "no needle is empty")


@act("turn_loop")
def turn_loop(k: Knitter, said: dict) -> None:
    need(k.bed.long, "long-loop", "no loop lies over two needles")


@act("turn_second")
def turn_second(k: Knitter, said: dict) -> None:
    """The second needle in the direction of the row is the one nearer to the carriage."""
    spots, long = rising(said["needles"]), k.bed.long
    step = -1 if k.bed.carriage == "left" else 1
    k.bed.long = ()
    need(set(spots) == {s for s in long if s + step not in long}, "range",
         f"long loops lie on {spoken(long)}")


@act("cast_each_from")
def cast_each_from(k: Knitter, said: dict) -> None:
    k.expects = lambda blocks: cast_again(k, blocks)


@act("cast_each")
def cast_each(k: Knitter, said: dict) -> None:
    need(said["side"] == k.notes.get("binding") != said["side2"], "side",
         "the ends hang where the holes were bound off to")


@act("cast_each_again")
def cast_each_again(k: Knitter, said: dict) -> None:
    """A later hole, cast on as the first: that it takes no slip knot was said there."""
    need(len(k.notes.get("hole rows", ())) > 1, "hole", "how the first is begun is not said")
    cast_each(k, said)
    k.expects = lambda blocks: cast_again(k, blocks)


def cast_again(k: Knitter, blocks: list[Block]) -> None:
    """New loops over each hole, named in the order in which they are made: from the side at which
    the end hangs."""
    empty = set(k.bed.main.empty())
    lines = [parse(line) for line in hole_lines(k, blocks)]
    told = [spot for line in lines for spot in sorted(line)]
    for line in lines:
        need(list(line) == sorted(line, reverse=k.notes["binding"] == "right"), "order",
             f"it is worked from the {k.notes['binding']}")
    k.bed.main.hang(told, "cast on", on=False)
    need(set(told) == empty, "range", f"empty were {spoken(empty)}")


@act("hangs_clear")
def hangs_clear(k: Knitter, said: dict) -> None:
    """What hangs below the holes: the waste that the band began on, or the garment it is on."""
    begun = any("waste" in yarn for yarn, _ in k.yarns)
    need(("waste yarn" in k.sentence) == begun, "hangs",
         "the band begins on waste yarn" if begun else "the band has no waste yarn: it is knitted "
         "onto the garment")

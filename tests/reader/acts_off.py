"""Hems from waste yarn, binding off, stitches put by, holding, free passes."""

from __future__ import annotations

from tests.reader.acts_rows import counted
from tests.reader.bed import FOREIGN, HOLD, OUT, UPPER, WORK, Wrong, need, other
from tests.reader.knitter import Knitter, act
from tests.reader.needles import parse, place, rising, spoken


@act("hang_first_row")
def hang_first_row(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    if "n" in said:
        ends, spots = spots, tuple(k.bed.main.full())
        need((ends[0], ends[-1]) == (spots[0], spots[-1]), "range", f"they are {spoken(spots)}")
        counted(spots, said["n"])
    need(not k.bed.weights, "weights-on", "the weights still hang")
    need(k.bed.cord, "hem", "no row was knitted with the cord")
    k.bed.main.hang(spots, "first row", on=True)
    k.note("hung")
    k.owe("half loop", "one loop fewer than stitches lies above the cord")
    need(len(spots) == k.bed.cord, "hem", f"the first row has {k.bed.cord} stitches")


@act("half_loop")
def half_loop(k: Knitter, said: dict) -> None:
    k.paid("half loop", "no first row is hung")
    need(said["side"] == k.bed.half_end, "half-loop-end",
         f"row 1 ended and turned on the {k.bed.half_end}")


@act("half_why")
def half_why(k: Knitter, said: dict) -> None:
    need(k.last == "half_loop", "out-of-place", "no half loop is taken here")


@act("latches")
def latches(k: Knitter, said: dict) -> None:
    need(k.notes.get("hung"), "out-of-place", "no hem is hung")
    k.owe("slowly", "the row through them is to be knitted slowly")


@act("slowly")
def slowly(k: Knitter, said: dict) -> None:
    k.paid("slowly", "no needles stand forward")


@act("cord_out")
def cord_out(k: Knitter, said: dict) -> None:
    """A published lesson draws the cord after the joining row (trade-notes-2.md, section 1)."""
    need(k.bed.cord and k.notes.get("hung"), "cord", "the loops above the cord are not safe")
    k.bed.cord = 0
    need(k.notes.get("joined"), "cord", "no row holds the loops yet")


@act("fill_empty")
def fill_empty(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    for spot in spots:
        need(k.bed.main.at(spot) == OUT, "fill", f"{spoken([spot])} is not empty")
        near = [s for s in (spot - 1, spot + 1) if s in k.bed.main.loops]
        need(near, "fill", f"no stitch is beside {spoken([spot])}")
    k.bed.main.bring(spots)
    k.bed.main.hang(spots, "loop below", on=False)
    k.note("filled", len(spots))
    k.owe("how many", "how many needles are filled is not said")


@act("fill_count")
def fill_count(k: Knitter, said: dict) -> None:
    k.paid("how many", "nothing was filled")
    full = k.bed.main.full()
    need(full == list(range(full[0], full[-1] + 1)), "fill", "a needle between the ends is empty")
    need(said["needles_count"] == k.notes["filled"], "count", f"{k.notes['filled']} were filled")


@act("bind_all")
def bind_all(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    counted(k.bed.main.full(), said["stitches"])
    need(set(k.bed.main.full()) <= set(spots), "range",
         f"on the needles are {spoken(k.bed.main.full())[:70]}")
    need({spots[0], spots[-1]} == {k.bed.main.full()[0], k.bed.main.full()[-1]}, "range",
         f"on the needles are {spoken(k.bed.main.full())[:70]}")
    need(not k.bed.main.held(), "held", "stitches are still held")
    need(k.bed.feeder and k.bed.feeder not in FOREIGN, "yarn", "there is no yarn to bind off with")
    weights, k.bed.weights = k.bed.weights or k.bed.claws, False
    k.bed.claws = False
    towards = "right" if spots[-1] > spots[0] else "left"
    k.bed.main.drop(k.bed.main.full())
    k.note("loop open")
    k.owe("last loop", "what becomes of the last loop is not said")
    need(towards == said["side"], "side", f"{said['needles']} runs to the {towards}")
    need(k.bed.carriage == other(towards), "side", "the yarn hangs at the other end")
    need(not weights, "weights-on", "the weights still hang")


@act("last_loop")
def last_loop(k: Knitter, said: dict) -> None:
    k.paid("last loop", "no stitches were bound off")


@act("push_empty_all")
def push_empty_all(k: Knitter, said: dict) -> None:
    if "centre bound" in k.notes and k.last == "bind_centre":
        k.bed.main.push_out(k.notes["taken off"])
        return
    need(not k.bed.main.full(), "not-empty", "stitches are still on the needles")
    k.bed.main.push_out(k.bed.main.standing(WORK, UPPER, HOLD))


@act("push_empty")
def push_empty(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    standing = [s for s in spots if k.bed.main.at(s) != OUT]
    need(standing and spots[0] == (standing[0]) and spots[-1] == standing[-1], "range",
         f"empty are {spoken(k.bed.main.empty())[:70]}")
    k.bed.main.push_out(standing)
    taken = set(k.notes.get("taken off", spots))
    need(set(standing) == taken, "range", f"taken off were {spoken(taken)[:70]}")


@act("push_emptied")
def push_emptied(k: Knitter, said: dict) -> None:
    emptied = k.notes.pop("emptied", None)
    k.owed.pop("emptied", None)
    need(emptied, "out-of-place", "no needle was emptied")
    bed = k.notes.pop("emptied on", None) or k.bed.main
    bed.push_out(emptied)
    need(("needles" in k.sentence) == (len(emptied) > 1) or "either end" in k.sentence, "number",
         f"{len(emptied)} were emptied")


@act("push_last")
def push_last(k: Knitter, said: dict) -> None:
    k.bed.main.push_out(k.notes.get("taken off", ()))


@act("off_waste")
def off_waste(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    here = k.bed.main.knitting()
    need(k.bed.feeder is None, "feeder-full", f"the {k.bed.feeder} is still in the feeder")
    need({spots[0], spots[-1]} == {here[0], here[-1]} if here else False, "range",
         f"in work are {spoken(here)[:70]}")
    if k.bed.main.held():
        k.owe("others held", "what becomes of the held needles is not said")
        if not k.bed.holds:
            k.fault("hold-off", "the carriage is not set to hold: it knits the held needles")
    k.bed.main.drop(here)
    k.bed.feeder = "waste yarn"
    k.note("was", (k.bed.carriage, k.bed.counter))
    k.bed.carriage = k.bed.counter = None
    k.note("taken off", here)
    k.note("to wait", len(here))
    k.bed.weights = k.bed.weights and bool(k.bed.main.full())
    k.bed.claws = False
    k.waste_rows.append(0)
    k.owe("label", "what waits is not named")
    counted(here, said["stitches"])


@act("others_held")
def others_held(k: Knitter, said: dict) -> None:
    k.paid("others held", "no other needles hold stitches")


@act("on_waste")
def on_waste(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.bed.main.drop(spots)
    k.note("taken off", spots)
    k.note("to wait", len(spots))
    k.owe("label", "what waits is not named")
    counted(spots, said["stitches"])


@act("wait_as")
def wait_as(k: Knitter, said: dict) -> None:
    k.paid("label", "nothing waits")
    label = said["name"]
    k.waiting[label] = k.waiting.get(label, 0) + int(str(k.notes.get("to wait", 0)))


@act("carriage_back")
def carriage_back(k: Knitter, said: dict) -> None:
    side, counter = k.notes.pop("was", (None, None))
    need(side, "out-of-place", "the carriage was not away")
    k.bed.carriage, k.bed.counter = side, counter
    need(said["side"] == side, "side", f"the carriage stood on the {side}")
    need(said["rc"] == counter or counter is None, "counter", f"the row counter showed {counter}")


@act("take_last")
def take_last(k: Knitter, said: dict) -> None:
    full = k.bed.main.knitting()
    need(full == [place(said["needle"])], "range", f"on the needles are {spoken(full)}")
    k.bed.main.drop(full)
    need(not k.bed.claws, "weights-on", "claw weights still hang")
    k.note("taken off", full)
    k.note("loop open")


@act("gather")
def gather(k: Knitter, said: dict) -> None:
    spots, full = rising(said["needles"]), k.bed.main.full()
    need((spots[0], spots[-1]) == (full[0], full[-1]), "range", f"there are {spoken(full)[:70]}")
    need(k.notes.pop("gather end", None), "end", "no end was left to draw through")
    k.note("taken off", [s for s in spots if k.bed.main.at(s) != OUT])
    k.bed.main.drop(full)
    k.bed.weights = False
    counted(full, said["stitches"])


@act("bind_centre")
def bind_centre(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.bed.main.drop(spots)
    k.note("taken off", spots)
    k.note("centre bound", len(spots))
    counted(spots, said["stitches"])


@act("chain_waste")
def chain_waste(k: Knitter, said: dict) -> None:
    k.note("chained")


# --- holding


@act("hold_on")
def hold_on(k: Knitter, said: dict) -> None:
    k.bed.holds = True


@act("hold_tuck")
def hold_tuck(k: Knitter, said: dict) -> None:
    need(k.notes.get("chart"), "chart", "no stitch pattern is printed for this piece")
    k.bed.holds = True


@act("hold_set")
def hold_set(k: Knitter, said: dict) -> None:
    k.note("divided", k.bed.counter)
    k.divisions.append(k.bed.counter or 0)
    push_forward(k, rising(said["needles"]))


@act("note_counter")
def note_counter(k: Knitter, said: dict) -> None:
    k.bed.holds = True
    k.note("noted", k.bed.counter)


def push_forward(k: Knitter, spots: tuple[int, ...]) -> None:
    """Push needles with stitches to holding position."""
    if not k.bed.holds:
        k.fault("hold-off", "the carriage is not set to hold")
    for spot in spots:
        need(k.bed.main.at(spot) in (WORK, UPPER) and spot in k.bed.main.loops, "hold",
             f"{spoken([spot])} has no stitch in work")
    k.bed.main.bring(spots, HOLD)


@act("hold_push", "hold_push_part")
def hold_push(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    push_forward(k, spots)
    parts = k.notes.get("parts")
    if parts:
        want = parts[said["n"] - 1] if "n" in said else [s for p in parts[1:] for s in p]
        need(set(want) == set(spots), "range", f"that is {spoken(want)}")


@act("hold_back", "hold_back_part", "hold_back_away")
def hold_back(k: Knitter, said: dict) -> None:
    spots = [s for s in rising(said["needles"]) if s in k.bed.main.loops]
    need(spots and spots[0] == rising(said["needles"])[0] and spots[-1] == rising(
        said["needles"])[-1], "range", f"held are {spoken(k.bed.main.held())}")
    for spot in spots:
        need(k.bed.main.at(spot) == HOLD, "hold", f"{spoken([spot])} is not held")
    k.bed.main.bring(spots, WORK)
    held = k.bed.main.held()
    if "second half" in k.sentence or "rows over all" in k.sentence:
        need(not held, "range", f"{spoken(held)} would stay held")
    if "last row)" in k.sentence:
        mine = [s for s in held if s - 1 in spots or s + 1 in spots]
        need(not mine, "range", f"{spoken(mine)} would stay held")
    if "away from" in k.sentence:
        side = "left" if spots[0] < min(set(k.bed.main.knitting()) - set(spots)) else "right"
        need(side == other(k.bed.carriage), "side", f"they are on the {side}, as the carriage is")
    if "n" in said and "parts" in k.notes:
        want = k.notes["parts"][said["n"] - 1]
        k.note("part at work", said["n"])
        need(set(want) == set(spots), "range", f"part {said['n']} is {spoken(want)}")


@act("hold_off", "slip_off")
def hold_off(k: Knitter, said: dict) -> None:
    need(not k.bed.main.held(), "hold", f"{spoken(k.bed.main.held())} are still held")
    need("slip" not in k.sentence or k.bed.passing, "levers", "the slip levers are back already")
    need(k.bed.holds or k.bed.passing, "levers", "the carriage is set to knit already")
    need("slip" in k.sentence or k.last.startswith("hold_back") or k.notes.get("chart"),
         "out-of-place", "no needles were put back")
    k.bed.passing = False
    k.bed.holds = False


@act("hold_off_then")
def hold_off_then(k: Knitter, said: dict) -> None:
    need(k.expects, "out-of-place", "no table follows")
    k.note("knit then")


@act("slip_on")
def slip_on(k: Knitter, said: dict) -> None:
    need(not k.bed.passing, "levers", "the slip levers are set already")
    k.bed.passing = True


@act("slip_hold")
def slip_hold(k: Knitter, said: dict) -> None:
    need(k.bed.passing, "levers", "the slip levers are back already")
    k.bed.passing = False
    k.bed.holds = True


@act("free_pass", "free_pass_held")
def free_pass(k: Knitter, said: dict) -> None:
    need(k.bed.feeder is None, "feeder-full", f"the {k.bed.feeder} is in the feeder")
    held = k.bed.holds and not k.bed.main.knitting()
    need(held if "holding position" in k.sentence else k.bed.passing, "levers",
         "the carriage would knit the stitches off")
    if k.bed.carriage is None:
        raise Wrong("carriage-lost", "nobody knows where the carriage stands")
    was, k.bed.carriage = k.bed.carriage, said["side"]
    if k.bed.counter is not None:
        k.bed.counter += 1
    need(was != said["side"], "side", f"the carriage is on the {was} already")
    if k.bed.hangs:
        k.note("end at", k.bed.hangs)


@act("wrap_self", "wrap_hand")
def wrap(k: Knitter, said: dict) -> None:
    need(k.notes.get("table") is not None or k.last in ("shape_hold", "wrap_self"),
         "out-of-place", "nothing is held here")

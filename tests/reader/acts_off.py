"""Hems from waste yarn, binding off, stitches put by, holding, free passes."""

from __future__ import annotations

from collections.abc import Sequence

from tests.reader.acts_rows import counted
from tests.reader.bed import FOREIGN, HOLD, OUT, UPPER, WORK, need, other
from tests.reader.knitter import Knitter, act
from tests.reader.needles import parse, place, rising, spoken
from tests.reader.ways import EIGHT, NAMED, WASTE

ROWS_OFF = 8


def folded_up(where: str) -> None:
    """What was knitted first is uppermost in what is folded up: waste, cord, then the first row."""
    need(where == "below", "fold", "what lies above the cord now is waste yarn")


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
    k.owe("half loop", "one loop fewer than stitches lies along the cord")
    folded_up(said["words"])
    need(len(spots) == k.bed.cord, "hem", f"the first row has {k.bed.cord} stitches")


@act("half_loop")
def half_loop(k: Knitter, said: dict) -> None:
    k.paid("half loop", "no first row is hung")
    need(said["side"] == k.bed.half_end, "half-loop-end",
         f"row 1 ended and turned on the {k.bed.half_end}")
    need(place(said["needle"]) == (min if said["side"] == "left" else max)(k.bed.main.full()),
         "range", "the half loop goes on the needle at its end")


@act("half_why")
def half_why(k: Knitter, said: dict) -> None:
    need(k.last == "half_loop", "out-of-place", "no half loop is taken here")


@act("latches")
def latches(k: Knitter, said: dict) -> None:
    need(k.notes.get("hung"), "out-of-place", "no hem is hung")
    k.owe("slowly", "the row through them is to be knitted slowly")
    k.owe("open", "closed latches would drop loops, and nothing says to look at them")


@act("latches_open")
def latches_open(k: Knitter, said: dict) -> None:
    k.paid("open", "no needles stand forward")


@act("slowly")
def slowly(k: Knitter, said: dict) -> None:
    k.paid("slowly", "no needles stand forward")


@act("cord_out")
def cord_out(k: Knitter, said: dict) -> None:
    """A published lesson draws the cord after the joining row (trade-notes-2.md, section 1)."""
    need(k.bed.cord and k.notes.get("hung"), "cord", "the loops along the cord are not safe")
    k.bed.cord = 0
    need(k.notes.get("joined"), "cord", "no row holds the loops yet")


def neighbour(k: Knitter, spots: Sequence[int], words: str) -> None:
    """The neighbour from whose loop each needle is filled holds a stitch: the left one, or where
    not every left one does, the right one."""
    near = [{side for side, by in (("left", -1), ("right", 1)) if spot + by in k.bed.main.loops}
            for spot in spots]
    need(all(near), "fill", "no stitch is beside one of them")
    lefts, rights = (all(side in one for one in near) for side in ("left", "right"))
    right = "left" if lefts else "right" if rights else \
        "left, or on its right where only that needle holds a stitch"
    need(words == right, "fill", f"the neighbour on the {right} holds a stitch")


@act("fill_bring")
def fill_bring(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    for spot in spots:
        need(k.bed.main.at(spot) == OUT, "fill", f"{spoken([spot])} is not empty")
    k.bed.main.bring(spots)
    k.note("to fill below", spots)


@act("fill_empty")
def fill_empty(k: Knitter, said: dict) -> None:
    spots = tuple(k.notes.get("to fill below", ()))  # type: ignore[arg-type]
    need(spots, "out-of-place", "no empty needles were brought")
    neighbour(k, spots, said["words"])
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
    k.note("bound loosely", ", loosely" in k.sentence)
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
    k.note("bound off", len(k.bed.main.full()))
    towards = "right" if spots[-1] > spots[0] else "left"
    k.bed.main.drop(k.bed.main.full())
    begun = "carriage's side" if k.bed.carriage == other(towards) else "end away from the yarn"
    k.did |= {(title, "way_begin", "words", begun) for name, title in NAMED["off"].items()
              if name in k.sentence}
    k.note("loop open")
    k.owe("last loop", "what becomes of the last loop is not said")
    need(towards == said["side"], "side", f"{said['needles']} runs to the {towards}")
    need(k.bed.carriage == other(towards), "side", "the yarn hangs at the other end")
    need(not weights, "weights-on", "the weights still hang")


@act("pegs_apart")
def pegs_apart(k: Knitter, said: dict) -> None:
    """How long the edge is to be, which the gauge tells."""
    need("bound off" in k.notes, "out-of-place", "nothing was bound off")
    k.note("edge of", (k.notes["bound off"], float(said["cm"].split()[0])))


@act("last_loop")
def last_loop(k: Knitter, said: dict) -> None:
    k.paid("last loop", "no stitches were bound off")


@act("push_empty_all")
def push_empty_all(k: Knitter, said: dict) -> None:
    if "centre bound" in k.notes and k.last == "bind_centre":
        k.bed.main.push_out(k.notes["taken off"])
        return
    need(not k.notes.get("loop open"), "loop-open", "the last loop lies loose on the tool")
    if last := k.notes.pop("last taken", None):
        k.bed.main.push_out(last)
        return
    need(not k.bed.main.full(), "not-empty", "stitches are still on the needles")
    k.bed.main.push_out(k.bed.main.standing(WORK, UPPER, HOLD))


@act("push_empty")
def push_empty(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    standing = [s for s in spots if k.bed.main.at(s) != OUT]
    need(standing and spots[0] == (standing[0]) and spots[-1] == standing[-1], "range",
         f"empty are {spoken(k.bed.main.empty())[:70]}")
    need("now empty" in k.sentence or standing == list(spots), "range",
         "some of these stand back already")
    k.bed.main.push_out(standing)
    taken = set(k.notes.get("taken off", spots))
    need(set(standing) == taken, "range", f"taken off were {spoken(taken)[:70]}")


@act("push_emptied")
def push_emptied(k: Knitter, said: dict) -> None:
    emptied = k.notes.pop("emptied", None)
    k.owed.pop("emptied", None)
    need(emptied, "out-of-place", "no needle was emptied")
    facing = k.notes.pop("emptied on", None)  # moved straight across: the step names them
    (facing or k.bed.main).push_out(emptied)
    groups = sum(spot - 1 not in emptied for spot in emptied)  # type: ignore[attr-defined]
    told = [place(str(said[key])) for key in ("needle", "needle2") if key in said]
    ends = [min(emptied), max(emptied)] if groups > 3 and not facing else []  # type: ignore[call-overload]
    need(told == ends, "range", f"emptied were {spoken(emptied)[:70]}")
    need(("needles" in k.sentence) == (len(emptied) > 1) or "either end" in k.sentence, "number",
         f"{len(emptied)} were emptied")


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
    need(k.bed.carriage, "carriage-lost", "nobody knows where the carriage stands")
    k.bed.feeder = "waste yarn"
    k.note("before waste", k.bed.counter)
    moves(k, said["rows"])
    k.note("taken off", here)
    k.note("to wait", len(here))
    k.waste_rows.append(0)
    k.owe("label", "what waits is not named")
    k.owe("drop", "the stitches knitted on are not dropped")
    need(said["rows"] == ROWS_OFF, "rows", EIGHT)
    counted(here, said["stitches"])


def moves(k: Knitter, passes: int) -> None:
    """The carriage goes across so many times, and the row counter counts each."""
    k.bed.carriage = other(k.bed.carriage) if passes % 2 else k.bed.carriage
    k.bed.counter = None if k.bed.counter is None else k.bed.counter + passes


@act("waste_light")
def waste_light(k: Knitter, said: dict) -> None:
    """Weights come off before the stitches do, with the warning that stands wherever they do."""
    k.bed.weights = k.bed.weights and bool(k.bed.main.held())
    k.bed.claws = False


@act("drop_waste")
def drop_waste(k: Knitter, said: dict) -> None:
    """A pass without yarn, over all that is dropped and all that is held, which stays."""
    k.paid("drop", "nothing was knitted on with waste yarn")
    k.did |= {(WASTE, "way_drop", "words", "yarn" if k.bed.feeder is None else "")}
    if k.bed.main.held():
        k.did.add((WASTE, "way_drop", "words2", "held"))
    passed = k.bed.main.full()
    k.bed.main.drop(tuple(k.notes["taken off"]))
    moves(k, 1)
    k.note("passes", k.bed.carriage)
    need(k.bed.feeder is None, "feeder-full",
         f"the {k.bed.feeder} is in the feeder: the carriage would knit them, not drop them")
    need(not k.bed.passing, "passing", "the carriage is set not to knit, and drops nothing")
    full = k.bed.main.full()
    need(said.get("side", None if full else k.bed.carriage) == k.bed.carriage, "side",
         f"the pass goes to the {k.bed.carriage}")
    last = passed[0 if k.bed.carriage == "left" else -1] if full else None
    need((place(said["needle"]) if said.get("needle") else None) == last, "side",
         f"the last needle that the carriage passes is {spoken(passed)[:70]}")


@act("waste_counted")
def waste_counted(k: Knitter, said: dict) -> None:
    """Where rows follow, the row counter is looked at again."""
    need(k.notes.pop("passes", None), "out-of-place", "no pass dropped stitches")
    need(said["rows"] == ROWS_OFF, "count", f"{ROWS_OFF} rows of waste yarn were knitted")


@act("others_held")
def others_held(k: Knitter, said: dict) -> None:
    k.paid("others held", "no other needles hold stitches")
    need(set(parse(said["needles"])) == set(k.bed.main.standing(HOLD)), "range",
         "other needles are held")


@act("on_waste")
def on_waste(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.bed.main.drop(spots)
    k.note("taken off", spots)
    k.note("to wait", len(spots))
    k.did.add((WASTE, "way_drawn", "", ""))
    k.owe("label", "what waits is not named")
    k.owe("knot", "how the ends of the waste yarn are kept from drawing out is not said")
    light = k.notes.get("light", ())
    k.note("light", [spot for spot in light if spot not in spots])
    need(not k.bed.weights or set(spots) <= set(light), "weights-on",
         "weights still hang under these stitches")
    counted(spots, said["stitches"])


@act("waste_off")
def waste_off(k: Knitter, said: dict) -> None:
    need(k.last == "on_waste", "out-of-place", "no waste yarn was drawn through stitches")


@act("waste_knot")
def waste_knot(k: Knitter, said: dict) -> None:
    k.paid("knot", "no waste yarn was drawn through")


@act("wait_as")
def wait_as(k: Knitter, said: dict) -> None:
    k.paid("label", "nothing waits")
    label = said["name"]
    k.waiting[label] = k.waiting.get(label, 0) + int(str(k.notes.get("to wait", 0)))


@act("take_last")
def take_last(k: Knitter, said: dict) -> None:
    full = k.bed.main.knitting()
    need(full == [place(said["needle"])], "range", f"on the needles are {spoken(full)}")
    k.bed.main.drop(full)
    need(not k.bed.claws, "weights-on", "claw weights still hang")
    k.note("taken off", full)
    k.note("last taken", full)
    k.note("loop open")
    need(not (k.bed.main.held() and k.notes.get("half heavy")), "weights-on",
         "other weights hang under this part too")


@act("gather")
def gather(k: Knitter, said: dict) -> None:
    spots, full = rising(said["needles"]), k.bed.main.knitting()
    need((spots[0], spots[-1]) == (full[0], full[-1]), "range", f"there are {spoken(full)[:70]}")
    need(k.notes.pop("gather end", None), "end", "no end was left to draw through")
    need((said["side"], said["side2"]) == (k.bed.carriage, other(k.bed.carriage)), "side",
         f"the end hangs on the {k.bed.carriage}, where the carriage stopped")
    k.note("taken off", [s for s in spots if k.bed.main.at(s) != OUT])
    k.owe("drawn up", "the stitches are still on the needles")
    counted(full, said["stitches"])


@act("gather_up")
def gather_up(k: Knitter, said: dict) -> None:
    k.paid("drawn up", "no end was drawn through them")
    weights = k.bed.weights or k.bed.claws
    k.bed.main.drop(k.bed.main.knitting())
    need(not weights, "weights-on", "the weights still hang")


@act("bind_centre")
def bind_centre(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    need(len(spots) > 1 or "stitch over stitch" not in k.sentence, "count",
         "one stitch alone goes over no other")
    k.bed.main.drop(spots)
    k.note("taken off", spots)
    k.note("centre bound", len(spots))
    counted(spots, said["stitches"])
    k.owe("foot", "the ends of the yarn at the foot of the placket are not fastened off")


@act("foot_fasten")
def foot_fasten(k: Knitter, said: dict) -> None:
    k.paid("foot", "no foot is bound off here")

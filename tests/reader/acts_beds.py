"""Ribs on two beds: racking, the zigzag row, both beds by turns, stitches moved across."""

from __future__ import annotations

from tests.reader.acts_rows import counted, setting_of
from tests.reader.bed import WORK, Needles, need, other
from tests.reader.knitter import Knitter, act
from tests.reader.needles import place, rising


def second(k: Knitter) -> Needles:
    """The second bed; it must be up."""
    need(k.bed.second is not None, "second-bed", "the second bed is not up")
    return k.bed.second  # type: ignore[return-value]


@act("second_up")
def second_up(k: Knitter, said: dict) -> None:
    need(k.bed.second is None, "second-bed", "the second bed is up already")
    k.bed.second = Needles()
    k.notes.pop("pitch", None)
    k.tools["second bed"] = True
    k.owe("pitch", "how the beds stand to each other is not said")


@act("pitch_full", "pitch_half")
def pitch(k: Knitter, said: dict) -> None:
    second(k)
    k.owed.pop("pitch", None)
    spots = [place(said[key]) for key in ("needle", "needle2", "needle3") if key in said]
    if "Full" in k.sentence:
        need(spots[0] == spots[1], "pitch", "needle faces needle of the same name")
    else:
        need(spots[2] == spots[1] + 1 and spots[0] in spots[1:], "pitch", "it lies between two")
    was, now = k.notes.get("pitch"), "full" if "Full" in k.sentence else "half"
    k.note("pitch", now)
    racked = k.notes.pop("racked", False)
    need(was in (None, now) or racked, "pitch", f"the second bed still stands at {was} pitch")


@act("rack_rib", "rack_faces")
def rack(k: Knitter, said: dict) -> None:
    second(k)
    k.note("racked")
    if "faces" in k.sentence:
        k.note("pitch", "full")
    else:
        k.owe("pitch", "how far it is racked is not said")


@act("own_arm_off")
def own_arm_off(k: Knitter, said: dict) -> None:
    was, k.bed.own_arm = k.bed.own_arm, False
    need(was, "carriages", "its own arm is off already")


@act("join_carriages")
def join_carriages(k: Knitter, said: dict) -> None:
    k.bed.joined = True
    need(k.bed.own_arm is False, "carriages", "the main bed's own arm is still on its carriage")
    need(said["side"] == k.bed.carriage, "side", f"the carriage stands on the {k.bed.carriage}")


@act("bring_main", "bring_second")
def bring_beds(k: Knitter, said: dict) -> None:
    bed = k.bed.main if "main bed" in k.sentence else second(k)
    spots = rising(said["needles"])
    need(not bed.position, "brought-twice", "needles are in work already")
    bed.bring(spots)
    counted(spots, said["needles_count"])


@act("dial_both")
def dial_both(k: Knitter, said: dict) -> None:
    k.bed.dial = said["dial"]
    k.note("dialled", said["words"])
    k.dials.append(("both: " + said["words"], said["dial"], k.part))
    setting_of(said["dial"])


@act("zigzag")
def zigzag(k: Knitter, said: dict) -> None:
    need(k.bed.feeder == said["yarn"], "feeder", f"in the feeder is {k.bed.feeder or 'no yarn'}")
    need(k.bed.joined, "carriages", "the carriages are not joined")
    need(k.notes.get("both set"), "levers", "the carriages are not set to knit")
    for bed in (k.bed.main, second(k)):
        bed.hang(bed.standing(WORK), "zigzag", on=False)
    need(k.notes.get("pitch") == "half" or not set(k.bed.main.loops) & set(second(k).loops),
         "pitch", "needles that face each other take no zigzag")
    k.bed.carriage = other(k.bed.carriage)
    if k.bed.counter is not None:
        k.bed.counter += 1
    k.owe("loops", "how many loops there are is not said")


@act("zigzag_count")
def zigzag_count(k: Knitter, said: dict) -> None:
    k.paid("loops", "no zigzag row was knitted")
    loops = len(k.bed.main.loops) + len(second(k).loops)
    need(said["loops"] == loops, "count", f"there are {loops}")


@act("comb")
def comb(k: Knitter, said: dict) -> None:
    need(k.last in ("zigzag_count", "check"), "out-of-place",
         "the comb goes through the zigzag row")
    k.tools["comb"] = True
    k.owe("weights", "no weights hang on the comb")


@act("comb_weights")
def comb_weights(k: Knitter, said: dict) -> None:
    k.paid("weights", "no comb hangs")
    k.bed.weights = True
    k.paid("weights on", "weights are hung without a warning before it")


def knit_with(k: Knitter, said: dict, beds: list[Needles]) -> None:
    """Rows over the beds that knit."""
    need(k.bed.feeder, "no-yarn", "no yarn is in the feeder")
    for bed in beds:
        bed.row(str(k.bed.feeder), said["rows"])
    if said["rows"] % 2:
        k.bed.carriage = other(k.bed.carriage)
    k.bed.rows += said["rows"]
    k.bed.done.append((k.bed.dial, said["rows"], str(k.bed.feeder), said["rc"]))
    need(k.bed.weights, "no-weights", "rows are knitted without weights")
    k.bed.count(said["rows"], said["rc"])


@act("knit_second", "knit_main")
def knit_one(k: Knitter, said: dict) -> None:
    alone = "second" if "second bed alone" in k.sentence else "main"
    rest = "main" if alone == "second" else "second"
    knit_with(k, said, [second(k) if alone == "second" else k.bed.main])
    need(k.bed.slipping == {rest}, "levers", f"set to slip is {sorted(k.bed.slipping)}")


@act("slip_main", "slip_second")
def slip_bed(k: Knitter, said: dict) -> None:
    which = "main" if "main bed's" in k.sentence else "second"
    was = which in k.bed.slipping
    k.bed.slipping.add(which)
    need(not was, "levers", "they are set already")


@act("main_knits")
def main_knits(k: Knitter, said: dict) -> None:
    was = "main" in k.bed.slipping
    k.bed.slipping.discard("main")
    need(was, "levers", "it knits already")


@act("knit_both")
def knit_both(k: Knitter, said: dict) -> None:
    knit_with(k, said, [k.bed.main, second(k)])
    need(not k.bed.slipping, "levers", f"set to slip is {sorted(k.bed.slipping)}")


@act("both_knit")
def both_knit(k: Knitter, said: dict) -> None:
    k.bed.slipping.clear()
    k.note("both set")


def across(k: Knitter, said: dict, source: Needles, target: Needles) -> None:
    """Stitches straight across to the needles that they face."""
    spots = rising(said["needles"])
    need(k.notes.get("pitch") == "full", "pitch", "no needle faces another")
    closed = {act for act, _ in k.log} >= {"knit_second", "knit_main"}
    need("to set the rib" not in k.sentence or closed, "edge", "no row of each bed closes the edge")
    come = [spot for spot in spots if target.at(spot) != WORK]
    need(set(come) == set(spots) if "bring that needle" in k.sentence else not come, "range",
         f"{len(spots) - len(come)} of the needles that they face are in work already")
    target.bring(come)
    for spot in spots:
        need(spot in source.loops, "no-loop", "a needle named holds no stitch")
        target.loops.setdefault(spot, []).extend(source.loops.pop(spot))
    k.note("emptied", spots)
    k.note("emptied on", source)
    k.owe("emptied", "what becomes of the emptied needles is not said")
    counted(spots, said["stitches"])


@act("across_second", "across_all")
def across_second(k: Knitter, said: dict) -> None:
    across(k, said, second(k), k.bed.main)
    if "all" in k.sentence.split(" on ")[0]:
        need(not second(k).loops, "range", "stitches stay on the second bed")


@act("across_main")
def across_main(k: Knitter, said: dict) -> None:
    across(k, said, k.bed.main, second(k))


@act("second_down")
def second_down(k: Knitter, said: dict) -> None:
    need(not second(k).loops, "second-bed", "stitches are still on it")
    need(not k.bed.joined, "carriages", "the carriages are still joined")
    need(k.notes.get("comb out"), "comb", "the comb still hangs between the beds")
    k.bed.second = None
    k.paid("hold the work", "the second bed goes down without a warning before it")
    need(k.notes.pop("second clear", None), "carriage", "the second bed's is over the work")
    if any(len(loops) > 1 for loops in k.bed.main.loops.values()):
        k.bed.heavy = "doubled"


@act("second_clear")
def second_clear(k: Knitter, said: dict) -> None:
    need(said["side"] == k.bed.carriage, "side", f"it is on the {k.bed.carriage}")
    k.note("second clear")


@act("rib_forward")
def rib_forward(k: Knitter, said: dict) -> None:
    """Needles that hold two loops, when all is ready for the row over them."""
    need(k.bed.heavy == "doubled", "out-of-place", "no needle holds two loops above a rib")
    need(k.bed.feeder and k.bed.weights, "out-of-place", "the next row is not ready yet")
    k.owe("rib slowly", "the row over two loops on a needle is to be knitted slowly")
    k.bed.heavy = "forward"


@act("rib_slowly")
def rib_slowly(k: Knitter, said: dict) -> None:
    k.paid("rib slowly", "no needles stand forward")


@act("caution_down")
def caution_down(k: Knitter, said: dict) -> None:
    k.owe("hold the work", "there is nothing to hold here")


@act("comb_off")
def comb_off(k: Knitter, said: dict) -> None:
    was, k.bed.weights = k.bed.weights, False
    k.paid("weights off", "weights come off without a warning before it")
    need(was and k.tools.get("comb"), "comb", "no weights hang on a comb")


@act("comb_out")
def comb_out(k: Knitter, said: dict) -> None:
    need(not k.bed.weights, "weights-on", "the weights still hang")
    need(k.tools.get("comb"), "comb", "no comb hangs")
    k.note("comb out")


@act("arm_off")
def arm_off(k: Knitter, said: dict) -> None:
    was, k.bed.joined, k.bed.own_arm = k.bed.joined, False, True
    need(was, "carriages", "the carriages are not joined")

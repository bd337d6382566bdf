"""Holding: the levers, needles pushed forward and put back, free passes, wraps."""

from __future__ import annotations

from tests.reader.bed import HOLD, UPPER, WORK, Wrong, need, other
from tests.reader.charts import picked_next, slipped_next
from tests.reader.knitter import Knitter, act
from tests.reader.needles import place, rising, spoken


@act("hold_on")
def hold_on(k: Knitter, said: dict) -> None:
    need(not k.bed.holds, "levers", "the carriage is set to hold already")
    need(k.notes.get("knit at") != k.bed.rows, "levers",
         "it was set to knit just before, and no row was knitted")
    k.bed.holds = True
    need(not k.bed.forward, "needles-forward", "the needles stand fully forward since the cast-on, "
         "and the carriage would pass them by")


@act("hold_tuck")
def hold_tuck(k: Knitter, said: dict) -> None:
    need(k.notes.get("chart"), "chart", "no stitch pattern is printed for this piece")
    k.bed.holds = True
    need(not k.bed.forward, "needles-forward", "the needles stand fully forward since the cast-on, "
         "and the carriage would pass them by")


@act("hold_stays")
def hold_stays(k: Knitter, said: dict) -> None:
    need(k.bed.holds, "levers", "the carriage is set to knit")
    k.paid("hold stays", "it was set to hold in this step")


@act("hold_set")
def hold_set(k: Knitter, said: dict) -> None:
    if k.notes.get("stripe") == k.bed.counter:
        k.fault("stripe", "the yarn of a stripe that has ended is still in the feeder")
    k.note("divided", k.bed.counter)
    k.divisions.append(k.bed.counter or 0)
    if "hold_on" not in k.told:
        k.owe("hold stays", "how the carriage is set for the half that is knitted is not said")
    k.owe("half_counted", "whether the row counter counts the rows of one half is not said")
    push_forward(k, rising(said["needles"]))
    k.note("to part", k.bed.rows)


@act("hold_neck")
def hold_neck(k: Knitter, said: dict) -> None:
    """A neck that is held: the yarn goes round its stitches, and none of them goes off."""
    hold_set(k, said)
    k.notes.pop("to part")
    k.bed.neck = dict.fromkeys(rising(said["needles"]), k.bed.counter or 0)
    knits = k.bed.main.knitting()
    k.note("in half", len(knits))
    k.note("at opening", -1 - knits[0])  # the needle as far on the other side of the centre


def held_at_neck(k: Knitter, spots: tuple[int, ...]) -> None:
    """Needles held next to those of a neck."""
    if k.bed.neck and any(s - 1 in k.bed.neck or s + 1 in k.bed.neck for s in spots):
        k.bed.neck.update(dict.fromkeys(spots, k.bed.counter or 0))


def whole_neck(k: Knitter, spots: list[int]) -> None:
    """All that was held at a neck comes back, and nothing else is on the bed.

    A step takes two rows, from where the work divided; one held in the first two is the centre's.
    """
    need(spots == sorted(k.bed.neck), "range", f"the neck is {spoken(sorted(k.bed.neck))}")
    need(set(spots) == set(k.bed.main.loops), "range", "other stitches are on the needles too")
    start = int(str(k.notes["divided"]))
    rows = [k.bed.neck[s] - start for s in spots]
    steps = [row // 2 for row in rows]
    k.note("turns", tuple(n for n in range(1, len(steps)) if steps[n] != steps[n - 1]))
    k.note("neck line", tuple(0 if row < 2 else row for row in rows))


def parted(k: Knitter) -> None:
    """What is held beside what is knitted is no short row: it is never to be tied to it."""
    if k.bed.main.held():
        k.owe("parts_open", "whether the yarn goes round a held needle at the opening is not said")


@act("parts_open")
def parts_open(k: Knitter, said: dict) -> None:
    """Round the needle beside the opening the yarn would tie both parts together, row by row.

    The stitches of a neck's centre, where there are some, go off before this is said.
    """
    if k.notes.pop("to part", None) is None:
        k.paid("parts_open", "the work does not part here")
    k.note("at opening", place(said["needle"]))
    knits, held = k.bed.main.knitting(), k.bed.main.held()
    beside = [*[s for s in held if s < knits[0]][-1:], *[s for s in held if s > knits[-1]][:1]]
    told = [place(str(said[key])) for key in ("needle", "needle2") if key in said]
    need(told == beside, "range", f"held beside it are {spoken(beside)}")


@act("parts_caught")
def parts_caught(k: Knitter, said: dict) -> None:
    need(k.last == "parts_open", "out-of-place", "no step opened it")
    named = [k.log[-2][1].get(key) for key in ("needle", "needle2")]
    need([said.get(key) for key in ("needle", "needle2")] == named, "number", "other needles")


@act("half_counted")
def half_counted(k: Knitter, said: dict) -> None:
    k.paid("half_counted", "the work does not divide here")
    k.note("half ends", said["rc"])


@act("half_set_back")
def half_set_back(k: Knitter, said: dict) -> None:
    need(k.last == "half_counted", "out-of-place", "no half is counted here")
    need(said["rc"] == k.notes.get("divided"), "counter",
         f"the work divided at row counter {k.notes.get('divided')}")


@act("note_counter")
def note_counter(k: Knitter, said: dict) -> None:
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
        parted(k)


@act("hold_back", "hold_back_part", "hold_back_away")
def hold_back(k: Knitter, said: dict) -> None:
    if "needles" not in said:
        cast_on_back(k)
        return
    need("all needles" not in k.sentence, "range", "some of them, or all")
    spots = [s for s in rising(said["needles"]) if s in k.bed.main.loops]
    need(spots and spots[0] == rising(said["needles"])[0] and spots[-1] == rising(
        said["needles"])[-1], "range", f"held are {spoken(k.bed.main.held())}")
    for spot in spots:
        need(k.bed.main.at(spot) == HOLD, "hold", f"{spoken([spot])} is not held")
    k.bed.main.bring(spots, WORK)
    k.note("put back", (k.bed.rows, spots))
    beside = k.notes.pop("begins beside", spots[0])
    need(beside in (spots[0], spots[-1]), "range", f"the half that begins is {spoken(spots)}")
    k.bed.short.difference_update(spots)
    if k.bed.weights:
        k.owe("weights back", "whether weights hang under stitches put back is not said")
    if "second half" in k.sentence:  # other rows over these are plain
        owe_slips(k, spots)
    held = k.bed.main.held()
    if "next quarter" in k.sentence:
        parted(k)
    if "second half" in k.sentence or "next quarter" in k.sentence:
        need(k.notes.pop("at its side", None) == k.bed.carriage, "carriage",
             "nothing says that the carriage is on the side where this part begins")
    if "second half" in k.sentence and k.bed.neck:
        k.bed.neck = {s: step for s, step in k.bed.neck.items() if s not in spots}
        need(len(spots) == k.notes.get("in half"), "range", "the halves are not alike")
    elif "second half" in k.sentence or "rows over all" in k.sentence:
        need(not held, "range", f"{spoken(held)} would stay held")
    if "second half" in k.sentence:
        need(k.notes.get("at opening") == spots[-1], "range",
             f"the needle at the opening was {spoken(spots[-1:])}")
    if "whole neck" in k.sentence:
        whole_neck(k, spots)
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


def cast_on_back(k: Knitter) -> None:
    """Needles that a cast-on by hand left fully forward (site: techniques/cast-on-by-hand)."""
    need("all needles" in k.sentence, "range", "which needles is not said")
    need(k.bed.forward, "out-of-place", "no needles stand fully forward since a cast-on")
    k.bed.forward = False
    spots = sorted(k.bed.main.loops)
    k.note("put back", (k.bed.rows, spots))
    owe_slips(k, spots)


def owe_slips(k: Knitter, spots: list[int]) -> None:
    """Of needles just put back, those must be named that the next row slips, or knits with the
    first of two yarns."""
    if picked_next(k, spots):
        k.owe("lower", "how needles just put back, which would take the second colour, are knitted "
              "with the main yarn in the next row is not said")
    if slipped_next(k, spots):
        k.owe("slip_held", "how needles just put back, which the carriage would knit in the slip "
              "setting, are slipped in the next row is not said")


@act("hold_off", "slip_off")
def hold_off(k: Knitter, said: dict) -> None:
    need(not k.bed.main.held(), "hold", f"{spoken(k.bed.main.held())} are still held")
    need("slip" not in k.sentence or k.bed.passing, "levers", "the slip levers are back already")
    need(k.bed.holds or k.bed.passing, "levers", "the carriage is set to knit already")
    need("slip" in k.sentence or k.last.startswith(("hold_back", "weights_even"))
         or k.notes.get("chart"), "out-of-place", "no needles were put back")
    k.bed.passing = False
    k.bed.holds = False
    k.note("knit at", k.bed.rows)


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


@act("half_here")
def half_here(k: Knitter, said: dict) -> None:
    need(k.bed.carriage == said["side"], "side", f"the carriage is on the {k.bed.carriage}")
    need(k.bed.main.held() and not k.bed.main.knitting(), "out-of-place", "no part begins here")
    k.note("at its side", said["side"])
    k.note("begins beside", place(said["needle"]))


@act("free_pass", "free_pass_held")
def free_pass(k: Knitter, said: dict) -> None:
    need(k.bed.feeder is None, "feeder-full", f"the {k.bed.feeder} is in the feeder")
    drops = k.bed.main.knitting() and not k.bed.passing
    need(not drops and (k.bed.holds or "holding position" not in k.sentence), "levers",
         "the carriage would knit the stitches off")
    need("no stitch" not in k.sentence or not k.bed.main.full(), "range", "stitches are on it")
    if k.bed.carriage is None:
        raise Wrong("carriage-lost", "nobody knows where the carriage stands")
    was, k.bed.carriage = k.bed.carriage, said["side"]
    k.note("at its side", said["side"])
    if k.bed.counter is not None:
        k.bed.counter += 1
    need(was != said["side"], "side", f"the carriage is on the {was} already")
    if k.bed.hangs:
        k.note("end at", k.bed.hangs)


@act("put_back_where")
def put_back_where(k: Knitter, said: dict) -> None:
    k.note("put back where", k.step)
    need(any("put back " in b.text for b in k.step.blocks if b.kind == "row"), "out-of-place",
         "no needles are put back here")


@act("towards_back")
def towards_back(k: Knitter, said: dict) -> None:
    need(k.notes.get("put back where") is k.step, "out-of-place", "no needles are put back")
    k.owe("wrap_hand", "how the yarn goes round the next held needle is not said")


@act("wrap_self", "wrap_hand")
def wrap(k: Knitter, said: dict) -> None:
    if "lay the yarn under the next" in k.sentence:
        k.paid("wrap_hand", "no row goes towards needles put back")
    need(k.notes.get("table") is not None or k.last in ("shape_hold", "shape_first", "wrap_self"),
         "out-of-place", "nothing is held here")
    if k.notes.get("put back where") is k.step:  # after the row towards the first needles put back
        k.bed.lays = True
    else:
        k.bed.laid |= "lay the yarn" in k.sentence


@act("wrap_turn")
def wrap_turn(k: Knitter, said: dict) -> None:
    """The yarn laid round the first held needle where the carriage stands, after the row."""
    bare = k.bed.turn
    need(bare is not None, "out-of-place", "no needle held for short rows is beside the carriage")
    need(place(said["needle"]) == bare, "range", f"the first held needle is {spoken([bare or 0])}")
    k.bed.turn = None


@act("wrap_turns")
def wrap_turns(k: Knitter, said: dict) -> None:
    """The same after each of the two rows of this step."""
    need(k.bed.across and k.bed.across[-1][0] == 2, "rows", "this step has not two rows")
    sides = [k.bed.beside(other(str(k.bed.carriage))), k.bed.turn]
    need([place(said["needle"]), place(said["needle2"])] == sides, "range",
         f"the held needles beside the carriage are {sides}")
    k.bed.turn = None

"""Weights and claw weights: hung, moved, taken off, each with its warning."""

from __future__ import annotations

from tests.reader.bed import need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import rising, spoken
from tests.reader.ways import HOLDING

# Rows after which weights that stay where they were hung no longer pull at the needles (common
# practice, no source).
MOST_STILL = 20


@act("weights_on")
def weights_on(k: Knitter, said: dict) -> None:
    need(k.bed.main.full(), "no-stitches", "nothing hangs on the needles")
    apart = k.notes.pop("spread", None) or k.last == "second_down"
    on_hem = said.get("words") == "hem" or (said.get("words") == "rib" and not apart)
    if "again" in k.sentence:
        need(not k.bed.weights, "weights-on", "the weights hang already")
        need(k.last != "weights_off", "order", "nothing was done since the weights came off")
        need(not on_hem or k.notes.get("hung"), "hem", "no hem was hung")
        need(not on_hem or not k.bed.cord, "cord", "the ravel cord is still in")
    else:
        k.paid("weights on", "weights are hung without a warning before it")
        need(not k.notes.get("unchecked"), "check-missing", "no checkpoint follows the hanging")
        need(k.bed.feeder, "order", "weights wait for the first rows, and no yarn is threaded yet")
    moved_up(k)
    if "move them up" not in k.sentence:
        k.note("still since", k.bed.rows)
    k.bed.weights = True
    need(not on_hem or k.last == "cord_out", "out-of-place",
         "weights go on the hem when the cord is out")
    k.tools["weights"] = True


def moved_up(k: Knitter) -> None:
    """Weights that hang longer than a few rows are moved up as the work grows."""
    since = k.notes.pop("still since", k.bed.rows)
    rows = k.bed.rows - int(str(since))
    if rows > MOST_STILL:
        k.fault("weights-still", f"over {rows} rows nothing says to move the weights up")


@act("caution_feet")
def caution_feet(k: Knitter, said: dict) -> None:
    k.owe("weights on", "what may drop here is not said")


@act("weights_off")
def weights_off(k: Knitter, said: dict) -> None:
    moved_up(k)
    on = k.bed.weights or k.bed.claws
    k.bed.weights = k.bed.claws = False
    claws_anew(k)
    k.paid("weights off", "weights come off without a warning before it")
    need(on, "weights-off", "no weights hang")


@act("weights_off_held")
def weights_off_held(k: Knitter, said: dict) -> None:
    need(k.bed.weights, "weights-off", "no weights hang")
    spots = rising(said["needles"])
    for spot in spots:
        need(spot in k.bed.main.held(), "hold", f"{spoken([spot])} is not held")
    k.note("light", spots)
    k.paid("weights off", "weights come off without a warning before it")


@act("caution_hand")
def caution_hand(k: Knitter, said: dict) -> None:
    k.owe("weights off", "no weights come off here")


@act("caution_clear")
def caution_clear(k: Knitter, said: dict) -> None:
    k.owe("weights off", "no weights come off here")


@act("claws_on", "claws_move")
def claws_on(k: Knitter, said: dict) -> None:
    spots, here = rising(said["needles"]), k.bed.main.knitting()
    moved = "Move" in k.sentence
    was, k.bed.claws = k.bed.claws, True
    k.tools["claws"] = True
    claws_anew(k)
    if k.bed.main.held():
        held_ones_keep(k, was)
    if k.bed.short:
        k.did.add((HOLDING, "way_claws", "words2", "work" if set(spots) <= set(here) else "hold"))
    need(was == moved, "claws", "they hang already" if was else "none hang yet")
    need(here and {spots[0], spots[-1]} == {here[0], here[-1]}, "range",
         f"in work are {spoken(here)}")


@act("claws_along")
def claws_along(k: Knitter, said: dict) -> None:
    need(k.expects or k.last in ("wrap_self", "wrap_hand", "shape_hold"), "out-of-place",
         "nothing is held here")
    was, k.bed.claws = k.bed.claws, True
    k.tools["claws"] = True
    claws_anew(k)
    held_ones_keep(k, was)


@act("others_stay")
def others_stay(k: Knitter, said: dict) -> None:
    need(k.last == "claws_on" and k.bed.weights, "out-of-place", "no other weights hang here")


@act("claws_keep")
def claws_keep(k: Knitter, said: dict) -> None:
    need(k.last in ("claws_along", "claws_on"), "out-of-place", "no claw weights were named before")
    k.note("claws kept")


@act("claws_few")
def claws_few(k: Knitter, said: dict) -> None:
    """A weight for a wide piece has no hold under five stitches or fewer."""
    need(said["stitches"] <= 5, "claws", "these are more than a few")
    k.bed.claws = k.tools["claws"] = True


def claws_anew(k: Knitter) -> None:
    """Where claw weights are hung or moved, they pull at what is knitted there."""
    k.bed.beside_held, k.bed.uneven = set(), 0


def held_ones_keep(k: Knitter, was: bool) -> None:
    """Where weights hang, what becomes of those under held stitches must be said once."""
    if k.bed.weights and not was:
        k.owe("held weights", "what becomes of the weights under held stitches is not said")


@act("weights_held")
def weights_held(k: Knitter, said: dict) -> None:
    k.paid("held weights", "no stitches are held with weights under them")


@act("weights_even")
def weights_even(k: Knitter, said: dict) -> None:
    if k.last != "put_back_where":  # told once for all lines of a table
        k.paid("weights back", "no stitches with weights under them come back into work")


@act("claws_off")
def claws_off(k: Knitter, said: dict) -> None:
    """Weights that hung there before the work was divided would fall with its last stitch."""
    was, k.bed.claws = k.bed.claws, False
    claws_anew(k)
    k.paid("weights off", "weights come off without a warning before it")
    need(was, "claws", "none hang")
    k.note("half heavy", "words" not in said and k.bed.weights)
    if "words" in said:
        need(said["words"] == "all weights" or not k.bed.weights, "weights-on",
             "other weights hang under this part too")
        need(k.bed.main.held(), "hold", "no stitches are held")


@act("transfer_tool")
def transfer_tool(k: Knitter, said: dict) -> None:
    k.tools["transfer"] = True


@act("cut_hanging")
def cut_hanging(k: Knitter, said: dict) -> None:
    need(k.notes.get("contrast") == "in work", "contrast", "no contrast yarn is in work")
    need(said["yarn"] == "contrast yarn", "yarn", "another yarn hangs there")
    k.note("contrast", "cut")


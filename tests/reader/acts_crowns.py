"""The top of a hat and what closes it: doubled needles, a double hat's seam, a brim turned up."""

from __future__ import annotations

from tests.reader.acts_rows import knit
from tests.reader.bed import need
from tests.reader.knitter import Knitter, act


@act("doubled_forward")
def doubled_forward(k: Knitter, said: dict) -> None:
    doubled = [len(loops) > 1 for loops in k.bed.main.loops.values()]
    need(any(doubled), "out-of-place", "no needle holds two loops")
    need(all(doubled) == ("all needles" in k.sentence), "range", "all hold two loops, or not")
    k.owe("doubled slowly", "the row over doubled needles is to be knitted slowly")


@act("knit_doubled")
def knit_doubled(k: Knitter, said: dict) -> None:
    """The first row above a gathering: two loops go off together."""
    k.paid("doubled slowly", "no needles stand forward")
    need(("first one" in k.sentence) == (said["rows"] > 1), "number", "one row, or more than one")
    knit(k, said)


@act("draw_lower")
def draw_lower(k: Knitter, said: dict) -> None:
    k.seams.append((k.step.number, k.sentence, said))


@act("draw_again")
def draw_again(k: Knitter, said: dict) -> None:
    need(any(name == "draw_lower" for name, _ in k.log), "out-of-place", "no edge is drawn up")


@act("drawn_begin", "sew_inside", "sew_hem", "leave_hand", "run_in", "clear_inside")
def more_of_it(k: Knitter, said: dict) -> None:
    """What stands right after the sentence that it belongs to: `obligations.RIGHT_AFTER`."""


@act("darn_inside")
def darn_inside(k: Knitter, said: dict) -> None:
    """The ends of a closed tube, through the opening that its seam still has."""
    names = [name for name, _ in k.log]
    need("leave_hand" in names and "sew_rest" not in names, "order",
         "the ends cannot be reached, or need not be darned in yet")


@act("sew_rest")
def sew_rest(k: Knitter, said: dict) -> None:
    need(any(name == "leave_hand" for name, _ in k.log), "out-of-place", "no seam was left open")
    k.seams.append((k.step.number, k.sentence, said))


@act("fold_in")
def fold_in(k: Knitter, said: dict) -> None:
    """Both ends are closed and the seam is sewn before one half goes into the other."""
    names = {name for name, _ in k.log}
    need({"draw_lower", "sew_most", "sew_rest"} <= names, "order", "the tube is not closed yet")
    k.note("folded in")


@act("brim_up")
def brim_up(k: Knitter, said: dict) -> None:
    """The last of all, as deep as the seam has it where it changes its side."""
    changed = [told["cm"] for name, told in k.log if name == "sew_turned"]
    need(changed in ([], [said["cm"]]), "count", f"the seam changes its side at {changed}")
    need(changed or k.notes.get("folded in"), "out-of-place", "nothing turns up")

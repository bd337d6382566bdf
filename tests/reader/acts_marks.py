"""Threads and pins that mark an edge, slits and buttons: in, and out before a fold shuts them in.

That a fold shuts in what is left in its seam is geometry; the rest is common practice, no source.
"""

from __future__ import annotations

from tests.reader.bed import need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import place

EDGE, SLITS, TIES = "threads or pins", "threads", "pins and the threads of the edge"


def put_in(k: Knitter, what: str) -> None:
    """Threads or pins are in the work from here on."""
    k.tools["thread"] = True
    k.note("threads in", what)


def none_shut_in(k: Knitter) -> None:
    """A fold is closed: what marked its seam is out."""
    need(not k.notes.get("threads in"), "shut in",
         f"the {k.notes.get('threads in')} are still in, and are shut in here")


@act("mark_edge")
def mark_edge(k: Knitter, said: dict) -> None:
    put_in(k, EDGE)
    k.note("needs table")
    need(k.told == ["mark_edge"], "out-of-place", "rows are marked before the edge is hung")
    need(not k.sections, "out-of-place", "a section hangs already: mark the rows before the first")


@act("mark_tied")
def mark_tied(k: Knitter, said: dict) -> None:
    """The thread of a front, where its neck begins: in which section it lies."""
    need(k.last == "mark_edge", "out-of-place", "no rows are marked here")
    k.note("tied section", said.get("n", 1))


@act("mark_under")
def mark_under(k: Knitter, said: dict) -> None:
    """The threads at the underarms, which stay in: what begins and ends there."""
    need(k.last == "mark_edge", "out-of-place", "no rows are marked here")
    k.note("underarm sections", (said["n"], said["n2"]))


@act("ties_out")
def ties_out(k: Knitter, said: dict) -> None:
    need("sew" in k.told and "up to the threads" in k.seams[-1][1], "out-of-place",
         "no seam ends at threads")


@act("marks_out")
def marks_out(k: Knitter, said: dict) -> None:
    what = k.notes.get("threads in")
    need(what, "out-of-place", "nothing marks the work")
    need(f"Take the {what} out" in k.sentence, "marks", f"the {what} are in")
    need(what != EDGE or k.sections, "out-of-place", "nothing hangs yet")
    need(what != SLITS or "slit_sew" in k.told, "out-of-place", "the slits are not sewn")
    need(what != TIES or "sew_in" in k.told, "out-of-place", "the band is not sewn on")
    need(("tied-in" in k.sentence) == ("tied section" in k.notes), "shut in",
         "the thread that marks where the neck begins comes out with them, and no other")
    k.note("threads in", None)
    k.note("edge hung", what == EDGE)


@act("tie_button")
def tie_button(k: Knitter, said: dict) -> None:
    """In the outer layer, beside the edge that is sewn first, and not in the edge itself."""
    full, spot = k.bed.main.full(), place(said["needle"])
    inward = full[::-1] if k.notes["sewn at"] == "right" else full
    need(spot in inward[1:len(full) // 2], "range", "that is not in the outer layer")
    rows = [*k.notes.get("button rows", []), k.bed.counter]
    need(said["n"] == len(rows), "button", f"{len(rows)} are in the table")
    k.note("button rows", rows)
    k.tools["thread"] = True

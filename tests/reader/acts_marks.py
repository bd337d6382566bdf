"""Threads and pins that mark an edge, slits and buttons: in, and out before a fold shuts them in.

That a fold shuts in what is left in its seam is geometry; the rest is common practice, no source.
"""

from __future__ import annotations

import re

from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter, act
from tests.reader.needles import place
from tests.reader.page_parts import Reading

# What a mark is called, and what begins or ends there.
NAMES = {"armhole mark": r"armhole begins", "lower mark": r"thumb's slit begins",
         "upper mark": r"slit ends|folded part ends", "lower neck mark": r"neck begins",
         "upper neck mark": r"neck ends", "fold mark": r"[a-z0-9 ]+ is folded"}
NAME = re.compile(r"\b(armhole|lower|upper|fold|neck) marks?\b")
EDGE, SLITS, TIES = "threads or pins", "threads", "pins and the threads of the edge"


def put_in(k: Knitter, what: str) -> None:
    """Threads or pins are in the work from here on."""
    k.tools["thread"] = True
    k.note("threads in", what)


def none_shut_in(k: Knitter) -> None:
    """A fold is closed: what marked its seam is out."""
    need(not k.notes.get("threads in"), "shut in",
         f"the {k.notes.get('threads in')} are still in, and are shut in here")


@act("mark_named")
def mark_named(k: Knitter, said: dict) -> None:
    """The name of the mark that was just tied, and what begins or ends at it."""
    need(k.last in ("mark", "mark_one"), "out-of-place", "no thread is tied in here")
    name = said["words"]
    need(re.fullmatch(NAMES.get(name, "(?!)"), said["words2"]), "marks",
         f"that is not where the {name} is")
    before = k.notes.get("named marks", [])
    need(name not in before and ("upper" not in name or before), "marks",
         f"it comes after {before}")
    k.note("named marks", [*before, name])
    k.note("tied at", [*k.notes.get("tied at", []), name])


def names_told(reading: Reading) -> None:
    """Every mark has a name where it is tied, and what is made up or hung calls it by that name;
    it names no mark that was not tied (a knitter looks for it)."""
    tied: set[str] = set()
    for k in reading.knitters:
        marks = sum(name in ("mark", "mark_one") for name, _ in k.log)
        attempt(reading, k.title, "Tie a thread", need, len(k.notes.get("tied at", [])) == marks,
                "left-out", "what the threads mark is not said")
        tied |= {NAME.search(name)[1] for name in k.notes.get("named marks", [])}
    told = " ".join(block.text for group in reading.groups for part in group.parts
                    for step in part.steps for block in step.blocks if block.kind == "p")
    called = {found[1] for found in NAME.finditer(re.sub(r"This is the [^.]*\.", "", told))}
    attempt(reading, "Making up", "", need, called == tied, "marks",
            f"it names the marks {sorted(called)}, and {sorted(tied)} are tied in")


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


@act("mark_ends")
def mark_ends(k: Knitter, said: dict) -> None:
    """The threads of both fronts between which an edge lies: they stay in."""
    need(k.last == "mark_edge", "out-of-place", "no rows are marked here")
    k.note("between the ties")


@act("mark_under")
def mark_under(k: Knitter, said: dict) -> None:
    """The threads at the underarms, which stay in: what begins and ends there."""
    need(k.last == "mark_edge", "out-of-place", "no rows are marked here")
    k.note("underarm sections", (said["n"], said["n2"]))


@act("ties_out")
def ties_out(k: Knitter, said: dict) -> None:
    need("sew" in k.told and "up to the armhole marks" in k.seams[-1][1], "out-of-place",
         "no seam ends at marks")


def but_tied(k: Knitter) -> None:
    """Threads that a later edge needs stay where the others come out, or are counted."""
    need(("but not the two" in k.sentence) == ("between the ties" in k.notes), "marks",
         "whether the threads tied in where the neck begins stay")


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
    but_tied(k)
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

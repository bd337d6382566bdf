"""The ways that a page spells out once, held to what the steps did and to the sources named here.

Each way has its sentences in one order. What stands in their slots (an end, a side, a direction, a
tool) is what the reader's own bed did in the steps of that way (`Knitter.did`), or, where no bed
can know it, what a source of the trade says.
"""

from __future__ import annotations

import re
from functools import partial

from tests.reader import grammar
from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.page_parts import Group, Reading

SHAPING, EDGES = "How the shaping is worked", "How edges begin and end"
DECREASE, INCREASE, AT_EDGE, HOLDING, WASTE = (
    "Decrease, fully fashioned", "Increase", "Bind off at an edge", "Hold stitches (short rows)",
    "Put stitches on waste yarn")
BY_HAND, LATCH_ON, PEG_ON = ("Cast on by hand", "Cast on with a latch-tool chain",
                             "Cast on over the gate pegs")
STITCH_OVER, TWO_PEGS, LATCH_OFF, CHAIN, SEWN, GRAFT = (
    "Bind off stitch over stitch", "Bind off around two gate pegs",
    "Bind off with a latch-tool chain", "Chain the stitches off", "Back-stitch off waste yarn",
    "Graft off waste yarn")
# How a step names a way on or off.
NAMED = {"on": {"by hand": BY_HAND, "with a latch-tool chain": LATCH_ON,
                "with a chain over the gate pegs": PEG_ON},
         "off": {"stitch over stitch": STITCH_OVER, "around two gate pegs": TWO_PEGS,
                 "with a latch-tool chain": LATCH_OFF}}

BED = "what the reader's own bed did"
PRACTICE = "common practice, no source"
HELD = "University of Brighton knit notes, Short row or holding technique 1"
WRAP = "clearwaterknits, Basic short rows: under the first held needle"
HOME = "University of Brighton knit notes: weights move to the live stitches"
EIGHT = "clearwaterknits, Hems: eight rows of waste yarn"
PASSES = "Wikibooks, Machine Knitting, Introduction: set to hold, it skips what is fully forward"
PEGS = "Susan Guagliumi, Sinker post / gate peg bind-offs: stitches behind the pegs, yarn in front"
TOOL = "knittersedge, T2 latch tool bind off: from the carriage's side, one peg a stitch"
BACK = "Knit Fits, Machine Knitting: Backstitch Bind-off"
THREE = "Diana Sullivan, Mobius scarf: waste knitting, 2015: three times the width"
FACE = "geometry: from loop to loop of one edge the yarn lies behind, as on the knit side"

Row = tuple[str, tuple[object, ...], str]
TAKES: dict[str, tuple[str, int | None, str]] = {  # what an edge is like, the yarn that it takes
    BY_HAND: ("a soft closed edge of slanting loops", 4, PRACTICE),
    LATCH_ON: ("a chain along the edge that does not stretch", 4, PRACTICE),
    PEG_ON: ("a chain along the edge, as wide as the work on the bed", 4, PRACTICE),
    STITCH_OVER: ("a narrow chain that lies flat and holds its width", 3, PRACTICE),
    TWO_PEGS: ("a loose chain, up to twice as wide as the work on the bed", 6, PRACTICE),
    LATCH_OFF: ("a plain chain, with a ridge on the knit side, that hardly stretches", 4, PRACTICE),
    CHAIN: ("a thin soft chain of the last row's own stitches", None, PRACTICE),
    SEWN: ("the most elastic edge, like one cast on by hand", 3, BACK),
    GRAFT: ("no seam: a sewn row that looks knitted", 3, THREE)}
# What a way says, in its order: the act, what stands in its slots, and who says so. A row that
# begins with "?" may be missing.
WAYS: dict[str, tuple[Row, ...]] = {
    DECREASE: (
        ("way_take", ("transfer tool", "inward"), BED),
        ("way_goes", ("innermost",), PRACTICE),
        ("way_lands", ("innermost",), BED),
        ("way_push", ("outermost", "non-working"), BED),
        ("?way_moved", ("hold", "upper working", "open"), PASSES),
        ("?way_by", ("forward",), PASSES)),
    INCREASE: (
        ("way_bring", ("beside", "working"), BED),
        ("way_lift", ("transfer tool", "below"), BED),
        ("?way_new", ("hold", "upper working", "open"), PASSES),
        ("?way_by", ("forward",), PASSES)),
    AT_EDGE: (
        ("way_only", ("stands",), BED),
        ("way_over", ("both", "inward"), BED),
        ("way_last", ("working",), BED),
        ("push_empty_all", (), BED)),
    HOLDING: (
        ("hold_on", (), BED),
        ("way_forward", ("forward", "holding", "away from"), HELD),
        ("way_pass", ("passes",), HELD),
        ("way_round", ("first",), WRAP),
        ("way_wrap", ("forward", "under", "work", "before"), WRAP),
        ("way_apart", (), PRACTICE),
        ("way_claws", ("under", "work"), HOME),
        ("hold_off_then", (), BED)),
    WASTE: (
        ("way_drawn", ("blunt sewing needle",), PRACTICE),
        ("way_eight", ("eight", "waste yarn"), EIGHT),
        ("way_light", ("feet", "off"), PRACTICE),
        ("way_drop", ("yarn", "held"), BED),
        ("way_runs", (), PRACTICE)),
    BY_HAND: (
        ("way_open", ("forward", "open"), PRACTICE),
        ("way_knot", ("farthest from",), BED),
        ("way_wind", ("under", "after", "over"), PRACTICE),
        ("way_to", ("beside",), BED),
        ("way_slack", ("slowly",), PRACTICE)),
    LATCH_ON: (
        ("way_from", ("farthest from",), BED),
        ("way_slip", ("latch tool", "below", "up"), PRACTICE),
        ("way_lay", ("over", "through"), PRACTICE),
        ("way_on", ("between",), PRACTICE),
        ("way_hang", (), PRACTICE),
        ("?way_gap", ("last",), PRACTICE)),
    PEG_ON: (
        ("way_chain", ("latch tool",), PRACTICE),
        ("way_from", ("farthest from",), BED),
        ("way_drawn_over", ("over",), PRACTICE),
        ("way_pegged", ("Before", "beside"), PRACTICE),
        ("way_hang", (), PRACTICE),
        ("way_lifted", ("before",), PRACTICE),
        ("?way_gap", ("last",), PRACTICE)),
    STITCH_OVER: (
        ("?way_as", ("at an edge",), "the page's own words on an edge"),
        ("?way_begin", ("carriage's side",), BED),
        ("?way_beside", ("transfer tool", "beside"), PRACTICE),
        ("?way_both", ("both",), PRACTICE),
        ("?way_each", (), PRACTICE)),
    TWO_PEGS: (
        ("way_begin", ("carriage's side",), BED),
        ("way_behind", ("transfer tool", "beside", "behind", "in front"), PEGS),
        ("way_loop", (), PRACTICE),
        ("way_hook", ("forward", "hook", "both"), PRACTICE),
        ("way_pegs", ("two",), PRACTICE),
        ("way_loops", (), PEGS)),
    LATCH_OFF: (
        ("way_begin", ("carriage's side",), BED),
        ("way_tool", ("latch tool", "behind", "latch"), PRACTICE),
        ("way_peg", ("beside", "hook"), TOOL),
        ("way_next", ("both",), PRACTICE),
        ("way_work", (), TOOL)),
    CHAIN: (
        ("way_begin", ("end away from the yarn",), BED),
        ("way_first", ("latch tool",), PRACTICE),
        ("way_catch", ("hook", "through"), PRACTICE),
        ("way_end", ("through",), PRACTICE)),
    SEWN: (
        ("way_sewn", ("blunt sewing needle",), PRACTICE),
        ("way_first", ("front", "back"), BACK),
        ("way_back", ("front",), BACK),
        ("way_on", ("two", "back"), BACK),
        ("way_again", (), BACK),
        ("way_twice", ("twice",), BACK),
        ("way_third", ("third",), BACK),
        ("waste_out", (), PRACTICE),
        ("?way_edges", ("knit",), PRACTICE)),
    GRAFT: (
        ("way_laid", ("knit", "up", "head to head", "beneath"), FACE),
        ("way_graft", ("blunt sewing needle", "up", "down", "up", "down", "up", "used", "new"),
         FACE),
        ("way_size", (), PRACTICE)),
}
OWN = {title: {act.strip("?") for act, _, _ in rows} for title, rows in WAYS.items()}
ELSEWHERE = {"push_empty_all", "hold_on", "hold_off_then", "waste_out"}  # said in steps too
ACTS = (set().union(*OWN.values()) | {"way_look", "way_takes", "way_longer"}) - ELSEWHERE


def rows_of(title: str) -> tuple[Row, ...]:
    """What a way says in its order, with what its edge is like and takes."""
    need(title in WAYS, "way", f"no way is called {title!r}")
    if title not in TAKES:
        return WAYS[title]
    look, yarn, source = TAKES[title]
    takes: tuple[Row, ...] = (("way_takes", (yarn,), source),) if yarn else ()
    longer: tuple[Row, ...] = (("way_longer", (), PRACTICE),) if title == SEWN else ()
    return (*WAYS[title], ("way_look", (look,), PRACTICE), *takes, *longer)


def ways(reading: Reading) -> None:
    """Every way that a page spells out is whole and true, and none that it uses is left out.
    """
    told: dict[str, dict[str, dict[str, object]]] = {}
    for group in filter(None, map(reading.group, (SHAPING, EDGES))):
        for title, words in entries(group):
            attempt(reading, group.title, words, partial(told.setdefault, title, {}))
            attempt(reading, group.title, words, way, title, words, told[title])
    did = {one for k in reading.knitters for one in k.did} | sewn(reading)
    for title, act, slot, word in sorted(did, key=str):
        attempt(reading, title, act, need, title in told or title == WASTE, "left-out",
                "the page does it, and tells nowhere how")  # putting by stands whole in its step
        said = told.get(title, {}).get(act)
        attempt(reading, title, str(said), need, said is None or not slot or said[slot] == word,
                "way", f"the steps go {word!r}")
    held = any(act in ("hold_on", "hold_tuck", "hold_set", "hold_neck") for k in reading.knitters
               for act, _ in k.log)
    for title, act in ((DECREASE, "way_moved"), (INCREASE, "way_new")):
        for one in (act, "way_by"):
            attempt(reading, title, one, need, title not in told or held == (one in told[title]),
                    "way", "it is set to hold here" if held else "it is never set to hold")
    attempt(reading, EDGES, "", in_tools, reading, told)
    attempt(reading, EDGES, STITCH_OVER, need, AT_EDGE in told or "way_as" not in told.get(
        STITCH_OVER, {}), "way", "nothing is said of an edge")


def sewn(reading: Reading) -> set[tuple[str, str, str, str]]:
    """What the making up sews by a way of this page: how its edges lie."""
    making = reading.making_up
    if making is None:
        return set()
    told = " ".join(words for _, words, _ in making.seams)
    grafts, backs = "Graft the" in told, "Back-stitch the shoulders" in told
    laid = making.notes.get("laid")
    if not (grafts or backs):
        return set()
    attempt(reading, "Making up", str(laid), need, isinstance(laid, tuple) and len(laid) == (
        3 if grafts else 1), "way", "edges that are grafted lie head to head, others one on the "
        "other")
    title, act = (GRAFT, "way_laid") if grafts else (SEWN, "way_edges")
    return {(title, act, slot, str(word)) for slot, word in zip(
        ("words", "words2", "words3"), laid or (), strict=False)}


def entries(group: Group) -> list[tuple[str, str]]:
    """The ways of a section, each with its words."""
    out: list[tuple[str, str]] = []
    for block in group.blocks():
        if block.kind == "dt":
            out.append((block.text, ""))
        elif block.kind != "summary":
            need(out, "way", f"this stands under no way: {block.text!r}")
            out[-1] = (out[-1][0], f"{out[-1][1]} {block.text}".strip())
    return out


def way(title: str, words: str, told: dict[str, dict[str, object]]) -> None:
    """One way: each sentence is known, is of this way, in its order, and says what is so."""
    rows = rows_of(title)
    left = list(rows)
    for sentence in grammar.sentences(words):
        said = grammar.read(sentence)
        if said.act == "how":
            continue
        while left and left[0][0].strip("?") != said.act:
            need(left[0][0].startswith("?"), "left-out", f"{left[0][0]} is not told here")
            left.pop(0)
        need(left, "way", f"this is no part of it, or has another place: {sentence!r}")
        _, held, source = left.pop(0)
        told[said.act] = said.slots
        need(tuple(said.slots.values()) == held, "way", f"it is {held}: {source}")
        if said.act in SEWING:
            SEWING[said.act]([str(word) for word in said.slots.values()])
    need(all(act.startswith("?") for act, _, _ in left), "left-out",
         f"{[act for act, _, _ in left]} are not told")
    need(title != STITCH_OVER or {"way_as"} < set(told) or {"way_begin", "way_both"} < set(told),
         "left-out", "how it is worked is not told")


def graft(words: list[str]) -> None:
    """What goes up through a loop goes down through the next that it enters; within an edge it
    lies beneath, from a loop that it goes down into to one that it comes up through."""
    ways_through = words[1:6]
    need(ways_through == ["up", "down", "up", "down", "up"], "sewing",
         "a yarn that came up goes down next")


SEWING = {"way_graft": graft}


def in_tools(reading: Reading, told: dict[str, dict[str, dict[str, object]]]) -> None:
    """The tools that ways name are in the list of tools."""
    tools = reading.group("Tools and materials")
    listed = " ".join(block.text for block in tools.blocks()).lower() if tools else ""
    for title, acts in told.items():
        for slots in acts.values():
            for word in slots.values():
                if re.search("tool|needle$", str(word)):
                    need(str(word) in listed, "tools", f"{title} takes a {word}")

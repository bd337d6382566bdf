"""Edges hung on the needles, bands closed round them, buttonholes, pockets, facings."""

from __future__ import annotations

import re
from itertools import pairwise

from tests.reader.acts_marks import none_shut_in
from tests.reader.acts_off import folded_up
from tests.reader.bed import need, other
from tests.reader.knitter import Knitter, act
from tests.reader.needles import parse, place, rising, spoken
from tests.reader.ways import CHAIN
from tests.reader.worn import apart

# What says how far in an edge is hung.
SO_DEEP = ("go_in", "narrow_rows", "narrow_one")


def hung(k: Knitter, said: dict, on: bool) -> None:
    """Hang a piece of an edge, on empty needles or on top of stitches."""
    spots = parse(said["needles"])
    need(not on or not k.bed.weights, "weights-on", "the weights still hang")
    k.bed.main.hang(spots, "edge", on=on)
    k.note("hung at", k.bed.rows)
    k.note("unchecked")
    words = said.get("words", "")
    before = [number for number, _, _ in k.sections]
    number = said.get("n", 1)
    need(before or "first end" in k.notes, "lies", "how the garment lies is not said before")
    mine, told = (re.findall(r"\b(left|right)\b", text.lower()) for text in (k.title, words))
    if mine and told and "band" not in words and "neck" not in words:
        k.attempt(lambda: need(mine[0] == told[0], "side", "this is the other front"))
    if "n" in said:
        k.called[number] = words
        words = apart(words)[1]
    k.sections.append((number, words, spots))
    need(not k.notes.get("edge hung"), "section", "what marked its rows is out already")
    need(number == len(before) + 1, "section", f"this is section {len(before) + 1}")
    k.note("hung from", list(spots) if "," not in said["needles"] else [])
    in_turn(k)
    if on:
        need(k.bed.cloth, "cloth", "no cloth lies over the bed")


def in_turn(k: Knitter) -> None:
    """The needles of a section are named from the end at which its table begins, once that end
    was said."""
    spots, end = k.notes["hung from"], k.notes.get("first end")
    need(not end or not spots or spots == sorted(spots, reverse=end[1] == "right"),  # type: ignore
         "range", "the hanging table goes the other way")


@act("hang_edge", "hang_section")
def hang_edge(k: Knitter, said: dict) -> None:
    hung(k, said, on=False)


@act("hang_over", "hang_section_over")
def hang_over(k: Knitter, said: dict) -> None:
    hung(k, said, on=True)


@act("edge_hangs", "edge_lies")
def edge_hangs(k: Knitter, said: dict) -> None:
    """How the garment is held or laid, which is said before its edge is hung."""
    need(not k.sections, "out-of-place", "its edge hangs already")
    k.note("first end", (said["words"], said["side"]))
    k.note("shown", "right" if "its right side towards you" in k.sentence else "wrong")
    end = k.notes.get("end told")
    need(end is None or end == (said["words"], said["side"]), "end",
         f"the section's head says {end}")
    if "cloth" in k.sentence:
        need(k.bed.cloth, "cloth", "no cloth lies over the bed")


@act("edge_down")
def edge_down(k: Knitter, said: dict) -> None:
    """What stands right after the sentence that lays the garment: `obligations.RIGHT_AFTER`."""


@act("falls_over")
def falls_over(k: Knitter, said: dict) -> None:
    need(said["words"] == {"right": "knit", "wrong": "purl"}[str(k.notes["shown"])], "side",
         "the side that shows faced the knitter as the edge was hung")


@act("go_in")
def go_in(k: Knitter, said: dict) -> None:
    need(k.last in ("hang_edge", "hang_section", "hang_over", "hang_section_over", "edge_hangs",
                    "edge_lies", "mark_edge", "transfer_tool"), "out-of-place",
         "no edge is hung here")
    k.depths.append(said["stitches"])
    k.deep[k.sections[-1][0]] = said["stitches"]


@act("through_facing")
def through_facing(k: Knitter, said: dict) -> None:
    """At the top of a front, behind which a neck's facing was turned in."""
    spots, mine = parse(said["needles"]), k.sections[-1][2]
    side = other((k.notes.get("first end") or ("", "left"))[1])  # type: ignore[index]
    top = sorted(mine, reverse=side == "right")
    need(k.last in SO_DEEP, "out-of-place", "how far to go in is said just before")
    need(set(spots) == set(top[:len(spots)]), "range", "these are not the topmost needles")


@act("narrow_rows")
def narrow_rows(k: Knitter, said: dict) -> None:
    need(k.last == "go_in", "out-of-place", "how far to go in is said just before")
    k.narrow[k.sections[-1][0]] = (said["rows"], said["n"], said["stitches"])
    if said["n"] == 1:  # the seam at the other edge takes a stitch, and there is no other
        k.owe("one stitch", "what is hung where the seam's stitch alone is left is not said")


@act("narrow_one")
def narrow_one(k: Knitter, said: dict) -> None:
    k.paid("one stitch", "no row is one stitch wide")
    need(k.last == "narrow_rows", "out-of-place", "how wide it is is said just before")


@act("hang_order")
def hang_order(k: Knitter, said: dict) -> None:
    need(k.last in (*SO_DEEP, "through_facing", "top_end", "hang_section_over",
                    "hang_section", "hang_over", "hang_edge", "edge_lies", "edge_hangs",
                    "mark_edge", "transfer_tool", "corner_out", "corner_in", "point_between"),
         "out-of-place", "no edge is hung here")
    k.note("needs table")


@act("top_end")
def top_end(k: Knitter, said: dict) -> None:
    need(k.sections and "top of the" in k.sections[-1][1], "out-of-place", "no band's top is hung")


@act("point_meets")
def point_meets(k: Knitter, said: dict) -> None:
    need(k.last in SO_DEEP, "out-of-place", "how far to go in is said just before")


@act("point_lines")
def point_lines(k: Knitter, said: dict) -> None:
    """Where the second side of a V is hung: the needles that are nearest to the first side's."""
    mine = k.sections[-1][2]
    before = next((part for number, _, part in k.sections if number == said["n"]), ())
    need(bool(before), "section", "no such section is hung")
    ends = [(a, b) for a in (min(before), max(before)) for b in (min(mine), max(mine))]
    told = parse(str(said["needle"]))[0], parse(str(said["needle2"]))[0]
    need(told == min(ends, key=lambda pair: abs(pair[0] - pair[1])), "range",
         "these are not the needles beside the point")
    need(said["stitches"] == k.deep[k.sections[-1][0]], "depth", "the lines lie elsewhere")
    k.note("point", (said["n"], k.sections[-1][0]))


@act("point_between")
def point_between(k: Knitter, said: dict) -> None:
    """Between the two sides of a V lies nothing, or the one stitch that has a section."""
    first, second = k.notes["point"]
    own = "only the point's own stitch" if second - first == 2 else "nothing"
    need(said["words"] == own, "section", f"section {second} comes after section {first}")


@act("corner_loop")
def corner_loop(k: Knitter, said: dict) -> None:
    """The stitches between a straight side and those that wait: no needle more, no hole."""
    need(k.last in (*SO_DEEP, "corner_out", "corner_in"), "out-of-place", "no side is hung here")
    k.owe("corner out", "how the line comes out to the edge at the corner is not said")
    mine, spot = k.sections[-1][2], place(said["needle"])
    k.corners[k.sections[-1][0]] = spot
    k.bed.main.hang([spot], "loop of the corner", on=True)
    need(spot in (min(mine), max(mine)), "range",
         f"the side's ends are {spoken(sorted({min(mine), max(mine)}))}")


@act("corner_out", "corner_in")
def corner_out(k: Knitter, said: dict) -> None:
    """From so many stitches in to none, a stitch a loop, and the loop at the edge itself: last
    where the section ends at the corner, first where it begins there."""
    k.paid("corner out", "no corner is here")
    number, _, mine = k.sections[-1]
    deep = k.deep[number]
    left = k.notes.get("end told", ("", "left"))[1] == "left"
    begins = k.corners[number] == (min(mine) if left else max(mine))
    need(begins == ("from the corner" in k.sentence), "end",
         f"the section {'begins' if begins else 'ends'} at the corner")
    need(said["loops"] == deep + 1, "depth", "a loop for each stitch, and one")
    need((said["stitches"], said["n"]) == (deep, deep - 1) == (2, 1), "depth",
         f"from {deep} stitches in to none, one by one")


@act("from_waste", "from_strip")
def from_waste(k: Knitter, said: dict) -> None:
    need(k.sections and "waiting stitches" in k.sections[-1][1], "out-of-place",
         "no waiting stitches are hung here")
    k.strips.append((said.get("name", ""), len(k.sections[-1][2])))
    k.taken_off[k.sections[-1][0]] = tuple(sorted(k.sections[-1][2]))


@act("pin_corners")
def pin_corners(k: Knitter, said: dict) -> None:
    """Behind a hollow square corner the line is longer by the facing's depth on either side."""
    need(k.last == "stretch_facing", "out-of-place", "how far to stretch is said before")
    k.note("pinned", said.get("n", 1))
    need("turn_parts" in k.told or said.get("n", 1) == len(k.corners), "corners",
         f"{len(k.corners)} loops of corners were lifted")
    k.note("stretch", said["cm"])


@act("stay_empty")
def stay_empty(k: Knitter, said: dict) -> None:
    """A strip whose stitches lie farther apart than needles: some needles wait for a loop, which
    is said before the others are hung."""
    need(k.sections and "waiting stitches" in k.sections[-1][1], "out-of-place",
         "no waiting stitches are hung here")
    gaps, mine = parse(said["needles"]), k.sections[-1][2]
    need(set(gaps) < set(mine), "range", "not all of them are needles of this section")
    k.bed.main.drop(gaps)
    k.note("to fill", gaps)
    need(not set(gaps) & {min(mine), max(mine)}, "range", "an outermost needle holds a stitch")


@act("from_strip_but")
def from_strip_but(k: Knitter, said: dict) -> None:
    gaps, mine = k.notes["to fill"], k.sections[-1][2]
    k.strips.append((said["name"], len(mine) - len(gaps)))
    k.taken_off[k.sections[-1][0]] = tuple(sorted(set(mine) - set(gaps)))


@act("hang_others", "fill_bump")
def hang_others(k: Knitter, said: dict) -> None:
    """What stands right after the sentence that it belongs to: `obligations.RIGHT_AFTER`."""


@act("fill_gaps_two")
def fill_gaps_two(k: Knitter, said: dict) -> None:
    k.note("fill two", said["needles"])


@act("fill_gaps", "fill_beside")
def fill_gaps(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"] if "needles" in said else k.notes["fill two"])
    need(("each" in k.sentence) == (len(spots) > 1), "number", f"{len(spots)} needles are empty")
    by = -1 if said["side"] == "left" else 1
    need(all(spot + by in k.bed.main.loops for spot in spots), "hung-wrong",
         "the neighbour that gives the loop holds no stitch")
    k.bed.main.hang(spots, "loop beside", on=False)
    k.owe("why filled", "why there are more stitches is not said")
    doubled = any(len(k.bed.main.loops[spot + by]) > 1 for spot in spots)
    need(doubled == ("main bed's" in k.sentence), "loop", "the stitch beside it is two, or one")
    need(set(spots) == set(k.notes.get("to fill", ())), "range", "other needles were left empty")


@act("gaps_more")
def gaps_more(k: Knitter, said: dict) -> None:
    k.paid("why filled", "no needles were given loops")
    more = len(k.notes.get("to fill", ()))
    need(k.last == "fill_gaps", "out-of-place", "no needles were given loops")
    gaps, mine = k.notes["to fill"], sorted(k.sections[-1][2])
    if "step" in k.sentence:
        need(("each" in k.sentence) == (more > 1), "number", f"{more} loops came")
        filled = [mine.index(gap) - n for n, gap in enumerate(sorted(gaps))]  # type: ignore
        k.lifted[k.strips[-1][0]] = tuple(filled)
        return
    need(said["stitches"] == more, "count", f"{more} loops came")
    apart = [abs(b - a) for a, b in pairwise(gaps)]  # type: ignore[arg-type, call-overload]
    need(not apart or max(apart) - min(apart) <= 1, "range", "they are not spread evenly")


@act("seam_both")
def seam_stitches(k: Knitter, said: dict) -> None:
    need(k.last == "from_strip", "out-of-place", "no stitches were taken off waste yarn")
    spots = [place(said["needle"]), place(said["needle2"])]
    mine = k.sections[-1][2]
    k.bed.main.hang(spots, "seam stitch", on=True)
    name, count = k.strips.pop()
    k.strips.append((name, count + len(spots)))
    k.taken_off[k.sections[-1][0]] = tuple(sorted((*mine, *spots)))
    ends = sorted({min(mine), max(mine)})
    need(spots == ends, "range", f"the outermost needles are {spoken(ends)}")


@act("waiting_out")
def waiting_out(k: Knitter, said: dict) -> None:
    need(k.told and set(k.told) & {"from_waste", "from_strip", "from_strip_but"}, "out-of-place",
         "no stitches were taken off waste yarn")


@act("from_cord")
def from_cord(k: Knitter, said: dict) -> None:
    need(k.sections and "on their cord" in k.sections[-1][1], "out-of-place",
         "no stitches on a cord are hung here")
    k.owe("front falls", "where the front above the pocket lies is not said")


@act("front_falls")
def front_falls(k: Knitter, said: dict) -> None:
    k.paid("front falls", "no pocket's stitches were hung")


@act("give_loop")
def give_loop(k: Knitter, said: dict) -> None:
    spots, beside = [place(said["needle"])], place(said["needle2"])
    need(abs(spots[0] - beside) == 1 and beside in k.bed.main.loops, "loop",
         "the loop that is lifted from does not lie beside it")
    join = k.notes.get("join needles")
    k.note("unchecked")
    for spot in spots:
        need(spot - 1 in k.bed.main.loops or spot + 1 in k.bed.main.loops, "loop",
             "no stitch is beside it")
    empty = k.bed.main.empty()
    k.bed.main.hang(spots, "loop beside", on=False)
    need(set(spots) == set(empty), "range", f"empty are {spoken(empty)}")
    need(join is None or set(spots) == set(join), "range",  # type: ignore[arg-type]
         "the section's head names other needles for the join")


@act("cloth")
def cloth(k: Knitter, said: dict) -> None:
    need(not k.bed.weights, "weights-on", "the weights still hang")
    k.bed.cloth = True
    k.tools["cloth"] = True


@act("fold_around")
def fold_around(k: Knitter, said: dict) -> None:
    full = k.bed.main.full()
    need(k.sections, "edge", "no edge is hung")
    need(k.bed.cord, "cord", "no row was knitted with the cord")
    k.bed.main.hang(full, "first row", on=True)
    k.note("hung")
    k.owe("half loop", "one loop fewer than stitches lies along the cord")
    folded_up(said["words"])
    need(len(full) == k.bed.cord, "loops", f"the first row has {k.bed.cord} stitches")
    none_shut_in(k)


@act("fold_inside")
def fold_inside(k: Knitter, said: dict) -> None:
    need(not k.bed.weights, "weights-on", "the weights still hang")
    k.note("folded in")
    none_shut_in(k)


@act("hang_line")
def hang_line(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    need(k.notes.get("folded in"), "fold", "the band was not folded to the inside")
    k.bed.main.hang(spots, "first row", on=True)
    need(set(spots) == set(k.bed.main.full()), "range",
         f"the stitches are on {spoken(k.bed.main.full())[:60]}")


@act("hand_row")
def hand_row(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    full = k.bed.main.full()
    end = k.notes.pop("hand end", None)
    need(end, "end", "no end was left for it")
    several = any(len(k.bed.main.loops[spot]) > 1 for spot in full)
    need(("together" in said["words"]) == several, "loops",
         "each needle holds several loops" if several else "each needle holds one loop")
    for spot in full:
        k.bed.main.loops[spot] = ["hand row"]
    k.note("end at", said["side2"])
    k.note("joined")
    need(said["side"] == end and said["side2"] == other(said["side"]), "side",
         f"the end hangs on the {end}")
    need(set(spots) == set(full), "range", f"the stitches are on {spoken(full)[:60]}")
    need(("right" if spots[-1] > spots[0] else "left") == said["side2"], "side",
         f"{said['needles']} runs the other way")


@act("chain_off")
def chain_off(k: Knitter, said: dict) -> None:
    full = k.bed.main.full()
    first, last = place(said["needle"]), place(said["needle2"])
    need(full, "no-stitches", "no stitches are on the needles")
    weights, k.bed.weights = k.bed.weights or k.bed.claws, False
    k.bed.claws = False
    k.bed.main.drop(full)
    end = k.notes.pop("end at", None) or k.bed.carriage  # the end that was cut hangs there
    need({first, last} == {full[0], full[-1]}, "range", f"the stitches are on {spoken(full)[:60]}")
    need(("right" if last > first else "left") == end, "side", f"the yarn's end is on the {end}")
    if not k.sections:  # a band tells in its step how its chain is worked
        towards = "right" if last > first else "left"
        k.did.add((CHAIN, "way_begin", "words", "end away from the yarn" if towards == end
                   else "end beside the yarn"))
    need(not weights, "weights-on", "the weights still hang")


@act("stay")
def stay(k: Knitter, said: dict) -> None:
    need(k.last in ("hand_row", "by_hand", "cast_each_from", "cast_each_again", "pocket_back",
                    "clipped_back", "loops_tie", "cord_each", "pocket_cord"), "out-of-place",
         "nothing was knitted by hand")


BEHIND = ("turn_behind", "turn_parts", "stretch_facing", "pin_corners")


@act("turn_in", "turn_behind", "turn_parts")
def turn_in(k: Knitter, said: dict) -> None:
    """A folded band is sewn to the row where it began, a facing to the garment behind it."""
    need(k.waiting, "waiting", "no stitches wait")
    need(("behind" in k.sentence) == ("facing" in k.sentence), "sewn-to",
         "a facing is sewn to the garment behind it, a band to the row where it began")
    k.note("sewn down")


@act("sew_down")
def sew_down(k: Knitter, said: dict) -> None:
    need(k.notes.get("sewing end"), "end", "no end was left to sew with")


@act("sew_behind")
def sew_behind(k: Knitter, said: dict) -> None:
    waits, said_of = list(k.waiting.values())[-1], said["stitches"]
    if "n" in said:  # all but so many at either end, which come after
        need(k.notes.get("end led") == said_of, "end", "where the sewing begins is not said before")
        k.owe("later down", "when the last are sewn down is not said")
        k.note("left for later", said_of)
        said_of = said["n"] + 2 * said_of
    need(said_of == waits, "count", f"{waits} wait")
    need(k.notes.get("sewing end"), "end", "no end was left to sew with")


@act("lead_end")
def lead_end(k: Knitter, said: dict) -> None:
    """It hangs from a stitch that is sewn down later: said before the sewing it begins."""
    need(k.last in BEHIND, "out-of-place", "no facing lies behind the garment")
    k.note("end led", said["stitches"])


@act("lead_ends")
def lead_ends(k: Knitter, said: dict) -> None:
    need(k.last == "leave_parts", "out-of-place", "which stitches stay is said just before")


@act("leave_parts")
def leave_parts(k: Knitter, said: dict) -> None:
    need(k.last in BEHIND, "out-of-place", "no facing lies behind the garment")
    k.owe("later down", "when the last are sewn down is not said")
    k.note("left for later", said["n"])


@act("sew_parts")
def sew_parts(k: Knitter, said: dict) -> None:
    need(k.notes.get("sewing end"), "end", "no end was left to sew with")
    need(k.last == "lead_ends", "out-of-place", "where the sewing begins is said just before")
    need((said["n2"], said["n4"]) == (1, 2), "part", "its parts are 1 and 2")
    # each part has one open end, and a stitch for the join
    k.note("parts sewn", tuple(said[n] + k.notes["left for later"] for n in ("n", "n3")))


@act("later_down")
def later_down(k: Knitter, said: dict) -> None:
    k.paid("later down", "all of them are sewn down")
    k.note("before later", k.last)
    need(said["n"] == k.notes.get("left for later"), "count",
         f"{k.notes.get('left for later')} are left at each end")


@act("leave_facing")
def leave_facing(k: Knitter, said: dict) -> None:
    need(said["stitches"] == list(k.waiting.values())[-1], "count", "others wait")
    need(k.notes.get("sewing end"), "end", "no end was left to sew with")
    k.note("left open")


@act("open_seam")
def open_seam(k: Knitter, said: dict) -> None:
    need(k.last == "join_part" and k.waiting, "out-of-place", "no open ends are joined")


@act("secure_join")
def secure_join(k: Knitter, said: dict) -> None:
    need(k.last == "open_seam", "out-of-place", "no open ends are joined")


@act("stretch_facing")
def stretch_facing(k: Knitter, said: dict) -> None:
    need(k.last in ("turn_behind", "turn_parts"), "out-of-place",
         "where it is stretched is said when it lies there, before it is sewn")


@act("waste_out")
def waste_out(k: Knitter, said: dict) -> None:
    need(k.sentence.startswith("Leave") == (k.last == "later_down"), "waste",
         "the waste yarn holds what is sewn down later, and nothing once all is sewn")
    last = k.notes.get("before later") if k.last == "later_down" else k.last
    need(last in ("sew_down", "sew_behind", "sew_parts", "sew_off"), "out-of-place",
         "no waste yarn is in")
    behind = last in ("sew_behind", "sew_parts")
    need(not behind or not k.corners or "pin_corners" in k.told, "corners",
         "how much longer it is at the corners is not said")
    hollow = behind and any("neck" in words for _, words, _ in k.sections)
    need(not hollow or "stretch_facing" in k.told, "facing",
         "behind a hollow edge the line is longer than the facing")


@act("sew_off")
def sew_off(k: Knitter, said: dict) -> None:
    need(k.notes.get("sewing end"), "end", "no end was left to sew with")
    waits = list(k.waiting.values())
    need(waits and said["stitches"] == waits[-1], "count", f"{waits[-1:]} wait")

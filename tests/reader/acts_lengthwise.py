"""Bands whose rows run along their edge: holes and threads by the row counter, and their sewing."""

from __future__ import annotations

import re
from itertools import pairwise

from tests.reader.acts_heads import head
from tests.reader.acts_marks import TIES, none_shut_in, put_in
from tests.reader.acts_rows import counted, knit
from tests.reader.bed import UPPER, need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import place, rising
from tests.reader.visible import Block


@act("head_rows")
def head_rows(k: Knitter, said: dict) -> None:
    head(k, said)
    k.note("along", said["rows"])
    k.note("ends", (said["words"], said["words2"]))
    k.note("end told", (said["words"], "left"))


@act("sewn_side")
def sewn_side(k: Knitter, said: dict) -> None:
    """A band is seen from its purl side: the wearer's right front lies at the bed's right of it."""
    front = re.search(r"(right|left) front", k.title)
    need(not front or front[1] == said["side"], "side",  # type: ignore[index]
         "that edge lies away from the garment")
    k.note("sewn at", said["side"])


@act("set_out")
def set_out(k: Knitter, said: dict) -> None:
    """The head says how the needles lie; `set_as_said` holds the needles to it."""
    k.note("set out", (said["list"], said["n"]))


def set_as_said(k: Knitter) -> None:
    """The needles in work lie as the head says: the gaps of the repeat, the groups of the repeat,
    and as many side by side at either edge as it says (sense)."""
    told = k.notes.get("set out")
    if not told:
        return
    spots = sorted(k.bed.main.full())
    k.note("works", spots)
    groups = [1]
    for before, after in pairwise(spots):
        groups = [*groups[:-1], groups[-1] + 1] if after - before == 1 else [*groups, 1]
    repeat, edge = told
    works = {int(one) for one in re.findall(r"(\d+) in", repeat)}
    need((groups[0], groups[-1]) == (edge, edge), "range",
         f"{groups[0]} and {groups[-1]} stand side by side at the edges")
    need(set(groups[1:-1]) <= works, "range", f"the groups are of {groups} needles")


@act("layers_lie")
def layers_lie(k: Knitter, said: dict) -> None:
    """The layer beside the edge that is sewn first lies outside."""
    outer, inner = rising(said["needles"]), rising(said["needles2"])
    need(sorted((*outer, *inner)) == list(k.head[1]) and len(outer) == len(inner), "range",
         "the layers are not the halves")
    right = k.notes["sewn at"] == "right"
    need((outer > inner) == right, "layer", "the layer that is sewn first lies outside")
    k.note("outer", outer)


@act("counted_along")
def counted_along(k: Knitter, said: dict) -> None:
    k.note("down", said.get("words") or "")


@act("first_above")
def first_above(k: Knitter, said: dict) -> None:
    k.note("row 1", [*k.notes.get("row 1", []), (said["words"], said["words2"])])


@act("knit_to_hole")
def knit_to_hole(k: Knitter, said: dict) -> None:
    k.note("next hole", said["n"])
    knit(k, {key: value for key, value in said.items() if key != "n"})


@act("make_hole")
def make_hole(k: Knitter, said: dict) -> None:
    """Holes follow one another, each at the row to which one has knitted."""
    made = k.notes.get("hole rows", [])
    need(said["n"] == len(made) + 1, "hole", f"{len(made)} are made")
    need(k.notes.get("holes told", (said["n2"], 0))[0] == said["n2"], "hole",
         "another number was told")
    need(k.notes.get("next hole", said["n"]) == said["n"], "hole", "one has knitted to another")
    k.note("holes told", (said["n2"], said["stitches"]))
    k.note("hole rows", [*made, k.bed.counter])
    k.note("layers", 2 if "in each layer" in k.sentence else 1)
    k.owe("forward", "which needles is not said")


@act("hole_forward")
def hole_forward(k: Knitter, said: dict) -> None:
    """In two layers the holes lie as far from either edge, so that they meet when it is folded."""
    k.paid("forward", "no hole is made")
    spots, (_, stitches) = rising(said["needles"]), k.notes["holes told"]
    layers = k.notes["layers"]
    counted(spots, stitches * layers)
    k.bed.main.bring(spots, UPPER)
    holes = [spots[at:at + stitches] for at in range(0, len(spots), stitches)]
    full = k.bed.main.full()
    if layers == 2:
        ahead, behind = spots[0] - full[0], full[-1] - spots[-1]
        need(ahead == behind, "fold", "the two layers' holes do not meet")
    else:
        wide = len(full) - 1 - stitches  # one stitch lies in the seam
        free = spots[0] - full[0] if k.notes["sewn at"] == "right" else full[-1] - spots[-1]
        need(abs(2 * free - wide) <= 1, "middle", "the hole is not in the middle of the band")
    k.note("holes", holes if k.notes["sewn at"] == "left" else holes[::-1])
    need(layers == 1 or set(k.notes["holes"][0]) <= set(k.notes["outer"]), "layer",
         "the first hole is in the inner layer")


@act("tie_row")
def tie_row(k: Knitter, said: dict) -> None:
    beside(k, said)
    k.note("ties", [*k.notes.get("ties", []), k.bed.counter])
    k.note("met", [*k.notes.get("met", []), ""])


def beside(k: Knitter, said: dict) -> None:
    """The thread is tied in at the edge that is sewn."""
    set_as_said(k)
    full = k.bed.main.full()
    edge = full[-1] if k.notes["sewn at"] == "right" else full[0]
    need(place(said["needle"]) == edge, "range", "that is not the edge that is sewn")
    put_in(k, TIES)


@act("tie_ends")
def tie_ends(k: Knitter, said: dict) -> None:
    need(k.notes.get("met", ["?"])[-1] == "", "meets", "no thread is tied in")
    k.note("met", [*k.notes["met"][:-1], said["words"]])


@act("sew_band")
def sew_band(k: Knitter, said: dict) -> None:
    k.cords.append(said["cm"])
    for what in ("sew lies", "sew pins", "sew in"):
        k.owe(what, "how it is sewn on is not said")


@act("sew_lies")
def sew_lies(k: Knitter, said: dict) -> None:
    k.paid("sew lies", "nothing is sewn on")
    need(said["words"] == k.notes["ends"][0], "end", "the head begins elsewhere")
    need(said["side"] == k.notes["sewn at"], "side", "the head says the other edge")


@act("sew_pins")
def sew_pins(k: Knitter, said: dict) -> None:
    k.paid("sew pins", "nothing is sewn on")


@act("sew_in")
def sew_in(k: Knitter, said: dict) -> None:
    """What lies in two layers is sewn through both, or one of them gapes behind the band."""
    k.paid("sew in", "nothing is sewn on")
    k.note("both layers", said.get("words") or "")


@act("sew_bound")
def sew_bound(k: Knitter, said: dict) -> None:
    k.note("bound sewn")


@act("sew_stretch")
def sew_stretch(k: Knitter, said: dict) -> None:
    k.note("stretch along", float(said["list"]))


@act("holes_inside")
def holes_inside(k: Knitter, said: dict) -> None:
    """The tails of a hole hang on the purl side, which a fold shuts in (geometry)."""
    need("binding" in k.notes, "ends", "no hole of this band has ends")
    k.note("holes darned")


@act("fold_middle")
def fold_middle(k: Knitter, said: dict) -> None:
    """As many needles lie on either side of the fold."""
    _, spots = k.head
    one, two = place(said["needle"]), place(said["needle2"])
    need(two - one == 1 and one - spots[0] == spots[-1] - two, "fold", "that is not the middle")
    need("binding" not in k.notes or "holes darned" in k.notes, "order",
         "the ends at the holes are shut in")
    k.owe("other edge", "the other edge is not sewn")
    none_shut_in(k)


@act("sew_other")
def sew_other(k: Knitter, said: dict) -> None:
    k.paid("other edge", "the band is not folded")
    need(said["cm"] == k.cords[-1], "end", f"the first edge took {k.cords[-1]}")
    k.owe("shorts", "the short ends stay open")


@act("sew_shorts")
def sew_shorts(k: Knitter, said: dict) -> None:
    k.paid("shorts", "one layer has no ends to shut")


@act("join_holes")
def join_holes(k: Knitter, said: dict) -> None:
    need(k.notes.get("layers") == 2, "holes", "one layer alone has the holes")


@act("sew_rows")
def sew_rows(k: Knitter, said: dict) -> None:
    need(said["words"] == k.notes["ends"][0], "end", "the head begins elsewhere")


@act("sew_lengths")
def sew_lengths(k: Knitter, said: dict) -> None:
    own, edge = (float(str(said[key]).split(" ")[0]) for key in ("cm", "cm2"))
    share = k.notes.get("stretch along", 0.0)
    need(abs(own * (1 + share / 100) - edge) < 0.35, "hung-length",
         f"with {share} % it is {own * (1 + share / 100):.1f} cm")
    k.note("own length", own)
    k.expects = lambda blocks: sewing_table(k, blocks)


def sewing_table(k: Knitter, blocks: list[Block]) -> None:
    """Every thread with the place it is sewn to, and the end of the band."""
    need(tuple(blocks[0].cells) == ("Row of the band", "Where", "Place of the edge"), "table",
         "unknown columns")
    lines = [line.cells for line in blocks[1:]]
    k.tables += 1
    rows = [int(cells[0]) for cells in lines]
    need(rows == sorted(set(rows)) and rows[:-1] == k.notes.get("ties", []), "table",
         f"threads are at {k.notes.get('ties')}")
    need(rows[-1] == k.notes["along"], "table", "the last is another row")
    need(k.notes["along"] in [until for *_, until in k.bed.done], "table",
         "no row is knitted up to there")
    met = [*k.notes.get("met", []), lines[-1][1].rpartition(", ")[0]]
    ended = 0
    places: dict[str, int] = {}  # of each part of the edge
    for cells, words in zip(lines, met, strict=True):
        number, whole = (int(one) for one in re.findall(r"\d+", cells[2]))
        name = cells[1].rpartition(", ")[0]
        need(places.setdefault(name, whole) == whole, "table", "its part has other places before")
        need(not (name and words) or name == words, "table", f"the step calls it {words}")
        ends = cells[1].endswith("end")
        need(ends == bool(words) or not name, "table", "the steps end another part there")
        if ends:
            need(number == whole, "table", "its end is its last place")
            ended += 1
    along_parts(k, lines)
    need(ended and lines[-1][1].endswith("end"), "table", "no section ends")
    for one, two in pairwise(rows):
        need(two - one >= 2, "table", "two threads lie in one row")


def along_parts(k: Knitter, lines: list[list[str]]) -> None:
    """From which end each part of the edge is counted, and what lies in two layers: a front was
    knitted upward, so that a band which comes to it from the shoulder meets its rows from the top;
    a hem and a folded neckband have two layers (sense)."""
    parts = dict.fromkeys(cells[1].rpartition(", ")[0] for cells in lines)
    need("down" in k.notes, "table", "from which end the edge is counted is not said")
    down = [one for one in parts if re.search(r"\bfront (armhole|raglan|slope|neck)", one)]
    said = [one.removeprefix("the ") for one in re.split(r", | and ", k.notes["down"]) if one]
    need("armhole" not in k.title or said == down, "table", f"from the top down comes {down}")
    doubled = [one for one in parts if one == "hem" or one.startswith("end of the neckband")]
    sewn = [one.removeprefix("the ") for one in re.split(r", | and ", k.notes["both layers"])
            if one]
    need(sewn == doubled, "layers", f"of two layers are {doubled}")
    bound = [one for one in parts if one.endswith("underarm")]
    need(bool(bound) == ("bound sewn" in k.notes), "left-out", "how bound-off stitches are sewn")
    above = [words2 for _, words2 in k.notes.get("row 1", [])]
    need(above == bound[:len(bound) // 2], "table", "where row 1 lies above bound-off stitches")
    for cells in lines:
        under = cells[1].rpartition(", ")[0].endswith("underarm")
        need(cells[2].startswith("stitch") == under, "table", "stitches are counted as stitches")


def holes_of(k: Knitter) -> int:
    """How many holes a knitter made."""
    rows = k.notes.get("hole rows")
    if rows is not None:
        return len(rows)  # type: ignore[arg-type]
    return len(k.notes.get("holes", ()))  # type: ignore[arg-type]


def buttons_lie(k: Knitter, told: list[float], length: float | None, holed: list[Knitter]) -> None:
    """Buttons along a band whose holes are made by the row counter, and the rows of their threads.
    """
    rows = k.notes["hole rows"]
    need(len(told) == len(rows), "buttons", f"{len(rows)} holes, {len(told)} places")
    need(told == sorted(told), "buttons", "they are not in order")
    for row, spot in zip(rows, told, strict=True):
        exact = (length or 0.0) * (row + 0.5) / k.notes["along"]
        need(abs(spot - exact) <= 0.16, "buttons", f"a hole lies at {exact:.1f} cm")
    marked = [one.notes["button rows"] for one in holed if "button rows" in one.notes]
    need(marked == [rows], "buttons", f"the threads are at {marked}")

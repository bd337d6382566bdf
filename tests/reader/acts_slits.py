"""Slits, button loops, pockets on a cord, facings of another fabric."""

from __future__ import annotations

import re
from itertools import pairwise

from tests.reader.acts_holes import hole_lines
from tests.reader.acts_marks import SLITS, put_in
from tests.reader.acts_off import neighbour
from tests.reader.acts_rows import counted
from tests.reader.bed import WORK, need
from tests.reader.knitter import Knitter, act
from tests.reader.needles import parse, place, rising, spoken
from tests.reader.visible import Block


@act("slits")
def slits(k: Knitter, said: dict) -> None:
    k.note("slits told", said["n"])
    k.note("slit rows", said["rows"])
    k.owe("parts", "how many parts there are is not said")


@act("slit_threads")
def slit_threads(k: Knitter, said: dict) -> None:
    put_in(k, SLITS)
    k.expects = lambda blocks: slit_lines(k, blocks)


def slit_lines(k: Knitter, blocks: list[Block]) -> None:
    """Where the slits are, and the parts between them."""
    full = k.bed.main.full()
    cuts = []
    for line in hole_lines(k, blocks, "Slit"):
        match = re.fullmatch(r"between ([LR]\d+) and ([LR]\d+)", line)
        need(match, "list", f"this cannot be read: {line!r}")
        a, b = place(match[1]), place(match[2])  # type: ignore[index]
        need(b == a + 1 and a in full and b in full, "range", "these are not neighbours")
        cuts.append(b)
    bounds = [full[0], *cuts, full[-1] + 1]
    parts = [tuple(range(a, b)) for a, b in pairwise(bounds)]
    k.note("slit needles", [s for b in cuts for s in (b - 1, b)])
    k.note("parts", parts if k.bed.carriage == "left" else parts[::-1])
    need(len(cuts) == k.notes["slits told"], "count", f"{len(cuts)} slits are listed")


@act("slit_parts")
def slit_parts(k: Knitter, said: dict) -> None:
    k.paid("parts", "no slits begin here")
    need(said["n"] == len(k.notes.get("parts", ())), "count",
         f"there are {len(k.notes.get('parts', ()))} parts")


@act("slit_sew")
def slit_sew(k: Knitter, said: dict) -> None:
    need(k.notes.get("parts"), "out-of-place", "there are no slits")


@act("slit_end")
def slit_end(k: Knitter, said: dict) -> None:
    need(len(k.notes.get("parts", ())) > 2, "out-of-place", "every slit has an end beside it")


@act("overcast")
def overcast(k: Knitter, said: dict) -> None:
    need(k.notes.get("holes"), "out-of-place", "there are no eyelets")


@act("sew_round")
def sew_round(k: Knitter, said: dict) -> None:
    need(k.notes.get("holes") and not k.bed.main.full(), "out-of-place",
         "no band with holes is off the bed")


@act("loops_tie")
def loops_tie(k: Knitter, said: dict) -> None:
    k.tools["thread"] = True
    k.expects = lambda blocks: loop_lines(k, blocks)


def loop_lines(k: Knitter, blocks: list[Block]) -> None:
    """The stitches in which each loop will stand."""
    pairs = [parse(line) for line in hole_lines(k, blocks, "Loop")]
    full = k.bed.main.full()
    for pair in pairs:
        need(len(pair) == 2 and all(full[0] <= s <= full[-1] for s in pair), "range",
             "two stitches of the band")
    k.note("loops", pairs)
    need(len({b[0] - a[0] for a, b in pairwise(pairs)}) <= 2, "range",
         "the loops are not evenly spaced")


@act("loops_feet")
def loops_feet(k: Knitter, said: dict) -> None:
    need(all(abs(b - a) + 1 == said["stitches"] for a, b in k.notes["loops"]), "count",
         "the feet are another number of stitches apart")


@act("loops_make")
def loops_make(k: Knitter, said: dict) -> None:
    need(said["loops"] == len(k.notes.get("loops", ())), "count",
         f"{len(k.notes.get('loops', ()))} loops are marked")


@act("loops_chain")
def loops_chain(k: Knitter, said: dict) -> None:
    k.note("loop chain", (said["chains"], said["list"]))


# --- pockets, facings of another fabric


@act("pocket_cord")
def pocket_cord(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    for spot in spots:
        need(k.bed.main.at(spot) == WORK, "range", f"{spoken([spot])} is not in work")
        k.bed.main.loops[spot] = ["cord"]
    k.note("pocket", spots)
    k.cords.append(said["cm"])
    need(said["side"] in k.title.lower(), "side", "this is the other front")
    counted(spots, said["stitches"])


@act("pocket_back")
def pocket_back(k: Knitter, said: dict) -> None:
    need(k.notes.get("pocket"), "out-of-place", "no pocket is knitted by hand")


@act("hang_pocket")
def hang_pocket(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.bed.main.hang(spots, "edge", on=False)
    k.note("lining", (said["loops"], said["stitches"]))
    counted(spots, said["loops"])
    need(said["loops"] == said["stitches"] + 1, "count", "one loop more than stitches")


@act("waits_again")
def waits_again(k: Knitter, said: dict) -> None:
    spots, but = rising(said["needles"]), rising(said["needles2"])
    waits = list(k.waiting.values())[-1]
    for spot in but:
        need(spot in spots, "range", f"{spoken([spot])} is not among them")
    over = [spot for spot in spots if spot not in but]
    k.bed.main.hang(over, "again", on=False)
    k.note("to fill", but)
    need(said["stitches"] == waits, "count", f"{waits} wait")
    counted(over, said["stitches"])
    k.owe("all drawn", "the waste yarn is still in")


@act("waste_drawn")
def waste_drawn(k: Knitter, said: dict) -> None:
    k.paid("all drawn", "no waste yarn is in")


@act("facing_count")
def facing_count(k: Knitter, said: dict) -> None:
    want = len(k.bed.main.full()) + len(k.notes.get("to fill", ()))
    need(said["stitches"] == want, "count", f"it will have {want}")


@act("facing_fill")
def facing_fill(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    neighbour(k, spots, said["words"])
    k.bed.main.hang(spots, "loop beside", on=False)
    need(set(spots) == set(k.notes.get("to fill", ())), "range", "other needles were left empty")


"""What a section's head promises, and the stitch pattern that is printed for a piece."""

from __future__ import annotations

import re
from itertools import pairwise

from tests.reader.acts_rows import counted
from tests.reader.bed import need, other
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter, act
from tests.reader.needles import NAME, place, rising
from tests.reader.page_parts import Reading
from tests.reader.visible import Block


@act("head", "head_band")
def head(k: Knitter, said: dict) -> None:
    spots = rising(said["needles"])
    k.note("head", (said["stitches"], spots))
    k.note("ribbed", "rib" in k.sentence)
    if "band has" in k.sentence:
        counted(spots, said["stitches"])
    need(said["stitches"] <= len(spots), "count", f"these are {len(spots)} needles")
    need(said["stitches"] > 5 or said["stitches"] == len(spots), "range",
         "so few stitches can lie on needles that are named one by one")


@act("head_end")
def head_end(k: Knitter, said: dict) -> None:
    need(k.last == "head_band", "out-of-place", "no band begins here")
    k.note("end told", (said["words"], said["side"]))


@act("either_first")
def either_first(k: Knitter, said: dict) -> None:
    """Two bands of one count: held by the two as they are knitted."""
    k.note("either first")


@act("plain_first")
def plain_first(k: Knitter, said: dict) -> None:
    need(k.last == "either_first", "out-of-place", "no order of two bands was spoken of")
    need(f", without {said['words']}" in k.title, "words", "one closing is called two things")


@act("begin")
def begin(k: Knitter, said: dict) -> None:
    need(k.log[0][0] != "head_band" or "end told" in k.notes, "end", "how its ends lie is not said")
    k.bed.carriage = said["side"]
    k.note("began", said["side"])
    k.bed.holds = False


@act("begin_empty")
def begin_empty(k: Knitter, said: dict) -> None:
    """What lies on the bed before the carriage is taken over it."""


@act("take_there")
def take_there(k: Knitter, said: dict) -> None:
    begin(k, said)
    k.note("taken there")


@act("widest")
def widest(k: Knitter, said: dict) -> None:
    k.note("widest", said["needles_count"])
    first = max(k.head[1]) - min(k.head[1]) + 1
    need(("left out" in k.sentence) == (said["needles_count"] == first), "widest",
         f"it takes {first} needles from its first row on")


@act("plain_here")
def plain_here(k: Knitter, said: dict) -> None:
    """A plain piece beside others with a stitch pattern: none of its rows is of one."""
    k.note("plain")


@act("twice")
def twice(k: Knitter, said: dict) -> None:
    word = re.search(r"it (\w+(?: times)?);", k.sentence)[1]  # type: ignore[index]
    k.note("times", word)
    need(f"knitted {word}" in k.title, "times", f"the title says {k.title!r}")


@act("band_twice")
def band_twice(k: Knitter, said: dict) -> None:
    k.note("times", "twice")
    need("worked twice" in k.title, "times", f"the title says {k.title!r}")


@act("take_back")
def take_back(k: Knitter, said: dict) -> None:
    need(k.last in ("twice", "band_twice"), "out-of-place", "nothing is knitted again")
    k.note("taken back", said["side"])
    need(said["side"] == k.bed.carriage, "side", f"it begins on the {k.bed.carriage}")


def carriage_over(reading: Reading) -> None:
    """Where a piece or band ends on one side and the next begins on the other, the carriage is
    taken over the empty bed (common practice, no source)."""
    begun = [k for k in reading.knitters if "began" in k.notes]
    for before, k in pairwise(begun):
        attempt(reading, k.title, "", need,
                (before.bed.carriage != k.notes["began"]) == ("taken there" in k.notes), "carriage",
                f"{before.title} ends on the {before.bed.carriage}, and this begins on the "
                f"{k.notes['began']}")


def back_for_next(k: Knitter) -> None:
    """Where one piece ends on the other side, the next cannot begin until the carriage is back."""
    side, told = k.notes.get("began"), "taken back" in k.notes
    need("times" not in k.notes or (k.bed.carriage != side) == told, "carriage",
         f"the next begins on the {side}, and this one ends on the {k.bed.carriage}")


@act("own_edge")
def own_edge(k: Knitter, said: dict) -> None:
    k.note("own edge", said["words"].lower())


@act("graded")
def graded(k: Knitter, said: dict) -> None:
    k.note("graded", said["words"])


@act("around")
def around(k: Knitter, said: dict) -> None:
    need(said["side"] == "left", "side", "the other side")
    k.note("around", k.sentence)


@act("part_of")
def part_of(k: Knitter, said: dict) -> None:
    title = re.search(r"part (\d+) of (\d+)", k.title)
    need(title and (int(title[1]), int(title[2])) == (said["n2"], said["n"]), "part",
         f"the title says {k.title!r}")
    k.note("far end", said["words2"])
    k.note("its ends", {said["words"], said["words2"]})
    end = k.notes.get("end told", (said["words"],))[0]
    need(end == said["words"], "end", f"it begins at the {end}")


@act("join_needle", "join_needles")
def join_needle(k: Knitter, said: dict) -> None:
    spots = [place(said[key]) for key in ("needle", "needle2") if key in said]
    k.note("join needles", spots)
    ends = k.notes.get("head", (0, (0,)))[1]
    need(all(s in (ends[0], ends[-1]) for s in spots), "range", "it is no end of the band")
    named = {said[key] for key in ("words", "words2") if key in said}
    its: set[object] = k.notes.get("its ends", named)  # type: ignore[assignment]
    need(named <= its and len(named) == len(spots), "end", f"the part goes between {its}")


@act("worn")
def worn(k: Knitter, said: dict) -> None:
    need(said["side"] == said["side2"], "side", "right is right")


@act("worn_bed")
def worn_bed(k: Knitter, said: dict) -> None:
    need(said["side"] == said["side2"] == other(said["side3"]), "side",
         "the purl side faced you: a front's right is the bed's right, a back's is its left")


@act("worn_back")
def worn_back(k: Knitter, said: dict) -> None:
    need(said["side"] == other(said["side2"]), "side", "the purl side of the back faced you")


# --- under the drawing of a band


@act("flat")
def flat(k: Knitter, said: dict) -> None:
    need(said["stitches"] == k.notes.get("head", (None,))[0], "count",
         "the head says another number")


@act("flat_holes")
def flat_holes(k: Knitter, said: dict) -> None:
    between = [int(x) for x in re.findall(r"\d+", str(said.get("list") or said["numbers"]))]
    k.note("flat holes", [said["stitches"], *between, said["stitches2"]])
    k.note("flat size", (said["n"], said["n2"]))
    total = said["stitches"] + sum(between) + said["stitches2"] + said["n"] * said["n2"]
    need(total == k.notes.get("head", (None,))[0], "count", f"together that is {total}")
    need(len(between) == said["n"] - 1, "count", "one gap fewer than holes")


@act("flat_rows")
def flat_rows(k: Knitter, said: dict) -> None:
    k.note("flat rows", [said["rows"], said["n"], said["n2"], said["n3"]])


@act("flat_fold")
def flat_fold(k: Knitter, said: dict) -> None:
    k.note("flat rows", [said["rows"], said["n"]])


def flat_drawing(k: Knitter, blocks: list[Block]) -> None:
    """The text in the drawing of a band: its ends, its gaps, its rows."""
    texts = [b.text for b in blocks]
    ends = [re.fullmatch(rf"({NAME}) \((.*)\)", text) for text in texts]
    named = [place(end[1]) for end in ends if end]
    across = sorted((b.at[0], int(b.text)) for b in blocks if b.text.isdigit() and b.at[1] < 45)
    down = sorted((b.at[1], int(b.text)) for b in blocks if b.text.isdigit() and b.at[1] >= 45)
    numbers = [number for _, number in [*across, *down]]
    need(sum(bool(e) for e in ends) + len(numbers) == len(texts), "drawing", "an unknown text")
    first = k.notes.get("head", (0, (0,)))[1]
    need(named == [first[0], first[-1]], "drawing", "its ends are other needles")
    told = k.notes.get("end told")
    left = next((end[2] for end in ends if end), "")
    right = [end[2] for end in ends if end][-1:]
    if told:
        mine = left if told[1] == "left" else (right or [""])[0]
        need(mine in told[0], "drawing", f"the {told[0]} is at the {told[1]}")
    gaps, rows = k.notes.get("flat holes", []), k.notes.get("flat rows", [])
    if told and told[1] == "right":
        gaps = gaps[::-1]
    need(numbers == [*gaps, *rows], "drawing", f"the words say {[*gaps, *rows]}")


@act("flat_none")
def flat_none(k: Knitter, said: dict) -> None:
    k.note("flat none")

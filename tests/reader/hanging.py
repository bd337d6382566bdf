"""The hanging tables: which row of an edge goes on which needle, told twice and held together."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

from tests.reader.acts_rows import counted
from tests.reader.bed import Wrong, need, other
from tests.reader.knitter import Knitter, act
from tests.reader.needles import NAME, parse, place
from tests.reader.visible import Block
from tests.reader.worn import apart


@act("hang_from", "hang_numbered")
def hang_from(k: Knitter, said: dict) -> None:
    end = k.notes.get("end told")
    need(end is None or end == (said["words"], said["side"]), "end",
         f"the section's head says {end}")
    far = k.notes.get("far end", said.get("words2"))
    need(far == said.get("words2") or "words2" not in said, "end", f"the head says {far}")
    k.note("counted from", said["side"])
    k.note("start", said["words"])


@act("hang_within")
def hang_within(k: Knitter, said: dict) -> None:
    need(said["side"] == k.notes.get("counted from"), "side", "the other end is named before")


@act("hang_mixed")
def hang_mixed(k: Knitter, said: dict) -> None:
    k.note("numbered together")


@act("hang_under")
def hang_under(k: Knitter, said: dict) -> None:
    """As deep under bound-off stitches as in beside the rows, by what the steps say."""
    k.note("under")
    deep = ("first", "second", "third").index(str(said["words"])) + 1
    need(set(k.depths) == {deep}, "depth", f"beside the rows one goes in {k.depths} stitches")


@act("hang_seam", "sew_seam")
def hang_seam(k: Knitter, said: dict) -> None:
    """A stitch bound off at the underarm belongs to the seam that is sewn later, not to a band."""
    k.note("seam's stitches", k.notes.get("seam's stitches", 0) + 1)


@act("hang_off")
def hang_off(k: Knitter, said: dict) -> None:
    """As deep below the chain of an edge bound off as in beside its rows, where it has any."""
    k.rows_below.append(("first", "second", "third").index(str(said["words"])) + 1)


@act("hang_takes")
def hang_takes(k: Knitter, said: dict) -> None:
    need(said["needles_count"] == said["n"], "count", "a needle takes a row")
    spots = [s for _, _, part in k.sections for s in part]
    need(said["n"] == len(spots), "count", f"{len(spots)} needles were hung")
    begin_table(k, spots, said["n"], said["rows"])
    if "cm" in said:
        k.hung_lengths.append(("", said["n"], said["rows"], said["cm"]))


@act("hang_part", "hang_waits")
def hang_part(k: Knitter, said: dict) -> None:
    spots = parse(said["needles"])
    falls = k.notes.get("counted from") == "right"
    need(list(spots) == sorted(spots, reverse=falls), "range", "from the end that is counted from")
    hung = {number: (words, part) for number, words, part in k.sections}
    need(said["n"] in hung, "section", "the steps hang no such section")
    words, part = hung[said["n"]]
    k.note("sections told", [*k.notes.get("sections told", []), said["n"]])
    begin_table(k, list(spots), said["stitches"], said.get("rows", said.get("places", 0)))
    need(k.called[said["n"]] == said["words"], "section", f"the step calls it {words!r}")
    need(set(spots) == set(part), "range", "the step hangs it on other needles")
    counted(spots, said["stitches"])
    k.in_table[said["n"]] = tuple(sorted(spots))
    if "places" in said:
        need("under" in k.notes, "left-out", "how deep to go under bound-off stitches is not said")
        k.orders.append((said["words"], along(said["list"], said["places"])))
    rows = said.get("rows", said.get("places"))
    if rows is not None:
        k.edge_rows.append((words, rows, "places" in said))
        if "places" not in said:
            k.note("rows alone", [*k.notes.get("rows alone", []), said["n"]])
    k.hung_counts.append((words, said["stitches"]))
    if "cm" in said:
        k.hung_lengths.append((words, said["stitches"], rows, said["cm"]))


def along(told: str, places: int) -> list[tuple[str, int]]:
    """Rows and stitches of an edge in the order in which they are listed, each with how many."""
    parts = [re.fullmatch(r"(\d+) (row|bound-off stitch)(?:s|es)?", part)
             for part in told.split(", ")]
    need(all(parts), "hanging", f"this cannot be read: {told!r}")
    found = [(part[2].removeprefix("bound-off "), int(part[1])) for part in parts if part]
    need(sum(count for _, count in found) == places, "hanging", f"these are not {places}")
    need(all(a != b for (a, _), (b, _) in pairwise(found)), "hanging", "rows follow rows")
    return found


def corners_closed(k: Knitter) -> None:
    """Where a side of rows meets the stitches that wait at the foot of its neck, so many edge
    stitches stand between as the side is hung in: a loop of the corner closes the hole (common
    practice, no source). A single stitch at the point of a V has its words there."""
    alone = k.notes.get("rows alone", [])
    for pair in pairwise(k.sections):
        for (side, called, _), (foot, waits, spots) in (pair, pair[::-1]):
            if side in alone and len(spots) > 1 and \
                    waits == f"{called.removesuffix(', side')}, waiting stitches":
                need(side in k.corners, "corners",
                     f"section {side} is hung in from the edge beside section {foot}, which "
                     "waits: what lies between is not said")


@act("hang_gaps")
def hang_gaps(k: Knitter, said: dict) -> None:
    """Waiting stitches on more needles than there are of them, the others filled from beside."""
    gaps = parse(said["needles2"])
    hang_part(k, {key: value for key, value in said.items() if key != "cm"})
    number = said["n"]
    k.in_table[number] = tuple(sorted(set(k.in_table[number]) - set(gaps)))
    counted(k.in_table[number], said["stitches2"])
    words = apart(said["words"])[1]
    k.edge_rows.append((words, said["stitches2"], True))
    if "cm" in said:
        k.hung_lengths.append((words, said["stitches2"], None, said["cm"]))


@act("hang_corner")
def hang_corner(k: Knitter, said: dict) -> None:
    number = k.notes["sections told"][-1] if k.notes.get("sections told") else 0
    k.note("corners told", k.notes.get("corners told", 0) + 1)
    need(k.corners.get(number) == place(said["needle"]), "range",
         "the step lifts that loop onto another needle")


@act("hang_seams")
def hang_seams(k: Knitter, said: dict) -> None:
    """Stitches that lie in seams hang with their neighbours, beside those of the section."""
    need(k.in_table, "out-of-place", "no section is told here")
    number = max(k.in_table)
    both = [place(said[key]) for key in ("needle", "needle2") if key in said]
    k.in_table[number] = tuple(sorted((*k.in_table[number], *both)))
    counted(both, said["n"])
    counted(k.in_table[number], said["stitches"])


def begin_table(k: Knitter, spots: list[int], stitches: int, rows: int) -> None:
    """A table begins: which needles, how many stitches and rows."""
    forward = k.notes.get("counted from") != "right"
    k.note("hanging", (sorted(spots, reverse=not forward), stitches, rows))
    k.note("order", None)
    k.note("order told", None)
    k.note("mixed", bool(re.search(r" places? \(", k.sentence)))


@act("take_listed")
def take_listed(k: Knitter, said: dict) -> None:
    groups: list[int] = []
    for part in re.split(r", (?![^(]*\))", said["list"]):
        match = re.fullmatch(r"(\d+)(?: \((\d+) times\))?|\((\d+), (\d+)\) (\d+) times", part)
        need(match, "hanging", f"this cannot be read: {part!r}")
        one, times, first, second, turns = match.groups()  # type: ignore[union-attr]
        groups += [int(one)] * int(times or 1) if one else [int(first), int(second)] * int(turns)
    need(not re.search(r"\b(\d+, \d+)(?:, \1){3}\b", said["list"]), "hanging",
         "two that take turns are told one by one")
    start = k.notes.get("start") if "section's start" not in k.sentence else "section's start"
    need(said["words"] == start, "end", "another end is named before")
    order(k, groups)


@act("take_rule")
def take_rule(k: Knitter, said: dict) -> None:
    need(said["n"] == said["n2"] == 1, "hanging", "one row is missed at a time")
    first, middle, last = groups(said)
    order(k, [first, *[middle] * said["times"], last])


@act("take_once")
def take_once(k: Knitter, said: dict) -> None:
    need(said["n"] == said["n2"] == 1, "hanging", "one row is missed at a time")
    order(k, groups(said))


@act("take_short")
def take_short(k: Knitter, said: dict) -> None:
    need(said["n"] == 1, "hanging", "one row is missed at a time")
    order(k, groups(said))


@act("take_all")
def take_all(k: Knitter, said: dict) -> None:
    order(k, [k.notes["hanging"][2]])


@act("take_twice")
def take_twice(k: Knitter, said: dict) -> None:
    _, stitches, rows = k.notes["hanging"]
    in_places(k)
    k.note("order told")
    need(rows + said["n"] == stitches, "hanging", f"{stitches - rows} are taken twice")


def groups(said: dict) -> list[int]:
    """How many rows, or places, a sentence counts, one group after the other."""
    return [count for key, count in said.items() if key.startswith(("rows", "places"))]


def in_places(k: Knitter) -> None:
    """Where stitches lie among the rows of an edge, what is taken and missed is a place."""
    need(("place" in k.sentence) == k.notes["mixed"], "hanging",
         "rows are places only where bound-off stitches lie among them")


def order(k: Knitter, groups: list[int]) -> None:
    """Groups of rows taken with one missed between: which row each stitch takes."""
    in_places(k)
    _, stitches, rows = k.notes["hanging"]
    taken, row = [], 1
    for group in groups:
        taken += range(row, row + group)
        row += group + 1
    k.note("order", taken)
    k.note("order told")
    need(len(taken) == stitches, "hanging", f"these are {len(taken)} rows, not {stitches}")
    need(taken[-1] == rows, "hanging", f"this ends at row {taken[-1]} of {rows}")


def table(k: Knitter, blocks: list[Block]) -> None:
    """A table of needles, places, rows and stitches."""
    mixed = k.notes["mixed"]
    need(not mixed or k.notes.get("numbered together"), "left-out",
         "that bound-off stitches are numbered with the rows is not said")
    need(blocks[0].cells == ("Needle", "Where", "Edge place" if mixed else "Edge row",
                             "Band stitch"), "table", "unknown columns")
    spots, stitches, rows = k.notes["hanging"]
    k.tables += 1
    k.attempt(lambda: need(k.notes.get("order told"), "left-out",
                           "in which order rows are taken is not said"))
    seen: list[tuple[int, int]] = []
    for line in blocks[1:]:
        k.sentence = line.text
        k.attempt(lambda line=line: one_line(k, line, spots, stitches, rows, seen))
    k.sentence = blocks[0].text
    taken = [number for number, _ in seen]
    need(taken and (taken[0], taken[-1]) == (1, stitches), "table", "an end is missing")
    need(taken == sorted(set(taken)), "table", "its lines are not in order")
    tens = set(range(10, stitches, 10))
    middles = {1, stitches, *tens}
    need(middles <= set(taken), "table", f"stitches {sorted(middles - set(taken))} are missing")


def one_line(k: Knitter, line: Block, spots: list[int], stitches: int, rows: int,
             seen: list[tuple[int, int]]) -> None:
    """One line of the table."""
    need(re.fullmatch(NAME, line.cells[0]), "table", "no needle")
    spot, where, row, number = (place(line.cells[0]), line.cells[1], int(line.cells[2]),
                                int(line.cells[3]))
    before = seen[-1] if seen else (0, 0)
    seen.append((number, row))
    need(1 <= number <= stitches and spots[number - 1] == spot, "table",
         f"stitch {number} is on another needle")
    taken = k.notes.get("order")
    if taken:
        need(taken[number - 1] == row, "table", f"stitch {number} takes row {taken[number - 1]}")
    else:
        exact = Fraction((number - 1) * (rows - 1), max(stitches - 1, 1)) + 1
        need(before[1] <= row <= rows and abs(row - exact) <= 1, "table",
             f"row {float(exact):.1f} is the even one")
    place_word(k, where, number, stitches, row, rows)


def place_word(k: Knitter, where: str, number: int, stitches: int, row: int, rows: int) -> None:
    """The word for a line's place: an end, the middle, a quarter, a tenth needle."""
    for word in where.split(" and "):
        part = {"middle": Fraction(1, 2), "¼": Fraction(1, 4), "¾": Fraction(3, 4)}.get(word)
        if part is not None:
            exact = 1 + part * (stitches - 1)
            need(abs(number - exact) <= 1, "table", f"the {word} is stitch {float(exact):.1f}")
        elif word == "between":
            need(number % 10 == 0 and 1 < number < stitches, "table", f"stitch {number} is marked")
        elif number == 1:
            need(not word[0].isdigit(), "table", f"the first stitch is no {word}")
        else:
            need(number == stitches or word in str(k.notes.get("start")) or
                 where.startswith("meeting"), "table", f"{word!r} is the end")


def every_needle(k: Knitter, text: str) -> None:
    """The list of every needle's row."""
    spots, stitches, rows = k.notes["hanging"]
    pairs = [part.split(": ") for part in text.split(", ")]
    need(len(pairs) == stitches, "list", f"{len(pairs)} needles of {stitches}")
    last = 0
    for spot, (name, row) in zip(spots, pairs, strict=True):
        need(place(name) == spot, "list", f"{name} is out of order")
        need(last <= int(row) <= last + 2 and int(row) <= rows, "list", f"row {row} on {name}")
        last = int(row)
    need(last == rows and int(pairs[0][1]) == 1, "list", "an end is missing")


__all__ = ["Wrong", "every_needle", "other", "table"]


@act("covered")
def covered(k: Knitter, said: dict) -> None:
    """What lies within a band belongs to the section whose table comes next."""
    need(k.notes.get("sections told"), "out-of-place", "no section is told here")

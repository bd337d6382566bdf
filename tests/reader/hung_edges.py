"""The edges that bands are hung on: their sections, counts and lengths, held to the workings."""

from __future__ import annotations

import re
from itertools import pairwise

from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.gauges import Gauge, of_piece
from tests.reader.knitter import Knitter
from tests.reader.page_parts import Reading


def sections_told(reading: Reading) -> None:
    """The workings' sum over a band's sections names them as the steps hang them."""
    group = reading.group("Calculations")
    title = ""
    for block in group.blocks() if group else ():
        if block.kind == "summary":
            title = block.text.removesuffix(": all its counts").split(": ")[0]
        if both := BOTH.match(block.text):
            attempt(reading, title, block.text, need, both[2] == both[3] and (
                (both[1] == "Edge") == (both[3] == "rows and stitches")), "working",
                "an edge with stitches has no rows alone")
        mine = [k for k in reading.knitters if k.title.split(",")[0] == title and k.hung_counts]
        if not mine or " part " in mine[0].title:
            continue
        k = mine[0]
        if match := OF_LEFT.match(block.text):
            left = next(k for k in mine if "left armhole" in k.title)
            attempt(reading, title, block.text, left_told, left, match[1], match[2])
        if block.text.startswith("Stitches of the band: ") and ") + " in block.text:
            if "so that" in block.text:
                continue
            told = [(words, int(count)) for count, words in
                    re.findall(r"(\d+) \(([^)]*)\)", block.text)]
            options = [o.hung_counts for o in mine]
            attempt(reading, title, block.text, need, told in options, "working",
                    f"the steps hang {k.hung_counts}")
        if EDGE.match(block.text) and "by sections" in block.text:
            whole = re.search(r"(?:rows|stitches): ([\d +]+) = ", block.text)
            told_rows = [int(one) for one in whole[1].split(" + ")] if whole else []
            rows = dict_of_rows(k)
            attempt(reading, title, block.text, need, told_rows == rows, "working",
                    f"the steps hang {rows}")


OF_LEFT = re.compile(r"(Rows of the edge|Edge|Stitches of the band), left armhole: "
                     r"\d+ [a-z ]+: (.*) = ")
EDGE = re.compile(r"(?:Rows of the edge|Edge)(?:, right armhole)?: ")
BOTH = re.compile(r"(Rows of the edge|Edge)(?:, [a-z ]+)?: \d+ ([a-z ]+): .* = \d+ ([a-z ]+),")


def left_told(k: Knitter, label: str, told: str) -> None:
    """The sum over the sections of a left armhole's band, where its rows are not the right's."""
    numbers = [int(one) for one in re.findall(r"\d+", told)]
    found = [count for _, count in k.hung_counts] if label.startswith("Stitches") else \
        dict_of_rows(k)
    need(numbers == found, "working", f"the steps hang {found}")


def beside_seams(reading: Reading) -> None:
    """The ends of an armhole band meet at the side seam: of what was bound off at an underarm the
    seam takes the outermost stitch, as of every row below, and the band all others (geometry)."""
    bound = {k.title: {rows[0] for side in SIDES if (rows := [
        count for _, at, way, count, _ in k.edges if (at, way) == (side, "bind off")])}
        for k in reading.knitters if not k.sections}
    for k in reading.knitters:
        under = [(words, count) for words, (_, count) in zip(
            k.called.values(), k.hung_counts, strict=False) if words.endswith(" underarm")]
        sewn = [words for words in k.notes.get("met", ()) if words.endswith(" underarm")]
        attempt(reading, k.title, "underarm", need, k.notes.get("seam's stitches", 0) == (
            len(under) or bool(sewn)), "seam", "which stitch the side seam takes is not said")
        for words, count in under:
            pieces = [offs for title, offs in bound.items() if words.split(" ")[0] in title.lower()]
            attempt(reading, k.title, words, need, any(count + 1 in offs for offs in pieces),
                    "seam", f"{count} are hung, and bound off were {pieces}")


SIDES = ("left", "right")
ALONG = re.compile(r"(?:(\d+(?:\.\d+)?) mm \(along|(\d+) rows × (\d+(?:\.\d+)?) mm a row)")


def hung_lengths(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """The length of each edge that is hung: as the working has it, or by the printed gauge."""
    group = reading.group("Calculations")
    worked: dict[tuple[str, str], str] = {}
    title = ""
    for block in group.blocks() if group else ():
        if block.kind == "summary":
            title = block.text.removesuffix(": all its counts")
        name, _, rest = block.text.partition(": ")
        worked.setdefault((title, name.lower()), rest)
    for k in reading.knitters:
        for words, stitches, rows, told in k.hung_lengths:
            attempt(reading, k.title, f"{words}, {told}", hung_length, gauge,
                    working_of(worked, k.title.split(",")[0], words, rows),
                    (words, stitches, rows), float(told.split(" ")[0]), held_line(reading, words))


def held_line(reading: Reading, words: str) -> tuple[int, ...]:
    """How many rows above its centre each stitch of a held neck of that name was held."""
    names = set(words.split(", waiting")[0].split())
    return next((k.notes["neck line"] for k in reading.knitters if "neck line" in k.notes  # type: ignore
                 and any(names <= set(label.replace(",", "").split()) for label in k.waiting)), ())


def along_steps(gauge: Gauge, rows: tuple[int, ...]) -> float:
    """The length [cm] of a held neck: of a step of up to four stitches, and of so many rows, along
    its corners (site: bands pull small steps smooth)."""
    total, sides = gauge.width(rows.count(0)), [r for r in rows if r]
    half = sorted(sides)[::2]  # both sides are alike
    at = 0
    for row in sorted(set(half)):
        stitches, up = half.count(row), row - at
        wide, high = gauge.width(stitches), gauge.height(up)
        total += 2 * ((wide ** 2 + high ** 2) ** 0.5 if max(stitches, up) <= 4 else wide + high)
        at = row
    return total


def working_of(worked: dict[tuple[str, str], str], title: str, words: str, rows: int | None) -> str:
    """The working of a section's stitches; where two of one name differ, of the one with its
    rows."""
    for name in (f"{words} of {rows} rows", f"{words} of {rows} rows and stitches", words):
        if (title, name) in worked:
            return worked[title, name]
    return "" if words else worked.get((title, "stitches of the band"), "")


def hung_length(gauge: dict[str, Gauge], working: str, section: tuple[str, int, int | None],
                told: float, held: tuple[int, ...] = ()) -> None:
    """One edge: its length [cm] against its working, or its stitches by the garment's gauge."""
    words, stitches, rows = section
    main = of_piece(gauge, next((piece for piece in ("back", "sleeve") if piece in words), "front"))
    name = words.removeprefix("end of the ")
    own = next((one for label, one in gauge.items() if name in label.lower()), main)
    if words in ("front edge", "hem", "rib", "end of the neckband", "end of the collar") and (
            rows and own):  # straight edges: rows at the height of the fabric they are knitted in
        need(abs(own.height(rows) - told) <= 0.07, "hung-length",
             f"{rows} rows are {own.height(rows):.1f} cm")
    match = ALONG.search(working)
    if match:
        exact = float(match[1] or 0) / 10 or int(match[2]) * float(match[3]) / 10
        need(abs(exact - told) <= 0.07, "hung-length", f"the working has {exact:.1f} cm")
    elif rows is None and main and "cord" not in words and "beside" not in words:
        exact = along_steps(main, held) if any(held) else main.width(stitches)
        need(abs(exact - told) <= 0.07, "hung-length", f"{stitches} stitches are {exact:.1f} cm")


def dict_of_rows(k: Knitter) -> list[int]:
    """The rows, or the waiting stitches, of each section that a band is hung on, in their order."""
    rows = list(k.edge_rows)
    out = []
    for words, count in k.hung_counts:
        if rows and rows[0][0] == words:
            out.append(rows.pop(0)[1])
        else:
            out.append(count)
    return out


def narrow_tops(reading: Reading) -> None:
    """Where a front is so narrow at its top that the seam lies as far in as a band is hung, the
    step says so: its rows, from the front as it was knitted."""
    fronts = [k for k in reading.knitters if not k.sections and "front" in k.title.lower()]
    tops = {tuple(k.bed.across) for k in fronts}
    for k in reading.knitters:
        for number, words, _ in k.sections:
            if words in ("front neck", "front neck, side") and number in k.deep:
                attempt(reading, k.title, f"section {number}, {words}", narrow_top, tops,
                        k.deep[number], k.narrow.get(number))


def narrow_top(tops: set[tuple[tuple[int, int], ...]], deep: int,
               told: tuple[int, int, int] | None) -> None:
    """One section hung so `deep` in: one stitch more lies in the seam at the other edge."""
    found = set()
    for across in tops:
        rows = [wide for count, wide in across for _ in range(count)]
        narrow = []
        while rows and rows[-1] <= deep + 1:
            narrow.append(rows.pop())
        found.add((len(narrow), min(narrow), max(narrow)) if narrow else None)
    need(told in found, "narrow", f"the fronts' tops are (rows, stitches) {found}")


NECK = re.compile(r"(right|left) (front|back) neck(?:, side)?")


def neck_orders(reading: Reading) -> None:
    """Rows and bound-off stitches of a neck's section lie as its piece was knitted. From the right
    front a band goes up to the shoulder, down to the back's middle, up again, and down the left
    front (geometry, no source): where it goes down, what was knitted last comes first."""
    for k in reading.knitters:
        for words, told in k.orders:
            attempt(reading, k.title, words, neck_order, reading, words, told)


def neck_order(reading: Reading, words: str, told: list[tuple[str, int]]) -> None:
    """One section of a neck."""
    match = NECK.fullmatch(words)
    need(match, "edge", "which edge it is cannot be told")
    up = (match[1] == "right") == (match[2] == "front")  # type: ignore[index]
    steps = told if up else told[::-1]
    while steps and steps[0][0] == "row":
        steps = steps[1:]
    want = [count for _, count in steps[:-1]] if steps[-1][0] == "row" else [
        count for _, count in steps]
    found = []
    for k in reading.knitters:
        if not k.sections and match[2] in k.title.lower():  # type: ignore[index]
            for side in ("left", "right"):
                off = [(e[3], e[4]) for e in k.edges if e[1:3] == (side, "bind off")]
                found.append([off[0][0]] if off else [])
                for (_, before), (stitches, row) in pairwise(off):
                    found[-1] += [row - before, stitches]
    need(any(fits(want, knitted) for knitted in found), "order",
         f"upward it is {steps}; bound off, with the rows between: {found}")


def fits(want: list[int], knitted: list[int]) -> bool:
    """Stitches with the rows between them, somewhere in what was knitted; of the first of them
    some can lie within another band."""
    return any(knitted[at] >= want[0] and knitted[at + 1:at + len(want)] == want[1:]
               for at in range(0, len(knitted), 2))


def points_told(reading: Reading) -> None:
    """Where the two sides of a V meet, the step says which loops lie beside the point."""
    for k in reading.knitters:
        names = [(words, len(part)) for _, words, part in k.sections]
        for at, (words, _) in enumerate(names):
            inner = [one for one in names[at + 1:at + 3] if one[0] == words == "front neck, side"]
            between = names[at + 1:at + 2] if inner and names[at + 1][0] != words else []
            if inner and all(count == 1 for _, count in between):
                attempt(reading, k.title, words, need, "point" in k.notes, "left-out",
                        "how the lines meet at the point of the V is not said")


def faced_tops(reading: Reading) -> None:
    """Where a neck's facing is turned in before the fronts get their bands, its ends lie behind
    their tops: the steps say which needles go through it too."""
    if not any(act == "turn_behind" for k in reading.knitters for act, _ in k.log):
        return
    for k in reading.knitters:
        acts = [act for act, _ in k.log]
        if "front" in k.title.lower() and any(
                act == "covered" and "rows" in said for act, said in k.log):
            attempt(reading, k.title, "hanging table", need, "through_facing" in acts,
                    "left-out", "the facing behind the top of the edge is not hung through")


def facings_joined(reading: Reading) -> None:
    """A facing in parts is sewn down when they are joined: each part's stitches but the one for
    the join, and at every corner of the whole edge."""
    whole = [k for k in reading.knitters if "facing" in k.title.lower() and ", part " in k.title]
    for first, last in pairwise(whole):
        acts = [act for act, _ in last.log]
        attempt(reading, last.title, "finishing", need, "left open" in first.notes
                and "turn_behind" not in acts and "join_part" in acts
                and acts.index("join_part") < acts.index("turn_parts"), "order",
                "a part is sewn down before it is joined")
        attempt(reading, last.title, "finishing", need, last.notes.get("parts sewn") == tuple(
            list(k.waiting.values())[-1] - len(k.notes["join needles"]) for k in (first, last)),
            "count", "of each part wait others, or the stitch for the join is sewn down")
        lifted = len(first.corners) + len(last.corners)
        attempt(reading, last.title, "finishing", need, last.notes.get("pinned", 0) == lifted,
                "corners", f"{lifted} loops of corners were lifted")


def mitre_rests(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """What the pairs of a mitre leave of a square corner's turn: the depth on either side, less a
    stitch for each pair."""
    for k in reading.knitters:
        if "rest" not in k.notes:
            continue
        own = next(one for label, one in gauge.items()
                   if k.title.split(",")[0].lower() in label.lower())
        acts = [act for act, _ in k.log]
        pairs = max(acts.count("mitre_close"), acts.count("mitre_open"))
        rows = (k.bed.counter or 0) // 2  # of two layers, less the row of the fold
        left = 2 * abs(own.height(rows) - own.width(pairs))
        attempt(reading, k.title, f"the rest of the turn, {k.notes['rest']}", need,
                abs(float(str(k.notes["rest"]).split(" ")[0]) - left) <= 0.1, "corners",
                f"{pairs} pairs in {rows} rows leave {left:.1f} cm")


def corner_stretches(reading: Reading, gauge: dict[str, Gauge]) -> None:
    """At a square corner a facing's line is longer by its depth on either side, less a stitch for
    every pair of a mitre."""
    group = reading.group("Calculations")
    depth: dict[str, float] = {}
    title = ""
    for block in group.blocks() if group else ():
        if block.kind == "summary":
            title = block.text.removesuffix(": all its counts")
        if match := re.match(r"Finished depth: [^:]*: .* = (\d+(?:\.\d+)?) mm", block.text):
            depth[title] = float(match[1])
    for k in reading.knitters:
        told = k.notes.get("stretch")
        if told is not None:
            deep = depth.get(k.title.split(",")[0], 0.0)
            pairs = [act for act, _ in k.log].count("mitre_open")
            own = next((one for label, one in gauge.items()
                        if k.title.split(",")[0].lower() in label.lower()), None)
            left = 2 * deep - (20 * own.width(pairs) if pairs and own else 0)
            attempt(reading, k.title, f"longer by {told}", need,
                    abs(float(str(told).split(" ")[0]) * 10 - left) <= 0.6, "corners",
                    f"the facing is {deep} mm deep, with {pairs} pairs in it")

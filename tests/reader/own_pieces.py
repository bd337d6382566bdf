"""Pages of the designer's own pieces: which copy a join takes, and bands whose two ends meet."""

from __future__ import annotations

import re
from itertools import pairwise

from tests.reader.bed import need
from tests.reader.facts import pairs_of
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter
from tests.reader.page_parts import Reading

FLAT = re.compile(r"Work the (.+?)( now)?, before any seam is sewn\.")
SEWN = re.compile(r"Sew the (\w+) (.+?) of (?:the|each) (.+?) to the (\w+) \2 of the (.+?), ")
MEET = re.compile(r"Sew the ends of (?:the|each) (.+?) to each other, "
                  r"(edge to edge(?:, layer to layer)?), with an end about (\d+) cm")
EDGE = re.compile(r"\w+ \w+ of (?:the|each) ([a-z0-9 ]+?)(?= to | and |,)")
CORNER = re.compile(r"Rows to the end of the (left|right) ([a-z ]+), (\d+) rows")
BAND_HEAD = re.compile(r"along the (left|right|upper|lower) edge of the ([a-z ]+)\. Begin with")
TWICE = re.compile(r"(.+), knitted twice")
HELD = re.compile(r"Of the (\d+) bound-off stitches the outermost lies in the seam of the "
                  r"[a-z ]+ too(?:: sew all, (\d+) are seen)?\.")
SPANS = re.compile(r"one stitch beyond the innermost(?: of the (\d+) bound-off stitches)?, to the "
                   r"seam of the [a-z ]+: it spans (\d+) stitches\.")
STAIRS = re.compile(r"Sew the (left|right) ([a-z ]+?) of (?:the|each) ([a-z ]+?) to the "
                    r"(left|right) ([a-z ]+?) of the (?:same )?([a-z ]+?), stitch to stitch")
CLOSED = {frozenset(("upper", "lower")): ("left", "right"),
          frozenset(("left", "right")): ("upper", "lower")}
HAND, ALONG = 15, 3  # cm of each tail; yarn for a length that is sewn (back-stitched.md)


def own_pieces(reading: Reading) -> None:
    """What is worked flat, what meets, and of which copy each edge is."""
    making = reading.making_up
    if making is None:
        return
    for number, words, _ in making.seams:
        attempt(reading, f"Making up, step {number}", words, worked_flat, reading, words)
    for k in reading.knitters:
        attempt(reading, k.title, "", ends_of, reading, making, k)
        attempt(reading, k.title, "", free_top, reading, making, k)
        attempt(reading, k.title, "", bare_above, reading, making, k)
        attempt(reading, "Schematic", k.title, corner_heights, reading, k)
    for number, words in making.notes.get("held ends", {}).items():
        attempt(reading, f"Making up, step {number}", words, ends_held, making, number, words)
    attempt(reading, "Making up", "", copies, reading, making)
    attempt(reading, "Making up", "", stairs, reading, making)
    attempt(reading, "Making up", "", need, ("own named" in making.notes) == (
        "own turned" in making.notes), "side", "how an edge lies with the knit side up is not said")
    around = "All round, where the side seams end" in pairs_of(reading.group("Finished measures"))
    attempt(reading, "Making up", "", need, around == ("own worn" in making.notes), "side",
            "two pieces sewn at both sides are worn, and others are not")
    attempt(reading, "Finished measures", "", as_knitted, reading)
    measured = pairs_of(reading.group("Finished measures"))
    for title in making.notes.get("folded", ()):  # type: ignore[attr-defined]
        attempt(reading, "Finished measures", title, need,
                f"{title}, depth when folded" in measured, "fact", "no depth when folded")


def corner_heights(reading: Reading, k: Knitter) -> None:
    """Between any two corners of an edge a row is as high as between the others; a printed height
    is off by half a millimetre at most. The drawing's list names no piece: one alone is held."""
    if sum(not one.sections for one in reading.knitters) > 1:
        return
    drawn, whole, title = {}, 0.0, k.title.split(",")[0]
    for block in reading.group("Schematic").blocks():  # type: ignore[union-attr]
        if found := re.match(r"(Height to the end of the|Whole height)([^:]*): ([\d.]+) cm",
                             block.text):
            drawn[found[2].strip()], whole = float(found[3]), float(found[3])
    rows = k.notes.get("rows of it", 0)
    for side, corners in k.notes.get("corners", {}).items():  # type: ignore[attr-defined]
        known = sorted([*((row, drawn[f"{side} {name}"]) for name, row in corners.items()
                          if f"{side} {name}" in drawn), (rows, whole)])
        for (a, low), (b, mid), (c, high) in zip(known, known[1:], known[2:], strict=False):
            off = abs((mid - low) * (c - a) - (high - low) * (b - a))
            need(off <= 0.1 * (c - a) + 0.01, "drawing",
                 f"{title}: {low}, {mid} and {high} cm at rows {a}, {b} and {c}")


def bare_above(reading: Reading, making: Knitter, k: Knitter) -> None:
    """A side that goes on above its last corner in no seam, and takes no band, is said to roll. Of
    one that is said to roll from its lower edge, no part is sewn or takes a band."""
    title, told, counts = k.title.split(",")[0], k.notes.get("bare above"), ""
    for block in reading.group("Calculations").blocks():  # type: ignore[union-attr]
        counts = block.text.removesuffix(": all its counts") if block.kind == "summary" else counts
        if counts == title and (rows := re.match(r"Rows, (\d+) rows", block.text)):
            k.note("rows of it", int(rows[1]))
        if counts == title and (corner := CORNER.match(block.text)):
            k.notes.setdefault("corners", {}).setdefault(  # type: ignore[attr-defined]
                corner[1], {})[corner[2]] = int(corner[3])
    sewn = " ".join(words for _, words, _ in making.seams) + " ".join(
        text for one in reading.knitters for text in _hung(one))
    bare: dict[int, list[str]] = {}
    for side, corners in k.notes.get("corners", {}).items():  # type: ignore[attr-defined]
        above = re.findall(rf"{side} ([a-z ]+?) of (?:the|each|the first) {title.lower()}\b", sewn)
        if set(above) <= set(corners) and max(corners.values()) < k.notes["rows of it"]:
            bare.setdefault(max(corners.values()), []).append(side)
    if told and told[0] == 0:  # type: ignore[index]
        bare[0] = [side for side in ("left", "right") if not re.search(
            rf"{side} [a-z ]+? of (?:the|each|the first) {title.lower()}\b", sewn)]
    need(list(bare.items()) == ([told] if told else []), "rolls", f"bare above a corner: {bare}")


def worked_flat(reading: Reading, words: str) -> None:
    """Bands are named each by its title, all of them: none is a choice."""
    if match := FLAT.match(words):
        titles = {k.title.split(",")[0].lower() for k in reading.knitters}
        told = match[1].lower().split(" and the ")
        need(match[2], "order", "when they are worked is not said")
        need(set(told) <= titles, "order", f"no section is called {sorted({*told} - titles)}")


def ends_of(reading: Reading, making: Knitter, k: Knitter) -> None:
    """A band along an edge whose two ends a seam joins: its ends are left open, and sewn in that
    step, after the seam; no other band's are."""
    name = k.title.split(",")[0].lower()
    closed = {step: edges for step, edges in _closing(making)
              if any(f"Hang the {edge}" in told for edge in edges for told in _hung(k))}
    sewn = [(step, match) for step, words, _ in making.seams
            if (match := MEET.match(words)) and match[1].lower() == name]
    need({step for step, _ in sewn} == set(list(closed)[:1]), "join",
         f"its ends meet in {sorted(closed)} and are sewn in {[step for step, _ in sewn]}")
    if closed:
        sides = {edge.split()[0] for edges in closed.values() for edge in edges}
        other = set().union(*CLOSED) - sides
        need(not other & set(name.split()), "join",
             f"the seam's edges are called {sorted(other)}, and so is this band")
        acts = [act for act, _ in k.log]
        need("shut" not in acts, "join", "its ends are shut before they meet")
        deep = float(pairs_of(reading.group("Finished measures"))[
            f"{k.title.split(',')[0]}, finished depth"].split(" cm")[0])
        layers = 2 if "layer to layer" in sewn[0][1][2] else 1
        least = ALONG * layers * deep + 2 * HAND
        need(least - 1 <= float(sewn[0][1][3]) < least + 6, "end", f"it takes {least:.0f} cm")


def _closing(making: Knitter) -> list[tuple[int, list[str]]]:
    """The steps that sew two opposite edges of one piece, with the edges that they make rings."""
    found = []
    for step, words, _ in making.seams:
        if (match := SEWN.match(words)) and match[2] == "edge":
            one, other = match[3], match[5]
            around = CLOSED.get(frozenset((match[1], match[4])))
            if around and one == other.replace("same ", ""):
                found.append((step, [f"{side} edge of the {one}" for side in around]))
    return found


def _hung(k: Knitter) -> list[str]:
    """What the band is hung on, as its sentence has it."""
    return [f"Hang the {said['words']} edge of the {said['words2']}" for act, said in k.log
            if act == "hang_edge" and "words2" in said]


def copies(reading: Reading, making: Knitter) -> None:
    """Of a piece that is knitted twice, no edge is sewn twice in the same words."""
    twice = {match[1].lower() for group in reading.groups
             if (match := TWICE.match(group.title))}
    edges = [match[0] for _, words, _ in making.seams if words.startswith("Sew the ")
             for match in EDGE.finditer(words) if match[1].split(" ")[-1] in twice]
    for one, other in pairwise(sorted(edges)):
        need(one != other, "join", f"{one} is sewn twice: of which copy?")


def free_top(reading: Reading, making: Knitter, k: Knitter) -> None:
    """The upper edge of an own piece that lies in no seam is bound off loosely, and no other."""
    own = any(" as knitted" in label for label in pairs_of(
        reading.group("Finished measures")))
    if not own or k.sections or k is making:
        return
    edge = re.compile(rf"upper edge of (?:the|each|the first) {k.title.split(',')[0].lower()}\b")
    sewn = any(edge.search(words) for _, words, _ in making.seams)
    need(k.notes.get("bound loosely", not sewn) != sewn, "edge",
         "an upper edge that lies in no seam must stretch, and no other")


def ends_held(making: Knitter, number: int, words: str) -> None:
    """How many of the stitches bound off are seen, and how many a seam spans: those of its join,
    one less for the stitch that the seam below holds, one more for that of the seam above."""
    lines = " ".join(line for step, line in making.joins if step == number)
    if match := HELD.search(words):
        bound, seen = int(match[1]), match[2]
        need(f"{bound} stitches" in lines, "join", f"{bound} stitches are not joined here")
        need(seen is None or int(seen) == bound - 1, "join", f"{bound - 1} are seen")
    if match := SPANS.search(words):
        held = HELD.search(words)
        bound = int(held[1] if held else match[1])
        need(int(match[2]) == bound + 1 - bool(held), "join", "it spans another number")


def stairs(reading: Reading, making: Knitter) -> None:
    """Two edges that are bound off step by step, and sewn to each other: how the seam goes on from
    step to step is said, and that the rows above the last one, up to the upper edge, are sewn too:
    else a slit stays open there."""
    pieces = {k.title.split(",")[0].lower(): k for k in reading.knitters if not k.sections}
    climbs, above = set(), {}
    for step, words, _ in making.seams:
        found = STAIRS.match(words)
        edges = [found.group(1, 2, 3), found.group(4, 5, 6)] if found else []
        lines = " ".join(line for number, line in making.joins if number == step)
        count = re.search(r"(\d+) stitches on either side", lines)
        if not count or any(name == "edge" for _, name, _ in edges):
            continue
        for side, name, piece in edges:
            off, rest = [], int(count[1])
            for event in reversed([e for e in pieces[piece].edges
                                   if e[1:3] == (side, "bind off")]):
                if rest > 0:
                    off.insert(0, event[4])
                    rest -= event[3]
            climbs |= {(len(off), off[1] - off[0])} if off[1:] else set()
            rows = pieces[piece].bed.done[-1][-1] - off[-1]
            above.setdefault(step, {})[f"{side} {name} of the {piece}"] = rows
    need(climbs <= {making.notes.get("steps climb")}, "left-out",
         f"how the seam goes on from step to step is not said: {climbs}")
    told = making.notes.get("rows above", {})
    need(told == {step: rows for step, rows in above.items() if any(rows.values())}, "left-out",
         f"the rows above bound-off stitches are {above}, and told are {told}")


def as_knitted(reading: Reading) -> None:
    """How wide and how high a piece was knitted is no finished measure: it may be sewn round."""
    titles = {k.title.split(",")[0].lower() for k in reading.knitters}
    text = " ".join(b.text for g in reading.groups for b in g.blocks())
    banded = {(title, "width" if side in ("left", "right") else "length")
              for side, title in BAND_HEAD.findall(text)}
    for label in pairs_of(reading.group("Finished measures")):
        match = re.fullmatch(r"Finished (.+) (?:width|height)", label)
        need(not match or match[1].lower() not in titles, "fact", f"{label} is as it was knitted")
        own = re.fullmatch(r"(.+), (width|length) .*?as knitted(?:, without seam stitches)?"
                           r"(, without its bands)?", label)
        need(not own or own[2] == "width" or ", without seam stitches" not in label, "fact",
             f"{label}: a seam takes no stitch of a length")
        need(not own or bool(own[3]) == ((own[1].lower(), own[2]) in banded), "fact",
             f"{label}: a band on that edge comes to it, and no other does")

"""Which part of a garment comes first at the left end of the bed: from geometry, not from words.

Axes of a garment as worn: x to the wearer's left, y up, z forward. A panel faces away from the
body (front +z, back -z). Its edge hangs on the needles, the fabric below it. Who sees the wrong
side looks along the panel's facing, with the edge uppermost; so right on the bed is the cross
product of facing and edge. Whichever end is passed first on the way along the edge to the right
is the left one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from tests.reader.bed import need
from tests.reader.garment_parts import attempt
from tests.reader.knitter import Knitter
from tests.reader.page_parts import Reading

Vector = tuple[int, int, int]
LEFT: Vector = (1, 0, 0)
UP: Vector = (0, 1, 0)
FRONT: Vector = (0, 0, 1)
OPENS = re.compile(r"(\w+), from the (left|right) (shoulder|strap|sleeve|side seam) round the "
                   r"(front|back)\.")
SIDE = re.compile(r"\b(right|left)\b")
# A section is called by where it lies on the wearer, where another has its name.
CALLED = re.compile(r"(right|left|inner|outer|back(?= armhole| underarm)|"
                    r"front(?= armhole| underarm)) (?!band\b)(.+)")


def brims(reading: Reading) -> None:
    """Inside a turned brim a hem's inner layer shows; the purl side too where more is turned up
    than the hem is deep, by half a centimetre at least (common practice, no source)."""
    steps = " ".join(b.text for g in reading.groups for p in g.parts for s in p.steps
                     for b in s.blocks)
    turned = re.search(r"Turn the lower edge up by (\d+(?:\.\d+)?) cm", steps)
    every = " ".join(b.text for g in reading.groups for b in g.blocks())
    hem = re.search(r"Hem depth: (\d+(?:\.\d+)?) cm", every)
    if turned and hem:
        more = float(turned[1]) - float(hem[1])
        inner = "the hem's inner layer, knit side out"
        shows = [f"at its top {inner}, below it the purl side"] * (more > 0.4) + \
            [inner] * (more < 0.6)
        need(any(f"when the brim is turned up: {each}." in steps for each in shows), "hem",
             f"{turned[1]} cm of a hem of {hem[1]} cm are turned up")


def minus(one: Vector) -> Vector:
    return (-one[0], -one[1], -one[2])


def cross(a: Vector, b: Vector) -> Vector:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def left_end(faces: Vector, edge: Vector, along: Vector, shown: str) -> str:
    """Where the end lies from which the edge goes `along`, that side of the fabric `shown`."""
    right = cross(faces if shown == "wrong" else minus(faces), edge)
    way = sum(a * b for a, b in zip(right, along, strict=True))
    assert way in (1, -1), "the edge goes along the bed"
    return "left" if way == 1 else "right"


def apart(words: str) -> tuple[str, str]:
    """Where a section lies, "" where that is not said, and its name without it."""
    match = CALLED.fullmatch(words)
    return (match[1], match[2]) if match else ("", words)


def sides(reading: Reading) -> None:
    """Of two sections of one name that comes first which lies where the band begins."""
    bands: dict[str, list[Knitter]] = {}
    for k in reading.knitters:
        if k.sections:
            bands.setdefault(re.sub(r", part \d+ of \d+|, part \d+", "", k.title), []).append(k)
    for title, parts in bands.items():
        met: dict[str, list[str]] = {}
        for k in parts:
            for words in k.called.values():
                side, name = apart(words)
                met.setdefault(name, []).append(side)
        for name, found in met.items():
            if len(found) > 1 or found[0]:
                attempt(reading, title, name, in_turn, parts[0], name, found)


def in_turn(k: Knitter, name: str, found: list[str]) -> None:
    """Where the first and the second section of a name lie."""
    words = str(k.notes.get("first end", ("", ""))[0])
    ends = {"back's underarm": ["back", "front"], "end at the wearer's left": ["left", "right"],
            "end towards the middle of the front": ["inner", "outer"]}
    opens = OPENS.search(str(k.notes.get("around", "")))
    first = "right"
    if opens:
        first = {"left": "right", "right": "left"}[opens[2]] if name.startswith("back") else \
            opens[2]
    two = ends.get(words, [first, {"left": "right", "right": "left"}[first]])
    need(found == two, "lies", f"two sections are called so, as {found}, and lie {two}")


def first_parts(reading: Reading) -> None:
    """The end that is said to lie on a side does, for every edge whose lie can be worked out."""
    around: dict[str, object] = {}
    for k in reading.knitters:
        if k.sections and "first end" in k.notes:
            said = around.setdefault(k.title.split(",")[0], k.notes.get("around"))
            k.notes.setdefault("around", said)  # what part 1 says of the whole edge
            attempt(reading, k.title, "its first end", lies, k)
        if "own edge" in k.notes:
            attempt(reading, k.title, "its first end", own_lies, k)


def own_lies(k: Knitter) -> None:
    """A band on an edge of a piece that hangs as it was knitted, turned to that edge: its first end
    is named by the piece, and lies where that end does."""
    words, side = k.notes["first end"]
    right = cross(FRONT, UP)  # on the bed, the purl side towards the knitter
    edge = {"left": minus(right), "right": right, "upper": UP, "lower": minus(UP)}[
        str(k.notes["own edge"])]
    away = {"lower end": UP, "upper end": minus(UP), "left end": right, "right end": minus(right)}
    need(words in away, "end", f"which end of the edge the {words} is is not said")
    need(side == left_end(FRONT, edge, away[words], str(k.notes.get("shown", "wrong"))), "lies",
         f"the {words} of that edge lies on the other side")


def lies(k: Knitter) -> None:
    """One band: from every lie that its words allow, the same side."""
    words, side = k.notes["first end"]
    shown = str(k.notes.get("shown", "wrong"))
    found = {left_end(*lie, shown) for lie in _lies(k, words, k.sections[0][1])}
    need(found <= {side}, "lies", f"the {words} lies on the {found}, {shown} side towards you")


def _lies(k: Knitter, words: str, section: str) -> Iterator[tuple[Vector, Vector, Vector]]:
    """Facing, edge and way of the first section from its named end, where the words tell."""
    title = SIDE.search(k.title) or SIDE.search(words)
    hand = {"right": minus(LEFT), "left": LEFT}[title[1]] if title else None
    opens = OPENS.search(str(k.notes.get("around", "")))
    if opens and words != "centre back":
        edge = minus(UP) if opens[3] == "side seam" else UP
        meets = re.fullmatch(r"meeting of (?:front|back)[^.]* and (front|back)[^.]*", words)
        panel = meets[1] if meets else opens[4]
        away = minus(LEFT) if opens[2] == "left" else LEFT
        yield (FRONT if panel == "front" else minus(FRONT), edge,
               away if panel == opens[4] else minus(away))
        if section.split(" ")[0] in ("front", "back"):
            need(section.startswith(panel), "lies", f"first comes {section}")
    if hand and words.endswith("front's end"):
        yield FRONT, UP, hand
    if hand and words.endswith(("hem", "foot")):
        yield FRONT, minus(hand), UP
    if hand and words.endswith("underarm"):
        yield FRONT if words.startswith("front") else minus(FRONT), hand, UP
    if hand and words == "end towards the middle of the front":
        yield FRONT, UP, hand
    if words == "centre back":
        yield minus(FRONT), UP, LEFT

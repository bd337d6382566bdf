"""Reads sentences.txt, the one table of sentences, and finds what a sentence says.

A line is `act = pattern`. In a pattern `[...]` may be missing, and `{...}` is a slot:
`{n}` a number, `{rc}` a number of the row counter, `{#row}` a counted noun ("1 row", "8 rows"),
`{side}` left or right, `{needle}` one needle, `{needles}` words that name needles, `{dial}` a
setting, `{cm}` a length, `{words}` words without a number, `{name}` a name (numbers allowed),
`{numbers}` a list of numbers, `{schedule}` the rows of a shaping. A slot met twice is numbered.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.reader import needles

TABLE = Path(__file__).with_name("sentences.txt")
SLOT = re.compile(r"\{(#?)([a-z_]+)\}|(\[)|(\])")
SHAPES = {
    "n": r"\d+", "rc": r"\d+", "side": r"left|right", "needle": needles.NAME,
    "needles": r"(?:[LR]\d|every [a-z0-9]+ needle|\d+ of every \d)[^:;]*?",
    "dial": r"\d+(?:\.\d)?(?: \([^)]*\))?", "cm": r"\d+(?:\.\d+)? cm(?: \([^)]*\))?",
    "words": r"[^\d.;()]*?", "name": r"[^.;()]*?", "numbers": r"\d+(?:, \d+)*(?: and \d+)?",
    "schedule": r"when the row counter .*?", "nth": r"\d+(?:st|nd|rd|th)",
    "list": r"[\d(].*?", "yarn": r"[a-z]+ (?:yarn|cord)",
}
NOTED: ContextVar[set[int] | None] = ContextVar("NOTED", default=None)
PLURALS = {"loop": "loops", "stitch": "stitches", "inch": "inches"}


class Unknown(ValueError):
    """A sentence that the table does not know."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the table: its act, its pattern as written and compiled, the slots it has."""

    act: str
    pattern: str
    regex: re.Pattern[str]
    slots: tuple[tuple[str, str], ...]
    place: int


@dataclass(frozen=True, slots=True)
class Said:
    """What a sentence says: its act, what stood in its slots, and the line that knew it."""

    act: str
    slots: dict[str, object]
    line: Line


def plural(noun: str) -> str:
    """The plural of a noun that pages count."""
    return PLURALS.get(noun) or noun + "s"


def _compiled(act: str, pattern: str, place: int) -> Line:
    out, slots, at = [], [], 0
    seen: dict[str, int] = {}
    for match in SLOT.finditer(pattern):
        out.append(re.escape(pattern[at:match.start()]))
        at = match.end()
        if match[3]:
            out.append("(?:")
        elif match[4]:
            out.append(")?")
        else:
            kind = match[2]
            key = (plural(kind) if kind != "needle" else "needles_count") if match[1] else kind
            seen[key] = seen.get(key, 0) + 1
            key += str(seen[key]) if seen[key] > 1 else ""
            slots.append((key, "#" if match[1] else kind))
            if match[1]:
                noun, many = kind.replace("_", " "), plural(kind).replace("_", " ")
                out.append(rf"(1 {noun}|(?!1 )\d+ {many})")
            else:
                out.append(f"({SHAPES[kind]})")
    out.append(re.escape(pattern[at:]))
    return Line(act, pattern, re.compile("".join(out)), tuple(slots), place)


@cache
def table() -> tuple[Line, ...]:
    """Every line of the table, in its order."""
    lines = []
    for place, text in enumerate(TABLE.read_text("utf-8").splitlines(), 1):
        if not text.strip() or text.startswith("#"):
            continue
        act, sign, pattern = text.partition(" = ")
        if not sign:
            raise ValueError(f"{TABLE.name}:{place}: no act and pattern: {text!r}")
        lines.append(_compiled(act.strip(), pattern.strip(), place))
    return tuple(lines)


@cache
def _by_start() -> dict[str, list[Line]]:
    starts: dict[str, list[Line]] = {}
    for line in table():
        first = re.match(r"[A-Za-z(]+[a-z)]*(?= )", line.pattern)
        starts.setdefault(first[0] if first else "", []).append(line)
    return starts


@contextmanager
def noting() -> Iterator[set[int]]:
    """The places of the lines by which sentences are read while this is open, and only then."""
    met: set[int] = set()
    before = NOTED.set(met)
    try:
        yield met
    finally:
        NOTED.reset(before)


def read(sentence: str) -> Said:
    """What a sentence says; raises Unknown where no line of the table fits it."""
    said = _read(sentence)
    if (met := NOTED.get()) is not None:
        met.add(said.line.place)
    return said


@cache
def _read(sentence: str) -> Said:
    if re.search(r"\bneedles (every|\d+ of every)\b", sentence):
        raise Unknown(sentence)  # the noun is said twice
    first = sentence.split(" ", 1)[0]
    starts = _by_start()
    for line in starts.get(first, []) + starts.get("", []):
        match = line.regex.fullmatch(sentence)
        if match:
            return Said(line.act, {key: _value(kind, given) for (key, kind), given in
                                   zip(line.slots, match.groups(), strict=True)
                                   if given is not None}, line)
    raise Unknown(sentence)


def _value(kind: str, given: str) -> object:
    if kind in ("n", "rc"):
        return int(given)
    if kind == "#":
        return int(given.split(" ", 1)[0])
    if kind == "numbers":
        return [int(one) for one in re.findall(r"\d+", given)]
    if kind == "nth":
        return ordinal(given)
    return given


def ordinal(word: str) -> int:
    """The number of 1st, 2nd, 3rd, 11th; raises Unknown for a wrong ending."""
    number = int(word[:-2])
    ending = "th" if number % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(
        number % 10, "th")
    if word[-2:] != ending:
        raise Unknown(word)
    return number


SENTENCE_END = re.compile(r"(?:(?<=[.?!])|(?<=\(how to hold\))|(?<=\(how to decrease\))|"
                          r"(?<=\(how to work a dart\)))\s+(?=[A-Z(0-9])")
HOW = re.compile(r"(?<=[.):a-z])\s+(?=(?:How to|About) [a-z])|(?<=About ribs on two beds)\s+")


def sentences(words: str) -> list[str]:
    """The sentences of a paragraph; links at its end ("How to hang an edge") stand alone."""
    out: list[str] = []
    for piece in SENTENCE_END.split(words):
        out.extend(HOW.split(piece))
    return out

"""Needles by name (L12, R3) as whole numbers along the bed, and the ways a page names many.

Needles are counted from the centre and there is no needle 0 (site_src/reading.md), so L1 is −1 and
R1 is 0: neighbours differ by one.
"""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

NAME = r"[LR]\d+"
SPAN = re.compile(rf"({NAME}) to ({NAME})")
STRETCH = re.compile(rf"({NAME})(?:–({NAME}))?")
EVERY = re.compile(
    rf"(?:every (other|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth"
    rf"|\d+th) needle|(?:the first )?(\d+) of every (\d+) needles) from ({NAME}) to ({NAME})"
    r"(?: \(([^)]*)\))?")
ORDER = {"other": 2, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6,
         "seventh": 7, "eighth": 8, "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12}


class Unclear(ValueError):
    """Words about needles that cannot be read, or that contradict themselves."""


def place(name: str) -> int:
    """Where a needle is along the bed: L1 is −1, R1 is 0."""
    number = int(name[1:])
    if number == 0:
        raise Unclear(f"there is no needle {name}")
    return -number if name[0] == "L" else number - 1


def name(spot: int) -> str:
    """What a place along the bed is called."""
    return f"L{-spot}" if spot < 0 else f"R{spot + 1}"


def span(first: str, last: str) -> tuple[int, ...]:
    """Every needle from one to another, in the order in which they are named."""
    a, b = place(first), place(last)
    return tuple(range(a, b + 1)) if a <= b else tuple(range(a, b - 1, -1))


def rising(words: str) -> tuple[int, ...]:
    """The needles that words name, which pages name from left to right."""
    spots = parse(words)
    if list(spots) != sorted(spots):
        raise Unclear(f"not from left to right: {words!r}")
    return spots


def spoken(spots: list[int] | tuple[int, ...] | set[int]) -> str:
    """Needles as ranges, for a finding."""
    if not spots:
        return "none"
    out: list[str] = []
    first, *rest = sorted(spots)
    last = first
    for spot in [*rest, None]:
        if spot is not None and spot == last + 1:
            last = spot
            continue
        out.append(name(first) if first == last else f"{name(first)} to {name(last)}")
        first = last = spot
    return ", ".join(out)


@cache
def parse(words: str) -> tuple[int, ...]:
    """The needles that words name, in their order.

    Raises Unclear where a word is left that is no needle, where a needle is named twice, or where
    the example in brackets is not what the rule before it gives.
    """
    words = words.strip()
    whole = EVERY.fullmatch(words)
    if whole:
        return _every(whole)
    if EVERY.search(words):
        return _several(words)
    if re.search(r"\d of|every|and so on", words):
        return _listed(words)
    spots: list[int] = []
    for part in re.split(r", then |, and |, | and ", words):
        whole = SPAN.fullmatch(part)
        if whole:
            spots.extend(span(whole[1], whole[2]))
        elif re.fullmatch(NAME, part):
            spots.append(place(part))
        else:
            raise Unclear(f"these are no needles: {part!r}")
    if len(set(spots)) != len(spots):
        raise Unclear(f"a needle is named twice in {words!r}")
    return tuple(spots)


def _several(words: str) -> tuple[int, ...]:
    """Rules and ranges side by side: "every other needle from L9 to L3 and R2"."""
    spots: list[int] = []
    while words:
        whole = EVERY.match(words) or SPAN.match(words) or re.match(NAME, words)
        if not whole:
            raise Unclear(f"these are no needles: {words!r}")
        spots.extend(_every(whole) if whole.re is EVERY else parse(whole[0]))
        words = words[whole.end():]
        link = re.match(r", | and ", words)
        if words and not link:
            raise Unclear(f"these are no needles: {words!r}")
        words = words[link.end():] if link else ""
    if len(set(spots)) != len(spots):
        raise Unclear(f"a needle is named twice in {words!r}")
    return tuple(spots)


def _every(match: re.Match[str]) -> tuple[int, ...]:
    word, taken, of, first, last, example = match.groups()
    step = int(of) if of else ORDER.get(word) or int(word.removesuffix("th"))
    width = int(taken) if taken else 1
    start, end = place(first), place(last)
    if end < start or width >= step:
        raise Unclear(f"a rule that names no needles: {match[0]!r}")
    spots = tuple(spot for spot in range(start, end + 1) if (spot - start) % step < width)
    if spots[-1] != end and width == 1:
        raise Unclear(f"{last} is not one of them: {match[0]!r}")
    if (end - start) % step >= width:
        raise Unclear(f"{last} is not one of them: {match[0]!r}")
    if example:
        try:
            listed = _listed(example)
            if list(listed) != sorted(listed):
                raise Unclear(f"not from left to right: {example!r}")
            shown = set(listed)
        except _Open as left_open:
            shown = set(left_open.spots) | set(range(left_open.start, end + 1, left_open.step))
        if shown != set(spots):
            raise Unclear(f"the needles in brackets are not those of the rule: {match[0]!r}")
    return spots


def _listed(words: str) -> tuple[int, ...]:
    """A list with "and so on to": L31, L29 and so on to L1, then R2, R4 and so on to R30."""
    spots: list[int] = []
    open_step: tuple[int, int] | None = None
    for half in words.split(", then "):
        parts = re.split(r" and so on", half)
        heads = [_stretch(one) for one in re.split(r", | and ", parts[0])]
        if len(parts) == 1:
            spots.extend(spot for head in heads for spot in head)
            continue
        if len(heads) < 2:
            raise Unclear(f"no step can be read from {half!r}")
        step = heads[1][0] - heads[0][0]
        width = len(heads[0])
        if step <= 0 or any(len(h) != width for h in heads):
            raise Unclear(f"no step can be read from {half!r}")
        if any(b[0] - a[0] != step for a, b in pairwise(heads)):
            raise Unclear(f"the needles named are not evenly spaced: {half!r}")
        if parts[1].strip() == "to":
            raise Unclear(f"its last needle is not named: {half!r}")
        tail = parts[1].removeprefix(" to ")
        if not tail:
            open_step = (heads[0][0], step)
            spots.extend(spot for head in heads for spot in head)
            continue
        end = _stretch(tail)
        if (end[0] - heads[0][0]) % step or len(end) > width:
            raise Unclear(f"{tail} is not one of {half!r}")
        for start in range(heads[0][0], end[0], step):
            spots.extend(range(start, start + width))
        spots.extend(end)
    if open_step:
        raise _Open(tuple(spots), *open_step)
    return tuple(spots)


class _Open(Unclear):
    """A list that leaves its end open: its first needles, where the last part begins, its step."""

    def __init__(self, spots: tuple[int, ...], start: int, step: int) -> None:
        super().__init__("a list without an end")
        self.spots, self.start, self.step = spots, start, step


def _stretch(words: str) -> tuple[int, ...]:
    match = STRETCH.fullmatch(words.strip())
    if not match:
        raise Unclear(f"these are no needles: {words!r}")
    return span(match[1], match[2] or match[1])

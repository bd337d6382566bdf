"""Reads the needles that words name, by a parser that shares nothing with what writes them.

The rule is the one that site_src/reading.md gives the knitter: needles are counted from the centre,
there is no needle 0, and L1 and R1 are neighbours. What stands in brackets behind a rule is read
too, and has to say the same needles as the rule.
"""

from __future__ import annotations

import re

from walebook.machine.needles import Needle, Needles, of

ORDINALS = {"other": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7,
            "eighth": 8, "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12}
RULE = re.compile(r"(?:every (?P<nth>[a-z]+) needle|(?P<size>\d+) of every (?P<of>\d+) needles)"
                  r" from (?P<first>[LR]\d+) to (?P<last>[LR]\d+)(?: \((?P<shown>[^)]*)\))?")
GROUP = re.compile(r"([LR]\d+)(?:(?: to |–)([LR]\d+))?")


def place(name: str) -> int:
    """L1 is −1, R1 is 0."""
    number = int(name[1:])
    assert number > 0, f"there is no needle {name}"
    return -number if name[0] == "L" else number - 1


def group(words: str) -> list[int]:
    """ "L5", "L5 to L3", "L5–L3": from left to right."""
    found = GROUP.fullmatch(words)
    assert found, f"no needles: {words!r}"
    first = place(found[1])
    last = place(found[2]) if found[2] else first
    assert first < last or not found[2], f"not from left to right: {words!r}"
    return list(range(first, last + 1))


def shown(words: str) -> list[int]:
    """The example behind a rule: "L9, L7 and so on to L1, then R2, R4 and so on to R8"."""
    out: list[int] = []
    for half in words.split(", then "):
        begun, so_on, end = half.partition(" and so on to ")
        groups = [group(one) for one in begun.split(", ")]
        if so_on:
            first, second = groups
            assert len(first) == len(second), f"groups that are not alike: {words!r}"
            last, by = group(end), second[0] - first[0]
            assert len(last) == len(first)
            assert (last[0] - first[0]) % by == 0, f"{end} is none of them: {words!r}"
            groups = [[p + n for n in range(len(first))]
                      for p in range(first[0], last[0] + 1, by)]
        out += [p for one in groups for p in one]
    return out


def rule(found: re.Match[str]) -> list[int]:
    """ "every third needle from L9 to R7", "2 of every 3 needles from L9 to R8"."""
    size, by = int(found["size"] or 1), int(found["of"] or 0) or ORDINALS[found["nth"]]
    first, last = place(found["first"]), place(found["last"])
    out = [p + n for p in range(first, last + 1, by) for n in range(size)]
    assert out[-1] == last, f"{found['last']} is none of them: {found[0]!r}"
    if found["shown"]:
        assert shown(found["shown"]) == out, f"the brackets say other needles: {found[0]!r}"
    return out


def read(words: str) -> Needles:
    """The needles that words name, each once and from left to right."""
    out: list[int] = []
    at = 0
    while at < len(words):
        found = RULE.match(words, at) or GROUP.match(words, at)
        assert found, f"no needles: {words[at:]!r}"
        out += rule(found) if found.re is RULE else group(found[0])
        at = found.end()
        between = re.compile(r", | and |$").match(words, at)
        assert between, f"left over: {words[at:]!r}"
        at = between.end()
    assert out == sorted(set(out)), f"twice, or out of order: {words!r}"
    return of(*(Needle(p) for p in out))

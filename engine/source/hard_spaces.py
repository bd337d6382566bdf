"""Spaces in a source that are none to YAML: they look like a space, and are read as a letter."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TypeAlias, TypeVar

from ..core.problems import Place, Problem, Severity, error, has_errors, in_order
from ..core.text import clip

T = TypeVar("T")
Read: TypeAlias = "tuple[T | None, tuple[Problem, ...]]"

HARD = re.compile("[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]")
_BEFORE, _BEHIND = re.compile(r"[^\s,{}\[\]]*\Z"), re.compile(r"[^\s,{}\[\]]*")


def with_plain_spaces(texts: Mapping[str, str],
                      read: Callable[[Mapping[str, str]], Read[T]]) -> Read[T]:
    """Return what `read` makes of texts, by their files, and what it finds.

    An error that plain spaces would mend is said as what it is: a space of another kind, and where
    it stands. The findings are then those that are left with plain spaces.
    """
    made, found = read(texts)
    if not has_errors(found) or not any(map(HARD.search, texts.values())):
        return made, found
    _, others = read({file: HARD.sub(" ", text) for file, text in texts.items()})
    left = {_without_spaces(problem) for problem in others}
    mended = [p for p in found if p.severity is Severity.ERROR and _without_spaces(p) not in left]
    spaces = dict.fromkeys(place for p in mended if (place := _nearest(p.place, texts)))
    if not spaces:
        return made, found
    return None, in_order([*(_finding(place, texts[place.file]) for place in spaces), *others])


def _without_spaces(problem: Problem) -> tuple[str, Place, str]:
    return problem.code, problem.place, HARD.sub(" ", problem.found)


def _nearest(place: Place, texts: Mapping[str, str]) -> Place | None:
    """The hard space that an error at `place` is owed to: the next on its line, or else the last
    before it."""
    lines = texts.get(place.file, "").splitlines()[:place.line]
    for number in range(len(lines), 0, -1):
        found = list(HARD.finditer(lines[number - 1]))
        behind = [one for one in found if number == place.line and one.start() + 1 >= place.column]
        if found:
            one = behind[0] if behind else found[-1]
            return Place(place.file, number, one.start() + 1)
    return None


def _finding(place: Place, text: str) -> Problem:
    line = text.splitlines()[place.line - 1]
    hard = line[place.column - 1]
    before = _BEFORE.search(line[:place.column - 1])
    behind = _BEHIND.match(line[place.column:])
    ends = [f'"{clip(each[0])}"' if each and each[0] else "" for each in (before, behind)]
    where = f" between {ends[0]} and {ends[1]}" if all(ends) else \
        f" behind {ends[0]}" if ends[0] else f" before {ends[1]}" if ends[1] else ""
    what = "a no-break space" if hard in "\u00a0\u202f" else "a space of another width"
    return error("hard-space", place, found=f"{what} (U+{ord(hard):04X}){where}",
                 expected="a plain space, which looks the same",
                 remedy="Delete it, and press the space bar.")

"""The report of what differs between two states of a pattern, in words that can be kept as data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from difflib import SequenceMatcher
from enum import Enum
from typing import Any

from ..machine.records import dataclass


class PatternState(Enum):
    """What became of a pattern from one side to the other."""

    SAME = "same"
    CHANGED = "changed"
    NEW = "new"
    GONE = "gone"
    BROKEN_BEFORE = "not knitted before"
    BROKEN_AFTER = "not knitted after"
    BROKEN = "not knitted on either side"


@dataclass(frozen=True, slots=True)
class MovedInput:
    """A value of a source that moved: its file, key and place, and its texts, "" where none is."""

    file: str
    key: str
    line: int
    column: int
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class MovedStep:
    """A step whose text differs; number 0 and no text on the side that has no such step."""

    number_before: int
    before: str
    number_after: int
    after: str


@dataclass(frozen=True, slots=True)
class Changed:
    """A fact that is another one, in the `size` or, with "", in all.

    `place` is the key of its piece, band or yarn, `title` what that is called. `name` is "" where
    all of a size, piece or band is new or gone, with `many` counts. `causes` are numbers of the
    report's inputs, from 0, and `path` what moved in its expression, from the count to the input.
    `steps` are those whose text differs, where the report has steps.
    """

    size: str
    kind: str
    place: str
    title: str
    name: str
    before: str
    after: str
    many: int = 1
    causes: tuple[int, ...] = ()
    path: tuple[str, ...] = ()
    steps: tuple[MovedStep, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What differs between two states of a pattern.

    `sizes` are those of the side after, `renamed` pairs of a size's former name and its new one.
    `unknown` are the kinds of facts that one side does not have. `former` is another name that the
    pattern's folder had. `errors` are findings that kept a side from being knitted. With
    `by_engine` the sources are the same, and the engines are compared.
    """

    slug: str
    title: str
    state: PatternState
    version_before: str = ""
    version_after: str = ""
    sizes: tuple[str, ...] = ()
    renamed: tuple[tuple[str, str], ...] = ()
    inputs: tuple[MovedInput, ...] = ()
    changes: tuple[Changed, ...] = ()
    unknown: tuple[str, ...] = ()
    former: str = ""
    errors: tuple[str, ...] = ()
    by_engine: bool = False

    @property
    def differs(self) -> bool:
        """True where anything but the wording of a source is another."""
        moved = self.changes or self.renamed or self.former
        return self.state not in (PatternState.SAME, PatternState.BROKEN) or bool(moved)


def as_json(report: Report) -> dict[str, Any]:
    """Return a report as JSON can hold it."""
    changes = [{"way" if name == "path" else name: value for name, value in asdict(one).items()}
               for one in report.changes]
    return {**asdict(report), "changes": changes, "state": report.state.value}


def from_json(data: Mapping[str, Any]) -> Report:
    """Return the report that `as_json` wrote."""
    changes = tuple(Changed(**{
        **{name: value for name, value in one.items() if name != "way"},
        "causes": tuple(one["causes"]), "path": tuple(one["way"]),
        "steps": tuple(MovedStep(**each) for each in one["steps"])}) for one in data["changes"])
    return Report(**{**data, "state": PatternState(data["state"]), "sizes": tuple(data["sizes"]),
                     "renamed": tuple((old, new) for old, new in data["renamed"]),
                     "inputs": tuple(MovedInput(**one) for one in data["inputs"]),
                     "changes": changes, "unknown": tuple(data["unknown"]),
                     "errors": tuple(data["errors"])})


def steps_moved(before: tuple[str, ...], after: tuple[str, ...]) -> tuple[MovedStep, ...]:
    """Return the steps whose text differs, that came or that went, in order, from 1."""
    found = []
    matched = SequenceMatcher(None, before, after, autojunk=False)
    for kind, start, end, first, last in matched.get_opcodes():
        if kind != "equal":
            for n in range(max(end - start, last - first)):
                old, new = start + n, first + n
                found.append(MovedStep(*((old + 1, before[old]) if old < end else (0, "")),
                                       *((new + 1, after[new]) if new < last else (0, ""))))
    return tuple(found)

"""What is wrong with a pattern source, where, and what to do about it: faults as values."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from enum import Enum
from hashlib import sha256

from ..machine.records import dataclass

# Controls, line breaks of other scripts, marks that reorder or hide text, halves of pairs.
_UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069"
                     "\ud800-\udfff\ufeff\ufff9-\ufffb\ufffe\uffff]")


class Severity(Enum):
    """How much a finding weighs. Only an error stops publication."""

    ERROR = "error"
    WARNING = "warning"
    CAUTION = "caution"
    REMARK = "remark"


@dataclass(frozen=True, slots=True)
class Place:
    """A point in a pattern source; line and column count from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"

    @property
    def short(self) -> str:
        """The place as another finding of the same file names it: "line 12, column 4"."""
        return f"line {self.line}, column {self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One finding: its code names the fault, the texts say what was found, expected, and a way out.

    `size` is the size it concerns, or "" for all of them; `more_sizes` are further sizes that
    have the same finding, `of_first` with other figures. `facts` is what a remark rests on beside
    its words, and `elsewhere` names the further patterns that have it.
    """

    severity: Severity
    code: str
    place: Place
    found: str
    expected: str
    remedy: str
    size: str = ""
    more_sizes: tuple[str, ...] = ()
    facts: str = ""
    elsewhere: tuple[str, ...] = ()
    of_first: bool = False

    @property
    def mark(self) -> str:
        """Eight characters that stand for all that it says and rests on."""
        facts = "\n".join((self.code, self.found, self.expected, self.facts))
        return sha256(facts.encode("utf-8", "surrogatepass")).hexdigest()[:8]

    @property
    def message(self) -> str:
        """The finding as one sentence chain, without its place."""
        return self.sentence(lead="found ")

    def sentence(self, *, lead: str) -> str:
        """The finding as one sentence chain, with `lead` before what was found."""
        where = f"size {self.size}: " if self.size else ""
        if self.more_sizes:
            *first, last = (self.size, *self.more_sizes)
            figures = f", with the figures of {self.size}" if self.of_first else ""
            where = f"sizes {', '.join(first)} and {last}{figures}: "
        parts = [f"{where}{lead}{self.found}"]
        if self.expected:
            parts.append(f"expected {self.expected}")
        text = "; ".join(parts) + "."
        return f"{text} {self.remedy}" if self.remedy else text

    def __str__(self) -> str:
        return f"{self.place}: {self.severity.value}, {self.code}: {self.message}"


def error(code: str, place: Place, *, found: str, expected: str = "", remedy: str = "",
          size: str = "") -> Problem:
    """Return an error finding."""
    return Problem(severity=Severity.ERROR, code=code, place=place, found=found,
                   expected=expected, remedy=remedy, size=size)


def note(severity: Severity, code: str, place: Place, *, found: str, expected: str = "",
         remedy: str = "", size: str = "", facts: str = "") -> Problem:
    """Return a finding that does not stop publication."""
    if severity is Severity.ERROR:
        raise ValueError("a note is never an error: use error()")
    return Problem(severity=severity, code=code, place=place, found=found,
                   expected=expected, remedy=remedy, size=size, facts=facts)


def has_errors(problems: Iterable[Problem]) -> bool:
    """True when any finding stops publication."""
    return any(p.severity is Severity.ERROR for p in problems)


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the findings sorted by place, then weight, then code, without repeats.

    Those alike in all three stay as they came: sizes in the pattern's own order.
    """
    weight = {s: n for n, s in enumerate(Severity)}
    return tuple(sorted(dict.fromkeys(problems),
                        key=lambda p: (p.place.file, p.place.line, p.place.column,
                                       weight[p.severity], p.code)))


def fold_sizes(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the findings, those that differ in nothing but their size told once for all of them.

    Errors of one code at one place are one fault of the author's, whatever its figures are in a
    size: the first of each size are told once, the second of each, and so on, where the sizes have
    as many of them. Where one has more than another nothing says which belong together, and only
    those that are alike are. The first of those told once keeps its place in the order and names
    the others' sizes in `more_sizes`.
    """
    problems = tuple(problems)
    alike: dict[tuple[object, ...], list[Problem]] = {}
    many = Counter((_fault(problem), problem.size) for problem in problems)
    met = Counter[tuple[object, ...]]()
    numbers: dict[tuple[object, ...], set[int]] = {}
    for (fault, _), number in many.items():
        numbers.setdefault(fault, set()).add(number)
    for problem in problems:
        fault = _fault(problem)
        key: tuple[object, ...] = (bool(problem.size), replace(problem, size="", more_sizes=()))
        if _is_of_a_size(problem) and len(numbers[fault]) == 1:
            met[fault, problem.size] += 1
            key = (fault, met[fault, problem.size])
        alike.setdefault(key, []).append(problem)
    return tuple(_folded(group) for group in alike.values())


def _is_of_a_size(problem: Problem) -> bool:
    """Whether it is an error of one size alone."""
    return bool(problem.size) and problem.severity is Severity.ERROR and not problem.more_sizes


def _fault(problem: Problem) -> tuple[object, ...]:
    """What errors of several sizes have alike when they are one fault: code and place, and whether
    they say what was expected and what to write."""
    return (_is_of_a_size(problem), problem.code, problem.place,
            bool(problem.expected), bool(problem.remedy))


def _folded(group: Sequence[Problem]) -> Problem:
    """One finding for those of several sizes, with the figures of the first."""
    first, sizes = group[0], [size for one in group for size in (one.size, *one.more_sizes)]
    differ = any((one.found, one.expected, one.remedy)
                 != (first.found, first.expected, first.remedy) for one in group)
    return replace(first, size=sizes[0], more_sizes=tuple(sizes[1:]),
                   of_first=differ or first.of_first)


def fold_remarks(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the findings, a remark on facts that several patterns share given once.

    The first keeps its place and names the other patterns in `elsewhere`.
    """
    alike: dict[tuple[object, ...], list[Problem]] = {}
    for number, problem in enumerate(problems):
        shared = problem.severity is Severity.REMARK and problem.facts
        key = (problem.code, problem.mark) if shared else (number,)
        alike.setdefault(key, []).append(problem)
    return tuple(replace(first, elsewhere=tuple(dict.fromkeys(_folder(p) for p in others)))
                 for first, *others in alike.values())


def _folder(problem: Problem) -> str:
    return problem.place.file.rpartition("/")[0].rpartition("/")[2]


def visible(text: str) -> str:
    """Return `text` with what cannot be seen, or steers a terminal, as escapes such as \\u001b.

    A tab becomes a space. What is printed of a source must not act on who reads it.
    """
    return _UNSEEN.sub(lambda found: f"\\u{ord(found[0]):04x}", text.replace("\t", " "))


def render(problem: Problem, lines: Sequence[str] = ()) -> str:
    """Return the finding as text; with the source's lines, the author's own line and a caret."""
    place = problem.place
    if problem.severity is Severity.REMARK:
        return visible(_one_line(problem))
    if not 1 <= place.line <= len(lines):
        return visible(str(problem))
    author = lines[place.line - 1].rstrip("\r\n")
    before = " " * len(visible(author[:place.column - 1].ljust(place.column - 1)))
    return f"{visible(str(problem))}\n    {visible(author)}\n    {before}^"


def render_together(remarks: Sequence[Problem]) -> str:
    """Return remarks of one code and place as one text: these once, and a line under them for each,
    with the code and mark by which it is accepted."""
    lines = "".join(f"\n    {visible(_marked(one))}" for one in remarks)
    place, code = remarks[0].place, remarks[0].code
    return f"{visible(str(place))}: remark, {code}: {len(remarks)} remarks:{lines}"


def _one_line(problem: Problem) -> str:
    return f"{problem.place}: remark, {_marked(problem)}"


def _marked(problem: Problem) -> str:
    """A remark with the mark by which it can be accepted."""
    also = f" (also in {', '.join(problem.elsewhere)})" if problem.elsewhere else ""
    return f"{problem.code} {problem.mark}: {problem.sentence(lead='')}{also}"

"""Readers: what a single entry of a source says, as a typed value, or the fault it has.

Each function makes a reader (or is one). A reader takes an entry and returns its value, or
raises Fault with the finding: what was found, what was expected, and the right word to use.
Whatever reads a figure has the range of its kind: a figure outside the hard limit is a fault, an
unlikely one leaves a doubt with its entry.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import field, replace
from enum import Enum
from fractions import Fraction
from typing import Generic, TypeAlias, TypeVar

from ..core.problems import Place, Problem, Severity, error, note
from ..core.ranges import DIALS, PRACTICE, Measured, Range, figure_range
from ..core.text import clip, suggest, unseen
from ..core.units import (
    LENGTH_UNITS,
    MASS_UNITS,
    Length,
    UnitError,
    other_digits,
    read_dial,
    read_length,
    read_mass,
    read_number,
    read_percent,
)
from ..machine.records import dataclass
from ..machine.steps import Dial
from .rewritten import WHOLE, made_whole
from .source import Listing, Node, Scalar, Table

T = TypeVar("T")
E = TypeVar("E", bound=Enum)

WRITTEN_OUT = "Write it out."


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of a source: what it is called, its value, its dotted path, where to point.

    `doubts` gathers the warnings of its readers; `needed` is true of a key that must be there.
    """

    label: str
    node: Node
    path: str
    place: Place
    doubts: list[Problem] = field(default_factory=list, compare=False, repr=False)
    needed: bool = False


Reader: TypeAlias = Callable[[Entry], T]


class Fault(Exception):
    """Raised by a reader for the one entry it was given; carries the finding."""

    def __init__(self, code: str, place: Place, found: str, expected: str, remedy: str) -> None:
        super().__init__(found)
        self.problem = error(code, place, found=found, expected=expected, remedy=remedy)


def table_like(what: str, example: str) -> Reader[Table]:
    """A reader of a mapping that is not empty."""
    def read(entry: Entry) -> Table:
        if isinstance(entry.node, Table) and entry.node.entries:
            return entry.node
        raise misshapen(entry, f"{what} as a mapping", f"Write it as {example}.", many=True)
    return read


def listing_like(what: str, example: str) -> Reader[Listing]:
    """A reader of a list that is not empty."""
    def read(entry: Entry) -> Listing:
        if isinstance(entry.node, Listing) and entry.node.items:
            return entry.node
        raise misshapen(entry, f"a list of {what}", f"Write it as {example}.", many=True)
    return read


@dataclass(frozen=True, slots=True)
class Text:
    """A reader of a text of at most `most` characters; its line breaks become spaces.

    `spelt` is a regular expression that every text fits which is later taken, for an editor.
    """

    most: int
    expected: str = "text"
    remedy: str = WRITTEN_OUT
    spelt: str = ""

    def __call__(self, entry: Entry) -> str:
        """The text. Raises Fault where there is none, or none that may stand on a page."""
        if not isinstance(entry.node, Scalar):
            raise misshapen(entry, self.expected, self.remedy)
        value = re.sub(r"\s*[\r\n]\s*", " ", entry.node.text.strip())
        if not value:
            raise misshapen(entry, self.expected, self.remedy)
        if unseen(value) or "\t" in value:
            raise Fault("control-character", entry.place, f"the control character "
                        f"U+{ord(unseen(value) or chr(9)):04X}", "text that can be seen",
                        "Delete it.")
        if len(value) > self.most:
            raise Fault("too-long", entry.place, f"{len(value)} characters",
                        f"at most {self.most}", "Shorten it; long prose belongs in notes.md.")
        return value


@dataclass(frozen=True, slots=True)
class Figure(Generic[T]):
    """A reader of a figure of one kind: `parse` its text, then judge it by its `range`."""

    range: Range
    parse: Callable[[Entry], T]
    worth: Callable[[T], Fraction | int | str]
    limit: str = ""

    def __call__(self, entry: Entry) -> T:
        """The figure. Raises Fault where it cannot be read or is outside the hard limit."""
        value = self.parse(entry)
        worth, typed = self.worth(value), typed_as(entry)
        check = "Check the figure and its unit." if self.range.measured in (
            Measured.LENGTH, Measured.MASS) else "Check the figure."
        if not (self.range.is_allowed(worth) and (worth or self.range.measured != Measured.MASS)):
            raise Fault("out-of-range", entry.place, f'"{typed}"',
                        f"{self.limit or self.range.allowed}{self.range.beside(typed, hard=True)}",
                        check)
        if not self.range.is_plausible(worth):
            entry.doubts.append(note(
                Severity.WARNING, "unlikely-value", entry.place, found=f'"{typed}"',
                expected=self.range.usual + self.range.beside(typed), remedy=check))
        return value


def typed_as(entry: Entry) -> str:
    """The text of an entry, as a message may show it."""
    return clip(entry.node.text.strip()) if isinstance(entry.node, Scalar) else ""


def whole_number(kind: str, plausible: str, hard: str, source: str = PRACTICE, *,
                 follows: bool = False, otherwise: str = "") -> Figure[int]:
    """A reader of digits that make a whole number of that kind: from "0..6" to "0..20". With
    decimals the remedy is "Write 40 or 41", and `otherwise`."""
    return _whole_number(figure_range(Measured.COUNT, kind, plausible, hard, source,
                                      follows=follows), otherwise)


def at_most(figure: Figure[int], most: int) -> Figure[int]:
    """That reader of a whole number, with another greatest one."""
    return _whole_number(replace(figure.range, high=str(most), most=str(most)))


def _whole_number(row: Range, otherwise: str = "") -> Figure[int]:
    expected = f"a whole number from {row.least} to {row.most}"

    def parse(entry: Entry) -> int:
        value = Text(40, expected, "Write digits only.")(entry)
        if not WHOLE.fullmatch(value):
            remedy = made_whole(value, otherwise) or other_digits(value) or "Write digits only."
            raise Fault("bad-number", entry.place, f'"{clip(value)}"', expected, remedy)
        return int(value)
    return Figure(row, parse, lambda value: value, expected)


def length(kind: str, plausible: str, hard: str, source: str = PRACTICE, *, follows: bool = False,
           example: str = "32 cm or 12.5 in") -> Figure[Length]:
    """A reader of a length of that kind, given as people write them."""
    row = figure_range(Measured.LENGTH, kind, plausible, hard, source, follows=follows)
    parse = _quantity("bad-length", read_length, f"a length such as {example}",
                      f"Give it in {LENGTH_UNITS}.")
    return Figure(row, parse, lambda value: value.mm,
                  f"a length from {row.least} to {row.most}")


def mass(kind: str, plausible: str, hard: str) -> Figure[Fraction]:
    """A reader of a mass of that kind, above nothing [g]."""
    row = figure_range(Measured.MASS, kind, plausible, hard)
    parse = _quantity("bad-mass", read_mass, "a mass such as 50 g or 2 oz",
                      f"Give it in {MASS_UNITS}.")
    return Figure(row, parse, lambda value: value, f"a mass above 0 g, at most {row.most}")


def share(kind: str, plausible: str, hard: str) -> Figure[Fraction]:
    """A reader of a percentage of that kind [%], as a fraction of one."""
    row = figure_range(Measured.SHARE, kind, plausible, hard)
    parse = _quantity("bad-percentage", read_percent, "a percentage such as 2 %",
                      "Write a number and % after it.")
    limit = f"a percentage from {row.least} to {row.most}".replace("-", "−")
    return Figure(row, parse, lambda value: value, limit)


def ratio(kind: str, plausible: str, hard: str) -> Figure[Fraction]:
    """A reader of a plain number or fraction of that kind."""
    row = figure_range(Measured.NUMBER, kind, plausible, hard)
    parse = _quantity("bad-number", read_number, "a plain number such as 3/4",
                      "Write two whole numbers with / between them.")
    return Figure(row, parse, lambda value: value, f"a number from {row.least} to {row.most}")


def dial(kind: str = "dial setting", plausible: str = "1..10.2", hard: str = "0..15"
         ) -> Figure[Dial]:
    """A reader of a dial setting, or of the difference between two."""
    parse = _quantity("bad-dial", read_dial, "a dial setting such as 6, or 6.1 and 6.2 for its "
                      "dots", "Write a whole number, or one with .1 or .2.")
    row = figure_range(Measured.DIAL, kind, plausible, hard, DIALS)
    return Figure(row, parse, lambda value: value.thirds,
                  f"a {kind} from {row.least} to {row.most}".replace("-", "−"))


@dataclass(frozen=True, slots=True)
class Word(Generic[T]):
    """A reader of one word among `choices`, as the value that stands for it."""

    choices: Mapping[str, T]

    def __call__(self, entry: Entry) -> T:
        """The value. Raises Fault for any other word."""
        expected = f"one of {', '.join(self.choices)}"
        value = Text(120, expected, "Write one of these." if entry.needed else
                     f"Write {next(iter(self.choices))}, or leave the line out.")(entry)
        if value in self.choices:
            return self.choices[value]
        expected, remedy = suggest(value, self.choices, "Use one of these words.")
        raise Fault("unknown-word", entry.place, f'"{clip(value)}"', expected, remedy)


def word(kinds: Iterable[E]) -> Word[E]:
    """A reader of one of the words of an enumeration."""
    return Word({kind.value: kind for kind in kinds})


YES_NO = Word({"yes": True, "no": False})


def name_of(what: str, known: Mapping[str, T]) -> Reader[T]:
    """A reader of the name of a bed, yarn, fabric or edge among those `known`, as its value."""
    def read(entry: Entry) -> T:
        value = Text(120, f"the name of a {what}", "Write one that the pattern has.")(entry)
        if value in known:
            return known[value]
        expected, remedy = suggest(value, known, f"Use one of these, or add the {what}.",
                                   f"Add the {what}.")
        if any(name != value and name.lower() == value for name in known):
            remedy = f"Rename that {what} {value}."
        raise Fault("unknown-name", entry.place, f'no {what} called "{clip(value)}"',
                    expected, remedy)
    return read


def _quantity(code: str, parse: Callable[[str], T], expected: str, remedy: str) -> Reader[T]:
    def read(entry: Entry) -> T:
        value = Text(40, expected, remedy)(entry)
        try:
            return parse(value)
        except UnitError as fault:
            comma = "Write a point for the decimal comma." if "," in value else ""
            raise Fault(fault.code or code, entry.place, fault.found, expected,
                        comma or fault.remedy or remedy) from None
    return read


def misshapen(entry: Entry, expected: str, remedy: str, *, many: bool = False) -> Fault:
    """The fault of a value of another shape; `many` where a list or mapping is expected."""
    node, at = entry.node, entry.place
    if isinstance(node, Scalar) and not node.text.strip():
        return Fault("empty-value", at, f'nothing after "{clip(entry.label)}"', expected, remedy)
    if isinstance(node, Scalar):
        return Fault("wrong-shape", at, f'"{clip(node.text.strip())}"', expected, remedy)
    kind, size = (("list", len(node.items)) if isinstance(node, Listing)
                  else ("mapping", len(node.entries)))
    if not size:
        return Fault("empty-value", at, f"an empty {kind}", expected, remedy)
    if isinstance(node, Listing) and size == 1 and isinstance(node.items[0], Scalar) and not many:
        remedy = "Write the value alone, not as a list."
    if isinstance(node, Table) and remedy == WRITTEN_OUT:
        remedy = "Write the text alone; in quotes, if it has braces."
    return Fault("wrong-shape", at, f"a {kind}", expected, remedy)



"""The text of a measure as a tree that can hold sums and nothing else; reading it runs nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from ..core.text import clip, suggest
from ..core.text_kinds import FindingText
from ..core.units import (
    CHECK,
    UnitError,
    huge,
    other_digits,
    read_length,
    read_number,
    read_percent,
)
from ..machine.records import dataclass
from .expression_tree import (
    Call,
    ExpressionFault,
    MeasureName,
    MeasureTree,
    Negated,
    Number,
    Operation,
)

MOST_CHARACTERS = 200
MOST_PARTS = 60
MOST_LEVELS = 16
COUNTS: Mapping[str, str] = {"stitches": "stitch", "stitch": "stitch", "rows": "row", "row": "row"}
UNITS = ("mm", "cm", "m", "in", "inch", "inches", "yd", "yard", "yards", "ligne", "lignes",
         *COUNTS)
ARGUMENTS = {"min": (2, 20), "max": (2, 20), "round_to": (2, 2)}

_UNIT = rf"(?:(?:{'|'.join(UNITS)})\b|[\"″”])"
_NUMBER = r"\d{1,12}(?:\.\d{1,30})?"
_GLYPHS = "½¼¾⅓⅔⅛⅜⅝⅞"
# A number with its unit. `22-1/2 in` is a mixed number as on a ruler: nothing else would be a
# length there. Without a unit it stays a difference.
_PART = re.compile(
    rf"(?P<number>(?:\d{{1,6}}-\d{{1,4}}/\d{{1,4}}\ *{_UNIT}|\d{{1,6}}-[{_GLYPHS}]\ *{_UNIT}"
    rf"|\d{{1,6}}\ +\d{{1,4}}/\d{{1,4}}(?![\d.])(?:\ *{_UNIT})?"
    rf"|(?:\d{{1,6}}\ *)?[{_GLYPHS}](?:\ *{_UNIT})?|\d{{1,4}}/\d{{1,4}}\ *{_UNIT}"
    rf"|{_NUMBER}\ *(?:{_UNIT}|%)?)(?![\w.]))"
    r"|(?P<name>[A-Za-z_][A-Za-z0-9_]{0,59}(?!\w))|(?P<sign>[-+*/(),−×÷])", re.ASCII)
_ALIKE = {"−": "-", "×": "*", "÷": "/"}
_OPEN = rf"(?:(?:{'|'.join(ARGUMENTS)})?\s*\(\s*[-−]?\s*)*"
_FIGURE = (rf"(?:(?:[0-9]{{1,12}}[ -]+)?[0-9]{{1,4}}\s*/\s*[0-9]{{1,4}}"
           rf"|(?:[0-9]{{1,12}} *)?[{_GLYPHS}]|[0-9]{{1,12}}(?:\.[0-9]{{1,30}})?)"
           rf" *(?:{'|'.join(UNITS)}|[\"″”%])?")
_TERM = rf"{_OPEN}(?:{_FIGURE}|[A-Za-z_][A-Za-z0-9_]*)(?: *\))*"
SPELT = rf"[-−]? *{_TERM}(?: *[-+*/,−×÷] *[-−]? *{_TERM})*"
"""A regular expression, for an editor, that every sum on one line fits, whatever its brackets."""


@lru_cache(maxsize=2048)  # a form's sums are read in every size
def parse_expression(text: str) -> MeasureTree:
    """Return the tree of `text`. Raises ExpressionFault, and nothing else, whatever the text."""
    if len(text) > MOST_CHARACTERS:
        raise ExpressionFault("long-measure", 0, f"a measure of {len(text)} characters",
                              f"at most {MOST_CHARACTERS}", "Break it into several measures.")
    parts = tuple(_parts(text))
    if len(parts) > MOST_PARTS:
        raise ExpressionFault("long-measure", parts[MOST_PARTS].at,
                              f"a measure of more than {MOST_PARTS} parts",
                              f"at most {MOST_PARTS}", "Break it into several measures.")
    reader = _Reader(parts, len(text.rstrip()))
    tree = reader.sum(1)
    reader.end()
    return tree


@dataclass(frozen=True, slots=True)
class _Token:
    """A piece of the text: a "number", a "name" or a "sign"."""

    kind: str
    text: str
    at: int


def _parts(text: str) -> Iterator[_Token]:
    at = 0
    while at < len(text):
        if text[at] in " \n":
            at += 1
            continue
        match = _PART.match(text, at)
        if match is None:
            raise _unreadable(text, at)
        kind = str(match.lastgroup)
        yield _Token(kind, _ALIKE.get(match[0], match[0]), at)
        at = match.end()


def _unreadable(text: str, at: int) -> ExpressionFault:
    run = re.compile(r"[\w.]+|.", re.DOTALL).match(text, at)
    if digits := huge(text[at:]):
        return ExpressionFault("huge-measure", at, digits, "figures of a garment", CHECK)
    found = clip(run[0] if run else text[at])
    return ExpressionFault("bad-measure", at, f'"{found}"',
                           "names, numbers, lengths, + - * / and brackets", _readable(found))


def _readable(found: str) -> FindingText:
    """What to write in the place of a sign that no measure has."""
    if found == "^":
        return "Write a product."
    if found == ",":
        return "Write a point for the decimal comma."
    if other_digits(found):
        return other_digits(found)
    if re.match("[0-9]", found):
        return ("Write a number with one point at most, and behind it an operator, % or one of "
                "mm, cm, m, in.")
    return "Write sums of names, numbers and lengths, such as (chest + 5 cm) / 2."


class _Reader:
    """Reads parts into a tree, one level of brackets at a time."""

    def __init__(self, parts: tuple[_Token, ...], length: int) -> None:
        self.parts, self.next, self.length = parts, 0, length

    def peek(self) -> str:
        """The sign that comes next, or ""."""
        part = self.parts[self.next] if self.next < len(self.parts) else None
        return part.text if part and part.kind == "sign" else ""

    def sum(self, level: int) -> MeasureTree:
        """Read things with + or - between them."""
        if level > MOST_LEVELS + 1:
            raise ExpressionFault("long-measure", self.parts[self.next - 1].at,
                                  f"more than {MOST_LEVELS} levels of brackets",
                                  f"at most {MOST_LEVELS}", "Break it into several measures.")
        tree = self._product(level)
        while (sign := self.peek()) and sign in "+-":
            at = self._take().at
            tree = Operation(sign, tree, self._product(level), at)
        return tree

    def _product(self, level: int) -> MeasureTree:
        tree = self._single(level)
        while (sign := self.peek()) and sign in "*/":
            at = self._take().at
            tree = Operation(sign, tree, self._single(level), at)
        return tree

    def _single(self, level: int) -> MeasureTree:
        part = self._take()
        if part.kind == "number":
            return _number(part)
        if part.kind == "name":
            return self._call(part, level) if self.peek() == "(" else _name(part)
        if part.text == "-":
            minus = part.at
            if self.peek() == "-":
                raise _misplaced(self._take())
            return Negated(self._single(level), minus)
        if part.text != "(":
            raise _misplaced(part)
        tree = self.sum(level + 1)
        self._close(part)
        return tree

    def _call(self, name: _Token, level: int) -> MeasureTree:
        if name.text not in ARGUMENTS:
            expected, remedy = suggest(name.text, ARGUMENTS, "Write one of these, or * between two "
                                       "things that are multiplied.")
            raise ExpressionFault("bad-measure", name.at, f'"{clip(name.text)}(…)"', expected,
                                  remedy)
        opening = self._take()
        arguments = [self.sum(level + 1)]
        while self.peek() == ",":
            self._take()
            arguments.append(self.sum(level + 1))
        self._close(opening)
        low, high = ARGUMENTS[name.text]
        if not low <= len(arguments) <= high:
            raise ExpressionFault(
                "bad-measure", name.at, f"{name.text}(…) of {len(arguments)}",
                f"{low} things in it" if low == high else f"{low} to {high} things in it",
                "Write round_to(length, step)." if low == high else
                f"Write {name.text}(one, another).")
        return Call(name.text, tuple(arguments), name.at)

    def _take(self) -> _Token:
        if self.next == len(self.parts):
            found: FindingText = "the end of the measure" if self.parts else "an empty measure"
            raise ExpressionFault("bad-measure", self.length, found, "a name, number or length",
                                  "Write a sum such as (chest + 5 cm) / 2.")
        self.next += 1
        return self.parts[self.next - 1]

    def _close(self, opening: _Token) -> None:
        if self.peek() == ")":
            self._take()
            return
        self.end()
        raise ExpressionFault("bad-measure", opening.at, "a bracket that is not closed", "",
                              "Add the ) that is missing.")

    def end(self) -> None:
        """Raise ExpressionFault when anything is left over where an operator is due."""
        if self.next < len(self.parts):
            before, part = self.parts[self.next - 1], self.parts[self.next]
            found: FindingText = "a ) that closes nothing"
            if part.text != ")":
                found = f'"{clip(part.text)}" here'
            raise ExpressionFault("bad-measure", part.at, found, "an operator between two things",
                                  _remedy(before.kind, part))


def _remedy(before: str, part: _Token) -> FindingText:
    if part.text == ")":
        return "Delete it, or write the ( it closes."
    if part.text == "," and before == "number":
        return "Write a point for the decimal comma."
    if part.text == ",":
        return "Use commas in min, max and round_to only."
    if part.text == "(" and before == "number":
        return "Write * for a product. Values by size are written as {S: 54 cm, M: 55 cm}."
    if part.kind == "name" and before == "number":
        return f"Write * for a product, or one of {', '.join(UNITS[:4])} for a unit."
    if part.kind == "name" and before == "name":
        return "Write _ for a space in a name, or an operator."
    return "Write + - * or / before it."


def _misplaced(part: _Token) -> ExpressionFault:
    return ExpressionFault("bad-measure", part.at, f'"{part.text}" here',
                           "a name, number or length", "Check the sign or bracket before it.")


def _name(part: _Token) -> MeasureName:
    if part.text in UNITS:
        raise ExpressionFault("bad-measure", part.at, f'the unit "{part.text}" without a number',
                              "a length such as 2 cm", "Write the number before it.")
    return MeasureName(part.text, part.at)


def _number(part: _Token) -> Number:
    text = part.text.strip()
    try:
        if text.endswith("%"):
            return Number(read_percent(text), False, text, part.at)
        if of := COUNTS.get(re.sub("[^a-z]", "", text)):
            return _count(text, part.at, of)
        if text[-1].isalpha() or text[-1] in '"″”':
            return Number(read_length(text).mm, True, text, part.at)
        return Number(read_number(text), False, text, part.at)
    except UnitError as fault:  # a fraction over 0
        raise ExpressionFault("bad-measure", part.at, fault.found, fault.expected,
                              "Write a number below the line that is not 0.") from None


def _count(text: str, at: int, of: str) -> Number:
    """So many stitches or rows, a whole number."""
    value = read_number(re.sub("[a-z]", "", text).strip())
    if value.denominator != 1:
        raise ExpressionFault("bad-measure", at, f'"{text}"', "a whole number of stitches or rows",
                              "Write one such as 80 stitches, or a length.")
    return Number(value, True, text, at, of)

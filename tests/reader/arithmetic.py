"""The arithmetic of a printed working, done again with every figure as wide as its rounding."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

ALONG = re.compile(r" \(along (?:the slope of )?(?:\d+ of the band's )?\d+ rows?"
                   r"(?: and \d+ stitch(?:es)? bound off)?"
                   r"(?: of the [a-z ]+)?(?:, through (?:both|all) layers)?\)")
# Words within an expression that carry figures which are no part of it, and what stands for them.
ASIDES = [(re.compile(pattern), instead) for pattern, instead in (
    (r"\[[^\]]*\]", ""),
    (ALONG.pattern, ""),
    (r"a hole of \d+ stitch(?:es)? offers ", ""),
    (r" of the band's \d+ stitches", ""),
    (r', a multiple of \d+(?: plus \d+)? for the chart "[^"]*"', ""),
    (r", \d+ in, \d+ out of work", ""),
    (r"half the girth of a button of \d+ mm, ", ""),
    (r"(?:half of )?\d+ (?:stitches|rows) of (?:back neck|neck|shoulder|the sleeve's top),? ", ""),
    (r"sloping over \d+ rows, ", ""),
    (r"sleeve, with its (?:hem|rib), ", ""),
    (r" mm, ÷", " mm ÷"),
    (r",? on rows of ", " ÷ "))]
MEASURE = re.compile(r"(−?\d+(?:\.\d+)?) (cm|mm)\b")
RATE = re.compile(r"(\d+(?:\.\d+)?) (?:stitches|rows) to 10 cm")
CHOSEN = re.compile(r"\b(max|min)\(([^()]*)\)")
SLOPE = re.compile(r"the slope over (.*?) and (.*)")
TOKEN = re.compile(r"§\d+|\d+(?:\.\d+)?|[-+−×÷/()]")


class Unread(ValueError):
    """An expression that is no arithmetic."""


@dataclass(frozen=True, slots=True)
class Range:
    """A figure as wide as its rounding."""

    low: float
    high: float

    def __add__(self, other: Range) -> Range:
        return Range(self.low + other.low, self.high + other.high)

    def __sub__(self, other: Range) -> Range:
        return Range(self.low - other.high, self.high - other.low)

    def __mul__(self, other: Range) -> Range:
        ends = [a * b for a in (self.low, self.high) for b in (other.low, other.high)]
        return Range(min(ends), max(ends))

    def __truediv__(self, other: Range) -> Range:
        if other.low <= 0 <= other.high:
            raise Unread("divided by nothing")
        return self * Range(1 / other.high, 1 / other.low)

    def meets(self, other: Range) -> bool:
        """Whether both can be the same figure."""
        return self.low <= other.high + 1e-9 and other.low <= self.high + 1e-9

    @property
    def middle(self) -> float:
        """Its middle."""
        return (self.low + self.high) / 2


def printed(text: str, least: int = 0) -> Range:
    """A figure as it is printed: half of its last place wide, of at least so many places."""
    text = text.replace("−", "-")
    places = max(len(text.partition(".")[2]), least)
    half = 0.5 * 10 ** -places if places else 0.0
    return Range(float(text) - half, float(text) + half)


def value(words: str) -> Range:
    """What an expression comes to: lengths in mm, rates to the mm, counts as they are.

    Raises Unread where words stand between two figures and no sign does.
    """
    held: list[Range] = []

    def hold(one: Range) -> str:
        held.append(one)
        return f"§{len(held) - 1} "

    for pattern, instead in ASIDES:
        words = pattern.sub(instead, words)
    words = SLOPE.sub(lambda m: hold(_slope(value(m[1]), value(m[2]))), words)
    words = CHOSEN.sub(lambda m: hold(_chosen(m)), words)
    words = RATE.sub(lambda m: hold(printed(m[1], 2) * Range(0.01, 0.01)), words)
    words = MEASURE.sub(lambda m: hold(
        printed(m[1], 1) * Range(10, 10) if m[2] == "cm" else printed(m[1], 1)), words)
    words = re.sub(r"\([a-z][^()\d]*\)", "", words)
    tokens = TOKEN.findall(words)
    out, rest = _sum(tokens, held)
    if rest:
        raise Unread(words)
    return out


def _chosen(match: re.Match[str]) -> Range:
    """The greatest or the least of some expressions."""
    choices = [value(one) for one in match[2].split(", ")]
    pick = max if match[1] == "max" else min
    return Range(pick(one.low for one in choices), pick(one.high for one in choices))


def _slope(wide: Range, high: Range) -> Range:
    """The long side of a triangle with a right angle between the two others."""
    return Range(math.hypot(wide.low, high.low), math.hypot(wide.high, high.high))


def _sum(tokens: list[str], held: list[Range]) -> tuple[Range, list[str]]:
    out, tokens = _product(tokens, held)
    while tokens and tokens[0] in "+-−":
        sign, (term, tokens) = tokens[0], _product(tokens[1:], held)
        out = out + term if sign == "+" else out - term
    return out, tokens


def _product(tokens: list[str], held: list[Range]) -> tuple[Range, list[str]]:
    out, tokens = _one(tokens, held)
    while tokens and tokens[0] in "×÷/":
        sign, (term, tokens) = tokens[0], _one(tokens[1:], held)
        out = out * term if sign == "×" else out / term
    return out, tokens


def _one(tokens: list[str], held: list[Range]) -> tuple[Range, list[str]]:
    if not tokens:
        raise Unread("no figure")
    if tokens[0] == "(":
        out, rest = _sum(tokens[1:], held)
        if not rest or rest[0] != ")":
            raise Unread("a bracket is open")
        return out, rest[1:]
    if tokens[0] in ("-", "−"):
        out, rest = _one(tokens[1:], held)
        return Range(0, 0) - out, rest
    if tokens[0][0] == "§":
        return held[int(tokens[0][1:])], tokens[1:]
    if not tokens[0][0].isdigit():
        raise Unread(tokens[0])
    return printed(tokens[0]), tokens[1:]

"""Every printed sum, done again with the printed figures alone, to its last printed digit."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from math import floor

from tests.reader.arithmetic import ASIDES, CHOSEN, TOKEN

NUMBER = r"−?\d+(?:\.\d+)?"
RATE = re.compile(rf"({NUMBER}) (?:stitches|rows) to 10 cm")
NAMES = re.compile(r"\([a-z][^()\d]*\)|\(\d+ % more\)|\([^()]* mm (?:more|less|"
                   r"wider|narrower)\)")
LISTED = ((re.compile(r", (?:both|all \d+)(?: parts)? together"), ""),)
CLAUSE = re.compile(r"; |: (?=[^:]*=)|\. (?=[A-Z])|, (?=\d+ − \d)")
RESULT = re.compile(rf"^(?:[a-z ]+ )?({NUMBER})(?: (?:cm|mm))?")
MADE_WHOLE = re.compile(rf"^({NUMBER}), [a-z0-9 ]+: (\d+)"
                        rf"(?: \(({NUMBER}) mm (?:more|less)\))?")
PITCH = re.compile(rf"({NUMBER}) (?:stitches|rows) to 10 cm|÷ ({NUMBER}) (mm|cm) a")
CHANGED = re.compile(rf"(\d+) so that [^(=]*\(({NUMBER}) mm (?:more|less|wider|narrower)\)")
LABEL = re.compile(rf"^[^:=]*?(?:, |: )({NUMBER}) cm \([^()]* in\): .* = ({NUMBER}) (cm|mm)\.?$")
METRES = re.compile(rf"= ({NUMBER})(?:, rounded up: \d+)?\. Metres: ({NUMBER}) g ")
PACKAGES = re.compile(rf"= ({NUMBER})(?:, rounded up: \d+)?\.(?: Metres: .*)? "
                      rf"Balls or cones: ({NUMBER}) g ")
STRETCHED = re.compile(rf"÷ ({NUMBER}) mm a stitch .*?(\d+)(?:, [a-z ]+)?, which stretch to about "
                       rf"(\d+) mm")
# A hole of two stitches at 22 to 4 inches passes a button of 5/8 in, the published case that the
# page of the two-stitch hole names.
PASSES = Fraction(5, 8) / (2 * Fraction(4, 22))


class Unread(ValueError):
    """Words that are no arithmetic."""


def figure(text: str) -> Fraction:
    """A printed figure."""
    return Fraction(text.replace("−", "-"))


def at_digits_of(value: Fraction, text: str) -> Fraction:
    """`value` at as many decimals as `text` has; a half goes up, as the pages say."""
    unit = Fraction(1, 10 ** len(text.partition(".")[2]))
    return floor(value / unit + Fraction(1, 2)) * unit


def faults(text: str) -> Iterator[str]:
    """What does not follow from the printed figures of a line."""
    for clause in CLAUSE.split(text.rstrip(".")):
        yield from of_clause(clause)
    yield from changed(text)
    for pattern in (METRES, PACKAGES):
        if (found := pattern.search(text)) and found[1] != found[2]:
            yield f"{found[1]} becomes {found[2]}: {text}"
    if label := LABEL.match(text):
        long = figure(label[2]) / (10 if label[3] == "mm" else 1)
        if at_digits_of(long, label[1] if "." in label[1] else "0.0") != figure(label[1]):
            yield f"{float(long):g} cm, in the label {label[1]}: {text}"
    if hole := STRETCHED.search(text):
        far = figure(hole[1]) * figure(hole[2]) * PASSES
        if at_digits_of(far, hole[3]) != figure(hole[3]):
            yield f"{float(far):g} mm, printed as {hole[3]}: {text}"


def of_clause(clause: str) -> Iterator[str]:
    """The same of a chain of equals; nothing where it is none."""
    *before, last = clause.split(" = ")
    ends = RESULT.match(last)
    if not ends:
        return
    for part in before:
        if re.search(r"\d", part):
            yield from unlike(part, ends[1], clause)
    made = MADE_WHOLE.match(last)
    if made and made[3]:
        yield from off(figure(made[1]), made[2], made[3], clause)


def changed(text: str) -> Iterator[str]:
    """The same of a number that was chosen instead, with what it is worth."""
    first = next((found for clause in CLAUSE.split(text) if " = " in clause
                  and (found := RESULT.match(clause.split(" = ")[-1]))), None)
    for chosen in CHANGED.finditer(text):
        if first:
            yield from off(figure(first[1]), chosen[1], chosen[2], text[:chosen.start()])


def unlike(part: str, result: str, clause: str) -> Iterator[str]:
    came = at_digits_of(value(part, clause), result)
    if came != figure(result):
        yield f"{float(value(part, clause)):g}, printed as {result}: {clause}"


def off(came: Fraction, taken: str, printed: str, clause: str) -> Iterator[str]:
    """How far a whole number is off, by the printed figures."""
    pitches = PITCH.findall(clause)
    if not pitches:
        return
    rate, wide, unit = pitches[-1]
    pitch = 100 / figure(rate) if rate else figure(wide) * (10 if unit == "cm" else 1)
    apart = abs(figure(taken) - came) * pitch
    if at_digits_of(apart, "0.0") != figure(printed):
        yield f"{float(apart):g} mm, printed as {printed}: {clause}"


def value(words: str, clause: str) -> Fraction:
    """What printed figures come to, in the unit of the lengths of the sum.

    Raises Unread where words stand between two figures and no sign does.
    """
    small = re.search(r"\d mm\b", clause.partition(" = ")[0]) and " cm " not in RATE.sub("", words)
    held: list[Fraction] = []

    def hold(one: Fraction) -> str:
        held.append(one)
        return f"§{len(held) - 1} "

    for pattern, instead in (*ASIDES, *LISTED):
        words = pattern.sub(instead, words)
    words = RATE.sub(lambda m: hold(figure(m[1]) / (100 if small else 10)), words)
    words = CHOSEN.sub(lambda m: hold((max if m[1] == "max" else min)(
        value(one, clause) for one in m[2].split(", "))), words)
    words = NAMES.sub("", words)
    out, rest = _sum(TOKEN.findall(words), held)
    if rest:
        raise Unread(words)
    return out


def _sum(tokens: list[str], held: list[Fraction]) -> tuple[Fraction, list[str]]:
    out, tokens = _product(tokens, held)
    while tokens and tokens[0] in "+-−":
        sign, (term, tokens) = tokens[0], _product(tokens[1:], held)
        out = out + term if sign == "+" else out - term
    return out, tokens


def _product(tokens: list[str], held: list[Fraction]) -> tuple[Fraction, list[str]]:
    out, tokens = _one(tokens, held)
    while tokens and tokens[0] in "×÷/":
        sign, (term, tokens) = tokens[0], _one(tokens[1:], held)
        out = out * term if sign == "×" else out / term
    return out, tokens


def _one(tokens: list[str], held: list[Fraction]) -> tuple[Fraction, list[str]]:
    if not tokens:
        raise Unread("no figure")
    head, *rest = tokens
    if head == "(":
        out, rest = _sum(rest, held)
        if not rest or rest[0] != ")":
            raise Unread("a bracket is open")
        return out, rest[1:]
    if head in "-−":
        out, rest = _one(rest, held)
        return -out, rest
    if head[0] == "§":
        return held[int(head[1:])], rest
    if not head[0].isdigit():
        raise Unread(head)
    return figure(head), rest

"""What counts.json publishes, computed again: an evaluator, and a pocket calculator.

Both read counts.json alone and share nothing with the engine; nor does the rounding.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from copy import deepcopy
from decimal import Decimal, localcontext
from fractions import Fraction
from typing import Any

Tree = dict[str, Any]


def to_whole(figure: Fraction, rule: str, of: int, plus: int) -> int:
    """A figure made whole, a half up; never less than the least such number from 0."""
    if rule == "given":
        return plus
    steps = (figure - plus) / of
    number = {"up": math.ceil, "down": math.floor}.get(
        rule, lambda one: math.floor(one + Fraction(1, 2)))(steps) * of + plus
    return max(number, plus) if of > 1 or plus or rule not in ("up", "down") else number


def value(tree: Tree) -> Fraction:
    """What an expression comes to."""
    kind = tree["is"]
    if kind == "operand":
        return Fraction(tree["value"])
    if kind in ("count", "noted"):
        return value(tree["of"])
    if kind == "rounded":
        return Fraction(to_whole(value(tree["of"]), tree["rule"], tree.get("multiple", 1),
                                 tree.get("plus", 0)))
    if kind == "look-up":
        return Fraction(tree["entries"][tree["key"]])
    if kind == "choice":
        return chosen(tree)
    if kind == "opposite":
        return -value(tree["of"])
    if kind == "root":
        return half_up(root(value(tree["of"])), 3)
    if kind == "nearest root":
        return half_up(root(value(tree["of"])), 0)
    parts = [value(part) for part in tree["of"]]
    if kind == "along":
        stretches = zip(parts[0::3], parts[1::3], parts[2::3], strict=True)
        return half_up(sum((times * root(wide * wide + high * high)
                            for times, wide, high in stretches), Fraction(0)), 3)
    if kind == "sum":
        return sum(parts, Fraction(0))
    if kind == "product":
        return math.prod(parts, start=Fraction(1))
    first, second = parts
    if kind == "to a step":
        return math.floor(first / second + Fraction(1, 2)) * second
    if kind == "slope":
        return half_up(root(first * first + second * second), 3)
    return first - second if kind == "difference" else first / second


def root(square: Fraction) -> Fraction:
    """The square root, to far more digits than any length is printed to."""
    with localcontext(prec=60):
        return Fraction((Decimal(square.numerator) / square.denominator).sqrt())


def chosen(tree: Tree) -> Fraction:
    """The candidate that the rule chooses, of equals the first."""
    candidates = [value(one) for one in tree["candidates"]]
    figures = [value(one) for one in tree.get("given", ())]
    rule = tree["rule"]
    if rule == "the largest":
        taken = candidates.index(max(candidates))
    elif rule == "the smallest":
        taken = candidates.index(min(candidates))
    elif rule == "nearest to the first figure given":
        apart = [abs(one - figures[0]) for one in candidates]
        taken = apart.index(min(apart))
    elif rule == "adds up with the other figures given to the first":
        taken = [one + sum(figures[1:]) for one in candidates].index(figures[0])
    elif rule == "the first that, times the second figure given, reaches the first":
        taken = next((at for at, one in enumerate(candidates) if one * figures[1] >= figures[0]),
                     len(candidates) - 1)
    else:
        assert rule == ("of all but the first, the one whose figure given in its place is least; "
                        "of equals the last")
        assert len(figures) == len(candidates) - 1
        taken = max(at + 1 for at, one in enumerate(figures) if one == min(figures))
    assert taken == tree["taken"] and candidates[taken] == Fraction(tree["value"])
    return candidates[taken]


def agrees(count: Tree) -> bool:
    """Whether a count, or each of a list, is what its expression comes to."""
    made = count["expression"]
    if isinstance(made, list):
        return [value(one) for one in made] == count["value"]
    return value(made) == count["value"]


# Spoiled ones


def spoiled(tree: Tree) -> Iterator[Tree]:
    """`tree` with one figure doubled and one more, one operator changed or one choice taken
    otherwise."""
    other = {"sum": "product", "product": "sum", "difference": "sum", "quotient": "product",
             "slope": "sum", "to a step": "sum", "along": "sum"}
    for at, part in enumerate(within(tree)):
        new = deepcopy(tree)
        here = list(within(new))[at]
        if part["is"] == "operand":
            here["value"] = str(2 * Fraction(part["value"]) + 1)
        elif part["is"] in other:
            here["is"] = other[part["is"]]
        elif part["is"] == "choice":
            here["taken"] = 1 - part["taken"]
        else:
            continue
        yield new


def within(tree: Tree) -> Iterator[Tree]:
    """`tree` and everything that its value comes from; what was rejected can be any figure."""
    yield tree
    inner = tree.get("of", ())
    for part in (inner if isinstance(inner, list) else [inner]) if inner else ():
        yield from within(part)
    if tree["is"] == "choice":
        yield from within(tree["candidates"][tree["taken"]])


def notices(count: Tree) -> bool:
    try:
        return not agrees(count)
    except (AssertionError, ValueError, ZeroDivisionError):
        return True


# The reader of the sentences: a pocket calculator


NOT_FIGURES = [re.compile(pattern) for pattern in (
    r', a multiple of [^"]* for the chart "[^"]*"', r", \d+ in, \d+ out of work",
    r" \(along (?:the slope of )?(?:\d+ of the band's )?\d+ rows?"
    r"(?: and \d+ stitch(?:es)? bound off)?"
    r"(?: of the [a-z ]+)?(?:, through (?:both|all) layers)?\)",
    r"a hole of \d+ stitch(?:es)? offers ", r" of the band's \d+ stitches",
    r", as the designer gives it",
    r", as the bed counted(?:, \d+ of them in the hem)?", r"\([a-z][^()\d]*\)", r"\(\d+ % more\)",
    r", all \d+ (?:parts )?together")]
TOKEN = re.compile(r"(\d+(?:\.\d+)?)((?: [a-z_']+)*)|([-+−×÷/()√])")
RESULT = re.compile(r"(?P<sum>[^=;]*) = (?P<exact>\d+(?:\.\d+)?)(?P<rest>[^;]*)")
RULE = re.compile(
    r"^, (?P<rule>nearest even number|nearest odd number|rounded(?=[:,])|"
    r"rounded (?P<side>up|down)(?: to (?:an even number|a multiple of (?P<steps>\d+)))?|"
    r"a multiple of (?P<of>\d+)(?: plus (?P<plus>\d+))?)"
    r"(?:, a half goes up)?: (?P<number>\d+)")


def calculated(words: str) -> Fraction:
    """What a printed sum comes to, lengths in mm."""
    for pattern in NOT_FIGURES:
        words = pattern.sub("", words)
    words = words.rpartition(": ")[2].replace("the square root of", "√")
    words = re.sub(r"(stitches|rows) to 10 cm", "per_ten", words)
    tokens = [(figure, unit.strip(), sign) for figure, unit, sign in TOKEN.findall(words)]
    out, rest = added(tokens)
    assert not rest, words
    return out


def added(tokens: list[tuple[str, str, str]]) -> tuple[Fraction, list[tuple[str, str, str]]]:
    out, tokens = multiplied(tokens)
    while tokens and tokens[0][2] in ("+", "−"):
        sign, (one, tokens) = tokens[0][2], multiplied(tokens[1:])
        out = out + one if sign == "+" else out - one
    return out, tokens


def multiplied(tokens: list[tuple[str, str, str]]) -> tuple[Fraction, list[tuple[str, str, str]]]:
    out, tokens = single(tokens)
    while tokens and tokens[0][2] in ("×", "÷", "/"):
        sign, (one, tokens) = tokens[0][2], single(tokens[1:])
        out = out * one if sign == "×" else out / one
    return out, tokens


def single(tokens: list[tuple[str, str, str]]) -> tuple[Fraction, list[tuple[str, str, str]]]:
    figure, unit, sign = tokens[0]
    if sign == "√":
        square, rest = single(tokens[1:])
        return half_up(root(square), 3), rest
    if sign == "(":
        out, rest = added(tokens[1:])
        assert rest[0][2] == ")"
        return out, rest[1:]
    assert figure, tokens
    factor = {"cm": Fraction(10), "per_ten": Fraction(1, 100)}.get(unit.partition(" ")[0], 1)
    return Fraction(figure) * factor, tokens[1:]


def half_up(figure: Fraction, places: int) -> Fraction:
    return Fraction(math.floor(figure * 10 ** places + Fraction(1, 2)), 10 ** places)


def assert_calculates(sentence: str) -> None:
    for found in RESULT.finditer(sentence):
        if not re.search(r"\d", found["sum"]):
            continue  # "panels = 2" is no sum
        exact = Fraction(found["exact"])
        least = 1 if re.search(r" g | m |÷ 1 cm", found["sum"] + " ") else 2
        places = max(least, len(found["exact"].partition(".")[2]))
        each = 10 if found["rest"].startswith(" cm") else 1  # lengths are reckoned in mm
        assert half_up(calculated(found["sum"]) / each, places) == exact, sentence
        if rule := RULE.match(found["rest"]):
            of, plus = int(rule["of"] or rule["steps"] or 1), int(rule["plus"] or 0)
            if "even" in rule["rule"] or "odd" in rule["rule"]:
                of, plus = 2, int("odd" in rule["rule"])
            number, side = int(rule["number"]), rule["side"] or rule["rule"]
            assert to_whole(exact, side, of, plus) == number, sentence
            # What the calculator shows has more digits than the page: it is rounded so too.
            if not tie(exact, found["rest"], of, plus):
                shown = calculated(found["sum"])
                assert to_whole(shown, side, of, plus) == number, sentence


def tie(exact: Fraction, rest: str, of: int, plus: int) -> bool:
    """Whether the figure lies exactly between two counts, and the sentence says so."""
    return "a half goes up" in rest and ((exact - plus) / of).denominator == 2


# What stands before the figure of a part of a way has figures itself.
PART = re.compile(r"(?:half of )?\d+ (?:stitches|rows?|stitch) of [a-z' ]+"
                  r"(?:, sloping over \d+ rows?,)? (?=\d)|sleeve(?:, with its \w+,)? (?=\d)")
SLOPE = re.compile(r"the slope over (.*) and (.*)")


def reckoned(words: str) -> Fraction:
    """What the printed sum of a length comes to [mm]."""
    words = PART.sub("", words)
    if slope := SLOPE.fullmatch(words):
        return root(calculated(slope[1]) ** 2 + calculated(slope[2]) ** 2)
    return calculated(words)

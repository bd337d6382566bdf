"""Every published count is what its expression comes to, and what its sentence comes to.

The evaluator of the expressions, the rounding and the reader of the sentences are this file's own:
they read counts.json alone, and share nothing with the engine.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from copy import deepcopy
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.counted import Count
from walebook.core.counts import RULES, Rounding, Unit
from walebook.core.expression import Expression, Operand, Rounded, plain
from walebook.core.operands import WORDS, Role, spelled
from walebook.pages.band_lengths import finished
from walebook.pages.counts_json import counts_json, counts_schema
from walebook.pages.shared import shared
from walebook.proof.advice import advise_all
from walebook_site.sources import collect

ROOT = Path(__file__).parents[2]
Tree = dict[str, Any]


@cache
def published() -> dict[str, Tree]:
    """counts.json of every pattern of the collection."""
    return {proof.pattern.slug: json.loads(counts_json(proof, shared(proof), advise_all(proof)))
            for proof in collect(ROOT).proofs}


def counts(document: Tree) -> Iterator[tuple[str, Tree]]:
    """Every count of a document by name, those of the yarn too."""
    for part in ("counts", "yarn"):
        for places in document.get(part, {}).values():
            for named in places.values():
                yield from named.items()


def everything() -> Iterator[tuple[str, str, Tree]]:
    for slug, document in published().items():
        for name, count in counts(document):
            yield slug, name, count


# The evaluator


def to_whole(figure: Fraction, rule: str, of: int, plus: int) -> int:
    """A figure made whole, a half up; never less than the least such number from 0."""
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
    parts = [value(part) for part in tree["of"]]
    if kind == "sum":
        return sum(parts, Fraction(0))
    if kind == "product":
        return math.prod(parts, start=Fraction(1))
    first, second = parts
    return first - second if kind == "difference" else first / second


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
        assert rule == "the last, which was sought among many"
        taken = len(candidates) - 1
    assert taken == tree["taken"] and candidates[taken] == Fraction(tree["value"])
    return candidates[taken]


def agrees(count: Tree) -> bool:
    """Whether a count, or each of a list, is what its expression comes to."""
    made = count["expression"]
    if isinstance(made, list):
        return [value(one) for one in made] == count["value"]
    return value(made) == count["value"]


def test_every_published_expression_comes_to_its_count():
    seen = [(slug, name) for slug, name, count in everything()
            if "expression" in count and not agrees(count)]
    assert not seen
    assert sum("expression" in count for _, _, count in everything()) > 2000


def test_every_published_count_has_its_expression():
    assert not {(slug, name) for slug, name, count in everything() if "expression" not in count}


def test_the_files_meet_their_schema():
    schema = counts_schema()
    validator = jsonschema.Draft202012Validator(schema)
    for slug in ("tide-watch-jacket", "net-loft-blanket", "practice-band"):
        validator.validate(published()[slug])
    spoiled = deepcopy(published()["practice-band"])
    first = next(count for _, count in counts(spoiled) if "expression" in count)
    first["expression"]["is"] = "guess"
    assert not validator.is_valid(spoiled)


def roundings(tree: Tree) -> int:
    """The most roundings on a way from a count to one of its operands; another count's are its
    own."""
    if tree["is"] in ("count", "operand", "look-up"):
        return 0
    inner = tree.get("of", [])
    parts = [*(inner if isinstance(inner, list) else [inner]), *tree.get("candidates", ())]
    return (tree["is"] == "rounded") + max(map(roundings, parts), default=0)


def test_a_figure_is_rounded_once():
    many = {(slug, name) for slug, name, count in everything() if "expression" in count
            for tree in (count["expression"] if isinstance(count["expression"], list)
                         else [count["expression"]]) if roundings(tree) > 1}
    assert not many


def test_every_role_has_its_words():
    assert set(WORDS) == set(Role)


def test_a_single_one_is_no_plural():
    """"6 rows of the raglan − 1 row above it", as English has it."""
    of, above = (Operand(Fraction(n), Role.ROWS, name) for n, name in
                 ((6, " of the raglan"), (1, " above it")))
    assert Count(of - above, Unit.ROWS).working.startswith(
        "6 rows of the raglan − 1 row above it")
    for role, words in WORDS.items():
        single = spelled(1 / words.scale, role, "")
        assert not re.match(r"1 (?:\w+ )?(?:rows|stitches)(?! to )", single), single


# Spoiled ones


def spoiled(tree: Tree) -> Iterator[Tree]:
    """`tree` with one figure doubled and one more, one operator changed or one choice taken
    otherwise."""
    other = {"sum": "product", "product": "sum", "difference": "sum", "quotient": "product"}
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


def test_spoiled_expressions_and_values_are_noticed():
    document = published()["practice-band"] | {}
    kept, all_ = [], 0
    for _, count in [*counts(document), *counts(published()["little-lamp-cardigan"])]:
        if not isinstance(count.get("expression"), dict):
            continue
        assert notices(count | {"value": count["value"] + 1})
        for tree in spoiled(count["expression"]):
            all_ += 1
            if not notices(count | {"expression": tree}):
                kept.append(tree)
    assert all_ > 500 and len(kept) < all_ / 20, (len(kept), all_, kept[:3])


# The reader of the sentences: a pocket calculator


NOT_FIGURES = [re.compile(pattern) for pattern in (
    r', a multiple of [^"]* for the chart "[^"]*"', r", \d+ in, \d+ out of work",
    r" along (?:the slope of )?(?:\d+ of the band's )?\d+ rows?"
    r"(?: and \d+ stitch(?:es)? bound off)?"
    r"(?: of the [a-z ]+)?(?:, through (?:both|all) layers)?",
    r"a hole of \d+ stitch(?:es)? offers ", r", as the source says",
    r", as the bed counted(?:, \d+ of them in the hem)?", r"\([a-z][^()\d]*\)", r"\(\d+ % more\)",
    r", all \d+ (?:parts )?together")]
TOKEN = re.compile(r"(\d+(?:\.\d+)?)((?: [a-z_']+)*)|([-+−×÷/()])")
RESULT = re.compile(r"(?P<sum>[^=;]*) = (?P<exact>\d+(?:\.\d+)?)(?P<rest>[^;]*)")
RULE = re.compile(
    r"^, (?P<rule>even|odd|nearest|(?P<side>up|down) to (?:an even number|a multiple of "
    r"(?P<steps>\d+))|up|down|a multiple of (?P<of>\d+)(?: plus (?P<plus>\d+))?)"
    r"(?:, a half goes up)?: (?P<number>\d+)")


def calculated(words: str) -> Fraction:
    """What a printed sum comes to, lengths in mm."""
    for pattern in NOT_FIGURES:
        words = pattern.sub("", words)
    words = words.rpartition(": ")[2]
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
    if sign == "(":
        out, rest = added(tokens[1:])
        assert rest[0][2] == ")"
        return out, rest[1:]
    assert figure, tokens
    factor = {"cm": Fraction(10), "per_ten": Fraction(1, 100)}.get(unit.partition(" ")[0], 1)
    return Fraction(figure) * factor, tokens[1:]


def half_up(figure: Fraction, places: int) -> Fraction:
    return Fraction(math.floor(figure * 10 ** places + Fraction(1, 2)), 10 ** places)


def test_a_printed_figure_is_what_its_printed_sum_comes_to():
    """To the last digit that is printed, and rounded by the printed rule to the printed count."""
    seen: set[str] = set()
    for _, _, count in everything():
        made = count.get("expression")
        if isinstance(made, dict) and count["working"] not in seen:
            seen.add(count["working"])
            assert_calculates(count["working"])
    assert len(seen) > 300


def test_a_bands_finished_measures_are_what_their_printed_products_come_to():
    """To the tenth of a millimetre that the page prints; stitches and rows to three places."""
    tried = 0
    for proof in collect(ROOT).proofs:
        for done in (finished(plan) for size in proof.sizes for plan in size.plans):
            for said in (done.length.working, done.depth.working):
                sum_, _, result = said.rpartition(" = ")
                assert half_up(calculated(sum_), 1) == Fraction(result.removesuffix(" mm")), said
                tried += 1
    assert tried > 200


def assert_calculates(sentence: str) -> None:
    for found in RESULT.finditer(sentence):
        if not re.search(r"\d", found["sum"]):
            continue  # "panels = 2" is no sum
        exact = Fraction(found["exact"])
        least = 1 if re.search(r" g | m |÷ 1 cm", found["sum"] + " ") else 2
        places = max(least, len(found["exact"].partition(".")[2]))
        assert half_up(calculated(found["sum"]), places) == exact, sentence
        if rule := RULE.match(found["rest"]):
            of, plus = int(rule["of"] or rule["steps"] or 1), int(rule["plus"] or 0)
            if "even" in rule["rule"] or rule["rule"] == "odd":
                of, plus = 2, int(rule["rule"] == "odd")
            number, side = int(rule["number"]), rule["side"] or rule["rule"]
            assert to_whole(exact, side, of, plus) == number, sentence
            # What the calculator shows has more digits than the page: it is rounded so too.
            if not tie(exact, found["rest"], of, plus):
                shown = calculated(found["sum"])
                assert to_whole(shown, side, of, plus) == number, sentence


def tie(exact: Fraction, rest: str, of: int, plus: int) -> bool:
    """Whether the figure lies exactly between two counts, and the sentence says so."""
    return "a half goes up" in rest and ((exact - plus) / of).denominator == 2


@pytest.mark.parametrize("sentence", [
    "40 cm × 26.94 stitches to 10 cm = 107.74, even: 108 (1 mm longer)",
    "49.38 cm × 26.94 stitches to 10 cm + 2 for the seams = 135, even: 134 (3.7 mm shorter)",
    "27 rows × 3.563 mm a row ÷ 4.467 mm a band stitch = 21.53, nearest: 21 (2.1 mm longer)",
    "8.6 cm × 18.02 stitches to 10 cm + 1 for the seam = 16.5, nearest: 17 (2.8 mm longer)",
])
def test_sentences_that_do_not_come_out_are_noticed(sentence):
    """The first two stood on pages before their gauge was printed as closely as it takes.

    The last stood there while only the printed result was rounded: a calculator shows 16.4972.
    """
    with pytest.raises(AssertionError):
        assert_calculates(sentence)


FIGURES = st.fractions(Fraction(1, 10), 500, max_denominator=997)
OPERANDS = st.builds(Operand, FIGURES, st.sampled_from(
    [role for role in (Role.LENGTH, Role.STITCHES_PER_MM, Role.ROW_HEIGHT, Role.NUMBER,
                       Role.BAND_STITCH, Role.ROWS) if "{name}" not in WORDS[role].text[:3]]))
SUMS = st.recursive(OPERANDS, lambda parts: st.one_of(
    st.tuples(parts, parts).map(lambda two: two[0] + two[1]),
    st.tuples(parts, parts).map(lambda two: two[0] * two[1]),
    st.tuples(parts, parts).map(lambda two: two[0] / two[1])), max_leaves=5)
ROUNDINGS = st.one_of(st.sampled_from([Rounding(rule) for rule in RULES[:5]]),
                      st.builds(Rounding, st.just("multiple"), st.integers(2, 9),
                                st.integers(0, 8)))


@settings(max_examples=150)
@given(SUMS, ROUNDINGS)
def test_any_sum_is_printed_so_that_it_comes_out(figure: Expression, rounding: Rounding):
    count = Count(Rounded(figure, rounding, Fraction(5)), Unit.STITCHES)
    assert count.value == to_whole(figure.value, rounding.rule, *rounding.kind)
    if " = " in count.working:
        assert_calculates(count.working)


def test_a_count_is_a_whole_number():
    with pytest.raises(ValueError, match="not a whole number"):
        Count(plain(7) / plain(2), Unit.ROWS)


def operands(tree: Tree | list[Tree]) -> Iterator[Tree]:
    """Every operand of an expression, or of a list of them."""
    if isinstance(tree, list):
        for one in tree:
            yield from operands(one)
    elif tree["is"] == "operand":
        yield tree
    else:
        for key in ("of", "candidates", "given"):
            yield from operands(tree.get(key, []))


def test_no_length_in_a_working_is_without_a_working_itself():
    """A length is one that the source states, and then has its place there or is named. What a
    measure leaves below an armhole, a raglan or a hem is written as the sum that it is."""
    bare = {(slug, name, one["value"]) for slug, name, count in everything()
            for one in operands(count.get("expression", []))
            if one["role"] == "length" and not one.get("name") and "source" not in one}
    assert not bare

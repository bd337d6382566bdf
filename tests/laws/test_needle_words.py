"""Needles in words name exactly the needles that are meant, whatever the knitter may be told.

The words are read back by the small parser of needle_words.py.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walebook.machine.edge_steps import CloseUp
from walebook.machine.needles import Needle, Needles, between, of
from walebook.pages.program import numbered, words_of
from walebook.pages.step_diagrams import diagram_of
from walebook.program.chart_actions import Doing
from walebook.words.chart_text import HOW
from walebook.words.instruction import Instruction, Moment, StepAnchor, works
from walebook.words.words import needles_text, which

from tests.laws.needle_words import GROUP, RULE, read
from tests.laws.test_collection import SITE
from tests.whole_collection import collection

# ------------------------------------------------------------------------------ any needles


@st.composite
def nearly_even(draw: st.DrawFn) -> Needles:
    """Groups at one distance, some left out and some needles more, as shapings leave them."""
    size, by, times = (draw(st.integers(1, 4)), draw(st.integers(2, 13)), draw(st.integers(1, 60)))
    start = draw(st.integers(-120, 20))
    there = {start + by * n + k for n in range(times) for k in range(min(size, by - 1))}
    end = max(there)
    odd = st.sampled_from([*range(start - 3, start + 6), *range(-3, 4), *range(end - 5, end + 4)])
    there ^= set(draw(st.lists(odd, max_size=3)))
    return of(*(Needle(p) for p in there or {0}))


@given(nearly_even())
def test_needles_at_nearly_even_distances_are_read_back(meant: Needles) -> None:
    assert read(which(meant)) == meant
    assert read(needles_text(meant)) == meant


@given(st.sets(st.integers(-40, 39), min_size=1, max_size=40))
def test_any_needles_are_read_back(there: set[int]) -> None:
    meant = of(*map(Needle, there))
    assert read(which(meant)) == meant
    assert read(needles_text(meant)) == meant


@pytest.mark.parametrize("wrong", [
    "every other needle from L9 to R9", "2 of every 3 needles from L4 to R2",
    "every third needle from L9 to R7 (L9, L6 and so on to L3, then R2, R4 and so on to R7)",
    "L5–L3, L1 and so on to R9", "L3 to L5", "L2 and L2"])
def test_the_parser_refuses_words_that_contradict_themselves(wrong: str) -> None:
    with pytest.raises(AssertionError):
        read(wrong)


# --------------------------------------------------------------- the needles of the collection

PHRASE = re.compile(rf"(?:{RULE.pattern}|{GROUP.pattern})".replace("?P<", "?P<_"))


@cache
def moments() -> tuple[tuple[str, Moment, Instruction], ...]:
    """Every moment that is told in words, of all pieces and bands in the first and last size."""
    return tuple(
        (f"{proof.pattern.slug}/{size.size}: {title}", m, words_of(m))
        for proof in collection().proofs for size in (proof.sizes[0], proof.sizes[-1])
        for work in works(size) for title, told in numbered(work, proof.pattern) for m in told
        if type(m) is Moment)


def ranges(text: str) -> Iterator[Needles]:
    """What every run of needles in a text names; each must be readable."""
    text = re.sub(r"<[^>]+>", "", text)
    one = PHRASE.pattern
    for found in re.finditer(rf"(?:{one})(?:(?:, | and )(?:{re.sub('_', '__', one)}))*", text):
        yield read(found[0])


def test_a_step_that_gives_a_rule_names_the_needles_that_the_bed_worked() -> None:
    wrong, rules = [], 0
    for where, m, told in moments():
        step = m.steps[0]
        if not RULE.search(told.text):
            continue
        rules += 1
        named = list(ranges(told.text))
        told_of = step.doubled or step.empty if isinstance(step, CloseUp) else getattr(
            step, "needles", None)
        if told_of not in named:
            wrong.append(f"{where}: {told.text}")
    assert rules > 50
    assert not wrong, "\n".join(wrong[:9])


def test_a_needle_that_comes_back_is_put_in_a_position_that_has_a_name() -> None:
    """Pushed "to work" by hand, past its open latch, a needle drops its stitch (reading.md).

    A technique page may tell of needles that were empty; "to work" alone stands for no position.
    """
    texts = {path.name: path.read_text("utf-8") for path in SITE.rglob("*.md")}
    texts |= {f"chart, {doing}": said for doing, said in HOW.items()}
    texts |= {where: f"{told.text} {told.after}" for where, _, told in moments()}
    vague = [(where, found[0]) for where, text in texts.items()
             for found in re.finditer(r"\b(?:[Pp]ut|[Bb]ring|[Pp]ush)\b[^.;:]*\bto work\b[^.]*",
                                      " ".join(text.split()))]
    assert not vague, vague
    assert "upper working position" in HOW[Doing.TUCK]


def test_a_diagram_names_every_needle_that_it_shows_and_leaves_out_none_that_is_loaded() -> None:
    wrong, figures = [], 0
    for where, m, told in moments():
        drawn = diagram_of(m, told, StepAnchor("a", 1))
        if not drawn or m.after.second:
            continue
        figures += 1
        caption = re.search(r"<figcaption[^>]*>(.*?)</figcaption>", drawn)
        assert caption
        named: list[Needle] = []
        for said in caption[1].removesuffix(".").split(". "):
            names = re.sub(",? and beyond", "", said.partition(": ")[2])
            others = names.removeprefix("all others from ")
            named += [each for each in read(others) if others == names or each not in named]
        assert len(named) == len(set(named)), f"{where}: {caption[1]}"
        if not m.after.loaded <= of(*named):
            wrong.append(f"{where}: holds {m.after.loaded}: {caption[1]}")
        if of(*named) != between(of(*named).first, of(*named).last):
            wrong.append(f"{where}: not every needle: {caption[1]}")
    assert figures > 100
    assert not wrong, "\n".join(wrong[:9])

"""What a size page tells the bench of each step, against the beds that knitted the programs.

The tokens are read by a reader written from their description alone; what they say is held to the
states that the bed recorded and to the steps that it ran (the oracle), not to the code that wrote
them.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from walebook.forms.registry import FORMS
from walebook.machine import steps
from walebook.machine import two_yarn_steps as two_yarns
from walebook.machine.needles import Needle, Needles, of
from walebook.machine.trace import State
from walebook.pages import page_names, write_page
from walebook.pages.from_texts import prove_made
from walebook.pages.program import numbered, steps_html
from walebook.proof.proof import Proof, Work
from walebook.words.charted_rows import ChartedRows
from walebook.words.instruction import Moment, works
from walebook.words.making_up_instructions import instructions
from walebook.words.repeats import Goes
from walebook.words.shaped_edges import ShapingBlock

from tests.laws.test_page_facts import collection
from tests.laws.texts import read_folder, texts_of
from tests.needle_names import needle
from tests.site.garments import assembled

ROOT = Path(__file__).parents[2]
CHARTED = ("net-loft-blanket", "lamplighter-hat", "salt-marsh-pullover", "quayside-waistcoat",
           "watch-below-robe")
SECTION = re.compile(r"([hebn]|l\d+:)")


def needles_of(written: str) -> Needles:
    """The needles of one section of a token."""
    out: list[Needle] = []
    for run in filter(None, written.split("+")):
        if "*" in run:
            first, rule, times = run.split("*")
            size, far = map(int, rule.split("/"))
            start = needle(first).place
            out += [Needle(start + far * n + k) for n in range(int(times)) for k in range(size)]
        else:
            ends = run.split("-")
            out += [Needle(at) for at in range(needle(ends[0]).place, needle(ends[-1]).place + 1)]
    return of(*out)


def sections(token: str) -> dict[str, str]:
    """A token's sections by their letters; "" for the needles in work."""
    first, *rest = SECTION.split(token)
    return {"": "" if first == "0" else first, **dict(zip(rest[::2], rest[1::2], strict=True))}


def works_of(proof: Proof) -> Iterator[Work]:
    yield from works(proof.sizes[len(proof.sizes) // 2])


def groups(work: Work, proof: Proof) -> list[Moment | ShapingBlock]:
    return [each for _, group in numbered(work, proof.pattern) for each in group]


def tokens(page: str, name: str) -> list[str]:
    """The tokens of every list of steps, one a step."""
    out: list[str] = []
    for start in re.findall(r'<ol class="wb-steps"[^>]*>', page):
        many = len(re.findall(r'data-wb-run="([^"]*)"', start)[0].split())
        found = re.findall(rf' data-wb-{name}="([^"]*)"', start)
        out += found[0].split(" ") if found else ["0"] * many
    return out


def states(told: Moment | ShapingBlock) -> list[State]:
    return [e.after for e in told.events] if isinstance(told, ShapingBlock) else [told.after]


@cache
def charted() -> tuple[Proof, ...]:
    return tuple(proof for proof in collection() if proof.pattern.slug in CHARTED)


def every(name: str) -> tuple[Proof, ...]:
    return charted() if name == "charted" else (assembled(name),)


@pytest.mark.parametrize("name", ["set-in cardigan", "triangular shawl", "charted"])
def test_the_needles_told_to_the_bench_are_those_of_the_bed(name: str) -> None:
    looked = 0
    for proof in every(name):
        for work in works_of(proof):
            page = steps_html(work, proof.pattern, "x")
            told, known = groups(work, proof), ""
            for each, token in zip(told, tokens(page, "bed"), strict=True):
                rows = (known if token == "-" else token).split(";")
                for state, row in zip(states(each)[-len(rows):], rows, strict=True):
                    _is_said(state, sections(row))
                    looked += 1
                known = re.split("n", rows[-1])[0]
    assert looked > 20


def _is_said(state: State, said: dict[str, str]) -> None:
    held = state.holding & state.loaded
    assert needles_of(said[""]) == state.loaded - held
    assert needles_of(said.get("h", "")) == held
    assert needles_of(said.get("e", "")) == state.working - state.loaded
    assert needles_of(said.get("b", "")) == (state.second.loaded if state.second else Needles(0))
    for number in range(2, 9):
        exactly = [n for n in state.loaded
                   if sum(n in on for _, on in state.loops) == number]
        assert int(said.get(f"l{number}:", 0)) == len(exactly)


LETTER = {steps.Cross: "x", steps.Tuck: "t", steps.Slip: "s", two_yarns.PickContrast: "c",
          steps.Transfer: "m"}


def readied(work: Work, told: Moment | ShapingBlock) -> list[tuple[int, list[tuple[str, Needles]]]]:
    """The rows of a charted step off the program: the counter after each, and what is readied."""
    first = told.first if isinstance(told, ShapingBlock) else len(told.earlier)
    upto = told.upto if isinstance(told, ShapingBlock) else first + len(told.steps)
    out, before = [], []
    for step, state in zip(work.program.steps[first:upto], work.trace.states[first:upto],
                           strict=True):
        if isinstance(step, steps.Knit):
            out.append((state.counter, before))
            before = []
        elif type(step) in LETTER and not getattr(step, "rest", False):
            before.append((LETTER[type(step)], step.needles))
    return out


def test_every_charted_row_told_to_the_bench_readies_the_needles_of_the_program() -> None:
    rows_seen = 0
    for proof in charted():
        for work in works_of(proof):
            page = steps_html(work, proof.pattern, "x")
            data = re.search(r'id="x-rows">(.*?)</script>', page)
            if data is None:
                continue
            chart = json.loads(data[1])
            for each, token in zip(groups(work, proof), tokens(page, "rows"), strict=True):
                if not isinstance(each, Goes | ChartedRows) and not (
                        isinstance(each, ShapingBlock) and each.events[0].charted):
                    assert token == "0"
                    continue
                cut = dict(entry.split("=") for entry in token.split(",") if "=" in entry)
                for counter, done in readied(work, each):
                    own = chart["rows"][(counter - 1) % len(chart["rows"])]
                    numbers = [int(n) for n in cut[str(counter)].split(".") if n] \
                        if str(counter) in cut else own
                    drawn = [chart["texts"][n][1] for n in numbers]
                    assert [(d[0], needles_of(d[1:])) for d in drawn if d] == done
                    rows_seen += 1
    assert rows_seen > 500


def test_every_step_at_the_machine_has_an_act_in_few_words() -> None:
    """An act is a `b` of the step's own paragraphs, outside the clause that tells how far."""
    found: dict[str, str] = {}
    for proof in (*charted(), assembled("set-in cardigan")):
        for work in works_of(proof):
            page = steps_html(work, proof.pattern, "x")
            for item in re.findall(r'<li id="x-\d+"><p>(.*?)</p>', page):
                bare = re.sub(r"<(i|em|small)>.*?</\1>", "", item)
                acts = re.findall(r"<b>(.*?)</b>", bare)
                assert acts, item
                found |= {act: item for act in acts if len(act) > LONGEST or act.isdigit()}
    assert found == {}


def test_every_step_of_the_making_up_has_an_act_in_few_words() -> None:
    """At its head, no longer than at the machine."""
    for form in FORMS:
        for size in assembled(form).sizes:
            told = instructions(size.assembled.garment.tasks, size.assembled.garment.joins,
                                marked=True, corded=True)
            acts = [re.findall(r"<b>([^<]+)</b>", step.text) for step in told]
            assert all(step.text.startswith("<b>") for step in told)
            assert [act for act in acts if not act or max(map(len, act)) > LONGEST] == []


LONGEST = 90  # characters that fit a screen in four lines at 34 px


@pytest.mark.parametrize("slug", ["tideline-hat", "harbour-light-mittens"])
def test_a_bed_that_stays_is_not_written_again(slug: str) -> None:
    """Needles that are those of the step before are "-": a page has a limit of bytes."""
    proof, found = prove_made(texts_of(ROOT, slug), **read_folder(ROOT))
    assert proof is not None, found
    page = write_page(proof, page_names(proof)[1]).text
    lists = [each.split(" ") for each in re.findall(r' data-wb-bed="([^"]*)"', page)]
    assert sum(each.count("-") for each in lists) > 5
    assert not [one for each in lists for one, then in pairwise(each) if one == then != "-"]


@pytest.mark.parametrize("slug", ["tideline-hat", "harbour-light-mittens"])
def test_the_bench_knows_every_dial_that_the_steps_set(slug: str) -> None:
    """The words of the steps are what it is held to."""
    proof, found = prove_made(texts_of(ROOT, slug), **read_folder(ROOT))
    assert proof is not None, found
    page = write_page(proof, page_names(proof)[1]).text
    told = {dial for each in re.findall(r' data-wb-run="([^"]*)"', page)
            for dial in re.findall(r"d([\d.]+)", each)}
    said = set(re.findall(r"Set (?:the|both) dials? to ([\d.]+)\b", page))
    assert len(said) > 2
    assert told == said

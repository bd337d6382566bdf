"""Whatever is pressed in whatever order, counter and place agree with the program on the bed.

The oracle is the program as the virtual bed ran it: the states after its steps. The scripts read
the page and never the program; that both agree is the evidence.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from playwright.sync_api import Browser, Page
from walebook.machine.steps import Knit, Side
from walebook.machine.trace import State
from walebook.pages.pieces import piece_anchor
from walebook.pages.program import numbered
from walebook.pages.strips import strip_anchor
from walebook.proof.proof import Proof, Strip, Work
from walebook.words.at_bench import NOTHING, run_of, yarns_of
from walebook.words.instruction import Moment, works

from tests.scale import examples
from tests.site.garments import assembled
from tests.site.quay_lamp import PATTERNS, pages, proved

SCRIPTS = Path(__file__).parents[2] / "site_src" / "assets" / "bench"
SOURCES = {"picot band": (lambda: proved(PATTERNS["picot"]), "m"),
           "turned band": (lambda: proved(PATTERNS["turned"]), "m"),
           "cardigan": (lambda: assembled("set-in cardigan"), "m"),
           "shawl": (lambda: assembled("triangular shawl"), "m")}
TOKEN = re.compile(r"(\d+)([lr])(?:\+(\d+))?(?:d([\d.]+))?(?:y(\d*))?(?:@([\d:,]+))?")


@dataclass(frozen=True)
class Instruction:
    """A numbered step as the bed knows it: its state after it, and the rows knitted in it.

    `stops` are row counters at which something is done and the stitches then in work, where it
    is done more than once.
    """

    after: State
    rows: int
    stops: tuple[tuple[int, int], ...] = ()


def anchor(work: Work) -> str:
    return strip_anchor(work) if isinstance(work, Strip) else piece_anchor(work)


@cache
def source(name: str) -> Proof:
    return SOURCES[name][0]()


@cache
def told(name: str) -> dict[str, tuple[Instruction, ...]]:
    """What the bed says of each part's numbered steps, in the source's middle size."""
    proof = source(name)
    size = next(s for s in proof.sizes if s.size == "M")
    return {anchor(work): tuple(_told(work, proof)) for work in works(size)}


def _told(work: Work, proof: Proof) -> Iterator[Instruction]:
    done = 0
    for _, group in numbered(work, proof.pattern):
        for each in group:
            upto = done + len(each.steps) if isinstance(each, Moment) else each.upto
            rows = sum(s.rows for s in work.program.steps[done:upto] if isinstance(s, Knit))
            events = () if isinstance(each, Moment) else each.events
            stops = tuple((e.counter, len(e.after.loaded - e.after.holding)) for e in events)
            yield Instruction(work.trace.states[upto - 1], rows, stops if len(stops) > 1 else ())
            done = upto
    assert done == len(work.program.steps)


@pytest.mark.parametrize("name", SOURCES)
def test_the_page_says_of_every_step_what_the_bed_saw(name: str) -> None:
    size = next(s for s in source(name).sizes if s.size == "M")
    for work in works(size):
        steps, known, yarns = iter(told(name)[anchor(work)]), NOTHING, yarns_of(work.program)
        dial, yarn = "", ""
        for _, group in numbered(work, source(name).pattern):
            written, known = run_of(group, known, yarns)
            for token in written.split('"')[1].split():
                step, said = next(steps), TOKEN.fullmatch(token)
                assert said is not None, token
                assert int(said[1]) == step.after.counter
                assert said[2] == step.after.side.value[0]
                assert int(said[3] or 0) == step.rows
                dial = said[4] or dial
                yarn = yarn if said[5] is None else yarns[int(said[5])] if said[5] else ""
                assert yarn == step.after.feeder
                assert dial == (str(step.after.dial) if step.after.dial else "")
        assert next(steps, None) is None


@pytest.fixture(scope="module", params=SOURCES)
def opened(request: pytest.FixtureRequest, browser: Browser) -> Iterator[tuple[str, Page]]:
    """A generated page with the scripts that read it and move on it, and nothing else."""
    proof, file = source(request.param), SOURCES[request.param][1]
    context = browser.new_context()
    page = context.new_page()
    page.set_content(pages(proof)[f"patterns/{proof.pattern.slug}/{file}.md"])
    for script in ("../texts", "texts", "store", "elements", "steps", "acts", "beds", "place",
                   "bookmark"):
        page.add_script_tag(content=(SCRIPTS / f"{script}.js").read_text(encoding="utf-8"))
    page.evaluate("window.parts = walebook.steps.read(document)")
    yield request.param, page
    context.close()


# Knits as she would: acts, reloads (what is kept is written as text and read back), changes how
# she counts; answers every place with what the page then shows.
KNIT = """([key, acts]) => {
    const part = parts.find(each => each.key === key), { place, bookmark } = walebook;
    const edition = {pattern: 'p', version: '1', size: 's', title: 't'};
    let knitting = place.begin(), mode = place.STEPS;
    const look = () => ({step: knitting.step, rows: knitting.rows, past: knitting.past.length,
        counter: place.counter(part, knitting), side: place.side(part, knitting)});
    const seen = acts.map(([act, number]) => {
        if (act === 'mode') mode = number % 2 ? place.ROWS : place.STEPS;
        else if (act === 'reload') {
            bookmark.keep(edition, part, key, knitting);
            const { step, rows, past } = bookmark.placeOf(edition, key);
            knitting = {...place.within(part, {step, rows}), past};
        } else knitting = place.act(part, knitting, act, mode, number % (part.steps.length + 1));
        return look();
    });
    const last = look();
    while (knitting.past.length) knitting = place.act(part, knitting, 'undo', mode);
    return {seen, undone: look(), last};
}"""

ACTS = st.lists(st.tuples(
    st.sampled_from(("forward",) * 12 + ("undo", "undo", "undo", "reload", "jump", "finish",
                                         "mode")), st.integers(0, 400)), min_size=1, max_size=120)


def check(steps: tuple[Instruction, ...], place: dict[str, Any]) -> None:
    """A place holds what the bed had after the step before it, and a row more for each row."""
    at, rows = place["step"], place["rows"]
    assert 0 <= at <= len(steps)
    assert 0 <= rows <= (steps[at].rows if at < len(steps) else 0)
    if at < len(steps) and steps[at].rows:
        after, left = steps[at].after, steps[at].rows - rows
        assert place["counter"] == after.counter - left
        assert place["side"] == (after.side.other if left % 2 else after.side).value
    elif at:
        assert place["counter"] == steps[at - 1].after.counter
        assert place["side"] == steps[at - 1].after.side.value
    if at and not rows:
        assert place["counter"] == steps[at - 1].after.counter


@settings(max_examples=examples(40), deadline=None)
@given(data=st.data())
def test_any_sequence_keeps_counter_and_place_with_the_program(
        opened: tuple[str, Page], data: st.DataObject) -> None:
    name, page = opened
    key = data.draw(st.sampled_from(sorted(told(name))))
    acts = data.draw(ACTS)
    answer = page.evaluate(KNIT, [key, [list(act) for act in acts]])
    before = {"step": 0, "rows": 0, "past": 0}
    for (act, _), place in zip(acts, answer["seen"], strict=True):
        check(told(name)[key], place)
        moved = (place["step"], place["rows"]) != (before["step"], before["rows"])
        if act in ("reload", "mode"):
            assert not moved and place["past"] == before["past"]
        elif act == "undo":
            assert place["past"] == max(0, before["past"] - 1)
        else:
            assert place["past"] == before["past"] + moved
        before = place
    assert (answer["undone"]["step"], answer["undone"]["rows"]) == (0, 0)


def test_row_by_row_every_row_of_the_program_is_pressed_once(opened: tuple[str, Page]) -> None:
    """And back again by as many presses, through the same places in reverse."""
    name, page = opened
    for key, steps in told(name).items():
        there, back = page.evaluate("""key => {
            const part = parts.find(each => each.key === key), { place } = walebook;
            const look = ({step, rows}) => ({step, rows, counter: place.counter(part, {step, rows}),
                side: place.side(part, {step, rows})});
            const walk = (knitting, act) => {
                const seen = [];
                for (let next; (next = place.act(part, knitting, act, place.ROWS)) !== knitting;
                    knitting = next) seen.push(look(knitting));
                return [...seen, look(knitting)];
            };
            return [walk(place.begin(), 'forward'),
                walk({step: part.steps.length, rows: 0, past: []}, 'undo')];
        }""", key)
        assert back == there[::-1]
        for place in there:
            check(steps, place)
        presses = len(steps) + sum(step.rows for step in steps if step.rows > 1)
        assert len(there) - 1 == presses


def test_the_carriage_starts_where_the_program_says(opened: tuple[str, Page]) -> None:
    name, page = opened
    size = next(s for s in source(name).sizes if s.size == "M")
    starts = page.evaluate("Object.fromEntries(parts.map(part => [part.key, part.starts.side]))")
    for work in works(size):
        assert Side(starts[anchor(work)]) is work.program.starts


def test_every_row_at_which_something_is_done_is_a_stop(opened: tuple[str, Page]) -> None:
    name, page = opened
    for key, steps in told(name).items():
        stops = page.evaluate("""key => parts.find(each => each.key === key).steps.map(step =>
            step.stops.map(stop => [stop.counter, parseInt(stop.left, 10)]))""", key)
        assert [[tuple(stop) for stop in each] for each in stops] == [
            list(step.stops) for step in steps]

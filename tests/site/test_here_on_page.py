"""Where the knitter stands, on the page of a size: in the order of work and in the card that goes
on, from the place that is kept."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from tests.laws.test_bench_facts import groups
from tests.site.test_bench_charted import states
from tests.site.test_bench_screens import UPRIGHT, opened, proofs

SLUG, SIZE, SLEEVE = "slack-tide-cardigan", "M", "p-sleeve"
STEP, HEM = 17, 6  # steps of the right front, in its body and its hem, from 1
GO = """([name, step]) => {
    walebook.bench.open(name);
    walebook.bench.act('jump', step);
    document.querySelector('dialog.wb-bench').close();
}"""
ORDER = """() => Object.fromEntries([...document.querySelectorAll('.wb-order > li')].map(item => [
    item.querySelector('a').getAttribute('href').slice(1).replace(/-steps$/, ''),
    { state: item.className,
      far: [...item.querySelectorAll('.wb-order-place')].map(e => e.textContent)[0],
      filled: item.querySelectorAll('.wb-knitted').length,
      lines: [...item.querySelectorAll('.wb-row-at')].map(e => e.getBBox().y) }]))"""
BOXES = """key => [...document.querySelectorAll(`#o-${key} path`)].map(each => each.getBBox())
    .map(box => [box.y, box.height])"""


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page that was never visited."""
    page = opened(browser, (SLUG, SIZE.lower()), UPRIGHT)
    page.evaluate("localStorage.clear()")
    page.reload()
    yield page
    page.context.close()


def order(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate(ORDER)
    return found


def test_a_first_visit_has_no_marks(page: Page) -> None:
    shown = order(page)
    assert len(shown) == 9
    assert {(each["state"], each["filled"], len(each["lines"])) for each in shown.values()} == {
        ("", 0, 0)}
    assert not page.locator(".wb-order-place, .wb-here").count()


def test_each_part_of_the_order_of_work_is_done_begun_or_untouched(page: Page) -> None:
    """The oracle of the red line: the rows of the piece, and what the bed's row counter showed."""
    steps = page.evaluate("walebook.bench.parts.find(each => each.key === 'p-back').steps.length")
    for name, step in [("p-back", steps), (SLEEVE, 99), (f"{SLEEVE}~2", 3),
                       ("p-right-front", STEP - 1)]:
        page.evaluate(GO, [name, step])
    shown = order(page)
    back, front, sleeve = shown["p-back"], shown["p-right-front"], shown[SLEEVE]
    assert (back["state"], back["far"], back["filled"], back["lines"]) == (
        "wb-is-done", "Done.", 1, [])
    assert (front["state"], front["far"], front["filled"]) == (
        "wb-is-begun", f"You are at step {STEP}.", 1)
    assert sleeve["far"] == "First: done. Second: you are at step 4."
    assert {key for key, each in shown.items() if each["state"] or each["far"]} == {
        "p-back", "p-right-front", SLEEVE}

    proof = proofs()[SLUG]
    size = next(each for each in proof.sizes if each.size == SIZE)
    work = next(each for each in size.pieces if each.piece.key == "right_front")
    row = states(groups(work, proof)[STEP - 1], work)[0].counter
    (top, high), (hem, _) = page.evaluate(BOXES, "p-right-front")
    assert 0 < row < work.piece.rows
    assert front["lines"] == [pytest.approx(
        hem - row / work.piece.rows * (hem - top), abs=high / work.piece.rows)]
    card = page.locator(".wb-go").inner_text()
    assert f"step {STEP} of " in card and f"Row counter {row}, carriage on the " in card
    assert page.locator(".wb-go .wb-row-at").count() == 1


def test_the_marks_are_silent_to_axe_and_stay_off_paper(page: Page) -> None:
    page.evaluate(GO, ["p-right-front", STEP - 1])
    page.evaluate(GO, ["p-left-front", HEM - 1])
    assert page.locator(".wb-order-place:visible").count() == 2
    found = Axe().run(page, context=".wb-order").response["violations"]
    assert [each["id"] for each in found] == []
    page.emulate_media(media="print")
    assert page.locator(".wb-order-place:visible").count() == 0
    assert {each["display"] for each in page.evaluate(
        "[...document.querySelectorAll('.wb-here')].map(e => ({display: "
        "getComputedStyle(e).display}))")} == {"none"}

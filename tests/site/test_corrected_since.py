"""A knitter with an older version reads what was corrected: on the page, and at the step.

What is kept is a place and a file as version 1.0.1 of the page writes them; the page is then served
as version 1.1.0, with corrections. What must hold are the laws of keeping a place, and that it is
said where it matters; nothing is copied from what the scripts answer.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, Route

from . import test_at_the_bench
from .conftest import begin_at
from .test_at_the_bench import BAND, PART, at, begin, choose, go_on, jump, leave
from .test_places_kept import KEY, load, store, stored

context, page = test_at_the_bench.context, test_at_the_bench.page  # the fixtures
OTHER = "front-left"
STEP, TEXT = 5, "Band stitches 156, not 154."
AT_STEP = {"version": "1.1.0", "text": TEXT, "parts": [PART, OTHER], "step": STEP}
HEAD = ".wb-top .wb-corrected"
FACTS = re.compile(r'<script[^>]* id="?wb-facts"?[^>]*>(.*?)</script>', re.DOTALL)
FACTS_OPEN = '<script type="application/json" id="wb-facts">'
SHOWN = ".wb-bench-body > .wb-corrected"


def publish(page: Page, *corrections: dict[str, Any], version: str = "1.1.0", path: str = BAND
            ) -> None:
    """Serve the page as a later version with these corrections, and load it."""
    def later(route: Route) -> None:
        answer = route.fetch()
        start, facts, end = FACTS.split(answer.text(), maxsplit=1)
        new = json.loads(facts) | {"version": version, "corrections": corrections}
        route.fulfill(response=answer, body=start + FACTS_OPEN + json.dumps(new).replace(
            "</", "<\\/") + "</script>" + end)
    page.unroute(f"**/{path}")
    page.route(f"**/{path}", later)
    page.reload()


@pytest.fixture
def begun(page: Page) -> str:
    """The right front band was begun with version 1.0.1, and left at its third step."""
    begin(page)
    go_on(page, 2)
    leave(page)
    kept = stored(page)
    assert kept is not None and json.loads(kept)["version"] == "1.0.1"
    return kept


def open_part(page: Page, button: str = "text=Go on at step") -> None:
    begin_at(page, PART)
    page.click(f"#wb-changed >> {button}")


def test_the_page_says_so_at_its_head_and_at_the_step_and_keeps_the_place(
        page: Page, begun: str) -> None:
    publish(page, AT_STEP)
    page.wait_for_selector(HEAD, state="attached")
    said = page.inner_text(HEAD)
    assert f"Your size changed in 1.1.0: {TEXT}" in said
    assert "If you have not reached the step, knit it as this page says" in said
    assert page.eval_on_selector_all(f"{HEAD} a", "all => all.map(a => a.hash)") == [
        f"#{PART}-{STEP}"]  # the left one was not begun
    steps = page.eval_on_selector_all(
        ".wb-steps .wb-corrected", "all => all.map(p => p.parentElement.id)")
    assert steps == [f"{PART}-{STEP}"]
    assert stored(page) == begun
    page.click(f"{HEAD} a")
    assert page.locator(f"#{PART}-{STEP} .wb-corrected").is_visible()


def test_the_bench_asks_once_and_says_it_at_the_step_each_time(page: Page, begun: str) -> None:
    publish(page, AT_STEP)
    begin_at(page, PART)
    assert f"If you have not reached step {STEP}, knit it as this page says." in page.inner_text(
        "#wb-changed")
    page.click("#wb-changed >> text=Go on at step 3")
    assert at(page) == (2, 0) and not page.locator(SHOWN).count()
    jump(page, STEP - 1)
    assert f"Your size changed in 1.1.0: {TEXT}" in page.inner_text(SHOWN)
    page.reload()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert at(page) == (STEP - 1, 0) and not page.locator("#wb-changed").count()
    assert TEXT in page.inner_text(SHOWN)


def test_who_begins_with_the_new_version_reads_nothing(page: Page, begun: str) -> None:
    publish(page, AT_STEP)
    open_part(page, "text=Begin this part again")
    jump(page, STEP - 1)
    assert not page.locator(SHOWN).count()
    leave(page)
    assert not page.locator(".wb-corrected").count()
    begin_at(page, OTHER)
    jump(page, STEP - 1)
    assert not page.locator(SHOWN).count()


def test_versions_are_compared_number_by_number(page: Page) -> None:
    """1.10 comes after 1.9, and 1.1 is 1.1.0."""
    compare = "([a, b]) => Math.sign(walebook.corrected.compare(a, b))"
    assert [page.evaluate(compare, pair) for pair in (
        ["1.9", "1.10"], ["1.1", "1.1.0"], ["2", "1.9.9"], ["1.0.1", "1.0.1"])] == [-1, 0, 1, 0]


def test_every_version_since_she_began_is_told(page: Page, begun: str) -> None:
    later = AT_STEP | {"version": "1.10", "text": "A row more."}
    publish(page, AT_STEP | {"version": "1.1"}, version="1.1")
    open_part(page)
    leave(page)
    publish(page, AT_STEP | {"version": "1.1"}, later, version="1.10")
    assert page.locator(f"{HEAD} p").count() == 2
    open_part(page)
    jump(page, STEP - 1)
    assert page.locator(SHOWN).count() == 2


def test_a_correction_before_she_began_and_one_of_another_band_are_not_hers(
        page: Page, begun: str) -> None:
    publish(page, AT_STEP | {"version": "1.0.0"}, AT_STEP | {"version": "0.9.12"},
            AT_STEP | {"parts": [OTHER]})
    assert page.locator(".wb-corrected").count() == 0


def test_a_correction_without_a_step_stands_at_the_head_and_at_the_first_step(
        page: Page, begun: str) -> None:
    publish(page, {"version": "1.1.0", "text": "Another yarn."})
    assert "Another yarn. Begun with an older version: Front band" in page.inner_text(HEAD)
    open_part(page)
    assert not page.locator(SHOWN).count()
    jump(page, 0)
    assert "compare what you have knitted" in page.inner_text(SHOWN).lower()


def test_a_kept_file_of_the_older_version_says_the_same(page: Page, begun: str) -> None:
    """As the file that "Save all to a file" writes; one from before `began` has its version."""
    packed = page.evaluate("walebook.carry.pack()")
    older = {key: value for key, value in json.loads(begun).items() if key != "began"}
    page.evaluate("localStorage.clear()")
    publish(page, AT_STEP)
    assert page.locator(".wb-corrected").count() == 0
    load(page, packed)
    page.click("#wb-settings >> text=Close")
    page.reload()
    page.wait_for_selector(HEAD, state="attached")
    store(page, json.dumps(older))
    page.reload()
    assert TEXT in page.inner_text(HEAD)
    open_part(page)
    jump(page, STEP - 1)
    assert TEXT in page.inner_text(SHOWN)
    assert json.loads(stored(page, KEY) or "")["began"] == "1.0.1"


def test_a_step_of_the_making_up_goes_by_the_number_on_the_page(page: Page, address: str) -> None:
    """Its steps are numbered through, also where a band is worked between them."""
    path = "patterns/cutwater-pullover/index.html"
    page.goto(f"{address}/{path}")
    sizes = page.evaluate("JSON.parse(document.getElementById('wb-facts').textContent).sizes")
    path = path.replace("index", next(iter(sizes.values())))
    page.goto(f"{address}/{path}")
    part = "make-up-2"
    name = page.locator(f"li[id^='{part}-']").nth(1).get_attribute("id") or ""
    number = name.rpartition("-")[2]
    assert int(number) > 2, "the second part of the making up begins behind the first"
    begin(page, part)
    leave(page)
    publish(page, AT_STEP | {"version": "9.0.0", "parts": [part], "step": 2}, version="9.0.0",
            path=path)
    page.wait_for_selector(HEAD, state="attached")
    link = page.locator(f"{HEAD} a")
    assert link.get_attribute("href") == f"#{name}"
    assert (link.text_content() or "").startswith(f"step {number} of Making up")
    assert page.locator(f"#{name} .wb-corrected").count() == 1


def test_axe_finds_nothing_on_a_corrected_page_and_step(page: Page, begun: str) -> None:
    """axe-core 4, all its rules."""
    publish(page, AT_STEP)
    page.click(f"{HEAD} a")
    assert Axe().run(page).response["violations"] == []
    choose(page, pause="0")
    open_part(page)
    jump(page, STEP - 1)
    page.wait_for_timeout(350)
    assert Axe().run(page).response["violations"] == []


def test_a_pattern_of_the_demo_says_what_its_record_and_its_step_have(
        page: Page, address: str) -> None:
    """The correction of the Capstan hat names rows that its step knits and its record has."""
    slug, part = "capstan-hat", "p-hat"
    page.goto(f"{address}/patterns/{slug}/man.html")
    one, = [each for each in page.evaluate("walebook.steps.corrections(document)")
            if "step" in each]
    text = page.text_content(f"#{part}-{one['step']}") or ""
    rows = one["text"].partition(": ")[2].partition(" rows")[0]
    assert rows.isdigit() and f"Knit {rows} rows" in text
    folder = Path(__file__).parents[2] / "patterns" / slug
    record = json.loads((folder / "published.json").read_text(encoding="utf-8"))
    record_is, said_in = ([int(n) for n in of["version"].split(".")] for of in (record, one))
    assert record_is >= said_in
    assert record["counts"]["man"]["hat"]["rows_to_crown"] == f"{rows} rows"
    begin(page, part)
    leave(page)
    key = f"place/{slug}/man/{part}"
    kept = json.loads(stored(page, key) or "")
    store(page, json.dumps(kept | {"version": "1.0.0", "began": "1.0.0", "step": 3}), key)
    page.reload()
    assert one["text"] in page.inner_text(HEAD)
    page.goto(f"{address}/patterns/{slug}/tween.html")
    assert page.locator(".wb-corrected").count() == 0
    assert one["text"] not in page.inner_text("article")

"""A size page knitted from in the browser: every step, count, place and refusal of the bench.

What must hold is the page's own text, the web's published rules (named where they are used) and
the laws of keeping a place; nothing is copied from what the scripts answer.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, Route

from .conftest import begin_at

BAND = "patterns/practice-band/3-months.html"
GARMENT = "patterns/little-lamp-cardigan/6-mo.html"
PART = "front-right"
FORWARD, UNDO = ".wb-zone-forward", ".wb-zone-undo"
TARGET = 64  # px, the least that a knuckle or thumb needs: the makers' own rule, no source


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    made = browser.new_context(viewport={"width": 360, "height": 740}, has_touch=True,
                               service_workers="block")
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext, address: str) -> Page:
    """The practice band's page, the bench not yet open."""
    made = context.new_page()
    made.goto(f"{address}/{BAND}")
    return made


def choose(page: Page, **settings: str | bool) -> None:
    """Choose settings as the settings' own controls do, without opening them."""
    page.evaluate("all => Object.entries(all).forEach(each => walebook.settings.choose(...each))",
                  settings)


def begin(page: Page, part: str = PART, **settings: str | bool) -> None:
    """Open the bench by the button under a part, touches not held apart unless asked."""
    choose(page, **{"pause": "0", **settings})
    begin_at(page, part)
    page.wait_for_selector("dialog.wb-bench[open]")


def until(page: Page, true: str) -> None:
    """Wait until an expression holds; the pages' own policy forbids the browser's way of asking."""
    for _ in range(100):
        if page.evaluate(true):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"never came true: {true}")


def leave(page: Page) -> None:
    """Close the bench, and wait until the page has noted it: a page that is loaded before that
    opens the bench again."""
    page.keyboard.press("Escape")
    until(page, "walebook.bench.at() === null")


def at(page: Page) -> tuple[int, int]:
    place = page.evaluate("walebook.bench.at()")
    return place["step"], place["rows"]


def where(page: Page) -> str:
    return page.inner_text(".wb-bench-where")


def told(page: Page) -> str:
    line = page.locator(".wb-bench-told")
    return line.inner_text() if line.is_visible() else ""


def texts(page: Page, part: str = PART) -> list[str]:
    """The steps of a part as the page itself has them."""
    return page.eval_on_selector_all(
        f"ol.wb-steps > li[id^={part}-]",
        "all => all.map(li => li.textContent.replace(/\\s+/g, ' ').trim())")


def step_of(page: Page, words: str, part: str = PART) -> int:
    """The number, from 0, of the first step of a part that has these words."""
    return next(n for n, text in enumerate(texts(page, part)) if words in text)


def jump(page: Page, step: int) -> None:
    page.evaluate("n => walebook.bench.act('jump', n)", step)


# What a touch of Done does not end: a step that goes on, a place of several that is not the last.
TURNS = re.compile(r"Go on|Done\s+(\d+) of (?!\1$)")


def turns_only(page: Page) -> bool:
    """True where Done shows the next screen of the same line."""
    return TURNS.match(page.inner_text(FORWARD)) is not None


def go_on(page: Page, times: int = 1) -> None:
    """Touch Done until the place has changed; only a screen that goes on leaves it as it was."""
    for _ in range(times):
        before, turned = at(page), True
        while turned:
            turned = turns_only(page)
            page.tap(FORWARD)
            assert (at(page) == before) is turned


def counter(page: Page) -> tuple[int, str]:
    """Row counter and side as the bench's place has them."""
    return tuple(page.evaluate(
        "(() => { const part = walebook.bench.parts.find(p => p.key === "
        "walebook.bench.at().name.split('~')[0]), at = walebook.bench.at();"
        "return [walebook.place.counter(part, at), walebook.place.side(part, at)]; })()"))


CHECK = re.compile(r"row counter (\d+); carriage on the (left|right)")


# All that is looked at before a touch, asked for at once: place, words, whether Done only turns.
SEEN = """() => {
    const text = css => document.querySelector(css).innerText, at = walebook.bench.at();
    const lead = [...document.querySelectorAll('.wb-bench-do, .wb-bench-how')]
        .find(each => each.getClientRects().length);
    const part = walebook.bench.parts.find(each => each.key === at.name.split('~')[0]);
    return { where: text('.wb-bench-where'), step: at.step, lead: lead ? lead.innerText : '',
        counter: walebook.place.counter(part, at), side: walebook.place.side(part, at),
        done: text('.wb-zone-forward') };
}"""


def knit_through(page: Page, press: Callable[[int], None]) -> tuple[list[int], int]:
    """Go from first step to last; return the steps shown in order and how often was pressed.

    What only turns to a step's next screen is not counted.

    Wherever the page's step ends with a check, counter and side must then be what it says.
    """
    steps, shown, presses = texts(page), [], 0
    while "done" not in (seen := page.evaluate(SEEN))["where"]:
        step = seen["step"]
        if not shown or shown[-1] != step:
            shown.append(step)
            # A step may begin with a sentence before its first act.
            lead = re.sub(r"\W+", "", seen["lead"])[:20]
            assert lead and lead in re.sub(r"\W+", "", steps[step])
            if step and (check := CHECK.search(steps[step - 1])):
                assert (seen["counter"], seen["side"]) == (int(check[1]), check[2])
        press(presses)
        presses += not TURNS.match(seen["done"])
        assert presses < 500
    return shown, presses


# From first step to last


def test_a_band_is_knitted_by_touch_from_first_step_to_last(page: Page) -> None:
    begin(page)
    steps = len(texts(page))
    shown, presses = knit_through(page, lambda _: page.tap(FORWARD))
    assert shown == list(range(steps)) and presses == steps
    assert "is done" in page.inner_text(".wb-bench-body")


def test_a_band_is_knitted_by_keys_row_by_row(page: Page) -> None:
    """The keys that pedals and clickers send; rows are those the page's own steps name."""
    begin(page, count="rows")
    keys = (" ", "Enter", "ArrowRight", "ArrowDown", "PageDown")
    rows = [int(found[1]) for text in texts(page)
            if (found := re.search(r"\bKnit (\d+) rows?", text))]
    shown, presses = knit_through(page, lambda n: page.keyboard.press(keys[n % len(keys)]))
    assert shown == list(range(len(texts(page))))
    assert presses == len(shown) + sum(count for count in rows if count > 1)


def test_keys_go_back_and_can_be_switched_off(page: Page) -> None:
    begin(page)
    for key in ("PageDown", "ArrowRight", "ArrowLeft", "Space", "PageUp", "Enter", "ArrowUp"):
        page.keyboard.press(key)
    assert at(page) == (1, 0)
    page.keyboard.press("Control+z")
    assert at(page) == (0, 0)
    go_on(page, 2)
    choose(page, keysOff=True)
    page.focus(".wb-bench-main")
    for key in ("PageDown", "ArrowRight", "Enter", "ArrowLeft"):
        page.keyboard.press(key)
    assert at(page) == (2, 0)


def test_a_pedal_still_goes_on_after_a_touch_elsewhere(page: Page) -> None:
    """A touched button must not keep the keys: the next press of a pedal would repeat it."""
    begin(page)
    page.tap(FORWARD)
    page.tap(FORWARD)
    page.tap(UNDO)
    page.keyboard.press("Enter")
    assert at(page) == (2, 0)


@pytest.mark.parametrize(("across", "step"), [(-120, 1), (120, 0), (-30, 0)])
def test_a_swipe_goes_on_or_back(page: Page, across: int, step: int) -> None:
    begin(page)
    page.evaluate("""across => {
        const area = document.querySelector('.wb-bench-body');
        const at = x => new Touch({identifier: 1, target: area, clientX: x, clientY: 300});
        const send = (kind, x) => area.dispatchEvent(new TouchEvent(kind, {bubbles: true,
            touches: kind === 'touchend' ? [] : [at(x)], changedTouches: [at(x)]}));
        send('touchstart', 200); send('touchend', 200 + across);
    }""", across)
    assert at(page) == (step, 0)


def test_a_second_touch_at_once_is_ignored_and_said_so(page: Page) -> None:
    begin(page, pause="800")
    page.evaluate(f"document.querySelector('{FORWARD}').click();"
                  f"document.querySelector('{FORWARD}').click()")
    assert at(page) == (1, 0)
    assert told(page).startswith("Second touch ignored")
    page.wait_for_timeout(850)
    page.tap(FORWARD)
    assert at(page) == (2, 0) and told(page) == ""


# Counting


def test_rows_are_counted_to_the_target_and_the_counter_is_the_machines(page: Page) -> None:
    """"Knit 4 rows to the buttonholes, until the row counter shows 4", after a reset."""
    begin(page, count="rows")
    step = step_of(page, "Knit 4 rows to the buttonholes")
    jump(page, step)
    assert texts(page)[step - 1].endswith("counter to 0.")
    for row in range(4):
        assert page.inner_text(".wb-counter-now b") == str(row)
        assert page.inner_text(".wb-counter-goal b") == "4"
        page.tap(FORWARD)
    assert at(page) == (step, 4)
    assert "4 of 4 rows done" in page.inner_text(".wb-counter-rows")
    page.tap(UNDO)
    assert at(page) == (step, 3)
    page.click(".wb-whole")
    assert at(page) == (step + 1, 0)
    page.tap(UNDO)
    assert at(page) == (step, 3)


def test_a_shaping_stops_at_each_row_at_which_something_is_done(page: Page, address: str) -> None:
    """The rows are those that the page's own list or table has."""
    page.goto(f"{address}/patterns/slack-tide-cardigan/m.html")
    rows = page.eval_on_selector_all(
        "ol.wb-steps > li[id^=p-back] .wb-rows, ol.wb-steps > li[id^=p-back] tbody",
        "all => all.map(one => [one.closest('ol > li[id]').id, [...one.children].map("
        "row => Number(row.querySelector('b').textContent))])")
    assert len(rows) >= 2
    begin(page, "p-back")
    for step, counters in rows:
        page.evaluate("n => walebook.bench.act('jump', n)", int(step.rpartition("-")[2]) - 1)
        for shown in counters:
            if counter(page)[0] == shown:  # the same touch does the next row as well
                continue
            turned = turns_only(page)
            assert turned or page.inner_text(".wb-counter-goal b") == str(shown)
            go_on(page)
        assert at(page) == (int(step.rpartition("-")[2]), 0)


def test_everything_is_undone_in_turn_also_after_a_reload(page: Page) -> None:
    begin(page, count="rows")
    chance, places, many = Random(7), [at(page)], len(texts(page))
    for _ in range(30):
        page.evaluate(chance.choice((
            "walebook.bench.act('forward')", "walebook.bench.act('forward')",
            "walebook.bench.act('finish')",
            f"walebook.bench.act('jump', {chance.randrange(many)})")))
        if at(page) != places[-1]:
            places.append(at(page))
    page.reload()
    page.wait_for_selector("dialog.wb-bench[open]")
    for place in reversed(places[:-1]):
        page.evaluate("walebook.bench.act('undo')")
        assert at(page) == place
    page.tap(UNDO)
    assert told(page) == "There is nothing to undo."


# Keeping the place


@pytest.mark.parametrize("seed", [1, *(pytest.param(n, marks=pytest.mark.long) for n in (2, 3))])
def test_the_place_is_there_again_after_a_crash(context: BrowserContext, address: str,
                                                seed: int) -> None:
    chance = Random(seed)
    page = context.new_page()
    page.goto(f"{address}/{BAND}")
    begin(page, count=chance.choice(("rows", "steps")))
    for _ in range(3):
        for _ in range(chance.randrange(1, 14)):
            page.keyboard.press("Space")
        before = at(page)
        if chance.random() < .5:
            page.reload()
        else:
            page.close(run_before_unload=False)
            page = context.new_page()
            page.goto(f"{address}/{BAND}")
        page.wait_for_selector("dialog.wb-bench[open]")
        assert at(page) == before


def test_the_first_page_goes_on_where_she_was(page: Page, address: str) -> None:
    begin(page)
    go_on(page, 4)
    piece, steps = page.evaluate("""() => {
        const part = walebook.bench.parts.find(each => each.key === walebook.bench.at().name);
        return [part.title, part.steps.length]; }""")
    leave(page)
    page.goto(f"{address}/index.html")
    line = page.locator(".wb-go-on li")
    assert line.count() == 1
    assert line.locator("p").all_inner_texts() == [
        f"Go on: {piece}", "Practice band, size 3 months", f"step 5 of {steps}"]
    assert line.locator("img").evaluate("drawn => drawn.naturalWidth > 0")
    button = line.get_by_role("link", name=f"Go on knitting {piece}, Practice band")
    box, around = button.bounding_box(), line.bounding_box()
    assert box is not None and around is not None
    assert box["height"] >= 44 and box["width"] > around["width"] * .8  # WCAG 2.2, 2.5.5
    button.click()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert at(page) == (4, 0)


def test_left_closed_it_stays_closed_and_the_page_offers_to_go_on(page: Page) -> None:
    begin(page)
    page.tap(FORWARD)
    page.click(".wb-bench-menu")
    page.click("dialog.wb-menu >> text=Show the whole page")
    assert page.locator("dialog[open]").count() == 0
    page.reload()
    assert page.locator("dialog[open]").count() == 0
    assert f"step 2 of {len(texts(page))}" in page.inner_text(".wb-go")


def test_both_of_a_pair_keep_their_places(page: Page, address: str) -> None:
    page.goto(f"{address}/{GARMENT}")
    begin(page, "p-sleeve")
    go_on(page)
    page.click(".wb-bench-menu")
    page.click(".wb-parts >> text=Sleeve, second")
    go_on(page, 3)
    assert page.evaluate("walebook.bench.at().name") == "p-sleeve~2"
    page.click(".wb-bench-menu")
    first = page.locator(".wb-parts button", has_text="Sleeve, first")
    assert "step 2 of" in first.inner_text()
    first.click()
    assert at(page) == (1, 0)
    page.reload()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert at(page) == (1, 0)


def test_both_of_a_marked_pair_are_in_sight_and_undone_each_by_itself(page: Page, address: str
                                                                      ) -> None:
    page.goto(f"{address}/{GARMENT}")
    begin(page, "p-right-front")
    go_on(page, 6)
    here, other = (page.locator(".wb-bench-pair button").nth(n) for n in range(2))
    assert here.locator(".wb-bench-other").count() == 0
    assert "not begun" in other.inner_text() and "Counter 0, carriage" in other.inner_text()
    assert "Bring needles" in other.inner_text()
    right = page.evaluate("walebook.place.counter(walebook.bench.parts.find(p => "
                          "p.key === 'p-right-front'), walebook.bench.at())")
    assert right > 0
    other.tap()
    go_on(page)
    seen = here.inner_text()
    assert seen.startswith("Right: 7 of") and f"Counter {right}, carriage" in seen
    page.tap(UNDO)
    assert at(page) == (0, 0)
    page.tap(UNDO)
    assert told(page) == "There is nothing to undo."
    here.tap()
    assert at(page)[0] == 6
    page.tap(UNDO)
    assert at(page)[0] == 5


def test_a_pair_that_is_not_marked_takes_no_room(page: Page, address: str) -> None:
    page.goto(f"{address}/patterns/ropewalk-cardigan/6.html")
    begin(page, "p-right-front")
    assert page.locator(".wb-bench-pair button").count() == 0


def test_a_remark_is_kept_with_its_step(page: Page) -> None:
    begin(page)
    page.click(".wb-bench-menu")
    page.click("text=Your note on this step")
    page.fill("#wb-remark", "tight: <b>try</b> dial 7")
    page.click("text=Keep the note")
    assert page.inner_text(".wb-bench-remark") == "Your note: tight: <b>try</b> dial 7"
    page.reload()
    page.wait_for_selector(".wb-bench-remark")
    page.tap(FORWARD)
    assert page.locator(".wb-bench-remark").count() == 0
    page.click(".wb-bench-list")
    assert "try</b> dial 7" in page.inner_text(".wb-list-remark")


def test_the_list_marks_what_is_done_and_goes_where_it_is_touched(page: Page) -> None:
    begin(page)
    go_on(page, 5)
    page.click(".wb-bench-list")
    entries = page.locator(".wb-all-steps button")
    said = entries.all_inner_texts()
    assert len(said) == len(texts(page)) and sum("done" in each.splitlines() for each in said) == 5
    assert "you are here" in said[5]
    assert page.locator(".wb-all-steps [aria-current=step]").count() == 1
    entries.nth(20).click()
    assert at(page) == (20, 0)


# When the pattern has changed


def changed(route: Route) -> None:
    """The page as a later version would have it: 41 stitches, cast on with another sentence."""
    answer = route.fetch()
    text = answer.text().replace('"version":"1.0.1","date"', '"version":"1.1.0","date"')
    text = text.replace('band":"39 stitches"', 'band":"41 stitches"')
    text = text.replace("one loop on each: 39", "one loop on each: 41")
    route.fulfill(response=answer, body=text)


def test_a_changed_pattern_is_told_with_its_counts_and_she_chooses(page: Page) -> None:
    begin(page)
    go_on(page, 6)
    cast_on = step_of(page, "one loop on each: 39")
    page.route(f"**/{BAND}", changed)
    page.reload()
    page.wait_for_selector("#wb-changed")
    said = page.inner_text("#wb-changed")
    assert "version 1.0.1 and is now version 1.1.0" in said
    assert f"New or different steps in this part: {cast_on + 1}." in said
    assert "41 stitches (before: 39 stitches)" in said
    assert page.locator("dialog.wb-bench[open]").count() == 0
    page.click("text=Go on at step 7")
    assert at(page) == (6, 0)
    page.reload()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert page.locator("#wb-changed").count() == 0 and at(page) == (6, 0)


def test_a_changed_pattern_can_be_begun_again_or_left_alone(page: Page) -> None:
    begin(page)
    go_on(page, 6)
    kept = page.evaluate("JSON.stringify(localStorage)")
    page.route(f"**/{BAND}", changed)
    page.reload()
    page.click("#wb-changed >> text=Close")
    assert page.evaluate("JSON.stringify(localStorage)") == kept
    begin_at(page, PART)
    page.click("#wb-changed >> text=Begin this part again")
    assert at(page) == (0, 0)


# What is kept may be refused, full, damaged, or in two tabs

REFUSE = """for (const name of ['getItem', 'setItem', 'removeItem', 'key'])
    Storage.prototype[name] = () => { throw new DOMException('no', 'SecurityError'); };"""
FULL = """const put = Storage.prototype.setItem;
Storage.prototype.setItem = function (key, value) {
    if (/place|probe/.test(key)) throw new DOMException('full', 'QuotaExceededError');
    return put.call(this, key, value); };"""


@pytest.mark.parametrize(("script", "said"), [
    (REFUSE, "This browser keeps nothing"), (FULL, "There is no room left")])
def test_without_room_or_leave_to_keep_it_says_so_and_works(
        context: BrowserContext, address: str, script: str, said: str) -> None:
    page = context.new_page()
    page.add_init_script(script)
    page.goto(f"{address}/{BAND}")
    begin(page)
    assert told(page).startswith(said)
    page.tap(FORWARD)
    page.tap(FORWARD)
    page.tap(UNDO)
    assert told(page).startswith(said)
    assert at(page) == (1, 0)
    assert f'"place/practice-band/3-months/{PART}"' in page.evaluate("walebook.carry.pack()")


def test_where_there_is_no_room_for_all_that_can_be_undone_the_place_is_kept(page: Page) -> None:
    begin(page, count="rows")
    page.evaluate("""(() => {
        for (let n = 0; n < 300; n += 1) walebook.bench.act('jump', n % 2);
        const put = Storage.prototype.setItem;
        Storage.prototype.setItem = function (key, value) {
            if (value.length > 1500) throw new DOMException('full', 'QuotaExceededError');
            return put.call(this, key, value); };
        walebook.bench.act('jump', 7);
    })()""")
    assert told(page) == "There is no room for all that can be undone. Your place is kept."
    page.reload()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert at(page) == (7, 0)


def test_two_tabs_on_one_part_follow_each_other(context: BrowserContext, page: Page,
                                                address: str) -> None:
    begin(page)
    other = context.new_page()
    other.goto(f"{address}/{BAND}")
    other.wait_for_selector("dialog.wb-bench[open]")
    other.tap(FORWARD)
    until(page, "walebook.bench.at().step === 1")
    assert told(page).startswith("Another tab moved this part. You are now at step 2 of "
                                 f"{len(texts(page))}")
    page.tap(FORWARD)
    until(other, "walebook.bench.at().step === 2")


def test_a_tab_that_heard_nothing_follows_before_it_counts(page: Page) -> None:
    begin(page)
    page.evaluate("""(() => { const key = 'walebook:place/practice-band/3-months/front-right';
        const kept = JSON.parse(localStorage.getItem(key));
        localStorage.setItem(key, JSON.stringify({...kept, step: 9, stamp: 'elsewhere'})); })()""")
    page.tap(FORWARD)
    assert at(page) == (9, 0) and "Another tab" in told(page)
    go_on(page)
    assert at(page) == (10, 0)


def test_all_is_saved_to_a_file_and_read_back_on_another_phone(
        page: Page, browser: Browser, address: str, tmp_path: Path) -> None:
    begin(page, text="150")
    go_on(page, 8)
    page.evaluate("walebook.settings.open()")
    with page.expect_download() as waiting:
        page.click("text=Save all to a file")
    saved = tmp_path / "kept.json"
    waiting.value.save_as(saved)
    phone = browser.new_context(service_workers="block")
    there = phone.new_page()
    there.goto(f"{address}/{BAND}")
    there.click(".wb-settings-button")
    there.set_input_files("#wb-carry", saved)
    until(there, "document.querySelector('.wb-carry [role=status]').textContent")
    assert there.inner_text(".wb-carry [role=status]").startswith("Loaded: 1 place,")
    there.click("#wb-settings >> text=Close")
    begin(there)
    assert at(there) == (8, 0)
    assert there.evaluate("walebook.settings.get('text')") == "150"
    phone.close()


def _spoilt(text: str) -> Iterator[tuple[str, str]]:
    """Files that must be refused, each with words of why."""
    kept = json.loads(text)
    key = f"place/practice-band/3-months/{PART}"
    yield text[:len(text) // 2], "damaged"
    yield text.replace('"step": 3', '"step": 5'), "damaged or was changed"
    yield json.dumps({**kept, "edition": 2}), "later version"
    yield json.dumps({"places": []}), "no file that was saved here"
    yield "[1, 2]", "no file that was saved here"
    for entries in ({key: {"step": 1}}, {"../x": 1}, {"settings": {"text": "9000"}}):
        yield json.dumps({**kept, "entries": entries, "digest": None}), "damaged or was changed"


def test_a_damaged_or_foreign_file_is_refused_and_changes_nothing(page: Page) -> None:
    begin(page)
    go_on(page, 3)
    packed = page.evaluate("walebook.carry.pack()")
    page.evaluate("walebook.settings.open()")
    before = page.evaluate("JSON.stringify(localStorage)")
    line = page.locator(".wb-carry [role=status]")
    for text, why in _spoilt(packed):
        page.evaluate("document.querySelector('.wb-carry [role=status]').textContent = ''")
        page.set_input_files("#wb-carry", {"name": "kept.json", "mimeType": "application/json",
                                           "buffer": text.encode()})
        until(page, "document.querySelector('.wb-carry [role=status]').textContent")
        assert line.inner_text().startswith("Refused.") and why in line.inner_text()
        assert line.inner_text().endswith("Nothing was changed.")
        assert page.evaluate("JSON.stringify(localStorage)") == before


def test_entries_with_a_true_digest_are_still_looked_at(page: Page) -> None:
    """A digest proves that a file is whole, not that it is ours."""
    faults = page.evaluate("""[{'../x': 1}, {'settings': {text: '9000'}},
        {'settings': {evil: true}}, {'place/a/b/c': {step: 1}}, {'remarks/a/b': {x: 1}}
    ].map(entries => {
        const file = {kind: 'walebook-kept', edition: 1, entries,
            digest: walebook.steps.digest(JSON.stringify(Object.entries(entries).sort()))};
        return walebook.carry.unpack(JSON.stringify(file)).fault; })""")
    assert faults == ["It holds something that this page cannot read."] * 5


# Screen, voice, sound


def test_the_screen_is_kept_on_and_taken_again(context: BrowserContext, address: str) -> None:
    page = context.new_page()
    page.add_init_script("""window.locks = [];
        Object.defineProperty(navigator, 'wakeLock', {value: {request: async kind => {
            const lock = new EventTarget(); lock.release = () => { lock.gone = true; };
            window.locks.push(lock); return lock; }}});""")
    page.goto(f"{address}/{BAND}")
    begin(page)
    until(page, "locks.length === 1")
    page.evaluate("locks[0].dispatchEvent(new Event('release'));"
                  "document.dispatchEvent(new Event('visibilitychange'))")
    until(page, "locks.length === 2")
    page.keyboard.press("Escape")
    until(page, "locks[1].gone")


def test_where_the_screen_cannot_be_kept_on_it_says_so(context: BrowserContext, address: str
                                                       ) -> None:
    page = context.new_page()
    page.add_init_script("delete Navigator.prototype.wakeLock")
    page.goto(f"{address}/{BAND}")
    begin(page)
    assert page.inner_text(".wb-bench-awake").startswith("This browser cannot keep the screen on.")


VOICES = """window.spoken = [];
window.SpeechSynthesisUtterance = function (text) { this.text = text; };
Object.defineProperty(window, 'speechSynthesis', {value: {
    getVoices: () => [{lang: 'en-GB', localService: false, name: 'far'}, LOCAL],
    cancel: () => {}, speak: each => spoken.push([each.text, each.voice.name])}});"""


@pytest.mark.parametrize("own", [True, False])
def test_only_a_voice_of_the_device_speaks(context: BrowserContext, address: str, own: bool
                                           ) -> None:
    page = context.new_page()
    voice = "{lang: 'en-US', localService: true, name: 'near'}" if own else \
        "{lang: 'en', localService: false, name: 'farther'}"
    page.add_init_script(VOICES.replace("LOCAL", voice))
    page.goto(f"{address}/{BAND}")
    begin(page)
    assert page.evaluate("spoken") == []
    choose(page, speak=True)
    if own:
        page.tap(FORWARD)
        page.tap(UNDO)
        text, name = page.evaluate("spoken.at(-1)")
        assert name == "near" and len(text) <= 220
        assert "Bring needles left 20 to right 19 to working position" in text
        assert "how to" not in text.lower()
    else:
        assert "no voice for this page" in told(page) and page.evaluate("spoken") == []


# For every reader


SCREENS = ((320, 568), (360, 740), (412, 915), (1280, 800), (740, 360), (915, 412))


@pytest.mark.parametrize("texts", [("200", "100"), pytest.param(("100", "200"),
                                                                marks=pytest.mark.long)])
def test_the_bench_fits_every_screen(page: Page, texts: tuple[str, ...]) -> None:
    """Nothing is wider than the screen (WCAG 2.2, 1.4.10 and 1.4.4) and zones can be hit.

    Text sizes take turns from screen to screen: the long run has each screen with the other."""
    begin(page)
    for number, (width, height) in enumerate(SCREENS):
        text = texts[number % 2]
        choose(page, text=text)
        page.set_viewport_size({"width": width, "height": height})
        for step in (0, 8, 9, 13):
            page.evaluate("n => walebook.bench.act('jump', n)", step)
            _fits(page, width, height, least=24 * int(text) / 100)


def _fits(page: Page, width: int, height: int, least: float) -> None:
    for zone in (FORWARD, UNDO):
        box = page.locator(zone).bounding_box()
        assert box is not None and min(box["width"], box["height"]) >= TARGET - 1
        assert box["x"] >= 0 and box["x"] + box["width"] <= width
        assert box["y"] >= 0 and box["y"] + box["height"] <= height
        assert page.eval_on_selector(zone, "z => z.scrollWidth <= z.clientWidth + 1")
    lead = page.locator(".wb-bench-do:visible, .wb-counter:visible").first.bounding_box()
    assert lead is not None and lead["y"] < height / 2
    assert page.eval_on_selector(
        ".wb-bench-main", "main => main.scrollWidth <= main.clientWidth + 1")
    size = page.eval_on_selector(".wb-bench-do", "lead => getComputedStyle(lead).fontSize")
    assert float(size[:-2]) >= least


@pytest.mark.parametrize("width", [320, 360])
def test_at_twice_the_text_size_no_page_scrolls_sideways(page: Page, address: str, width: int
                                                         ) -> None:
    """WCAG 2.2, 1.4.4 and 1.4.12: twice the size, and wide spacing, without loss."""
    page.set_viewport_size({"width": width, "height": 640})
    choose(page, text="200", spacing=True)
    for path in ("index.html", BAND, GARMENT, "at-the-machine.html", "abbreviations.html",
                 "patterns/little-lamp-cardigan/index.html"):
        page.goto(f"{address}/{path}")
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path


@pytest.mark.parametrize("settings", [
    {}, {"colours": "dark"},
    pytest.param({"colours": "light", "text": "200", "left": True}, marks=pytest.mark.long)])
def test_axe_finds_nothing_on_the_bench_and_its_sheets(page: Page, settings: dict[str, Any]
                                                       ) -> None:
    """axe-core 4, all its rules."""
    begin(page, **settings)
    found = []

    def look(name: str) -> None:
        page.wait_for_timeout(350)  # until the theme has faded its colours over
        for v in Axe().run(page).response["violations"]:
            found.append((name, v["id"], [n["target"] for n in v["nodes"]][:3]))

    jump(page, step_of(page, "Choose the needles of all"))
    look("step with a diagram")
    for button, name in ((".wb-bench-list", "list"), (".wb-bench-menu", "menu")):
        page.click(button)
        look(name)
        page.keyboard.press("Escape")
    page.evaluate("walebook.settings.open()")
    look("settings")
    assert found == []


def test_the_bench_is_walked_by_tab_and_every_control_has_a_name(page: Page) -> None:
    """WCAG 2.2, 2.4.3: focus in the order of the page, and 4.1.2: each with role and name."""
    begin(page)
    page.focus(".wb-bench-list")
    walk: list[str] = []
    while not walk or (walk[-1] != "Done" and len(walk) < 9):
        walk.append(page.evaluate("document.activeElement.getAttribute('aria-label') || "
                                  "document.activeElement.innerText"))
        page.keyboard.press("Tab")
    assert walk[:3] == ["All steps", "Menu", "This step"]
    assert walk[-2:] == ["Undo", "Done"]
    snapshot = page.locator("dialog.wb-bench").aria_snapshot()
    assert re.search(rf'heading "Front band.* step 1 of {len(texts(page))}"', snapshot)


def test_step_and_count_are_announced(page: Page) -> None:
    begin(page, count="rows")
    live = page.locator(".wb-bench [aria-live=polite]")
    acts = page.eval_on_selector_all(f"#{PART}-1 > p > b", "all => all.map(b => b.textContent)")
    said = live.text_content() or ""
    assert said.startswith("Step 1. ")
    assert all(act.strip(".,").replace("\N{NO-BREAK SPACE}", " ") in said for act in acts)
    jump(page, step_of(page, "Knit 4 rows to the buttonholes"))
    page.tap(FORWARD)
    assert live.text_content() == "Row 1 of 4, counter 1."


def test_no_line_ends_within_a_range_of_needles(page: Page) -> None:
    begin(page)
    steps = [n for n, text in enumerate(texts(page)) if re.search(r"[LR]\d+\sto\s[LR]\d", text)]
    assert steps
    for step in steps[:3]:
        jump(page, step)
        shown = page.text_content(".wb-bench-main") or ""
        assert re.search("[LR]\\d+\u00a0to\u00a0[LR]\\d", shown), step
        assert not re.search(r"[LR]\d+ to [LR]\d", shown), step


def test_settings_are_kept_and_hold_on_every_page(page: Page, address: str) -> None:
    size = "parseFloat(getComputedStyle(document.querySelector('main p')).fontSize)"
    before = page.evaluate(size)
    page.click(".wb-settings-button")
    for label, value in (("Text size", "150"), ("Colours", "light"), ("Measures in", "cm")):
        page.get_by_label(label).select_option(value)
    for label in ("Wide spacing", "No italics", "Less motion", "Left-handed"):
        page.get_by_label(label).check()
    page.goto(f"{address}/{BAND}")
    look = page.evaluate("""(() => { const style = getComputedStyle(document.body);
        return [style.color, style.backgroundColor,
            document.documentElement.className.split(' ').filter(c => c.startsWith('wb-')).sort()
            ]; })()""")
    assert look[:2] == ["rgb(0, 0, 0)", "rgb(255, 255, 255)"]
    assert set(look[2]) >= {"wb-cm-only", "wb-left-handed", "wb-spaced", "wb-still", "wb-upright"}
    assert page.evaluate(size) == 1.5 * before
    facts = page.inner_text(".wb-facts")
    assert "13\u00a0cm" in facts and "in)" not in facts
    choose(page, units="in")
    facts = page.inner_text(".wb-facts")
    assert "5⅛\u00a0in" in facts and "cm" not in facts
    choose(page, units="both")
    assert "13\u00a0cm (5⅛\u00a0in)" in page.inner_text(".wb-facts")
    begin(page)
    forward, back = (page.locator(zone).bounding_box() for zone in (FORWARD, UNDO))
    assert forward is not None and back is not None and forward["x"] < back["x"]


def test_measures_in_a_drawing_are_shown_in_the_unit_that_is_chosen(page: Page, address: str
                                                                   ) -> None:
    page.goto(f"{address}/{GARMENT}")
    shown = """[...document.querySelectorAll('.wb-schematic text')].filter(text =>
        getComputedStyle(text).display !== 'none').map(text => [text, ...text.childNodes]
        .filter(each => each.nodeType === 3 || (each !== text && getComputedStyle(each).display
        !== 'none')).map(each => each.textContent).join('')).join(' ').replaceAll('\\u00a0', ' ')"""
    both = page.evaluate(shown)
    assert " cm (" in both
    choose(page, units="cm")
    assert " cm" in page.evaluate(shown) and " in" not in page.evaluate(shown)
    choose(page, units="in")
    assert " in" in page.evaluate(shown) and " cm" not in page.evaluate(shown)
    choose(page, units="both")
    assert page.evaluate(shown) == both


def test_a_link_within_the_page_opens_over_the_bench(page: Page) -> None:
    first = "front-left"  # the plain band: it says how an edge is hung
    begin(page, first)
    step = step_of(page, "as the hanging table says", first)
    jump(page, step)
    page.click(".wb-bench-whole")
    page.click(f".wb-sheet-step a[href='#{first}-hanging']")
    sheet = page.locator("dialog.wb-sheet").last
    assert "Hanging table" in sheet.locator("h2").first.inner_text()
    assert sheet.locator("table").count() >= 1
    ids = page.eval_on_selector_all("[id]", "all => all.map(each => each.id)")
    assert len(ids) == len(set(ids))
    sheet.get_by_text("Close").click()
    assert at(page) == (step, 0)


def test_from_disk_it_works_and_keeps_the_place(site: Path, context: BrowserContext) -> None:
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.goto((site / BAND).as_uri())
    begin(page)
    go_on(page, 3)
    page.reload()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert at(page) == (3, 0) and faults == []


def test_without_scripts_the_page_holds_nothing_that_needs_them(site: Path) -> None:
    text = (site / BAND).read_text(encoding="utf-8").split("<main")[1].split("</main")[0]
    assert "<button" not in text and "wb-offer" not in text


def test_the_printed_page_is_the_whole_page_though_the_bench_is_open(page: Page) -> None:
    begin(page)
    page.emulate_media(media="print")
    assert page.locator("dialog.wb-bench").is_hidden()
    assert page.locator(f"#{PART}-{len(texts(page))}").is_visible()

"""A knitter's place is hers: an older file, a damaged store or a full one never moves or drops it.

What must hold are the laws of keeping a place; the browser is the judge of what is stored.
"""

from __future__ import annotations

import json
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, Route, expect

from . import test_at_the_bench
from .conftest import begin_at
from .test_at_the_bench import BAND, FORWARD, PART, UNDO, at, begin, choose, leave, told, until

context, page = test_at_the_bench.context, test_at_the_bench.page  # the fixtures
KEY = f"place/practice-band/3-months/{PART}"
NOTES = "remarks/practice-band/3-months"
LINE = ".wb-carry [role=status]"


def go(page: Page, steps: int) -> None:
    for _ in range(steps):
        page.tap(FORWARD)


def stored(page: Page, key: str = KEY) -> str | None:
    text: str | None = page.evaluate("key => localStorage.getItem('walebook:' + key)", key)
    return text


def store(page: Page, text: str, key: str = KEY) -> None:
    page.evaluate("([key, text]) => localStorage.setItem('walebook:' + key, text)", [key, text])


def everything(page: Page) -> dict[str, str]:
    found: dict[str, str] = page.evaluate("({...localStorage})")
    return found


def load(page: Page, text: str) -> None:
    """Choose a file in the settings, which are opened if they are not."""
    page.set_default_timeout(5000)
    if not page.locator("#wb-settings").count():
        page.evaluate("walebook.settings.open()")
    page.set_input_files("#wb-carry", {"name": "kept.json", "mimeType": "application/json",
                                       "buffer": text.encode()})
    until(page, f"document.querySelector('{LINE}').textContent"
                " || document.querySelector('#wb-load')")


def close(page: Page) -> None:
    page.click("#wb-settings >> text=Close")


# A pattern that was renamed


def renamed(page: Page) -> None:
    """Serve the page as that of a pattern whose folder was called quay-band before."""
    def later(route: Route) -> None:
        answer = route.fetch()
        text = answer.text()
        assert text.count('id="wb-facts">{') == 1
        route.fulfill(response=answer, body=text.replace(
            'id="wb-facts">{', 'id="wb-facts">{"former":["quay-band"],'))
    page.route(f"**/{BAND}", later)


def test_the_place_and_notes_of_a_renamed_pattern_are_taken_over(page: Page) -> None:
    begin(page)
    go(page, 4)
    leave(page)
    store(page, json.dumps({f"{PART}-2": "Wool from Aunt Else"}), NOTES)
    own = {"swatches": {"body": {"width": "150 mm"}}, "mark": "", "when": 5}
    store(page, json.dumps(own), "gauge/practice-band/3-months.loose")
    store(page, json.dumps(own), "gauge/practice-band/6-months.loose")
    kept = {key.replace("practice-band", "quay-band"): text.replace("Practice band", "Quay band")
            for key, text in everything(page).items()}
    page.evaluate("kept => { localStorage.clear(); Object.assign(localStorage, kept); }", kept)
    page.reload()
    assert stored(page) is None
    renamed(page)
    page.reload()
    begin_at(page, PART)
    assert at(page) == (4, 0)
    now = everything(page)
    assert json.loads(now["walebook:size/practice-band/3-months"])["title"] == (
        "Practice band, size 3 months")
    assert now[f"walebook:{NOTES}"] == kept[f"walebook:{NOTES}".replace("practice", "quay")]
    assert "walebook:gauge/practice-band/3-months.loose" in now
    assert "walebook:gauge/practice-band/6-months.loose" not in now, "of another page"
    assert set(kept) <= set(now), "an older page may still be on the device"


def test_the_first_page_offers_it_once_and_leads_to_its_page_now(
        page: Page, address: str) -> None:
    begin(page)
    go(page, 4)
    leave(page)
    kept = {key.replace("practice-band", "quay-band"): text
            for key, text in everything(page).items()}
    page.evaluate("kept => { localStorage.clear(); Object.assign(localStorage, kept); }", kept)

    def later(route: Route) -> None:
        answer = route.fetch()
        name = 'data-pattern="practice-band"'
        assert answer.text().count(name) == 1
        route.fulfill(response=answer, body=answer.text().replace(
            name, f'{name} data-former="quay-band"'))
    page.goto(f"{address}/index.html")
    assert not page.locator(".wb-go-on li").count()
    page.route("**/index.html", later)
    renamed(page)
    page.reload()
    line = page.locator(".wb-go-on li")
    assert line.count() == 1 and "step 5 of " in line.inner_text()
    line.locator("a").click()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert at(page) == (4, 0) and page.url.partition("#")[0] == f"{address}/{BAND}"
    page.goto(f"{address}/index.html")
    assert line.count() == 1


def test_what_is_kept_under_the_new_name_is_not_written_over(page: Page) -> None:
    begin(page)
    go(page, 1)
    leave(page)
    old = KEY.replace("practice-band", "quay-band")
    store(page, json.dumps(json.loads(stored(page) or "") | {"step": 6}), old)
    before = everything(page)
    renamed(page)
    page.reload()
    assert everything(page) == before


# A size that was renamed


def resized(page: Page, address: str) -> None:
    """Serve pages as of a pattern whose size 3 months was called newborn, and Nb before that."""
    said = [{"label": "newborn", "page": "newborn", "now": "3 months"},
            {"label": "Nb", "page": "nb", "now": "3 months"}]

    def later(route: Route) -> None:
        answer = route.fetch()
        text = answer.text().replace(
            'id="wb-facts">{', f'id="wb-facts">{{"former_sizes":{json.dumps(said)},').replace(
            'data-pattern="practice-band"',
            'data-pattern="practice-band" data-former-sizes="newborn:3-months nb:3-months"')
        assert "newborn" in text
        route.fulfill(response=answer, body=text)
    page.route(f"{address}/{BAND}", later)
    page.route(f"{address}/patterns/practice-band/index.html", later)
    page.route(f"{address}/index.html", later)


def under(page: Page, name: str) -> dict[str, str]:
    """Put what is kept of 3 months under another size's name, and nothing else; return it."""
    kept = {key.replace("/3-months", f"/{name}"): text for key, text in everything(page).items()}
    page.evaluate("kept => { localStorage.clear(); Object.assign(localStorage, kept); }", kept)
    return kept


def test_the_place_and_notes_of_a_renamed_size_are_taken_over(page: Page, address: str) -> None:
    begin(page)
    go(page, 4)
    leave(page)
    store(page, json.dumps({f"{PART}-2": "Wool from Aunt Else"}), NOTES)
    own = {"swatches": {"body": {"width": "150 mm"}}, "mark": "", "when": 5}
    store(page, json.dumps(own), "gauge/practice-band/3-months.loose")
    store(page, json.dumps(own), "gauge/practice-band/6-months.loose")
    kept = under(page, "newborn")
    page.reload()
    assert stored(page) is None
    resized(page, address)
    page.reload()
    begin_at(page, PART)
    assert at(page) == (4, 0)
    now = everything(page)
    assert now[f"walebook:{NOTES}"] == kept[f"walebook:{NOTES}".replace("3-months", "newborn")]
    assert "walebook:gauge/practice-band/3-months.loose" in now
    assert json.loads(now["walebook:size/practice-band/3-months"])["title"] == (
        "Practice band, size 3 months")
    assert set(kept) <= set(now), "an older page may still be on the device"


def test_of_two_former_names_the_place_that_was_kept_last_is_taken(
        page: Page, address: str) -> None:
    """Whatever their names: a size that was renamed twice was knitted under the later one."""
    begin(page)
    go(page, 4)
    leave(page)
    for name, step, when in (("nb", 2, 1000), ("newborn", 6, 2000)):
        for key in (KEY, "size/practice-band/3-months"):
            text = json.loads(stored(page, key) or "") | {"when": when}
            text |= {"step": step} if "step" in text else {}
            store(page, json.dumps(text), key.replace("3-months", name))
    page.evaluate("Object.keys(localStorage).filter(key => key.includes('3-months'))"
                  ".forEach(key => localStorage.removeItem(key))")
    resized(page, address)
    page.reload()
    begin_at(page, PART)
    assert at(page) == (6, 0)


def test_the_first_page_offers_a_renamed_size_and_its_tables_have_it_chosen(
        page: Page, address: str) -> None:
    begin(page)
    go(page, 4)
    leave(page)
    under(page, "newborn")
    store(page, json.dumps("newborn"), "chosen/practice-band")
    page.goto(f"{address}/index.html")
    assert not page.locator(".wb-go-on li").count()
    resized(page, address)
    page.reload()
    line = page.locator(".wb-go-on li")
    assert line.count() == 1 and "step 5 of " in line.inner_text()
    page.goto(f"{address}/patterns/practice-band/index.html")
    assert page.evaluate("document.getElementById('wb-own-size').value") == "3 months"
    page.goto(f"{address}/index.html")
    line.locator("a").click()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert at(page) == (4, 0) and page.url.partition("#")[0] == f"{address}/{BAND}"
    page.goto(f"{address}/index.html")
    assert line.count() == 1


# A file that was saved before


@pytest.fixture
def older(page: Page) -> str:
    """A file saved at step 3; then the knitter went on to step 8."""
    begin(page)
    go(page, 2)
    packed: str = page.evaluate("walebook.carry.pack()")
    go(page, 5)
    assert at(page) == (7, 0)
    return packed


def test_an_older_file_does_not_move_the_knitter_unasked(page: Page, older: str) -> None:
    load(page, older)
    question = page.inner_text("#wb-load")
    assert "This device: step 8 of" in question and "The file: step 3 of" in question
    assert "Practice band, size 3 months" in question and at(page) == (7, 0)
    assert page.locator("#wb-load input:checked + label").inner_text().startswith("This device")
    page.click("#wb-load .wb-main-button")
    close(page)
    assert at(page) == (7, 0)
    page.reload()
    page.wait_for_selector("dialog.wb-bench[open]")
    assert at(page) == (7, 0)


def test_a_place_taken_from_a_file_is_undone_on_the_bench(page: Page, older: str) -> None:
    load(page, older)
    page.check("#wb-load label:has-text('The file')")
    page.click("#wb-load .wb-main-button")
    close(page)
    assert at(page) == (2, 0)
    page.tap(UNDO)
    assert at(page) == (7, 0)
    page.tap(UNDO)
    assert at(page) == (6, 0)


def test_a_question_that_is_closed_changes_nothing(page: Page, older: str) -> None:
    before = everything(page)
    load(page, older)
    page.click("#wb-load >> text=Close")
    until(page, f"document.querySelector('{LINE}').textContent === 'Nothing was changed.'")
    assert everything(page) == before


def test_loading_is_undone_as_a_whole(page: Page, older: str) -> None:
    before = everything(page)
    load(page, older)
    page.check("#wb-load label:has-text('The file')")
    page.click("#wb-load .wb-main-button")
    assert stored(page) != before[f"walebook:{KEY}"]
    page.click("text=Undo loading")
    assert everything(page) == before
    close(page)
    assert at(page) == (7, 0)


def test_what_was_knitted_after_loading_is_not_undone_with_it(page: Page, older: str) -> None:
    load(page, older)
    page.check("#wb-load label:has-text('The file')")
    page.click("#wb-load .wb-main-button")
    close(page)
    go(page, 1)
    page.evaluate("walebook.settings.open()")
    page.click("text=Undo loading")
    assert "1 entry was changed since then and stays" in page.inner_text(LINE)
    close(page)
    assert at(page) == (3, 0)


def test_notes_of_both_stay_and_where_they_differ_she_chooses(page: Page) -> None:
    begin(page)
    store(page, json.dumps({"a-1": "same", "a-2": "in the file", "a-3": "file alone"}), NOTES)
    packed = page.evaluate("walebook.carry.pack()")
    store(page, json.dumps({"a-1": "same", "a-2": "here", "a-4": "here alone"}), NOTES)
    load(page, packed)
    question = page.inner_text("#wb-load")
    assert "in the file" in question and "here" in question and "same" not in question
    page.click("#wb-load .wb-main-button")
    assert page.inner_text(LINE).startswith("Loaded: 0 places")
    assert json.loads(stored(page, NOTES) or "") == {
        "a-1": "same", "a-2": "here", "a-3": "file alone", "a-4": "here alone"}


def test_a_file_that_finds_no_room_changes_nothing(page: Page, older: str) -> None:
    page.evaluate("""(() => { const put = Storage.prototype.setItem;
        Storage.prototype.setItem = function (key, value) {
            if (/loaded/.test(key)) throw new DOMException('full', 'QuotaExceededError');
            return put.call(this, key, value); }; })()""")
    before = everything(page)
    load(page, older)
    page.check("#wb-load label:has-text('The file')")
    page.click("#wb-load .wb-main-button")
    assert page.inner_text(LINE) == "There was no room for all of it. Nothing was changed."
    assert everything(page) == before and at(page) == (7, 0)


# A store that is damaged, or was written by another version of the site


def damaged(page: Page) -> dict[str, str]:
    """Texts that cannot be a place on this page, made from one that is."""
    kept: dict[str, Any] = json.loads(stored(page) or "")
    return {
        "cut off": json.dumps(kept)[:40], "empty": "", "null": "null", "a list": "[]",
        "a text for a number": json.dumps({**kept, "step": "4"}),
        "beyond the page": json.dumps({**kept, "step": 99}),
        "more rows than the step has": json.dumps({**kept, "rows": 500}),
        "undone beyond the page": json.dumps({**kept, "past": "0.0 70.0"}),
        "of a later form": json.dumps({**kept, "form": 2, "laps": [1]}),
    }


def test_a_damaged_place_is_told_of_kept_aside_and_never_written_over(page: Page) -> None:
    begin(page)
    go(page, 4)
    leave(page)
    good = stored(page) or ""
    page.set_default_timeout(5000)
    for name, text in damaged(page).items():
        page.evaluate("localStorage.clear()")
        choose(page, pause="0")
        store(page, text)
        begin_at(page, PART)
        said = page.inner_text("#wb-damaged")
        assert "cannot be read" in said or "newer version" in said, name
        assert stored(page) == text, name
        page.click("#wb-damaged >> text=Close")
        assert stored(page) == text and page.locator("dialog[open]").count() == 0, name
        begin_at(page, PART)
        page.click("#wb-damaged >> text=Start this part again")
        assert at(page) == (0, 0), name
        go(page, 1)
        assert json.loads(stored(page) or "")["step"] == 1, name
        assert text in [value for key, value in everything(page).items() if "aside" in key], name
        assert json.dumps(text) in page.evaluate("walebook.carry.pack()"), name
        leave(page)
        store(page, good)


def test_what_can_be_read_of_a_damaged_place_is_offered(page: Page) -> None:
    begin(page)
    go(page, 4)
    leave(page)
    store(page, json.dumps({**json.loads(stored(page) or ""), "past": 7}))
    page.reload()
    begin_at(page, PART)
    page.click("#wb-damaged >> text=Go on at step 5")
    assert at(page) == (4, 0)


def test_a_place_of_a_later_form_from_another_tab_is_not_written_over(page: Page) -> None:
    begin(page)
    go(page, 2)
    text = json.dumps({**json.loads(stored(page) or ""), "form": 2, "stamp": "x", "laps": [1]})
    store(page, text)
    page.tap(FORWARD)
    assert text in [value for key, value in everything(page).items() if "aside" in key]
    assert "kept aside" in told(page)


def test_damaged_notes_and_settings_are_kept_aside(page: Page) -> None:
    begin(page)
    store(page, '{"front-right-1": "tight", "front', NOTES)
    store(page, '{"text": "900"}', "settings")
    page.click(".wb-bench-menu")
    page.click("text=Your note on this step")
    expect(page.locator("dialog.wb-sheet[open]")).to_contain_text("cannot be read")
    page.fill("#wb-remark", "new")
    page.click("text=Keep the note")
    page.evaluate("walebook.settings.choose('tick', true)")
    kept = [value for key, value in everything(page).items() if "aside" in key]
    assert '{"front-right-1": "tight", "front' in kept and '{"text": "900"}' in kept


def test_without_room_to_keep_it_aside_a_damaged_place_stays_where_it_is(
        page: Page, context: BrowserContext, address: str) -> None:
    begin(page)
    leave(page)
    store(page, "{", KEY)
    full = context.new_page()
    full.add_init_script("""const put = Storage.prototype.setItem;
        Storage.prototype.setItem = function (key, value) {
            if (/aside/.test(key)) throw new DOMException('full', 'QuotaExceededError');
            return put.call(this, key, value); };""")
    full.goto(f"{address}/{BAND}")
    begin_at(full, PART)
    full.click("#wb-damaged >> text=Start this part again")
    go(full, 3)
    assert at(full) == (3, 0) and stored(full) == "{"
    assert told(full).startswith("There is no room left")


def test_a_place_of_another_version_of_the_pattern_is_kept_aside_when_she_goes_on(
        page: Page) -> None:
    begin(page)
    go(page, 6)
    before = stored(page) or ""
    page.route(f"**/{BAND}", test_at_the_bench.changed)
    page.reload()
    page.click("text=Begin this part again")
    assert at(page) == (0, 0)
    assert before in [value for key, value in everything(page).items() if "aside" in key]


def test_axe_finds_nothing_on_the_questions(page: Page, older: str) -> None:
    """axe-core 4, all its rules."""
    load(page, older)
    page.wait_for_timeout(350)  # until the theme has faded its colours over
    assert Axe().run(page).response["violations"] == []
    page.click("#wb-load >> text=Close")
    close(page)
    leave(page)
    store(page, "{")
    page.evaluate("part => walebook.bench.open(part)", PART)
    page.wait_for_selector("#wb-damaged")
    page.wait_for_timeout(350)
    assert Axe().run(page).response["violations"] == []

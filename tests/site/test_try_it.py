""" "Try it" in a browser: a source is changed, its findings stand at their places, a page follows.

The site is a collection of two patterns with the runtime and the editor, which `walebook runtime`
makes; without them these tests are skipped. What is found and shown comes from the engine outside
the browser.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect
from walebook.pages.doors import answer
from walebook_site.editor import FOLDER as EDITOR
from walebook_site.editor import NoEditor, editor_of
from walebook_site.runtime import FOLDER, NoRuntime, runtime_of

from .serving import CARDIGAN, HAT, ROOT, collection, served

SETTINGS = """\
site_name: Lantern Quay
docs_dir: patterns
strict: true
plugins:
  - walebook: {try_it: true, single_files: false}
"""
SAID, WAIT = ".wb-try-said", 60_000


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    try:
        runtime_of(ROOT), editor_of(ROOT)
    except (NoRuntime, NoEditor) as fault:
        pytest.skip(f"`walebook runtime` makes what this needs, from archives: {fault}")
    root = tmp_path_factory.mktemp("try")
    done = collection(root, SETTINGS, FOLDER, EDITOR)
    assert done.returncode == 0, done.stderr
    return root / "site"


@pytest.fixture(scope="module")
def address(site: Path) -> Iterator[str]:
    with served(site.parent) as address:
        yield f"{address}/site"


def opened(page: Page, address: str, begin: str = HAT) -> None:
    page.goto(f"{address}/try-it.html")
    page.select_option("#wb-try-start", begin)
    page.get_by_role("button", name="Open", exact=True).click()
    expect(page.locator(".cm-content")).to_contain_text("title:")


def check(page: Page) -> None:
    page.get_by_role("button", name="Check and show the page").click()
    expect(page.locator(SAID)).to_contain_text("is shown", timeout=WAIT)


def mark(page: Page, text: str) -> None:
    """Mark the first place of a text in the editor, by the keyboard alone."""
    page.locator(".cm-content").focus()
    page.keyboard.press("Control+Home")
    page.keyboard.press("Control+f")
    page.keyboard.press("Control+a")
    page.keyboard.type(text)
    page.keyboard.press("Enter")
    page.keyboard.press("Escape")
    expect(page.locator(".cm-content")).to_be_focused()


def behind(page: Page, text: str) -> None:
    """Put the cursor behind the first place of a text."""
    mark(page, text)
    page.keyboard.press("ArrowRight")


def text_of(page: Page) -> str:
    """The draft: what the browser keeps of the text in the editor."""
    source: str = page.evaluate("walebook.tryFiles.draft().texts.source")
    return source


def expected(site: Path, source: str, size: str = "", slug: str = HAT) -> dict[str, Any]:
    start, own = (json.loads((site / "try-it" / f"{name}.json").read_text(encoding="utf-8"))
                  for name in ("start", slug))
    made: dict[str, Any] = json.loads(answer(json.dumps(
        {"door": "try-it", **own, "source": source, "size": size, "beds": start["beds"],
         "charts": start["charts"], "units": start["units"]})))
    return made


def test_a_changed_swatch_changes_the_page_and_nothing_comes_from_elsewhere(
        context: BrowserContext, address: str, site: Path) -> None:
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    opened(page, address)
    assert not any("/runtime/" in url for url in asked)  # nothing is loaded unasked
    check(page)
    hosts = {urlsplit(url).netloc for url in asked if not url.startswith(("blob:", "data:"))}
    assert hosts == {urlsplit(address).netloc}
    shown = page.frame_locator(".wb-try-frame")
    before = shown.locator("article").inner_text()
    mark(page, "15.2 cm")
    page.keyboard.type("12.5 cm")
    expect(shown.locator("article")).not_to_have_text(before, timeout=WAIT)
    assert "width: 12.5 cm" in text_of(page)
    page.select_option("#wb-try-size", "woman")
    expect(shown.locator("h1")).to_have_text("Tideline hat, size woman", timeout=WAIT)
    wanted = page.evaluate(
        "(html) => new DOMParser().parseFromString(html, 'text/html').body.textContent",
        _without_facts(expected(site, text_of(page), "woman")["page"]["html"]))
    assert str(shown.locator("article").evaluate("(each) => each.textContent")) == wanted


def _without_facts(html: str) -> str:
    return re.sub(r"<script\b.*?</script>", "", html, flags=re.DOTALL)


def test_the_frame_runs_no_script_and_its_links_stay_in_it(
        context: BrowserContext, address: str) -> None:
    page = context.new_page()
    opened(page, address)
    check(page)
    sandbox = page.locator(".wb-try-frame").get_attribute("sandbox") or ""
    assert "allow-scripts" not in sandbox.split()
    shown = page.frame_locator(".wb-try-frame")
    assert shown.locator("script").count() == 0
    shown.locator('a[href^="about:srcdoc#"]:visible').first.click()
    expect(shown.locator("h1")).to_contain_text("Tideline hat")
    assert shown.locator('a[href]:not([href^="about:srcdoc#"]):not([target=_blank])').count() == 0


def test_a_finding_is_underlined_listed_and_leads_to_its_place(
        context: BrowserContext, address: str, site: Path) -> None:
    page = context.new_page()
    opened(page, address)
    check(page)
    before = text_of(page)
    behind(page, "CC BY-NC 4.0")
    page.keyboard.type("\ntilte: A hat")
    expect(page.locator(SAID)).to_contain_text("1 error", timeout=WAIT)
    found = expected(site, text_of(page))["findings"]
    (error,) = [each for each in found if each["severity"] == "error"]
    expect(page.locator(".cm-lintRange-error")).to_have_text("tilte")
    listed = page.locator(".wb-try-findings li")
    assert listed.count() == len(found)
    line = page.locator(".wb-try-findings .wb-try-error")
    expect(line).to_contain_text(error["found"])
    expect(line).to_contain_text(error["remedy"])
    page.keyboard.press("Control+Home")
    line.locator("a").click()
    expect(page.locator(".cm-content")).to_be_focused()
    expect(page.locator(".cm-activeLine")).to_have_text("tilte: A hat")
    expect(page.locator(".wb-try-old")).to_be_visible()  # the page is that of the text before
    for _ in "\ntilte: A hat":  # what was typed slowly is taken back sign by sign
        if text_of(page) != before:
            page.keyboard.press("Control+z")
    assert text_of(page) == before
    expect(page.locator(SAID)).to_contain_text("is shown", timeout=WAIT)
    expect(page.locator(".wb-try-old")).to_be_hidden()


def test_keys_are_completed_and_explained_and_tab_leaves_the_editor(
        context: BrowserContext, address: str) -> None:
    page = context.new_page()
    opened(page, address)
    behind(page, "15.2")
    expect(page.locator(".wb-try-hint b")).to_have_text("width")
    behind(page, "CC BY-NC 4.0")
    page.keyboard.type("\nwea")
    expect(page.get_by_role("option", name="wearer")).to_be_visible()
    page.wait_for_timeout(200)  # what is pressed at once is not meant for the list
    page.keyboard.press("Enter")
    assert "\nwearer: \n" in text_of(page)
    expect(page.locator(".wb-try-hint b")).to_have_text("wearer")
    page.keyboard.type("wo")
    page.keyboard.press("Control+Space")
    expect(page.get_by_role("option", name="women", exact=True)).to_be_visible()
    page.keyboard.press("Escape")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.closest('.cm-editor') === null")


def test_a_draft_is_there_again_and_is_not_replaced_unasked(
        context: BrowserContext, address: str, tmp_path: Path) -> None:
    page = context.new_page()
    opened(page, address)
    behind(page, "title: Tideline hat")
    page.keyboard.type(" of mine")
    page.reload()
    expect(page.locator(".cm-content")).to_contain_text("title: Tideline hat of mine")
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save to a file").click()
    assert saved.value.suggested_filename == "pattern.yaml"
    assert Path(saved.value.path()).read_text("utf-8") == text_of(page)
    given = tmp_path / "other.yaml"
    given.write_bytes("\ufefftitle: From a file\r\n".encode())
    page.set_input_files("input[type=file]", given)
    expect(page.locator("dialog[open]")).to_contain_text("Replace your text?")
    page.get_by_role("button", name="Close").click()
    expect(page.locator(".cm-content")).to_contain_text("Tideline hat of mine")
    page.set_input_files("input[type=file]", given)
    page.get_by_role("button", name="Replace").click()
    expect(page.locator(".cm-content")).to_have_text("title: From a file")
    assert text_of(page) == "title: From a file\n"
    given.write_bytes(b"title: caf\xe9\n")
    page.set_input_files("input[type=file]", given)
    expect(page.locator(SAID)).to_contain_text("no text in UTF-8")
    assert text_of(page) == "title: From a file\n"


def test_what_cannot_be_loaded_is_said_and_the_text_stays(
        browser: Browser, address: str) -> None:
    made = browser.new_context(service_workers="block")
    page = made.new_page()
    opened(page, address)
    page.route(f"{address}/runtime/*/python.bin", lambda route: route.fulfill(status=404))
    page.get_by_role("button", name="Check and show the page").click()
    expect(page.locator(SAID)).to_contain_text("lacks a part", timeout=WAIT)
    expect(page.locator(SAID)).to_contain_text("Your text is still in the editor")
    page.unroute(f"{address}/runtime/*/python.bin")
    check(page)
    page.route(f"{address}/try-it/*.json", lambda route: route.abort())
    page.select_option("#wb-try-start", CARDIGAN)
    page.get_by_role("button", name="Open", exact=True).click()
    expect(page.locator(SAID)).to_contain_text("could not be loaded")
    expect(page.locator(".cm-content")).to_contain_text("Tideline hat")
    page.reload()
    expect(page.locator(".wb-try")).to_contain_text("The editor could not be loaded")
    made.close()


def test_it_works_without_a_signal_where_it_is_saved(
        context: BrowserContext, address: str) -> None:
    page = context.new_page()
    opened(page, address)
    page.get_by_role("button", name="Save this page offline").click()
    expect(page.locator(".wb-try")).to_contain_text("is saved on this device", timeout=WAIT)
    context.set_offline(True)
    page.close()
    page = context.new_page()
    opened(page, address, CARDIGAN)
    check(page)
    shown = page.frame_locator(".wb-try-frame")
    assert "serif" in shown.locator("body").evaluate("(b) => getComputedStyle(b).fontFamily")
    assert shown.locator("h1").evaluate("(h) => getComputedStyle(h).fontWeight") == "600"


@pytest.mark.parametrize("width, height", [(360, 740), (1280, 900)])
@pytest.mark.parametrize("look", ["light", "dark", "forced"])
def test_nothing_is_found_by_axe(browser: Browser, address: str, width: int, height: int,
                                 look: str) -> None:
    made = browser.new_context(viewport={"width": width, "height": height},
                               color_scheme="dark" if look == "dark" else "light",
                               forced_colors="active" if look == "forced" else "none",
                               bypass_csp=True)
    page = made.new_page()
    opened(page, address)
    check(page)
    behind(page, "CC BY-NC 4.0")
    page.keyboard.type("\ntilte: A hat")
    expect(page.locator(SAID)).to_contain_text("1 error", timeout=WAIT)
    page.keyboard.type("\nwea")
    expect(page.get_by_role("option", name="wearer")).to_be_visible()
    found = Axe().run(page).response["violations"]
    assert [(each["id"], [node["html"][:160] for node in each["nodes"]]) for each in found] == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    made.close()


@pytest.mark.parametrize("missing", [FOLDER, EDITOR])
def test_a_site_that_asks_for_it_without_a_part_is_not_built(
        site: Path, tmp_path: Path, missing: str) -> None:
    done = collection(tmp_path, SETTINGS, *{FOLDER, EDITOR} - {missing})
    assert done.returncode and "walebook runtime" in done.stdout + done.stderr
    assert missing in done.stdout + done.stderr and not (tmp_path / "site").exists()

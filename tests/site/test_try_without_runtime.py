"""The page "Try it" with neither runtime nor editor: what a part of test_try_it.py sees everywhere.

The page's own scripts run in a browser. In the place of the runtime stands the engine in this
Python, behind the same door; in the place of the editor a plain field for text.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect
from walebook.pages import SCHEMAS
from walebook.pages.doors import answer
from walebook_site.keeping import compact_json
from walebook_site.proving import prove_all
from walebook_site.reading import Reading
from walebook_site.try_in_site import texts_to_begin

from .serving import HAT, ROOT, served

CAP = "pennant-cap"  # it has notes
SCRIPTS = ("texts", "bench/texts", "my-runtime-texts", "try-texts", "bench/store", "bench/elements",
           "bench/ask", "keep-worker", "my-runtime", "try-schema", "try-frame", "try-files",
           "try-it")
PAGE = """<!doctype html><html lang="en"><title>Try it</title><body><article>
<section class="wb-try" data-wb-runtime="runtime/0" data-wb-bytes="5900000"
data-wb-editor="try-it/editor.js"></section></article>%s
<script>walebook.runtime.ask = async (folder, asked) => JSON.parse(
  await window.answered(JSON.stringify(asked)));</script></body></html>"""
EDITOR = """window.walebookEditor = { open({ parent, text, changed }) {
  const field = document.createElement("textarea");
  field.value = text;
  field.oninput = () => changed(field.value);
  parent.append(field);
  return { text: () => field.value, replace(next) { field.value = next; }, mark() {}, go() {} };
} };"""
SAID = ".wb-try-said"


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    root = tmp_path_factory.mktemp("try")
    for name in ("_beds", "_sizes", HAT, CAP):
        shutil.copytree(ROOT / "patterns" / name, root / "patterns" / name)
    site = root / "site"
    shutil.copytree(ROOT / "site_src" / "assets", site / "assets")
    for path, text in texts_to_begin(Reading(root), prove_all(root, pages=True)):
        (site / path).parent.mkdir(exist_ok=True)
        (site / path).write_text(text, encoding="utf-8")
    (site / "patterns").mkdir()
    (site / "patterns" / "pattern.schema.json").write_text(
        compact_json(SCHEMAS["pattern"]()), encoding="utf-8")
    (site / "try-it" / "editor.js").write_text(EDITOR, encoding="utf-8")
    scripts = "".join(f'<script src="assets/{name}.js"></script>' for name in SCRIPTS)
    (site / "try-it.html").write_text(PAGE % scripts, encoding="utf-8")
    with served(site) as at:
        yield at


@pytest.fixture
def page(browser: Browser, address: str) -> Iterator[Page]:
    made = browser.new_page()
    made.expose_function("answered", answer)
    made.goto(f"{address}/try-it.html")
    yield made
    made.close()


def opened(page: Page, slug: str, title: str) -> None:
    page.select_option("#wb-try-start", slug)
    page.get_by_role("button", name="Open", exact=True).click()
    expect(page.locator("textarea")).to_have_value(re.compile(rf"^title: {title}$", re.MULTILINE))


def test_a_changed_text_is_checked_and_its_page_is_shown(page: Page) -> None:
    opened(page, HAT, "Tideline hat")
    page.get_by_role("button", name="Check and show the page").click()
    expect(page.locator(SAID)).to_contain_text("The page of size")
    shown = page.frame_locator(".wb-try-frame")
    expect(shown.locator("h1")).to_contain_text("Tideline hat, size")
    assert shown.locator("script").count() == 0
    field = page.locator("textarea")
    text = field.input_value()
    field.fill(text.replace("title:", "tilte:", 1))
    expect(page.locator(SAID)).to_contain_text("There is no page until the errors are mended.")
    errors = page.locator(".wb-try-findings .wb-try-error")
    found = [each for each in json.loads(answer(json.dumps(asked(page))))["findings"]
             if each["severity"] == "error"]
    assert errors.count() == len(found) == 1  # a key that is not known
    for line, one in zip(errors.all(), found, strict=True):
        expect(line).to_contain_text(one["remedy"])
    expect(page.locator(".wb-try-old")).to_be_visible()
    field.fill(text)
    expect(page.locator(".wb-try-old")).to_be_hidden()


def asked(page: Page) -> dict[str, Any]:
    """What the page asks of the text in its field, but for beds and charts."""
    start = page.evaluate("fetch('try-it/start.json').then((each) => each.json())")
    texts = page.evaluate("walebook.tryFiles.draft().texts")
    return {"door": "try-it", "size": "", "units": start["units"], "beds": start["beds"],
            "charts": start["charts"], "collection": start["collection"], **texts}


def test_what_is_left_out_of_a_pattern_with_notes_is_said(page: Page) -> None:
    """The Pennant cap has notes.md, the Tideline hat has none."""
    left = page.locator(".wb-try-left")
    opened(page, HAT, "Tideline hat")
    expect(left).to_be_hidden()
    opened(page, CAP, "Pennant cap")
    expect(left).to_have_text("This pattern also has notes (notes.md). They stand on its overview, "
                              "which is not shown here, and were not opened.")
    page.reload()
    expect(left).to_be_visible()
    opened(page, HAT, "Tideline hat")
    expect(left).to_be_hidden()


def test_another_wording_reaches_the_same_door(page: Page) -> None:
    """Nothing that a reader reads is sent as a name: each text is changed before it is used."""
    opened(page, HAT, "Tideline hat")
    page.evaluate("""() => {
      const says = TRY_TEXTS.tryIt;
      for (const [key, text] of Object.entries(says)) {
        if (typeof text === "string") says[key] = `Reworded: ${text}`;
      }
    }""")
    page.get_by_role("button", name="Check and show the page").click()
    expect(page.frame_locator(".wb-try-frame").locator("h1")).to_contain_text("Tideline hat, size")

"""A step is reported to the designer by a text that the knitter sends herself, not the page.

The mail address is read as RFC 6068 has it (percent-encoded subject and body, lines ended by CRLF).
"""

from __future__ import annotations

import json
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
import yaml
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, Route

from . import test_at_the_bench
from .test_at_the_bench import BAND, PART, begin, jump, texts

context, page = test_at_the_bench.context, test_at_the_bench.page  # the fixtures
ROOT = Path(__file__).parents[2]
SHEET = ".wb-report-sheet"


def contact() -> str:
    said = yaml.safe_load((ROOT / "patterns" / "collection.yaml").read_text(encoding="utf-8"))
    return str(said["contact"])


def mailed(page: Page) -> tuple[str, str, str]:
    """To whom, under which subject and with which text the link of the sheet opens a mail."""
    link = urlsplit(page.get_attribute(f"{SHEET} a", "href") or "")
    assert link.scheme == "mailto"
    asked = parse_qs(link.query)
    return link.path, asked["subject"][0], asked["body"][0]


def test_the_bench_writes_of_the_step_that_is_shown(page: Page) -> None:
    asked: list[str] = []
    begin(page)
    jump(page, 4)
    page.on("request", lambda request: asked.append(request.url))
    page.click(".wb-bench-menu")
    page.click("text=Report this step")
    page.fill("#wb-report-words", "The count & the drawing differ: 39 or 38?")
    to, subject, body = mailed(page)
    assert to == contact()
    assert subject.startswith("Practice band, size 3 months: Front band") and "step 5" in subject
    first, second, *rest = body.split("\r\n")
    assert first == "Practice band, size 3 months, version 1.0.1"
    steps = texts(page)
    assert f"step 5 of {len(steps)}: " in second
    words = second.split(": ", 1)[1].rstrip(".…").split()
    assert words and set(words[:3]) <= set(steps[4].replace(".", " ").replace(",", " ").split())
    assert rest == ["", "The count & the drawing differ: 39 or 38?", ""]
    assert page.input_value("#wb-report-text").replace("\n", "\r\n") == body
    assert asked == []


def test_the_page_offers_it_at_each_part_and_lets_her_choose_the_step(page: Page) -> None:
    parts = page.evaluate("walebook.bench.parts.map(part => part.title)")
    offered = page.eval_on_selector_all(".wb-report button", "all => all.map(b => b.textContent)")
    assert offered == [f"Report a step of {title}" for title in parts]
    page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
    page.click(".wb-report button")
    page.select_option("#wb-report-step", "2")
    assert f", step 3 of {len(texts(page, 'front-left'))}" in page.input_value("#wb-report-text")
    assert Axe().run(page).response["violations"] == []


def test_a_text_is_copied_or_selected(page: Page) -> None:
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.evaluate(f"walebook.report.ask('{PART}', 0)")
    page.click("text=Copy the text")
    page.wait_for_selector(f"{SHEET} [role=status]:has-text('Copied.')")
    assert page.evaluate("navigator.clipboard.readText()") == page.input_value("#wb-report-text")
    page.evaluate("Object.defineProperty(navigator, 'clipboard', {value: undefined})")
    page.click("text=Copy the text")
    assert "The text is selected" in page.inner_text(f"{SHEET} [role=status]")
    assert page.evaluate("document.activeElement.id") == "wb-report-text"


@pytest.mark.parametrize(("given", "said"), [
    ("https://example.org/contact", "Open the designer's page"),
    ("mailto:wren@example.org", "Open in your mail program"), ("", "")])
def test_the_contact_of_the_pattern_goes_before_the_collections(
        page: Page, given: str, said: str) -> None:
    def served(route: Route) -> None:
        answer = route.fetch()
        text = answer.text()
        assert text.count('"version":"1.0.1","date"') == text.count(" data-wb-contact=") == 1
        more = f',"contact":{json.dumps(given)}' if given else ""
        if not given:
            text = text.replace(" data-wb-contact=", " data-none=")
        route.fulfill(response=answer, body=text.replace('"version":"1.0.1","date"',
                                                         f'"version":"1.0.1"{more},"date"'))
    page.route(f"**/{BAND}", served)
    page.reload()
    if not given:
        assert page.locator(".wb-report").count() == 0
        begin(page)
        page.click(".wb-bench-menu")
        assert page.locator("text=Report this step").count() == 0
        return
    page.evaluate(f"walebook.report.ask('{PART}', 0)")
    assert (page.get_attribute(f"{SHEET} a", "href") or "").startswith(given)
    assert page.inner_text(f"{SHEET} a") == said

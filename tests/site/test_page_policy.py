"""What a page may load: its own files and nothing else, served and from disk.

The rules are those of Content Security Policy Level 3 (W3C), with Chromium as their judge.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from walebook.pages.page_facts import PageFacts, SizeFacts
from walebook_site.finishing import Settings, finish

SIZE = "patterns/practice-band/3-months.html"


def test_from_disk_it_is_said_what_cannot_be_done(site: Path, phone: Page) -> None:
    said: list[str] = []
    phone.on("console", lambda line: said.append(line.text))
    phone.on("pageerror", lambda fault: said.append(str(fault)))
    for path in (SIZE, "offline.html", "index.html"):
        phone.goto((site / path).as_uri())
        if path != "index.html":
            expect(phone.locator("main")).to_contain_text("A copy on disk cannot say")
    assert said == []


def test_every_page_says_what_it_may_load(site: Path) -> None:
    """Content Security Policy Level 3: a policy in a page must come before what it rules."""
    for path in sorted(site.rglob("*.html")):
        text = path.read_text(encoding="utf-8")
        meta = re.search(r'<meta http-equiv="Content-Security-Policy" content="([^"]+)">', text)
        assert meta, path.name
        first = min(text.find(tag) for tag in ("<script", "<link", "<style") if tag in text)
        assert meta.start() < first, path.name
        rules = dict(rule.split(" ", 1) for rule in meta[1].split("; "))
        assert "unsafe-inline" not in rules["script-src"] and "*" not in meta[1], path.name
        assert rules["form-action"] == "'none'" and "http" not in meta[1].replace(
            "http-equiv", ""), path.name


@pytest.mark.parametrize("disk", [True, False])
def test_what_is_slipped_into_a_page_does_not_run(
        site: Path, address: str, phone: Page, disk: bool) -> None:
    phone.goto((site / SIZE).as_uri() if disk else f"{address}/{SIZE}")
    stopped: dict[str, str | None] = {}
    phone.on("requestfailed", lambda request: stopped.update({request.url: request.failure}))
    phone.evaluate("""() => {
      window.ran = false;
      window.ruled = [];
      document.addEventListener("securitypolicyviolation",
        (event) => window.ruled.push(event.effectiveDirective));
      const inline = document.createElement("script");
      inline.textContent = "window.ran = true";
      const remote = document.createElement("script");
      remote.src = "https://example.org/remote.js";
      const image = document.createElement("img");
      image.src = "https://example.org/counted.png";
      document.body.append(inline, remote, image);
      const lure = document.createElement("div");
      lure.innerHTML = '<img src="data:," onerror="window.ran = true">';
      document.body.append(lure);
    }""")
    phone.wait_for_function("window.ruled.length === 4")
    assert phone.evaluate("window.ran") is False
    assert sorted(phone.evaluate("window.ruled")) == [
        "img-src", "script-src-attr", "script-src-elem", "script-src-elem"]
    assert stopped == {"https://example.org/remote.js": "csp",
                       "https://example.org/counted.png": "csp"}


@pytest.mark.parametrize("title", ["</script><script>document.title='ran'</script>",
                                   '<!--<script>Band "A" & \'B\' \u2028'])
def test_facts_are_data_that_no_title_can_run_and_no_rule_forbids(
        phone: Page, tmp_path: Path, title: str) -> None:
    """HTML, 4.12.1: a script element of another type is a data block, which no policy rules."""
    size = SizeFacts(name="M", pieces=(), bands=(), side_by_side=(), making_up=())
    facts = PageFacts(slug="band", title=title, version="1", date="2026-11-20", designer="Wren",
                      licence="CC0", sizes=("M",), size=size)
    page = ('<!doctype html><html lang="en"><head><meta charset="utf-8"><title>M</title></head>'
            f"<body><article>{facts.in_page()}</article></body></html>")
    (tmp_path / "m.html").write_text(finish(page, Settings()), encoding="utf-8")
    said: list[str] = []
    phone.on("console", lambda line: said.append(line.text))
    phone.add_init_script("""window.ruled = []; document.addEventListener(
      "securitypolicyviolation", (event) => window.ruled.push(event.violatedDirective))""")
    phone.goto((tmp_path / "m.html").as_uri())
    read = "JSON.parse(document.getElementById('wb-facts').textContent)"
    assert phone.evaluate(f"{read}.title") == title
    assert phone.evaluate("window.ruled") == [] and phone.title() == "M"
    assert phone.locator("script").count() == 1 and said == []

"""The kinds of pages on every screen, in every scheme of colours, at every size of text.

WCAG 2.2: 1.4.3 and 1.4.11 (contrast), 1.4.4 (text at 200 %), 1.4.10 (no scrolling to the side).
Text at 400 % goes beyond them. All of axe's rules are held. Every run looks at a sample drawn by a
seed, with every page, screen, scheme and text size in it; the long run looks at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from pathlib import Path
from random import Random
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from .conftest import begin_at
from .test_built_site import COLOURS, SIZE_PAGE, colour_violations, violations

SCREENS = ((360, 740), (412, 915), (768, 1024), (1280, 800), (740, 360))
SCHEMES: dict[str, dict[str, Any]] = {
    "light": {"color_scheme": "light"}, "dark": {"color_scheme": "dark"},
    "forced": {"forced_colors": "active"}}
TEXTS = (100, 200, 400)
PAGES = ("home", "overview", "size page", "bench", "technique", "search")
FIXED = {"home": "index.html", "overview": "patterns/slack-tide-cardigan/index.html",
         "bench": "patterns/salt-marsh-pullover/xl.html", "technique": "techniques/hung-hem.html",
         "search": "search.html"}
OPEN_ALL = "document.querySelectorAll('details').forEach((each) => { each.open = true; })"
# The elements that reach over the right edge, outside of boxes that scroll by themselves.
TOO_WIDE = """() => {
  if (document.documentElement.scrollWidth <= innerWidth) return [];
  const scrolls = (each) => each && each !== document.documentElement && (
    /auto|scroll|hidden|clip/.test(getComputedStyle(each).overflowX)
    || scrolls(each.parentElement));
  const over = [...document.body.querySelectorAll("*")].filter((each) =>
    each.getBoundingClientRect().right > innerWidth + 1 && !scrolls(each.parentElement));
  const last = over.filter((each) => ![...each.children].some((child) => over.includes(child)));
  return [document.documentElement.scrollWidth, ...last.slice(0, 3).map((each) =>
    `${each.localName}.${each.getAttribute("class")} ${each.textContent.trim().slice(0, 30)}`)];
}"""


@dataclass(frozen=True)
class View:
    """A page as a reader has it before her."""

    page: str
    screen: tuple[int, int]
    scheme: str
    text: int


GRID = [View(*each) for each in product(PAGES, SCREENS, SCHEMES, TEXTS)]


def sample(seed: int) -> list[View]:
    """A view of each page, in which every screen, scheme and text size comes up."""
    chance = Random(seed)

    def spread(values: Any) -> list[Any]:
        found = list(values) * (-(-len(PAGES) // len(values)))
        chance.shuffle(found)
        return found

    return [View(*each) for each in zip(
        PAGES, spread(SCREENS), spread(SCHEMES), spread(TEXTS), strict=False)]


def heaviest(site: Path) -> str:
    """The size page with the most bytes."""
    sizes = [path for path in site.glob("patterns/*/*.html")
             if path.name != "index.html" and not path.stem.endswith("-single-file")]
    return max(sizes, key=lambda path: path.stat().st_size).relative_to(site).as_posix()


def opened(page: Page, address: str, path: str, view: View) -> None:
    """Open a page, all of it unfolded, with letters as large as the device sets them."""
    page.goto(f"{address}/{path}")
    if view.page == "bench":
        begin_at(page, page.get_attribute("[data-wb-offers]", "data-wb-offers") or "")
        page.evaluate("walebook.bench.act('jump', 8)")
    elif view.page == "search":
        page.fill(".wb-search-form input", "waistcoat")
        expect(page.locator(".wb-found a").first).to_be_visible()
    page.evaluate(OPEN_ALL)
    if view.text != 100:
        page.add_style_tag(content=f"html {{ font-size: {view.text * 5 // 4}% !important }}")
        page.evaluate("dispatchEvent(new Event('resize'))")


def faults(page: Page, view: View) -> list[Any]:
    """What reaches over the side, what axe finds, and a Done that is out of view."""
    wide = page.evaluate(TOO_WIDE)
    found: list[Any] = [("wide", *wide)] if wide else []
    if view.page == "bench":
        response = Axe().run(page, context="dialog[open]").response
        found += [(each["id"], [node["target"] for node in each["nodes"]][:3])
                  for each in response["violations"]]
        box = page.locator(".wb-zone-forward").bounding_box()
        if not box or box["x"] < 0 or box["y"] < 0 or (
                box["x"] + box["width"] > view.screen[0] or
                box["y"] + box["height"] > view.screen[1]):
            found.append(("Done is out of view", box))
        return found
    found += violations(page, {"rules": {name: {"enabled": False} for name in COLOURS}})
    return found + colour_violations(page, "dark" if view.scheme == "dark" else "light", set())


def look(browser: Browser, address: str, size_page: str, view: View) -> list[Any]:
    """The faults of one view, in a browser that has seen nothing before."""
    context = browser.new_context(
        viewport={"width": view.screen[0], "height": view.screen[1]}, service_workers="block",
        reduced_motion="reduce", **SCHEMES[view.scheme])
    page = context.new_page()
    opened(page, address, FIXED.get(view.page, size_page), view)
    found = faults(page, view)
    context.close()
    return found


def test_a_sample_of_all_views_is_without_fault(browser: Browser, address: str) -> None:
    views = sample(20261128)
    assert {view.screen for view in views} == set(SCREENS)
    assert {view.scheme for view in views} == set(SCHEMES)
    assert {view.text for view in views} == set(TEXTS)
    found = {view: look(browser, address, SIZE_PAGE, view) for view in views}
    assert {view: each for view, each in found.items() if each} == {}


@pytest.mark.long
@pytest.mark.parametrize("page", PAGES)
def test_every_view_is_without_fault(browser: Browser, address: str, site: Path, page: str
                                     ) -> None:
    found = {view: look(browser, address, heaviest(site), view)
             for view in GRID if view.page == page}
    assert {view: each for view, each in found.items() if each} == {}

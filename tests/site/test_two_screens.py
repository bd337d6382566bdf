"""What an overview shows on one screen of a phone of 360 by 740 px, and a page of a size on two.

The rule is the makers' own: whoever opens an overview sees at once whether it is for her; whoever
opens the page of a size sees what it is, and what she does in which order, before anything else.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from playwright.sync_api import Page

TWO_SCREENS = 2 * 740  # px
LIST_ENDS = """() => {
    const list = document.querySelector('ol.wb-order').getBoundingClientRect();
    return [list.width, list.bottom + scrollY];
}"""


def heaviest_pages(site: Path) -> Sequence[Path]:
    """Of each pattern the page of the size that has most to say."""
    folders = sorted(path.parent for path in site.glob("patterns/*/counts.json"))
    return [max((page for page in folder.glob("*.html")
                 if page.name != "index.html" and "single-file" not in page.name),
                key=lambda page: page.stat().st_size) for folder in folders]


def test_the_order_of_work_ends_within_two_screens(site: Path, address: str, phone: Page):
    pages, beyond = heaviest_pages(site), {}
    for page in pages:
        at = page.relative_to(site).as_posix()
        phone.goto(f"{address}/{at}", wait_until="domcontentloaded")
        phone.evaluate("document.fonts.ready")
        wide, end = phone.evaluate(LIST_ENDS)
        assert wide > 0, f"no list on {at}"
        if end > TWO_SCREENS:
            beyond[at] = round(end / 740, 2)
    assert len(pages) > 40
    assert not beyond, f"screens to the end of the list: {beyond}"


def test_what_a_pattern_is_stands_on_the_first_screen_of_its_overview(
        site: Path, address: str, phone: Page):
    """Picture, what it is, sizes, bodies, yarn, machine and skills."""
    beyond, overviews = {}, sorted(site.glob("patterns/*/index.html"))
    for page in overviews:
        at = page.relative_to(site).as_posix()
        phone.goto(f"{address}/{at}", wait_until="domcontentloaded")
        phone.evaluate("document.fonts.ready")
        wide, end = phone.evaluate(LIST_ENDS.replace("ol.wb-order", ".wb-hero dl.wb-facts"))
        assert wide > 0, f"no facts on {at}"
        if end > 740:
            beyond[at] = round(end)
    assert len(overviews) > 40
    assert not beyond, f"px to the end of the facts: {beyond}"


def test_what_comes_before_the_order_of_work_is_closed_but_can_be_opened(
        site: Path, address: str, phone: Page):
    corrected = next(page for page in heaviest_pages(site)
                     if "wb-corrected-now" in page.read_text(encoding="utf-8"))
    phone.goto(f"{address}/{corrected.relative_to(site).as_posix()}")
    text = phone.locator(".wb-corrected-now div").first
    assert not text.is_visible()
    phone.locator(".wb-corrected-now summary").first.click()
    assert text.is_visible()
    assert len(text.inner_text()) > 20

"""How long home, overview and the longest size page are: screens of a phone, sheets of A4.

    python tests/bench/bench_screens.py [--site FOLDER] [--page PATH ...]

Never part of the tests: it prints, and asserts nothing. Run it on a site built before a change and
on one built after it. A screen is 360 by 740 px. A size page is measured as loaded, with its
longest piece open, and with everything open; and how far below the heading of each piece its first
step stands. Wanted of the longest size page: 10, 25 and 75 screens, one screen, 20 sheets.
"""

from __future__ import annotations

import argparse
import re
import tempfile
from io import BytesIO
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright
from pypdf import PdfReader

from tests.bench.bench_pages import Compressing
from tests.site.conftest import QUIET, ROOT, at_hand, build
from tests.site.serving import served

WIDE, HIGH = 360, 740
STEPS = re.compile(r'<li id="?[\w-]+-\d+\b')
OPEN_ALL = "document.querySelectorAll('details').forEach((each) => { each.open = true; })"
# The section, foldable or not, with the most steps; everything that is not around or in it is shut.
OPEN_LONGEST = """() => {
  const parts = [...document.querySelectorAll("details.wb-task")];
  const steps = (each) => each.querySelectorAll(".wb-steps > li").length;
  const longest = parts.sort((a, b) => steps(b) - steps(a))[0];
  if (longest) longest.open = true;
  return longest ? longest.id || longest.querySelector("[id]").id : "";
}"""
# For every first step of a piece or band: how far below its heading it begins [px].
FIRST_STEPS = """() => [...document.querySelectorAll("ol.wb-steps > li[id$='-1']")]
  .map((step) => [step.id, document.getElementById(step.id.replace(/-1$/, ""))])
  .filter(([, head]) => head)
  .map(([id, head]) => [id, document.getElementById(id).getBoundingClientRect().top
    - head.getBoundingClientRect().top])"""
WORDS = "document.querySelector('article, main').innerText.split(/\\s+/).length"


def _height(page: Page) -> str:
    high: int = page.evaluate("document.documentElement.scrollHeight")
    return f"{high / HIGH:6.1f} screens ({high:,} px)"


def longest(site: Path) -> Path:
    """The size page of a cardigan with the most steps; of those alike, the heaviest."""
    pages = [p for p in site.glob("patterns/*cardigan*/*.html")
             if p.name != "index.html" and not re.search(r"-single-file\.html$", p.name)]
    return max(pages, key=lambda p: (len(STEPS.findall(p.read_text("utf-8"))), p.stat().st_size))


def measure(browser: Browser, url: str) -> None:
    """Print the screens of a page in each of its states, and its sheets."""
    page = browser.new_page(viewport={"width": WIDE, "height": HIGH}, color_scheme="light")
    page.goto(url)
    page.wait_for_load_state("networkidle")
    print(f"  as loaded        {_height(page)}")
    if page.locator("ol.wb-steps").count():
        opened = page.evaluate(OPEN_LONGEST)
        page.wait_for_timeout(200)
        if opened:
            print(f"  one piece open   {_height(page)}: {opened}")
        page.evaluate(OPEN_ALL)
        page.wait_for_timeout(300)
        print(f"  all open         {_height(page)}")
        far = page.evaluate(FIRST_STEPS)
        if far:
            step, below = max(far, key=lambda each: each[1])
            print(f"  first steps      {below / HIGH:6.2f} screens below their heading: {step}")
        print(f"  steps            {page.locator('ol.wb-steps > li[id]').count()}, "
              f"{page.evaluate(WORDS):,} words")
    page.close()
    page = browser.new_page()
    page.goto(url)
    sheets = PdfReader(BytesIO(page.pdf(prefer_css_page_size=True))).get_num_pages()
    print(f"  on paper         {sheets:6} sheets of A4")
    page.close()


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--site", type=Path, help="a built site (default: build one)")
    parser.add_argument("--page", action="append", help="a page of it (default: the three)")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as made:
        site = given.site or Path(made) / "site"
        if not given.site:
            build(ROOT, site).check_returncode()
        size = longest(site).relative_to(site)
        pages = given.page or ["index.html", f"{size.parent.as_posix()}/index.html",
                               size.as_posix()]
        with served(site, Compressing) as address, sync_playwright() as play:
            browser = play.chromium.launch(executable_path=at_hand(), args=QUIET)
            for path in pages:
                print(f"{path}, {(site / path).stat().st_size:,} bytes")
                measure(browser, f"{address}/{path}")


if __name__ == "__main__":
    main()

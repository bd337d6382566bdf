"""What a knitter saved of a size or pattern stays hers when the site withdraws it.

The site has then a page at the same address that says so. Expected is what that page promises: what
she saved offline stays as it is. The judge is Chromium, on a served copy of the demo.
"""

from __future__ import annotations

import re
import shutil

from playwright.sync_api import BrowserContext, Page, expect

from .conftest import begin_at
from .test_offline import BAND, HAT, SIZE, Served, close_site, held, keep
from .test_offline import served as served  # a fixture

OTHER = f"{BAND}/6-months.html"
STEP = "Hang the weights"
WHY = "The designer withdrew the size 3 months on 2026-12-01. Its band was too short."
STAYS = "You saved it offline: it stays on this device, as it is, until you remove it."


def withdraw(served: Served, path: str = SIZE, why: str = WHY) -> None:
    """Put the page of a withdrawal where a page stands, as a build does."""
    file = served.folder / path
    html = file.read_text(encoding="utf-8")
    start, end = html.index(">", html.index("<article")) + 1, html.index("</article>")
    file.write_text(f'{html[:start]}<h1>Gone</h1><p class="wb-lead wb-former">{why}</p>'
                    f"{html[end:]}", encoding="utf-8")


def begin(page: Page, steps: int = 2) -> None:
    """Begin to knit on the page that is open."""
    begin_at(page, "front-right")
    page.evaluate(f"walebook.bench.act('jump', {steps})")
    page.keyboard.press("Escape")


def update(page: Page) -> None:
    page.reload()
    with page.expect_navigation():
        page.get_by_role("button", name="Update").click()


def saved_with_a_place(page: Page, served: Served) -> None:
    """A pattern is saved, a size of it begun, and then withdrawn; the update is taken."""
    keep(page, served)
    begin(page)
    withdraw(served)
    served.change(f"{BAND}/index.html", "1.0.1", "2.0.0")
    served.change_own("assets/walebook.css", ".wb-facts", ".wb-renewed, .md-typeset .wb-facts")
    served.publish()
    page.goto(f"{served.address}/{OTHER}")


def test_a_withdrawn_size_that_was_saved_opens_with_and_without_a_signal(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    saved_with_a_place(page, served)
    update(page)
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("article")).to_contain_text(STEP)
    expect(page.locator(".wb-keep")).to_contain_text(WHY)
    expect(page.locator(".wb-keep")).to_contain_text(STAYS)
    context.set_offline(True)
    page.reload()
    expect(page.locator("article")).to_contain_text(STEP)
    expect(page.locator(".wb-keep")).to_contain_text(STAYS)
    assert WHY not in page.inner_text("article")
    begin_at(page, "front-right")
    expect(page.locator("dialog.wb-bench")).to_contain_text("step 3")


def test_the_update_names_the_size_that_is_gone(served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    saved_with_a_place(page, served)
    page.reload()
    expect(page.locator(".wb-newer")).to_contain_text(
        "Practice band, size 3 months is no longer on the site. It stays saved on this device")
    assert "6 months" not in page.inner_text(".wb-newer")


def test_the_first_page_leads_to_the_place_in_a_withdrawn_size(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    saved_with_a_place(page, served)
    update(page)
    home = served.folder / "index.html"
    html = home.read_text(encoding="utf-8")
    (sizes,) = re.findall(r'data-pattern="practice-band"[^>]*data-sizes="([^"]*)"', html)
    assert "3-months" in sizes.split()
    left = " ".join(size for size in sizes.split() if size != "3-months")
    home.write_text(html.replace(f'data-sizes="{sizes}"', f'data-sizes="{left}"'), encoding="utf-8")
    served.publish()
    page.reload()
    update(page)
    page.goto(f"{served.address}/index.html")
    page.click(".wb-go-on a")
    expect(page.locator("dialog.wb-bench[open]")).to_contain_text("step 3")


def test_who_saved_nothing_reads_that_the_size_was_withdrawn(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("article")).to_contain_text(STEP)
    withdraw(served)
    served.publish()
    page = close_site(page, served)
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("article")).to_contain_text(WHY)
    assert STEP not in page.inner_text("article")


def test_a_saved_size_stays_through_more_updates_until_it_is_removed(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    saved_with_a_place(page, served)
    update(page)
    served.change(f"{BAND}/index.html", "2.0.0", "2.0.1")
    served.publish()
    update(page)
    # The pattern itself is removed and saved again; what lies aside is another thing.
    page.goto(f"{served.address}/{OTHER}")
    page.get_by_role("button", name="Remove from this device").click()
    page.get_by_role("button", name="Save offline").click()
    expect(page.locator(".wb-keep")).to_contain_text("Saved offline")
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("article")).to_contain_text(STEP)
    page.goto(f"{served.address}/offline.html")
    expect(page.locator(".wb-kept")).to_contain_text("pages of it that are no longer on the site")
    page.locator('[data-group="older practice-band"]').click()
    expect(page.locator(".wb-kept")).not_to_contain_text("no longer on the site")
    assert not [name for name in held(page) if name.endswith(" left")]
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("article")).to_contain_text(WHY)
    page.goto(f"{served.address}/{OTHER}")
    expect(page.locator(".wb-keep")).to_contain_text("Saved offline")


def test_a_size_that_was_set_aside_stays_when_its_pattern_goes_too(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    saved_with_a_place(page, served)
    update(page)
    keep(page, served, f"{HAT}/index.html")
    shutil.rmtree(served.folder / BAND)
    served.publish()
    update(page)
    context.set_offline(True)
    for path in (SIZE, OTHER):
        page.goto(f"{served.address}/{path}")
        expect(page.locator("article")).to_contain_text(STEP)


def test_the_page_of_a_withdrawn_pattern_never_covers_the_saved_one(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    keep(page, served, f"{HAT}/index.html")
    for file in (served.folder / BAND).glob("*.html"):
        if file.name not in ("index.html", "3-months.html"):
            file.unlink()
    for path in (f"{BAND}/index.html", SIZE):
        withdraw(served, path, "The designer withdrew this pattern on 2026-12-01.")
    served.publish()
    update(page)
    for is_offline in (False, True):
        context.set_offline(is_offline)
        page.goto(f"{served.address}/{SIZE}")
        expect(page.locator("article")).to_contain_text(STEP)
        expect(page.locator(".wb-keep")).to_contain_text(STAYS)

"""Keeping patterns without a signal: what is kept, how an edition changes, what is refused.

Each test has a served copy of the demo site of its own, under a sub-path, with two patterns. What
a browser must do comes from the published standards: Service Workers and Web Application Manifest
(W3C) and Storage (WHATWG), with Chromium as their judge.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from email.utils import formatdate
from hashlib import sha256
from pathlib import Path
from threading import Event
from time import sleep
from urllib.request import Request, urlopen

import pytest
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page, expect
from walebook_site.keeping import write_worker
from walebook_site.naming import digest_name

from .conftest import QUIET, at_hand, begin_at
from .serving import ROOT, Silent
from .serving import served as serving

BAND, HAT = "patterns/practice-band", "patterns/signal-hat"
SIZE = f"{BAND}/3-months.html"
LEFT_OUT = tuple(path.parent.name for path in ROOT.glob("patterns/*/pattern.yaml")
                 if path.parent.name not in (BAND.rpartition("/")[2], HAT.rpartition("/")[2]))
UNDER = "quay/of/patterns"
WORKER = ROOT / "site_src" / ".worker"


class _Slow(Silent):
    """Names its edition only after so many seconds; may answer in other ways than it should."""

    seconds = 0.0
    open = Event()
    open.set()

    def meddles(self) -> bool:
        """True when it has answered already, or will not."""
        return False

    def do_GET(self) -> None:
        self.open.wait()
        if self.path.endswith("/edition.json"):
            sleep(self.seconds)
        if not self.meddles():
            super().do_GET()


class Served:
    """A copy of the site that can be changed while it is read, as a publisher does."""

    def __init__(self, folder: Path, host: str) -> None:
        self.folder = folder
        self.address = f"{host}/{UNDER}"

    def change(self, path: str, old: str, new: str) -> None:
        file = self.folder / path
        text = file.read_text(encoding="utf-8")
        assert old in text
        file.write_text(text.replace(old, new), encoding="utf-8")

    def change_own(self, plain: str, old: str, new: str) -> None:
        """Change a script or style: it gets its name anew, and all pages name it so."""
        path = Path(plain)
        (file,) = self.folder.glob(f"{path.parent}/{path.stem}.*{path.suffix}")
        text = file.read_text(encoding="utf-8")
        assert old in text
        text = text.replace(old, new)
        name = Path(digest_name(plain, text)).name
        file.with_name(name).write_text(text, encoding="utf-8")
        file.unlink()
        for page in self.folder.rglob("*.html"):
            html = page.read_text(encoding="utf-8")
            if file.name in html:
                page.write_text(html.replace(file.name, name), encoding="utf-8")

    @contextmanager
    def shut(self) -> Iterator[None]:
        """Let nobody in: a browser looks for a newer worker by itself too, whenever it likes."""
        _Slow.open.clear()
        try:
            yield
        finally:
            _Slow.open.set()

    def publish(self) -> str:
        """Make what lies in the folder an edition; return its name."""
        return write_worker(self.folder, WORKER)


def _copy(site: Path, folder: Path) -> None:
    shutil.copytree(site, folder, ignore=shutil.ignore_patterns(
        "*-single-file.html", "*.pdf", "lunr", "*.map", *LEFT_OUT))


@pytest.fixture
def served(site: Path, tmp_path: Path) -> Iterator[Served]:
    """The copy, published."""
    _copy(site, tmp_path / UNDER)
    with serving(tmp_path, _Slow) as host:
        copy = Served(tmp_path / UNDER, host)
        copy.publish()
        yield copy


def keep(page: Page, served: Served, path: str = SIZE) -> None:
    """Open a page and keep its pattern, as a knitter does."""
    page.goto(f"{served.address}/{path}")
    page.get_by_role("button", name="Save offline").click()
    expect(page.locator(".wb-keep")).to_contain_text("Saved offline")


def held(page: Page) -> dict[str, list[str]]:
    """What lies in the browser's caches: by cache, each file as its path and digest."""
    found: dict[str, list[str]] = page.evaluate("""async () => {
      const all = {};
      for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        all[name] = await Promise.all((await cache.keys()).map(async (request) => {
          const body = await (await cache.match(request)).arrayBuffer();
          const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", body));
          const hex = [...digest].map((b) => b.toString(16).padStart(2, "0")).join("");
          return `${new URL(request.url).pathname} ${hex} ${body.byteLength}`;
        }));
      }
      return all;
    }""")
    return {name: [line for line in lines if not line.startswith(f"/{UNDER}/ ")]
            for name, lines in found.items()}


def close_site(page: Page, served: Served) -> Page:
    """Close the site; return a page outside of it, once a worker that waited has taken over.

    It is asked to, as the button "Update" does. Left alone, Chromium stops the older worker when a
    page asks it, unless it has work to do; where a debugger is attached, as Playwright's is to all,
    it stops it even so, in the middle of its answer, and the page waits for ever
    (OnRequestTermination in its service_worker_version.cc). No reader has a debugger;
    test_offline_unwatched.py looks without one.
    """
    outside = page.context.new_page()
    outside.goto(served.address.rpartition("/")[0] + "/")
    page.close()
    outside.evaluate("""async (site) => {
      const registration = await navigator.serviceWorker.getRegistration(site);
      const { waiting } = registration;
      if (waiting) waiting.postMessage({ ask: "take" }, [new MessageChannel().port2]);
      const isTaken = () => !registration.waiting && registration.active.state === "activated";
      for (let tries = 0; !isTaken(); tries += 1) {
        if (tries === 1000) throw new Error("the newer worker still waits");
        await new Promise((done) => setTimeout(done, 20));
      }
    }""", f"{served.address}/")
    return outside


def styles(page: Page) -> str:
    """The text of the style that the page itself names."""
    text: str = page.evaluate("""fetch(document.querySelector("link[href*='/walebook.']").href)
      .then((response) => response.text())""")
    return text


def assert_still_there(before: dict[str, list[str]], now: dict[str, list[str]]) -> None:
    """Nothing that was held is gone or altered; what is read in between may have come to it."""
    assert [line for name, lines in before.items() for line in lines if line not in now[name]] == []


def assert_all_of_this_edition(page: Page, served: Served) -> None:
    """Every file kept is, byte for byte, the one that the site has now; there is one cache."""
    caches = held(page)
    assert len(caches) == 1
    (lines,) = caches.values()
    for line in lines:
        path, digest, _ = line.split()
        file = served.folder / path.removeprefix(f"/{UNDER}/")
        assert sha256(file.read_bytes()).hexdigest() == digest, path


def test_a_file_that_changes_twice_within_a_second_is_sent_again(served: Served) -> None:
    """The server of these tests: of a change in the same second nothing would be seen."""
    changed = formatdate((served.folder / "sw.js").stat().st_mtime, usegmt=True)
    asking = Request(f"{served.address}/sw.js", headers={"If-Modified-Since": changed})
    with urlopen(asking, timeout=60) as answer:
        assert answer.status == 200 and answer.read() == (served.folder / "sw.js").read_bytes()


# -- Kept ------------------------------------------------------------------------------------------


def test_a_kept_pattern_opens_without_a_signal_with_all_it_links_to(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    context.set_offline(True)
    page.reload()
    expect(page.locator("h1")).to_contain_text("size 3 months")
    assert page.locator("main ol > li").count() > 20
    assert page.evaluate("getComputedStyle(document.querySelector('.wb-check')).borderTopStyle"
                         ) == "solid"
    links = page.eval_on_selector_all("article a[href]:not(svg *)", "all => all.map(a => a.href)")
    inside = {link.split("#")[0] for link in links if "-single-file" not in link}
    assert len(inside) > 8
    for link in sorted(inside - {page.url.split("#")[0]}):
        assert page.goto(link).status == 200, link  # type: ignore[union-attr]
    page.goto(f"{served.address}/")
    expect(page.locator("h1")).to_contain_text("Lantern Quay")
    assert context.cookies() == []


def test_what_is_not_kept_is_said_and_not_broken(served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    context.set_offline(True)
    for path in (f"{HAT}/index.html", f"{BAND}/3-months-single-file.html", "nowhere.html"):
        page.goto(f"{served.address}/{path}")
        expect(page.locator("h1")).to_have_text("This page is not saved on this device")
    page.get_by_role("link", name="All that is saved").click()
    expect(page.locator("#kept-here")).to_contain_text("Practice band, version 1.0.1")


def test_the_room_shown_is_the_room_taken(served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    page.goto(f"{served.address}/offline.html")
    expect(page.locator("#kept-here")).to_contain_text("Saved in all")
    (lines,) = held(page).values()
    taken = sum(int(line.split()[-1]) for line in lines)
    said = re.search(r"counted once: ([\d.]+) (MB|kB)\.", page.inner_text("#kept-here"))
    assert said
    unit, margin = (1e6, 5e4) if said[2] == "MB" else (1e3, 5e2)
    assert abs(float(said[1]) * unit - taken) <= margin + 1
    assert "The browser counts" in page.inner_text("#kept-here")
    page.get_by_role("button", name="Remove Practice band").click()
    expect(page.locator("#kept-here")).to_contain_text("Practice band: removed.")
    (left,) = held(page).values()
    assert not [line for line in left if BAND in line] and len(left) < len(lines)
    assert page.evaluate("document.activeElement.getAttribute('aria-label')"
                         ) == "Save offline: Practice band"


def test_letting_one_pattern_go_leaves_what_another_needs(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    keep(page, served, f"{HAT}/index.html")
    page.get_by_role("button", name="Remove from this device").click()
    expect(page.locator(".wb-keep")).to_contain_text("All its sizes")
    context.set_offline(True)
    page.goto(f"{served.address}/{SIZE}")
    links = page.eval_on_selector_all("article a.wb-how", "all => all.map(a => a.href)")
    for link in {link.split("#")[0] for link in links} - {page.url.split("#")[0]}:
        assert page.goto(link).status == 200, link  # type: ignore[union-attr]


def start_kept(page: Page, served: Served, bytes_: int = 2_300_000) -> None:
    """Keep a start as the runtime does, under its own name of a cache (`.runtime/worker.js`)."""
    page.evaluate("""async ([site, bytes]) => {
      const folder = `${site}/runtime/`;
      const cache = await caches.open(`start ${folder} ${folder}0123/`);
      await cache.put("?state", new Response(new Uint8Array(bytes)));
    }""", [served.address, bytes_])


def starts(page: Page) -> list[str]:
    return [name for name in held(page) if name.startswith("start ")]


def test_the_kept_start_goes_with_the_last_pattern_that_is_removed(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    keep(page, served, f"{HAT}/index.html")
    start_kept(page, served)
    press = page.get_by_role("button", name="Remove from this device")
    said = page.locator(".wb-keep")
    press.click()
    expect(said).to_contain_text("All its sizes")
    assert len(starts(page)) == 1 and "start" not in said.inner_text()
    page.goto(f"{served.address}/{SIZE}")
    press.click()
    expect(said).to_contain_text("The kept start of “My gauge” was removed too (2.3 MB).")
    assert starts(page) == []


def test_what_is_merely_read_and_removed_takes_no_start_with_it(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    look_at(page, served, SIZE)
    page.goto(f"{served.address}/offline.html")
    start_kept(page, served)
    page.get_by_role("button", name="Remove The last pages you read").click()
    expect(page.locator("#kept-here")).to_contain_text("The last pages you read: removed.")
    assert len(starts(page)) == 1


def test_two_sites_at_one_address_leave_each_other_alone(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    other = served.folder.parent / "other"
    shutil.copytree(served.folder, other)
    elsewhere = Served(other, 0)
    elsewhere.address = served.address.replace("/patterns", "/other")
    keep(page, elsewhere)
    assert len(held(page)) == 2
    context.set_offline(True)
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("h1")).to_contain_text("size 3 months")


# -- A newer edition -------------------------------------------------------------------------------

# What becomes of the worker that the browser finds. It is known before its first change of state
# (Service Workers, "Install": the promise of update() and the event come before the worker's own).
UPDATE = """async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  let found = null;
  registration.addEventListener("updatefound", () => { found = registration.installing; });
  try { await registration.update(); } catch { return "refused"; }
  found ||= registration.installing || registration.waiting;
  if (!found) return "none";
  return new Promise((done) => {
    const look = () => ["installed", "activated", "redundant"].includes(found.state)
      && done(found.state);
    found.addEventListener("statechange", look);
    setTimeout(done, 60000, "unfinished");
    look();
  });
}"""



def renew(served: Served) -> None:
    """Publish another edition: a step, a style and another pattern change with it."""
    for path in (SIZE, f"{BAND}/index.html"):
        served.change(path, "1.0.1", "1.1.0")
    served.change(SIZE, "Hang the weights", "Hang the renewed weights")
    served.change_own("assets/walebook.css", ".wb-facts", ".wb-renewed, .md-typeset .wb-facts")
    served.change(f"{HAT}/index.html", "Signal hat", "Signal cap")
    served.publish()


def test_a_newer_edition_waits_until_it_is_taken_and_comes_whole(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    before = held(page)
    renew(served)
    page.reload()
    notice = page.locator(".wb-newer")
    expect(notice).to_contain_text("version 1.0.1 becomes 1.1.0")
    page.reload()
    assert "renewed" not in page.inner_text("article") and "1.0.1" in page.inner_text("article")
    assert_still_there(before, held(page))
    assert "wb-renewed" not in styles(page)
    # A page that is not kept would be of the newer edition: it is not mixed in.
    page.goto(f"{served.address}/{HAT}/index.html")
    expect(page.locator("h1")).to_have_text("The site has an update")
    # Nor is it taken while another page is open, where it would change under someone's hands.
    page.goto(f"{served.address}/{SIZE}")
    other = context.new_page()
    other.goto(f"{served.address}/{SIZE}")
    page.get_by_role("button", name="Update").click()
    expect(notice).to_contain_text("open in another tab")
    assert "renewed" not in other.inner_text("article")
    other.close()
    page.get_by_role("button", name="Update").click()
    expect(page.locator("article")).to_contain_text("Hang the renewed weights")
    assert_all_of_this_edition(page, served)
    context.set_offline(True)
    page.reload()
    expect(page.locator("article")).to_contain_text("1.1.0")


def test_who_saved_an_older_version_reads_the_correction_at_her_step(
        served: Served, context: BrowserContext) -> None:
    """She keeps what she saved until she takes the update; then it is said, also offline."""
    page = context.new_page()
    keep(page, served)
    begin_at(page, "front-right")
    page.evaluate("walebook.bench.act('jump', 2)")
    page.keyboard.press("Escape")
    text = "Band stitches 156, not 154."
    now = {"version": "1.1.0", "text": text, "parts": ["front-right"], "step": 5}
    served.change(SIZE, '"version":"1.0.1","date"', '"version":"1.1.0","date"')
    served.change(SIZE, '"corrections":[', f'"corrections":[{json.dumps(now)},')
    served.change(f"{BAND}/index.html", "1.0.1", "1.1.0")
    served.publish()
    page.reload()
    expect(page.locator(".wb-newer")).to_contain_text("version 1.0.1 becomes 1.1.0")
    assert page.locator(".wb-corrected").count() == 0
    page.get_by_role("button", name="Update").click()
    head = page.locator(".wb-top .wb-corrected")
    expect(head).to_contain_text(f"Your size changed in 1.1.0: {text}")
    context.set_offline(True)
    page.reload()
    begin_at(page, "front-right")
    page.click("#wb-changed >> text=Go on at step 3")
    page.evaluate("walebook.bench.act('jump', 4)")
    expect(page.locator(".wb-bench-body > .wb-corrected")).to_contain_text(text)


def test_a_newer_edition_comes_by_itself_at_the_next_start(
        served: Served, browser: Browser, tmp_path: Path) -> None:
    """The browser is closed and started again, with what it has stored."""
    def start() -> BrowserContext:
        return browser.browser_type.launch_persistent_context(
            tmp_path / "profile", executable_path=at_hand(), args=QUIET)

    context = start()
    page = context.new_page()
    keep(page, served)
    renew(served)
    page.reload()
    expect(page.locator(".wb-newer")).to_be_visible()
    context.close()
    context = start()
    again = context.new_page()
    again.goto(f"{served.address}/{SIZE}")
    expect(again.locator("article")).to_contain_text("Hang the renewed weights")
    assert_all_of_this_edition(again, served)
    context.close()


def _lose(served: Served) -> None:
    (served.folder / f"{BAND}/6-months.html").unlink()


def _alter(served: Served) -> None:
    served.change(f"{BAND}/6-months.html", "renewed weights", "other weights")


@pytest.mark.parametrize("spoil", [_lose, _alter])
def test_an_edition_that_cannot_come_whole_changes_nothing(
        served: Served, context: BrowserContext, spoil: Callable[[Served], None]) -> None:
    page = context.new_page()
    keep(page, served)
    before = held(page)
    with served.shut():
        served.change(f"{BAND}/6-months.html", "Hang the weights", "Hang the renewed weights")
        served.publish()
        spoil(served)
    assert page.evaluate(UPDATE) == "redundant"
    page.reload()
    now = held(page)
    assert now.keys() == before.keys()
    assert_still_there(before, now)
    assert page.locator(".wb-newer").count() == 0
    context.set_offline(True)
    page.goto(f"{served.address}/{BAND}/6-months.html")
    expect(page.locator("article")).to_contain_text("Hang the weights")


def test_a_pattern_that_leaves_the_site_stays_on_the_device(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    keep(page, served, f"{HAT}/index.html")
    styled = styles(page)
    shutil.rmtree(served.folder / BAND)
    served.change(f"{HAT}/index.html", "1.0.2", "1.1.0")
    served.change_own("assets/walebook.css", ".wb-facts", ".wb-renewed, .md-typeset .wb-facts")
    served.publish()
    page.reload()
    expect(page.locator(".wb-newer")).to_contain_text(
        "Practice band is no longer on the site. It stays saved on this device, as it is, "
        "until you remove it.")
    page.get_by_role("button", name="Update").click()
    expect(page.locator("article")).to_contain_text("1.1.0")
    context.set_offline(True)
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("h1")).to_contain_text("size 3 months")
    assert styles(page) == styled
    links = page.eval_on_selector_all("article a.wb-how", "all => all.map(a => a.href)")
    for link in sorted({link.split("#")[0] for link in links} - {page.url})[:3]:
        assert page.goto(link).status == 200, link  # type: ignore[union-attr]
    page.goto(f"{served.address}/offline.html")
    expect(page.locator(".wb-kept")).to_contain_text("It is no longer on the site.")
    page.get_by_role("button", name="Remove Practice band").click()
    expect(page.locator(".wb-kept")).not_to_contain_text("Practice band")
    assert not [line for lines in held(page).values() for line in lines if BAND in line]
    page.goto(f"{served.address}/{HAT}/index.html")
    expect(page.locator("h1")).to_contain_text("Signal hat")


def test_a_pattern_of_a_newer_edition_is_not_kept_beside_the_older(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    page.goto(f"{served.address}/{HAT}/index.html")
    expect(page.get_by_role("button", name="Save offline")).to_be_visible()
    before = held(page)
    for file in (served.folder / HAT).glob("[!i]*.html"):
        served.change(f"{HAT}/{file.name}", "Signal hat", "Signal cap")
    renew(served)
    page.get_by_role("button", name="Save offline").click()
    expect(page.locator(".wb-keep")).to_contain_text("the two versions are not mixed")
    # By now the browser may have found the newer one by itself: it has a separate cache.
    ((name, lines),) = before.items()
    assert sorted(held(page)[name]) == sorted(lines)


def test_while_nothing_is_kept_the_newest_page_is_read(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(f"{served.address}/{SIZE}")
    expect(page.get_by_role("button", name="Save offline")).to_be_visible()
    renew(served)
    page.goto(f"{served.address}/{HAT}/index.html")
    expect(page.locator("h1")).to_contain_text("Signal cap")
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("article")).to_contain_text("Hang the renewed weights")


# -- Read, not kept --------------------------------------------------------------------------------


def look_at(page: Page, served: Served, path: str) -> None:
    """Open a page and wait until the worker has had its say."""
    page.goto(f"{served.address}/{path}")
    expect(page.get_by_role("button", name="Save offline")).to_be_visible()


def test_pages_that_were_read_open_again_without_a_signal_and_are_listed(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    look_at(page, served, SIZE)
    look_at(page, served, f"{HAT}/index.html")
    assert_all_of_this_edition(page, served)
    context.set_offline(True)
    for path, title in ((SIZE, "size 3 months"), (f"{HAT}/index.html", "Signal hat")):
        page.goto(f"{served.address}/{path}")
        expect(page.locator("h1")).to_contain_text(title)
    page.goto(f"{served.address}/{BAND}/6-months.html")
    expect(page.locator("h1")).to_have_text("This page is not saved on this device")
    context.set_offline(False)
    page.goto(f"{served.address}/offline.html")
    expect(page.locator("#kept-here")).to_contain_text("The last pages you read")
    (lines,) = held(page).values()
    said = re.search(r"counted once: ([\d.]+) (kB|MB)\.", page.inner_text("#kept-here"))
    assert said
    one, last = {"kB": (1e3, 1e3), "MB": (1e6, 1e5)}[said[2]]  # what a unit is, and its last digit
    assert abs(float(said[1]) * one - sum(int(line.split()[-1]) for line in lines)) <= last / 2 + 1
    page.get_by_role("button", name="Remove The last pages you read").click()
    expect(page.locator(".wb-kept")).not_to_contain_text("The last pages you read")
    assert not [line for lines in held(page).values() for line in lines if "/patterns/" in
                line.removeprefix(f"/{UNDER}")]


def test_what_was_read_is_not_brought_into_a_newer_edition(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    look_at(page, served, f"{HAT}/index.html")
    keep(page, served)
    assert [line for lines in held(page).values() for line in lines if HAT in line]
    renew(served)
    page.reload()
    page.get_by_role("button", name="Update").click()
    expect(page.locator("article")).to_contain_text("Hang the renewed weights")
    assert_all_of_this_edition(page, served)
    assert not [line for lines in held(page).values() for line in lines if HAT in line]


def test_a_slow_server_is_not_waited_for_and_no_page_is_put_together_from_two_editions(
        served: Served, context: BrowserContext, monkeypatch: pytest.MonkeyPatch) -> None:
    page = context.new_page()
    look_at(page, served, SIZE)
    look_at(page, served, SIZE)  # by the worker
    monkeypatch.setattr(_Slow, "seconds", 2.0)
    renew(served)
    page.goto(f"{served.address}/{SIZE}")
    assert "renewed" not in page.inner_text("article")
    assert "wb-renewed" not in styles(page)
    monkeypatch.setattr(_Slow, "seconds", 0.0)
    page.evaluate("navigator.serviceWorker.ready.then((r) => r.update()).catch(() => null)")
    expect(page.locator("article")).to_contain_text("Hang the")
    page.goto(f"{served.address}/{HAT}/index.html")
    expect(page.locator("h1")).to_contain_text("Signal cap")
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("article")).to_contain_text("Hang the renewed weights")
    expect(page.locator(".wb-newer")).to_have_count(0)  # nothing is kept that it could change


def test_keeping_after_a_newer_edition_came_offers_it_first(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    look_at(page, served, SIZE)
    renew(served)
    page.goto(f"{served.address}/{HAT}/index.html")
    page.evaluate("""navigator.serviceWorker.ready.then((r) => r.update()).then(async () => {
      const r = await navigator.serviceWorker.ready;
      while (!r.waiting) await new Promise((done) => setTimeout(done, 50));
    })""")
    page.get_by_role("button", name="Save offline").click()
    page.get_by_role("button", name="Update").click()
    expect(page.locator(".wb-newer")).to_have_count(0)
    keep(page, served, f"{HAT}/index.html")
    assert_all_of_this_edition(page, served)


# -- Refused ---------------------------------------------------------------------------------------


def test_no_room_keeps_nothing_new_and_loses_nothing(
        served: Served, context: BrowserContext) -> None:
    """Storage standard: a write beyond the quota is refused with QuotaExceededError."""
    page = context.new_page()
    keep(page, served)
    before = held(page)
    context.service_workers[0].evaluate("""() => {
      const put = Cache.prototype.put;
      let room = 3;
      Cache.prototype.put = function (...all) {
        if (room-- > 0) return put.apply(this, all);
        return Promise.reject(new DOMException("no room", "QuotaExceededError"));
      };
    }""")
    page.goto(f"{served.address}/{HAT}/index.html")
    page.get_by_role("button", name="Save offline").click()
    expect(page.locator(".wb-keep")).to_contain_text("There is no room for it. Nothing new was")
    assert {k: sorted(v) for k, v in held(page).items()} == {
        k: sorted(v) for k, v in before.items()}
    context.set_offline(True)
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("h1")).to_contain_text("size 3 months")


def test_a_signal_lost_while_keeping_keeps_nothing_new(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(f"{served.address}/{SIZE}")
    expect(page.get_by_role("button", name="Save offline")).to_be_visible()
    before = held(page)
    context.set_offline(True)
    page.get_by_role("button", name="Save offline").click()
    expect(page.locator(".wb-keep")).to_contain_text("The connection broke off")
    assert held(page) == before


@pytest.mark.parametrize(("script", "said"), [
    ("delete Navigator.prototype.serviceWorker", "This browser saves no pages of this site"),
    ("delete window.caches", "This browser saves no pages of this site"),
    ("ServiceWorkerContainer.prototype.register = () => Promise.reject("
     "new DOMException('refused', 'SecurityError'))", "This browser saves no pages of this site"),
    ("Object.defineProperty(window, 'isSecureContext', {value: false})",
     "This address does not begin with https"),
])
def test_a_browser_that_keeps_nothing_is_told_of(
        served: Served, context: BrowserContext, script: str, said: str) -> None:
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.add_init_script(script)
    for path in (SIZE, "offline.html"):
        page.goto(f"{served.address}/{path}")
        expect(page.locator("main")).to_contain_text(said)
        assert page.locator(".wb-keep button:visible, #kept-here button:visible").count() == 0
    assert page.locator("main h2").count() > 4
    assert faults == []


def test_a_reader_who_leaves_the_browser_without_an_answer_keeps_the_pattern(
        served: Served, context: BrowserContext) -> None:
    """Storage standard, `persist()`: the browser may ask the reader; Firefox does, and waits."""
    page = context.new_page()
    page.add_init_script("StorageManager.prototype.persist = () => new Promise(() => {})")
    keep(page, served)
    context.set_offline(True)
    page.reload()
    expect(page.locator("h1")).to_contain_text("size 3 months")


def test_the_site_can_be_installed(served: Served, context: BrowserContext) -> None:
    """Chromium's own judgement of the manifest (W3C Web Application Manifest)."""
    page = context.new_page()
    page.goto(f"{served.address}/index.html")
    page.wait_for_selector("link[rel=manifest]", state="attached")
    session = context.new_cdp_session(page)
    assert session.send("Page.getAppManifest")["errors"] == []
    found = session.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [e for e in found if e["errorId"] != "in-incognito"] == []
    manifest = json.loads((served.folder / "manifest.webmanifest").read_text(encoding="utf-8"))
    for icon in manifest["icons"]:
        file = served.folder / icon["src"]
        if icon["type"] == "image/png":
            assert "{}x{}".format(*Image.open(file).size) == icon["sizes"]
        assert file.is_file()

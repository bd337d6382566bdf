"""What a reader saved stays hers: broken lists, foreign answers, a site half swapped or gone.

Each test has a served copy of the demo site, as in test_offline.py. What a browser does comes from
the published standards: Service Workers (W3C) and Fetch (WHATWG), with Chromium as their judge.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from random import Random
from time import sleep
from typing import Any, Literal

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, expect
from walebook_site.finishing import as_preview
from walebook_site.keeping import write_worker

from . import test_offline
from .test_offline import (
    BAND,
    HAT,
    SIZE,
    UPDATE,
    WORKER,
    Served,
    _Slow,
    assert_all_of_this_edition,
    assert_still_there,
    close_site,
    held,
    keep,
    look_at,
    renew,
    styles,
)

served = test_offline.served  # the fixture
LIST = re.compile(r"const EDITION = (\{.*\});")


def spoil(served: Served, change: Callable[[dict[str, Any]], object]) -> str:
    """The worker's text with another list in it: what `change` makes of the right one."""
    text = (served.folder / "sw.js").read_text(encoding="utf-8")
    found = LIST.search(text)
    assert found
    given = json.loads(found[1])
    given["edition"] = "0" * 20  # the name of another version, so that nothing is there of it
    result = change(given)
    return text.replace(found[0], f"const EDITION = {json.dumps(result)};")


def without_files(given: dict[str, Any]) -> dict[str, Any]:
    return {**given, "files": [], "groups": {name: {**group, "files": []}
                                             for name, group in given["groups"].items()}}


def with_group(given: dict[str, Any], name: str, group: dict[str, Any]) -> dict[str, Any]:
    return {**given, "groups": {**given["groups"], name: group}}


def without_some(given: dict[str, Any]) -> dict[str, Any]:
    """Half of the reading is missing from its group, and nothing else is wrong."""
    reading = given["groups"]["reading"]
    return with_group(given, "reading", {**reading, "files": reading["files"][::2]})


def beyond(given: dict[str, Any]) -> dict[str, Any]:
    reading = given["groups"]["reading"]
    return with_group(given, "reading", {**reading, "files": [len(given["files"])]})


def other_list(given: dict[str, Any]) -> dict[str, Any]:
    """A pattern's list is named by another digest than the one that was counted in."""
    band = given["groups"]["practice-band"]
    return with_group(given, "practice-band", {**band, "list": [band["list"][0], "0" * 20, 1]})


def without_list(given: dict[str, Any]) -> dict[str, Any]:
    band = given["groups"]["practice-band"]
    return with_group(given, "practice-band", {k: v for k, v in band.items() if k != "list"})


BROKEN: dict[str, Callable[[dict[str, Any]], object]] = {
    "null": lambda _: None, "false": lambda _: False, "{}": lambda _: {}, "[]": lambda _: [],
    "text": json.dumps,
    "no files": without_files, "files are false": lambda given: {**given, "files": False},
    "no groups": lambda given: {**given, "groups": {}},
    "files left out of a group": without_some,
    "a file that is not in the list": beyond,
    "half of the files": lambda given: {**given, "files": given["files"][:20], "groups": {
        name: {**group, "files": [n for n in group["files"] if n < 20]} if "files" in group
        else group for name, group in given["groups"].items()}},
    "another list of a pattern": other_list, "no list of a pattern": without_list,
    "without digests": lambda given: {**given, "files": [[f[0], "", f[2]] for f in given["files"]]},
}


OFTEN = ("null", "no files", "files left out of a group", "another list of a pattern")


@pytest.mark.parametrize("names", [OFTEN, pytest.param(tuple(BROKEN), marks=pytest.mark.long)],
                         ids=["some", "all"])
def test_a_worker_without_a_whole_list_takes_nothing_away(
        served: Served, context: BrowserContext, names: tuple[str, ...]) -> None:
    page = context.new_page()
    keep(page, served)
    before = held(page)
    right = (served.folder / "sw.js").read_text(encoding="utf-8")
    lost: list[str] = []
    texts = {name: spoil(served, BROKEN[name]) for name in names}
    texts["cut off"] = right[:len(right) // 2]
    for name, text in texts.items():
        (served.folder / "sw.js").write_text(text, encoding="utf-8")
        came = page.evaluate(UPDATE)
        if came not in ("redundant", "refused") or held(page) != before:
            lost.append(f"{name}: {came}, {sum(map(len, held(page).values()))} files")
        (served.folder / "sw.js").write_text(right, encoding="utf-8")
    assert lost == []
    context.set_offline(True)
    page.goto(f"{served.address}/{BAND}/6-months.html")
    expect(page.locator("h1")).to_contain_text("size 6 months")


def test_a_list_that_is_not_this_editions_lets_no_page_in(
        served: Served, context: BrowserContext) -> None:
    """With something saved, a pattern's pages are held to its list, and the list to its digest."""
    page = context.new_page()
    keep(page, served)
    served.change(f"{HAT}/files.json", "techniques", "techniquez")
    page.goto(f"{served.address}/{HAT}/index.html")
    expect(page.locator("h1")).to_have_text("This page did not arrive")
    assert HAT not in str(held(page))
    page.goto(f"{served.address}/{BAND}/6-months.html")
    expect(page.locator("h1")).to_contain_text("size 6 months")


# -- A page and its scripts are of one build -------------------------------------------------------

MARKED = 'walebook.steps = {'
OFFERS = ".wb-go button.wb-main-button"  # made by a script, in place of a link
INCOMPLETE = "A part of this page did not arrive."


def rebuild(served: Served) -> None:
    """Another build: a page has other words, and a script says that it is of it."""
    for path in (SIZE, f"{HAT}/index.html"):
        served.change(path, "<h1", '<h1 class="wb-renewed"')
    served.change_own("assets/page.js", MARKED, f"window.ofBuild = 'new';\n{MARKED}")
    served.publish()


def assert_one_build(page: Page) -> None:
    """The page's script is of the page's build, or there is none and the page says so."""
    is_new = page.locator("h1.wb-renewed").count() == 1
    script = page.evaluate("window.ofBuild || (window.walebook && walebook.steps ? 'old' : 'none')")
    if script == "none":
        expect(page.locator("body")).to_contain_text(INCOMPLETE)
    else:
        assert script == ("new" if is_new else "old")


@pytest.mark.parametrize("workers", ["block", "allow"])
def test_a_site_that_is_replaced_between_a_page_and_its_scripts(
        served: Served, browser: Browser, monkeypatch: pytest.MonkeyPatch,
        workers: Literal["allow", "block"]) -> None:
    context = browser.new_context(service_workers=workers)
    page = context.new_page()
    done: list[str] = []

    def meddles(self: _Slow) -> bool:
        if self.path.endswith(".css") and not done:
            done.append(self.path)
            rebuild(served)
        return False

    monkeypatch.setattr(_Slow, "meddles", meddles)
    page.goto(f"{served.address}/{SIZE}")
    assert done and page.locator("h1.wb-renewed").count() == 0
    assert_one_build(page)
    assert page.locator("main ol > li").count() > 20  # it can be read
    page.get_by_role("button", name="Reload the page").click()
    expect(page.locator(OFFERS).first).to_be_visible()
    expect(page.locator("h1.wb-renewed")).to_have_count(1)
    assert_one_build(page)
    context.close()


def test_on_a_slow_line_a_new_page_runs_with_its_own_scripts(
        served: Served, context: BrowserContext,
        monkeypatch: pytest.MonkeyPatch) -> None:
    """The worker has the old scripts and hears of the new edition too late."""
    page = context.new_page()
    look_at(page, served, SIZE)
    look_at(page, served, SIZE)  # by the worker
    rebuild(served)
    monkeypatch.setattr(_Slow, "seconds", 2.0)
    page.goto(f"{served.address}/{HAT}/index.html")
    assert page.locator("h1.wb-renewed").count() == 1
    assert page.evaluate("window.ofBuild") == "new"


def cut_short(self: _Slow) -> bool:
    """Half of a script arrives, then the connection ends."""
    self.send_response(200)
    self.send_header("Content-Type", "text/javascript")
    self.send_header("Content-Length", "9999")
    self.end_headers()
    self.wfile.write(b"(function (walebook) {")
    self.close_connection = True
    return True


def portal(self: _Slow) -> bool:
    """A network's own page stands in the place of what was asked for."""
    body = b"<!doctype html><title>Log in</title><h1>Log in to the network</h1>"
    self.send_response(200)
    self.send_header("Content-Type", "text/html")
    self.send_header("Content-Length", str(len(body)))
    self.end_headers()
    self.wfile.write(body)
    return True


def silent(self: _Slow) -> bool:
    """No answer at all, as without a signal."""
    self.close_connection = True
    return True


def refuse(self: _Slow) -> bool:
    self.send_error(503)
    return True


@pytest.mark.parametrize(("script", "answer"), [
    ("bench", cut_short), ("page", portal), ("bench", refuse)])
def test_a_script_that_does_not_arrive_leaves_a_page_to_read_and_no_half_a_bench(
        served: Served, browser: Browser, monkeypatch: pytest.MonkeyPatch,
        script: str, answer: Callable[[_Slow], bool]) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    monkeypatch.setattr(_Slow, "meddles", lambda self: f"/assets/{script}." in self.path
                        and self.path.endswith(".js") and answer(self))
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("body")).to_contain_text(INCOMPLETE)
    assert page.locator("main ol > li").count() > 20
    assert page.locator(OFFERS).count() == 0
    monkeypatch.setattr(_Slow, "meddles", lambda self: False)
    page.get_by_role("button", name="Reload the page").click()
    expect(page.locator(OFFERS).first).to_be_visible()
    context.close()


# -- Foreign answers, a site that is gone, a preview -----------------------------------------------


def test_an_answer_in_the_place_of_a_file_is_not_saved(
        served: Served, context: BrowserContext,
        monkeypatch: pytest.MonkeyPatch) -> None:
    page = context.new_page()
    keep(page, served)
    page.goto(f"{served.address}/{HAT}/index.html")
    expect(page.get_by_role("button", name="Save offline")).to_be_visible()
    before = held(page)
    monkeypatch.setattr(_Slow, "meddles", portal)
    page.get_by_role("button", name="Save offline").click()
    expect(page.locator(".wb-keep")).to_contain_text("The answer was not this site's file.")
    assert page.evaluate(UPDATE) in ("refused", "redundant")
    assert {k: sorted(v) for k, v in held(page).items()} == {
        k: sorted(v) for k, v in before.items()}
    page.goto(f"{served.address}/techniques/blocking.html")
    expect(page.locator("h1")).to_have_text("This page did not arrive")
    page.goto(f"{served.address}/{SIZE}")
    expect(page.locator("h1")).to_contain_text("size 3 months")
    monkeypatch.setattr(_Slow, "meddles", lambda self: False)
    assert_all_of_this_edition(page, served)


def test_a_site_that_is_taken_off_its_server_stays_on_the_device(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    before = held(page)
    served.folder.rename(served.folder.with_name("elsewhere"))
    page.reload()
    expect(page.locator("h1")).to_contain_text("size 3 months")
    assert page.evaluate(UPDATE) == "refused"
    page.goto(f"{served.address}/offline.html")
    expect(page.locator(".wb-kept")).to_contain_text("Practice band, version 1.0.1")
    page.goto(f"{served.address}/{BAND}/6-months.html")
    expect(page.locator("h1")).to_contain_text("size 6 months")
    assert_still_there(before, held(page))


def test_a_preview_registers_no_worker_and_takes_nothing_away(
        served: Served, context: BrowserContext) -> None:
    page = context.new_page()
    keep(page, served)
    before = held(page)
    shutil.copytree(served.folder, served.folder.with_name("whole"))
    for name in ("sw.js", "edition.json"):
        (served.folder / name).unlink()
    for file in served.folder.rglob("*.html"):
        file.write_text(as_preview(file.read_text(encoding="utf-8")), encoding="utf-8")
    page.goto(f"{served.address}/{HAT}/index.html")
    assert page.evaluate(UPDATE) == "refused"
    assert_still_there(before, held(page))
    other = context.browser.new_context()  # type: ignore[union-attr]  # one that was never here
    preview = other.new_page()
    preview.goto(f"{served.address}/{SIZE}")
    expect(preview.locator(".wb-keep")).to_contain_text("This is a preview of the site.")
    assert preview.evaluate("navigator.serviceWorker.getRegistrations().then((r) => r.length)") == 0
    other.close()
    # The site itself comes back, in a newer edition: what was saved is brought into it.
    shutil.rmtree(served.folder)
    served.folder.with_name("whole").rename(served.folder)
    renew(served)
    page.goto(f"{served.address}/{SIZE}")
    page.get_by_role("button", name="Update").click()
    expect(page.locator("article")).to_contain_text("Hang the renewed weights")
    assert_all_of_this_edition(page, served)


def test_a_worker_that_was_removed_and_comes_again_finds_what_was_saved(
        served: Served, context: BrowserContext) -> None:
    """A browser may forget a worker and not its caches (Service Workers, "unregister")."""
    page = context.new_page()
    keep(page, served)
    page.evaluate("navigator.serviceWorker.getRegistration().then((r) => r.unregister())")
    page.reload()
    expect(page.locator(".wb-keep")).to_contain_text("Saved offline")
    context.set_offline(True)
    page.goto(f"{served.address}/{BAND}/6-months.html")
    expect(page.locator("h1")).to_contain_text("size 6 months")


# -- From one version of the site to the next, whatever happens ------------------------------------


def readable(page: Page, served: Served, path: str) -> None:
    """A page that was saved opens, with its style and the bench."""
    page.goto(f"{served.address}/{path}")
    expect(page.locator("h1")).to_be_visible()
    assert page.locator("html.wb-incomplete").count() == 0, path
    assert "wb-facts" in styles(page) and page.locator(".wb-go").count(), path


def restart(page: Page, served: Served) -> Page:
    """Let the browser find the newest worker; close the site and open it again."""
    page.evaluate(UPDATE)
    page = close_site(page, served)
    page.goto(f"{served.address}/offline.html")
    page.evaluate("navigator.serviceWorker.ready.then(() => null)")
    return page


@pytest.mark.long
def test_patterns_that_leave_and_come_back_are_there_all_the_while(
        served: Served, context: BrowserContext, monkeypatch: pytest.MonkeyPatch) -> None:
    page = context.new_page()
    keep(page, served)
    keep(page, served, f"{HAT}/index.html")
    hat = next(path.name for path in (served.folder / HAT).glob("[!i]*.html"))
    away = served.folder.with_name("away")
    away.mkdir()
    for turn, (leaves, comes) in enumerate([(BAND, None), (HAT, None), (None, BAND), (None, HAT)]):
        if leaves:
            (served.folder / leaves).rename(away / Path(leaves).name)
        if comes:
            (away / Path(comes).name).rename(served.folder / comes)
        served.change_own("assets/walebook.css", ".wb-facts", f".wb-{turn}, .md-typeset .wb-facts")
        (style,) = served.folder.glob("assets/walebook.*.css")
        for file in served.folder.rglob("*.html"):
            html = file.read_text("utf-8")
            file.write_text(re.sub(r"walebook\.[0-9a-f]+\.css", style.name, html),
                            encoding="utf-8")
        served.publish()
        page = restart(page, served)
        monkeypatch.setattr(_Slow, "meddles", silent)
        readable(page, served, SIZE)
        readable(page, served, f"{HAT}/{hat}")
        monkeypatch.setattr(_Slow, "meddles", lambda self: False)
    assert_all_of_this_edition(page, served)


def test_a_pattern_saved_while_an_update_waits_and_then_lost_on_the_server_stays(
        served: Served, context: BrowserContext, monkeypatch: pytest.MonkeyPatch) -> None:
    """Saving is refused while an update waits; here the record says that it was saved even so."""
    page = context.new_page()
    keep(page, served)
    keep(page, served, f"{HAT}/index.html")
    page.evaluate("""async () => {
      const [name] = await caches.keys();
      const cache = await caches.open(name);
      const at = (await cache.keys()).find((each) => each.url.includes("?what-is-kept"));
      const record = await (await cache.match(at)).json();
      const without = { ...record, kept: ["practice-band"] };
      window.giveBack = () => cache.put(at, new Response(JSON.stringify(record)));
      await cache.put(at, new Response(JSON.stringify(without)));
    }""")
    hat = sorted(path.name for path in (served.folder / HAT).glob("[!i]*.html"))[0]
    with served.shut():
        renew(served)
        served.change(f"{HAT}/{hat}", "<h1", '<h1 class="wb-renewed"')
        served.publish()
    assert page.evaluate(UPDATE) == "installed"
    page.evaluate("window.giveBack()")
    (served.folder / HAT / hat).unlink()
    page = restart(page, served)
    expect(page.locator(".wb-kept")).to_contain_text("This is the version you saved.")
    monkeypatch.setattr(_Slow, "meddles", silent)
    readable(page, served, f"{HAT}/{hat}")
    assert page.locator("h1.wb-renewed").count() == 0
    readable(page, served, SIZE)
    expect(page.locator("article")).to_contain_text("1.1.0")


def test_an_update_that_finds_no_room_changes_nothing(
        served: Served, context: BrowserContext) -> None:
    """Storage standard: a write beyond the quota is refused with QuotaExceededError."""
    page = context.new_page()
    keep(page, served)
    before = held(page)
    with served.shut():
        renew(served)
        text = (served.folder / "sw.js").read_text(encoding="utf-8")
        (served.folder / "sw.js").write_text(text + """
          const given = Cache.prototype.put;
          let room = 30;
          Cache.prototype.put = function (...all) {
            if (room-- > 0) return given.apply(this, all);
            return Promise.reject(new DOMException("no room", "QuotaExceededError"));
          };""", encoding="utf-8")
    assert page.evaluate(UPDATE) == "redundant"
    assert held(page) == before
    context.set_offline(True)
    readable(page, served, f"{BAND}/6-months.html")


def test_an_update_that_breaks_off_half_way_loses_nothing_and_is_made_up_for(
        served: Served, context: BrowserContext, monkeypatch: pytest.MonkeyPatch) -> None:
    page = context.new_page()
    keep(page, served)
    before = held(page)
    asked: list[str] = []

    def meddles(self: _Slow) -> bool:
        if self.path.endswith("/sw.js"):
            return False
        asked.append(self.path)
        return len(asked) > 2 and cut_short(self)

    with served.shut():
        renew(served)
        monkeypatch.setattr(_Slow, "meddles", meddles)
    assert page.evaluate(UPDATE) == "redundant" and len(asked) > 2
    assert held(page) == before
    monkeypatch.setattr(_Slow, "meddles", lambda self: False)
    came = page.evaluate(UPDATE)
    if came == "redundant":  # the browser had sought it by itself, before the server was mended
        came = page.evaluate(UPDATE)
    assert came in ("installed", "activated")  # the page came before there was a worker to hold it
    page = restart(page, served)
    readable(page, served, SIZE)
    assert_all_of_this_edition(page, served)


def meddling(chance: Random, served: Served) -> Callable[[_Slow], bool]:
    """A server that is slow, refuses, ends too soon, and is given another build, all by chance."""
    turn = chance.randrange(30)
    count = [0]

    def meddles(self: _Slow) -> bool:
        count[0] += 1
        if count[0] == turn:
            rebuild(served)
        sleep(chance.choice((0, 0, 0, .02, .4)))
        what = chance.random()
        return what < .04 and chance.choice((cut_short, portal, refuse))(self)

    return meddles


@pytest.mark.parametrize("seed", [1, *(pytest.param(seed, marks=pytest.mark.long)
                                       for seed in range(2, 40))])
def test_whatever_a_server_does_no_page_runs_with_scripts_of_another_build(
        served: Served, context: BrowserContext, monkeypatch: pytest.MonkeyPatch, seed: int
        ) -> None:
    chance = Random(seed)
    page = context.new_page()
    if chance.random() < .7:
        look_at(page, served, SIZE)
    if chance.random() < .4:
        keep(page, served)
    monkeypatch.setattr(_Slow, "meddles", meddling(chance, served))
    for _ in range(4):
        try:
            page.goto(f"{served.address}/{chance.choice((SIZE, f'{HAT}/index.html'))}")
        except Error:
            continue  # the page itself did not arrive
        if page.locator("main ol > li, .wb-sizes").count():
            assert_one_build(page)


# -- Lists and names -------------------------------------------------------------------------------


def test_a_title_is_listed_as_it_is_written(
        served: Served, context: BrowserContext) -> None:
    """It is read from the page's facts, and shown as text."""
    served.change(f"{BAND}/index.html", '"title":"Practice band"',
                  r'"title":"Pip \u0026 \"Squeak\", a band"')
    served.publish()
    page = context.new_page()
    page.goto(f"{served.address}/offline.html")
    expect(page.locator(".wb-kept")).to_contain_text('Pip & "Squeak", a band')


def test_a_folder_that_is_no_whole_site_gets_no_worker(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match=r"has no index.html and no offline.html"):
        write_worker(tmp_path, WORKER)
    assert list(tmp_path.iterdir()) == []


def test_a_page_names_each_script_and_style_by_what_is_in_it(
        served: Served, browser: Browser) -> None:
    """And finds them so from disk too."""
    html = (served.folder / SIZE).read_text(encoding="utf-8")
    named = re.findall(r'(?:src|href)="\.\./\.\./(assets/[^/"]+\.(?:js|css))"', html)
    assert len(named) == 7  # three styles, four scripts
    for path in named:
        digest = sha256((served.folder / path).read_bytes()).hexdigest()
        assert digest.startswith(path.split(".")[-2]) and len(path.split(".")[-2]) >= 10, path
    context = browser.new_context()
    page = context.new_page()
    page.goto((served.folder / SIZE).as_uri())
    expect(page.locator(OFFERS).first).to_be_visible()
    assert page.locator("html.wb-incomplete").count() == 0
    context.close()

""" "My gauge" in a browser: a reader's swatch becomes her page, on her device and from one host.

The site is a collection of two patterns with the runtime, which `walebook runtime` makes; without
it these tests are skipped. What a page must be comes from the engine outside the browser.
"""

from __future__ import annotations

import json
import re
from base64 import b64encode
from collections.abc import Callable, Iterator
from contextlib import suppress
from io import BytesIO
from pathlib import Path
from random import Random
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, Route, expect
from pypdf import PdfReader
from walebook.pages.own_gauge_door import answer
from walebook.source.fabric_reading import size_slug
from walebook_site.editor import FOLDER as EDITOR
from walebook_site.runtime import FOLDER, NoRuntime, runtime_of

from tests.laws.test_own_gauge import SEED, SLUGS, asked_of, near, pattern_of

from .serving import CARDIGAN, HAT, ROOT, WITH_RUNTIME, collection, served

SETTINGS = """\
site_name: Lantern Quay
docs_dir: patterns
strict: true
plugins:
  - walebook: {my_gauge: true}
"""
SWATCH = {"stitches": "30", "width": "14.3 cm", "rows": "40", "height": "14.4 cm"}
FIGURE = "#wb-gauge-plain-{}"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    try:
        runtime_of(ROOT)
    except NoRuntime as fault:
        pytest.skip(f"`walebook runtime` makes what this needs, from an archive: {fault}")
    root = tmp_path_factory.mktemp("gauge")
    done = collection(root, SETTINGS, FOLDER)
    assert done.returncode == 0, done.stderr
    return root / "site"


@pytest.fixture(scope="module")
def address(site: Path) -> Iterator[str]:
    with served(site.parent) as address:
        yield f"{address}/site"


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    """A phone without a worker of the site: a test can answer in the server's place."""
    made = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    yield made.new_page()
    made.close()


def opened(page: Page, address: str, at: str = f"patterns/{HAT}/woman.html") -> None:
    page.goto(f"{address}/{at}#my-gauge")
    expect(page.locator(".wb-gauge-form button[type=submit]")).to_be_visible()


def enter(page: Page, swatch: dict[str, str]) -> None:
    for name, text in swatch.items():
        page.fill(FIGURE.format(name), text.removesuffix(" cm"))
    page.click(".wb-gauge-form button[type=submit]")


def expected(site: Path, swatches: dict[str, Any], slug: str = HAT, size: str = "woman",
             **more: Any) -> dict[str, Any]:
    given = json.loads((site / "patterns" / slug / "my-gauge.json").read_text(encoding="utf-8"))
    made: dict[str, Any] = json.loads(answer(json.dumps(
        {**given["asked"], "size": size, "swatches": swatches, **more})))
    return made


def kept(page: Page, kind: str) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate(
        "(kind) => Object.fromEntries(Object.entries(localStorage).filter(([key]) => "
        "key.startsWith(`walebook:${kind}/`)))", kind)
    return found


def test_her_page_is_the_engines_and_nothing_comes_from_elsewhere(
        phone: Page, address: str, site: Path) -> None:
    asked: list[str] = []
    phone.context.on("request", lambda request: asked.append(request.url))
    opened(phone, address)
    assert not any("/runtime/" in url for url in asked)  # nothing is loaded unasked
    phone.click("a.wb-home")
    opened(phone, address)
    enter(phone, SWATCH)
    expect(phone.locator(".wb-mine")).to_be_visible()
    hosts = {urlsplit(url).netloc for url in asked if not url.startswith(("blob:", "data:"))}
    assert hosts == {urlsplit(address).netloc}
    page = expected(site, {"plain": SWATCH})["page"]
    ((_, own),) = kept(phone, "own").items()
    assert json.loads(own)["html"] == page["html"]
    assert phone.url.endswith(f"woman.html?my-gauge={page['name']}")
    assert page["mark"] in phone.title()
    expect(phone.locator(".wb-mine-strip")).to_have_text(page["mark"])
    _her_figures_are_in_the_file_she_saves(phone)
    _her_places_are_hers_alone(phone, address)


def _her_figures_are_in_the_file_she_saves(phone: Page) -> None:
    """And are read back from it; her page is not in it, and is made of them."""
    entries = phone.evaluate("walebook.carry.unpack(walebook.carry.pack()).entries")
    figures = {key: value["swatches"] for key, value in entries.items() if key.startswith("gauge/")}
    assert list(figures.values()) == [{"plain": SWATCH}]
    assert not any(key.startswith("own/") for key in entries)


def _her_places_are_hers_alone(phone: Page, address: str) -> None:
    """A place that is kept on her page is none of the designer's page, and leads back to hers."""
    phone.click(".wb-go .wb-main-button")
    expect(phone.locator("dialog[open]")).to_contain_text("My gauge, 21 by 27.8")
    hers = set(kept(phone, "place"))
    assert len(hers) == 1 and all("/woman.my-1.0.1-" in key for key in hers)
    phone.goto(f"{address}/patterns/{HAT}/woman.html")
    expect(phone.locator(".wb-go .wb-main-button")).to_contain_text("Start knitting")
    assert phone.locator(".wb-mine").count() == 0
    phone.goto(f"{address}/index.html")
    phone.click(".wb-go-on a")
    expect(phone.locator("dialog[open]")).to_contain_text("My gauge")


def test_her_measures_make_her_page_and_her_next_figures_are_entered_there(
        phone: Page, address: str, site: Path) -> None:
    opened(phone, address, f"patterns/{CARDIGAN}/m.html")
    phone.click(".wb-measures > summary")
    for text, said in (("many", "Chest: write a length"), ("120", "at most 6 cm more or less")):
        phone.fill("#wb-measure-chest", text)
        phone.click(".wb-gauge-form button[type=submit]")
        expect(phone.locator(".wb-my-gauge")).to_contain_text(said)
    for text in ("97", "98"):  # the second from her own page
        phone.fill("#wb-measure-chest", text)
        phone.click(".wb-gauge-form button[type=submit]")
        expect(phone.locator(".wb-mine")).to_contain_text(f"Chest: {text} cm.")
        expect(phone.locator("#wb-measure-chest")).to_have_value(text)
        page = expected(site, {}, CARDIGAN, "m", measures={"chest": f"{text} cm"})["page"]
        assert phone.url.endswith(f"m.html?my-gauge={page['name']}")
        assert page["html"] in [json.loads(own)["html"] for own in kept(phone, "own").values()]
    assert len(kept(phone, "gauge")) == 2


HELD = """(async (name) => {
  for (const cache of (await caches.keys()).filter((each) => each.startsWith("start ")))
    for (const at of await (await caches.open(cache)).keys())
      if (at.url.endsWith(`/${name}`)) return [cache, at.url];
  return null;
})"""
DAMAGE = f"""async (name) => {{
  const [cache, at] = await {HELD}(name);
  const held = await (await caches.open(cache)).match(at);
  const body = new Uint8Array(await held.arrayBuffer());
  body[body.length >> 1] ^= 1;
  await (await caches.open(cache)).put(at, new Response(body, {{ headers: held.headers }}));
}}"""
DIGEST = f"""async () => {{
  const [cache, at] = await {HELD}("state");
  return (await (await caches.open(cache)).match(at)).headers.get("wb-digest");
}}"""

SIZES = f"""async () => {{
  const [cache, at] = await {HELD}("state");
  const body = await (await (await caches.open(cache)).match(at)).arrayBuffer();
  return [new Uint32Array(body, 0, 1)[0], body.byteLength];
}}"""

BEGUN = b"lieReady(python, runtime.info, () => decompress(packed));"
ANEW = b"""
python.runPython(`import importlib, sys
del sys.modules["walebook.words.words"]
importlib.import_module("walebook.words.words")`);"""
"""Once it has begun, a module is read from the library, which lies packed beside a kept start."""


def rehearsed(page: Page) -> None:
    """Wait until her page has a start kept for the next time."""
    for _ in range(600):
        if page.evaluate(HELD, "state"):
            return
        page.wait_for_timeout(100)
    raise AssertionError("no start is kept")


def test_a_start_is_kept_with_its_digest_and_one_that_is_damaged_is_thrown_away(
        phone: Page, address: str) -> None:
    """It is made on her page, when that is read, and not before she has it. Empty parts of the
    memory are left out.
    """
    opened(phone, address)
    assert phone.evaluate(f"{HELD}('state')") is None
    enter(phone, SWATCH)
    expect(phone.locator(".wb-mine")).to_be_visible()
    rehearsed(phone)
    assert re.fullmatch("[0-9a-f]{64}", phone.evaluate(DIGEST))
    memory, written = phone.evaluate(SIZES)
    assert written < memory * 3 / 4  # a third of it is empty when Python has answered
    phone.evaluate(DAMAGE, "state")
    opened(phone, address)
    enter(phone, {**SWATCH, "width": "14.4 cm"})
    expect(phone.locator(".wb-mine")).to_contain_text("over 14.4 cm")
    rehearsed(phone)
    spoiled(address, phone, "worker.js", lambda data: data.replace(BEGUN, BEGUN + ANEW))
    opened(phone, address)
    enter(phone, {**SWATCH, "width": "14.5 cm"})  # from the start that is kept
    expect(phone.locator(".wb-mine")).to_contain_text("over 14.5 cm")
    assert phone.evaluate(HELD, "state")  # one that does not fit is deleted


def test_a_kept_start_needs_python_packed_only_where_the_unpacked_is_damaged(
        context: BrowserContext, address: str, site: Path) -> None:
    """The site's worker answers with it, and the browser looks at its digest."""
    phone, asked = context.new_page(), []
    opened(phone, address)
    enter(phone, SWATCH)
    expect(phone.locator(".wb-mine")).to_be_visible()
    rehearsed(phone)
    kept_digest = phone.evaluate(f"""async () => {{
      const [cache, at] = await {HELD}("python.wasm");
      const body = await (await (await caches.open(cache)).match(at)).arrayBuffer();
      return [...new Uint8Array(await crypto.subtle.digest("SHA-256", body))];
    }}""")
    worker = next((site / "runtime").glob("*/worker.js")).read_text(encoding="utf-8")
    assert f'"wasm":"sha256-{b64encode(bytes(kept_digest)).decode()}"' in worker
    phone.close()
    for width, names in (("14.4 cm", {"library.bin"}), ("14.5 cm", {"library.bin", "python.bin"})):
        phone = context.new_page()
        asked = []
        phone.on("request", lambda request, seen=asked: seen.append(request.url))
        opened(phone, address)
        enter(phone, {**SWATCH, "width": width})
        expect(phone.locator(".wb-mine")).to_contain_text(f"over {width}")
        assert {url.rpartition("/")[2] for url in asked if url.endswith(".bin")} == names
        page = expected(site, {"plain": {**SWATCH, "width": width}})["page"]
        assert page["html"] in [json.loads(own)["html"] for own in kept(phone, "own").values()]
        phone.evaluate(DAMAGE, "python.wasm")
        phone.close()


def test_a_page_that_is_not_on_the_device_is_said_to_be_missing(phone: Page, address: str) -> None:
    phone.goto(f"{address}/patterns/{HAT}/woman.html?my-gauge=my-1.0.1-0123456789ab")
    expect(phone.locator(".wb-mine-note")).to_contain_text("is not on this device")
    expect(phone.locator(".wb-gauge-form button[type=submit]")).to_be_visible()


def test_figures_that_cannot_be_read_and_gauges_that_do_not_work_are_told(
        phone: Page, address: str, site: Path) -> None:
    opened(phone, address, f"patterns/{CARDIGAN}/l.html")
    phone.fill("#wb-gauge-body-stitches", "twenty")
    phone.click(".wb-gauge-form button[type=submit]")
    expect(phone.locator(".wb-gauge-said")).to_contain_text("Stitches: write a whole number")
    for name, text in {"stitches": "20", "width": "12", "rows": "30", "height": "16.6"}.items():
        phone.fill(f"#wb-gauge-body-{name}", text)
    phone.click(".wb-gauge-form button[type=submit]")
    expect(phone.locator(".wb-gauge-outcome")).to_contain_text("differs by at most 15 %")
    expect(phone.locator(".wb-gauge-outcome")).not_to_contain_text("were tried")
    assert kept(phone, "own") == {}


@pytest.mark.long
def test_pages_of_every_form_are_the_engines_from_the_browsers_own_worker(
        phone: Page, address: str) -> None:
    """A size of each pattern of the collection, with every fabric 6 % off at most."""
    opened(phone, address)
    folder = phone.get_attribute(".wb-my-gauge", "data-wb-runtime")
    made, forms = 0, set()
    for slug in SLUGS:
        random, pattern = Random(f"worker {SEED} {slug}"), pattern_of(slug)
        asked = {**asked_of(slug)["asked"], "size": size_slug(random.choice(pattern.sizes)),
                 "swatches": {key: near(random, key, pattern, .06) for key in pattern.fabrics}}
        there = phone.evaluate("([folder, asked]) => walebook.runtime.ask(folder, asked, () => {})",
                               [folder, asked])
        assert there == json.loads(answer(json.dumps(asked))), slug
        made += "page" in there
        forms |= {pattern.garment.form} if "page" in there and pattern.garment else set()
    assert made > len(SLUGS) // 2 and len(forms) > 5


def typed(page: Page) -> list[str]:
    return [page.input_value(f"#wb-gauge-body-{name}")
            for name in ("stitches", "width", "rows", "height")]


def typed_in(page: Page, figures: list[str]) -> None:
    for name, text in zip(("stitches", "width", "rows", "height"), figures, strict=True):
        page.fill(f"#wb-gauge-body-{name}", text)


def test_what_she_typed_outlives_a_refusal_and_goes_with_her_to_a_size_that_works(
        phone: Page, address: str) -> None:
    """On size L alone, until she follows the link; and in the file that she saves."""
    figures = ["20", "12", "30", "16.6"]
    opened(phone, address, f"patterns/{CARDIGAN}/l.html")
    typed_in(phone, figures)
    phone.click(".wb-gauge-form button[type=submit]")
    expect(phone.locator(".wb-gauge-outcome")).to_contain_text("differs by at most 15 %")
    phone.reload()
    expect(phone.locator(".wb-gauge-form button[type=submit]")).to_be_visible()
    assert typed(phone) == figures
    entries = phone.evaluate("walebook.carry.unpack(walebook.carry.pack()).entries")
    (key,) = [key for key in entries if key.startswith("typed/")]
    assert key == f"typed/{CARDIGAN}/l"
    opened(phone, address, f"patterns/{CARDIGAN}/m.html")
    assert typed(phone) == [""] * 4
    opened(phone, address, f"patterns/{CARDIGAN}/l.html")
    phone.evaluate("walebook.runtime.ask = async () => ({ refused: { said: ['No.'], gauges: null, "
                   "sizes: { M: 'm' } } })")
    phone.click(".wb-gauge-form button[type=submit]")
    phone.click(".wb-gauge-outcome a")
    expect(phone.locator("#wb-gauge-body-width")).to_have_value(figures[1])
    assert phone.url.endswith("/m.html#my-gauge") and typed(phone) == figures


def test_a_gauge_that_works_for_several_fabrics_fills_all_their_fields(
        phone: Page, address: str) -> None:
    opened(phone, address, f"patterns/{CARDIGAN}/l.html")
    found = {key: {**SWATCH, "width": width}
             for key, width in (("body", "14.3 cm"), ("band", "13.1 cm"))}
    phone.evaluate("(swatches) => { walebook.runtime.ask = async () => ({ refused: "
                   "{ said: ['No.'], gauges: [{ said: 'Both.', swatches }], sizes: {} } }); }",
                   found)
    typed_in(phone, ["30", "9", "40", "9"])
    phone.click(".wb-gauge-form button[type=submit]")
    phone.click(".wb-gauge-outcome button")
    assert typed(phone) == ["30", "14.3", "40", "14.4"]
    assert phone.input_value("#wb-gauge-band-width") == "13.1"


def test_what_she_types_on_her_own_page_is_not_on_the_published_one(
        phone: Page, address: str) -> None:
    hers, mine = ["20", "14.5", "30", "16.2"], ["20", "14.6", "30", "16.3"]
    opened(phone, address, f"patterns/{CARDIGAN}/m.html")
    typed_in(phone, hers)
    phone.click(".wb-gauge-form button[type=submit]")
    expect(phone.locator(".wb-mine")).to_be_visible()
    assert kept(phone, "typed") == {}, "they are in her page's figures now"
    own = phone.url
    expect(phone.locator("#wb-gauge-body-width")).to_have_value("14.5")
    typed_in(phone, mine)
    opened(phone, address, f"patterns/{CARDIGAN}/m.html")
    assert typed(phone) == hers
    phone.goto(own)
    expect(phone.locator("#wb-gauge-body-width")).to_have_value("14.6")
    assert typed(phone) == mine


def test_what_she_typed_outlives_a_browser_that_is_killed_while_it_loads(
        phone: Page, address: str) -> None:
    figures = ["20", "14.5", "30", "16.2"]
    phone.route(f"{address}/runtime/*/python.bin", lambda route: None)  # it never comes
    opened(phone, address, f"patterns/{CARDIGAN}/m.html")
    typed_in(phone, figures)
    phone.click(".wb-gauge-form button[type=submit]")
    expect(phone.locator(".wb-gauge-said")).to_contain_text("Loading")
    with phone.expect_event("crash"), suppress(Error):
        phone.goto("chrome://crash", wait_until="commit")
    again = phone.context.new_page()
    opened(again, address, f"patterns/{CARDIGAN}/m.html")
    assert typed(again) == figures


def spoiled(address: str, page: Page, name: str, change: Callable[[bytes], bytes]) -> None:
    """Let the server send something else for a file of the runtime."""
    def send(route: Route) -> None:
        response = route.fetch()
        route.fulfill(response=response, body=change(response.body()))
    page.route(f"{address}/runtime/*/{name}", send)


def said(page: Page, address: str, text: str) -> None:
    """The page says what went wrong, nothing is kept, and the designer's page works on."""
    opened(page, address)
    enter(page, SWATCH)
    expect(page.locator(".wb-gauge-said")).to_contain_text(text, timeout=30_000)
    assert kept(page, "own") == kept(page, "gauge") == {}
    page.click(".wb-go .wb-main-button")
    expect(page.locator("dialog[open]")).to_be_visible()


@pytest.mark.parametrize("name", ["library.bin", "python.bin", "unpack.js"])
def test_a_damaged_runtime_is_told_of(phone: Page, address: str, name: str) -> None:
    """Python is compiled while it comes, and thrown away."""
    spoiled(address, phone, name, lambda data: data[:-9] + b"x" + data[-8:])
    said(phone, address, "did not arrive as it should")


def test_a_missing_runtime_is_told_of(phone: Page, address: str) -> None:
    phone.route(f"{address}/runtime/*/python.bin", lambda route: route.fulfill(status=404))
    said(phone, address, "lacks a part")


def test_a_browser_that_refuses_webassembly_in_silence_is_told_of(
        phone: Page, address: str) -> None:
    never = b"WebAssembly.instantiate = () => new Promise(() => {});\n"
    spoiled(address, phone, "worker.js", lambda data: never + data.replace(b"10_000", b"200"))
    said(phone, address, "WebAssembly")


def test_a_browser_without_workers_is_told_of(phone: Page, address: str) -> None:
    phone.add_init_script("delete window.Worker;")
    said(phone, address, "does not run what counts the page anew")


def test_a_browser_that_compiles_nothing_as_it_comes_is_told_of(phone: Page, address: str) -> None:
    older = b"delete WebAssembly.compileStreaming;\n"
    spoiled(address, phone, "worker.js", lambda data: older + data)
    said(phone, address, "does not run what counts the page anew")


def test_a_device_without_room_is_told_of(phone: Page, address: str) -> None:
    phone.add_init_script(
        "const put = Storage.prototype.setItem; Storage.prototype.setItem = function (key, text) {"
        "if (key.includes(':own/')) throw new DOMException('full', 'QuotaExceededError');"
        "put.call(this, key, text); };")
    said(phone, address, "no room on this device")


def test_a_cardigan_6_per_cent_off_is_counted_on_a_phone_without_a_signal_where_it_is_saved(
        context: BrowserContext, address: str, site: Path) -> None:
    """Slack Tide: 20 stitches are 15.4 cm and 30 rows 16.6 cm; 14.5 and 15.6 are 6 % less."""
    at = f"patterns/{CARDIGAN}/m.html"
    figures = {"stitches": "20", "width": "14.5", "rows": "30", "height": "15.6"}
    phone = context.new_page()
    phone.set_viewport_size({"width": 360, "height": 740})
    opened(phone, address, at)
    phone.click(".wb-keep .wb-button")
    expect(phone.locator(".wb-keep")).to_contain_text("Saved offline")
    phone.get_by_role("button", name="Save it offline").click()
    expect(phone.locator(".wb-my-gauge")).to_contain_text("works without a signal")
    context.set_offline(True)
    phone.close()
    phone = context.new_page()
    phone.set_viewport_size({"width": 360, "height": 740})
    opened(phone, address, at)
    typed_in(phone, list(figures.values()))
    phone.click(".wb-gauge-form button[type=submit]")
    expect(phone.locator(".wb-mine")).to_be_visible()
    swatch = {**figures, "width": "14.5 cm", "height": "15.6 cm"}
    page = expected(site, {"body": swatch}, CARDIGAN, "m")["page"]
    assert [json.loads(own)["html"] for own in kept(phone, "own").values()] == [page["html"]]
    phone.reload()
    expect(phone.locator(".wb-mine-strip")).to_have_text(page["mark"])
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360


def test_every_sheet_of_her_page_is_marked_as_hers_and_it_tells_of_a_newer_version(
        phone: Page, address: str, site: Path) -> None:
    """Each sheet at its head; and the designer's newer version, where there is one."""
    opened(phone, address)
    enter(phone, SWATCH)
    expect(phone.locator(".wb-mine")).to_be_visible()
    mark = expected(site, {"plain": SWATCH})["page"]["mark"]
    sheets = [re.sub(r"\s+", " ", sheet.extract_text())
              for sheet in PdfReader(BytesIO(phone.pdf())).pages]
    assert len(sheets) > 2 and all(mark in text for text in sheets)
    assert phone.locator(".wb-mine-note").count() == 0
    newer(phone)
    phone.reload()
    expect(phone.locator(".wb-mine-note")).to_contain_text("version 7.0.0")
    expect(phone.locator(".wb-mine-note")).to_contain_text("1.0.1")
    expect(phone.locator(".wb-mine-strip")).to_have_text(mark)


def test_her_page_has_the_version_of_the_texts_that_it_was_made_of(
        phone: Page, address: str) -> None:
    """Where the site was replaced behind the page that she reads: the note names 7.0.0, and
    on the page of 7.0.0, which the server has now, nothing says that hers is older."""
    def later(route: Route) -> None:
        given = route.fetch().json()
        route.fulfill(json={**given, "version": "7.0.0"})
    phone.route(f"{address}/patterns/{HAT}/my-gauge.json", later)
    opened(phone, address)
    expect(phone.locator(".wb-gauge-said")).to_contain_text("has an update")
    phone.evaluate("walebook.runtime.ask = async () => ({ page: { name: 'my-7.0.0-0123456789ab', "
                   "mark: 'My gauge', html: '<p class=wb-mine>Hers</p>' } })")
    newer(phone)
    enter(phone, SWATCH)
    expect(phone.locator(".wb-mine")).to_be_visible()
    assert [json.loads(own)["version"] for own in kept(phone, "own").values()] == ["7.0.0"]
    assert phone.locator(".wb-mine-note").count() == 0


def newer(page: Page) -> None:
    """Serve the designer's page as that of version 7.0.0."""
    def later(route: Route) -> None:
        response = route.fetch()
        facts = '"version":"1.0.1"'
        assert facts in response.text()
        route.fulfill(response=response, body=response.text().replace(
            facts, '"version":"7.0.0"'))
    page.route(f"**/patterns/{HAT}/woman.html*", later)


def test_a_single_file_says_where_it_can_be_done_and_has_no_script_for_it(site: Path) -> None:
    text = (site / "patterns" / HAT / "woman-single-file.html").read_text(encoding="utf-8")
    assert "open this page on the site" in text
    assert "Count it anew" not in text  # the script of the form


def test_a_site_that_asks_for_it_without_the_runtime_is_not_built(tmp_path: Path) -> None:
    """What is printed says what to do."""
    done = collection(tmp_path, SETTINGS)
    assert done.returncode and "walebook runtime" in done.stdout + done.stderr
    assert not (tmp_path / "site").exists()


@pytest.mark.usefixtures("site")  # which is made where there is a runtime
def test_the_settings_of_the_demo_with_the_runtime_bring_both_of_its_parts(tmp_path: Path) -> None:
    """With two of the demo's patterns: the Slack Tide cardigan lets a reader have her gauge."""
    demo = (ROOT / "mkdocs.yml").read_text(encoding="utf-8")
    (tmp_path / WITH_RUNTIME).write_bytes((ROOT / WITH_RUNTIME).read_bytes())
    done = collection(tmp_path, demo.replace("docs_dir: site_src", "docs_dir: patterns"), FOLDER,
                      EDITOR, settings_file=WITH_RUNTIME)
    assert done.returncode == 0, done.stderr
    page = (tmp_path / "site" / "patterns" / CARDIGAN / "m.html").read_text(encoding="utf-8")
    assert 'id="my-gauge"' in page
    assert 'class="wb-try"' in (tmp_path / "site" / "try-it.html").read_text(encoding="utf-8")


def test_a_site_that_does_not_ask_for_it_has_nothing_of_it(tmp_path: Path) -> None:
    done = collection(tmp_path, SETTINGS.replace("my_gauge: true", "my_gauge: false"), slugs=(HAT,))
    assert done.returncode == 0, done.stderr
    paths = {path.relative_to(tmp_path / "site").as_posix()
             for path in (tmp_path / "site").rglob("*")}
    assert not any(path.startswith("runtime") or path.endswith("my-gauge.json") for path in paths)
    html = (tmp_path / "site" / "patterns" / HAT / "woman.html").read_text(encoding="utf-8")
    assert "wb-my-gauge" not in html and "my-gauge." not in html

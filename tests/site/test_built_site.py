"""The built demo site as readers meet it: in a browser, on a phone, from disk, without scripts."""

from __future__ import annotations

import gzip
import json
import re
from base64 import b64decode
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from typing import Literal
from urllib.parse import unquote, urldefrag, urlparse

import jsonschema
import jsonschema_rs
import pytest
import yaml
from axe_playwright_python.sync_playwright import Axe
from PIL import Image
from playwright.sync_api import Browser, Page, Request, Route, expect

from .conftest import ROOT

LONG = pytest.mark.long
OPEN_ALL = "document.querySelectorAll('details').forEach((each) => { each.open = true; })"

SLUGS = tuple(sorted(path.parent.name for path in ROOT.glob("patterns/*/pattern.yaml")))
# Overviews that differ in what stands on them: fronts, charts, ribs, closings, bands alone.
LOOKED_AT = ("slack-tide-cardigan", "quayside-waistcoat", "little-lamp-cardigan",
             "net-loft-blanket", "harbour-light-mittens", "chandlery-closings", "practice-band")
SIZE_PAGE = "patterns/practice-band/3-months.html"
KINDS = ("index.html", "search.html", "reading.html", "abbreviations.html", "cautions.html",
         "techniques/index.html", "techniques/fold-turned.html",
         *(f"patterns/{slug}/index.html" for slug in LOOKED_AT),
         "patterns/slack-tide-cardigan/5x.html",  # a pattern's sizes differ in their numbers
         "patterns/quayside-waistcoat/l.html", "patterns/gangway-pullover/m.html",
         "patterns/ropewalk-cardigan/6.html", SIZE_PAGE)
# One of each kind: what the test command has time for. Of the garments' pages it is the one with
# most kinds of parts.
FEW = ("index.html", "search.html", "cautions.html", "techniques/fold-turned.html",
       "patterns/slack-tide-cardigan/index.html", "patterns/slack-tide-cardigan/5x.html", SIZE_PAGE)
# At these `test_every_view.py` looks with all other rules in every run.
IN_EVERY_VIEW = ("index.html", "search.html", "patterns/slack-tide-cardigan/index.html", SIZE_PAGE)


Scheme = Literal["light", "dark"]
Violation = tuple[str, list[list[str]]]  # a rule, and the elements that break it
COLOURS = ("color-contrast", "link-in-text-block")  # the rules that a scheme's colours decide
# Marks every element of which the like, with the like all within it, was seen before: the same
# tags, classes and states up to the root, so that the same styles hold. Returns all that are seen.
MARK_ALIKE = """(seen) => {
  const known = new Set(seen);
  const STATES = ["type", "style", "open", "hidden", "aria-pressed", "aria-current", "scope"];
  const digest = (text) => [...text].reduce(
    (n, c) => Math.imul(n ^ c.charCodeAt(0), 16777619) >>> 0, 2166136261);
  const walk = (element, above) => {
    const states = STATES.map((name) => element.getAttribute(name) ?? "-").join("|");
    const classes = [...element.classList].sort().join(".");
    const own = digest(`${above}>${element.localName}.${classes}|${states}`);
    const isKnown = known.has(own);
    known.add(own);
    const alike = [...element.children].map((child) => walk(child, own)).every(Boolean) && isKnown;
    element.toggleAttribute("data-alike", alike);
    return alike;
  };
  walk(document.body, "");
  return [...known];
}"""


def violations(page: Page, options: dict[str, object], exclude: str = "") -> list[Violation]:
    """What axe finds on a page as it stands, but for what is excluded."""
    response = Axe().run(page, context={"exclude": [[exclude]]} if exclude else None,
                         options={"resultTypes": ["violations"], **options}).response
    return [(v["id"], [n["target"] for n in v["nodes"]]) for v in response["violations"]]


def colour_violations(page: Page, scheme: Scheme, known: set[int]) -> list[Violation]:
    """What the colours of the device's scheme do wrong, each kind of element looked at once."""
    if not page.locator("style.wb-at-once").count():  # else the theme fades colours over
        page.evaluate("""() => document.head.insertAdjacentHTML("beforeend",
            "<style class='wb-at-once'>* {transition: none !important}</style>")""")
    page.emulate_media(color_scheme=scheme)
    known |= set(page.evaluate(MARK_ALIKE, sorted(known)))
    rules = {"runOnly": {"type": "rule", "values": list(COLOURS)}}
    return violations(page, rules, exclude="[data-alike]")


def pages(site: Path) -> list[Path]:
    """Every page of the site; the files that hold a size alone have tests of their own."""
    return [p for p in sorted(site.rglob("*.html")) if not p.name.endswith("-single-file.html")]


def widest(site: Path) -> list[Path]:
    """Every page, but of a pattern's sizes only the heaviest: they differ in their numbers."""
    kept: dict[Path, Path] = {}
    for path in pages(site):
        of_a_size = path.parent.parent.name == "patterns" and path.name != "index.html"
        key = path.parent if of_a_size else path
        kept[key] = max(kept.get(key, path), path, key=lambda p: p.stat().st_size)
    return list(kept.values())


def test_the_text_of_a_page_waits_for_one_light_style_and_for_no_script(site: Path) -> None:
    """12 kB come with the first answers of a line (ten packets of 1,460 bytes, RFC 6928), less its
    head. Only pages with steps bring the bench, and its style stands behind their text.
    """
    for path in pages(site):
        if path.name == "404.html":
            continue
        html = path.read_text(encoding="utf-8")
        head = html.split("</head>")[0]
        style, *more = re.findall(r'<link rel="stylesheet" href="([^"]+)">', head)
        scripts = re.findall(r'<script src="([^"]+)"( defer)?', html)
        assert not more and len(gzip.compress((path.parent / style).read_bytes())) < 12_000, path
        assert scripts and all(defer for _, defer in scripts), path
        has_steps = "<ol class=wb-steps" in html
        assert has_steps == ("assets/bench." in html), path
        assert has_steps == any("assets/bench." in name for name, _ in scripts), path


@pytest.mark.parametrize("widths", [(320, 412, 1280), pytest.param((360,), marks=LONG)],
                         ids=["some pages", "every page"])
def test_no_page_scrolls_sideways_asks_elsewhere_or_complains(
        site: Path, address: str, browser: Browser, widths: tuple[int, ...]) -> None:
    context = browser.new_context(viewport={"width": widths[0], "height": 740})
    page = context.new_page()
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda line: said.append(f"{page.url}: {line.text}")
            if line.type in ("error", "warning") else None)
    page.on("pageerror", lambda fault: said.append(f"{page.url}: {fault}"))
    wide = []
    for path in widest(site) if widths == (360,) else [site / kind for kind in KINDS]:
        page.set_viewport_size({"width": widths[0], "height": 740})
        page.goto(f"{address}/{path.relative_to(site).as_posix()}")
        page.evaluate(OPEN_ALL)
        for width in widths:  # a page is turned, or its window made wider, without being read anew
            page.set_viewport_size({"width": width, "height": 740})
            if page.evaluate("document.documentElement.scrollWidth > window.innerWidth"):
                wide.append(f"{path.name} at {width}")
    context.close()
    origin = "http://" + urlparse(address).netloc
    assert wide == []
    assert said == []
    assert [url for url in asked if not url.startswith((origin, "data:", "blob:"))] == []


@pytest.mark.parametrize(("width", "kinds"), [
    pytest.param(360, FEW, id="360"), pytest.param(360, KINDS, id="360, all", marks=LONG),
    pytest.param(1280, KINDS, id="1280, all", marks=LONG)])
def test_axe_finds_nothing(address: str, browser: Browser, width: int, kinds: tuple[str, ...]
                           ) -> None:
    """axe-core 4, all its rules, on every kind of page, in both schemes."""
    context = browser.new_context(viewport={"width": width, "height": 740})
    page = context.new_page()
    found: dict[str, list[Violation]] = {}
    seen: dict[Scheme, set[int]] = {"light": set(), "dark": set()}
    for kind in kinds:
        page.goto(f"{address}/{kind}")
        page.evaluate(OPEN_ALL)
        found[kind] = [] if kinds == FEW and kind in IN_EVERY_VIEW else violations(
            page, {"rules": {name: {"enabled": False} for name in COLOURS}})
        for scheme, known in seen.items():
            found[kind] += colour_violations(page, scheme, known)
    context.close()
    assert {kind: each for kind, each in found.items() if each} == {}


def test_a_colour_too_weak_is_found_once_however_often_it_stands(phone: Page, address: str
                                                                 ) -> None:
    """WCAG 2.2, 1.4.3: #999 on white has a contrast of 2.8 to 1, where 4.5 to 1 is asked."""
    phone.goto(f"{address}/{SIZE_PAGE}")
    phone.evaluate(OPEN_ALL)
    phone.add_style_tag(content="article .wb-check > i {color: #999 !important}")
    known: set[int] = set()
    (found,) = colour_violations(phone, "light", known)
    assert found[0] == "color-contrast"
    assert 0 < len(found[1]) < phone.locator(".wb-check > i").count()
    assert colour_violations(phone, "light", known) == []


class _Links(HTMLParser):
    """What a page links to and can be linked at; ids met twice."""

    def __init__(self) -> None:
        super().__init__()
        self.targets: list[str] = []
        self.ids: set[str] = set()
        self.twice: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name in ("href", "src") and value is not None and tag not in ("use",):
                self.targets.append(value)
            if name == "id" and value:
                (self.twice if value in self.ids else self.ids).add(value)


@cache
def _read(path: Path) -> _Links:
    reader = _Links()
    reader.feed(path.read_text(encoding="utf-8"))
    return reader


def _broken(site: Path) -> Iterator[str]:
    read = {path: _read(path) for path in pages(site)}
    for path, reader in read.items():
        for target in reader.targets:
            url, anchor = urldefrag(target)
            outside = urlparse(url).scheme in ("http", "https", "mailto", "data")
            if outside or path.name == "404.html":
                continue
            goal = (path.parent / unquote(url)).resolve() if url else path
            if goal.is_dir():
                goal /= "index.html"
            if not goal.exists() or not goal.is_relative_to(site):
                yield f"{path.relative_to(site)} -> {target}"
            elif anchor and goal.suffix == ".html" and unquote(anchor) not in read[goal].ids:
                yield f"{path.relative_to(site)} -> {target} (no such place)"


def test_every_link_and_anchor_resolves(site: Path) -> None:
    assert list(_broken(site)) == []


def test_no_id_stands_twice_on_a_page(site: Path) -> None:
    assert {path.name: ids for path in pages(site) if (ids := _read(path).twice)} == {}


def test_a_size_page_is_whole_without_scripts_and_from_disk(site: Path, browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 740},
                                  java_script_enabled=False)
    page = context.new_page()
    page.goto((site / SIZE_PAGE).as_uri())
    assert "39 stitches" in page.inner_text("main")
    page.locator("summary:has(#pieces-first)").click()
    assert "52 rows" in page.inner_text("main")
    assert page.locator("main ol > li").count() > 20
    assert page.locator("main figure svg").count() >= 4
    for closed in page.locator("details.wb-task > summary").all():
        closed.click()
    box = page.locator("main figure svg").first.bounding_box()
    assert box is not None and box["width"] > 100
    context.close()


def test_in_the_system_s_own_colours_no_text_lies_on_a_filled_ground(site: Path, browser: Browser
                                                                     ) -> None:
    """CSS Color Adjust 1, 3.1: text gets a plate of the canvas's colour, which would hide it."""
    context = browser.new_context(forced_colors="active", color_scheme="dark")
    page = context.new_page()
    page.goto((site / SIZE_PAGE).as_uri())
    looks = page.eval_on_selector_all(
        ".wb-check > b, .wb-go .wb-main-button", "all => all.map((e) => "
        "[getComputedStyle(e).color, getComputedStyle(e).backgroundColor])")
    assert len(looks) > 10
    assert all(colour != ground and ground == "rgb(0, 0, 0)" for colour, ground in looks), looks[:2]
    context.close()


@pytest.mark.parametrize("scripts", [True, False])
def test_a_link_into_a_closed_part_opens_it(site: Path, browser: Browser, scripts: bool) -> None:
    """HTML, 7.4.6.4: a browser that goes to a place within a closed section opens the section."""
    context = browser.new_context(viewport={"width": 360, "height": 740},
                                  java_script_enabled=scripts)
    page = context.new_page()
    page.goto((site / SIZE_PAGE).as_uri())
    assert page.locator("details.wb-task[open]").count() == 0
    page.locator(".wb-order a").nth(1).click()
    assert page.locator("details.wb-task").nth(1).get_attribute("open") is not None
    page.goto(f"{(site / SIZE_PAGE).as_uri()}#front-right-3")
    step = page.locator("#front-right-3")
    assert step.is_visible() and step.bounding_box()["y"] < 740  # type: ignore[index]
    context.close()


@pytest.mark.parametrize("served", [True, False])
def test_search_answers_on_its_page_and_is_a_link_away(
        site: Path, address: str, phone: Page, served: bool) -> None:
    phone.goto(f"{address}/{SIZE_PAGE}" if served else (site / SIZE_PAGE).as_uri())
    phone.locator("a.wb-search >> visible=true").first.click()
    phone.wait_for_url("**/search.html")
    for typed in ("waistcoats", "quayside waist"):  # a word in the plural, and one half typed
        phone.fill(".wb-search-form input", "")
        phone.type(".wb-search-form input", typed, delay=5)
        expect(phone.locator(".wb-found-status")).to_contain_text(f"“{typed}”")
        found = phone.eval_on_selector_all(".wb-found a", "all => all.map(a => a.href)")
        assert any("quayside-waistcoat" in address for address in found), typed
    phone.fill(".wb-search-form input", "waistcoat qwertz")  # a page must have every word
    expect(phone.locator(".wb-found-status")).to_have_text("No pages have “waistcoat qwertz”.")
    assert phone.locator(".wb-found li").count() == 0


@pytest.mark.parametrize("slug", LOOKED_AT)
def test_the_first_screen_of_an_overview_says_what_it_takes(site: Path, phone: Page, slug: str
                                                             ) -> None:
    """On 360 by 740 pixels: picture, sizes as links, whom it fits, yarn and machine."""
    phone.goto((site / "patterns" / slug / "index.html").as_uri())
    for seen in (".wb-hero svg", ".wb-strip", ".wb-hero dt:text-matches('^(Fits|For)$')",
                 ".wb-hero dt:text-is('Yarn')", ".wb-hero dt:text-is('Machine') + dd"):
        box = phone.locator(seen).first.bounding_box()
        assert box is not None and box["y"] + box["height"] <= 740, seen
    links = phone.locator(".wb-strip a")
    assert links.count() == len(phone.locator(".wb-sizes a").all()) > 0


@pytest.mark.parametrize("scripts", [True, False])
def test_a_table_of_measures_shows_one_unit_and_the_other_at_a_touch(
        site: Path, browser: Browser, scripts: bool) -> None:
    """A chest of 102.1 cm is 40 1/4 in (25.4 mm to the inch), and is never broken over lines."""
    context = browser.new_context(viewport={"width": 360, "height": 740},
                                  java_script_enabled=scripts)
    page = context.new_page()
    page.goto((site / "patterns/slack-tide-cardigan/index.html").as_uri())
    cells = {unit: page.locator(f".wb-units-table tr.wb-{unit} >> nth=0") for unit in ("cm", "in")}
    expect(cells["cm"]).to_be_visible()
    expect(cells["in"]).to_be_hidden()
    page.get_by_label("inches", exact=True).check()
    expect(cells["cm"]).to_be_hidden()
    expect(cells["in"]).to_be_visible()
    expect(cells["in"]).to_contain_text("40¼")
    stays = page.locator(".wb-units-table :is(.wb-group span, tr.wb-in th)")
    before = [stays.nth(at).bounding_box() for at in (0, 1)]
    page.locator(".wb-scroll:has(.wb-units-table)").first.evaluate(
        "box => { box.scrollLeft = 200 }")
    assert [stays.nth(at).bounding_box() for at in (0, 1)] == before
    page.emulate_media(media="print")
    expect(cells["cm"]).to_be_visible()
    expect(cells["in"]).to_be_visible()
    context.close()


def test_the_reader_s_size_stands_beside_the_first_column_and_stays_there(
        site: Path, phone: Page) -> None:
    """On a phone. Her size is the last whose page she opened, until she chooses another."""
    overview = (site / "patterns/slack-tide-cardigan/index.html").as_uri()
    order = ("[...document.querySelector('.wb-units-table').tHead.rows[0].cells]"
             ".map(each => each.innerText)")
    phone.goto(overview)
    sizes = ["XS", "S", "M", "L", "XL", "2X", "3X", "4X", "5X"]
    chest = phone.locator(".wb-units-table tr.wb-cm", has_text="Chest").first
    plain = chest.inner_text().split()
    assert phone.evaluate(order)[1:] == sizes
    phone.goto((site / "patterns/slack-tide-cardigan/4x.html").as_uri())
    phone.goto(overview)
    assert phone.evaluate(order)[1:] == ["4X", *(size for size in sizes if size != "4X")]
    own = chest.locator("td").first
    assert own.inner_text() == plain[-2] and "wb-own" in (own.get_attribute("class") or "")
    at = own.bounding_box()
    phone.evaluate("document.querySelector('.wb-scroll').scrollLeft = 400")
    assert own.bounding_box() == at
    phone.select_option("#wb-own-size", "M")
    assert phone.evaluate(order)[1:3] == ["M", "XS"]
    phone.set_viewport_size({"width": 1280, "height": 740})
    expect(phone.locator(".wb-units-table thead th").nth(1)).to_have_text("XS")
    assert phone.locator(".wb-units-table thead .wb-own").first.inner_text() == "M"
    phone.select_option("#wb-own-size", "")
    assert phone.locator(".wb-own").count() == 0


@pytest.mark.parametrize("percent", [200, 400])
def test_enlarged_text_is_not_cut_off_at_the_side(site: Path, browser: Browser, percent: int
                                                  ) -> None:
    """WCAG 2.2, 1.4.4 and 1.4.10, and beyond them: 400 % of the text on a screen of 320 pixels."""
    context = browser.new_context(viewport={"width": 320, "height": 740})
    page = context.new_page()
    wide = []
    for kind in ("index.html", "patterns-hats.html", "patterns/slack-tide-cardigan/index.html",
                 "patterns/practice-band/index.html", "techniques/fold-turned.html",
                 "search.html", "offline.html"):
        page.goto((site / kind).as_uri())
        page.evaluate(f"document.documentElement.style.fontSize = '{1.25 * percent}%'")
        if page.evaluate("document.documentElement.scrollWidth > window.innerWidth"):
            wide.append(kind)
    context.close()
    assert wide == []


# Cumulative layout shift, as Layout Instability (W3C) has it, in one window of a visit.
SHIFT = """() => new Promise((done) => {
  let sum = 0;
  new PerformanceObserver((list) => list.getEntries().forEach(
    (each) => { if (!each.hadRecentInput) sum += each.value; }))
    .observe({ type: "layout-shift", buffered: true });
  setTimeout(() => done(sum), 300);
})"""


@pytest.mark.parametrize("kind", ["index.html", "patterns/slack-tide-cardigan/index.html",
                                  "heaviest", "techniques/hung-hem.html"])
def test_a_first_visit_is_light_and_nothing_moves(
        site: Path, address: str, browser: Browser, kind: str) -> None:
    """The budgets are the project's own: 350 kB compressed, and a layout shift of 0.05.

    The typefaces come late on purpose, so that the text is first set in what the device has.
    """
    sizes = [path for path in site.glob("patterns/*/*.html") if path.name != "index.html"
             and not path.name.endswith("-single-file.html")]
    path = (max(sizes, key=lambda p: p.stat().st_size).relative_to(site).as_posix()
            if kind == "heaviest" else kind)
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = context.new_page()
    weights: dict[str, int] = {}
    page.on("requestfinished", lambda request: weights.update(
        {request.url: len(gzip.compress(body, 6)) if (body := _body(request)) else 0}))

    def late(route: Route) -> None:
        page.wait_for_timeout(300)
        route.continue_()

    page.route("**/*.woff2", late)
    page.goto(f"{address}/{path}")
    page.wait_for_load_state("networkidle")
    shift = page.evaluate(SHIFT)
    context.close()
    assert any(url.endswith(".woff2") for url in weights)
    print(f"{kind}: {sum(weights.values())} bytes compressed, layout shift {shift:.3f}")
    assert sum(weights.values()) < 350_000, weights
    assert shift <= 0.05


def _body(request: Request) -> bytes:
    response = request.response()
    return response.body() if response else b""


def _held_back(page: Page, files: str) -> list[Route]:
    """The requests of a page for such files, none of them answered yet."""
    waiting: list[Route] = []

    def hold(route: Route) -> None:
        waiting.append(route)

    page.route(files, hold)
    return waiting


TYPEFACES_ARE_THERE = """document.fonts.status === "loaded"
  && document.fonts.check('16px "Source Sans 3"')"""


def test_the_text_stands_before_the_typefaces_come_and_takes_the_same_room(
        site: Path, address: str, browser: Browser) -> None:
    """CSS Fonts 4, `font-display` and `size-adjust`; the limit of 2 % of the height is our own."""
    for path in ("index.html", "patterns/slack-tide-cardigan/index.html", SIZE_PAGE):
        context = browser.new_context(viewport={"width": 360, "height": 740},
                                      service_workers="block", java_script_enabled=False)
        page = context.new_page()
        waiting = _held_back(page, "**/*.woff2")
        page.goto(f"{address}/{path}", wait_until="domcontentloaded")
        for _ in range(100):  # until the page asks for its typefaces, 10 s at most
            page.wait_for_timeout(100)
            if waiting:
                break
        page.wait_for_timeout(500)  # and lays out what does not wait for them
        assert waiting, path
        box = page.locator("h1").bounding_box()
        assert box is not None
        shot = context.new_cdp_session(page).send(
            "Page.captureScreenshot", {"clip": {**box, "scale": 1}})["data"]
        light, dark = Image.open(BytesIO(b64decode(shot))).convert("L").getextrema()
        assert dark - light > 100, f"{path}: nothing is written where the title stands"
        before = page.evaluate("document.querySelector('article').scrollHeight")
        page.unroute("**/*.woff2")  # which lets those that wait go on
        for _ in range(200):  # until they are there, 20 s at most
            if page.evaluate(TYPEFACES_ARE_THERE):
                break
            page.wait_for_timeout(100)
        assert page.evaluate(TYPEFACES_ARE_THERE)
        after = page.evaluate("document.querySelector('article').scrollHeight")
        context.close()
        assert abs(after - before) <= .02 * after, (path, before, after)


def test_what_was_searched_for_is_there_on_the_way_back(address: str, phone: Page) -> None:
    phone.goto(f"{address}/search.html")
    phone.type(".wb-search-form input", "blocking")
    phone.locator(".wb-found a[href^='techniques/']").first.click()
    phone.wait_for_url("**/techniques/**")
    phone.go_back()
    expect(phone.locator(".wb-search-form input")).to_have_value("blocking")
    expect(phone.locator(".wb-found a").first).to_be_visible()


def test_every_page_is_a_link_away_without_scripts(site: Path) -> None:
    """From any page the foot leads to every fixed page, or to the first of its section."""
    fixed = {path for path in pages(site) if "patterns" not in path.relative_to(site).parts[0]
             and path.name not in ("404.html",)}
    text = (site / "index.html").read_text(encoding="utf-8").partition("<footer")[2]
    foot = {(site / target).resolve() for target in re.findall(r'href="([^"#]+)"', text)}
    settings = (ROOT / "site_src" / ".site.yml").read_text(encoding="utf-8")
    nav = yaml.load(settings, yaml.BaseLoader)["nav"]
    first = {site / name.replace(".md", ".html"): site / names[0].replace(".md", ".html")
             for section in nav for names in section.values() if isinstance(names, list)
             for name in names}
    for path in fixed - foot:
        index = first.get(path, path.parent / "index.html")
        assert index in foot, path
        within = {(index.parent / target.partition("#")[0]).resolve()
                  for target in _read(index).targets}
        assert path in within, path
        others = {(path.parent / target.partition("#")[0]).resolve()
                  for target in _read(path).targets}
        assert index in others, path


def test_only_the_search_page_asks_for_the_index(address: str, phone: Page) -> None:
    asked: list[str] = []
    phone.on("request", lambda request: asked.append(request.url))
    for path in ("index.html", SIZE_PAGE, "search.html"):
        phone.goto(f"{address}/{path}")
        phone.wait_for_load_state("networkidle")
        assert bool([url for url in asked if "search_index" in url]) == (path == "search.html")


def test_the_index_is_small_and_has_what_patterns_are_found_by(site: Path) -> None:
    """The budgets are the project's own: 10 kB for 20 patterns, 25 kB for the fixed pages."""
    index = json.loads((site / "search" / "search_index.json").read_text(encoding="utf-8"))
    groups: dict[bool, list[dict[str, str]]] = {True: [], False: []}
    for entry in index["docs"]:
        groups[entry["location"].startswith("patterns/")].append(entry)
    weigh = {own: len(gzip.compress(json.dumps(docs).encode(), 9)) for own, docs in groups.items()}
    assert weigh[True] <= 10_000 * len(SLUGS) / 20 and weigh[False] <= 25_000, weigh
    assert {entry["location"] for entry in groups[True]} == {
        f"patterns/{slug}/index.html" for slug in SLUGS}
    assert all(len(re.findall(r"[.!?] [A-Z]", entry["text"])) == 0 for entry in groups[False])
    (tide,) = [entry for entry in groups[True] if "slack-tide" in entry["location"]]
    for said in ("Slack Tide cardigan", "Folded bands", "set-in cardigan", "Breakwater", "bulky"):
        assert said in f"{tide['title']} {tide['text']}", said


def test_size_pages_stay_out_of_search_and_navigation(site: Path) -> None:
    index = json.loads((site / "search" / "search_index.json").read_text(encoding="utf-8"))
    places = [entry["location"] for entry in index["docs"]]
    assert any(place.startswith("patterns/slack-tide-cardigan/index.html") for place in places)
    assert not [place for place in places if place.startswith("patterns/slack-tide-cardigan/xs")]
    home = (site / "index.html").read_text(encoding="utf-8")
    assert "patterns/slack-tide-cardigan/xs.html" not in home.split("<main")[0]


def test_the_worked_example_stands_on_its_page_with_its_working(site: Path, phone: Page) -> None:
    """52 rows at 3/4: 39; 2 + 5×3 + 4×5 + 2 (common practice, no source)."""
    phone.goto((site / SIZE_PAGE).as_uri())
    assert "39 stitches" in phone.inner_text("main")
    phone.eval_on_selector_all("details", "all => all.forEach(d => d.open = true)")
    opened = phone.inner_text("main")
    assert "52 rows" in opened
    assert "52 × 3/4 = 39" in opened
    assert "2 + (5 × 3) + (4 × 5) + 2 = 39" in opened


@pytest.mark.parametrize("media", ["screen", "print"])
def test_an_empty_needle_is_drawn_empty(site: Path, phone: Page, media: str) -> None:
    """A ring, whatever the styles say: the only marks filled are those that say so themselves."""
    phone.emulate_media(media=media)
    phone.goto((site / SIZE_PAGE).as_uri())
    fills = phone.eval_on_selector_all(
        ".wb-needles svg path:not([fill]), .wb-drawing svg path:not([fill])",
        "all => all.map(p => getComputedStyle(p).fill)")
    rings = phone.eval_on_selector_all(
        ".wb-needles > svg path[d*='a2 2']", "all => all.map(p => getComputedStyle(p).fill)")
    assert rings and set(rings) == {"none"}
    assert set(fills) == {"none"}


def test_a_drawing_is_called_by_the_title_in_it(site: Path, phone: Page) -> None:
    """What a browser hands to a screen reader: the title alone, no attribute leads to it."""
    phone.goto((site / SIZE_PAGE).as_uri())
    phone.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    drawn = phone.locator(".wb-needles > svg, .wb-drawing > svg").count()
    named = phone.get_by_role("img", name=re.compile(r"needles after step \d|to scale|opened out"))
    assert 0 < drawn == named.count()


@pytest.mark.sampled(10)
@pytest.mark.parametrize("slug", SLUGS)
def test_a_hanging_table_is_whole_on_a_phone(site: Path, phone: Page, slug: str) -> None:
    for path in widest(site / "patterns" / slug):
        phone.goto(path.as_uri())
        cut = phone.eval_on_selector_all(".wb-hanging .wb-scroll", "all => all.filter("
                                         "box => box.scrollWidth > box.clientWidth).length")
        assert cut == 0, path.name


def test_counts_are_published_with_their_schema(site: Path) -> None:
    schema = json.loads((site / "patterns" / "counts.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    published = {slug: json.loads((site / "patterns" / slug / "counts.json").read_text("utf-8"))
                 for slug in SLUGS}
    fits = jsonschema_rs.Draft202012Validator(schema)
    for slug, counts in published.items():
        fits.validate(counts)
        assert counts["pattern"] == slug
        assert list(counts["counts"]) == counts["sizes"]
    band = published["practice-band"]["counts"]["3 months"]["front"]
    worked = {"edge_rows": 52, "band_stitches": 39, "buttonholes": 5, "hole_stitches": 3,
              "lower_end": 2, "upper_end": 2, "gaps": [5, 5, 5, 5], "closing_loops": 4,
              "closing_gaps": [4, 4, 4, 4], "rows_to_holes": 4, "rows_holes_to_fold": 4,
              "rows_fold_to_holes": 4, "rows_to_finish": 4}
    assert {name: band[name]["value"] for name in worked} == worked
    assert all(entry["working"] for entry in band.values())

"""A size, or a pattern, as one file: opened from disk, it is whole and asks for nothing."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from html import unescape
from html.parser import HTMLParser
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, expect
from playwright.sync_api import Page as Screen
from walebook.pages.page_facts import PageFacts, SizeFacts
from walebook.source.fabric_reading import size_slug
from walebook_site.finishing import Settings, finish
from walebook_site.single_file import Page, linked, one_file

from tests.whole_collection import collection

BAND = "patterns/practice-band"
FILES = (f"{BAND}/3-months", "patterns/slack-tide-cardigan/5x")


class _Outline(HTMLParser):
    """The ids, the links within and out, and everything that a file would load."""

    LOADS = frozenset({"src", "srcset", "data", "poster", "background"})

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: Counter[str] = Counter()
        self.links: list[str] = []
        self.loads: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name == "id":
                self.ids[value or ""] += 1
            elif name == "href" and tag == "a":
                self.links.append(value or "")
            elif name in self.LOADS or (name == "href" and tag != "use"):
                self.loads.append(value or "")
            elif name in ("aria-labelledby", "aria-describedby", "for"):
                self.links += [f"#{each}" for each in (value or "").split()]


def page(site: Path, path: str) -> Page:
    return Page(path, (site / path).read_text(encoding="utf-8"))


def whole_pattern(site: Path, folder: str) -> str:
    """One file of all the sizes of a pattern."""
    read = cache(lambda path: page(site, path))
    first = read(f"{folder}/index.html")
    sizes = re.findall(r'href="([^"/]+)\.html"', first.article.split('class="wb-sizes"')[1]
                       .split("</ul>")[0])
    return one_file([first, *(read(f"{folder}/{size}.html") for size in sizes)], read,
                    lambda path: (site / path).read_bytes())


@pytest.mark.parametrize("language", ["en", "nl"])
def test_one_file_is_in_the_language_of_its_collection(language: str) -> None:
    """HTML, 3.2.6.2: the root says it; the page, which may say another, is not asked."""
    alone = Page("patterns/a/m.html", '<html lang="de"><body><article><h1>A</h1></article></body>')
    html = one_file([alone], lambda path: alone, lambda path: b"", language)
    assert re.search(r'<html lang="([^"]*)"', html).group(1) == language  # type: ignore[union-attr]


def test_every_size_has_its_file_and_its_page_links_to_it(site: Path) -> None:
    beside = sorted(site.glob("patterns/*/*-single-file.html"))
    sizes = [p for p in sorted(site.glob("patterns/*/*.html"))
             if p.name != "index.html" and p not in beside]
    assert len(sizes) == len(beside) > 40
    for size in sizes:
        assert f'href="{size.stem}-single-file.html"' in size.read_text(encoding="utf-8")


def test_every_file_says_who_made_it_and_that_it_stays_as_it_is(site: Path) -> None:
    """Designer, licence and version on its face and at the foot of its printed pages."""
    for proof in collection().proofs:
        own = proof.pattern
        said = f"Designer: {own.designer}. Licence: {own.licence}."
        for size in proof.sizes:
            page = site / "patterns" / own.slug / f"{size_slug(size.size)}.html"
            for file in (page, page.with_name(f"{page.stem}-single-file.html")):
                text = unescape(file.read_text(encoding="utf-8"))
                assert f'<span class="wb-by">{said}</span>' in text, file
                assert f"Version {own.version}, {own.date}." in text
                assert f'@bottom-left{{content:"{said}"}}' in text
            assert f"It is of version {own.version}, {own.date}, and stays so: it cannot learn " \
                "of a newer version or of a correction." in text


def test_no_file_names_anything_that_must_be_loaded_and_every_link_in_it_leads_within(
        site: Path) -> None:
    for path in sorted(site.glob("patterns/*/*-single-file.html")):
        text = path.read_text(encoding="utf-8")
        found = _Outline(text)
        assert [load[:40] for load in found.loads if not load.startswith("data:")] == [], path.name
        assert not re.search(r"url\((?!['\"]?(#|data:))|@import", text), path.name
        assert {i: n for i, n in found.ids.items() if n > 1} == {}, path.name
        lost = [link for link in found.links if not link.startswith(("http", "mailto"))
                and (not link.startswith("#") or link[1:] not in found.ids)]
        assert lost == [], path.name


def test_a_file_is_for_the_knitter_who_writes_no_source(site: Path) -> None:
    """How a thing is written in a pattern's source stands on the site, for designers."""
    shown = (site / "bands/enclosing.html").read_text("utf-8")
    assert "In a pattern’s source" in shown.replace("'", "’")
    for path in sorted(site.glob("patterns/*/*-single-file.html")):
        text = path.read_text("utf-8").replace("'", "’")
        assert "n a pattern’s source" not in text and "n the source it" not in text, path.name


BARE = re.compile(r'<span class="wb-elsewhere[^"]*">(.*?)</span>', re.DOTALL)
SENT_TO = re.compile(r"\b(?:see(?: the)?|as in an?|use an?|named under|example is an?|"
                     r"bind it off|edge bound off|at an?|once)\s+$", re.IGNORECASE)


def sent_away(text: str) -> list[str]:
    """Words of a file that send its reader to what is not in it: links that were left as their
    text, where a page is in the file that has their target, or where a sentence leads to them and
    to nothing that is there."""
    held = {part[1] for part in re.finditer(r'<section class="wb-part[^>]* id="in-([^"]+)"', text)}
    return [f"{text[max(0, one.start() - 40):one.start()]}[{one[1]}]" for one in BARE.finditer(text)
            if (SENT_TO.search(text[:one.start()][-60:])
                and 'href="#' not in text[one.end():one.end() + 200].partition(". ")[0])
            or one[1].lower().replace("\n", " ") in {name.replace("-", " ") for name in held}]


def test_no_file_sends_its_reader_to_what_is_not_in_it(site: Path) -> None:
    """"See rows to stitches" stood in files without that page, and "see the cautions" in files that
    had them, but as bare words."""
    for path in sorted(site.glob("patterns/*/*-single-file.html")):
        assert sent_away(path.read_text(encoding="utf-8")) == [], path.name


def test_every_way_that_a_step_leads_to_is_in_the_file(site: Path) -> None:
    """Of the Pennant cap's seam the designer tells the way: the file left it as bare words."""
    files = {path: path.read_text(encoding="utf-8")
             for path in sorted(site.glob("patterns/*/*-single-file.html"))}
    assert files
    assert not [path.name for path, text in files.items()
                if re.search(r'class="wb-elsewhere[^"]*\bwb-how\b', text)]
    cap = next(text for path, text in files.items() if path.parent.name == "pennant-cap")
    way = re.search(r'href="#([^"]+)">How to sew row to row', cap)
    assert way and "Begin at the point." in cap.partition(f'id="{way[1]}"')[2].split("<h1")[0]
    assert f'<a href="#{way[1].partition("--")[0]}">Designer\'s notes</a>' in cap


@pytest.mark.parametrize("scripts", [True, False])
@pytest.mark.parametrize("name", FILES)
def test_a_file_holds_every_step_and_asks_for_nothing(
        site: Path, browser: Browser, tmp_path: Path, name: str, scripts: bool) -> None:
    """Alone in a folder, as a download is: nothing beside it could be read by mistake."""
    alone = tmp_path / "download.html"
    alone.write_bytes((site / f"{name}-single-file.html").read_bytes())
    context = browser.new_context(viewport={"width": 360, "height": 740}, offline=True,
                                  java_script_enabled=scripts)
    screen = context.new_page()
    asked: list[str] = []
    said: list[str] = []
    screen.on("request", lambda request: asked.append(request.url))
    screen.on("console", lambda line: said.append(line.text))
    screen.on("pageerror", lambda fault: said.append(str(fault)))
    screen.goto(alone.as_uri())
    assert [url for url in asked if not url.startswith("data:")] == [alone.as_uri()]
    assert said == []
    own = page(site, f"{name}.html")
    steps = re.findall(r'<li id="?([\w-]+)"?', own.article)
    assert len(steps) > 20
    there = screen.eval_on_selector_all(".wb-steps > li", "all => all.map(li => li.id)")
    assert set(steps) <= set(there)
    for path in linked(own):
        assert page(site, path).title in screen.inner_text("main")
    for closed in screen.locator("details.wb-task > summary").all():
        closed.click()
    drawn = screen.locator("main figure svg >> visible=true").first.bounding_box()
    assert drawn is not None and drawn["width"] > 100
    assert screen.evaluate("document.documentElement.scrollWidth <= window.innerWidth"
                           ) if scripts else True
    context.close()


@pytest.mark.parametrize("scheme", ["default", "slate"])
def test_axe_finds_nothing_in_a_file(site: Path, phone: Screen, scheme: str) -> None:
    """axe-core 4, all its rules."""
    phone.goto((site / f"{FILES[0]}-single-file.html").as_uri())
    phone.evaluate(f"document.body.setAttribute('data-md-color-scheme', '{scheme}')")
    violations = Axe().run(phone).response["violations"]
    assert [(v["id"], [n["target"] for n in v["nodes"]][:3]) for v in violations] == []


def test_a_file_can_be_knitted_from(site: Path, phone: Screen) -> None:
    """It does what the size's page does, the worker apart."""
    phone.goto((site / f"{FILES[0]}-single-file.html").as_uri())
    offers = phone.get_by_role("button", name=re.compile("^Start knitting"))
    assert offers.count() >= 1
    assert phone.locator(".wb-keep").count() == 0


def test_a_whole_pattern_is_one_file_too(site: Path, browser: Browser, tmp_path: Path) -> None:
    alone = tmp_path / "pattern.html"
    alone.write_text(whole_pattern(site, BAND), encoding="utf-8")
    found = _Outline(alone.read_text(encoding="utf-8"))
    assert {i: n for i, n in found.ids.items() if n > 1} == {}
    assert [x for x in found.links if x.startswith("#") and x[1:] not in found.ids] == []
    assert [load[:40] for load in found.loads if not load.startswith("data:")] == []
    for scripts in (False, True):
        context = browser.new_context(viewport={"width": 360, "height": 740}, offline=True,
                                      java_script_enabled=scripts)
        screen = context.new_page()
        screen.goto(alone.as_uri())
        assert screen.locator(".wb-size-part").count() == (0 if scripts else 5)
        if scripts:
            screen.locator(".wb-sizes").get_by_role("link", name="Size 6 months").click()
            # While the file is read again, sizes stand in it that are taken out at its end.
            expect(screen.locator(".wb-size-part")).to_have_count(1)
            expect(screen.locator(".wb-size-part h1")).to_contain_text(["6 months"])
            steps = re.findall(r'<li id="?([\w-]+)"?', page(site, f"{BAND}/6-months.html").article)
            there = screen.eval_on_selector_all(".wb-size-part .wb-steps > li",
                                                "all => all.map(li => li.id)")
            assert set(there) == set(steps)
            screen.goto(f"{alone.as_uri()}#{steps[3]}")
            screen.reload()
            expect(screen.locator(".wb-size-part h1")).to_contain_text(["6 months"])
        context.close()


def facts_of_m(title: str = "Band", designer: str = "Wren", licence: str = "CC0") -> PageFacts:
    """The facts of a page of size M without a step."""
    size = SizeFacts(name="M", pieces=(), bands=(), side_by_side=(), making_up=())
    return PageFacts(slug="band", title=title, version="1", date="2026-11-20", designer=designer,
                     licence=licence, sizes=("M",), size=size)


def test_what_is_published_is_set_and_a_wrong_setting_is_named() -> None:
    html = ('<head><meta charset="utf-8"></head><article><h1>Band, size M</h1>'
            f"{facts_of_m().in_page()}</article>")
    told = finish(html, Settings.read({}))
    assert "m-single-file.html" in told and "m.pdf" not in told
    told = finish(html, Settings.read(
        {"walebook": {"single_files": False, "pdf": True}}))
    assert "m-single-file.html" not in told and 'href="m.pdf"' in told
    assert "wb-hand-over" not in finish(html.replace("wb-facts", "other"), Settings())
    for wrong in ({"paper": True}, {"pdf": "yes"}, ["pdf"]):
        with pytest.raises(ValueError, match="pdf, preview_picture, my_gauge, try_it, each true"):
            Settings.read({"walebook": wrong})


def test_a_running_head_is_a_string_of_its_style_whatever_the_title_is() -> None:
    """CSS Syntax Level 3, 4.3.5: a string ends at its quote, an escape is a code and a space."""
    facts = facts_of_m(title='Band "A" </style><script>', designer='"B"', licence="L&M 4.0")
    html = f'<head><meta charset="utf-8"></head><article>{facts.in_page()}</article>'
    style = finish(html, Settings()).split("<style")[1].split("</style>")[0]
    assert "<" not in style and style.count('"') == 8
    assert r"\22 A\22  \3c /style\3e \3c script\3e , size M" in style
    assert r'@bottom-left{content:"Designer: \22 B\22 . Licence: L\26 M 4.0."}' in style

"""A size on paper: the PDF that is made of its page, and the browser's own printing of it.

What a PDF must have comes from ISO 32000-1 (14.7 and 14.8: structure, tagged PDF; 12.3.3: document
outline) and ISO 14289-1 (PDF/UA-1: its mark, a language, a title that is shown); the files are read
back with pypdf.
"""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page as Screen
from pypdf import PdfReader
from walebook_site.paper import NoPaper, paper
from walebook_site.paper import _printable as printable
from walebook_site.single_file import Page

from .conftest import ROOT

BAND = "patterns/practice-band"
SIZE = f"{BAND}/3-months.html"
A4 = (595.28, 841.89)  # ISO 216, 210 × 297 mm, in points


class _Words(HTMLParser):
    """The text of a page's elements by kind, as a reader of the page has it."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: dict[str, list[str]] = {}
        self.open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in ("h1", "h2", "h3", "b"):
            self.open.append(tag)
            self.found.setdefault(tag, []).append("")

    def handle_endtag(self, tag: str) -> None:
        if self.open and self.open[-1] == tag:
            self.open.pop()

    def handle_data(self, data: str) -> None:
        if self.open:
            self.found[self.open[-1]][-1] += data


def squeezed(text: str) -> str:
    """Text without its spaces and line ends, which a PDF places as it likes."""
    return re.sub(r"\s+", "", text)


def page(site: Path, path: str) -> Page:
    return Page(path, (site / path).read_text(encoding="utf-8"))


def print_out(site: Path, *paths: str) -> PdfReader:
    return PdfReader(BytesIO(paper([page(site, path) for path in paths],
                                   cache(lambda path: (site / path).read_bytes()))))


@pytest.fixture(scope="module")
def printed(site: Path) -> PdfReader:
    """The PDF of one size of the practice band."""
    return print_out(site, SIZE)


@pytest.fixture(scope="module")
def texts(printed: PdfReader) -> list[str]:
    """Its text, sheet by sheet."""
    return [sheet.extract_text().replace("\xa0", " ") for sheet in printed.pages]


def test_every_step_and_checkpoint_is_on_paper_in_order(site: Path, texts: list[str]) -> None:
    whole = squeezed("".join(re.sub(r"Page \d+ of \d+", "", text) for text in texts))
    article = page(site, SIZE).article
    steps = [re.sub(r"<[^>]+>", "", part) for part in re.findall(
        r'<li id="?[\w-]+"?[^>]*><p[^>]*>(<b>.*?</b>)', article)]
    assert len(steps) > 20
    at = 0
    for step in steps:
        at = whole.find(squeezed(_unescaped(step)), at)
        assert at >= 0, step
    checks = len(re.findall(r"<b>Check</b>", article))
    assert whole.count("Check:") == checks > 10


def _unescaped(text: str) -> str:
    parser = _Words(f"<b>{text}</b>")
    return parser.found["b"][0]


def test_steps_go_on_counting_over_their_parts(site: Path, texts: list[str]) -> None:
    """HTML, 4.4.5: the start attribute is the number of a list's first item."""
    article = page(site, SIZE).article
    starts = [int(n) for n in re.findall(r'<ol class="?wb-steps"? start="?(\d+)', article)]
    assert max(starts) > 20
    numbers = re.findall(r"(?m)^\s*(\d+)\b", "\n".join(texts))
    for start in starts:
        assert str(start) in numbers


def test_every_sheet_has_pattern_size_version_and_number(texts: list[str]) -> None:
    for number, text in enumerate(texts, start=1):
        assert "Practice band, size 3 months" in text
        assert "Version 1.0.1, 2026-11-30" in text
        assert f"Page {number} of {len(texts)}" in text
    assert 5 < len(texts) < 25


def test_every_sheet_has_its_designer_and_licence(texts: list[str]) -> None:
    assert all("Designer: Isolde Penhallow. Licence: CC BY-NC 4.0." in text for text in texts)


def test_sheets_are_a4_and_nothing_stands_outside(printed: PdfReader) -> None:
    for sheet in printed.pages:
        assert (float(sheet.mediabox.width), float(sheet.mediabox.height)
                ) == pytest.approx(A4, abs=0.5)


def _tree(node: Any) -> Iterator[Any]:
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for child in node:
            yield from _tree(child)
    elif isinstance(node, dict) and "/S" in node:
        yield node
        yield from _tree(node.get("/K", []))
    elif isinstance(node, dict) and "/K" in node:
        yield from _tree(node["/K"])


def test_it_is_tagged_in_a_language_with_a_title(printed: PdfReader) -> None:
    root: Any = printed.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert printed.metadata is not None and printed.metadata.title == "Practice band, size 3 months"
    about = printed.xmp_metadata
    assert about is not None
    assert "pdfuaid" in root["/Metadata"].get_object().get_data().decode()
    kinds = Counter(str(node["/S"]) for node in _tree(root["/StructTreeRoot"]))
    for kind in ("/H1", "/H2", "/H3", "/L", "/LI", "/P", "/Table", "/TR", "/TH", "/TD"):
        assert kinds[kind] > 0, kind
    figures = [node for node in _tree(root["/StructTreeRoot"]) if node["/S"] == "/Figure"]
    assert all(node.get("/Alt") for node in figures)


def _bookmarks(outline: list[Any], depth: int = 1) -> Iterator[tuple[int, str, Any]]:
    for entry in outline:
        if isinstance(entry, list):
            yield from _bookmarks(entry, depth + 1)
        else:
            yield depth, entry.title, entry


def test_its_bookmarks_are_its_headings_and_lead_to_them(
        site: Path, printed: PdfReader, texts: list[str]) -> None:
    words = _Words(page(site, SIZE).article).found
    marks = list(_bookmarks(printed.outline))
    for depth in (1, 2, 3):
        assert [squeezed(title) for at, title, _ in marks if at == depth
                ] == [squeezed(heading) for heading in words[f"h{depth}"]]
    for _, title, mark in marks:
        sheet = printed.get_destination_page_number(mark)
        assert sheet is not None and squeezed(title) in squeezed(texts[sheet])


def test_labels_of_drawings_have_the_page_s_typeface_and_a_ground(site: Path) -> None:
    """The library reads no style within a drawing: by its own, wider typeface measures ran out of
    the drawing and were cut off, and lines ran through them."""
    made = printable(page(site, "patterns/slack-tide-cardigan/m.html").article)
    labelled = [svg for svg in re.findall(r"<svg.*?</svg>", made, re.DOTALL) if "<text" in svg]
    assert labelled and all('font-family="Source Sans 3"' in svg.split(">")[0] for svg in labelled)
    schematics = re.findall(r'<figure class="wb-drawing wb-schematic">.*?</svg>', made, re.DOTALL)
    assert len(schematics) == 3
    for drawn in schematics:
        assert drawn.count('fill="#fff"/>') == drawn.count("<text") > 5


def test_a_title_s_last_word_is_not_left_alone() -> None:
    assert "<h1>Slack Tide cardigan, size\u00a03X</h1>" in printable(
        "<h1>Slack Tide cardigan, size 3X</h1>")


def test_what_leads_nowhere_on_paper_is_not_on_it(texts: list[str]) -> None:
    whole = " ".join(" ".join(texts).split())
    for only_on_screen in ("All sizes, and about", "More of it", "Download as one file", "Skip to",
                           "On this page", "Search", "¶"):
        assert only_on_screen not in whole


def test_all_sizes_in_one_have_a_bookmark_each(site: Path) -> None:
    several = [f"{BAND}/index.html", f"{BAND}/6-months.html"]
    reader = print_out(site, *several)
    first = [title.replace("\xa0", " ") for depth, title, _ in _bookmarks(reader.outline)
             if depth == 1]
    assert first == ["Practice band", "Practice band, size 6 months"]


def test_a_library_that_is_missing_is_named_with_what_to_do(
        site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(NoPaper, match=r"pip install 'walebook\[pdf\]'"):
        print_out(site, SIZE)


def test_the_settings_ask_for_the_pdfs_of_the_build(tmp_path: Path, site: Path) -> None:
    """The build's last event, on a site of one pattern."""
    folder = tmp_path / BAND
    folder.mkdir(parents=True)
    (tmp_path / "assets").symlink_to(site / "assets")
    (tmp_path / "techniques").symlink_to(site / "techniques")
    for name in ("bands", "closings", "reading.html", "cautions.html", "abbreviations.html"):
        (tmp_path / name).symlink_to(site / name)
    first = (site / BAND / "index.html").read_text(encoding="utf-8")
    one = re.sub(r'"sizes":\{.*?\}', '"sizes":{"3 months":"3-months"}', first)
    (folder / "index.html").write_text(one, encoding="utf-8")
    (folder / "3-months.html").symlink_to(site / SIZE)
    done = subprocess.run(
        [sys.executable, "-c", "import sys; from pathlib import Path; "
         "from walebook_site.finishing import Settings, publish_beside; "
         "from walebook_site.progress import Progress; "
         "publish_beside(Path(sys.argv[1]), Settings(pdf=True), Progress(None))", str(tmp_path)],
        cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert sorted(p.name for p in folder.iterdir()) == [
        "3-months-single-file.html", "3-months.html", "3-months.pdf", "index.html"]
    assert (folder / "3-months.pdf").read_bytes().startswith(b"%PDF-")


# -- The browser's own printing -------------------------------------------------------------------


def test_the_browser_prints_it_with_boxes_and_without_the_frame(site: Path, phone: Screen) -> None:
    phone.goto((site / SIZE).as_uri())
    phone.emulate_media(media="print")
    for hidden in ("header", "footer", ".md-sidebar", ".wb-hand-over", ".wb-keep", ".wb-go",
                   ".wb-how"):
        assert phone.locator(f"{hidden}:visible").count() == 0, hidden
    box = phone.evaluate("""() => {
      const style = getComputedStyle(document.querySelector(".wb-steps > li"), "::after");
      return [style.borderTopStyle, style.display, parseFloat(style.width)];
    }""")
    assert box[:2] == ["solid", "block"] and box[2] > 9
    for kept_whole in (".wb-steps > li", ".md-typeset tr", ".wb-needles", ".wb-check"):
        assert set(phone.eval_on_selector_all(
            kept_whole, "all => all.map(e => getComputedStyle(e).breakInside)")) == {"avoid"}
    reader = PdfReader(BytesIO(phone.pdf(prefer_css_page_size=True, tagged=True, outline=True)))
    texts = [sheet.extract_text() for sheet in reader.pages]
    assert "Practice band, size 3 months" in texts[-1] and "Version 1.0.1" in texts[-1]
    assert f"Page {len(texts)} of {len(texts)}" in " ".join(texts[-1].split())
    assert "52 × 3/4 = 39" in " ".join(" ".join(texts).split())  # a working, closed on the screen


def test_paper_is_white_whatever_the_screen_is(site: Path, phone: Screen) -> None:
    phone.goto((site / SIZE).as_uri())
    phone.evaluate("document.body.setAttribute('data-md-color-scheme', 'slate')")
    phone.emulate_media(media="print")
    phone.wait_for_timeout(600)  # until the theme has faded the colours of its links over
    assert phone.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    colours = phone.eval_on_selector_all(
        "article *", "all => all.filter((e) => e.checkVisibility())"
        ".map((e) => `${e.className || e.tagName} ${getComputedStyle(e).color}`)")
    assert {seen for seen in colours if not seen.endswith("rgb(0, 0, 0)")} == set()


def test_drawings_are_printed_at_the_scale_that_is_written(site: Path, phone: Screen) -> None:
    """CSS Values and Units 3, 5.2: a pixel is 1/96 in; an inch is 25.4 mm (ISO 31)."""
    phone.goto((site / "patterns/slack-tide-cardigan/m.html").as_uri())
    phone.emulate_media(media="print")
    said = re.search(r"1 to ([\d.]+): 1\scm on paper", phone.inner_text(".wb-work .wb-on-paper"))
    assert said
    drawn = phone.evaluate("""() => {
      const figure = document.querySelector(".wb-schematic");
      const text = figure.querySelector("figcaption").innerText;
      const piece = figure.querySelector(".wb-piece").getBoundingClientRect();
      return [piece.height, parseFloat(/Whole height: ([\\d.]+)\\scm/.exec(text)[1])];
    }""")
    height = drawn[1] / float(said[1]) / 2.54 * 96
    assert drawn[0] == pytest.approx(height, rel=0.02)
    cover = re.search(r"1 to (\d+)\s", phone.inner_text(".wb-top > .wb-on-paper"))
    assert cover
    sketches = phone.eval_on_selector_all(".wb-seen > .wb-garment", """all => all.map(svg => [
      svg.clientWidth, svg.viewBox.baseVal.width / Number(svg.dataset.mm)])""")
    assert len(sketches) == 2  # the front and the back
    for on_paper, whole in sketches:
        assert on_paper == pytest.approx(whole / int(cover[1]) / 25.4 * 96, abs=1)
    phone.emulate_media(media="screen")
    assert phone.locator(".wb-seen > .wb-garment:visible").count() == 1

"""A pattern that is sold: its overview is published, its instructions are in files apart.

The law: nothing that a size's page instructs or calculates is found in any published file. What the
page instructs is read from the same pattern's page as it is when it is published.
"""

from __future__ import annotations

import gzip
import json
import re
import shutil
from collections.abc import Iterator
from html import unescape
from io import StringIO
from itertools import count
from pathlib import Path

import pytest
from walebook.pages import SCHEMAS, PageFile, write_pages
from walebook_site import finishing
from walebook_site.command import main
from walebook_site.finishing import Settings, publish_beside
from walebook_site.preview_pages import sold_notice
from walebook_site.progress import Progress
from walebook_site.proving import prove_all
from walebook_site.shown import ShownPattern
from walebook_site.sources import collect

from tests.site.builds import Commands, commands, make_project

ROOT = Path(__file__).parents[2]
SMALLEST = (ROOT / "tests" / "sources" / "smallest.yaml").read_text(encoding="utf-8")
SOLD = f"publish: files only\n{SMALLEST}"
LONG = 24  # characters; what is shorter, such as "knit 4 rows", can stand on any page
_BLOCK = re.compile(r"</?(?:p|li|td|th|tr|ol|ul|h\d|div|summary|dd|dt|small|section"
                    r"|text|title)\b[^>]*>")


def plain(html: str) -> str:
    """The text of HTML, each block on a line."""
    lines = _BLOCK.sub("\n", html).split("\n")
    return "\n".join(" ".join(unescape(re.sub(r"<[^>]+>", "", line)).split()) for line in lines)


def sentences(html: str) -> set[str]:
    """What a size's page says with figures: its steps, checkpoints, tables and calculations."""
    html = re.sub(r"<script.*?</script>", "", html, flags=re.DOTALL)
    said = re.split(r"(?<=[.:;]) |\n", plain(html))
    return {each for each in said if len(each) >= LONG and re.search(r"\d", each)}


def instructed(root: Path, slug: str) -> set[str]:
    """What the pages of a pattern's sizes tell about knitting, from the first step's heading on."""
    (proof,) = (each for each in collect(root).proofs if each.pattern.slug == slug)
    return told_on(write_pages(proof))


def told_on(pages: tuple[PageFile, ...]) -> set[str]:
    found: set[str] = set()
    for page in pages:
        if page.path.endswith(".md") and not page.path.endswith("index.md"):
            found |= sentences(page.text[page.text.index('<ol class="wb-steps"'):])
    return found


def texts_of(folder: Path) -> str:
    """All that is written in a folder's files."""
    said = []
    for path in sorted(folder.rglob("*")):
        if path.is_file() and path.suffix not in (".png", ".woff2"):
            data = path.read_bytes()
            text = (gzip.decompress(data) if path.suffix == ".gz" else data).decode()
            said += [text, plain(text)]
    return "\n".join(said)


@pytest.fixture(scope="module")
def run() -> Iterator[Commands]:
    with commands() as loaded:
        yield loaded


@pytest.fixture(scope="module")
def built(run: Commands, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project with a pattern that is published and one that is sold."""
    root = make_project(tmp_path_factory.mktemp("sold"))
    with (root / "mkdocs.yml").open("a") as settings:
        settings.write("site_url: https://quay.example/\n")
    sell(root, SOLD)
    done = run.run(root, "mkdocs", "build")
    assert done.code == 0, done.printed
    assert f"files to hand over are in {root.resolve() / 'to-hand-over'}" in done.printed
    return root


def sell(root: Path, source: str) -> None:
    (root / "patterns" / "sail-loft").mkdir(exist_ok=True)
    (root / "patterns" / "sail-loft" / "pattern.yaml").write_text(
        source.replace("rows: 52", "rows: 68"), encoding="utf-8")


def test_no_file_of_the_site_has_what_its_sizes_are_told(built: Path) -> None:
    told, published = (instructed(built, slug) for slug in ("sail-loft", "harbour-front"))
    own = told - published
    assert len(told) > 30 and len(own) > 5
    text = texts_of(built / "site")
    assert {each for each in published if each not in text} == set()  # each stands there
    assert {each for each in own if each in text} == set()


def test_the_site_has_its_overview_and_names_no_page_of_its_sizes(built: Path) -> None:
    site = built / "site"
    folder = site / "patterns" / "sail-loft"
    assert {path.name for path in folder.iterdir()} <= {
        "index.html", "sketch.svg", "files.json"}
    assert "in files that the designer hands over" in plain((folder / "index.html").read_text())
    assert "patterns/sail-loft/index.html" in (site / "sitemap.xml").read_text()
    for path in site.rglob("*"):
        if path.is_file() and path.suffix not in (".png", ".woff2", ".gz"):
            text = path.read_text()
            for name in ("one-size", "counts.json", "to-hand-over", "all-sizes"):
                assert f"sail-loft/{name}" not in text, path
    overview = (folder / "index.html").read_text()
    assert not re.findall(r'href="(?:one-size[^"]*|counts\.json)"', overview)


def test_the_files_to_hand_over_are_whole_and_lie_outside_the_site(built: Path) -> None:
    folder = built / "to-hand-over"
    assert sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.html")) == [
        "sail-loft/one-size.html"]
    handed = plain((folder / "sail-loft" / "one-size.html").read_text())
    missing = {each for each in instructed(built, "sail-loft") if each not in handed}
    assert missing == set()
    assert not re.findall(r'<(?:link|script|img)[^>]*(?:href|src)="(?!data:)', (
        folder / "sail-loft" / "one-size.html").read_text())


def test_each_page_that_becomes_a_file_is_a_step(built: Path, tmp_path: Path) -> None:
    """A PDF takes seconds: while those of one pattern are made, it says how many are done."""
    site = shutil.copytree(built / "site", tmp_path / "site")
    (site / "patterns" / "harbour-front" / "one-size-single-file.html").unlink()
    told, hours = StringIO(), count(0, 3600)
    progress = Progress(told, lambda: float(next(hours)))
    publish_beside(site, Settings(single_files=False, whole_pattern=True), progress, {"sail-loft"})
    assert [line.partition(",")[0] for line in told.getvalue().splitlines()] == [
        "1 of 3 pages published as files"]  # the last is not told: then all are done


def test_a_file_of_all_sizes_is_named_while_it_is_made(built: Path, tmp_path: Path,
                                                       monkeypatch: pytest.MonkeyPatch) -> None:
    """It takes as long as all its pages, and no line changes while it is made."""
    site = shutil.copytree(built / "site", tmp_path / "site")
    (site / "patterns" / "harbour-front" / "one-size-single-file.html").unlink()
    monkeypatch.setattr(finishing, "paper", lambda *_: b"")
    told = StringIO()
    publish_beside(site, Settings(single_files=False, whole_pattern=True, pdf=True),
                   Progress(told, lambda: 0.0), {"sail-loft"})
    assert told.getvalue().splitlines() == [
        "1 of 3 pages published as files, harbour-front/all-sizes.pdf is being made, "
        "about 0 s left"]


def test_a_failed_build_leaves_the_files_as_they_were(
        run: Commands, built: Path, tmp_path: Path) -> None:
    root = shutil.copytree(built, tmp_path / "copy")
    before = (root / "to-hand-over" / "sail-loft" / "one-size.html").read_bytes()
    sell(root, SOLD.replace("version: ", "version: 1"))
    (root / "docs" / "about.md").write_text("# About\n\n[gone](gone.md)\n")  # a warning, strict
    assert run.run(root, "mkdocs", "build").code != 0
    assert (root / "to-hand-over" / "sail-loft" / "one-size.html").read_bytes() == before


def test_a_pattern_that_is_no_longer_sold_leaves_no_file_to_hand_over(
        run: Commands, built: Path, tmp_path: Path) -> None:
    root = shutil.copytree(built, tmp_path / "copy")
    (root / "to-hand-over" / "letter.txt").write_text("hers")
    sell(root, SMALLEST)
    assert run.run(root, "mkdocs", "build").code == 0
    assert [path.name for path in (root / "to-hand-over").iterdir() if path.name[0] != "."] == [
        "letter.txt"]
    assert (root / "site" / "patterns" / "sail-loft" / "one-size.html").is_file()


def test_the_file_of_all_sizes_leads_to_each(run: Commands, tmp_path: Path) -> None:
    """Its script shows the size that a link names, and no other."""
    root = make_project(tmp_path / "p")
    shutil.copy(ROOT / "site_src" / "assets" / "one-size.js", root / "docs" / "assets")
    settings = root / "mkdocs.yml"
    settings.write_text(settings.read_text().replace("single_files", "whole_pattern: true, "
                                                     "single_files"))
    sell(root, SOLD.replace("[one size]", "[S, M]"))
    assert run.run(root, "mkdocs", "build").code == 0
    text = (root / "to-hand-over" / "sail-loft" / "all-sizes.html").read_text()
    for size in "sm":
        name = f"in-patterns-sail-loft-{size}"
        assert f'href="#{name}"' in text and f'id="{name}"' in text


def test_a_site_that_holds_the_folder_is_refused(run: Commands, tmp_path: Path) -> None:
    root = make_project(tmp_path / "p", site_dir="to-hand-over")
    sell(root, SOLD)
    done = run.run(root, "mkdocs", "build")
    assert done.code != 0 and "to-hand-over" in done.printed and "Traceback" not in done.printed
    assert not (root / "to-hand-over").exists()


def test_plain_pages_have_the_overview_alone(
        built: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["pages", str(tmp_path), "--root", str(built)]) == 0
    assert sorted(path.name for path in (tmp_path / "patterns" / "sail-loft").iterdir()) == [
        "index.md", "sketch.svg"]
    assert "Files only, their overview published: sail-loft." in capsys.readouterr().out


def test_notes_cannot_lead_to_a_page_that_is_not_published(built: Path, tmp_path: Path) -> None:
    root = shutil.copytree(built, tmp_path / "copy")
    (root / "patterns" / "sail-loft" / "notes.md").write_text("See [it](one-size.html).\n")
    found = [each.code for each in prove_all(root, pages=False).problems]
    assert "bad-link" in found


@pytest.mark.parametrize("slug", [
    "rope-ladder-rug", "fog-bank-shawl",
    pytest.param("slack-tide-cardigan", marks=pytest.mark.long)])
def test_no_overview_tells_what_the_pages_of_sizes_do(slug: str, tmp_path: Path) -> None:
    """The same law on the text that is written: a garment, a stitch chart, bands."""
    for name in ("_beds", "_sizes", slug):
        shutil.copytree(ROOT / "patterns" / name, tmp_path / "patterns" / name)
    source = tmp_path / "patterns" / slug / "pattern.yaml"
    source.write_text(f"publish: files only\n{source.read_text(encoding='utf-8')}",
                      encoding="utf-8")
    (proof,) = collect(tmp_path).proofs
    pages = write_pages(proof)
    told, overview = told_on(pages), pages[0].text
    written = plain(overview)
    assert len(told) > 20
    assert {each for each in told if each in written} == set()
    assert "wb-steps" not in overview and "href=\"counts.json\"" not in overview


def test_the_preview_leads_to_what_the_site_will_not_have(built: Path) -> None:
    for result in prove_all(built, pages=True).patterns:
        shown = ShownPattern(lambda: None, good=result.entry)
        said = sold_notice(shown, f"patterns/{result.slug}/index.md")
        assert ('href="one-size.html"' in said) is (result.slug == "sail-loft")
        assert sold_notice(shown, f"patterns/{result.slug}/one-size.md") == ""


def test_an_editor_knows_both_words() -> None:
    said = json.dumps(SCHEMAS["pattern"]()["properties"]["publish"])
    assert '"pages"' in said and '"files only"' in said

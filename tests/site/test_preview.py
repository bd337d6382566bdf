"""The preview, driven by real saves: the page that a real browser shows keeps up with its source.

What a page says is held against the source that was saved, and where the browser stands against
where it stood. That a saved file is shown without a reload by hand is common practice of previews,
no source.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from urllib.error import HTTPError, URLError
from urllib.request import urlopen

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.site.builds import make_project

from .conftest import PATIENCE

ROOT = Path(__file__).parents[2]
SOURCE = (ROOT / "tests" / "sources" / "smallest.yaml").read_text(
    encoding="utf-8").replace("[one size]", "[S]")
TITLE = next(line for line in SOURCE.splitlines() if line.startswith("title: "))
HOSTILE = 'title: <img src=x onerror="window.hit=1"><script>window.hit=1</script>\n'


@dataclass(frozen=True, slots=True)
class Served:
    """A project that is being served."""

    root: Path
    code: Path
    url: str

    def source(self, slug: str = "harbour-front") -> Path:
        """Where a pattern's source lies."""
        return self.root / "patterns" / slug / "pattern.yaml"

    def save(self, text: str, slug: str = "harbour-front") -> None:
        """Save a source as many editors do: beside it first, then in its place."""
        beside = self.source(slug).with_name(".pattern.yaml.part")
        beside.parent.mkdir(exist_ok=True)
        beside.write_text(text, encoding="utf-8")
        beside.replace(self.source(slug))

    def page(self, name: str = "index.html", slug: str = "harbour-front") -> str:
        """The address of a pattern's page."""
        return f"{self.url}patterns/{slug}/{name}"


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    root = make_project(tmp_path_factory.mktemp("preview"))
    code = tmp_path_factory.mktemp("code")  # a copy, which can be changed
    for name, package in (("engine", "walebook"), ("hooks", "walebook_site")):
        shutil.copytree(ROOT / name, code / package)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    signal.signal(signal.SIGINT, signal.default_int_handler)  # ignored behind a shell's `&`
    process = subprocess.Popen(
        [sys.executable, "-m", "walebook_site.command", "serve", "--root", str(root),
         "--at", f"127.0.0.1:{port}"], cwd=root, start_new_session=True,
        stderr=(root / "printed").open("w"),
        env={**os.environ, "PYTHONPATH": str(code), "NO_MKDOCS_2_WARNING": "1",
             "DISABLE_MKDOCS_2_WARNING": "true"})
    project = Served(root, code, f"http://127.0.0.1:{port}/")
    project.save(SOURCE)
    try:
        wait_until(lambda: status(project.url) == 200)
        yield project
    finally:
        process.send_signal(signal.SIGINT)
        assert process.wait(PATIENCE / 1000) == 0


@pytest.fixture
def page(browser: Browser, served: Served) -> Iterator[Page]:
    """A window of 900 × 500; the sources are as they were, afterwards."""
    context = browser.new_context(viewport={"width": 900, "height": 500})
    context.set_default_timeout(PATIENCE)
    yield context.new_page()
    context.close()
    served.save(SOURCE)


def status(url: str) -> int:
    """What a server answers with; 0 where there is none."""
    try:
        with urlopen(url, timeout=60) as answer:
            return int(answer.status)
    except HTTPError as fault:
        return fault.code
    except URLError:
        return 0


def wait_until(is_so) -> None:
    end = time.monotonic() + PATIENCE / 1000
    while not is_so():
        assert time.monotonic() < end
        time.sleep(0.05)


def test_a_save_is_shown_and_the_page_stays_at_its_place(served: Served, page: Page) -> None:
    page.goto(f"{served.page('s.html')}#program")
    page.evaluate("scrollTo(0, document.body.scrollHeight / 2)")
    marks = "[...document.querySelectorAll('article [id]')]"
    first = page.evaluate(f"{marks}.find(e => e.getBoundingClientRect().bottom > 0).id")
    top = page.evaluate("id => document.getElementById(id).getBoundingClientRect().top", first)
    served.save(SOURCE.replace(TITLE, "title: Longer name of the harbour band"))
    expect(page.get_by_role("heading", level=1)).to_contain_text("Longer name of the harbour band")
    page.wait_for_load_state()
    page.wait_for_function("() => scrollY > 0")
    now = page.evaluate("id => document.getElementById(id).getBoundingClientRect().top", first)
    assert abs(now - top) < 2 and page.url.endswith("#program")


def test_errors_stand_above_the_last_good_page_until_the_first_correction(
        served: Served, page: Page) -> None:
    page.goto(served.page("s.html"))
    expect(page.get_by_role("heading", level=1)).to_contain_text("A plain band, size S")
    steps = page.locator("article").inner_text().partition("A plain band, size S")[2]
    number = SOURCE.splitlines().index(TITLE) + 1
    served.save(SOURCE.replace(TITLE, "titel: Harbour"))
    findings = page.locator("article > .wb-findings")
    expect(findings).to_contain_text(f"pattern.yaml, line {number}, column 1")
    expect(findings.locator("pre").first).to_have_text("titel: Harbour")
    expect(findings.locator("strong").first).not_to_be_empty()
    assert steps and steps in page.locator("article").inner_text()
    served.save(SOURCE.replace(TITLE, "title: Put right"))
    expect(page.get_by_role("heading", level=1)).to_contain_text("Put right")
    expect(findings).to_have_count(0)


def test_what_a_source_says_is_shown_and_never_run(served: Served, page: Page) -> None:
    page.goto(served.page())
    served.save(HOSTILE + SOURCE.replace(f"{TITLE}\n", "").replace(
        "wearer: men", "wearer: '<b id=hit>men</b>'"))
    expect(page.locator(".wb-findings").first).to_contain_text("<b id=hit>")
    assert page.locator("#hit, article img[src=x]").count() == 0
    assert page.evaluate("window.hit") is None


def test_the_policy_is_that_of_published_pages(served: Served, page: Page) -> None:
    refused: list[str] = []
    page.on("console", lambda said: refused.append(said.text) if said.type == "error" else None)
    page.goto(served.page())
    policy = page.locator("meta[http-equiv=Content-Security-Policy]").get_attribute("content")
    assert policy and "connect-src 'self'" in policy and "script-src 'self' file:" in policy
    assert not [each for each in refused if "Content Security Policy" in each]


def test_findings_of_other_patterns_are_listed_and_shut(served: Served, page: Page) -> None:
    served.save(SOURCE.replace(TITLE, "titel: x"), "other-band")
    try:
        page.goto(served.page())
        others = page.locator(".wb-preview-others details").last
        expect(others.locator("summary")).to_contain_text("Other patterns: ")
        assert others.get_attribute("open") is None
        assert "other-band" in (others.text_content() or "")
        page.goto(f"{served.url}index.html")
        everywhere = page.locator(".wb-preview-others details").last.locator("summary")
        expect(everywhere).to_have_text(re.compile("^Patterns: "))
        expect(page.locator(".wb-findings")).to_have_count(0)
    finally:
        shutil.rmtree(served.source("other-band").parent)
    expect(page.locator(".wb-preview-others")).not_to_contain_text("other-band")


def test_a_folder_without_a_source_is_found_and_forgotten(served: Served, page: Page) -> None:
    page.goto(served.page())
    empty = served.source("no-source").parent
    empty.mkdir()
    (empty / "notes.md").write_text("Notes of nothing.\n", encoding="utf-8")
    try:
        expect(page.locator(".wb-preview-others")).to_contain_text("no-source: 1 error")
    finally:
        shutil.rmtree(empty)
    expect(page.locator(".wb-preview-others")).not_to_contain_text("no-source")


def test_patterns_are_added_renamed_and_deleted(served: Served, page: Page) -> None:
    page.goto(served.url)
    served.save(SOURCE.replace(TITLE, "title: Newly added"), "new-band")
    expect(page.locator("article")).to_contain_text("Newly added")
    served.source("new-band").parent.rename(served.source("old-band").parent)
    expect(page.locator('a[href="patterns/old-band/index.html"]')).to_have_count(1)
    assert status(served.page(slug="new-band")) == 404
    assert status(served.page("s.html", slug="old-band")) == 200
    page.goto(served.page(slug="old-band"))
    shutil.rmtree(served.source("old-band").parent)
    expect(page.locator("body")).not_to_contain_text("Newly added")
    assert status(served.page(slug="old-band")) == 404


def test_a_size_is_renamed_and_its_old_page_is_gone(served: Served, page: Page) -> None:
    page.goto(served.page())
    served.save(SOURCE.replace("sizes: [S]", "sizes: [XS]"))
    expect(page.locator("a[href='xs.html']").first).to_be_attached()
    assert status(served.page("xs.html")) == 200 and status(served.page("s.html")) == 404


def test_a_renamed_size_that_says_so_leaves_a_page_as_on_the_site(
        served: Served, page: Page) -> None:
    """At once, from one page's proof, and as well from the whole entry that follows it."""
    page.goto(served.page("s.html"))
    served.save(SOURCE.replace("[S]", "[{label: M, former: [S]}]"))
    article = page.locator("article")
    expect(article).to_contain_text("The size that was called S has another name now.")
    expect(article.get_by_role("link", name="size M").first).to_have_attribute("href", "m.html")
    wait_until(lambda: status(served.page("m.html")) == 200)
    wait_until(lambda: "counts" in urlopen(served.page("counts.json"), timeout=60).read().decode())
    assert status(served.page("s.html")) == 200
    assert "has another name now" in urlopen(served.page("s.html"), timeout=60).read().decode()
    assert status(served.page("xl.html")) == 404


def test_a_withdrawn_size_leaves_a_page_in_the_preview(served: Served, page: Page) -> None:
    served.save(f"{SOURCE}withdrawn_sizes: [{{label: 5X, date: 2026-11-20}}]\n")
    page.goto(served.page("5x.html"))
    expect(page.locator("article")).to_contain_text("The designer withdrew the size 5X on 2026")


def test_pictures_and_notes_are_shown_as_they_are_saved(served: Served, page: Page) -> None:
    from PIL import Image

    folder = served.source().parent
    picture, notes = folder / "front.png", folder / "notes.md"
    page.goto(served.page())
    Image.new("RGB", (40, 30), "teal").save(picture)
    notes.write_text("A word on the yarn.\n", encoding="utf-8")
    served.save(f"{SOURCE}pictures: [{{file: front.png, alt: The front}}]\n")
    shown = page.locator("img[src$='front.png']")
    expect(shown).to_have_js_property("naturalWidth", 40)
    expect(page.locator("article")).to_contain_text("A word on the yarn.")
    Image.new("RGB", (50, 30), "teal").save(picture)
    expect(shown).to_have_js_property("naturalWidth", 50)
    notes.unlink()
    expect(page.locator("article")).not_to_contain_text("A word on the yarn.")


def test_a_bed_that_several_patterns_share_is_read_again(served: Served, page: Page) -> None:
    bed = served.root / "patterns" / "_beds" / "bulky.yaml"
    text = bed.read_text(encoding="utf-8")
    served.save(SOURCE.replace("bed: {pitch: 9 mm, needles: 110}", "bed: bulky"))
    page.goto(served.page())
    try:
        bed.write_text("pitch: nothing\nneedles: 100\nsource: A maker's leaflet.\n")
        expect(page.locator(".wb-findings, .wb-preview-others").first).to_be_attached()
        expect(page.locator(".wb-findings")).to_contain_text("_beds/bulky.yaml, line 1, column 8")
    finally:
        bed.write_text(text, encoding="utf-8")
    expect(page.locator(".wb-findings")).to_have_count(0)


def test_what_is_said_of_the_collection_is_shown_as_it_is_saved(served: Served, page: Page) -> None:
    said = served.root / "patterns" / "collection.yaml"
    page.goto(served.url)
    expect(page.get_by_role("heading", level=1)).to_have_text("Patterns")
    said.write_text("title: Lantern Quay\nabout: For wet weather.\n", encoding="utf-8")
    try:
        expect(page.get_by_role("heading", level=1)).to_have_text("Lantern Quay")
        expect(page.locator("article")).to_contain_text("For wet weather.")
        said.write_text("title: Lantern Quay\nabuot: For wet weather.\n", encoding="utf-8")
        findings = page.locator("article > .wb-findings")
        expect(findings).to_contain_text("patterns/collection.yaml, line 2, column 1")
        said.write_text("title: Lantern Quay\nabout: For wet weather.\n", encoding="utf-8")
        expect(findings).to_have_count(0)
    finally:
        said.unlink()
    expect(page.get_by_role("heading", level=1)).to_have_text("Patterns")


def test_a_draft_is_shown_and_marked(served: Served, page: Page) -> None:
    page.goto(served.page())
    served.save(f"status: draft\n{SOURCE}")
    expect(page.locator("article")).to_contain_text("Draft: this pattern is not published.")
    page.goto(served.url)
    expect(page.locator("article")).to_contain_text("Draft: this pattern is not published.")


def test_a_fixed_page_and_the_settings_are_read_again(served: Served, page: Page) -> None:
    page.goto(f"{served.url}about.html")
    (served.root / "docs" / "about.md").write_text("# About\n\nWritten anew.\n")
    expect(page.locator("article")).to_contain_text("Written anew.")
    settings = served.root / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8")
    settings.write_text(f"{text}nonsense: [\n", encoding="utf-8")
    expect(page.locator(".wb-preview-others")).to_contain_text("The fixed pages are as they were")
    settings.write_text(text, encoding="utf-8")
    expect(page.locator(".wb-preview-others")).not_to_contain_text("as they were")


def test_a_place_that_is_taken_is_said(served: Served) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "walebook_site.command", "serve", "--root", str(served.root),
         "--at", served.url.strip("/").rpartition("/")[2]], check=False,
        capture_output=True, text=True)
    assert done.returncode == 1 and "Name another place" in done.stdout + done.stderr
    assert "Traceback" not in done.stderr


def test_what_lies_beside_a_page_is_made_when_it_is_asked_for(served: Served) -> None:
    with urlopen(served.page("counts.json")) as answer:
        assert b'"counts"' in answer.read()
    with urlopen(served.page("s.html")) as answer:
        name = answer.read().decode().partition('<p class="wb-hand-over"><a href="')[2]
    with urlopen(served.page(name.partition('"')[0])) as answer:
        alone = answer.read().decode()
    assert "Harbour" in alone and "preview.js" not in alone
    assert status(f"{served.url}patterns/harbour-front/..%2F..%2Fmkdocs.yml") == 404
    assert status(f"{served.url}..%2F..%2F..%2Fmkdocs.yml") == 404


def test_our_own_code_is_loaded_again(served: Served, page: Page) -> None:
    code = served.code / "walebook" / "words" / "credits.py"
    text = code.read_text(encoding="utf-8")
    page.goto(served.page("s.html"))
    article = page.locator("article")
    code.write_text(f"{text}\nx = (\n", encoding="utf-8")
    expect(page.locator(".wb-preview-others")).to_contain_text("SyntaxError")
    expect(article).to_contain_text("Version 1, 2026-10-30")
    code.write_text(text.replace("Version {", "Edition {"), encoding="utf-8")
    expect(article).to_contain_text("Edition 1, 2026-10-30")
    expect(page.locator(".wb-preview-others")).not_to_contain_text("SyntaxError")
    wait_until(lambda: (served.root / "printed").read_text().count("Serving on") == 2)
    served.save(SOURCE.replace(TITLE, "title: After a new beginning"))
    expect(page.get_by_role("heading", level=1)).to_contain_text("After a new beginning")
    expect(article).to_contain_text("Edition 1, 2026-10-30")


def test_who_imports_what_was_changed_is_loaded_again_and_nobody_else() -> None:
    from walebook_site.reloading import users_of

    imports = {"a": frozenset({"b"}), "b": frozenset({"c"}), "c": frozenset(),
               "d": frozenset({"a"}), "e": frozenset({"f"}), "f": frozenset()}
    assert users_of({"c"}, imports) == {"c", "b", "a", "d"}
    assert users_of({"f"}, imports) == {"e", "f"}


def test_imports_are_found_as_python_finds_them() -> None:
    """Against Python's own syntax tree."""
    import ast

    from walebook_site.reloading import imports_of

    for path in sorted((ROOT / "hooks").glob("*.py")):
        named = {node.module for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
                 if isinstance(node, ast.ImportFrom) and node.module}
        assert named <= imports_of(f"walebook_site.{path.stem}", path), path


def test_a_module_that_is_imported_by_its_package_is_loaded_again(tmp_path: Path) -> None:
    """A package keeps each of its modules under its name, where `from . import` looks first."""
    files = {"words/said.py": "TEXT = 'before'\n", "words/page.py": "from .said import TEXT\n",
             "making.py": "from .words import page as words\n", "words/__init__.py": "",
             "__init__.py": ""}
    for name, text in files.items():
        (tmp_path / "walebook" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "walebook" / name).write_text(text, encoding="utf-8")
    run = """
import importlib, pathlib, sys
from walebook_site.reloading import load_again
importlib.import_module("walebook.making")
said = pathlib.Path(sys.argv[1], "walebook", "words", "said.py")
said.write_text("TEXT = 'afterwards'")
load_again([said], "walebook.making")
print(importlib.import_module("walebook.making").words.TEXT)
"""
    done = subprocess.run([sys.executable, "-B", "-c", run, str(tmp_path)], capture_output=True,
                          text=True, check=True, env={**os.environ, "PYTHONPATH": str(tmp_path)})
    assert done.stdout.strip() == "afterwards"


def test_a_save_is_told_of_once(tmp_path: Path) -> None:
    """The system reports a save as several changes, the last of them when the file is shut."""
    from walebook_site.watching import Watcher
    from watchdog.events import FileClosedEvent

    saves: list[frozenset[Path]] = []
    saved = tmp_path / "said.py"

    def late(files: frozenset[Path]) -> None:
        saves.append(files)
        if len(saves) < 9:
            watcher.on_any_event(FileClosedEvent(str(saved)))

    watcher = Watcher(late)
    watcher.start([(tmp_path, True)])
    try:
        for number, text in enumerate(("one", "other"), 1):
            saved.write_text(text, encoding="utf-8")
            wait_until(lambda number=number: len(saves) >= number)
            time.sleep(0.3)
            assert saves == [frozenset({saved})] * number
        saved.unlink()
        wait_until(lambda: len(saves) >= 3)
    finally:
        watcher.stop()


def test_a_list_without_a_pattern_yet_says_how_many_are_being_knitted() -> None:
    """The page had its heading and nothing under it, for as long as the first pattern took."""
    from types import SimpleNamespace

    from walebook_site.preview_pages import Preview

    waiting = SimpleNamespace(known=dict, left=2)
    assert "Knitting 2 patterns." in Preview._list(SimpleNamespace(
        patterns=waiting, _cards=tuple))  # type: ignore[arg-type]
    done = SimpleNamespace(known=dict, left=0)
    assert "Knitting" not in Preview._list(SimpleNamespace(
        patterns=done, _cards=tuple))  # type: ignore[arg-type]


def test_a_folder_that_comes_later_is_watched_with_all_in_it(tmp_path: Path) -> None:
    """`walebook parts --copy` makes the folder `pages` while the preview runs."""
    from walebook_site.watching import Watcher

    saves: set[Path] = set()
    watcher = Watcher(saves.update)
    watcher.start([(tmp_path, False)])
    try:
        later = tmp_path / "pages"
        later.mkdir()
        wait_until(lambda: later in saves)
        watcher.also(later)
        (later / "blocking.md").write_text("mine", encoding="utf-8")
        wait_until(lambda: later / "blocking.md" in saves)
    finally:
        watcher.stop()


def test_a_page_that_is_looked_at_is_asked_for_once(tmp_path: Path) -> None:
    from walebook_site.previewing import Patterns
    from walebook_site.provers import ProverProcess

    root = make_project(tmp_path)
    patterns, asked = Patterns(root), []
    ask = ProverProcess.ask

    def note(prover: ProverProcess, do: str, slug: str, page: str = "") -> object:
        asked.append((do, page))
        return ask(prover, do, slug, page)

    path = "patterns/harbour-front/one-size.md"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(ProverProcess, "ask", note)
        patterns.start()
        try:
            with patterns.looked_at("patterns/harbour-front/one-size.html"):
                assert patterns.shown("harbour-front", path)
                wait_until(lambda: patterns.is_idle)
        finally:
            patterns.stop()
    assert {page for do, page in asked if do == "page"} <= {path}


@dataclass(frozen=True, slots=True)
class Plain:
    """A frame that puts nothing around a page but its article."""

    site: Path
    units: str = "cm first"

    def render(self, source: str, title: str, text: str) -> str:
        """Return the page."""
        return f"<article>{title}\n{text}</article>"


SHARED_FILES = {  # by file: the text, what is spoiled in it and how, the finding's place and line
    "collection.yaml": (
        "title: Lantern Quay\nabout: For wet weather.\n", "about", "abuot", "line 2, column 1",
        "<mark>a</mark>buot: For wet weather."),
    "_beds/spare.yaml": (
        "source: A maker's leaflet.\nneedles: 100\npitch: 9 mm\n", "100", "many",
        "line 2, column 10", "needles: <mark>m</mark>any"),
    "_shared.yaml": (
        "yarns:\n  main: {name: Harbour Bulky}\n", "name", "nmae", "line 2, column 10",
        "  main: {<mark>n</mark>mae: Harbour Bulky}")}


def test_what_is_wrong_with_shared_files_is_shown_until_the_first_correction(
        tmp_path: Path) -> None:
    """On the home page and on a pattern's. Places are counted in the texts that stand above."""
    from walebook_site.preview_pages import Preview
    from walebook_site.previewing import Patterns

    folder = make_project(tmp_path) / "patterns"
    (folder / "harbour-front" / "pattern.yaml").write_text(
        SOURCE.replace("main: {name: Harbour Bulky}", "main: shared"), encoding="utf-8")
    (tmp_path / "index.html").write_text("<article>Lantern Quay</article>")
    patterns = Patterns(tmp_path)
    preview = Preview(Plain(tmp_path), patterns, "/")  # type: ignore[arg-type]
    patterns.start()
    try:
        for wrong in ((), tuple(SHARED_FILES), ("collection.yaml", "_beds/spare.yaml"), ()):
            for file, (text, good, bad, *_) in SHARED_FILES.items():
                (folder / file).write_text(text.replace(good, bad) if file in wrong else text,
                                           encoding="utf-8")
            patterns.changed(None)
            wait_until(lambda: patterns.is_idle)
            for path in ("index.html", "patterns/harbour-front/index.html"):
                html = preview.html(path) or ""
                found = html.partition('<section class="wb-findings"')[2].partition("</section>")[0]
                assert "Lantern Quay" in html or "A plain band" in html
                assert bool(found) is bool(wrong)
                assert ("This pattern is not published" in found) is (
                    "_shared.yaml" in wrong and path != "index.html")
                for file, (*_, place, line) in SHARED_FILES.items():
                    times = int(file in wrong)
                    assert found.count(f"patterns/{file}, {place}<") == times
                    assert (f"<pre>{line}</pre>" in found) is (file in wrong)
                assert not wrong or "<strong>" in found
    finally:
        patterns.stop()


@pytest.mark.parametrize("slug", ["slack-tide-cardigan", "practice-band"])
def test_the_first_look_at_a_size_is_its_page(slug: str) -> None:
    """Against the page of a pattern that is knitted in all its sizes."""
    from walebook.pages import write_page, write_pages
    from walebook_site.reading import Reading
    from walebook_site.sources import Prover

    reading = Reading(ROOT)
    prover, folder = Prover.of(reading), reading.folder(slug)
    whole = prover.prove(folder).proof
    assert whole is not None
    texts = {page.path: page.text for page in write_pages(whole)}
    for path in [*texts][1:-1][::4]:
        look = prover.prove(folder, look=Path(path).stem).proof
        assert look is not None and len(look.sizes) == 1
        assert write_page(look, path).text == texts[path]


def git(root: Path, *words: str) -> None:
    named = {"GIT_AUTHOR_NAME": "A", "GIT_AUTHOR_EMAIL": "a@b.c", "GIT_COMMITTER_NAME": "A",
             "GIT_COMMITTER_EMAIL": "a@b.c", "GIT_CONFIG_GLOBAL": os.devnull}
    subprocess.run(["git", "-C", str(root), *words], check=True, capture_output=True,
                   env={**os.environ, **named})


def test_what_a_change_did_is_a_page_that_follows_what_is_saved(served: Served, page: Page) -> None:
    """The rows of an edge are the source's own: 52, then 60."""
    page.goto(served.page("s.html"))
    page.locator(".wb-preview-others a", has_text="What did my change do?").click()
    report = page.locator("article .wb-compared")
    expect(report).to_contain_text("Nothing was compared")
    git(served.root, "init", "-q")
    git(served.root, "add", "patterns")
    git(served.root, "commit", "-q", "-m", "As it was")
    page.reload()
    expect(report).to_contain_text("Nothing differs.")
    assert "rows: 52" in SOURCE
    served.save(SOURCE.replace("rows: 52", "rows: 60"))
    expect(report).to_contain_text("52 → 60 rows")
    expect(report).to_contain_text("edges.front.rows: 52 → 60")
    assert page.locator(".wb-preview-others a", has_text="What did my change do?").count() == 0
    shutil.rmtree(served.root / ".git")

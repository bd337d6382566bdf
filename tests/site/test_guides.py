"""The guides for designers, run: every command and file of theirs, and the headers on a server.

What each command must print stands in the guide itself, behind it. Of the headers: `immutable` is
RFC 8246, `no-cache` RFC 9111 (5.2.2.4), `frame-ancestors` CSP level 3, which a page's own policy
cannot say (all from memory).
"""

from __future__ import annotations

import gzip
import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path, PurePosixPath

import pytest
from PIL import Image
from playwright.sync_api import Page
from walebook_site.command import main

from tests.site.serving import ROOT, Silent
from tests.site.serving import served as serving
from tests.site.test_own_collection import declared  # noqa: F401  how Python knows the plugin

GUIDE = (ROOT / "site_src" / "first-pattern.md").read_text(encoding="utf-8")
PUBLISHING = (ROOT / "site_src" / "publishing.md").read_text(encoding="utf-8")
GUIDES = sorted(path for path in (ROOT / "site_src" / "guides").glob("*.md")
                if "```sh" in path.read_text(encoding="utf-8"))
_BLOCK = re.compile(r"(?P<before>(?:[^\n]+\n)*)\n*```(?P<kind>[\w-]+)\n"
                    r"(?P<text>.*?)```|(?P<table>(?:^\| Count \|)(?:[^\n]+\n)+)",
                    re.DOTALL | re.MULTILINE)
_FILE = re.compile(r"`((?:patterns|pages)/[^`]+\.(?:yaml|md|css)|mkdocs\.yml)`")
_PHOTOGRAPH = re.compile(r"`(patterns/[^`]+\.jpg)`")
_MISTAKE = re.compile(r"[Ii]n `(patterns/[^`]+)`, write\s+`([^`]+)`\s+instead of `([^`]+)`")
ELSEWHERE = ("pip ", "python3 -m venv", ". ", "walebook serve")  # run by test_own_collection


class Reader:
    """Does what the guide says, in a folder, and keeps what the last command printed."""

    def __init__(self, folder: Path, plugin: str, capsys: pytest.CaptureFixture[str]) -> None:
        self.at, self.plugin, self.capsys = folder, plugin, capsys
        self.printed, self.looked_at = "", 0

    def run(self, line: str) -> None:
        words = shlex.split(line)
        if words[0] == "cd":
            self.at = self.at / words[1]
        elif words[0] == "walebook" and words[1] != "build":
            os.chdir(self.at)
            main(words[1:])
            self.printed = self.capsys.readouterr().out
        elif words[0] == "walebook":  # a build ends the process
            done = subprocess.run([sys.executable, "-m", "walebook_site.command", *words[1:]],
                                  cwd=self.at, check=False, capture_output=True, text=True,
                                  env={**os.environ, "PYTHONPATH": self.plugin})
            assert done.returncode == 0, done.stderr
        elif words[0] == "diff":
            self.printed = subprocess.run(words, cwd=self.at, check=False, capture_output=True,
                                          text=True).stdout
        else:
            assert line.startswith(ELSEWHERE), line

    def compare(self, table: str) -> None:
        """Look for each row of a table of counts on the page of the pattern checked last."""
        os.chdir(self.at)
        main(["pages", "compared"])
        pages = "".join(path.read_text(encoding="utf-8") for path in
                        (self.at / "compared" / "patterns").glob("*/index.md"))
        rows = [[cell.strip() for cell in line.strip("| ").split("|")]
                for line in table.splitlines()]
        for name, *values in (rows[0], *rows[2:]):
            cells = "".join(f"<t{'dh'[name == 'Count']}>{value}</t{'dh'[name == 'Count']}>"
                            for value in values)
            assert f"<tr><th>{name}</th>{cells}</tr>" in pages, name
            self.looked_at += 1

    def has(self, names: list[str]) -> None:
        for name in names:
            assert (self.at / name).is_file(), name
            self.looked_at += 1

    def photograph(self, name: str) -> None:
        (self.at / name).parent.mkdir(parents=True, exist_ok=True)
        Image.new("RGB", (80, 60), "slategray").save(self.at / name)

    def write(self, name: str, text: str) -> None:
        (self.at / name).parent.mkdir(parents=True, exist_ok=True)
        (self.at / name).write_text(text, encoding="utf-8")

    def look(self, text: str) -> None:
        """Look for each line as a whole; of one with "..." for what stands before and behind it.
        """
        lines = self.printed.splitlines()
        for line in text.splitlines():
            shown = re.compile(".*".join(map(re.escape, line.split("..."))))
            assert any(map(shown.fullmatch, lines)), f"{line!r} is not in:\n{self.printed}"
            self.looked_at += 1


def follow(guide: str, reader: Reader) -> None:
    """Do everything that the guide shows, in its order."""
    for block in _BLOCK.finditer(guide):
        kind, text, before = block["kind"], block["text"], block["before"] or ""
        for name in _PHOTOGRAPH.findall(before):
            reader.photograph(name)
        if block["table"]:
            reader.compare(block["table"])
        elif kind == "leaflet":
            continue
        elif kind == "text":
            reader.look(text)
        elif kind == "files":
            reader.has(text.splitlines())
        elif kind in ("yaml", "markdown", "css"):
            reader.write(_FILE.findall(before)[-1], text)
        elif kind == "yaml-more":
            name = _FILE.findall(before)[-1]
            reader.write(name, (reader.at / name).read_text(encoding="utf-8") + text)
        elif mistake := _MISTAKE.search(before):
            name, wrong, right = mistake.groups()
            good = (reader.at / name).read_text(encoding="utf-8")
            assert right in good
            reader.write(name, good.replace(right, wrong))
            reader.run(text.strip())
            reader.write(name, good)
        else:
            for line in text.splitlines():
                if not line.startswith(ELSEWHERE):
                    reader.run(line)


@pytest.fixture
def reader(tmp_path: Path, declared: str, capsys: pytest.CaptureFixture[str],  # noqa: F811
           monkeypatch: pytest.MonkeyPatch) -> Reader:
    monkeypatch.chdir(tmp_path)
    return Reader(tmp_path, declared, capsys)


def test_the_guide_to_a_first_pattern_comes_out_as_it_says(reader: Reader) -> None:
    assert GUIDE.count("```") == 2 * len(_BLOCK.findall(GUIDE)), "a block is not read"
    follow(GUIDE, reader)
    shown = [block["text"] for block in _BLOCK.finditer(GUIDE) if block["kind"] == "text"]
    assert reader.looked_at == sum(len(text.splitlines()) for text in shown) > 0
    site = reader.at / "site"
    page = (site / "patterns" / "harbour-front" / "s.html").read_text(encoding="utf-8")
    told = re.sub(r"<[^>]+>|\s+", " ", page)
    assert "150 stitches" in told and "between the holes: 19" in told
    assert len(list((site / "patterns" / "harbour-cardigan").glob("*-single-file.html"))) == 9


@pytest.mark.parametrize("path", GUIDES, ids=lambda path: path.stem)
def test_every_other_guide_comes_out_as_it_says(path: Path, reader: Reader) -> None:
    """What it builds is left to the long run."""
    guide = path.read_text(encoding="utf-8").partition("## Build and look")[0]
    assert guide.count("```") == 2 * sum(bool(block["kind"]) for block in _BLOCK.finditer(guide))
    follow(guide, reader)
    assert reader.looked_at


def test_no_mark_of_an_anchor_is_printed() -> None:
    """Behind a table `{ #headers }` is text: it names the paragraph in whose last line it stands.
    """
    for path in (ROOT / "site_src").rglob("*.md"):
        lines = path.read_text(encoding="utf-8").splitlines()
        for above, line in pairwise(lines):
            if re.fullmatch(r"\s*\{ #[\w-]+ \}", line):
                assert above.strip() and not above.startswith("|"), (path.name, line)


@pytest.mark.long
def test_the_guide_to_selling_comes_out_as_it_says(reader: Reader) -> None:
    follow((ROOT / "site_src" / "guides" / "selling.md").read_text(encoding="utf-8"), reader)
    site = reader.at / "site" / "patterns" / "first-band"
    assert [path.name for path in site.glob("*.html")] == ["index.html"]


@pytest.mark.parametrize(("name", "right", "wrong"), [
    ("paper-pattern", "| Back: armhole rows | 46 | 48 |", "| Back: armhole rows | 46 | 49 |"),
    ("photographs", 'expected "front.jpg". Write', 'expected "back.jpg". Write')])
def test_another_guide_that_promises_another_thing_is_found(
        name: str, right: str, wrong: str, reader: Reader) -> None:
    guide = (ROOT / "site_src" / "guides" / f"{name}.md").read_text(encoding="utf-8")
    assert right in guide
    with pytest.raises(AssertionError):
        follow(guide.replace(right, wrong), reader)


def test_a_guide_that_promises_another_thing_is_found(reader: Reader) -> None:
    wrong = GUIDE.partition("## See the page")[0].replace("in 2 sizes", "in 3 sizes")
    with pytest.raises(AssertionError, match="in 3 sizes"):
        follow(wrong, reader)


def rules() -> list[tuple[re.Pattern[str], str, str]]:
    """The headers of the guide: of which files, and their values; the first that fits counts."""
    rows = re.findall(r"^\| (.+?) \| `([\w-]+)` \| `(.+?)` \|$", PUBLISHING, re.MULTILINE)
    which = {"all others": ".*", "all": ".*"}
    return [(re.compile(which.get(files, r"assets/[^/]+\.[0-9a-f]{10}\.(js|css)")), name, value)
            for files, name, value in rows]


def headers(path: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for files, name, value in rules():
        if files.fullmatch(path):
            found.setdefault(name, value)
    return found


class Handler(Silent):
    """A plain static server that sends the headers of the guide."""

    def end_headers(self) -> None:
        for name, value in headers(self.path.partition("?")[0].lstrip("/")).items():
            self.send_header(name, value)
        super().end_headers()


def test_only_what_has_a_digest_in_its_name_is_kept_for_good(site: Path) -> None:
    paths = [path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()]
    for path in paths:
        kept = "immutable" in headers(path)["Cache-Control"]
        digest = re.search(r"\.([0-9a-f]{10})\.(js|css)$", path)
        assert kept == bool(digest), path
    kept = [path for path in paths if "immutable" in headers(path)["Cache-Control"]]
    assert {PurePosixPath(path).suffix for path in kept} == {".js", ".css"}
    for path in ("sw.js", "edition.json", "index.html"):
        assert path in paths and headers(path)["Cache-Control"] == "no-cache"
    text = [(site / path).read_bytes() for path in paths
            if path.endswith((".html", ".js", ".css", ".json"))
            and (not path.startswith("patterns/") or path.startswith("patterns/practice-band/"))]
    part = sum(len(gzip.compress(each)) for each in text) / sum(map(len, text))
    assert 1 / 4 < part < 2 / 5, f"{part:.3f} of their length is not about a third"


@pytest.fixture
def served(site: Path) -> Iterator[str]:
    with serving(site, Handler) as host:
        yield host


def test_a_static_server_with_these_headers_serves_all_of_a_page(served: str, phone: Page) -> None:
    said: list[str] = []
    phone.on("console", lambda message: said.append(message.text)
             if message.type in ("error", "warning") else None)
    phone.on("pageerror", lambda fault: said.append(str(fault)))
    for path in ("index.html", "patterns/practice-band/3-months.html"):
        answer = phone.goto(f"{served}/{path}")
        assert answer is not None and answer.status == 200
        assert answer.headers["content-security-policy"] == "frame-ancestors 'self'"
        phone.wait_for_load_state("networkidle")
    assert said == []
    assert phone.evaluate("navigator.serviceWorker.ready.then(() => true)")

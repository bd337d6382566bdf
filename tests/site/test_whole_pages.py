"""`walebook pages`: all files or none, and nothing of the designer's own is lost."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from walebook_site.lock import take

from tests.site.builds import Commands, change, commands, left_beside, make_project, tree

PAGES = ("walebook", "pages", "plain")


@pytest.fixture(scope="module")
def loaded() -> Iterator[Commands]:
    with commands() as process:
        yield process


@pytest.fixture
def root(tmp_path: Path, loaded: Commands) -> Path:
    """A project whose pages were written before its sources were changed."""
    root = make_project(tmp_path)
    assert loaded.run(root, *PAGES).code == 0
    change(root)
    return root


def pages(root: Path) -> Path:
    return root / "plain" / "patterns"


def test_pages_are_replaced_and_what_is_not_ours_stays(loaded: Commands, root: Path) -> None:
    (root / "plain" / "index.md").write_text("own")
    (pages(root) / "own.md").write_text("own")
    (pages(root) / "harbour-front" / "own.png").write_bytes(b"own")
    (pages(root) / "drafts").mkdir()
    assert loaded.run(root, *PAGES).code == 0
    now = tree(root / "plain")
    assert (now["index.md"], now["patterns/own.md"]) == (b"own", b"own")
    assert now["patterns/drafts"] is None
    assert [p for p in now if "harbour-front" in p] == [
        "patterns/harbour-front", "patterns/harbour-front/own.png"]
    assert "patterns/harbour-band/one-size.md" in now
    assert left_beside(pages(root)) == []
    assert loaded.run(root, *PAGES).code == 0 and tree(root / "plain") == now


def test_killed_writing_leaves_the_old_pages_or_the_new(loaded: Commands, root: Path) -> None:
    old, log = tree(pages(root)), root / "log"
    before = shutil.copytree(pages(root), root / "before")
    assert loaded.run(root, *PAGES, log=str(log)).code == 0
    new, most = tree(pages(root)), len(log.read_text().split())
    assert old != new
    for kill_at in random.Random(3).sample(range(1, most + 1), 8):
        shutil.rmtree(root / "plain")
        shutil.copytree(before, pages(root))
        assert loaded.run(root, *PAGES, kill_at=kill_at).killed
        assert tree(pages(root)) in (old, new), f"killed before operation {kill_at}"
        assert loaded.run(root, *PAGES).code == 0
        assert tree(pages(root)) == new and left_beside(pages(root)) == []


def test_a_write_that_is_refused_leaves_the_old_pages(loaded: Commands, root: Path) -> None:
    old = tree(root / "plain")
    ended = loaded.run(root, *PAGES, fsize=2000)
    assert ended.code == 1 and tree(root / "plain") == old
    assert "No pages were written: File too large" in ended.printed
    assert "What is in plain is as it was." in ended.printed and "Traceback" not in ended.printed


def test_pages_are_not_written_by_two_at_once(loaded: Commands, root: Path) -> None:
    held = take(root / "plain" / ".patterns.walebook" / "lock")
    try:
        old = tree(pages(root))
        ended = loaded.run(root, *PAGES)
        assert ended.code == 1 and tree(pages(root)) == old
        assert "plain is being written by another command (process " in ended.printed
    finally:
        held.release()


@pytest.mark.parametrize("named", [".", "patterns", "plain-file", "link"])
def test_pages_never_take_the_place_of_sources(loaded: Commands, root: Path, named: str) -> None:
    (root / "plain-file").write_text("a file")
    (root / "link").symlink_to(".")
    sources = tree(root / "patterns")
    ended = loaded.run(root, "walebook", "pages", named)
    assert ended.code == 1 and tree(root / "patterns") == sources
    assert "No pages were written: " in ended.printed and "Traceback" not in ended.printed

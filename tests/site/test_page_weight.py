"""How heavy the size pages are. Every commit looks: this file takes no turns (`tests/turns.py`)."""

from __future__ import annotations

from pathlib import Path

from tests import turns

LIGHT = 150_000  # bytes of HTML: the project's own budget of a size page


def size_pages(site: Path) -> list[Path]:
    """The built page of every size."""
    return [path for path in site.glob("patterns/*/*.html")
            if path.name != "index.html" and not path.name.endswith("-single-file.html")]


def test_every_size_page_is_light(site: Path) -> None:
    pages = size_pages(site)
    assert len(pages) > 100
    assert {page.relative_to(site).as_posix(): page.stat().st_size
            for page in pages if page.stat().st_size > LIGHT} == {}


def test_no_commit_leaves_it_out() -> None:
    here = Path(__file__).relative_to(Path(__file__).parents[2]).as_posix()
    assert here not in turns.FILES

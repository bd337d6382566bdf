"""The worker's list is split: it grows with the patterns of a site, and not with their pages.

The sites here are made by hand, as small as a worker takes them. That a pattern's list is as safe
as the worker's own is held in a real browser (test_offline_failures.py).
"""

from __future__ import annotations

import json
import re
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from walebook_site.keeping import write_worker

from .test_offline import WORKER

PAGE = ('<main><article class="md-content__inner"><h1>{}</h1>'
        '<a href="../../techniques/grafting.html">How</a></article></main>')


def a_site(folder: Path, *, patterns: int, pages: int) -> Path:
    """A site of so many patterns with so many pages each."""
    texts = {"index.html": "home", "offline.html": "kept", "techniques/grafting.html": "loops",
             "techniques/blocking.html": "wet"}
    for number in range(patterns):
        own = f"patterns/knit-{number:04}"
        texts[f"{own}/index.html"] = PAGE.format(f"Knit {number}")
        texts |= {f"{own}/size-{n}.html": PAGE.format(f"size {n}") for n in range(pages)}
    for path, text in texts.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text, encoding="utf-8")
    return folder


def listed(site: Path) -> dict[str, Any]:
    write_worker(site, WORKER)
    text = (site / "sw.js").read_text(encoding="utf-8")
    found = re.search(r"const EDITION = (\{.*\});", text)
    assert found
    given: dict[str, Any] = json.loads(found[1])
    return given


def weight(site: Path) -> int:
    listed(site)
    return (site / "sw.js").stat().st_size


def test_a_worker_grows_by_a_line_a_pattern_and_by_nothing_a_page(tmp_path: Path) -> None:
    few = weight(a_site(tmp_path / "few", patterns=1, pages=2))
    more = weight(a_site(tmp_path / "more", patterns=1, pages=200))
    many = weight(a_site(tmp_path / "many", patterns=101, pages=2))
    assert more - few < 10  # the digits of a number
    assert (many - few) / 100 < 150  # a slug, a title, a version, a path, a digest, two numbers


def test_a_pattern_lists_its_files_and_what_they_lead_to(tmp_path: Path) -> None:
    site = a_site(tmp_path, patterns=2, pages=2)
    given = listed(site)
    group = given["groups"]["knit-0001"]
    path, digest, size = group["list"]
    text = (site / path).read_bytes()
    assert sha256(text).hexdigest().startswith(digest) and len(text) == size
    files = json.loads(text)
    assert [path for path, *_ in files] == [
        "patterns/knit-0001/index.html", "patterns/knit-0001/size-0.html",
        "patterns/knit-0001/size-1.html", "techniques/grafting.html"]
    for path, digest, size in files:
        data = (site / path).read_bytes()
        assert sha256(data).hexdigest().startswith(digest) and len(data) == size
    assert group["bytes"] == sum(size for *_, size in files) + len(text)
    assert not any(path.startswith("patterns/") for path, *_ in given["files"])


@pytest.mark.parametrize("changed", ["patterns/knit-0000/size-1.html", "techniques/grafting.html"])
def test_a_change_of_any_page_makes_another_edition(tmp_path: Path, changed: str) -> None:
    site = a_site(tmp_path, patterns=2, pages=2)
    before = write_worker(site, WORKER)
    assert write_worker(site, WORKER) == before
    (site / changed).write_text("another", encoding="utf-8")
    assert write_worker(site, WORKER) != before

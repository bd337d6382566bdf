"""The same sources give the same bytes: elsewhere, on another day, in another order, from a cache.

What may differ between machines and must not show is as reproducible-builds.org lists it
("Documentation", read 2026-11): time, time zone, locale, build path, order of hashes, number of
processes. SOURCE_DATE_EPOCH stands for another day: it is what the site builder takes as its clock.
"""

from __future__ import annotations

import gzip
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from walebook_site.cache import FOLDER

from tests.site.builds import ROOT, Tree, make_project, tree
from tests.site.declared import environment, hooked

HERE = {"TZ": "UTC", "LC_ALL": "C", "PYTHONHASHSEED": "0", "WALEBOOK_JOBS": "1",
        "SOURCE_DATE_EPOCH": "1780000000"}
ELSEWHERE = {"TZ": "Pacific/Kiritimati", "LC_ALL": "C.UTF-8", "PYTHONHASHSEED": "4242",
             "WALEBOOK_JOBS": "2", "SOURCE_DATE_EPOCH": "1890000000"}


def built(root: Path, env: dict[str, str]) -> Tree:
    done = subprocess.run([sys.executable, "-m", "mkdocs", "build", "--quiet"], cwd=root, text=True,
                          env={**os.environ, "NO_MKDOCS_2_WARNING": "1", **env},
                          capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
    return tree(root / "site")


def differing(one: Tree, other: Tree) -> list[str]:
    return sorted(path for path in one.keys() | other.keys() if one.get(path) != other.get(path))


def test_a_small_site_is_the_same_elsewhere_and_from_the_cache(tmp_path: Path) -> None:
    root = make_project(tmp_path / "here")
    with (root / "mkdocs.yml").open("a") as settings:
        settings.write("site_url: https://quay.example/patterns/\n")
    for number in range(4):
        shutil.copytree(root / "patterns" / "harbour-front", root / "patterns" / f"band-{number}")
    other = shutil.copytree(root, tmp_path / "an other folder, ü")
    first = built(root, HERE)
    assert differing(first, built(other, ELSEWHERE)) == []
    assert (other / FOLDER).is_dir()
    assert differing(first, built(other, {**ELSEWHERE, "WALEBOOK_JOBS": "1"})) == []
    sitemap = gzip.decompress(first["sitemap.xml.gz"] or b"")
    assert sitemap == first["sitemap.xml"]
    assert b"band-3/one-size.html" in sitemap and b"<lastmod>2026-10-30</lastmod>" in sitemap


@pytest.mark.long
def test_the_hook_and_the_plugin_make_the_same_site(tmp_path: Path) -> None:
    """The demo's settings name the plugin; the same settings with the hook are written here."""
    for name in ("hook", "plugin"):
        for part in ("hooks", "site_src", "patterns"):
            shutil.copytree(ROOT / part, tmp_path / name / part)
        shutil.copy(ROOT / "mkdocs.yml", tmp_path / name)
    hooked(tmp_path / "hook")
    first = built(tmp_path / "hook", HERE)
    assert differing(first, built(tmp_path / "plugin", {**environment(), **HERE})) == []


@pytest.mark.long
def test_the_collection_is_the_same_elsewhere_and_from_the_cache(tmp_path: Path) -> None:
    for name in ("here", "an other folder, ü"):
        for part in ("hooks", "site_src", "patterns"):
            shutil.copytree(ROOT / part, tmp_path / name / part)
        hooked(tmp_path / name)
    first = built(tmp_path / "here", HERE)
    other = tmp_path / "an other folder, ü"
    assert differing(first, built(other, ELSEWHERE)) == []
    assert differing(first, built(other, HERE)) == []

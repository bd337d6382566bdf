"""Pictures by any name a file can have: on the page, in one file, on paper, kept on a device."""

from __future__ import annotations

import json
import re
import shutil
from base64 import b64decode
from functools import partial
from html import unescape
from pathlib import Path
from urllib.parse import unquote

import pytest
from PIL import Image
from walebook_site.paper import paper
from walebook_site.single_file import Page, one_file

from tests.site.conftest import ROOT, build
from tests.site.declared import hooked

NAMES = ("a#b.png", "50 %.png", "is it?.png", "you & me.png", "100%25.png", "it's \"so\".png",
         "Café.jpg", "a+b;c=d,e@f!.webp")
SLUG = "practice-band"


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site of one pattern with a picture of another colour by each of the names."""
    root = tmp_path_factory.mktemp("named")
    for name in ("hooks", "site_src"):
        shutil.copytree(ROOT / name, root / name)
    hooked(root)
    for name in ("_beds", SLUG):
        shutil.copytree(ROOT / "patterns" / name, root / "patterns" / name)
    folder = root / "patterns" / SLUG
    for number, name in enumerate(NAMES):
        Image.new("RGB", (8, 8), (20 * number, 90, 90)).save(folder / name)
    listed = "".join(f"  - {{file: {json.dumps(name, ensure_ascii=False)}, alt: Seen}}\n"
                     for name in NAMES)
    source = folder / "pattern.yaml"
    source.write_text(f"pictures:\n{listed}{source.read_text()}", encoding="utf-8")
    site = root / "site"
    done = build(root, site)
    assert done.returncode == 0, done.stderr
    return site


def page(site: Path, path: str) -> Page:
    return Page(path, (site / path).read_text(encoding="utf-8"))


def shown(html: str) -> list[str]:
    return [unescape(src) for src in re.findall(r'<img\b[^>]*\ssrc="([^"]*)"', html)]


def test_each_picture_is_found_from_its_page(built: Path) -> None:
    folder = built / "patterns" / SLUG
    found = [unquote(src) for src in shown((folder / "index.html").read_text())
             if src.endswith((".png", ".jpg", ".webp"))]
    assert found == list(NAMES)
    assert all((folder / name).is_file() for name in found)
    # What an address would end at: a part of the page, what is asked for, what is quoted.
    assert not [src for src in shown((folder / "index.html").read_text())
                if re.search(r"[#?& ]|%(?![0-9A-F]{2})", src)]


def test_each_picture_is_in_the_file_that_stands_alone(built: Path) -> None:
    folder = built / "patterns" / SLUG
    alone = one_file([page(built, f"patterns/{SLUG}/index.html")], partial(page, built),
                     lambda at: (built / at).read_bytes())
    data = [b64decode(src.partition(",")[2]) for src in shown(alone)
            if src.startswith("data:image") and "svg" not in src.partition(",")[0]]
    assert data == [(folder / name).read_bytes() for name in NAMES]


def test_each_picture_is_kept_on_a_device_under_its_name(built: Path) -> None:
    listed = json.loads((built / "patterns" / SLUG / "files.json").read_text())
    paths = {path for path, *_ in listed}
    assert {f"patterns/{SLUG}/{name}" for name in NAMES} <= paths


def test_each_picture_is_on_paper(built: Path) -> None:
    first = page(built, f"patterns/{SLUG}/index.html")
    made = paper([first], lambda at: (built / at).read_bytes())
    assert made.count(b"/Subtype /Image") >= len(NAMES)

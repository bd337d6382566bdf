"""The picture and the words that a link to a pattern shows elsewhere.

Outside the project: the names of properties of the Open Graph protocol (ogp.me), from memory, and
the imaging library Pillow, which reads the pictures back.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageChops
from walebook_site.preview_picture import PAPER, preview_picture

from tests.site.builds import Commands, Tree, commands, make_project, tree

BUILD = ("mkdocs", "build")
ADDRESS = "https://lantern-lane.example/knits/"
SKETCH = """<svg xmlns="http://www.w3.org/2000/svg" class="wb-garment wb-clear" \
style="--wb-yarn:#b7c08d;--wb-yarn-far:#838a65" viewBox="0 0 1000 500" width="1000" height="500">\
<style>svg{--wb-ink:#18202c}</style><path class="wb-fill" d="m0 0h1000v500h-1000z"/></svg>"""


class Properties(HTMLParser):
    """What a page says of itself in elements `meta` with a property."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.said: dict[str, str] = {}
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "meta" and given.get("property"):
            self.said[str(given["property"])] = str(given["content"])


@pytest.fixture(scope="module")
def loaded() -> Iterator[Commands]:
    with commands() as process:
        yield process


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return make_project(tmp_path / "lane")


def ask(project: Path, address: str = ADDRESS) -> None:
    """Ask for preview pictures in the settings."""
    settings = (project / "mkdocs.yml").read_text()
    settings = settings.replace("pdf: false", "pdf: false, preview_picture: true")
    (project / "mkdocs.yml").write_text(settings + (f"site_url: {address}\n" if address else ""))


def built(loaded: Commands, project: Path) -> Tree:
    ended = loaded.run(project, *BUILD)
    assert ended.code == 0, ended.printed
    return tree(project / "site")


def test_every_page_of_a_pattern_names_its_picture(loaded: Commands, project: Path) -> None:
    ask(project)
    site = built(loaded, project)
    pages = {path: body for path, body in site.items()
             if path.startswith("patterns/") and path.endswith(".html") and "single" not in path}
    assert len(pages) >= 2
    for path, body in pages.items():
        assert body is not None
        said = Properties(body.decode()).said
        assert said["og:url"] == ADDRESS + path
        picture = said["og:image"].removeprefix(ADDRESS)
        assert picture.rpartition("/")[0] == path.rpartition("/")[0]
        image = Image.open(project / "site" / picture)
        assert image.format == "PNG"
        assert image.size == (int(said["og:image:width"]), int(said["og:image:height"]))
        assert said["og:title"] in re.sub(r"<[^>]*>", "", body.decode())
        assert said["og:description"] and said["og:image:alt"] and said["og:type"] == "article"


def test_no_reader_saves_the_picture(loaded: Commands, project: Path) -> None:
    """Nothing on a page shows it: what a pattern needs offline is without it."""
    ask(project)
    site = built(loaded, project)
    lists = {path: body for path, body in site.items() if path.endswith("files.json")}
    assert lists
    assert not [path for path, body in lists.items() if b"link-preview" in (body or b"")]


def test_nothing_of_it_where_it_is_not_asked_for(loaded: Commands, project: Path) -> None:
    site = built(loaded, project)
    assert not [path for path in site if path.endswith(".png")]
    assert not [path for path, body in site.items() if body and b"og:" in body]


def test_the_sketch_stands_whole_in_the_middle_in_its_yarn() -> None:
    """1,000 by 500 units in 1,080 by 510 pixels: 1,020 by 510, with 90 and 60 of paper around."""
    with Image.open(BytesIO(preview_picture(SKETCH))) as image:
        drawn = image.convert("RGB")
    paper = Image.new("RGB", drawn.size, PAPER)
    assert ImageChops.difference(drawn, paper).getbbox() == (90, 60, 1110, 570)
    assert drawn.getpixel((600, 300)) == (0xB7, 0xC0, 0x8D)


@pytest.mark.parametrize(("address", "without", "said"), [
    ("", "", "site_url: https://"),
    (ADDRESS, "resvg_py", "pip install 'walebook[pictures]'")])
def test_what_is_missing_is_named_and_the_old_site_stays(
        loaded: Commands, project: Path, address: str, without: str, said: str) -> None:
    old = built(loaded, project)
    ask(project, address)
    ended = loaded.run(project, *BUILD, **({"without": without} if without else {}))
    assert ended.code == 1 and said in ended.printed and "Traceback" not in ended.printed
    assert tree(project / "site") == old

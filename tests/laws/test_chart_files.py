"""The files of stitch charts: read back by programs that are not ours, they are the chart.

Each picture is decoded here by the PNG specification (third edition, W3C 2025), each table by the
csv module of Python.
"""

from __future__ import annotations

import csv
import io
import shutil
import struct
import zlib
from base64 import b64decode
from pathlib import Path
from random import Random

import pytest
from walebook.drawings.chart_pixels import MARKED, chart_png, colours
from walebook.pages.chart_files import chart_csv
from walebook.pages.from_texts import make
from walebook.pattern.cells import Cell
from walebook.pattern.stitch_chart import StitchChart
from walebook.proof.texts import Texts
from walebook_site.command import main

from tests.laws.texts import read_folder, texts_of

ROOT = Path(__file__).parents[2]
ALONE = (Cell.KNIT, Cell.TUCK, Cell.SLIP)


def decoded(data: bytes) -> list[list[tuple[int, int, int]]]:
    """The pixels of an indexed PNG without filters, from the top; every checksum is held."""
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    chunks, at = {}, 8
    while at < len(data):
        (length,) = struct.unpack(">I", data[at:at + 4])
        kind, body = data[at + 4:at + 8], data[at + 8:at + 8 + length]
        assert struct.unpack(">I", data[at + 8 + length:at + 12 + length])[0] == \
            zlib.crc32(kind + body)
        chunks[kind] = body
        at += 12 + length
    assert list(chunks) == [b"IHDR", b"PLTE", b"IDAT", b"IEND"]
    wide, high, depth, sort, *rest = struct.unpack(">IIBBBBB", chunks[b"IHDR"])
    assert (depth, sort, rest) == (8, 3, [0, 0, 0])
    raw, palette = zlib.decompress(chunks[b"IDAT"]), chunks[b"PLTE"]
    assert len(raw) == high * (wide + 1)
    lines = [raw[n * (wide + 1):(n + 1) * (wide + 1)] for n in range(high)]
    assert all(line[0] == 0 for line in lines)
    return [[tuple(palette[3 * at:3 * at + 3]) for at in line[1:]]  # type: ignore[misc]
            for line in lines]


def drawn(seed: int) -> StitchChart:
    """A chart of two colours, or of tucks and slips, with plain rows where the bed wants them."""
    draw = Random(seed)
    wide, high = draw.randint(2, 24), draw.randint(2, 30)
    cells = [Cell.KNIT, Cell.SECOND] if seed % 2 else list(ALONE)
    rows = [tuple(draw.choice(cells) for _ in range(wide)) if n % 2 else (Cell.KNIT,) * wide
            for n in range(high)]
    try:
        return StitchChart(title="Drawn", rows=tuple(rows))
    except ValueError:  # what cannot be knitted is no chart
        return drawn(seed + 100)


@pytest.mark.parametrize("seed", range(12))
def test_a_picture_has_a_pixel_a_stitch(seed: int) -> None:
    chart = drawn(seed)
    shown = {colour: cell for cell, colour in colours(chart).items()}
    pixels = decoded(chart_png(chart))
    assert [tuple(shown[pixel] for pixel in line) for line in pixels] == list(chart.rows[::-1])


@pytest.mark.parametrize("seed", range(12))
def test_a_table_has_a_line_a_row(seed: int) -> None:
    chart = drawn(seed)
    head, *lines = csv.reader(io.StringIO(chart_csv(chart)))
    assert head == ["row", *(str(n) for n in range(1, chart.width + 1))]
    assert [int(line[0]) for line in lines] == list(range(chart.height, 0, -1))
    assert [tuple(map(Cell, line[1:])) for line in lines] == list(chart.rows[::-1])


def test_two_colours_are_black_and_white_and_no_two_marks_look_alike() -> None:
    """So that what takes two colours alone takes the picture as it is."""
    assert set(colours(drawn(1)).values()) == {(255, 255, 255), (0, 0, 0)}
    assert len(set(MARKED.values())) == len(MARKED) == len(Cell)


# What a mark on the knit side is from the purl side: left is right, and in front is behind.
TURNED = str.maketrans("<>/()\\", "><(/\\)")


def test_a_chart_is_turned_over_to_how_it_is_seen_at_the_machine() -> None:
    """The source has the knit side; the eyelets of this blanket lean to the right and to the
    left."""
    made = make(texts_of(ROOT, "net-loft-blanket"), **read_folder(ROOT), size="lap")
    (table,) = (page.text for page in made.pages if page.path.endswith(".csv"))
    source = texts_of(ROOT, "net-loft-blanket").source.split("repeat: |\n")[1]
    written = [line.strip() for line in source.split("edge:")[0].splitlines() if line.strip()]
    lines = ["".join(line[1:]) for line in csv.reader(io.StringIO(table))][1:]
    assert lines == [line[::-1].translate(TURNED) for line in written]
    assert any("<" in line for line in lines) and lines != written


def test_the_files_lie_beside_the_page_that_links_to_them() -> None:
    made = make(texts_of(ROOT, "lamplighter-hat"), **read_folder(ROOT))
    files = {page.path.rpartition("/")[2]: page.text for page in made.pages}
    charts = [name for name in files if name.startswith("stitch-chart-")]
    assert {Path(name).suffix for name in charts} == {".csv", ".png"}
    assert all(f'href="{name}"' in files["index.md"] for name in charts)
    for name in charts:
        if name.endswith(".png"):
            table = list(csv.reader(io.StringIO(files[name.replace(".png", ".csv")])))
            pixels = decoded(b64decode(files[name]))
            assert [len(line) for line in pixels] == [len(line) - 1 for line in table[1:]]
            for line, row in zip(pixels, table[1:], strict=True):
                assert [pixel == (0, 0, 0) for pixel in line] == [cell == "x" for cell in row[1:]]


def test_plain_pages_have_the_picture_as_a_file(tmp_path: Path) -> None:
    root = tmp_path / "quay"
    for folder in ("_beds", "_sizes", "lamplighter-hat"):
        shutil.copytree(ROOT / "patterns" / folder, root / "patterns" / folder)
    assert main(["pages", str(tmp_path / "out"), "--root", str(root)]) == 0
    written = tmp_path / "out" / "patterns" / "lamplighter-hat" / "stitch-chart-lamps.png"
    assert len(decoded(written.read_bytes())[0]) == 6


def test_a_pattern_without_a_chart_has_no_such_file() -> None:
    made = make(texts_of(ROOT, "capstan-hat"), **read_folder(ROOT))
    assert made.pages and not [page for page in made.pages if "stitch-chart-" in page.path]


def test_a_picture_of_hers_may_not_have_the_name_of_such_a_file() -> None:
    source = texts_of(ROOT, "capstan-hat").source.replace(
        "skills:", "pictures: [{file: Stitch-chart-a.png, alt: A hat}]\nskills:")
    found = make(Texts(slug="hat", source=source, pictures={"Stitch-chart-a.png": ""}),
                 **read_folder(ROOT)).findings
    assert any(each.code == "bad-picture" and "a name that does not begin with stitch-chart-"
               in str(each) for each in found)

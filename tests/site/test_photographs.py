"""A designer's photograph is made small for a phone, with its width and height in the pages.

Outside the project: Pillow writes the pictures, tells how large a file is and what it shows. Exif
2.32 (4.6.4) and TIFF 6.0 (section 8) have the tag of orientation and what its values mean. No
photograph of anyone is used: each picture is drawn here.
"""

from __future__ import annotations

import random
import re
import shutil
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

import pytest
from PIL import Image, ImageDraw, ImageFile
from walebook_site import photographs
from walebook_site.photographs import HIGH, WIDE, published, shown_sizes
from walebook_site.plain_pages import write_out
from walebook_site.sources import collect
from walebook_site.text_files import pictures_beside, sizes_beside

ROOT = Path(__file__).parents[2]
SLUG = "practice-band"
KINDS = ("jpg", "png", "webp")
ORIENTATION = 0x0112
LYING = 6  # what is stored as the top is shown at the right


def drawn(wide: int, high: int) -> Image.Image:
    """A picture with much in it, red in its upper left quarter, drawn the same each time."""
    image = Image.frombytes("RGB", (wide, high), random.Random(1).randbytes(3 * wide * high))
    ImageDraw.Draw(image).rectangle((0, 0, wide // 2, high // 2), (250, 10, 10))
    return image


def is_red(colour: object) -> bool:
    assert isinstance(colour, tuple)
    red, green, blue = colour[:3]
    return bool(red > 200 and green < 60 and blue < 60)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("size", [(2400, 1600), (1600, 2400), (5000, 300)], ids=str)
def test_a_large_picture_becomes_a_small_file_of_the_same_shape(
        tmp_path: Path, kind: str, size: tuple[int, int]) -> None:
    path = tmp_path / f"front.{kind}"
    drawn(*size).save(path)
    (said,) = sizes_beside(tmp_path, pictures_beside(tmp_path)).values()
    small = tmp_path / "small"
    small.write_bytes(published(path))
    with Image.open(small) as image:
        assert image.size == said and image.format == Image.open(path).format
        assert image.width <= WIDE and image.height <= HIGH
        assert image.width == WIDE or image.height == HIGH
        # The same shape, to half a pixel of its smaller side
        assert abs(image.width * size[1] - image.height * size[0]) <= max(size) / 2
        assert is_red(image.convert("RGB").getpixel((2, 2)))
        assert not is_red(image.convert("RGB").getpixel((image.width - 3, image.height - 3)))
    assert small.stat().st_size < path.stat().st_size
    assert published(path) == small.read_bytes()


def test_a_picture_that_is_stored_lying_is_shown_upright(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = LYING
    path, little = tmp_path / "held.jpg", tmp_path / "little.jpg"
    drawn(2400, 1600).save(path, exif=exif)
    drawn(240, 160).save(little, exif=exif)
    sizes = sizes_beside(tmp_path, pictures_beside(tmp_path))
    assert sizes == {"held.jpg": (640, 960), "little.jpg": (160, 240)}
    (tmp_path / "small").write_bytes(published(path))
    with Image.open(tmp_path / "small") as image:
        assert image.size == (640, 960) and ORIENTATION not in image.getexif()
        assert is_red(image.getpixel((image.width - 3, 2)))  # the stored top is at the right


def test_what_a_camera_wrote_is_not_published(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x010F] = "Quay camera"  # Exif 2.32, 4.6.4: its maker
    path = tmp_path / "front.jpg"
    drawn(1600, 1200).save(path, exif=exif)
    assert b"Quay camera" in path.read_bytes() and b"Quay camera" not in published(path)


def test_without_the_library_the_file_is_published_as_it_is(
        tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(photographs, "find_spec", lambda name: None)
    path = tmp_path / "front.jpg"
    drawn(1600, 1200).save(path)
    assert published(path) == path.read_bytes()
    assert shown_sizes({"front.jpg": (1600, 1200)}) == {"front.jpg": (1600, 1200)}


def odd(folder: Path) -> Mapping[str, Path]:
    """Pictures that say how large they are, and that stay as they are."""
    large = drawn(1600, 1200)
    large.save(folder / "whole.jpg")
    cut = folder / "cut.jpg"
    cut.write_bytes((folder / "whole.jpg").read_bytes()[:20_000])
    large.save(folder / "moves.webp", save_all=True, append_images=[large.rotate(180)])
    Image.new("I;16", (1600, 1200)).save(folder / "deep.png")
    exif = Image.Exif()
    exif[ORIENTATION] = LYING
    large.save(folder / "turned.webp", exif=exif)
    drawn(300, 200).save(folder / "little.png")
    return {path.name: path for path in folder.iterdir() if path.name != "whole.jpg"}


@pytest.mark.parametrize("lenient", [False, True])
def test_an_odd_picture_stays_as_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
                                       lenient: bool) -> None:
    """Whether or not another library has let Pillow read what is cut off."""
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", lenient)
    for name, path in odd(tmp_path).items():
        assert published(path) == path.read_bytes(), name


@pytest.mark.parametrize(("mode", "name"), [
    ("P", "few.png"), ("CMYK", "print.jpg"), ("L", "grey.jpg"), ("RGBA", "clear.png"),
    ("1", "line.png")])
def test_a_picture_of_any_colours_becomes_small(tmp_path: Path, mode: str, name: str) -> None:
    path = tmp_path / name
    drawn(2400, 1600).convert(mode).save(path)
    (tmp_path / "small").write_bytes(published(path))
    with Image.open(tmp_path / "small") as image:
        assert image.size == (720, 480) or path.read_bytes() == published(path)


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A collection of one pattern with a large picture."""
    root = tmp_path_factory.mktemp("shown")
    for name in ("_beds", SLUG):
        shutil.copytree(ROOT / "patterns" / name, root / "patterns" / name)
    folder = root / "patterns" / SLUG
    drawn(2400, 1600).save(folder / "front.jpg")
    source = folder / "pattern.yaml"
    source.write_text("pictures: [{file: front.jpg, alt: The band, caption: On the quay.}]\n"
                      + source.read_text(encoding="utf-8"), encoding="utf-8")
    return root


def test_page_overview_and_card_show_it_before_the_sketch(root: Path, tmp_path: Path) -> None:
    write_out(collect(root), tmp_path / "out")
    out = tmp_path / "out" / "patterns"
    with Image.open(out / SLUG / "front.jpg") as image:
        assert image.size == (720, 480)
    shown = '<img src="{}front.jpg" alt="The band" width="720" height="480"{}>'
    card = (out / "index.html").read_text(encoding="utf-8")
    assert shown.format(f"patterns/{SLUG}/", ' loading="lazy"') in card
    assert "sketch.svg" not in card
    pages = list((out / SLUG).glob("*.md"))
    assert len(pages) > 1
    for path in pages:
        text = path.read_text(encoding="utf-8")
        at = text.index(shown.format("", ""))
        assert text.index("<figcaption>On the quay.</figcaption>") < text.index("<svg")
        assert at < text.index("<svg")


def test_each_build_writes_the_same_bytes(root: Path, tmp_path: Path) -> None:
    made = [sha256(published(root / "patterns" / SLUG / "front.jpg")).hexdigest()]
    for name in ("first", "second"):
        write_out(collect(root), tmp_path / name)
        made.append(sha256((tmp_path / name / "patterns" / SLUG / "front.jpg").read_bytes())
                    .hexdigest())
    assert len(set(made)) == 1


def test_a_broken_picture_is_a_finding_as_ever(root: Path, tmp_path: Path) -> None:
    broken = tmp_path / "broken"
    shutil.copytree(root, broken)
    (broken / "patterns" / SLUG / "front.jpg").write_bytes(b"no picture")
    found = collect(broken)
    assert [each.code for each in found.problems if re.search("picture", each.code)] == \
        ["false-picture"]

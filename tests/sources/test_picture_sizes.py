"""How large a picture is, read from its first bytes, which are written here as the formats say."""

from __future__ import annotations

from pathlib import Path
from struct import pack

import pytest
from walebook.markup.notes import pictures_html
from walebook.pattern.pictures import Picture
from walebook.source.picture_bytes import picture_size
from walebook_site.text_files import sizes_beside

WIDE, TALL = 603, 402  # small enough to be published as it is
# PNG (third edition), 11.2.1: the length of IHDR, its name, width and height.
PNG = b"\x89PNG\r\n\x1a\n" + pack(">I4sII", 13, b"IHDR", WIDE, TALL) + b"\x08\x02\0\0\0"


def segment(mark: int, body: bytes) -> bytes:
    """A segment of a JPEG file (ITU T.81, B.1.1.4): its length has its own two bytes in it."""
    return b"\xff" + bytes([mark]) + pack(">H", len(body) + 2) + body


def jpeg(mark: int) -> bytes:
    """A thumbnail's worth of application data, tables, then the frame (ITU T.81, B.2.2)."""
    frame = pack(">BHH", 8, TALL, WIDE) + b"\x03" + b"\x01\x22\0\x02\x11\x01\x03\x11\x01"
    return (b"\xff\xd8" + segment(0xE1, b"Exif\0\0" + b"\xff\xc0" * 200)
            + segment(0xC4, bytes(20)) + segment(mark, frame))


def webp(kind: bytes, body: bytes) -> bytes:
    """A WebP file with one chunk (RFC 9649, 2.4)."""
    chunk = kind + pack("<I", len(body)) + body
    return b"RIFF" + pack("<I", len(chunk) + 4) + b"WEBP" + chunk


# RFC 9649, 2.7: four bytes of flags, then both less one in three bytes each.
EXTENDED = webp(b"VP8X", bytes(4) + (WIDE - 1).to_bytes(3, "little")
                + (TALL - 1).to_bytes(3, "little"))
# RFC 9649, 3.4: a signature, then both less one in 14 bits each.
WITHOUT_LOSS = webp(b"VP8L", b"\x2f" + pack("<I", (WIDE - 1) | (TALL - 1) << 14))
# RFC 6386, 9.1: three bytes of a frame's tag, the start code, then 14 bits each.
WITH_LOSS = webp(b"VP8 ", b"\0\0\0\x9d\x01\x2a" + pack("<HH", WIDE, TALL) + bytes(4))
ALL = {"PNG": PNG, "JPEG": jpeg(0xC0), "progressive JPEG": jpeg(0xC2), "extended WebP": EXTENDED,
       "WebP without loss": WITHOUT_LOSS, "WebP with loss": WITH_LOSS}


@pytest.mark.parametrize("data", ALL.values(), ids=ALL)
def test_a_picture_says_how_large_it_is(data: bytes) -> None:
    assert picture_size(data) == (WIDE, TALL)


@pytest.mark.parametrize("data", ALL.values(), ids=ALL)
def test_what_is_cut_off_says_nothing_and_breaks_nothing(data: bytes) -> None:
    for length in range(len(data)):
        assert picture_size(data[:length]) in (None, (WIDE, TALL))
    assert picture_size(b"") is None and picture_size(b"<svg>") is None


def test_the_page_holds_the_place_of_a_picture_and_has_its_caption(tmp_path: Path) -> None:
    (tmp_path / "front.jpg").write_bytes(ALL["JPEG"])
    sizes = sizes_beside(tmp_path, {"front.jpg": "", "gone.png": "which is cut off"})
    assert sizes == {"front.jpg": (WIDE, TALL)}
    shown = pictures_html((Picture(file="front.jpg", alt="Front", caption="On the <quay>",
                                   size=sizes["front.jpg"]),))
    assert f'width="{WIDE}" height="{TALL}"' in shown
    assert "<figcaption>On the &lt;quay&gt;</figcaption>" in shown

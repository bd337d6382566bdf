"""Makes a designer's photographs small for a phone, where the library that can is installed.

It is an extra: `pip install 'walebook[photographs]'` brings Pillow. Without it, and where the
library cannot read a picture, the file is published as it lies beside the source.
"""

from __future__ import annotations

import warnings
from collections.abc import Mapping
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from walebook.source.picture_bytes import LONGEST, TURNED, picture_size

if TYPE_CHECKING:
    from PIL import Image

WIDE, HIGH = 720, 960  # [pixels]: a phone is 360 wide in CSS, and has two or more to each of these
QUALITY = 80  # of 100: below it blocks are seen in a plain fabric; common practice, no source
_PLAIN = {"L", "LA", "RGB", "RGBA"}
_ALSO = {"1": "L", "P": "RGBA", "PA": "RGBA", "CMYK": "RGB", "YCbCr": "RGB"}


def shown_sizes(sizes: Mapping[str, tuple[int, int]]) -> dict[str, tuple[int, int]]:
    """Return how large pictures of these widths and heights [pixels] are on a page."""
    return {name: _fitted(size) if _is_large(size) and _can() else size
            for name, size in sizes.items()}


def published(path: Path) -> bytes:
    """Return a picture's bytes as they are published: made small, or as they are.

    Nothing of what a camera writes into a file, such as the place, is in one that is made small.
    What moves, is broken or would become no smaller stays as it is. Raises OSError where the file
    cannot be read.
    """
    data = path.read_bytes()
    size = picture_size(data[:LONGEST])
    if size is None or not _is_large(size) or not _can():
        return data
    made = _made(data, _fitted(size))
    return made if made and len(made) < len(data) else data


def _made(data: bytes, size: tuple[int, int]) -> bytes:
    """A picture's bytes in another size; b"" for one that has to stay as it is."""
    from PIL import Image, ImageFile
    lenient = ImageFile.LOAD_TRUNCATED_IMAGES  # a library that makes PDFs sets it for all
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(BytesIO(data)) as image:
                return _small(image, size)
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombWarning,
            Image.DecompressionBombError):
        return b""
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient


def _can() -> bool:
    return find_spec("PIL") is not None


def _is_large(size: tuple[int, int]) -> bool:
    return size[0] > WIDE or size[1] > HIGH


def _fitted(size: tuple[int, int]) -> tuple[int, int]:
    """The largest width and height in whole pixels, of the same shape, that has room."""
    wide, high = size
    if wide * HIGH >= high * WIDE:
        return WIDE, max(1, (2 * high * WIDE + wide) // (2 * wide))
    return max(1, (2 * wide * HIGH + high) // (2 * high)), HIGH


def _small(image: Image.Image, size: tuple[int, int]) -> bytes:
    """The picture in another size, in its own format; b"" for one that has to stay as it is."""
    from PIL import Image, ImageOps
    kind = image.format or ""
    turned = image.getexif().get(TURNED, 1) != 1
    mode = image.mode if image.mode in _PLAIN else _ALSO.get(image.mode, "")
    if not mode or getattr(image, "is_animated", False) or (turned and kind != "JPEG"):
        return b""
    profile = image.info.get("icc_profile") if image.mode in _PLAIN else None
    if kind == "JPEG":  # decoded no larger than twice as wide as it will be
        image.draft(None, (2 * max(size), 2 * max(size)))
    upright = ImageOps.exif_transpose(image).convert(mode)
    out = BytesIO()
    upright.resize(size, Image.Resampling.LANCZOS).save(
        out, kind, quality=QUALITY, optimize=True, progressive=True, icc_profile=profile,
        method=6, exif=b"")
    return out.getvalue()

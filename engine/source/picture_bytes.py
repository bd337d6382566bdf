"""What a picture's bytes say: whether it is one, whole, and of the kind that its name says."""

from __future__ import annotations

from typing import Literal

LONGEST = 1 << 20  # bytes that are looked through for how large a picture is
HEAD = 32  # bytes from the beginning of a file that `picture_fault` needs
TAIL = 32  # and from its end
TURNED = 0x0112  # the tag that says how the camera was held (Exif 2.32, 4.6.4); 1 is as stored
_ENDINGS = {"jpg": "jpg", "jpeg": "jpg", "png": "png", "webp": "webp"}


def picture_fault(name: str, head: bytes, tail: bytes, size: int) -> str:
    """Return what is wrong with a picture called `name`, or "" for a sound one.

    `head` and `tail` are the first and last bytes of its `size`. Signatures: PNG (third edition,
    5.2), JPEG (ITU T.81, B.1), WebP container (RFC 9649, 2.4).
    """
    if not size:
        return "which is an empty file"
    kind = _kind(head)
    if not kind:
        return "which is no picture"
    if kind != _ENDINGS.get(name.rpartition(".")[2].lower()):
        return f"which is a {kind} picture"
    if kind == "png" and not (int.from_bytes(head[16:20]) and int.from_bytes(head[20:24])):
        return "which has no width or height"
    whole = {"png": b"IEND" in tail, "jpg": True,
             "webp": int.from_bytes(head[4:8], "little") + 8 <= size}
    return "" if whole[kind] else "which is cut off"


def _kind(head: bytes) -> str:
    if head.startswith(b"\x89PNG\r\n\x1a\n") and head[12:16] == b"IHDR":
        return "png"
    if head.startswith(b"\xff\xd8\xff"):
        return "jpg"
    return "webp" if head[:4] == b"RIFF" and head[8:12] == b"WEBP" else ""


def picture_size(data: bytes) -> tuple[int, int] | None:
    """Return the width and height [pixels] of a picture as shown, by its first bytes; else None.

    PNG (third edition, 11.2.1), JPEG (ITU T.81, B.2.2), WebP (RFC 9649, 2.5 to 2.7; RFC 6386, 9.1).
    """
    kind = _kind(data[:HEAD])
    found = {"png": _png_size, "jpg": _jpg_size, "webp": _webp_size}[kind](data) if kind else None
    return found if found and all(found) else None


def _png_size(data: bytes) -> tuple[int, int] | None:
    if len(data) < 24:
        return None
    return int.from_bytes(data[16:20]), int.from_bytes(data[20:24])


def _jpg_size(data: bytes) -> tuple[int, int] | None:
    """From the header of the frame, segment by segment, each with its length; turned as it is shown
    where the camera wrote that it was held upright."""
    at, lies = 2, False
    while at + 9 <= len(data) and data[at] == 0xFF:
        mark, after = data[at + 1], at + 2 + int.from_bytes(data[at + 2:at + 4])
        if 0xC0 <= mark <= 0xCF and mark not in (0xC4, 0xC8, 0xCC):
            size = int.from_bytes(data[at + 7:at + 9]), int.from_bytes(data[at + 5:at + 7])
            return size[::-1] if lies else size
        if mark == 0xE1 and data[at + 4:at + 10] == b"Exif\0\0":
            lies = _lies(data[at + 10:after])
        at = after
    return None


def _lies(exif: bytes) -> bool:
    """True where a picture is stored lying: TIFF 6.0, section 8, the orientations 5 to 8."""
    order: Literal["little", "big"] = "little" if exif[:2] == b"II" else "big"
    start = int.from_bytes(exif[4:8], order)
    for at in range(start + 2, start + 2 + 12 * int.from_bytes(exif[start:start + 2], order), 12):
        if int.from_bytes(exif[at:at + 2], order) == TURNED:
            return 5 <= int.from_bytes(exif[at + 8:at + 10], order) <= 8
    return False


def _webp_size(data: bytes) -> tuple[int, int] | None:
    """From its first chunk: extended, without loss, or with it."""
    chunk = data[12:16]
    if len(data) < {b"VP8L": 25}.get(chunk, 30):
        return None
    if chunk == b"VP8X":
        return int.from_bytes(data[24:27], "little") + 1, int.from_bytes(data[27:30], "little") + 1
    if chunk == b"VP8L":
        bits = int.from_bytes(data[21:25], "little")
        return (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1
    if chunk == b"VP8 ":
        return (int.from_bytes(data[26:28], "little") & 0x3FFF,
                int.from_bytes(data[28:30], "little") & 0x3FFF)
    return None

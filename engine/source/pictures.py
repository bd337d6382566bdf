"""What a picture's bytes say: whether it is one, whole, and of the kind that its name says."""

from __future__ import annotations

LONGEST = 1 << 20  # bytes that are looked through for how large a picture is
HEAD = 32  # bytes from the beginning of a file that `picture_fault` needs
TAIL = 32  # and from its end
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
    """Return the width and height [pixels] that a picture's first bytes say; else None.

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
    """From the header of the frame: segment by segment, each with its length."""
    at = 2
    while at + 9 <= len(data) and data[at] == 0xFF:
        mark = data[at + 1]
        if 0xC0 <= mark <= 0xCF and mark not in (0xC4, 0xC8, 0xCC):
            return int.from_bytes(data[at + 7:at + 9]), int.from_bytes(data[at + 5:at + 7])
        at += 2 + int.from_bytes(data[at + 2:at + 4])
    return None


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

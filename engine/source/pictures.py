"""What a picture's bytes say: whether it is one, whole, and of the kind that its name says."""

from __future__ import annotations

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

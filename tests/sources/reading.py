"""Reads a source the way a site does, with the beds and pictures that the checks here assume."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

from walebook.core.problems import Problem, has_errors
from walebook.core.units import read_length
from walebook.pattern.fabrics import NeedleBed
from walebook.pattern.model import Pattern
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source

FILE = "patterns/slack-tide/pattern.yaml"
HERE = Path(__file__).parent
BASE = (HERE / "base.yaml").read_text(encoding="utf-8")
SMALLEST = (HERE / "smallest.yaml").read_text(encoding="utf-8")
BEDS = {name: NeedleBed(name=name, pitch=read_length(pitch), needles=needles)
        for name, pitch, needles in (("bulky", "9 mm", 110), ("standard", "4.5 mm", 200))}
PICTURES = frozenset({"front.png", "neck.webp", "NECK.webp"})


def read(text: str) -> tuple[Pattern | None, tuple[Problem, ...]]:
    """The pattern that `text` says, and the findings of both stages of reading."""
    node, problems = parse_source(text, name=FILE)
    if node is None:
        return None, problems
    pattern, more = read_pattern(node, slug="slack-tide", beds=BEDS, pictures=PICTURES)
    return (None if has_errors(problems) else pattern), problems + more


def messages(text: str) -> list[str]:
    """The findings of `text` as shown, without the file's name in front of line and column."""
    return [str(problem).removeprefix(f"{FILE}:") for problem in read(text)[1]]


def changed(old: str, new: str, text: str = BASE) -> str:
    """`text` with its one passage `old` replaced by `new`."""
    if text.count(old) != 1:
        raise ValueError(f"{old!r} stands {text.count(old)} times in the source")
    return text.replace(old, new)


def png(width: int = 1, height: int = 1) -> bytes:
    """A grey picture, by the PNG specification (third edition, section 5)."""
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(
            ">I", zlib.crc32(kind + data))
    rows = zlib.compress((b"\0" + b"\x80" * width) * height)
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0,
                                                            0, 0))
            + chunk(b"IDAT", rows) + chunk(b"IEND", b""))

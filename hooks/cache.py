"""Keeps what was made of each pattern's texts in a folder that may be deleted at any time.

An entry is one file: a digest of all that follows, then its findings and facts as JSON, then its
pages, each compressed. It is read as data alone, and left aside where its digest does not fit. It
appears under its name whole, by a rename, so that builds can share the folder while they run.
"""

from __future__ import annotations

import contextlib
import json
import os
import time
import zlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

FOLDER = ".walebook-cache"
ELSEWHERE = "WALEBOOK_CACHE"
"""The environment's name of another folder, such as one that several clones share."""
PAGES, FINDINGS = ".pages", ".findings"
_KEPT = 8  # entries of a pattern: its last versions, and those of other branches
_DAY = 24 * 3600  # seconds


class UnfitEntry(Exception):
    """What an entry held is no longer there, or not as it was."""


@dataclass(frozen=True, slots=True)
class CacheEntry:
    """What was made of a pattern: `found` as JSON has it, and the texts of pages by their path.

    The texts stay in the file until they are read; `data` holds them where there is no file.
    """

    found: Mapping[str, Any]
    _places: Mapping[str, tuple[int, int, str]]
    file: Path | None = None
    data: bytes = b""

    def text(self, path: str) -> str:
        """Return the text of a page. Raises Unfit when the file is gone or is not as it was."""
        start, length, digest = self._places[path]
        try:
            body = self._bytes(start, length)
        except OSError as fault:
            raise UnfitEntry(str(fault)) from fault
        if sha256(body).hexdigest() != digest:
            raise UnfitEntry(f"{self.file} is not as it was written")
        return zlib.decompress(body).decode("utf-8", "surrogatepass")

    def __contains__(self, path: object) -> bool:
        return path in self._places

    def _bytes(self, start: int, length: int) -> bytes:
        if self.file is None:
            return self.data[start:start + length]
        with self.file.open("rb") as file:
            file.seek(start)
            return file.read(length)


def pack(found: Mapping[str, Any], texts: Mapping[str, str]) -> bytes:
    """Return an entry as the bytes of its file."""
    bodies = [zlib.compress(text.encode("utf-8", "surrogatepass"), 1) for text in texts.values()]
    starts = [sum(map(len, bodies[:n])) for n in range(len(bodies))]
    places = {path: (start, len(body), sha256(body).hexdigest())
              for path, start, body in zip(texts, starts, bodies, strict=True)}
    head = json.dumps({"found": found, "places": places}).encode()
    rest = b"%d\n%b%b" % (len(head), head, b"".join(bodies))
    return b"%b\n%b" % (sha256(rest).hexdigest().encode(), rest)


def unpack(data: bytes, file: Path | None = None) -> CacheEntry:
    """Return the entry that bytes hold. Raises Unfit when they are not as `pack` wrote them."""
    digest, _, rest = data.partition(b"\n")
    if sha256(rest).hexdigest().encode() != digest:
        raise UnfitEntry(f"{file} is not as it was written")
    length, _, behind = rest.partition(b"\n")
    given = json.loads(behind[:int(length)])
    first = len(digest) + len(length) + 2 + int(length)
    places = {path: (first + start, size, checksum)
              for path, (start, size, checksum) in given["places"].items()}
    return CacheEntry(given["found"], places, file, b"" if file else data)


@dataclass(frozen=True, slots=True)
class Cache:
    """A folder of entries: `<slug>/<own>-<all>.pages`, or `.findings` without pages.

    `own` is the digest of what every entry of the pattern depends on, `all` with what the texts
    name beside it: which of these fit is seen from the entry alone.
    """

    folder: Path

    @classmethod
    def beside(cls, root: Path) -> Cache:
        """Return the cache of the patterns in `root`."""
        return cls(Path(os.environ.get(ELSEWHERE) or root / FOLDER))

    def find(self, slug: str, own: str, fits: Callable[[Mapping[str, str]], bool], *,
             pages: bool) -> CacheEntry | None:
        """Return an entry whose dependencies all fit, one with pages where they are asked for."""
        kinds = (PAGES,) if pages else (PAGES, FINDINGS)
        for path in sorted((self.folder / slug).glob(f"{own}-*")):
            if path.suffix in kinds and (entry := _read(path)) and fits(entry.found["depends"]):
                _touch(path)
                return entry
        return None

    def put(self, slug: str, name: str, data: bytes) -> CacheEntry:
        """Keep an entry and return it; where the folder cannot be written, it stays in memory."""
        path = self.folder / slug / name
        beside = path.with_name(f".{os.urandom(8).hex()}")
        try:
            _make(self.folder)
            path.parent.mkdir(exist_ok=True)
            beside.write_bytes(data)
            beside.replace(path)
        except OSError:
            with contextlib.suppress(OSError):
                beside.unlink()
            return unpack(data)
        _prune(path.parent)
        return unpack(data, path)


def _read(path: Path) -> CacheEntry | None:
    try:
        return unpack(path.read_bytes(), path)
    except (OSError, UnfitEntry):
        return None


def _make(folder: Path) -> None:
    """Make the folder, with a file that keeps it out of version control."""
    if not folder.is_dir():
        folder.mkdir(parents=True, exist_ok=True)
        (folder / ".gitignore").write_text("*\n")


def _touch(path: Path) -> None:
    with contextlib.suppress(OSError):
        os.utime(path)


def _prune(folder: Path) -> None:
    """Remove the entries used longest ago, and what killed processes left."""
    with contextlib.suppress(OSError):
        entries = [(path.stat().st_mtime, path) for path in folder.iterdir()]
        whole = sorted(each for each in entries if not each[1].name.startswith("."))
        left = [each for each in entries if each[1].name.startswith(".")
                and each[0] < time.time() - _DAY]
        for _, path in whole[:-_KEPT] + left:
            path.unlink(missing_ok=True)

"""Text files of a folder, read whole or told why not; each author's line for its findings."""

from __future__ import annotations

import errno
import re
import stat
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

from walebook.core.problems import Place, Problem, error
from walebook.source.picture_bytes import HEAD, LONGEST, TAIL, picture_fault, picture_size
from walebook_site.photographs import shown_sizes
from walebook_site.shipped import PARTS

LARGEST_SOURCE = 256 * 1024  # bytes; a pattern of fifty sizes is a tenth of it
PICTURES = {".png", ".jpg", ".jpeg", ".webp"}
_KINDS = ((stat.S_ISDIR, "folder"), (stat.S_ISFIFO, "pipe"), (stat.S_ISSOCK, "socket"),
          (stat.S_ISCHR, "device"), (stat.S_ISBLK, "device"))


@dataclass(frozen=True, slots=True)
class FileLook:
    """What stood at a path at one moment: the bytes, or None with the finding; "" for no file."""

    digest: str
    data: bytes | None = None
    problems: tuple[Problem, ...] = ()


@dataclass
class TextFiles:
    """What has been read so far under a root: what was found, and each file's lines and digest."""

    root: Path
    problems: list[Problem] = field(default_factory=list)
    lines: dict[str, tuple[str, ...]] = field(default_factory=dict)
    digests: dict[str, str] = field(default_factory=dict)
    _looks: dict[Path, FileLook] = field(default_factory=dict)

    def name(self, path: Path) -> str:
        """Return the name by which findings call a file: ours, where it is not under the root."""
        if path.is_relative_to(self.root):
            return path.relative_to(self.root).as_posix()
        return f"walebook/{path.relative_to(PARTS).as_posix()}"

    def text(self, path: Path) -> str | None:
        """Return a file's text, or None with a finding that says why it cannot be read."""
        name = self.name(path)
        look = self._looks.get(path) or _look(path, name)
        self.digests.setdefault(name, look.digest)
        if look.data is None:
            self.problems += look.problems
            return None
        return self._decoded(look.data, name)

    def digest(self, path: Path) -> str:
        """Return the digest of a file's bytes, or what keeps it from being read; "" for no file.

        It is that of the very bytes of which `text` made a text before, or makes one later: what
        is kept under a digest comes from no other state of the file.
        """
        name = self.name(path)
        if name not in self.digests:
            self._looks[path] = _look(path, name)
            self.digests[name] = self._looks[path].digest
        return self.digests[name]

    def _decoded(self, data: bytes, name: str) -> str | None:
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError as fault:
            before = data[:fault.start].decode("utf-8", "replace")
            line = before.count("\n") + 1
            column = len(before) - (before.rfind("\n") + 1) + 1
            self.problems.append(error(
                "not-utf-8", Place(name, line, column), found="a byte that is no UTF-8 text",
                expected="a text file in UTF-8", remedy="Save the file as UTF-8."))
            return None
        self.lines[name] = tuple(re.split("\r\n|\r|\n", text))
        return text


def _look(path: Path, name: str) -> FileLook:
    """Read a file once. A link counts for what it leads to, and for where: none leads outside."""
    start = Place(name, 1, 1)
    try:
        info = path.stat()  # a link in a circle, which `resolve` cannot follow, ends here
        inside = path.resolve().is_relative_to(path.parent.resolve())
        kind = kind_of(path)
        readable = inside and not kind and info.st_size <= LARGEST_SOURCE
        data = path.read_bytes() if readable else b""
    except OSError as fault:
        return FileLook(f"{fault.strerror}" if is_there(path) else "",
                        problems=(_unreadable(path, start, fault),))
    if not inside:
        return FileLook("outside", problems=(error(
            "outside-folder", start, found="a link to a file outside the pattern's folder",
            expected="a file in its own folder", remedy="Put the file itself here."),))
    if kind:  # a pipe would be waited for without end
        return FileLook(kind, problems=(error(
            "not-a-file", start, found=f"a {kind} where a text file should be",
            expected="a plain file", remedy="Put a plain text file there, or take it away."),))
    if info.st_size > LARGEST_SOURCE:
        return FileLook(f"{info.st_size} bytes", problems=(error(
            "too-large", start, found=f"{info.st_size} bytes",
            expected=f"at most {LARGEST_SOURCE}", remedy="Split it into several patterns."),))
    return FileLook(sha256(data).hexdigest(), data)


def _unreadable(path: Path, start: Place, fault: OSError) -> Problem:
    """What keeps a file from being read."""
    if path.is_symlink() and fault.errno in (errno.ENOENT, errno.ELOOP):
        leads = "is not there" if fault.errno == errno.ENOENT else "leads back to itself"
        return error("unreadable", start, found=f"a link to {path.readlink()}, which {leads}",
                     expected="a file", remedy="Put the file itself here, or delete the link.")
    if isinstance(fault, PermissionError):
        return error("unreadable", start, found="a file that you may not read",
                     expected="a file that you may read", remedy="Change its permissions.")
    return error("unreadable", start, found=f"a file that cannot be read ({fault.strerror})",
                 expected="a file that can be read",
                 remedy="Look at it with another program, or write it again.")


def is_there(path: Path) -> bool:
    """True for whatever stands at a path, a link to nothing too."""
    return path.is_symlink() or path.exists()


def kind_of(path: Path) -> str:
    """Return what stands where a file should, "" for a file. Raises OSError."""
    mode = path.stat().st_mode
    if stat.S_ISREG(mode):
        return ""
    return next((kind for test, kind in _KINDS if test(mode)), "device")


def pictures_beside(folder: Path) -> dict[str, str]:
    """The pictures beside a source, each with its fault or ""; a link out of the folder is none."""
    inside = folder.resolve()
    return {p.name: _fault(p) for p in sorted(folder.iterdir())
            if p.suffix.lower() in PICTURES and p.is_file() and p.resolve().parent == inside}


def sizes_beside(folder: Path, pictures: Mapping[str, str]) -> dict[str, tuple[int, int]]:
    """How large the sound ones of these pictures are on a page [pixels], as far as they say it."""
    sizes = {name: _size(folder / name) for name, fault in pictures.items() if not fault}
    return shown_sizes({name: size for name, size in sizes.items() if size})


def _size(path: Path) -> tuple[int, int] | None:
    try:
        with path.open("rb") as file:
            return picture_size(file.read(LONGEST))
    except OSError:
        return None


def _fault(path: Path) -> str:
    try:
        size = path.stat().st_size
        with path.open("rb") as file:
            head = file.read(HEAD)
            file.seek(max(0, size - TAIL))
            return picture_fault(path.name, head, file.read(TAIL), size)
    except OSError as fault:
        return f"which cannot be read ({fault.strerror})"

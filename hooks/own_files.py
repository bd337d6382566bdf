"""A folder in which our own files are replaced together, and every other file stays."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from walebook_site.replacement import Replacement, begin

OURS = ".walebook-pages"
"""Lists the files that were written, so that those that are no longer written can go."""


@dataclass(frozen=True, slots=True)
class OwnFiles:
    """Files that are written beside a folder, and wait to take their place in it."""

    made: Replacement
    target: Path
    count: int

    def put_in_place(self) -> None:
        """Let them take the place of those that were written before. Raises OSError."""
        earlier = listed(self.target)
        self.made.put_in_place(keep=lambda path: path not in earlier)

    def give_up(self) -> None:
        """Remove what was written; the folder stays as it is."""
        self.made.give_up()


def write_own(target: Path, files: Iterable[tuple[str, bytes]]) -> OwnFiles:
    """Write files, each a path in the folder and its content, beside the folder; return them.

    Raises Held while another process writes it, OSError, and what making the files raises.
    """
    made = begin(target)
    written: set[str] = set()
    try:
        for path, content in files:
            (made.folder / path).parent.mkdir(parents=True, exist_ok=True)
            (made.folder / path).write_bytes(content)
            written.add(path)
        (made.folder / OURS).write_text("".join(f"{path}\n" for path in sorted(written)),
                                        encoding="utf-8")
    except BaseException:
        made.give_up()
        raise
    return OwnFiles(made, target, len(written))


def listed(folder: Path) -> frozenset[str]:
    """Return the files that were written there before; none where there is no list."""
    try:
        return frozenset((folder / OURS).read_text(encoding="utf-8").splitlines())
    except (OSError, UnicodeDecodeError):
        return frozenset()

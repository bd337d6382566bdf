"""A folder that is made beside another one and takes its place when it is whole."""

from __future__ import annotations

import contextlib
import os
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from walebook_site.exchange import finish_replacing, replace_folder
from walebook_site.lock import Held, Lock, take

Keep = Callable[[str], bool]
"""Says whether a file of the replaced folder stays. It is given the file's path in that folder,
with slashes; the path of an empty folder ends with a slash."""


@dataclass(frozen=True, slots=True)
class Workplace:
    """Where a folder is made: a hidden folder beside the one that it is to replace."""

    target: Path

    @property
    def folder(self) -> Path:
        """The hidden folder; all in it is ours."""
        return self.target.parent / f".{self.target.name}.walebook"

    @property
    def lock(self) -> Path:
        """The file whose lock says that a process works here."""
        return self.folder / "lock"

    @property
    def new(self) -> Path:
        """The folder that is being made."""
        return self.folder / "new"

    @property
    def old(self) -> Path:
        """The folder that was replaced, where it takes two renames."""
        return self.folder / "old"

    def clear(self) -> None:
        """Remove what a process left here that has ended, or this one."""
        for left in (self.new, self.old):
            if left.exists():
                shutil.rmtree(left)


@dataclass(frozen=True, slots=True)
class Replacement:
    """A folder in the making, held against every other process until it is placed or given up."""

    place: Workplace
    lock: Lock

    @property
    def folder(self) -> Path:
        """The folder to write into."""
        return self.place.new

    def put_in_place(self, keep: Keep) -> None:
        """Replace the target by the folder made here, and remove what it replaced.

        Files of the target that `keep` names, and that the new folder does not have, stay. Raises
        OSError, with the target as it was, when that cannot be done.
        """
        target = self.place.target
        if target.exists():
            _carry_over(target, self.folder, keep)
            _give_rights(target, self.folder)
        replace_folder(self.folder, target, self.place.old)
        self.give_up()

    def give_up(self) -> None:
        """Remove everything made here, and let others build; the target stays as it is."""
        try:
            finish_replacing(self.place.new, self.place.target, self.place.old)
            with contextlib.suppress(OSError):  # what cannot be removed now goes at the next build
                self.place.clear()
        finally:
            self.lock.release()
            with contextlib.suppress(OSError):
                self.place.folder.rmdir()


def begin(target: Path) -> Replacement:
    """Return an empty folder beside `target`, which is a folder, or nothing yet, and no link.

    Completes an interrupted replacing first, and removes what killed processes left. Raises Held
    when another process makes one for the same target, OSError when none can be made.
    """
    place = Workplace(target)
    made = Replacement(place, take(place.lock))
    try:
        finish_replacing(place.new, target, place.old)
        place.clear()
        place.new.mkdir()
    except BaseException:
        made.give_up()
        raise
    return made


def complete(target: Path) -> bool:
    """Complete a replacing of `target` that was interrupted; return whether there was one.

    Leaves alone what another process is doing there.
    """
    place = Workplace(target)
    if os.path.lexists(target) or not place.old.exists():
        return False
    try:
        made = Replacement(place, take(place.lock))
    except Held:
        return False
    try:
        return finish_replacing(place.new, target, place.old)
    finally:
        made.give_up()


def _carry_over(old: Path, new: Path, keep: Keep, within: str = "") -> None:
    """Give the new folder what stays of the old one: files as links, so that both have them."""
    entries = list(os.scandir(old / within))
    if not entries and keep(within):
        _make_folder(old, new, within)
    for entry in entries:
        path = f"{within}{entry.name}"
        if entry.is_dir(follow_symlinks=False):
            _carry_over(old, new, keep, f"{path}/")
        elif keep(path) and not os.path.lexists(new / path):
            _make_folder(old, new, within)
            _link_or_copy(old / path, new / path)


def _make_folder(old: Path, new: Path, path: str) -> None:
    """Make a folder as it is in the old one, with those that it lies in."""
    if not (new / path).is_dir():
        _make_folder(old, new, path.rstrip("/").rpartition("/")[0])
        (new / path).mkdir()
        shutil.copymode(old / path, new / path)


def _link_or_copy(source: Path, target: Path) -> None:
    """Give a file another name; a copy of it where the system cannot, and of a symbolic link."""
    if not source.is_symlink():  # some systems would link what it leads to
        try:
            os.link(source, target)
        except OSError:
            pass
        else:
            return
    shutil.copy2(source, target, follow_symlinks=False)


def _give_rights(old: Path, new: Path) -> None:
    """Let the new folder be read and written by whom the old one was."""
    of = old.stat()
    with contextlib.suppress(OSError, AttributeError):
        os.chown(new, of.st_uid, of.st_gid)
    new.chmod(of.st_mode & 0o7777)

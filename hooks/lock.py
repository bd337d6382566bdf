"""A lock on a file that one process holds at a time; a process that has died holds it no longer."""

from __future__ import annotations

import contextlib
import errno
import os
import sys
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_HELD = {errno.EACCES, errno.EAGAIN, errno.EDEADLK}
_FAR = 1 << 20  # Windows lets nobody read a locked byte: it lies far behind the text


class Held(Exception):
    """Another process holds the lock; says which, and since when."""


@dataclass(frozen=True, slots=True)
class Lock:
    """A lock that this process holds until it lets it go, or ends."""

    path: Path
    handle: int

    def release(self) -> None:
        """Let the lock go, and remove its file."""
        if sys.platform == "win32":
            os.close(self.handle)
            with contextlib.suppress(OSError):
                self.path.unlink()
        else:  # while it is held: nobody can have taken the file that goes
            self.path.unlink(missing_ok=True)
            os.close(self.handle)


def take(path: Path) -> Lock:
    """Return the lock on the file `path`, made with its folder if missing.

    Does not wait: raises Held when another process has it, OSError when the file cannot be made
    or the file system has no locks.
    """
    while True:
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o666)
        except FileNotFoundError:  # the last holder has just removed the folder
            continue
        try:
            _lock(handle)
            if _is_still(path, handle):
                _sign(handle)
                return Lock(path, handle)
        except OSError as fault:
            holder = _signature(handle)
            os.close(handle)
            if fault.errno in _HELD:
                raise Held(holder) from None
            raise
        os.close(handle)  # a lock on a file that its last holder has removed keeps nobody out


def _lock(handle: int) -> None:
    if sys.platform == "win32":
        os.lseek(handle, _FAR, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _is_still(path: Path, handle: int) -> bool:
    try:
        return os.path.samestat(os.fstat(handle), path.stat())
    except FileNotFoundError:
        return False


def _signature(handle: int) -> str:
    os.lseek(handle, 0, os.SEEK_SET)
    return os.read(handle, 200).decode("utf-8", "replace") or "another process"


def _sign(handle: int) -> None:
    """Write who holds the lock; on a full disk it is held without a name."""
    holder = f"process {os.getpid()}, since {datetime.now():%Y-%m-%d %H:%M:%S}"
    with contextlib.suppress(OSError):
        os.ftruncate(handle, 0)
        os.lseek(handle, 0, os.SEEK_SET)
        os.write(handle, holder.encode())

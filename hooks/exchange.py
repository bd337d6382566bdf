"""Puts one folder in the place of another: in one call where the system can, else in two."""

from __future__ import annotations

import errno
import os
from pathlib import Path

_HERE = -100  # AT_FDCWD: paths are relative to the working folder
_EXCHANGE = 2  # RENAME_EXCHANGE
_CANNOT = {"ENOSYS", "EINVAL", "ENOTSUP", "EOPNOTSUPP"}


def replace_folder(new: Path, target: Path, old: Path) -> None:
    """Put the folder `new` in the place of `target`, whose content is then in `new` or in `old`.

    All three lie on one file system. On Linux the two change places in one call (renameat2), so
    that there is no moment without a whole folder. Where the system or the file system has no such
    call, `target` becomes `old` and `new` becomes `target`: `finish_replacing` completes what
    was interrupted in between. Raises OSError, with `target` as it was, when neither can be done.
    """
    if not target.exists():
        os.rename(new, target)
    elif not _exchange(new, target):
        os.rename(target, old)
        try:
            os.rename(new, target)
        except OSError:
            os.rename(old, target)
            raise


def finish_replacing(new: Path, target: Path, old: Path) -> bool:
    """Complete a replacing that ended between its two renames; return whether there was one.

    `old` is there and `target` is not only then, and then `new` is whole.
    """
    if os.path.lexists(target) or not old.exists():
        return False
    os.rename(new if new.exists() else old, target)
    return True


def _exchange(one: Path, other: Path) -> bool:
    """Let two folders change places in one call; return False where there is no such call."""
    import ctypes  # a check asks whether a build was interrupted, and exchanges nothing
    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except (AttributeError, OSError, TypeError):  # no such function; no such library
        return False
    if renameat2(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0:
        return True
    number = ctypes.get_errno()
    if errno.errorcode.get(number) in _CANNOT:
        return False
    raise OSError(number, os.strerror(number), str(other))

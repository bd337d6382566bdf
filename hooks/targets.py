"""Which folders may be replaced whole: none that holds sources, or that cannot be written."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

_SITE = {"index.html", "404.html", "sitemap.xml", "assets"}


class BadTarget(Exception):
    """A folder that must not or cannot be replaced; says why, and what to do."""


def real_target(target: Path, sources: Iterable[Path]) -> Path:
    """Return the folder that is to be replaced, with every link on the way to it followed.

    Raises Refused when it is, holds or lies in one of the folders with `sources`, is no folder,
    is a mount point, or cannot be written.
    """
    real = Path(os.path.realpath(target))
    for source in (Path(os.path.realpath(source)) for source in sources):
        if source.is_relative_to(real) or real.is_relative_to(source):
            raise BadTarget(f"{target} would be replaced with all that is in it, and the sources "
                            f"in {source} must stay: name a folder apart from them")
    if real.exists() and not real.is_dir():
        raise BadTarget(f"{target} is no folder: name another, or remove it")
    if os.path.ismount(real):
        raise BadTarget(f"{target} is a mount point, and such a folder cannot be replaced in one "
                            f"step: name a folder inside it, such as {target / 'site'}")
    for folder in (real, _there(real.parent)):
        if folder.exists() and not os.access(folder, os.W_OK | os.X_OK):
            raise BadTarget(f"{folder} cannot be written: change its permissions, or name another "
                                "folder")
    return real


def refuse_no_site(target: Path) -> None:
    """Raise Refused for a folder that holds files, none of which is a built site's."""
    there = {p.name for p in target.iterdir()} if target.is_dir() else set()
    shown = {name for name in there if not name.startswith(".")}
    if shown and not shown & _SITE:
        raise BadTarget(f"{target} holds other files ({min(shown)}) and no site, and would be "
                        "replaced with all that is in it: name another folder, or empty this one")


def _there(folder: Path) -> Path:
    """The nearest folder on the way to this one that is there."""
    return next(each for each in (folder, *folder.parents) if each.exists())

"""A site is built beside the old one and takes its place when it is whole, or not at all."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from dataclasses import dataclass
from errno import EXDEV, errorcode
from pathlib import Path
from typing import TypeGuard

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.utils import CountHandler
from walebook_site.lock import Held
from walebook_site.replacement import Replacement, begin
from walebook_site.targets import BadTarget, real_target, refuse_no_site

_log = logging.getLogger("mkdocs.plugins.walebook")
# What is wrong with the machine, its disk or its permissions, and not with the code.
_OUTSIDE = {"EACCES", "EBUSY", "EDQUOT", "EFBIG", "EIO", "EMFILE", "ENAMETOOLONG", "ENFILE",
            "ENOLCK", "ENOSPC", "ENOTSUP", "EOPNOTSUPP", "EPERM", "EROFS", "EXDEV"}
NO_DIRTY = ("The site was not built: a site is always built whole, from nothing, so there is no "
            "--dirty build. Leave --dirty out.")


@dataclass(frozen=True, slots=True)
class Build:
    """A site in the making: where it is made, for which configuration, whose site it replaces."""

    made: Replacement
    config: MkDocsConfig
    site_dir: str

    def put_in_place(self) -> None:
        """Let the new site take the place of the old one, unless a strict build has warnings."""
        if warned := _warnings(self.config):
            raise Abort(f"The site was not built: {warned} warning{'s'[:warned - 1]} in strict "
                        f"mode. {_as_it_was(self.site_dir)}")
        try:
            self.made.put_in_place(keep=_is_hidden)
        except OSError as fault:
            raise no_site(self.site_dir, fault) from fault
        finally:
            self.config.site_dir = self.site_dir
        _log.info(f"The new site is in {self.site_dir}")

    def give_up(self) -> None:
        """Remove what was made; the old site is as it was."""
        self.config.site_dir = self.site_dir
        self.made.give_up()


def start(config: MkDocsConfig) -> Build:
    """Let the site builder write into a folder beside the site's; return the build.

    Raises Abort, in words, where the site's folder cannot or must not be replaced, or where
    another build of it is running.
    """
    given = config.site_dir
    try:
        target = real_target(Path(given), _sources(config))
        refuse_no_site(target)
        build = Build(begin(target), config, given)
    except BadTarget as fault:
        raise Abort(f"The site was not built: {fault}.") from fault
    except Held as fault:
        raise Abort(f"The site was not built: another build of {given} is running ({fault}). "
                    "Wait for its end, then build again.") from fault
    except OSError as fault:
        raise no_site(given, fault) from fault
    config.site_dir = str(build.made.folder)
    return build


def no_site(site_dir: str, fault: OSError) -> Abort:
    """Return the end of a build that the machine did not let be finished, in words."""
    where = f" ({fault.filename})" if fault.filename else ""
    remedy = " This file system cannot move it: remove it, or name another folder." if (
        fault.errno == EXDEV) else ""
    return Abort(f"The site was not built: {fault.strerror}{where}.{remedy} {_as_it_was(site_dir)}")


def is_outside(fault: BaseException) -> TypeGuard[OSError]:
    """True for a failure of the machine: a full disk, a permission, and the like."""
    return isinstance(fault, OSError) and errorcode.get(fault.errno or 0) in _OUTSIDE


def count_when_quiet() -> None:
    """Let a quiet strict build count its warnings all the same, and print none of them.

    The site builder's --quiet keeps warnings from being made, and so from being counted.
    """
    logger = logging.getLogger("mkdocs")
    quiet = logger.level
    if quiet > logging.WARNING:
        for handler in logger.handlers:
            handler.setLevel(max(handler.level, quiet))
        logger.setLevel(logging.WARNING)


def _warnings(config: MkDocsConfig) -> int:
    """The warnings of a strict build so far: those for which the site builder will abort it."""
    counters = [h for h in logging.getLogger("mkdocs").handlers if isinstance(h, CountHandler)]
    return sum(sum(c.counts.values()) for c in counters) if config.strict else 0


def _is_hidden(path: str) -> bool:
    """Files whose names begin with a dot are none of the site builder's: it never cleans them."""
    return path.startswith(".")


def _as_it_was(site_dir: str) -> str:
    return f"{site_dir} is as it was." if Path(site_dir).exists() else f"{site_dir} is not there."


def _sources(config: MkDocsConfig) -> Iterator[Path]:
    """The folders and files that a site is made from."""
    root = Path(config.config_file_path).parent
    yield from (Path(config.docs_dir), root / "patterns", Path(config.config_file_path))
    yield from (root / str(name) for name in (*config.hooks, *config.watch))
    if config.theme.custom_dir:
        yield Path(config.theme.custom_dir)

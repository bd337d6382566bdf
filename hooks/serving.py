"""Serves the site while it is written: takes the place of the site builder's own server."""

from __future__ import annotations

import contextlib
import logging
import os
import shutil
import subprocess
import sys
import threading
import time
import traceback
import webbrowser
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlsplit

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, MkDocsException
from walebook_site.dependencies import CODE, folder_of
from walebook_site.frame import SiteFrame
from walebook_site.preview_pages import Preview
from walebook_site.preview_server import Server, in_background
from walebook_site.previewing import Patterns
from walebook_site.reading import COLLECTION, Reading
from walebook_site.watching import Watcher

_log = logging.getLogger("mkdocs.plugins.walebook")
SOCKET = "WALEBOOK_PREVIEW_SOCKET"
"""The environment's name of the socket that a preview hands on when it begins again."""
CALM = 2.0  # seconds without a change of our code, after which the preview begins again with it
BuildCall = Callable[[], object]


class Serving:
    """What the site builder expects of its server: `watch`, `serve`, `shutdown`."""

    def __init__(self, config: MkDocsConfig, build: BuildCall,
                 frame: Callable[[], SiteFrame]) -> None:
        self.url = str(config.site_url)
        self.error_handler: object = None
        self._root = Path(config.config_file_path).resolve().parent
        self._address = str(config.dev_addr[0]), int(config.dev_addr[1])
        self._build, self._frame = build, frame
        self._sources = {Path(config.docs_dir).resolve(), Path(config.config_file_path).resolve(),
                         self._root / COLLECTION,
                         *(Path(each).resolve() for each in (config.theme.custom_dir,) if each)}
        self._patterns = Patterns(self._root)
        base = urlsplit(self.url).path or "/"
        self._preview = Preview(frame(), self._patterns, f"{base.rstrip('/')}/")
        self._slugs = self._folders()
        self._watcher = Watcher(self._changed)
        self._later: set[Path] = set()
        self._work = threading.Condition()
        self._rebuild = self._ended = self._again = False
        self._code_at: float | None = None

    def watch(self, path: str, func: object = None, *, recursive: bool = True) -> None:
        """Build the fixed pages again when something changes there."""
        self._sources.add(Path(path).resolve())

    def unwatch(self, path: str) -> None:
        """Take back what `watch` did."""
        self._sources.discard(Path(path).resolve())

    def serve(self, *, open_in_browser: bool = False) -> None:
        """Serve until interrupted."""
        given = os.environ.pop(SOCKET, None)
        try:
            server = Server(self._address, int(given) if given else None)
        except OSError as fault:
            raise Abort(f"The site cannot be served at {':'.join(map(str, self._address))}: "
                        f"{fault.strerror}. Name another place, such as 127.0.0.1:8001.") from fault
        server.preview = self._preview
        watcher = self._watcher
        self._later = {each for each in self._sources if not each.exists()}
        watcher.start(self._watched())
        self._patterns.start()
        in_background(server)
        _log.info(f"Serving on {self.url}")
        if open_in_browser and not given:
            webbrowser.open(self.url)
        try:
            while self._wait():
                pass
        finally:
            watcher.stop()
            self._patterns.stop()
            if self._again:
                _begin_again(server, self._preview.frame.site.parent)
            server.shutdown()
            server.server_close()

    def shutdown(self, wait: bool = False) -> None:
        """End."""
        with self._work:
            self._ended = True
            self._work.notify_all()

    def _wait(self) -> bool:
        """Wait for work of the site builder's, and do it; return False at the end."""
        with self._work:
            self._again = not self._rebuild and self._is_calm() and self._loads()
            if self._ended or self._again:
                return False
            if not self._rebuild:
                self._work.wait(0.5)  # no longer, so that an interruption comes through
                return True
            self._rebuild = False
        self._build_frame()
        return True

    def _is_calm(self) -> bool:
        """True when our code was changed some time ago, and browsers show what came of it."""
        shown = self._patterns.calm_since()
        if self._code_at is None or shown is None or self._patterns.fault:
            return False
        return time.monotonic() > max(self._code_at, shown) + CALM

    def _loads(self) -> bool:
        """True when our code can be loaded; else it is not begun with, and what is wrong is said.
        """
        tried = subprocess.run([sys.executable, "-c", f"import {__package__}.patterns"],
                               capture_output=True, text=True, check=False)
        if tried.returncode:
            self._code_at = None
            self._preview.notice = f"The preview goes on with the code as it was: {tried.stderr}"
            self._patterns.wake()
        return not tried.returncode

    def _build_frame(self) -> None:
        """Build the fixed pages; where that fails, the old ones stay, with the reason."""
        old = self._preview.frame
        try:
            self._build()
        except (SystemExit, MkDocsException) as fault:  # said in words
            self._preview.notice = f"The fixed pages are as they were: {fault}"
        except Exception:
            why = traceback.format_exc(limit=-3)
            self._preview.notice = f"The fixed pages are as they were: {why}"
        else:
            self._preview.frame, self._preview.notice = self._frame(), ""
            if old.site != self._preview.frame.site:
                shutil.rmtree(old.site, ignore_errors=True)
        self._patterns.changed(None)
        self._patterns.wake()

    def _watched(self) -> list[tuple[Path, bool]]:
        folders = {self._root / "patterns": True, **{folder_of(each): True for each in CODE}}
        for source in self._sources:
            folders.setdefault(source if source.is_dir() else source.parent, source.is_dir())
        within = [each for each, whole in folders.items() if whole]
        return [(each, whole) for each, whole in folders.items()
                if each.is_dir() and not any(each != other and each.is_relative_to(other)
                                             for other in within)]

    def _changed(self, files: frozenset[Path]) -> None:
        """Take note of changed files, each by what it belongs to."""
        files = frozenset(map(_real, files))
        code = [each for each in files if each.suffix == ".py"
                and any(each.is_relative_to(folder_of(package)) for package in CODE)]
        if code:
            self._patterns.code_changed()
            self._code_at = time.monotonic() if os.name == "posix" else None
        patterns = [each.relative_to(self._root / "patterns").parts for each in files
                    if each.is_relative_to(self._root / "patterns")]
        if patterns:
            self._patterns_changed({parts[0] for parts in patterns if parts})
        for folder in [each for each in files & self._later if each.is_dir()]:
            self._watcher.also(folder)
            self._later.discard(folder)
        if any(each == source or each.is_relative_to(source) for each in files
               for source in self._sources if not _is_passing(each)):
            with self._work:
                self._rebuild = True
                self._work.notify_all()

    def _patterns_changed(self, folders: set[str]) -> None:
        before, self._slugs = self._slugs, self._folders()
        if before != self._slugs:
            self._patterns.look_for_folders()
        shared = any(each.startswith("_") for each in folders)
        self._patterns.changed(None if shared else folders | (before ^ self._slugs))

    def _folders(self) -> set[str]:
        return set(Reading(self._root).folders())


def _real(path: Path) -> Path:
    """The path with every link in the folders on its way followed, not one at its end."""
    with contextlib.suppress(OSError):
        return path.parent.resolve() / path.name
    return path


def _is_passing(path: Path) -> bool:
    """True for what an editor writes beside a file for a moment."""
    return path.name.startswith(".") or path.name.endswith(("~", ".swp", ".tmp"))


def _begin_again(server: Server, site: Path) -> None:
    """Begin this command anew with the code as it is now; browsers wait at the same socket."""
    _log.info("Walebook's own code was changed: the preview begins again")
    shutil.rmtree(site, ignore_errors=True)
    server.socket.set_inheritable(True)
    os.environ[SOCKET] = str(server.socket.fileno())
    os.execv(sys.executable, [sys.executable, *sys.orig_argv[1:]])

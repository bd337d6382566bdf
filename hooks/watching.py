"""Says which files were changed, as the system itself reports it, when a save has come to its end.

The site builder's own observer looks at every file twice a second. watchdog, which the site builder
brings, also has the system's (inotify, FSEvents, ReadDirectoryChangesW).
"""

from __future__ import annotations

import contextlib
import logging
import threading
import time
from collections.abc import Callable, Iterable
from hashlib import sha256
from pathlib import Path

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer
from watchdog.observers.api import BaseObserver
from watchdog.observers.polling import PollingObserver

_log = logging.getLogger("mkdocs.plugins.walebook")
_CHANGES = {"created", "modified", "moved", "deleted", "closed"}
"""What changes a file; to open one and to read it are events, too."""
QUIET = 0.02  # seconds without a change, after which a save is taken to be whole
LONGEST = 0.3  # seconds that a row of changes is waited for
OnChange = Callable[[frozenset[Path]], None]


class Watcher(FileSystemEventHandler):
    """Watches folders, and calls `on_change` with the files of each save, in a separate thread."""

    def __init__(self, on_change: OnChange) -> None:
        self._on_change = on_change
        self._changed: set[Path] = set()
        self._digests: dict[Path, bytes] = {}
        self._condition = threading.Condition()
        self._ended = False
        self._observer: BaseObserver | None = None
        self._thread = threading.Thread(target=self._wait, name="saves", daemon=True)

    def start(self, folders: Iterable[tuple[Path, bool]]) -> None:
        """Watch these folders, each with all that lies in it or without."""
        watched = list(folders)
        try:
            self._observer = self._observed(Observer(), watched)
        except OSError as fault:  # so many folders may not be watched: there is a limit
            _log.warning(f"The system does not report changes of files ({fault.strerror}): they "
                         "are looked for once a second.")
            self._observer = self._observed(PollingObserver(timeout=1), watched)
        self._thread.start()

    def also(self, folder: Path) -> None:
        """Watch another folder with all that lies in it, where the system can."""
        if self._observer is not None:
            with contextlib.suppress(OSError):
                self._observer.schedule(self, str(folder), recursive=True)

    def stop(self) -> None:
        """End; nothing is called after this."""
        if self._observer is not None:
            self._observer.stop()
        with self._condition:
            self._ended = True
            self._condition.notify_all()

    def on_any_event(self, event: FileSystemEvent) -> None:
        """Take note of a change."""
        if event.event_type not in _CHANGES or (event.is_directory
                                                and event.event_type == "modified"):
            return
        with self._condition:
            self._changed |= {Path(str(path)) for path in (event.src_path, event.dest_path) if path}
            self._condition.notify_all()

    def _observed(self, observer: BaseObserver, folders: list[tuple[Path, bool]]) -> BaseObserver:
        for folder, whole in folders:
            observer.schedule(self, str(folder), recursive=whole)
        observer.start()
        return observer

    def _wait(self) -> None:
        while changed := self._whole_save():
            if others := frozenset(filter(self._is_other, changed)):
                self._on_change(others)

    def _is_other(self, path: Path) -> bool:
        """True unless the file is what it was when its last change was reported: of one save the
        system may report more than one. What is no file is always another."""
        try:
            digest = sha256(path.read_bytes()).digest()
        except OSError:
            self._digests.pop(path, None)
            return True
        before, self._digests[path] = self._digests.get(path), digest
        return digest != before

    def _whole_save(self) -> frozenset[Path]:
        """The files of one save; none at the end."""
        with self._condition:
            self._condition.wait_for(lambda: self._changed or self._ended)
            latest = time.monotonic() + LONGEST
            count = -1
            while len(self._changed) != count and time.monotonic() < latest and not self._ended:
                count = len(self._changed)
                self._condition.wait(QUIET)
            changed = frozenset(self._changed)
            self._changed.clear()
            return frozenset() if self._ended else changed

"""The page of a preview that says what changed since the last commit, by `walebook compare`."""

from __future__ import annotations

import subprocess
import sys
import threading
from html import escape
from pathlib import Path

from walebook.core.problems import visible
from walebook.markup.html import block, front_matter, heading

PAGE = "compared.html"
TITLE = "What did my change do?"
_LEAD = ("Against the last commit, with the files as they are saved. The page follows them. In a "
         "terminal: <code>walebook compare</code>.")
_TOO_LONG = "Nothing was compared: it took too long. Run walebook compare in a terminal."
_LONGEST = 180  # seconds


def link_from(base: str, path: str) -> str:
    """Return the way to the page from another one of the preview, as HTML; "" from itself."""
    return "" if path == PAGE else f'<p><a href="{escape(base)}{PAGE}">{TITLE}</a></p>'


class ComparedPage:
    """What changed in a root since its last commit, as it was when that was last asked for."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._turn = threading.Lock()
        self._kept: tuple[object, str] | None = None

    def text(self, state: object) -> str:
        """Return the page as it is written; made anew where `state`, or the commit, is another one.
        """
        state = state, _written_at(self._root / ".git" / "logs" / "HEAD")
        with self._turn:
            if self._kept is None or self._kept[0] != state:
                self._kept = state, _page(self._report())
            return self._kept[1]

    def _report(self) -> str:
        """What the command prints, in a process that is gone afterwards with all that it loaded."""
        call = [sys.executable, "-m", "walebook_site.command", "compare", "--root", str(self._root)]
        try:
            done = subprocess.run(call, capture_output=True, text=True, encoding="utf-8",
                                  timeout=_LONGEST, check=False)
        except subprocess.TimeoutExpired:
            return _TOO_LONG
        return done.stdout or done.stderr


def _page(report: str) -> str:
    lines = escape("\n".join(map(visible, report.rstrip().split("\n"))))
    return "".join((front_matter(TITLE, TITLE, searchable=False), heading(1, TITLE, "compared"),
                    block(f'<p>{_LEAD}</p><pre class="wb-compared">{lines}</pre>')))


def _written_at(path: Path) -> int:
    """When a file was last written [ns], 0 where there is none."""
    try:
        return path.stat().st_mtime_ns
    except OSError:
        return 0

"""A folder served on this machine, and a small collection to be served."""

from __future__ import annotations

import shutil
import subprocess
import sys
import threading
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from .declared import environment

ROOT = Path(__file__).parents[2]
HAT, CARDIGAN = "tideline-hat", "slack-tide-cardigan"
WITH_RUNTIME = ".with-runtime.yml"
"""The demo's settings with "My gauge" and "Try it"."""


class Silent(SimpleHTTPRequestHandler):
    """Sends a file each time that it is asked for, and says nothing.

    The library answers "not modified" by dates in whole seconds, and so for a file that is changed
    twice within one (RFC 9110, 8.8.2.2, calls such a date weak).
    """

    def parse_request(self) -> bool:
        is_read = super().parse_request()
        if is_read:
            del self.headers["If-Modified-Since"]
        return is_read

    def log_message(self, *args: object) -> None:
        """Say nothing."""


@contextmanager
def served(folder: Path, handler: type[SimpleHTTPRequestHandler] = Silent) -> Iterator[str]:
    """Serve a folder until the end of the block; give its address on this machine."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(handler, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()


def collection(root: Path, settings: str, *made: str, slugs: Sequence[str] = (HAT, CARDIGAN),
               settings_file: str = "mkdocs.yml") -> subprocess.CompletedProcess[str]:
    """Build a collection of a few patterns, with the folders of the checkout that were `made` by
    `walebook runtime` beside it; return what was printed. `settings_file` is named to the site
    builder, where it lies there and inherits the `settings`."""
    for name in ("_beds", "_sizes", *slugs):
        shutil.copytree(ROOT / "patterns" / name, root / "patterns" / name)
    (root / "mkdocs.yml").write_text(settings, encoding="utf-8")
    for name in made:
        (root / name).symlink_to(ROOT / name)
    return subprocess.run([sys.executable, "-m", "mkdocs", "build", "--strict", "-f",
                           settings_file], cwd=root,
                          capture_output=True, text=True, check=False, env=environment())

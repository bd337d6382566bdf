"""The demo site, built once, served under a sub-path, and a browser to read it in."""

from __future__ import annotations

import fcntl
import importlib.util
import os
import subprocess
import sys
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from tests.site.declared import environment

ROOT = Path(__file__).parents[2]
QUIET = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync",
         "--font-render-hinting=none"]  # letters as wide as on a screen of many dots

PATIENCE = 60_000  # milliseconds: a loaded machine is slow, and a wait ends as soon as it can


def build(root: Path, out: Path) -> subprocess.CompletedProcess[str]:
    """Build the site of `root` into `out` as the README says; return what was printed."""
    return subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", str(out)],
        cwd=root, capture_output=True, text=True, check=False, env=environment())


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the built demo site; it lies in a folder, so that it has a sub-path.

    The first worker that asks builds it, for all workers: no test writes into it.
    """
    run = tmp_path_factory.getbasetemp()
    run = run.parent if "PYTEST_XDIST_WORKER" in os.environ else run
    out = run / "served" / "lantern-quay" / "patterns-of"
    with (run / "served.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not out.exists():
            done = build(ROOT, out)
            assert done.returncode == 0, done.stderr
    return out


class _Silent(SimpleHTTPRequestHandler):
    """Sends a file each time that it is asked for.

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


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    """Where the site is served: under a sub-path of this machine."""
    root = site.parents[1]
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Silent, directory=str(root)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/{site.relative_to(root).as_posix()}"
    server.shutdown()
    server.server_close()


def at_hand(*, whole: bool = False) -> str | None:
    """The path of a Chromium on this machine; None for the one that the test library brings.

    A `whole` one has windows.
    """
    spec = importlib.util.spec_from_file_location("browser_at_hand", ROOT / ".ci" / "browser.py")
    assert spec is not None and spec.loader is not None
    finder = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(finder)
    path: str | None = finder.whole() if whole else finder.installed()
    return path


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A Chromium without a window."""
    expect.set_options(timeout=PATIENCE)
    with sync_playwright() as play:
        yield play.chromium.launch(executable_path=at_hand(), args=QUIET)


@pytest.fixture(autouse=True)
def patient(monkeypatch: pytest.MonkeyPatch) -> None:
    """What a browser is asked for is waited for as long as what is expected of a page."""
    made = Browser.new_context

    def new_context(self: Browser, **how: Any) -> BrowserContext:
        context = made(self, **how)
        context.set_default_timeout(PATIENCE)
        return context

    monkeypatch.setattr(Browser, "new_context", new_context)


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    """A page on a phone of 360 × 740."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    yield context.new_page()
    context.close()


def begin_at(page: Page, part: str) -> None:
    """Open the section of a part, and begin to knit it from there."""
    page.evaluate("(part) => { document.querySelector(`[data-wb-offers=${part}]`)"
                  ".closest('details').open = true; }", part)
    page.click(f"[data-wb-offers={part}] button")

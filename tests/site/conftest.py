"""The demo site, built once, served under a sub-path, and a browser to read it in."""

from __future__ import annotations

import fcntl
import importlib.util
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from tests.site.declared import environment
from tests.site.serving import ROOT, served

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


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    """Where the site is served: under a sub-path of this machine."""
    root = site.parents[1]
    with served(root) as address:
        yield f"{address}/{site.relative_to(root).as_posix()}"


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
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A browser that keeps nothing from before, on a phone of 360 × 740."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    yield context
    context.close()


@pytest.fixture
def phone(context: BrowserContext) -> Page:
    """A page on such a phone."""
    return context.new_page()


def begin_at(page: Page, part: str) -> None:
    """Open the section of a part, and begin to knit it from there."""
    page.evaluate("(part) => { document.querySelector(`[data-wb-offers=${part}]`)"
                  ".closest('details').open = true; }", part)
    page.click(f"[data-wb-offers={part}] button")

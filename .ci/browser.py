"""Sees to it that there is a Chromium for the browser tests: the machine's own, or a new one."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")


def installed() -> str | None:
    """The path of a Chromium on this machine, if there is one."""
    named = os.environ.get("WALEBOOK_BROWSER")
    return named or next(filter(None, map(shutil.which, NAMES)), None)


def bundled() -> bool:
    """True when the test library's own Chromium is already there."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        return os.path.exists(play.chromium.executable_path)


def main() -> int:
    """Find or bring a browser; return 0 when there is one."""
    if installed() or bundled():
        return 0
    if shutil.which("apt-get") and os.geteuid() == 0:
        subprocess.run(["apt-get", "update", "-qq"], check=False)
        subprocess.run(["apt-get", "install", "-y", "-qq", "--no-install-recommends",
                        "chromium", "fonts-dejavu-core"], check=False)
        if installed():
            return 0
    subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False)
    if bundled():
        return 0
    print("No Chromium was found or could be installed. Install one, or set WALEBOOK_BROWSER "
          "to its path.", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())

"""Sees to it that the tests have a Chromium, and what lays text out in PDFs: there, or brought.

    .venv/bin/python .ci/browser.py            what every test run needs
    .venv/bin/python .ci/browser.py --others   Chromium whole, Firefox, WebKit, servers, sheets
    .venv/bin/python .ci/browser.py --whole    print where the whole Chromium lies, if it is there
"""

from __future__ import annotations

import ctypes.util
import os
import shutil
import subprocess
import sys

SHELL = "chromium-headless-shell"
"""Chromium's engine without windows: with the whole of it, each page takes three times as long."""
TEXT = {"pango-1.0": "libpango-1.0-0", "pangoft2-1.0": "libpangoft2-1.0-0"}
OTHERS = {"chromium": "chromium", "firefox-esr": "firefox-esr",
          "WebKitWebDriver": "webkit2gtk-driver", "Xvfb": "xvfb",
          "nginx": "nginx-light", "caddy": "caddy", "apache2": "apache2", "rsync": "rsync",
          "soffice": "libreoffice-calc-nogui"}
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")


def installed() -> str | None:
    """The path of a Chromium on this machine, if there is one: best of all of one without windows.

    WALEBOOK_BROWSER names another.
    """
    return os.environ.get("WALEBOOK_BROWSER") or shutil.which(SHELL) or whole()


def whole() -> str | None:
    """The path of a Chromium with windows, as a reader has it, if there is one."""
    return next(filter(None, map(shutil.which, NAMES)), None)


def bundled() -> bool:
    """True when the test library's own Chromium is already there."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        return os.path.exists(play.chromium.executable_path)


def lacking() -> list[str]:
    """The packages, as Debian names them, of the text libraries that are not on this machine."""
    return [package for library, package in TEXT.items()
            if ctypes.util.find_library(library) is None]


def install(packages: list[str]) -> None:
    """Bring packages of the machine's own system, where that is allowed and there are any."""
    if packages and shutil.which("apt-get") and os.geteuid() == 0:
        subprocess.run(["apt-get", "update", "-qq"], check=False)
        subprocess.run(["apt-get", "install", "-y", "-qq", "--no-install-recommends", *packages],
                       check=False)


def main() -> int:
    """Find or bring what the tests need; return 0 when it is there.

    Where one of the others cannot be brought, its tests are skipped and say so.
    """
    if "--whole" in sys.argv:
        print(whole() or "")
        return 0
    named = os.environ.get("WALEBOOK_BROWSER")
    browser = [] if named or shutil.which(SHELL) or bundled() else [SHELL, "fonts-dejavu-core"]
    others = [package for program, package in OTHERS.items() if shutil.which(program) is None]
    install(browser + lacking() + (others if "--others" in sys.argv else []))
    if not installed() and not bundled():  # a system that has none without windows
        install(["chromium", *lacking()])
    if lacking():
        print(f"The tests of the PDFs need {', '.join(lacking())}, which could not be installed.",
              file=sys.stderr)
        return 1
    if installed() or bundled():
        return 0
    subprocess.run([sys.executable, "-m", "playwright", "install", "chromium"], check=False)
    if bundled():
        return 0
    print("No Chromium was found or could be installed. Install one, or set WALEBOOK_BROWSER "
          "to its path.", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())

"""Browsers of other makes, spoken to in their own protocols: WebKit (W3C WebDriver) and Firefox.

WebKit is Debian's `webkit2gtk-driver` on a screen of `Xvfb`; Firefox is any `firefox-esr` or
`firefox`, by Marionette, the protocol that it brings itself. Nothing else has to be installed.
"""

from __future__ import annotations

import json
import os
import shutil
import socket
import subprocess
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Protocol

MINI_BROWSERS = "usr/lib/*/webkit2gtk-4.*/MiniBrowser"
PATIENCE = 30  # seconds until a browser answers


class Engine(Protocol):
    """A browser with one window."""

    def go(self, address: str) -> None:
        """Open an address and wait until it is loaded."""

    def js(self, script: str) -> Any:
        """What a script answers by `return`."""

    def click(self, css: str) -> None:
        """Press an element as a pointer does."""


def free_port() -> int:
    """A port of this machine that nothing listens on."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def _until(answers: Any) -> Any:
    end = time.monotonic() + PATIENCE
    while True:
        try:
            return answers()
        except OSError:
            if time.monotonic() > end:
                raise
            time.sleep(.2)


@contextmanager
def _running(*command: str, **env: str) -> Iterator[subprocess.Popen[bytes]]:
    process = subprocess.Popen(command, env={**os.environ, **env}, stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL)
    try:
        yield process
    finally:
        process.terminate()
        process.wait(PATIENCE)


class _WebDriver:
    """W3C WebDriver, "Protocol": JSON over HTTP."""

    def __init__(self, base: str, capabilities: dict[str, Any]) -> None:
        self.base, self.session = base, ""
        made = _until(lambda: self.call("POST", "/session", {
            "capabilities": {"alwaysMatch": capabilities}}))
        self.session = f"/session/{made['sessionId']}"

    def call(self, method: str, path: str, body: dict[str, Any] | None = None) -> Any:
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(self.base + self.session + path, data=data, method=method,
                                         headers={"Content-Type": "application/json"})
        with urllib.request.urlopen(request, timeout=PATIENCE) as answer:
            return json.load(answer)["value"]

    def go(self, address: str) -> None:
        self.call("POST", "/url", {"url": address})

    def js(self, script: str) -> Any:
        return self.call("POST", "/execute/sync", {"script": script, "args": []})

    def click(self, css: str) -> None:
        found = self.call("POST", "/element", {"using": "css selector", "value": css})
        self.call("POST", f"/element/{next(iter(found.values()))}/click", {})


class _Marionette:
    """Firefox's own protocol: a message is its length, then [type, id, command, parameters]."""

    def __init__(self, port: int) -> None:
        self.socket = _until(lambda: socket.create_connection(("127.0.0.1", port), PATIENCE))
        self.asked = 0
        self._read()
        self.call("WebDriver:NewSession", {})

    def _read(self) -> Any:
        length = b""
        while not length.endswith(b":"):
            length += self.socket.recv(1)
        text = b""
        while len(text) < int(length[:-1]):
            text += self.socket.recv(65536)
        return json.loads(text)

    def call(self, command: str, parameters: dict[str, Any]) -> Any:
        self.asked += 1
        message = json.dumps([0, self.asked, command, parameters]).encode()
        self.socket.sendall(f"{len(message)}:".encode() + message)
        _, _, fault, value = self._read()
        assert fault is None, fault
        return value.get("value") if isinstance(value, dict) else value

    def go(self, address: str) -> None:
        self.call("WebDriver:Navigate", {"url": address})

    def js(self, script: str) -> Any:
        return self.call("WebDriver:ExecuteScript", {"script": script, "args": [],
                                                     "sandbox": None})

    def click(self, css: str) -> None:
        found = self.call("WebDriver:FindElement", {"using": "css selector", "value": css})
        self.call("WebDriver:ElementClick", {"id": next(iter(found.values()))})


def webkit_at_hand() -> str | None:
    """The browser that webkit2gtk-driver drives; None where one of the three is missing."""
    found = sorted(map(str, Path("/").glob(MINI_BROWSERS)))
    there = all(map(shutil.which, ("WebKitWebDriver", "Xvfb")))
    return found[-1] if found and there else None


def firefox_at_hand() -> str | None:
    """A Firefox of this machine, or None."""
    return shutil.which("firefox-esr") or shutil.which("firefox")


@contextmanager
def webkit(folder: Path) -> Iterator[Engine]:
    """A WebKit with a window of 500 × 800, which is the narrowest that its window allows."""
    screen, port = f":{free_port() % 900 + 99}", free_port()
    browser = {"binary": webkit_at_hand(), "args": ["--automation"]}
    with _running("Xvfb", screen, "-screen", "0", "1000x1000x24"), \
            _running("WebKitWebDriver", f"--port={port}", DISPLAY=screen,
                     XDG_DATA_HOME=str(folder), XDG_CACHE_HOME=str(folder)):
        driver = _WebDriver(f"http://127.0.0.1:{port}", {"webkitgtk:browserOptions": browser})
        driver.call("POST", "/window/rect", {"x": 0, "y": 0, "width": 500, "height": 800})
        yield driver
        driver.call("DELETE", "")


@contextmanager
def firefox(folder: Path) -> Iterator[Engine]:
    """A Firefox without a window, 500 × 800."""
    port = free_port()
    (folder / "user.js").write_text(f'user_pref("marionette.port", {port});\n', encoding="utf-8")
    with _running(str(firefox_at_hand()), "--headless", "--marionette", "--profile", str(folder),
                  MOZ_HEADLESS_WIDTH="500", MOZ_HEADLESS_HEIGHT="800"):
        driver = _Marionette(port)
        driver.call("WebDriver:SetWindowRect", {"x": 0, "y": 0, "width": 500, "height": 885})
        yield driver
        driver.call("Marionette:Quit", {"flags": ["eForceQuit"]})

"""The engines of other phones: WebKit by WebDriver under Xvfb, Firefox by WebDriver BiDi.

Both are driven by selenium. It drives Firefox through a program that Debian does not have; so only
its BiDi connection is used, to which Firefox answers by itself.
"""

from __future__ import annotations

import glob
import json
import os
import re
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import Any, Protocol

WIDE, HIGH = 360, 740
BROWSERS = ("/usr/lib/*/webkit2gtk-4.*/MiniBrowser", "/usr/lib/*/webkitgtk-*/MiniBrowser")
LISTENS = re.compile(r"WebDriver BiDi listening on (ws://\S+)")
# Where an element is, in the middle of the window as far as it can be.
MIDDLE = """(() => { const each = document.querySelector(%s);
  each.scrollIntoView({ block: "center" });
  const box = each.getBoundingClientRect();
  return [box.left + box.width / 2, box.top + box.height / 2].map(Math.round); })()"""


class Engine(Protocol):
    """A browser with one page open."""

    def open(self, url: str) -> None:
        """Open a page, and wait until it is loaded."""

    def run(self, expression: str) -> Any:
        """What an expression comes to in the page, by way of JSON; a promise is waited for."""

    def click(self, css: str) -> None:
        """Click the first element that a selector finds, where it is on the screen."""


def lacking(name: str) -> str:
    """Why an engine cannot be tried on this machine; nothing where it can."""
    needs = {"firefox": ["firefox-esr"], "webkit": ["WebKitWebDriver", "Xvfb"]}[name]
    gone = [each for each in needs if shutil.which(each) is None]
    if find_spec("selenium") is None:
        gone.append("selenium")
    return f"not on this machine: {', '.join(gone)}" if gone else ""


def until(engine: Engine, true: str, *, seconds: int = 20) -> None:
    """Wait until an expression holds in the page."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if engine.run(f"Boolean({true})"):
            return
        time.sleep(0.05)
    raise AssertionError(f"never came true: {true}")


# -- Firefox --------------------------------------------------------------------------------------


class Firefox:
    """Firefox without a window, over a connection of WebDriver BiDi."""

    def __init__(self, address: str) -> None:
        from selenium.webdriver.common.bidi.browsing_context import BrowsingContext
        from selenium.webdriver.common.bidi.input import Input
        from selenium.webdriver.common.bidi.script import Script
        from selenium.webdriver.common.bidi.session import Session
        from selenium.webdriver.remote.websocket_connection import WebSocketConnection

        self.connection = WebSocketConnection(f"{address}/session", 60, 0.01)
        Session(self.connection).new(capabilities={})
        self.pages, self.scripts = BrowsingContext(self.connection), Script(self.connection)
        self.input = Input(self.connection)
        self.page = self.pages.create(type="tab")
        self.pages.set_viewport(self.page, {"width": WIDE, "height": HIGH})

    def open(self, url: str) -> None:
        self.pages.navigate(self.page, url, "complete")

    def run(self, expression: str) -> Any:
        answer = self.scripts.evaluate(
            f"Promise.resolve({expression}).then((each) => JSON.stringify(each ?? null))",
            {"context": self.page}, True)
        assert answer["type"] == "success", answer["exceptionDetails"]["text"]
        return json.loads(answer["result"]["value"])

    def click(self, css: str) -> None:
        across, down = self.run(MIDDLE % json.dumps(css))
        self.input.perform_actions(self.page, [{
            "type": "pointer", "id": "finger", "actions": [
                {"type": "pointerMove", "x": across, "y": down},
                {"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0}]}])


@contextmanager
def firefox(folder: Path) -> Iterator[Engine]:
    """A Firefox with a new profile in a folder."""
    said = folder / "said"
    with said.open("w") as out:
        process = subprocess.Popen(
            ["firefox-esr", "--headless", "--no-remote", "--profile", str(folder),
             "--remote-debugging-port", "0"],
            env={**os.environ, "HOME": str(folder)}, stdout=out, stderr=out)
    try:
        for _ in range(600):
            found = LISTENS.search(said.read_text(encoding="utf-8", errors="replace"))
            if found:
                break
            time.sleep(0.1)
        assert found, said.read_text(encoding="utf-8", errors="replace")
        yield Firefox(found[1])
    finally:
        process.terminate()
        process.wait(20)


# -- WebKit ---------------------------------------------------------------------------------------


class WebKit:
    """WebKitGTK's small browser; its window is 447 px wide at least."""

    def __init__(self, driver: Any) -> None:
        self.driver = driver

    def open(self, url: str) -> None:
        self.driver.get(url)

    def run(self, expression: str) -> Any:
        return json.loads(self.driver.execute_async_script(
            f"const done = arguments[0]; Promise.resolve({expression})"
            ".then((each) => done(JSON.stringify(each ?? null)));"))

    def click(self, css: str) -> None:
        from selenium.webdriver.common.by import By

        self.driver.find_element(By.CSS_SELECTOR, css).click()


@contextmanager
def display() -> Iterator[str]:
    """A screen in memory, by the name under which programs find it."""
    read, write = os.pipe()
    process = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1280x1024x24", "-nolisten", "tcp"],
        pass_fds=[write], stderr=subprocess.DEVNULL)
    os.close(write)
    try:
        with os.fdopen(read) as number:
            yield f":{number.readline().strip()}"
    finally:
        process.terminate()
        process.wait(20)


@contextmanager
def webkit(folder: Path) -> Iterator[Engine]:
    """A WebKit that keeps nothing from before."""
    from selenium import webdriver
    from selenium.webdriver.webkitgtk.options import Options
    from selenium.webdriver.webkitgtk.service import Service

    options = Options()
    options.binary_location = next(path for each in BROWSERS for path in glob.glob(each))
    options.add_argument("--automation")
    with display() as screen:
        service = Service(shutil.which("WebKitWebDriver"),
                          env={**os.environ, "DISPLAY": screen, "HOME": str(folder)})
        driver = webdriver.WebKitGTK(options=options, service=service)
        try:
            driver.set_window_size(WIDE, HIGH)
            yield WebKit(driver)
        finally:
            driver.quit()


ENGINES = {"firefox": firefox, "webkit": webkit}

"""A site that is closed and opened in the same instant, in a browser that nothing is attached to.

A debugger, as every other test here has, changes when Chromium stops a worker (`close_site` in
test_offline.py). Here a page outside of the site opens and closes the site's pages in windows of
its own, and tells the server what came.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from queue import Queue

import pytest

from .conftest import QUIET, at_hand
from .serving import served
from .test_offline import SIZE, UNDER, Served, _copy, _Slow

TURNS = 12
BURDEN = "while True: pass"  # a busy machine makes the instant longer

DRIVER = """<!doctype html><title>Driver</title><script>
const SITE = "/%(site)s/", PAGE = SITE + "%(page)s";
const say = (path, text) => fetch(path, { method: "POST", body: text });
async function until(look) {
  for (let tries = 0; tries < 800; tries += 1) {
    try { const found = look(); if (found) return found; } catch { /* not there yet */ }
    await new Promise((done) => setTimeout(done, 15));
  }
  return null;
}
async function turn(number) {
  let site = window.open(PAGE);
  const box = () => site.document.querySelector(".wb-keep");
  (await until(() => box().querySelector("button:not([hidden])"))).click();
  await until(() => box().textContent.includes("Saved offline"));
  await say("/renew", String(number));
  const registration = await navigator.serviceWorker.getRegistration(SITE);
  await registration.update();
  const newer = registration.installing || registration.waiting;
  if (!await until(() => newer.state !== "installing")) throw new Error("not installed");
  site.close();
  site = window.open(PAGE);
  const article = await until(() => site.document.readyState === "complete"
    && site.document.querySelector("article"));
  await say("/came", article ? article.textContent : "nothing");
  site.close();
  await registration.unregister();
  for (const name of await caches.keys()) await caches.delete(name);
  await new Promise((done) => setTimeout(done, 500));
}
(async () => {
  for (let number = 0; number < %(turns)d; number += 1) {
    await turn(number).catch((fault) => say("/came", String(fault)));
  }
})();
</script>"""


class _Told(_Slow):
    """Publishes the site anew when the driver asks, and takes what it says."""

    said: Queue[str] = Queue()
    site: Served
    text = ""

    def do_POST(self) -> None:
        body = self.rfile.read(int(self.headers["Content-Length"])).decode()
        if self.path == "/renew":
            size = self.site.folder / SIZE
            size.write_text(self.text.replace("Hang the weights", f"Hang the weights {body}"),
                            encoding="utf-8")
            self.site.publish()
        else:
            self.said.put(body)
        self.send_response(204)
        self.end_headers()


@pytest.fixture
def burden() -> Iterator[None]:
    busy = [subprocess.Popen([sys.executable, "-c", BURDEN]) for _ in range(2)]
    yield
    for each in busy:
        each.kill()
        each.wait()


@pytest.fixture
def unwatched(site: Path, tmp_path: Path) -> Iterator[Queue[str]]:
    """What the driver says, page by page, from a browser that no test has hold of."""
    path = at_hand(whole=True)
    if path is None:
        pytest.skip("the test library's own Chromium is only started by that library")
    _copy(site, tmp_path / UNDER)
    (tmp_path / "driver.html").write_text(
        DRIVER % {"site": UNDER, "page": SIZE, "turns": TURNS}, encoding="utf-8")
    with served(tmp_path, _Told) as host:
        _Told.site = Served(tmp_path / UNDER, host)
        _Told.text = (tmp_path / UNDER / SIZE).read_text(encoding="utf-8")
        _Told.site.publish()
        started = subprocess.Popen(
            [path, "--headless=new", "--disable-popup-blocking", *QUIET,
             f"--user-data-dir={tmp_path / 'profile'}", f"{host}/driver.html"],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        yield _Told.said
        started.terminate()
        started.wait(30)


@pytest.mark.long
def test_a_site_opened_again_in_the_same_instant_comes_whole(
        unwatched: Queue[str], burden: None) -> None:
    """In its older edition or in the newer one, and never not at all."""
    for number in range(TURNS):
        came = unwatched.get(timeout=60)
        assert "Hang the weights" in came, f"turn {number}: {came[:200]}"

"""What "My gauge" costs a reader: bytes, seconds by line and processor, memory, long tasks.

    python -m tests.bench.bench_my_gauge [--slow 4]

Chromium is run whole. Throttling by its tools does not reach workers, so the line is slowed by the
server, which sends all answers through one rate, and the processor by quotas of the system (control
groups, which take the rights of the superuser): at a slowness of 4 each thread of the browser has a
quarter of a processor, as on a device whose processors are four times as slow, or all threads have
a quarter of one processor together. A loop that spins in a worker is timed first and last, in every
case, so that it can be seen how slow the processor really was: other work on the machine slows it
too. No figure is a test.
"""

from __future__ import annotations

import argparse
import gzip
import json
import os
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO

from playwright.sync_api import Page, Playwright, sync_playwright
from walebook_site.runtime import FOLDER, LOADED, runtime_of

from tests.site.serving import ROOT, Silent, served

GROUPS = Path("/sys/fs/cgroup/cpu")
PATTERN, SIZE = "slack-tide-cardigan", "m"
SETTINGS = ("site_name: Lantern Quay\ndocs_dir: patterns\nstrict: true\n"
            "plugins:\n  - walebook: {my_gauge: true}\n")
SPIN = """() => new Promise((done) => {
  const code = "const a = performance.now(); let n = 0;"
    + "for (let i = 0; i < 3e7; i += 1) n = (n * 31 + i) | 0;"
    + "postMessage(performance.now() - a + n * 0)";
  const worker = new Worker(URL.createObjectURL(new Blob([code])));
  worker.onmessage = ({ data }) => done(Math.round(data));
})"""
WATCH = """() => {
  const heard = [], long = [];
  new PerformanceObserver((list) => long.push(...list.getEntries().map((one) => one.duration)))
    .observe({ type: "longtask" });
  const at = document.querySelector(".wb-gauge-said");
  new MutationObserver(() => {
    heard.push(at.textContent);
    sessionStorage.heard = JSON.stringify(heard);
    sessionStorage.long = JSON.stringify(long);
  }).observe(at, { childList: true, characterData: true, subtree: true });
}"""
KEPT = """async () => {
  for (const name of await caches.keys())
    if (name.startsWith("start ")) {
      const held = await (await caches.open(name)).keys();
      if (held.some(({ url }) => url.endsWith("/state"))) return true;
    }
  return false;
}"""
FORGET = """async () => {
  for (const name of await caches.keys()) if (name.startsWith("start ")) await caches.delete(name);
}"""


class Line:
    """One line for all answers: `rate` bytes a second, 0 for as fast as it goes."""

    def __init__(self) -> None:
        self.rate, self.sent = 0, 0
        self._lock, self._free = threading.Lock(), 0.0

    def send(self, into: BinaryIO, data: bytes) -> None:
        """Send the data, in the time that it takes on this line."""
        for start in range(0, len(data), 1 << 14):
            part = data[start:start + (1 << 14)]
            with self._lock:
                self.sent += len(part)
                self._free = max(self._free, time.monotonic()) + len(part) / (self.rate or 1e12)
                wait = self._free - time.monotonic()
            time.sleep(max(0, wait))
            into.write(part)


class Handler(Silent):
    """Sends files over the line; scripts and pages compressed, as hosts do."""

    line: Line

    def do_GET(self) -> None:
        """Answer with the file, or with 404."""
        path = Path(self.translate_path(self.path))
        if not path.is_file():
            self.send_error(404)
            return
        data = path.read_bytes()
        self.send_response(200)
        if path.suffix in (".js", ".html", ".css", ".json"):
            data = gzip.compress(data, 6)
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Type", self.guess_type(str(path)))
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "max-age=600")
        self.end_headers()
        try:
            self.line.send(self.wfile, data)
        except OSError:
            self.close_connection = True


def site(folder: Path) -> Path:
    """Build a site of one pattern with the runtime that lies ready."""
    for name in ("_beds", "_sizes", PATTERN):
        shutil.copytree(ROOT / "patterns" / name, folder / "patterns" / name)
    (folder / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    (folder / FOLDER).symlink_to(ROOT / FOLDER)
    subprocess.run([sys.executable, "-m", "mkdocs", "build", "--strict", "-q"], cwd=folder,
                   check=True)
    return folder / "site"


def in_bytes() -> str:
    """What comes to a device, where the host compresses scripts."""
    files = runtime_of(ROOT).files
    sizes = {name: len(files[name] if name.endswith(".bin") else gzip.compress(files[name], 6))
             for name in LOADED}
    told = "; ".join(f"{name} {size:,}" for name, size in sizes.items())
    return f"{told}; in all {sum(sizes.values()):,}"


class Slowed:
    """Gives the threads of a browser 1/by of a processor: each of them, or all together."""

    def __init__(self, by: float, *, together: bool) -> None:
        self._by, self._together = by, together
        self._groups: dict[int, Path] = {}
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._watch)
        self._browser = 0

    def watch(self, browser: int) -> None:
        """Slow this browser, whatever processes and threads it starts."""
        self._browser = browser
        if self._by > 1:
            self._thread.start()

    def _watch(self) -> None:
        while not self._over.wait(.02):
            for pid in family(self._browser):
                with suppress(OSError):
                    for thread in map(int, os.listdir(f"/proc/{pid}/task")):
                        if thread not in self._groups:
                            self._slow(thread)

    def _slow(self, thread: int) -> None:
        if self._together and self._groups:
            group = next(iter(self._groups.values()))
        else:
            group = GROUPS / f"walebook-{os.getpid()}-{thread}"
            group.mkdir()
            (group / "cpu.cfs_period_us").write_text("20000")
            (group / "cpu.cfs_quota_us").write_text(str(int(20000 / self._by)))
        self._groups[thread] = group
        (group / "tasks").write_text(str(thread))

    def __enter__(self) -> Slowed:
        return self

    def __exit__(self, *fault: object) -> None:
        self._over.set()
        if self._thread.is_alive():
            self._thread.join()
        for group in set(self._groups.values()):
            for _ in range(50):
                try:
                    group.rmdir()
                    break
                except OSError:
                    time.sleep(.1)


def family(pid: int) -> list[int]:
    """A process and all that it has started."""
    parents: dict[int, list[int]] = {}
    for name in filter(str.isdigit, os.listdir("/proc")):
        with suppress(OSError):
            status = Path(f"/proc/{name}/stat").read_text().rpartition(")")[2]
            parents.setdefault(int(status.split()[1]), []).append(int(name))
    found = [pid]
    for one in found:
        found += parents.get(one, [])
    return found


def largest(browser: int) -> float:
    """The memory of the browser's largest process that shows pages [MB]."""
    found = [0.0]
    for pid in family(browser):
        try:
            if "--type=renderer" in Path(f"/proc/{pid}/cmdline").read_text():
                told = Path(f"/proc/{pid}/smaps_rollup").read_text()
                found.append(int(told.partition("Pss:")[2].split()[0]) / 1000)
        except OSError:
            continue
    return max(found)


class Peak:
    """The most that the largest process has while something goes on [MB], looked at in turn."""

    def __init__(self, browser: int) -> None:
        self._browser, self.most, self._over = browser, 0.0, threading.Event()
        self._thread = threading.Thread(target=self._watch)

    def _watch(self) -> None:
        while not self._over.wait(.3):
            self.most = max(self.most, largest(self._browser))

    def __enter__(self) -> Peak:
        self._thread.start()
        return self

    def __exit__(self, *fault: object) -> None:
        self._over.set()
        self._thread.join()


def open_form(page: Page, address: str) -> None:
    """Open the page with its form."""
    page.goto(f"{address}/patterns/{PATTERN}/{SIZE}.html#my-gauge")
    page.wait_for_selector(".wb-gauge-form button[type=submit]", timeout=120_000)


def press(page: Page, width: str) -> tuple[float, list[str]]:
    """Enter a gauge and press: the seconds until her page of it stands, and what was said then.

    The page before may be hers too, at another gauge: so the width is looked for.
    """
    for name, text in {"stitches": "20", "width": width, "rows": "30", "height": "16.2"}.items():
        page.fill(f"#wb-gauge-body-{name}", text)
    page.evaluate(WATCH)
    began = time.monotonic()
    page.click(".wb-gauge-form button[type=submit]")
    page.wait_for_selector(f".wb-mine:has-text('over {width} cm')", timeout=300_000)
    return time.monotonic() - began, json.loads(page.evaluate("sessionStorage.heard || '[]'"))


def longest(page: Page) -> str:
    """The longest stretch in which the page could not answer while it waited."""
    found = json.loads(page.evaluate("sessionStorage.long || '[]'"))
    return f"{max(found, default=0):.0f} ms"


def seconds_until_kept(page: Page) -> float:
    """How long her page took to keep a start for the next time, from now."""
    began = time.monotonic()
    while not page.evaluate(KEPT) and time.monotonic() - began < 120:
        time.sleep(.5)
    return time.monotonic() - began


def one_reader(play: Playwright, address: str, line: Line, rate: float, by: float, *,
               together: bool) -> None:
    """First use, the next gauge on her page, and later starts."""
    line.rate = int(rate * 1e6 / 8)
    with Slowed(by, together=together) as slow, tempfile.TemporaryDirectory() as profile:
        context = play.chromium.launch_persistent_context(
            profile, executable_path=shutil.which("chromium"), args=["--no-sandbox"],
            viewport={"width": 360, "height": 740})
        browser = next(pid for pid in family(os.getpid()) if f"--user-data-dir={profile}"
                       in _called(pid) and "--type=" not in _called(pid))
        slow.watch(browser)
        page = context.new_page()
        open_form(page, address)
        spin, empty = page.evaluate(SPIN), largest(browser)
        of = "all threads together" if together else "each thread"
        print(f"line {rate:g} Mb/s, processor / {by:g} ({of}); a loop takes {spin} ms; load "
              f"{os.getloadavg()[0]:.1f}", flush=True)
        line.sent = 0
        with Peak(browser) as peak:
            seconds, heard = press(page, "14.5")
        loading = {text for text in heard if text.startswith("Loading")}
        print(f"  first use {seconds:.1f} s, {line.sent / 1e6:.2f} MB, progress {len(loading)} "
              f"times, longest task {longest(page)}, page's process {empty:.0f} -> "
              f"{peak.most:.0f} MB", flush=True)
        page.wait_for_selector(".wb-gauge-form button[type=submit]")
        with Peak(browser) as peak:
            print(f"  on her page a start is kept after {seconds_until_kept(page):.1f} s, "
                  f"{peak.most:.0f} MB meanwhile", flush=True)
        time.sleep(12)  # the browser keeps what it compiled, and the worker ends
        line.sent = 0
        empty = largest(browser)
        with Peak(browser) as peak:
            page.fill("#wb-gauge-body-width", "14.7")
            time.sleep(4 * by)  # she enters four figures, and the worker starts
            seconds, _ = press(page, "14.7")
        print(f"  another gauge, her page {seconds:.1f} s, {line.sent / 1e6:.2f} MB, longest task "
              f"{longest(page)}, {empty:.0f} -> {peak.most:.0f} MB", flush=True)
        for what, before in (("kept start", "() => 0"), ("browser's store alone", FORGET)):
            page.evaluate(before)
            page.close()
            page = context.new_page()
            open_form(page, address)
            with Peak(browser) as peak:
                seconds, _ = press(page, "15.1")
            print(f"  a new page, from the {what}: {seconds:.1f} s, {peak.most:.0f} MB", flush=True)
        print(f"  the loop takes {page.evaluate(SPIN)} ms; kept in the end: "
              f"{page.evaluate('Object.keys(localStorage).length')} entries", flush=True)
        context.close()


def _called(pid: int) -> str:
    try:
        return Path(f"/proc/{pid}/cmdline").read_text()
    except OSError:
        return ""


def main() -> None:
    """Print all."""
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--slow", type=float, default=4)
    ask.add_argument("--site", type=Path)
    given = ask.parse_args()
    print(f"load {os.getloadavg()[0]:.1f}", flush=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        built = given.site or site(Path(folder))
        Handler.line = Line()
        with served(built, Handler) as address:
            for rate, by, together in ((0, 1, False), (10, given.slow, False),
                                       (10, given.slow, True), (1.6, 1, False)):
                one_reader(play, address, Handler.line, rate, by, together=together)
    print(in_bytes(), flush=True)
    print(f"load {os.getloadavg()[0]:.1f}", flush=True)


if __name__ == "__main__":
    main()

"""What pages weigh and how they answer on a slow phone: bytes, step to step, the second visit.

    python -m tests.bench.bench_pages [--site FOLDER] [--steps N]

Never part of the tests: it prints, and asserts nothing about time. The budgets are printed beside
the figures: the makers' own. The slow phone is Chromium with its processor slowed four times. Of
its two lines one has 1.6 Mb/s and 150 ms to and fro (Lighthouse's slow phone), the other 400 kbit/s
and 400 ms (common practice for a slow third-generation line, no source).
"""

from __future__ import annotations

import argparse
import gzip
import re
import statistics
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, CDPSession, Page, sync_playwright

from tests.site.conftest import QUIET, ROOT, at_hand, build
from tests.site.serving import Silent, served

SLOWER = 4
GOES = 3
LINES = {"1.6 Mb/s, 150 ms": (150, 200_000), "400 kb/s, 400 ms": (400, 50_000)}  # [ms], [byte/s]
UNPROMISED = ("first", "400 kb/s, 400 ms")  # no budget was ever set for it
OWN = ("assets/*.css", "assets/*.js", "assets/bench/*.js", "sw.js")
FILLED = re.compile(r"(?m)^const EDITION = .*$")
IN_ONE_FILE = {"alone.css", "one-size.js"}  # no page of the site asks for these
OPEN = "walebook.bench.open(walebook.bench.parts[0].key)"
FORWARD = "dialog.wb-bench .wb-zone-forward"
# A touch of Done, which leads on to the next part where one is at the end of a part.
STEP = """(selector) => new Promise((done) => {
  const { parts, open, at } = walebook.bench, { step, name } = at();
  const here = parts.findIndex((part) => part.key === name);
  if (here >= 0 && step >= parts[here].steps.length) open(parts[(here + 1) % parts.length].key);
  const start = performance.now();
  document.querySelector(selector).click();
  requestAnimationFrame(() => setTimeout(() => done(performance.now() - start)));
})"""
# All that a visit brought of the site, by kind, as sent; the worker and what it keeps not counted.
BROUGHT = """() => {
  const out = {}, all = ["navigation", "resource"].flatMap((kind) =>
    performance.getEntriesByType(kind));
  for (const { name, encodedBodySize } of all) {
    const kind = (/\\.(\\w+)$/.exec(new URL(name).pathname) || ["", "other"])[1];
    out[kind] = (out[kind] || 0) + encodedBodySize;
  }
  return out;
}"""
READABLE = """() => Math.round(performance.getEntriesByType("paint")
  .find((entry) => entry.name === "first-contentful-paint").startTime)"""


class Compressing(Silent):
    """Serves text compressed, as any host does."""

    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path))
        if path.suffix not in (".html", ".css", ".js", ".json", ".svg") or not path.is_file():
            return super().do_GET()
        body = gzip.compress(path.read_bytes(), 6)
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(path)))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)
        return None


def weigh(site: Path) -> Path:
    """Print what scripts, styles and pages weigh; return the largest size page."""
    own = sorted({path for kind in OWN for path in site.glob(kind)
                  if path.name not in IN_ONE_FILE})
    total = 0
    for path in own:
        # The worker without what is filled in: that is the list of the site's files.
        text = FILLED.sub("", path.read_text(encoding="utf-8"))
        size = len(gzip.compress(text.encode(), 9))
        total += size
        print(f"  {size:>7,} bytes  {path.relative_to(site)}")
    print(f"own scripts and styles of all pages, compressed: {total / 1024:.1f} KB")
    pages = [p for p in site.glob("patterns/*/*.html")
             if p.name != "index.html" and not p.name.endswith("-single-file.html")]
    largest = max(pages, key=lambda path: path.stat().st_size)
    html = largest.stat().st_size
    print(f"largest size page, {largest.relative_to(site)}: {html / 1024:.1f} KB of HTML "
          f"(budget 150 KB), {len(gzip.compress(largest.read_bytes(), 6)) / 1024:.1f} KB sent")
    beside = largest.with_name(f"{largest.stem}-single-file.html")
    if beside.exists():
        print(f"its one file to keep: {beside.stat().st_size / 1024:.1f} KB")
    return largest


def slow(page: Page, line: tuple[int, int] | None = None) -> CDPSession:
    """Slow the processor, and the line where one is given."""
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    if line:
        session.send("Network.enable")
        session.send("Network.emulateNetworkConditions", {
            "offline": False, "latency": line[0], "downloadThroughput": line[1],
            "uploadThroughput": line[1]})
    return session


def step_to_step(browser: Browser, url: str, steps: int) -> None:
    """Print how long it takes from a touch to the next step's being on the screen.

    Every step is gone to several times and its quickest counts: on a machine that does other work
    a single go can take ten times as long, in script, style and layout alike.
    """
    goes = [_one_go(browser, url, steps) for _ in range(GOES)]
    times = [min(same) for same in zip(*goes, strict=True)]
    print(f"step to step, processor slowed {SLOWER} times, the best of {GOES} goes: median "
          f"{statistics.median(times):.0f} ms, longest {max(times):.0f} ms of {len(times)} steps "
          f"(budget 50 ms)")


def _one_go(browser: Browser, url: str, steps: int) -> list[float]:
    page = browser.new_page(viewport={"width": 360, "height": 740})
    page.goto(url)
    page.evaluate("walebook.settings.choose('pause', '0')")
    page.evaluate(OPEN)
    slow(page)
    times = []
    for _ in range(steps):
        times.append(page.evaluate(STEP, FORWARD))
        page.wait_for_timeout(100)
    page.context.close()
    return times


def first_visit(browser: Browser, url: str) -> None:
    """Print what a first visit brings, compressed: the page with all that it asks for."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = context.new_page()
    page.goto(url, wait_until="networkidle")
    kinds: dict[str, int] = page.evaluate(BROUGHT)
    print("a first visit brings " + ", ".join(
        f"{size / 1000:.1f} kB of {kind}" for kind, size in sorted(kinds.items()))
        + f": {sum(kinds.values()) / 1000:.0f} kB (budget 350 kB)")
    context.close()


def visits(browser: Browser, url: str, line: str) -> None:
    """Print when the page is readable at the first visit, at the second, and when it is kept."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    for visit in ("first", "second", "kept"):
        page = context.new_page()
        slow(page, LINES[line])
        page.goto(url)
        print(f"{visit} visit, slowed {SLOWER} times, {line}: readable after "
              f"{page.evaluate(READABLE)} ms"
              + (" (budget 1000 ms)" if (visit, line) != UNPROMISED else ""))
        if visit == "first":  # the worker has brought the frame once the pattern can be kept
            page.get_by_role("button", name="Save offline").wait_for(timeout=120_000)
        if visit == "second":
            page.get_by_role("button", name="Save offline").click()
            page.get_by_text("Saved offline").wait_for(timeout=120_000)
        page.close()
    context.close()


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--site", type=Path, help="a built site (default: build one)")
    parser.add_argument("--steps", type=int, default=50)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as made:
        site = given.site or Path(made) / "site"
        if not given.site:
            build(ROOT, site).check_returncode()
        largest = weigh(site)
        with served(site, Compressing) as address, sync_playwright() as play:
            browser = play.chromium.launch(executable_path=at_hand(), args=QUIET)
            url = f"{address}/{largest.relative_to(site).as_posix()}"
            step_to_step(browser, url, given.steps)
            first_visit(browser, url)
            for line in LINES:
                visits(browser, url, line)


if __name__ == "__main__":
    main()

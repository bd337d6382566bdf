"""What it takes from a save to the paint of the page that is looked at, in a real browser.

    python -m tests.bench.bench_preview [--patterns 200] [--times 5] [--root FOLDER]

Never part of the tests: it prints, and asserts nothing about time. The collection is one cardigan,
copied, in twelve sizes, of which three are others again. A save is the change of the file; the
paint is what the browser itself says of its first one with contents, by the same clock. The preview
runs a copy of our own code, which can be changed too. Times are of use on a machine that does
nothing else: the load of the last minute is printed beside them. All patterns are in the cache
before, as they are from the second start on; FOLDER keeps them for another run.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

from playwright.sync_api import Page, sync_playwright

from tests.site.conftest import QUIET, at_hand

ROOT = Path(__file__).parents[2]
SLUG = "slack-tide-cardigan"
BEGUN = 20  # seconds in which a preview has begun again, with the code of the change before
TWICE = ("M", "L", "XL")
URL = "http://127.0.0.1:8123"
LOOKED_AT = f"{SLUG}-0"
PAINTED = """() => window.walebookOld === undefined
  && performance.getEntriesByName("first-contentful-paint")
       .map((entry) => performance.timeOrigin + entry.startTime)[0]"""


def twelve(text: str) -> str:
    """A source, or a chart, with three of its sizes twice."""
    for size in TWICE:
        text = re.sub(rf"(?<=[{{ ]){size}: ([^,}}\n]+)(?=[,}}])",
                      rf"{size}: \1, {size}2: \1", text)
        text = re.sub(rf"^(sizes: \[.*\b{size}),", rf"\1, {size}2,", text, flags=re.MULTILINE)
    return text


def project(root: Path, copies: int) -> Path:
    """A site with so many patterns in twelve sizes, and a copy of our own code."""
    for name in ("site_src", "hooks"):
        shutil.copytree(ROOT / name, root / name)
    settings = (ROOT / "site_src" / ".site.yml").read_text(encoding="utf-8")
    (root / "mkdocs.yml").write_text(f"{settings}hooks:\n  - hooks/patterns.py\n", encoding="utf-8")
    for name, package in (("engine", "walebook"), ("hooks", "walebook_site")):
        shutil.copytree(ROOT / name, root / "code" / package)
    for folder in ROOT.glob("patterns/_*"):
        shutil.copytree(folder, root / "patterns" / folder.name)
    chart = root / "patterns" / "_sizes" / "women.yaml"
    chart.write_text(twelve(chart.read_text(encoding="utf-8")), encoding="utf-8")
    for number in range(copies):
        copied = root / "patterns" / f"{SLUG}-{number}"
        shutil.copytree(ROOT / "patterns" / SLUG, copied)
        source = copied / "pattern.yaml"
        source.write_text(twelve(source.read_text(encoding="utf-8")), encoding="utf-8")
    return root


@contextmanager
def served(root: Path) -> Iterator[None]:
    """The preview of a project, until the end of the block."""
    process = subprocess.Popen(
        [sys.executable, "-m", "walebook_site.command", "serve", "--at", URL.partition("//")[2]],
        cwd=root, env={**os.environ, "PYTHONPATH": str(root / "code"),
                       "NO_MKDOCS_2_WARNING": "1", "DISABLE_MKDOCS_2_WARNING": "true"})
    try:
        yield
    finally:
        process.send_signal(signal.SIGINT)
        process.wait()


def answers(path: str) -> str:
    """What the preview answers; waited for."""
    for _ in range(600):
        try:
            with urlopen(f"{URL}/{path}", timeout=120) as answer:
                return str(answer.read().decode())
        except (URLError, ConnectionError):
            time.sleep(0.1)
    raise TimeoutError(path)


def calm() -> float:
    """Wait until all patterns are knitted; return how long that took [s]."""
    start = time.monotonic()
    while "still being knitted" in answers(".preview/changes?page=about.html"):
        time.sleep(1)
    return time.monotonic() - start


def save_to_paint(page: Page, save: Callable[[], object], expected: str) -> float:
    """How long it takes from a save to the paint of the page with this text in it [s]."""
    page.evaluate("window.walebookOld = true")
    start = time.time()
    save()
    painted = page.wait_for_function(PAINTED, timeout=60_000).json_value()
    assert expected in page.locator("article").inner_text(), expected
    return float(painted) / 1000 - start


def changed(path: Path, old: str, new: str) -> Callable[[], object]:
    """A save of a file in which one text is another."""
    text = path.read_text(encoding="utf-8")
    assert old in text, old
    return lambda: path.write_text(text.replace(old, new), encoding="utf-8")


def measured(page: Page, root: Path, times: int) -> Iterator[str]:
    """A line for each kind of change."""
    page.goto(f"{URL}/patterns/{LOOKED_AT}/m.html")
    source = root / "patterns" / LOOKED_AT / "pattern.yaml"
    chart = root / "patterns" / "_sizes" / "women.yaml"
    code = root / "code" / "walebook" / "words" / "credits.py"
    deep = root / "code" / "walebook" / "core" / "units.py"
    for what, at_most, path, old, new in (
            ("one pattern", 0.5, source, "title: Slack Tide", "title: Slack § Tide"),
            ("a shared chart", 1.0, chart, "label: bust", "label: bust §"),
            ("our own code, a sentence", 1.0, code, "Version {", "Version § {"),
            ("our own code, what all import", 1.0, deep, "()} cm", "()} cm§")):
        taken = []
        whole = path.read_text(encoding="utf-8")
        for number in range(times):
            calm()
            time.sleep(BEGUN if path.suffix == ".py" else 5)
            page.wait_for_load_state()
            mark = f"{number}{number}{number}"
            save = changed(path, old, new.replace("§", mark))
            taken.append(save_to_paint(page, save, mark))
            path.write_text(whole, encoding="utf-8")
            time.sleep(2)
        yield (f"{what}: median {statistics.median(taken):.2f} s, of {len(taken)} from "
               f"{min(taken):.2f} to {max(taken):.2f} s (aim {at_most} s); "
               f"load {os.getloadavg()[0]:.1f}")


def fill(root: Path) -> None:
    """Let all patterns be in the cache."""
    subprocess.run([sys.executable, "-m", "walebook_site.command", "pages", str(root / "pages")],
                   cwd=root, env={**os.environ, "PYTHONPATH": str(root / "code")}, check=True,
                   stdout=subprocess.DEVNULL, preexec_fn=lambda: os.nice(30))


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--patterns", type=int, default=200)
    parser.add_argument("--times", type=int, default=5)
    parser.add_argument("--root", type=Path)
    parser.add_argument("--fill", action="store_true", help="only fill the cache")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        root = given.root or Path(folder) / "bench"
        if not root.exists():
            fill(project(root, given.patterns))
        if not given.fill:
            run(root, given.times)


def run(root: Path, times: int) -> None:
    """Serve the project, and print what is measured."""
    with served(root), sync_playwright() as play:
        start = time.monotonic()
        answers(f"patterns/{LOOKED_AT}/m.html")
        print(f"first page after {time.monotonic() - start:.1f} s", flush=True)
        print(f"all patterns after {calm():.0f} s more", flush=True)
        browser = play.chromium.launch(executable_path=at_hand(), args=QUIET)
        page = browser.new_page(viewport={"width": 1000, "height": 700})
        for line in measured(page, root, times):
            print(line, flush=True)


if __name__ == "__main__":
    main()

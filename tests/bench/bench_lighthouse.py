"""What Lighthouse says of home, an overview and the heaviest size page, on its slowed phone.

    python -m tests.bench.bench_lighthouse [--site FOLDER] [--goes N] [--faults]

Never part of the tests: it prints, and asserts nothing, because a busy machine makes a page slow.
Lighthouse stands in `.ci/package.json`; its phone has a processor slowed four times and a line of
1.6 Mb/s and 150 ms, both computed from one quick visit. Of several goes the best counts. Wanted: 95
for performance, 100 for accessibility, best practices and search engines.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from tests.bench.bench_pages import Compressing
from tests.site.conftest import QUIET, ROOT, build
from tests.site.serving import served

KINDS = {"performance": 95, "accessibility": 100, "best-practices": 100, "seo": 100}
PAINTS = ("first-contentful-paint", "largest-contentful-paint", "speed-index",
          "total-blocking-time", "cumulative-layout-shift", "total-byte-weight")
OVERVIEW = "patterns/slack-tide-cardigan/index.html"
ALONE = "-single-file"


class _Host(Compressing):
    """Keeps a connection open for the next file, as any host does."""

    protocol_version = "HTTP/1.1"


def heaviest(site: Path) -> str:
    """The size page with the most bytes, as its path in the site."""
    sizes = [path for path in site.glob("patterns/*/*.html")
             if path.name != "index.html" and not path.stem.endswith(ALONE)]
    return max(sizes, key=lambda path: path.stat().st_size).relative_to(site).as_posix()


def command() -> list[str]:
    """Node with Lighthouse, brought by npm where they are not there yet."""
    sys.path.insert(0, str(ROOT / ".ci"))
    import scripts

    node = scripts.node_folder()
    scripts.install(node)
    return [str(node / "node"), str(scripts.MODULES / "lighthouse" / "cli" / "index.js")]


def look(words: list[str], url: str) -> dict[str, Any]:
    """Lighthouse's report of a page, in its own form."""
    chromium = os.environ.get("WALEBOOK_BROWSER") or shutil.which("chromium") or ""
    with tempfile.TemporaryDirectory() as folder:
        out = Path(folder) / "report.json"
        flags = " ".join(["--headless=new", *QUIET])
        done = subprocess.run(
            [*words, url, "--quiet", "--no-enable-error-reporting", "--output=json",
             f"--output-path={out}", f"--only-categories={','.join(KINDS)}",
             f"--chrome-flags={flags}"],
            env={**os.environ, "CHROME_PATH": chromium}, capture_output=True, text=True,
            check=False)
        if not out.exists():
            sys.exit(f"Lighthouse wrote no report of {url}:\n{done.stderr}")
        report: dict[str, Any] = json.loads(out.read_text(encoding="utf-8"))
    return report


def marks(report: dict[str, Any]) -> dict[str, int]:
    """The mark of each kind, from 0 to 100."""
    return {kind: round(100 * (report["categories"][kind]["score"] or 0)) for kind in KINDS}


def faults(report: dict[str, Any]) -> list[str]:
    """Every audit with weight that is not whole, with what it found, a line each."""
    found = []
    for kind in KINDS:
        for each in report["categories"][kind]["auditRefs"]:
            audit = report["audits"][each["id"]]
            if each["weight"] and audit["score"] is not None and audit["score"] < 1:
                items = audit.get("details", {}).get("items", [])
                nodes = [item["node"]["selector"] for item in items if "node" in item]
                found.append(f"{kind}: {each['id']} {audit.get('displayValue', '')} "
                             f"{'; '.join(nodes[:4])}".rstrip())
    return found


def measure(words: list[str], url: str, goes: int, *, with_faults: bool) -> None:
    """Print the best marks of a page, its times, and what was found."""
    reports = [look(words, url) for _ in range(goes)]
    best = max(reports, key=lambda report: marks(report)["performance"])
    print("  " + ", ".join(f"{kind} {mark}" + ("" if mark >= KINDS[kind] else
                                               f" (wanted {KINDS[kind]})")
                           for kind, mark in marks(best).items()))
    print("  " + ", ".join(f"{paint} {best['audits'][paint]['displayValue']}"
                           for paint in PAINTS))
    if with_faults:
        for line in faults(best):
            print(f"    {line}")


def main() -> None:
    """Run the bench."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--site", type=Path, help="a built site (default: build one)")
    parser.add_argument("--goes", type=int, default=3)
    parser.add_argument("--faults", action="store_true", help="name what is not whole")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as made:
        site = given.site or Path(made) / "site"
        if not given.site:
            build(ROOT, site).check_returncode()
        words = command()
        with served(site, _Host) as address:
            for path in ("index.html", OVERVIEW, heaviest(site)):
                print(f"{path}, {(site / path).stat().st_size:,} bytes")
                measure(words, f"{address}/{path}", given.goes, with_faults=given.faults)


if __name__ == "__main__":
    main()

"""The walebook command: checks pattern sources, or writes their pages as plain files."""

from __future__ import annotations

import argparse
import io
import json
import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from walebook.pages import counts_schema, pattern_cards, write_pages
from walebook.problems import Severity
from walebook_site.sources import Collection, collect


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command; return 0, or 1 when a pattern has errors (2 for a wrong call)."""
    parser = argparse.ArgumentParser(prog="walebook", description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    check = commands.add_parser("check", help="list every finding of every pattern")
    pages = commands.add_parser("pages", help="write the pages as plain Markdown files")
    pages.add_argument("out", type=Path, help="the folder to write into; made if missing")
    for each in (check, pages):
        each.add_argument("--root", type=Path, default=Path.cwd(),
                          help="the folder that holds patterns/ (default: this one)")
    given = parser.parse_args(argv)
    _print_anything()
    if not (given.root / "patterns").is_dir():
        parser.error(f"no folder patterns/ in {given.root}")
    collection = collect(given.root)
    for finding in collection.rendered():
        print(finding, end="\n\n")
    if given.command == "pages" and collection.is_sound:
        count = write_out(collection, given.out)
        print(f"{count} files written to {given.out}")
    print(summary(collection))
    return 0 if collection.is_sound else 1


def _print_anything() -> None:
    """Let what the terminal's character set lacks be printed as an escape, on any system."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")


def summary(collection: Collection) -> str:
    """Return one line: what was knitted and what was not, and the findings of each weight."""
    found = Counter(p.severity for p in collection.problems)
    sizes = sum(len(p.sizes) for p in collection.proofs)
    tally = ", ".join(_counted(found[s], s.value) for s in Severity)
    left = f" Not knitted: {', '.join(collection.unproved)}." if collection.unproved else ""
    return (f"{_counted(len(collection.proofs), 'pattern')} knitted on the virtual bed in "
            f"{_counted(sizes, 'size')}: {tally}.{left}")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def write_out(collection: Collection, out: Path) -> int:
    """Write every page, count file and picture under `out`; return how many files."""
    texts = {page.path: page.text for proof in collection.proofs for page in write_pages(proof)}
    texts["patterns/counts.schema.json"] = json.dumps(counts_schema(), indent=1,
                                                      ensure_ascii=False)
    texts["patterns/index.html"] = pattern_cards(collection.proofs)
    for path, text in texts.items():
        target = out / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(text, encoding="utf-8")
    for path, picture in collection.pictures:
        (out / path).write_bytes(picture.read_bytes())
    return len(texts) + len(collection.pictures)


if __name__ == "__main__":
    sys.exit(main())

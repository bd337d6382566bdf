"""The walebook command: checks pattern sources, or writes their pages as plain files."""

from __future__ import annotations

import argparse
import io
import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from walebook.core.problems import Severity, visible
from walebook_site.cache import Unfit
from walebook_site.interrupted import complete_site
from walebook_site.lock import Held
from walebook_site.progress import Progress
from walebook_site.proving import prove_all
from walebook_site.results import Results
from walebook_site.targets import Refused


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command; return 0, or 1 when a pattern has errors (2 for a wrong call)."""
    parser = argparse.ArgumentParser(prog="walebook", description=__doc__)
    commands = parser.add_subparsers(dest="command", required=True)
    check = commands.add_parser("check", help="list every finding of every pattern")
    pages = commands.add_parser("pages", help="write the pages as plain Markdown files")
    pages.add_argument("out", type=Path, help="the folder to write into; made if missing")
    rename = commands.add_parser("rename", help="write the new names of keys into the sources")
    serve = commands.add_parser("serve", help="show the site while it is written")
    serve.add_argument("--at", default="", metavar="ADDRESS:PORT",
                       help="where it is served (default: as mkdocs.yml says, 127.0.0.1:8000)")
    for each in (check, pages, rename, serve):
        each.add_argument("--root", type=Path, default=Path.cwd(),
                          help="the folder that holds patterns/ (default: this one)")
    given = parser.parse_args(argv)
    _print_anything()
    if not (given.root / "patterns").is_dir():
        parser.error(f"no folder patterns/ in {given.root}")
    if given.command == "rename":
        return _rename(given.root)
    if given.command == "serve":
        return _serve(given.root, given.at)
    if told := complete_site(given.root):
        print(told)
    with Progress(sys.stderr) as progress:
        found = prove_all(given.root, pages=given.command == "pages", watch=progress.proved)
    for finding in found.rendered():
        print(finding, end="\n\n")
    written = (given.command == "check" or not found.is_sound
               or _write(found, given.out, given.root))
    print(summary(found))
    return 0 if found.is_sound and written else 1


def _rename(root: Path) -> int:
    """Write the new names of keys; return 0, or 1, having said why, where a file cannot be."""
    from walebook_site.renaming import rename_keys
    done = 0
    try:
        for line in rename_keys(root):
            print(visible(line))
            done += 1
    except OSError as fault:
        print(visible(f"{fault.filename} could not be written: {fault.strerror}."))
        return 1
    print(f"{_counted(done, 'key')} renamed.")
    return 0


def _serve(root: Path, at: str) -> int:
    """Serve the site of a root until interrupted, as the site builder's own command does."""
    settings = root / "mkdocs.yml"
    if not settings.is_file():
        print(f"There is no {settings}: a preview needs the settings of the site.")
        return 1
    from mkdocs.__main__ import cli  # a check needs no site builder
    words = ["serve", "--config-file", str(settings), *(["--dev-addr", at] if at else [])]
    cli.main(words, prog_name="mkdocs")  # ends the process
    return 0


def _write(found: Results, out: Path, root: Path) -> bool:
    """Write the pages, and say so; return False, having said why, when that could not be done."""
    from walebook_site.plain_pages import write_out  # a check needs no pages
    try:
        count = write_out(found, out, sources=(root / "patterns",))
    except Unfit as fault:
        print(f"No pages were written: {fault}. Write them again.")
    except Refused as fault:
        print(f"No pages were written: {fault}.")
    except Held as fault:
        print(f"No pages were written: {out} is being written by another command ({fault}). "
              "Wait for its end, then write them again.")
    except OSError as fault:
        where = f" ({fault.filename})" if fault.filename else ""
        print(f"No pages were written: {fault.strerror}{where}. What is in {out} is as it was.")
    else:
        print(f"{count} files written to {out}")
        return True
    return False


def _print_anything() -> None:
    """Let what the terminal's character set lacks be printed as an escape, on any system."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")


def summary(results: Results) -> str:
    """Return one line: what was knitted and what was not, and the findings of each weight."""
    found = Counter(p.severity for p in results.problems)
    sizes = sum(each.sizes for each in results.patterns)
    tally = ", ".join(_counted(found[s], s.value) for s in Severity)
    left = f" Not knitted: {', '.join(results.unproved)}." if results.unproved else ""
    drafts = f" Drafts, not published: {', '.join(results.drafts)}." if results.drafts else ""
    return visible(f"{_counted(len(results.patterns), 'pattern')} knitted on the virtual bed in "
                   f"{_counted(sizes, 'size')}: {tally}.{left}{drafts}")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


if __name__ == "__main__":
    sys.exit(main())

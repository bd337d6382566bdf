"""The walebook command: checks pattern sources, or writes their pages as plain files."""

from __future__ import annotations

import argparse
import io
import json
import os
import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from walebook.core.problems import Severity, render, visible
from walebook_site.cache import UnfitEntry
from walebook_site.command_line import parser_of
from walebook_site.gone_patterns import with_gone_patterns
from walebook_site.interrupted import complete_site
from walebook_site.lock import Held
from walebook_site.open_remarks import open_remarks
from walebook_site.progress import Progress
from walebook_site.proving import prove_all
from walebook_site.reading import Reading
from walebook_site.reporting import no_pattern, reported, wants_colour
from walebook_site.results import Results
from walebook_site.settings_apart import begun, lines_of, with_settings
from walebook_site.shipped import makes_patterns
from walebook_site.targets import BadTarget
from walebook_site.text_files import kind_of


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command; return 0, or 1 when a pattern has errors (2 for a wrong call)."""
    parser = parser_of(__doc__)
    given = parser.parse_args(argv)
    _print_anything()
    try:
        return _run(parser, given)
    except BrokenPipeError:  # who reads has read enough; Python would write once more at its end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1


def _run(parser: argparse.ArgumentParser, given: argparse.Namespace) -> int:
    if given.command == "new":
        return _new(given)
    if given.command == "keys":
        return _keys(given.name)
    if given.command == "schema":
        return _schema(given.what)
    if no_root := _no_root(given.root):
        parser.error(visible(no_root))
    if given.command in ("fix", "rename"):
        from walebook_site.renaming import run_fix
        return run_fix(given.root, show=given.show)
    if given.command == "serve":
        return _site_builder(given.root, "serve", *(["--dev-addr", given.at] if given.at else []))
    if given.command == "build":
        return _site_builder(given.root, "build")
    if given.command == "parts":
        return _parts(given.root, given.copy)
    if given.command in ("compare", "what-if", "record"):
        from walebook_site.compare_command import run_comparing  # loads what compares
        return run_comparing(parser, given)
    if given.command == "sheet":
        from walebook_site.sheet_command import run_sheet
        return run_sheet(parser, given)
    if given.command == "runtime":
        return _runtime(given.root, given.package)
    return _prove(parser, given)


def _no_root(root: Path) -> str:
    """Say why a folder is no collection; "" for one that can be read."""
    settings = root / "mkdocs.yml"
    if not (root / "patterns").is_dir():
        return f"no folder patterns/ in {root}. {_where_to_go(root)}"
    if settings.exists() and (kind := kind_of(settings)):  # a pipe would be waited for without end
        return (f"{settings} is a {kind} where a text file should be. Put a plain text file there, "
                "or take it away")
    return ""


def _where_to_go(root: Path) -> str:
    """Where a collection is, seen from a folder inside it, or from elsewhere."""
    above = next((folder for folder in root.resolve().parents if (folder / "patterns").is_dir()
                  and (folder / "mkdocs.yml").is_file()), None)
    return f"Go into {above}" if above else (
        "Go into the folder of your collection, or begin one: walebook new lantern-lane")


def _prove(parser: argparse.ArgumentParser, given: argparse.Namespace) -> int:
    """Prove the patterns, print what was found, and write their pages where that is asked for."""
    checks = given.command == "check"
    names = frozenset(given.names if checks else ())
    for name in names:
        if name not in (there := Reading(given.root).folders()):
            parser.error(no_pattern(name, there))
    form, quiet = (given.form, given.quiet) if checks else ("text", False)
    if (notice := complete_site(given.root)) and form == "text":
        print(notice)
    settings = begun(given.root) if checks and not names else None
    with Progress(sys.stderr) as progress:
        found = prove_all(given.root, pages=not checks, only=names, watch=progress.proved)
    found = with_settings(found, given.root, settings)
    if checks and not names:
        found = with_gone_patterns(found)
    coloured = wants_colour(sys.stdout, os.environ)
    print(reported(found, form, quiet=quiet, coloured=coloured), end="")
    written = checks or not found.is_sound or _write(found, given.out, given.root)
    if checks and form == "text" and not quiet:
        for line in open_remarks(given.root, sorted(names) or Reading(given.root).names()):
            print(visible(line))
    if form == "text" and not (quiet and found.is_sound):
        print(summary(found))
    if not checks and not found.is_sound:
        print("No pages were written, of any pattern. Mend the errors, or write status: draft in "
              "the patterns that have them. Then write the pages again.")
    return 0 if found.is_sound and written else 1


def _new(given: argparse.Namespace) -> int:
    """Begin a collection; return 0, or 1, having said why it could not be begun."""
    from walebook_site.new_collection import Beginning, NotNew, begin, name_of
    beginning = Beginning(name=given.name or name_of(given.folder), designer=given.designer,
                          licence=given.licence, paper=given.paper, host=given.host,
                          units=f"{given.units} first")
    try:
        written = begin(given.folder, beginning)
    except NotNew as fault:
        print(visible(f"No collection was begun: {fault}"))
        return 1
    except OSError as fault:
        print(visible(f"No collection was begun: {fault.strerror} ({fault.filename})."))
        return 1
    print("\n".join(visible(f"{given.folder / place}") for place in written))
    print(visible(f"The collection {beginning.name} is begun. Go into its folder, run "
                  "`walebook serve`, and change patterns/first-band/pattern.yaml."))
    return 0


def _keys(name: str) -> int:
    """Explain what has a name; return 0, or 1 where nothing has it."""
    from walebook_site.key_words import all_keys, keys_named, near
    if not name:
        print("\n".join(all_keys()))
        return 0
    if found := keys_named(name):
        print("\n\n".join(found))
        return 0
    like = near(name)
    more = f" Did you mean {' or '.join(like)}?" if like else " `walebook keys` lists all keys."
    print(visible(f"No key, measure, finding, chart or bed is called {name}.{more}"))
    return 1


def _schema(what: str) -> int:
    """Print the JSON Schema (draft 2020-12) of a kind of source."""
    from walebook.pages import SCHEMAS  # a check needs no pages
    print(json.dumps(SCHEMAS[what](), indent=1, ensure_ascii=False))
    return 0


def _parts(root: Path, copied: str) -> int:
    """List whose the parts of the site are, or copy one; return 1 where that cannot be done."""
    from walebook.core.text import nearest  # a check needs no engine
    from walebook_site.parts_list import copy_part, parts_of
    if not copied:
        print("\n".join(visible(str(part)) for part in parts_of(root)))
        return 0
    try:
        copy = copy_part(root, copied)
    except OSError as fault:
        why = "is there already" if isinstance(fault, FileExistsError) else fault.strerror
        print(visible(f"Nothing was copied: {fault.filename or fault} {why}."))
        return 1
    if copy is None:
        like = nearest(copied, (part.name for part in parts_of(root)))
        more = f"Did you mean {like}?" if like else "`walebook parts` lists them all."
        print(visible(f"Nothing was copied: Walebook has no part {copied}. {more}"))
        return 1
    print(visible(f"Copied to {copy}. Change it there: it takes the place of ours."))
    return 0


def _runtime(root: Path, package: Path | None) -> int:
    """Make the runtime, and the editor; return 0, or 1, having said why no runtime was made."""
    from walebook_site.editor import FOLDER as EDITOR
    from walebook_site.editor_making import make_editor
    from walebook_site.runtime import FOLDER
    from walebook_site.runtime_making import NotMade, make_runtime
    try:
        size = make_runtime(root, package)
    except (NotMade, OSError) as fault:
        print(visible(f"No runtime was made: {_why(fault)}"))
        return 1
    print(visible(f"{FOLDER} written, {size / 1e6:.1f} MB. A site with my_gauge: true brings it to "
                  "its readers."))
    try:
        size = make_editor(root)
    except (NotMade, OSError) as fault:
        print(visible(f"No editor was made: {_why(fault)} It is needed for try_it: true alone."))
        return 0
    print(visible(f"{EDITOR} written, {size / 1e6:.1f} MB. A site with try_it: true has the page "
                  "Try it."))
    return 0


def _why(fault: Exception) -> str:
    """What was said, or refused by the machine, as a sentence."""
    text = f"{fault.strerror} ({fault.filename})" if isinstance(fault, OSError) else str(fault)
    return f"{text.rstrip('.')}."


def _site_builder(root: Path, what: str, *more: str) -> int:
    """Build the site of a root, or serve it until interrupted, as the site builder's own command
    does."""
    settings = root / "mkdocs.yml"
    if not settings.is_file():
        print(visible(f"There is no {settings}: it holds the settings of the site."))
        return 1
    if not makes_patterns(root):
        print(visible(f"Nothing was built: {settings} does not name the plugin walebook, which "
                      "makes the pages of patterns."))
        print("Write these lines into it:\nplugins:\n  - walebook")
        return 1
    if _wrong_settings(root):
        return 1
    from mkdocs.__main__ import cli  # a check needs no site builder
    cli.main([what, "--config-file", str(settings), *more], prog_name="mkdocs")  # ends the process
    return 0


def _wrong_settings(root: Path) -> bool:
    """Print what is wrong with the settings; return True where the site cannot be built so."""
    from walebook_site.settings_read import settings_findings  # loads the site builder
    found = settings_findings(root)
    lines = lines_of(root, found)
    for problem in found:
        print(render(problem, lines[problem.place.file]))
    failed = any(problem.severity is Severity.ERROR for problem in found)
    if failed:
        print("Nothing was built.")
    return failed


def _write(found: Results, out: Path, root: Path) -> bool:
    """Write the pages, and say so; return False, having said why, when that could not be done."""
    from walebook.pattern.collection import CollectionSettings
    from walebook_site.former import former_of  # a check needs no pages
    from walebook_site.plain_pages import write_out
    former = former_of(CollectionSettings(**found.collection), found.patterns)
    try:
        count = write_out(found, out, former=former, sources=(root / "patterns",))
    except UnfitEntry as fault:
        print(f"No pages were written: {fault}. Write them again.")
    except BadTarget as fault:
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
    apart = [each.slug for each in results.patterns if each.files_only]
    drafts += f" Files only, their overview published: {', '.join(apart)}." if apart else ""
    if results.drafts and not (results.patterns or results.unproved):
        return visible(f"{_counted(len(results.drafts), 'draft')} checked: {tally}.{drafts}")
    return visible(f"{_counted(len(results.patterns), 'pattern')} knitted on the virtual bed in "
                   f"{_counted(sizes, 'size')}: {tally}.{left}{drafts}")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


if __name__ == "__main__":
    sys.exit(main())

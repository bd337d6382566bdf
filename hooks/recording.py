"""Writes the record of a published version beside its source, or drafts the correction it takes."""

from __future__ import annotations

import argparse
import os
import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import yaml
from walebook.core.problems import has_errors, visible
from walebook.pages.recorded import Moved, moved_since, record_of
from walebook.pattern.corrections import Correction
from walebook.words.comparison_text import because_text
from walebook.words.record_text import not_recorded
from walebook_site.draft_causes import causes_since
from walebook_site.reading import RECORD, Folder, Reading
from walebook_site.reporting import no_pattern
from walebook_site.sources import Proved, Prover


def run_record(parser: argparse.ArgumentParser, given: argparse.Namespace) -> int:
    """Record versions, or print drafts; return 0, or 1 where one could not be."""
    reading = Reading(given.root)
    there = reading.folders()
    for name in given.names:
        if name not in there:
            parser.error(no_pattern(name, there))
    prover, failed = Prover.of(reading), False
    for slug in given.names or there:
        folder = reading.folder(slug)
        if not given.names and folder.is_draft:
            continue
        made = prover.prove(replace(folder, record=None))
        if made.proof is None or has_errors(made.problems):
            print(visible(f"patterns/{slug} has errors: walebook check {slug} lists them."))
            failed = True
            continue
        does = _drafted if given.draft else _recorded
        failed |= not does(prover, folder, made)
    return int(failed)


def _moved(prover: Prover, folder: Folder, made: Proved) -> Moved | None:
    """What moved since the recorded version; None where there is no sound record."""
    if folder.record is None or made.proof is None:
        return None
    return moved_since(made.proof, folder.record, prover.sources_digest(folder, made.depends))


def _drafted(prover: Prover, folder: Folder, made: Proved) -> bool:
    """Print the draft of a correction; return False where no version is recorded."""
    moved = _moved(prover, folder, made)
    assert made.proof is not None
    if moved is None:
        print(visible(f"patterns/{folder.slug} has no sound {RECORD}: walebook record "
                      f"{folder.slug} writes one."))
        return False
    if not moved.draft:
        print(visible(f"patterns/{folder.slug} has the counts of version {moved.before}."))
        return True
    date = made.proof.pattern.date
    because = "".join(f"# {because_text([one])}\n" for one in causes_since(
        prover.reading.root, folder, moved.before))
    entry = {"corrections": [_entry(replace(one, date=date)) for one in moved.draft]}
    draft = re.sub("^(- date: .*)$", r"\1  # write the day of the new version",
                   yaml.safe_dump(entry, allow_unicode=True, sort_keys=False, width=90),
                   flags=re.MULTILINE)
    print(visible_lines(
        f"# patterns/{folder.slug}/pattern.yaml, a draft to be edited\n{because}{draft}"))
    return True


def _entry(one: Correction) -> dict[str, object]:
    """A correction as it stands in a source."""
    sizes = {"sizes": list(one.sizes)} if one.sizes else {}
    return {"date": one.date, "version": one.version, **sizes, "text": one.text}


def visible_lines(text: str) -> str:
    """Return a text of several lines with what cannot be seen as escapes."""
    return "\n".join(map(visible, text.rstrip("\n").split("\n")))


def _recorded(prover: Prover, folder: Folder, made: Proved) -> bool:
    """Write the record of a version; return False where its counts moved under the same version,
    or where no correction names it and they moved."""
    path = prover.reading.root / "patterns" / folder.slug / RECORD
    moved, name = _moved(prover, folder, made), f"patterns/{folder.slug}/{RECORD}"
    assert made.proof is not None
    why = moved and _why_not(moved, folder.slug, made.proof.pattern.corrections)
    if why:
        print(visible(f"{name} was not written: {why}"))
        return False
    text = record_of(made.proof, prover.sources_digest(folder, made.depends))
    if text == folder.record:
        print(visible(f"{name} is as it was: version {made.proof.pattern.version}."))
        return True
    try:
        _write(path, text)
    except OSError as fault:
        print(visible(f"{name} could not be written: {fault.strerror}."))
        return False
    print(visible(f"{name} has version {made.proof.pattern.version}."))
    return True


def _why_not(moved: Moved, slug: str, corrections: Sequence[Correction]) -> str:
    """Why a version cannot be recorded, "" where it can.

    Once it is recorded, nothing knows any more that a correction was to be written.
    """
    if not moved.has_risen:
        return _too_low(moved)
    left = moved.uncorrected(corrections)
    return not_recorded(moved.before, moved.after, left, slug,
                        some=bool(moved.since(corrections))) if left else ""


def _too_low(moved: Moved) -> str:
    """Why a version cannot be recorded after the one before, and which can."""
    if not moved.found:
        return f"version {moved.after} is below {moved.before}. Raise it to {moved.before} or " \
            "above first."
    than = "it" if moved.before == moved.after else f"version {moved.before}"
    return f"version {moved.after} has other counts than {than} was published with. Raise it to " \
        f"{moved.wanted} or above first."


def _write(path: Path, text: str) -> None:
    """Write a file, all of it or nothing."""
    new = path.with_name(f".{path.name}.new")
    new.write_bytes(text.encode("utf-8"))
    os.replace(new, path)

"""Writes a pattern's workbook for its tech editor, and takes her remarks back."""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from walebook.core.problems import Problem, fold_remarks, fold_sizes, in_order, visible
from walebook.pages.sheet import line_units, one_line, workbook
from walebook.proof.proof import Proof
from walebook_site.open_remarks import FILE
from walebook_site.reading import Reading
from walebook_site.remarks import DONE, Kept, NoRemarks, keep, kept_remarks, merged, unread
from walebook_site.reporting import no_pattern
from walebook_site.sheet_file import NoSheet, remarks_in, sheet_file
from walebook_site.sources import Prover


def run_sheet(parser: argparse.ArgumentParser, given: argparse.Namespace) -> int:
    """Run the command; return its exit code."""
    if bool(given.name) == bool(given.read):
        parser.error("name a pattern to write its workbook, such as walebook sheet slack-tide, or "
                     "a workbook to read: walebook sheet --read FILE")
    try:
        return _read(given.root, given.read) if given.read else _write(parser, given)
    except BrokenPipeError:
        raise
    except (NoSheet, NoRemarks, OSError) as fault:
        print(visible(f"error: {fault}"), file=sys.stderr)
        return 1


def _write(parser: argparse.ArgumentParser, given: argparse.Namespace) -> int:
    reading = Reading(given.root)
    if given.name not in (there := reading.folders()):
        parser.error(no_pattern(given.name, there))
    proof, findings = _proved(reading, given.name)
    if proof is None:
        for finding in findings:
            print(visible(str(finding)), file=sys.stderr)
        print(f"{given.name} has errors, and no workbook was written.", file=sys.stderr)
        return 1
    if given.json:
        print(json.dumps({"pattern": proof.pattern.slug, "version": proof.pattern.version,
                          "sizes": list(proof.pattern.sizes), "counts": one_line(proof),
                          "units": line_units(proof)},
                         ensure_ascii=False, indent=1))
        return 0
    kept = kept_remarks(given.root / "patterns" / given.name)
    book = workbook(proof, findings, {one.at: (one.remark, one.status, one.answer)
                                      for one in kept})
    out = given.out or Path(f"{given.name}.xlsx")
    _refuse_unread(given.root, out)
    _put(out, sheet_file(book))
    print(f"Written: {out}, {book.live} of {book.counted} calculated figures are live formulas.")
    return 0


def _refuse_unread(root: Path, out: Path) -> None:
    """Raise NoSheet where a new workbook would take the place of remarks that were not read."""
    try:
        slug, found = remarks_in(out)
    except NoSheet:  # no file, or no workbook of ours
        return
    if many := len(unread(kept_remarks(root / "patterns" / slug), found)):
        raise NoSheet(f"{out} has {many} remark{'s' * (many != 1)} that you have not read. Read it "
                      f"first: walebook sheet --read {out}. Nothing was written.")


def _proved(reading: Reading, name: str) -> tuple[Proof | None, Sequence[Problem]]:
    prover = Prover.of(reading)
    made = prover.prove(reading.folder(name))
    found = in_order([*prover.shared_problems, *made.problems])
    return made.proof, fold_remarks(fold_sizes(found))


def _put(out: Path, data: bytes) -> None:
    """Write a file in one step: what stood there stays until the new one is whole."""
    new = out.with_name(f".{out.name}.new")
    new.write_bytes(data)
    os.replace(new, out)


def _read(root: Path, file: Path) -> int:
    slug, found = remarks_in(file)
    if slug not in Reading(root).folders():
        raise NoSheet(f"{file} is of the pattern {slug}, and there is none in {root / 'patterns'}")
    folder = root / "patterns" / slug
    left = merged(kept_remarks(folder), found)
    keep(folder, left)
    for one in left:
        print(visible(_remark_line(one)))
    for one in left:
        if one.status.casefold() == DONE:
            print(visible(f"{one.sheet}, {one.count} is done for the editor, and has no answer. "
                          f"Write one in {folder / FILE}, and read the workbook again."))
    many = f"{len(left)} remark{'s' * (len(left) != 1)}"
    print(f"{many} kept in {folder / FILE}" if left else f"No remark of {slug} is open.")
    return 0


def _remark_line(one: Kept) -> str:
    status = f" [{one.status}]" if one.status else ""
    answer = f" Answer: {one.answer}" if one.answer else ""
    return f"{one.place or one.sheet}: {one.sheet}, {one.count}: {one.remark}{status}{answer}"

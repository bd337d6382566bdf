"""The commands that compare: what they are called with, what they print, how they end."""

from __future__ import annotations

import argparse
import json
from collections.abc import Sequence
from pathlib import Path

from walebook.compare.report import PatternState, Report, as_json
from walebook.core.problems import render, visible
from walebook.source.edited import NotSet
from walebook.words.report_text import report_markdown, report_text
from walebook_site.comparing import COMMIT, compare, what_if
from walebook_site.git_reading import NotRead
from walebook_site.reading import Reading
from walebook_site.reporting import no_pattern

FORM_VERSION = 1  # of the JSON of a comparison; a change that a reader must know of raises it
_NO_STATES = "--engine compares the sources as they are: leave out the states"
_TWO_STATES = "at most two states are compared: walebook compare BEFORE AFTER"
SAME, DIFFERENT, NOT_CALLED, NOT_COMPARED = range(4)


def run_comparing(parser: argparse.ArgumentParser, given: argparse.Namespace) -> int:
    """Run the command of comparing that is called, and return its exit code."""
    if given.command == "record":
        from walebook_site.recording import run_record  # loads all that is published
        return run_record(parser, given)
    return (_what_if if given.command == "what-if" else _compare)(parser, given)


def _compare(parser: argparse.ArgumentParser, given: argparse.Namespace) -> int:
    """Compare two states of the collection, print the reports, and return the exit code."""
    _check_names(parser, given.root, given.pattern, given.states)
    before, after = (*given.states, "", "")[:2]
    if given.engine and given.states:
        parser.error(_NO_STATES)
    try:
        if given.engine:
            from walebook_site.comparing_engines import compare_engines  # loads all of the pages
            reports = compare_engines(given.root, given.engine, given.pattern)
        else:
            reports = compare(given.root, before or COMMIT, after, given.pattern,
                              steps=_has_steps(given))
    except NotRead as fault:
        return not_compared(fault)
    print(printed(reports, given.form, everything=given.all), end="")
    return exit_code(reports)


def _what_if(parser: argparse.ArgumentParser, given: argparse.Namespace) -> int:
    """Print what other values in a pattern's source would do, and return the exit code."""
    if given.pattern not in (there := Reading(given.root).folders()):
        parser.error(no_pattern(given.pattern, there))
    values = [_pair(parser, each) for each in given.set]
    try:
        report = what_if(given.root, given.pattern, values, steps=_has_steps(given))
    except NotSet as fault:
        lines = Reading(given.root)
        lines.apart(given.root / fault.problem.place.file)
        print(render(fault.problem, lines.lines.get(fault.problem.place.file, ())))
        return NOT_CALLED
    print(printed([report], given.form, everything=given.all), end="")
    return exit_code([report])


def _has_steps(given: argparse.Namespace) -> bool:
    """True where the report gives the text of each step whose text differs."""
    return bool(given.all) or given.form == "json"


def _pair(parser: argparse.ArgumentParser, text: str) -> tuple[str, str]:
    """A key and its value."""
    key, sign, value = text.partition("=")
    if not sign or not key.strip():
        parser.error(f'"{visible(text)}" sets nothing: write KEY=VALUE, such as '
                     'garment.measures.body_length="54 cm"')
    return key.strip(), value.strip()


def _check_names(parser: argparse.ArgumentParser, root: Path, names: Sequence[str],
                 states: Sequence[str]) -> None:
    if len(states) > 2:
        parser.error(_TWO_STATES)
    there = Reading(root).folders()
    for name in names if not states else ():
        if name not in there:
            parser.error(no_pattern(name, there))


def not_compared(fault: Exception) -> int:
    """Say why nothing was compared, and return the exit code for that."""
    print(visible(f"Nothing was compared: {fault}"))
    return NOT_COMPARED


def printed(reports: Sequence[Report], form: str, *, everything: bool = False) -> str:
    """Return the reports as text, JSON or Markdown."""
    if form == "json":
        data = {"comparison_version": FORM_VERSION, "patterns": [as_json(r) for r in reports]}
        return json.dumps(data, indent=1, ensure_ascii=False) + "\n"
    text = report_markdown(reports) if form == "markdown" else \
        report_text(reports, everything=everything)
    return "\n".join(map(visible, text.split("\n")))


def exit_code(reports: Sequence[Report]) -> int:
    """Return 0 where nothing differs, 1 where something does; 3 where a pattern was not knitted."""
    broken = (PatternState.BROKEN, PatternState.BROKEN_AFTER, PatternState.BROKEN_BEFORE)
    if any(report.state in broken for report in reports):
        return NOT_COMPARED
    return DIFFERENT if any(report.differs for report in reports) else SAME

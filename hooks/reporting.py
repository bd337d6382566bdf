"""Findings as the command prints them: for a person, for an editor, for the host of a repository.

The forms: `text` has the author's line under each finding, `lines` one finding a line, `json` and
`sarif` all of them as one JSON text (SARIF 2.1.0 is a standard of OASIS), `annotations` the lines
by which some hosts show a finding at its place in the changed file.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from itertools import groupby
from typing import Any, TextIO

from walebook.core.problems import Problem, Severity, render, render_together, visible
from walebook_site.results import Results

FORMS = ("text", "lines", "json", "sarif", "annotations")
JSON_VERSION = 1
SARIF_SCHEMA = "https://json.schemastore.org/sarif-2.1.0.json"
_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning",
           Severity.CAUTION: "warning", Severity.REMARK: "note"}
_NOTICES = {"error": "error", "warning": "warning", "note": "notice"}
_COLOURS = {Severity.ERROR: "31", Severity.WARNING: "33",
            Severity.CAUTION: "35", Severity.REMARK: "36"}
_PATTERN = re.compile(r"patterns/([^_/][^/]*)/")


def reported(found: Results, form: str, *, quiet: bool = False, coloured: bool = False) -> str:
    """Return all that is printed of the findings in one of the FORMS; quiet has errors alone."""
    problems = [p for p in found.problems if not quiet or p.severity is Severity.ERROR]
    if form in _WHOLE:
        return json.dumps(_WHOLE[form](found, problems), indent=1, ensure_ascii=False) + "\n"
    if form != "text":
        return "".join(f"{visible(_LINES[form](each))}\n" for each in problems)
    return _text(found, problems, coloured)


def wants_colour(out: TextIO, environment: Mapping[str, str]) -> bool:
    """Return True where a person looks on and has not refused colour (NO_COLOR, a dumb terminal).
    """
    return (out.isatty() and not environment.get("NO_COLOR")
            and environment.get("TERM", "") != "dumb")


def pattern_of(problem: Problem) -> str:
    """Return the folder of the pattern that a finding is of; "" for what patterns share."""
    within = _PATTERN.match(problem.place.file)
    return within[1] if within else ""


def _text(found: Results, problems: list[Problem], coloured: bool) -> str:
    """Every finding with its line of the source, then how many each pattern has.

    Remarks of one code at one place, such as those of a chart of sizes, stand under it together.
    """
    blocks = []
    for _, alike in groupby(problems, lambda one: (one.place, one.severity, one.code)
                            if one.severity is Severity.REMARK else id(one)):
        first, *more = alike
        text = render_together((first, *more)) if more else \
            render(first, found.lines.get(first.place.file, ()))
        blocks.append((_coloured(text, first) if coloured else text) + "\n\n")
    counts = _by_pattern(problems)
    if len(counts) > 1:
        width = max(map(len, counts))
        blocks += [f"{name.ljust(width)}  {_tally(tally)}\n" for name, tally in counts.items()]
        blocks.append("\n")
    return "".join(blocks)


def _coloured(text: str, problem: Problem) -> str:
    word = problem.severity.value
    shown = f"\x1b[1;{_COLOURS[problem.severity]}m{word}\x1b[0m"
    return text.replace(f": {word}, ", f": {shown}, ", 1)


def _by_pattern(problems: list[Problem]) -> dict[str, Counter[Severity]]:
    """How many findings of each weight each pattern has; "shared files" last."""
    counts: dict[str, Counter[Severity]] = {}
    for each in problems:
        counts.setdefault(pattern_of(each), Counter())[each.severity] += 1
    shared = counts.pop("", None)
    return {**counts, **({"shared files": shared} if shared else {})}


def _tally(found: Counter[Severity]) -> str:
    return ", ".join(f"{found[s]} {s.value}{'' if found[s] == 1 else 's'}"
                     for s in Severity if found[s])


def _json(found: Results, problems: list[Problem]) -> dict[str, Any]:
    """What `--json` prints; `sound` is true where nothing stops publication."""
    counts = Counter(p.severity for p in problems)
    return {"version": JSON_VERSION, "sound": found.is_sound,
            "counts": {s.value: counts[s] for s in Severity},
            "knitted": {each.slug: each.sizes for each in found.patterns},
            "not_knitted": list(found.unproved), "drafts": list(found.drafts),
            "findings": [_finding(each) for each in problems]}


def _finding(problem: Problem) -> dict[str, Any]:
    from walebook.pages.findings_json import finding_json  # no other form needs the pages
    return {"pattern": pattern_of(problem), **finding_json(problem)}


def _sarif(found: Results, problems: list[Problem]) -> dict[str, Any]:
    """The findings as a log of SARIF 2.1.0, sections 3.13 and 3.27 of the standard."""
    from importlib.metadata import version  # half as long to load as Python's start takes
    codes = sorted({each.code for each in problems})
    return {"$schema": SARIF_SCHEMA, "version": "2.1.0", "runs": [{
        "tool": {"driver": {"name": "walebook", "version": version("walebook"),
                            "rules": [{"id": code} for code in codes]}},
        "columnKind": "unicodeCodePoints",
        "results": [_result(each, codes) for each in problems]}]}


def _result(problem: Problem, codes: list[str]) -> dict[str, Any]:
    place = problem.place
    return {"ruleId": problem.code, "ruleIndex": codes.index(problem.code),
            "level": _LEVELS[problem.severity], "message": {"text": visible(problem.message)},
            "locations": [{"physicalLocation": {
                "artifactLocation": {"uri": place.file},
                "region": {"startLine": place.line, "startColumn": place.column}}}]}


def _annotation(problem: Problem) -> str:
    """A line that a host reads; what ends a value or the line there is written as %XX."""
    place = problem.place
    kind = _NOTICES[_LEVELS[problem.severity]]
    values = {"file": place.file, "line": place.line, "col": place.column, "title": problem.code}
    properties = ",".join(f"{name}={_escaped(str(value), ',:')}" for name, value in values.items())
    return f"::{kind} {properties}::{_escaped(problem.message)}"


def _escaped(text: str, more: str = "") -> str:
    for sign in f"%\r\n{more}":
        text = text.replace(sign, f"%{ord(sign):02X}")
    return text


_WHOLE: Mapping[str, Callable[[Results, list[Problem]], dict[str, Any]]] = {
    "json": _json, "sarif": _sarif}
_LINES: Mapping[str, Callable[[Problem], str]] = {"lines": str, "annotations": _annotation}


def no_pattern(name: str, there: list[str]) -> str:
    """Return what to say of a pattern's name that no folder has."""
    like = get_close_matches(name, there, 2)
    more = f" Did you mean {' or '.join(like)}?" if like else ""
    return f"there is no pattern {visible(name)} in the folder patterns.{more}"

"""What is wrong with a collection's mkdocs.yml, read by another process beside a check: the site
builder, which knows its settings, is larger than all that a check loads."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path

from walebook.core.problems import Problem, has_errors
from walebook_site.results import Results, from_json
from walebook_site.shipped import makes_patterns

FILE = "mkdocs.yml"


def begun(root: Path) -> subprocess.Popen[str] | None:
    """Return the process that reads the settings; None where no site of ours is built by them."""
    if not (root / FILE).is_file() or not makes_patterns(root):
        return None
    return subprocess.Popen([sys.executable, "-m", "walebook_site.settings_read", str(root)],
                            stdout=subprocess.PIPE, text=True, encoding="utf-8")


def with_settings(found: Results, root: Path, reading: subprocess.Popen[str] | None) -> Results:
    """Return the results with what is wrong with the settings, which stand before all else."""
    printed = reading.communicate()[0] if reading else ""
    problems = tuple(map(from_json, json.loads(printed))) if printed else ()
    if not problems:
        return found
    return replace(found, problems=problems + found.problems,
                   publishable=found.publishable and not has_errors(problems),
                   lines={**found.lines, **lines_of(root, problems)})


def lines_of(root: Path, problems: Iterable[Problem]) -> dict[str, tuple[str, ...]]:
    """Return the lines of each file of the root that findings name."""
    return {file: tuple((root / file).read_text(encoding="utf-8-sig", errors="replace")
                        .splitlines()) for file in {each.place.file for each in problems}}

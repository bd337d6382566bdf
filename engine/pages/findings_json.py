"""Findings as JSON: as `walebook check --json` prints them, and as an editor in a page gets."""

from __future__ import annotations

from typing import Any

from ..core.problems import Problem, Severity


def finding_json(problem: Problem) -> dict[str, Any]:
    """Return a finding as JSON has it: its place, its texts, and the mark of a remark."""
    place = problem.place
    sizes = [problem.size, *problem.more_sizes] if problem.size else []
    return {"severity": problem.severity.value,
            "code": problem.code, "file": place.file, "line": place.line, "column": place.column,
            "sizes": sizes, "found": problem.found, "expected": problem.expected,
            "remedy": problem.remedy, "message": problem.message,
            "also_in": list(problem.elsewhere),
            "mark": problem.mark if problem.severity is Severity.REMARK else ""}

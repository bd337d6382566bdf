"""Which inputs moved counts since a recorded version, where git has the source of that version."""

from __future__ import annotations

from pathlib import Path

from walebook.compare.compared_facts import FactKind
from walebook.compare.report import MovedInput
from walebook_site.comparing import compare
from walebook_site.git_reading import NotRead, last_commit_of
from walebook_site.reading import RECORD, Folder

_RECORDED = (FactKind.COUNT.value, FactKind.SCHEDULE.value)


def causes_since(root: Path, folder: Folder, version: str) -> tuple[MovedInput, ...]:
    """Return the inputs that moved counts and shaping since the commit that has the record as it
    is, of this `version`; none where there is no such commit or its source is of another."""
    try:
        commit = last_commit_of(root, f"patterns/{folder.slug}/{RECORD}", folder.record or "")
        reports = compare(root, commit, "", (folder.slug,), steps=False) if commit else ()
    except NotRead:
        return ()
    report = next((one for one in reports if one.slug == folder.slug), None)
    if report is None or report.version_before != version:
        return ()
    moved = {cause for one in report.changes if one.kind in _RECORDED for cause in one.causes}
    return tuple(report.inputs[number] for number in sorted(moved))

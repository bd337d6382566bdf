"""A pattern judged as a whole: looked at, planned, knitted, and its accepted remarks kept quiet."""

from __future__ import annotations

from collections.abc import Iterable

from ..core.problems import Problem, Severity, has_errors, note
from ..pattern.model import Pattern
from ..pattern.places import Places
from ..plan.sense import check
from .designer_note_places import notes_nowhere
from .proof import Proof, prove
from .yarn_requirement import unweighed


def judge(pattern: Pattern, only: str | None = None
          ) -> tuple[Proof | None, tuple[Problem, ...]]:
    """Return the proof of a pattern, None where it has an error, and every finding about it.

    For a first look the pattern is knitted in the size `only` alone.
    """
    proof, found = prove(pattern, only)
    yarn = unweighed(pattern, proof.sizes) if proof else ()
    placed = notes_nowhere(pattern.places, pattern.designer_notes, proof.sizes) if proof else ()
    findings = (*check(pattern), *found, *yarn, *placed)
    return None if has_errors(findings) else proof, findings


def without_accepted(places: Places, accepted_codes: tuple[str, ...], findings: Iterable[Problem],
                     *, proved: bool) -> tuple[Problem, ...]:
    """Return all findings of a pattern but the remarks that its source accepts.

    An accepted remark is known by its code and the mark of its facts: when they change, so does
    the mark, and it comes again. A remark that is accepted and not found is a warning, once the
    pattern is `proved`.
    """
    findings = tuple(findings)
    remarks = {f"{p.code} {p.mark}" for p in findings if p.severity is Severity.REMARK}
    gone = [note(Severity.WARNING, "accepted-gone", places.of(f"accepted.{number}"),
                 found=f'"{accepted}", which no remark of this pattern has',
                 expected="the mark of a remark that it has",
                 remedy="Read the remarks again: accept the new one, or delete this.")
            for number, accepted in enumerate(accepted_codes)
            if proved and accepted not in remarks]
    return (*(p for p in findings if p.severity is not Severity.REMARK
              or f"{p.code} {p.mark}" not in accepted_codes), *gone)

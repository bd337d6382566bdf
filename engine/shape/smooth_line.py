"""The line that a band makes of an edge's steps once it pulls them smooth."""

from __future__ import annotations

from collections.abc import Sequence

from .profile import FEW, How, Run

STEP = 4  # stitches: a wider step is a separate straight stretch; common practice, no source


def along_corners(runs: Sequence[Run]) -> list[Run]:
    """Steps made every few rows lie along their corners once a band pulls them smooth.

    A step goes with the few rows that lead up to it, one that is cast on with those that follow
    it: so a neck that is bound off and the same neck cast on are as long.
    """
    out: list[Run] = []
    for run in runs:
        before = out[-1] if out else None
        if before and _is_short(before) and _is_small(run) and run.how is not How.CAST_ON:
            out[-1] = run._replace(rows=before.rows, high=before.high)
        elif before and _is_short(run) and _is_small(before) and before.how is How.CAST_ON:
            out[-1] = before._replace(rows=run.rows, high=run.high)
        else:
            out.append(run)
    return out


def _is_small(run: Run) -> bool:
    """True for a level step that a band pulls smooth."""
    return bool(run.stitches) and not run.rows and abs(run.stitches) <= STEP


def _is_short(run: Run) -> bool:
    """True for plain rows that are few enough to lie along the corners of their steps."""
    return not run.stitches and 0 < run.rows <= FEW

"""The line that a band makes of an edge's steps once it pulls them smooth."""

from __future__ import annotations

from collections.abc import Sequence

from .profile import FEW, EdgeSegment, How

STEP = 4  # stitches: a wider step is a separate straight stretch; common practice, no source


def along_corners(segments: Sequence[EdgeSegment]) -> list[EdgeSegment]:
    """Steps made every few rows lie along their corners once a band pulls them smooth.

    A step goes with the few rows that lead up to it, one that is cast on with those that follow
    it: so a neck that is bound off and the same neck cast on are as long.
    """
    out: list[EdgeSegment] = []
    for segment in segments:
        before = out[-1] if out else None
        if before and _is_short(before) and _is_small(segment) and segment.how is not How.CAST_ON:
            out[-1] = segment._replace(rows=before.rows, high=before.high)
        elif before and _is_short(segment) and _is_small(before) and before.how is How.CAST_ON:
            out[-1] = before._replace(rows=segment.rows, high=segment.high)
        else:
            out.append(segment)
    return out


def _is_small(segment: EdgeSegment) -> bool:
    """True for a level step that a band pulls smooth."""
    return bool(segment.stitches) and not segment.rows and abs(segment.stitches) <= STEP


def _is_short(segment: EdgeSegment) -> bool:
    """True for plain rows that are few enough to lie along the corners of their steps."""
    return not segment.stitches and 0 < segment.rows <= FEW

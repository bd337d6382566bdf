"""How a piece or band begins: with what on the bed, and the carriage where."""

from __future__ import annotations

from ..proof.proof import KnittedPiece, SizeProof, Strip
from .instruction import works


def begins_text(size: SizeProof, work: KnittedPiece | Strip) -> str:
    """Return the sentences, which begin with a space. Where what is knitted before ends on the
    other side, they say how the carriage comes over (common practice, no source)."""
    starts, knitted = work.program.starts, works(size)
    at = next(n for n, one in enumerate(knitted) if one is work)
    across = at > 0 and knitted[at - 1].trace.states[-1].side is not starts
    return (" Begin with an empty bed and feeder" + (
        f". Take the carriage, set to knit, over the bed to the {starts.value}." if across else
        f", and the carriage on the {starts.value}, set to knit."))


def back_text(work: KnittedPiece | Strip) -> str:
    """Return what is done before it is begun again, with a space before it: "" where it ends on
    the side where it begins."""
    starts = work.program.starts
    if work.trace.states[-1].side is starts:
        return ""
    return (f" Before you begin again, take the carriage over the empty bed to the {starts.value}, "
            "with an empty feeder.")

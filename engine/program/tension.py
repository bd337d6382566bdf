"""The dial of every row of a band's layer, where it is graded so that the band lies in a curve."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from ..machine.needles import NONE, Needles
from ..machine.reasons import Because, Reason
from ..machine.steps import Dial
from .ledger import Ledger


def knit_graded(book: Ledger, dials: Sequence[Dial], reason: Because, *,
                fills: Needles = NONE) -> None:
    """Knit a row at each of `dials`, rows of one setting together; `fills` is for the first."""
    groups = [(dial, len(list(same))) for dial, same in groupby(dials)]
    for number, (dial, rows) in enumerate(groups):
        book.set_dial(dial, (Reason.FOR_NEXT_ROWS, rows) if rows > 1 else Reason.FOR_NEXT_ROW)
        last = number == len(groups) - 1
        book.knit(rows, reason if last else Reason.AT_THIS_SETTING, fills=fills)
        fills = NONE

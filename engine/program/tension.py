"""The dial of every row of a band's layer, where it is graded so that the band lies in a curve."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from ..machine.needles import NONE, Needles
from ..machine.steps import Dial
from .ledger import Ledger


def knit_graded(book: Ledger, dials: Sequence[Dial], purpose: str, *, fills: Needles = NONE
                ) -> None:
    """Knit a row at each of `dials`, rows of one setting together; `fills` is for the first."""
    groups = [(dial, len(list(same))) for dial, same in groupby(dials)]
    for number, (dial, rows) in enumerate(groups):
        book.set_dial(dial, f"for the next {rows} rows" if rows > 1 else "for the next row")
        last = number == len(groups) - 1
        book.knit(rows, purpose if last else "at this setting", fills=fills)
        fills = NONE

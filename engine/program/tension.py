"""The dial of every row of a band's layer, where it is graded so that the band lies in a curve."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from ..core.spread import shares
from ..machine.needles import NONE, Needles
from ..machine.steps import Dial
from .ledger import Ledger


def row_dials(dials: Sequence[Dial], rows: int) -> tuple[Dial, ...]:
    """Return the dial of each of a layer's `rows`, from the garment's edge to the fold [rows].

    The settings follow one another in groups of rows as equal as they can be: 12 rows at three
    settings are 4, 4 and 4 (D05). Raises ValueError for more settings than rows.
    """
    if not 1 <= len(dials) <= rows:
        raise ValueError(f"{len(dials)} settings for {rows} rows")
    return tuple(dial for dial, share in zip(dials, shares(rows, len(dials)), strict=True)
                 for _ in range(share))


def knit_graded(book: Ledger, dials: Sequence[Dial], purpose: str, *, fills: Needles = NONE
                ) -> None:
    """Knit a row at each of `dials`, rows of one setting together; `fills` is for the first."""
    groups = [(dial, len(list(same))) for dial, same in groupby(dials)]
    for number, (dial, rows) in enumerate(groups):
        book.set_dial(dial, f"for the next {rows} rows" if rows > 1 else "for the next row")
        last = number == len(groups) - 1
        book.knit(rows, purpose if last else "at this setting", fills=fills)
        fills = NONE

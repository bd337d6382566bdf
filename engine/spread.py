"""How to spread events evenly: which rows are taken, which gaps are one larger."""

from __future__ import annotations

from itertools import pairwise


def shares(total: int, parts: int) -> tuple[int, ...]:
    """Return `total` in `parts` whole shares that differ by at most one, evenly mixed.

    The order is symmetric where numbers allow. Raises ValueError for no parts or total < 0.
    """
    if parts < 1 or total < 0:
        raise ValueError(f"cannot share {total} among {parts}")
    marks = [(2 * i * total + parts) // (2 * parts) for i in range(parts + 1)]
    return tuple(b - a for a, b in pairwise(marks))


def taken_rows(stitches: int, rows: int) -> tuple[int, ...]:
    """Return the row (from 1) that each of `stitches` takes from an edge of `rows` rows.

    Every stitch takes the row at the middle of its own share of the edge, so the rows missed
    between neighbours differ by at most one: two are missed together only where more than
    half of all rows must be missed. With more stitches than rows some rows are taken twice.
    Raises ValueError for no stitches or rows.
    """
    if stitches < 1 or rows < 1:
        raise ValueError(f"cannot take {stitches} stitches from {rows} rows")
    return tuple(((2 * j + 1) * rows) // (2 * stitches) + 1 for j in range(stitches))

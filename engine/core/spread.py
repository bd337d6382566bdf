"""How to spread events evenly: which rows are taken, which gaps are one larger."""

from __future__ import annotations

from fractions import Fraction

# At most one stitch in three comes or goes in one row, or it puckers; common practice, no source.
MOST_IN_A_ROW = Fraction(1, 3)


def shares(total: int, parts: int) -> tuple[int, ...]:
    """Return `total` in `parts` whole shares that differ by at most one, evenly mixed.

    The order reads alike from both ends wherever numbers allow: always with an odd number of
    parts, and with an even one where the larger shares are even in number too.
    Raises ValueError for no parts or total < 0.
    """
    if parts < 1 or total < 0:
        raise ValueError(f"cannot share {total} among {parts}")
    small, larger = divmod(total, parts)
    rare = min(larger, parts - larger)
    common, other = (small, small + 1) if rare == larger else (small + 1, small)
    places = {_middle(2 * k + 1, parts, 2 * rare, k * 2 >= rare) for k in range(rare)}
    return tuple(other if i in places else common for i in range(parts))


def _middle(times: int, parts: int, by: int, upper: bool) -> int:
    """The part at the middle of a share of the whole; on a border, the one nearer its end."""
    whole, rest = divmod(times * parts, by)
    return whole if rest or upper else whole - 1


def taken_rows(stitches: int, rows: int) -> tuple[int, ...]:
    """Return the row (from 1) that each of `stitches` takes from an edge of `rows` rows.

    Every stitch takes the row at the middle of its share of the edge, so the rows missed
    between neighbours differ by at most one: two are missed together only where more than
    half of all rows must be missed. With more stitches than rows some rows are taken twice.
    Raises ValueError for no stitches or rows.
    """
    if stitches < 1 or rows < 1:
        raise ValueError(f"cannot take {stitches} stitches from {rows} rows")
    return tuple(((2 * j + 1) * rows) // (2 * stitches) + 1 for j in range(stitches))

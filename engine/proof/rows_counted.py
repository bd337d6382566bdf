"""The rows of a piece as the counts of its form add them up."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..catalogue.forms import Construction
from ..catalogue.pocket_edges import LINING
from ..core.counted import Count
from ..core.expression import Expression, Operand, Sum
from ..core.operands import Role
from ..shape.garment import Garment
from ..shape.piece import Piece

_SLEEVE = "sleeve"
_BODY = ("rows_to_armhole", "armhole_rows", "shoulder_rows")
_RAGLAN = ("rows_to_raglan", "raglan_rows", "top_rows")
# The counts by which a form counts all rows of a piece: of a sleeve, and of what its body is of.
_ROWS: Mapping[Construction, tuple[tuple[str, ...], tuple[str, ...]]] = {
    Construction.SET_IN: (("rows_to_underarm", "cap_rows"), _BODY),
    Construction.DROP_SHOULDER: (("rows_to_underarm",), _BODY),
    Construction.RAGLAN: (_RAGLAN, _RAGLAN),
    Construction.SADDLE_RAGLAN: (("rows_to_raglan", "raglan_rows", "strap_rows"), _RAGLAN),
    Construction.SIDEWAYS: (("rows_to_underarm",), ("rows",)),
}
# A front without a count has that of the piece it is like, the nearest first.
_LIKE = {"left_front": ("right_front", "back"), "right_front": ("back",), "front": ("back",)}


def counts_like(garment: Garment, key: str) -> Mapping[str, Count]:
    """Return the counts of a piece by name, with those of the pieces that its form cuts it like."""
    like = () if garment.form is Construction.OUTLINE else _LIKE.get(key, ())
    found: dict[str, Count] = {}
    for each in (*reversed(like), key):
        found |= {name: count for piece, name, count in garment.counts if piece == each}
    return found


def summed_rows(form: Construction, key: str, counts: Mapping[str, Count]
                ) -> tuple[Expression, ...]:
    """Return the counts that make up the rows of a piece, by which its form counts them; none
    where it does not have them all."""
    sleeve, body = _ROWS.get(form, (("rows",), ("rows",)))
    names = ("lining_rows",) if key == LINING else sleeve if key == _SLEEVE else body
    if any(name not in counts for name in names):
        return ()
    return tuple(counts[name].term(Role.NUMBER, name) for name in names)


def rows_of_piece(garment: Garment, piece: Piece) -> Expression:
    """Return the rows of a piece as its counts make them, or else as the bed counted them."""
    made = summed_rows(garment.form, piece.key, counts_like(garment, piece.key))
    if made and sum(one.value for one in made) == piece.rows:
        return made[0] if len(made) == 1 else Sum(made)
    return Operand(Fraction(piece.rows), Role.BED)

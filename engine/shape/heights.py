"""How high above its lower edge a row of a piece lies, its hem in rows of another height."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from ..fabric.gauge import Gauge
from .piece import Piece


def heights(piece: Piece, gauge: Gauge) -> Callable[[int], Fraction]:
    """Return the function that says how high above its lower edge a row of `piece` lies, counted as
    its edges count [mm]. A hem and the rows that close it lie below row 0."""
    each, below = gauge.row, hem_height(piece, gauge) + rows_to_join(piece) * gauge.row
    return lambda row: row * each + below if row else Fraction(0)


def hem_height(piece: Piece, gauge: Gauge) -> Fraction:
    """Return how high the hem of a piece is [mm], 0 where there is none."""
    return piece.hem.rows * (piece.hem.row or gauge.row) if piece.hem else Fraction(0)


def rows_to_join(piece: Piece) -> int:
    """Return the rows between a hem and row 0, 0 where there is no hem."""
    return piece.hem.rows_to_join if piece.hem else 0

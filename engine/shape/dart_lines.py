"""Where the darts of a piece lie: the lines of vertical ones, and how far short rows reach."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from ..core.units import Length
from ..machine.headings import Heading
from .held_rows import HeldRows
from .piece import Piece
from .profile import Profile
from .walked import QUARTERS, Spot

DartLines = Iterator[tuple[Spot, ...]]


def dart_lines(left: Profile, right: Profile, bottom: tuple[Spot, Spot]) -> DartLines:
    """Yield the line of each vertical dart: its middle stitch before every change of it, from the
    lowest; `bottom` are the ends of the edge that both edges begin at."""
    for edge, start, side in ((left, bottom[0], -1), (right, bottom[1], 1)):
        spots, x = [], start[0]
        for change in edge.changes:
            if change.how.at_dart:
                spots.append((x - side * (change.inset * QUARTERS + QUARTERS // 2), change.row))
            x += side * change.outward * QUARTERS
        if spots:
            yield tuple(spots)


def held_lines(piece: Piece, place: Callable[[int, int], int]) -> DartLines:
    """Yield the line of each bust dart, from the edge to its last turn; `place` says where an edge
    is before what is changed at a row."""
    for short in _bust(piece):
        yield from _both_lines(short, place)


def own_lines(piece: Piece, place: Callable[[int, int], int]) -> DartLines:
    """Yield the lines of the short rows of an own outline in the same way, two for each of them."""
    for short in _own(piece):
        yield from _both_lines(short, place)


def own_extra(piece: Piece, row: Fraction) -> tuple[Length, ...]:
    """Return how much longer the middle is by each of those short rows; a `row` is so high [mm]."""
    return tuple(Length(short.extra * row) for short in _own(piece))


def _both_lines(short: HeldRows, place: Callable[[int, int], int]) -> DartLines:
    beside = -1 if short.at_left else 1
    for side in (-1, 1):
        x = place(short.row + 1, side)
        if short.over and side != beside:
            x = place(short.row + 1, beside) - beside * short.over * QUARTERS
        yield (x, short.row), (x - side * short.held * QUARTERS, short.row)


def own_over(piece: Piece, stitch: Fraction) -> tuple[Length, ...]:
    """Return how wide a part each of those short rows is knitted over, 0 for all; a `stitch` is so
    wide [mm]."""
    return tuple(Length(short.over * stitch) for short in _own(piece))


def bust_rows(piece: Piece) -> int:
    """Return how many rows more the middle of a piece has than its edges over the bust [rows]."""
    return sum(short.extra for short in _bust(piece))


def _bust(piece: Piece) -> Iterator[HeldRows]:
    return (short for short in piece.short_rows if short.heading is Heading.BUST)


def _own(piece: Piece) -> Iterator[HeldRows]:
    return (short for short in piece.short_rows if short.heading is Heading.SHORT_ROWS)


def tail_line(piece: Piece, bottom: tuple[Spot, Spot]) -> tuple[Spot, ...]:
    """Return the lower edge of a shirt tail between the ends of the cast-on edge, `bottom`, whose
    rows lie below theirs; nothing where it is straight."""
    for short in piece.short_rows:
        if short.heading is Heading.TAIL:
            x, low, rise = bottom[0][0], 0, []
            for step in short.steps:
                x, low = x + step * QUARTERS, low - 2
                rise.append((x, low))
            middle = bottom[0][0] + bottom[1][0]
            return (*rise, *((middle - x, low) for x, low in reversed(rise)))
    return ()

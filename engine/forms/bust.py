"""Bust darts by short rows: a front that is longer in its middle than at its sides.

The rows are the length times the rows to a length, an even number, since they come in pairs: Lara
Neel, "Short rows as bust darts", 2010 (W3-051); a publisher, "Shaping a bust with short-rows".
They begin an inch inside the side seam, and an inch or more below the underarm: Tess,
"Short-row bust darts".
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import EVEN, NEAREST, Unit
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Term, plain, tried_figure
from ..core.operands import ChoiceReason, Role
from ..core.units import Length
from ..fabric.gauge import counted, rows_along, stitches_in
from ..machine.headings import Heading
from ..pattern.short_rows import BustDarts
from ..shape.even_gaps import EvenSlope, events_by
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.held_rows import LAST_ROWS, HeldRows
from ..shape.piece import Piece
from .body_counts import SEAM

ENTRY = "bust_darts"
FRONT = "front"
BETWEEN = 4  # stitches that are never held, at least
LEAST_STEP = 2  # stitches of the first step: the end stitch lies in the seam


def with_bust_darts(cut: Cut, garment: Garment, darts: BustDarts) -> Garment:
    """Return the garment with the bust `darts` in its front.

    Raises CannotShape where the front has no place for them, with the figures.
    """
    front = next((piece for piece in garment.pieces if piece.key == FRONT), None)
    if front is None:
        raise CannotShape("bust darts, and 2 fronts that meet at an opening",
                          "Use a form that is closed at the front, or delete them.", at=ENTRY)
    if cut.chart or cut.repeat:
        raise CannotShape("bust darts in a fabric with a stitch chart or with needles left out of "
                          "work", "Use a plain fabric, or delete them.", at=ENTRY)
    up = next(count for key, name, count in garment.counts
              if key == "back" and name in ("rows_to_armhole", "rows_to_raglan"))
    rows = _rows(cut, darts.extra, "extra")
    if rows.value < 2:
        raise CannotShape(f"bust darts of {rows}", "Make extra more, or delete them.",
                          at=ENTRY)
    below = _clear(front, up, _rows(cut, darts.below, "below"), cut.gauge.row)
    wide = _wide(front, up.value - below.value)
    first = _stitches(cut, darts.from_side, "from_side")
    reach = _reach(cut, darts, wide, (*(one.made for one in _levels(garment)), *_wide_made(
        front, up.term(Role.ROWS) - below.term(Role.ROWS))))
    steps = _steps(rows.value // 2, first.value, reach.value)
    if steps[0] < LEAST_STEP or min(steps) < 1:
        raise CannotShape(f"{first} to the first turn and {reach} to the last, for {len(steps)} "
                          "steps", "Make reach more, or extra less.", at=ENTRY)
    short = HeldRows(row=up.value - below.value, steps=steps, heading=Heading.BUST,
                     before=Heading.TO_BUST)
    _check(front, short, wide, below)
    longer = replace(front, short_rows=(*front.short_rows, short))
    pieces = tuple(longer if piece is front else piece for piece in garment.pieces)
    counts = ((FRONT, "bust_rows", rows), (FRONT, "bust_rows_below_underarm", below),
              (FRONT, "bust_first_turn", first), (FRONT, "bust_last_turn", reach))
    return replace(garment, pieces=pieces, counts=(*garment.counts, *counts))


def _rows(cut: Cut, length: Length, name: str) -> Count:
    """The rows of a length, an even number."""
    return rows_along(length, cut.gauge, EVEN, Operand(length.mm, Role.STATED, name,
                                                  cut.place(f"{ENTRY}.{name}")))


def _stitches(cut: Cut, width: Length, name: str) -> Count:
    """The stitches from the edge to a turn, with the one in the seam."""
    seam = Operand(Fraction(SEAM), Role.SEAM)
    wide = Operand(width.mm, Role.STATED, name, cut.place(f"{ENTRY}.{name}"))
    figure: Expression = stitches_in(wide, cut.gauge) + seam
    return counted(figure, Unit.STITCHES, cut.gauge.stitch)


def _reach(cut: Cut, darts: BustDarts, wide: int, levels: Iterable[Expression]) -> Count:
    """The stitches from the edge to the last turn: a quarter of the width where nothing is asked
    (common practice, no source). `levels` are the widths that the piece has, and the one there."""
    if darts.reach is not None:
        return _stitches(cut, darts.reach, "reach")
    here = next((Term(one, Role.STITCHES) for one in levels if one.value == wide), None)
    across = Term(here, Role.STITCHES, " across") if here else Operand(
        Fraction(wide), Role.STITCHES, " across")
    return counted(across / plain(4), Unit.STITCHES, cut.gauge.stitch)


def _levels(garment: Garment) -> Iterator[Count]:
    """The widths of a front and, nearest to its top first, of the back that it is cut like."""
    named = {name: count for key, name, count in garment.counts if key == "back"}
    yield from (named[name] for name in ("chest", "waist", "hip", "cast_on") if name in named)


def _wide(front: Piece, row: int) -> int:
    """The stitches of a front at a row, after what is changed there."""
    return front.stitches.value + sum(c.outward for edge in (front.left, front.right)
                                      for c in edge.changes if c.row <= row)


def _wide_made(front: Piece, row: Expression) -> Iterator[Expression]:
    """The same stitches as they are computed: those cast on, and what comes and goes at both edges
    by the slopes that begin below the `row`; nothing where one of them does not say so."""
    made: Expression = front.stitches.term(Role.STITCHES)
    for slope in front.slopes:
        if slope.below.value >= row.value:
            continue
        events = events_by(slope, row) if isinstance(slope, EvenSlope) else None
        if events is None:
            return
        both = plain(4 if slope.how.at_dart else 2) * Term(events, Role.NUMBER)
        if both.value:
            made = made + both if slope.how.is_outward else made - both
    yield made


def _clear(front: Piece, up: Count, below: Count, pitch: Fraction) -> Count:
    """The rows from the darts to the underarm, more where a side is shaped just before them or
    between the two rows that its edges have; `pitch` is the height of a row [mm]."""
    shaped = {c.row for edge in (front.left, front.right) for c in edge.changes}
    rows = [up.value - max(below.value, LAST_ROWS)]
    while {rows[-1], rows[-1] + 1} & shaped:
        rows.append(rows[-1] - 2)
    if up.value - rows[-1] == below.value:
        return below
    tried = (Rounded(tried_figure(up.value - row), NEAREST, pitch) for row in rows)
    costs = (Operand(Fraction(len({row, row + 1} & shaped)), Role.COST) for row in rows)
    return Count(Chosen((below.made, *tried), Rule.LEAST, ChoiceReason.CLEAR_ROWS, tuple(costs)),
                 Unit.ROWS)


def _steps(pairs: int, first: int, reach: int) -> tuple[int, ...]:
    """The stitches of each step: to the first turn, and from there in equal parts to the last."""
    if pairs == 1:
        return (reach,)
    left, more = divmod(max(0, reach - first), pairs - 1)
    return (first, *_each(left, more, pairs - 1))


def _each(size: int, more: int, parts: int) -> Iterator[int]:
    """So many parts of `size`, the first `more` of them one larger."""
    for number in range(parts):
        yield size + (number < more)


def _check(front: Piece, short: HeldRows, wide: int, below: Count) -> None:
    """Raise CannotShape for darts that lie too low, too high, or too far in."""
    if short.row < max((each.row + LAST_ROWS for each in front.short_rows), default=2):
        raise CannotShape(f"bust darts {below} below the underarm, which lies "
                          f"{below.value + short.row} rows above the lower edge",
                          "Make below less.", at=ENTRY)
    opens = front.opening.row if front.opening else front.left.rows
    if short.row + LAST_ROWS > opens:
        raise CannotShape(f"bust darts at row {short.row}, and a neck that opens at row {opens}",
                          "Make below more, or the neck less deep.", at=ENTRY)
    if wide - 2 * short.held < BETWEEN:
        raise CannotShape(f"{max(0, wide - 2 * short.held)} stitches between bust darts of "
                          f"{short.held} stitches each, where it takes {BETWEEN}",
                          "Make reach less.", at=ENTRY)

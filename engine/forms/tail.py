"""A shirt tail: a lower edge whose middle hangs lower than its sides, by short rows at its start.

All but the middle is held above the first rows, and put back step by step. The steps of a round one
fall from the middle outward, as those of a neck do (common practice, no source).
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import EVEN, Unit
from ..core.expression import Operand, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..fabric.gauge import counted, rows_along, stitches_in
from ..machine.headings import Heading
from ..pattern.short_rows import ShirtTail, TailCurve, Turning
from ..shape.curves import falling_steps
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.held_rows import LAST_ROWS, HeldRows
from ..shape.piece import Piece
from ..words.terms.part_names import part_name
from .body_counts import SEAM

ENTRY = "shirt_tail"
BODY = ("back", "front")
FIRST = 2  # rows over all stitches below the short ones
HIGHEST = 12  # above this row it would be no lower edge
BETWEEN = 4  # stitches that are never held, at least


def with_tail(cut: Cut, garment: Garment, tail: ShirtTail) -> Garment:
    """Return the garment with the shirt `tail` at its back and front.

    Either edge keeps its rows, so that the side seams close as before. Raises CannotShape, with
    the figures.
    """
    body = [piece for piece in garment.pieces if piece.key in BODY]
    if len(body) < len(BODY):
        raise CannotShape("a shirt tail, and 2 fronts that meet at an opening",
                          "Use a form that is closed at the front, or delete it.", at=ENTRY)
    if cut.chart or cut.repeat:
        raise CannotShape("a shirt tail in a fabric with a stitch chart or with needles left out "
                          "of work", "Use a plain fabric, or delete it.", at=ENTRY)
    if cut.hem:
        raise CannotShape("a shirt tail above a hem or rib, which is knitted straight",
                          "Leave the hem out, or delete shirt_tail.", at=ENTRY)
    rows = rows_along(tail.depth, cut.gauge, EVEN,
                      Operand(tail.depth.mm, Role.STATED, "depth", cut.place(f"{ENTRY}.depth")))
    held = _held(cut, tail, body[0].stitches)
    tails = {piece.key: _tail(piece, rows, held, tail.curve) for piece in body}
    pieces = tuple(replace(piece, short_rows=(tails[piece.key], *piece.short_rows))
                   if piece.key in tails else piece for piece in garment.pieces)
    return replace(garment, pieces=pieces, counts=(
        *garment.counts, ("back", "tail_rows", rows), ("back", "tail_held", held)))


def _held(cut: Cut, tail: ShirtTail, cast_on: Count) -> Count:
    """The stitches held at either side: to `reach`, or a third of the width (common practice, no
    source)."""
    if tail.reach is None:
        return counted(cast_on.term(Role.STITCHES, part_name(PartRole.CAST_ON)) / plain(3),
                       Unit.STITCHES, cut.gauge.stitch)
    wide = Operand(tail.reach.mm, Role.STATED, "reach", cut.place(f"{ENTRY}.reach"))
    figure = stitches_in(wide, cut.gauge)
    return counted(figure + Operand(Fraction(SEAM), Role.SEAM), Unit.STITCHES, cut.gauge.stitch)


def _tail(piece: Piece, rows: Count, held: Count, curve: TailCurve) -> HeldRows:
    """The short rows of a piece, above its first rows and where no side is shaped."""
    pairs, wide = rows.value // 2, piece.stitches.value
    if not 0 < pairs <= held.value:
        raise CannotShape(f"a shirt tail of {rows} that reaches over {held}",
                          "Change its depth, or make reach more.", at=ENTRY)
    if wide - 2 * held.value < BETWEEN:
        raise CannotShape(f"{max(0, wide - 2 * held.value)} stitches between the {held} at either "
                          f"side of a shirt tail, where it takes {BETWEEN}", "Make reach less.",
                          at=ENTRY)
    shaped = {c.row for edge in (piece.left, piece.right) for c in edge.changes}
    row = next((row for row in range(FIRST, HIGHEST + 1, 2) if not {row, row + 1} & shaped), None)
    if row is None or row + LAST_ROWS > piece.left.rows:
        raise CannotShape(f"a shirt tail, and sides that are shaped by row {HIGHEST}",
                          "Let the sides begin higher, or delete it.", at=ENTRY)
    if curve is TailCurve.ROUND:
        steps = tuple(reversed(falling_steps(held.value, pairs)))
    else:
        each, more = divmod(held.value, pairs)
        steps = tuple(each + (n < more) for n in range(pairs))
    return HeldRows(row=row, steps=steps, turning=Turning.LONGER, heading=Heading.TAIL,
                    before=Heading.FIRST_ROWS)

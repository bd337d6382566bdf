"""Seams that are sewn row to row, up the sides of pieces: what each side of them has."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.edge_parts import SectionRole
from ..core.expression import Expression, Operand, Term
from ..core.join_parts import JoinRole, SewnSide
from ..core.operands import Role
from ..machine.steps import Side
from ..words.terms.join_names import from_below, join_name, sewn_sides, side_name, worn_at
from ..words.terms.section_names import SECTIONS
from .foot import height_of
from .garment import Join, Kindred
from .piece import FRONTS, Piece
from .profile import How
from .tasks import Seam


def seam_up(seam: Seam, title: str, one: tuple[Piece, int], other: tuple[Piece, int], *,
            counted: Count, tolerance: int = 0) -> Join:
    """Return a seam sewn row to row from the lower edges, up to a row of each piece; `counted` are
    the rows that it should have there.

    Every such seam is counted in one way, as its rows can be counted from the right side: those
    of a rib, or of the outer layer of a hem, with those above.
    """
    first, last = (rows_sewn(piece, rows, counted) for piece, rows in (one, other))
    later = bound_off_later(*one) and not other[0].mirrored
    return Join(title=from_below(title), seam=seam, kindred=Kindred.ROWS,
                sewn=(first + Operand(Fraction(1), Role.ROWS) if later else first, last),
                tolerance=Fraction(max(tolerance, later)), side=FRONTS.get(other[0].key),
                sides=sewn_sides(SewnSide.LEFT_OF_BED, SewnSide.ONE_EDGE) if later
                else sewn_sides(SewnSide.ONE, SewnSide.OTHER))


def rows_sewn(piece: Piece, rows: int, counted: Count) -> Expression:
    """The rows of a piece up to a row of it, from its lower edge."""
    above = sewn_rows(rows, counted.made)
    if piece.hem is None:
        return above
    return above + height_of(piece.hem, SECTIONS[SectionRole.LOWER_EDGE])


def sewn_rows(rows: int | Fraction, counted: Expression | None = None, name: str = ""
              ) -> Operand | Term:
    """The rows that an edge has where it is sewn.

    They are as they were `counted`, where the piece has as many; else its own figure stands alone.
    """
    return _sewn(Fraction(rows), Role.ROWS, counted, name)


def sewn_stitches(stitches: int, counted: Expression | None = None) -> Operand | Term:
    """The stitches that an edge has where it is sewn, as `sewn_rows` has the rows."""
    return _sewn(Fraction(stitches), Role.STITCHES, counted)


def _sewn(figure: Fraction, role: Role, counted: Expression | None, name: str = ""
          ) -> Operand | Term:
    if counted is not None and counted.value == figure:
        return Term(counted, role, name)
    return Operand(figure, role, name)


def side_seams(back: tuple[Piece, int], front: tuple[Piece, int], *, counted: Count,
               tolerance: int = 0) -> tuple[Join, ...]:
    """Return the side seams of a back and a front, up to a row of each; right and left where they
    differ. `counted` are the rows below the armhole or raglan."""
    seam = seam_up(Seam.SIDE, side_name(front[0].title), back, front,
                   counted=counted, tolerance=tolerance)
    if not (bound_off_later(*back) and opens_below(front[0])):
        return (seam,)
    return right_and_left(seam, replace(seam, sewn=(rows_sewn(*back, counted), seam.sewn[1]),
                                        tolerance=Fraction(tolerance)))


def right_and_left(right: Join, left: Join) -> tuple[Join, Join]:
    """Return the joins at the wearer's right and left, of which only the right is a row off."""
    return (replace(right, title=worn_at("right", right.title), side=Side.RIGHT),
            replace(left, title=worn_at("left", left.title), side=Side.LEFT,
                    sides=sewn_sides(SewnSide.ONE, SewnSide.OTHER)))


def opens_below(front: Piece) -> bool:
    """True where a front opens below the underarms: both halves bind off there in the same row.

    The left half meets its neighbours row for row, as a front does that is knitted mirrored.
    """
    whole, half = (any(c.how is How.BIND_OFF for c in edge.changes) for edge in (
        front.right, front.opening.outer if front.opening else front.right))
    return half and not whole


def bound_off_later(piece: Piece, row: int) -> bool:
    """True where the left edge of a piece is bound off a row above its right one, at `row`.

    The carriage is at the other side by then. A left edge as knitted meets a right one in every
    seam, but at a front that is knitted mirrored: there the right edges as drawn meet.
    """
    return _starts(piece) == [row, row + 1]


def is_left_later(piece: Piece) -> bool:
    """True where the left edge of a piece begins to be bound off a row above its right one."""
    right, left = _starts(piece)
    return right is not None and left == right + 1


def _starts(piece: Piece) -> list[int | None]:
    """The rows at which the right edge of a piece and its left one begin to be bound off."""
    return [next((c.row for c in edge.changes if c.how is How.BIND_OFF), None)
            for edge in (piece.right, piece.left)]


def sleeve_seam(sleeve: Piece, rows: Count) -> Join:
    """Return the seam of a sleeve, `rows` above its hem or rib."""
    up = (sleeve, rows.value)
    return seam_up(Seam.SLEEVE, join_name(JoinRole.SLEEVE), up, up, counted=rows)

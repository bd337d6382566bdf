"""Vertical darts of a body: what they take of a shaped side, and how far in they lie.

Where a piece grows narrower, a dart takes a stitch on either side of one that runs on: nona
(Nonaknits), "Shaping up (vertical darts)", 2006 (W3-049). Where it grows wider again, a stitch
comes on either side of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import DOWN, Unit, decimal
from ..core.expression import NOTHING, Expression, Operand, Rounded, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..fabric.gauge import counted, stitches_in
from ..shape.even_gaps import EvenSlope, Finish
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.piece import Piece
from ..shape.profile import Change, How, Profile
from ..shape.schedule import spread_events
from ..shape.slopes import even_slope
from ..words.terms.part_names import part_name
from .body_counts import SEAM
from .stations import Station

ENTRY = "darts"
PAIR = 2  # a dart takes or gives a stitch on either side of its middle one
BETWEEN = 4  # stitches that lie between two darts, or between a dart and a front edge, at least


def pairs_of(cut: Cut, events: Expression) -> Expression:
    """Return how many pairs of stitches a dart takes of `events` stitches at each side; none
    without darts."""
    darts = cut.conventions.darts
    if darts is None:
        return NOTHING
    if darts.share != 1:
        events = Operand(darts.share, Role.SOURCE, part_name(PartRole.OF_STITCHES),
                         cut.place("darts.share")) * Term(events, Role.NUMBER)
    return Rounded(events / plain(PAIR), DOWN)


def taken(name: str, pairs: Expression, how: How, over: tuple[Station, Expression, Finish]
          ) -> tuple[tuple[Change, ...], tuple[EvenSlope, ...]]:
    """Return the changes of one side at its dart, above the station where they begin: `pairs`,
    spread over so many rows, and their calculation of this `name`.

    `how` is that of the side. Raises ValueError for more than there are rows for.
    """
    low, rows, finish = over
    at_dart = How.DART_MORE if how.is_outward else How.DART_LESS
    made = spread_events(pairs, rows, finish=finish)
    return made.changes(at_dart, PAIR), even_slope((name, at_dart), low.up, made)


def inset_of(cut: Cut, cast_on: Count) -> Count | None:
    """Return the stitches between the edge and the middle stitch of a dart at the lower edge, with
    the one in the seam; None without darts.

    A quarter of the width where nothing is asked (W3-049).
    """
    darts = cut.conventions.darts
    if darts is None:
        return None
    seam = Operand(Fraction(SEAM), Role.SEAM)
    if darts.inset is None:
        across = cast_on.term(Role.STITCHES, part_name(PartRole.CAST_ON)) \
            - Operand(Fraction(2 * SEAM), Role.SEAMS)
        return counted(across / plain(4) + seam, Unit.STITCHES, cut.gauge.stitch)
    wide = Operand(darts.inset.mm, Role.STATED, "inset", cut.place("darts.inset"))
    return counted(stitches_in(wide, cut.gauge) + seam, Unit.STITCHES, cut.gauge.stitch)


def placed(changes: Iterable[Change], inset: Count | None) -> Iterator[Change]:
    """Yield the changes of a side, each at a dart with the stitches outside its middle one."""
    outside = inset.value if inset else 0
    for change in changes:
        yield change._replace(inset=outside) if change.how.at_dart else change
        outside += change.outward // PAIR if change.how.at_dart else change.outward


def check_darts(cut: Cut, garment: Garment) -> None:
    """Raise CannotShape for darts that a garment has no place for, with the figures."""
    darts = cut.conventions.darts
    if darts is None:
        return
    if cut.chart or cut.repeat:
        raise CannotShape("darts in a fabric with a stitch chart or with needles left out of work",
                          "Use a plain fabric, or delete darts.", at=ENTRY)
    taken = [c for piece in garment.pieces for c in _darts(piece.right)]
    if not taken:
        raise CannotShape(
            f"darts that take {decimal(100 * darts.share, 1)} %, and no pair of stitches for "
            "one between two of the widths",
            "Give hem_width, hip_width or waist_width as well, or a larger share.", at=ENTRY)
    for piece in garment.pieces:
        _check_piece(piece, cut.moved)


def _darts(edge: Profile) -> tuple[Change, ...]:
    return tuple(change for change in edge.changes if change.how.at_dart)


def _check_piece(piece: Piece, moved: int) -> None:
    """Every dart lies inside what is moved at the edge, and apart from the other dart or edge."""
    if piece.opening and any(c.how.at_dart for c in piece.opening.outer.changes):
        raise CannotShape(
            f"{piece.title.lower()}: a neck that opens at row {piece.opening.row}, below the top "
            "of the darts", "Make the neck less deep, or give a chest_height below it.", at=ENTRY)
    darts = _darts(piece.right)
    both = bool(_darts(piece.left))
    if darts and not both and any(c.row <= darts[-1].row for c in piece.left.changes):
        raise CannotShape(f"{piece.title.lower()}: a front edge that is shaped below row "
                          f"{darts[-1].row}, the top of its dart",
                          "Make the neck less deep, or give a chest_height below it.", at=ENTRY)
    outside = moved + 3  # the doubled stitch, the pair's own, and one more
    wide = piece.stitches.value
    for change in piece.right.changes:
        if change.how.at_dart:
            inside = wide - (1 + both) * (change.inset + 1)
            if change.inset < outside:
                raise CannotShape(
                    f"{piece.title.lower()}: darts with {change.inset} stitches outside their "
                    f"middle one at row {change.row}, where it takes {outside}",
                    "Make inset more, or the difference of the widths less.", at=ENTRY)
            if inside < BETWEEN:
                raise CannotShape(
                    f"{piece.title.lower()}: {max(0, inside)} stitches inside its darts at row "
                    f"{change.row}, where it takes {BETWEEN}", "Make inset less.", at=ENTRY)
        wide += (1 + both) * change.outward

"""The crown of a hat: what it narrows by on which rows, and the counts that follow from it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import NEAREST, Rounding, Unit
from ..core.expression import Expression, Noted, Operand, plain
from ..core.operands import Note, Role
from ..fabric.gauge import counted
from ..pattern.specs import CrownShape, CrownSpec
from ..shape.crowns import Top, after_gathering, crown, halvings, wedges
from ..shape.garment import CannotShape, Cut
from ..shape.piece import Piece
from .straight import Counts, rows_of

DEEPER = "Make the hat longer, or its crown less deep."


@dataclass(frozen=True, slots=True)
class HatCrown:
    """A crown: what narrows the piece, the rows below it, and those that it is counted as."""

    top: Top
    below: Count
    deep: Count


def fits(spec: CrownSpec) -> Rounding:
    """Return the stitch counts that a crown can be made of: whole wedges, and what lies beside."""
    if spec.shape is CrownShape.WEDGES:
        return Rounding("multiple", of=spec.wedges, plus=spec.beside)
    return NEAREST


def crown_of(cut: Cut, stitches: Count, rows: Count) -> HatCrown:
    """Return the crown of a hat of so many `stitches` and `rows`.

    Raises CannotShape where it has no room, or its needles cannot be closed up.
    """
    spec = cut.crown
    if spec.shape is CrownShape.GATHERED:
        return _gathered(cut, rows)
    if cut.repeat or (cut.chart and cut.chart.leaves_out):
        raise CannotShape(f"a crown of {spec.shape.value} in a fabric with needles left out of "
                          "work", "Leave the crown out for a gathered one, or use a fabric in "
                          "which every needle works.")
    deep = _wedge_rows(spec, stitches) if spec.shape is CrownShape.WEDGES else \
        Count(_total(spec.halvings), Unit.ROWS)
    first = rows.value - deep.value
    if first < 2:
        raise CannotShape(f"a crown of {deep} in a hat of {rows}", DEEPER)
    closes = wedges(stitches.value, first, spec) if spec.shape is CrownShape.WEDGES else \
        halvings(stitches.value, first, spec.halvings)
    return HatCrown(Top(closes=closes), Count(
        rows.term(Role.NUMBER) - deep.term(Role.NUMBER), Unit.ROWS), deep)


def _gathered(cut: Cut, rows: Count) -> HatCrown:
    deep = rows_of(cut, "hat crown_rows", "crown", least=0)
    made, last = crown(rows.value, deep.value, cut.crown), after_gathering(deep.value, cut.crown)
    if made.first < 2:
        raise CannotShape(f"a crown of {deep} in a hat of {rows}", DEEPER)
    return HatCrown(Top(gathers=(made.gather,), tightens=made.tightens), Count(
        rows.term(Role.NUMBER) - deep.term(Role.NUMBER) - plain(last), Unit.ROWS), deep)


def _wedge_rows(spec: CrownSpec, stitches: Count) -> Count:
    """The rows of all decreases of a wedge: one for each stitch that goes."""
    each = (stitches.value - spec.beside) // spec.wedges
    if each <= spec.remain:
        raise CannotShape(f"{spec.wedges} wedges of {Unit.STITCHES.of(each)}, to be decreased to "
                          f"{spec.remain}", "Make hat_width wider, or the wedges fewer.")
    wedge = (stitches.term(Role.STITCHES) - plain(spec.beside)) / plain(spec.wedges)
    return Count((wedge - plain(spec.remain)) * plain(spec.every), Unit.ROWS)


def _total(rows: tuple[int, ...]) -> Expression:
    """The rows after every halving, added up."""
    total: Expression = plain(rows[0])
    for more in rows[1:]:
        total = total + plain(more)
    return total


def drawn_up(cut: Cut, piece: Piece) -> Counts:
    """Return the count of the stitches that a hat's top is drawn up from."""
    spec, stitches = cut.crown, piece.stitches
    if spec.shape is CrownShape.WEDGES:
        made = Count(plain(spec.wedges) * plain(spec.remain) + plain(spec.beside), Unit.STITCHES)
    elif spec.shape is CrownShape.HALVINGS:
        made = counted(stitches.term(Role.STITCHES) / plain(2 ** len(spec.halvings)),
                       Unit.STITCHES, cut.gauge.stitch, Rounding("up"))
    else:
        made = Count(Noted(Operand(Fraction(piece.drawn), Role.STITCHES), Note.EVERY_SECOND,
                           (str(stitches.value), str(stitches.value - piece.drawn),
                            Unit.STITCHES.of(piece.drawn))), Unit.STITCHES)
    return (("hat", "drawn_up", made),)

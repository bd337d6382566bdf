"""The crown of a hat: what it narrows by on which rows, and the counts that follow from it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from ..core.branched import as_multiple, odd_in
from ..core.counted import Count
from ..core.counts import EVEN, NEAREST, ODD, Rounding, Unit
from ..core.expression import Expression, Operand, Product, Rounded, Sum, Term, plain
from ..core.note_arguments import Noted, NotedAmount
from ..core.operand_parts import PartRole
from ..core.operands import Note, Role
from ..core.text_kinds import FindingText
from ..fabric.gauge import counted
from ..machine.records import dataclass
from ..pattern.cells import Cell
from ..pattern.specs import CrownShape, CrownSpec
from ..shape.crowns import (
    QUARTERS,
    Top,
    after_gathering,
    crown,
    halvings,
    quarter,
    side_decreases,
    wedges,
)
from ..shape.garment import CannotShape, Cut
from ..shape.piece import Piece
from ..shape.profile import Profile
from ..words.terms.part_names import part_name
from .straight import Counts, rows_of

DEEPER: FindingText = "Make the hat longer, or its crown less deep."


@dataclass(frozen=True, slots=True)
class HatCrown:
    """A crown: its edges and what narrows it besides, the rows below it, and those that it is
    counted as."""

    side: Profile
    top: Top
    below: Count
    deep: Count
    quarters: Profile | None = None


def fits(spec: CrownSpec) -> Rounding:
    """Return the stitch counts that a crown can be made of: whole wedges, and what lies beside."""
    if spec.shape is CrownShape.WEDGES:
        return Rounding("multiple", of=spec.wedges, plus=spec.beside)
    if spec.shape is CrownShape.SIDES:
        return ODD if spec.left % 2 else EVEN
    if spec.shape is CrownShape.QUARTERS:
        return Rounding("multiple", of=2 * QUARTERS, plus=QUARTERS * (spec.left % 2))
    return NEAREST


def fitted(cut: Cut, made: Count) -> Count:
    """Return stitches that fit a crown, which follow what the designer asks of it."""
    spec = cut.crown
    if spec.shape not in (CrownShape.WEDGES, CrownShape.SIDES, CrownShape.QUARTERS):
        return made
    if spec.shape is CrownShape.WEDGES:
        of: Expression
        of, plus = _figure(cut, "wedges", spec.wedges), _figure(cut, "beside", spec.beside)
    else:
        times = plain(QUARTERS) if spec.shape is CrownShape.QUARTERS else plain(1)
        of, plus = plain(2) * times, times * odd_in(_figure(cut, "remain", spec.left))
    return Count(as_multiple(made.made, of, plus), made.unit)


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
    deep = _DEEP[spec.shape](cut, stitches)
    first = rows.value - deep.value
    if first < 2:
        raise CannotShape(f"a crown of {deep} in a hat of {rows}", DEEPER)
    below = Count(_below(rows, deep), Unit.ROWS)
    if spec.shape in (CrownShape.SIDES, CrownShape.QUARTERS):
        _need_two_edges(cut)
    if spec.shape is CrownShape.SIDES:
        _need_one_colour(cut)
    if spec.shape is CrownShape.QUARTERS:
        return HatCrown(Profile(first), Top(), below, deep,
                        quarter(stitches.value // QUARTERS, spec))
    if spec.shape is CrownShape.SIDES:
        side = side_decreases(stitches.value, first, rows.value, spec)
        return HatCrown(side, Top(), below, deep)
    closes = wedges(stitches.value, first, spec) if spec.shape is CrownShape.WEDGES else \
        halvings(stitches.value, first, spec.halvings)
    return HatCrown(Profile(rows.value), Top(closes=closes), below, deep)


def _gathered(cut: Cut, rows: Count) -> HatCrown:
    deep = rows_of(cut, "hat crown_rows", "crown", least=0)
    made, last = crown(rows.value, deep.value, cut.crown), after_gathering(deep.value, cut.crown)
    if made.first < 2:
        raise CannotShape(f"a crown of {deep} in a hat of {rows}", DEEPER)
    top = Top(gathers=(made.gather,), tightens=made.tightens)
    return HatCrown(Profile(rows.value), top, Count(
        _below(rows, deep) - Operand(Fraction(last), Role.ROWS, part_name(
            PartRole.ABOVE_GATHERING)), Unit.ROWS), deep)


def _below(rows: Count, deep: Count) -> Expression:
    """The rows of a hat less those of its crown."""
    return rows.term(Role.ROWS) - deep.term(Role.ROWS, part_name(PartRole.OF_CROWN))


def _figure(cut: Cut, key: str, value: int) -> Expression:
    """A figure of the crown as the source has it, or as it is usual."""
    place = cut.place(f"crown.{key}")
    if place is None or place == cut.place("crown"):
        return plain(value)
    return Term(Operand(Fraction(value), Role.SOURCE, key, place), Role.NUMBER)


def _wedge_rows(cut: Cut, stitches: Count) -> Count:
    """The rows of all decreases of a wedge: one for each stitch that goes."""
    spec = cut.crown
    each = (stitches.value - spec.beside) // spec.wedges
    if each <= spec.left:
        raise CannotShape(f"{spec.wedges} wedges of {Unit.STITCHES.of(each)}, to be decreased to "
                          f"{spec.left}", "Make hat_width wider, or the wedges fewer.")
    beside, many, left, every = (_figure(cut, *one) for one in (
        ("beside", spec.beside), ("wedges", spec.wedges), ("remain", spec.left),
        ("every", spec.every)))
    wedge = (stitches.term(Role.STITCHES) - beside) / many
    return Count((wedge - left) * every, Unit.ROWS)


def _need_two_edges(cut: Cut) -> None:
    """Few stitches, an even number, cannot all be moved alike at both edges."""
    least, left = 2 * cut.moved + 2, cut.crown.left
    if left % 2 == 0 and left < least:
        raise CannotShape(f"{Unit.STITCHES.of(left)} left of {cut.crown.shape.value} that move "
                          f"{cut.moved}", f"Write remain: {least}, or an odd number, or make "
                          "moved less.")


def _need_one_colour(cut: Cut) -> None:
    """Where few stitches are left, a row of two yarns would have none for one of them."""
    if cut.chart and Cell.SECOND in cut.chart.cells:
        raise CannotShape("side decreases in a fabric of two colours",
                          "Use a fabric of one yarn, or another shape of crown, which is plain.")


def _side_rows(cut: Cut, stitches: Count) -> Count:
    """The rows of all decreases at both edges."""
    spec = cut.crown
    if stitches.value <= spec.left:
        raise CannotShape(f"{stitches}, to be decreased to {spec.left}", "Make hat_width wider.")
    gone = (stitches.term(Role.STITCHES) - _figure(cut, "remain", spec.left)) / plain(2)
    return Count(gone * _figure(cut, "every", spec.every), Unit.ROWS)


def _quarter_rows(cut: Cut, stitches: Count) -> Count:
    """The rows of all decreases at both edges of a quarter."""
    spec = cut.crown
    each = stitches.value // QUARTERS
    if each <= spec.left:
        raise CannotShape(f"quarters of {Unit.STITCHES.of(each)}, to be decreased to {spec.left}",
                          "Make hat_width wider.")
    each_ = stitches.term(Role.STITCHES) / plain(QUARTERS)
    gone = (each_ - _figure(cut, "remain", spec.left)) / plain(2)
    return Count(gone * _figure(cut, "every", spec.every), Unit.ROWS)


def _halving_rows(cut: Cut, _: Count) -> Count:
    """The rows after every halving, added up."""
    first, *others = (_figure(cut, "halvings", rows) for rows in cut.crown.halvings)
    return Count(Sum((first, *others)) if others else first, Unit.ROWS)


def _halves(cut: Cut) -> Expression:
    """By how much all halvings divide the stitches: 2 for each of them."""
    many = len(cut.crown.halvings)
    return plain(2) if many == 1 else Term(Product((plain(2),) * many), Role.NUMBER)


_DEEP: Mapping[CrownShape, Callable[[Cut, Count], Count]] = {
    CrownShape.WEDGES: _wedge_rows, CrownShape.HALVINGS: _halving_rows,
    CrownShape.SIDES: _side_rows, CrownShape.QUARTERS: _quarter_rows}


def drawn_up(cut: Cut, piece: Piece) -> Counts:
    """Return the count of the stitches that a hat's top is drawn up from."""
    spec, stitches = cut.crown, piece.stitches
    if spec.shape is CrownShape.WEDGES:
        made = Count(
            _figure(cut, "wedges", spec.wedges) * _figure(cut, "remain", spec.left)
            + _figure(cut, "beside", spec.beside), Unit.STITCHES)
    elif spec.shape is CrownShape.QUARTERS:
        made = Count(plain(QUARTERS) * _figure(cut, "remain", spec.left),
                     Unit.STITCHES)
    elif spec.shape is CrownShape.SIDES:
        made = Count(_figure(cut, "remain", spec.left), Unit.STITCHES)
    elif spec.shape is CrownShape.HALVINGS:
        made = counted(stitches.term(Role.STITCHES) / _halves(cut),
                       Unit.STITCHES, cut.gauge.stitch, Rounding("up"))
    else:
        half: Expression = Rounded(stitches.term(Role.STITCHES) / plain(2), Rounding("up"))
        if half.value != piece.drawn:  # the first stitch stays alone
            half = plain(1) + Rounded((stitches.term(Role.STITCHES) - plain(1)) / plain(2),
                                      Rounding("up"))
        if half.value != piece.drawn:  # drawn in more than once
            half = Operand(Fraction(piece.drawn), Role.STITCHES)
        made = Count(Noted(half, Note.EVERY_SECOND,
                           (stitches.value, stitches.value - piece.drawn,
                            NotedAmount(piece.drawn, Unit.STITCHES))), Unit.STITCHES)
    return (("hat", "drawn_up", made),)

"""The stitches of an own piece at its lower edge and at its corners, as its measures give them.

What a designer types as a count stays that count: the parity of the others follows it, and what is
given outright under `counts` goes for every corner of the same measure (common practice, no
source).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import GIVEN, NEAREST, Unit
from ..core.expression import Expression, Operand, Rounded, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.text_kinds import CountKey, FindingText
from ..fabric.gauge import counted, stitches_in
from ..pattern.outlines import EdgeSide, OutlinePiece, OutlinePoint
from ..shape.garment import CannotKeep, Cut
from ..shape.roundings import CountKind, alike, rule, text
from ..words.terms.part_names import part_name
from ..words.terms.working import working_of
from .body_counts import SEAM, width_of
from .straight import stitches_of

LOWEST = "edge"
MeasuresBehind = Mapping[CountKey, tuple[str, int]]
"""What stands behind each count: its measure, and the stitches that lie in seams."""


def label(point: OutlinePoint, number: int) -> str:
    """Return what a corner is called in the counts: by its name, but for one that is called as
    the lower edge is there."""
    return point.stretch if point.stretch not in ("", LOWEST) else f"corner_{number}"


def whole_widths(cut: Cut, piece: OutlinePiece, seams: Sequence[int]
                 ) -> tuple[Count, dict[str, Count]]:
    """Return the stitches cast on, and at every corner, all even or all odd. Raises CannotKeep for
    a measure in stitches that cannot stay."""
    cast_on, of = f"{piece.key} cast_on", {f"{piece.key} cast_on": (piece.width, seams[0])}
    if not piece.left:
        only = stitches_of(cut, cast_on, piece.width, seams[0])
        check_typed(cut, of, {cast_on: only})
        return only, {}
    of |= {f"{piece.key} at_{label(point, number)}": (point.width, seams[number])
           for number, point in enumerate(piece.left, 1)}
    made = alike(_as_typed(cut, of), {name: width_of(cut, *one) for name, one in of.items()})
    counts = _carried(cut, of, dict(zip(of, made, strict=True)))
    check_typed(cut, of, counts)
    return counts.pop(cast_on), {name.partition(" ")[2]: one for name, one in counts.items()}


def _as_typed(cut: Cut, of: MeasuresBehind) -> Cut:
    """What widths are cut from: even or odd as the first that is a count of stitches, where nothing
    is asked of any of them."""
    typed = [name for name, (measure, _) in of.items() if cut.measures[measure].is_count]
    if not typed or any(name in cut.rounding for name in of):
        return cut
    return replace(cut, rounding={**cut.rounding, typed[0]: NEAREST})


def _carried(cut: Cut, of: MeasuresBehind, made: Mapping[CountKey, Count]) -> dict[CountKey, Count]:
    """The counts, and in place of each of which nothing is asked the one that is given outright for
    the same measure with as many seams."""
    given = {of[name]: made[name] for name in reversed(tuple(of))
             if name in cut.rounding and cut.rounding[name].rule == GIVEN}
    return {name: Count(given[one].term(Role.STITCHES, part_name(PartRole.OF_SAME_WIDTH)),
                        Unit.STITCHES)
            if one in given and name not in cut.rounding else made[name]
            for name, one in of.items()}


def check_typed(cut: Cut, of: MeasuresBehind, made: Mapping[CountKey, Count]) -> None:
    """Raise CannotKeep for the first measure in stitches or rows that comes to another count,
    where the designer asks nothing else of that."""
    for name, (measure, seams) in of.items():
        typed = cut.measures[measure]
        if not typed.is_count or name in cut.rounding:
            continue
        pitch = cut.gauge.stitch if made[name].unit is Unit.STITCHES else cut.gauge.row
        wanted = typed.value / pitch + seams
        if wanted.denominator == 1 and made[name].value != wanted:
            many = made[name].unit.of(int(wanted) - seams)
            more: FindingText = f" and {made[name].unit.of(seams)} for seams" if seams else ""
            raise CannotKeep(
                name, f"{measure} of {many}{more}, where {text(name)} is {made[name]}: "
                f"{working_of(made[name])}",
                f"Write {int(wanted) - seams - 1} or {int(wanted) - seams + 1} for {measure}, or "
                "a length.", f"measures.{measure}")


def half_widths(cut: Cut, piece: OutlinePiece, seams: Sequence[Sequence[int]]
                ) -> tuple[Count, dict[str, Count], dict[EdgeSide, list[Count]]]:
    """Return the stitches cast on, those from the middle of the lower edge to each edge, there and
    at every corner, and the latter by side. Raises CannotKeep as `whole_widths` does."""
    counts: dict[str, Count] = {}
    sides: dict[EdgeSide, list[Count]] = {}
    for side, seam in zip((EdgeSide.LEFT, EdgeSide.RIGHT), seams, strict=True):
        lowest = f"{piece.key} {side.value}_at_edge"
        of = {f"{piece.key} {side.value}_at_{label(point, number)}": (point.width, seam[number])
              for number, point in enumerate(piece.points(side), 1)}
        made = {name: _half(cut, name, cut.measure(measure), more)
                for name, (measure, more) in of.items()}
        made = {lowest: _half(cut, lowest, cut.measure(piece.width) / plain(2), seam[0]),
                **_carried(cut, of, made)}
        if sides and cut.measures[piece.width].is_count and not (
                {lowest, f"{piece.key} left_at_edge"} & set(cut.rounding)):
            made[lowest] = _rest(cut, piece, counts["left_at_edge"], seams[0][0] + seam[0])
        check_typed(cut, of, made)
        counts |= {name.partition(" ")[2]: one for name, one in made.items()}
        sides[side] = list(made.values())
    both = (counts["left_at_edge"].term(Role.STITCHES, part_name(PartRole.AT_LEFT))
            + counts["right_at_edge"].term(Role.STITCHES, part_name(PartRole.AT_RIGHT)))
    return Count(both, Unit.STITCHES), counts, sides


def _rest(cut: Cut, piece: OutlinePiece, left: Count, seams: int) -> Count:
    """What the left half leaves of a lower edge that is given in stitches."""
    whole = stitches_in(cut.measure(piece.width), cut.gauge)
    if seams:
        whole += Operand(Fraction(seams), Role.SEAMS)
    return Count(Term(Rounded(whole, NEAREST), Role.STITCHES, part_name(PartRole.ACROSS))
                 - left.term(Role.STITCHES, part_name(PartRole.AT_LEFT)), Unit.STITCHES)


def _half(cut: Cut, name: str, width: Expression, seam: int) -> Count:
    figure = stitches_in(width, cut.gauge)
    if seam:
        figure += Operand(Fraction(SEAM), Role.SEAM)
    return counted(figure, Unit.STITCHES, cut.gauge.stitch, rule(cut, name, CountKind.SINGLE))

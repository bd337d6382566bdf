"""The finished lengths of a garment, as sums of the counts of its pieces; as knitted [mm]."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..core.counted import Count, Reckoned
from ..core.expression import Expression, Operand, Sum, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..fabric.gauge import Gauge
from ..shape.foot import Foot, layer_of
from ..shape.garment import Cut
from ..shape.ribs import Rib
from ..words.terms.part_names import of_piece, part_name
from .body_counts import SEAM

Lengths = Mapping[str, Reckoned]


def lengths(**made: Expression) -> Lengths:
    """Return finished lengths [mm] by what each is called, "_" for a space."""
    return {name.replace("_", " "): Reckoned(one) for name, one in made.items()}


def across(count: Count, gauge: Gauge, *, seams: int = 0, of: str = "") -> Expression:
    """Return how wide so many stitches are, less those that `seams` take at either side.

    `of` is the piece that they belong to.
    """
    role = Role.SEAM if seams == 1 else Role.SEAMS
    return less(count.term(Role.STITCHES, of_piece(of) if of else ""),
                Operand(Fraction(seams * SEAM), role), gauge)


def less(stitches: Expression, taken: Expression, gauge: Gauge) -> Expression:
    """Return how wide so many stitches are without those that are `taken` of them."""
    return stitches_wide(stitches - taken if taken.value else stitches, gauge)


def stitches_wide(stitches: Expression, gauge: Gauge) -> Expression:
    """Return how wide so many stitches are."""
    return stitches * Operand(gauge.stitch, Role.STITCH_WIDTH)


def rows_high(rows: Expression, gauge: Gauge) -> Expression:
    """Return how high so many rows are."""
    return rows * Operand(gauge.row, Role.ROW_HEIGHT)


def rows(*parts: tuple[Count, PartRole]) -> Expression:
    """Return the rows of several counts, each with where its rows lie; those of none left out."""
    terms = tuple(count.term(Role.ROWS, part_name(where)) for count, where in parts if count.value)
    return terms[0] if len(terms) == 1 else Sum(terms)


def on_foot(above: Expression, foot: Foot | None, gauge: Gauge) -> Expression:
    """Return a height with that of the hem or rib below it."""
    if foot is None:
        return above
    name = "rib" if isinstance(foot, Rib) else "hem"
    above += layer_of(foot, Role.HEM_ROWS, name) \
        * Operand(foot.row or gauge.row, Role.ROW_HEIGHT)
    if foot.rows_to_join:
        above += rows_high(Operand(Fraction(foot.rows_to_join), Role.JOINING, name), gauge)
    return above


def chest(cut: Cut, back: Count, fronts: tuple[Count, ...]) -> Expression:
    """Return the way round a body: its back, and one front or two with the bands between them."""
    behind = across(back, cut.gauge, seams=2, of="back")
    if len(fronts) == 1:
        return behind + across(fronts[0], cut.gauge, seams=2, of="front")
    one = (fronts[0].term(Role.STITCHES, part_name(PartRole.OF_A_FRONT))
           - Operand(Fraction(SEAM), Role.SEAM) - cut.inside)
    both = behind + stitches_wide(plain(2) * one, cut.gauge)
    return both + cut.overlap if cut.bands.value else both

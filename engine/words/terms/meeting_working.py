"""The sentence of two edges that are joined: how far they are apart, and how far they may be."""

from __future__ import annotations

from fractions import Fraction

from ...core.counts import Unit, decimal, tenth
from ...core.expression import Expression


def meeting_working(sewn: tuple[Expression, Expression], ease: Fraction, allowed: Fraction,
                    unit: str, share: Fraction) -> str:
    """Return the sentence of two edges that meet: both sides, and how far off they are.

    Its figures are to the tenth, and its difference is that of the printed figures. `share` is
    that of the first side which `ease` is, 0 where it is a length.
    """
    one, other, more = (tenth(figure) for figure in (sewn[0].value, sewn[1].value, ease))
    apart = decimal(abs(other - one), 1)
    of = f" ({decimal(share * 100, 4)} % of {decimal(one, 1)})" if share else ""
    eased = (f", {apart} {_name_of(apart, unit)} {'less' if other < one else 'more'} "
             f"where {decimal(more, 1)} {unit}{of} are asked for") if ease else ""
    off, most = (decimal(figure, 1) for figure in (abs(other - one - more), allowed))
    named = f"a difference of {off} {_name_of(off, unit)}" if off != "0" else "no difference"
    return (f"{decimal(one, 1)} and {decimal(other, 1)} {unit}{eased}: {named} "
            f"({most} {_name_of(most, unit)} allowed)")


def _name_of(figure: str, unit: str) -> str:
    """The name of a unit after a printed figure: 1 row, 1.5 rows, 1 mm."""
    return Unit(unit).name_of(1) if figure == "1" and unit != "mm" else unit

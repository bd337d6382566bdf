"""The numbers of a band's holes as expressions: how many, and the stitches beside them."""

from __future__ import annotations

from fractions import Fraction

from ..core.counts import DOWN, UP
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Sum, plain
from ..core.operands import Reason, Role
from .band import BandPlan
from .buttonholes import Placing, holes_every


def hole_ends(placing: Placing) -> tuple[Expression, Expression]:
    """Return the stitches before the first hole and after the last, as expressions.

    They are as asked, or as the search for the least that is given up moved them.
    """
    spec = placing.spec
    if placing.fixed:
        first = Operand(Fraction(placing.lower), Role.NEAREST_STITCH)
        inside = plain(placing.holes) * plain(placing.hole)
        within = Sum((first, inside, *hole_gaps(placing)))
        return first, plain(placing.stitches) - within
    moved = [Chosen((plain(asked), plain(got)), Rule.LAST, Reason.LEAST_GIVEN_UP)
             if asked != got else plain(asked)
             for asked, got in ((spec.lower, placing.lower), (spec.upper, placing.upper))]
    return moved[0], moved[1]


def hole_gaps(placing: Placing) -> tuple[Expression, ...]:
    """Return the stitches of every gap: the room between the ends, a stitch more in some."""
    if placing.fixed:
        return tuple(Operand(Fraction(gap), Role.NEAREST_STITCH) for gap in placing.gaps)
    taken = plain(placing.lower) + plain(placing.holes) * plain(placing.hole) \
        + plain(placing.upper)
    share = (plain(placing.stitches) - taken) / plain(max(1, len(placing.gaps)))
    return tuple(Rounded(share, UP if gap > share.value else DOWN) for gap in placing.gaps)


def hole_number(plan: BandPlan, placing: Placing) -> Expression:
    """Return how many holes there are: as many as are asked for, or fit so far apart."""
    asked, spec = plan.band.buttonholes, placing.spec
    assert asked is not None
    if plan.part:
        return Operand(Fraction(placing.holes), Role.HOLES_PLACED)
    if asked.every is not None and not placing.fixed:
        every = asked.every.mm / plan.gauge.stitch
        fitted = holes_every(spec.stitches - spec.lower - spec.upper, placing.hole, every,
                             odd=asked.centre_hole)
        if fitted.value == placing.holes:
            return fitted
    return Operand(Fraction(placing.holes), Role.HOLES_ASKED)

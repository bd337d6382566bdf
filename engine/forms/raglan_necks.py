"""The front neck of a raglan as the designer shapes it: its centre, its steps, or an ellipse."""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.forms import ROUND_NECKS
from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Operand
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..shape.garment import Cut
from ..shape.piece import Piece
from ..shape.profile import Change
from ..words.terms.part_names import part_name
from .necklines import USUAL, centre_stitches, front_neck, inner_edge, own_centre


def is_own(cut: Cut) -> bool:
    """True where the designer shapes the front neck: a round or high one."""
    return cut.neck in ROUND_NECKS and cut.conventions.front_neck != USUAL


def whole_neck(cut: Cut, half: int, odd: int, height: int) -> tuple[int, tuple[Change, ...]]:
    """Return the stitches at the centre of a whole front's neck, and one inner edge above them.

    `half` stitches go on either side and `odd`, 0 or 1, at the centre, in `height` rows: what the
    raglan line beside the neck leaves of them, but for one last stitch. Raises CannotShape.
    """
    own, total = cut.conventions.front_neck, 2 * half + odd
    centre = centre_stitches(total, height, cut.neck, own)
    return centre, inner_edge(height, (total - centre) // 2, cut.neck, own=own).changes


def half_neck(cut: Cut, side: int, row: int, rows: int) -> tuple[Change, ...]:
    """Return the neck at the front edge of a cardigan's front, of which `side` stitches go.

    It begins above the even `row` of its `rows`. Raises CannotShape.
    """
    return front_neck(row + 1, rows - row - 1, side, cut.neck,
                      own=cut.conventions.front_neck).changes


def centre_counts(cut: Cut, front: Piece) -> tuple[tuple[str, str, Count], ...]:
    """Return the count of the centre of a whole front's neck, where the designer shapes it."""
    opening = front.opening
    if opening is None or not is_own(cut):
        return ()
    going = opening.centre - 2 * opening.inner.net
    made = own_centre(Operand(Fraction(going), Role.STITCHES, part_name(PartRole.OF_FRONT_NECK)),
                      cut.conventions.front_neck)
    return () if made is None else ((front.key, "neck_centre", Count(made, Unit.STITCHES)),)

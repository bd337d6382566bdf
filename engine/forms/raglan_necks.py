"""The front neck of a raglan as the designer shapes it: its centre, its steps, or an ellipse."""

from __future__ import annotations

from ..catalogue.forms import ROUND_NECKS
from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import Chosen, Expression, Rounded, Rule, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..pattern.model import Neck
from ..pattern.slope_specs import Slope
from ..shape.even_gaps import Remainder
from ..shape.garment import CannotShape, Cut
from ..shape.piece import Piece
from ..shape.profile import Change, How, in_order, shifted
from ..shape.schedule import spread_events
from ..shape.slopes import Usual, slope_request, slope_schedule
from ..shape.step_sizes import CountedSlope, SteppedSlope, listed_sizes
from ..words.terms.part_names import part_name
from .necklines import (
    USUAL,
    NeckEdge,
    centre_made,
    front_neck,
    half_centre,
    inner_edge,
    own_centre,
    side_made,
)
from .placket import Slit, above

INNER = Usual(end=2, least_end=1)  # a V's decreases, one row at least below the raglan's top


def is_own(cut: Cut) -> bool:
    """True where the designer shapes the front neck: a round or high one."""
    return cut.neck in ROUND_NECKS and cut.conventions.front_neck != USUAL


def whole_neck(cut: Cut, going: Expression, height: Expression) -> tuple[Expression, NeckEdge]:
    """Return the stitches at the centre of a whole front's neck, and one inner edge above them.

    So many are `going` in `height` rows: what the raglan lines beside the neck leave of them, but
    for one last stitch of either half. Raises CannotShape.
    """
    if is_own(cut):
        own = cut.conventions.front_neck
        centre = centre_made(going, height, cut.neck, own)
        return centre, inner_edge(height, side_made(going, centre), cut.neck, own=own)
    half = Rounded(going / plain(2), DOWN)
    middle = centre_half(half, height, cut.neck)
    left: Expression = Term(half, Role.STITCHES)
    if middle.value:
        left = left - Term(middle, Role.STITCHES)
    odd = going - plain(2) * Term(half, Role.STITCHES)  # the odd stitch lies at the centre
    return plain(2) * Term(middle, Role.STITCHES) + odd, single_stitches(cut, left, height)


def half_neck(cut: Cut, side: Expression, below: Expression, rows: Expression
              ) -> tuple[tuple[Change, ...], tuple[CountedSlope, ...]]:
    """Return the neck at the front edge of a cardigan's front, of which `side` stitches go in so
    many `rows`, and its calculation; it begins above the even row that `below` comes to.

    Raises CannotShape.
    """
    up = below + plain(1)
    if is_own(cut):
        edge = front_neck(int(up.value), rows - plain(1), side, cut.neck,
                          own=cut.conventions.front_neck)
        return edge.changes, edge.slopes(up)
    middle = centre_half(side, rows, cut.neck)
    left = Term(side, Role.STITCHES) - Term(middle, Role.STITCHES) if middle.value else side
    edge = single_stitches(cut, left, rows - plain(1))
    row = int(up.value)
    at_once = (Change(row, int(middle.value), How.BIND_OFF),) if middle.value else ()
    return (in_order(at_once, shifted(edge.changes, row)),
            (*bound_off(middle, up), *edge.slopes(up)))


def slit_neck(cut: Cut, going: Expression, slit: Slit, below: Expression, rows: Expression
              ) -> tuple[tuple[Change, ...], tuple[CountedSlope, ...]]:
    """Return one inner edge from the foot of a placket, like a cardigan's above it, and its
    calculation: so many are `going` in the whole neck, `rows` above the row that `below` comes to.

    Raises CannotShape.
    """
    if is_own(cut):
        raise CannotShape("a neckline above a placket",
                          "Leave out the neckline, or the placket.", at="neckline")
    wide = slit.stitches.term(Role.STITCHES, part_name(PartRole.OF_PLACKET))
    left = (going - wide) / plain(2)
    if below.value <= slit.rows.value or left.value < 1:
        raise CannotShape(f"a placket of {slit.rows} and {slit.stitches}",
                          "Make the placket shorter or its bands less deep.")
    at_once: Expression = plain(0)
    if cut.neck is not Neck.V:
        half = Rounded(going / plain(2), DOWN)
        middle = Term(centre_half(half, rows - plain(2), cut.neck), Role.STITCHES)
        at_once = Chosen((plain(0), middle - Rounded(wide / plain(2), DOWN),
                          Term(left, Role.STITCHES) - (rows - plain(4))), Rule.LARGEST,
                         ChoiceReason.ROW_EACH)
    rest = Term(left, Role.STITCHES) - Term(at_once, Role.STITCHES) if at_once.value else left
    edge = single_stitches(cut, rest, rows - plain(2))
    return (above(slit, int(at_once.value), edge.changes),
            (*bound_off(at_once, below + plain(1)), *edge.slopes(below + plain(2))))


def bound_off(stitches: Expression, below: Expression) -> tuple[SteppedSlope, ...]:
    """Return what is bound off at once at a neck as a calculation; nothing for no stitches."""
    if not stitches.value:
        return ()
    return (SteppedSlope(name="neck_bind_offs", how=How.BIND_OFF, below=below,
                         steps=listed_sizes([stitches])),)


def centre_half(side: Expression, rows: Expression, kind: Neck) -> Expression:
    """Return half the stitches at the centre of a neck where so many go at each `side`: two fifths
    as in `necklines.py`, more where its rows are few."""
    if kind is Neck.V:
        return plain(0)
    wanted = half_centre(side, rows, Neck.ROUND)
    least = Term(side, Role.STITCHES) - (rows - plain(2))
    return Chosen((wanted, least), Rule.LARGEST, ChoiceReason.ROW_EACH)


def single_stitches(cut: Cut, side: Expression, rows: Expression) -> NeckEdge:
    """Return one side of the front neck by single stitches, closer together at the start; a V as
    the designer schedules it, else spread evenly. Raises CannotShape."""
    many, high, slope = int(side.value), int(rows.value), slope_request(cut, Slope.V_NECK)
    if slope is not None:
        made = slope_schedule(slope, side, rows, INNER)
        return NeckEdge(changes=made.changes(How.DECREASE), made=made)
    if not many:
        return NeckEdge(changes=())
    is_v = cut.neck is Neck.V
    if not is_v and many > high - 1:
        raise CannotShape(f"{many} stitches of a front neck in {high} rows",
                          "Make front_neck deeper or neck_width less.", at="measures.front_neck")
    if is_v and many > high - 2:
        return NeckEdge(changes=tuple(
            Change(max(1, (n + 1) * (high - 2) // many), 1, How.DECREASE) for n in range(many)))
    made = spread_events(side, rows - plain(2), remainder=Remainder.MIXED_LATE) if is_v \
        else spread_events(side, Term(side, Role.ROWS))
    return NeckEdge(changes=made.changes(How.DECREASE), made=made)


def centre_counts(cut: Cut, front: Piece, going: Expression) -> tuple[tuple[str, str, Count], ...]:
    """Return the count of the centre of a whole front's neck, of which so many stitches are
    `going`, where the designer shapes it."""
    if front.opening is None or not is_own(cut):
        return ()
    made = own_centre(Term(going, Role.STITCHES, part_name(PartRole.OF_FRONT_NECK)),
                      cut.conventions.front_neck)
    return () if made is None else ((front.key, "neck_centre", Count(made, Unit.STITCHES)),)

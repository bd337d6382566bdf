"""How an armhole is shaped: what is bound off at its foot, and the slope above.

Sources: Design Your Own Sweater, "Set in sleeves" (C03); ozlorna, "Armhole shaping by thirds"
(C05); Jimmy Simmons, "Decrease and increase formulas" (R03).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate

from ..core.counts import DOWN, NEAREST, Rounding, Unit
from ..core.expression import NOTHING, Chosen, Expression, Operand, Rounded, Rule, Sum, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..core.problems import Place
from ..machine.records import dataclass
from ..pattern.conventions import ArmholeCurve, ArmholeSpec
from ..words.terms.part_names import part_name
from .curves import of_side, stepped
from .even_gaps import AnyNumber, EvenGaps, EvenSlope, Finish, Remainder, number
from .profile import Change, How, in_order, shifted
from .schedule import Schedule, schedule_of, spread_events
from .step_sizes import STEP_ROWS, CountedSlope, SteppedSlope, as_many, listed_sizes

UP = Rounding("up")


@dataclass(frozen=True, slots=True)
class Armhole:
    """The edge of an armhole: bind-offs (`foot`) every 2nd row, then the decreases of a `slope`.

    The slope begins a row after the first side's last bind-off, so that both sides decrease on the
    same rows.
    """

    foot: tuple[AnyNumber, ...]
    slope: Schedule

    @property
    def steps(self) -> tuple[int, ...]:
        """The bind-offs of one side [stitches]."""
        return tuple(int(number(step).value) for step in self.foot)

    @property
    def rows(self) -> int:
        """The rows from the first bind-off to the end of the slope."""
        return foot_rows(self.foot) + self.slope.rows

    @property
    def made(self) -> Expression:
        """The rows of both as an expression."""
        return foot_made(self.foot) + self.slope.made

    def changes(self, start: int = 0, parity: int = 0) -> tuple[Change, ...]:
        """The changes of one side; on the side of `parity` 1 it is bound off a row later."""
        return in_order(stepped(self.steps, start + of_side(parity)),
                        shifted(self.slope.changes(How.DECREASE), start + foot_rows(self.foot)))

    def slopes(self, below: Expression) -> tuple[CountedSlope, ...]:
        """Both parts as calculations, above so many rows."""
        foot = SteppedSlope(name="armhole_bind_offs", how=How.BIND_OFF, below=below,
                            steps=listed_sizes([number(step) for step in self.foot]))
        if self.slope.gaps is None:
            return (foot,)
        return foot, EvenSlope(name="armhole_decreases", how=How.DECREASE,
                               below=below + foot_made(self.foot), gaps=self.slope.gaps)


def foot_rows(foot: Sequence[AnyNumber]) -> int:
    """Return the rows from the first bind-off of an armhole to the start of its slope."""
    return max(0, STEP_ROWS * len(foot) - 1)


def foot_made(foot: Sequence[AnyNumber]) -> Expression:
    """Return the same rows as an expression."""
    if len(foot) < 2:
        return plain(foot_rows(foot))
    return plain(STEP_ROWS) * as_many(foot) - plain(1)


def bound_off(going: Expression, spec: ArmholeSpec, place: Place | None = None
              ) -> tuple[Expression, ...]:
    """Return the bind-offs of one side of an armhole at which so many stitches are `going`.

    A third at once (C05), a quarter (C03), a share or the steps that the designer asks for; one
    stitch at least. By thirds what does not divide is bound off (C05).
    """
    if isinstance(spec.bind_off, tuple):
        return tuple(Operand(Fraction(step), Role.SOURCE, Unit.STITCHES.name_of(step), place)
                     for step in spec.bind_off)
    share: Expression
    if spec.bind_off is not None:
        share, rounding = going * plain(spec.bind_off), NEAREST
    elif spec.curve is ArmholeCurve.QUARTER:
        share, rounding = going / plain(4), NEAREST
    else:
        share, rounding = going / plain(3), UP if spec.curve is ArmholeCurve.THIRDS else NEAREST
    made = Rounded(share, rounding)
    return (made if made.value else Chosen((made, plain(1)), Rule.LARGEST, ChoiceReason.LEAST_ONE),)


def spread_slope(stitches: AnyNumber, rows: AnyNumber) -> Schedule:
    """Return the slope of an armhole in `rows`: the shorter gaps first, so that it curves (C03).

    The last decrease is on its last row, for a straight part follows (R03). Raises ValueError.
    """
    return spread_events(stitches, rows, remainder=Remainder.SHORTER_FIRST)


def slope_by_thirds(stitches: AnyNumber) -> Schedule:
    """Return the slope of an armhole by thirds: a half of what is left after the bind-off goes on
    every row, a half on every 2nd row (C05); what does not divide goes on every row."""
    left = number(stitches)
    slow = Rounded(Term(left, Role.NUMBER) / plain(2), DOWN)
    fast = Term(left, Role.NUMBER) - Term(slow, Role.NUMBER)
    second = Operand(Fraction(STEP_ROWS), Role.ROWS, part_name(PartRole.BETWEEN_SHAPED_ROWS))
    rows = Sum((fast, plain(STEP_ROWS) * Term(slow, Role.NUMBER)))
    if not left.value:
        return Schedule(0)
    gaps = EvenGaps(left, rows, NOTHING, plain(1), fast, second, slow, NOTHING,
                    Remainder.SHORTER_FIRST, Finish.EVENT)
    made = schedule_of(accumulate(gaps.in_turn), int(rows.value))
    return replace(made, gaps=gaps)

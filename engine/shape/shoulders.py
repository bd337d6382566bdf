"""A shoulder knitted in held short rows: how many needles go into hold, and on which rows.

Sources: aisteb1973, "Modern Vintage Knitting Patterns: Apple Juice" (S04); University of Brighton,
"Short row or holding technique 1" (S06); a web lesson, "Crew neck collar on a drop-shoulder
sweater" (S07).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from enum import Enum

from ..core.counts import DOWN
from ..core.expression import Expression, Rounded, Sum, Term, plain
from ..core.operands import Role
from ..machine.records import dataclass
from ..pattern.conventions import Larger
from .even_gaps import AnyNumber, number
from .profile import Change, How
from .step_sizes import STEP_ROWS, SteppedSlope, StepSizes, as_many

# A step takes STEP_ROWS rows: toward the held needles and back (S04, S06).


class Wrap(Enum):
    """How the yarn is kept from leaving a hole beside the held needles."""

    BY_HAND = "by hand"  # under the first held needle; a step goes into hold at once
    AUTOMATIC = "automatic"  # all of a step but one, a row, then that one (S07)


def shoulder_sizes(stitches: AnyNumber, times: AnyNumber, larger: Larger = Larger.NECK
                   ) -> StepSizes:
    """Return the steps of a shoulder from armhole to neck, as calculations.

    With so many stitches more in turn, each step takes all that divides by the number of steps.
    Raises ValueError when there are fewer stitches than steps.
    """
    whole, many = number(stitches), number(times)
    last = int(many.value)
    if not 0 < last <= whole.value:
        raise ValueError(f"a shoulder of {whole.value} stitches cannot have {last} steps")
    going, parts = Term(whole, Role.STITCHES), Term(many, Role.NUMBER)
    each = Rounded(going / parts, DOWN)
    if larger is Larger.LAST_STEP:
        rest = going - Term(each, Role.STITCHES) * (parts - plain(1))
        sizes: tuple[Expression, ...] = (*(each,) * (last - 1), rest)
    elif larger is Larger.NECK:
        sizes = (each, *(Rounded((going + plain(n)) / parts, DOWN) for n in range(1, last)))
    else:
        top = going + parts - plain(1)
        sizes = tuple(Rounded((top - plain(n) if n else top) / parts, DOWN) for n in range(last))
    return StepSizes(stitches=whole, times=many, sizes=sizes)


def shoulder_steps(stitches: int, steps: int, larger: Larger = Larger.NECK) -> tuple[int, ...]:
    """Return the same steps as numbers [stitches]. Raises ValueError as `shoulder_sizes` does."""
    return shoulder_sizes(stitches, steps, larger).in_turn


def held_sizes(stitches: AnyNumber, steps: Sequence[AnyNumber]) -> StepSizes:
    """Return the `steps` of a shoulder, from its armhole, and what they leave as the last (S04).

    Raises ValueError for steps of more stitches than there are.
    """
    whole, own = number(stitches), tuple(map(number, steps))
    taken = own[0] if len(own) == 1 else Sum(own)
    if taken.value > whole.value:
        raise ValueError(f"steps of {taken.value} stitches in a shoulder of {whole.value}")
    if taken.value == whole.value:
        return StepSizes(stitches=whole, times=as_many(own), sizes=own)
    left = Term(whole, Role.STITCHES) - Term(taken, Role.STITCHES)
    return StepSizes(stitches=whole, times=as_many(own) + plain(1), sizes=(*own, left))


@dataclass(frozen=True, slots=True)
class HeldShoulder:
    """A shoulder of `steps`, from armhole to neck; all but the last are held, one by one.

    The first step goes into hold with the carriage at the other side (S06). Each takes 2 rows;
    one final row runs over all needles, then waste yarn or the join (common practice). `made` is
    what the steps are computed by.
    """

    steps: tuple[int, ...]
    wrap: Wrap = Wrap.BY_HAND
    made: StepSizes | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        if not self.steps or min(self.steps) < 1:
            raise ValueError(f"every step of a shoulder has stitches; got {self.steps}")

    @property
    def stitches(self) -> int:
        """The whole shoulder [stitches]."""
        return sum(self.steps)

    @property
    def rows(self) -> int:
        """The rows from the first hold to the last one's return [rows]; the final row is more."""
        return STEP_ROWS * (len(self.steps) - 1)

    def changes(self, start: int = 0) -> tuple[Change, ...]:
        """What goes into hold from row `start`, the carriage then being at the other side.

        Wrapped automatically, n needles go as n − 1, and a row later, with the carriage on
        their side, the last one; a single needle goes only then (S07).
        """
        held: list[Change] = []
        for i, step in enumerate(self.steps[:-1]):
            row = start + STEP_ROWS * i
            last = 1 if self.wrap is Wrap.AUTOMATIC else 0
            if step > last:
                held.append(Change(row, step - last, How.HOLD))
            if last:
                held.append(Change(row + 1, 1, How.HOLD))
        return tuple(held)

    def slopes(self, below: Expression) -> tuple[SteppedSlope, ...]:
        """The shoulder as its calculation, the first step above so many rows; none of one step."""
        if self.made is None or len(self.steps) < 2:
            return ()
        return (SteppedSlope(name="shoulder", how=How.HOLD, below=below, steps=self.made),)


def held_shoulder(sizes: StepSizes) -> HeldShoulder:
    """Return the shoulder with those steps, wrapped by the machine. Raises ValueError."""
    return HeldShoulder(sizes.in_turn, Wrap.AUTOMATIC, sizes)

"""Curved and sloped edges in whole stitches and rows: ellipses, falling steps, necks.

Sources: 10 Rows a Day, "Perfect way to shape armholes" (C10); a printed handbook, "Necklines: round
and square" (N01); a yarn maker's lesson, "Knitting tip: round neckline" (N02); a knitwear maker's
"Guide to Basic Knitwear Design: Shaping" (N04); Knitting Konrad, "She knits, he knits KAL" (N05).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field
from fractions import Fraction
from itertools import pairwise

from ..core.counts import DOWN, Rounding, Unit, whole
from ..core.expression import Chosen, Expression, Rounded, Rule, Sum, Term, plain
from ..core.operands import ChoiceReason, Role
from ..core.roots import NearestRoot, Root
from ..machine.records import dataclass
from .even_gaps import AnyNumber, Finish, number
from .profile import Change, How
from .schedule import Schedule, spread_events
from .step_sizes import STEP_ROWS, StepSizes


def removed(row: int, stitches: int, how: How = How.BIND_OFF) -> tuple[Change, ...]:
    """Return the change that takes `stitches` from an edge at `row`; none for 0 stitches.

    A single stitch is decreased, which can be done on any row, unless it is held.
    """
    if not stitches:
        return ()
    single = stitches == 1 and how is How.BIND_OFF
    return (Change(row, stitches, How.DECREASE if single else how),)


def stepped(steps: Iterable[int], start: int = 0, how: How = How.BIND_OFF) -> tuple[Change, ...]:
    """Return one step every 2 rows from row `start`, as C10 and N02 publish; a 0 stays straight."""
    return tuple(change for i, step in enumerate(steps)
                 for change in removed(start + STEP_ROWS * i, step, how))


def falling_sizes(stitches: AnyNumber, times: AnyNumber) -> StepSizes:
    """Return `stitches` in so many steps that fall to 1, by one at a time where numbers allow.

    Every step has one stitch; the rest is built as a `stair` (3, 2, 1); what is left over
    repeats the tread of its own size, or widens the first steps when all are in use. So come
    about 3, 2, 2, 1, 1, 1 (N01), 3, 2, 1, 1 (N02) and 4, 3, 2, 1 (C10).
    Raises ValueError for fewer stitches than steps.
    """
    whole_, many = number(stitches), number(times)
    steps = int(many.value)
    if not 0 < steps <= whole_.value:
        raise ValueError(f"{whole_.value} stitches cannot fall in {steps} steps")
    one, going, parts = plain(1), Term(whole_, Role.STITCHES), Term(many, Role.NUMBER)
    rest = going - parts
    full = Rounded(Root(plain(2) * rest + plain(Fraction(1, 4))) - plain(Fraction(1, 2)), DOWN)
    stair = Chosen((full, parts), Rule.SMALLEST, ChoiceReason.LEAST_STEP)
    high = Term(stair, Role.NUMBER)
    over = rest - high * (high + one) / plain(2)
    repeated = Chosen((over, over * (parts - high)), Rule.SMALLEST, ChoiceReason.LEAST_STEP)
    again = Term(repeated, Role.NUMBER)
    widened = over - again
    wide = Term(widened, Role.NUMBER) + parts - one

    def size(n: int) -> Expression:
        """What goes at the step before which there are `n`."""
        here = high - plain(n) if n else high
        tread = Chosen((here, Chosen((again, here + one), Rule.SMALLEST, ChoiceReason.LEAST_STEP),
                        plain(0)), Rule.LARGEST, ChoiceReason.LEAST_STEP)
        return Sum((one, tread, Rounded((wide - plain(n) if n else wide) / parts, DOWN)))
    return StepSizes(
        stitches=whole_, times=many, sizes=tuple(size(n) for n in range(steps)),
        helps=(("stair", Unit.STITCHES, stair), ("repeated", Unit.STITCHES, repeated),
               ("widened", Unit.STITCHES, widened)))


def falling_steps(stitches: int, steps: int) -> tuple[int, ...]:
    """Return the same steps as numbers [stitches]. Raises ValueError as `falling_sizes` does."""
    return falling_sizes(stitches, steps).in_turn


def ellipse_sizes(stitches: AnyNumber, rows: AnyNumber, every: int = STEP_ROWS) -> StepSizes:
    """Return the steps that follow a quarter of an ellipse, `stitches` wide and `rows` high, one
    after so many rows.

    It lies level first, as necks and armholes do. Between two steps the edge stands where the
    ellipse is half-way up, to the nearest whole stitch. What the last step leaves over goes at it.
    Raises ValueError when it has no size.
    """
    wide, high = number(stitches), number(rows)
    if wide.value < 1 or high.value < 1 or every < 1:
        raise ValueError(f"no ellipse is {wide.value} stitches wide and {high.value} rows high")
    across, up, each = Term(wide, Role.STITCHES), Term(high, Role.ROWS), plain(every)
    times = Rounded(up / each, Rounding("up"))

    def inward(n: int) -> Expression:
        """How far inward the edge stands after the step before which there are `n`."""
        share = (up - each * (plain(n) + plain(Fraction(1, 2)))) / up
        return NearestRoot(across * across * (plain(1) - share * share))
    inwards = [*(inward(n) for n in range(int(times.value) - 1)), across]
    return StepSizes(stitches=wide, times=times, sizes=(
        inwards[0], *(here - below for below, here in pairwise(inwards))))


def of_side(parity: int) -> int:
    """Return 0 for the side the carriage reaches first, 1 for the other; else ValueError."""
    if parity not in (0, 1):
        raise ValueError(f"a side is bound off on even rows (0) or on odd ones (1), not {parity}")
    return parity


@dataclass(frozen=True, slots=True)
class RoundNeck:
    """A neck: `centre` bound off or held, then these `steps` at each side, one every 2 rows.

    The first step is made 2 rows after the centre; `rows` is the neck's depth, and `made` what the
    steps are computed by.
    """

    centre: int
    steps: tuple[int, ...]
    rows: int
    made: StepSizes | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        if self.centre < 0 or any(step < 0 for step in self.steps):
            raise ValueError(f"a neck takes stitches away; got {self.centre} and {self.steps}")
        if STEP_ROWS * len(self.steps) > self.rows:
            raise ValueError(f"{len(self.steps)} steps do not fit in {self.rows} rows")

    @property
    def stitches(self) -> int:
        """The stitches of the whole neck."""
        return self.centre + 2 * sum(self.steps)

    def changes(self, start: int = 0, how: How = How.BIND_OFF) -> tuple[Change, ...]:
        """One side's changes above the centre, which is worked at row `start`."""
        return stepped(self.steps, start + STEP_ROWS, how)


def round_neck(stitches: int, rows: int, *, centre: int | None = None,
               steps: AnyNumber | None = None, side: Expression | None = None) -> RoundNeck:
    """Return a round neck of `stitches`, `rows` deep, by falling steps (N01, N02).

    Without a `centre` two fifths of the stitches, inside the third to a half that N01 and N02
    give. Without `steps` as many as there are rows for, with the last left straight (N02). `side`
    is what goes at each side, where that is counted. Raises ValueError where the sides come out
    unequal or the rows are too few.
    """
    if centre is None:
        centre = whole(Fraction(2 * stitches, 5), Rounding("multiple", 2, stitches % 2))
    going, odd = divmod(stitches - centre, 2)
    if odd or going < 0:
        raise ValueError(f"a centre of {centre} leaves {stitches - centre} stitches of "
                         f"{stitches} for two sides")
    room = rows // STEP_ROWS - 2
    times = min(going, room) if steps is None else steps
    if not going:
        return RoundNeck(centre, (), rows)
    if number(times).value < 1:
        raise ValueError(f"a neck {rows} rows deep has no room for steps of {going} stitches")
    made = falling_sizes(side or going, times)
    return RoundNeck(centre, made.in_turn, rows, made)


def elliptic_neck(stitches: int, rows: AnyNumber, centre: int, side: Expression | None = None
                  ) -> RoundNeck:
    """Return a round neck whose sides follow a quarter of an ellipse above the centre's row.

    `side` is what goes at each side, where that is counted. Raises ValueError where the sides come
    out unequal or there are no 2 rows for them.
    """
    (going, odd), high = divmod(stitches - centre, 2), int(number(rows).value)
    if odd or going < 0 or high <= STEP_ROWS:
        raise ValueError(f"a centre of {centre} of {stitches} stitches over {high} rows "
                         "leaves no equal sides")
    if not going:
        return RoundNeck(centre, (), high)
    made = ellipse_sizes(side or going, number(rows) - plain(STEP_ROWS))
    return RoundNeck(centre, made.in_turn, high, made)


def v_neck(stitches: AnyNumber, rows: AnyNumber, *, plain_at_top: AnyNumber = 0) -> Schedule:
    """Return one side of a V neck: half the neck's `stitches` decreased one by one (N04, N05).

    They are spread over `rows` less `plain_at_top`, the shorter gaps first; without rows named
    as plain a last gap stays plain below the shoulder. An odd neck's centre stitch is no part
    of it. Raises ValueError when they do not fit.
    """
    top = number(plain_at_top)
    if not top.value:
        return spread_events(stitches, rows, finish=Finish.PLAIN)
    return spread_events(stitches, number(rows) - top)

"""Curved and sloped edges in whole stitches and rows: ellipses, falling steps, necks.

Sources: 10 Rows a Day, "Perfect way to shape armholes" (C10); a printed handbook, "Necklines: round
and square" (N01); a yarn maker's lesson, "Knitting tip: round neckline" (N02); a knitwear maker's
"Guide to Basic Knitwear Design: Shaping" (N04); Knitting Konrad, "She knits, he knits KAL" (N05).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from ..core.counts import Rounding, whole
from .even_gaps import Finish
from .profile import Change, How, shifted
from .schedule import spread_events

STEP_ROWS = 2  # a side is reached with the carriage every second row


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


def falling_steps(stitches: int, steps: int) -> tuple[int, ...]:
    """Return `stitches` in `steps` steps that fall to 1, by one at a time where numbers allow.

    Every step has one stitch; the rest is built as a stair (3, 2, 1); what is left over
    repeats the tread of its own size, or widens the first steps when all are in use. So come
    about 3, 2, 2, 1, 1, 1 (N01), 3, 2, 1, 1 (N02) and 4, 3, 2, 1 (C10).
    Raises ValueError for fewer stitches than steps.
    """
    if not 0 < steps <= stitches:
        raise ValueError(f"{stitches} stitches cannot fall in {steps} steps")
    rest = stitches - steps
    height = min(steps, (isqrt(8 * rest + 1) - 1) // 2)
    left = rest - height * (height + 1) // 2
    treads = list(range(height, 0, -1))
    if 0 < left <= height < steps:
        treads, left = sorted([*treads, left], reverse=True), 0
    treads += [0] * (steps - len(treads))
    each, more = divmod(left, steps)
    return tuple(1 + tread + each + (i < more) for i, tread in enumerate(treads))


def quarter_ellipse(stitches: int, rows: int, *, every: int = STEP_ROWS) -> tuple[Change, ...]:
    """Return the changes that follow a quarter of an ellipse, `stitches` wide and `rows` high.

    It lies level first, as necks and armholes do. The edge moves inward at rows 0, `every` and so
    on; between them it stands where the ellipse is half-way up, to the nearest whole stitch by a
    test in whole numbers. What the last step leaves over comes off at its row. Raises ValueError
    when it has no size.
    """
    if stitches < 1 or rows < 1 or every < 1:
        raise ValueError(f"no ellipse is {stitches} stitches wide and {rows} rows high")
    at = range(0, rows, every)
    inward = [_reach(stitches, rows, 2 * rows - min(2 * row + every, 2 * rows)) for row in at]
    inward[-1] = stitches
    steps = [here - below for here, below in zip(inward, [0, *inward], strict=False)]
    return tuple(change for row, step in zip(at, steps, strict=True)
                 for change in removed(row, step))


def _reach(stitches: int, rows: int, twice_off: int) -> int:
    """Half the ellipse's width, `twice_off` / 2 from its axis: the nearest whole stitch.

    The root r of stitches² × (1 − (off/rows)²) is rounded: the n with 2n − 1 ≤ 2r < 2n + 1.
    """
    square = stitches ** 2 * (4 * rows ** 2 - twice_off ** 2)
    return (isqrt(square // rows ** 2) + 1) // 2


def of_side(parity: int) -> int:
    """Return 0 for the side the carriage reaches first, 1 for the other; else ValueError."""
    if parity not in (0, 1):
        raise ValueError(f"a side is bound off on even rows (0) or on odd ones (1), not {parity}")
    return parity


@dataclass(frozen=True, slots=True)
class RoundNeck:
    """A neck: `centre` bound off or held, then these `steps` at each side, one every 2 rows.

    The first step is made 2 rows after the centre; `rows` is the neck's depth.
    """

    centre: int
    steps: tuple[int, ...]
    rows: int

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
               steps: int | None = None) -> RoundNeck:
    """Return a round neck of `stitches`, `rows` deep, by falling steps (N01, N02).

    Without a `centre` two fifths of the stitches, inside the third to a half that N01 and N02
    give. Without `steps` as many as there are rows for, with the last left straight (N02).
    Raises ValueError where the sides come out unequal or the rows are too few.
    """
    if centre is None:
        centre = whole(Fraction(2 * stitches, 5), Rounding("multiple", 2, stitches % 2))
    side, odd = divmod(stitches - centre, 2)
    if odd or side < 0:
        raise ValueError(f"a centre of {centre} leaves {stitches - centre} stitches of "
                         f"{stitches} for two sides")
    room = rows // STEP_ROWS - 2
    number = min(side, room) if steps is None else steps
    if side and number < 1:
        raise ValueError(f"a neck {rows} rows deep has no room for steps of {side} stitches")
    return RoundNeck(centre, falling_steps(side, number) if side else (), rows)


def elliptic_neck(stitches: int, rows: int, centre: int) -> RoundNeck:
    """Return a round neck whose sides follow a quarter of an ellipse above the centre's row.

    Raises ValueError where the sides come out unequal or there are no 2 rows for them.
    """
    side, odd = divmod(stitches - centre, 2)
    if odd or side < 0 or rows <= STEP_ROWS:
        raise ValueError(f"a centre of {centre} of {stitches} stitches over {rows} rows "
                         "leaves no equal sides")
    made = {c.row: c.stitches for c in quarter_ellipse(side, rows - STEP_ROWS)} if side else {}
    last = max(made, default=-STEP_ROWS)
    return RoundNeck(centre, tuple(made.get(row, 0) for row in range(0, last + 1, STEP_ROWS)), rows)


def v_neck(stitches: int, rows: int, *, plain_at_top: int = 0,
           start: int = 0) -> tuple[Change, ...]:
    """Return one side of a V neck: half the neck's `stitches` decreased one by one (N04, N05).

    They are spread over `rows` less `plain_at_top`, the shorter gaps first; without rows named
    as plain a last gap stays plain below the shoulder. An odd neck's centre stitch is no part
    of it. Raises ValueError when they do not fit.
    """
    slope = spread_events(stitches, rows - plain_at_top,
                          finish=Finish.EVENT if plain_at_top else Finish.PLAIN)
    return shifted(slope.changes(How.DECREASE), start)

"""The sloped lines where a raglan's body and sleeve meet: stitches, rows, and both alike."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..core.units import Length
from .curves import STEP_ROWS, of_side, removed
from .profile import How, Profile, in_order
from .schedule import Finish, paired_events, spread_events


def raglan(stitches: int, top: int, rows: int, *, bind_off: int = 0,
           parity: int = 0) -> Profile:
    """Return one raglan line of a piece that narrows from `stitches` to `top` over `rows`.

    `bind_off` stitches go first at each side, the rest one by one at both sides at once, on
    even rows where there are rows enough (C08), closer together at the start (C07 leaves the
    order open). Raises ValueError when the sides come out unequal or do not fit.
    """
    events = paired_events(stitches - top - 2 * bind_off)
    if events < 0 or stitches - top < 2 * bind_off:
        raise ValueError(f"{stitches} stitches less 2 × {bind_off} are fewer than {top}")
    grid = STEP_ROWS if events <= rows // STEP_ROWS else 1
    slope = spread_events(events, rows, finish=Finish.EVENT, grid=grid)
    return Profile(rows, in_order(removed(of_side(parity), bind_off),
                                  slope.changes(How.DECREASE)))


@dataclass(frozen=True, slots=True)
class RaglanSeam:
    """Body and sleeve along one raglan line. Cannot be built with unequal rows."""

    body: Profile
    sleeve: Profile

    def __post_init__(self) -> None:
        if self.body.rows != self.sleeve.rows:
            raise ValueError(f"the body's raglan has {self.body.rows} rows, the sleeve's "
                             f"{self.sleeve.rows}; they must be equal")


def raglan_shares(back: int, line: Fraction = Fraction(1, 3)) -> tuple[int, int, int]:
    """Return the stitches of one line, the neck and the other line of a raglan back (C06).

    A third each for women; with a smaller `line` the middle is larger, as for men. What does
    not divide is the neck's. Raises ValueError unless 0 < line ≤ 1/2.
    """
    if not 0 < line <= Fraction(1, 2):
        raise ValueError(f"a raglan line takes up to half of the back, not {line}")
    side = int(back * line)
    return side, back - 2 * side, side


def raglan_depth(upper_arm: Length, ease: Length) -> Length:
    """Return the depth of a raglan: half of the upper arm's girth and its ease (C06)."""
    return (upper_arm + ease).times(Fraction(1, 2))

"""The stripes of a piece in its own rows: which yarn every row has."""

from __future__ import annotations

from collections.abc import Mapping

from ..machine.records import dataclass
from ..machine.step_keys import STRIPE_YARNS, StepYarn
from ..pattern.stripes import StripesSpec


@dataclass(frozen=True, slots=True)
class Stripe:
    """Rows of one yarn from the row `first` on, up to the next stripe [rows].

    `yarn` is what the steps of the piece call it.
    """

    first: int
    yarn: StepYarn


@dataclass(frozen=True, slots=True)
class Striped:
    """All stripes of a piece, upward from its first row, with its last row and how many rows a
    yarn is carried over."""

    stripes: tuple[Stripe, ...]
    last: int
    carried: int

    def __post_init__(self) -> None:
        firsts = [each.first for each in self.stripes]
        if firsts[:1] != [1] or firsts != sorted(set(firsts)) or self.last < firsts[-1]:
            raise ValueError("stripes begin with the first row, and each lies above the last")
        if any(a.yarn == b.yarn for a, b in zip(self.stripes, self.stripes[1:], strict=False)):
            raise ValueError("two stripes of one yarn, one on the other, are one stripe")

    def at(self, row: int) -> int:
        """The place of the stripe that has a row; above the last row, of the last stripe."""
        return max(n for n, each in enumerate(self.stripes) if each.first <= max(row, 1))

    def yarn(self, row: int) -> StepYarn:
        """What the yarn of a row is called."""
        return self.stripes[self.at(row)].yarn

    def until(self, row: int) -> int | None:
        """How many rows from `row` on are of its yarn; None where no other stripe follows."""
        place = self.at(row) + 1
        return self.stripes[place].first - row if place < len(self.stripes) else None

    def rows(self, row: int) -> int:
        """How many rows from `row` on are of its yarn, up to the last row [rows]."""
        until = self.until(row)
        return self.last - row + 1 if until is None else until

    def rests(self, yarn: StepYarn, row: int) -> int:
        """How many rows lie between `row`, where `yarn` is taken out, and its next stripe; 0 where
        it has none."""
        ahead = (each.first - row for each in self.stripes[self.at(row):] if each.yarn == yarn)
        return next((rows for rows in ahead if rows > 0), 0)

    def is_carried(self, rests: int) -> bool:
        """True where a yarn that rests so many rows is carried up the side: not too many, and an
        even number, after which the carriage is where it hangs."""
        return 0 < rests <= self.carried and rests % 2 == 0


def stripes_of(yarns: list[StepYarn]) -> tuple[Stripe, ...]:
    """Return the stripes of rows that have these yarns, from the first row upward."""
    return tuple(Stripe(row, yarn) for row, yarn in enumerate(yarns, 1)
                 if row == 1 or yarns[row - 2] != yarn)


def step_yarns(spec: StripesSpec, own: str) -> Mapping[str, StepYarn]:
    """Return what steps call each yarn of the stripes, by its key; `own` is the fabric's."""
    others = [yarn for yarn in spec.yarns if yarn != own]
    return {own: StepYarn.MAIN, **dict(zip(others, STRIPE_YARNS, strict=False))}

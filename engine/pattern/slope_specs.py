"""How a designer wants a sloped edge shaped: which rate comes first, rates, plain rows."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from typing import NamedTuple

from ..core.units import Length
from ..machine.records import dataclass


class Slope(Enum):
    """The slopes of a garment whose shaping a designer can choose, by their keys in a source."""

    SLEEVE = "sleeve"
    RAGLAN_BODY = "raglan_body"
    RAGLAN_SLEEVE = "raglan_sleeve"
    V_NECK = "v_neck"
    SIDE_TO_HIP = "side_to_hip"
    SIDE_TO_WAIST = "side_to_waist"
    SIDE_TO_CHEST = "side_to_chest"

    @property
    def change(self) -> str:
        """What each of its events is called; a side may narrow in one size and widen in another."""
        if self in SIDES:
            return "shaped row"
        return "increase" if self is Slope.SLEEVE else "decrease"


SIDES = (Slope.SIDE_TO_HIP, Slope.SIDE_TO_WAIST, Slope.SIDE_TO_CHEST)


class Order(Enum):
    """Which of the two rates that a slope needs is worked first."""

    FAST_FIRST = "fast first"
    SLOW_FIRST = "slow first"
    MIXED = "mixed evenly"
    ONE_RATE = "one rate"


@dataclass(frozen=True, slots=True)
class Rate:
    """Shaping `every` so many rows, several figures in turn, so many `times` in all.

    Two unlike figures that are `mixed` are worked as often as the rows ask for, evenly, and not
    in turn. `every` is empty where the rows between two events are left open, `times` None where
    their number is; of "evenly" both are.
    """

    every: tuple[int, ...]
    times: int | None
    mixed: bool = False

    def __post_init__(self) -> None:
        if self.mixed and (len(self.every) != 2 or len(set(self.every)) != 2):
            raise ValueError(f"two unlike figures are mixed, not {self.every}")


class PlainStretch(NamedTuple):
    """A plain stretch of a slope, in rows or as a length: one of the two."""

    rows: int | None = None
    length: Length | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeAsk:
    """What is asked of one `slope` in one size, None for an edge of an own piece.

    `order` or `rates` say how its events are spread, `first_row` is the row of the first one,
    `plain_start` and `plain_end` are the stretches before and after all of them.
    """

    slope: Slope | None = None
    order: Order | None = None
    rates: tuple[Rate, ...] = ()
    first_row: int | None = None
    plain_start: PlainStretch | None = None
    plain_end: PlainStretch | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlopeSpec:
    """What is asked of one `slope`, by size where sizes may differ; see `SlopeAsk`."""

    slope: Slope | None = None
    order: Order | None = None
    rates: Mapping[str, tuple[Rate, ...]] | None = None
    first_row: Mapping[str, int] | None = None
    plain_start: Mapping[str, PlainStretch] | None = None
    plain_end: Mapping[str, PlainStretch] | None = None

    def of(self, size: str) -> SlopeAsk:
        """Return what is asked in one size."""
        return SlopeAsk(
            slope=self.slope, order=self.order,
            rates=self.rates[size] if self.rates else (),
            first_row=self.first_row[size] if self.first_row else None,
            plain_start=self.plain_start[size] if self.plain_start else None,
            plain_end=self.plain_end[size] if self.plain_end else None)

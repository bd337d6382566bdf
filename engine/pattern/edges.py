"""What an edge is: how it lies in the finished garment, and what it offers to be hung."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import Enum

from ..core.problems import Place
from ..core.units import Length
from ..machine.records import dataclass


class EdgeShape(Enum):
    """How an edge lies in the finished garment, and so how often a band goes along it."""

    FRONT = "pair of fronts"  # one of two alike, from hem to top
    AROUND = "hem to hem"  # from one front's hem round the neck to the other's
    OPEN = "one edge"  # with two free ends
    ROUND = "closed round"  # the band's two ends meet in a seam


class Offer(Enum):
    """What a stretch of an edge offers to be hung; all but rows are taken one for one."""

    ROWS = "rows"  # a vertical or sloped edge: its rows; a stepped curve: rows and stitches
    WAITING = "on waste yarn"
    ABOVE_CORD = "above a ravel cord"
    BOUND_OFF = "bound off"
    CAST_ON = "cast on"
    CORD = "on a cord"  # a pocket's stitches, and the garment's own beside them


OPEN = (Offer.WAITING, Offer.ABOVE_CORD, Offer.CORD)  # stitches that would run: each hung once


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeSection:
    """A section of an edge, by size: its `length`, its `rows`, or its `stitches`.

    `offer` says what the stitches are; the middle of one at the `centre_back` is the garment's.
    `place` is where the source says how long it is.
    """

    title: str
    length: Mapping[str, Length] | None = None
    rows: Mapping[str, int] | None = None
    stitches: Mapping[str, int] | None = None
    offer: Offer = Offer.WAITING
    centre_back: bool = False
    place: Place | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        if sum(given is not None for given in (self.length, self.rows, self.stitches)) != 1:
            raise ValueError(f"{self.title}: a length, rows or stitches, one of the three")


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeSpec:
    """A garment's edge, by size: its `length`, its `rows` or its `sections`, one of the three.

    `shape` says how it lies in the garment; `ends` name its two ends, "" where they have no names.
    """

    key: str
    fabric: str
    shape: EdgeShape
    ends: tuple[str, str] = ("", "")
    length: Mapping[str, Length] | None = None
    rows: Mapping[str, int] | None = None
    sections: tuple[EdgeSection, ...] = ()

    def __post_init__(self) -> None:
        if sum((self.length is not None, self.rows is not None, bool(self.sections))) != 1:
            raise ValueError(f"edge {self.key}: give its length, its rows or its sections")

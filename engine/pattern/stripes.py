"""What a designer asks of a garment's stripes: yarns with their rows, and where they run."""

from __future__ import annotations

from enum import Enum

from ..machine.records import dataclass


class StripesFrom(Enum):
    """The end of a piece from which its stripes are counted."""

    HEM = "hem"
    TOP = "top"


class SleeveStripes(Enum):
    """How the stripes of sleeves lie beside those of the body."""

    OWN = "counted like the body's"
    UNDERARM = "level at the underarm"


@dataclass(frozen=True, slots=True)
class StripeRows:
    """So many rows of one yarn, by its key [rows]."""

    yarn: str
    rows: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StripesSpec:
    """Stripes of a garment: their `sequence`, over and over where they `repeat`, else once.

    They are counted from the first row above the hem, or down from the top, on the `pieces` of
    these keys, () for all. Rows that no stripe has are of the fabric's yarn. A yarn rests at the
    side for at most `carried` rows; beyond, it is cut. `unmatched` says that stripes need not meet
    in seams.
    """

    sequence: tuple[StripeRows, ...]
    repeat: bool = True
    begins: StripesFrom = StripesFrom.HEM
    pieces: tuple[str, ...] = ()
    sleeves: SleeveStripes = SleeveStripes.OWN
    carried: int = 2
    unmatched: bool = False

    @property
    def yarns(self) -> tuple[str, ...]:
        """The keys of its yarns, in the order in which they stand."""
        return tuple(dict.fromkeys(each.yarn for each in self.sequence))

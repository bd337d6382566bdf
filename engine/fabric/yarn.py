"""How much yarn a piece takes, from a weighed swatch and the stitches that the bed counted."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from math import isqrt

from ..core.counted import Count
from ..core.counts import UP, Unit, decimal
from ..core.expression import Operand, Rounded
from ..core.operands import Role
from ..core.unit_table import YIELDS
from ..core.units import Length, yarn_count_in
from ..pattern.fabrics import Swatch, Yarn
from .gauge import Gauge

# Loops in a square centimetre × (the yarn in one [cm])², plain knitting fully relaxed:
# 4.2 × 5.5, from the 2015 textile-engineering paper of India's graduate aptitude test, question
# 54 (textiletriangle.com). Munden's own figures (1959) are about 21.6, from memory.
LOOPS = Fraction(42, 10) * Fraction(55, 10)


class Basis(Enum):
    """What an amount of yarn rests on."""

    WEIGHED = "weighed swatch"
    MEASURED = "measured yarn of a swatch"
    AREA = "area of the fabric"
    LENGTH = "length that is cut"

    @property
    def is_estimate(self) -> bool:
        """True where a caution belongs beside the figure."""
        return self is Basis.AREA


@dataclass(frozen=True, slots=True)
class Amount:
    """Yarn by mass [g] and length [m]; one of them is None where the yarn's count is unknown.

    `area_metres` is what a length that is not known is estimated to be [m].
    """

    grams: Fraction | None
    metres: Fraction | None
    basis: Basis
    working: str
    area_metres: Fraction | None = None

    def __post_init__(self) -> None:
        if self.grams is None and self.metres is None:
            raise ValueError("an amount of yarn is a mass or a length")

    def times(self, stitches: int, what: str = "stitches") -> Amount:
        """This much for each of so many stitches."""
        return self._scaled(Fraction(stitches), f"{stitches} {what} × {self.working}")

    def share(self, part: Fraction, what: str) -> Amount:
        """A `part` of it, which `what` names."""
        if part < 0:
            raise ValueError("a share of yarn is not less than nothing")
        return self._scaled(part, f"{what} of {self.working}")

    def with_allowance(self, share: Fraction) -> Amount:
        """The amount and a `share` of it more, for ends, bands, samples and mending."""
        if share < 0:
            raise ValueError("an allowance adds yarn")
        return self._scaled(1 + share, f"{self.working}; {decimal(share * 100, 1)} % more")

    def _scaled(self, by: Fraction, working: str) -> Amount:
        grams = None if self.grams is None else self.grams * by
        metres = None if self.metres is None else self.metres * by
        about = None if self.area_metres is None else self.area_metres * by
        return Amount(grams, metres, self.basis, working, about)


def stitch_grams(swatches: Iterable[Swatch]) -> Fraction | None:
    """Return the mass of a stitch [g]: mean over the weighed swatches; None if none was weighed.

    Mass scales with the fabric knitted (rule Y06); a stitch is the fabric's own measure of it.
    The swatch's mass must be that of its counted stitches and rows.
    """
    each = [s.mass_g / (s.stitches * s.rows) for s in swatches if s.mass_g is not None]
    return sum(each, Fraction(0)) / len(each) if each else None


def stitch_metres(swatches: Iterable[Swatch]) -> Fraction | None:
    """Return the yarn in a stitch [m], mean over the swatches whose yarn was measured; else None.

    A length of yarn knits so many stitches, whatever they are for (Y05; Y03 by the swatch's area).
    """
    each = [s.yarn.mm / 1000 / (s.stitches * s.rows) for s in swatches if s.yarn is not None]
    return sum(each, Fraction(0)) / len(each) if each else None


def loop_millimetres(gauge: Gauge) -> Fraction:
    """Return about how much yarn is in a stitch [mm, to a thousandth], from its area alone.

    In relaxed plain knitting the loops in an area are a constant over the loop's length squared
    (`LOOPS`), whatever the yarn. An estimate for plain knitting, not for tucks and floats.
    """
    square = LOOPS * gauge.stitch * gauge.row * 1_000_000
    return Fraction(isqrt(square.numerator // square.denominator), 1000)


def stitch_amount(swatches: Sequence[Swatch], gauge: Gauge,
                  metres_per_gram: Fraction | None = None) -> Amount:
    """Return the yarn in a stitch: weighed or measured if a swatch was, else estimated by area.

    `metres_per_gram` is the yarn's, all strands together; without it only the mass is known of
    a swatch that was only weighed, and only the length of one that was not weighed. A length that
    was measured stands before one by mass.
    """
    grams, loop = stitch_grams(swatches), loop_millimetres(gauge)
    long = stitch_metres(swatches)
    if grams is None and long is not None:
        mass = None if metres_per_gram is None else long / metres_per_gram
        return Amount(mass, long, Basis.MEASURED,
                      f"{decimal(long * 1000, 1)} mm of yarn, measured")
    if grams is not None:
        by_mass = None if metres_per_gram is None else grams * metres_per_gram
        metres = by_mass if long is None else long
        return Amount(grams, metres, Basis.WEIGHED, f"{decimal(grams * 1000, 2)} mg, weighed",
                      loop / 1000 if metres is None else None)
    mass = None if metres_per_gram is None else loop / 1000 / metres_per_gram
    return Amount(mass, loop / 1000, Basis.AREA,
                  f"{decimal(loop, 1)} mm of yarn, estimated from the area of a stitch")


def metres_per_gram(yarn: Yarn) -> Fraction | None:
    """Return a yarn's length by mass [m/g], its ends together; None where nothing says it.

    The package says it where it has a length, else the count does.
    """
    one = end_metres_per_gram(yarn)
    return None if one is None else together([one] * yarn.ends)


def end_metres_per_gram(yarn: Yarn) -> Fraction | None:
    """Return the length by mass of one end of a yarn [m/g]."""
    if yarn.package_g and yarn.package_length is not None:
        return yarn.package_length.mm / 1000 / yarn.package_g
    return None if yarn.tex is None else yarn_count_in(yarn.tex, "metres per gram")


def metres_for_pitch(pitch: Length) -> Fraction:
    """Return the length by mass of a yarn that needles so far apart are made for [m/g].

    Worsted count = (needles per inch) squared / 9 (D. J. Spencer, Knitting Technology; W3-099).
    """
    worsted = (1 / pitch.inches) ** 2 / 9
    return yarn_count_in(YIELDS["worsted"] / worsted, "metres per gram")


def together(strands: Iterable[Fraction]) -> Fraction:
    """Return the length by mass of strands knitted as one, from each strand's [m/g] (W06)."""
    return 1 / sum((1 / strand for strand in strands), Fraction(0))


def cut_length(length: Length, metres_per_gram: Fraction | None) -> Amount:
    """Return yarn by the length that is cut of it; its mass too where the yarn's count is known."""
    metres = length.mm / 1000
    mass = None if metres_per_gram is None else metres / metres_per_gram
    return Amount(mass, metres, Basis.LENGTH, f"{decimal(metres, 1)} m")


def total(amounts: Sequence[Amount]) -> Amount:
    """Return amounts of one yarn as one; estimated if any is. Raises ValueError for none.

    Where some are known only by mass and others only by length, all are told by length.
    """
    if not amounts:
        raise ValueError("nothing to add up")
    basis = Basis.AREA if any(a.basis is Basis.AREA for a in amounts) else Basis.WEIGHED
    grams = [a.grams for a in amounts if a.grams is not None]
    metres = [a.metres for a in amounts if a.metres is not None]
    about = [a.area_metres if a.metres is None else a.metres for a in amounts]
    lengths = [m for m in about if m is not None]
    by_area = sum(lengths, Fraction(0)) if len(lengths) == len(amounts) else None
    by_mass, by_length = len(grams) == len(amounts), len(metres) == len(amounts)
    return Amount(sum(grams, Fraction(0)) if by_mass else None,
                  by_area if by_length or not by_mass else None,
                  basis, " + ".join(a.working for a in amounts),
                  by_area if by_mass and not by_length else None)


def packages(amount: Amount, yarn: Yarn) -> Count | None:
    """Return the balls or cones to buy, a part of one counted whole [packages].

    By mass where both masses are known, else by length; None where the label gives neither.
    """
    if amount.grams is not None and yarn.package_g:
        needed = Operand(amount.grams, Role.YARN_GRAMS)
        each = Operand(yarn.package_g, Role.GRAMS_A_PACKAGE)
    elif amount.metres is not None and yarn.package_length is not None:
        needed = Operand(amount.metres, Role.YARN_METRES)
        each = Operand(yarn.package_length.mm / 1000, Role.METRES_A_PACKAGE)
    else:
        return None
    return Count(Rounded(needed / each, UP), Unit.PACKAGES)

"""How much yarn a piece takes, from a weighed swatch and the stitches that the bed counted.

Sources: D. J. Spencer, Knitting Technology, "Yarn counts" (W3-099); Jennie's Its and Knits,
"Estimating yarn for a vest" (Y03); KnitnMore, after Pat Maley, "It all adds up" (Y05); a designer's
lesson, "KnitWit 60: how much yarn, part 2" (Y06).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from enum import Enum
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import UP, Unit, decimal
from ..core.expression import Expression, Operand, Rounded, Sum, Term, plain
from ..core.operands import Role
from ..core.problems import Place
from ..core.roots import Root
from ..core.unit_table import YIELDS
from ..core.units import Length, yarn_count_in
from ..machine.records import dataclass
from ..pattern.fabrics import Swatch, Yarn
from .gauge import Gauge, mean_of, rows_of, stitches_of

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

    `area_length` is what a length that is not known is estimated to be [m].
    """

    mass: Expression | None
    length: Expression | None
    basis: Basis
    area_length: Expression | None = None

    def __post_init__(self) -> None:
        if self.mass is None and self.length is None:
            raise ValueError("an amount of yarn is a mass or a length")

    @property
    def grams(self) -> Fraction | None:
        """The mass [g]."""
        return None if self.mass is None else self.mass.value

    @property
    def metres(self) -> Fraction | None:
        """The length [m]."""
        return None if self.length is None else self.length.value

    def times(self, stitches: Expression) -> Amount:
        """This much for each of so many stitches."""
        return self._each(lambda one: stitches * one)

    def share(self, part: Fraction, place: Place | None = None) -> Amount:
        """A `part` of it, which the source states at a `place`, where it is not a rule's."""
        if part < 0:
            raise ValueError("a share of yarn is not less than nothing")
        of = Operand(part, Role.SHARE, place=place)
        return self if part == 1 else self._each(lambda one: one * of)

    def with_allowance(self, share: Fraction) -> Amount:
        """The amount and a `share` of it more, for ends, bands, samples and mending."""
        if share < 0:
            raise ValueError("an allowance adds yarn")
        more = Operand(1 + share, Role.ALLOWANCE, decimal(share * 100, 1))
        return self._each(lambda one: one * more)

    def named(self, title: str) -> Amount:
        """The same as an operand of a sum, where it is called by its `title`."""
        def term(one: Expression | None, role: Role) -> Expression | None:
            return None if one is None else Term(one, role, f"{title} ")
        return Amount(term(self.mass, Role.YARN_GRAMS), term(self.length, Role.YARN_METRES),
                      self.basis, term(self.area_length, Role.YARN_METRES))

    def _each(self, made: Callable[[Expression], Expression]) -> Amount:
        mass, length, about = (None if one is None else made(one)
                               for one in (self.mass, self.length, self.area_length))
        return Amount(mass, length, self.basis, about)


def stitch_mass(swatches: Iterable[Swatch]) -> Expression | None:
    """Return the mass of a stitch [g]: mean over the weighed swatches; None if none was weighed.

    Mass scales with the fabric knitted (Y06); a stitch is the fabric's own measure of it.
    The swatch's mass must be that of its counted stitches and rows.
    """
    each = [Operand(s.mass_g, Role.SWATCH_GRAMS, place=s.place) / (stitches_of(s) * rows_of(s))
            for s in swatches if s.mass_g is not None]
    return mean_of(each) if each else None


def stitch_length(swatches: Iterable[Swatch]) -> Expression | None:
    """Return the yarn in a stitch [m], mean over the swatches whose yarn was measured; else None.

    A length of yarn knits so many stitches, whatever they are for (Y05; Y03 by the swatch's area).
    """
    each = [Operand(s.yarn.mm / 1000, Role.SWATCH_METRES, place=s.place)
            / (stitches_of(s) * rows_of(s)) for s in swatches if s.yarn is not None]
    return mean_of(each) if each else None


def loop_made(gauge: Gauge) -> Expression:
    """Return about how much yarn is in a stitch [mm, to a thousandth], from its area alone.

    In relaxed plain knitting the loops in an area are a constant over the loop's length squared
    (`LOOPS`), whatever the yarn. An estimate for plain knitting, not for tucks and floats.
    """
    return Root(Operand(LOOPS, Role.LOOPS) * Operand(gauge.stitch, Role.STITCH_WIDTH)
                * Operand(gauge.row, Role.ROW_HEIGHT))


def loop_millimetres(gauge: Gauge) -> Fraction:
    """Return what `loop_made` comes to [mm]."""
    return loop_made(gauge).value


def stitch_amount(swatches: Sequence[Swatch], gauge: Gauge,
                  per_gram: Expression | None = None, *, fabric: str = "") -> Amount:
    """Return the yarn in a stitch: weighed or measured if a swatch was, else estimated by area.

    `per_gram` is the yarn's length by mass [m/g], all strands together; without it only the mass
    is known of a swatch that was only weighed, and only the length of one that was not weighed. A
    length that was measured stands before one by mass. Where the swatches are all of a `fabric`,
    its figures are named by it.
    """
    weighed, long = stitch_mass(swatches), stitch_length(swatches)
    length = Term(long or loop_made(gauge) / plain(1000), Role.STITCH_METRES, fabric)
    if weighed is None:
        return Amount(None if per_gram is None else length / per_gram, length,
                      Basis.MEASURED if long else Basis.AREA)
    mass = Term(weighed, Role.STITCH_GRAMS, fabric)
    if long is None and per_gram is not None:
        return Amount(mass, mass * per_gram, Basis.WEIGHED)
    return Amount(mass, length if long else None, Basis.WEIGHED, None if long else length)


def metres_per_gram(yarn: Yarn) -> Fraction | None:
    """Return a yarn's length by mass [m/g], its ends together; None where nothing says it.

    The package says it where it has a length, else the count does.
    """
    made = per_gram(yarn)
    return None if made is None else made.value


def per_gram(yarn: Yarn) -> Expression | None:
    """Return that length by mass as it is computed [m/g]."""
    if yarn.package_g and yarn.package_length is not None:
        one = _metres_a_package(yarn) / _grams_a_package(yarn)
    elif yarn.tex is not None:
        one = plain(YIELDS["metres per gram"]) / Operand(yarn.tex, Role.TEX, place=yarn.count_place)
    else:
        return None
    return one if yarn.ends == 1 else one / plain(yarn.ends)


def _metres_a_package(yarn: Yarn) -> Operand:
    """The yarn on a ball or cone as an operand [m]."""
    assert yarn.package_length is not None
    return Operand(yarn.package_length.mm / 1000, Role.METRES_A_PACKAGE, place=yarn.length_place)


def _grams_a_package(yarn: Yarn) -> Operand:
    """The mass of the yarn on a ball or cone as an operand [g]."""
    assert yarn.package_g is not None
    return Operand(yarn.package_g, Role.GRAMS_A_PACKAGE, place=yarn.mass_place)


def metres_for_pitch(pitch: Length) -> Fraction:
    """Return the length by mass of a yarn that needles so far apart are made for [m/g].

    Worsted count = (needles per inch) squared / 9 (D. J. Spencer, Knitting Technology; W3-099).
    """
    worsted = (1 / pitch.inches) ** 2 / 9
    return yarn_count_in(YIELDS["worsted"] / worsted, "metres per gram")


def cut_length(length: Expression, per_gram: Expression | None) -> Amount:
    """Return yarn by the length that is cut of it [mm]; its mass too where the yarn's count is
    known."""
    metres = Term(length / plain(1000), Role.CUT)
    return Amount(None if per_gram is None else metres / per_gram, metres, Basis.LENGTH)


def total(amounts: Sequence[Amount]) -> Amount:
    """Return amounts of one yarn as one; estimated if any is. Raises ValueError for none.

    Where some are known only by mass and others only by length, all are told by length.
    """
    if not amounts:
        raise ValueError("nothing to add up")
    basis = Basis.AREA if any(a.basis is Basis.AREA for a in amounts) else Basis.WEIGHED
    by_mass = _added([a.mass for a in amounts])
    by_length = _added([a.length for a in amounts])
    by_area = _added([a.area_length if a.length is None else a.length for a in amounts])
    if by_mass is None:
        return Amount(None, by_area, basis)
    return Amount(by_mass, by_length, basis, None if by_length else by_area)


def _added(parts: Sequence[Expression | None]) -> Expression | None:
    """The sum, None where a part of it is not known."""
    known = tuple(part for part in parts if part is not None)
    if len(known) < len(parts):
        return None
    return known[0] if len(known) == 1 else Sum(known)


def packages(amount: Amount, yarn: Yarn) -> Count | None:
    """Return the balls or cones to buy, a part of one counted whole [packages].

    By mass where both masses are known, else by length; None where the label gives neither.
    """
    if amount.mass is not None and yarn.package_g:
        figure = Term(amount.mass, Role.YARN_GRAMS) / _grams_a_package(yarn)
    elif amount.length is not None and yarn.package_length is not None:
        figure = Term(amount.length, Role.YARN_METRES) / _metres_a_package(yarn)
    else:
        return None
    return Count(Rounded(figure, UP), Unit.PACKAGES)

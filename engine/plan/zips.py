"""A zip between two front edges: its length for the opening, what is eased in, its stay."""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Rounding, Unit, decimal
from ..core.expression import Expression, Operand, Rounded, Term, plain
from ..core.note_arguments import Noted
from ..core.operands import Note, Role
from ..core.problems import Problem, Severity, error, note
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..pattern.model import Band
from ..pattern.places import Places
from ..pattern.specs import ZipSpec

# Ribbon for the stay: twice the zip and about 13 cm (Elizabeth Knits, "Zippers in sweaters").
STAY_TIMES, STAY_MORE = 2, Fraction(130)
# The piece at the throat: over both tapes, the ends turned in (common practice, no source).
THROAT = Fraction(50)
# The published example eases 13 in of edge onto a zip of 12 in (the same): no more than that.
MOST_EASED = Fraction(1, 13)


@dataclass(frozen=True, slots=True, kw_only=True)
class Zip:
    """The zip for an opening: its length [mm], whole centimetres of it, and what is eased in."""

    opening: Length
    length: Length
    count: Count

    @property
    def eased(self) -> Fraction:
        """How much longer than the zip the edge is, as a share of the edge."""
        return 1 - self.length.mm / self.opening.mm

    @property
    def stay(self) -> Length:
        """The ribbon for both sides."""
        return Length(STAY_TIMES * self.length.mm + STAY_MORE)

    @property
    def ribbon(self) -> Length:
        """All of the ribbon: for both sides, and for the throat."""
        return Length(self.stay.mm + THROAT)


def opening_of(stitches: Count, gauge: Gauge) -> Expression:
    """Return the length of an opening along which a band of so many stitches lies [mm]."""
    return plain(stitches.value, "band_stitches") * Operand(gauge.stitch, Role.BAND_STITCH)


def zip_for(opening: Expression, spec: ZipSpec) -> Zip:
    """Return the zip for an `opening` that lies flat [mm].

    Of those sold every so many centimetres the longest that is no longer than the opening:
    a longer one would stretch the edge, and a shorter one takes it in (Knitting Galore, "How To
    Sew A Zipper In A Knitted Sweater"). One that is cut goes down to a whole centimetre as well.
    Raises ValueError where even the shortest is longer.
    """
    figure = Term(opening, Role.OPENING) / Operand(Fraction(10), Role.CENTIMETRE)
    made = Rounded(figure, Rounding("down", spec.every), Fraction(10))
    if not made.value:
        raise ValueError(f"no zip of {spec.every} cm or more for {Length(opening.value).in_cm()}")
    length = Noted(made, Note.ZIP_CUT) if spec.cut else Noted(made, Note.ZIP_SOLD, (spec.every,))
    return Zip(opening=Length(opening.value), length=Length(10 * made.value),
               count=Count(length, Unit.CENTIMETRES))


def check_zip(places: Places, band: Band, size: str, opening: Expression) -> list[Problem]:
    """Return what is wrong with a band's zip for an `opening` so long [mm]; nothing without one."""
    if band.zip is None:
        return []
    place, long = places.of(f"bands.{band.key}.zip"), Length(opening.value)
    try:
        found = zip_for(opening, band.zip)
    except ValueError:
        return [error("zip-too-long", place, size=size, found=f"a front of {long.in_cm()} and "
                      f"zips from {band.zip.every} cm", expected="a zip no longer than the front",
                      remedy="Write a shorter step, or cut.")]
    if found.eased <= MOST_EASED:
        return []
    return [note(Severity.WARNING, "zip-far-off", place, size=size,
                 found=f"a zip of {found.count} for a front of {long.in_cm()}: "
                       f"{decimal(found.eased * 100, 1)} % of the edge to be eased in",
                 expected=f"at most {decimal(MOST_EASED * 100, 1)} %",
                 remedy="Write a shorter step or cut, or change the front's length.")]

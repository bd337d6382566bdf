"""What holds for every cord, in a hem or a casing: its room, its length, how far it hangs out."""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count
from ..core.counts import UP, Unit
from ..core.expression import Operand, Rounded, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.problems import Place, Problem, Severity, error, note
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..pattern.model import Wearer
from ..words.terms.part_names import part_name

# A channel is a quarter of an inch wider than what goes through it: "Easy Waistband Casings".
ROOM = Fraction(6)
# Outside the channel at full width, sizes 2T to 16: ASTM F1816, 16 CFR Part 1120 (CPSC).
LONGEST = Length(Fraction(75))
FROM_MIDDLE = 3  # stitches from the middle of a whole front to an eyelet; common practice
FROM_EDGE = 2  # stitches from what a front band hides to an eyelet; common practice
STANDARDS: FindingText = (
    "The rules in force come first; standards to ask for: EN 14682, ASTM F1816-18 and 16 CFR "
    "Part 1120")


def long_ends(wearer: Wearer, place: Place, ties: Length) -> tuple[Problem, ...]:
    """Refuse ends of a cord that hang out further than the standards allow for a child.

    Where `anyone` may wear it they are warned of.
    """
    found = f"ends of {ties.in_cm()}"
    if ties <= LONGEST:
        return ()
    if wearer is Wearer.CHILDREN:
        return (error("cord-too-long", place, found=f"{found} in a child's garment",
                      expected=f"at most {LONGEST.in_cm()} outside the channel. {STANDARDS}",
                      remedy="Write ties: 7 cm, or leave the cord out."),)
    if wearer is Wearer.ANYONE:
        return (note(Severity.WARNING, "cord-for-anyone", place, found=found,
                     expected=f"at most {LONGEST.in_cm()} where a child may wear it. {STANDARDS}",
                     remedy="Write ties: 7 cm, or say who wears it."),)
    return ()


def cord_length(stitches: Operand | Term, gauge: Gauge, ties: Length, place: Place | None) -> Count:
    """Return the cord along so many stitches with an end at either side [cm], rounded up; `place`
    is where the source has these `ties`."""
    long = stitches * Operand(gauge.stitch, Role.MILLIMETRES) \
        + plain(2) * Operand(ties.mm, Role.LENGTH, part_name(PartRole.OF_ENDS), place)
    return Count(Rounded(long / Operand(Fraction(10), Role.CENTIMETRE), UP), Unit.CENTIMETRES)

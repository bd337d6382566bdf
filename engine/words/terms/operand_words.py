"""How an operand of a calculation is worded: its unit, its text, and how closely it is printed."""

from __future__ import annotations

from enum import Enum
from fractions import Fraction

from ...core.operands import Role
from ...machine.records import dataclass


class FigureForm(Enum):
    """How the figure of an operand stands in its text: alone, it is without its unit there."""

    AMONG_WORDS = "among words"
    ALONE = "alone"
    IN_WORDS = "in words, or in the name"


@dataclass(frozen=True, slots=True)
class Words:
    """How an operand stands in a sentence.

    `text` has {} for the figure and {name} for the operand's name. What is printed is the value
    times `scale`, to `places` decimals where it needs them; `unit` is that of the value itself.
    `one` is the text of a single one, where that is another; `figure` says how {} stands in it.
    {long} in `text` is `long`, the unit in which a length is printed, "mm" or "cm".
    """

    text: str
    unit: str = ""
    scale: Fraction = Fraction(1)
    places: int = 2
    one: str = ""
    figure: FigureForm = FigureForm.AMONG_WORDS
    long: str = ""


def _alone(unit: str = "", places: int = 2) -> Words:
    return Words("{}", unit, places=places, figure=FigureForm.ALONE)


def _mm(text: str, places: int = 2) -> Words:
    return Words(text, "mm", places=places, long="mm")


def _cm(text: str, places: int = 2) -> Words:
    return Words(text, "mm", Fraction(1, 10), places, long="cm")


_PER_10CM = Fraction(100)
WORDS: dict[Role, Words] = {
    Role.NUMBER: _alone(),
    Role.SOURCE: Words("{} {name}, as the designer gives it"),
    Role.ROWS: Words("{} rows{name}", "rows", one="{} row{name}"),
    Role.STITCHES: Words("{} stitches{name}", "stitches", one="{} stitch{name}"),
    Role.PLACES: Words("{} rows and stitches of the edge", "rows",
                       one="{} row or stitch of the edge"),
    Role.TITLED: Words("{} ({name})", "stitches"),
    Role.MEASURE: _cm("{name} {} {long}"),
    Role.LENGTH: _cm("{} {long}{name}"),
    Role.ALONG: _mm("{} {long} (along {name})", 1),
    Role.STITCHES_PER_MM: Words("{} stitches to 10 cm", "stitches per mm", _PER_10CM),
    Role.ROWS_PER_MM: Words("{} rows to 10 cm", "rows per mm", _PER_10CM),
    Role.STITCH_WIDTH: _mm("{} {long} a stitch{name}", 3),
    Role.BAND_STITCH: _mm("{} {long} a band stitch", 3),
    Role.BAND_ROW: _mm("{} {long} a band row", 3),
    Role.ROW_HEIGHT: _mm("{} {long} a row{name}", 3),
    Role.BUTTON: _mm("button {} {long}"),
    Role.STRETCHED: _mm("{} {long} a stretched stitch"),
    Role.ONE_LESS: Words("less one", "stitches", figure=FigureForm.IN_WORDS),
    Role.MILLIMETRES: _mm("{} {long}", 3),
    Role.STEEPNESS: Words("{} for the slope of the edge", places=3),
    Role.SEAMS: Words("{} for the seams", "stitches"),
    Role.SEAM: Words("{} for the seam", "stitches"),
    Role.INSIDE: Words("{} inside the band", "stitches"),
    Role.INSIDE_BANDS: Words("{} inside the bands", "stitches"),
    Role.ARMHOLE_BAND: Words("{} under an armhole band", "stitches"),
    Role.HEM_ROWS: Words("{} rows of the {name}", "rows", one="{} row of the {name}"),
    Role.JOINING: Words("{} rows to join the {name}", "rows",
                       one="{} row to join the {name}"),
    Role.WITHIN: Words("{} within the {name}", "rows"),
    Role.ARMHOLE_ROWS: Words("{} armhole rows", "rows", one="{} armhole row"),
    Role.OVER_HELD: Words("{} over the held stitches", "rows"),
    Role.HELD_STEPS: Words("{} held steps", one="{} held step"),
    Role.AT_TIP: Words("{} at the tip", "stitches"),
    Role.PANELS: Words("panels = {}"),
    Role.AT_ENDS: Words("{} at the ends", "rows"),
    Role.CORD: _mm("cord {} {long}"),
    Role.PI: _alone(places=4),
    Role.CENTIMETRE: _cm("{} {long}"),
    Role.OPENING: _cm("an opening of {} {long}"),
    Role.SECOND_COLOUR: Words("{} in the second colour", "stitches"),
    Role.IN_STRIPES: Words("{} in its stripes", "stitches"),
    Role.BED: _alone(),
    Role.BED_STITCHES: Words("{} stitches", "stitches", one="{} stitch"),
    Role.BEHIND: Words("{} behind the fold", "stitches"),
    Role.YARN_GRAMS: Words("{name}{} g", "g", places=1),
    Role.YARN_METRES: Words("{name}{} m", "m", places=1),
    Role.GRAMS_A_PACKAGE: Words("{} g a ball or cone", "g", places=1),
    Role.METRES_A_PACKAGE: Words("{} m a ball or cone", "m", places=1),
    Role.ALLOWANCE: Words("{} ({name} % more)"),
    Role.SWATCH_STITCHES: Words("{} stitches", "stitches", one="{} stitch"),
    Role.SWATCH_ROWS: Words("{} rows", "rows", one="{} row"),
    Role.SWATCH_WIDTH: _cm("{} {long}", 1),
    Role.SWATCH_HEIGHT: _cm("{} {long}", 1),
    Role.SWATCH_GRAMS: Words("{} g", "g", places=1),
    Role.SWATCH_METRES: Words("{} m", "m", places=1),
    Role.LOOPS: _alone(),
    Role.TEX: Words("{} tex", "g per km"),
    Role.CUT: Words("{} m", "m", places=1),
    Role.NEEDLES_LAID: Words("{} needles", "needles", one="{} needle"),
    Role.ENDS_CUT: Words("{} ends", "ends", one="{} end"),
    Role.TIMES_LONG: Words("{} times as long"),
    Role.PITCH: _mm("{} {long} from needle to needle"),
    Role.HAND: _cm("{} {long} to hold"),
    Role.CUT_STEP: _cm("{} {long}"),
    Role.SHARE: _alone(),
    Role.NUMBERS_TURNED: _alone(),
    Role.A_NUMBER: _mm("{} {long} a number of the dial", 4),
    Role.STITCH_GRAMS: Words("{} g a stitch", "g", places=4),
    Role.STITCH_METRES: Words("{} m a stitch", "m", places=4),
    Role.ROWS_BEFORE: Words("{} before the first", "rows"),
    Role.ROWS_AFTER: Words("{} after the last", "rows"),
    Role.APART: Words("{} stitches", "stitches", one="{} stitch"),
    Role.HOLES_GIVEN: _alone("holes"),
    Role.HOLES_PLACED: _alone("holes"),
    Role.NTH: _alone(),
    Role.NEAREST_STITCH: _alone("stitches"),
    Role.EASE: Words("{} for the band's ease", places=3),
    Role.SEWN_LONGER: Words("{} for the stretch as it is sewn on"),
    Role.RULE: _alone("stitches per row"),
    Role.STATED: _cm("{name} {} {long}"),
    Role.BANDS: _cm("{name} {} {long}"),
    Role.OF_SCHEDULE: _alone(),
    Role.COST: _alone(),
    Role.TRIED: _alone(),
    Role.OFF: _mm("{} {long} off", 3),
    Role.PART_OF_LENGTH: Words("{name} {}", "mm", places=1),
    Role.BODY: _cm("{} {long}"),
    Role.PLAIN_MEASURE: Words("{name} {}", places=3),
    Role.WRITTEN_LENGTH: Words("{name}", "mm", figure=FigureForm.IN_WORDS),
    Role.WRITTEN: Words("{name}", figure=FigureForm.IN_WORDS),
}

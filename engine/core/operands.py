"""What an operand of a calculation measures: its unit, its words, and how closely it is printed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction


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


class Role(Enum):
    """What an operand is in its calculation."""

    NUMBER = "number"
    SOURCE = "figure of the source"
    ROWS = "rows"
    STITCHES = "stitches"
    PLACES = "rows and stitches of an edge"
    TITLED = "stitches of a section"
    MEASURE = "measure"
    LENGTH = "length"
    ALONG = "length along an edge"
    STITCHES_PER_MM = "stitches to a length"
    ROWS_PER_MM = "rows to a length"
    STITCH_WIDTH = "width of a stitch"
    BAND_STITCH = "width of a band stitch"
    BAND_ROW = "height of a band row"
    ROW_HEIGHT = "height of a row"
    BUTTON = "button"
    STRETCHED = "width to which a stitch stretches"
    ONE_LESS = "one stitch less than is covered"
    MILLIMETRES = "width or height of one"
    STEEPNESS = "height to width"
    SEAMS = "stitches for the seams"
    SEAM = "stitches for the seam"
    INSIDE = "stitches inside the band"
    INSIDE_BANDS = "stitches inside the bands"
    HEM_ROWS = "rows of the hem"
    JOINING = "rows that join the hem"
    WITHIN = "rows within the end of a band"
    ARMHOLE_ROWS = "rows of the armhole"
    HELD_STEPS = "steps that are held"
    AT_TIP = "stitches at the tip"
    PANELS = "panels"
    AT_ENDS = "rows at the ends"
    CORD = "cord"
    PI = "girth to width of a circle"
    CENTIMETRE = "a centimetre"
    OPENING = "length of an opening"
    SECOND_COLOUR = "stitches in the second colour"
    IN_STRIPES = "stitches in stripes"
    BED = "counted on the bed"
    BED_STITCHES = "stitches counted on the bed"
    BEHIND = "stitches behind the fold"
    YARN_GRAMS = "mass of yarn"
    YARN_METRES = "length of yarn"
    GRAMS_A_PACKAGE = "mass of a package"
    METRES_A_PACKAGE = "length of a package"
    ALLOWANCE = "allowance factor"
    SWATCH_STITCHES = "stitches of a swatch"
    SWATCH_ROWS = "rows of a swatch"
    SWATCH_WIDTH = "width of a swatch"
    SWATCH_HEIGHT = "height of a swatch"
    SWATCH_GRAMS = "mass of a swatch"
    SWATCH_METRES = "yarn in a swatch"
    LOOPS = "loops in an area times the square of their length"
    TEX = "mass of a kilometre of yarn"
    CUT = "yarn that is cut"
    SHARE = "share"
    NUMBERS_TURNED = "numbers that the dial is turned"
    A_NUMBER = "what a number of the dial is worth"
    STITCH_GRAMS = "mass of a stitch"
    STITCH_METRES = "yarn in a stitch"
    ROWS_BEFORE = "rows up to the first event"
    ROWS_AFTER = "rows after the last event"
    APART = "stitches from the start of one hole to the start of the next"
    HOLES_ASKED = "holes that the source asks for"
    HOLES_PLACED = "holes in the part"
    NEAREST_STITCH = "stitches to the one nearest to where the source puts it"
    EASE = "ease factor"
    SEWN_LONGER = "stretch as a band is sewn on"
    RULE = "pick-up rule"
    STATED = "length that the source states"
    BANDS = "depth of the front bands"
    COST = "cost of what is given up"
    OFF = "how far off an edge is"
    PART_OF_WAY = "part of a way"
    BODY = "body measurement"
    PLAIN_MEASURE = "measure that is a plain number"
    WRITTEN_LENGTH = "length as the source has it"
    WRITTEN = "number as the source has it"


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
    Role.ALONG: _mm("{} {long} along {name}", 1),
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
    Role.STEEPNESS: _alone(),
    Role.SEAMS: Words("{} for the seams", "stitches"),
    Role.SEAM: Words("{} for the seam", "stitches"),
    Role.INSIDE: Words("{} inside the band", "stitches"),
    Role.INSIDE_BANDS: Words("{} inside the bands", "stitches"),
    Role.HEM_ROWS: Words("{} rows of the {name}", "rows", one="{} row of the {name}"),
    Role.JOINING: Words("{} to join the {name}", "rows"),
    Role.WITHIN: Words("{} within the {name}", "rows"),
    Role.ARMHOLE_ROWS: Words("{} armhole rows", "rows", one="{} armhole row"),
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
    Role.GRAMS_A_PACKAGE: Words("{} g a package", "g", places=1),
    Role.METRES_A_PACKAGE: Words("{} m a package", "m", places=1),
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
    Role.SHARE: _alone(),
    Role.NUMBERS_TURNED: _alone(),
    Role.A_NUMBER: _mm("{} {long} a number of the dial", 4),
    Role.STITCH_GRAMS: Words("{} g a stitch", "g", places=4),
    Role.STITCH_METRES: Words("{} m a stitch", "m", places=4),
    Role.ROWS_BEFORE: Words("{} before the first", "rows"),
    Role.ROWS_AFTER: Words("{} after the last", "rows"),
    Role.APART: Words("{} stitches", "stitches", one="{} stitch"),
    Role.HOLES_ASKED: _alone("holes"),
    Role.HOLES_PLACED: _alone("holes"),
    Role.NEAREST_STITCH: _alone("stitches"),
    Role.EASE: Words("{} ease", places=3),
    Role.SEWN_LONGER: Words("{} for the stretch as it is sewn on"),
    Role.RULE: _alone("stitches per row"),
    Role.STATED: _cm("{name} {} {long}"),
    Role.BANDS: _cm("{name} {} {long}"),
    Role.COST: _alone(),
    Role.OFF: _mm("{} {long} off", 3),
    Role.PART_OF_WAY: Words("{name} {}", "mm", places=1),
    Role.BODY: _cm("{} {long}"),
    Role.PLAIN_MEASURE: Words("{name} {}", places=3),
    Role.WRITTEN_LENGTH: Words("{name}", "mm", figure=FigureForm.IN_WORDS),
    Role.WRITTEN: Words("{name}", figure=FigureForm.IN_WORDS),
}


class Note(Enum):
    """What is said about a calculation, {of}, before it or after it; {value} is its result."""

    SECTION = "{0}: {of}"
    RULE = "{0}, {1} for every {2}: {of}"
    BAND_TOP = "{0} of the band's {1} rows{2}"
    HOLE_OFFERS = "a hole of {0} offers {of} from its other side"
    A_LAYER = "{of} a layer, as the designer gives it"
    NO_LOOPS = "no buttonholes whose edges are hung"
    AND_STITCHES = "{of} and stitches, by sections"
    PART = "{0} of the band's {1} stitches and {2} for the join{3}: {4}"
    FOR_CHART = '{of}, {0} for the chart "{1}"'
    ARRANGED = "{of}, {0} of work"
    AS_BODY = "as the body: {of}"
    OVER_LAST = "{0} over the last decreases"
    NEVER_HELD = "{0} are never held"
    AND_MORE = "{of}, and {0} more"
    EVERY_SECOND = "{0} − {1} moved onto the stitch beside: {2}"
    TOP_ROW = "what the row counter shows at the top, as knitted"
    WIDEST = "from the first to the last needle ever in work"
    PAIRS = "{0}; 2 rows a pair: {of}"
    NO_HOLES = "no buttonholes"
    AFTER_ROWS = "{of}; after rows {0}"
    STRETCHES = "{of}, which stretch to about {0} mm"
    HALF_GIRTH = "half the girth: {of}"
    LOOPS_ABOVE = "the {0} loops above an opening of {1} stitches"
    ZIP = "{of}, a zip {0}"
    BED = "{of}, as the bed counted"
    BED_HEM = "{of}, as the bed counted, {0} of them in the hem"
    CAP = "{0}top {1}; {2} rows; {3}; edge {4} for an armhole of {5} and {6} ease ({7} off)"
    CAP_GIVEN = "{0}top {1}; {of}; {3}; edge {4} for an armhole of {5} and {6} ease ({7} off)"
    BY_SECTIONS = "{of}, by sections"
    BOUND_OFF = "{0} rows and {1} stitches bound off"
    AS_SOURCE = "{of}, as the designer gives it"
    IN_HEM = "{0} in the hem and {1} above it, the last at the upper end: {value}"
    THROUGH = "one of them at {0} from the lower end, the others shared out below it and above " \
        "it: {of}"
    PUT = "{of}, each where the designer puts it"
    EVERY = "about {0} asked for from the start of one hole to the start of the next{1}: {value} " \
        "buttonholes{2}"
    NOT_SWATCHED = "{of}, at the garment's gauge: the {0}'s own {1} was not swatched"


class ChoiceReason(Enum):
    """Why a choice fell as it did.

    In its words {value} is what was chosen, {off} what that is worth, {more} and {side} to which
    side, {chosen} the sum that was chosen, {total} and {others} what it must add up to, {unit} what
    is counted.
    """

    LEAST_ONE = "{value}, the least there is"
    LEAST_HOLE = "{value}, the least a hole may have"
    MITRE = "{value}, at most one after every second row; the fabric gives the rest"
    NO_WIDER = "no more than the width, {value}"
    NECK = "{value} so that the neck is nearer to the width asked for ({off} {side})"
    SIDES_MEET = "{value} so that the sides meet ({off} more)"
    SHAPED = "{value} so that it can be shaped ({off} more)"
    ABOVE_UNDERARM = "{value} so that it begins {total} rows above the underarm ({off} {more})"
    EVEN_ROW = "{value} so that it begins on an even row ({off} {more})"
    BEFORE_SHOULDERS = "{value} so that it opens before the shoulders begin ({off} more)"
    EVEN_BEFORE_SHOULDERS = \
        "{value} so that it opens on an even row before the shoulders begin ({off} more)"
    CLEAR_ROWS = "{value} so that no side is shaped there ({off} more)"
    TOO_FEW = "{value}, as fewer do not stretch so far"
    LEAST_SLIT = "{value}, the least a slit may have"
    LEAST_LOOP = "{value}, the least a loop may have"
    NECK_SIDES = "{value}, as many as the rows of the neck's side have room for"
    CUT = "{value}, cut where it comes out best"
    RATIO = "{value}, the nearest ratio that is easy to count"
    LEAST_GIVEN_UP = "{value}, by which the least is given up"
    CLEAR_OF_JOIN = "{value} so that no buttonhole lies on a join"
    SECTIONS = "{value} so that these {others} sections have {total} {unit}"
    BAND = "{value} so that the band has {total} {unit}"
    BUTTONHOLES = "{value} so that the buttonholes divide: {chosen} ({off} from the edge)"
    NO_ROOM = "{value}, as there is no room for one"
    CAP_FITS = "{value}, the cap whose edge comes nearest to the armhole's and its ease"
    SMALLEST_NAMED = "{value}, the smallest of the figures that the measure names"
    LARGEST_NAMED = "{value}, the largest of the figures that the measure names"

"""What is likely and what is allowed of every kind of figure that a designer gives.

Outside the plausible range a figure is warned of, outside the hard limit it is an error, before
anything is planned. The declaration of a key that takes a figure has its range (`source.keys`).
Here are the ranges of the forms' measures, and of what figures come to beside one another.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from enum import Enum
from fractions import Fraction
from math import ceil, floor

from ..machine.records import dataclass
from .counts import decimal
from .units import Length, read_dial, read_length

PRACTICE = "common practice, no source"
CHARTS = "the body charts in patterns/_sizes, with ease or a short form at either end"
EASE = "Lion Brand, How much ease (2011): 0 to 6 in and more; less for ribs, more for coats"
GAUGES = ("Craft Yarn Council, Standard yarn weight system: 6 to 40 stitches to 10 cm; finer and "
          "wider on the beds there are")
HEADS = "Craft Yarn Council, Head circumference chart: 23 to 61 cm"
LENGTHS = ("Twisted Yarn Shop, Yarn 101: 110 to 503 m to 100 g; yarnoncone.co.uk, Yarn counts: "
           "100 to 1600 m and more")
COUNTS = ("alessandrina, Machine knitting yarns info: cones by the worsted count run at 460 to 560 "
          "yards to the pound for each count, so to four fifths of what the count says")
BY_PITCH = ("D. J. Spencer, Knitting Technology: worsted count = (needles per inch) squared / 9; a "
            "band of half to twice that is ours")
DIALS = "Knitwords, November 2019: 0 to 10 on a standard bed, 1 to 9 on a mid-gauge one"
RATIOS = ("selfmadecraft, Stitch gauge and row gauge are related (2011): 1.43; other pairs "
          "published 1.28 to 1.50 in plain knitting; tucks, slips and ribs lie further out")
LIGNES = "the button trade's ligne, 40 to the inch, as sold from 14 to 75 lignes (common practice)"
BEDS = "needle beds sold: 3.6 to 9 mm (common practice)"
CALENDAR = "no clock is read: the years in which such sources can be written, and a century about"
AREA = ("the yarn that the stitch's area asks for in plain knitting; lace and "
        "needles out of work take less, tucks, floats and strands held together more")


_IN_INCHES = re.compile(r"(?:[0-9 ]in|inch|inches|\"|″)$")


class Measured(Enum):
    """What a figure is a figure of."""

    LENGTH = "length"
    COUNT = "count"
    MASS = "mass"
    DIAL = "dial"
    DATE = "date"
    SHARE = "share"
    NUMBER = "number"


@dataclass(frozen=True, slots=True, kw_only=True)
class Range:
    """A kind of figure: from `low` to `high` is plausible, from `least` to `most` allowed.

    The four are as written, so that messages can say them; `follows` is true where it does not
    fall from one size to the next.
    """

    kind: str
    measured: Measured
    low: str
    high: str
    least: str
    most: str
    source: str
    follows: bool = False

    def is_plausible(self, value: Fraction | int | str) -> bool:
        """True within the plausible range. `value` is in mm, g, thirds of a dial or the date."""
        return self._is_between(self.low, value, self.high)

    def is_allowed(self, value: Fraction | int | str) -> bool:
        """True within the hard limit."""
        return self._is_between(self.least, value, self.most)

    @property
    def usual(self) -> str:
        """The plausible range in words: "mass of a swatch: 0.5 g to 200 g"."""
        return f"{self.kind}: {self.plausible}"

    @property
    def allowed(self) -> str:
        """The hard limit in words: "side of a swatch: 1 cm to 100 cm"."""
        return f"{self.kind}: {self.limits}"

    @property
    def plausible(self) -> str:
        """The plausible range by itself."""
        return _to(self.low, self.high)

    @property
    def limits(self) -> str:
        """The hard limit by itself: "1 cm to 100 cm"."""
        return _to(self.least, self.most)

    @property
    def is_plausible_below_nothing(self) -> bool:
        """True where a figure less than 0 is plausible."""
        return self.measured is not Measured.DATE and _figure(self.low, self.measured) < 0

    @property
    def is_allowed_below_nothing(self) -> bool:
        """True where a figure less than 0 is within the hard limit."""
        return self.measured is not Measured.DATE and _figure(self.least, self.measured) < 0

    def beside(self, typed: str, *, hard: bool = False) -> str:
        """Of a length that was typed in inches, what stands behind the plausible range or the hard
        limit: the same in inches, rounded to tenths inwards, " (0.4 in to 39.3 in)"; else ""."""
        if self.measured is not Measured.LENGTH or not _IN_INCHES.search(typed):
            return ""
        low, high = (self.least, self.most) if hard else (self.low, self.high)
        tenths = [Length(_figure(end, self.measured)).inches * 10 for end in (low, high)]
        ends = decimal(Fraction(ceil(tenths[0]), 10), 1), decimal(Fraction(floor(tenths[1]), 10), 1)
        return f" ({_to(*(f'{end} in' for end in ends))})"

    def _is_between(self, low: str, value: Fraction | int | str, high: str) -> bool:
        if self.measured is Measured.DATE:
            return low <= str(value) <= high
        assert not isinstance(value, str)
        return _figure(low, self.measured) <= value <= _figure(high, self.measured)


def _to(low: str, high: str) -> str:
    """Both ends of a range, as a page prints them."""
    return f"{low} to {high}".replace("-", "−") if low[4:5] != "-" else f"{low} to {high}"


def _figure(written: str, measured: Measured) -> Fraction:
    """A bound as a number: in mm, in g, in thirds of a dial."""
    if measured is Measured.LENGTH:
        return read_length(written).mm
    if measured is Measured.DIAL:
        return Fraction(read_dial(written).thirds)
    figure = Fraction(written.removesuffix(" g").removesuffix(" %"))
    return figure / 100 if measured is Measured.SHARE else figure


def figure_range(measured: Measured, kind: str, plausible: str, hard: str, source: str = PRACTICE,
                 *, follows: bool = False) -> Range:
    """Return the range of a kind; `plausible` and `hard` are written as "5 mm..25 cm"."""
    low, high = plausible.split("..")
    least, most = hard.split("..")
    return Range(kind=kind, measured=measured, low=low, high=high, least=least, most=most,
                 source=source, follows=follows)


BODY_MEASUREMENT = ("body measurement", "3 cm..200 cm", "1 cm..400 cm", CHARTS)
"""The kind of a body measurement, its plausible range, its hard limit and their source."""
BODY = figure_range(Measured.LENGTH, *BODY_MEASUREMENT)
_L, _N = Measured.LENGTH, Measured.NUMBER
# What figures of a source come to beside one another.
_COMPARED = (
    figure_range(_N, "metres to 100 g", "40..3000", "10..10000", LENGTHS),
    figure_range(_L, "width of a stitch", "0.5 mm..25 mm", "0.5 mm..40 mm", GAUGES),
    figure_range(_L, "height of a row", "0.5 mm..15 mm", "0.5 mm..30 mm", GAUGES),
    figure_range(_N, "stitch width to row height", "0.8..3", "0.2..8", RATIOS),
    figure_range(_N, "share of the yarn of its area", "0.4..2.5", "0.1..8", AREA),
    figure_range(_N, "share of the length of its count", "0.8..1.25", "0.4..2.5", COUNTS),
    figure_range(_N, "share of the length for the bed", "0.5..2", "0.01..100", BY_PITCH),
    figure_range(_N, "share of the chart's figure", "0.7..1.4", "0.1..10", CHARTS),
)
# How deep a finished band is, by the edge that it is on. Of one layer on a neck it may be a roll
# collar. The kinds of collar, and other edges, keep the range of the key `depth`.
_DEPTHS = (
    figure_range(_L, "depth of a neckband", "5 mm..12 cm", "2 mm..50 cm"),
    figure_range(_L, "depth of a neckband of one layer", "5 mm..24 cm", "2 mm..50 cm"),
    figure_range(_L, "depth of a front band", "5 mm..9 cm", "2 mm..50 cm"),
    figure_range(_L, "depth of a placket's band", "5 mm..6 cm", "2 mm..50 cm"),
    figure_range(_L, "depth of an armhole's band", "5 mm..8 cm", "2 mm..50 cm"),
    figure_range(_L, "depth of a pocket's band", "5 mm..10 cm", "2 mm..50 cm"),
)
DEPTHS: Mapping[str, Range] = {row.kind: row for row in _DEPTHS}
COMPARED: Mapping[str, Range] = {row.kind: row for row in _COMPARED}


# The measures of the forms, by name; a measure of a designer's own is the last.
_MEASURES = (
    figure_range(_L, "ease", "-10 cm..40 cm", "-60 cm..150 cm", EASE),
    figure_range(_L, "chest_width", "15 cm..110 cm", "2 cm..200 cm", CHARTS, follows=True),
    figure_range(_L, "hem_width", "12 cm..130 cm", "2 cm..300 cm", CHARTS, follows=True),
    figure_range(_L, "hip_width", "12 cm..130 cm", "2 cm..300 cm", CHARTS, follows=True),
    figure_range(_L, "hip_height", "1 cm..60 cm", "0 cm..200 cm"),
    figure_range(_L, "waist_width", "12 cm..110 cm", "2 cm..200 cm", CHARTS, follows=True),
    figure_range(_L, "waist_height", "3 cm..90 cm", "0 cm..250 cm", CHARTS),
    figure_range(_L, "waist_straight", "0 cm..12 cm", "0 cm..60 cm"),
    figure_range(_L, "chest_height", "5 cm..110 cm", "0 cm..250 cm"),
    figure_range(_L, "across", "12 cm..70 cm", "2 cm..200 cm", CHARTS, follows=True),
    figure_range(_L, "body_length", "12 cm..130 cm", "2 cm..300 cm", CHARTS, follows=True),
    figure_range(_L, "shoulder_drop", "0 cm..10 cm", "0 cm..40 cm"),
    figure_range(_L, "back_neck", "0 cm..10 cm", "0 cm..40 cm"),
    figure_range(_L, "front_neck", "1 cm..45 cm", "0 cm..150 cm"),
    figure_range(_L, "cuff_width", "7 cm..70 cm", "1 cm..200 cm", CHARTS, follows=True),
    figure_range(_L, "armhole", "6 cm..45 cm", "1 cm..150 cm", CHARTS, follows=True),
    figure_range(_L, "neck_width", "5 cm..45 cm", "0 cm..150 cm", CHARTS, follows=True),
    figure_range(_L, "upper_arm_width", "9 cm..90 cm", "1 cm..200 cm", CHARTS, follows=True),
    figure_range(_L, "sleeve_length", "1 cm..80 cm", "1 mm..200 cm", CHARTS),
    figure_range(_L, "cap_ease", "-1 cm..6 cm", "-10 cm..30 cm"),
    figure_range(_L, "sleeve_ease", "-1 cm..4 cm", "-10 cm..30 cm"),
    figure_range(_L, "armhole_straight", "0 cm..35 cm", "0 cm..150 cm"),
    figure_range(_L, "cap_height", "3 cm..30 cm", "1 cm..150 cm", follows=True),
    figure_range(_L, "cap_top", "1 cm..30 cm", "5 mm..150 cm"),
    figure_range(_L, "raglan_depth", "7 cm..50 cm", "1 cm..150 cm", CHARTS, follows=True),
    figure_range(_L, "underarm", "0 cm..15 cm", "0 cm..60 cm"),
    figure_range(_L, "sleeve_top", "0 cm..25 cm", "0 cm..100 cm"),
    figure_range(_L, "saddle_width", "2 cm..20 cm", "0 cm..100 cm"),
    figure_range(_L, "saddle_length", "0 cm..30 cm", "0 cm..100 cm"),
    figure_range(_L, "hat_width", "18 cm..75 cm", "2 cm..200 cm", HEADS, follows=True),
    figure_range(_L, "hat_depth", "6 cm..35 cm", "1 cm..100 cm", HEADS, follows=True),
    figure_range(_L, "turn_up", "0 cm..15 cm", "0 cm..60 cm"),
    figure_range(_L, "hat_length", "6 cm..60 cm", "1 cm..150 cm", HEADS, follows=True),
    figure_range(_L, "crown", "0 cm..15 cm", "0 cm..60 cm"),
    figure_range(_L, "wingspan", "30 cm..260 cm", "1 cm..500 cm", follows=True),
    figure_range(_L, "depth", "10 cm..130 cm", "1 cm..300 cm", follows=True),
    figure_range(_L, "blanket_width", "20 cm..300 cm", "1 cm..600 cm", follows=True),
    figure_range(_L, "blanket_length", "20 cm..300 cm", "1 cm..600 cm", follows=True),
    figure_range(Measured.COUNT, "panels", "1..20", "1..100"),
    figure_range(_L, "hand_circumference", "8 cm..30 cm", "1 cm..60 cm", follows=True),
    figure_range(_L, "hand_length", "5 cm..25 cm", "1 cm..60 cm", follows=True),
    figure_range(_L, "cuff_depth", "1 cm..30 cm", "0 cm..60 cm"),
    figure_range(_L, "mitten_width", "8 cm..34 cm", "1 cm..80 cm", follows=True),
    figure_range(_L, "mitten_length", "6 cm..55 cm", "1 cm..120 cm", follows=True),
    figure_range(_L, "to_thumb", "2 cm..40 cm", "0 cm..100 cm"),
    figure_range(_L, "thumb_width", "3 cm..15 cm", "5 mm..40 cm", follows=True),
    figure_range(_L, "thumb_length", "1 cm..12 cm", "5 mm..40 cm", follows=True),
    figure_range(_L, "tip", "0 cm..6 cm", "0 cm..30 cm"),
)
MEASURES: Mapping[str, Range] = {row.kind: row for row in _MEASURES}
OWN_MEASURE = figure_range(_L, "measure of your own", "-150 cm..300 cm", "-1000 cm..1000 cm")


def ranges_of(measures: Iterable[str]) -> dict[str, Range]:
    """Return the ranges of the measures of a form. Raises KeyError for one that has none."""
    names = tuple(measures)
    if lacking := [name for name in names if name not in MEASURES]:
        raise KeyError(f"no range in MEASURES of core/ranges.py: {', '.join(lacking)}")
    return {name: MEASURES[name] for name in names}

"""Lengths, masses and dials as people write them, read into exact values.

Sources: a trade textbook, "Shawl Weaving Artisan, Trade Theory" (W03); Barbara Elkins, "What do the
numbers mean in coned yarns?" (W04); Sweaty Knitter, "What are those numbers?" (W05); a teacher's
page, "Yarn weights" (W07); D. J. Spencer, Knitting Technology, "Yarn counts" (W3-099).
"""

from __future__ import annotations

import re
from difflib import get_close_matches
from enum import Enum
from fractions import Fraction
from functools import lru_cache

from ..machine.records import dataclass
from ..machine.steps import Dial
from .counts import decimal, in_decimals, tenth
from .foreign_units import dimension_of
from .inches import GLYPHS, in_figure, in_parts
from .text_kinds import SourceName
from .unit_table import DENSITIES, LENGTHS, MASSES, YIELDS

# The longer names of units that are most likely misspelt. Anything that is not in the tables
# ("month", "acre") is refused by its dimension or as no unit of knitting.
_LONGER = {"millimeter": "mm", "centimeter": "cm", "meter": "m", "button_ligne": "ligne",
           "gram": "g", "kilogram": "kg", "ounce": "oz", "pound": "lb"}
# As messages name them.
LENGTH_UNITS = "mm, cm, m, in, yd or ligne"
MASS_UNITS = "g, kg, oz or lb"
_NUMBER = (r"(?:(?P<whole>[0-9]{1,12})[ -]+)?(?P<over>[0-9]{1,4})\s*/\s*(?P<under>[0-9]{1,4})"
           r"|(?P<plain>[0-9]{1,12}(?:\.[0-9]{1,30})?)")
_QUANTITY = re.compile(rf"(?P<sign>[-−])?\s*(?:{_NUMBER})\s*(?P<unit>[^\d\s.][^\d]*)?")


class UnitError(ValueError):
    """A text that is no quantity of the kind asked for: `found`, and what was `expected`.

    `code` is that of its finding, where another than that of a text of no such kind.
    """

    def __init__(self, found: str, expected: str, remedy: str = "", code: str = "") -> None:
        super().__init__(f"found {found}; expected {expected}")
        self.found, self.expected, self.remedy, self.code = found, expected, remedy, code


@dataclass(frozen=True, slots=True, order=True)
class Length:
    """An exact length [mm]."""

    mm: Fraction

    def __hash__(self) -> int:
        # Of a fraction Python takes a remainder to a large prime, some five times as long.
        return hash((self.mm.numerator, self.mm.denominator))

    @property
    def cm(self) -> Fraction:
        """The length in centimetres."""
        return self.mm / 10

    @property
    def inches(self) -> Fraction:
        """The length in inches of exactly 25.4 mm."""
        return self.mm * 5 / 127

    def __add__(self, other: Length) -> Length:
        return Length(self.mm + other.mm)

    def __sub__(self, other: Length) -> Length:
        return Length(self.mm - other.mm)

    def times(self, factor: Fraction | int) -> Length:
        """The length multiplied by a plain number."""
        return Length(self.mm * factor)

    def in_cm(self) -> str:
        """As centimetres to the millimetre: "44 cm", "17.3 cm"."""
        return f"{self.cm_figure()} cm"

    def cm_figure(self) -> str:
        """The centimetres alone, to the millimetre: "44", "17.3"."""
        return in_decimals(self.mm.numerator, 10 * self.mm.denominator, 1)

    def in_mm(self) -> str:
        """As millimetres to a tenth."""
        return f"{decimal(self.mm, 1)} mm"

    def in_inches(self, places: int = 1) -> str:
        """As inches to the eighth, as tape measures are marked: "17⅜ in"."""
        return in_parts(self.printed_inches(places))

    def inch_figure(self) -> str:
        """The inches alone, as `in_inches` has them: "17⅜"."""
        return in_figure(self.printed_inches())

    def printed_inches(self, places: int = 1) -> Fraction:
        """The inches to which it is printed, to the eighth; to the sixteenth where eighths are 0.

        They are those of the centimetres as printed, with so many decimal `places`, so that these
        always have the same inches.
        """
        over, under, tens = self.mm.numerator, self.mm.denominator, 10 ** (places - 1)
        inch = 127 * tens  # in fifths of what is printed of a millimetre
        fifths = (2 * abs(over) * tens + under) // (2 * under) * 5
        parts = 8 if 16 * fifths >= inch else 16
        shown = (2 * parts * fifths + inch) // (2 * inch)
        return Fraction(shown if over >= 0 else -shown, parts)

    def cm_beyond(self, other: Length) -> str:
        """The difference of the printed centimetres, without its unit."""
        return decimal(tenth(self.cm) - tenth(other.cm), 1)

    def __str__(self) -> str:
        return f"{self.in_cm()} ({self.in_inches()})"


def length_cm(cm: Fraction | int) -> Length:
    """A length given in centimetres."""
    return Length(Fraction(cm) * 10)


@lru_cache(maxsize=4096)
def read_length(text: str) -> Length:
    """Return the length written as `text`: "44 cm", "17 1/4 in", '17.25"', "24 ligne".

    A ligne may be written 24L as the button trade does. Raises UnitError when there is no
    unit, the unit is no length, or the text is no number.
    """
    value, unit = _split(text, "a length such as 32 cm or 12.5 in")
    if unit in ("L", "l"):
        unit = "ligne"
    return Length(_convert(text, value, unit, LENGTHS, "[length]",
                           "a length such as 32 cm or 12.5 in"))


@lru_cache(maxsize=1024)
def read_mass(text: str) -> Fraction:
    """Return the mass written as `text` [g]. Raises UnitError as read_length does."""
    value, unit = _split(text, "a mass such as 50 g or 2 oz")
    return _convert(text, value, unit, MASSES, "[mass]", "a mass such as 50 g or 2 oz")


@lru_cache(maxsize=4096)
def read_number(text: str) -> Fraction:
    """Return a plain number: "40", "3/4", "1.02". Raises UnitError for anything with a unit."""
    value, unit = _split(text, "a plain number such as 40 or 3/4")
    if unit:
        raise UnitError(f'"{text}"', "a plain number such as 40 or 3/4", "Leave the unit out.")
    return value


def read_percent(text: str) -> Fraction:
    """Return a share written as "2 %" or "-3%", as a fraction of one. Raises UnitError."""
    value, unit = _split(text, "a percentage such as 2 %")
    if unit != "%":
        raise UnitError(f'"{text}"', "a percentage such as 2 %", "Write the % sign after it.")
    return value / 100


CHECK = "Check the figure."


def huge(text: str) -> str:
    """What a message calls a figure of more digits than are read, at the beginning of `text`; ""
    for any other."""
    run = re.match(r"[-−]?\s*([0-9]{13,})", text.strip())
    return f"a figure of {len(run[1])} digits" if run else ""


def other_digits(text: str) -> str:
    """The remedy for a text with digits of another script, or "": only 0 to 9 are read anywhere."""
    strange = any(c.isdecimal() and not c.isascii() for c in text)
    return "Write the digits 0 to 9." if strange else ""


def _split(text: str, expected: str) -> tuple[Fraction, str]:
    plain = text.strip()
    for glyph, written in () if plain.isascii() else GLYPHS.items():
        plain = plain.replace(glyph, f" {written}")
    match = _QUANTITY.fullmatch(plain.strip())
    if not match or (match["under"] and int(match["under"]) == 0):
        if digits := huge(text):
            raise UnitError(digits, expected, CHECK, "huge-measure")
        raise UnitError(f'"{text}"', expected, other_digits(text))
    if match["plain"]:
        ones, _, parts = match["plain"].partition(".")
        value = Fraction(int(ones + parts), 10 ** len(parts))
    else:
        value = Fraction(int(match["over"]), int(match["under"])) + int(match["whole"] or 0)
    return (-value if match["sign"] else value), (match["unit"] or "").strip()


def _convert(text: str, value: Fraction, unit: str, known: dict[str, Fraction],
             dimension: str, expected: str) -> Fraction:
    if not unit:
        raise UnitError(f'"{text}"', expected, "Write the unit after the number.")
    if unit not in known:
        what = dimension_of(unit)
        if what and what != dimension:
            raise UnitError(f'"{text}", which is {what.strip("[]")}', expected)
        near = _nearest_unit(unit, known)
        raise UnitError(f'"{text}"', expected, f"Write {near}." if near else "")
    return value * known[unit]


def _nearest_unit(unit: str, known: dict[str, Fraction]) -> str | None:
    """The unit that `unit` most likely misspells, as it is written here: "cm" for "centimetre"."""
    spelt = {name: name for name in known if name.isalpha()}
    spelt |= {longer: name for longer, name in _LONGER.items() if name in known}
    near = get_close_matches(unit.lower(), spelt, n=1)
    return spelt[near[0]] if near and len(unit) > 2 else None  # "sm" is as like m as cm


class PlyOrder(Enum):
    """Which of the two numbers of a plied yarn's count comes first."""

    SIZE_FIRST = "size/ply"  # 3/2 cotton, 20/2 linen (W04)
    PLY_FIRST = "ply/size"  # 2/10 worsted, 2/48 Nm (W03, W04)


# How the counts that are length by mass are written for plied yarns; the others never are.
_PLIED = {"Nm": PlyOrder.PLY_FIRST, "Ne": PlyOrder.SIZE_FIRST, "cotton": PlyOrder.SIZE_FIRST,
          "NeL": PlyOrder.SIZE_FIRST, "linen": PlyOrder.SIZE_FIRST, "worsted": PlyOrder.PLY_FIRST}
COUNTS = (*DENSITIES, *_PLIED)
_ALSO = {"NeC": "Ne", "NeK": "worsted"}  # cotton and worsted (German Kammgarn), from memory
_NAMED = {name.lower(): _ALSO.get(name, name) for name in (*COUNTS, *_ALSO)}  # cones have NM too
_COUNT = re.compile(r"(?P<before>[A-Za-z]{1,8})?\s*(?P<one>[0-9]{1,5}(?:\.[0-9]{1,4})?)"
                    r"(?:\s*/\s*(?P<two>[0-9]{1,4}))?\s*(?P<after>[A-Za-z]{1,8})?")
_A_COUNT = "a yarn count such as 2/30 Nm, 20/2 cotton or 40 tex"


@lru_cache(maxsize=1024)
def read_yarn_count(text: str, order: PlyOrder | None = None,
                    hank_yards: Fraction | None = None) -> Fraction:
    """Return the yarn count written as `text`, as its linear density [tex, g/km].

    tex, dtex and denier are mass by length; Nm, Ne (cotton), NeL (linen) and worsted are
    length by mass, and may be plied: cotton and linen write size/ply, worsted and Nm ply/size,
    unless `order` says otherwise (W05). `hank_yards` replaces the yards to the pound that a
    count of 1 has: one shop convention has 500 for worsted's 560 (W07). Raises UnitError.
    """
    match = _COUNT.fullmatch(text.strip())
    both = (match["before"], match["after"]) if match else ()
    named = [_NAMED.get(name.lower(), name) for name in both if name]
    if not match or len(named) != 1 or named[0] not in COUNTS:
        raise UnitError(f'"{text}"', _A_COUNT, f"Known counts: {', '.join((*COUNTS, *_ALSO))}.")
    count, usual = named[0], _PLIED.get(named[0])
    size = _single_size(text, match["one"], match["two"], usual and (order or usual),
                        sure=order is not None)
    if usual is None:
        return size * DENSITIES[count]
    if hank_yards is not None:
        size, count = size * hank_yards, "yards per pound"
    return YIELDS[count] / size


def _single_size(text: str, one: str, two: str | None, order: PlyOrder | None, *, sure: bool
                 ) -> Fraction:
    """The size of the plied yarn as a whole: that of one ply, divided by the plies.

    Of more plies than its size are the coarsest alone (8/7 worsted, W3-099): where nobody is `sure`
    of the order that is refused.
    """
    if two is None:
        size, plies = Fraction(one), Fraction(1)
    elif order is None:
        raise UnitError(f'"{text}"', "the whole yarn's tex or denier, without plies")
    else:
        first, second = Fraction(one), Fraction(two)
        size, plies = (second, first) if order is PlyOrder.PLY_FIRST else (first, second)
    if not size or not plies or plies.denominator != 1:
        raise UnitError(f'"{text}"', _A_COUNT)
    if two is not None and plies > size and not sure:
        raise UnitError(f'"{text}", which is {plies} plies of size {size}',
                        f"a yarn of fewer plies, written {order.value if order else ''}",
                        "Exchange the two numbers if they are the other way round.")
    return size / plies


def yarn_count_in(tex: Fraction, system: SourceName) -> Fraction:
    """Return a linear density [tex] as the count of another `system`: "Nm", "Ne", "denier".

    "yards per pound" and "metres per gram" are known as well. Raises KeyError for any other.
    """
    return YIELDS[system] / tex if system in YIELDS else tex / DENSITIES[system]


_DIAL = re.compile(r"([0-9]{1,2})(?:\.([012]))?")


def read_dial(text: str) -> Dial:
    """Return a dial setting: "6", or "6.1" and "6.2" for its dots (thirds). Raises UnitError."""
    match = _DIAL.fullmatch(text.strip())
    if not match:
        raise UnitError(f'"{text}"', "a dial setting such as 6, or 6.1 and 6.2 for its dots",
                        other_digits(text) or "The dial has two dots between whole numbers.")
    return Dial(int(match[1]) * 3 + int(match[2] or 0))

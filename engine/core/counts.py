"""What is counted, and the one place where a measure becomes a whole number.

Source: needlesofsteel, "Calculating gauge from a swatch" (G01).
"""

from __future__ import annotations

from fractions import Fraction
from math import lcm

from ..machine.members import Members
from ..machine.records import dataclass


class Unit(Members):
    """What a count counts."""

    STITCHES = "stitches"
    ROWS = "rows"
    LOOPS = "loops"
    HOLES = "buttonholes"
    NEEDLES = "needles"
    TIMES = "times"
    PAIRS = "pairs"
    PACKAGES = "packages"
    GRAMS = "grams"
    METRES = "metres"
    CENTIMETRES = "centimetres"

    def of(self, number: int) -> str:
        """So many of them: "1 stitch", "2 stitches"."""
        return f"{number} {self.name_of(number)}"

    def name_of(self, number: int) -> str:
        """What so many of them are called: "stitch", "stitches"."""
        return _SINGULAR[self] if number == 1 else self.value


_SINGULAR = {
    Unit.STITCHES: "stitch", Unit.ROWS: "row", Unit.LOOPS: "loop", Unit.HOLES: "buttonhole",
    Unit.NEEDLES: "needle", Unit.TIMES: "time", Unit.PAIRS: "pair", Unit.PACKAGES: "package",
    Unit.GRAMS: "gram", Unit.METRES: "metre", Unit.CENTIMETRES: "centimetre"}


@dataclass(frozen=True, slots=True)
class Rounding:
    """How a figure becomes a whole number: `rule` as in RULES; for "multiple", `of` and `plus`.

    "up" and "down" go to the next whole number, or with `of` and `plus` to the next such multiple.
    "given" is `plus`, whatever the figure: the designer gives the count outright.
    """

    rule: str
    of: int = 1
    plus: int = 0

    def __post_init__(self) -> None:
        if self.rule not in RULES:
            raise ValueError(f"no rounding rule {self.rule!r}; there are {', '.join(RULES)}")
        if self.of < 1 or not self.plus >= 0:
            raise ValueError(f"a multiple of {self.of} plus {self.plus} is not a rounding")

    def __str__(self) -> str:
        if self.rule == GIVEN:
            return "as the designer gives it"
        if self.rule != "multiple" and self.of == 1:
            return self.rule
        if self.of == 1:
            return f"nearest, at least {self.plus}" if self.plus else "nearest"
        kind = f"a multiple of {self.of}" + (f" plus {self.plus}" if self.plus else "")
        if self.rule != "multiple":
            kind = {(2, 0): "an even number", (2, 1): "an odd one"}.get((self.of, self.plus), kind)
        return kind if self.rule == "multiple" else f"{self.rule} to {kind}"

    @property
    def kind(self) -> tuple[int, int]:
        """The numbers it leads to: the multiples of the first, plus the second, and none below."""
        if self.rule in ("even", "odd"):
            return 2, int(self.rule == "odd")
        return self.of, self.plus

    @property
    def parity(self) -> int | None:
        """0 where it leads to even numbers only, 1 to odd ones only, None to both."""
        of, plus = self.kind
        if self.rule == GIVEN:
            return plus % 2
        return None if of % 2 else plus % 2

    def among(self, other: Rounding) -> Rounding | None:
        """This rounding where only `other`'s kind of number will do; None where none is of both.

        What goes up or down still does, to the next number that is of both kinds.
        """
        (of, plus), (step, rest) = self.kind, other.kind
        if other.rule == GIVEN:
            return other.among(self)
        if self.rule == GIVEN:
            return self if plus >= rest and (plus - rest) % step == 0 else None
        start = max(plus, rest)
        both = next((n for n in range(start, start + of * step)
                     if (n - plus) % of == 0 == (n - rest) % step), None)
        if both is None:
            return None
        if self.rule in ("up", "down"):
            return Rounding(self.rule, lcm(of, step), both)
        return {(1, 0): NEAREST, (2, 0): EVEN, (2, 1): ODD}.get(
            (lcm(of, step), both), Rounding("multiple", lcm(of, step), both))

    def allows(self, value: int, exact: Fraction) -> bool:
        """True where `value` is of its kind, and on the side of `exact` that it asks for."""
        of, plus = self.kind
        if self.rule == GIVEN:
            return value == plus
        aside = {"up": value >= exact, "down": value <= exact}.get(self.rule, True)
        return (value - plus) % of == 0 and aside


def outright(number: int) -> Rounding:
    """Return the rounding of a count that the designer gives outright."""
    return Rounding(GIVEN, plus=number)


@dataclass(frozen=True, slots=True)
class ParityOf:
    """A rounding to even numbers or odd ones, as the count called `name` came out."""

    name: str


RULES = ("nearest", "up", "down", "even", "odd", "multiple", "given")
GIVEN = RULES[6]
NEAREST, UP, DOWN, EVEN, ODD = (Rounding(r) for r in RULES[:5])


def whole(figure: Fraction, rounding: Rounding = NEAREST) -> int:
    """Return `figure` as a whole number; a half goes up (G01), on every machine.

    "even", "odd" and "multiple" take the nearest number of that kind, the larger of two that
    are equally near; never below the smallest count of that kind that is not negative.
    """
    if rounding is NEAREST:
        return max(0, (2 * figure.numerator + figure.denominator) // (2 * figure.denominator))
    of, plus = rounding.kind
    if rounding.rule == GIVEN:
        return plus
    over, under = figure.numerator - plus * figure.denominator, of * figure.denominator
    if rounding.rule == "up":
        number = -(-over // under)
    elif rounding.rule == "down":
        number = over // under
    else:
        return max(0, (2 * over + under) // (2 * under)) * of + plus
    return max(0, number) * of + plus if of > 1 or plus else number


def tenth(figure: Fraction) -> Fraction:
    """`figure` to the tenth to which it is printed, half up: differences of these are exact."""
    return Fraction(scaled(figure.numerator, figure.denominator, 10), 10)


def scaled(over: int, under: int, scale: int) -> int:
    """The whole number nearest to so many times a fraction; a half goes away from 0.

    In whole numbers, as all that prints a figure: a page has some thousand, and exact fractions
    take ten times as long.
    """
    size = (2 * scale * abs(over) + under) // (2 * under)
    return size if over > 0 else -size


def to_places(figure: Fraction, places: int) -> Fraction:
    """The value of what `decimal` prints."""
    under = figure.denominator
    if under == 1:
        return figure
    scale = 10 ** places
    return Fraction(scaled(figure.numerator, under, scale), scale)


def decimal(figure: Fraction, places: int) -> str:
    """`figure` in decimals, half up, without needless zeros: 38.75, 39, 0.6."""
    if figure.denominator == 1:
        return str(figure.numerator).replace("-", "−")
    return in_decimals(figure.numerator, figure.denominator, places)


def in_decimals(over: int, under: int, places: int) -> str:
    """`over` / `under` as `decimal` prints it; `under` is above 0, and may have a factor of `over`.
    """
    scale = 10 ** places
    size = scaled(over, under, scale)
    sign = "−" if size < 0 else ""
    ones, rest = divmod(abs(size), scale)
    digits = f"{rest:0{places}d}".rstrip("0") if places else ""
    return f"{sign}{ones}.{digits}" if digits else f"{sign}{ones}"

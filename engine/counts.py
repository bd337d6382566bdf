"""Whole numbers that carry their working, and the one place where a measure becomes a count."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction


class Unit(Enum):
    """What a count counts."""

    STITCHES = "stitches"
    ROWS = "rows"
    LOOPS = "loops"
    HOLES = "buttonholes"
    NEEDLES = "needles"
    TIMES = "times"
    PACKAGES = "packages"
    GRAMS = "grams"
    METRES = "metres"


@dataclass(frozen=True, slots=True)
class Count:
    """A whole number with its unit and how it was come by.

    `exact` is the figure before rounding; `off_mm` what the rounding is worth in the fabric
    [mm], None where the count is not a length.
    """

    value: int
    unit: Unit
    working: str
    exact: Fraction
    off_mm: Fraction | None = None

    def __str__(self) -> str:
        unit = self.unit.value
        return f"{self.value} {unit[:-1] if self.value == 1 and unit.endswith('s') else unit}"


@dataclass(frozen=True, slots=True)
class Rounding:
    """How a figure becomes a whole number: `rule` as in RULES; for "multiple", `of` and `plus`."""

    rule: str
    of: int = 1
    plus: int = 0

    def __post_init__(self) -> None:
        if self.rule not in RULES:
            raise ValueError(f"no rounding rule {self.rule!r}; there are {', '.join(RULES)}")
        if self.of < 1 or not self.plus >= 0:
            raise ValueError(f"a multiple of {self.of} plus {self.plus} is not a rounding")

    def __str__(self) -> str:
        if self.rule != "multiple":
            return self.rule
        return f"a multiple of {self.of}" + (f" plus {self.plus}" if self.plus else "")


RULES = ("nearest", "up", "down", "even", "odd", "multiple")
NEAREST, UP, DOWN, EVEN, ODD = (Rounding(r) for r in RULES[:5])


def whole(figure: Fraction, rounding: Rounding = NEAREST) -> int:
    """Return `figure` as a whole number; a half goes up (worked example G01), on every machine.

    "even", "odd" and "multiple" take the nearest number of that kind, the larger of two that
    are equally near; never below the smallest count of that kind that is not negative.
    """
    if rounding.rule == "up":
        return -(-figure.numerator // figure.denominator)
    if rounding.rule == "down":
        return figure.numerator // figure.denominator
    of, plus = {"nearest": (1, 0), "even": (2, 0), "odd": (2, 1),
                "multiple": (rounding.of, rounding.plus)}[rounding.rule]
    steps = (figure - plus) / of + Fraction(1, 2)
    return max(0, steps.numerator // steps.denominator) * of + plus


def given(value: int, unit: Unit, working: str) -> Count:
    """A count that was stated or added up, so that nothing was rounded."""
    return Count(value, unit, working, Fraction(value))


def decimal(figure: Fraction, places: int) -> str:
    """`figure` in decimals, half up, without needless zeros: 38.75, 39, 0.6."""
    scale = 10 ** places
    scaled = whole(abs(figure) * scale)
    sign = "−" if figure < 0 and scaled else ""
    ones, rest = divmod(scaled, scale)
    digits = f"{rest:0{places}d}".rstrip("0") if places else ""
    return f"{sign}{ones}.{digits}" if digits else f"{sign}{ones}"

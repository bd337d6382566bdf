"""Inches as they are printed: whole ones, and fractions as on a tape measure."""

from __future__ import annotations

import re
from fractions import Fraction

from .counts import decimal, whole

GLYPHS = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
          "⅓": "1/3", "⅔": "2/3"}
_DECIMAL = re.compile(r"(\d+)(\.\d+)")


def in_fractions(figures: str) -> str:
    """Return printed figures with halves, quarters and eighths as on a rule: "14.5–15" is
    "14½–15". Any other decimal stays."""
    def shown(match: re.Match[str]) -> str:
        figure = Fraction(match[0])
        return match[0] if 8 % figure.denominator else mixed(figure)
    return _DECIMAL.sub(shown, figures)


_SIGNS = {part: sign for sign, part in GLYPHS.items()}


def in_parts(inches: Fraction) -> str:
    """Return inches with their unit, as `in_figure` has them."""
    return f"{in_figure(inches)} in"


def in_figure(inches: Fraction) -> str:
    """Return inches without their unit: to the sixteenth where they are whole sixteenths, else to
    the eighth."""
    parts = 8 if 16 % inches.denominator else 16
    shown = mixed(Fraction(whole(parts * abs(inches)), parts)) if parts % inches.denominator \
        else mixed(abs(inches))
    return f"−{shown}" if inches < 0 and shown != "0" else shown


def as_on_rule(inches: Fraction) -> str:
    """Return inches that a chart prints, without their unit: with a fraction as on a rule, and
    with decimals where there is none."""
    return decimal(inches, 3) if 8 % inches.denominator else mixed(inches)


def mixed(figure: Fraction) -> str:
    """Return a figure of 0 or more as a whole number and a fraction: "17¼", "3/16".

    No line can end within it: a fraction that has no sign stands behind a no-break space.
    """
    under = figure.denominator
    ones, over = divmod(figure.numerator, under)
    if not over:
        return str(ones)
    part = f"{over}/{under}"
    sign = _SIGNS.get(part, f"\u00a0{part}")
    return f"{ones}{sign}" if ones else sign.lstrip("\u00a0")

"""What to write in place of a value that can be read by a person, and not as its kind asks."""

from __future__ import annotations

import re
from datetime import date

WHOLE = re.compile(r"0|[1-9][0-9]{0,8}")
_DECIMALS = re.compile(r"([0-9]{1,9})[.,]([0-9]{1,9})")
_TURNED_DATE = re.compile(r"([0-9]{1,2})([./-])([0-9]{1,2})\2([0-9]{4})")


def made_whole(value: str, otherwise: str = "") -> str:
    """What to write for digits that are no whole number as asked for, or "".

    `otherwise` is a further way out where whole ones lie on both sides.
    """
    if decimals := _DECIMALS.fullmatch(value):
        whole = int(decimals[1])
        if not decimals[2].strip("0"):
            return f"Write {whole}."
        return f"Write {whole} or {whole + 1}{otherwise}."
    unsigned = value.lstrip("+-−").lstrip()
    if unsigned != value and WHOLE.fullmatch(unsigned):
        return f"Write {unsigned}, without a sign."
    digits = value.lstrip("0")
    return f"Write {digits}." if WHOLE.fullmatch(digits) else ""


def turned_date(value: str) -> str:
    """What to write for a date with its year last, or "" where day and month cannot be told apart.

    Before a point stands the day, then the month (common practice in Europe, no source). With a
    slash or a hyphen both orders are in use, so that one of the two must be above 12.
    """
    parts = _TURNED_DATE.fullmatch(value)
    if not parts:
        return ""
    first, second, year = int(parts[1]), int(parts[3]), int(parts[4])
    if parts[2] != "." and first <= 12 and second <= 12 and first != second:
        return ""
    month_first = parts[2] != "." and second > 12
    day, month = (second, first) if month_first else (first, second)
    try:
        return f"Write {date(year, month, day).isoformat()}."
    except ValueError:
        return ""

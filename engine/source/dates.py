"""A reader of calendar dates."""

from __future__ import annotations

import re
from datetime import date

from ..core.ranges import CALENDAR, Measured, figure_range
from ..core.text import clip
from .rewritten import turned_date
from .values import Entry, Fault, Figure, Text

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def iso_date() -> Figure[str]:
    """A reader of a calendar date written as 2026-10-30."""
    row = figure_range(Measured.DATE, "date", "1990-01-01..2079-12-31", "1900-01-01..2199-12-31",
                       CALENDAR)
    return Figure(row, _iso_date, lambda value: value, f"a date from {row.least} to {row.most}")


def _iso_date(entry: Entry) -> str:
    value = Text(40, "a date such as 2026-10-30", "Write year-month-day.")(entry)
    try:
        if _DATE.fullmatch(value):
            return date.fromisoformat(value).isoformat()
    except ValueError:
        pass
    raise Fault("bad-date", entry.place, f'"{clip(value)}"', "a date such as 2026-10-30",
                turned_date(value) or "Write year-month-day, a day that is in the calendar.")

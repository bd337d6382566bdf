"""Rates of shaping as printed patterns give them: "every 6th row 5 times, then every 8th row"."""

from __future__ import annotations

import re
from dataclasses import replace

from ..core.text import clip
from ..pattern.slope_specs import PlainStretch, Rate
from .source import Scalar
from .values import Entry, Fault, Text, length, whole_number

MOST = 8  # rates of a slope
EXAMPLE = "every 6th row 5 times then every 8th row"
_NTH = r"(?:[1-9][0-9]{0,2}(?:st|nd|rd|th)?|other)"
_TIMES = r"(?:once|twice|[1-9][0-9]{0,2} times)"
_EVERY = rf"every (?:row|{_NTH}(?: and {_NTH})*? rows?(?: (?:in turn|alternately|mixed))?)"
_RATE = rf"(?:{_EVERY}(?: {_TIMES})?|{_TIMES}|evenly)"
_THEN = r"(?:, (?:then |and then )?| then | and then )"
SPELT = rf"\s*{_RATE}(?:{_THEN}{_RATE})*\s*"
_ONE = re.compile(rf"(?:every (?:(?P<row>row)|(?P<nth>{_NTH}(?: and {_NTH})*) rows?"
                  r"(?: (?:in turn|alternately|(?P<mixed>mixed)))?))?"
                  rf"(?: ?(?P<times>{_TIMES})|evenly)?")
_TEXT = Text(300, f"rates such as {EXAMPLE}", "Write them as printed patterns do.", spelt=SPELT)
_ROWS = re.compile(r"([0-9]+) rows?")
_PLAIN_ROWS = whole_number("plain rows of a slope", "0..120", "0..600")
_FIRST = whole_number("first row of a slope", "0..60", "0..400")
_PLAIN = length("plain stretch of a slope", "5 mm..40 cm", "0 cm..100 cm")


def rates(entry: Entry) -> tuple[Rate, ...]:
    """Read rates one after another; the last may leave its times or its rows open. Raises Fault."""
    text = _TEXT(entry)
    if not re.fullmatch(SPELT, text):
        raise _bad(entry, f'"{clip(text)}"', "Write each rate as every 6th row 5 times, with then "
                   "between two. Of several figures write every row as 1st: every 1st and 2nd row "
                   "mixed.")
    parts = re.split(_THEN, text.strip())
    _check_mixed(entry, parts)
    found = tuple(map(_rate, parts))
    if len(found) > MOST:
        raise _bad(entry, f"{len(found)} rates", f"Write at most {MOST}.")
    for number, rate in enumerate(found[:-1]):
        if rate.times is None or not rate.every:
            lacks = "times" if rate.times is None else "rows"
            raise _bad(entry, f"rate {number + 1} of {len(found)} without its {lacks}",
                       "Only the last rate may leave its rows or its times out.")
    return found


def _check_mixed(entry: Entry, parts: list[str]) -> None:
    """Two unlike figures are mixed, and in the last rate. Raises Fault."""
    mixed = [part for part in parts if " mixed" in part]
    if mixed and (mixed != parts[-1:] or len(_figures(mixed[0])) != 2
                  or len(set(_figures(mixed[0]))) != 2):
        raise _bad(entry, "a mixed rate that is not the last, or not of two figures",
                   "Write it last, as every 2nd and 4th row mixed.")


def _figures(text: str) -> tuple[int, ...]:
    """The rows between two events of one rate that is spelt right."""
    match = _ONE.fullmatch(text.strip())
    assert match is not None, text  # spelt as it must be
    return (1,) if match["row"] else tuple(
        2 if nth == "other" else int(re.sub(r"\D", "", nth))
        for nth in (match["nth"] or "").split(" and ") if nth)


def _rate(text: str) -> Rate:
    """One rate that is spelt right."""
    match, every = _ONE.fullmatch(text.strip()), _figures(text)
    assert match is not None, text
    times = {"once": 1, "twice": 2, None: None}.get(match["times"], 0)
    return Rate(every, int(match["times"].split()[0]) if times == 0 else times,
                match["mixed"] is not None)


def _bad(entry: Entry, found: str, remedy: str) -> Fault:
    return Fault("bad-rates", entry.place, found, f"rates such as {EXAMPLE}", remedy)


def stretch(entry: Entry) -> PlainStretch:
    """Read a plain stretch in rows or as a length. Raises Fault."""
    match = _ROWS.fullmatch(Text(40, "a plain stretch such as 12 rows or 4 cm",
                                 "Write rows or a length.")(entry))
    if match:
        return PlainStretch(rows=_PLAIN_ROWS(replace(entry, node=Scalar(match[1], entry.place))))
    return PlainStretch(length=_PLAIN(entry))


def first_row(entry: Entry) -> int:
    """Read the row of a first event, which may fall from size to size. Raises Fault."""
    return _FIRST(entry)


FIGURES = (_FIRST, _PLAIN_ROWS, _PLAIN)

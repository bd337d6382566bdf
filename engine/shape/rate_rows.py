"""The rows of a slope that goes by the designer's rates, and what of them would fit it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import cycle, islice, pairwise

from ..core.counts import DOWN
from ..core.expression import Expression, Operand, Rounded, Sum, Term, plain
from ..core.operands import Role
from ..core.problems import Place
from ..core.text_kinds import FindingText
from ..pattern.slope_specs import Rate, SlopeAsk
from ..words.terms.schedules import every_text, once_text
from .even_gaps import AnyNumber, number
from .schedule import Schedule


def rows_of_rates(ask: SlopeAsk, made: Schedule, counts: tuple[AnyNumber, AnyNumber],
                  places: tuple[Place | None, Place | None]) -> Expression | None:
    """Return all rows of a slope `made` by rates: of its rates, up to its first event, and those
    that stay plain after the last.

    `counts` are its events and its rows, `places` where the source has its first row and its rates.
    Of gaps in turn each comes as often as its place in the list does. None where a rate leaves its
    rows open, where two are mixed, and above plain rows.
    """
    events, rows = map(number, counts)
    first_gap = ask.rates[0].every[:1]
    at = made.event_rows
    if any(rate.mixed or not rate.every for rate in ask.rates) or not at \
            or (ask.first_row is None and at[:1] != first_gap):
        return None
    first, rates = places
    parts: list[Expression] = []
    left: Expression = Term(events, Role.NUMBER)
    left = left - plain(1) if ask.first_row is not None else left
    for rate in ask.rates:
        times = left if rate.times is None else _given(rate.times, rates, "times")
        parts += _gaps(rate.every, times, rates)
        left = left - Term(times, Role.NUMBER)
    if ask.first_row:
        parts.append(Term(_given(ask.first_row, first, "row"), Role.ROWS_BEFORE))
    after = rows - Sum(tuple(parts))
    return Sum((*parts, Term(after, Role.ROWS_AFTER)) if after.value else tuple(parts))


def rows_of_rate(rate: Rate) -> int:
    """Return the rows that a rate takes."""
    return sum(islice(cycle(rate.every), rate.times))


def _gaps(every: tuple[int, ...], times: Expression, place: Place | None) -> Iterator[Expression]:
    """The rows of so many gaps in turn, each figure of the list as often as it comes."""
    many = len(every)
    for n, gap in enumerate(every):
        often = times if many == 1 else Rounded(
            (Term(times, Role.NUMBER) + plain(many - 1 - n)) / plain(many), DOWN)
        if often.value:
            yield Term(often, Role.NUMBER) * Term(_given(gap, place, "rows"), Role.NUMBER)


def _given(figure: int, place: Place | None, name: str) -> Operand:
    return Operand(Fraction(figure), Role.SOURCE, name, place)


def mixed_gaps(every: tuple[int, ...], times: int, rows: int) -> tuple[int, ...]:
    """Return so many gaps of two kinds that take up to so many rows, evenly mixed.

    Ysolda Teague after Maggie Righetti, "A magic formula for evenly distributing shaping" (2014,
    W3-054). The slower ones are (rows − times × fast) ÷ (slow − fast), as far as they divide.
    """
    fast, slow = min(every), max(every)
    many = max(0, min(times, (rows - times * fast) // (slow - fast)))
    due = [-(-n * many // times) for n in range(times + 1)]
    return tuple(slow if b > a else fast for a, b in pairwise(due))


def times_that_fit(rest: int, rates: int) -> FindingText:
    """Return what to write in the last of so many rates, where `rest` events are left for it."""
    if rest > 0:
        return (f"Write {once_text(rest)} in the last rate, or leave its times out: they then "
                "follow from the measures in every size.")
    if rates == 1:
        return "Leave its times out: they then follow from the measures in every size."
    return ("Write the rates before the last fewer times, by "
            f"{1 - rest} in all, or change the measures.")


def rate_that_fits(rates: Sequence[Rate], room: int) -> FindingText:
    """Return what of the last rate, or of the one before it, would make them fit; else "".

    How many more times the faster rate before them; else how far apart the last ones can be.
    """
    *before, last = rates
    assert last.times is not None
    short = sum(map(rows_of_rate, rates)) - room
    if before and len(last.every) == len(before[-1].every) == 1:
        fast, slow = before[-1].every[0], last.every[0]
        more = -(-short // (slow - fast)) if slow > fast else last.times + 1
        if more <= last.times:
            return f"Write {every_text(fast)} {once_text((before[-1].times or 0) + more)}."
    over = room - sum(map(rows_of_rate, before))
    if last.times and over >= last.times:
        return (f"Write {every_text(over // last.times)} in the last rate, or leave its rows out: "
                f"\"then {once_text(last.times)}\" takes as many as fit.")
    return ""

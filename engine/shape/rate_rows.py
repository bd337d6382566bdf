"""The rows of a slope that goes by the designer's rates, as the source has them."""

from __future__ import annotations

from fractions import Fraction
from itertools import cycle, islice

from ..core.expression import Expression, Operand, Sum, Term, plain
from ..core.operands import Role
from ..core.problems import Place
from ..pattern.slope_specs import Rate, SlopeAsk
from .even_gaps import AnyNumber, number
from .schedule import Block, Schedule


def rows_of_rates(ask: SlopeAsk, made: Schedule, counts: tuple[AnyNumber, AnyNumber],
                  places: tuple[Place | None, Place | None]) -> Expression | None:
    """Return all rows of a slope `made` by rates: of its rates, up to its first event, and those
    that stay plain after the last.

    `counts` are its events and its rows, `places` where the source has its first row and its rates.
    None where a rate is no block of rows, such as one of two gaps in turn, or leaves its rows open.
    """
    events, rows = map(number, counts)
    if made.first != ask.first_row or len(made.blocks) != len(ask.rates) \
            or not all(map(_is_block, ask.rates, made.blocks)):
        return None
    first, rates = places
    parts: list[Expression] = []
    left: Expression = Term(events, Role.NUMBER)
    left = left - plain(1) if made.first is not None else left
    for rate, block in zip(ask.rates, made.blocks, strict=True):
        times = left if rate.times is None else _given(block.times, rates, "times")
        parts.append(Term(times, Role.NUMBER) * Term(_given(block.every, rates, "rows"),
                                                     Role.NUMBER))
        left = left - Term(times, Role.NUMBER)
    if made.first:
        parts.append(Term(_given(made.first, first, "row"), Role.ROWS_BEFORE))
    after = rows - Sum(tuple(parts))
    return Sum((*parts, Term(after, Role.ROWS_AFTER)) if after.value else tuple(parts))


def rows_of_rate(rate: Rate) -> int:
    """Return the rows that a rate takes."""
    return sum(islice(cycle(rate.every), rate.times))


def _is_block(rate: Rate, block: Block) -> bool:
    return rate.every == (block.every,) and rate.times in (None, block.times)


def _given(figure: int, place: Place | None, name: str) -> Operand:
    return Operand(Fraction(figure), Role.SOURCE, name, place)

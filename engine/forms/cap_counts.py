"""A cap that was found, as calculations: what is bound off and what is decreased at each side.

Sources: a translated lesson, "Knit sleeve caps" (C02); a magazine's lesson, "Set-in sleeve"
(W3-073).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..core.expression import Chosen, Expression, Operand, Rule, Sum, Term, plain, tried_figure
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..shape.cap_slopes import cap_slope
from ..shape.caps import Cap, CapAsk
from ..shape.even_gaps import AnyNumber, EvenSlope, number
from ..shape.profile import How
from ..shape.schedule import Schedule
from ..shape.slopes import even_slope
from ..shape.step_sizes import CountedSlope, SteppedSlope, bind_off_rows, listed_sizes
from ..words.terms.part_names import part_name
from .sleeve import Tube


def going(tube: Tube, ask: CapAsk, top: Expression) -> Expression:
    """Return the stitches that are decreased at each side below a `top`."""
    both: Expression = tube.top.term(Role.STITCHES)
    if bound := ask.foot + ask.crown:
        each = number(bound[0]) if len(bound) == 1 else Sum(tuple(map(number, bound)))
        both = both - plain(2) * each
    return (both - Term(top, Role.STITCHES, part_name(PartRole.AT_TOP))) / plain(2)


def found_top(found: Cap, usual: Expression) -> Expression:
    """Return the stitches of the flat top: those that are usual or asked for, or of all that were
    tried those of the cap whose edge is least off."""
    if found.top == usual.value:
        return usual
    return Chosen((usual, *(tried_figure(cap.top) for cap in found.tried)),
                  Rule.LEAST, ChoiceReason.CAP_FITS,
                  tuple(Operand(abs(cap.off), Role.OFF) for cap in found.tried))


def spread(tube: Tube, found: Cap, top: Expression) -> Cap:
    """Return a cap that was found with its decreases spread over its rows, as its counts make
    them."""
    foot, crown = bind_off_rows(found.ask.foot), bind_off_rows(found.ask.crown)
    count = found.count
    rows = less(count.term(Role.ROWS), foot, crown)
    slope = cap_slope(going(tube, found.ask, top), rows)
    up = added(tube.rows.term(Role.ROWS), foot)
    return replace(found, slope=slope, counted=count, slopes=_in_order(
        tube, found.ask, even_slope(("cap_decreases", How.DECREASE), up, slope), rows))


def bell_counted(tube: Tube, found: Cap, parts: tuple[Schedule, ...], rows: Expression) -> Cap:
    """Return a bell-shaped cap with its three `parts` as calculations, from the foot up, which take
    so many `rows`."""
    first, _, last = (Term(part.gaps.rows, Role.ROWS) if part.gaps else plain(0) for part in parts)
    # The first decrease is made at once.
    up = added(tube.rows.term(Role.ROWS), bind_off_rows(found.ask.foot)) - plain(1)
    lower, middle, upper = parts
    slopes = (*even_slope(("cap_first_decreases", How.DECREASE), up, lower),
              *even_slope(("cap_decreases", How.DECREASE), added(up, first), middle),
              *even_slope(("cap_last_decreases", How.DECREASE), up + less(rows, last), upper))
    return replace(found, counted=found.count, slopes=_in_order(tube, found.ask, slopes, rows))


def _in_order(tube: Tube, ask: CapAsk, slopes: tuple[EvenSlope, ...], rows: Expression
              ) -> tuple[CountedSlope, ...]:
    """What is bound off below and above the decreases, which take so many rows, with these."""
    below = tube.rows.term(Role.ROWS)
    up = added(below, bind_off_rows(ask.foot), rows)
    return (*_bound_off("cap_bind_offs", below, ask.foot), *slopes,
            *_bound_off("cap_top_bind_offs", up, ask.crown))


def _bound_off(name: str, below: Expression, steps: Sequence[AnyNumber]
               ) -> tuple[SteppedSlope, ...]:
    """What is bound off at each side step by step; nothing for no steps."""
    if not steps:
        return ()
    return (SteppedSlope(name=name, how=How.BIND_OFF, below=below,
                         steps=listed_sizes([number(step) for step in steps])),)


def added(rows: Expression, *more: Expression) -> Expression:
    """Return rows and others, as far as there are any of these."""
    for each in more:
        rows = rows + each if each.value else rows
    return rows


def less(rows: Expression, *taken: Expression) -> Expression:
    """Return what is left of rows when others are taken from them, as far as there are any."""
    for each in taken:
        rows = rows - each if each.value else rows
    return rows

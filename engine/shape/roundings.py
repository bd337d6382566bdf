"""How a garment's counts become whole: what may be asked of each, and what follows from it.

Source: Lynne Vogel (author inferred), "Twisted Sisters Knit Sweaters" (C09).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from enum import Enum
from fractions import Fraction

from ..core.branched import Branched, as_even_as
from ..core.counted import Count
from ..core.counts import EVEN, GIVEN, NEAREST, ODD, ParityOf, Rounding
from ..core.expression import Chosen, Expression, Rounded, Rule
from ..core.operands import ChoiceReason
from ..core.text_kinds import CountKey
from ..fabric.arrangement import allowed_counts
from ..fabric.chart_on_bed import multiple
from ..machine.records import dataclass
from ..words.terms.working import working_of
from .garment import CannotKeep, CannotRound, Cut, Garment


class CountKind(Enum):
    """A kind of count, as the page about sources lists it.

    The two sides of a piece are alike, so its widths are all even or all odd. The carriage ends
    where it began (C09), so that rows up to a shaping are even; those from a bind-off at a front
    edge, where the carriage comes a row later, are odd.
    """

    WIDTH = "width shaped at both sides"
    ROWS = "rows up to a shaping, and along it"
    FROM_FRONT = "rows of a neck from a front edge"
    SINGLE = "single figure"
    REPEAT = "width of whole repeats"


@dataclass(frozen=True, slots=True)
class HowRounded:
    """What a count of one kind is rounded to when nothing is asked, and what it must be."""

    default: Rounding
    must: Rounding


KINDS: Mapping[CountKind, HowRounded] = {
    CountKind.WIDTH: HowRounded(EVEN, NEAREST),
    CountKind.ROWS: HowRounded(EVEN, EVEN),
    CountKind.FROM_FRONT: HowRounded(ODD, ODD),
    CountKind.SINGLE: HowRounded(NEAREST, NEAREST),
    CountKind.REPEAT: HowRounded(NEAREST, NEAREST),  # the fabric's repeat, where it has one
}
Roundable = Mapping[CountKey, CountKind]  # the counts of a form that can be rounded, "back cast_on"


def rule(cut: Cut, name: CountKey, kind: CountKind) -> Rounding:
    """Return how the count `name` is rounded. Raises CannotRound where it may not be so."""
    usual = KINDS[kind]
    must, default = usual.must, usual.default
    if kind is CountKind.REPEAT:
        must = default = multiple(cut.chart) if cut.chart else allowed_counts(cut.repeat)
    own = cut.rounding.get(name)
    return default if own is None else _among(name, own, must)


def _among(name: str, rounding: Rounding, must: Rounding) -> Rounding:
    made = rounding.among(must)
    if made is None and rounding.rule == GIVEN:
        of, plus = must.kind
        low = max(0, (rounding.plus - plus) // of) * of + plus
        raise CannotKeep(name, f"{text(name)} {rounding.plus}, which is not {must}",
                         f"Write {low} or {low + of}.")
    if made is None:
        raise CannotRound(f"{text(name)} rounded to {rounding}, which is never {must}",
                          f"Ask for a rounding that can be {must}, or leave it out.")
    return made


def fitted(name: str, rounding: Rounding, fits: Rounding) -> Rounding:
    """Return a rounding where only numbers of `fits` will do. Raises CannotRound for none."""
    return rounding if fits == NEAREST else _among(name, rounding, fits)


def alike(cut: Cut, widths: Mapping[CountKey, Callable[[Rounding], Count]]) -> list[Count]:
    """Return the widths of a piece by how each is counted, all even or all odd.

    Even where nothing is asked. What is asked of one the others follow; of several, one that
    asks for even or odd numbers, else the first. Raises CannotRound where two cannot agree.
    """
    own = {name: cut.rounding[name] for name in widths if name in cut.rounding}
    fixed = {name: one.parity for name, one in own.items() if one.parity is not None}
    given = [name for name, one in own.items() if one.rule == GIVEN]
    if len(set(fixed.values())) > 1 and given:
        raise CannotKeep(given[-1], "; ".join(f"{text(name)} {own[name].plus}" if name in given
                                              else f"{text(name)} rounded to {own[name]}"
                                              for name in fixed),
                         "Both sides of a piece are alike, so its widths are all even or all odd: "
                         "change one of them by a stitch.")
    if len(set(fixed.values())) > 1:
        raise CannotRound("; ".join(f"{text(name)} rounded to {own[name]}" for name in fixed),
                          "Both sides of a piece are alike, so its widths are all even or all "
                          "odd: ask for one of them, and the others follow.")
    if fixed:
        odd = next(iter(fixed.values()))
    else:
        return _like_first(own, widths)
    parity = ODD if odd else EVEN
    return [count(_among(name, own[name], parity) if name in own else parity)
            for name, count in widths.items()]


def _like_first(own: Mapping[CountKey, Rounding],
                widths: Mapping[CountKey, Callable[[Rounding], Count]]) -> list[Count]:
    """The widths as even or odd as the first that something is asked of comes to; else even."""
    if not own:
        return [count(EVEN) for count in widths.values()]
    first = next(iter(own))
    free = widths[first](own[first])
    parity = ODD if free.value % 2 else EVEN
    made = []
    for name, count in widths.items():
        one = count(_among(name, own[name], parity) if name in own else parity)
        made.append(Count(Branched(one.made, free.made if name == first and one.value == free.value
                                   else None) if name in own else
                          as_even_as(one.made, free.made), one.unit))
    return made


def deepened(count: Count, least: Expression, rounding: Rounding, pitch: Fraction, why: ChoiceReason
             ) -> Count:
    """Return a count of at least `least`, of the rounding's kind; `why` is said where it grew.

    `pitch` is what one is worth [mm].
    """
    if count.value >= least.value:
        return count
    of, _ = rounding.kind
    enough = Rounded(least, Rounding("up", of, count.value % of), pitch)
    return Count(Chosen((count.made, enough), Rule.LARGEST, why), count.unit)


def check_met(cut: Cut, garment: Garment) -> None:
    """Raise CannotRound for what was asked of a count and has not come about."""
    made = _named(garment)
    for name, rounding in cut.rounding.items():
        if name not in made:
            fault = CannotKeep(name, f"no {text(name)} in this garment", "Leave it out.") if (
                rounding.rule == GIVEN) else CannotRound(f"no {text(name)} in this garment",
                                                         "Leave its rounding out.")
            raise fault
        if rounding.rule == GIVEN and made[name].value != rounding.plus:
            raise CannotKeep(name, f"{text(name)} {rounding.plus}, where {made[name]} are knitted: "
                             f"{working_of(made[name])}", "Change it, or what it depends on.")
        if not rounding.allows(made[name].value, made[name].exact):
            raise CannotRound(f"{text(name)} {made[name]} and not {rounding}: "
                              f"{working_of(made[name])}",
                              "Ask for another rounding, or change the measure.")


def shape_rounded(shape: Callable[[Cut], Garment], cut: Cut,
                  roundings: Mapping[str, Rounding | ParityOf]) -> Garment:
    """Return the garment that `shape` makes of `cut` with its counts rounded as asked.

    A count that takes another's parity is settled once that one is. Raises CannotShape.
    """
    settled = {name: spec for name, spec in roundings.items() if isinstance(spec, Rounding)}
    waiting = {name: spec for name, spec in roundings.items() if isinstance(spec, ParityOf)}
    while waiting:
        ready = [name for name, spec in waiting.items() if spec.name not in waiting]
        if not ready:
            raise CannotRound(f"{len(waiting)} counts that take their parity from one another: "
                              f"{', '.join(map(text, waiting))}", "Round one of them outright.")
        made = _named(shape(replace(cut, rounding=settled)))
        for name in ready:
            settled[name] = _parity(made, waiting.pop(name).name)
    garment = shape(replace(cut, rounding=settled))
    made = _named(garment)
    for name, spec in roundings.items():
        if isinstance(spec, ParityOf) and (made[name].value - made[spec.name].value) % 2:
            raise CannotRound(f"{text(name)} {made[name]} and {text(spec.name)} {made[spec.name]}",
                              "Round the one or the other outright.")
    return garment


def _parity(made: Mapping[str, Count], name: str) -> Rounding:
    if name not in made:
        raise CannotRound(f"no {text(name)} to take a parity from", "Name another count.")
    return ODD if made[name].value % 2 else EVEN


def _named(garment: Garment) -> dict[str, Count]:
    return {f"{key} {name}": count for key, name, count in garment.counts}


def text(name: str) -> str:
    """A count's name as the page writes it: "back cast_on" is back, cast on."""
    piece, _, count = name.partition(" ")
    return f"{piece.replace('_', ' ')}, {count.replace('_', ' ')}"

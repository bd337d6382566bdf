"""A reader's own measures in the place of those of her size, and what she may not change."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import count

from ..core.counts import decimal, whole
from ..core.ranges import MEASURES as RANGES
from ..core.ranges import Measured, Range
from ..core.units import Length, UnitError, read_length
from ..forms.registry import FORMS
from ..machine.records import dataclass
from ..pattern.model import GarmentSpec, Pattern
from ..pattern.places import Places
from ..pattern.publishing import BAND_DEPTHS, BUTTONS
from ..plan.band import depth_mm
from ..plan.worked_measures import definitions, worked_out
from ..sizing.measures import Definition, names_in
from ..sizing.quantities import plain_name
from ..source.keys.garment_keys import BODY_LENGTH
from .proof import SizeProof

EASE = "ease"
_FIGURE = re.compile(r"-?[0-9][0-9 ./]{0,12} ?(?:cm|mm|in)")
_STEP, _QUARTER = Fraction(5), Fraction(127, 20)  # from one neighbour to the next [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changeable:
    """A measure that a reader may change: its name in sums, the chart's row or "", the designer's
    figure in one size [mm], and what figures it can have."""

    name: str
    row: str
    theirs: Fraction
    range: Range


def changeable(pattern: Pattern, size: str) -> tuple[Changeable, ...]:
    """Return what a reader of a size may change of its measures; nothing where none is offered.

    They are the body measurements that the garment is cut by, its ease, and the form's measures
    that the designer gave as lengths herself.
    """
    spec = pattern.garment
    if spec is None or pattern.reader_change is None or not pattern.reader_change.measures:
        return ()
    return tuple(one for one in _all(pattern, spec, size) if one.name not in pattern.reader_keeps)


def _all(pattern: Pattern, spec: GarmentSpec, size: str) -> Iterator[Changeable]:
    worked, texts = worked_out(pattern, spec,
                               size), definitions(pattern.places, pattern.sizes, spec, size)
    used = {name for one in texts.values() for name in names_in(one.text)}
    for row in spec.chart.rows:
        if plain_name(row) in used and row in worked.known:
            yield Changeable(name=plain_name(row), row=row, theirs=worked.known[row].value,
                             range=BODY_LENGTH.range)
    form = FORMS[spec.form]
    for name in form.names:
        made = worked.measures.get(name)
        is_hers = (name == EASE or name in spec.measures) and name not in spec.counts
        if is_hers and made is not None and RANGES[name].measured is Measured.LENGTH:
            yield Changeable(name=name, row="", theirs=made.value, range=RANGES[name])


def read_figure(typed: str) -> Length | None:
    """Return the length that a reader wrote: "98 cm", "-1.5 in"; None for anything else."""
    try:
        return read_length(typed) if _FIGURE.fullmatch(typed) else None
    except UnitError:
        return None


def unread_measures(pattern: Pattern, size: str, given: Mapping[str, str]) -> tuple[str, ...]:
    """Return the names of what was given and cannot be read, is beyond all limits, or unknown."""
    able = {one.name: one for one in changeable(pattern, size)}
    return tuple(name for name, text in given.items()
                 if name not in able or (length := read_figure(text)) is None
                 or not able[name].range.is_allowed(length.mm))


def measures_too_far(pattern: Pattern, size: str, given: Mapping[str, str]
                     ) -> Iterator[tuple[Changeable, Length]]:
    """Yield the measures that differ from the designer's by more than she allows."""
    most = pattern.reader_change.measures_within if pattern.reader_change else None
    for one in changeable(pattern, size):
        length = read_figure(given[one.name]) if one.name in given else None
        if length is not None and most is not None and abs(length.mm - one.theirs) > most.mm:
            yield one, length


def with_measures(pattern: Pattern, size: str, given: Mapping[str, str]) -> Pattern:
    """Return the pattern with a reader's measures in that size. Raises KeyError for a name that
    she may not change."""
    spec = pattern.garment
    if spec is None or not given:
        return pattern
    able = {one.name: one for one in changeable(pattern, size)}
    body, measures = dict(spec.readers), dict(spec.measures)
    for name, text in given.items():
        length = read_figure(text)
        if able[name].row and length is not None:
            body[able[name].row] = {size: length}
        else:
            measures[name] = _replaced(pattern.places, pattern.sizes, spec, name, size, text)
    return replace(pattern, garment=replace(spec, readers=body, measures=measures))


def _replaced(places: Places, sizes: tuple[str, ...], spec: GarmentSpec, name: str, size: str,
              text: str) -> dict[str, Definition]:
    """A measure in every size, with hers in one."""
    theirs = {each: definitions(places, sizes, spec, each)[name] for each in sizes}
    return {**theirs, size: Definition(text, theirs[size].place)}


def near_measures(given: Mapping[str, str]) -> Iterator[tuple[str, dict[str, str]]]:
    """Yield measures near those given, the nearest first, one changed: its name, and all."""
    for step in count(1) if given else ():
        for by in (-step, step):
            for name, text in given.items():
                yield name, {**given, name: _moved(text, by)}


def _moved(typed: str, steps: int) -> str:
    """A figure so many half centimetres or quarter inches longer, in its own unit."""
    mm = length.mm if (length := read_figure(typed)) else Fraction(0)
    if typed.endswith("in"):
        return f"{decimal(Fraction(whole(mm / _QUARTER) + steps, 4), 2)} in".replace("−", "-")
    return f"{decimal(Fraction(whole(mm / _STEP) + steps, 2), 1)} cm".replace("−", "-")


def not_kept(keeps: tuple[str, ...], theirs: SizeProof, own: SizeProof
             ) -> Iterator[tuple[str, str, int | Fraction, int | Fraction]]:
    """Yield what must stay and did not: which, its band's title, the designer's figure and hers.

    A number of buttons must be the same, a band's depth [mm] within a row of hers.
    """
    plans = {plan.band.key: plan for plan in theirs.plans}
    for before, now in ((plans[plan.band.key], plan) for plan in own.plans):
        if BUTTONS in keeps and before.placing and now.placing:
            counts = before.placing.buttonhole_count, now.placing.buttonhole_count
            if counts[0] != counts[1]:
                yield BUTTONS, now.band.title, *counts
        depths = depth_mm(before), depth_mm(now)
        if BAND_DEPTHS in keeps and abs(depths[0] - depths[1]) >= now.gauge.row:
            yield BAND_DEPTHS, now.band.title, *depths

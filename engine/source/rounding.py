"""How a designer wants the counts of a garment's pieces rounded.

    garment:
      round:
        back cast on: {multiple: 4, plus: 2}
        sleeve cast on: {parity_of: back cast on}
        sleeve rows to underarm: up

What is left out is rounded as its kind of count is (see roundings). A count that is given outright
stands under `counts`, in the same names: `counts: {sleeve cast on: 44}`.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

from ..core.counts import ParityOf, Rounding
from ..core.problems import Place
from ..core.text import clip, nearest
from ..forms.registry import Form
from .fields import Fields, Findings, open_fields, read_by_size
from .keys.garment_keys import (
    GIVEN_COUNT,
    OVER_MULTIPLE,
    ROUNDINGS,
    GarmentKeys,
    MultipleKeys,
    RoundingKeys,
)
from .measure_reading import plain
from .source import Table
from .values import Entry, Fault, at_most

Roundings = dict[str, Rounding | ParityOf]


def read_rounding(garment: Fields, form: Form) -> Roundings:
    """What is asked of the counts of `form`, by their names in it."""
    counts = {plain(name): name for name in form.rounds}
    roundings: Roundings = {}
    for item in garment.each(GarmentKeys.round):
        named = replace(item, path=f"{garment.path}.round.{plain(item.label)}")
        name = garment.findings.read(replace(named, place=_key(garment, item)),
                                     lambda at: _known(at, at.label, form, counts))
        spec = _spec(garment.findings, named, form, counts)
        if name and spec:
            roundings[name] = spec
    _check_circle(garment, roundings)
    return roundings


def read_counts(garment: Fields, form: Form, sizes: tuple[str, ...]) -> dict[str, dict[str, int]]:
    """The counts of `form` that are given outright, by their names in it and by size."""
    counts = {plain(name): name for name in form.rounds}
    given: dict[str, dict[str, int]] = {}
    for item in garment.each(GarmentKeys.counts):
        named = replace(item, path=f"{garment.path}.counts.{plain(item.label)}")
        name = garment.findings.read(
            replace(named, place=_key(garment, item, GarmentKeys.counts.name)),
            lambda at: _known(at, at.label, form, counts))
        found = read_by_size(garment.findings, named, GIVEN_COUNT, sizes)
        if name and found:
            given[name] = found
    return given


def check_given_once(garment: Fields, rounding: Roundings, counts: Collection[str]) -> None:
    """Record counts that are rounded and given as well."""
    for name in rounding.keys() & counts:
        text = name.replace("_", " ")
        garment.findings.fault(
            "cannot-round", garment.findings.places[f"{garment.path}.round.{plain(name)}"],
            f"{text} rounded, and given under counts", "one of the two",
            f"Delete {text} here or under counts.")


def _key(garment: Fields, item: Entry, key: str = GarmentKeys.round.name) -> Place:
    """Where the name of an item stands."""
    table = garment.table.entries[key].node
    return table.entries[item.label].place if isinstance(table, Table) else item.place


def _known(entry: Entry, label: str, form: Form, counts: Mapping[str, str]) -> str:
    """The count that a label names. Raises Fault with all that there are."""
    if plain(label) in counts:
        return counts[plain(label)]
    listed = [name.replace("_", " ") for name in form.rounds]
    near = nearest(label, listed)
    raise Fault("no-such-count", entry.place,
                f'no count "{clip(label)}" in the form {form.name} that can be rounded',
                f"one of {', '.join(listed)}",
                f"Write {near}." if near else "The other counts follow from these.")


def _spec(findings: Findings, entry: Entry, form: Form, counts: Mapping[str, str]
          ) -> Rounding | ParityOf | None:
    if not isinstance(entry.node, Table):
        return findings.read(entry, ROUNDINGS)
    own = open_fields(findings, entry, "the rounding", RoundingKeys)
    if own is None or own.one_of(RoundingKeys.multiple, RoundingKeys.parity_of) is None:
        return None
    if "parity_of" in own:
        name = own.need_as(RoundingKeys.parity_of, lambda at: _known(
            at, RoundingKeys.parity_of.read(at), form, counts))
        return None if name is None else ParityOf(name)
    return read_multiple(own)


def read_multiple(own: Fields) -> Rounding | None:
    """The multiple that is asked for, and how many more; None where it has a fault."""
    multiple = own.need(MultipleKeys.multiple)
    return None if multiple is None else Rounding("multiple", multiple, own.get_as(
        MultipleKeys.plus, at_most(OVER_MULTIPLE, multiple - 1), 0))


def _check_circle(garment: Fields, roundings: Roundings) -> None:
    """Record counts that take their parity from one another, each circle once."""
    seen: set[str] = set()
    for name in roundings:
        chain = [name]
        while isinstance(spec := roundings.get(chain[-1]), ParityOf) and spec.name not in chain:
            chain.append(spec.name)
        if isinstance(spec, ParityOf) and not seen & set(chain):
            names = [one.replace("_", " ") for one in (*chain, spec.name)]
            garment.findings.fault(
                "cannot-round", garment.findings.places[f"{garment.path}.round.{plain(name)}"],
                f"a parity taken in a circle: {' of '.join(names)}", "one that is rounded outright",
                "Round one of them to even or odd.")
        seen |= set(chain)

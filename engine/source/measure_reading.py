"""The designer's own measures of a garment, and whether all that they and the form name is there.

    measures:
      ease: 10 cm                                  # one sum for all sizes
      body_length: {XS: 54 cm, S: 55 cm, M: 56 cm} # or one for each
      sleeve_length: arm_length - 1 cm
      arm_length_and_more: ...                     # a new name, where another measure uses it

A measure called as one of the form's takes its place. What a sum comes to is worked out later,
size by size; here each is read once, so that a mistake in it is reported once.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace

from ..catalogue.body_measurements import BODY_MEASUREMENTS
from ..catalogue.outright import outright_of
from ..core.problems import Place
from ..core.text import a_form, clip, misspelt, series, suggest
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..forms.registry import FORMS, Form
from ..machine.records import dataclass
from ..sizing.bare_counts import bare_count
from ..sizing.charts import Chart, Row
from ..sizing.expression_tree import ExpressionFault, MeasureName, within
from ..sizing.expressions import ARGUMENTS, UNITS, parse_expression
from ..sizing.measures import Definition, leads
from .fields import Fields, read_by_size
from .keys.garment_keys import GarmentKeys
from .source import MOST_BYTES, Scalar, Table
from .values import Entry, Fault, Text, misshapen

_TO_CHART = "If the chart is yours, add it there, measured or under filled"
_TO_OWN = "Add it there, measured or under filled"
SUM = "a sum such as (chest + 8 cm) / 2"


@dataclass(frozen=True, slots=True)
class MeasuredForm:
    """A form, the chart, and what the designer put in their place: all that gives a length;
    `outlined` are the measures that own pieces are cut by, if all pieces and joins were `read`.
    `beside` are the places of sizes that have a body of their own, by their labels."""

    form: Form
    chart: Chart
    measures: Mapping[str, Mapping[str, Definition]]
    body: Mapping[str, Mapping[str, Length]]
    sizes: tuple[str, ...]
    slit: bool = False
    outlined: frozenset[str] = frozenset()
    read: bool = True
    beside: Mapping[str, Place] = field(default_factory=dict)

    @property
    def sums(self) -> dict[str, str]:
        """The form's own sums, for what chart and designer have in every size."""
        rows = [name for name, row in self.rows.items() if not self.without(row, self.sizes)]
        given = {name: next(iter(by_size.values())).text
                 for name, by_size in self.measures.items() if by_size}
        return self.form.sums(rows, given, slit=self.slit)

    @property
    def rows(self) -> dict[str, Row]:
        """The chart's measurements, by their names in sums."""
        return {plain(name): row for name, row in self.chart.rows.items()}

    def without(self, row: Row, sizes: Sequence[str]) -> list[str]:
        """Those of `sizes` in which neither the chart nor the designer has that measurement."""
        return [size for size in sizes if size in self.chart.sizes
                and size not in row.cells and size not in self.body.get(row.name, {})]


def plain(name: str) -> str:
    """A name as sums write it: with underscores for spaces and hyphens."""
    return re.sub("[ -]", "_", name)


def not_in_chart(name: str, chart: Chart) -> tuple[str, str, str]:
    """What is found, expected and to be done where a chart has no such body measurement."""
    return (f'no {name} in the chart "{chart.key}"', f"one of {', '.join(map(plain, chart.rows))}",
            "Use one of these, or a chart that has it.")


def read_measures(garment: Fields, sizes: tuple[str, ...]) -> dict[str, dict[str, Definition]]:
    """The measures that are readable, by their names in sums, each with a sum for every size."""
    measures: dict[str, dict[str, Definition]] = {}
    for item in garment.each(GarmentKeys.measures):
        named = replace(item, path=f"{garment.path}.measures.{plain(item.label)}")
        found = read_by_size(garment.findings, named, _definition, sizes)
        measures[plain(item.label)] = found or {}
    return measures


def _definition(entry: Entry) -> Definition:
    node = entry.node
    if not isinstance(node, Scalar):
        raise misshapen(entry, SUM, "Write it out.")
    Text(MOST_BYTES, SUM, "Write it out.")(entry)
    if node.lines > 1:  # its places would be guesses
        raise Fault("bad-measure", entry.place, f"a measure over {node.lines} lines", "one line",
                    "Write it on one line, or break it into several measures.")
    place = replace(node.place, column=node.place.column + (1 if node.quoted else 0))
    try:
        parse_expression(node.text)
    except ExpressionFault as fault:
        raise Fault(fault.code, _at(place, fault.at), fault.found, fault.expected,
                    fault.remedy) from None
    return Definition(node.text, place)


def _at(place: Place, characters: int) -> Place:
    return replace(place, column=place.column + characters)


def check_measures(garment: Fields, measured: MeasuredForm) -> None:
    """Record names that are taken, that lead nowhere, or that nothing uses."""
    _check_taken(garment, measured)
    for definition, sizes in _definitions(measured):
        for name in _names(definition.text):
            _check_name(garment, measured, name, definition.place, sizes)
    for measure, sum_ in measured.sums.items():
        if measure not in measured.measures:
            _check_default(garment, measured, measure, sum_)
    _check_use(garment, measured)
    _check_followed(garment, measured)
    _check_beside(garment, measured)


def _definitions(measured: MeasuredForm) -> Iterator[tuple[Definition, list[str]]]:
    """Each sum of the designer's with the sizes it is for."""
    for by_size in measured.measures.values():
        sizes: dict[Definition, list[str]] = {}
        for size, definition in by_size.items():
            sizes.setdefault(definition, []).append(size)
        yield from sizes.items()


def _names(sum_: str) -> list[MeasureName]:
    """The names in a readable sum, each where it stands first."""
    names: dict[str, MeasureName] = {}
    for part in within(parse_expression(sum_)):
        if isinstance(part, MeasureName):
            names.setdefault(part.name, part)
    return list(names.values())


def _keys(garment: Fields) -> dict[str, Place]:
    """Where the name of each measure stands."""
    entry = garment.entry(GarmentKeys.measures)
    table = entry.node if entry else None
    return {plain(key): keyed.place for key, keyed in table.entries.items()} \
        if isinstance(table, Table) else {}


def _check_taken(garment: Fields, measured: MeasuredForm) -> None:
    keys, findings = _keys(garment), garment.findings
    for name in measured.measures:
        if name in measured.rows:
            findings.fault("bad-measure-name", keys[name], f'the measure "{name}", which is a '
                           f'body measurement of the chart "{measured.chart.key}"',
                           "another name", "Rename it, or change the measurement under body.")
        elif name in (*ARGUMENTS, *UNITS):
            findings.fault("bad-measure-name", keys[name], f'the measure "{name}", which means '
                           "something else in a sum", "another name", "Rename it.")
    for name in measured.form.names:
        if name in measured.rows:
            findings.fault("bad-measure-name", garment.at(GarmentKeys.chart),
                           f'the body measurement "{name}" in the chart "{measured.chart.key}", '
                           f"which is a measure of the form {measured.form.name}",
                           "another name", "Rename it in the chart.")


def _check_name(garment: Fields, measured: MeasuredForm, name: MeasureName, start: Place,
                sizes: list[str]) -> None:
    known = (*measured.form.names, *measured.measures)
    row = measured.rows.get(name.name)
    if name.name in known:
        return
    if row is None and name.name in BODY_MEASUREMENTS and measured.chart.key:
        garment.findings.fault("missing-measurement", _at(start, name.at),
                               *not_in_chart(name.name, measured.chart))
    elif row is None:
        expected, remedy = suggest(name.name, dict.fromkeys((*known, *measured.rows)),
                                   "Define it, or use one of these.")
        garment.findings.fault("unknown-measure", _at(start, name.at),
                               f'nothing called "{clip(name.name)}"', expected, remedy)
    elif lacking := _of_chart(garment, measured, row, sizes, f"for the sum that names {name.name}"):
        garment.findings.fault(
            "missing-measurement", _at(start, name.at), f'no {name.name} in the chart '
            f'"{measured.chart.key}" for {", ".join(lacking)}', "a figure for each size",
            f"{_TO_CHART}; or give it under body, or write the measure in another way.")


def _check_default(garment: Fields, measured: MeasuredForm, measure: str, sum_: str) -> None:
    """Record a body measurement that the form's own sum needs and the chart does not have."""
    for name in (each for each in _names(sum_) if each.name not in measured.form.measures):
        row = measured.rows.get(name.name)
        lacking = list(measured.sizes) if row is None else _of_chart(
            garment, measured, row, measured.sizes,
            f"from which the form's {measure} is worked out: {sum_}")
        if lacking:
            sizes, instead = ("", "") if row is None else (
                f" for {', '.join(lacking)}", f", or {name.name} under body")
            place = measured.chart.place_of(row)
            garment.findings.fault(
                "missing-measurement", place or garment.at(GarmentKeys.chart),
                f'no {name.name} in the chart "{measured.chart.key}"{sizes}',
                f"what the form's {measure} is worked out from: {sum_}",
                f"{_TO_OWN if place else _TO_CHART}; or give {measure} under measures{instead}.")


def _of_chart(garment: Fields, measured: MeasuredForm, row: Row, sizes: Sequence[str],
              purpose: FindingText) -> list[str]:
    """Those of the chart's `sizes` that lack a measurement. Where the designer wrote the body of a
    size, the fault is recorded there: `purpose` says what the measurement is needed for."""
    lacking, name = measured.without(row, sizes), plain(row.name)
    for size in lacking:
        if size in measured.beside:
            garment.findings.fault(
                "missing-measurement", measured.beside[size],
                f"no {name} in the body of the size {clip(size)}", f"a length, {purpose}",
                f"Write {name} and its length under body of this size.")
    return [size for size in lacking if size not in measured.beside]


def _check_use(garment: Fields, measured: MeasuredForm) -> None:
    """Record new measures that no other one uses: misspelt ones of the form, and idle ones.

    Nothing where a sum could not be read, which may use any of them.
    """
    if not all(measured.measures.values()):
        return
    own = {name: {used.name for definition in by_size.values() for used in _names(definition.text)}
           for name, by_size in measured.measures.items()}
    keys, form = _keys(garment), measured.form
    for name in own:
        if name in (*form.names, *measured.outlined, *measured.rows, *ARGUMENTS, *UNITS) \
                or any(name in used for other, used in own.items() if other != name):
            continue
        found = f'the measure "{name}", which nothing uses'
        meant = misspelt(name, (one for one in form.names if one not in own))
        others = [kind for kind, other in FORMS.items() if name in other.names]
        if others:
            some = f"{len(others)} other forms" if len(others) > 3 else \
                f"the form{'s' * (len(others) > 1)} {series(others, 'and')}"
            garment.findings.warn("unused-measure", keys[name], f"{found}: a measure of {some}",
                                  f"a measure of {a_form(form.name)}", "Delete it.")
        elif meant:
            garment.findings.fault("unknown-measure", keys[name], found, f'"{meant}"',
                                   f"Write {meant}.")
        elif measured.read:
            garment.findings.warn("unused-measure", keys[name], found, "",
                                  "Use it in another measure, or delete it.")


def _check_followed(garment: Fields, measured: MeasuredForm) -> None:
    """Warn of a measure of the form's that was given, and that nothing which is knitted follows.

    The form's pieces are not cut by it, and no measure that they are cut by depends on it.
    """
    followed = measured.form.followed
    if not all(measured.measures.values()) or not followed.keys() & measured.measures.keys():
        return
    used: set[str] = set()
    for size in measured.sizes:
        sums = {**measured.sums, **{name: by_size[size].text for name, by_size
                                    in measured.measures.items() if size in by_size}}
        used |= set().union(*(leads(name, sums) for name in sums if name not in followed
                              and name in measured.form.measures))
    keys = _keys(garment)
    counted = outright_of(measured.form, measured.measures)
    for name in followed.keys() & measured.measures.keys() - used:
        if name in counted and all(bare_count(one.text)
                                   for one in measured.measures[name].values()):
            continue
        garment.findings.warn("unused-measure", keys[name],
                              f'the measure "{name}", which nothing uses: {followed[name]}',
                              "a measure that the pieces follow",
                              "Delete it, or use it in the measure that wins.")


def _check_beside(garment: Fields, measured: MeasuredForm) -> None:
    """Warn of an optional measure that shapes nothing, because none that it stands beside is
    given, and that no other measure uses."""
    own = measured.measures
    if not all(own.values()):
        return
    used = {used.name for by_size in own.values() for definition in by_size.values()
            for used in _names(definition.text)}
    keys = _keys(garment)
    for name, one in measured.form.optional.items():
        if name in own and name not in used and one.beside and not own.keys() & set(one.beside):
            garment.findings.warn(
                "unused-measure", keys[name], f'the measure "{name}", which nothing uses: without '
                f"{' or '.join(one.beside)} the sides are straight", "a measure that the pieces "
                "follow", f"Give {one.beside[-1]} as well, or delete it.")

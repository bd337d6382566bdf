"""The measures of a garment in a size: the form's sums, and the designer's in their place."""

from __future__ import annotations

from collections.abc import Mapping
from functools import reduce

from ..core.body_figures import FigureBy
from ..core.problems import Problem
from ..core.ranges import ranges_of
from ..forms.registry import FORMS
from ..machine.records import dataclass
from ..pattern.model import GarmentSpec, Neck, Pattern
from ..pattern.places import Places
from ..sizing.charts import Chart, change, rows_for
from ..sizing.measures import Definition, evaluate
from ..sizing.quantities import Quantity
from .given_counts import Given, given_in, pitches

# A V is deeper than it is wide, where a round neck is shallower; common practice, no source.
V_NECK = "neck_width * 1.1"


@dataclass(frozen=True, slots=True)
class Worked:
    """The measures of one size as they were worked out, what the `chart` has of it (`known`), and
    the findings; what is `given` as a count."""

    chart: Chart
    known: Mapping[str, Quantity]
    measures: Mapping[str, Quantity]
    found: tuple[Problem, ...]
    given: Given


def worked_out(pattern: Pattern, spec: GarmentSpec, size: str) -> Worked:
    """Return the measures of a garment in `size`."""
    chart = own_chart(spec)
    known = chart.measurements(size)
    given = given_in(pattern.places, spec, size, _own(spec, size))
    measures, found = evaluate(definitions(pattern.places, pattern.sizes, spec, size), known,
                               ranges_of(FORMS[spec.form].names), size=size,
                               pitches=pitches(pattern.materials, pattern.bands, spec, size, given))
    return Worked(chart, known, measures, (*found, *given.found), given)


def own_chart(spec: GarmentSpec) -> Chart:
    """Return the chart with the designer's own body measurements, and a reader's."""
    designers = reduce(lambda chart, own: change(chart, *own), spec.body.items(), spec.chart)
    return reduce(lambda chart, own: change(chart, *own, by=FigureBy.READER), spec.readers.items(),
                  designers)


def definitions(places: Places, sizes: tuple[str, ...], spec: GarmentSpec, size: str
               ) -> dict[str, Definition]:
    """Return the form's own expressions, each replaced by the designer's where she gave one."""
    place = places.of("garment.form")
    own = _own(spec, size)
    standard = {name: Definition(text, place, standard=True)
                for name, text in _sums(sizes, spec, own).items()}
    if spec.neck is Neck.V and "front_neck" in standard:
        standard["front_neck"] = Definition(V_NECK, place, standard=True)
    return {**standard, **own}


def _own(spec: GarmentSpec, size: str) -> dict[str, Definition]:
    """The designer's own measures."""
    return {name: by_size[size] for name, by_size in spec.measures.items()}


def _sums(sizes: tuple[str, ...], spec: GarmentSpec, own: Mapping[str, Definition]
         ) -> dict[str, str]:
    """The form's own sums, for what the chart has in every size of the pattern."""
    return FORMS[spec.form].sums(rows_for(own_chart(spec), sizes),
                                 {name: one.text for name, one in own.items()},
                                 slit=spec.placket is not None)

"""Which size to choose: the body a size is for, what the garment measures, and the ease between."""

from __future__ import annotations

from collections.abc import Mapping

from ..core.inches import in_figure
from ..core.text_kinds import MeasureKey
from ..core.units import Length
from ..forms.registry import FORMS
from ..machine.records import dataclass
from ..pattern.model import GarmentSpec
from ..plan.assembled import Assembled
from ..plan.worked_measures import own_chart
from ..sizing.charts import Chart, Remark, SizeCell, rows_for
from ..sizing.measures import names_in
from ..words.terms.body_length_names import NECK_TO_WRIST
from ..words.terms.body_words import length_range
from .proof import Proof

AROUND = "around"  # own pieces, for a body where their sums have its chest
# A garment's measure and the body's that it goes around or along.
WORN: Mapping[MeasureKey, str] = {
    "chest": "chest",
    AROUND: "chest",
    "waist": "waist",
    "hip": "hips",
    "upper arm": "upper_arm",
    "across": "cross_back",
    "circumference": "head",
    NECK_TO_WRIST: "neck_to_wrist",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """One measure of a size: the garment's, the body's it is worn on, and the ease.

    `ease` runs from that on the largest body of the size to that on the smallest; below 0 the
    fabric stretches.
    """

    name: MeasureKey
    label: str
    finished: Length
    body: SizeCell
    ease: tuple[Length, Length]

    @property
    def ease_each(self) -> tuple[tuple[str, str], tuple[str, str]]:
        """The ease on the largest and on the smallest body, in centimetres and in inches, as the
        printed figures differ, without their units.

        Each unit has the difference of its printed figures. The inches of a body whose chart has
        none are those that the page works out.
        """
        bodies = (self.body.high, self.body.low)
        high, low = (self.finished.cm_beyond(body) for body in bodies)
        printed = self.body.printed_inches or (
            self.body.low.printed_inches(), self.body.high.printed_inches())
        most, least = [in_figure(self.finished.printed_inches() - end) for end in printed[::-1]]
        return (high, low), (most, least)

    @property
    def ease_text(self) -> str:
        """The ease in words: "8 cm (3¼ in)", "5.5 cm to 10.5 cm (...)", "−2 cm (...)"."""
        cm, inches = self.ease_each
        return length_range(*(f"{end} cm" for end in cm), *(f"{end} in" for end in inches))


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeAdvice:
    """One size: what its body measures, as the chart has it, what is knitted, and how it fits.

    `body` holds the measures of the body that the garment is cut from, those of the chart or the
    designer's: (label, cell); of them `beside` are those of the designer's that no finished
    measure is worn on. `remarks` are what the chart has to say of its rows in this size, `worn`
    those of this size alone, of rows that the garment is worn on.
    """

    size: str
    body: tuple[tuple[str, SizeCell], ...]
    finished: tuple[tuple[str, Length], ...]
    fits: tuple[Fit, ...]
    remarks: tuple[Remark, ...]
    beside: tuple[tuple[str, SizeCell], ...] = ()
    worn: tuple[Remark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GarmentAdvice:
    """The advice on all sizes: the chart and each size."""

    chart: Chart
    sizes: tuple[SizeAdvice, ...]

    @property
    def remarks(self) -> tuple[tuple[Remark, tuple[str, ...]], ...]:
        """Every remark once, with the sizes of this garment it concerns."""
        found: dict[Remark, list[str]] = {}
        for size in self.sizes:
            for remark in size.remarks:
                found.setdefault(remark, []).append(size.size)
        return tuple((remark, tuple(sizes)) for remark, sizes in found.items())


def advise_all(proof: Proof) -> GarmentAdvice | None:
    """Return the advice on a garment's sizes; None where the pattern has no garment."""
    spec = proof.pattern.garment
    if spec is None:
        return None
    chart = own_chart(spec)
    sizes = tuple(_size(spec, chart, size.size, size.assembled)
                  for size in proof.sizes if size.assembled)
    return GarmentAdvice(chart=chart, sizes=sizes)


def rows_used(spec: GarmentSpec, chart: Chart, size: str) -> tuple[str, ...]:
    """Return the chart's rows that a garment's measures name in `size`, in the chart's order."""
    own = {name: by_size[size].text for name, by_size in spec.measures.items()}
    texts = {**FORMS[spec.form].sums(rows_for(chart, [size]), own,
                                     slit=spec.placket is not None), **own}
    named = {name for text in texts.values() for name in names_in(text)}
    return tuple(row for row in chart.rows if row in named and chart.cell(row, size))


def _size(spec: GarmentSpec, chart: Chart, size: str, made: Assembled) -> SizeAdvice:
    rows = rows_used(spec, chart, size)
    finished = made.garment.finished
    worn = {name: WORN[name] for name in finished if chart.cell(WORN.get(name, ""), size)
            and (name != AROUND or WORN[name] in rows)
            and not (made.short_sleeve and name == NECK_TO_WRIST)}
    fits = [_fit(name, finished[name], chart.rows[row].label, chart.rows[row].cells[size])
            for name, row in worn.items()]
    body = [(chart.rows[row].label, chart.rows[row].cells[size]) for row in rows]
    beside = []
    for key, (label, name) in FORMS[spec.form].bodies(spec.measures).items():
        own = SizeCell(made.measures[key].length, made.measures[key].length)
        if name:
            fits.append(_fit(name, finished[name], label, own))
        else:
            beside.append((label, own))
        body.append((label, own))
    on_worn = dict.fromkeys(r for row in worn.values() for r in chart.remarks_on(row, size))
    remarks = dict.fromkeys((*(r for row in rows for r in chart.remarks_on(row, size)), *on_worn))
    return SizeAdvice(size=size, finished=tuple(finished.items()), fits=tuple(fits),
                      body=tuple(body), remarks=tuple(remarks), beside=tuple(beside),
                      worn=tuple(r for r in on_worn if r.rows and r.sizes))


def _fit(name: str, finished: Length, label: str, cell: SizeCell) -> Fit:
    ease = (finished - cell.high, finished - cell.low)
    return Fit(name=name, label=label, finished=finished, body=cell, ease=ease)

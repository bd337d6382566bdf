"""A closed neck goes over the head: how far it and its band stretch, beside the chart's head."""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.form_measures import HEADS
from ..core.counted import Reckoned
from ..core.counts import decimal
from ..core.expression import Expression, Sum, Term, plain
from ..core.join_parts import SewnSide
from ..core.operands import Role
from ..core.problems import Problem, Severity, note
from ..pattern.model import Band, GarmentSpec
from ..pattern.places import Places
from ..shape.edge_path import EdgePath
from ..shape.garment import Garment
from ..sizing.charts import Chart, SizeCell
from ..words.terms.join_names import sewn_side
from .worked_measures import own_chart

STRETCH = Fraction(1, 3)  # what a knitted neck gives over its length; common practice, no source
NECK = "neck"
OPENS = ("right_front.front_edge", "right_placket")  # edges of a garment that opens at the neck


def largest_head(chart: Chart, size: str) -> SizeCell | None:
    """Return the head that a closed neck must pass, as the chart has it; None where it has none."""
    cells = [cell for row in HEADS if (cell := chart.cell(row, size))]
    return max(cells, key=lambda cell: cell.high.mm, default=None)


def closed_neck(garment: Garment) -> EdgePath | None:
    """Return the neck's edge of a garment that opens nowhere at the neck."""
    closed = not any(edge in garment.edges for edge in OPENS)
    return garment.edges.get(NECK) if closed else None


def stretched(edge: EdgePath, bands: list[Expression]) -> Reckoned:
    """Return how far a neck stretches: its edge, or the shortest of the `bands` along it [mm]."""
    own = Term(Sum(tuple(section.long for section in edge.sections)), Role.ALONG,
               sewn_side(SewnSide.NECK))
    least = min([own, *bands], key=lambda one: one.value)
    gives = 1 + STRETCH
    return Reckoned(least * plain(gives.numerator) / plain(gives.denominator))


def neck_over_head(places: Places, chart: Chart, garment: Garment) -> tuple[Problem, ...]:
    """Warn of a closed neck that must give more than a third to go over the chart's largest head.

    Its edge is measured as knitted; nothing is said where the chart has no head.
    """
    edge, head = closed_neck(garment), largest_head(chart, garment.size)
    if edge is None or head is None or _passes(edge.length, head):
        return ()
    return (_too_narrow(places, "garment.measures", garment.size, "neck", edge.length, head,
                        "Widen neck_width, deepen front_neck, or open the front."),)


def band_over_head(places: Places, spec: GarmentSpec | None, band: Band, size: str,
                   length: Fraction, edge_path: EdgePath) -> list[Problem]:
    """Warn of a band, so long [mm], by which a closed neck that is wide enough becomes too
    narrow."""
    if spec is None or band.garment_edge != NECK or not edge_path.ring:
        return []
    head = largest_head(own_chart(spec), size)
    if head is None or _passes(length, head) or not _passes(edge_path.length, head):
        return []
    return [_too_narrow(places, f"bands.{band.key}.edge", size,
                        f'neck with band "{band.key}"', length, head,
                        "Give the band more ease, or widen the neck.")]


def _passes(length: Fraction, head: SizeCell) -> bool:
    return length * (1 + STRETCH) >= head.high.mm


def _too_narrow(places: Places, at: str, size: str, what: str, length: Fraction, head: SizeCell,
                remedy: str) -> Problem:
    give = head.high.mm / length - 1
    return note(Severity.WARNING, "neck-over-head", places.of(at), size=size,
                found=f"a {what} {decimal(length / 10, 1)} cm around for a head of "
                      f"{head.high.in_cm()}: it must give {decimal(give * 100, 0)} %",
                expected=f"at most {decimal(STRETCH * 100, 0)} %", remedy=remedy)

"""Is what goes round a body far smaller or larger than that body?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..core.counts import decimal
from ..core.problems import Problem, Severity, note
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..forms.registry import FORMS
from ..machine.records import dataclass
from ..pattern.model import GarmentSpec
from ..pattern.places import Places
from ..shape.garment import Garment
from ..sizing.charts import Chart
from ..sizing.measures import names_in
from ..sizing.quantities import Quantity


@dataclass(frozen=True, slots=True)
class EaseAllowed:
    """How far the garment's length may be off what it goes round: it may `give` this part of its
    length, and be `loose` by this part of the body's. `measures` change it."""

    body: FindingText
    row: str
    give: Fraction
    loose: Fraction
    measures: tuple[str, ...]


# A knitted fabric gives a third of its length (as at a closed neck); a hat or a mitten looser than
# a quarter falls off; a body is knitted up to three quarters larger. Common practice, no source.
GIVES, FALLS_OFF, WIDE = Fraction(1, 3), Fraction(1, 4), Fraction(3, 4)
ALLOWED: Mapping[str, EaseAllowed] = {
    "circumference": EaseAllowed("head", "head", GIVES, FALLS_OFF, ("hat_width",)),
    "hand": EaseAllowed("hand", "hand_circumference", GIVES, FALLS_OFF, ("mitten_width",)),
    "chest": EaseAllowed("chest", "chest", GIVES, WIDE, ("chest_width", "ease")),
    "around": EaseAllowed("chest", "chest", GIVES, WIDE, ())}


def body_ease(places: Places, spec: GarmentSpec, chart: Chart, garment: Garment,
              measures: Mapping[str, Quantity]) -> Iterator[Problem]:
    """Yield a caution for each finished length [mm] that must give more than it can to go round
    the smallest body of the size, or is far too loose on the largest.

    Nothing is said where the chart has no such body, nor of own pieces whose sums do not have it.
    """
    for name, allowed in ALLOWED.items():
        length = garment.finished.get(name)
        body = _body(spec, chart, garment.size, allowed, measures)
        if length is None or body is None or (name == "around" and not _uses(spec, allowed.row)):
            continue
        low, high = body
        small = length.mm * (1 + allowed.give) < low.mm
        if not small and length.mm <= high.mm * (1 + allowed.loose):
            continue
        worn, most = (low, allowed.give) if small else (high, allowed.loose)
        off = low.mm / length.mm - 1 if small else length.mm / high.mm - 1
        own = next((one for one in allowed.measures if one in spec.measures), "")
        yield note(
            Severity.CAUTION, "ease-unlikely",
            places.of(f"garment.measures{own and '.'}{own}", garment.size if own else ""),
            size=garment.size,
            found=f"{length.in_cm()} around for a {allowed.body} of {worn.in_cm()}: "
                  + (f"it must give {decimal(off * 100, 0)} %" if small else
                     f"{decimal(off * 100, 0)} % larger"),
            expected=f"at most {decimal(most * 100, 0)} %",
            remedy=f"Check the measure and the size of the {allowed.body}, or leave it if you mean "
                   "it.")


def _body(spec: GarmentSpec, chart: Chart, size: str, allowed: EaseAllowed,
          measures: Mapping[str, Quantity]) -> tuple[Length, Length] | None:
    """The smallest and the largest body of a size: the form's own, or the chart's; None where it
    is in neither."""
    if allowed.row in FORMS[spec.form].bodies(spec.measures):
        return measures[allowed.row].length, measures[allowed.row].length
    cell = chart.cell(allowed.row, size)
    return (cell.low, cell.high) if cell else None


def _uses(spec: GarmentSpec, row: str) -> bool:
    """True where a measure of the designer's has a row of the chart in its sum."""
    return any(row in names_in(one.text) for by_size in spec.measures.values()
               for one in by_size.values())

"""What a piece in a fabric apart from the garment's is cut by."""

from __future__ import annotations

from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..machine.steps import Dial
from ..pattern.fabrics import Repeat
from ..pattern.stitch_chart import StitchChart


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """A fabric as a form needs it.

    `key` is its name in the source; `hem_gauge` and `cuff_gauge` are those of the hem or rib, and
    of the cuff, below a piece of it, where they were swatched. `repeat` leaves needles out of work,
    `chart` is its stitch chart.
    """

    key: str
    gauge: Gauge
    dial: Dial
    hem_gauge: Gauge | None = None
    cuff_gauge: Gauge | None = None
    repeat: Repeat | None = None
    chart: StitchChart | None = None

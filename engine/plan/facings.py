"""A facing or inner layer in another fabric: its own count along the same length, from the fold.

Source: It's All About the Color, "Faced Band" (P09).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Operand
from ..core.operands import Role
from ..core.problems import Problem, error
from ..core.spread import MOST_IN_A_ROW, taken_rows
from ..fabric.gauge import Gauge, counted, measure
from ..machine.records import dataclass
from ..machine.steps import Dial
from ..pattern.edges import OPEN
from ..pattern.fabrics import Fabric
from ..pattern.model import Band
from ..pattern.places import Places
from .meeting import Meeting


@dataclass(frozen=True, slots=True, kw_only=True)
class FacingPlan:
    """The layer behind the fold: its `stitches` and `rows`, its dial, yarn and gauge.

    `places` are those of its stitches, counted from 1, on which two of the first layer's lie, or
    where the facing has more those that are new.
    """

    fabric: str
    yarn: str
    dial: Dial
    gauge: Gauge
    stitches: Count
    rows: Count
    places: tuple[int, ...]
    grows: bool


def plan_facing(places: Places, fabrics: Mapping[str, Fabric], band: Band, size: str,
                stitches: Count, rows: Count, gauge: Gauge
               ) -> tuple[FacingPlan | None, list[Problem]]:
    """Return the facing behind a layer of `stitches` and `rows` at the band's `gauge`.

    It has the layer's length and depth, each counted by the facing's own gauge: six stitches
    become five where six of one are as wide as five of the other (P09). What comes
    or goes is spread evenly. None without one, or with the finding where too much changes.
    """
    if not band.facing_fabric:
        return None, []
    fabric = fabrics[band.facing_fabric]
    own = measure(fabric.swatches)
    across = counted(
        stitches.term(Role.STITCHES) * Operand(gauge.stitch, Role.MILLIMETRES)
        / Operand(own.stitch, Role.STITCH_WIDTH, " behind the fold"), Unit.STITCHES, own.stitch)
    up = counted(
        rows.term(Role.ROWS) * Operand(gauge.row, Role.MILLIMETRES)
        / Operand(own.row, Role.ROW_HEIGHT, " behind the fold"), Unit.ROWS, own.row)
    change = abs(across.value - stitches.value)
    if change > MOST_IN_A_ROW * max(stitches.value, across.value) or up.value < 2:
        return None, [_too_much(places, band, size, stitches.value, across, up)]
    return FacingPlan(fabric=fabric.key, yarn=fabric.yarn, dial=fabric.dial, gauge=own,
                      stitches=across, rows=up, grows=across.value > stitches.value,
                      places=taken_rows(change, across.value) if change else ()), []


def too_far_off(places: Places, band: Band, size: str, meetings: Sequence[Meeting]
                ) -> list[Problem]:
    """Return an error where a facing has too many or too few stitches for open ones to be hung on.

    Bound-off edges are taken as rows are, and may be taken twice.
    """
    for meeting in meetings:
        waiting, own = meeting.section.places, meeting.stitches.value
        if meeting.section.offer in OPEN and abs(own - waiting) > MOST_IN_A_ROW * max(own, waiting):
            return [error(
                "facing-far-off", places.of(f"bands.{band.key}.fabric"), size=size,
                found=f"{waiting} stitches of the {meeting.section.name} that become {own}",
                expected="at most one stitch in three that comes or goes where stitches wait",
                remedy="Choose a fabric whose stitches are nearer in width to the edge's.")]
    return []


def _too_much(places: Places, band: Band, size: str, stitches: int, across: Count, up: Count
              ) -> Problem:
    return error(
        "facing-far-off", places.of(f"bands.{band.key}.facing_fabric"), size=size,
        found=f"{stitches} stitches that become {across.value} at the fold, and {up} behind it",
        expected="at most one stitch in three that comes or goes, and 2 rows",
        remedy="Choose a facing whose stitches are nearer in width, or give the band more depth.")

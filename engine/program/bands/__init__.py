"""The kinds of band a source can name; adding one is a module here and its line below."""

from __future__ import annotations

from collections.abc import Mapping

from ...machine.steps import Dial, Program, Side
from ...plan.band import BandPlan
from ..band import lay_out_band
from . import (
    casing,
    collar_shawl,
    collar_shirt,
    collar_stand,
    enclosing,
    facing,
    folded,
    ribbed,
    single,
)
from .kind import Kind, program_of

KINDS: Mapping[str, Kind] = {kind.name: kind for kind in (
    enclosing.KIND, folded.KIND, single.KIND, single.ROLLED, ribbed.KIND, facing.KIND, casing.KIND,
    collar_stand.KIND, collar_stand.SINGLE, collar_shirt.KIND, collar_shirt.DOUBLE,
    collar_shawl.KIND, collar_shawl.DOUBLE)}


def band_program(plan: BandPlan, *, front: Side, bed_needles: int, garment_dial: Dial,
                 with_holes: bool) -> Program:
    """Return the whole program of a band for one `front`, by its kind.

    A button band (`with_holes` False) is the same band without holes. The left front's program
    is the right front's mirrored.
    """
    layout = lay_out_band(plan, front)
    return program_of(KINDS[plan.band.kind], plan, layout, bed_needles=bed_needles,
                      name=f"{plan.band.title}, {front.value} front", garment_dial=garment_dial,
                      with_holes=with_holes)

"""The steps of every kind of band, by how it is made: a new making is a module and a line."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from ...catalogue.bands import KINDS, Making
from ...machine.programs import Program
from ...machine.steps import Dial, Side
from ...plan.band import BandPlan
from ..layout import lay_out_band
from . import (
    casing,
    collar_rows,
    collar_shawl,
    enclosing,
    facing,
    folded,
    lengthwise,
    ribbed,
    single,
)
from .kind import Make, program_of

MAKES: Mapping[Making, Make] = {
    Making.ENCLOSING: enclosing.make, Making.FOLDED: folded.make, Making.SINGLE: single.make,
    Making.LATCHED: ribbed.make, Making.FACING: facing.make, Making.CASING: casing.make,
    Making.LENGTHWISE: lengthwise.make,
    Making.COLLAR: collar_rows.one_layer, Making.DOUBLE_COLLAR: collar_rows.two_layers,
    Making.SHAWL: partial(collar_shawl.make, layers=1),
    Making.DOUBLE_SHAWL: partial(collar_shawl.make, layers=2)}


def band_program(plan: BandPlan, *, front: Side, bed_needles: int, garment_dial: Dial,
                 with_holes: bool) -> Program:
    """Return the whole program of a band for one `front`, by its kind.

    A button band (`with_holes` False) is the same band without holes. The left front's program
    is the right front's mirrored.
    """
    layout = lay_out_band(plan, front)
    return program_of(MAKES[KINDS[plan.band.kind].making], plan, layout, bed_needles=bed_needles,
                      name=f"{plan.band.title}, {front.value} front", garment_dial=garment_dial,
                      with_holes=with_holes)

"""The steps of every kind of band; adding one is a module here and its line below."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from ...machine.programs import Program
from ...machine.steps import Dial, Side
from ...plan.band import BandPlan
from ..layout import lay_out_band
from . import casing, collar_rows, collar_shawl, enclosing, facing, folded, ribbed, single
from .kind import Make, program_of

MAKES: Mapping[str, Make] = {
    "enclosing": enclosing.make, "folded": folded.make,
    "single": single.make, "rolled": single.make,
    "ribbed": ribbed.make, "facing": facing.make, "casing": casing.make,
    "stand collar": collar_rows.two_layers, "single stand collar": collar_rows.one_layer,
    "shirt collar": collar_rows.one_layer, "double shirt collar": collar_rows.two_layers,
    "shawl collar": partial(collar_shawl.make, layers=1),
    "double shawl collar": partial(collar_shawl.make, layers=2)}


def band_program(plan: BandPlan, *, front: Side, bed_needles: int, garment_dial: Dial,
                 with_holes: bool) -> Program:
    """Return the whole program of a band for one `front`, by its kind.

    A button band (`with_holes` False) is the same band without holes. The left front's program
    is the right front's mirrored.
    """
    layout = lay_out_band(plan, front)
    return program_of(MAKES[plan.band.kind], plan, layout, bed_needles=bed_needles,
                      name=f"{plan.band.title}, {front.value} front", garment_dial=garment_dial,
                      with_holes=with_holes)

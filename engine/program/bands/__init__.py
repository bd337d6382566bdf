"""The steps of every kind of band, by how it is made: a new making is a module and a line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from ...catalogue.bands import KINDS, Making
from ...core.on_use import import_all_of, on_use
from ...machine.programs import Program
from ...machine.steps import Dial, Side
from ...plan.band import BandPlan
from ...words.terms.piece_names import at_front
from ..layout import lay_out_band
from .kind import Make, program_of

# The module of a making, and its function that writes the steps.
MAKES: Mapping[Making, str] = {
    Making.ENCLOSING: "enclosing.make", Making.FOLDED: "folded.make",
    Making.SINGLE: "single.make", Making.LATCHED: "ribbed.make", Making.FACING: "facing.make",
    Making.CASING: "casing.make", Making.LENGTHWISE: "lengthwise.make",
    Making.COLLAR: "collar_rows.one_layer", Making.DOUBLE_COLLAR: "collar_rows.two_layers",
    Making.SHAWL: "collar_shawl.one_layer", Making.DOUBLE_SHAWL: "collar_shawl.two_layers"}

if TYPE_CHECKING:  # who reads imports and calls sees here what MAKES names
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

    NAMED: tuple[Make, ...] = (
        casing.make, collar_rows.one_layer, collar_rows.two_layers, collar_shawl.one_layer,
        collar_shawl.two_layers, enclosing.make, facing.make, folded.make, lengthwise.make,
        ribbed.make, single.make)


def import_all() -> None:
    """Import the modules of all makings, for whoever divides into processes that share them."""
    import_all_of(__name__, MAKES.values())


def band_program(plan: BandPlan, *, front: Side, bed_needles: int, garment_dial: Dial,
                 with_holes: bool) -> Program:
    """Return the whole program of a band for one `front`, by its kind.

    A button band (`with_holes` False) is the same band without holes. The left front's program
    is the right front's mirrored.
    """
    layout = lay_out_band(plan, front)
    make: Make = on_use(__name__, MAKES[KINDS[plan.band.kind].making])
    return program_of(make, plan, layout, bed_needles=bed_needles,
                      name=at_front(plan.band.title, front.value), garment_dial=garment_dial,
                      with_holes=with_holes)

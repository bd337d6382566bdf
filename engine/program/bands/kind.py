"""How the program of a band is put together from the steps of its kind."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from ...machine.needles import bed_of
from ...machine.programs import Program, ProgramSection
from ...machine.records import dataclass
from ...machine.step_keys import StepYarn
from ...machine.steps import Dial, Side
from ...plan.band import BandPlan
from ..band_steps import FIRST_ROW
from ..layout import Layout, corner_loops, sections
from ..waiting import strips_hung


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeBand:
    """What a kind's steps come to: sections, totals, extra edges, what waits or was latched up.

    `starts` is the carriage's side before them; None is the side away from the hem.
    """

    sections: tuple[ProgramSection, ...]
    totals: tuple[tuple[StepYarn, int, int], ...]
    seams: tuple[tuple[str, int], ...] = ()
    leaves: tuple[str, ...] = ()
    latched: int = 0
    on_waste: bool = False
    starts: Side | None = None


Make: TypeAlias = Callable[[BandPlan, Layout, Dial, bool], MadeBand]
"""What writes a kind's steps: plan, layout, garment's dial, with buttonholes or without."""


def program_of(make: Make, plan: BandPlan, layout: Layout, *, name: str, bed_needles: int,
               garment_dial: Dial, with_holes: bool) -> Program:
    """Return the whole program that `make` writes, from an empty bed to an empty bed."""
    written = make(plan, layout, garment_dial, with_holes)
    hung = () if plan.is_lengthwise else sections(plan, layout)
    edges = tuple((title, m.section.places) for title, m, _ in hung)
    return Program(name=name, bed=bed_of(bed_needles), starts=written.starts or layout.hem.other,
                   sections=written.sections, edges=(*edges, *written.seams),
                   first_row=FIRST_ROW if written.on_waste else StepYarn.NONE,
                   cord_yarn=StepYarn.RAVEL_CORD if written.on_waste else StepYarn.NONE,
                   waste_yarn=StepYarn.WASTE if written.on_waste else StepYarn.NONE,
                   leaves=written.leaves, row_one=layout.hem, totals=written.totals,
                   latched=written.latched, strips=strips_hung(hung),
                   corners=tuple((hung[loop.section - 1][0], loop.row)
                                 for loop in corner_loops(plan, layout)) if hung else ())

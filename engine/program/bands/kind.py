"""What a kind of band is: how it is built up in rows, and how its program is put together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from ...catalogue.ways import Way
from ...machine.needles import bed_of
from ...machine.steps import Dial, Program, Section, Side
from ...pattern.model import Closing
from ...plan.band import BandPlan
from ..band import CORD, FIRST_ROW, WASTE, Layout, sections
from ..waiting import strips_hung


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What a kind's steps come to: sections, totals, extra edges, what waits or was latched up.

    `starts` is the carriage's side before them; None is the side away from the hem.
    """

    sections: tuple[Section, ...]
    totals: tuple[tuple[str, int, int], ...]
    seams: tuple[tuple[str, int], ...] = ()
    leaves: tuple[str, ...] = ()
    latched: int = 0
    on_waste: bool = False
    starts: Side | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of band, by the name a source gives it.

    `layers` are 2 where it is folded. `page` is its reference page. It `stands` above the edge
    it is worked on, or lies behind it. `ways_off` are those it can end by, its own first, none
    where there is no choice. `make` writes its steps: plan, layout, garment's dial, with
    buttonholes or without. `asks` are the keys of its own that it takes, `needs` those it cannot
    do without. It `falls` over from the neck, which must then open at the front; its ends `meet`
    there, over half of the top of each front band, where a band that does not meet laps as they
    do. It `grades` where each of its rows can have a dial of its own,
    and `mitres` at the point of a V.
    """

    name: str
    summary: str
    layers: int
    closings: tuple[Closing, ...]
    page: str
    stands: bool
    make: Callable[[BandPlan, Layout, Dial, bool], Made]
    ways_off: tuple[Way, ...] = ()
    asks: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    falls: bool = False
    meets: bool = False
    grades: bool = False
    mitres: bool = False


def program_of(kind: Kind, plan: BandPlan, layout: Layout, *, name: str, bed_needles: int,
               garment_dial: Dial, with_holes: bool) -> Program:
    """Return the whole program of a band of this kind, from an empty bed to an empty bed."""
    made = kind.make(plan, layout, garment_dial, with_holes)
    hung = sections(plan, layout)
    edges = tuple((title, m.section.places) for title, m, _ in hung)
    return Program(name=name, bed=bed_of(bed_needles), starts=made.starts or layout.hem.other,
                   sections=made.sections, edges=(*edges, *made.seams),
                   first_row=FIRST_ROW if made.on_waste else "",
                   cord_yarn=CORD if made.on_waste else "",
                   waste_yarn=WASTE if made.on_waste else "",
                   leaves=made.leaves, row_one=layout.hem, totals=made.totals,
                   latched=made.latched, strips=strips_hung(hung))

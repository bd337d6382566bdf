"""How the bed does the steps of ribs: latching columns, and two beds that knit together.

Every function keeps to one order: what the step needs, what it does to the loops, to the
carriage, to the counter.
"""

from __future__ import annotations

from itertools import pairwise

from ..machine.needles import NONE, Needles, of
from ..machine.rib_steps import (
    STEPS_OVER_TWO,
    Across,
    Beds,
    BringSecond,
    KnitBeds,
    Latch,
    LowerSecond,
    Rack,
    RaiseSecond,
    Zigzag,
)
from ..machine.set_up_steps import (
    Couple,
    HangWeights,
    SetCarriage,
    TakeWeightsOff,
    Uncouple,
    Weight,
)
from ..machine.step_keys import StepYarn
from ..machine.steps import Attend, Bring, Position, SetCounter, SetDial, Step, Thread, Unthread
from ..machine.tools import Tool
from .row_effects import knit_through, need_set_up
from .set_up_effects import need_levers_of_two, need_weight
from .state import Bed, End, Refused

# What is allowed while needles of the second bed are in work: the main bed is then not alone.
_WITH_TWO = (*STEPS_OVER_TWO, Attend, Bring, SetCounter, SetDial, Thread, Unthread, SetCarriage,
             HangWeights, TakeWeightsOff, Couple, Uncouple)
_MOST_RACKED = 2  # half pitches at once with stitches on both beds; common practice, no source


def need_clear_second(bed: Bed, step: Step) -> None:
    """Refuse a step of the main bed alone while the second bed is in work."""
    if not bed.second.working and not bed.second.loops:
        return
    busy = bed.second.working | bed.second.loaded
    if busy and not isinstance(step, _WITH_TWO):
        raise Refused("second-bed-in-work", busy, "no needle of the second bed in work",
                      f"{busy} in work there")


def latch(bed: Bed, step: Latch) -> None:
    """Drop columns down so many rows and latch them up again."""
    # needs
    bed.need_loaded(step.needles)
    bed.need_no_cord(step.needles)
    if step.rows < 1:
        raise Refused("no-rows", step.needles, "at least one row", f"{step.rows}")
    bed.need_layers(step.needles, 1)
    if outer := step.needles & of(bed.loaded.first, bed.loaded.last):
        raise Refused("edge-column", outer, "a column with a stitch on either side",
                      f"{outer} at the edge, where no bar runs across")
    if short := step.needles - bed.at_least_high(step.rows):
        raise Refused("column-too-short", short, f"{step.rows} rows above a stitch that stops it",
                      f"fewer on {short}: it would run to the cast-on or a moved stitch")
    # loops: each comes back onto its needle
    bed.use(Tool.LATCH)
    bed.latched += len(step.needles) * step.rows
    # carriage, counter: as they were


def raise_second(bed: Bed, step: RaiseSecond) -> None:
    """Bring the second bed up, bare and at rack 0."""
    # needs
    if not bed.program.second:
        raise Refused("no-second-bed", NONE, "a second bed", "none")
    if bed.second.up:
        raise Refused("second-bed-up", NONE, "the second bed let down", "it is up")
    # loops: none on it
    bed.second.up, bed.second.rack = True, 0
    # carriage, counter: as they were


def lower_second(bed: Bed, step: LowerSecond) -> None:
    """Let the second bed down, when nothing is on it any more."""
    # needs
    _need_up(bed)
    if full := bed.second.loaded:
        raise Refused("loop-dropped", full, "no stitch on the second bed",
                      f"loops on {full}, which would drop")
    if idle := bed.second.working:
        raise Refused("second-bed-in-work", idle, "its needles out of work", f"{idle} in work")
    if bed.second.arm:
        raise Refused("arm-on", NONE, "the connecting arm off first", "it joins the carriages")
    if Weight.COMB in bed.weights:
        raise Refused("weights-on", NONE, "the comb and its weights off first", "they hang")
    # loops: none on it
    bed.second.up = False
    # carriage, counter: as they were


def _need_up(bed: Bed) -> None:
    if not bed.second.up:
        raise Refused("second-bed-down", NONE, "the second bed facing the main bed",
                      "it is let down" if bed.program.second else "none")


def rack(bed: Bed, step: Rack) -> None:
    """Move the second bed sideways, with stitches on both no more than a needle at once."""
    # needs
    _need_up(bed)
    by = abs(step.halves - bed.second.rack)
    if bed.second.loaded and bed.loaded and by > _MOST_RACKED:
        raise Refused("racked-too-far", bed.second.loaded, "a needle's width at once at most",
                      f"{by} half pitches")
    # loops: stay on their needles
    bed.second.rack = step.halves
    # carriage, counter: as they were


def bring_second(bed: Bed, step: BringSecond) -> None:
    """Move empty needles of the second bed into or out of work."""
    # needs
    _need_up(bed)
    _need_on_second(bed, step.needles)
    if full := step.needles & bed.second.loaded:
        raise Refused("needle-occupied", full, "empty needles", f"loops on {full}")
    if step.position not in (Position.WORKING, Position.NON_WORKING):
        raise Refused("not-in-work", step.needles, "working or non-working position",
                      step.position.value)
    # loops: none; needles change position
    if step.position is Position.WORKING:
        bed.second.working |= step.needles
    else:
        bed.second.working -= step.needles
    _need_no_strike(bed)
    # carriage, counter: as they were


def _need_on_second(bed: Bed, needles: Needles) -> None:
    if not needles:
        raise Refused("no-needles", NONE, "at least one needle", "none")
    if off := needles - bed.program.second:
        raise Refused("needle-off-bed", off, "needles of the second bed",
                      f"{off}, which it does not have")


def _need_no_strike(bed: Bed) -> None:
    """Refuse needles of both beds in work opposite each other: the carriages drive them together.

    At half pitch each passes between two.
    """
    if both := bed.second.facing(bed.second.working) & bed.working:
        raise Refused("needles-strike", both, "one needle in work of each two that face each other",
                      f"both at {both}")


def _need_row(bed: Bed, step: Zigzag | KnitBeds, rows: int, beds: Beds) -> None:
    _need_up(bed)
    need_set_up(bed, step.yarn, step.dial, rows)
    need_levers_of_two(bed, beds)
    if beds is not Beds.MAIN and bed.second.dial != step.dial:
        raise Refused("wrong-dial", NONE, f"both dials at {step.dial}",
                      f"the second bed's at {bed.second.dial}" if bed.second.dial else
                      "the second bed's never set")
    bed.need_end_at_carriage(step.yarn)
    _need_no_strike(bed)


def zigzag(bed: Bed, step: Zigzag) -> None:
    """Lay one loop on every needle in work of both beds, in one row.

    Two needles of one bed with none of the other between them would have no loop to hold: the
    yarn would lie straight across (common practice, no source).
    """
    # needs
    _need_row(bed, step, 1, Beds.BOTH)
    if full := (bed.working & bed.loaded) | (bed.second.working & bed.second.loaded):
        raise Refused("needle-occupied", full, "empty needles", f"loops on {full}")
    if bed.loaded:
        raise Refused("needle-occupied", bed.loaded, "an empty bed", f"loops on {bed.loaded}")
    if not bed.second.working:
        raise Refused("nothing-in-work", NONE, "needles of both beds in work", "of one only")
    if beside := _without_turn(bed):
        raise Refused("needles-by-turns", beside, "needles of the two beds by turns",
                      f"{beside} side by side on one bed")
    # loops
    bed.lay(step.yarn, bed.working)
    bed.second.lay(step.yarn, bed.second.working)
    bed.count_knitted(step.yarn, bed.working, 1, whole_rows=1)
    bed.count_knitted(step.yarn, bed.second.working, 1, whole_rows=0)
    _pass(bed, step.yarn, 1)


def _without_turn(bed: Bed) -> Needles:
    """The needles in work whose neighbour to the left is one of the same bed."""
    along = [(2 * needle.place, True, needle) for needle in bed.working]
    along += [(2 * needle.place + bed.second.rack, False, needle) for needle in bed.second.working]
    return of(*(needle for (_, before, _), (_, main, needle) in pairwise(sorted(along))
                if before == main))


def knit_beds(bed: Bed, step: KnitBeds) -> None:
    """Knit rows over the needles in work of both beds, or of one."""
    # needs
    _need_row(bed, step, step.rows, step.beds)
    main = bed.working if step.beds is not Beds.SECOND else NONE
    second = bed.second.working if step.beds is not Beds.MAIN else NONE
    if not main | second:
        raise Refused("nothing-in-work", NONE, "needles in work", "none")
    if bare := (main - bed.loaded) | (second - bed.second.loaded):
        raise Refused("fills-unasked", bare, "a stitch on every needle in work",
                      f"empty needles {bare}, which would take new loops unasked")
    need_weight(bed, main | second, step.rows)
    # loops
    if main:
        knit_through(bed, main, step.yarn, step.rows)
    bed.second.lift(second)
    if second:
        bed.second.lay(step.yarn, second)
    bed.count_knitted(step.yarn, main, step.rows, whole_rows=step.rows)
    bed.count_knitted(step.yarn, second, step.rows, whole_rows=0)
    _pass(bed, step.yarn, step.rows)


def _pass(bed: Bed, yarn: StepYarn, rows: int) -> None:
    """The carriage went across `rows` times with `yarn`."""
    if rows % 2:
        bed.side = bed.side.other
    bed.ends[yarn] = End(bed.side, joined=True)
    bed.near = NONE
    bed.count(rows)


def across(bed: Bed, step: Across) -> None:
    """Move stitches straight across to the other bed."""
    # needs
    bed.use(Tool.TRANSFER)
    _need_up(bed)
    if bed.second.rack % 2:
        raise Refused("racked-between", step.needles, "full pitch, needle facing needle",
                      "half pitch, needle between needles")
    if step.to is Beds.MAIN:
        _to_main(bed, step.needles)
    elif step.to is Beds.SECOND:
        _to_second(bed, step.needles)
    else:
        raise Refused("no-move", step.needles, "one bed to go to", step.to.value)
    # carriage, counter: as they were


def _to_main(bed: Bed, needles: Needles) -> None:
    landing = bed.second.facing(needles)
    # needs
    _need_on_second(bed, needles)
    bed.need_on_bed(landing)
    if bare := needles - bed.second.loaded:
        raise Refused("needle-empty", bare, "a stitch on every needle", f"none on {bare}")
    # loops
    for loop, on in bed.second.lift(needles):
        bed.lay(loop, bed.second.facing(on))
    bed.second.working -= needles
    bed.place(landing, Position.WORKING)


def _to_second(bed: Bed, needles: Needles) -> None:
    landing = bed.second.faced_by(needles)
    # needs
    bed.need_loaded(needles)
    bed.need_layers(needles, 1)
    _need_on_second(bed, landing)
    if full := landing & bed.second.loaded:
        raise Refused("needle-occupied", full, "empty needles", f"loops on {full}")
    # loops
    for loop, on in bed.lift(needles):
        bed.second.lay(loop, bed.second.faced_by(on))
    bed.place(needles, Position.NON_WORKING)
    bed.second.working |= landing

"""How the bed does the steps that move needles and stitches: positions, transfers, turning.

Every function keeps to one order: what the step needs, what it does to the loops, to the
carriage, to the counter.

Source: University of Brighton, "Short row or holding technique 1" (S06).
"""

from __future__ import annotations

from ..machine.needles import NONE, Needle, Needles, between, of
from ..machine.prongs import IN_GOES
from ..machine.set_up_steps import Carriage
from ..machine.steps import (
    Bring,
    Cross,
    Hold,
    Increase,
    Position,
    Resume,
    Side,
    Slip,
    Transfer,
    Tuck,
    TurnLoop,
    TurnWork,
)
from ..machine.tools import Tool
from .set_up_effects import need_weights_off
from .state import Bed, End, Refused


def bring(bed: Bed, step: Bring) -> None:
    """Move empty needles into a position."""
    # needs
    bed.need_on_bed(step.needles)
    if step.position is Position.NON_WORKING and (full := step.needles & bed.loaded):
        raise Refused("loop-dropped", full, "empty needles to put out of work",
                      f"loops on {full}, which would drop")
    bed.need_empty(step.needles)
    # loops: none; needles change position
    bed.place(step.needles, step.position)
    # carriage, counter: as they were


def turn_work(bed: Bed, step: TurnWork) -> None:
    """Turn all work over between its own ends, with all that hangs from it."""
    # needs
    bed.need_empty_feeder()
    work = bed.loaded
    need_weights_off(bed, "the work is turned")
    if not work:
        raise Refused("nothing-to-turn", NONE, "work on the needles", "an empty bed")
    if held := work & bed.holding:
        raise Refused("held-stitches", held, "no stitch in holding", f"{held} held")
    bed.need_in_work(work.turned_within(work))
    # loops
    bed.use(Tool.GARTER_BAR, work.across)
    bed.layers = [(loop, on.turned_within(work)) for loop, on in bed.layers]
    bed.columns = {bed.passed: bed.loaded.mask}
    for places in (bed.seats, bed.under_cord):
        for name, needles in places.items():
            places[name] = needles.turned_within(work)
    for name, left in bed.strands.items():  # what was right of a strand is now left of it
        bed.strands[name] = left.shifted(1).turned_within(work)
    bed.half_at = bed.half_at and bed.half_at.other
    # carriage: as it was; yarn ends went round with the work
    bed.ends = {yarn: End(end.side.other, end.joined) for yarn, end in bed.ends.items()}
    # counter: as it was


def transfer(bed: Bed, step: Transfer) -> None:
    """Move loops sideways, onto needles that are in work or holding."""
    landing = step.needles.shifted(step.by)
    # needs
    bed.need_loaded(step.needles)
    bed.need_no_cord(step.needles | landing)
    if not step.by:
        raise Refused("no-move", step.needles, "a move to the left or right", "a move by none")
    if len(landing) != len(step.needles):
        raise Refused("needle-off-bed", step.needles, "needles of the bed", "a move beyond it")
    bed.need_pushed_up(landing)
    # loops
    _use_to_move(bed, step)
    for loop, on in bed.lift(step.needles):
        bed.lay(loop, on.shifted(step.by))
    emptied = step.needles - landing
    bed.place(emptied, Position.NON_WORKING if step.rest else Position.WORKING)
    # carriage, counter: as they were


def turn_loop(bed: Bed, step: TurnLoop) -> None:
    """Turn the long loops that the last row laid over two empty needles each."""
    # needs
    if not bed.long:
        raise Refused("no-long-loop", step.needles, "a long loop over two needles", "none")
    second = of(*(a if bed.side is Side.LEFT else b for a, b in bed.long.spans()))
    if step.needles != second:
        raise Refused("wrong-needles", step.needles, f"those nearer to the carriage, {second}",
                      f"{step.needles}")
    # loops: each needle has one now
    bed.use(Tool.TRANSFER)
    bed.long = NONE
    # carriage, counter: as they were


def _use_to_move(bed: Bed, step: Transfer) -> None:
    """Note what moves the stitches: prongs side by side, in goes, or the garter bar.

    A longer row of neighbours is lifted whole, and weights would pull it off.
    """
    together = len(step.needles) if step.needles.is_unbroken else \
        max(b.place - a.place + 1 for a, b in step.needles.spans())
    if together > IN_GOES:
        need_weights_off(bed, "a row of stitches is lifted")
        bed.use(Tool.LIFT, together)
    else:
        bed.use(Tool.TRANSFER, together)


def cross(bed: Bed, step: Cross) -> None:
    """Exchange the two parts of every group of neighbouring stitches."""
    # needs
    bed.need_loaded(step.needles)
    bed.need_in_work(step.needles)
    bed.need_no_cord(step.needles)
    size = step.left + step.right
    if step.left < 1 or step.right < 1:
        raise Refused("no-move", step.needles, "stitches that change places", "none on one side")
    for a, b in step.needles.spans():
        if (b.place - a.place + 1) % size:
            raise Refused("not-neighbouring", between(a, b), f"groups of {size} side by side",
                          f"{b.place - a.place + 1}")
    # loops
    going = _parts(step)
    for loop, on in bed.lift(step.needles):
        bed.lay(loop, (on & going).shifted(step.right) | (on - going).shifted(-step.left))
    bed.use(Tool.CROSSING, max(step.left, step.right))
    bed.crossed += len(step.needles)
    # carriage, counter: as they were


def _parts(step: Cross) -> Needles:
    """The left-hand part of every group, which goes to the right."""
    size = step.left + step.right
    return of(*(Needle(a.place + at) for a, b in step.needles.spans()
                for at in range(b.place - a.place + 1) if at % size < step.left))


def tuck(bed: Bed, step: Tuck) -> None:
    """Choose needles over which the next row only lays its yarn."""
    _need_choice(bed, step.needles)
    # loops: as they were until the row
    bed.tucking |= step.needles
    # carriage, counter: as they were


def slip(bed: Bed, step: Slip) -> None:
    """Choose needles that the next row passes by.

    A carriage set to knit or to slip knits those that a cast-on left fully forward. Those put back
    from there or from holding stand in upper working position: in the slip setting the carriage
    would knit them too, so they are held for the row (common practice, no source).
    """
    _need_choice(bed, step.needles)
    if ahead := step.needles & bed.forward:
        raise Refused("slip-forward", ahead, "needles put back before they are slipped",
                      f"{ahead} fully forward since the cast-on")
    if (raised := step.needles & bed.raised) != step.by_holding:
        raise Refused("slip-raised", raised, f"{raised or 'none'} slipped by holding",
                      f"{step.by_holding or 'none'}")
    # loops: as they were
    bed.slipping |= step.needles
    # carriage, counter: as they were


def _need_choice(bed: Bed, needles: Needles) -> None:
    # needs
    bed.need_loaded(needles)
    bed.need_in_work(needles)
    bed.need_no_cord(needles)
    if twice := needles & (bed.tucking | bed.slipping):
        raise Refused("chosen-twice", twice, "needles not chosen yet", f"{twice} chosen")


def increase(bed: Bed, step: Increase) -> None:
    """Give each empty needle a loop from the stitch beside it.

    Claw weights under that stitch pull at the new one too (common practice, no source).
    """
    # needs
    bed.need_empty(step.needles)
    stitches = bed.loaded
    if lone := step.needles - stitches.shifted(1) - stitches.shifted(-1):
        raise Refused("no-neighbour", lone, "a stitch on the needle beside", f"none beside {lone}")
    beside = step.needles.shifted(1) | step.needles.shifted(-1)
    bed.need_no_cord(beside & stitches)
    # loops
    bed.use(Tool.TRANSFER)
    bed.place(step.needles, Position.WORKING)
    if bed.claws & beside:
        bed.claws |= step.needles
    bare = step.needles
    for loop, on in reversed(tuple(bed.layers)):
        if reached := bare & (on.shifted(1) | on.shifted(-1)):
            bed.lay(loop, reached)
            bare -= reached
    # carriage, counter: as they were


def hold(bed: Bed, step: Hold) -> None:
    """Push needles forward to holding, at the ends of the work only.

    Several on the side the carriage travels to next, one on its own side until a row has been
    knitted (S06). Between knitting needles the yarn would float across (common practice, no
    source).
    """
    # needs
    bed.need_loaded(step.needles)
    bed.need_in_work(step.needles)
    if bed.carriage is not Carriage.HOLD:
        raise Refused("hold-off", step.needles, "the carriage set to hold first",
                      f"set to {bed.carriage.value}")
    if not (bed.working & bed.loaded) - step.needles:
        raise Refused("hold-everything", step.needles, "a stitch left to knit", "none")
    near = bed.beyond_work(step.needles, bed.side)
    far = bed.beyond_work(step.needles, bed.side.other)
    if inner := step.needles - near - far:
        raise Refused("hold-between", inner, "needles at an end of the work to hold",
                      f"{inner} between needles that knit")
    if len(bed.near | near) > 1:
        raise Refused("hold-side", bed.near | near,
                      f"one needle held on the {bed.side.value}, where the carriage stands",
                      f"{len(bed.near | near)}")
    # loops: stay on their needles
    bed.place(step.needles, Position.HOLDING)
    bed.near |= near
    # carriage, counter: as they were


def resume(bed: Bed, step: Resume) -> None:
    """Put held needles back in work.

    With the yarn hanging from the work, several on the carriage's own side would be bridged by
    a float: only one there (common practice, no source).
    """
    # needs
    bed.need_on_bed(step.needles)
    if loose := step.needles - bed.holding - bed.forward:
        raise Refused("not-held", loose, "needles in holding", f"{loose} not held")
    near = bed.beyond_work(step.needles, bed.side)
    if len(near) > 1 and bed.feeder and bed.ends[bed.feeder].joined:
        raise Refused("resume-side", near,
                      f"one needle put back on the {bed.side.value}, where the carriage stands",
                      f"{len(near)}")
    # loops: stay on their needles
    bed.place(step.needles, Position.WORKING)
    bed.raised |= step.needles
    bed.near -= step.needles
    # carriage, counter: as they were

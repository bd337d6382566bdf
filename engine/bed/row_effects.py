"""How the bed does the steps around the carriage: yarn, dial, counter, rows by machine.

Every function keeps to one order: what the step needs, what it does to the loops, to the
carriage, to the counter.

Sources: the author of The Neckline Encyclopedia, "Buttonhole band, method 1 revised" (D04);
TECHknitter, "Provisional cast on: knitting up vs. knitting down" (D09).
"""

from __future__ import annotations

from ..machine.edge_steps import upper
from ..machine.needles import NONE, Needles, between
from ..machine.set_up_steps import Carriage
from ..machine.step_keys import CastOnMethod, StepYarn, Topic
from ..machine.steps import (
    CastOn,
    Dial,
    FreePass,
    Knit,
    SetCounter,
    SetDial,
    Thread,
    Unthread,
)
from ..machine.tools import Tool
from .set_up_effects import need_even_weights, need_levers, need_set_for_one, need_weight
from .state import Bed, End, Refused

_ON_TOOLS = dict.fromkeys((CastOnMethod.LATCH_CHAIN, CastOnMethod.PEG_CHAIN),
                          (Tool.LATCH, Tool.PEGS))


def thread(bed: Bed, step: Thread) -> None:
    """Put a yarn into the feeder at the carriage."""
    # needs
    bed.need_empty_feeder()
    bed.need_yarn(step.yarn)
    bring_end(bed, step.yarn, fresh=step.fresh, under=step.under)
    # loops: as they were
    # carriage
    bed.feeder = step.yarn
    # counter: as it was


def bring_end(bed: Bed, yarn: StepYarn, *, fresh: bool, under: Needles) -> None:
    """Bring a yarn's end to a feeder: a new one, or the one that hangs at the carriage.

    A new end alone can be laid `under` needles, held on the carriage's side.
    """
    if fresh:
        bed.need_no_old_end(yarn)
    else:
        bed.need_end_at_carriage(yarn)
    if under and (not fresh or under - bed.near):
        raise Refused("laid-under", under, "a new end laid under a needle held at its side",
                      f"{under}")
    if fresh:
        bed.ends[yarn] = End(bed.side, joined=False, under=under)


def unthread(bed: Bed, step: Unthread) -> None:
    """Take the yarn out of the feeder."""
    # needs
    bed.need_feeder()
    # loops: as they were
    # carriage
    if step.cut or not bed.ends[bed.feeder].joined:
        del bed.ends[bed.feeder]
    bed.feeder = StepYarn.NONE
    # counter: as it was


def set_dial(bed: Bed, step: SetDial) -> None:
    """Set the tension dial."""
    # needs
    if step.dial.thirds < 0:
        raise Refused("no-such-dial", NONE, "a dial from 0 up", str(step.dial))
    # loops: as they were
    # carriage
    bed.dial = step.dial
    if bed.second.arm:
        bed.second.dial = step.dial
    # counter: as it was


def set_counter(bed: Bed, step: SetCounter) -> None:
    """Set the row counter."""
    # needs
    if step.rows < 0:
        raise Refused("no-such-count", NONE, "a row counter from 0 up", str(step.rows))
    # loops, carriage: as they were
    # counter
    bed.counter = step.rows


def cast_on(bed: Bed, step: CastOn) -> None:
    """Lay one loop of the feeder's yarn on each needle."""
    # needs
    bed.need_feeder()
    bed.need_empty(step.needles)
    bed.need_in_work(step.needles)
    bed.need_end_at_carriage(bed.feeder)
    # loops
    for tool in _ON_TOOLS.get(step.method, ()):
        bed.use(tool)
    bed.lay(bed.feeder, step.needles)
    if step.method is CastOnMethod.BY_HAND:
        bed.forward |= step.needles
    # carriage: as it was; the yarn now hangs from the work
    bed.ends[bed.feeder] = End(bed.side, joined=True)
    # counter: as it was


def knit(bed: Bed, step: Knit) -> None:
    """Knit rows with the carriage over every needle in work."""
    # needs
    row, loaded = bed.working - bed.tucking - bed.slipping, bed.loaded
    need_set_up(bed, step.yarn, step.dial, step.rows)
    need_levers(bed)
    need_fills(row - loaded, step.fills)
    long = _long_loops(step)
    _need_passes(bed, row, step)
    _need_one_yarn(bed, row)
    bed.need_end_at_carriage(step.yarn)
    bed.need_clear_path(step.yarn, bed.working)
    need_weight(bed, row & loaded, step.rows)
    need_even_weights(bed, row & loaded, step.rows)
    # loops
    knit_through(bed, row, step.yarn, step.rows)
    if bed.tucking:
        bed.lay(step.yarn, bed.tucking)
        bed.need_room(bed.tucking)
    bed.count_knitted(step.yarn, row | bed.tucking, step.rows, whole_rows=step.rows)
    bed.raised &= bed.slipping
    bed.tucking = bed.slipping = NONE
    bed.long = long
    # carriage
    if step.rows % 2:
        bed.side = bed.side.other
    bed.leave_end(step.yarn)
    bed.near = NONE
    bed.attended.pop(Topic.FOLD_UP, None)
    # counter
    bed.count(step.rows)


def need_set_up(bed: Bed, yarn: StepYarn, dial: Dial, rows: int) -> None:
    """Refuse a row without its yarn in the feeder, its dial set, or a needle to knit it."""
    bed.need_feeder()
    if bed.feeder != yarn:
        raise Refused("wrong-yarn", NONE, f"{yarn} in the feeder", f"{bed.feeder}")
    if bed.dial != dial:
        raise Refused("wrong-dial", NONE, f"the dial at {dial}",
                      "a dial never set" if bed.dial is None else f"the dial at {bed.dial}")
    if rows < 1:
        raise Refused("no-rows", NONE, "at least one row", f"{rows}")
    if not bed.working:
        raise Refused("nothing-in-work", NONE, "needles in work", "none")


def _need_one_yarn(bed: Bed, row: Needles) -> None:
    """A yarn in the second feeder that no needle takes would float across the whole work, and
    without it the carriage must not be set for two."""
    if bed.contrast:
        raise Refused("contrast-idle", bed.picked, "an empty second feeder, or a row of two yarns",
                      f"{bed.contrast} in it")
    need_set_for_one(bed, row)


def need_fills(empty: Needles, fills: Needles) -> None:
    """Refuse empty needles in work that the row does not name, and others that it names."""
    if empty == fills:
        return
    if unasked := empty - fills:
        raise Refused("fills-unasked", unasked, "a stitch on every needle in work",
                      f"empty needles {unasked}, which would take new loops unasked")
    if full := fills - empty:
        raise Refused("fills-mismatch", full, "empty needles in work to take new loops",
                      f"{full} not empty or not in work")


def _long_loops(step: Knit) -> Needles:
    """The empty needles side by side over which the row lays one loop: two, and one row at most."""
    if not step.fills:
        return NONE
    long = step.fills & (step.fills.shifted(1) | step.fills.shifted(-1))
    if more := [between(a, b) for a, b in long.spans() if b.place - a.place > 1]:
        raise Refused("long-loop", more[0], "at most two empty needles side by side", f"{more[0]}")
    if long and step.rows > 1:
        raise Refused("long-loop", long, "one row, and its long loops turned",
                      f"{step.rows} rows over empty neighbours {long}")
    return long


def _need_passes(bed: Bed, row: Needles, step: Knit) -> None:
    """Needles are chosen for one row, and the row must name them and knit others."""
    chosen = bed.tucking | bed.slipping
    if chosen != step.passes:
        unlike = (chosen - step.passes) | (step.passes - chosen)
        raise Refused("passes-mismatch", unlike, f"to pass {step.passes or 'none'}",
                      f"{chosen or 'none'} chosen")
    if chosen and step.rows != 1:
        raise Refused("chosen-rows", chosen, "one row with these needles", f"{step.rows}")
    if chosen and not row:
        raise Refused("nothing-in-work", chosen, "a needle that knits", "none")


def knit_through(bed: Bed, row: Needles, yarn: StepYarn, rows: int) -> None:
    """Knit all loops on `row` through `rows` times, leaving one loop of `yarn` on each needle.

    A first row above ravel cord begins to wait, and so do the upper edges of openings.
    """
    _open_first_row(bed, row, yarn)
    for cord, needles in tuple(bed.under_cord.items()):
        if needles & row:
            _open_upper_edge(bed, cord, row)
    bed.forward -= row
    bed.knit_loops(yarn, row, rows)


def _open_first_row(bed: Bed, row: Needles, yarn: StepYarn) -> None:
    edge, cord = bed.program.first_row, bed.program.cord_yarn
    if not edge or yarn == cord or edge in bed.waiting or edge in bed.hung:
        return
    for loop, on in bed.layers:
        if loop == cord and (first := on & row):
            # n stitches wait as n - 1 full loops; a half loop at one end makes n again (D09)
            bed.waiting[edge] = len(first)
            bed.seats[edge] = first
            # lifted at the end away from the yarn's tail, where the row ended and turned: derived
            # from chezlizzie.blogspot.com, 2014-03-20, and fionawinning.blogspot.com, 2007-10-31
            bed.half_at = bed.ends[yarn].side.other
            bed.cords[edge] = (edge,)
            return


def _open_upper_edge(bed: Bed, cord: str, row: Needles) -> None:
    needles = bed.under_cord[cord]
    if missed := needles - row:
        raise Refused("cord-split", missed, f"a row over all needles of {cord}",
                      f"{missed} passed over")
    # A strand runs from each stitch of the row above to the next: n + 1 touch n stitches inside
    # the fabric (D04), one less for each end of the opening at a free edge (D09).
    strands = (needles | needles.shifted(-1)) & row & row.shifted(-1)
    bed.strands[upper(cord)] = strands
    bed.waiting[upper(cord)] = len(strands)
    del bed.under_cord[cord]


def free_pass(bed: Bed, step: FreePass) -> None:
    """Move the carriage across without yarn."""
    # needs
    bed.need_empty_feeder()
    _need_nothing_knits(bed)
    # loops: as they were
    # carriage
    bed.side = bed.side.other
    bed.near = NONE
    # counter
    bed.count(1)


def _need_nothing_knits(bed: Bed) -> None:
    """Without yarn a needle that knits drops its stitch: slip levers, or all stitches held."""
    if bed.second.arm:
        raise Refused("arm-on", NONE, "the main bed's carriage alone", "the arm joins two")
    free = bed.loaded if bed.carriage is Carriage.KNIT else bed.loaded & bed.working
    if free and bed.carriage is not Carriage.SLIP:
        raise Refused("pass-knits", free, "slip levers set, or every stitch held",
                      f"a carriage set to {bed.carriage.value}, which knits {free}")

"""How the bed does what hands do without the carriage: rows and cords by hand, and looking.

Every function keeps to one order: what the step needs, what it does to the loops, to the
carriage, to the counter.
"""

from __future__ import annotations

from ..machine.edge_steps import lower, upper
from ..machine.step_keys import Topic
from ..machine.steps import Attend, HandKnit
from ..machine.tools import Tool
from .owed import note_topic
from .row_effects import knit_through
from .state import Bed, End, Refused

_TOOLS = {Topic.CLIP_ENDS: (Tool.CLIPS,), Topic.CLOTH: (Tool.CLOTH,),
          Topic.MARK_EDGES: (Tool.MARKS,), Topic.MARK_NECK: (Tool.MARKS,),
          Topic.MARK_LOOPS: (Tool.MARKS,),
          Topic.MARK_QUARTER: (Tool.MARKS,), Topic.MARK_BUTTON: (Tool.MARKS,),
          Topic.CHOOSE_SLITS: (Tool.MARKS,), Topic.MAKE_LOOPS: (Tool.LATCH,),
          Topic.SEW_BUTTONS: (Tool.SEWING_NEEDLE,),
          **dict.fromkeys((Topic.SEW_FACING, Topic.SEW_OFF, Topic.SEW_ENDS, Topic.JOIN_PARTS,
                           Topic.DARN_IN, Topic.SEW_SLITS, Topic.JOIN_SLITS, Topic.OVERCAST_HOLES,
                           Topic.SEW_ROUND_HOLES, Topic.OVERCAST_CORD_EYELETS,
                           Topic.JOIN_HOLES, Topic.SEW_ON_BAND),
                          (Tool.BLUNT_NEEDLE,))}


def hand_knit(bed: Bed, step: HandKnit) -> None:
    """Knit a row by hand, or with a cord the stitches of an opening."""
    bed.need_yarn(step.yarn)
    if step.cord:
        _knit_cord(bed, step)
    else:
        _knit_row_by_hand(bed, step)


def _knit_cord(bed: Bed, step: HandKnit) -> None:
    low, high = lower(step.cord), upper(step.cord)
    # needs
    bed.need_free_name(step.cord, low, high)
    bed.need_loaded(step.needles)
    bed.need_in_work(step.needles)
    bed.need_neighbours(step.needles)
    bed.need_no_cord(step.needles)
    if twice := step.needles & bed.doubled:
        raise Refused("needle-doubled", twice, "one loop a needle", f"more on {twice}")
    if any(loop == step.yarn and on & step.needles for loop, on in bed.layers):
        raise Refused("cord-yarn", step.needles, "a separate length of another yarn",
                      f"{step.yarn}, of which the stitches themselves are")
    # loops
    bed.lift(step.needles)
    bed.lay(step.yarn, step.needles)
    bed.waiting[low] = len(step.needles)
    bed.seats[low] = bed.under_cord[step.cord] = step.needles
    bed.cords[step.cord] = (low, high)
    bed.count_knitted(step.yarn, step.needles, 1, whole_rows=0)
    # carriage, counter: as they were


def _knit_row_by_hand(bed: Bed, step: HandKnit) -> None:
    # needs
    bed.need_loaded(step.needles)
    if missed := bed.working - step.needles:
        raise Refused("row-incomplete", missed, "a row over all needles in work",
                      f"{missed} left out")
    bed.need_in_work(step.needles)
    # loops
    knit_through(bed, step.needles, step.yarn, 1)
    bed.count_knitted(step.yarn, step.needles, 1, whole_rows=1)
    # carriage: as it was, but the yarn went across without it
    if step.yarn in bed.ends:
        bed.ends[step.yarn] = End(bed.ends[step.yarn].side.other, joined=True)
    # counter: as it was


def attend(bed: Bed, step: Attend) -> None:
    """Something for hands and eyes; nothing changes."""
    # needs
    if step.to not in set(Topic):
        raise Refused("no-such-topic", step.needles, "one of " + ", ".join(Topic), step.to)
    if step.needles:
        bed.need_on_bed(step.needles)
    note_topic(bed, step)
    # loops, carriage, counter: as they were
    for tool in _TOOLS.get(step.to, ()):
        bed.use(tool)

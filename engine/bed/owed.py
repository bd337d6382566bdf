"""What a band owes to hands and eyes: holes at the needles that were chosen, cords clipped,
a cloth under the garment, a fold before layers are hung, and all sewn that was left to sew.

The bed sees none of these on its needles; it sees that what the later steps need was done. A band
is known by the side on which row 1 of its garment's edges lies.
"""

from __future__ import annotations

from ..machine.edge_steps import DrawCord, Hang, lower
from ..machine.needles import NONE, Needles
from ..machine.step_keys import Topic
from ..machine.steps import Attend, CastOn, HandKnit, Knit, Step, Transfer
from .state import Bed, Refused

CHOOSING = (Topic.CHOOSE_HOLES, Topic.CHOOSE_EYELETS)
SEWN_DOWN = (Topic.SEW_FACING, Topic.LEAVE_FACING, Topic.SEW_OFF)
# Begun by one topic, ended by another: the code where either is left out.
PAIRS = ((Topic.MARK_LOOPS, Topic.MAKE_LOOPS, "loops-unmade"),
         (Topic.CHOOSE_EYELETS, Topic.OVERCAST_CORD_EYELETS, "hole-unsewn"))
ROUND_HOLES = (Topic.OVERCAST_HOLES, Topic.SEW_ROUND_HOLES)


def need_chosen(bed: Bed, step: Step) -> None:
    """Refuse a hole beside the needles that were chosen for it, and a row without that hole."""
    made, beside = NONE, NONE
    match step:
        case Knit():
            if left := bed.chosen - bed.holed:
                raise Refused("hole-elsewhere", left, "a hole at all chosen needles",
                              f"none at {left}")
            bed.chosen = bed.holed = NONE
        case HandKnit(cord=cord, needles=needles) if cord:
            made = needles
        case CastOn(needles=needles):
            made = needles
        case Transfer(needles=needles, by=by):
            made, beside = needles, needles.shifted(by)
    if other := made - bed.chosen:
        raise Refused("hole-elsewhere", other, f"a hole at {bed.chosen}, as chosen", f"at {other}")
    bed.holed |= made | beside


def note_topic(bed: Bed, step: Attend) -> None:
    """Remember what was attended to. Raises Refused for clips on other needles than the cords'."""
    if bed.program.row_one is None:
        return
    bed.attended[step.to] = bed.attended.get(step.to, 0) + 1
    if step.to in CHOOSING:
        bed.chosen, bed.holed = step.needles, NONE
    elif step.to == Topic.CLIP_ENDS:
        mask = 0
        for needles in bed.under_cord.values():
            mask |= needles.mask
        if step.needles != Needles(mask):
            raise Refused("clips-elsewhere", step.needles, f"clips on the cords of {Needles(mask)}",
                          f"at {step.needles}")
        bed.clipped |= bed.under_cord.keys()


def need_ready_to_hang(bed: Bed, step: Hang) -> None:
    """Refuse to hang a finished edge over the bed without a cloth, and layers that are not folded.

    An edge that is hung over stitches before the first row is the garment's, which lies back over
    the bed; without a first row it is the line along which the band began.
    """
    if bed.program.row_one is None or step.onto_empty:
        return
    of_garment = step.edge in dict(bed.program.edges)
    if of_garment and bed.program.first_row:
        if Topic.CLOTH not in bed.attended:
            raise Refused("no-cloth", step.needles, "a cloth over the bed, under the garment",
                          "none")
    elif (step.lean is not None or of_garment) and Topic.FOLD_UP not in bed.attended:
        raise Refused("not-folded", step.needles, "the layer folded up first", "it is not")
    bed.closed = bed.closed or of_garment


def need_seen_to(bed: Bed, step: DrawCord) -> None:
    """Refuse to draw a cord out that no hole was chosen for, or whose ends hung loose."""
    if bed.program.row_one is None or lower(step.edge) not in bed.seats:
        return
    if not bed.attended.keys() & set(CHOOSING):
        raise Refused("hole-unchosen", NONE, "needles chosen for every hole", "none")
    if step.edge not in bed.clipped:
        raise Refused("cord-unclipped", NONE, f"both ends of {step.edge} clipped",
                      "they hung where the carriage passes")


def need_done(bed: Bed) -> None:
    """Refuse a band that is left with something to sew, or to darn in."""
    if bed.program.row_one is None:
        return
    done = bed.attended.keys()
    for first, then, code in PAIRS:
        if (first in done) is not (then in done):
            raise Refused(code, NONE, f"{first}, then {then}", "one of them alone")
    layers = bed.attended.get(Topic.CHOOSE_SLITS, 0)
    if (Topic.SEW_SLITS in done, Topic.JOIN_SLITS in done) != (layers > 0, layers > 1):
        raise Refused("slit-unsewn", NONE, "the slits of each layer sewn, those of two together",
                      f"slits chosen in {layers}, and not all sewn")
    by_transfer = Topic.CHOOSE_HOLES in done and not bed.clipped and not bed.bound
    if by_transfer is not bool(done & set(ROUND_HOLES)):
        raise Refused("hole-unsewn" if by_transfer else "hole-unchosen", NONE,
                      "holes chosen and sewn round", "one of them alone")
    if not bed.program.edges and Topic.SEW_ON_BAND not in done:
        raise Refused("band-unsewn", NONE, "a band that hangs from no edge sewn on", "it is not")
    if bed.closed and not done & {Topic.SEW_ENDS, Topic.LEAVE_ENDS}:
        raise Refused("ends-open", NONE, "the short ends of two layers sewn, or left for a seam",
                      "neither")
    if set(bed.waiting) - dict(bed.program.edges).keys() and not done & set(SEWN_DOWN):
        raise Refused("edge-unsewn", NONE, "what waits sewn down", "it is not")
    if not done & {Topic.DARN_IN, Topic.LEAVE_FACING}:
        raise Refused("ends-hanging", NONE, "every end of yarn darned in", "they hang")

"""How the bed knits two yarns in one row: setting, second feeder, needles picked, the row itself.

Every function keeps to one order: what the step needs, what it does to the loops, to the
carriage, to the counter.
"""

from __future__ import annotations

from ..machine.needles import NONE, Needles
from ..machine.step_keys import StepYarn
from ..machine.tools import Tool
from ..machine.two_yarn_steps import (
    KnitTwo,
    PickContrast,
    SetYarns,
    ThreadContrast,
    UnthreadContrast,
)
from .row_effects import bring_end, knit_through, need_fills, need_set_up
from .set_up_effects import need_levers, need_set_for_two, need_weight
from .state import Bed, Refused


def set_yarns(bed: Bed, step: SetYarns) -> None:
    """Set the carriage to knit one yarn in a row, or two."""
    # needs: nothing
    # loops: as they were
    # carriage
    bed.yarns = step.to
    # counter: as it was


def thread_contrast(bed: Bed, step: ThreadContrast) -> None:
    """Put a yarn into the second feeder at the carriage, beside the one in the first."""
    # needs
    bed.need_feeder()
    bed.need_yarn(step.yarn)
    if bed.contrast:
        raise Refused("feeder-full", NONE, "an empty second feeder", f"{bed.contrast} in it")
    if step.yarn == bed.feeder:
        raise Refused("wrong-yarn", NONE, "another yarn than in the feeder", step.yarn)
    bring_end(bed, step.yarn, fresh=step.fresh, under=step.under)
    # loops: as they were
    # carriage
    bed.contrast = step.yarn
    bed.use(Tool.SECOND_FEEDER)
    # counter: as it was


def unthread_contrast(bed: Bed, step: UnthreadContrast) -> None:
    """Take the yarn out of the second feeder."""
    # needs
    _need_contrast(bed)
    # loops: as they were
    # carriage
    if step.cut or not bed.ends[bed.contrast].joined:
        del bed.ends[bed.contrast]
    bed.contrast = StepYarn.NONE
    # counter: as it was


def pick(bed: Bed, step: PickContrast) -> None:
    """Choose needles that take the contrast yarn in the next row.

    So would all others that were put back in upper working position, or that a cast-on left fully
    forward: these are put back first, and those lowered (common practice, no source).
    """
    # needs
    _need_contrast(bed)
    bed.need_in_work(step.needles)
    bed.need_no_cord(step.needles)
    if twice := step.needles & (bed.tucking | bed.slipping | bed.picked):
        raise Refused("chosen-twice", twice, "needles not chosen yet", f"{twice} chosen")
    if bed.forward:
        raise Refused("pick-forward", bed.forward, "needles put back before some are picked",
                      f"{bed.forward} fully forward since the cast-on")
    if (up := bed.raised - bed.picked - step.needles) != step.lowered:
        raise Refused("pick-raised", (up - step.lowered) | (step.lowered - up),
                      f"{up or 'none'} lowered", f"{step.lowered or 'none'}")
    # loops: as they were until the row
    bed.picked |= step.needles
    bed.raised -= step.lowered
    # carriage, counter: as they were


def knit_two(bed: Bed, step: KnitTwo) -> None:
    """Knit a row with both yarns over every needle in work."""
    row, picked = bed.working, bed.picked
    # needs
    need_set_up(bed, step.yarn, step.dial, step.rows)
    need_levers(bed)
    need_weight(bed, row & bed.loaded, 1)
    _need_both(bed, step, row)
    need_set_for_two(bed)
    need_fills(row - bed.loaded, step.fills)
    for yarn in (step.yarn, step.contrast):
        bed.need_end_at_carriage(yarn)
        bed.need_clear_path(yarn, row)
    # loops
    knit_through(bed, row, step.yarn, 1)
    _relabel(bed, picked, step.contrast)
    bed.count_knitted(step.yarn, row - picked, 1, whole_rows=1)
    bed.count_knitted(step.contrast, picked, 1, whole_rows=1)
    bed.picked = bed.raised = NONE
    # carriage
    bed.side = bed.side.other
    for yarn in (step.yarn, step.contrast):
        bed.leave_end(yarn)
    bed.near = NONE
    # counter
    bed.count(1)


def _need_both(bed: Bed, step: KnitTwo, row: Needles) -> None:
    """Both yarns in their feeders, and stitches for both of them, as the row names them."""
    _need_contrast(bed)
    if bed.contrast != step.contrast:
        raise Refused("wrong-yarn", NONE, f"{step.contrast} in the second feeder", bed.contrast)
    if step.rows != 1:
        raise Refused("chosen-rows", bed.picked, "one row with these needles", f"{step.rows}")
    if chosen := bed.tucking | bed.slipping | step.passes:
        raise Refused("two-yarns-passed", chosen, "a row of two yarns that knits every needle",
                      f"{chosen} to tuck or slip")
    if unlike := (bed.picked - step.picks) | (step.picks - bed.picked):
        raise Refused("picks-mismatch", unlike, f"{step.picks or 'none'} for the contrast yarn",
                      f"{bed.picked or 'none'} picked")
    if not bed.picked or bed.picked == row:
        raise Refused("row-of-one-yarn", row, "a stitch for each of the two yarns", "all for one")


def _relabel(bed: Bed, needles: Needles, yarn: StepYarn) -> None:
    """The loops just laid on `needles` are of another yarn; their columns are as they were."""
    layers = [(loop, on - needles) for loop, on in bed.layers if on - needles]
    bed.layers = [*layers, (yarn, needles)]


def _need_contrast(bed: Bed) -> None:
    if not bed.contrast:
        raise Refused("contrast-missing", NONE, "a yarn in the second feeder", "none")

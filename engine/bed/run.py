"""The virtual needle bed: runs a program as a machine would, or says where it cannot.

It knows the step vocabulary and nothing of how a program was planned, so that its agreement
is evidence. A program that cannot be knitted is a Refusal in the result; only a fault of our
own escapes as an exception. It works on whole sets of needles: its time goes with the steps.
"""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType
from typing import Any

from ..machine import edge_steps, rib_steps, set_up_steps, steps
from ..machine import two_yarn_steps as two_yarns
from ..machine.needles import NONE
from ..machine.programs import Program
from ..machine.step_keys import Topic
from ..machine.steps import Claim, Step
from ..machine.trace import State, Trace
from . import (
    by_hand,
    closing_up,
    edge_effects,
    needle_effects,
    rib_effects,
    row_effects,
    set_up_effects,
    two_yarn_effects,
)
from .owed import need_chosen, need_done
from .state import Bed, Refused, empty_bed

DOES: MappingProxyType[type[Step], Callable[[Bed, Any], None]] = MappingProxyType({
    steps.Bring: needle_effects.bring,
    steps.Thread: row_effects.thread,
    steps.Unthread: row_effects.unthread,
    steps.SetDial: row_effects.set_dial,
    steps.SetCounter: row_effects.set_counter,
    steps.CastOn: row_effects.cast_on,
    steps.Knit: row_effects.knit,
    steps.HandKnit: by_hand.hand_knit,
    steps.FreePass: row_effects.free_pass,
    steps.TurnWork: needle_effects.turn_work,
    steps.Transfer: needle_effects.transfer,
    steps.TurnLoop: needle_effects.turn_loop,
    steps.Cross: needle_effects.cross,
    steps.Tuck: needle_effects.tuck,
    steps.Slip: needle_effects.slip,
    two_yarns.SetYarns: two_yarn_effects.set_yarns,
    two_yarns.ThreadContrast: two_yarn_effects.thread_contrast,
    two_yarns.UnthreadContrast: two_yarn_effects.unthread_contrast,
    two_yarns.PickContrast: two_yarn_effects.pick,
    two_yarns.KnitTwo: two_yarn_effects.knit_two,
    edge_steps.Hang: edge_effects.hang,
    edge_steps.BindOff: edge_effects.bind_off,
    edge_steps.DrawCord: edge_effects.draw_cord,
    steps.Hold: needle_effects.hold,
    steps.Resume: needle_effects.resume,
    edge_steps.TakeOff: edge_effects.take_off,
    edge_steps.CloseUp: closing_up.close_up,
    steps.Increase: needle_effects.increase,
    steps.Attend: by_hand.attend,
    set_up_steps.SetCarriage: set_up_effects.set_carriage,
    set_up_steps.HangWeights: set_up_effects.hang_weights,
    set_up_steps.TakeWeightsOff: set_up_effects.take_weights_off,
    set_up_steps.Couple: set_up_effects.couple,
    set_up_steps.Uncouple: set_up_effects.uncouple,
    set_up_steps.CutEnd: set_up_effects.cut_end,
    rib_steps.Latch: rib_effects.latch,
    rib_steps.RaiseSecond: rib_effects.raise_second,
    rib_steps.LowerSecond: rib_effects.lower_second,
    rib_steps.Rack: rib_effects.rack,
    rib_steps.BringSecond: rib_effects.bring_second,
    rib_steps.Zigzag: rib_effects.zigzag,
    rib_steps.KnitBeds: rib_effects.knit_beds,
    rib_steps.Across: rib_effects.across,
})


def run(program: Program) -> Trace:
    """Run `program` from an empty bed, recounting every claim, to the end or a refusal.

    `states` has one state for every step that was done, so that a refused step number k leaves
    k - 1 of them. The refusal of what is left behind is numbered one after the last step.
    """
    bed = empty_bed(program)
    states: list[State] = []
    refusal = None
    try:
        for step in program.steps:
            _need_chosen_row(bed, step)
            _need_turned(bed, step)
            rib_effects.need_clear_second(bed, step)
            if bed.chosen.mask:
                need_chosen(bed, step)
            DOES[type(step)](bed, step)
            _note_marks(bed, step)
            _recount(bed, step.claim)
            states.append(bed.state())
        _need_nothing_left(bed)
    except Refused as fault:
        refusal = fault.at(len(states) + 1, bed.counter or 0)
    return Trace(states=tuple(states), stitches=tuple(bed.stitches.items()),
                 rows=tuple((yarn, rows) for yarn, rows in bed.rows.items() if rows),
                 refusal=refusal, tools=tuple(bed.tools))


def _need_chosen_row(bed: Bed, step: Step) -> None:
    """Refuse anything between choosing needles for a row and that row."""
    if not (bed.tucking.mask or bed.slipping.mask or bed.picked.mask):
        return
    chosen = bed.tucking | bed.slipping | bed.picked
    if not isinstance(step, steps.Tuck | steps.Slip | two_yarns.PickContrast
                                 | two_yarns.SetYarns | set_up_steps.SetCarriage | steps.Knit):
        raise Refused("row-chosen", chosen, "the row that needles were chosen for",
                      f"{chosen} chosen, and no row knitted")


def _need_turned(bed: Bed, step: Step) -> None:
    """Refuse anything between a row that laid a long loop and the turning of that loop."""
    if bed.long.mask and not isinstance(step, steps.TurnLoop):
        raise Refused("long-loop", bed.long, "the long loop turned before anything else",
                      f"one long loop over two needles, {bed.long}, which is no stitch on either")


def _note_marks(bed: Bed, step: Step) -> None:
    """What was put in to mark a row or a stitch stays until everything is counted back in."""
    if step.marks:
        bed.marked |= step.needles if isinstance(step, edge_steps.Hang | steps.Attend) else NONE
    elif isinstance(step, steps.Attend) and step.to == Topic.COUNT_BACK:
        bed.marked = NONE


def _recount(bed: Bed, claim: Claim) -> None:
    opposite = len(bed.second.loaded) if bed.second.loops else 0
    if bed.counter is None:
        raise Refused("counter-unset", NONE, "a row counter set before it is read",
                      "one that nobody set")
    stitches, loops = bed.counted
    true = (bed.counter, stitches + opposite, loops + opposite, bed.side)
    if claim != true:
        raise Refused("wrong-claim", NONE, _words(claim, Claim(*true)),
                      _words(Claim(*true), claim))


def _words(claim: Claim, other: Claim) -> str:
    """What `claim` says where it differs from `other`."""
    parts = (
        (claim.counter != other.counter, f"row counter {claim.counter}"),
        (claim.stitches != other.stitches, f"{claim.stitches} stitches"),
        (claim.loops != other.loops, f"{claim.loops} loops"),
        (claim.side != other.side, f"carriage on the {claim.side.value}"),
    )
    return ", ".join(text for differs, text in parts if differs)


def _need_nothing_left(bed: Bed) -> None:
    """Refuse loops, edges and cords left behind, save the edges the program says it leaves,
    and a program that knitted more or less of a yarn than it claims in all."""
    _recount_totals(bed)
    if bed.marked:
        raise Refused("marks-left", bed.marked, "every pin, thread and clip counted back in",
                      f"some beside {bed.marked}")
    if bed.long:
        raise Refused("long-loop", bed.long, "the long loop turned", "it is not")
    if bed.second.up:
        raise Refused("second-bed-up", bed.second.working, "the second bed let down", "it is up")
    if bed.loaded:
        raise Refused("loops-left", bed.loaded, "an empty bed", f"loops on {bed.loaded}")
    _need_left_as_claimed(bed)
    need_done(bed)
    set_up_effects.need_set_back(bed)
    _need_all_cut(bed)


def _need_all_cut(bed: Bed) -> None:
    """Refuse a yarn that still hangs uncut from the work; a ravel cord is drawn out of it."""
    for yarn, end in bed.ends.items():
        if end.joined and yarn != bed.program.cord_yarn:
            raise Refused("end-uncut", NONE, f"{yarn} cut", f"it hangs at the {end.side.value}")


def _recount_totals(bed: Bed) -> None:
    """Refuse a program that claims other totals than were knitted, crossed and latched."""
    for yarn, stitches, rows in bed.program.totals:
        knitted = (bed.stitches.get(yarn, 0), bed.rows.get(yarn, 0))
        if knitted != (stitches, rows):
            raise Refused("wrong-total", NONE, f"{stitches} stitches in {rows} rows of {yarn}",
                          f"{knitted[0]} stitches in {knitted[1]} rows")
    if bed.crossed != bed.program.crossed:
        raise Refused("wrong-crossed", NONE, f"{bed.program.crossed} stitches crossed in all",
                      f"{bed.crossed}")
    if bed.latched != bed.program.latched:
        raise Refused("wrong-latched", NONE, f"{bed.program.latched} stitches latched up in all",
                      f"{bed.latched}")


def _need_left_as_claimed(bed: Bed) -> None:
    """Refuse edges and cords that wait unsaid, and edges that the program leaves in words only."""
    leaves = bed.program.leaves
    for edge in bed.waiting:
        if edge not in leaves:
            raise Refused("edge-left", bed.seats.get(edge, NONE), f"{edge} hung",
                          "it still waits")
    for cord, edges in bed.cords.items():
        if not {cord, *edges} & set(leaves):
            raise Refused("cord-left", NONE, f"{cord} drawn out", "it is still in the work")
    for edge in leaves:
        if edge not in bed.waiting:
            raise Refused("edge-missing", NONE, f"{edge} left waiting", "no such edge waits")

"""Words for what changes nothing on the needles: weights, clips, cloth, looking, finishing."""

from __future__ import annotations

from ..catalogue.bands import KINDS
from ..catalogue.methods import SEWN
from ..machine import edge_steps, steps
from ..machine.step_keys import Topic
from ..markup.html import anchor, esc, link
from ..plan.band import BandPart, BandPlan
from ..proof.yarn_ends import joining_end, short_end, shut_here
from . import lengthwise_instructions
from .band_ends import is_closed, is_outer
from .buttonhole_instructions import (
    choose_slits,
    ends_inside,
    is_bound_across,
    join_slits,
    make_loops,
    mark_loops,
    overcast,
    sew_round,
    sew_slits,
)
from .buttonhole_text import holes_name
from .casing_instructions import choose_eyelets, leave_ends, overcast_eyelets
from .chosen_holes import choose_holes
from .corner_text import corners_sewn
from .cut_lengths import to_sew
from .edge_marks import named_marks
from .edge_methods import method_text
from .explained import why
from .fabric_names import whole_called
from .facing_instructions import end_led, ends_unsewn, unsewn
from .hung_band_instructions import fold_up, is_knitted_on
from .instruction import NEXT, Instruction, Moment
from .marked_edge import count_back
from .mitre_instructions import pinned
from .reason_phrases import reason_text
from .rolling import hidden, pressed_over, seam_of_roll
from .words import counted, joined, needles_text, stitches

HOLLOW = ("neck", "armhole")  # edges that curve or turn inward
_CLOSING = "closing-holes.html"
_FINISHING = "loose-row-and-chain-off.html"
_OR_SEAM = ", or into the seam that it ends at"
_WASTE_OUT = "Take the waste yarn out when all are sewn."
_WASTE_IN = "Leave the waste yarn in until those are sewn too."
_BACK_STITCH = ("back-stitched.html#close", "how to back-stitch")


def buttons_anchor(band: str) -> str:
    """The id of the list of a band's buttons."""
    return f"{anchor(band)}-buttons"


def attend(m: Moment, step: steps.Attend) -> Instruction:
    """What changes nothing on the needles: looking, clipping, covering."""
    return ATTENTION[step.to](m, step)


def _needles_forward(m: Moment, step: steps.Attend) -> Instruction:
    return Instruction(text="<b>Bring all needles in work fully forward.</b> Check that every "
                     "latch is open, with its loops behind it. Knit the next row slowly.",
                       how=("hung-hem.html#forward", "how to join a hung hem"))


def _doubled_forward(m: Moment, step: steps.Attend) -> Instruction:
    return Instruction(text="<b>Bring all needles that hold two loops fully forward,</b> latches "
                     "open. Knit the next row slowly: both loops must go off together.")


def _waste_end(m: Moment, step: steps.Attend) -> Instruction:
    hangs = "garment" if is_knitted_on(m) else "strip of waste yarn with the ravel cord"
    return Instruction(text=f"<b>Let the {hangs} hang down in front,</b> clear of the carriage's "
                            "way.",
                       how=(f"{_CLOSING}#waste-end", "how to go on after the holes"))


def _clip(m: Moment, step: steps.Attend) -> Instruction:
    cords = len(step.needles.spans())
    return Instruction(text=f"<b>Clip both ends of every cord,</b> hanging down in front: "
                     f"{2 * cords} clips on {counted(cords, 'cord')}. Put the needles back to "
                     "working position, latches open.",
                       how=("buttonholes-by-hand.html#clip-ends", "how to clip the ends"))


def _fold_up(m: Moment, step: steps.Attend) -> Instruction:
    if not any(isinstance(s, edge_steps.Hang) and s.lean is not None for s in m.later):
        return fold_up(m)
    return Instruction(text="<b>Fold the first layer up towards you,</b> so that the two purl "
                     "sides meet and the cords lie below the needles of their holes. Bring the "
                     "clipped ends of the cords out at the top, between the layers, so that they "
                     "are not shut into the fold.",
                       how=(f"{_CLOSING}#fold-up", "how to fold the band up"))


def _look(m: Moment, step: steps.Attend) -> Instruction:
    kind = KINDS[m.strip.plan.band.kind]
    return Instruction(text="<b>Look at every buttonhole</b> from both sides. A fault can still be "
                     f"undone here; once the band is {'closed' if kind.doubled else 'bound off'} "
                     "it cannot.")


_CLEAN = "It keeps oil and hooks off the work."


def _cloth(m: Moment, step: steps.Attend) -> Instruction:
    return Instruction(text="<b>Lay a clean cloth over the bed,</b> behind the needles; the "
                     f"{esc(whole_called(m.pattern.garment).lower())} will lie on it.{why(_CLEAN)}",
                       how=("hanging-an-edge.html#cloth", "how to keep the fabric clean"))


def _mark_edges(m: Moment, step: steps.Attend) -> Instruction:
    at_neck = step.to == Topic.MARK_NECK
    edges = "the front edge" if at_neck else "both edges" if len(step.needles) > 1 else "the edge"
    then = ": here it ends, and the neck begins." if at_neck else "."
    named = "" if at_neck else named_marks(m.work, (m.after.counter,))
    return Instruction(text=f"<b>Tie a thread into {edges}</b> at this row, beside "
                     f"{needles_text(step.needles)}{then}{named}")


def _holes_first(m: Moment) -> str:
    """What is darned in before the short ends of a band shut it in (common practice, no source)."""
    plan = m.strip.plan
    if (is_closed(plan) and plan.part is None) or not any(map(is_bound_across, m.earlier)):
        return ""
    return ("<b>Darn in both ends of the bind-off across the holes,</b> while you can reach "
            "between the layers. ")


def _sew_ends(m: Moment, step: steps.Attend) -> Instruction:
    plan = m.strip.plan
    if plan.part is not None:
        return _sew_own_end(plan, _holes_first(m))
    if is_closed(plan):
        where = plan.edge_path.closes or "seam that is still open"
        when = "in one with it" if where == "side seam" else "when that is joined"
        return Instruction(text="<b>Leave the band's two short ends open.</b> They meet at the "
                         f"{esc(where)}: sew them to each other, both layers, {when}.")
    return Instruction(text=f"{_holes_first(m)}<b>Sew the band's two short ends shut,</b> each "
                     f"with about {to_sew(short_end(plan))} of main yarn: sew the two layers "
                     "together from the fold to where the band is joined on.",
                       how=(f"{_FINISHING}#short-ends", "how to close the ends"))


def _sew_own_end(plan: BandPlan, first: str) -> Instruction:
    if not shut_here(plan):
        return Instruction(text=f"{first}<b>Leave both short ends open:</b> each is sewn to the "
                         f"part beside it, both layers{_OR_SEAM * is_outer(plan)}.")
    return Instruction(text=f"{first}<b>Sew shut the short end where the band ends,</b> with "
                     f"about {to_sew(short_end(plan))} of main yarn: sew the two layers together "
                     "from the fold to where the band is joined on. The other is joined to the "
                     "part beside it.",
                       how=(f"{_FINISHING}#short-ends", "how to close the ends"))


def _sew_facing(m: Moment, step: steps.Attend) -> Instruction:
    what, plan = reason_text(step) or "facing", m.strip.plan
    if plan.part and _opens(plan):
        return _sew_parts(what, plan, plan.part,
                          f"{_hollow(what, plan)}{corners_sewn(plan)}", ends_unsewn(plan))
    if KINDS[plan.band.kind].faces:
        waits = plan.facing.stitches.value if plan.facing else plan.stitches.value
        waits += plan.mitre.wider if plan.mitre else 0
        return _sew_behind(what, waits, unsewn(plan), end_led(plan),
                           f"{_hollow(what, plan)}{corners_sewn(plan)}", ends_unsewn(plan))
    if plan.facing and plan.facing.places:
        return Instruction(text=f"<b>Turn the {what} to the inside</b> along its fold. "
                         "With the end that was left, back-stitch its "
                         f"{stitches(plan.facing.stitches.value)} that wait down evenly, to the "
                         f"{plan.stitches.value} of the row where it began. {_WASTE_OUT}",
                           how=_BACK_STITCH)
    return Instruction(text=f"<b>Turn the {what} to the inside</b> along its fold. "
                     "With the end that was left, back-stitch its waiting stitches down, stitch by "
                     f"stitch, to the row where it began. {_WASTE_OUT}",
                       how=_BACK_STITCH)


def _sew_parts(
        what: str, plan: BandPlan, part: BandPart, stretch: str, later: str) -> Instruction:
    """A facing in parts, sewn down at last (common practice, no source)."""
    last = unsewn(plan)
    shares = [number - last * (n in (1, part.of)) for n, number in enumerate(part.shares, 1)]
    each = joined(f"{number} of part {n}" for n, number in enumerate(shares, 1))
    stay = f"the last {stitches(last)} at each open end, and those for a join," if last else \
        "the stitches for a join"
    return Instruction(text=f"<b>Turn the {what} to the inside</b> along its fold, "
                     f"{'both' if part.of == 2 else 'all'} parts, and lay it flat behind the "
                     f"garment.{stretch}{NEXT}Leave {stay} on the waste yarn. {end_led(plan)}Sew "
                     f"down the others, {each}: each part with the end that was left there, "
                     "evenly, each stitch to the bar behind it, so that nothing shows outside."
                     f"{later}{_WASTE_IN if last else _WASTE_OUT}",
                       how=("../bands/facing.html#steps", "how to sew a facing down"))


def _leave_facing(m: Moment, step: steps.Attend) -> Instruction:
    """A part of a facing to which another is joined."""
    plan, part = m.strip.plan, m.strip.plan.part
    assert part is not None
    waits = plan.stitches.value + (plan.mitre.wider if plan.mitre else 0)
    return Instruction(text=f"<b>Leave the facing hanging open,</b> its {stitches(waits)} on the "
                     "waste yarn. Do not sew it down before "
                     f"{'both' if part.of == 2 else f'all {part.of}'} parts are joined. Leave its "
                     "ends of yarn, too.")


def _hollow(what: str, plan: BandPlan) -> str:
    """Behind a curve that is hollow the line a facing is sewn to is longer than itself."""
    return (f" Stretch the {what} at each corner and hollow of the edge: the line behind it is "
            "longer there.") if plan.band.garment_edge in HOLLOW else ""


def _sew_behind(
        what: str, waits: int, last: int, first: str, stretch: str, later: str) -> Instruction:
    """A facing, behind the garment. The `last` stitches at either end are sewn down later."""
    some = f"its {stitches(waits)} that wait" if not last else \
        f"all but the last {stitches(last)} at each open end, {waits - 2 * last} now"
    return Instruction(text=f"<b>Turn the {what} to the inside</b> along its fold and lay it flat "
                     f"behind the garment.{stretch}{NEXT if stretch else ' '}{first}With the "
                     f"end that was left, sew down {some}, evenly, each to the bar behind it, so "
                     f"that nothing shows outside.{later}{_WASTE_IN if last else _WASTE_OUT}",
                       how=("../bands/facing.html#steps", "how to sew a facing down"))


def _sew_off(m: Moment, step: steps.Attend) -> Instruction:
    waits = m.after.waiting[-1][1]
    return Instruction(text=f"<b>Sew the {stitches(waits)},</b> "
                     f"{method_text(SEWN)}, with the end that was left. "
                     f"{_WASTE_OUT}")


_PRESS = " Fold the collar over. Press it under a damp cloth, if the yarn's label allows steam."


def _darn_in(m: Moment, step: steps.Attend) -> Instruction:
    plan = m.strip.plan
    which = "where each part began and where it" if _opens(plan) else \
        "where the band began and where it"
    ends = {s.to for s in m.earlier_of(steps.Attend)}
    done = (Topic.SEW_ENDS in ends and bool(_holes_first(m))) or (
        Topic.SEW_ON_BAND in ends and KINDS[plan.band.kind].doubled)
    return Instruction(text=f"<b>Darn in every end of yarn,</b> {which} "
                     f"ended{ends_inside(m.earlier, holes_done=done)}. "
                     f"{hidden(m.pattern.fabrics, plan)}"
                     f"{_PRESS * pressed_over(plan)}{pinned(plan)}",
                       how=(f"{_FINISHING}#darn", "how to darn in"))


def _opens(plan: BandPlan) -> bool:
    """True for a part of a facing: it hangs open until all its parts are joined."""
    return plan.part is not None and KINDS[plan.band.kind].faces


def _sew_buttons(m: Moment, step: steps.Attend) -> Instruction:
    plan = m.strip.plan
    firm = " Sew them on firmly with strong thread, and check them after every wash."
    listed, buttons = f"#{buttons_anchor(plan.band.key)}", counted(plan.buttons, "button")
    where = lengthwise_instructions.at_threads(plan, link(listed, "listed distances")) or \
        f"opposite the {holes_name(plan)}, at the {link(listed, 'distances listed below')}."
    alone = plan.edge_path.fronts or plan.is_lengthwise
    sew = f"Sew on {buttons}" if alone else f"Sew {buttons} to the other band"
    return Instruction(text=f"<b>{sew},</b> {where}{firm * m.pattern.wearer.is_child}")


def _join_parts(m: Moment, step: steps.Attend) -> Instruction:
    plan = m.strip.plan
    assert plan.part is not None
    layers = "each layer of one to the same layer of the other, " \
        if KINDS[plan.band.kind].doubled else ""
    return Instruction(text=f"<b>Join this part to part {plan.part.number - 1}</b> at the "
                     f"{esc(plan.part.first)}, with about {to_sew(joining_end(plan))} of main "
                     f"yarn: sew their ends together row by row, {layers}with "
                     f"one stitch of each taken into the seam.{_ends_open(plan)}"
                     f"{seam_of_roll(m.pattern.fabrics, plan)} The stitches left "
                     "in sight then lie side by side as the band was counted.",
                       how=("mattress-seam-by-rows.html", "how to sew row to row"))


def _ends_open(plan: BandPlan) -> str:
    """What holds the live stitch of either part at the end of their seam."""
    return (" Both hang open: sew from the garment to the waste yarn. There draw the end through "
            "the waiting stitch for the join of either part, so that it cannot run."
            ) if _opens(plan) else ""


ATTENTION = {
    Topic.CHOOSE_HOLES: choose_holes, Topic.CLIP_ENDS: _clip, Topic.FOLD_UP: _fold_up,
    Topic.WASTE_END: _waste_end, Topic.LOOK_AT_HOLES: _look, Topic.CLOTH: _cloth,
    Topic.MARK_EDGES: _mark_edges, Topic.MARK_NECK: _mark_edges,
    Topic.SEW_ENDS: _sew_ends, Topic.JOIN_PARTS: _join_parts, Topic.SEW_FACING: _sew_facing,
    Topic.LEAVE_FACING: _leave_facing, Topic.SEW_OFF: _sew_off,
    Topic.DARN_IN: _darn_in, Topic.SEW_BUTTONS: _sew_buttons, Topic.COUNT_BACK: count_back,
    Topic.CHOOSE_SLITS: choose_slits, Topic.SEW_SLITS: sew_slits, Topic.JOIN_SLITS: join_slits,
    Topic.OVERCAST_HOLES: overcast, Topic.SEW_ROUND_HOLES: sew_round,
    Topic.MARK_LOOPS: mark_loops, Topic.MAKE_LOOPS: make_loops,
    Topic.CHOOSE_EYELETS: choose_eyelets, Topic.OVERCAST_CORD_EYELETS: overcast_eyelets,
    Topic.LEAVE_ENDS: leave_ends, Topic.NEEDLES_FORWARD: _needles_forward,
    Topic.DOUBLED_FORWARD: _doubled_forward,
    **lengthwise_instructions.ATTENTION}

"""Words for the steps around the carriage: yarn, dial, row counter, rows, free pass, turning."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import takewhile

from ..catalogue.methods import CAST_ON_METHODS, DRAWN, SEWN
from ..fabric.piece_fabrics import piece_fabric, piece_fabrics
from ..machine import edge_steps, steps
from ..machine.needles import NONE, Needles
from ..machine.reasons import Reason
from ..machine.set_up_steps import Carriage
from ..machine.step_keys import CastOnMethod, StepYarn
from ..markup.html import esc
from ..pattern.model import Fold
from ..proof.proof import KnittedPiece, Strip
from ..proof.yarn_ends import LAST_ROW, SEAM
from .cut_lengths import TAIL, to_cut
from .edge_methods import chain_text, method_text
from .explained import KEEP, THERE, why
from .held import here_already
from .hole_steps import cast_on_holes, move_for_holes, push_empty
from .instruction import Instruction, Moment
from .mitre_instructions import is_mitre, pair_instruction
from .reason_phrases import reason_text
from .stripe_instructions import caught_text, laid_under, stripe_begun, striped_yarn
from .terms.yarn_names import yarn_name
from .turns import turns_text
from .words import counted, dial_text, needles_text, needles_toward, stitches, upto_text

_FREE_PASS = ("row-counter-and-free-pass.html#free-pass", "how to make a free pass")
_DRAWN = ", those that the diagram shows in work,"
_FOLD_PAGE = {
    Fold.TURNED: ("fold-turned.html", "how to turn the work"),
    Fold.LOOSE: ("fold-loose.html", "how to knit a loose fold row"),
    Fold.PICOT: ("fold-picot.html", "how to make a picot fold"),
}


def bring(m: Moment, step: steps.Bring) -> Instruction:
    """Empty needles into position."""
    if is_mitre(step):
        return pair_instruction(m)
    if step.position is steps.Position.NON_WORKING:
        which = f"empty needles {spans_text(step.needles)}"
        if len(step.needles.spans()) > 3:  # those between stand back already
            which = f"needles that are now empty, {spans_text(step.needles)},"
        return Instruction(text=f"<b>Push the {which} back</b> to non-working position.",
                           diagram=bool(m.after.holding and m.after.loaded - m.after.holding))
    is_first = m.before is None or not m.before.working
    rest = why("All other needles stay in non-working position.") * is_first
    return Instruction(text=f"<b>Bring needles {spans_text(step.needles, _DRAWN)}</b> to "
                     f"{step.position.value} position: {counted(len(step.needles), 'needle')}."
                     f"{rest}", diagram=not m.is_band or m.strip.layout.leaves_out)


def spans_text(needles: Needles, which: str = "") -> str:
    """Needles from first to last; of many groups only the ends and `which` of them are meant."""
    return needles_text(needles) if len(needles.spans()) <= 3 else \
        f"{needles.first} to {needles.last}{which}"


def thread(m: Moment, step: steps.Thread) -> Instruction:
    """Yarn into the feeder."""
    yarn, side = yarn_name(step.yarn), m.after.side.value
    if not step.fresh:
        return Instruction(text=f"<b>Put the {yarn} back into the feeder.</b> It hangs on the "
                         f"{side}.{stripe_begun(m, step)}{THERE}")
    if step.yarn == m.program.cord_yarn:
        return Instruction(text=f"<b>Thread a length of {yarn}</b> on the {side}. "
                         f"Let a hand's length hang in front.{THERE}")
    named = _own_yarn(m) if step.yarn == StepYarn.MAIN else striped_yarn(m, step)
    which = f" ({esc(named)})" if named else ""
    return Instruction(text=f"<b>Thread the {yarn}</b>{which} on the {side}."
                     f"{laid_under(step)}{stripe_begun(m, step)}{THERE}")


def _own_yarn(m: Moment) -> str:
    """The name of the main yarn of a piece or band, where the pattern's are not all the same."""
    spec, fabrics = m.pattern.garment, m.pattern.fabrics
    own = [fabric.yarn for fabric in piece_fabrics(spec, fabrics)]
    stripes = spec.stripes if spec else None
    keys = dict.fromkeys((*own, *(stripes.yarns if stripes else ()),
                          *(band.yarn for band in m.pattern.bands.values())))
    if len(keys) < 2:
        return ""
    return m.pattern.yarns[m.work.plan.band.yarn if isinstance(m.work, Strip)
                           else piece_fabric(spec, fabrics, m.work.piece.key).yarn].called


def unthread(m: Moment, step: steps.Unthread) -> Instruction:
    """Yarn out of the feeder."""
    yarn = m.before.feeder if m.before else StepYarn.NONE
    called = yarn_name(yarn)
    if yarn == m.program.cord_yarn:
        return Instruction(text=f"<b>Take the {called} out of the feeder.</b> Do not cut it: "
                         "let both ends hang in front.")
    if not step.cut:
        return Instruction(text=f"<b>Take the {called} out of the feeder.</b> {KEEP} it stays "
                         f"hanging from the work on the {m.after.side.value}.{caught_text(step)}")
    by_hand = next((s for s in _until_new_end(m) if isinstance(s, steps.HandKnit)
                    and s.yarn == yarn and not s.cord), None)
    if step.reason is Reason.NONE and by_hand:
        end = to_cut(by_hand.needles.across, m.pattern.bed.pitch, LAST_ROW)
        return Instruction(text=f"<b>Cut the {called}, leaving an end of about {end},</b> "
                         f"and take it out of the feeder. Leave this end on the "
                         f"{m.after.side.value}: you knit the last row with it later, by hand.")
    if yarn != StepYarn.WASTE and (bound := _bound_off(m)):
        return Instruction(check=True, text=f"<b>Cut the {called},</b> {TAIL}, and take it out of "
                           "the feeder. Draw the tail through the last loop. "
                           f"{push_empty(many=len(bound) > 1)}")
    if yarn != StepYarn.WASTE and (long := _pulled_down(m, step)):
        return Instruction(text=f"<b>Pull down about {long} of {called},</b> cut it there, and "
                           f"take it out of the feeder. {_END_FOR[step.reason]}")
    new = ": the stitches are sewn off with new lengths" * _new_lengths(m, step)
    end = f", {TAIL},</b> and take the yarn" if yarn != StepYarn.WASTE else "</b> and take it"
    return Instruction(text=f"<b>Cut the {called}{end} out of the feeder{new}.")


def _until_new_end(m: Moment) -> Iterator[steps.Step]:
    """What is still done with the end that is cut, up to the next new end."""
    return takewhile(lambda s: not isinstance(s, steps.Thread), m.later)


def _bound_off(m: Moment) -> Needles:
    """The needles of which all stitches were bound off just before, down to one loop."""
    last = m.earlier[-1] if m.earlier else None
    return last.needles if isinstance(last, edge_steps.BindOff) and not last.keep_last else NONE


_END_FOR = {Reason.TO_SEW_OFF: "The stitches are sewn off with this end.",
            Reason.TO_SEW_DOWN: "The facing is sewn down with this end.",
            Reason.TO_DRAW_THROUGH: "This end is drawn through the stitches."}


def _new_lengths(m: Moment, step: steps.Unthread) -> bool:
    """True where the stitches are sewn off with other ends than the one that is cut."""
    return step.reason is Reason.TO_SEW_OFF and isinstance(m.work, KnittedPiece) \
        and bool(m.work.piece.bound_off_to)


def _pulled_down(m: Moment, step: steps.Unthread) -> str:
    """How long the end is that something is done with, "" for a tail."""
    if step.reason not in _END_FOR or _new_lengths(m, step):
        return ""
    if step.reason is Reason.TO_DRAW_THROUGH:
        off = next(s for s in m.later if isinstance(s, edge_steps.TakeOff))
        return str(to_cut(len(off.needles.stretch), m.pattern.bed.pitch, int(DRAWN.yarn), tails=1))
    times = int(SEWN.yarn) if step.reason is Reason.TO_SEW_OFF else SEAM
    return str(to_cut(m.band.across, m.pattern.bed.pitch, times, tails=1))


def set_dial(m: Moment, step: steps.SetDial) -> Instruction:
    """The dial."""
    why = f", {reason}" if (reason := reason_text(step)) else ""
    first = m.fold is Fold.LOOSE and step.reason is Reason.FOR_FOLD_ROW
    what = "both dials" if m.after.second else "the dial"
    return Instruction(text=f"<b>Set {what} to {dial_text(step.dial)}</b>{why}.",
                       how=_FOLD_PAGE[Fold.LOOSE] if first else None)


def set_counter(m: Moment, step: steps.SetCounter) -> Instruction:
    """The row counter."""
    reason = reason_text(step)
    if m.before is not None and step.rows == m.before.counter - 1:
        return Instruction(text=f"<b>Turn the row counter back to {step.rows}</b>."
                                f"{why(reason) if reason else ''}")
    return Instruction(text=f"{here_already(m, step)}<b>Set the row counter to {step.rows}</b>"
                            f"{', ' * bool(reason)}{reason}.")


def cast_on(m: Moment, step: steps.CastOn) -> Instruction:
    """A loop on each needle."""
    if step.reason is Reason.BUTTONHOLE:
        return cast_on_holes(m, step)
    waste = step.method is CastOnMethod.WASTE_START
    method = "" if waste else f" {method_text(CAST_ON_METHODS[step.method])}"
    before, after = chain_text(m, step)
    where = spans_text(step.needles, " that are in work")
    return Instruction(
        text=f"{before}<b>Cast on{method} with the {yarn_name(m.after.feeder)}</b> over needles "
             f"{where}, one loop on each: {stitches(len(step.needles))}.{after}",
        how=("waste-start.html", "how to start on waste yarn") if waste else None, check=True)


def knit(m: Moment, step: steps.Knit) -> Instruction:
    """Rows with the carriage."""
    rows = counted(step.rows, "row")
    comma = "," if step.reason in (Reason.FOLD_ROW, Reason.LOOSE_FOLD_ROW) else ""
    charted = isinstance(m.work, KnittedPiece) and m.work.piece.chart is not None
    comma += ", plain," * (charted and step.reason is Reason.OVER_LAST_DECREASES)
    why = f"{comma} {reason}" if (reason := reason_text(step)) else ""
    empty = len(m.before.working - m.before.loaded) if m.before else 0
    fills = (f" {'The' if empty == 1 else 'Every'} empty needle takes up a new loop in the first "
             "row.") if step.fills else ""
    forward = ""
    if step.reason is Reason.ABOVE_GATHERING and not any(
            s.reason is step.reason for s in m.earlier_of(steps.Knit)):
        which = "all needles in work" if m.before and m.before.doubled == m.before.loaded else \
            "the needles that hold two loops"
        forward = f"Bring {which} fully forward, latches open. "
        why += ", slowly" if step.rows == 1 else ", the first one slowly"
    return Instruction(text=f"{forward}<b>Knit {rows}</b>{why}{upto_text(m.after.counter)}."
                     f"{fills}{turns_text(m, step)}", check=True, diagram=m.is_band)


def knit_by_hand(m: Moment, step: steps.HandKnit) -> Instruction:
    """A row made by hand over everything."""
    side, loose = m.after.side, " loose" * step.loose
    long = " Make every new loop at least twice as long as a stitch." if step.loose else ""
    several = any(not hung.onto_empty for hung in m.earlier_of(edge_steps.Hang))
    loops = "all loops of the needle together" if several else "the loop"
    return Instruction(
        text=f"<b>Knit one{loose} row by hand</b> with the end of {yarn_name(step.yarn)}, from "
             f"the {side.value}, where it hangs, to the {side.other.value}: on each of the needles "
             f"{needles_toward(step.needles, side.other)} draw the yarn through "
             f"{loops}.{long}",
        after="<small>Carriage and row counter stay as they are.</small>",
        how=("loose-row-and-chain-off.html#loose-row", "how to knit the loose row"), check=True)


def free_pass(m: Moment, step: steps.FreePass) -> Instruction:
    """The carriage across without knitting."""
    reason, side, how = reason_text(step), m.after.side.value, _FREE_PASS
    if step.reason is Reason.TO_SIDE_OF_YARN:
        return Instruction(how=how, text=f"<b>Make a free pass to the {side},</b> with the feeder "
                           f"empty.{why(reason)}")
    held = "" if m.after.loaded else " and no stitch on the needles"
    if m.after.loaded and m.after.carriage is not Carriage.SLIP:
        held = ", every stitch in holding position and the carriage set to hold"
    return Instruction(text=f"<b>Make a free pass to the {side}:</b> with the feeder empty{held}, "
                            f"take the carriage across{', ' * bool(reason)}{reason}.", how=how)


def turn_work(m: Moment, step: steps.TurnWork) -> Instruction:
    """The work over on the garter bar."""
    times = 1 + len(m.earlier_of(steps.TurnWork))
    faces = "The knit side now faces you" if times % 2 else "The purl side faces you again"
    cords = (" Keep the cords' ends clear of bed and bar."
             if any(step.cord for step in m.earlier_of(steps.HandKnit)) else "")
    return Instruction(
        text=f"<b>Turn the work</b> with the garter bar: take all "
             f"{len(m.after.loaded)} stitches off, turn the bar end for end, its teeth still "
             f"towards the needles, and put them back on needles "
             f"{needles_text(m.after.loaded)}.{cords} {faces}.",
        after="The yarn's end has changed sides with the work and hangs on the "
              f"{m.after.side.value}." if _same_yarn_next(m) else "",
        how=_FOLD_PAGE[Fold.TURNED], check=True)


def _same_yarn_next(m: Moment) -> bool:
    """True when the yarn that hangs from the work is threaded next: the bed found it there."""
    after = next((s for s in m.later if not isinstance(s, steps.Attend)), None)
    return isinstance(after, steps.Thread) and not after.fresh


def transfer(m: Moment, step: steps.Transfer) -> Instruction:
    """Stitches onto their neighbours."""
    if step.reason is Reason.FOR_BUTTONHOLES:
        return move_for_holes(m, step)
    if is_mitre(step):
        return pair_instruction(m)
    side, far = ("right" if step.by > 0 else "left"), abs(step.by)
    onto = f"the needle beside it on the {side}" if far == 1 else \
        f"the stitch {far} needles to its {side}"
    emptied = "emptied needle" if len(step.needles) == 1 else "emptied needles"
    if step.rest and len(step.needles.spans()) > 3:  # the diagram names one beyond them too
        emptied += f", {spans_text(step.needles)},"
    rest = (f"Push the {emptied} back to non-working position." if step.rest else
            f"Leave the {emptied} in working position.")
    page = _FOLD_PAGE[Fold.PICOT] if (
        m.fold is Fold.PICOT and step.reason is Reason.FOR_PICOTS) else None
    rows = next((s for s in m.later if isinstance(s, steps.Knit)), None)
    if step.rest and rows and rows.reason is Reason.ABOVE_GATHERING:
        page = ("gathering-a-crown.html", "how to gather a crown")
    many = f" ({stitches(len(step.needles))})" if len(step.needles) > 1 else ""
    return Instruction(text=f"<b>Move the stitch</b> of {needles_text(step.needles)}{many} onto "
                     f"{onto}, with the transfer tool. {rest}",
                       how=page, check=True, diagram=m.is_band)


def cross(m: Moment, step: steps.Cross) -> Instruction:
    """Neighbouring stitches that change places."""
    return Instruction(text=f"<b>Cross</b> {needles_text(step.needles)} in groups of "
                     f"{step.left + step.right}: of each, the {step.left} at the left go to the "
                     "right, the others to the left, those at the "
                     f"{step.first.value} back on the needles first.", check=True)


def tuck(m: Moment, step: steps.Tuck) -> Instruction:
    """Needles that do not knit in the next row, with its yarn laid over them."""
    return Instruction(text=f"<b>For the next row tuck</b> {needles_text(step.needles)}: holding "
                            "position, the carriage set to hold. After it put them back in upper "
                            "working position, every latch open.")


"""Words for what sets the machine up: levers, weights, the connecting arm, an end that is cut."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import takewhile

from ..machine.edge_steps import BindOff, TakeOff
from ..machine.needles import Needles
from ..machine.reasons import Reason
from ..machine.rib_steps import Beds
from ..machine.set_up_steps import (
    Carriage,
    Couple,
    CutEnd,
    HangWeights,
    SetCarriage,
    TakeWeightsOff,
    Uncouple,
    Weight,
)
from ..machine.steps import Hold, Knit, Resume, Step
from ..machine.trace import State
from .cut_lengths import TAIL
from .explained import CLEAR
from .instruction import Instruction, Moment
from .mitre_instructions import is_mitre, pair_instruction
from .reason_phrases import reason_text
from .terms.yarn_names import yarn_name
from .words import from_to

# Where weights are hung on again.
_AGAIN = {Reason.AGAIN: "", Reason.AGAIN_ALONG_FOLD: " along the fold",
          Reason.AGAIN_ON_HEM: " on the hem", Reason.AGAIN_ON_RIB: " on the rib"}
FEET = "<em>Keep your feet clear:</em> weights drop."
KEEP_UNDER = " As you hold more needles, keep the claw weights under the stitches in work."
# After more rows weights that were not moved no longer pull at the needles; common practice, no
# source.
_MOST_STILL = 20  # [rows]
_UP = ", and move them up as the work grows"


def set_carriage(m: Moment, step: SetCarriage) -> Instruction:
    """The levers of the main bed's carriage alone, or of two that are joined."""
    if m.after.second:
        return _of_two(step)
    was = m.before.carriage if m.before else Carriage.KNIT
    if step.to is Carriage.SLIP:
        first = not any(each.to is Carriage.SLIP for each in m.earlier_of(SetCarriage))
        return Instruction(text="<b>Set the slip levers of the carriage:</b> it then passes every "
                         "needle by." if first else "<b>Set the slip levers of the carriage.</b>")
    if was is not Carriage.SLIP:
        why = f", {reason}" if (reason := reason_text(step)) else ""
        return Instruction(text=f"<b>Set the carriage to {step.to.value}</b>{why}.")
    if step.to is Carriage.HOLD:
        return Instruction(text="<b>Set the carriage to hold again,</b> slip levers back: needles "
                         "in holding position stay where they are.")
    return Instruction(text="<b>Set the carriage to knit again:</b> slip levers back, needles in "
                     "working position, latches open.")


def _of_two(step: SetCarriage) -> Instruction:
    whose = {Beds.BOTH: "both carriages", Beds.MAIN: "the main bed's carriage",
             Beds.SECOND: "the second bed's carriage"}[step.bed]
    if step.to is Carriage.SLIP:
        return Instruction(text=f"<b>Set the slip levers of {whose}:</b> it then passes all "
                           "needles of its bed by.")
    return Instruction(text=f"<b>Set {whose} to {step.to.value}.</b>")


def sets_hold(sets: Iterable[Step]) -> bool:
    """True where one of these steps sets the carriage to hold."""
    return any(isinstance(s, SetCarriage) and s.to is Carriage.HOLD for s in sets)


def hang_weights(m: Moment, step: HangWeights) -> Instruction:
    """Weights on: at the start, again after they were off, or claw weights beside held needles."""
    if step.weight is Weight.CLAWS:
        return _claws(m, step)
    if step.weight is Weight.COMB:
        return Instruction(text="<b>Hang the cast-on comb:</b> push it up between the beds, its "
                         "teeth through the zigzag row from below, and run its wire through the "
                         f"teeth above the yarn. {FEET} Hang weights on the comb, the ends first.")
    if step.reason in _AGAIN:
        up = _UP * (_rows_under(m.later) > _MOST_STILL)
        return Instruction(text=f"<b>Hang the weights on again,</b> evenly{_AGAIN[step.reason]}"
                           f"{up}.")
    hang = "<b>Hang the weights</b>" if m.earlier_of(Knit) else \
        "After two or three rows <b>hang the weights</b>"
    return Instruction(text=f"{FEET} {hang} evenly{_UP}.")


def _rows_under(later: Iterable[Step]) -> int:
    """The rows until all weights come off [rows]."""
    under = takewhile(lambda s: not isinstance(s, TakeWeightsOff) or s.claws_only or s.needles,
                      later)
    return sum(s.rows for s in under if isinstance(s, Knit | TakeOff))


def claws_text(needles: Needles, *, moved: bool, again: bool = False) -> str:
    """Claw weights under the stitches that are knitted beside held ones; `again` where they hung
    under another part of the piece before."""
    does = "Move the claw weights" if moved else \
        "Hang the claw weights again" if again else "Hang claw weights"
    return f"<b>{does} under the stitches in work,</b> {from_to(needles)}."


def _claws(m: Moment, step: HangWeights) -> Instruction:
    """Claw weights hung or moved, and what becomes of the other weights. Those under a second half
    hang there already: the claw weights come beside them (common practice, no source)."""
    moved = bool(m.before and m.before.claws)
    again = not moved and any(hung.weight is Weight.CLAWS for hung in m.earlier_of(HangWeights))
    text = claws_text(step.needles, moved=moved, again=again)
    if again and Weight.EVEN in m.after.weights and not m.after.holding & m.after.loaded:
        text += " The other weights stay."
    until = takewhile(lambda s: not isinstance(s, TakeOff | HangWeights | Resume), m.later)
    narrows = not again and any(isinstance(s, Hold) for s in until)
    return Instruction(text=text + KEEP_UNDER * narrows
                       + ("" if moved else held_weights_text(m.after)))


def held_weights_text(state: State) -> str:
    """What becomes of the weights under stitches that wait in hold, where any hang; common
    practice, no source."""
    if Weight.EVEN not in state.weights or not state.holding & state.loaded:
        return ""
    return " Leave the weights under the held stitches in place: they keep these stitches down."


def weights_back_text(state: State) -> str:
    """That the weights pull evenly at stitches put back from hold; common practice, no source."""
    if Weight.EVEN not in state.weights:
        return ""
    return " <em>Check that the weights hang evenly</em> there before you knit."


def weights_off(m: Moment, step: TakeWeightsOff) -> Instruction:
    """Weights off: what makes the next step safe."""
    if is_mitre(step):
        return pair_instruction(m)
    if step.needles:
        return Instruction(text=f"{CLEAR} <b>Take the weights off</b> under the held stitches "
                         f"{from_to(step.needles)}.")
    if step.claws_only:
        return _claws_off(m)
    if m.before and Weight.COMB in m.before.weights:
        return Instruction(text="<em>Support the work</em> with one hand until the comb is down, "
                         "and keep your feet clear. <b>Take the weights off the comb.</b> Draw the "
                         "comb's wire out, and take the comb down.")
    if m.later and isinstance(m.later[0], BindOff):
        return Instruction(text=f"{CLEAR} <b>Take all weights off.</b>")
    return Instruction(text="<em>Support the work</em> with one hand, and keep your feet clear. "
                     "<b>Take all weights off.</b>")


def _claws_off(m: Moment) -> Instruction:
    """Claw weights off: where their stitches come off the bed, with the weights that hung there
    before (common practice, no source); else all stitches hang from the same weights again."""
    last = m.later and isinstance(m.later[0], TakeOff | BindOff)
    which = "all weights off except those under the held stitches" if last else \
        "the claw weights off"
    return Instruction(text=f"{CLEAR} <b>Take {which}.</b>")


def couple(m: Moment, step: Couple) -> Instruction:
    """The connecting arm on."""
    return Instruction(text="<b>Take the main bed's own arm off</b> its carriage. <b>Bring the "
                     f"second bed's carriage to the {m.after.side.value} too, and join both "
                     "carriages</b> with the connecting arm.")


def uncouple(m: Moment, step: Uncouple) -> Instruction:
    """The connecting arm off."""
    return Instruction(text="<b>Take the connecting arm off</b> and put the main bed's own arm on "
                     "its carriage.")


def cut_end(m: Moment, step: CutEnd) -> Instruction:
    """A yarn that was left hanging."""
    return Instruction(text=f"<b>Cut the {yarn_name(step.yarn)}</b> that hangs from the work, "
                     f"{TAIL}.")

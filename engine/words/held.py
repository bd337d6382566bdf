"""Words for needles that are pushed to holding position, put back, and held to be slipped."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from ..machine import edge_steps, set_up_steps, steps
from ..machine.needles import NONE, Needles
from ..machine.reasons import Reason
from ..machine.steps import Side
from ..machine.two_yarn_steps import PickContrast
from . import set_up_instructions
from .instruction import Instruction, Moment
from .reason_phrases import DIVIDES, reason_begun, reason_text
from .set_up_instructions import sets_hold, weights_back_text
from .shaped_edges import Done, Event
from .words import needles_text, which

# What a yarn would do round the needles that are held beside what is knitted: one needle, or two.
_PARTED = {Reason.ALL_BUT_FIRST_HALF: ("bridge the opening",) * 2,
           Reason.ALL_BUT_FIRST_QUARTER: ("tie the quarters together",) * 2,
           Reason.NEXT_QUARTER: ("tie the quarters together",) * 2,
           Reason.ALL_BUT_FIRST_PART: ("bridge the slit", "bridge the slits"),
           Reason.PART: ("bridge the slit", "bridge the slits")}
_HOW = {Reason.ALL_BUT_FIRST_QUARTER:
        ("crown-in-quarters.html", "how to knit a crown in quarters"),
        Reason.ALL_BUT_HALF_OF_NECK: ("neck-opening.html#held", "how to hold a neck")}
# Why needles come back: for rows, which the sentence then begins with.
_FOR_ROWS = (Reason.FOR_LAST_ROW, Reason.FOR_LAST_ROW_BUT_ONE, Reason.FOR_ROWS_OVER_ALL)


def hold(m: Moment, step: steps.Hold) -> Instruction:
    """Needles to holding."""
    why = f" ({reason})" if (reason := reason_text(step)) else ""
    return Instruction(text=f"<b>Push needles {needles_text(step.needles)}</b> forward to "
                     f"holding position{why}.{_stays_open(m, step.reason)}{_half_counted(m, step)}",
                       check=True,
                       how=None if isinstance(step.reason, tuple) else _HOW.get(step.reason))


def _stays_open(m: Moment, reason: Reason) -> str:
    """That no yarn goes round the needles beside an opening, as it does at other turns beside held
    needles: it would tie together what is to part. Where a centre goes off before the row,
    `hang_weights` says it after that: another needle then lies beside the opening.
    """
    if reason not in _PARTED or any(isinstance(s, edge_steps.TakeOff)
                                    for s in takewhile(_is_no_row, m.later)):
        return ""
    held, knits = m.after.holding, m.after.loaded - m.after.holding
    beside = [near for near in (max((n for n in held if n < knits.first), default=None),
                                min((n for n in held if n > knits.last), default=None)) if near]
    if not beside:
        return ""
    one, more = _PARTED[reason]
    these, caught = " or ".join(n.name for n in beside), "it" if len(beside) == 1 else "them"
    return (f" <em>Do not wrap</em> {these}: the yarn would {one if len(beside) == 1 else more}. "
            f"At each turn beside {these} check that the yarn has not caught on {caught}.")


def _is_no_row(step: steps.Step) -> bool:
    return not isinstance(step, steps.Knit)


def hang_weights(m: Moment, step: set_up_steps.HangWeights) -> Instruction:
    """Weights on. With claw weights that follow a neck's centre off the needles, that no yarn goes
    round the needle beside the opening."""
    instruction = set_up_instructions.hang_weights(m, step)
    before = tuple(takewhile(_is_no_row, m.earlier[::-1]))
    if step.weight is not set_up_steps.Weight.CLAWS or not any(
            isinstance(s, edge_steps.TakeOff) for s in before):
        return instruction
    opens = "".join(_stays_open(m, s.reason) for s in before if isinstance(s, steps.Hold))
    return instruction._replace(text=instruction.text + opens)


def _half_counted(m: Moment, step: steps.Hold) -> str:
    """That the row counter counts the rows of the first part, as the bed's own does; and that the
    carriage stays as a chart's tucks have it, where this step does not set it."""
    if step.reason not in DIVIDES:
        return ""
    part, others = DIVIDES[step.reason]
    upto = next(n for n, s in enumerate(m.later)
                if isinstance(s, steps.SetCounter) and s.reason is Reason.WHERE_DIVIDED)
    last = max(n for n, s in enumerate(m.later[:upto]) if isinstance(s, steps.Knit))
    ends = m.work.trace.states[m.upto + last].counter
    stays = "" if sets_hold(m.earlier[-1:]) else " The carriage stays set to hold."
    return (f"{stays} <small>The row counter counts the rows of this {part} too, up to {ends}. "
            f"Before {others} you set it back to {m.after.counter}.</small>")


def resume(m: Moment, step: steps.Resume) -> Instruction:
    """Needles back from holding, to where each stitch stays behind its open latch and the
    carriage, set to hold or to knit, knits it (common practice, no source)."""
    if step.reason is Reason.AFTER_CAST_ON:  # every needle on the bed, just weighted
        return Instruction(text="<b>Put all needles back in upper working position</b>, every "
                           f"latch open.{chosen_next_text(m)}", check=True)
    reason = reason_text(step)
    rows = step.reason in _FOR_ROWS
    why = f" ({reason})" if reason and not rows else ""
    begins = f"{reason_begun(step)} put" if rows else "Put"
    # Before a part between slits the one that was knitted is pushed forward, and that step says it.
    parted = "" if step.reason is Reason.PART else _stays_open(m, step.reason)
    return Instruction(text=f"<b>{begins} needles {needles_text(step.needles)} back in upper "
                     f"working position</b>{why}, every latch open."
                     f"{parted}{weights_back_text(m.after)}", check=True)


def put_back_text(events: Sequence[Event]) -> str:
    """How needles are put back line by line of a table; "" where none are."""
    if not any(act.done is Done.BACK for event in events for act in event.acts):
        return ""
    return ("Where a line of the table says “put back”: push its needles back to upper working "
            f"position, every latch open.{weights_back_text(events[0].after)} Then knit the row "
            "towards them. Before the carriage returns, lay the yarn under the next held needle, "
            "so that no hole is left.")


def here_already(m: Moment, step: steps.SetCounter) -> str:
    """That a half or quarter begins where the carriage stands, where no free pass takes it there:
    a knitter who looks for one finds why there is none."""
    if step.reason is not Reason.WHERE_DIVIDED or isinstance(m.earlier[-1], steps.FreePass):
        return ""
    resumed = next(s for s in m.later if isinstance(s, steps.Resume))
    part = "quarter" if resumed.reason is Reason.NEXT_QUARTER else "half"
    side, all_ = m.after.side, resumed.needles
    outermost = all_.first if side is Side.LEFT else all_.last
    return (f"The carriage is now to the {side.value} of {outermost}, where this {part} begins: "
            "make no free pass. ")


def slip(m: Moment, step: steps.Slip) -> Instruction:
    """Needles that the next row passes by."""
    return Instruction(text=f"<b>For the next row slip</b> {needles_text(step.needles)}: the "
                       "carriage passes them by.")


def chosen_next_text(m: Moment) -> str:
    """What becomes of needles just put back, where the next row slips some or has two yarns."""
    return f"{_slipped_text(m)}{_lowered_text(m)}"


def _slipped_text(m: Moment) -> str:
    """Which needles just put back from holding, or after a cast-on, the chart slips next; "" where
    none are on the bed.

    In upper working position the slip setting would knit them (common practice, no source).
    """
    if not (held := _by_holding(m.later) & m.after.loaded):
        return ""
    above = m.later[sum(1 for _ in takewhile(_is_no_row, m.later)) + 1:]
    on = ", and for as long as the chart slips them" * bool(_by_holding(above))
    return (f" <b>Slip {which(held)} by holding</b> in the next row{on}, with the carriage "
            "set to hold: in upper working position the machine's own setting would knit "
            f"{'them' if len(held) > 1 else 'it'}.")


def _lowered_text(m: Moment) -> str:
    """Which needles just put back the next row, of two yarns, knits with the main yarn; "" where
    none are on the bed.

    In upper working position they would take the contrast yarn, and pushed back from there without
    a tool they would drop their stitches (common practice, no source).
    """
    pick = next((s for s in takewhile(_is_no_row, m.later) if isinstance(s, PickContrast)), None)
    if not pick or not pick.lowered & m.after.loaded:
        return ""
    on = f"except those on {which(pick.needles)}" if \
        pick.lowered | pick.needles == m.after.loaded else f"on {which(pick.lowered)}"
    return (f" <b>Lift every stitch {on} into its needle's hook</b> with the transfer tool, and "
            "push the needle back to working position. In upper working position it would take "
            "the contrast yarn in the next row.")


def _by_holding(later: Sequence[steps.Step]) -> Needles:
    """The needles that are held for the first of the rows to come, so that it slips them."""
    return next((s.by_holding for s in takewhile(_is_no_row, later) if isinstance(s, steps.Slip)),
                NONE)

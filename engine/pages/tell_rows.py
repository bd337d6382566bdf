"""Words for the steps around the carriage: yarn, dial, row counter, rows, free pass, turning."""

from __future__ import annotations

from itertools import takewhile

from .. import steps
from ..model import Fold
from ..program import WASTE
from .html import esc
from .lengths import LAST_ROW, to_cut
from .told import Moment, Told
from .words import counted, dial_said, needles_said, needles_toward, stitches

_FOLD_PAGE = {
    Fold.TURNED: ("fold-turned.html", "how to turn the work"),
    Fold.LOOSE: ("fold-loose.html", "how to knit a loose fold row"),
    Fold.PICOT: ("fold-picot.html", "how to make a picot fold"),
}


def bring(m: Moment, step: steps.Bring) -> Told:
    """Empty needles into position."""
    if m.before is None or not m.before.working:
        rest = " All other needles stay in non-working position."
    else:
        rest = ""
    return Told(text=f"<b>Bring needles {needles_said(step.needles)}</b> to "
                     f"{step.position.value} position: {counted(len(step.needles), 'needle')}."
                     f"{rest}")


def thread(m: Moment, step: steps.Thread) -> Told:
    """Yarn into the feeder."""
    yarn, side = esc(step.yarn), m.after.side.value
    if not step.fresh:
        knit = (" Set the carriage to knit again: needles in working position, latches open."
                if _passed_free(m) else "")
        return Told(text=f"<b>Put the {yarn} back into the feeder.</b> It hangs on the "
                         f"{side}, where the carriage stands.{knit}")
    if step.yarn == m.strip.program.cord_yarn:
        return Told(text=f"<b>Thread the {yarn},</b> a length of its own, on the {side}, where "
                         "the carriage stands. Let a hand's length hang down in front.")
    return Told(text=f"<b>Thread the {yarn},</b> a new end, on the {side}, where the "
                     "carriage stands.")


def _passed_free(m: Moment) -> bool:
    """True after a free pass with no row knitted since: the carriage is still set not to knit."""
    return any(isinstance(s, steps.FreePass) for s in takewhile(
        lambda s: not isinstance(s, steps.Knit), reversed(m.earlier)))


def unthread(m: Moment, step: steps.Unthread) -> Told:
    """Yarn out of the feeder."""
    yarn = m.before.feeder if m.before else ""
    if yarn == m.strip.program.cord_yarn:
        return Told(text=f"<b>Take the {esc(yarn)} out of the feeder.</b> It is not cut, for it "
                         "is used again: let both its ends hang down in front.")
    if not step.cut:
        return Told(text=f"<b>Take the {esc(yarn)} out of the feeder.</b> Do not cut it: "
                         f"it stays hanging from the work on the {m.after.side.value}.")
    if any(isinstance(s, steps.HandKnit) and s.yarn == yarn and not s.cord for s in m.later):
        end = to_cut(len(m.band), m.pattern.bed.pitch, LAST_ROW)
        return Told(text=f"<b>Cut the {esc(yarn)}, leaving an end of about {end},</b> "
                         f"and take it out of the feeder. With this end, on the "
                         f"{m.after.side.value}, the last row is knitted by hand.")
    tail = "" if yarn == WASTE else " Leave a tail a hand long."
    return Told(text=f"<b>Cut the {esc(yarn)}</b> and take it out of the feeder.{tail}")


def set_dial(m: Moment, step: steps.SetDial) -> Told:
    """The dial."""
    purpose = f", {esc(step.purpose)}" if step.purpose else ""
    loose = m.section == "Fold" and m.strip.plan.band.fold is Fold.LOOSE
    first = loose and "fold row" in step.purpose
    return Told(text=f"<b>Set the dial to {dial_said(step.dial)}</b>{purpose}.",
                how=_FOLD_PAGE[Fold.LOOSE] if first else None)


def set_counter(m: Moment, step: steps.SetCounter) -> Told:
    """The row counter."""
    if m.before is not None and step.rows == m.before.counter - 1:
        why = f": {esc(step.purpose)}" if step.purpose else ""
        return Told(text=f"<b>Turn the row counter back to {step.rows}</b>{why}.")
    return Told(text=f"<b>Set the row counter to {step.rows}.</b>")


def cast_on(m: Moment, step: steps.CastOn) -> Told:
    """A loop on each needle."""
    return Told(
        text=f"<b>Cast on with the {esc(m.after.feeder)}</b> over needles "
             f"{needles_said(step.needles)}, one loop on each: {stitches(len(step.needles))}.",
        after=f"Whichever way you cast on, end with the carriage on the {m.after.side.value} and "
              f"the row counter at {m.after.counter}.",
        how=("waste-start.html", "how to start on waste yarn"), check=True)


def knit(m: Moment, step: steps.Knit) -> Told:
    """Rows with the carriage."""
    rows = counted(step.rows, "row")
    purpose = f", {esc(step.purpose)}" if step.purpose.startswith("the ") else \
        f" {esc(step.purpose)}" if step.purpose else ""
    fills = " Every empty needle takes up a new loop in the first row." if step.fills else ""
    return Told(text=f"<b>Knit {rows}</b>{purpose}, until the row counter shows "
                     f"<b>{m.after.counter}</b>.{fills}", check=True, diagram=True)


def knit_by_hand(m: Moment, step: steps.HandKnit) -> Told:
    """A row made by hand over everything."""
    side = m.after.side
    loose = " loose" if step.loose else ""
    long = " Make every new loop at least twice as long as a stitch." if step.loose else ""
    return Told(
        text=f"<b>Knit one{loose} row by hand</b> with the end of {esc(step.yarn)}, from "
             f"the {side.value}, where it hangs, to the {side.other.value}: on each of the needles "
             f"{needles_toward(step.needles, side.other)} draw the yarn through all "
             f"its loops together.{long}",
        after="Carriage and row counter stay as they are.",
        how=("loose-row-and-chain-off.html#loose-row", "how to knit the loose row"), check=True)


def free_pass(m: Moment, step: steps.FreePass) -> Told:
    """The carriage across without knitting."""
    why = f", {esc(step.purpose)}" if step.purpose else ""
    return Told(text=f"<b>Make a free pass to the {m.after.side.value}:</b> with the "
                     "feeder empty and the carriage set not to knit, take it across"
                     f"{why}.",
                how=("row-counter-and-free-pass.html#free-pass", "how to make a free pass"))


def turn_work(m: Moment, step: steps.TurnWork) -> Told:
    """The work over on the garter bar."""
    times = 1 + sum(isinstance(s, steps.TurnWork) for s in m.earlier)
    faces = "The knit side now faces you" if times % 2 else "The purl side faces you again"
    cords = (" Keep the cords' ends clear of bed and bar."
             if any(isinstance(s, steps.HandKnit) and s.cord for s in m.earlier) else "")
    return Told(
        text=f"<b>Turn the work</b> with the garter bar: take all "
             f"{len(m.after.loaded)} stitches off, turn the bar end for end, its teeth still "
             f"towards the needles, and put them back on needles "
             f"{needles_said(m.after.loaded)}.{cords} {faces}.",
        after="The yarn's end has changed sides with the work and hangs on the "
              f"{m.after.side.value}." if _same_yarn_next(m) else "",
        how=_FOLD_PAGE[Fold.TURNED], check=True)


def _same_yarn_next(m: Moment) -> bool:
    """True when the yarn that hangs from the work is threaded next: the bed found it there."""
    after = next((s for s in m.later if not isinstance(s, steps.Attend)), None)
    return isinstance(after, steps.Thread) and not after.fresh


def hold(m: Moment, step: steps.Hold) -> Told:
    """Needles to holding."""
    return Told(text=f"<b>Push needles {needles_said(step.needles)}</b> forward to "
                     "holding position.", check=True, diagram=True)


def resume(m: Moment, step: steps.Resume) -> Told:
    """Needles back from holding."""
    return Told(text=f"<b>Put needles {needles_said(step.needles)}</b> back where the "
                     "carriage knits them, every latch open.", check=True)


def transfer(m: Moment, step: steps.Transfer) -> Told:
    """Stitches onto their neighbours."""
    side, far = ("right" if step.by > 0 else "left"), abs(step.by)
    onto = f"the needle beside it on the {side}" if far == 1 else f"{far} needles to the {side}"
    rest = "Push the emptied needles back to non-working position." if step.rest else \
        "Leave the emptied needles in working position."
    picot = m.section == "Fold" and m.strip.plan.band.fold is Fold.PICOT
    return Told(text=f"<b>Move the stitch</b> of {needles_said(step.needles)} "
                     f"({stitches(len(step.needles))}) onto {onto}. {rest}",
                how=_FOLD_PAGE[Fold.PICOT] if picot else None, check=True, diagram=True)


def take_off(m: Moment, step: steps.TakeOff) -> Told:
    """Needles dropped on waste yarn."""
    return Told(text="<b>Knit a few rows of waste yarn</b> over needles "
                     f"{needles_said(step.needles)} only, and drop them: {esc(step.edge)}.",
                after="Put carriage and row counter back where they were.", check=True)


def increase(m: Moment, step: steps.Increase) -> Told:
    """Needles into work with a loop from beside."""
    return Told(text=f"<b>Bring needles {needles_said(step.needles)} into work</b> and "
                     "give each a loop from the stitch beside it.", check=True)

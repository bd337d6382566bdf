"""Which steps are done together at one moment and told as one numbered step, in their order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from ..machine import edge_steps, rib_steps, set_up_steps, steps
from ..machine import two_yarn_steps as two_yarns
from ..machine.steps import Step
from .charted_rows import ChartedRows
from .instruction import Instruction, Moment, Together
from .repeats import Goes
from .shaped_edges import ShapingBlock

_WHOLE = (ShapingBlock, Goes, ChartedRows)  # what is never put together with another step
_SETTINGS = (steps.SetCounter, steps.SetDial, set_up_steps.SetCarriage)
# A step of the first kind shares an instruction with one of the second kind that follows it.
_GOES_ON: dict[type[Step], tuple[type[Step], ...]] = {
    steps.SetCounter: (*_SETTINGS, steps.Bring, rib_steps.RaiseSecond),
    steps.SetDial: (*_SETTINGS, steps.Attend),
    set_up_steps.SetCarriage: (*_SETTINGS, steps.FreePass, steps.Hold, rib_steps.KnitBeds,
                              set_up_steps.HangWeights),
    rib_steps.RaiseSecond: (set_up_steps.Couple,),
    steps.FreePass: (steps.SetCounter,),
    steps.Thread: _SETTINGS,
    steps.Resume: (set_up_steps.SetCarriage, set_up_steps.HangWeights, steps.Hold),
    steps.Hold: (set_up_steps.HangWeights,),
    set_up_steps.TakeWeightsOff: (edge_steps.BindOff, edge_steps.Hang, edge_steps.TakeOff,
                                  edge_steps.CloseUp,
                                  steps.HandKnit, steps.TurnWork, steps.Attend, steps.Resume),
    edge_steps.BindOff: (steps.Unthread,),
    edge_steps.DrawCord: (set_up_steps.HangWeights,),
    set_up_steps.HangWeights: (steps.Thread, steps.Knit),
    steps.Unthread: (steps.Thread, set_up_steps.SetCarriage, set_up_steps.Uncouple),
    two_yarns.ThreadContrast: (two_yarns.SetYarns,),
    two_yarns.UnthreadContrast: (two_yarns.SetYarns,),
    edge_steps.TakeOff: (steps.Bring,),
    edge_steps.Hang: (edge_steps.DrawCord,),
    rib_steps.LowerSecond: (set_up_steps.HangWeights,),
}


def together(moments: Iterable[Moment | ShapingBlock]) -> Iterator[Moment | ShapingBlock]:
    """Return the moments, those that go on with the one before put together with it."""
    waiting: list[Moment] = []
    for each in moments:
        if waiting and not (_goes_on(waiting[-1], each) or _is_row_of(waiting, each)):
            yield _as_one(waiting)
            waiting = []
        if isinstance(each, ShapingBlock) and waiting:
            yield replace(each, before=_as_one(waiting))
            waiting = []
        elif isinstance(each, _WHOLE):
            yield each
        else:
            waiting.append(each)
    if waiting:
        yield _as_one(waiting)


def _goes_on(before: Moment, after: Moment | ShapingBlock) -> bool:
    if isinstance(after, ShapingBlock) and _is_on(before):
        return True
    if isinstance(after, _WHOLE):
        return False
    first, then = before.steps[-1], after.steps[0]
    if isinstance(first, edge_steps.DrawCord) and first.edge in before.program.on_waste:
        return False  # what hangs is checked before the weights
    if isinstance(first, edge_steps.BindOff) and first.keep_last:
        return False  # the stitches that are left are checked before the yarn is cut
    return isinstance(then, _GOES_ON.get(type(first), ()))


def _is_on(m: Moment) -> bool:
    """True for the weights that are hung on as soon as the first rows of a piece hold."""
    return isinstance(m.steps[-1], set_up_steps.HangWeights) and not m.earlier_of(steps.Knit)


def _is_row_of(waiting: list[Moment], after: Moment | ShapingBlock) -> bool:
    """True for the rows that a dial was set for, where nothing else was done just before."""
    return (len(waiting) == 1 and isinstance(waiting[0].steps[-1], steps.SetDial)
            and not isinstance(after, _WHOLE)
            and type(after.steps[0]) is steps.Knit)


def _as_one(parts: list[Moment]) -> Moment:
    if len(parts) == 1:
        return parts[0]
    first, last = parts[0], parts[-1]
    return Together(work=first.work, pattern=first.pattern, at=first.at, upto=last.upto,
                    parts=tuple(parts))


def as_one(every: list[Instruction]) -> Instruction:
    """Return the words of moments told as one: sentences in their order, one check, one diagram."""
    drawn, how, check, at = every[-1], None, False, -1
    for n, each in enumerate(every):
        drawn = each if each.diagram else drawn
        how, check = how or each.how, check or each.check
        at = n if at < 0 and (each.places or each.after) else at
    at = at if at >= 0 else len(every) - 1
    after = " ".join(filter(None, (every[at].after, *(each.text for each in every[at + 1:]))))
    return Instruction(" ".join([each.text for each in every[:at + 1]]), every[at].places, after,
                       how, check, drawn.diagram, drawn.chosen, drawn.mark)

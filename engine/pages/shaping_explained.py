"""How shaping is worked at the machine, told once on a page, for the ways its pieces use."""

from __future__ import annotations

from collections.abc import Iterable

from ..machine import edge_steps, steps
from ..machine.reasons import Reason
from ..markup.html import fold
from ..proof.proof import SizeProof, Work
from ..words.shaped_edges import Done
from ..words.shaping import METHOD_ANCHORS
from ..words.shaping_methods import HEADING, HOW, WASTE, WHILE_HOLDING, more_of


def methods(size: SizeProof) -> str:
    """Return the section on ways of working; "" where pieces and collars need none of them."""
    pieces = size.pieces
    shaped: tuple[Work, ...] = (*pieces, *(s for s in size.strips if not s.plan.collar.is_straight))
    used = {done for work in shaped for kind in _SHAPING for step in work.program.of(kind)
            if (done := _shaping_of(step))}
    holds = sets_to_hold(shaped)
    found = [f'<dt id="{METHOD_ANCHORS[done]}">{text[0]}</dt><dd>{text[1]}'
             f"{WHILE_HOLDING.get(done, '') * holds} {more_of(done)}</dd>"
             for done, text in HOW.items() if done in used]
    if any(step.reason is not Reason.DRAWN_UP
           for piece in pieces for step in piece.program.of(edge_steps.TakeOff)):
        found.append(f'<dt id="way-waste">{WASTE[0]}</dt><dd>{WASTE[1]}</dd>')
    if not found:
        return ""
    return fold(HEADING, "ways", f'<dl class="wb-ways">{"".join(found)}</dl>')


def sets_to_hold(works: Iterable[Work]) -> bool:
    """True where the carriage is set to hold while some of these are knitted."""
    return any(work.program.of(kind) for work in works
               for kind in (steps.Hold, steps.Tuck, steps.Slip))


_SHAPING = (steps.Transfer, steps.Increase, edge_steps.BindOff, steps.Hold)


def _shaping_of(step: steps.Step) -> Done | None:
    """The way of working that a step takes, where it shapes an edge."""
    match step:
        case steps.Transfer(rest=True, by=1 | -1) if step.needles.is_unbroken:
            return Done.DECREASE
        case steps.Increase() if step.reason not in (
                Reason.TO_FILL_RIB, Reason.ABOVE_RIB, Reason.DART_MORE):
            return Done.INCREASE
        case edge_steps.BindOff(keep_last=True, rest=True):
            return Done.BIND_OFF
        case steps.Hold():
            return Done.HOLD
    return None

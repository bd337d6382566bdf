"""Words for holes of one layer: bound off, cast on again, or made by moving a stitch."""

from __future__ import annotations

from itertools import takewhile

from ..catalogue.methods import BY_HAND
from ..machine import edge_steps, steps
from ..machine.reasons import Reason
from ..machine.step_keys import Topic
from ..proof.yarn_ends import CLOSING
from .cut_lengths import to_cut
from .edge_methods import method_name
from .instruction import Instruction, Moment
from .lengthwise_instructions import hole_named
from .terms.yarn_names import yarn_name
from .words import needles_text, needles_toward

PUSHED_BACK = "Push the needles of {} back to working position, latches open"


def push_empty(*, many: bool) -> str:
    """That needles without a stitch go back; `many` where more than one does."""
    return f"Push the empty needle{'s' * many} back to non-working position."


def bind_off_holes(m: Moment, step: edge_steps.BindOff) -> Instruction:
    """The stitches of every hole of a single layer."""
    places = []
    for one in m.steps:
        assert isinstance(one, edge_steps.BindOff)
        places.append(f"{hole_named(m, one)}: {bound_off(m, one)}")
    each = "the hole" if m.strip.plan.is_lengthwise else "each hole"
    tool = "with a transfer tool, " if m.strip.plan.is_lengthwise and not _cast_again(m) else ""
    long = f"about {_spare_end(m, step)} long"
    ends = f"a spare end of {yarn_name(step.yarn)} {long} for {each}"
    if m.strip.plan.is_lengthwise and len(places) == 2:  # a hole in both layers
        ends = f"two spare ends of {yarn_name(step.yarn)}, each {long}, one for either layer"
    return Instruction(
        text=f"<b>Bind off the stitches of {each},</b> {tool}{method_name(step)}, towards the "
             f"{step.toward.value}. Take {ends}, not the one in the feeder:",
        places=tuple(places), after="Then lift the yarn off the pegs. Let the rest of every end "
        f"hang. {PUSHED_BACK.format(each)}.",
        how=("gate-pegs.html", "how to bind off around the gate pegs"), check=True, diagram=True)


def bound_off(m: Moment, step: edge_steps.BindOff) -> str:
    """The needles that a hole empties, and the one beside them on which the last loop stays."""
    stays = step.needles & m.after.loaded
    return (f"<b>{needles_toward(step.needles - stays, step.toward)}</b>; the last loop stays on "
            f"{needles_text(stays)}")


def _spare_end(m: Moment, step: edge_steps.BindOff) -> str:
    """The end that binds a hole off and casts on over it again, with a tail at either end."""
    return to_cut(len(step.needles), m.pattern.bed.pitch, CLOSING + int(BY_HAND.yarn), tails=2)


def cast_on_holes(m: Moment, step: steps.CastOn) -> Instruction:
    """New loops over the bare needles of every hole."""
    toward = next(s.toward for s in reversed(m.earlier) if isinstance(s, edge_steps.BindOff))
    places = tuple(f"{hole_named(m, s)}: <b>{needles_toward(s.needles, toward.other)}</b>"
                   for s in m.steps if isinstance(s, steps.CastOn))
    over = "the hole" if m.strip.plan.is_lengthwise else "each hole"
    knot = "" if _cast_again(m) else \
        ". The end comes from the stitch beside them: make no slip knot"
    return Instruction(text=f"<b>Cast on again over {over},</b> by hand with the end that hangs "
                     f"there, from the {toward.value} to the {toward.other.value}, one loop on "
                     f"every empty needle{knot}:",
                       places=places,
                       after="<small>Carriage and row counter stay as they are.</small>",
                       how=("cast-on-by-hand.html", "how to cast on by hand"), check=True)


def _cast_again(m: Moment) -> bool:
    """True where an earlier hole of the band was cast on over: how, was said there."""
    return any(isinstance(step, steps.CastOn) and step.reason is Reason.BUTTONHOLE
               for step in m.earlier)


def move_for_holes(m: Moment, step: steps.Transfer) -> Instruction:
    """The stitch of a small hole onto its neighbour; the next row fills the needle."""
    side = "right" if step.by > 0 else "left"
    if m.later and isinstance(m.later[0], steps.Transfer):
        then = "Push the emptied needles back to working position, latches open."
    elif _were_brought_forward(m):
        then = (f"{PUSHED_BACK.format('each hole')}: the next row lays a new loop on every "
                "empty one.")
    else:
        then = ("Leave the emptied needles in working position: the next row lays a new loop on "
                "them.")
    tool = ", with the transfer tool" * m.strip.plan.is_lengthwise
    return Instruction(
        text=f"<b>Move the stitch</b> of {needles_text(step.needles)} onto the needle beside it on "
             f"the {side}{tool}. {then}", check=True,
        diagram=not (m.later and isinstance(m.later[0], steps.Transfer)))


def _were_brought_forward(m: Moment) -> bool:
    """True where the needles of the holes were chosen, and so brought forward, since the last
    row."""
    since = takewhile(lambda step: not isinstance(step, steps.Knit), reversed(m.earlier))
    return any(isinstance(step, steps.Attend) and step.to == Topic.CHOOSE_HOLES for step in since)


def turn_loop(m: Moment, step: steps.TurnLoop) -> Instruction:
    """A long loop over two needles, turned on the second so that each has a loop."""
    slowly = " Knit the next row slowly, with the needles of every hole fully forward."
    return Instruction(
        text="<b>Turn the long loop of every hole.</b> One loop lies in both hooks. On "
             f"{needles_text(step.needles)} lift it off with the transfer tool, turn it over once, "
             "and hang it again on the same needle. Each needle then has one loop."
             + (slowly if any(isinstance(s, steps.Knit) for s in m.later) else ""),
        how=("../closings/two-stitch.html#steps", "how to turn the loop"), check=True)

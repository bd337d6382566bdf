"""Words for slits, eyelets and loops: what is marked, sewn, overcast and chained by hand."""

from __future__ import annotations

from collections.abc import Iterable

from ..catalogue.bands import KINDS
from ..machine import edge_steps, steps
from ..machine.step_keys import StepYarn, Topic
from ..machine.steps import Side
from ..markup.html import link
from ..plan.hole_sizes import loop_chains, loop_length
from ..proof.yarn_ends import eyelet_end, hole_end, loop_end, slit_end
from .cut_lengths import to_sew
from .instruction import Instruction, Moment
from .words import counted, stitches


def is_bound_across(step: steps.Step) -> bool:
    """True for the bind-off across holes of two layers, whose yarn runs between these."""
    return isinstance(step, edge_steps.BindOff) and step.keep_last and step.layers != 1


def ends_inside(earlier: Iterable[steps.Step], *, holes_done: bool) -> str:
    """The ends that a band's steps leave besides those where it began and ended, in words.

    Those at slits are darned in when the slits are sewn, where another layer then shuts them in;
    with `holes_done` those between the layers are darned in already.
    """
    sentences: dict[str, None] = {}
    steps_so_far = tuple(earlier)
    shut = any(isinstance(s, steps.Attend) and s.to in (Topic.FOLD_UP, Topic.SEW_FACING)
               for s in steps_so_far)
    folded = any(isinstance(s, steps.Attend) and s.to == Topic.SEW_ON_BAND for s in steps_so_far)
    for step in steps_so_far:
        match step:
            case edge_steps.BindOff(keep_last=True) if not (
                    holes_done and (is_bound_across(step) or folded)):
                sentences["that of the bind-off across the holes too"] = None
            case steps.Attend(to=Topic.CHOOSE_SLITS) if not shut:
                sentences["and the ends of the parts between the slits"] = None
            case steps.Thread(yarn=yarn, fresh=True) if yarn == StepYarn.FACING:
                sentences["and those at the fold, where the yarn changes"] = None
    return "".join(f", {each}" for each in sentences)


def _from_hem(m: Moment, step: steps.Attend) -> list[tuple[str, str]]:
    """The first and the last needle of every hole, from the hem."""
    spans = [(a.name, b.name) for a, b in step.needles.spans()]
    return spans if m.strip.layout.hem is Side.LEFT else spans[::-1]


def choose_slits(m: Moment, step: steps.Attend) -> Instruction:
    """Between which needles the slits begin."""
    slit, number = m.strip.plan.slit, len(step.needles.spans())
    assert slit is not None
    return Instruction(
        text=f"<b>Here the {counted(number, 'slit')} begin,</b> each between two needles and "
             f"{counted(slit.value, 'row')} long. Lay a thread between them:",
        places=tuple(f"Slit {n}: between <b>{a}</b> and <b>{b}</b>"
                     for n, (a, b) in enumerate(_from_hem(m, step), 1)),
        after=f"The {number + 1} parts between the slits are now knitted one after the other, "
              "each with a separate end and the others held. Note the row "
              "counter.",
        how=("held-shoulders.html", "how to hold needles"), diagram=True, chosen=step.needles)


def sew_slits(m: Moment, step: steps.Attend) -> Instruction:
    """Foot and head of every slit."""
    return Instruction(text="<b>Sew the foot and the head of every slit,</b> a stitch each from "
                     f"side to side: only a single stitch holds there. {_with_ends(m)}. Take the "
                     f"threads out again, and count them.{_shut(m)}")


def _shut(m: Moment) -> str:
    """What must be done before another layer shuts the ends in."""
    if not _is_closed_later(m):
        return ""
    return " Darn these ends in now, and look at every slit: once the band is closed you cannot."


def _is_closed_later(m: Moment) -> bool:
    return any(isinstance(s, steps.Attend) and s.to in (Topic.FOLD_UP, Topic.SEW_FACING)
               for s in m.later)


def join_slits(m: Moment, step: steps.Attend) -> Instruction:
    """The slits of two layers, one over the other."""
    return Instruction(text="<b>Sew the two layers together round every slit,</b> edge to edge, "
                     f"each with about {to_sew(slit_end(m.strip.plan))} of main yarn.")


def _with_ends(m: Moment) -> str:
    """What a slit is sewn with: the ends of the part that was knitted beside it on its own."""
    long = to_sew(slit_end(m.strip.plan))
    slits = max(len(step.needles.spans()) for step in m.earlier
                if isinstance(step, steps.Attend) and step.to == Topic.CHOOSE_SLITS)
    if slits == 1:
        return f"Use about {long} of main yarn"
    return ("Use the ends of yarn beside it; where none hang, at the slit next to the part "
            f"that was knitted first, use about {long} of main yarn")


def overcast(m: Moment, step: steps.Attend) -> Instruction:
    """An eyelet's edge."""
    return Instruction(text="<b>Overcast every eyelet</b> closely, each with about "
                     f"{to_sew(eyelet_end(m.strip.plan))} of split main yarn, for only "
                     f"one thread on each side holds the button{_both(m)}.")


def sew_round(m: Moment, step: steps.Attend) -> Instruction:
    """The edge of a hole of one stitch or two, in one layer or through two that meet."""
    holds = "only one thread on each side holds the button" if m.strip.plan.hole and \
        m.strip.plan.hole.value == 1 else "one layer alone holds the button"
    return Instruction(text="<b>Sew round every buttonhole</b> with buttonhole stitch, each with "
                       f"about {to_sew(hole_end(m.strip.plan))} of split main yarn, for "
                       f"{holds}{_both(m)}.")


def _both(m: Moment) -> str:
    return "; sew through both layers together" if m.strip.plan.rows.to_finish and \
        KINDS[m.strip.plan.band.kind].doubled else ""


def mark_loops(m: Moment, step: steps.Attend) -> Instruction:
    """Where the feet of the loops will stand."""
    where = "along this row" if any(isinstance(s, steps.Knit) for s in m.later) else \
        "below the edge that is bound off next"
    return Instruction(
        text=f"<b>Tie a thread into the two stitches where each loop will stand,</b> {where}:",
        places=tuple(f"Loop {n}: <b>{a}</b> and <b>{b}</b>"
                     for n, (a, b) in enumerate(_from_hem(m, step), 1)),
        after="The two ends (“feet”) of each loop are "
              f"{stitches(len(step.needles) // len(step.needles.spans()))} apart.",
        diagram=True, chosen=step.needles)


def make_loops(m: Moment, step: steps.Attend) -> Instruction:
    """The loops themselves, off the bed."""
    plan = m.strip.plan
    assert plan.placing is not None and plan.band.buttonholes is not None
    button = plan.band.buttonholes.button
    chains = loop_chains(button, plan.gauge.stitch)
    baby = (" On a baby's garment a loop can catch a finger: think of a closing without one."
            if m.pattern.wearer.is_child else "")
    cautions = f" {link('../../cautions.html#buttons', 'Cautions on buttons')}.{baby}" \
        if baby else ""
    return Instruction(
        text=f"<b>Make {counted(plan.placing.buttonhole_count, 'loop')}.</b> At the first foot, a "
             f"stitch in from the edge, fasten a new end of main yarn, about "
             f"{to_sew(loop_end(plan))} for each loop. With the latch tool draw about "
             f"{counted(chains.value, 'chain')}, {loop_length(button).in_mm()}, and fasten them at "
             "the second foot. Try the first loop on its button: it passes with a tug. Chain along "
             "the edge to the next foot, or cut and begin again. Work back over every loop, one "
             f"buttonhole stitch beside the other. Take the threads out.{cautions}")

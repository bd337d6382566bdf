"""Words for the foot of a slit: what is bound off there, or its one stitch drawn through, and what
is sewn to it."""

from __future__ import annotations

from ..catalogue.methods import STITCH_OVER
from ..machine import edge_steps
from ..shape.bars import shared_out
from ..shape.tasks import Task
from .bands_named import named
from .cut_lengths import to_cut
from .edge_methods import method_name
from .instruction import Instruction, Moment
from .joins import shared_text
from .reason_phrases import reason_text
from .terms.yarn_names import yarn_name
from .words import counted, needles_text, stitches

_TAKER = {True: ("stitch", "bar"), False: ("bar", "stitch")}  # which of the two takes the other


def bind_off_foot(m: Moment, step: edge_steps.BindOff) -> Instruction:
    """Stitch over stitch; one stitch alone goes over no other (common practice, no source)."""
    spare = to_cut(len(step.needles), m.pattern.bed.pitch, int(STITCH_OVER.yarn), tails=2)
    fasten = f"Fasten off the two ends of this yarn: this is {reason_text(step)}."
    if len(step.needles) == 1:
        return Instruction(
            text=f"<b>Take off the {stitches(1)} at the centre,</b> {needles_text(step.needles)}: "
                 f"draw a spare end of {yarn_name(step.yarn)} about {spare} long through it. Push "
                 f"the empty needle back to non-working position. {fasten}", check=True)
    return Instruction(
        text=f"<b>Bind off the {stitches(len(step.needles))} at the centre,</b> "
             f"{needles_text(step.needles)}, with a spare end of {yarn_name(step.yarn)} about "
             f"{spare} long, {method_name(step)}. Push the empty needles back to non-working "
             f"position. {fasten}", check=True)


def foot_sewn(task: Task) -> str:
    """How the lower ends of two placket bands are sewn to the foot of their slit, as HTML."""
    upper = f"{task.upper.value} band" if task.upper else "band with the buttonholes"
    return (f"<b>Sew the lower ends of the {named(task.bands, True)} to the foot of the "
            f"slit</b>, the {upper} on top, the other one beneath it. Sew each end over "
            f"{stitches(task.stitches + 2 * task.beside)}: the {task.stitches} "
            f"{'bound' if task.stitches > 1 else 'taken'} off there, and {task.beside} more on "
            "either side of them, below the lines on which the bands were hung."
            f"{_ends_rows(task)}")


def _ends_rows(task: Task) -> str:
    """How many rows an end has, and how they are shared out over its stitches."""
    band, over = task.bands[0], task.stitches + 2 * task.beside
    if not band.rows:
        return ""
    through = ", through both layers" if band.layers > 1 else ""
    shared = shared_text(shared_out(band.rows, over), *_TAKER[band.rows > over]) \
        if band.rows != over else "one bar to each stitch"
    return f" An end has {counted(band.rows, 'row')}{through}: {shared}."

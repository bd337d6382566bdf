"""Words for rows of two yarns: the contrast yarn in and out, the carriage's setting for it, the
needles that take it, the row."""

from __future__ import annotations

from ..fabric.chart_on_bed import Placed
from ..machine.reasons import Reason
from ..machine.trace import State
from ..machine.two_yarn_steps import (
    KnitTwo,
    PickContrast,
    SetYarns,
    ThreadContrast,
    UnthreadContrast,
    Yarns,
)
from ..pattern.cells import Cell
from ..program.chart_actions import ChartRows, is_cut
from .cut_lengths import TAIL
from .explained import KEEP, THERE
from .instruction import Instruction, Moment
from .stripe_instructions import laid_under
from .terms.yarn_names import yarn_name
from .words import joined, needles_text, upto_text

_OUT = "out of the second feeder."
_BACK = "Set the carriage to knit one yarn again."


def set_yarns(m: Moment, step: SetYarns) -> Instruction:
    """The carriage's setting for one yarn in a row, or two."""
    if step.to is Yarns.TWO:
        return Instruction(text="Set the carriage to knit two yarns in a row.")
    return Instruction(text="Set the carriage to knit one yarn again.")


def thread_contrast(m: Moment, step: ThreadContrast) -> Instruction:
    """The contrast yarn into the second feeder."""
    end = "a new end of the" if step.fresh else "the hanging end of the"
    return Instruction(text=f"<b>Thread {end} {yarn_name(step.yarn)}</b> into the second feeder, "
                     f"on the {m.after.side.value}.{laid_under(step)}{THERE}")


def unthread_contrast(m: Moment, step: UnthreadContrast) -> Instruction:
    """The contrast yarn out of it."""
    yarn = yarn_name(m.before.contrast) if m.before else ""
    if step.cut:
        return Instruction(text=f"<b>Cut the {yarn}, {TAIL},</b> "
                         "and take the yarn out of the second feeder." + (
                             " Left hanging, it would lie over the needles that are held next."
                             if step.reason is Reason.BEFORE_HELD else ""))
    return Instruction(text=f"<b>Take the {yarn} out of the second feeder.</b> {KEEP} it "
                     f"hangs on the {m.after.side.value}.")


def yarn_text(step: SetYarns | ThreadContrast | UnthreadContrast, state: State) -> str:
    """Return what is done with the contrast yarn before a row, in few words."""
    if isinstance(step, SetYarns):
        return f"set the carriage to knit {step.to.value} in a row"
    if isinstance(step, ThreadContrast):
        end = "a new end" if step.fresh else f"the end that hangs on the {state.side.value}"
        return f"put the {yarn_name(step.yarn)} into the second feeder, {end}"
    if step.cut:
        return "cut the contrast yarn and take it out of the second feeder"
    return "take the contrast yarn out of the second feeder, do not cut it"


def pick(m: Moment, step: PickContrast) -> Instruction:
    """Needles that take the contrast yarn."""
    return Instruction(text=f"<b>Bring needles {needles_text(step.needles)}</b> to upper working "
                     "position: they take the contrast yarn in the next row.")


def knit_two(m: Moment, step: KnitTwo) -> Instruction:
    """The row with both."""
    return Instruction(text=f"<b>Knit 1 row with both yarns</b>"
                     f"{upto_text(m.after.counter)}.", check=True)


def contrast_text(placed: Placed) -> str:
    """When the contrast yarn goes in and out in a repeat's rows, in sentences."""
    has = [Cell.SECOND in row for row in placed.rows]
    if all(has):
        return (" Before row 1 put a new end of it into the second feeder. Set the carriage to "
                "knit two yarns in a row. Both stay so in every row.")
    high, chart = len(has), ChartRows(placed)
    ins = [row for row in range(1, high + 1) if has[row - 1] and not has[row - 2]]
    outs = [row for row in range(1, high + 1) if has[row - 1] and not has[row % high]]
    cut = [row for row in outs if is_cut(chart.without_contrast(row + 1))]
    hung = [row for row in outs if row not in cut]
    text = (f" Before {_rows(ins)} put it into the second feeder: the end that hangs on the "
            "carriage's side, or a new end where none does. Set the carriage to knit two "
            "yarns in a row.")
    if hung:
        text += f" After {_rows(hung)} take the contrast yarn {_OUT} Leave it hanging. {_BACK}"
    if cut:
        text += f" After {_rows(cut)} cut the contrast yarn and take it {_OUT} {_BACK}"
    return text


def _rows(numbers: list[int]) -> str:
    word = "row" if len(numbers) == 1 else "rows"
    return f"{word} {joined(map(str, numbers))}"

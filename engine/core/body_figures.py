"""A figure of a body as a size chart has it, with all that is to be said of it: roles and values,
to be worded in words/."""

from __future__ import annotations

from dataclasses import field
from enum import Enum

from ..machine.records import dataclass
from .expression import Operand
from .problems import Place


class FigureBy(Enum):
    """Who gives a figure of a body."""

    CHART = "chart"
    DESIGNER = "designer"
    READER = "reader"


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyFigure:
    """What a figure is and where it was read: the `label` of its row of a `chart`, in the chart's
    `column` for a `size`, "" where that is in no column.

    `printed` is the print, or what holds where there is none. `held` is what holds where that is
    another, and `by` whose figure it is. It can be `filled` in, and a `middle` of two. `place` is
    that of its row in the chart's file.
    """

    chart: str
    column: str
    size: str
    label: str
    printed: str
    held: str = ""
    by: FigureBy = FigureBy.CHART
    filled: bool = False
    middle: bool = False
    place: Place | None = field(default=None, compare=False)


@dataclass(slots=True, unsafe_hash=True)
class BodyOperand(Operand):
    """A body measurement with what it is; its name says the same in words."""

    of: BodyFigure = field(kw_only=True)

    _work_out = Operand._work_out

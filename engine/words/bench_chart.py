"""What the scripts of a size page need of a stitch chart: what is done before each of its rows.

`texts` are the acts before a row, each once, with the needles that they are about and a letter for
how these are drawn. `rows` are those of the chart from row 1 up, each the numbers of its texts.
The list of steps says for each step `12=3.4`: before the row that ends at row counter 12 the
texts 3 and 4 are done, and not what the chart's own row says (cut at the edges, or yarn in and
out). A `-` says that every row of a step is as the chart has it, a `0` that it has none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field
from typing import Any

from ..fabric.chart_on_bed import Placed
from ..machine import steps
from ..machine import two_yarn_steps as two_yarns
from ..machine.records import dataclass
from ..machine.steps import Step
from ..machine.trace import State
from ..program.chart_actions import Action, Doing, cut_to, row_actions
from ..proof.proof import KnittedPiece, Work
from .bench_bed import spans
from .chart_text import action_text, crossing
from .charted_rows import ChartedRows
from .instruction import Moment
from .lying import free
from .repeats import Goes
from .shaped_edges import ShapingBlock
from .two_yarn_instructions import yarn_text
from .words import briefly

# What is done, in words, the needles as they are drawn, and where it is more than that, how.
ActText = tuple[str, ...]
_LETTERS = {Doing.MOVE: "m", Doing.CROSS: "x", Doing.TUCK: "t", Doing.SLIP: "s",
            Doing.SECOND: "c"}


@dataclass(slots=True)
class ChartFacts:
    """The texts of a piece's chart, gathered while its steps are written."""

    placed: Placed
    straight: bool
    texts: dict[ActText, int] = field(default_factory=dict)
    rows: list[tuple[int, ...]] = field(default_factory=list)

    def __post_init__(self) -> None:
        for row in range(1, self.placed.chart.height + 1):
            actions = row_actions(self.placed, row)
            if not self.straight:
                actions = cut_to(actions, free(self.placed))
            self.rows.append(self._numbers(_acts_text(actions)))

    def _numbers(self, acts: Sequence[ActText]) -> tuple[int, ...]:
        return tuple(self.texts.setdefault(each, len(self.texts)) for each in acts)

    def rows_in(self, group: Sequence[Moment | ShapingBlock], work: Work) -> str:
        """Return the attribute for a list of steps; "" where no row of it is of the chart."""
        tokens = [self._token(_rows_of(each, work)) for each in group]
        return f' data-wb-rows="{" ".join(tokens)}"' if set(tokens) != {"0"} else ""

    def _token(self, rows: Sequence[tuple[int, list[ActText]]]) -> str:
        """How the rows of a step differ from the chart's own."""
        if not rows:
            return "0"
        out = []
        for counter, acts in rows:
            numbers = self._numbers(acts)
            if numbers != self.rows[(counter - 1) % len(self.rows)]:
                out.append(f"{counter}={'.'.join(map(str, numbers))}")
        return ",".join(out) or "-"

    def as_json(self) -> dict[str, Any]:
        """What the page carries."""
        return {"title": self.placed.chart.title, "rows": self.rows,
                "texts": [list(each) for each in self.texts]}


def chart_facts(work: Work) -> ChartFacts | None:
    """Return what is to be gathered of a piece's chart; None where it has none."""
    if not isinstance(work, KnittedPiece) or work.piece.placed is None:
        return None
    return ChartFacts(work.piece.placed, straight=work.piece.is_straight)


def _rows_of(step: Moment | ShapingBlock, work: Work) -> list[tuple[int, list[ActText]]]:
    """The rows of a numbered step: the row counter after each, and the acts before it."""
    if isinstance(step, ShapingBlock):
        if not step.events[0].charted:
            return []
        first, upto = step.first, step.upto
    elif isinstance(step, Goes | ChartedRows):
        first, upto = len(step.earlier), len(step.earlier) + len(step.steps)
    else:
        return []
    return list(_rows(work.program.steps[first:upto], work.trace.states[first:upto]))


def _rows(every: Sequence[Step], states: Sequence[State]
          ) -> Iterator[tuple[int, list[ActText]]]:
    before: list[ActText] = []
    for step, state in zip(every, states, strict=True):
        if isinstance(step, steps.Knit):
            yield state.counter, before
            before = []
        elif act := _step_text(step, state):
            before.append(act)


def _acts_text(actions: Sequence[Action]) -> list[ActText]:
    return [_act_text(each, briefly(each.needles)) for each in actions]


def _act_text(action: Action, where: str) -> ActText:
    drawn = _LETTERS[action.doing] + spans(action.needles)
    if action.doing is Doing.CROSS:
        what, how = crossing(action, where)
        return what, drawn, how
    return action_text(action, where), drawn


def _step_text(step: Step, state: State) -> ActText | None:
    """What is done before a row; None for what belongs to a shaping."""
    action = _action(step)
    if action:
        return _acts_text([action])[0]
    if isinstance(step, two_yarns.SetYarns | two_yarns.ThreadContrast | two_yarns.UnthreadContrast):
        return yarn_text(step, state), ""
    return None


def _action(step: Step) -> Action | None:
    match step:
        case steps.Transfer(rest=False):
            return Action(Doing.MOVE, step.needles, step.by)
        case steps.Cross():
            return Action(Doing.CROSS, step.needles, left=step.left, right=step.right,
                          first=step.first)
        case steps.Tuck():
            return Action(Doing.TUCK, step.needles)
        case steps.Slip():
            return Action(Doing.SLIP, step.needles)
        case two_yarns.PickContrast():
            return Action(Doing.SECOND, step.needles)
    return None

"""Tells the rows of a stitch chart as whole repeats: the same rows so many times, not each row.

The words and the drawing of the chart stand above the steps; here is which of its rows are
worked, how often, and what the row counter shows at the end of each repeat.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..machine import steps
from ..machine.headings import Heading
from ..machine.needles import NONE
from ..machine.records import dataclass
from ..machine.steps import Claim, Side
from ..machine.two_yarn_steps import PickContrast, SetYarns, ThreadContrast, UnthreadContrast
from ..markup.html import link
from ..proof.proof import KnittedPiece
from .checkpoint import checkpoint
from .instruction import Moment, StepAnchor
from .words import counted, upto_text

_NOTHING = Claim(0, 0, 0, Side.LEFT)
MOST_LISTED = 60  # repeats whose row counters are listed; beyond, how far apart they lie


@dataclass(slots=True, kw_only=True)
class Goes(Moment):
    """Steps that work a chart's rows 1 to `rows`, the same ones `times` over [rows]."""

    rows: int
    times: int

    @property
    def ends(self) -> tuple[int, ...]:
        """The row counter at the end of each go."""
        rows = [state.counter for step, state in zip(self.steps, self.states, strict=True)
                if isinstance(step, steps.Knit)]
        return tuple(rows[self.rows - 1::self.rows])


def in_goes(whole: Moment, height: int) -> Iterator[Goes]:
    """Return the steps of `whole` as whole goes through `height` rows, then the rows left over.

    Nothing where the goes are not alike: then every step must be told. When the contrast yarn goes
    in and out stands beside the chart; only the first time is it a new end. Which needles are
    slipped by holding, or lowered, the step before them says.
    """
    ends = [at for at, step in enumerate(whole.steps, 1) if isinstance(step, steps.Knit)]
    if not ends or ends[-1] != len(whole.steps) or not all(
            step.rows == 1 for step in whole.steps if isinstance(step, steps.Knit)):
        return
    times, rest = divmod(len(ends), height)
    upto = ends[times * height - 1] if times else 0
    bare = [_alike(step) for step in whole.steps[:upto]
            if not isinstance(step, SetYarns | ThreadContrast | UnthreadContrast)]
    if times and bare != bare[:len(bare) // times] * times:
        return
    if times:
        yield _go(whole, 0, upto, height, times)
    if rest:
        yield _go(whole, upto, len(whole.steps), rest, 1)


def _alike(step: steps.Step) -> steps.Step:
    if isinstance(step, steps.Slip):
        return replace(step, claim=_NOTHING, by_holding=NONE)
    if isinstance(step, PickContrast):
        return replace(step, claim=_NOTHING, lowered=NONE)
    return replace(step, claim=_NOTHING)


def _go(whole: Moment, at: int, upto: int, rows: int, times: int) -> Goes:
    return Goes(work=whole.work, pattern=whole.pattern, at=whole.at + at, upto=whole.at + upto,
                rows=rows, times=times)


def goes_text(goes: Goes, anchor: StepAnchor) -> str:
    """Return the numbered step as HTML: which rows, how often, and the row counter at each end."""
    where = link(f"#{anchor.part}-chart", "stitch pattern")
    which = f"rows 1 to {goes.rows}" if goes.rows > 1 else "row 1"
    how_often = {1: "", 2: " twice"}.get(goes.times, f" {goes.times} times")
    more = " over and over," if goes.times > 1 else ""
    text = (f"<b>Work {which} of the {where}{how_often}</b>"
            f"{upto_text(goes.after.counter, how=more)}.")
    return (f'<li id="{anchor}"><p>{text}{_starts(goes)}</p>{_ends(goes)}'
            f"{checkpoint(goes.after)}</li>\n")


def _starts(goes: Goes) -> str:
    if goes.times == 1 and goes.before and goes.before.counter:
        return " These are the first rows of one more repeat."
    return ""


def _ends(goes: Goes) -> str:
    """The row counter at the end of every repeat, so that a knitter who stops finds her row."""
    if goes.times < 2:
        return ""
    start = goes.before.counter if goes.before else 0
    if goes.rows == 1 or goes.times > MOST_LISTED:
        return (f"<p>A repeat is {counted(goes.rows, 'row')}; the first begins with the row "
                f"counter at {start}.</p>")
    return (f"<p>Row counter at the end of each repeat: "
            f"{', '.join(map(str, goes.ends))}.</p>")


def is_chart(heading: Heading, work: object) -> bool:
    """True for the section of a piece that is knitted from its chart."""
    return (heading is Heading.CHART and isinstance(work, KnittedPiece)
            and work.piece.chart is not None)



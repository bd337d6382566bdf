"""Rows of a shaped piece that are knitted from a stitch chart, told as rows like any others.

What hands do before such a row stands once, in the chart's words above the steps; in the steps a
row of the chart is a row, so that shaping is worded as in a plain piece.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..machine import steps
from ..machine import two_yarn_steps as two_yarns
from ..machine.headings import Heading
from ..machine.reasons import Reason
from ..machine.records import dataclass
from ..machine.steps import Step
from ..program.chart_actions import row_actions
from ..program.part import CHOSEN
from ..proof.proof import KnittedPiece, Work
from .checkpoint import checkpoint
from .instruction import Moment, StepAnchor
from .words import counted, upto_text

_SHAPED = (Heading.BODY, Heading.TO_TOP, Heading.HALF)


@dataclass(slots=True, kw_only=True)
class ChartedRows(Moment):
    """Steps that work so many `rows` of the chart with nothing between them."""

    rows: int


def is_charted(heading: Heading, work: Work) -> bool:
    """True for a section of a shaped piece whose rows are knitted from its chart."""
    return (isinstance(work, KnittedPiece) and work.piece.chart is not None
            and heading in _SHAPED)


def rows_from(section: Sequence[Step], at: int) -> tuple[int, int]:
    """Return how many rows of the chart follow each other from step `at`, and the step after."""
    rows = 0
    while (end := _row_end(section, at)) > at:
        rows, at = rows + 1, end
    return rows, at


def _row_end(section: Sequence[Step], at: int) -> int:
    """The step after the row that begins at `at`; `at` itself where none does."""
    end = at
    while end < len(section) and _readies(section[end]):
        end += 1
    if end < len(section) and isinstance(row := section[end], steps.Knit):
        return end + 1 if row.rows == 1 and row.reason is Reason.NONE else at
    return at


def plain_rows(step: Step) -> int:
    """Return the rows of a step that knits over all needles in work, 0 of another."""
    return step.rows if isinstance(step, steps.Knit) and not step.fills else 0


def _readies(step: Step) -> bool:
    """True for what hands do before a row of a chart; a decrease leaves needles out of work."""
    if isinstance(step, steps.Transfer):
        return not step.rest
    if _of_this_row(step):
        return False
    return isinstance(step, steps.Cross | steps.Tuck | steps.Slip | two_yarns.SetYarns
                      | two_yarns.ThreadContrast | two_yarns.UnthreadContrast
                      | two_yarns.PickContrast)


def _of_this_row(step: Step) -> bool:
    """True for what is done with the contrast yarn beside held needles, which no chart tells."""
    if isinstance(step, two_yarns.UnthreadContrast):
        return step.reason is Reason.BEFORE_HELD
    return isinstance(step, two_yarns.ThreadContrast) and bool(step.under)


def _is_plain(m: ChartedRows) -> bool:
    """True for the one row before held stitches go back, in which the piece tucks nothing."""
    back = bool(m.later) and m.later[0].reason in (Reason.FOR_LAST_ROW, Reason.FOR_LAST_ROW_BUT_ONE)
    return back and len(m.steps) == m.rows == 1


def _is_plain_by_chart(m: ChartedRows) -> bool:
    """True where the chart itself has nothing in the last of these rows."""
    assert isinstance(m.work, KnittedPiece) and m.work.piece.placed is not None
    return not row_actions(m.work.piece.placed, m.after.counter)


def _ends_plain(m: ChartedRows) -> bool:
    """True where the chart tucks or slips in the last of these rows, and the piece does not.

    It is the row before the work is divided, gathered, bound off or taken off.
    """
    assert isinstance(m.work, KnittedPiece) and m.work.piece.placed is not None
    chosen = any(action.doing in CHOSEN
                 for action in row_actions(m.work.piece.placed, m.after.counter))
    return chosen and (len(m.steps) == 1 or not _readies(m.steps[-2]))


def rows_text(m: ChartedRows, anchor: StepAnchor) -> str:
    """Return the numbered step as HTML."""
    text = f"<b>Knit {counted(m.rows, 'row')}</b> of the stitch pattern"
    if _is_plain(m) and _is_plain_by_chart(m):
        text = "<b>Knit 1 row</b>"
    elif _is_plain(m) or _ends_plain(m):
        rows = f"{counted(m.rows - 1, 'row')}</b> of the stitch pattern and <b>"
        text = f"<b>Knit {rows * (m.rows > 1)}1 row</b>{',' * (m.rows == 1)} plain"
    return (f'<li id="{anchor}"><p>{text}{upto_text(m.after.counter)}.</p>'
            f"{checkpoint(m.after)}</li>\n")

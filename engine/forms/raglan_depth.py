"""How deep the front neck of a raglan is: rows of its line, and the row over the last decreases."""

from __future__ import annotations

from ..core.branched import as_even_as
from ..core.counted import Count
from ..core.counts import EVEN, ODD, Rounding, Unit
from ..core.expression import Chosen, Expression, Rounded, Rule, Sum, Term, plain
from ..core.operands import ChoiceReason, Role
from ..fabric.gauge import counted, rows_up
from ..machine.records import dataclass
from ..shape.profile import How
from ..shape.roundings import deepened
from .raglan_lines import JoinedLines, over_last

LEAST, ABOVE = 4, 6  # rows of a front neck, and of the line below it: common practice, no source


@dataclass(frozen=True, slots=True)
class NeckDepth:
    """The rows of a front neck: `count` as they are knitted, the last `over` of them above the end
    of the raglan's line."""

    count: Count
    over: int

    @property
    def in_line(self) -> Expression:
        """The rows of the raglan's line that lie beside the neck, as a term [rows]."""
        line = self.count.made - plain(self.over) if self.over else self.count.made
        return Term(line, Role.ROWS)


def neck_depth(own: JoinedLines, *, whole: bool) -> NeckDepth:
    """Return how deep the front neck is from the even row at which a `whole` front divides, or from
    the first bind-off at a front edge, a row later; 4 rows of the line at least.

    `front_neck` measures rows of the line, an even number. The row over the last decreases lies
    above them: at a front edge it makes up for the row by which that begins later.
    """
    cut, over = own.cut, _over(own) if whole else 0
    deep: Expression = rows_up(cut.measure("front_neck"), cut.gauge)
    parity = ODD if over else EVEN
    made = counted(_with(deep, over), Unit.ROWS, cut.gauge.row, parity)
    return NeckDepth(deepened(made, _with(plain(LEAST), over), parity, cut.gauge.row,
                              ChoiceReason.SHAPED), over)


def below_line(own: JoinedLines, *, whole: bool) -> NeckDepth:
    """Return the same of a raglan without a strap, whose neck begins 6 rows above the underarm, and
    where the row is even below which it lies."""
    depth, g = neck_depth(own, whole=whole), own.cut.gauge
    line, over = own.line.term(Role.ROWS), depth.over
    most = Chosen((_with(line - plain(ABOVE), over), _with(plain(LEAST), over)), Rule.LARGEST,
                  ChoiceReason.SHAPED)
    fits = Chosen((depth.count.made, most), Rule.SMALLEST, ChoiceReason.ABOVE_UNDERARM,
                  (plain(ABOVE),))
    parity = (own.below.value + own.line.value + over) % 2
    even = as_even_as(Rounded(Term(fits, Role.ROWS), Rounding("up", 2, parity), g.row),
                      Sum((own.below.made, own.line.made, plain(over))))
    return NeckDepth(Count(Chosen((fits, even), Rule.LARGEST, ChoiceReason.EVEN_ROW), Unit.ROWS),
                     over)


def _with(rows: Expression, over: int) -> Expression:
    """These rows of the line, and those over it."""
    return rows + over_last(over) if over else rows


def _over(own: JoinedLines) -> int:
    """The rows over the body's last decreases; none where its line ends plain [rows]."""
    line = own.body(0)
    return int(any(c.row == line.rows and c.how is How.DECREASE for c in line.changes))

"""Straight pieces: widths and heights to whole stitches and rows, in any needle arrangement."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import GIVEN, NEAREST, Rounding, Unit, decimal
from ..core.expression import Expression, Operand, Term, plain
from ..core.note_arguments import Noted
from ..core.operands import Note, Role
from ..core.text_kinds import CountKey, FindingText
from ..core.units import Length
from ..fabric.arrangement import runs_of
from ..fabric.gauge import Gauge, counted, rows_up, stitches_in
from ..shape.foot import Foot
from ..shape.garment import CannotShape, Cut
from ..shape.roundings import CountKind, fitted, rule
from .body_counts import foot_rows, hem_of

Counts = tuple[tuple[str, str, Count], ...]  # (piece key, name, count)


def closed_by_one_seam(cut: Cut) -> Cut:
    """Return `cut` for pieces whose two sides one seam joins: the repeat of its fabric runs on."""
    return replace(cut, repeat=cut.repeat.closed()) if cut.repeat else cut


def stitches_of(cut: Cut, count: CountKey, name: str, seams: Expression | int, *,
                parts: Expression | None = None, fits: Rounding = NEAREST) -> Count:
    """Return the stitches across one of the equal `parts` of the measure `name`.

    `count` is what they are called, such as "hat cast_on", and `parts` how many parts there are;
    `seams` of them are more than it measures [stitches]. With needles left out of work the
    count is one that the repeat allows, with a stitch chart one that whole repeats fill; and one
    that `fits`. Raises CannotShape for fewer than 4 between the seams, and for less than
    arrangement or chart needs, CannotRound where nothing fits.
    """
    across, g = Length(cut.length(name).mm / (parts.value if parts else 1)), cut.gauge
    rounding = fitted(count, rule(cut, count, CountKind.REPEAT), fits)
    wide: Expression = cut.measure(name)
    if parts and parts.value > 1:
        wide = wide / Term(parts, Role.NUMBER)
    figure: Expression = stitches_in(wide, g)
    more = seams if isinstance(seams, Expression) else Operand(Fraction(seams), Role.SEAMS)
    if more.value:
        figure += more if isinstance(more, Operand) else Term(more, Role.SEAMS)
    if cut.chart:
        figure = Noted(figure, Note.FOR_CHART, (rounding, cut.chart.title))
    elif cut.repeat:
        figure = Noted(figure, Note.ARRANGED, (runs_of(cut.repeat),))
    made = counted(figure, Unit.STITCHES, g.stitch, rounding)
    least = rounding.of + rounding.plus if cut.chart and rounding.rule != GIVEN else 0
    of = rounding.kind[0]
    give = of if rounding.rule in ("up", "down") else Fraction(of, 2)
    off = 0 if rounding.rule == GIVEN else abs(made.value - made.exact)
    if made.value < max(int(more.value) + 4, least) or off > give:
        raise CannotShape(f"{made} for {name} {across.in_cm()}", f"Make {name} wider.")
    return made


def rows_of(cut: Cut, count: CountKey, name: str, *, least: int, less: Foot | None = None,
            times: int = 1) -> Count:
    """Return the rows of the measure `name`, so many `times`, `less` those of a hem below them.

    `count` is what they are called, such as "hat rows". Raises CannotShape for fewer than `least`.
    """
    height, g = cut.length(name), cut.gauge
    before: FindingText = \
        f" − {decimal(less.depth(g.row) / g.row, 1)} rows of the hem" if less else ""
    figure: Expression = rows_up(cut.measure(name), g)
    if times > 1:
        figure = figure * plain(times)
    for part in foot_rows(less, g):
        figure -= part
    made = counted(figure, Unit.ROWS, g.row, rule(cut, count, CountKind.SINGLE))
    if made.value < least:
        raise CannotShape(f"{made} for {name} {height.in_cm()}{before}, where {least} are needed",
                          f"Make {name} longer" + (" or the hem less deep." if less else "."))
    return made


def foot_gauge(cut: Cut) -> Gauge:
    """Return the gauge of what a piece begins with: its hem's where that was swatched."""
    return cut.hem_gauge if cut.hem and cut.hem_gauge else cut.gauge


def hem_rows_of(cut: Cut, piece: str) -> tuple[Foot | None, Count | None, Fraction]:
    """Return the hem, the count of its rows, and how many of the piece's rows are as high [rows].

    The rows that close it are among those; without a hem it is 0.
    """
    hem, rows = hem_of(cut, piece)
    if hem is None or rows is None:
        return None, None, Fraction(0)
    return hem, rows, hem.depth(cut.gauge.row) / cut.gauge.row

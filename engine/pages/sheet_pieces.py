"""The rows, the width and the even slopes of a piece as its counts make them, for the workbook.

The bed counts rows and needles as it knits. Here they are added up from the counts of the form:
another way to the same figure, which the workbook has beside what the bed counted.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..catalogue.forms import Construction
from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Chosen, Expression, Rule, Sum, Term, plain
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Note, Role
from ..machine.top_row import top_row
from ..proof.needles_used import needles_of
from ..proof.proof import KnittedPiece
from ..proof.rows_counted import counts_like, summed_rows
from ..shape.even_gaps import EvenSlope, Remainder
from ..shape.garment import Garment
from ..shape.piece import Piece
from ..shape.step_sizes import SteppedSlope
from ..words import sheet_text as words

Named = tuple[str, str, Expression]
_WIDTHS = ("upper_arm", "chest", "waist")  # at which a piece can be wider than where it begins
_AT = "at_"  # of an outline of the designer's: how many stitches it has at a corner
_LAST = 1  # row over all stitches that were held, above those that the form counts


def derived(garment: Garment, knitted: KnittedPiece) -> Iterator[Named]:
    """Yield the rows of a piece from 0, the needles that it takes at its widest, and the figures of
    its even slopes."""
    key = knitted.piece.key
    counts = counts_like(garment, key)
    top = top_row(knitted.program.steps, knitted.trace.states)
    yield "rows", Unit.ROWS.value, _rows(garment.form, key, counts, top) or Noted(
        plain(top), Note.TOP_ROW)
    wide, made = needles_of(knitted), _widest(knitted, counts)
    yield "widest", Unit.NEEDLES.value, made if made.value == wide else Noted(
        plain(wide), Note.WIDEST)
    for slope in knitted.piece.slopes:
        yield from _in_steps(slope) if isinstance(slope, SteppedSlope) else _spread(slope)


def _spread(slope: EvenSlope) -> Iterator[Named]:
    """The numbers of a slope's schedule: how often it is shaped, how many rows apart at first and
    how many times, and then; the shorter gap first where the two are not worked in turn."""
    name, gaps = words.count_text(slope.name), slope.gaps
    yield name, words.TIMES, gaps.events
    short = ((gaps.shorter, Unit.ROWS), (gaps.shorter_times, Unit.TIMES))
    far = ((gaps.longer, Unit.ROWS), (gaps.longer_times, Unit.TIMES))
    both = (*far, *short) if gaps.order is Remainder.LONGER_FIRST else (*short, *far)
    text = words.SPREAD if gaps.is_in_two else words.MIXED
    for what, (made, unit) in zip(text, both, strict=True):
        yield words.spread_text(name, what), unit.value, made


def _in_steps(slope: SteppedSlope) -> Iterator[Named]:
    """The numbers of a slope in steps: how many stitches go in all, and how many at each."""
    name, steps = words.count_text(slope.name), slope.steps
    yield name, Unit.STITCHES.value, steps.stitches
    for n, size in enumerate(steps.sizes, start=1):
        yield words.spread_text(name, words.step_text(n)), Unit.STITCHES.value, size


def _rows(form: Construction, key: str, counts: Mapping[str, Count], top: int
          ) -> Expression | None:
    """The sum by which the form counts a piece's rows, and a last one that is knitted above them;
    None where the bed knits others."""
    made = summed_rows(form, key, counts)
    if not made:
        return None
    whole = made[0].of if isinstance(made[0], Term) and len(made) == 1 else Sum(made)
    if whole.value + _LAST == top:
        return Sum((*made, plain(_LAST)))
    return whole if whole.value == top else None


def _widest(knitted: KnittedPiece, counts: Mapping[str, Count]) -> Expression:
    first = Term(knitted.piece.stitches.made, Role.STITCHES)
    wider = tuple(count.term(Role.STITCHES) for name, count in counts.items()
                  if name in _WIDTHS or name.startswith(_AT))
    if not wider:
        return _with_gaps(knitted.piece, first)
    return Chosen((first, *wider), Rule.LARGEST, ChoiceReason.LARGEST_NAMED)


def _with_gaps(piece: Piece, stitches: Expression) -> Expression:
    """The needles that so many stitches take, those between them that a chart leaves out too."""
    chart = piece.chart
    if chart is None or not chart.leaves_out:
        return stitches
    edges = plain(2 * chart.edge)
    return (stitches - edges) / plain(chart.stitches) * plain(chart.width) + edges

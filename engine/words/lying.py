"""Tells how a stitch chart lies on a shaped piece: on which needles, in which rows, how cut.

The chart is fixed to needles of the bed. One part of it is drawn; the words of its rows are for
all needles that the piece ever takes up.
"""

from __future__ import annotations

from ..fabric.chart_on_bed import Placed
from ..machine.needles import Needle, Needles, of
from ..markup.html import items
from ..program.chart_actions import Doing, row_actions
from ..shape.piece import Piece
from ..shape.profile import How
from ..shape.ribs import Rib
from .words import counted, joined, stitches, which

LONGEST = 20  # needles in a strip of a drawing; one or two more at the ends
MOST_LISTED = 5  # row counters that are listed; beyond, only how far apart they lie


def every_row(piece: Piece) -> str:
    """Which rows are knitted from the chart: not those of a hem or rib, nor of a crown."""
    foot = "the rib" if isinstance(piece.hem, Rib) else "the hem"
    plain = [*[f"of {foot}"] * bool(piece.hem),
             *["above the gathering"] * bool(piece.gathers),
             *["of the crown"] * bool(piece.closes or piece.quarters)]
    if not plain:
        return "Every row of this piece is knitted from the chart."
    above = f" The row counter begins at 0 again above {foot}." if piece.hem else ""
    return (f"The rows {joined(plain)} are plain. All other rows of this piece are knitted from "
            f"the chart.{above}")


def free(placed: Placed) -> Needles:
    """The needles that ever follow the chart: all but the edge stitches at the widest."""
    edge, taken = placed.chart.edge, placed.taken
    return taken - taken.leftmost(edge) - taken.rightmost(edge)


def middle(placed: Placed) -> tuple[int, int]:
    """The places of the whole repeats nearest to the bed's centre, as many as a strip holds."""
    wide = max(1, min(placed.repeats, LONGEST // placed.chart.width))
    centre = -placed.first.place
    starts = placed.bounds[:placed.repeats - wide + 1]
    start = min(starts, key=lambda at: abs(2 * at + wide * placed.chart.width - 2 * centre))
    return start, start + wide * placed.chart.width


def which_row(piece: Piece, placed: Placed) -> str:
    """The row counters at which row 1 of the chart is next."""
    plain_from = piece.left.rows if piece.quarters else piece.rows
    high, last = placed.chart.height, (*piece.narrowing.narrows, plain_from)[0]
    if high == 1:
        return "It has one row, knitted over and over."
    busy = [row for row in range(1, high + 1) if row_actions(placed, row)]
    row = busy[0] if len(busy) == 1 else 1
    starts = range(row - 1, last, high)
    shown = joined(map(str, starts)) if len(starts) <= MOST_LISTED else \
        f"{starts[0]}, {starts[1]}, {starts[2]} and every {high} rows on"
    more = (f" It is the only one of the {high} that is not plain." if len(busy) == 1 else
            f" Go up one row of the chart after each row; it has {high}.")
    return f"When the row counter shows <b>{shown}</b>, knit row {row} of the chart next.{more}"


def where(piece: Piece, placed: Placed) -> str:
    """The needles at which whole repeats begin, from left to right."""
    begins = of(*(Needle(placed.first.place + at) for at in placed.bounds[:-1]))
    start = piece.needles
    wide = "" if start == placed.taken else \
        f", {placed.taken.first} to {placed.taken.last} at the widest"
    stays = " The pattern stays on its needles while the piece is shaped." \
        if is_shaped(piece) else ""
    cut = "; at its edges a repeat is cut" if max(placed.cut) > placed.chart.edge or stays else ""
    return (f"A repeat of {counted(placed.chart.width, 'needle')} begins at "
            f"<b>{which(begins)}</b>, counted from left to right. The piece takes up "
            f"{start.first} to {start.last} at first{wide}{cut}.{stays}")


def is_shaped(piece: Piece) -> bool:
    """True where stitches come or go at its edges."""
    return bool(piece.left.changes or piece.right.changes or piece.opening)


def cuts(piece: Piece, placed: Placed, anchor: str) -> str:
    """What is plain though the chart says otherwise, as HTML with an id; common practice, no
    source."""
    edge = placed.chart.edge
    doings_used = {action.doing for row in range(1, placed.chart.height + 1)
                   for action in row_actions(placed, row)}
    rules = []
    met = _met(piece)
    if edge:
        which = "outermost stitch" if edge == 1 else f"outermost {stitches(edge)}"
        beside = [*["at a neck opening"] * bool(piece.opening),
                  *["beside held stitches"] * (_HELD in met or bool(piece.opening))]
        rules.append(f"the {which} at either end of a row"
                     + (f", {' and '.join(beside)} too" if beside else ""))
    if Doing.MOVE in doings_used:
        rules.append("a stitch that would move onto one of these or onto a needle without a "
                     "stitch")
    after = [*["a decrease the stitches that were moved with it"] * bool(_LESS & met),
             *["a bind-off the one that took up the last loop"] * (How.BIND_OFF in met)]
    if after:
        rules.append(f"in the row after {', and after '.join(after)}")
    rules += _over_held(piece)
    if Doing.CROSS in doings_used:
        rules.append("all stitches of a crossing of which one is plain or missing")
    if doings := [one.value for one in (Doing.TUCK, Doing.SLIP) if one in doings_used]:
        leave = f"do not {' or '.join(doings)}"
        going = [*["moved"] * bool(_LESS & met or How.DART_MORE in met),
                 *["bound off"] * (How.BIND_OFF in met), *["held"] * (_HELD in met)]
        if going:
            listed = " or ".join(filter(None, (", ".join(going[:-1]), going[-1])))
            rules.append(f"in the row before stitches are {listed}: "
                         f"{leave} these, nor the stitch beside them")
        if _MORE & met and not edge:
            rules.append(f"in the row before an increase: {leave} the end stitch")
        rules.append(f"{leave} any stitch in the last row {_before(piece, met)}")
    listed_rules = items(f"{rule[:1].upper()}{rule[1:]}." for rule in rules)
    return (f'<p id="{anchor}"><b>Knitted plain, whatever the chart shows</b> (common practice):'
            f"</p>{listed_rules}") if rules else ""


def _over_held(piece: Piece) -> list[str]:
    """Which rows are plain as held stitches go back in work; the others of a half are not."""
    opening = piece.opening
    sides = ((opening.inner,), (opening.outer, piece.left, piece.right)) if opening else (
        (piece.left,), (piece.right,))
    held = sum(any(change.how is How.HOLD for profile in side for change in profile.changes)
               for side in sides)  # a row over what is held at each side
    whose = "a piece or half" if opening else "the piece"
    second = "; the first row of the second half is of the pattern" * bool(piece.opening)
    short = ["the short rows, and the two that put their stitches back"] * bool(piece.short_rows)
    rows = "row" if held < 2 else "two rows"
    last = [f"the last {rows} of {whose}, for which held stitches go back in work{second}"
            ] * bool(held)
    return short + last


_LESS, _MORE = frozenset((How.DECREASE, How.DART_LESS)), frozenset((How.INCREASE, How.DART_MORE))
_HELD = How.HOLD


def _met(piece: Piece) -> frozenset[How]:
    """In which ways stitches come to the edges of a piece or leave them."""
    opening = piece.opening
    sides = (piece.left, piece.right, *((opening.inner, opening.outer) if opening else ()))
    short = [_HELD] * bool(piece.short_rows)
    return frozenset((*(change.how for side in sides for change in side.changes), *short))


def _before(piece: Piece, met: frozenset[How]) -> str:
    """What comes right after a row that is plain as a whole: of this piece, and no other."""
    parted = " or ".join([*["divided"] * bool(piece.opening), *["gathered"] * bool(piece.gathers)])
    first = [*[f"before the work is {parted}"] * bool(parted),
             *["before held stitches go back for the last row"] * (_HELD in met)]
    last = "before all stitches are bound off or put on waste yarn"
    return f"{', '.join(first)}, and {last}" if first else last

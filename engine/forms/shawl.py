"""A triangular shawl from its long edge: short rows held at both sides down to the tip.

Sources: University of Brighton, "Short row or holding technique 1" (S06); a web lesson, "Crew neck
collar on a drop-shoulder sweater" (S07).
"""

from __future__ import annotations

from ..catalogue.forms import Construction, FormKind
from ..core.counted import Count, Reckoned
from ..core.counts import DOWN, Unit
from ..core.expression import Expression, Rounded, Term, plain
from ..core.note_arguments import Noted, NotedAmount
from ..core.operand_parts import PartRole
from ..core.operands import Note, Role
from ..core.piece_roles import PieceRole
from ..core.roots import Hypotenuse
from ..fabric.gauge import Gauge, rows_along, stitches_across
from ..shape.garment import CannotShape, Cut, Garment
from ..shape.piece import Piece
from ..shape.profile import Change, How, Profile
from ..shape.roundings import CountKind, Roundable, rule
from ..words.terms.part_names import part_name
from ..words.terms.piece_names import piece_name
from . import form_tasks
from .builder import Builder
from .lengths import Lengths, across, lengths, rows_high, stitches_wide
from .straight import Counts

ROUNDS: Roundable = {"shawl cast_on": CountKind.SINGLE, "shawl rows": CountKind.SINGLE}
TIP = 4  # stitches never held, 5 of an odd number
LAST_ROWS = 2  # one over the held stitches of either side
PLAIN_ROWS = 3  # two before the first hold, one after the last


def builder(kind: FormKind) -> Builder:
    """Return how a shawl is built."""
    return Builder(build, ROUNDS)


def build(cut: Cut) -> Garment:
    """Return a shawl of one piece: cast on its wingspan, held to a tip, bound off its two sides.

    Needles of both sides go into hold by turns, those away from the carriage, the last of each
    a row later when it stands there (S06, S07). Raises CannotShape for too few stitches or rows,
    and for a hem.
    """
    g = cut.gauge
    span = stitches_across(cut.length("wingspan"), g, rule(cut, "shawl cast_on", CountKind.SINGLE),
                           cut.measure("wingspan"))
    high = rows_along(cut.length("depth"), g, rule(cut, "shawl rows", CountKind.SINGLE),
                      cut.measure("depth"))
    held = _held_each_side(span).value
    rows = high.value - LAST_ROWS
    pairs = (rows - PLAIN_ROWS) // 2
    if cut.hem:
        raise CannotShape("a hem on the long edge of a shawl", "Leave the hem out.")
    if held < 1 or pairs < 1:
        raise CannotShape(f"a shawl of {span} and {high}", "Make wingspan or depth larger.")
    left, right = (Profile(rows, _holds(held, pairs, first)) for first in (2, 3))
    own = _lengths(g, span, high)
    piece = Piece(key="shawl", title=piece_name(PieceRole.SHAWL),
                  stitches=span, left=left, right=right,
                  bound_off_to=Reckoned(plain(2) * own["each side"].made))
    return Garment(form=Construction.SHAWL, size=cut.size, pieces=(piece,),
                   counts=_counts(span, high, piece), joins=(), edges={},
                   tasks=form_tasks.shawl(),
                   lengths=own, times={})


def _holds(stitches: int, pairs: int, first: int) -> tuple[Change, ...]:
    """Hold all `stitches` of a side in steps spread over `pairs` of rows from row `first`."""
    changes: list[Change] = []
    for i in range(pairs):
        step = (i + 1) * stitches // pairs - i * stitches // pairs
        row = first + 2 * i
        if step > 1:
            changes.append(Change(row, step - 1, How.HOLD))
        if step:
            changes.append(Change(row + 1, 1, How.HOLD))
    return tuple(changes)


def _counts(span: Count, high: Count, piece: Piece) -> Counts:
    return (("shawl", "cast_on", span), ("shawl", "rows", high),
            ("shawl", "held_each_side", _held_each_side(span)), ("shawl", "tip", Count(Noted(
                _tip(span), Note.NEVER_HELD, (NotedAmount(piece.top, Unit.STITCHES),)),
                Unit.STITCHES)))


def _held_each_side(span: Count) -> Count:
    """All but the stitches at the tip, half of them at either side."""
    return Count((span.term(Role.NUMBER) - Term(_tip(span), Role.AT_TIP)) / plain(2),
                 Unit.STITCHES)


def _tip(span: Count) -> Expression:
    """What is left when as many as can be are held: TIP, of an odd number one more."""
    across = span.term(Role.STITCHES)
    return across - plain(2) * Rounded((across - plain(TIP)) / plain(2), DOWN)


def _lengths(g: Gauge, span: Count, rows: Count) -> Lengths:
    deep = rows_high(rows.term(Role.ROWS), g)
    held = _held_each_side(span).term(Role.STITCHES, part_name(PartRole.HELD_AT_SIDE))
    side = Hypotenuse(stitches_wide(held, g), deep)
    return lengths(wingspan=across(span, g), depth=deep, each_side=side)

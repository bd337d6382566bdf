"""How many band stitches an edge wants, and which of its rows meets which stitch.

Sources: Yateley Machine Knitting Club, "February 2013: buttonholes and bands" (P05); a forum's
reply, "Picking Up Stitches" (P06); It's All About the Color, "Faced Band" (P09); an online book,
"How to Become an Expert Knitter" (P12).
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise

from ..core.counted import Count, stated
from ..core.counts import NEAREST, Rounding, Unit
from ..core.expression import Chosen, Expression, Operand, Rule, Term
from ..core.note_arguments import Noted, NotedAmount
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place
from ..core.spread import taken_rows
from ..fabric.gauge import Gauge, counted, rows_along
from ..machine.records import dataclass
from ..pattern.edges import EdgeSpec

# The largest "so many rows" a knitter counts without losing her place; common practice,
# no source. Published rules stay within it: 3/4, 2/3, 3/5, 4/5, 5/6.
LARGEST_CYCLE = 8

BandPlaces = Mapping[str, Place]  # of the entries of a band, by their paths
NOWHERE: BandPlaces = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class PickUp:
    """How a band's stitches meet an edge.

    `made` computes the best small ratio in stitches per row; `rows` the row each stitch takes, from
    the edge's start; `runs` the rows taken one after the other before the next is missed, from
    the edge's start to its end.
    """

    edge_rows: int
    stitches: int
    made: Expression
    rows: tuple[int, ...]
    runs: tuple[int, ...]

    @property
    def ratio(self) -> Fraction:
        """The best small ratio [stitches per row]."""
        return self.made.value


def edge_rows(edge: EdgeSpec, size: str, gauge: Gauge, rounding: Rounding = NEAREST,
              place: Place | None = None) -> Count:
    """Return the rows [rows] along the edge in `size`, from its rows or its length.

    `place` is where the source says which.
    """
    if edge.rows is not None:
        return stated(edge.rows[size], Unit.ROWS, place)
    assert edge.length is not None
    length = edge.length[size]
    return rows_along(length, gauge, rounding, Operand(length.mm, Role.LENGTH, place=place))


def stitches_by_gauge(rows: Count, edge: Gauge, band: Gauge, *, ease: Fraction = Fraction(0),
                      rounding: Rounding = NEAREST, places: BandPlaces = NOWHERE) -> Count:
    """Return the band's stitches: garment rows × row height × (1 + ease) ÷ band stitch width.

    The rate is the band's gauge and not the body's (P09; P06 is the arithmetic).
    `ease` is a share of the edge's length, and `places` are those of the band's entries.
    """
    high = eased(rows.term(Role.ROWS) * Operand(edge.row, Role.ROW_HEIGHT), ease, places)
    return counted(high / Operand(band.stitch, Role.BAND_STITCH), Unit.STITCHES, band.stitch,
                   rounding)


def stitches_by_rule(rows: Count, rule: Fraction, edge: Gauge, *, ease: Fraction = Fraction(0),
                     rounding: Rounding = NEAREST, places: BandPlaces = NOWHERE) -> Count:
    """Return the band's stitches by a pick-up rule in stitches per row: 52 rows at 3/4 are 39.

    Published rules: 3/5 for machine bands (P05), 3/4 and 2/3 by hand (P06, P12).
    """
    by_rule = rows.term(Role.NUMBER) * Operand(rule, Role.RULE, place=places.get("pick_up"))
    figure = eased(by_rule, ease, places)
    made = counted(figure, Unit.STITCHES, edge.row / rule, rounding)
    arguments = (NotedAmount(rows.value, rows.unit), NotedAmount(rule.numerator, Unit.STITCHES),
                 NotedAmount(rule.denominator, Unit.ROWS))
    return Count(Noted(made.made, Note.RULE, arguments), Unit.STITCHES)


def ruled_width(stitch: Fraction, row: Fraction, rule: Fraction | None, role: Role,
                places: BandPlaces = NOWHERE) -> Expression:
    """Return the width of a band stitch [mm] as a `rule` in stitches per row implies it: the height
    of a `row` [mm] by the rule; where no rule comes to it, the figure alone."""
    if rule is None or row / rule != stitch:
        return Operand(stitch, role)
    return Term(Operand(row, Role.ROW_HEIGHT) / Operand(
        rule, Role.RULE, place=places.get("pick_up")), role)


def eased(figure: Expression, ease: Fraction, places: BandPlaces = NOWHERE) -> Expression:
    """The figure with so much `ease`, a share of it, added."""
    return figure * Operand(1 + ease, Role.EASE, place=places.get("ease")) if ease else figure


def small_ratio(stitches: int, rows: int, largest: int = LARGEST_CYCLE) -> Expression:
    """Return the ratio stitches per row nearest to the true one with at most `largest` rows.

    Of two that are as near the one of fewer rows; for every number of rows the nearest stitches
    are tried, one at least. An edge so sparse that no such ratio comes near takes one stitch in
    `largest` rows.
    """
    tried = dict.fromkeys(
        Fraction(max(1, (2 * stitches * cycle + rows) // (2 * rows)), cycle)
        for cycle in range(1, largest + 1))
    true = Operand(Fraction(stitches), Role.STITCHES) / Operand(Fraction(rows), Role.ROWS)
    return Chosen(tuple(Operand(ratio, Role.RULE) for ratio in tried), Rule.NEAREST_TO,
                  ChoiceReason.RATIO, (true,))


def pick_up(stitches: int, rows: int) -> PickUp:
    """Return how `stitches` are taken from `rows` rows. Raises ValueError for none of either."""
    return of_rows(taken_rows(stitches, rows), rows)


def of_rows(taken: tuple[int, ...], rows: int) -> PickUp:
    """Return the pick-up that takes these of an edge's rows, a stitch each."""
    missed = [0, *sorted(set(range(1, rows + 1)) - set(taken)), rows + 1]
    runs = tuple(b - a - 1 for a, b in pairwise(missed))
    return PickUp(edge_rows=rows, stitches=len(taken), made=small_ratio(len(taken), rows),
                  rows=taken, runs=runs)


def marks(stitches: int) -> tuple[int, ...]:
    """Return the stitches (from 1) a hanging table names: ends, quarters, middle, every tenth.

    Both ends first, then the middle, then halves of halves is how bands are hung (P05).
    """
    quarters = {1 + (2 * k * (stitches - 1) + 4) // 8 for k in range(5)}
    return tuple(sorted(quarters | set(range(10, stitches + 1, 10))))

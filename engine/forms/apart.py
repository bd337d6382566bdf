"""Seams of pieces in two fabrics: each edge by its own gauge, both of one length."""

from __future__ import annotations

from ..core.counts import Unit
from ..core.expression import Expression
from ..fabric.gauge import Gauge
from ..machine.records import dataclass
from ..machine.steps import Side
from ..shape.bars import Uneven
from ..shape.garment import Cut, Join, Kindred
from ..shape.piece import Piece
from ..shape.seams import sewn_rows, sewn_stitches
from ..shape.tasks import Seam
from ..words.terms.join_names import from_below, side_of_piece
from .body_counts import SLEEVE
from .lengths import on_foot, rows_high, stitches_wide


@dataclass(frozen=True, slots=True, kw_only=True)
class WithSleeve:
    """What a body and a sleeve are cut from, which can be two fabrics."""

    cut: Cut

    @property
    def arm_cut(self) -> Cut:
        """What the sleeve is cut from."""
        return self.cut.of(SLEEVE)

    @property
    def apart(self) -> bool:
        """True where the sleeves are in another fabric than the body."""
        return not self.cut.alike("back", SLEEVE)


@dataclass(frozen=True, slots=True)
class SewnEdge:
    """So many rows or stitches of a piece that are sewn, of a fabric of this `gauge`; `made` is how
    they are counted, where that comes to as many."""

    piece: Piece
    many: int
    gauge: Gauge
    made: Expression | None = None

    @property
    def name(self) -> str:
        """What its piece is called inside a sentence."""
        return self.piece.title.lower()


def rows_apart(seam: Seam, title: str, one: SewnEdge, other: SewnEdge, *, from_foot: bool = True,
               side: Side | None = None, later: bool = False) -> Join:
    """Return a seam of rows in two fabrics, from the lower edges up, or of rows alone.

    Each edge may be a row off, as its rows are rounded. Where left edges are bound off a row
    `later`, these have a row less than is given.
    """
    feet = [edge.piece.hem if from_foot else None for edge in (one, other)]
    sewn = [on_foot(rows_high(sewn_rows(edge.many, edge.made), edge.gauge), foot, edge.gauge)
            for edge, foot in zip((one, other), feet, strict=True)]
    rows = [edge.many + (foot.height if foot else 0)
            for edge, foot in zip((one, other), feet, strict=True)]
    return Join(title=from_below(title) if from_foot else title, seam=seam,
                kindred=Kindred.LENGTH, sewn=(sewn[0], sewn[1]),
                tolerance=one.gauge.row + other.gauge.row, side=side,
                sides=(side_of_piece(one.name), side_of_piece(other.name)),
                uneven=Uneven(counted=Unit.ROWS, counts=(rows[0], rows[1]),
                              edges=(one.name, other.name), later=later))


def stitches_apart(seam: Seam, title: str, one: SewnEdge, other: SewnEdge, *,
                   side: Side | None = None
                   ) -> Join:
    """Return a seam of stitches in two fabrics, each edge up to a stitch off, as it is rounded."""
    def wide(edge: SewnEdge) -> Expression:
        return stitches_wide(sewn_stitches(edge.many, edge.made), edge.gauge)
    return Join(title=title, seam=seam, kindred=Kindred.LENGTH, sewn=(wide(one), wide(other)),
                tolerance=one.gauge.stitch + other.gauge.stitch, side=side,
                sides=(side_of_piece(one.name), side_of_piece(other.name)),
                uneven=Uneven(counted=Unit.STITCHES, counts=(one.many, other.many),
                              edges=(one.name, other.name)))

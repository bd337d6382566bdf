"""The edges of a garment that opens at the front: both front edges, and the neck between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from ..catalogue.forms import ROUND_THE_NECK
from ..core.counted import Count
from ..core.edge_parts import PathName, PathSpan, SectionRole, Worn
from ..core.expression import Expression, Operand, Term, plain
from ..core.operands import Role
from ..core.piece_roles import PieceRole
from ..fabric.gauge import Gauge
from ..pattern.edges import EdgeShape
from ..shape.counted_edge import NECK, slopes_named
from ..shape.edge_path import EdgePath, run_of
from ..shape.edging import Section, Stretch, Zone, falling, shaped, straight
from ..shape.foot import Foot, layer_of
from ..shape.garment import Cut
from ..shape.outline import last_row
from ..shape.piece import Piece
from ..shape.profile import EdgeSegment
from ..shape.ribs import Rib
from ..shape.seams import sewn_rows
from ..shape.widths import widths_up
from ..shape.worn import worn
from ..words.terms.part_names import above_part
from ..words.terms.piece_names import piece_name
from ..words.terms.section_names import THROUGH_BOTH


def both_fronts(right: Piece, *waits: str) -> tuple[Piece, Piece]:
    """Return the `right` front and the left one, which mirrors it; the stitches of that wait as
    `waits`."""
    left = replace(right, key="left_front", title=piece_name(PieceRole.LEFT_FRONT), mirrored=True,
                   waits=waits)
    return right, left


def opened_edges(cut: Cut, front: Piece, behind: Sequence[Section | None],
                 neck: Count | None = None, top: Expression | None = None) -> dict[str, EdgePath]:
    """Return the edges of a garment by the right `front`, whose front edge is its left one.

    `behind` is the neck between the two fronts, `neck` counts the rows of the front's, `top`
    computes all rows up to its end. Some necks are one edge with the fronts as well.
    """
    g = cut.gauge
    up, runs = upright(front.left.drawn(last_row(front)))
    below = top - neck.term(Role.ROWS) if top and neck else None
    rows = side_of(front.hem, up, g, SectionRole.FRONT_EDGE, below)
    rows[-1] = replace(rows[-1], tied=bool(front.neck_mark))
    slope = shaped(SectionRole.FRONT_NECK, runs, g, widths_up(front), counted=neck,
                   slopes=slopes_named(front, NECK))
    if slope and front.neck_mark:
        slope = replace(slope, above_tied=True)
    edges = {"neck": run_of("neck", PathName.NECK,
                            worn([slope, *behind, falling(slope)], Worn.RIGHT, Worn.LEFT),
                            span=PathSpan.FRONT_TO_FRONT)}
    for key, path in (("right_front.front_edge", PathName.RIGHT_FRONT),
                      ("left_front.front_edge", PathName.LEFT_FRONT)):
        edges[key] = run_of(key, path, rows,
                            span=PathSpan.FROM_HEM, shape=EdgeShape.FRONT)
    if cut.neck in ROUND_THE_NECK:
        along = [replace(s, zone=Zone.FRONT) for s in rows]
        edges["front_and_neck"] = run_of(
            "front_and_neck", PathName.AROUND,
            worn([*along, slope, *behind, falling(slope), *along[::-1]], Worn.RIGHT, Worn.LEFT),
            shape=EdgeShape.AROUND, fronts=len(along))
    return edges


def upright(segments: Sequence[EdgeSegment]) -> tuple[int, tuple[EdgeSegment, ...]]:
    """Return the plain rows with which an edge begins [rows], and its stretches above them."""
    if segments and not segments[0].stitches:
        return segments[0].rows, tuple(segments[1:])
    return 0, tuple(segments)


def side_of(foot: Foot | None, rows: int, gauge: Gauge, what: SectionRole | str,
            counted: Expression | None = None) -> list[Section]:
    """Return the sections of a straight side from the cast-on: its hem, and `rows` above it, as
    they are `counted`.

    The hem's rows are as high as its own fabric's, a folded one lies in two layers; the row
    that closes it is the garment's.
    """
    if foot is None:
        return [straight(what, rows, gauge.row, made=_near(rows, counted))]
    role = SectionRole.RIB if isinstance(foot, Rib) else SectionRole.HEM
    hem = straight(role, foot.rows, foot.row or gauge.row, layers=2 if foot.fold else 1,
                   stretch=Stretch.HEM,
                   made=layer_of(foot, Role.ROWS, THROUGH_BOTH if foot.fold else ""))
    made: Expression = _near(rows, counted)
    if foot.rows_to_join:
        made = _near(rows, counted, above_part(hem.name)) + Operand(
            Fraction(foot.rows_to_join), Role.JOINING, hem.name)
    above = straight(what, foot.rows_to_join + rows, gauge.row, made=made)
    return [hem, replace(above, joins_hem=bool(foot.rows_to_join and foot.fold))]


def _near(rows: int, counted: Expression | None, name: str = "") -> Operand | Term:
    """The rows of a side as they are `counted`, or one more or fewer: a neck begins a row later
    where it is bound off at a front edge."""
    more = 0 if counted is None else rows - int(counted.value)
    if counted is not None and abs(more) == 1:
        one = Term(counted, Role.ROWS)
        counted = one + plain(1) if more > 0 else one - plain(1)
    return sewn_rows(rows, counted, name)

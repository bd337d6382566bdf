"""The edges of a garment that opens at the front: both front edges, and the neck between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..garment import Cut
from ..model import Neck
from ..planning.edging import EdgeRun, Section, Zone, run_of, shaped, straight
from ..shaping.piece import Piece
from ..shaping.profile import Profile, Run

EDGES = ("front_edge", "right_front.front_edge", "left_front.front_edge", "neck",
         "front_and_neck")
# Necks whose fronts and neck can be one edge, from hem to hem.
ROUND_THE_NECK = (Neck.ROUND, Neck.V)


def opened_edges(cut: Cut, front: Piece, behind: Sequence[Section | None], *, held: bool
                 ) -> dict[str, EdgeRun]:
    """Return the edges of a garment by the right `front`, whose front edge is its left one.

    `behind` is the neck between the two fronts. Where a shoulder is `held` a last row runs over
    all its stitches. Some necks are one edge with the fronts as well.
    """
    g, edge = cut.gauge, front.left
    first = edge.changes[0].row if edge.changes else edge.rows
    rows = straight("front edge", (front.hem.height if front.hem else 0) + first, g)
    above = Profile(edge.rows - first, tuple(c._replace(row=c.row - first) for c in edge.changes))
    last = (Run(0, 1, None),) if held else ()
    slope = shaped("front neck", (*above.runs(), *last), g)
    edges = {"neck": run_of("neck", "Neck, from front edge to front edge",
                            [slope, *behind, slope])}
    for name in ("right", "left"):
        key = f"{name}_front.front_edge"
        edges[key] = run_of(key, f"{name.capitalize()} front edge, from the hem", [rows])
    if cut.neck in ROUND_THE_NECK:
        rows = replace(rows, zone=Zone.FRONT)
        edges["front_and_neck"] = run_of("front_and_neck", "From hem round the neck to hem",
                                         [rows, slope, *behind, slope, rows], fronts=1)
    return edges

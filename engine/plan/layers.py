"""The rows of a band's layer, and how its holes divide them.

Source: an online book, "How to Become an Expert Knitter" (B12).
"""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count, stated
from ..core.counts import DOWN, Unit
from ..core.expression import Expression, LookUp, Operand, Rounded, Sum, Term, plain
from ..core.note_arguments import Noted
from ..core.operands import Note, Role
from ..core.problems import Place, Problem, error
from ..fabric.gauge import Gauge, rows_along
from ..pattern.model import Band, BandRows, Fold
from ..pattern.places import Places

FOLD_ROWS = {Fold.TURNED: 1, Fold.LOOSE: 1, Fold.PICOT: 0}


def fold_rows(fold: Fold) -> Count:
    """Return the rows the fold itself takes [rows]: a picot is made by transfers and takes none."""
    entries = tuple((one.value, rows) for one, rows in FOLD_ROWS.items())
    return Count(LookUp("rows of a fold", fold.value, entries), Unit.ROWS)


def halves(depth: Count, stated: BandRows | None, place: Place | None = None
           ) -> tuple[Expression, Expression]:
    """Return a layer's rows before its holes and after them, up to the fold, as expressions.

    Half of its `depth` before them, half a row less of an odd depth, or as the source has `stated`
    at a `place`.
    """
    if stated is not None:
        first, rest = (Operand(Fraction(rows), Role.SOURCE, Unit.ROWS.name_of(rows), place)
                       for rows in (stated.to_holes, stated.holes_to_fold))
        return first, rest
    half = Rounded(depth.term(Role.ROWS) / plain(2), DOWN)
    return half, depth.term(Role.ROWS) - Term(half, Role.ROWS)


def layer_rows(places: Places, band: Band, size: str, gauge: Gauge
            ) -> tuple[Count, BandRows | None, list[Problem]]:
    """Return the rows of one layer [rows] and their split at the holes, with the findings.

    The split is None where it is refused. Holes lie on the layer's middle row (B12).
    """
    if band.rows is not None:
        r = band.rows
        place = places.of(f"bands.{band.key}.rows", size)
        parts = Sum(tuple(Operand(Fraction(rows), Role.NUMBER, name, place) for rows, name in (
            (r.to_holes, " before the holes"), (r.holes_to_fold, " after the holes"))))
        depth = Count(Noted(parts, Note.A_LAYER), Unit.ROWS)
        if r.fold_to_holes != r.holes_to_fold or r.to_finish != r.to_holes:
            return depth, None, [_unequal(places, band, r)]
        return depth, r, []
    place_ = places.of(f"bands.{band.key}.depth", size)
    if size in band.across:
        depth = stated(band.across[size], Unit.ROWS, place_)
        return depth, _halved(depth), []
    assert band.depth is not None
    deep = Operand(band.depth[size].mm, Role.LENGTH, place=place_)
    depth = rows_along(band.depth[size], gauge, measure=deep)
    layer = depth.value
    if layer < 2:
        return depth, None, [error(
            "band-too-shallow", place_, size=size,
            found=f"a depth of {band.depth[size].in_cm()}, which is {layer} row"
                  f"{'' if layer == 1 else 's'} a layer",
            expected="at least 2 rows a layer", remedy="Give the band more depth.")]
    return depth, _halved(depth), []


def _halved(depth: Count) -> BandRows:
    """A layer's rows, divided in its middle."""
    first, rest = (int(one.value) for one in halves(depth, None))
    return BandRows(to_holes=first, holes_to_fold=rest, fold_to_holes=rest, to_finish=first)


def _unequal(places: Places, band: Band, r: BandRows) -> Problem:
    return error("unequal-layers", places.of(f"bands.{band.key}.rows"),
                 found=f"{r.to_holes} + {r.holes_to_fold} rows before the fold and "
                       f"{r.fold_to_holes} + {r.to_finish} after it",
                 expected="as many rows from the fold to the holes as from the holes to the fold, "
                          "and as many after as before",
                 remedy=f"Write fold_to_holes: {r.holes_to_fold} and to_finish: {r.to_holes}.")

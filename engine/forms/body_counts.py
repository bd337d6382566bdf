"""Widths, rows and feet that the forms of a body count alike.

Sources: Lynne Vogel (author inferred), "Twisted Sisters Knit Sweaters" (C09); an online book, "How
to Become an Expert Knitter" (G05).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial

from ..core.counted import Count, stated
from ..core.counts import GIVEN, Rounding, Unit, outright
from ..core.expression import NOTHING, Expression, Operand, plain
from ..core.note_arguments import Noted, NoteWord
from ..core.operands import Note, Role
from ..core.text_kinds import CountKey
from ..core.units import Length
from ..fabric.gauge import Gauge, counted, rows_along, rows_up, stitches_in
from ..pattern.rib_specs import RibMake, RibSpec
from ..shape.foot import Foot, Hem, layer_of
from ..shape.garment import CannotShape, Cut
from ..shape.piece import Piece
from ..shape.profile import joined
from ..shape.ribs import Rib
from ..shape.roundings import CountKind, Roundable, rule
from ..shape.side_levels import seam_ends
from ..words.terms.part_names import of_foot

SLEEVE = "sleeve"
SEAM = 1  # stitches a side seam takes at each side (G05, C09)
FRONT: Roundable = {"right_front cast_on": CountKind.SINGLE}  # of a front that opens
HEM: Roundable = {"back hem_rows": CountKind.ROWS}

_OF_RIB, _OF_HEM = (NoteWord.RIB, NoteWord.FABRIC), (NoteWord.HEM, NoteWord.DIAL)


def width_of(cut: Cut, name: str, seams: int) -> Callable[[Rounding], Count]:
    """Return how the stitches across a measure, with so many for seams, are counted."""
    return wider(cut, name, Operand(Fraction(seams), Role.SEAMS))


def wider(cut: Cut, name: str, more: Expression) -> Callable[[Rounding], Count]:
    """Return how the stitches across a measure are counted, with those that lie beyond it."""
    figure: Expression = stitches_in(cut.measure(name), cut.gauge)
    if more.value:
        figure += more
    return partial(counted, figure, Unit.STITCHES, cut.gauge.stitch)


def at_armholes(cut: Cut, *, sleeves: bool) -> Expression:
    """Return the stitches of a back that both armholes take: its seams with the sleeves, or what
    the bands are hung in from its edges."""
    return Operand(Fraction(2 * SEAM), Role.SEAMS) if sleeves else cut.armholes


def between_seams(stitches: Count) -> Expression:
    """Return the stitches between the seams at both ends of a level edge."""
    return stitches.term(Role.STITCHES) - Operand(Fraction(2 * SEAM), Role.SEAMS)


def rows_in(cut: Cut, name: str, height: str) -> Count:
    """Return the rows of a measure up to a shaping, the count called `name`."""
    return rows_along(cut.length(height), cut.gauge, rule(cut, name, CountKind.ROWS),
                      cut.measure(height))


def rows_below(cut: Cut, name: CountKey, height: Expression, above: Iterable[Expression],
               foot: Foot | None, kind: CountKind = CountKind.ROWS) -> Count:
    """Return the rows that a height [mm] leaves between what a piece begins with and the rows
    `above`, the count called `name` of a `kind`."""
    figure = rows_up(height, cut.gauge)
    for part in (*above, *foot_rows(foot, cut.gauge)):
        figure -= part
    return counted(figure, Unit.ROWS, cut.gauge.row, rule(cut, name, kind))


def foot_rows(foot: Foot | None, gauge: Gauge) -> Iterator[Expression]:
    """Yield what a hem or rib takes up, in rows of the piece: a layer, and what joins it."""
    if foot is None:
        return
    name = "rib" if isinstance(foot, Rib) else "hem"
    own: Expression = layer_of(foot, Role.HEM_ROWS, name)
    if foot.row is not None and foot.row != gauge.row:
        own = own * Operand(foot.row, Role.ROW_HEIGHT) / Operand(gauge.row, Role.ROW_HEIGHT)
    yield own
    if foot.rows_to_join:
        yield Operand(Fraction(foot.rows_to_join), Role.JOINING, name)


def hem_of(cut: Cut, piece: str) -> tuple[Foot | None, Count | None]:
    """Return the hem or rib in whole rows, and those of one layer; None where there is none.

    `piece` is the one whose count they are.
    """
    if cut.hem is None:
        return None, None
    own, hem = cut.hem_gauge, cut.hem
    name = "rib" if isinstance(hem, RibSpec) else "hem"
    rows = _hem_rows(cut, f"{piece} hem_rows", name)
    if rows.value < 2:
        raise CannotShape(f"a {name} of {rows}", f"Give the {name} more depth, or leave it out.")
    if own is None and isinstance(hem.depth, Length):
        rows = Count(Noted(rows.made, Note.NOT_SWATCHED, _OF_RIB if isinstance(
            hem, RibSpec) else _OF_HEM), Unit.ROWS)
    row = own.row if own else None
    if isinstance(hem, RibSpec):
        _need_every_needle(cut)
        return Rib(make=hem.make, works=hem.works, rows=rows.value, dial=hem.dial, row=row,
                   stitch=own.stitch if own else None, fabric=hem.fabric,
                   joining=hem.joining, made=rows.made, ends=hem.ends,
                   own_stitches=hem.stitches), rows
    return Hem(rows=rows.value, dial=hem.dial, fold=hem.fold, row=row, joining=hem.joining,
               made=rows.made), rows


def cuff_of(cut: Cut, hem: Foot | None) -> tuple[Foot | None, Count | None]:
    """Return what sleeves begin with: the body's `hem`, or with its rows a hem or rib apart, or the
    hem in another fabric than the body's."""
    if cut.cuff is None:
        return hem_of(cut, SLEEVE) if hem and not cut.alike("back", SLEEVE) else (hem, None)
    return hem_of(replace(cut, hem=cut.cuff, hem_gauge=cut.cuff_gauge), SLEEVE)


def _hem_rows(cut: Cut, count: str, name: str) -> Count:
    """The rows of a layer of the hem or rib: even, but of one that is hung as many as are given.

    Two layers, the fold and the joining row end with the carriage where it began.
    """
    assert cut.hem is not None
    depth, rounding, place = cut.hem.depth, cut.rounding.get(count), cut.hem.place
    given = outright(depth) if isinstance(depth, int) else rounding
    hung = not isinstance(cut.hem, RibSpec) or cut.hem.make is RibMake.HUNG
    if given is None or given.rule != GIVEN or not hung:
        wanted = cut if given is None else replace(cut, rounding={**cut.rounding, count: given})
        given = rule(wanted, count, CountKind.ROWS)
    if isinstance(depth, int):
        return stated(depth, Unit.ROWS, place)
    return rows_along(depth, cut.hem_gauge or cut.gauge, given,
                      Operand(depth.mm, Role.LENGTH, of_foot(name), place))


def _need_every_needle(cut: Cut) -> None:
    """A rib is built on the needles of the piece above it, all of which must be in work."""
    if cut.repeat or (cut.chart and cut.chart.leaves_out):
        raise CannotShape("a rib below a fabric with needles left out of work",
                          "Leave the hem's kind out for a hung hem, or use a fabric in which "
                          "every needle works.")


def less_band(cut: Cut, name: str) -> Expression:
    """A width [mm] less what the overlap of the front bands takes from it."""
    width = cut.measure(name)
    return width - cut.overlap if cut.bands.value else width


def front_width(cut: Cut, flare: Expression = NOTHING) -> Count:
    """Return the stitches of one front of two, with a seam stitch and what a band hides; at its
    side it begins with so many more than at the chest as its `flare` comes to."""
    half = less_band(cut, "chest_width") / plain(2)
    figure = (half / Operand(cut.gauge.stitch, Role.STITCH_WIDTH)
              + Operand(Fraction(SEAM), Role.SEAM) + cut.inside)
    if flare.value:
        figure += flare
    return counted(figure, Unit.STITCHES, cut.gauge.stitch,
                   rule(cut, "right_front cast_on", CountKind.SINGLE))


def underarm_row(piece: Piece) -> int:
    """Return the row at which the first stitches go at a piece's right side, at its underarm."""
    edge = piece.right if piece.opening is None else joined(piece.right, piece.opening.outer)
    return next(change.row for change in edge.changes if change.row >= seam_ends(piece))

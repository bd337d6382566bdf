"""A placket: a slit at the centre front, as wide as its bands, below the front neck."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.branched import as_even_as
from ..core.counted import Count, stated
from ..core.counts import EVEN, Rounding, Unit, decimal
from ..core.edge_parts import PathName, PathSpan, SectionRole, Worn
from ..core.expression import Operand, plain
from ..core.join_parts import JoinRole, SewnSide
from ..core.operands import Role
from ..core.problems import Place
from ..core.units import Length
from ..fabric.gauge import Gauge, counted, rows_along
from ..machine.records import dataclass
from ..shape.counted_edge import NECK, slopes_named
from ..shape.curves import removed
from ..shape.edge_counts import rows_of_edge
from ..shape.edge_path import EdgePath, run_of
from ..shape.edging import Section, falling, shaped, straight
from ..shape.garment import CannotShape, Cut, Join, Kindred
from ..shape.outline import last_row
from ..shape.piece import Piece
from ..shape.profile import Change, in_order, shifted
from ..shape.tasks import Seam
from ..shape.widths import widths_up
from ..shape.worn import worn
from ..words.terms.join_names import join_name, sewn_sides
from .lengths import stitches_wide
from .opened import upright


@dataclass(frozen=True, slots=True, kw_only=True)
class Slit:
    """A slit of `rows`, with `stitches` bound off at its foot, between two bands [mm] deep."""

    rows: Count
    stitches: Count
    hidden: int
    band: Fraction

    def join(self, cut: Cut) -> Join:
        """The room between the edges as hung, and the band that fills it."""
        return Join(title=join_name(JoinRole.PLACKET), seam=Seam.PLACKET,
                    kindred=Kindred.LENGTH,
                    sewn=(Operand(self.band, Role.BANDS, "band"), stitches_wide(
                        self.stitches.term(Role.STITCHES)
                        + Operand(Fraction(2 * self.hidden), Role.INSIDE_BANDS), cut.gauge)),
                    tolerance=cut.gauge.stitch, sides=sewn_sides(SewnSide.BAND, SewnSide.SLIT))


def slit_of(cut: Cut, across: Count) -> Slit | None:
    """Return the slit of a garment that has one, odd or even as the stitches `across` it are.

    Its bands hide `cut.hidden` stitches of either edge, so that fewer are bound off than the
    band is wide. Raises CannotShape without bands, or where they hide more than they cover.
    """
    if cut.placket is None:
        return None
    if not cut.bands.value:
        raise CannotShape("a placket without bands, whose depth is the slit's width",
                          "Add a band with edge: placket.")
    g = cut.gauge
    exact = cut.bands.value / g.stitch - 2 * cut.hidden
    if exact < 1:
        raise CannotShape(
            f"placket bands {decimal(cut.bands.value / 10, 1)} cm deep, which hide {cut.hidden} "
            "stitches of either edge",
            "Give the placket bands more depth, or write stitches_in: 1.")
    figure = (cut.overlap / Operand(g.stitch, Role.STITCH_WIDTH)
              - plain(2) * replace(cut.inside, role=Role.INSIDE_BANDS))
    stitches = counted(figure, Unit.STITCHES, g.stitch,
                       Rounding("odd") if across.value % 2 else EVEN)
    stitches = Count(as_even_as(stitches.made, across.made), stitches.unit)
    rows = _slit_rows(cut.placket, g, cut.place("placket"))
    if rows.value < 2:
        raise CannotShape(f"a placket of {rows}", "Make placket longer.")
    return Slit(rows=rows, stitches=stitches, hidden=cut.hidden, band=cut.bands.value)


def _slit_rows(depth: Length | int, gauge: Gauge, place: Place | None) -> Count:
    """How many rows the slit has, an even number. Raises CannotShape for an odd count."""
    if not isinstance(depth, int):
        return rows_along(depth, gauge, EVEN, Operand(depth.mm, Role.STATED, "placket", place))
    if depth % 2:
        raise CannotShape(f"a placket of {depth} rows, an odd number: it begins where the carriage "
                          "comes back", f"Write {depth - 1} or {depth + 1} rows.", at="placket")
    return stated(depth, Unit.ROWS, place)


def above(slit: Slit, at_once: int, slope: tuple[Change, ...]) -> tuple[Change, ...]:
    """Return one inner edge from the foot: the slit, what goes at once, the neck's slope."""
    up = slit.rows.value
    return in_order(removed(up + 1, at_once), shifted(slope, up + 2))


def edges(front: Piece, behind: list[Section | None], cut: Cut, neck: Count, slit: Count
          ) -> dict[str, EdgePath]:
    """Return the two edges of the slit of a whole `front`, and the neck from one to the other.

    `behind` are the sections between the two sides of the front neck; `neck` counts the rows of
    those sides, `slit` those of the slit.
    """
    assert front.opening is not None
    first, above = upright(front.opening.inner.drawn(last_row(front)))
    slope = shaped(SectionRole.FRONT_NECK, above, cut.gauge, widths_up(front), counted=neck,
                   slopes=slopes_named(front, NECK))
    rows = straight(SectionRole.PLACKET, first, cut.gauge.row, made=rows_of_edge(first, slit))
    made = {"neck": run_of("neck", PathName.NECK,
                           worn([slope, *behind, falling(slope)], Worn.RIGHT, Worn.LEFT),
                           span=PathSpan.FRONTS_OF_PLACKET)}
    for key, path in (("right_placket", PathName.RIGHT_PLACKET),
                      ("left_placket", PathName.LEFT_PLACKET)):
        made[key] = run_of(key, path, [rows],
                           span=PathSpan.FROM_FOOT)
    return made

"""The lines of a raglan: the whole numbers that body and sleeves share, up to any top."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Operand, Sum, plain
from ..core.join_parts import JoinRole, SewnSide
from ..core.note_arguments import Noted, NotedAmount
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Note, Role
from ..fabric.gauge import Gauge, stitches_across
from ..machine.records import dataclass
from ..pattern.slope_specs import Slope
from ..shape.even_gaps import EvenSlope
from ..shape.foot import Foot
from ..shape.garment import CannotShape, Cut, Join, Kindred
from ..shape.outline import last_row
from ..shape.piece import FRONTS, Piece
from ..shape.profile import Change, How, Profile, shifted
from ..shape.raglan import raglan, raglan_slope
from ..shape.roundings import CountKind, Roundable, alike, deepened, rule
from ..shape.schedule import Schedule
from ..shape.seams import bound_off_later, is_left_later, opens_below, right_and_left, sewn_rows
from ..shape.slopes import even_slope, slope_counts, slope_request
from ..shape.tasks import Seam
from ..words.terms.join_names import join_name, raglan_name, sewn_sides
from ..words.terms.part_names import part_name
from .apart import SewnEdge, WithSleeve, rows_apart, stitches_apart
from .body_counts import HEM, SEAM, SLEEVE, hem_of, rows_below, rows_in, width_of
from .lengths import rows_high
from .sides import Sides, sides, widths
from .sleeve import ARM, Tube, tube

TOP = 1  # the row over the decreases at the very top of a raglan
LINES: Roundable = {  # what a raglan with any top has
    "back cast_on": CountKind.WIDTH, "back neck_stitches": CountKind.WIDTH,
    "back underarm": CountKind.SINGLE, "back rows_to_raglan": CountKind.ROWS,
    "back raglan_rows": CountKind.ROWS, **HEM, **ARM, "sleeve rows_to_raglan": CountKind.ROWS}


@dataclass(frozen=True, slots=True, kw_only=True)
class RaglanLine:
    """The raglan line `of` body or sleeve: from `width` less `off` at each side to `top` [stitches]
    over so many `rows`."""

    cut: Cut
    of: Slope
    width: Count
    top: Expression
    rows: Count
    off: Count

    def profile(self, parity: int) -> Profile:
        """The line as an edge from the underarm up."""
        return raglan(self.width.term(Role.STITCHES), self.top, self.rows.term(Role.ROWS),
                      bind_off=self.off.term(Role.STITCHES), parity=parity,
                      request=slope_request(self.cut, self.of))

    @property
    def slope(self) -> Schedule:
        """Its single decreases."""
        return raglan_slope(self.width.term(Role.STITCHES), self.top, self.rows.term(Role.ROWS),
                            bind_off=self.off.term(Role.STITCHES),
                            request=slope_request(self.cut, self.of))

    def even(self, below: Count) -> tuple[EvenSlope, ...]:
        """Its decreases above so many rows, where they are spread evenly; else nothing."""
        return even_slope(("raglan_decreases", How.DECREASE), below.term(Role.ROWS), self.slope)

    def own(self, piece: str) -> tuple[tuple[str, str, Count], ...]:
        """Its counts where the designer schedules it."""
        request = slope_request(self.cut, self.of)
        return slope_counts(piece, "raglan_", request, self.slope) if request else ()


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedLines(WithSleeve, ABC):
    """The whole numbers that the body and the sleeves of every raglan share.

    `width`, `neck` and `underarm` in stitches (back at its underarm, back neck, what is bound off
    at each underarm); `sides` how the back comes to its width; `below` and `line` in rows (to the
    raglan, and along it). `arm_line` and `arm_underarm` are the sleeve's, others than the body's
    where it is in another fabric.
    """

    width: Count
    sides: Sides
    neck: Count
    underarm: Count
    below: Count
    line: Count
    arm_line: Count
    arm_underarm: Count
    arm: Tube
    hem: Foot | None
    hem_rows: Count | None

    @property
    @abstractmethod
    def tops(self) -> tuple[Expression, Expression]:
        """The stitches of body and sleeve at the end of their raglan lines."""

    def body(self, parity: int) -> Profile:
        """One raglan line of the body, from the underarm."""
        return self._body.profile(parity)

    @property
    def _body(self) -> RaglanLine:
        return RaglanLine(cut=self.cut, of=Slope.RAGLAN_BODY, width=self.width,
                          top=self.tops[0], rows=self.line, off=self.underarm)

    @property
    def _sleeve(self) -> RaglanLine:
        return RaglanLine(cut=self.arm_cut, of=Slope.RAGLAN_SLEEVE, width=self.arm.top,
                          top=self.tops[1], rows=self.arm_line, off=self.arm_underarm)

    @property
    def body_slopes(self) -> tuple[EvenSlope, ...]:
        """The sides of back and fronts and their raglan line, where these are spread evenly."""
        return *self.sides.slopes, *self._body.even(self.below)

    @property
    def sleeve_slopes(self) -> tuple[EvenSlope, ...]:
        """The increases of the sleeve and its raglan line, where they are spread evenly."""
        return *self.arm.even, *self._sleeve.even(self.arm.rows)

    @property
    def own_slopes(self) -> tuple[tuple[str, str, Count], ...]:
        """The counts of the slopes that the designer schedules."""
        return *self._body.own("back"), *self.arm.own, *self._sleeve.own(SLEEVE)


@dataclass(frozen=True, slots=True, kw_only=True)
class RaglanLines(JoinedLines):
    """Those of a raglan without a strap: `top` are the stitches of the sleeve at its upper end."""

    top: Count

    @property
    def tops(self) -> tuple[Expression, Expression]:
        """The stitches of body and sleeve at the end of their raglan lines."""
        return self.neck.term(Role.STITCHES), self.top.term(Role.STITCHES)

    def side(self, parity: int) -> tuple[Change, ...]:
        """The changes of a side from its lower edge up: side seam and raglan line."""
        return (*self.sides.changes, *shifted(self.body(parity).changes, self.below.value))

    def sleeve(self, parity: int) -> Profile:
        """One raglan line of the sleeve."""
        return self._sleeve.profile(parity)


def lines(cut: Cut) -> RaglanLines:
    """Return the shared numbers. Raises CannotShape where the lines do not fit."""
    hem, hem_rows = hem_of(cut, "back")
    line = rows_in(cut, "back raglan_rows", "raglan_depth")
    below = rows_below(cut, "back rows_to_raglan", cut.measure("body_length"), above(line), hem)
    widths_of = {**widths(cut), "back neck_stitches": width_of(cut, "neck_width", 2 * SEAM)}
    counted = dict(zip(widths_of, alike(cut, widths_of), strict=True))
    sleeve = cut.of(SLEEVE)
    arm = tube(sleeve, hem, "rows_to_raglan",
               end={"sleeve top": width_of(sleeve, "sleeve_top", 2 * SEAM)})
    assert arm.end is not None  # asked for just above
    own = sides(cut, counted, below, hem)
    arm_line, arm_underarm = of_sleeve(cut, line)
    made = RaglanLines(cut=cut, width=own.chest, sides=own, neck=counted["back neck_stitches"],
                       top=arm.end, underarm=underarm_of(cut), below=below, line=line, arm=arm,
                       hem=hem, hem_rows=hem_rows, arm_line=arm_line, arm_underarm=arm_underarm)
    for name, sts, top, rows, off in (
            ("body", made.width, made.neck, line, made.underarm),
            ("sleeve", made.arm.top, made.top, arm_line, arm_underarm)):
        going = (sts.value - top.value) // 2 - off.value
        if going < 0 or going > rows.value - 2 or below.value < 2:
            raise CannotShape(
                f"a raglan line of the {name} with {going} stitches to go in {rows}",
                "Change ease, raglan_depth, neck_width, sleeve_top or upper_arm_width.",
                expected=f"0 to {max(0, rows.value - 2)} stitches to go in these rows, and 2 rows "
                "below them")
    return made


def of_sleeve(cut: Cut, line: Count) -> tuple[Count, Count]:
    """Return the rows of a sleeve's raglan line and the stitches bound off below it: the body's, or
    those that its fabric has."""
    if cut.alike("back", SLEEVE):
        return line, underarm_of(cut)
    own = cut.of(SLEEVE)
    return rows_in(own, "sleeve raglan_rows", "raglan_depth"), underarm_of(own, SLEEVE)


def arm_counts(line: Count, underarm: Count, *, apart: bool) -> tuple[tuple[str, str, Count], ...]:
    """Return the counts of a sleeve's raglan line: the body's rows, or its own rows and bind-off
    in another fabric."""
    if apart:
        return (SLEEVE, "raglan_rows", line), (SLEEVE, "underarm", underarm)
    return ((SLEEVE, "raglan_rows", Count(Noted(line.term(Role.ROWS), Note.AS_BODY), Unit.ROWS)),)


def above(line: Count) -> tuple[Expression, ...]:
    """Return the rows of a raglan's `line` and those at its very top."""
    return (line.term(Role.ROWS, part_name(PartRole.OF_RAGLAN)),
            Operand(Fraction(TOP), Role.ROWS, part_name(PartRole.ABOVE_IT)))


def raglan_high(line: Count, gauge: Gauge) -> Expression:
    """Return how deep a raglan is, with the rows above it."""
    return rows_high(Sum(above(line)), gauge)


def body_high(below: Count, line: Count, gauge: Gauge) -> Expression:
    """Return how high a body is to the top of its raglan, without its hem."""
    return rows_high(Sum((below.term(Role.ROWS, part_name(PartRole.BELOW_RAGLAN)),
                          *above(line))), gauge)


def top_rows(piece: Piece) -> Count:
    """Return the rows knitted over the decreases at a raglan's very top."""
    rows = NotedAmount(last_row(piece), Unit.ROWS)
    return Count(Noted(plain(rows.value), Note.OVER_LAST, (rows,)), Unit.ROWS)


def over_last(rows: int) -> Operand:
    """Return so many rows over the last decreases."""
    return Operand(Fraction(rows), Role.ROWS, part_name(PartRole.OVER_LAST_DECREASES))


def underarm_of(cut: Cut, piece: str = "back") -> Count:
    """Return the stitches that a piece binds off at each underarm, one at least."""
    rounding = rule(cut, f"{piece} underarm", CountKind.SINGLE)
    made = stitches_across(cut.length("underarm"), cut.gauge, rounding, cut.measure("underarm"))
    return deepened(made, plain(1), rounding, cut.gauge.stitch, ChoiceReason.SIDES_MEET)


def underarm_seam(underarm: Count) -> Join:
    """Return the join of the stitches that body and sleeve bind off, at each end of a raglan."""
    both = underarm.term(Role.STITCHES)
    return Join(title=join_name(JoinRole.UNDERARM), seam=Seam.UNDERARM, kindred=Kindred.STITCHES,
                sewn=(both, both))


def underarm_apart(cut: Cut, body: tuple[Piece, Count], sleeve: tuple[Piece, Count]) -> Join:
    """Return that join of a body and a sleeve in two fabrics, with what each binds off."""
    return stitches_apart(Seam.UNDERARM, join_name(JoinRole.UNDERARM), *(
        SewnEdge(piece, off.value, cut.of(piece.key).gauge, off.made) for piece,
        off in (body, sleeve)))


def seams_apart(cut: Cut, piece: Piece, sleeve: Piece, rows: tuple[int, int],
                lines: tuple[Count, Count]) -> tuple[Join, ...]:
    """Return the raglan seams of a piece of the body and a sleeve in another fabric, with so many
    `rows` of their `lines`, and the row over the last decreases of both. These are the rows of
    right edges; a left one that is bound off a row later has one less, and meets a right one, but
    at a front that is knitted mirrored."""
    top = min(last_row(piece), last_row(sleeve))
    later = is_left_later(sleeve) and not piece.mirrored
    edges = [SewnEdge(one, many + top, cut.of(one.key).gauge, _seam_rows(many, top, line))
             for one, many, line in zip((piece, sleeve), rows, lines, strict=True)]
    return (rows_apart(Seam.RAGLAN, raglan_name(piece.title), *edges,
                       from_foot=False, side=FRONTS.get(piece.key), later=later),)


def raglan_seams(body: tuple[Piece, int], sleeve: tuple[Piece, int], rows: tuple[int, int],
                 line: Count) -> tuple[Join, ...]:
    """Return the seams of a piece of the body and the sleeve, each from the row of its underarm;
    right and left where they differ.

    `rows` are those of the lines above it at the right edges as drawn, and `line` the count of
    them; the row over the last decreases of both lies in the seam too. Where the left one is bound
    off a row later it has one row less, and meets a right one, but at a front that is knitted
    mirrored.
    """
    piece = body[0]
    top = min(last_row(piece), last_row(sleeve[0]))
    later = bound_off_later(*sleeve) and not piece.mirrored
    seam = Join(title=raglan_name(piece.title), seam=Seam.RAGLAN,
                kindred=Kindred.ROWS, tolerance=Fraction(later),
                sewn=(_seam_rows(rows[0], top, line), _seam_rows(rows[1], top, line, later)),
                side=FRONTS.get(piece.key),
                sides=sewn_sides(SewnSide.RIGHT_OF_BED, SewnSide.ONE_EDGE) if later
                else sewn_sides(SewnSide.ONE, SewnSide.OTHER))
    if not (later and opens_below(piece)):
        return (seam,)
    return right_and_left(seam, replace(seam, tolerance=Fraction(0), sewn=(
        seam.sewn[0], _seam_rows(rows[1], top, line))))


def _seam_rows(rows: int, top: int, line: Count, later: int = 0) -> Expression:
    """The rows of a raglan seam: of its line, less one where it begins a row `later`, and of its
    `top` over the last decreases."""
    below: Expression = sewn_rows(rows, line.made)
    if later:
        below -= Operand(Fraction(later), Role.ROWS)
    if not top:
        return below
    return below + over_last(top)

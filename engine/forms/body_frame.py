"""The whole numbers that back and fronts share, with armholes and shoulders.

Sources: Lynne Vogel (author inferred), "Twisted Sisters Knit Sweaters" (C09); aisteb1973, "Modern
Vintage Knitting Patterns: Apple Juice" (S04); University of Brighton, "Short row or holding
technique 1" (S06).
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property

from ..core.counted import Count
from ..core.counts import DOWN, Unit
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Sum, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from ..shape.armholes import Armhole
from ..shape.foot import Foot
from ..shape.garment import CannotShape, Cut
from ..shape.profile import Change, Profile
from ..shape.roundings import alike
from ..shape.shoulders import HeldShoulder, held_shoulder, held_sizes, shoulder_sizes
from ..shape.step_sizes import STEP_ROWS, CountedSlope
from ..words.terms.part_names import part_name
from .armhole_counts import ArmholeStitches, armhole, foot_of
from .body_counts import hem_of, rows_below, rows_in, wider, width_of
from .sides import Sides, sides, widths


@dataclass(frozen=True, kw_only=True)
class Frame:
    """The whole numbers that back and fronts share, so that every seam closes.

    `width` the stitches of the back at its underarm, and `sides` how it comes to them; `narrow`
    what goes at each armhole; `neck` the stitches of the neck, `shoulder` of each shoulder;
    `to_armhole`, `armhole` and `slope` the rows from 0 to the armhole, from there to the shoulder,
    and of the shoulder's steps.
    """

    cut: Cut
    width: Count
    sides: Sides
    across: Count
    neck: Count
    to_armhole: Count
    armhole: Count
    slope: Count
    hem: Foot | None
    hem_rows: Count | None

    @property
    def narrow(self) -> int:
        """Stitches that go at each armhole."""
        return (self.width.value - self.across.value) // 2

    @property
    def shoulder(self) -> int:
        """Stitches of each shoulder."""
        return (self.across.value - self.neck.value) // 2

    @property
    def shoulder_counted(self) -> Expression:
        """The same as an expression; not a whole number where the two are not both even or odd."""
        return shoulder_of(self.across, self.neck)

    @cached_property
    def shaped_shoulder(self) -> HeldShoulder:
        """The held shoulder: the designer's steps, or as many as its slope has pairs of rows, and
        one."""
        own, wide = self.cut.conventions.shoulders, self.shoulder_counted
        if wide.value.denominator > 1:
            wide = Rounded(wide, DOWN)
        if own.steps:
            return held_shoulder(held_sizes(wide, own_steps(self.cut)))
        pairs = Rounded(self.slope.term(Role.ROWS) / plain(2), DOWN) + plain(1)
        steps = Chosen((pairs, Term(wide, Role.STITCHES)), Rule.SMALLEST, ChoiceReason.STITCH_EACH)
        return held_shoulder(shoulder_sizes(wide, steps, own.remainder))

    @cached_property
    def slopes(self) -> tuple[CountedSlope, ...]:
        """The slopes of its sides, armholes and shoulders as calculations. Raises CannotShape."""
        shape, up = self.shaped_armhole, self.to_armhole.term(Role.ROWS)
        return (*self.sides.slopes, *(shape.slopes(up) if shape else ()),
                *self.shaped_shoulder.slopes(up + self.armhole.term(Role.ROWS) - plain(1)))

    @property
    def rows_up(self) -> Expression:
        """The rows of its pieces, from above the hem to the top of the shoulders."""
        return Sum((self.to_armhole.term(Role.ROWS), self.armhole.term(Role.ROWS),
                    self.slope.term(Role.ROWS)))

    @property
    def shoulder_row(self) -> int:
        """The row at which the shoulders begin, on the side away from the carriage (S06)."""
        return self.to_armhole.value + self.armhole.value - 1

    @cached_property
    def shaped_armhole(self) -> Armhole | None:
        """The armhole's shaping, worked out once for every edge that has it; None where the body is
        straight. Raises CannotShape."""
        if not self.narrow:
            return None
        return armhole(self.cut, ArmholeStitches(width=self.width, across=self.across),
                       self.armhole)

    @property
    def rows(self) -> int:
        """All rows from 0 to the top, as the counts add up."""
        return self.to_armhole.value + self.armhole.value + self.slope.value

    @property
    def top_row(self) -> int:
        """The last row before the final one over all held stitches; the last of all where the
        shoulders are straight and none is held."""
        return self.rows - 1 if self.slope.value else self.rows


def frame(cut: Cut, *, armholes: bool, taken: Expression) -> Frame:
    """Return the numbers of a body; without `armholes` it is straight from there to the shoulder.

    `taken` are the stitches of its back that lie in a sleeve's seams or under bands at both
    armholes, and not in the finished width across.
    Widths are all even, or all odd where that is asked, so that both sides are alike, and rows
    even so that the carriage ends where it began (C09). Raises CannotShape, with the figures.
    """
    widths_of = {**widths(cut), "back neck_stitches": width_of(cut, "neck_width", 0)}
    if armholes:
        widths_of["back across"] = wider(cut, "across", taken)
    made = dict(zip(widths_of, alike(cut, widths_of), strict=True))
    width = made.get("back chest", made["back cast_on"])
    across = made.get("back across", width)
    if across.value > width.value:
        across = Count(Chosen((across.made, width.term(Role.STITCHES)), Rule.SMALLEST,
                              ChoiceReason.NO_WIDER), Unit.STITCHES)
    slope = _shoulder_rows(cut, shoulder_of(across, made["back neck_stitches"]))
    armhole = rows_in(cut, "back armhole_rows", "armhole")
    hem, hem_rows = hem_of(cut, "back")
    to_armhole = rows_below(
        cut, "back rows_to_armhole", cut.measure("body_length"),
        (armhole.term(Role.ARMHOLE_ROWS),
         slope.term(Role.ROWS, part_name(PartRole.OF_SHOULDER))), hem)
    if to_armhole.value < 2:
        raise CannotShape(f"{to_armhole.value} rows below the armhole",
                          "Lengthen body_length or make armhole less deep.",
                          at="measures.body_length")
    body = Frame(cut=cut, width=width, sides=sides(cut, made, to_armhole, hem), across=across,
                 neck=made["back neck_stitches"], to_armhole=to_armhole, armhole=armhole,
                 slope=slope, hem=hem, hem_rows=hem_rows)
    if body.shoulder < 2:
        each: FindingText = "1 stitch each" if body.shoulder == 1 else f"{body.shoulder} stitches"
        raise CannotShape(f"shoulders of {each}: {across.value} across and {body.neck.value} for "
                          "the neck", "Narrow neck_width or widen across.",
                          at="measures.neck_width")
    return body


def shoulder_of(across: Count, neck: Count) -> Expression:
    """Return the stitches of a shoulder, which the neck leaves of those across."""
    return (across.term(Role.STITCHES, part_name(PartRole.ACROSS))
            - neck.term(Role.STITCHES, part_name(PartRole.OF_NECK))) / plain(2)


def own_steps(cut: Cut) -> tuple[Expression, ...]:
    """Return the steps of a shoulder as the designer gives them."""
    place = cut.place("shoulders.steps")
    return tuple(Operand(Fraction(step), Role.SOURCE, Unit.STITCHES.name_of(step), place)
                 for step in cut.conventions.shoulders.steps)


def _shoulder_rows(cut: Cut, stitches: Expression) -> Count:
    """The rows of the shoulders: of shoulder_drop, or 2 for every step that is held (S04)."""
    own = cut.conventions.shoulders.steps
    if not own:
        return rows_in(cut, "back shoulder_rows", "shoulder_drop")
    if sum(own) > stitches.value:
        raise CannotShape(f"steps of {' + '.join(map(str, own))} = {sum(own)} stitches in "
                          f"shoulders of {int(stitches.value)}",
                          f"Write steps of {int(stitches.value)} stitches at "
                          "most; what they leave is the last step.", at="shoulders.steps")
    held = held_sizes(stitches, own_steps(cut)).times - plain(1)
    return Count(plain(STEP_ROWS) * Term(held, Role.HELD_STEPS), Unit.ROWS)


def underarm_of(frame: Frame) -> Expression | None:
    """Return what is bound off at once at each armhole; None where the body is straight."""
    if not frame.narrow:
        return None
    going = ArmholeStitches(width=frame.width, across=frame.across)
    return foot_of(frame.cut, going)[0]


def armhole_edge(frame: Frame, parity: int) -> tuple[Change, ...]:
    """Return the armhole's changes on the side of `parity`; none where the body is straight."""
    made = frame.shaped_armhole
    return made.changes(frame.to_armhole.value, parity) if made else ()


def side_edge(frame: Frame, parity: int) -> tuple[Change, ...]:
    """Return the changes of a side from its lower edge to the shoulder: side seam and armhole."""
    return (*frame.sides.changes, *armhole_edge(frame, parity))


def side(frame: Frame, parity: int, rows: int) -> Profile:
    """Return a side seam and armhole up to `rows`, without what is made at that row."""
    return Profile(rows, tuple(c for c in side_edge(frame, parity) if c.row < rows))

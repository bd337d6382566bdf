"""The lines of a saddle raglan: the whole numbers that body and sleeves share, up to the strap."""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Operand, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..fabric.gauge import counted, stitches_in
from ..machine.records import dataclass
from ..shape.garment import CannotShape, Cut
from ..shape.profile import Profile, joined, shifted
from ..shape.roundings import CountKind, alike, rule
from ..words.terms.part_names import part_name
from .body_counts import SEAM, SLEEVE, hem_of, rows_below, rows_in, width_of
from .raglan_lines import JoinedLines, above, of_sleeve, underarm_of
from .sides import sides, widths
from .sleeve import tube


@dataclass(frozen=True, slots=True, kw_only=True)
class SaddleLines(JoinedLines):
    """Those of a saddle raglan.

    `shoulder` and `strap` in stitches (the shoulder under the strap with the raglan's seam stitch,
    the strap); `over` in rows (over the shoulder).
    """

    shoulder: Count
    strap: Count
    over: Count

    @property
    def across(self) -> int:
        """Stitches of the body where its raglan lines end: neck and both shoulders."""
        return self.neck.value + 2 * self.shoulder.value

    @property
    def tops(self) -> tuple[Expression, Expression]:
        """The stitches of body and sleeve at the end of their raglan lines."""
        body = self.neck.term(Role.STITCHES) + plain(2) * self.shoulder.term(Role.STITCHES)
        return body, self.strap.term(Role.STITCHES)

    def side(self, parity: int) -> Profile:
        """One side of the body from its lower edge: side seam and raglan line."""
        line = self.body(parity)
        return Profile(self.below.value + line.rows, (
            *self.sides.changes, *shifted(line.changes, self.below.value)))

    def sleeve(self, parity: int) -> Profile:
        """One raglan line of the sleeve, and the strap's straight edge above it."""
        return joined(self._sleeve.profile(parity), Profile(self.over.value))


def lines(cut: Cut) -> SaddleLines:
    """Return the shared numbers. Raises CannotShape where the lines do not fit.

    The body is shorter by half a strap, which lies over each shoulder.
    """
    hem, hem_rows = hem_of(cut, "back")
    line = rows_in(cut, "back raglan_rows", "raglan_depth")
    below = rows_below(cut, "back rows_to_raglan", cut.measure("body_length")
                       - cut.measure("saddle_width") / plain(2), above(line), hem)
    widths_of = {**widths(cut), "back neck_stitches": width_of(cut, "neck_width", 0)}
    found = dict(zip(widths_of, alike(cut, widths_of), strict=True))
    sleeve = cut.of(SLEEVE)
    arm = tube(sleeve, hem, "rows_to_raglan",
               end={"sleeve strap": width_of(sleeve, "saddle_width", 2 * SEAM)})
    assert arm.end is not None  # asked for just above
    shoulder = _shoulder(cut)
    own = sides(cut, found, below, hem)
    arm_line, arm_underarm = of_sleeve(cut, line)
    made = SaddleLines(cut=cut, width=own.chest, sides=own, neck=found["back neck_stitches"],
                       shoulder=shoulder, strap=arm.end, underarm=underarm_of(cut), below=below,
                       line=line, arm_line=arm_line, arm_underarm=arm_underarm,
                       over=_rows_over(cut, shoulder), arm=arm, hem=hem, hem_rows=hem_rows)
    for name, sts, top, rows, off in (
            ("body", made.width.value, made.across, line, made.underarm),
            ("sleeve", made.arm.top.value, made.strap.value, arm_line, arm_underarm)):
        going = (sts - top) // 2 - off.value
        if going < 0 or going > rows.value - 2 or below.value < 2:
            raise CannotShape(
                f"a raglan line of the {name} with {going} stitches to go in {rows}, {below} "
                "below it", "Change raglan_depth, saddle_length, saddle_width, neck_width or "
                "upper_arm_width.")
    return made


def _shoulder(cut: Cut) -> Count:
    g = cut.gauge
    figure = stitches_in(cut.measure("saddle_length"), g) + Operand(Fraction(SEAM), Role.SEAM)
    made = counted(figure, Unit.STITCHES, g.stitch, rule(cut, "back shoulder", CountKind.SINGLE))
    if made.value < 2 + SEAM:
        raise CannotShape(f"a shoulder of {made}", "Make saddle_length longer.")
    return made


def _rows_over(cut: Cut, shoulder: Count) -> Count:
    """The strap's rows, as long as the shoulder's stitches without the seam's."""
    row = cut.of(SLEEVE).gauge.row
    along = shoulder.term(Role.STITCHES, part_name(PartRole.ALONG_SHOULDER)) \
        - Operand(Fraction(SEAM), Role.SEAM)
    wide = along * Operand(cut.gauge.stitch, Role.MILLIMETRES)
    return counted(wide / Operand(row, Role.ROW_HEIGHT), Unit.ROWS, row,
                   rule(cut, "sleeve strap_rows", CountKind.SINGLE))

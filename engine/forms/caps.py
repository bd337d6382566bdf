"""The cap of a set-in sleeve: found from its armhole's edge, or shaped as a designer asks.

Sources: a translated lesson, "Knit sleeve caps" (C02); Design Your Own Sweater, "Set-in sleeve"
(C04).
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import DOWN, EVEN, NEAREST, ODD, Rounding, Unit, decimal, whole
from ..core.expression import NOTHING, Expression, Operand, Rounded, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.ranges import MEASURES
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..fabric.gauge import converted, counted, rows_along, stitches_in
from ..pattern.conventions import CapCurve
from ..shape.cap_slopes import bell, cap_slope, cap_widths
from ..shape.caps import Cap, CapAsk, edge_lengths, solve_cap
from ..shape.garment import CannotShape
from ..shape.schedule import Schedule
from ..shape.step_sizes import STEP_ROWS
from ..words.terms.part_names import part_name
from .armholes import STRAIGHT, straight_rows
from .body_counts import SLEEVE
from .body_frame import Frame
from .sleeve import Tube, armhole_profiles

HEIGHT, TOP = "cap_height", "cap_top"
# How far the edge of a cap whose height is given may be off [mm]: common practice, no source.
GIVEN = Fraction(10)
EASES = MEASURES["cap_ease"]


def cap(frame: Frame, tube: Tube, ease: Fraction) -> Cap:
    """Return the set-in cap whose edge fits both armholes with `ease` [mm].

    It begins with the armhole's own bind-offs (C02), in another fabric with as many stitches as
    are as wide. Its height is found, or is what the designer asks for; its edge is then within
    1 cm. Raises CannotShape with figures.
    """
    own, top = frame.cut.conventions.cap, flat_top(frame, tube)
    body, g = frame.cut.gauge, frame.cut.of(SLEEVE).gauge
    ask = CapAsk(
        stitches=tube.top.value, foot=_foot(frame), crown=own.top_bind_offs, gauge=g,
        top=top.value if top else _usual_top(tube.top.value), ease=ease,
        armhole=edge_lengths(*armhole_profiles(frame), gauge=body), top_give=0,
        highest=whole(converted(frame.armhole.value, body.row, g.row), DOWN),
        tolerance=max(Fraction(5), g.row), by=1)
    if own.curve is not CapCurve.SLOPE or HEIGHT in frame.cut.measures:
        return _given(frame, ask)
    # The top stays a quarter of the sleeve, size after size: a row more or less fits the cap to
    # the armhole. It gives, as far as it must, only where the rows are too few or too many.
    most = 0 if top else max(6, ask.top // 2)
    for give in range(0, most, 2):
        if isinstance(solved := solve_cap(replace(ask, top_give=give)), Cap):
            return solved
    solved = solve_cap(replace(ask, top_give=most))
    if isinstance(solved, Cap):
        return solved
    raise CannotShape(f"no sleeve cap: {solved.found}", solved.remedy)


def _foot(frame: Frame) -> tuple[int, ...]:
    """The armhole's bind-offs in stitches of the sleeve, where it begins with more than one."""
    armhole = frame.shaped_armhole
    if armhole is None or max(armhole.steps) < 2:
        return ()
    body, own = frame.cut.gauge.stitch, frame.cut.of(SLEEVE).gauge.stitch
    return tuple(max(1, whole(converted(step, body, own))) for step in armhole.steps)


def _parity(stitches: int) -> Rounding:
    return ODD if stitches % 2 else EVEN


def _usual_top(stitches: int) -> int:
    return max(4 + stitches % 2, whole(Fraction(stitches, 4), _parity(stitches)))


def flat_top(frame: Frame, tube: Tube) -> Count | None:
    """Return the stitches of the flat top that the designer asks for, None where nothing is asked.

    Of a cap as high as the armhole's slope twice what is straight above it (C04). Raises
    CannotShape.
    """
    cut = frame.cut.of(SLEEVE)
    if TOP in cut.measures:
        width: Expression = cut.measure(TOP)
    elif cut.conventions.cap.curve is CapCurve.AS_ARMHOLE:
        width = plain(2) * _straight(frame)
        _check_widths(frame, tube, width.value / 2)
    else:
        return None
    return counted(stitches_in(width, cut.gauge), Unit.STITCHES, cut.gauge.stitch,
                   _parity(tube.top.value))


def _straight(frame: Frame) -> Expression:
    """How high the armhole is straight at its top [mm]."""
    if straight_rows(frame.cut):
        return frame.cut.measure(STRAIGHT)
    armhole = frame.shaped_armhole
    rows = frame.armhole.term(Role.ROWS) - (armhole.made if armhole else NOTHING)
    return Term(rows, Role.ROWS, part_name(PartRole.ABOVE_SLOPE)) * Operand(
        frame.cut.gauge.row, Role.ROW_HEIGHT)


def _check_widths(frame: Frame, tube: Tube, straight: Fraction) -> None:
    own, armhole = frame.cut.of(SLEEVE).gauge.stitch, frame.shaped_armhole
    bound = (sum(armhole.steps) if armhole else 0) * frame.cut.gauge.stitch
    try:
        cap_widths(Length(tube.top.value * own), Length(bound), Length(straight))
    except ValueError as fault:
        raise CannotShape(f"a cap as the armhole, straight for {Length(straight).in_cm()} at its "
                          f"top: {fault}", f"Make {STRAIGHT} less, or give {TOP} under measures.",
                          at="cap") from fault


def _given(frame: Frame, ask: CapAsk) -> Cap:
    """A cap whose height or schedule the designer asks for; its edge must still fit."""
    steps = STEP_ROWS * (len(ask.foot) + len(ask.crown))
    spare = ask.stitches - 2 * (sum(ask.foot) + sum(ask.crown)) - ask.top
    if spare < 0:
        raise CannotShape(f"a cap of {ask.stitches} stitches, which bind-offs of "
                          f"{sum(ask.foot) + sum(ask.crown)} at each side and a top of {ask.top} "
                          "use up", f"Make {TOP} less, or upper_arm_width more.", at=_at(frame))
    height = _height(frame, ask)
    slope = _slope(frame, ask, spare // 2, height.value - steps if height else None)
    made = Cap(replace(ask, tolerance=GIVEN), slope, ask.top,
               given=height.made if height else None)
    if abs(made.off) > GIVEN:
        raise _unfit(frame, made)
    return made


def _height(frame: Frame, ask: CapAsk) -> Count | None:
    """The rows of a cap as they are asked for, None where they follow from a bell's schedule."""
    cut = frame.cut.of(SLEEVE)
    if HEIGHT in cut.measures:
        return rows_along(cut.length(HEIGHT), cut.gauge, measure=cut.measure(HEIGHT))
    if cut.conventions.cap.curve is CapCurve.BELL:
        return None
    armhole = frame.shaped_armhole
    slope: Expression = Term(armhole.slope.made if armhole else NOTHING, Role.ROWS,
                             part_name(PartRole.OF_ARMHOLE_SLOPE))
    if cut.gauge.row != frame.cut.gauge.row:
        slope = Rounded(slope * Operand(frame.cut.gauge.row, Role.ROW_HEIGHT)
                        / Operand(cut.gauge.row, Role.ROW_HEIGHT), NEAREST, cut.gauge.row)
    return Count(plain(STEP_ROWS) * plain(len(ask.foot)) + slope, Unit.ROWS)


def _slope(frame: Frame, ask: CapAsk, events: int, rows: int | None) -> Schedule:
    """The decreases of a cap above its foot, in so many rows where its height is asked for."""
    own = frame.cut.conventions.cap
    try:
        if own.curve is not CapCurve.BELL:
            return cap_slope(events, max(0, rows or 0))
        first, last = own.every_row or (events // 4, events // 4)
        return bell(events, first, last, rows)
    except ValueError as fault:
        if own.curve is CapCurve.BELL:
            raise CannotShape(f"the decreases of a bell-shaped cap: {fault}",
                              f"Write other numbers in every_row{_with_height(rows)}.",
                              at="cap.every_row") from fault
        raise CannotShape(f"{events} decreases at each side of a cap in {max(0, rows or 0)} rows, "
                          "the last ones plain", f"{_ways(frame, ask)}.", at=_at(frame)
                          ) from fault


def _at(frame: Frame) -> str:
    """The entry of the garment that says how high its cap is."""
    return f"measures.{HEIGHT}" if HEIGHT in frame.cut.measures else "cap"


def _with_height(rows: int | None) -> FindingText:
    return f", or make {HEIGHT} more" if rows is not None else ""


def _ways(frame: Frame, ask: CapAsk, length: Fraction | None = None) -> FindingText:
    """What makes a cap fit: a height, or the ease that an edge of this `length` would have."""
    ways = []
    fits = solve_cap(replace(ask, tolerance=GIVEN))
    if isinstance(fits, Cap) and frame.cut.conventions.cap.curve is not CapCurve.BELL:
        ways.append(f"write {HEIGHT}: {Length(fits.rows * ask.gauge.row).in_cm()}")
    if length is not None and EASES.is_plausible(length - ask.armhole):
        ways.append(f"declare the difference as cap_ease: {Length(length - ask.armhole).in_cm()}")
    said = f"{', or '.join(ways)} (under measures)" if ways else \
        f"change upper_arm_width, {TOP} or the depth of the armhole"
    return said[0].upper() + said[1:]


def _unfit(frame: Frame, made: Cap) -> CannotShape:
    """A cap that does not fit its armhole, with the height or the ease that would."""
    ask, said = made.ask, "more" if made.off > 0 else "less"
    return CannotShape(
        f"a cap {made.rows} rows high with an edge of {_cm(made.length)}, {_cm(abs(made.off))} "
        f"{said} than its armhole of {_cm(ask.armhole)} and {_cm(ask.ease)} ease",
        f"{_ways(frame, ask, made.length)}.", at=_at(frame))


def _cm(length: Fraction) -> str:
    return f"{decimal(length / 10, 1)} cm"

"""The cap of a set-in sleeve: found from its armhole's edge, or shaped as a designer asks.

Sources: a translated lesson, "Knit sleeve caps" (C02); Design Your Own Sweater, "Set-in sleeve"
(C04).
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.branched import Branched, as_even_as, odd_in
from ..core.counted import Count
from ..core.counts import DOWN, EVEN, NEAREST, ODD, Rounding, Unit, decimal, whole
from ..core.expression import (
    NOTHING,
    Chosen,
    Expression,
    Operand,
    Rounded,
    Rule,
    Term,
    plain,
)
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..core.ranges import MEASURES
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..fabric.gauge import converted, counted, rows_along, stitches_in
from ..pattern.conventions import CapCurve
from ..shape.cap_slopes import bell, bell_parts, bell_rows, cap_slope, cap_widths
from ..shape.caps import Cap, CapAsk, NoCap, edge_lengths, solve_cap
from ..shape.even_gaps import number
from ..shape.garment import CannotShape
from ..shape.step_sizes import STEP_ROWS, bind_off_rows
from ..words.terms.part_names import part_name
from .armhole_counts import STRAIGHT, straight_rows
from .body_counts import SLEEVE
from .body_frame import Frame
from .cap_counts import added, bell_counted, found_top, going, less, spread
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
    own, flat = frame.cut.conventions.cap, flat_top(frame, tube)
    body, g = frame.cut.gauge, frame.cut.of(SLEEVE).gauge
    top = flat.term(Role.STITCHES) if flat else _usual_top(tube.top)
    ask = CapAsk(
        stitches=tube.top.value, underarm=tube.top.made, foot=_foot(frame),
        crown=_crown(frame), gauge=g, top=int(top.value), ease=ease,
        armhole=edge_lengths(*armhole_profiles(frame), gauge=body), top_give=0,
        highest=whole(converted(frame.armhole.value, body.row, g.row), DOWN),
        tolerance=max(Fraction(5), g.row), by=1)
    if own.curve is not CapCurve.SLOPE or HEIGHT in frame.cut.measures:
        return _given(frame, tube, ask, top)
    # The top stays a quarter of the sleeve, size after size: a row more or less fits the cap to
    # the armhole. It gives, as far as it must, only where the rows are too few or too many.
    most = 0 if flat else max(6, ask.top // 2)
    for give in (*range(0, most, 2), most):
        solved = solve_cap(replace(ask, top_give=give))
        if isinstance(solved, Cap):
            return spread(tube, solved, found_top(solved, top))
    assert isinstance(solved, NoCap)
    raise CannotShape(f"no sleeve cap: {solved.found}", solved.remedy)


def _foot(frame: Frame) -> tuple[Expression, ...]:
    """The armhole's bind-offs in stitches of the sleeve, where it begins with more than one."""
    armhole = frame.shaped_armhole
    if armhole is None or max(armhole.steps) < 2:
        return ()
    return tuple(_in_sleeve(frame, number(step)) for step in armhole.foot)


def _in_sleeve(frame: Frame, step: Expression) -> Expression:
    """What is bound off at once in stitches of the sleeve: as wide, one at least."""
    body, own = frame.cut.gauge.stitch, frame.cut.of(SLEEVE).gauge.stitch
    if body == own:
        return step
    wide = Term(step, Role.STITCHES) * Operand(body, Role.STITCH_WIDTH)
    made = Rounded(wide / Operand(own, Role.STITCH_WIDTH), NEAREST, own)
    return made if made.value else Chosen((made, plain(1)), Rule.LARGEST, ChoiceReason.LEAST_ONE)


def _crown(frame: Frame) -> tuple[Expression, ...]:
    """The designer's bind-offs before the flat top."""
    place = frame.cut.place("cap.top_bind_offs")
    return tuple(Operand(Fraction(step), Role.SOURCE, Unit.STITCHES.name_of(step), place)
                 for step in frame.cut.conventions.cap.top_bind_offs)


def _parity(stitches: int) -> Rounding:
    return ODD if stitches % 2 else EVEN


def _usual_top(wide: Count) -> Expression:
    """A quarter of the sleeve, even or odd as that is, 4 at least."""
    quarter = as_even_as(Rounded(wide.term(Role.STITCHES) / plain(4), _parity(wide.value)),
                         wide.made)
    least = Branched(plain(4) + plain(1) if wide.value % 2 else plain(4),
                     plain(4) + odd_in(wide.made))
    return Chosen((quarter, least), Rule.LARGEST, ChoiceReason.LEAST_ONE)


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
    made = counted(stitches_in(width, cut.gauge), Unit.STITCHES, cut.gauge.stitch,
                   _parity(tube.top.value))
    return Count(as_even_as(made.made, tube.top.made), made.unit)


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


def _given(frame: Frame, tube: Tube, ask: CapAsk, top: Expression) -> Cap:
    """A cap whose height or schedule the designer asks for; its edge must still fit."""
    spare, bound = ask.stitches - 2 * sum(ask.bound) - ask.top, sum(ask.bound)
    if spare < 0:
        raise CannotShape(f"a cap of {ask.stitches} stitches, which bind-offs of "
                          f"{bound} at each side and a top of {ask.top} use up",
                          f"Make {TOP} less, or upper_arm_width more.", at=_at(frame))
    height = _height(frame, ask)
    bell_shaped = frame.cut.conventions.cap.curve is CapCurve.BELL
    made = (_bell if bell_shaped else _as_high)(frame, tube, replace(ask, tolerance=GIVEN),
                                                (height, top))
    if abs(made.off) > GIVEN:
        raise _unfit(frame, made)
    return made if bell_shaped else spread(tube, made, top)


def _as_high(frame: Frame, tube: Tube, ask: CapAsk, over: tuple[Count | None, Expression]) -> Cap:
    """A cap of even decreases that is as high as is asked for."""
    height, top = over
    assert height is not None
    events = int(going(tube, ask, top).value)
    rows = max(0, height.value - STEP_ROWS * len(ask.foot + ask.crown))
    try:
        return Cap(ask, cap_slope(events, rows), ask.top, given=height.made)
    except ValueError as fault:
        raise CannotShape(f"{events} decreases at each side of a cap in {rows} rows, "
                          "the last ones plain", f"{_remedies(frame, ask)}.", at=_at(frame)
                          ) from fault


def _bell(frame: Frame, tube: Tube, ask: CapAsk, over: tuple[Count | None, Expression]) -> Cap:
    """A bell-shaped cap, as high as is asked for or as its decreases make it."""
    (height, top), bound = over, (bind_off_rows(ask.foot), bind_off_rows(ask.crown))
    going_, place = going(tube, ask, top), frame.cut.place("cap.every_row")
    intervals: list[Expression] = [
        Operand(Fraction(many), Role.SOURCE, Unit.TIMES.name_of(many), place)
        for many in frame.cut.conventions.cap.every_row]
    first, last = intervals or [Rounded(going_ / plain(4), DOWN)] * 2
    rows = less(height.term(Role.ROWS), *bound) if height else bell_rows(going_, first, last)
    try:
        parts = bell_parts(going_, first, last, rows)
    except ValueError as fault:
        with_height: FindingText = f", or make {HEIGHT} more" if height else ""
        raise CannotShape(f"the decreases of a bell-shaped cap: {fault}",
                          f"Write other numbers in every_row{with_height}.",
                          at="cap.every_row") from fault
    made = Cap(ask, bell(parts), ask.top, given=height.made if height else None,
               followed=None if height else added(rows, *bound))
    return bell_counted(tube, made, parts, rows)


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
    foot = bind_off_rows(ask.foot)
    return Count(foot + slope if foot.value else slope, Unit.ROWS)


def _at(frame: Frame) -> str:
    """The entry of the garment that says how high its cap is."""
    return f"measures.{HEIGHT}" if HEIGHT in frame.cut.measures else "cap"


def _remedies(frame: Frame, ask: CapAsk, length: Fraction | None = None) -> FindingText:
    """What makes a cap fit: a height, or the ease that an edge of this `length` would have."""
    edits = []
    fits = solve_cap(replace(ask, tolerance=GIVEN))
    if isinstance(fits, Cap) and frame.cut.conventions.cap.curve is not CapCurve.BELL:
        edits.append(f"write {HEIGHT}: {Length(fits.rows * ask.gauge.row).in_cm()}")
    if length is not None and EASES.is_plausible(length - ask.armhole):
        edits.append(f"declare the difference as cap_ease: {Length(length - ask.armhole).in_cm()}")
    text = f"{', or '.join(edits)} (under measures)" if edits else \
        f"change upper_arm_width, {TOP} or the depth of the armhole"
    return text[0].upper() + text[1:]


def _unfit(frame: Frame, made: Cap) -> CannotShape:
    """A cap that does not fit its armhole, with the height or the ease that would."""
    ask, compared = made.ask, "more" if made.off > 0 else "less"
    return CannotShape(
        f"a cap {made.rows} rows high with an edge of {_cm(made.length)}, {_cm(abs(made.off))} "
        f"{compared} than its armhole of {_cm(ask.armhole)} and {_cm(ask.ease)} ease",
        f"{_remedies(frame, ask, made.length)}.", at=_at(frame))


def _cm(length: Fraction) -> str:
    return f"{decimal(length / 10, 1)} cm"

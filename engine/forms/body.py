"""Backs and fronts: from widths and depths to whole stitches and rows, armhole, shoulder, neck."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counted import Count
from ..core.counts import DOWN, UP, Unit
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Term, plain, plain_of
from ..core.expression_parts import unrounded
from ..core.join_parts import WaitRole
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..core.piece_roles import PieceRole
from ..fabric.gauge import counted, rows_up
from ..machine.steps import Side
from ..pattern.conventions import NeckSpec
from ..pattern.model import Neck
from ..pattern.slope_specs import Slope
from ..shape.garment import CannotShape
from ..shape.mark_roles import MarkRole
from ..shape.openings import Ending, Opening
from ..shape.piece import Piece
from ..shape.profile import Profile, in_order, shifted
from ..shape.roundings import CountKind, deepened, rule
from ..shape.slopes import slope_request
from ..shape.step_sizes import CountedSlope
from ..shape.worn import shoulder_of
from ..words.terms.part_names import part_name
from ..words.terms.piece_names import piece_name
from ..words.terms.waiting_names import neck_waits, shoulder_worn
from .armhole_counts import ArmholeStitches
from .body_counts import front_width, less_band
from .body_frame import Frame, side, side_edge
from .necklines import (
    HELD_ROWS,
    bound_off_first,
    centre_made,
    front_neck,
    held_edge,
    inner_edge,
    side_made,
    v_counts,
)
from .placket import Slit, slit_of

Opened = tuple[Opening, tuple[CountedSlope, ...]]
"""The neck of a piece, and the calculation of its sides."""


def opening_row(frame: Frame, depth: int) -> int:
    """Return the row at which a neck of `depth` rows opens, the last row counted in.

    Even for an even depth, odd for an odd one.
    """
    return frame.rows - depth


def neck_rows(frame: Frame, piece: str, name: str) -> Count:
    """Return the rows of a neck, so many that it opens before the shoulders.

    Even where a whole piece opens, odd from the first bind-off at a front edge. The row over what
    is held at a neck lies above the row at which that opens.
    """
    count = f"{piece} neck_rows"
    kind, why = (CountKind.FROM_FRONT,
                 ChoiceReason.BEFORE_SHOULDERS) if piece == "right_front" else \
        (CountKind.ROWS, ChoiceReason.EVEN_BEFORE_SHOULDERS)
    figure: Expression = rows_up(frame.cut.measure(name), frame.cut.gauge)
    if neck_of(frame, piece).held:
        figure = figure + Operand(Fraction(1), Role.OVER_HELD)
    rows = counted(figure, Unit.ROWS, frame.cut.gauge.row, rule(frame.cut, count, kind))
    return deepened(rows, frame.slope.term(Role.ROWS) + plain(2), rule(frame.cut, count, kind),
                    frame.cut.gauge.row, why)


def neck_of(frame: Frame, piece: str) -> NeckSpec:
    """Return how the neck of a back, or of a front, is shaped."""
    own = frame.cut.conventions
    return own.back_neck if piece == "back" else own.front_neck


def _above(frame: Frame, depth: Count, less: int = 0) -> Expression:
    """The rows of a neck so deep up to the last one before the final row, and fewer by some."""
    less += frame.rows - frame.top_row
    return depth.term(Role.ROWS) - plain(less) if less else depth.term(Role.ROWS)


def _below(frame: Frame, depth: Count) -> Expression:
    """The rows of a piece below its neck."""
    return frame.rows_up - depth.term(Role.ROWS)


def centre_of(frame: Frame, piece: str) -> Expression:
    """Return the stitches at the centre of the neck of a whole "back" or "front" without a slit.

    Raises CannotShape.
    """
    behind, neck = piece == "back", frame.cut.neck
    if behind and neck is not Neck.BOAT:
        neck = Neck.ROUND
    depth = neck_rows(frame, piece, "back_neck" if behind else "front_neck")
    return _centre(frame, depth, neck, neck_of(frame, piece))


def _centre(frame: Frame, depth: Count, neck: Neck, own: NeckSpec) -> Expression:
    room = _above(frame, depth, HELD_ROWS if own.held else 0)
    return centre_made(frame.neck.term(Role.STITCHES), room, neck, own)


def opening(frame: Frame, depth: Count, neck: Neck, own: NeckSpec, measure: str) -> Opened:
    """Return the neck of a whole back or front, `depth` rows below the shoulder's top by its
    `measure`, shaped as its `own` convention says, with its calculation.

    It opens no later than the shoulders begin, on an even row.
    """
    row = opening_row(frame, depth.value)
    if row <= 0:
        raise CannotShape(f"a neck {depth.value} rows deep on a body of {frame.top_row}",
                          f"Make {measure} less or body_length more.", at=f"measures.{measure}")
    if own.held and (frame.cut.chart or frame.cut.repeat):
        raise CannotShape("a held neck in a fabric with a stitch chart or with needles left out of "
                          "work", "Use a plain fabric, or bind its sides off.", at="neckline")
    room = _above(frame, depth, HELD_ROWS if own.held else 0)
    all_ = frame.neck.term(Role.STITCHES)
    centre = _centre(frame, depth, neck, own)
    inner = inner_edge(room, side_made(all_, centre), neck, slope_request(frame.cut, Slope.V_NECK),
                       own, measure)
    inner = held_edge(inner) if own.held else inner
    return Opening(row=row, centre=int(centre.value), centre_ends=Ending.WASTE, held=own.held,
                   outer=_outer(frame, row), inner=Profile(frame.top_row - row, inner.changes)
                   ), inner.slopes(_below(frame, depth))


def _outer(frame: Frame, row: int) -> Profile:
    """The outer edge of a half above the `row` where its neck opens."""
    held = frame.shaped_shoulder.changes(frame.shoulder_row - row)
    pending = shifted((c for c in side_edge(frame, 0) if c.row >= row), -row)
    return Profile(frame.top_row - row, in_order(pending, held))


def _above_slit(frame: Frame, depth: Count, slit: Slit) -> Opened:
    """A neck like a cardigan's above a slit; what is bound off at its foot is part of the neck."""
    kind, own, up = frame.cut.neck, frame.cut.conventions.front_neck, opening_row(
        frame, depth.value)
    if own.held:
        raise CannotShape("a held front neck above a placket, whose foot is bound off",
                          "Bind its sides off, or leave out the placket.", at="neckline")
    row = up - slit.rows.value
    wide = slit.stitches.term(Role.STITCHES, part_name(PartRole.OF_PLACKET))
    going = (frame.neck.term(Role.STITCHES) - wide) / plain(2)
    if row <= 0 or going.value < 1:
        raise CannotShape(f"a placket of {slit.rows} and {slit.stitches} below a neck of "
                          f"{frame.neck}, {depth.value} rows deep",
                          "Make the placket shorter or its bands less deep.")
    request, below = slope_request(frame.cut, Slope.V_NECK), _below(frame, depth)
    if kind is Neck.V:
        slope = inner_edge(_above(frame, depth, 2), going, kind, request, own)
        side, first = replace(slope, changes=shifted(slope.changes, slit.rows.value + 2)), 2
    else:
        middle = centre_made(frame.neck.term(Role.STITCHES), _above(frame, depth), kind, own)
        at_once = Chosen((Rounded((Term(middle, Role.STITCHES) - wide) / plain(2), DOWN), plain(0)),
                         Rule.LARGEST, ChoiceReason.LEAST_ONE)
        rest = Term(going, Role.STITCHES) - Term(at_once, Role.STITCHES)
        slope = inner_edge(_above(frame, depth, 2), rest, kind, request, own)
        side, first = bound_off_first(slit.rows.value + 1, at_once, slope, going), 1
    return Opening(row=row, centre=slit.stitches.value, centre_ends=Ending.BIND_OFF,
                   outer=_outer(frame, row), inner=Profile(frame.top_row - row, side.changes)
                   ), side.slopes(below + plain(first))


def back(frame: Frame) -> Piece:
    """Return the back, its neck shallow, its shoulders and centre waiting."""
    depth = neck_rows(frame, "back", "back_neck")
    kind = Neck.BOAT if frame.cut.neck is Neck.BOAT else Neck.ROUND
    return _whole(frame, PieceRole.BACK, opening(frame, depth, kind,
                                                  frame.cut.conventions.back_neck, "back_neck"))


def front(frame: Frame) -> Piece:
    """Return a front in one piece, with the neckline asked for, above a slit where there is one."""
    depth = neck_rows(frame, "front", "front_neck")
    if slit := slit_of(frame.cut, frame.neck):
        return _whole(frame, PieceRole.FRONT, _above_slit(frame, depth, slit))
    return _whole(frame, PieceRole.FRONT, opening(frame, depth, frame.cut.neck,
                                                    frame.cut.conventions.front_neck,
                                                    "front_neck"))


def marks(frame: Frame) -> tuple[int, ...]:
    """Return the row where the armhole begins, marked where nothing else shows it."""
    return () if frame.narrow else (frame.to_armhole.value,)


def _mark_roles(frame: Frame) -> tuple[MarkRole, ...]:
    return (MarkRole.ARMHOLE,) * len(marks(frame))


def shoulders_worn(piece: str) -> tuple[str, str]:
    """Return which shoulders the halves at the right and at the left of the bed are as worn.

    The knitter sees the purl side, the inside: a front as its wearer would see it from within,
    so that the right of the bed is the wearer's right; a back turned about.
    """
    right, left = ("left", "right") if piece == "back" else ("right", "left")
    return shoulder_worn(right), shoulder_worn(left)


def _whole(frame: Frame, role: PieceRole, opened: Opened) -> Piece:
    key, (neck, slopes) = role.value, opened
    return Piece(key=key, title=piece_name(role), stitches=frame.sides.cast_on, hem=frame.hem,
                 levels=frame.sides.levels, slopes=(*frame.slopes, *slopes),
                 left=side(frame, 1, neck.row), right=side(frame, 0, neck.row), opening=neck,
                 moved=frame.cut.moved, ends=Ending.WASTE, marks=marks(frame),
                 no_row_over=frame.top_row == frame.rows,
                 mark_roles=_mark_roles(frame),
                 waits=tuple(f"{key}, {worn}" for worn in shoulders_worn(key)),
                 halves_worn=shoulders_worn(key),
                 centre_waits=_waits(key, neck))


def _waits(key: str, neck: Opening) -> str:
    """What the stitches of a neck wait as: all where it is held, else those of its centre."""
    if neck.held:
        return neck_waits(key, WaitRole.NECK)
    return neck_waits(key, WaitRole.NECK_CENTRE) \
        if neck.centre and neck.centre_ends is Ending.WASTE else ""


def _gone(frame: Frame) -> Operand | Term:
    """The stitches that go at a side below the shoulder: at the armhole, and of the flare."""
    going = ArmholeStitches(width=frame.width, across=frame.across).made
    return plain_of(frame.narrow + frame.sides.flare, going + frame.sides.flare_made,
                    Role.STITCHES, part_name(PartRole.BELOW_SHOULDER))


def _front_of(frame: Frame) -> Count:
    """Return the stitches of a front at its lower edge: of the two whole numbers on either side of
    its exact width the one whose neck comes nearer to what neck_width asks for.

    What back and shoulders were rounded by would else gather in the neck, and make it run against
    the sizes. What the designer asks for holds.
    """
    cut, flare = frame.cut, frame.sides.flare_made
    made = front_width(cut, flare)
    if "right_front cast_on" in cut.rounding:
        return made
    exact = unrounded(made.made)
    both = Rounded(exact, DOWN) + Rounded(exact, UP)
    other = both - made.made
    neck = (less_band(cut, "neck_width") / plain(2)
            / Operand(cut.gauge.stitch, Role.STITCH_WIDTH)
            + cut.inside)
    wanted = _gone(frame) + plain_of(frame.shoulder, frame.shoulder_counted) + neck
    return Count(Chosen((made.made, other), Rule.NEAREST_TO, ChoiceReason.NECK, (wanted,)),
                 made.unit)


def half_front(frame: Frame) -> tuple[Piece, tuple[tuple[str, Count], ...]]:
    """Return the right front of a cardigan and its own counts.

    Half the chest width less half an overlapping band, with a seam stitch and the stitches an
    enclosing band hides; its shoulder is the back's. The front edge is at the left.
    """
    cut, width = frame.cut, _front_of(frame)
    going = (width.term(Role.STITCHES, part_name(PartRole.CAST_ON)) - _gone(frame)
             - plain_of(frame.shoulder, frame.shoulder_counted, Role.STITCHES,
                        part_name(PartRole.OF_SHOULDER)))
    if going.value < 2:
        raise CannotShape(f"{going.value} stitches for the neck of a front of {width.value}",
                          "Widen neck_width or the chest.")
    depth = neck_rows(frame, "right_front", "front_neck")
    row = opening_row(frame, depth.value)
    if row <= 0:
        raise CannotShape(f"a neck {depth.value} rows deep on a front of {frame.top_row}",
                          "Make the neck less deep or the body longer.")
    inner = front_neck(row, _above(frame, depth), going, cut.neck, slope_request(cut, Slope.V_NECK),
                       cut.conventions.front_neck)
    held = frame.shaped_shoulder.changes(frame.shoulder_row)
    key = "right_front"
    piece = Piece(key=key, title=piece_name(PieceRole(key)), stitches=width,
                  left=Profile(frame.top_row, inner.changes), hem=frame.hem,
                  right=Profile(frame.top_row, in_order(side_edge(frame, 0), held)),
                  moved=cut.moved, ends=Ending.WASTE, marks=marks(frame), marks_left=False,
                  no_row_over=frame.top_row == frame.rows,
                  mark_roles=_mark_roles(frame),
                  neck_mark=row if cut.neck is Neck.V else 0,
                  levels=frame.sides.levels,
                  slopes=(*frame.slopes, *inner.slopes(_below(frame, depth))),
                  waits=(shoulder_of(key, Side.RIGHT),))
    return piece, (("neck_stitches", Count(going, Unit.STITCHES)),
                   *((called, count) for _, called, count in v_counts(cut, piece, row)))

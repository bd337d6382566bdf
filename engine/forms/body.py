"""Backs and fronts: from widths and depths to whole stitches and rows, armhole, shoulder, neck."""

from __future__ import annotations

from fractions import Fraction

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Chosen, Expression, Operand, Rule, Term, plain, plain_of
from ..core.operands import ChoiceReason, Role
from ..fabric.gauge import counted, rows_up
from ..machine.steps import Side
from ..pattern.conventions import NeckSpec
from ..pattern.model import Neck
from ..pattern.slopes import Slope
from ..shape.garment import CannotShape
from ..shape.openings import Ending, Opening
from ..shape.piece import Piece
from ..shape.profile import Profile, in_order, shifted
from ..shape.roundings import CountKind, deepened, rule
from ..shape.slopes import asked_of
from ..shape.worn import shoulder_of
from .armholes import ArmholeStitches
from .body_counts import front_width, less_band
from .body_frame import Frame, shoulder, side, side_edge
from .necklines import (
    centre_stitches,
    front_neck,
    held_edge,
    held_room,
    inner_edge,
    v_counts,
)
from .placket import Slit, above, slit_of


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
    asked = counted(figure, Unit.ROWS, frame.cut.gauge.row, rule(frame.cut, count, kind))
    return deepened(asked, frame.slope.term(Role.ROWS) + plain(2), rule(frame.cut, count, kind),
                    frame.cut.gauge.row, why)


def neck_of(frame: Frame, piece: str) -> NeckSpec:
    """Return how the neck of a back, or of a front, is shaped."""
    own = frame.cut.conventions
    return own.back_neck if piece == "back" else own.front_neck


def opening(frame: Frame, depth: int, neck: Neck, own: NeckSpec, measure: str) -> Opening:
    """Return the neck of a whole back or front, `depth` rows below the shoulder's top by its
    `measure`, shaped as its `own` convention says.

    It opens no later than the shoulders begin, on an even row.
    """
    row = opening_row(frame, depth)
    if row <= 0:
        raise CannotShape(f"a neck {depth} rows deep on a body of {frame.top_row}",
                          f"Make {measure} less or body_length more.", at=f"measures.{measure}")
    if own.held and (frame.cut.chart or frame.cut.repeat):
        raise CannotShape("a held neck in a fabric with a stitch chart or with needles left out of "
                          "work", "Use a plain fabric, or bind its sides off.", at="neckline")
    height = frame.top_row - row
    room = held_room(height, own)
    centre = centre_stitches(frame.neck.value, room, neck, own)
    held = shoulder(frame).changes(frame.shoulder_row - row)
    pending = shifted((c for c in side_edge(frame, 0) if c.row >= row), -row)
    inner = inner_edge(room, (frame.neck.value - centre) // 2, neck,
                       asked_of(frame.cut, Slope.V_NECK), own, measure)
    return Opening(row=row, centre=centre, centre_ends=Ending.WASTE, held=own.held,
                   outer=Profile(height, in_order(pending, held)),
                   inner=Profile(height, held_edge(inner) if own.held else inner))


def _above_slit(frame: Frame, depth: int, slit: Slit) -> Opening:
    """A neck like a cardigan's above a slit; what is bound off at its foot is part of the neck."""
    kind, own, up = frame.cut.neck, frame.cut.conventions.front_neck, opening_row(frame, depth)
    if own.held:
        raise CannotShape("a held front neck above a placket, whose foot is bound off",
                          "Bind its sides off, or leave out the placket.", at="neckline")
    row, side_stitches = up - slit.rows.value, (frame.neck.value - slit.stitches.value) // 2
    if row <= 0 or side_stitches < 1:
        raise CannotShape(f"a placket of {slit.rows} and {slit.stitches} below a neck of "
                          f"{frame.neck}, {depth} rows deep",
                          "Make the placket shorter or its bands less deep.")
    height, at_once = frame.top_row - row, 0
    if kind is not Neck.V:
        middle = centre_stitches(frame.neck.value, frame.top_row - up, kind, own)
        at_once = max(0, (middle - slit.stitches.value) // 2)
    slope = inner_edge(frame.top_row - up - 2, side_stitches - at_once, kind,
                       asked_of(frame.cut, Slope.V_NECK), own)
    held = shoulder(frame).changes(frame.shoulder_row - row)
    pending = shifted((c for c in side_edge(frame, 0) if c.row >= row), -row)
    return Opening(row=row, centre=slit.stitches.value, centre_ends=Ending.BIND_OFF,
                   outer=Profile(height, in_order(pending, held)),
                   inner=Profile(height, above(slit, at_once, slope)))


def back(frame: Frame) -> Piece:
    """Return the back, its neck shallow, its shoulders and centre waiting."""
    depth = neck_rows(frame, "back", "back_neck")
    kind = Neck.BOAT if frame.cut.neck is Neck.BOAT else Neck.ROUND
    return _whole(frame, "back", "Back", opening(frame, depth.value, kind,
                                                  frame.cut.conventions.back_neck, "back_neck"))


def front(frame: Frame) -> Piece:
    """Return a front in one piece, with the neckline asked for, above a slit where there is one."""
    depth = neck_rows(frame, "front", "front_neck")
    if slit := slit_of(frame.cut, frame.neck):
        return _whole(frame, "front", "Front", _above_slit(frame, depth.value, slit))
    return _whole(frame, "front", "Front", opening(frame, depth.value, frame.cut.neck,
                                                    frame.cut.conventions.front_neck,
                                                    "front_neck"))


def marks(frame: Frame) -> tuple[int, ...]:
    """Return the row where the armhole begins, marked where nothing else shows it."""
    return () if frame.narrow else (frame.to_armhole.value,)


def shoulders_worn(piece: str) -> tuple[str, str]:
    """Return which shoulders the halves at the right and at the left of the bed are as worn.

    The knitter sees the purl side, the inside: a front as its wearer would see it from within,
    so that the right of the bed is the wearer's right; a back turned about.
    """
    right, left = ("left", "right") if piece == "back" else ("right", "left")
    return f"{right} shoulder", f"{left} shoulder"


def _whole(frame: Frame, key: str, title: str, neck: Opening) -> Piece:
    return Piece(key=key, title=title, stitches=frame.sides.cast_on, hem=frame.hem,
                 levels=frame.sides.levels, slopes=frame.sides.slopes,
                 left=side(frame, 1, neck.row), right=side(frame, 0, neck.row), opening=neck,
                 moved=frame.cut.moved, ends=Ending.WASTE, marks=marks(frame),
                 waits=tuple(f"{key}, {worn}" for worn in shoulders_worn(key)),
                 halves_worn=shoulders_worn(key),
                 centre_waits=_waits(key, neck))


def _waits(key: str, neck: Opening) -> str:
    """What the stitches of a neck wait as: all where it is held, else those of its centre."""
    if neck.held:
        return f"{key}, neck"
    return f"{key}, neck centre" if neck.centre and neck.centre_ends is Ending.WASTE else ""


def _gone(frame: Frame) -> Operand | Term:
    """The stitches that go at a side below the shoulder: at the armhole, and of the flare."""
    going = ArmholeStitches(width=frame.width, across=frame.across).made
    return plain_of(frame.narrow + frame.sides.flare, going + frame.sides.flare_made)


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
    if made.value == made.exact:
        return made
    one = plain(1)
    other = made.made + one if made.value < made.exact else made.made - one
    neck = (less_band(cut, "neck_width") / plain(2)
            / Operand(cut.gauge.stitch, Role.STITCH_WIDTH)
            + Operand(Fraction(cut.hidden), Role.INSIDE))
    wanted = _gone(frame) + plain_of(frame.shoulder, frame.shoulder_counted) + neck
    return Count(Chosen((made.made, other), Rule.NEAREST_TO, ChoiceReason.NECK, (wanted,)),
                 made.unit)


def half_front(frame: Frame, *, mirrored: bool) -> tuple[Piece, tuple[tuple[str, Count], ...]]:
    """Return the right front of a cardigan (the left one `mirrored`) and its own counts.

    Half the chest width less half an overlapping band, with a seam stitch and the stitches an
    enclosing band hides; its shoulder is the back's. The front edge is at the left.
    """
    cut, width = frame.cut, _front_of(frame)
    gone = frame.narrow + frame.sides.flare
    neck = width.value - gone - frame.shoulder
    if neck < 2:
        raise CannotShape(f"{neck} stitches for the neck of a front of {width.value}",
                          "Widen neck_width or the chest.")
    depth = neck_rows(frame, "right_front", "front_neck").value
    row = opening_row(frame, depth)
    if row <= 0:
        raise CannotShape(f"a neck {depth} rows deep on a front of {frame.top_row}",
                          "Make the neck less deep or the body longer.")
    inner = front_neck(row, frame.top_row - row, neck, cut.neck, asked_of(cut, Slope.V_NECK),
                       cut.conventions.front_neck)
    held = shoulder(frame).changes(frame.shoulder_row)
    name = "left" if mirrored else "right"
    piece = Piece(key=f"{name}_front", title=f"{name.capitalize()} front", stitches=width,
                  left=Profile(frame.top_row, inner), mirrored=mirrored, hem=frame.hem,
                  right=Profile(frame.top_row, in_order(side_edge(frame, 0), held)),
                  moved=cut.moved, ends=Ending.WASTE, marks=marks(frame), marks_left=False,
                  neck_mark=row if cut.neck is Neck.V else 0,
                  levels=frame.sides.levels, slopes=frame.sides.slopes,
                  waits=(shoulder_of(f"{name}_front", Side(name)),))
    return piece, (("neck_stitches", Count(
        width.term(Role.NUMBER) - _gone(frame)
        - plain_of(frame.shoulder, frame.shoulder_counted),
        Unit.STITCHES)), *((called, count) for _, called, count in v_counts(cut, piece, row)))

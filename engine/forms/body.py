"""Backs and fronts: from widths and depths to whole stitches and rows, armhole, shoulder, neck."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from ..core.counted import Count
from ..core.counts import Rounding, Unit, whole
from ..core.expression import Chosen, Expression, Noted, Operand, Rule, plain
from ..core.operands import Note, Reason, Role
from ..core.units import Length
from ..fabric.gauge import counted, rows_along, stitches_in
from ..machine.steps import Side
from ..pattern.model import Neck, RibSpec
from ..shape.curves import armhole_slope, removed, round_neck, v_neck
from ..shape.foot import Foot, Hem
from ..shape.garment import CannotShape, Cut
from ..shape.piece import FRONTS, Ending, Opening, Piece
from ..shape.profile import Change, Profile, in_order, shifted
from ..shape.ribs import Rib
from ..shape.roundings import Kind, Roundable, alike, deepened, rule
from ..shape.shoulders import HeldShoulder, Larger, Wrap, shoulder_steps
from .placket import Slit, above, slit_of

SEAM = 1  # stitches a side seam takes at each side (G05, C09)
FRONT: Roundable = {"right_front cast_on": Kind.SINGLE}  # of a front that opens
HEM: Roundable = {"back hem_rows": Kind.ROWS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The whole numbers that back and fronts share, so that every seam closes.

    `width` the stitches of the back; `narrow` what goes at each armhole; `neck` the stitches
    of the neck, `shoulder` of each shoulder; `to_armhole`, `armhole` and `slope` the rows from
    0 to the armhole, from there to the shoulder, and of the shoulder's steps.
    """

    cut: Cut
    width: Count
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
    def shoulder_row(self) -> int:
        """The row at which the shoulders begin, on the side away from the carriage (S06)."""
        return self.to_armhole.value + self.armhole.value - 1

    @property
    def rows(self) -> int:
        """All rows from 0 to the top, as the counts add up."""
        return self.to_armhole.value + self.armhole.value + self.slope.value

    @property
    def top_row(self) -> int:
        """The last row before the final one over all held stitches; the last of all where the
        shoulders are straight and none is held."""
        return self.rows - 1 if self.slope.value else self.rows


def frame(cut: Cut, *, armholes: bool) -> Frame:
    """Return the numbers of a body; without `armholes` it is straight to the shoulder.

    Widths are all even, or all odd where that is asked, so that both sides are alike, and rows
    even so that the carriage ends where it began (C09). Raises CannotShape, with the figures.
    """
    g = cut.gauge
    widths = {"back cast_on": width_of(cut, "chest_width", 2 * SEAM),
              "back neck_stitches": width_of(cut, "neck_width", 0)}
    if armholes:
        widths["back across"] = width_of(cut, "across", 2 * SEAM)
    width, neck, *rest = alike(cut, widths)
    across = rest[0] if armholes else width
    if across.value > width.value:
        across = Count(Chosen((across.made, width.term(Role.STITCHES)), Rule.SMALLEST,
                              Reason.NO_WIDER), Unit.STITCHES)
    slope = rows_in(cut, "back shoulder_rows", cut.length("shoulder_drop"))
    armhole = rows_in(cut, "back armhole_rows", cut.length("armhole"))
    hem, hem_rows = hem_of(cut, "back")
    below = Length(cut.length("body_length").mm - armhole.value * g.row - slope.value * g.row
                   - (hem.depth(g.row) if hem else 0))
    to_armhole = rows_in(cut, "back rows_to_armhole", below)
    made = Frame(cut=cut, width=width, across=across, neck=neck, to_armhole=to_armhole,
                 armhole=armhole, slope=slope, hem=hem, hem_rows=hem_rows)
    if made.shoulder < 2:
        raise CannotShape(f"shoulders of {made.shoulder} stitches: {across.value} across and "
                          f"{neck.value} for the neck", "Narrow neck_width or widen across.")
    if to_armhole.value < 2:
        raise CannotShape(f"{to_armhole.value} rows below the armhole",
                          "Lengthen body_length or make armhole less deep.")
    return made


def width_of(cut: Cut, name: str, seams: int) -> Callable[[Rounding], Count]:
    """Return how the stitches across a measure, with so many for seams, are counted."""
    figure: Expression = stitches_in(cut.measure(name), cut.gauge)
    if seams:
        figure += Operand(Fraction(seams), Role.SEAMS)
    return partial(counted, figure, Unit.STITCHES, cut.gauge.stitch)


def rows_in(cut: Cut, name: str, height: Length) -> Count:
    """Return the rows of a height up to a shaping, the count called `name`."""
    return rows_along(height, cut.gauge, rule(cut, name, Kind.ROWS))


def hem_of(cut: Cut, piece: str) -> tuple[Foot | None, Count | None]:
    """Return the hem or rib in whole rows, and those of one layer; None where there is none.

    `piece` is the one whose count they are.
    """
    if cut.hem is None:
        return None, None
    own, hem = cut.hem_gauge, cut.hem
    rows = rows_along(hem.depth, own or cut.gauge, rule(cut, f"{piece} hem_rows", Kind.ROWS))
    name, what = ("rib", "fabric") if isinstance(hem, RibSpec) else ("hem", "dial")
    if rows.value < 2:
        raise CannotShape(f"a {name} of {rows}", f"Give the {name} more depth, or leave it out.")
    if own is None:
        rows = Count(Noted(rows.made, Note.NOT_SWATCHED, (name, what)), Unit.ROWS)
    row = own.row if own else None
    if isinstance(hem, RibSpec):
        _need_every_needle(cut)
        return Rib(make=hem.make, works=hem.works, rows=rows.value, dial=hem.dial, row=row,
                   stitch=own.stitch if own else None, fabric=hem.fabric), rows
    return Hem(rows=rows.value, dial=hem.dial, fold=hem.fold, row=row), rows


def _need_every_needle(cut: Cut) -> None:
    """A rib is built on the needles of the piece above it, all of which must be in work."""
    if cut.repeat or (cut.chart and cut.chart.leaves_out):
        raise CannotShape("a rib below a fabric with needles left out of work",
                          "Leave the hem's kind out for a hung hem, or use a fabric in which "
                          "every needle works.")


def armhole_edge(frame: Frame, parity: int) -> tuple[Change, ...]:
    """Return the armhole's changes: a third bound off, the rest sloped over a third of its rows.

    After C05 (thirds) and C03 (a part at once, then a slope); none where the body is straight.
    """
    going = frame.narrow
    if not going:
        return ()
    at_once = max(1, whole(Fraction(going, 3)))
    rows = max(frame.armhole.value // 3, going - at_once + 1)
    if rows > frame.armhole.value - 4:
        raise CannotShape(f"{going} stitches to go at each armhole of {frame.armhole}",
                          "Widen across, narrow the chest or deepen the armhole.")
    return armhole_slope(at_once, going - at_once, rows, start=frame.to_armhole.value,
                         parity=parity)


def side(frame: Frame, parity: int, rows: int) -> Profile:
    """Return a side seam and armhole up to `rows`, without what is made at that row."""
    return Profile(rows, tuple(c for c in armhole_edge(frame, parity) if c.row < rows))


def shoulder(frame: Frame) -> HeldShoulder:
    """Return the held shoulder: as many steps as its slope has pairs of rows, and one."""
    steps = min(frame.slope.value // 2 + 1, frame.shoulder)
    return HeldShoulder(shoulder_steps(frame.shoulder, steps, Larger.NECK), Wrap.AUTOMATIC)


def inner_edge(depth: int, side_stitches: int, neck: Neck) -> tuple[Change, ...]:
    """Return one side of the neck over `depth` rows, bound off on odd rows from the opening.

    Raises CannotShape where the rows are too few.
    """
    if not side_stitches:
        return ()
    try:
        return Profile(depth, _inner_changes(depth, side_stitches, neck)).changes
    except ValueError as fault:
        raise CannotShape(f"{side_stitches} stitches to go at either side of a neck {depth} rows "
                          "deep", "Make the neck deeper or neck_width less.") from fault


def _inner_changes(depth: int, side_stitches: int, neck: Neck) -> tuple[Change, ...]:
    if neck is Neck.V:
        return v_neck(side_stitches, depth, plain_at_top=min(2, depth - side_stitches))
    steps = max(1, min(side_stitches, depth // 4))
    made = round_neck(2 * side_stitches, max(depth, 2 * steps + 2), centre=0, steps=steps)
    return tuple(Change(c.row - 1, c.stitches, c.how) for c in made.changes())


def opening_row(frame: Frame, depth: int) -> int:
    """Return the row at which a neck of `depth` rows opens, the last row counted in.

    Even for an even depth, odd for an odd one.
    """
    return frame.rows - depth


def neck_rows(frame: Frame, piece: str, name: str) -> Count:
    """Return the rows of a neck, so many that it opens before the shoulders.

    Even where a whole piece opens, odd from the first bind-off at a front edge.
    """
    count = f"{piece} neck_rows"
    kind, why = (Kind.FROM_FRONT, Reason.BEFORE_SHOULDERS) if piece == "right_front" else \
        (Kind.ROWS, Reason.EVEN_BEFORE_SHOULDERS)
    asked = rows_along(frame.cut.length(name), frame.cut.gauge, rule(frame.cut, count, kind))
    return deepened(asked, frame.slope.value + 2, rule(frame.cut, count, kind),
                    frame.cut.gauge.row, why)


def opening(frame: Frame, depth: int, neck: Neck) -> Opening:
    """Return the neck of a whole back or front, `depth` rows below the shoulder's top.

    It opens no later than the shoulders begin, on an even row.
    """
    row = opening_row(frame, depth)
    if row <= 0:
        raise CannotShape(f"a neck {depth} rows deep on a body of {frame.top_row}",
                          "Make the neck less deep or the body longer.")
    height = frame.top_row - row
    centre = centre_stitches(frame.neck.value, height, neck)
    held = shoulder(frame).changes(frame.shoulder_row - row)
    pending = shifted((c for c in armhole_edge(frame, 0) if c.row >= row), -row)
    inner = inner_edge(height, (frame.neck.value - centre) // 2, neck)
    return Opening(row=row, centre=centre, centre_ends=Ending.WASTE,
                   outer=Profile(height, in_order(pending, held)), inner=Profile(height, inner))


def _above_slit(frame: Frame, depth: int, slit: Slit) -> Opening:
    """A neck like a cardigan's above a slit; what is bound off at its foot is part of the neck."""
    kind, up = frame.cut.neck, opening_row(frame, depth)
    row, side_stitches = up - slit.rows.value, (frame.neck.value - slit.stitches.value) // 2
    if row <= 0 or side_stitches < 1:
        raise CannotShape(f"a placket of {slit.rows} and {slit.stitches} below a neck of "
                          f"{frame.neck}, {depth} rows deep",
                          "Make the placket shorter or its bands less deep.")
    height, at_once = frame.top_row - row, 0
    if kind is not Neck.V:
        middle = centre_stitches(frame.neck.value, frame.top_row - up, kind)
        at_once = max(0, (middle - slit.stitches.value) // 2)
    slope = inner_edge(frame.top_row - up - 2, side_stitches - at_once, kind)
    held = shoulder(frame).changes(frame.shoulder_row - row)
    pending = shifted((c for c in armhole_edge(frame, 0) if c.row >= row), -row)
    return Opening(row=row, centre=slit.stitches.value, centre_ends=Ending.BIND_OFF,
                   outer=Profile(height, in_order(pending, held)),
                   inner=Profile(height, above(slit, at_once, slope)))


def centre_stitches(neck: int, depth: int, kind: Neck) -> int:
    """Return the stitches at a neck's centre, of the same parity as the neck.

    Round and high: two fifths (N01, N02: a third to a half), more where the rows are too few
    to shape the rest, as at a back neck; V: none, or one; square and boat: all.
    """
    if kind is Neck.V:
        return neck % 2
    if kind in (Neck.SQUARE, Neck.BOAT):
        return neck
    room = max(0, depth // 4)  # steps that fit, of up to 3 stitches each in a shallow neck
    shaped_at_most = 2 * min(3 * room, neck * 3 // 10)
    return whole(Fraction(neck - shaped_at_most), Rounding("multiple", 2, neck % 2))


def back(frame: Frame) -> Piece:
    """Return the back, its neck shallow, its shoulders and centre waiting."""
    depth = neck_rows(frame, "back", "back_neck")
    kind = Neck.BOAT if frame.cut.neck is Neck.BOAT else Neck.ROUND
    return _whole(frame, "back", "Back", opening(frame, depth.value, kind))


def front(frame: Frame) -> Piece:
    """Return a front in one piece, with the neckline asked for, above a slit where there is one."""
    depth = neck_rows(frame, "front", "front_neck")
    if slit := slit_of(frame.cut, frame.neck):
        return _whole(frame, "front", "Front", _above_slit(frame, depth.value, slit))
    return _whole(frame, "front", "Front", opening(frame, depth.value, frame.cut.neck))


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


def shoulder_of(piece: str, side: Side) -> str:
    """Return what the stitches of a shoulder of back, front or half a front wait as."""
    if FRONTS.get(piece):
        return f"{side.value} front, shoulder"
    return f"{piece}, {side.value} shoulder"


def _whole(frame: Frame, key: str, title: str, neck: Opening) -> Piece:
    return Piece(key=key, title=title, stitches=frame.width, hem=frame.hem,
                 left=side(frame, 1, neck.row), right=side(frame, 0, neck.row), opening=neck,
                 moved=frame.cut.moved, ends=Ending.WASTE, marks=marks(frame),
                 waits=tuple(f"{key}, {worn}" for worn in shoulders_worn(key)),
                 halves_worn=shoulders_worn(key),
                 centre_waits=f"{key}, neck centre" if neck.centre
                 and neck.centre_ends is Ending.WASTE else "")


def less_band(cut: Cut, name: str) -> Expression:
    """A width [mm] less what the overlap of the front bands takes from it."""
    width = cut.measure(name)
    return width - Operand(cut.band, Role.MEASURE, "band") if cut.band else width


def front_width(cut: Cut) -> Count:
    """Return the stitches of one front of two, with a seam stitch and what a band hides."""
    half = less_band(cut, "chest_width") / plain(2)
    figure = (half / Operand(cut.gauge.stitch, Role.STITCH_WIDTH)
              + Operand(Fraction(SEAM), Role.SEAM) + Operand(Fraction(cut.hidden), Role.INSIDE))
    return counted(figure, Unit.STITCHES, cut.gauge.stitch,
                   rule(cut, "right_front cast_on", Kind.SINGLE))


def _front_of(frame: Frame) -> Count:
    """Return the stitches of a front: of the two whole numbers on either side of its exact width
    the one whose neck comes nearer to what neck_width asks for.

    What back and shoulders were rounded by would else gather in the neck, and make it run against
    the sizes. What the designer asks for holds.
    """
    cut, made = frame.cut, front_width(frame.cut)
    if "right_front cast_on" in cut.rounding:
        return made
    if made.value == made.exact:
        return made
    one = plain(1)
    other = made.made + one if made.value < made.exact else made.made - one
    neck = (less_band(cut, "neck_width") / plain(2)
            / Operand(cut.gauge.stitch, Role.STITCH_WIDTH)
            + Operand(Fraction(cut.hidden), Role.INSIDE))
    wanted = plain(frame.narrow) + plain(frame.shoulder) + neck
    return Count(Chosen((made.made, other), Rule.NEAREST_TO, Reason.NECK, (wanted,)), made.unit)


def chest_of(cut: Cut, front: Piece) -> Fraction:
    """Return the width of two fronts as worn, their bands lying over one another [mm]."""
    return 2 * (front.stitches.value - SEAM - cut.hidden) * cut.gauge.stitch + cut.band


def front_neck(row: int, height: int, stitches: int, kind: Neck) -> tuple[Change, ...]:
    """Return the neck at a front edge: what is bound off there on the odd `row`, then its slope.

    It takes `stitches` in `height` rows from there; a V slopes from the row itself.
    """
    if kind is Neck.V:
        return shifted(inner_edge(height, stitches, kind), row)
    centre = centre_stitches(2 * stitches, height + 1, kind) // 2
    return in_order(removed(row, centre),
                    shifted(inner_edge(height - 1, stitches - centre, kind), row + 1))


def half_front(frame: Frame, *, mirrored: bool) -> tuple[Piece, tuple[tuple[str, Count], ...]]:
    """Return the right front of a cardigan (the left one `mirrored`) and its own counts.

    Half the chest width less half an overlapping band, with a seam stitch and the stitches an
    enclosing band hides; its shoulder is the back's. The front edge is at the left.
    """
    cut, width = frame.cut, _front_of(frame)
    neck = width.value - frame.narrow - frame.shoulder
    if neck < 2:
        raise CannotShape(f"{neck} stitches for the neck of a front of {width.value}",
                          "Widen neck_width or the chest.")
    depth = neck_rows(frame, "right_front", "front_neck").value
    row = opening_row(frame, depth)
    if row <= 0:
        raise CannotShape(f"a neck {depth} rows deep on a front of {frame.top_row}",
                          "Make the neck less deep or the body longer.")
    inner = front_neck(row, frame.top_row - row, neck, cut.neck)
    held = shoulder(frame).changes(frame.shoulder_row)
    name = "left" if mirrored else "right"
    piece = Piece(key=f"{name}_front", title=f"{name.capitalize()} front", stitches=width,
                  left=Profile(frame.top_row, inner), mirrored=mirrored, hem=frame.hem,
                  right=Profile(frame.top_row, in_order(armhole_edge(frame, 0), held)),
                  moved=cut.moved, ends=Ending.WASTE, marks=marks(frame),
                  waits=(shoulder_of(f"{name}_front", Side(name)),))
    return piece, (("neck_stitches", Count(
        width.term(Role.NUMBER) - plain(frame.narrow) - plain(frame.shoulder),
        Unit.STITCHES)),)

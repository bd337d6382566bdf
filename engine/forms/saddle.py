"""A saddle raglan: the lines of a raglan up to the shoulder, a strap of the sleeve over it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..catalogue.forms import Construction
from ..core.counted import Count
from ..core.counts import EVEN, Unit
from ..core.expression import Noted, Operand, plain
from ..core.operands import Note, Role
from ..fabric.gauge import counted, rows_along, stitches_in
from ..pattern.edges import Shape
from ..shape.edging import EdgePath, Zone, lying, run_of, shaped, waiting
from ..shape.foot import Foot
from ..shape.garment import Bars, CannotShape, Cut, Garment, Join, Kindred, side_seams, sleeve_seam
from ..shape.outline import last_row
from ..shape.piece import FRONTS, Ending, Opening, Piece
from ..shape.profile import Profile, in_order, joined, shifted
from ..shape.raglan import raglan
from ..shape.roundings import Kind, Roundable, alike, rule
from ..shape.tasks import Seam
from ..shape.widths import widths_up
from ..shape.worn import LEFT, RIGHT, worn
from . import finishing
from .body import shoulders_worn
from .lengths import Lengths, across, chest, lengths, on_foot
from .measured import (
    FRONT,
    SEAM,
    front_width,
    hem_of,
    rows_below,
    rows_in,
    underarm_row,
    width_of,
)
from .necklines import centre_stitches, front_neck, inner_edge
from .opened import opened_edges
from .raglan_lines import (
    LINES,
    above,
    body_high,
    raglan_high,
    raglan_seams,
    top_rows,
    underarm_of,
    underarm_seam,
)
from .sleeve import Tube, tube

BACK_NECK = "back neck"


def roundable(*, opens: bool) -> Roundable:
    """Return the counts of a saddle raglan that can be rounded."""
    return {**LINES, "back shoulder": Kind.SINGLE, "sleeve strap": Kind.WIDTH,
            "sleeve strap_rows": Kind.SINGLE, **(FRONT if opens else {})}


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines:
    """The whole numbers that body and sleeves share.

    `width`, `neck`, `shoulder`, `strap` and `underarm` in stitches (the body, its neck, the
    shoulder under the strap with the raglan's seam stitch, the strap, what is bound off);
    `below`, `line` and `over` in rows (to the raglan, along it, over the shoulder).
    """

    cut: Cut
    width: Count
    neck: Count
    shoulder: Count
    strap: Count
    underarm: Count
    below: Count
    line: Count
    over: Count
    arm: Tube
    hem: Foot | None
    hem_rows: Count | None

    @property
    def across(self) -> int:
        """Stitches of the body where its raglan lines end: neck and both shoulders."""
        return self.neck.value + 2 * self.shoulder.value

    def body(self, parity: int) -> Profile:
        """One raglan line of the body, from the underarm."""
        return raglan(self.width.value, self.across, self.line.value,
                      bind_off=self.underarm.value, parity=parity)

    def sleeve(self, parity: int) -> Profile:
        """One raglan line of the sleeve, and the strap's straight edge above it."""
        line = raglan(self.arm.top.value, self.strap.value, self.line.value,
                      bind_off=self.underarm.value, parity=parity)
        return joined(line, Profile(self.over.value))


def lines(cut: Cut) -> Lines:
    """Return the shared numbers. Raises CannotShape where the lines do not fit.

    The body is shorter by half a strap, which lies over each shoulder.
    """
    hem, hem_rows = hem_of(cut, "back")
    line = rows_in(cut, "back raglan_rows", "raglan_depth")
    below = rows_below(cut, "back rows_to_raglan", cut.measure("body_length")
                       - cut.measure("saddle_width") / plain(2), above(line), hem)
    width, neck = alike(cut, {"back cast_on": width_of(cut, "chest_width", 2 * SEAM),
                              "back neck_stitches": width_of(cut, "neck_width", 0)})
    arm = tube(cut, hem, "rows_to_raglan",
               end={"sleeve strap": width_of(cut, "saddle_width", 2 * SEAM)})
    assert arm.end is not None  # asked for just above
    shoulder = _shoulder(cut)
    made = Lines(cut=cut, width=width, neck=neck, shoulder=shoulder, strap=arm.end,
                 underarm=underarm_of(cut), below=below, line=line, over=_rows_over(cut, shoulder),
                 arm=arm, hem=hem, hem_rows=hem_rows)
    for name, sts, top in (("body", made.width.value, made.across),
                           ("sleeve", made.arm.top.value, made.strap.value)):
        going = (sts - top) // 2 - made.underarm.value
        if going < 0 or going > line.value - 2 or below.value < 2:
            raise CannotShape(
                f"a raglan line of the {name} with {going} stitches to go in {line}, {below} "
                "below it", "Change raglan_depth, saddle_length, saddle_width, neck_width or "
                "upper_arm_width.")
    return made


def _shoulder(cut: Cut) -> Count:
    g = cut.gauge
    figure = stitches_in(cut.measure("saddle_length"), g) + Operand(Fraction(SEAM), Role.SEAM)
    made = counted(figure, Unit.STITCHES, g.stitch, rule(cut, "back shoulder", Kind.SINGLE))
    if made.value < 2 + SEAM:
        raise CannotShape(f"a shoulder of {made}", "Make saddle_length longer.")
    return made


def _rows_over(cut: Cut, shoulder: Count) -> Count:
    """The strap's rows, as long as the shoulder's stitches without the seam's."""
    g = cut.gauge
    along = shoulder.term(Role.STITCHES, " along the shoulder") \
        - Operand(Fraction(SEAM), Role.SEAM)
    return counted(along * Operand(g.stitch, Role.MILLIMETRES) / Operand(g.row, Role.ROW_HEIGHT),
                   Unit.ROWS, g.row, rule(cut, "sleeve strap_rows", Kind.SINGLE))


def build(cut: Cut, *, opens: bool) -> Garment:
    """Return a saddle raglan pullover, or a cardigan that `opens` at the front.

    Raglan lines of body and sleeve are equal in rows, the strap is as long as the shoulder.
    Raises CannotShape where no whole numbers fit.
    """
    own = lines(cut)
    up = own.below.value
    behind = Piece(key="back", title="Back", stitches=own.width, hem=own.hem, moved=cut.moved,
                   left=_raised(own.body(1), up), right=_raised(own.body(0), up),
                   ends=Ending.WASTE, waits=("back, right shoulder", BACK_NECK,
                                             "back, left shoulder"),
                   shares=(own.shoulder.value, own.neck.value, own.shoulder.value))
    fronts = ((_half_front(own, mirrored=False), _half_front(own, mirrored=True)) if opens
              else (_front(own),))
    rise = own.arm.rows.value
    left, right = (Profile(rise + edge.rows, in_order(own.arm.increases,
                                                      shifted(edge.changes, rise)))
                   for edge in (own.sleeve(1), own.sleeve(0)))
    sleeve = Piece(key="sleeve", title="Sleeve", stitches=own.arm.cuff, hem=own.hem,
                   moved=cut.moved, left=left, right=right, ends=Ending.WASTE,
                   waits=("strap, neck end",), in_seams=("strap, neck end",))
    return Garment(form=Construction.SADDLE_RAGLAN, size=cut.size, pieces=(behind, *fronts, sleeve),
                   counts=_counts(own, behind, fronts), joins=_joins(own, behind, fronts, sleeve),
                   edges=_edges(own, fronts),
                   tasks=finishing.saddle(own.over.value * cut.gauge.row, opens=opens),
                   lengths=_lengths(own, fronts), times={"sleeve": 2})


def _raised(line: Profile, rows: int) -> Profile:
    return Profile(rows + line.rows, shifted(line.changes, rows))


def _neck_row(own: Lines) -> tuple[int, int]:
    """Where the front neck begins, an even row, and how many rows are above it."""
    depth = rows_along(own.cut.length("front_neck"), own.cut.gauge, EVEN).value
    row = own.below.value + own.line.value - max(4, depth)
    if row <= 0:
        raise CannotShape(f"a neck {depth} rows deep on a front of "
                          f"{own.below.value + own.line.value}",
                          "Make front_neck less deep or body_length longer.")
    return row, max(4, depth)


def _half_front(own: Lines, *, mirrored: bool) -> Piece:
    """The right front of a cardigan (the left one `mirrored`), its front edge at the left."""
    cut, up = own.cut, own.below.value
    width, line = front_width(cut), own.body(0)
    neck = width.value + line.net - own.shoulder.value
    if neck < 2:
        raise CannotShape(f"{neck} stitches for the neck of a front of {width.value}",
                          "Widen neck_width or the chest.")
    row, height = _neck_row(own)
    inner = front_neck(row + 1, height - 1, neck, cut.neck)
    name = "left" if mirrored else "right"
    return Piece(key=f"{name}_front", title=f"{name.capitalize()} front", stitches=width,
                 left=Profile(row + height, inner), right=_raised(line, up), mirrored=mirrored,
                 hem=own.hem, moved=cut.moved, ends=Ending.WASTE,
                 waits=(f"{name} front, shoulder",))


def _front(own: Lines) -> Piece:
    """A front in one piece, its neck opened below the end of the raglan lines."""
    up, kind = own.below.value, own.cut.neck
    row, height = _neck_row(own)
    centre = centre_stitches(own.neck.value, height, kind)
    near, far = (_raised(own.body(parity), up).changes for parity in (0, 1))
    inner = inner_edge(height, (own.neck.value - centre) // 2, kind)
    return Piece(
        key="front", title="Front", stitches=own.width, hem=own.hem, moved=own.cut.moved,
        left=Profile(row, tuple(c for c in far if c.row < row)),
        right=Profile(row, tuple(c for c in near if c.row < row)), ends=Ending.WASTE,
        opening=Opening(row=row, centre=centre, centre_ends=Ending.WASTE,
                        outer=Profile(height, shifted((c for c in near if c.row >= row), -row)),
                        inner=Profile(height, inner)),
        waits=tuple(f"front, {worn}" for worn in shoulders_worn("front")),
        halves_worn=shoulders_worn("front"),
        centre_waits="front neck centre" if centre else "")


def _counts(own: Lines, behind: Piece, fronts: tuple[Piece, ...]
            ) -> tuple[tuple[str, str, Count], ...]:
    counts = [("back", "cast_on", own.width), ("back", "neck_stitches", own.neck),
              ("back", "shoulder", own.shoulder), ("back", "underarm", own.underarm),
              ("back", "rows_to_raglan", own.below), ("back", "raglan_rows", own.line),
              ("sleeve", "cast_on", own.arm.cuff), ("sleeve", "upper_arm", own.arm.top),
              ("sleeve", "rows_to_raglan", own.arm.rows),
              ("sleeve", "raglan_rows", Count(
                  Noted(own.line.term(Role.ROWS), Note.AS_BODY), Unit.ROWS)),
              ("sleeve", "strap", own.strap), ("sleeve", "strap_rows", own.over)]
    counts.append(("back", "top_rows", top_rows(behind)))
    if own.hem_rows:
        counts.append(("back", "hem_rows", own.hem_rows))
    if len(fronts) == 2:
        counts.append(("right_front", "cast_on", fronts[0].stitches))
    return tuple(counts)


def _joins(own: Lines, behind: Piece, fronts: tuple[Piece, ...], sleeve: Piece
           ) -> tuple[Join, ...]:
    """Raglan lines row to row, from the pieces; straps to shoulders by length."""
    up, g = own.below.value, own.cut.gauge
    arm = own.arm.rows.value
    joins = [join for each in (behind, *fronts) for join in raglan_seams(
        (each, up), (sleeve, arm), (each.rows - up, sleeve.rows - arm - own.over.value))]
    for each in fronts:
        joins += side_seams((behind, underarm_row(behind)), (each, underarm_row(each)))
        joins.append(Join(title=f"under the strap, {each.title.lower()} and back", seam=Seam.STRAP,
                          kindred=Kindred.STITCHES, one=Fraction(own.shoulder.value),
                          other=Fraction(_shoulder_of(each)), side=FRONTS[each.key]))
    joins += (underarm_seam(own.underarm), sleeve_seam(sleeve, arm))
    return (*joins, Join(title="strap and shoulder", seam=Seam.STRAP, kindred=Kindred.LENGTH,
                         one=(own.shoulder.value - SEAM) * g.stitch, other=own.over.value * g.row,
                         tolerance=g.row, sides=("the shoulder", "the strap"),
                         bars=Bars(rows=own.over.value, row_edge="strap",
                                   stitches=own.shoulder.value - SEAM, stitch_edge="shoulder")))


def _shoulder_of(piece: Piece) -> int:
    """Stitches of a front that wait for the strap."""
    if piece.opening is None:
        return piece.top
    return piece.half + piece.opening.inner.net + piece.opening.outer.net


def _edges(own: Lines, fronts: tuple[Piece, ...]) -> dict[str, EdgePath]:
    g = own.cut.gauge
    strap, back = lying(Zone.BACK, (
        waiting("strap", own.strap.value - 2 * SEAM, g, waits="strap, neck end", seams=True),
        waiting("back neck", own.neck.value, g, centre_back=True, waits=BACK_NECK)))
    if len(fronts) == 2:
        return opened_edges(own.cut, fronts[0], [strap, back, strap])
    opening = fronts[0].opening
    assert opening is not None
    side = shaped("front neck", opening.inner.drawn(last_row(fronts[0])), g,
                  widths_up(fronts[0]), detail="side")
    centre = waiting("front neck", opening.centre, g,
                     waits="front neck centre") if opening.centre else None
    around = worn([strap, side, centre, side, strap], LEFT, RIGHT)
    return {"neck": run_of("neck", "Neck", [*around, back], shape=Shape.ROUND,
                           detail="from the left strap round the front",
                           closes="left strap's seam with the back")}


def _lengths(own: Lines, fronts: tuple[Piece, ...]) -> Lengths:
    g = own.cut.gauge
    strap = across(own.strap, g, seams=2, of="strap") / plain(2)
    return lengths(chest=chest(own.cut, own.width, tuple(each.stitches for each in fronts)),
                   length=on_foot(body_high(own.below, own.line, g), own.hem, g) + strap,
                   raglan_depth=raglan_high(own.line, g),
                   upper_arm=across(own.arm.top, g, seams=2))

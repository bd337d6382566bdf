"""Sleeves: from the cuff outward to the upper arm, and how they end at the armhole."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from ..caps import Cap, CapAsk, edge_lengths, solve_cap
from ..counts import EVEN, Count, Unit, decimal, whole
from ..garment import CannotShape, Cut
from ..gauge import counted, rows_along
from ..piece import Hem, Piece
from ..profile import Change, How, Profile, in_order, shifted
from ..shaping import Finish, spread_events
from ..units import Length
from .body import SEAM, Frame, armhole_edge


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """A sleeve up to the underarm: `cuff` and `top` stitches, `rows` from 0."""

    cuff: Count
    top: Count
    rows: Count
    hem: Hem | None

    @property
    def increases(self) -> tuple[Change, ...]:
        """One side's increases, spread with plain rows after the last (R01, R02)."""
        events = (self.top.value - self.cuff.value) // 2
        return spread_events(events, self.rows.value, finish=Finish.PLAIN).changes(How.INCREASE)


def tube(cut: Cut, hem: Hem | None, *, top: Count | None = None,
         ) -> Tube:
    """Return a sleeve to the underarm; `top` where its stitches are set by the armhole."""
    cuff = _across(cut, "cuff_width")
    wide = top or _across(cut, "upper_arm_width")
    rows = rows_along(Length(cut.length("sleeve_length").mm
                             - (hem.depth(cut.gauge.row) if hem else 0)),
                      cut.gauge, EVEN)
    events = (wide.value - cuff.value) // 2
    if events < 0 or rows.value <= events:
        raise CannotShape(f"a sleeve from {cuff} to {wide} in {rows}",
                          "Lengthen the sleeve, widen the cuff or narrow the upper arm.")
    return Tube(cuff=cuff, top=wide, rows=rows, hem=hem)


def _across(cut: Cut, name: str) -> Count:
    g, length = cut.gauge, cut.length(name)
    return counted(length.mm / g.stitch + 2 * SEAM, Unit.STITCHES, g.stitch, EVEN,
                   f"{name} {length.in_cm()} ÷ {decimal(g.stitch, 3)} mm a stitch + {2 * SEAM} "
                   "for the seams")


def straight_sleeve(tube: Tube) -> Piece:
    """Return a sleeve bound off straight across, as for a drop shoulder."""
    edge = Profile(tube.rows.value, tube.increases)
    return Piece(key="sleeve", title="Sleeve", stitches=tube.cuff, left=edge, right=edge,
                 hem=tube.hem)


def cap(frame: Frame, tube: Tube, ease: Fraction) -> Cap:
    """Return the set-in cap whose edge fits both armholes with `ease` [mm].

    Its first bind-off is the armhole's own (C02). Raises CannotShape with figures.
    """
    armhole = armhole_profiles(frame)
    foot = tuple(c.stitches for c in armhole[0].changes if c.how is How.BIND_OFF)
    top = max(4, whole(Fraction(tube.top.value, 4), EVEN))
    ask = CapAsk(
        stitches=tube.top.value, foot=foot, top=top, gauge=frame.cut.gauge, ease=ease,
        armhole=edge_lengths(*armhole, gauge=frame.cut.gauge), top_give=0,
        highest=frame.armhole.value, tolerance=max(Fraction(5), frame.cut.gauge.row))
    # The top stays a quarter of the sleeve, size after size, and gives only as far as it must.
    most = max(6, top // 2)
    for give in range(0, most, 2):
        if isinstance(solved := solve_cap(replace(ask, top_give=give)), Cap):
            return solved
    solved = solve_cap(replace(ask, top_give=most))
    if isinstance(solved, Cap):
        return solved
    raise CannotShape(f"no sleeve cap: {solved.found}", solved.remedy)


def armhole_profiles(frame: Frame) -> tuple[Profile, Profile]:
    """Return both edges of one armhole, from the underarm up: where bound off first, and last."""
    def edge(parity: int) -> Profile:
        changes = shifted(armhole_edge(frame, parity), -frame.to_armhole.value)
        return Profile(frame.armhole.value, changes)
    return edge(0), edge(1)


def set_in_sleeve(tube: Tube, cap: Cap) -> Piece:
    """Return a sleeve with a set-in cap, its flat top bound off."""
    up = tube.rows.value
    rows = up + cap.rows
    return Piece(key="sleeve", title="Sleeve", stitches=tube.cuff, hem=tube.hem,
                 left=Profile(rows, in_order(tube.increases, shifted(cap.far.changes, up))),
                 right=Profile(rows, in_order(tube.increases, shifted(cap.near.changes, up))))

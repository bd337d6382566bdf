"""Draws the openings of pockets in a piece, and says what the heavy lines are."""

from __future__ import annotations

from ..core.units import Length
from ..shape.profile import Point
from ..words.schematic_text import pocket_opening
from .dimensions import both, px
from .piece_frame import PieceFrame


def slots_path(frame: PieceFrame) -> str:
    """A heavy line for the opening of every pocket; nothing where there are none."""
    drawn = "".join(f"M{px(frame.x(a[0]))} {px(frame.y(a[1]))}H{px(frame.x(b[0]))}"
                    for a, b in frame.outline.slots)
    return f'<path stroke-width="4" d="{drawn}"/>' if drawn else ""


def slot_text(slot: tuple[Point, Point]) -> str:
    """What a heavy line means, with its figures."""
    (left, up), (right, _) = slot
    return pocket_opening(both(Length(right - left)), both(Length(up)))

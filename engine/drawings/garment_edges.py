"""Bands of a pattern without a garment, each on a strip of the edge that it is worked on."""

from __future__ import annotations

from collections.abc import Sequence

from ..catalogue.bands import KINDS
from ..pattern.holes import ButtonholeKind
from ..pattern.model import Fold
from ..plan.band import BandPlan
from .garment_bands import button_radius, button_shares, hair_step
from .garment_body import FILLED
from .garment_conventions import (
    EDGE_SEEN,
    EDGES_APART,
    HOLE_HIGH,
    PICOT_RISE,
    ROUND,
    STITCHES_APART,
)
from .garment_neck import depth_of
from .garment_pen import Disc, DrawnMark, PenPoint, Shape, hundredths, part


def edges(plans: Sequence[BandPlan]) -> list[tuple[str, Sequence[DrawnMark]]]:
    """Return every band on its edge, one below the other."""
    made: list[tuple[str, Sequence[DrawnMark]]] = []
    top = 0
    for plan in plans:
        deep = depth_of(plan)
        strip = part(EDGE_SEEN, deep)
        foot = top - (deep if KINDS[plan.band.kind].stands else 0)
        made.append((f"band {plan.band.key}", [*_edge(plan, foot, strip), *_band(plan, foot)]))
        top = foot - strip - EDGES_APART
    return made


def _edge(plan: BandPlan, foot: int, strip: int) -> list[DrawnMark]:
    """The garment beside the band, which goes on below: it has no line there."""
    long = hundredths(plan.edge_path.length)
    ring = (PenPoint(0, foot - strip), PenPoint(long, foot - strip), PenPoint(long, foot),
            PenPoint(0, foot))
    sides = ((ring[0], ring[3], ring[2], ring[1]),)
    return [Shape("wb-fill", (ring,), closed=True), Shape("wb-outline", sides)]


def _band(plan: BandPlan, foot: int) -> list[DrawnMark]:
    long, deep = hundredths(plan.edge_path.length), depth_of(plan)
    if not KINDS[plan.band.kind].stands:  # a facing lies behind; its stitches are seen in a line
        return [Shape("wb-seam wb-hem", ((PenPoint(0, foot - deep), PenPoint(long, foot - deep)),)),
                *_holes(plan, foot - deep, deep, long)]
    top = foot + deep
    upper = _picots(plan, long, top) if plan.band.fold is Fold.PICOT and \
        KINDS[plan.band.kind].layers == 2 else (PenPoint(long, top), PenPoint(0, top))
    ring = (PenPoint(0, foot), PenPoint(long, foot), *upper)
    step = hair_step(plan, 1, STITCHES_APART)
    hairs = tuple((PenPoint(x, foot), PenPoint(x, top)) for x in range(step, long, step))
    return [Shape(FILLED, (ring,), closed=True), Shape("wb-texture", hairs),
            *_holes(plan, foot, deep, long)]


def _picots(plan: BandPlan, long: int, top: int) -> tuple[PenPoint, ...]:
    """The points of a picot fold, one for every second stitch."""
    many = plan.stitches.value // 2
    out = [PenPoint(long, top)]
    for i in range(many - 1, -1, -1):
        middle, end = long * (2 * i + 1) // (2 * many), long * i // many
        out += [PenPoint(middle, top + part(PICOT_RISE, long // many), ROUND), PenPoint(end, top)]
    return tuple(out)


def _holes(plan: BandPlan, foot: int, deep: int, long: int) -> list[DrawnMark]:
    """The buttonholes: level openings as wide as their stitches, eyelets, slits or loops."""
    buttonholes, placing = plan.band.buttonholes, plan.placing
    if buttonholes is None or placing is None:
        return []
    stitches = plan.stitches.value
    half = long * placing.hole // (2 * stitches)
    middle = foot + deep // 2
    marks: list[DrawnMark] = []
    for share in button_shares(plan, stitches):
        x = part(share, long)
        if buttonholes.kind is ButtonholeKind.LOOPS:
            top, radius = foot + deep, button_radius(plan)
            marks.append(Shape("wb-outline", ((PenPoint(x - radius, top),
                                               PenPoint(x, top + 2 * radius, ROUND),
                                               PenPoint(x + radius, top)),)))
        elif buttonholes.kind in (ButtonholeKind.EYELET, ButtonholeKind.ONE_STITCH):
            marks.append(Disc("wb-hole", PenPoint(x, middle), part(HOLE_HIGH, deep)))
        else:
            wide, high = half, part(HOLE_HIGH, deep)
            if buttonholes.kind is ButtonholeKind.SLIT:
                wide, high = part(HOLE_HIGH, deep) // 2, deep // 4
            marks.append(_hole(x, middle, wide, high))
    return marks


def _hole(x: int, y: int, wide: int, high: int) -> Shape:
    ring = (PenPoint(x - wide, y), PenPoint(x - wide, y + high, ROUND), PenPoint(x, y + high),
            PenPoint(x + wide, y + high, ROUND), PenPoint(x + wide, y),
            PenPoint(x + wide, y - high, ROUND), PenPoint(x, y - high),
            PenPoint(x - wide, y - high, ROUND))
    return Shape("wb-hole", (ring,), closed=True)

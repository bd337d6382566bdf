"""What is seen of a hem or a rib: where it ends, and every rib that shows."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import groupby, pairwise

from ..pattern.model import Fold
from ..shape.foot import Hem
from ..shape.ribs import Rib, faces
from .garment_conventions import CLOSEST, PICOT_RISE, ROUND
from .garment_parts import DrawnParts
from .garment_pen import Disc, Line, PenPoint, Shape, hundredths, part

StitchPlace = Callable[[int, int], PenPoint]  # (up from the lower edge, from the middle) -> a node


def on_edge(up: int, x: int) -> PenPoint:
    """The place of a piece that lies upright."""
    return PenPoint(x, up)


def foot_lines(parts: DrawnParts, key: str, wide: int, at: StitchPlace, *, half: bool = False
               ) -> Iterator[Shape]:
    """The lines of what a piece begins with: the top of its hem, or of its rib and every rib.

    `wide` is from the middle to its seam; of a piece folded in two only `half` is seen.
    """
    piece, outline = parts.pieces[key], parts.outlines[key]
    if piece.hem is None:
        return
    top = hundredths(outline.hem)
    looks = "wb-seam" if isinstance(piece.hem, Rib) else "wb-seam wb-hem"
    yield Shape(looks, ((at(top, 0 if half else -wide), at(top, wide)),))
    if isinstance(piece.hem, Rib):
        own, wide_of = piece.hem.across(piece.stitches.value), parts.stitch(key)
        lines = tuple((at(0, x), at(top, x)) for x in rib_places(
            piece.hem, own, wide_of * piece.stitches.value // own)
                      if abs(x) < wide and (x > 0 or not half))
        if lines:
            yield Shape("wb-texture", lines)


def picots(parts: DrawnParts, key: str, first: int, last: int, at: StitchPlace) -> Line:
    """A lower edge with the points of a picot hem, one for every second stitch, from one place to
    another; none where the piece begins in another way. Their tips are the finished edge."""
    hem = parts.pieces[key].hem
    if not isinstance(hem, Hem) or hem.fold is not Fold.PICOT:
        return ()
    many = max(1, (last - first) // (2 * parts.stitch(key)))
    rise = part(PICOT_RISE, parts.stitch(key))
    places = [first + (last - first) * n // (2 * many) for n in range(2 * many + 1)]
    return tuple(at(-rise, x)._replace(reach=ROUND) if n % 2 else at(rise, x)
                 for n, x in enumerate(places))


def eyelets(parts: DrawnParts, key: str, at: StitchPlace) -> Iterator[Disc]:
    """The holes of a hem, through which a cord comes out.

    Of half a front they are counted from its front edge, of a whole one from the bed's left, which
    lies at the right.
    """
    piece = parts.pieces[key]
    if not isinstance(piece.hem, Hem):
        return
    middle, stitch = hundredths(parts.outlines[key].hem) // 2, parts.stitch(key)
    for place in piece.hem.eyelets:
        x = (2 * place + 1 - piece.stitches.value) * stitch // 2
        yield Disc("wb-hole", at(middle, x if parts.opens else -x), stitch // 2)


def rib_places(rib: Rib, stitches: int, stitch: int) -> list[int]:
    """Where the furrows between the ribs lie, from the middle of the piece.

    Ribs too close to be drawn apart are drawn every second one.
    """
    shown = faces(stitches, rib.works, rib.make)
    if rib.full:
        return thinned([(2 * i - stitches) * stitch // 2 for i in range(1, stitches)])
    places, at = [], 0
    for stands, run in groupby(shown):
        many = len(list(run))
        if not stands:
            places.append((2 * at + many - stitches) * stitch // 2)
        at += many
    return thinned(places)


def thinned(places: list[int]) -> list[int]:
    """The places, of those that lie too close every second one, till they can be told apart."""
    while len(places) > 2 and min(b - a for a, b in pairwise(places)) < CLOSEST:
        places = places[::2]
    return places


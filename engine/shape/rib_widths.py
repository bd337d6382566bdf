"""The widths of pieces that begin with a rib: counted so that the rib fits them."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from ..core.counts import GIVEN, ParityOf, Rounding
from .garment import CannotKeep, CannotRound, Cut, Garment
from .rib_stitches import own_stitches_of, with_own_stitches
from .ribs import Rib
from .roundings import shape_rounded, text


def shape_ribbed(shape: Callable[[Cut], Garment], cut: Cut,
                 roundings: Mapping[str, Rounding | ParityOf], rounds: Collection[str], *,
                 seamed: bool = True) -> Garment:
    """Return the garment that `shape` makes of `cut`, counts rounded by `roundings`, ribs fitting.

    Of the counts in `rounds` those are fitted that pieces are cast on with whose rib has as many
    stitches. The pieces are `seamed` at their sides, or may have no seam there. Raises CannotRound
    where what was asked fits no rib, CannotShape as `shape` does.
    """
    garment = shape_rounded(shape, cut, roundings)
    begun = {f"{piece.key} cast_on": fits for piece in garment.pieces
             if isinstance(piece.hem, Rib) and own_stitches_of(garment, piece) is None
             and (fits := piece.hem.fits(seamed=seamed))}
    if not begun:
        return with_own_stitches(cut, garment, seamed=seamed)
    fitted = {name: _both(name, roundings.get(name), rib) for name, rib in begun.items()
              if name in rounds}
    try:
        return with_own_stitches(cut, shape_rounded(shape, cut, {**roundings, **fitted}),
                                 seamed=seamed)
    except CannotKeep:
        raise
    except CannotRound as fault:
        ribs = " or ".join(dict.fromkeys(map(str, begun.values())))
        raise CannotRound(f"{fault.found}, where the rib needs {ribs}",
                          "Use another rib, or another chart or rounding.") from fault


def _both(name: str, own: Rounding | ParityOf | None, rib: Rounding) -> Rounding | ParityOf:
    """What was asked of a count, where the rib fits it too."""
    if own is None:
        return rib
    if isinstance(own, ParityOf):
        return own
    made = own.among(rib)
    if made is None and own.rule == GIVEN:
        of, plus = rib.kind
        below = (own.plus - plus) // of * of + plus
        near = " or ".join(str(number) for number in (below, below + of) if number > 0)
        raise CannotKeep(name, f"{text(name)} {own.plus}, which is not {rib}, as the rib needs "
                         "it", f"Write {near}, or use another rib.")
    if made is None:
        raise CannotRound(f"{text(name)} rounded to {own}, which is never {rib}, as the rib "
                          "needs it", "Leave the rounding out, or use another rib.")
    return made

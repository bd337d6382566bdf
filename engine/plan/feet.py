"""How wide a rib or hem lies below its piece: each counted at its own gauge and compared."""

from __future__ import annotations

from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counts import decimal
from ..core.problems import Problem, Severity, note
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..pattern.model import GarmentSpec, Pattern, RibMake, RibSpec
from ..shape.garment import Garment
from ..shape.piece import Piece
from ..shape.ribs import Rib, faces

# A rib draws in: relaxed it may lie half as wide as drawn to the full (1x1 stretches about 2.0
# times: worked example W3-029, a compilation, not primary). Up to a tenth wider than the piece it
# hangs straight; beyond, it flares (common practice, no source).
NARROWEST, WIDEST = Fraction(1, 2), Fraction(11, 10)


def foot_width(piece: Piece, own: Gauge) -> Length:
    """Return how wide the rib or hem below a piece lies, at its `own` gauge.

    The stitches counted are those on needles in work; with two beds, those of both.
    """
    across = piece.stitches.value
    if isinstance(piece.hem, Rib):
        if piece.hem.make in (RibMake.MOCK, RibMake.HUNG):
            across = sum(faces(across, piece.hem.works, piece.hem.make))
        elif piece.hem.full:
            across = 2 * across - 1
    return Length(across * own.stitch)


def swatch_shared(pattern: Pattern, spec: GarmentSpec, size: str) -> tuple[Problem, ...]:
    """Warn once of a band that is counted from the swatch of the garment's rib, and is no such rib.

    With needles left out of work in the fabric itself both are knitted alike.
    """
    hem = spec.hem
    if not isinstance(hem, RibSpec) or not hem.fabric or size != pattern.sizes[0] or \
            pattern.fabrics[hem.fabric].repeat:
        return ()
    return tuple(
        note(Severity.WARNING, "swatch-shared", pattern.place(f"bands.{band.key}.fabric"),
             found=f'fabric "{hem.fabric}" for a {band.kind} band and for a {hem.make.value}',
             expected="a swatch of each: they do not come out equally wide",
             remedy="Describe the rib as a fabric with a swatch, and name it in the hem.")
        for band in pattern.bands.values()
        if band.fabric == hem.fabric and not KINDS[band.kind].latched)


def flaring(pattern: Pattern, spec: GarmentSpec, garment: Garment, gauge: Gauge, own: Gauge | None
            ) -> tuple[Problem, ...]:
    """Warn once of a rib or hem that lies wider than its piece, or less than half as wide."""
    pieces = [piece for piece in garment.pieces if piece.hem]
    if own is None or not pieces or garment.size != pattern.sizes[0]:
        return ()
    piece = pieces[0]
    foot, above = foot_width(piece, own), Length(piece.stitches.value * gauge.stitch)
    share = foot.mm / above.mm
    if NARROWEST <= share <= WIDEST:
        return ()
    what = "rib" if isinstance(piece.hem, Rib) else "hem"
    return (note(Severity.WARNING, "foot-width", pattern.place("garment.hem"),
                 found=f"a {what} of {foot.in_cm()} below a {piece.title.lower()} of "
                       f"{above.in_cm()}: {decimal(share, 2)} times as wide",
                 expected=f"{decimal(NARROWEST, 1)} to {decimal(WIDEST, 1)} times",
                 remedy="Check its swatch. The stitches on needles in work are counted; with two "
                        "beds those of both."),)

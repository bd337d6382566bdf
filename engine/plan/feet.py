"""How wide a rib or hem lies below its piece: each counted at its own gauge and compared."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from ..catalogue.bands import KINDS
from ..core.counts import decimal
from ..core.problems import Problem, Severity, note
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..fabric.piece_fabrics import SLEEVE, FootSpec, cuff_spec, foot_fabric, hem_spec
from ..pattern.model import GarmentSpec, Pattern
from ..pattern.places import Places
from ..pattern.rib_specs import RibSpec
from ..shape.garment import Cut, Garment
from ..shape.piece import Piece
from ..shape.ribs import Rib

# A rib draws in: relaxed it may lie half as wide as drawn to the full (1x1 stretches about 2.0
# times: "How is rib stitch measured", a compilation, not primary). Up to a tenth wider
# than the piece it hangs straight; beyond, it flares (common practice, no source).
NARROWEST, WIDEST = Fraction(1, 2), Fraction(11, 10)


def foot_width(piece: Piece, own: Gauge) -> Length:
    """Return how wide the rib or hem below a piece lies, at its `own` gauge.

    The stitches counted are those on needles in work; with two beds, those of both.
    """
    across = piece.stitches.value
    if isinstance(piece.hem, Rib):
        across = piece.hem.in_row(across)
    return Length(across * own.stitch)


def feet_not_swatched(pattern: Pattern, spec: GarmentSpec, size: str) -> tuple[Problem, ...]:
    """Say once that the rows of a hem or rib are counted at the gauge of another fabric."""
    return tuple(_not_swatched(pattern.places, spec.fabric_of(piece), key, foot)
                 for key, foot in _feet(pattern.garment, pattern.sizes, size)
                 for piece in dict.fromkeys(_begun(spec, key))
                 if foot_fabric(pattern.garment, pattern.materials, foot, piece) is None)


def _begun(spec: GarmentSpec, key: str) -> Iterator[str]:
    """A piece of each fabric that begins with the hem, or the sleeve, which begins with a cuff."""
    if key == "cuff":
        yield SLEEVE
        return
    first = {spec.fabric: ""} | {own: piece for piece, own in spec.piece_fabrics.items()
                                 if piece != SLEEVE or not spec.cuffs}
    yield from first.values()


def _not_swatched(places: Places, fabric: str, key: str, foot: FootSpec) -> Problem:
    place = places.of(f"garment.{key}")
    if isinstance(foot, RibSpec):
        return note(Severity.REMARK, "rib-not-swatched", place,
                    found=f"a {foot.make.value} counted by the rows of fabric {fabric}",
                    expected="a swatch of the rib itself",
                    remedy="Describe the rib as a fabric with its swatch, and name it in the "
                           f"{key}.")
    return note(Severity.REMARK, "hem-not-swatched", place,
                found=f"a hem at dial {foot.dial} counted by the rows of fabric {fabric}",
                expected="a swatch at the hem's dial",
                remedy="Give a fabric of the same yarn at that dial with its swatch.")


def _feet(spec: GarmentSpec | None, sizes: tuple[str, ...], size: str
         ) -> Iterator[tuple[str, FootSpec]]:
    """The hem and the cuffs under their keys, in the first size; nothing in the others."""
    for key, foot in (("hem", hem_spec(spec)), ("cuff", cuff_spec(spec))):
        if foot is not None and size == sizes[0]:
            yield key, foot


def swatch_shared(pattern: Pattern, size: str) -> tuple[Problem, ...]:
    """Warn once of a band that is counted from the swatch of the garment's rib, and is no such rib.

    With needles left out of work in the fabric itself both are knitted alike.
    """
    ribs = {foot.fabric: (key, foot) for key, foot in _feet(pattern.garment, pattern.sizes, size)
            if isinstance(foot, RibSpec) and foot.fabric
            and not pattern.fabrics[foot.fabric].repeat}
    return tuple(
        note(Severity.WARNING, "swatch-shared", pattern.places.of(f"bands.{band.key}.fabric"),
             found=f'fabric "{band.fabric}" for a {band.kind} band and for a {foot.make.value}',
             expected="a swatch of each: they do not come out equally wide",
             remedy=f"Describe the rib as a fabric with a swatch, and name it in the {key}.")
        for band in pattern.bands.values()
        if band.fabric in ribs and not KINDS[band.kind].latched
        for key, foot in (ribs[band.fabric],))


def flaring(places: Places, sizes: tuple[str, ...], garment: Garment, cut: Cut
           ) -> tuple[Problem, ...]:
    """Warn once of a rib or hem that lies wider than its piece, or less than half as wide.

    Of a hem the first piece of each fabric is looked at, of cuffs apart the sleeve.
    """
    if garment.size != sizes[0]:
        return ()
    pieces = [piece for piece in garment.pieces if piece.hem]
    sleeves = [piece for piece in pieces if piece.key == SLEEVE] if cut.cuff else []
    looked = (("hem", [piece for piece in pieces if piece not in sleeves]), ("cuff", sleeves))
    return tuple(found for key, some in looked for piece in _first_of_each(cut, some)
                 for found in _flares(places, key, piece, cut.of(piece.key)))


def _first_of_each(cut: Cut, pieces: Sequence[Piece]) -> Iterator[Piece]:
    """The first piece of each fabric."""
    for at, piece in enumerate(pieces):
        if not any(cut.alike(piece.key, other.key) for other in pieces[:at]):
            yield piece


def _flares(places: Places, key: str, piece: Piece, cut: Cut) -> Iterator[Problem]:
    own = cut.cuff_gauge if key == "cuff" else cut.hem_gauge
    if own is None:
        return
    foot, above = foot_width(piece, own), Length(piece.stitches.value * cut.gauge.stitch)
    share = foot.mm / above.mm
    if NARROWEST <= share <= WIDEST:
        return
    what = "rib" if isinstance(piece.hem, Rib) else "hem"
    yield note(Severity.WARNING, "foot-width", places.of(f"garment.{key}"),
               found=f"a {what} of {foot.in_cm()} below a {piece.title.lower()} of "
                     f"{above.in_cm()}: {decimal(share, 2)} times as wide",
               expected=f"{decimal(NARROWEST, 1)} to {decimal(WIDEST, 1)} times",
               remedy="Check its swatch. The stitches on needles in work are counted; with two "
                      "beds those of both.")

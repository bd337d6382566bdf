"""How long an edge can be that a way of binding off makes, and where it must be longer."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ..catalogue.methods import (
    BIND_OFFS,
    BY_HAND,
    CAST_ONS,
    SEWN,
    SPREAD_TOPS,
    STRETCH,
    Method,
    end_of,
)
from ..core.counted import Count
from ..core.counts import Unit, decimal
from ..core.problems import Problem, Severity, note
from ..core.units import Length
from ..fabric.gauge import Gauge, measure
from ..fabric.piece_fabrics import piece_fabric
from ..pattern.fabrics import Fabric, NeedleBed
from ..pattern.model import Band, GarmentSpec, Pattern
from ..pattern.places import Places
from ..shape.garment import Garment
from ..shape.piece import Piece

STRETCH_KEY = "bind_off_stretch"
# How many times as long as an edge its bind-off may lie, before it ruffles: common practice, no
# source. Round one peg a stitch on a bed as coarse as the fabric wants it lies up to half as long
# again.
LONGEST = 2


def stretch_of(spec: GarmentSpec, method: Method) -> Fraction:
    """How far beyond its own length an edge stretches: the designer's setting, else the way's."""
    return spec.bind_off_stretch.get(method.name, STRETCH[method.give])


def reach(
    method: Method, stitches: int, pitch: Length, stitch: Length, stretch: Fraction
) -> Length:
    """Return how long an edge of `stitches` [stitches] can be drawn out [mm].

    Round gate pegs a stitch has as many pitches of the bed as pegs (Susan Guagliumi, "Sinker post
    / gate peg bind-offs"); any other edge is as wide as its stitches. Both may `stretch` by a share
    (common practice, no source).
    """
    own = pitch.times(method.pegs) if method.pegs else stitch
    return own.times(stitches * (1 + stretch))


def too_short(pattern: Pattern, spec: GarmentSpec, garment: Garment, off: dict[str, Method]
              ) -> Iterator[Problem]:
    """Yield a warning for every edge that its way cannot make as long as the piece needs it."""
    for piece in garment.pieces:
        method, stitch = off.get(piece.key), _stitch(pattern.garment, pattern.fabrics, piece)
        if piece.bound_off_to is None or method is None:
            continue
        given = stretch_of(spec, method)
        most = reach(method, piece.stitches.value, pattern.bed.pitch, stitch, given)
        if most < piece.bound_off_to.length:
            yield _short(pattern.places, garment.size, piece, method, (most, given))


def idle_stretch(places: Places, spec: GarmentSpec, garment: Garment, off: dict[str, Method]
                 ) -> Iterator[Problem]:
    """Yield a warning for each way whose stretch the source gives and no such edge is bound off by.

    Only an edge that must be longer than its stitches is held to its stretch (`too_short`).
    """
    used = {off[piece.key].name for piece in garment.pieces
            if piece.bound_off_to is not None and piece.key in off}
    for name in spec.bind_off_stretch:
        if name not in used:
            yield note(Severity.WARNING, "unused", places.of(f"garment.{STRETCH_KEY}.{name}"),
                       size=garment.size,
                       found=f"{STRETCH_KEY} of {name}: no edge that must be longer than its "
                             "stitches is bound off in this way",
                       expected=" or ".join(sorted(used)),
                       remedy=f"Write {' or '.join(sorted(used))}." if used else "Delete it.")


def _stitch(spec: GarmentSpec | None, fabrics: Mapping[str, Fabric], piece: Piece) -> Length:
    """How wide a stitch of a piece is."""
    return Length(measure(piece_fabric(spec, fabrics, piece.key).swatches).stitch)


def _short(places: Places, size: str, piece: Piece, method: Method, found: tuple[Length, Fraction]
           ) -> Problem:
    most, stretch = found
    others = " or ".join(other.name for other in SPREAD_TOPS if other is not method and (
        other is SEWN or other.pegs > method.pegs))
    return note(Severity.WARNING, "edge-too-short", places.of("garment.bind_off"), size=size,
                found=f"{piece.stitches} bound off {method.name}, an edge of at most "
                      f"{most.in_cm()}, {decimal(stretch * 100, 0)} % of stretch in it",
                expected=f"{piece.bound_off_to}",
                remedy=f"Write {others}" * bool(others) + "; or" * bool(others) + " give under "
                       f"{STRETCH_KEY} how far such an edge of your swatch stretches.")


def too_long(pattern: Pattern, garment: Garment, off: dict[str, Method]) -> Iterator[Problem]:
    """Yield a warning for every edge of a piece that its way makes far longer than it is."""
    for piece in garment.pieces:
        own = piece.stitches.value if piece.bound_off_to else piece.top
        if method := off.get(piece.key):
            long = piece.bound_off_to.length if piece.bound_off_to else \
                _stitch(pattern.garment, pattern.fabrics, piece).times(own)
            yield from _long(pattern.places, pattern.bed, method, own, long,
                             (garment.size, "garment.bind_off"))


def band_too_long(places: Places, bed: NeedleBed, band: Band, size: str, stitches: Count,
                  gauge: Gauge) -> list[Problem]:
    """Return a warning for a band whose way off makes its edge far longer than the band."""
    if band.bind_off not in BIND_OFFS:
        return []
    return list(_long(places, bed, BIND_OFFS[band.bind_off], stitches.value, Length(
        stitches.value * gauge.stitch), (size, f"bands.{band.key}.bind_off")))


def _long(places: Places, bed: NeedleBed, method: Method, stitches: int, long: Length,
          at: tuple[str, str]) -> Iterator[Problem]:
    lies, (size, path) = bed.pitch.times(method.pegs * stitches), at
    if lies <= long.times(LONGEST):
        return
    yield note(Severity.WARNING, "edge-too-long", places.of(path), size=size,
               found=f"{Unit.STITCHES.of(stitches)} bound off {method.name}, which lie "
                     f"{lies.in_cm()} long along an edge of {long.in_cm()}",
               expected=f"at most {LONGEST} times as long as the edge",
               remedy=f"Write {SEWN.name}, or another way that is as wide as the stitches.")


def too_narrow(pattern: Pattern, garment: Garment) -> Iterator[Problem]:
    """Yield a warning for every edge cast on over gate pegs that are closer than its stitches."""
    for piece in garment.pieces:
        method, count = CAST_ONS[piece.cast_on_method], piece.stitches.value
        stitch = _stitch(pattern.garment, pattern.fabrics, piece)
        most = reach(method, count, pattern.bed.pitch, stitch, STRETCH[method.give])
        if method.pegs and piece.hem is None and most < stitch.times(count):
            yield note(
                Severity.WARNING, "edge-too-short", pattern.places.of("garment.cast_on"),
                size=garment.size, found=f"{piece.stitches} cast on with a {method.name}, an edge "
                f"of at most {most.in_cm()}, {decimal(STRETCH[method.give] * 100, 0)} % of stretch "
                "in it",
                expected=f"{stitch.times(count)}", remedy=f"Write {BY_HAND.name}.")


def sewing_end(piece: Piece, stitches: int, pitch: Length) -> Length:
    """Return the end to sew a top off with, up to the next 5 cm: for the edge's own length."""
    if piece.bound_off_to is None:
        return end_of(SEWN, pitch.times(stitches))
    return end_of(SEWN, max(pitch.times(stitches), piece.bound_off_to.length))

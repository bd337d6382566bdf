"""How long an edge can be that a way of binding off makes, and where it must be longer."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ..catalogue.ways import BY_HAND, SEWN, SPREAD_TOPS, STRETCH, WAYS_ON, Way, end_of
from ..core.counts import decimal
from ..core.problems import Problem, Severity, note
from ..core.units import Length
from ..fabric.gauge import measure
from ..pattern.model import GarmentWish, Pattern
from ..shape.garment import Garment
from ..shape.piece import Piece

STRETCH_KEY = "bind_off_stretch"


def stretch_of(wish: GarmentWish, way: Way) -> Fraction:
    """How far beyond its own length an edge stretches: the designer's setting, else the way's."""
    return wish.bind_off_stretch.get(way.name, STRETCH[way.give])


def reach(way: Way, stitches: int, pitch: Length, stitch: Length, stretch: Fraction) -> Length:
    """Return how long an edge of `stitches` [stitches] can be drawn out [mm].

    Round gate pegs a stitch has as many pitches of the bed as pegs (Susan Guagliumi, "Sinker post
    / gate peg bind-offs"); any other edge is as wide as its stitches. Both may `stretch` by a share
    (common practice, no source).
    """
    own = pitch.times(way.pegs) if way.pegs else stitch
    return own.times(stitches * (1 + stretch))


def too_short(pattern: Pattern, wish: GarmentWish, garment: Garment, off: dict[str, Way]
              ) -> Iterator[Problem]:
    """Yield a warning for every edge that its way cannot make as long as the piece needs it."""
    stitch = Length(measure(pattern.fabrics[wish.fabric].swatches).stitch)
    for piece in garment.pieces:
        way = off.get(piece.key)
        if piece.bound_off_to is None or way is None:
            continue
        given = stretch_of(wish, way)
        most = reach(way, piece.stitches.value, pattern.bed.pitch, stitch, given)
        if most < piece.bound_off_to:
            yield _short(pattern, garment.size, piece, way, (most, given))


def _short(pattern: Pattern, size: str, piece: Piece, way: Way, found: tuple[Length, Fraction]
           ) -> Problem:
    most, stretch = found
    others = " or ".join(other.name for other in SPREAD_TOPS if other is not way and (
        other is SEWN or other.pegs > way.pegs))
    return note(Severity.WARNING, "edge-too-short", pattern.place("garment.bind_off"), size=size,
                found=f"{piece.stitches} bound off {way.name}, an edge of at most "
                      f"{most.in_cm()}, {decimal(stretch * 100, 0)} % of stretch in it",
                expected=f"{piece.bound_off_to}",
                remedy=f"Write {others}" * bool(others) + "; or" * bool(others) + " give under "
                       f"{STRETCH_KEY} how far such an edge of your swatch stretches.")


def too_narrow(pattern: Pattern, wish: GarmentWish, garment: Garment) -> Iterator[Problem]:
    """Yield a warning for every edge cast on over gate pegs that are closer than its stitches."""
    stitch = Length(measure(pattern.fabrics[wish.fabric].swatches).stitch)
    for piece in garment.pieces:
        way, count = WAYS_ON[piece.way_on], piece.stitches.value
        most = reach(way, count, pattern.bed.pitch, stitch, STRETCH[way.give])
        if way.pegs and piece.hem is None and most < stitch.times(count):
            yield note(
                Severity.WARNING, "edge-too-short", pattern.place("garment.cast_on"),
                size=garment.size, found=f"{piece.stitches} cast on with a {way.name}, an edge of "
                f"at most {most.in_cm()}, {decimal(STRETCH[way.give] * 100, 0)} % of stretch in it",
                expected=f"{stitch.times(count)}", remedy=f"Write {BY_HAND.name}.")


def sewing_end(piece: Piece, stitches: int, pitch: Length) -> Length:
    """Return the end to sew a top off with, up to the next 5 cm: for the edge's own length."""
    if piece.bound_off_to is None:
        return end_of(SEWN, pitch.times(stitches))
    return end_of(SEWN, max(pitch.times(stitches), piece.bound_off_to))

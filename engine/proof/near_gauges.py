"""Gauges near a reader's at which her size works."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import count, islice
from typing import TypeVar

from ..core.counts import decimal, whole
from ..core.problems import Place
from ..core.units import Length
from ..fabric.gauge import measure
from ..pattern.fabrics import Fabric
from ..pattern.model import Pattern
from ..source.keys.fabric_keys import SwatchKeys
from ..source.keys.key import Key
from ..source.own_swatch import TypedSwatch
from ..source.source import Scalar
from ..source.values import Entry
from .own_gauge import ENOUGH, SourceTexts, Wanted, size_to_keep, works

T = TypeVar("T")
Near = tuple[str, TypedSwatch]
"""A fabric, and another swatch of it."""
TRIES = 32
"""Gauges around hers that are tried, or two steps each way of every fabric where that is more. The
ways to the designer's take up to seven more of each fabric."""
_AROUND = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1))
_INCH = Fraction(127, 5)


def near_gauges(ground: SourceTexts, pattern: Pattern, wanted: Wanted) -> tuple[Near, ...]:
    """Return the nearest gauges at which a size works.

    One fabric is changed, in width, in height or in both, by a millimetre or a sixteenth of an
    inch at a time. Refusals are not in any order: each gauge is tried. Where none of the nearest
    works, the way to the designer's own gauge is halved, for each fabric by itself.
    """
    theirs = size_to_keep(pattern, wanted.size)

    def is_working(near: Near) -> bool:
        key, swatch = near
        return works(ground, pattern, replace(
            wanted, swatches={**wanted.swatches, key: swatch}), theirs)

    tries = max(TRIES, 2 * len(_AROUND) * len(wanted.swatches))
    around = filter(is_working, islice(_neighbours(wanted.swatches), tries))
    return tuple(islice(around,
                        ENOUGH)) or tuple(_towards(pattern.fabrics, wanted.swatches, is_working))


def _neighbours(swatches: Mapping[str, TypedSwatch]) -> Iterator[Near]:
    for step in count(1) if swatches else ():
        for across, along in _AROUND:
            for key, swatch in swatches.items():
                yield key, _moved(swatch, across * step, along * step)


def _towards(fabrics: Mapping[str, Fabric], swatches: Mapping[str, TypedSwatch],
             is_working: Callable[[Near], bool]) -> Iterator[Near]:
    """For each fabric a gauge between hers and the designer's that works, where his own does."""
    for key, swatch in swatches.items():
        between = [(key, one) for one in _swatches_toward(swatch, fabrics[key])]
        if not between or not is_working(between[-1]):
            continue
        low, high = 0, len(between)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if is_working(between[middle - 1]) else (middle, high)
        yield between[high - 1]


def _swatches_toward(swatch: TypedSwatch, fabric: Fabric) -> Iterator[TypedSwatch]:
    """A swatch by steps on to the designer's gauge, which the last of them has."""
    gauge = measure(fabric.swatches)
    across = _steps(swatch, SwatchKeys.width, _figure(swatch, SwatchKeys.stitches) * gauge.stitch)
    along = _steps(swatch, SwatchKeys.height, _figure(swatch, SwatchKeys.rows) * gauge.row)
    most = max(abs(across), abs(along))
    for step in range(1, most + 1):
        yield _moved(swatch, *(whole(Fraction(each * step, most)) for each in (across, along)))


def _figure(swatch: TypedSwatch, key: Key[T]) -> T:
    place = Place("", 1, 1)
    return key.read(Entry(key.name, Scalar(swatch[key.name], place), key.name, place))


def _is_in_inches(length: str) -> bool:
    return any(unit in length for unit in ("in", '"', "″"))


def _steps(swatch: TypedSwatch, key: Key[Length], to: Fraction) -> int:
    """How many steps a length of a swatch lies from another [mm]."""
    step = _INCH / 16 if _is_in_inches(swatch[key.name]) else Fraction(1)
    return whole((to - _figure(swatch, key).mm) / step)


def _moved(swatch: TypedSwatch, across: int, along: int) -> TypedSwatch:
    """A swatch so many steps wider and higher, each length in the unit in which it was given."""
    return {**swatch, "width": _longer(swatch, SwatchKeys.width, across),
            "height": _longer(swatch, SwatchKeys.height, along)}


def _longer(swatch: TypedSwatch, key: Key[Length], steps: int) -> str:
    mm = _figure(swatch, key).mm
    if _is_in_inches(swatch[key.name]):
        sixteenths = whole(mm / _INCH * 16) + steps
        return f"{decimal(Fraction(sixteenths, 16), 4)} in"
    return f"{decimal(Fraction(whole(mm) + steps, 10), 1)} cm"

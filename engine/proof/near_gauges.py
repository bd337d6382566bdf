"""Gauges near a reader's at which her size works."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
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
Near = Mapping[str, TypedSwatch]
"""Other swatches than hers, by fabric."""
TRIES = 32
"""Gauges around hers that are tried, or two steps each way of every fabric where that is more. The
ways to the designer's take up to eight more of each fabric, and of all together."""
_AROUND = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1))
_INCH = Fraction(127, 5)


def near_gauges(ground: SourceTexts, pattern: Pattern, wanted: Wanted) -> tuple[Near, ...]:
    """Return the nearest gauges at which a size works.

    One fabric is changed, in width, in height or in both, by a millimetre or a sixteenth of an
    inch at a time. Refusals are not in any order: each gauge is tried. Where none of the nearest
    works, the way to the designer's own gauge is halved: for each fabric by itself, and where none
    of these works, for all fabrics together.
    """
    theirs = size_to_keep(pattern, wanted.size)

    def is_working(near: Near) -> bool:
        return works(ground, pattern, replace(
            wanted, swatches={**wanted.swatches, **near}), theirs)

    around = filter(is_working, islice(_neighbours(wanted.swatches), _tries(wanted)))
    if found := tuple(islice(around, ENOUGH)):
        return found
    toward = {key: tuple(_swatches_toward(swatch, pattern.fabrics[key]))
            for key, swatch in wanted.swatches.items()}
    alone = tuple(near for key, line in toward.items()
                  for near in _nearest([{key: one} for one in line], is_working))
    return alone or tuple(_nearest(_together(toward), is_working))


def _tries(wanted: Wanted) -> int:
    """How many gauges around hers are tried; none where she changed no gauge."""
    fabrics = len(wanted.swatches)
    return max(TRIES, 2 * len(_AROUND) * fabrics) if fabrics else 0


def gauges_searched(wanted: Wanted) -> tuple[int, int]:
    """Return how many gauges around a reader's are tried where none works, and how far each is
    moved, in steps of a millimetre or a sixteenth of an inch."""
    tries, steps = _tries(wanted), 0
    if tries:
        steps = -(-tries // (len(_AROUND) * len(wanted.swatches)))
    return tries, steps


def _neighbours(swatches: Mapping[str, TypedSwatch]) -> Iterator[Near]:
    for step in count(1) if swatches else ():
        for across, along in _AROUND:
            for key, swatch in swatches.items():
                yield {key: _moved(swatch, across * step, along * step)}


def _nearest(line: Sequence[Near], is_working: Callable[[Near], bool]) -> Iterator[Near]:
    """On a way to the designer's a gauge that works, by halving; none where its end does not."""
    if not line or not is_working(line[-1]):
        return
    low, high = 0, len(line)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if is_working(line[middle - 1]) else (middle, high)
    yield line[high - 1]


def _together(toward: Mapping[str, Sequence[TypedSwatch]]) -> list[Near]:
    """The way on which all fabrics come to the designer's gauges at once; none of one fabric."""
    steps = max(map(len, toward.values())) if len(toward) > 1 else 0
    return [{key: line[-(-step * len(line) // steps) - 1] for key, line in toward.items()}
            for step in range(1, steps + 1)]


def _swatches_toward(swatch: TypedSwatch, fabric: Fabric) -> Iterator[TypedSwatch]:
    """A swatch by steps on to the designer's gauge, then that gauge to a tenth of a step."""
    gauge = measure(fabric.swatches)
    width = _figure(swatch, SwatchKeys.stitches) * gauge.stitch
    height = _figure(swatch, SwatchKeys.rows) * gauge.row
    across = _steps(swatch, SwatchKeys.width, width)
    along = _steps(swatch, SwatchKeys.height, height)
    most = max(abs(across), abs(along))
    for step in range(1, most + 1):
        yield _moved(swatch, *(_share(each, step, most) for each in (across, along)))
    yield {**swatch, "width": _as_given(swatch["width"], width),
           "height": _as_given(swatch["height"], height)}


def _share(steps: int, part: int, parts: int) -> int:
    """So many of the `parts` of some steps to either side, rounded."""
    return whole(Fraction(abs(steps) * part, parts)) * (1 if steps > 0 else -1)


def _figure(swatch: TypedSwatch, key: Key[T]) -> T:
    place = Place("", 1, 1)
    return key.read(Entry(key.name, Scalar(swatch[key.name], place), key.name, place))


def _is_in_inches(length: str) -> bool:
    return any(unit in length for unit in ("in", '"', "″"))


def _step(length: str) -> Fraction:
    """A step in the unit of a length [mm]: a sixteenth of an inch, or a millimetre."""
    return _INCH / 16 if _is_in_inches(length) else Fraction(1)


def _steps(swatch: TypedSwatch, key: Key[Length], to: Fraction) -> int:
    """How many steps a length of a swatch lies from another [mm], less than 0 from a smaller."""
    step = _step(swatch[key.name])
    return whole(to / step) - whole(_figure(swatch, key).mm / step)


def _moved(swatch: TypedSwatch, across: int, along: int) -> TypedSwatch:
    """A swatch so many steps wider and higher, each length in the unit in which it was given."""
    return {**swatch, "width": _longer(swatch, SwatchKeys.width, across),
            "height": _longer(swatch, SwatchKeys.height, along)}


def _longer(swatch: TypedSwatch, key: Key[Length], steps: int) -> str:
    given = swatch[key.name]
    step = _step(given)
    return _as_given(given, (whole(_figure(swatch, key).mm / step) + steps) * step)


def _as_given(given: str, mm: Fraction) -> str:
    """A length [mm] in the unit in which another was given."""
    return f"{decimal(mm / _INCH, 4)} in" if _is_in_inches(given) else f"{decimal(mm / 10, 2)} cm"


def limit_to_10cm(fabric: Fabric, most: int) -> tuple[tuple[str, str], tuple[str, str]]:
    """Return the least and the most stitches, then rows, to 10 cm of a gauge that differs from the
    designer's by `most` [%], in tenths that lie within."""
    gauge = measure(fabric.swatches)
    return (_tenths(gauge.stitches_per_10cm, most), _tenths(gauge.rows_per_10cm, most))


def _tenths(figure: Fraction, most: int) -> tuple[str, str]:
    low, high = figure * (100 - most) / 10, figure * (100 + most) / 10
    return (decimal(Fraction(-(-low.numerator // low.denominator), 10), 1),
            decimal(Fraction(high.numerator // high.denominator, 10), 1))


def within_limit(swatch: TypedSwatch, fabric: Fabric, most: int) -> tuple[str, str, str, str]:
    """Return how wide a reader's stitches, and how high her rows, are at least and at most at a
    gauge that differs from the designer's by `most` [%], each in the unit that she measured in."""
    gauge = measure(fabric.swatches)
    sides = ((SwatchKeys.width, _figure(swatch, SwatchKeys.stitches) * gauge.stitch),
             (SwatchKeys.height, _figure(swatch, SwatchKeys.rows) * gauge.row))
    least, greatest = zip(*(_limits(swatch[key.name], mm, most) for key, mm in sides), strict=True)
    return least[0], greatest[0], least[1], greatest[1]


def _limits(given: str, mm: Fraction, most: int) -> tuple[str, str]:
    """The shortest and the longest length of whole steps within the limit around one [mm]."""
    step = _step(given)
    low, high = mm * 100 / (100 + most) / step, mm * 100 / (100 - most) / step
    return (_as_given(given, -(-low.numerator // low.denominator) * step),
            _as_given(given, high.numerator // high.denominator * step))

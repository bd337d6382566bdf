"""Where the middles of holes lie that are not all spread alike: in a hem, about a chosen one.

All distances are from the band's lower end, in stitches, and exact until they are placed.

Source: Threads and String, "Buttonholes and their location" (B10).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from ..core.counts import whole
from .buttonholes import Placing


def in_hem(number: int, depth: Fraction, ends: Fraction) -> tuple[Fraction, ...]:
    """Return the middles of `number` holes in a hem `depth` deep, `ends` from both its borders.

    Two in a rib of 3 in lie half an inch from its edges (B10); one lies in its middle.
    """
    if number == 1:
        return (depth / 2,)
    step = (depth - 2 * ends) / (number - 1)
    return tuple(ends + k * step for k in range(number))


def above_hem(hem: Sequence[Fraction], depth: Fraction, top: Fraction, *, number: int | None,
              apart: Fraction | None) -> tuple[Fraction, ...]:
    """Return the holes in the hem and the others above it, up to one at `top`.

    The room above the hem is shared equally, a hole at the upper end of every share: 12 in are
    four times 3 in (B10). `number` of them, or as many as lie about `apart`. Nothing where there
    is no room.
    """
    room = top - depth
    if room <= 0:
        return ()
    count = number if number is not None else max(1, whole(room / _need(apart)))
    return (*hem, *(depth + room * (k + 1) / count for k in range(count)))


def about(at: Fraction, low: Fraction, top: Fraction, *, number: int | None,
          apart: Fraction | None) -> tuple[Fraction, ...]:
    """Return holes from `low` to `top` of which one lies `at` a chosen place.

    Below it and above it they are equally far apart, and those two distances are as near to one
    another as `number` allows; or each as near to `apart` as whole spaces come. A `number` of one
    is the chosen hole alone. Nothing where the place is outside. Common practice, no source.
    """
    if number == 1:
        return (at,)
    if not low <= at <= top:
        return ()
    if number is None:
        spaces = [whole((at - low) / _need(apart)), whole((top - at) / _need(apart))]
    else:
        spaces = _shared(at - low, top - at, number - 1)
    lower = [low + (at - low) * k / spaces[0] for k in range(spaces[0])]
    upper = [at + (top - at) * (k + 1) / spaces[1] for k in range(spaces[1])]
    return (*lower, at, *upper)


def _shared(down: Fraction, up: Fraction, spaces: int) -> list[int]:
    """Spaces below and above so that those on one side are as wide as on the other."""
    below_it = [k for k in range(spaces + 1) if (k or not down) and (spaces - k or not up)] or \
        [spaces if down >= up else 0]

    def unlike(k: int) -> Fraction:
        lower = down / k if k else Fraction(0)
        upper = up / (spaces - k) if spaces - k else Fraction(0)
        return abs(lower - upper)
    best = min(below_it, key=unlike)
    return [best, spaces - best]


def _need(apart: Fraction | None) -> Fraction:
    if apart is None:
        raise ValueError("holes are asked for by number or by their distance")
    return apart


def below(placing: Placing, beyond: int) -> Placing:
    """Return a placing on a band that goes on for `beyond` stitches above where holes may lie."""
    if not beyond:
        return placing
    spec = replace(placing.spec, stitches=placing.spec.stitches + beyond,
                   upper=placing.spec.upper + beyond)
    return replace(placing, stitches=placing.stitches + beyond, upper=placing.upper + beyond,
                   spec=spec)


def shifted(placing: Placing, starts: Sequence[int], stitches: int, before: int) -> Placing | None:
    """Return the holes of a part of the band: those that begin at `starts` of the whole.

    The part has so many `stitches`, and its first follows `before` of the whole [stitches].
    None where no hole falls into it.
    """
    if not starts:
        return None
    lower = starts[0] - 1 - before
    upper = stitches - (starts[-1] - before) - placing.hole + 1
    gaps = tuple(b - a - placing.hole for a, b in pairwise(starts))
    spec = replace(placing.spec, stitches=stitches, holes=len(starts), lower=lower, upper=upper)
    return replace(placing, stitches=stitches, lower=lower, upper=upper, gaps=gaps, spec=spec)

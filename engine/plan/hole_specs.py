"""Where the middles of holes lie that are not all spread alike: in a hem, about a chosen one.

All distances are from the band's lower end, in stitches, and exact until they are placed.

Source: Threads and String, "Buttonholes and their location" (B10).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Term, plain, tried_figure
from ..core.operands import ChoiceReason, Role
from .buttonholes import Placing

Middles = tuple[Expression, ...]


def in_hem(number: Expression, depth: Expression, ends: Expression) -> Middles:
    """Return the middles of a `number` of holes in a hem `depth` deep, `ends` from its borders.

    Two in a rib of 3 in lie half an inch from its edges (B10); one lies in its middle.
    """
    if number.value == 1:
        return (depth / plain(2),)
    step = (depth - plain(2) * ends) / (number - plain(1))
    return tuple(stepwise(ends, step, int(number.value)))


def above_hem(hem: Sequence[Expression], depth: Expression, top: Expression, *,
              number: Expression | None, apart: Expression | None) -> Middles:
    """Return the holes in the hem and the others above it, up to one at `top`.

    The room above the hem is shared equally, a hole at the upper end of every share: 12 in are
    four times 3 in (B10). `number` of them, or as many as lie about `apart`. Nothing where there
    is no room.
    """
    room = top - depth
    if room.value <= 0:
        return ()
    many = number or _one_at_least(Rounded(room / _need(apart)))
    _, *above = stepwise(depth, room / many, int(many.value) + 1)
    return (*hem, *above)


def about(at: Expression, low: Expression, top: Expression, *, number: int | None,
          apart: Expression | None) -> Middles:
    """Return holes from `low` to `top` of which one lies `at` a chosen place.

    Below it and above it they are equally far apart, and those two distances are as near to one
    another as `number` allows; or each as near to `apart` as whole spaces come. A `number` of one
    is the chosen hole alone. Nothing where the place is outside. Common practice, no source.
    """
    if number == 1:
        return (at,)
    if not low.value <= at.value <= top.value:
        return ()
    down, up = at - low, top - at
    if number is None:
        below_it: Expression = Rounded(down / _need(apart))
        above_it: Expression = Rounded(up / _need(apart))
    else:
        below_it, above_it = _shared(down, up, number - 1)
    lower = stepwise(low, down / below_it, int(below_it.value)) if below_it.value else ()
    upper = stepwise(at, up / above_it, int(above_it.value) + 1) if above_it.value else (at,)
    return (*lower, *upper)


def stepwise(first: Expression, step: Expression, many: int) -> Iterator[Expression]:
    """Yield so many places, each a `step` above the one before it."""
    for number in range(many):
        yield first + Operand(Fraction(number), Role.NTH) * step if number else first


def _one_at_least(many: Expression) -> Expression:
    return many if many.value >= 1 else Chosen((many, plain(1)), Rule.LARGEST,
                                               ChoiceReason.LEAST_ONE)


def _shared(down: Expression, up: Expression, spaces: int) -> tuple[Expression, Expression]:
    """Spaces below and above so that those on one side are as wide as on the other: a search among
    the ways to share them, of equals the one with fewer below."""
    down_, up_ = down.value, up.value
    splits = [k for k in range(spaces + 1) if (k or not down_) and (spaces - k or not up_)] or \
        [spaces if down_ >= up_ else 0]
    costs = {k: abs(_shared_by(down_, k) - _shared_by(up_, spaces - k)) for k in reversed(splits)}
    best = min(splits, key=lambda k: costs[k])
    given = tuple(Operand(cost, Role.COST) for cost in costs.values())
    below_it, above_it = (
        Chosen(tuple(map(tried_figure, found)), Rule.LEAST, ChoiceReason.LEAST_GIVEN_UP, given)
        for found in ((best, *costs), (spaces - best, *(spaces - k for k in costs))))
    return below_it, above_it


def _shared_by(length: Fraction, spaces: int) -> Fraction:
    """How wide each of so many spaces is; none has no width."""
    return length / spaces if spaces else Fraction(0)


def _need(apart: Expression | None) -> Expression:
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
    spec = replace(placing.spec, stitches=stitches, buttonhole_count=len(starts),
                   lower=lower, upper=upper)
    return replace(placing, stitches=stitches, lower=lower, upper=upper, gaps=gaps, spec=spec,
                   before=_before(placing, starts, before))


def _before(placing: Placing, starts: Sequence[int], before: int) -> tuple[Expression, ...]:
    """What computes the stitches before each of a part's holes, which begin at `starts`."""
    if not placing.before:
        return ()
    kept = [one for one, start in zip(placing.before, placing.starts, strict=True)
            if start in starts]
    return tuple(Term(one, Role.NUMBER) - plain(before) if before else one for one in kept)

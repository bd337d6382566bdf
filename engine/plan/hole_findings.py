"""Findings about holes that do not fit: between ends, at joins, on the wrong front."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..core.counts import DOWN, Unit, decimal, whole
from ..core.problems import Problem, error
from ..core.text_kinds import FindingText
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..machine.steps import Side
from .buttonholes import BandSpec, Placing, place
from .hole_ground import HoleGround, clear_upper, stitches_of
from .hole_joins import EdgeJoin, is_clear


def no_placing(ground: HoleGround, spec: BandSpec) -> Problem:
    """Return which of the soundness rules cannot be met, with the figures and a way out."""
    places, path, size, gauge = ground.places, ground.path, ground.size, ground.gauge
    least = spec.least
    if spec.lower < least or spec.upper < least:
        sewn = ", whose ends are sewn" if ground.sewn else ""
        return error("hole-at-end", places.of(f"{path}.ends"), size=size,
                     found=f"holes {spec.lower} and {spec.upper} {ground.unit.value} from the ends "
                           f"of a band{sewn}",
                     expected=f"at least {ground.unit.of(least)} between a hole and the band's "
                              "end",
                     remedy=f"Give the ends {ground.unit.of(least)} or more.")
    if spec.joins and place(replace(spec, joins=())) is not None:
        return _over_join(ground, spec)
    gap = max(2, spec.hole)
    need = spec.lower + spec.upper + spec.buttonhole_count * (spec.hole + gap) - gap
    room = spec.stitches - spec.lower - spec.upper
    fits = max(0, (room + gap) // (spec.hole + gap))
    key = "number" if f"{path}.number" in places else "every"
    return error("hole-wider-than-gap", places.of(f"{path}.{key}", size), size=size,
                 found=f"{spec.buttonhole_count} holes of {ground.unit.of(spec.hole)} on a band of "
                       f"{spec.stitches}",
                 expected=f"gaps at least as wide as a hole ({ground.unit.of(gap)}), which takes "
                          f"{ground.unit.of(need)}",
                 remedy=_fewer(key, fits, room - spec.hole, gauge))


def _over_join(ground: HoleGround, spec: BandSpec) -> Problem:
    """A hole that lies across a join or too near to it, with the nearest ends that keep clear."""
    remedy = "Ask for another number of holes."
    if (stitches := clear_upper(ground, spec.hole)) is not None:
        low = stitches_of(ground.buttonholes.lower, ground.gauge)
        lower, upper = ground.unit.of(low), ground.unit.of(stitches)
        remedy = f"Write ends: {{lower: {lower}, upper: {upper}}}, or another number of holes."
    free = place(replace(spec, joins=()))
    assert free is not None
    at = [one for one in ground.meets
          if not is_clear(free.starts, free.hole, (one.after + free.stitches - spec.stitches,),
                          spec.clear)]
    where = "; ".join(join_text(ground, one) for one in at or ground.meets)
    return error("hole-at-join", ground.places.of(f"{ground.path}.ends"), size=ground.size,
                 found=f"{spec.buttonhole_count} holes of {ground.unit.of(spec.hole)}, of which "
                       f"one lies across a join of the edge or less than "
                       f"{ground.unit.of(spec.clear)} from it: {where}",
                 expected="holes as far from joins and seams as from the band's ends",
                 remedy=remedy)


def join_text(ground: HoleGround, join: EdgeJoin) -> FindingText:
    """Which join it is: "end of the neckband above front edge, 5 stitches from the upper end"."""
    far = ground.along.value - join.after
    return (f"the {join.above} meets the {join.below} {ground.unit.of(far)} from the upper end"
            if far else f"the {join.above} meets the {join.below} at the holes' upper end")


def at_join(ground: HoleGround, placing: Placing) -> list[Problem]:
    """Return an error for holes that the source puts across a join or too near to it."""
    if not placing.fixed or is_clear(placing.starts, placing.hole, ground.joins, ground.clear):
        return []
    key = "at" if ground.buttonholes.at else "in_hem" if ground.buttonholes.in_hem else "through"
    joins = "; ".join(f"the {one.above} meets the {one.below} "
                      f"{Length(one.after * ground.gauge.stitch).in_cm()} from the lower end"
                      for one in ground.meets if one.after < ground.along.value)
    return [error(
        "hole-at-join", ground.places.of(f"{ground.path}.{key}", ground.size),
        size=ground.size,
        found=f"a hole across a join of the edge, or less than "
              f"{ground.unit.of(ground.clear)} from it: {joins}",
        expected="holes as far from joins and seams as from the band's ends",
        remedy="Move the hole, or write less for the ends.")]


def on_other_front(ground: HoleGround, placing: Placing) -> list[Problem]:
    """Return an error where holes along a neck that opens lie on the front without holes."""
    front, half = ground.only_on, Fraction(placing.stitches, 2)
    on_right = [start + placing.hole - 1 <= half for start in placing.starts]
    on_left = [start > half for start in placing.starts]
    if front is None or all(on_right if front is Side.RIGHT else on_left):
        return []
    far = "" if front is Side.RIGHT else "-"
    return [error(
        "hole-on-other-front", ground.places.of(ground.path), size=ground.size,
        found=f"{Unit.HOLES.of(placing.buttonhole_count)} along a neck that opens, not all of them "
              f"on the {front.value} front",
        expected=f"holes on the {front.value} front alone, the buttons on the other",
        remedy=f"Write number: 1, or places near that end, such as at: [{far}2 cm].")]


def _fewer(key: str, fits: int, span: int, gauge: Gauge) -> FindingText:
    """The way out for too many holes where `fits` would fit, the first and last of them `span`
    stitches apart from start to start."""
    if not fits:
        return "Choose a smaller button or a longer edge."
    remedy = f"Ask for at most {fits} hole{'' if fits == 1 else 's'}"
    if key == "every":
        # The nearest number of spaces is taken, so that this and anything wider gives no more.
        least = whole(span * gauge.stitch / (fits - Fraction(1, 2)), DOWN) + 1
        remedy = f"Write a wider every, {decimal(Fraction(least, 10), 1)} cm or more"
    return f"{remedy}, a smaller button, or less distance from the ends."

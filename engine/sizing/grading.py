"""A measure or count looked at across the sizes: does it run, rest or jump where it should not?"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from ..core.counts import decimal
from ..core.text_kinds import FindingText
from ..machine.records import dataclass

FACTOR = Fraction(2)
# How much of itself a figure may grow from one size to the next, beside what the body grows by;
# looked at where there are too few sizes to know their usual step. Common practice, no source:
# the charts step by a sixth of a figure at most, blankets by more.
LEAP = Fraction(1)


@dataclass(frozen=True, slots=True)
class OutOfStep:
    """A value of `name` in `size` that is out of step with its neighbours, with the numbers.

    `kind` is "against" (it runs against them), "repeats" (it stays where the body grows) or
    "jumps" (its step is beyond the stated factor of the usual one).
    """

    kind: str
    name: str
    size: str
    step: Fraction
    text: FindingText


@dataclass(frozen=True, slots=True)
class _Step:
    """From one size to the next: the change of the value, and of the body if that is known, which
    `was` so large before."""

    before: str
    after: str
    start: Fraction
    end: Fraction
    change: Fraction
    body: Fraction | None = None
    was: Fraction | None = None

    @property
    def share(self) -> Fraction:
        """What the body grows by, of what it was; 0 where it is not known."""
        return self.body / self.was if self.body and self.was else Fraction(0)

    def __str__(self) -> FindingText:
        start, end = decimal(self.start, 2), decimal(self.end, 2)
        if (self.before + self.after).isalpha():
            return f"{self.before} {start} to {self.after} {end}"
        return f"{start} in size {self.before} to {end} in size {self.after}"


def look_across(name: FindingText, values: Sequence[tuple[str, Fraction]], *,
                grows: Sequence[Fraction] | None = None, factor: Fraction = FACTOR,
                grain: Fraction = Fraction(0), rises: bool = False) -> tuple[OutOfStep, ...]:
    """Return where a measure or count is out of step; `values` are by size, the smallest first.

    `grows` is the body measurement the value follows, in the same sizes; without it repeats are
    not looked for. With it steps are compared by what the body grows, so that a chart with 4 cm
    and 6 cm steps is no fault. The usual step is the median of those that are not 0; it takes
    three steps to know it. `grain` is what rounding may move a value by (1 for a count that was
    rounded to the nearest): a jump is beyond `factor` times the usual step plus one grain, and a
    repeat or a step back is a finding only where the usual step is larger than the grain.
    A figure that `rises` must not fall, whatever its other steps do; and where two steps or one
    are all there are, it jumps where it grows by more than `LEAP` of itself. Raises ValueError
    when `grows` has another number of sizes.
    """
    if grows is not None and len(grows) != len(values):
        raise ValueError(f"{len(values)} values of {name} but {len(grows)} of the body")
    steps = [_Step(a, b, x, y, y - x) if grows is None else
             _Step(a, b, x, y, y - x, grows[n + 1] - grows[n], grows[n])
             for n, ((a, x), (b, y)) in enumerate(pairwise(values))]
    usual = _usual(steps)
    course = sum((s.change > 0) - (s.change < 0) for s in steps)
    found = [_judge(name, step, course, len(steps), usual[step.body], factor, grain) or
             (_alone(name, step, steps, grain) if rises else None) for step in steps]
    return tuple(one for one in found if one is not None)


def _alone(name: str, step: _Step, steps: Sequence[_Step], grain: Fraction) -> OutOfStep | None:
    """What is wrong with a step that must rise, whatever the others do."""
    if step.change < (0 if step.body and step.body > 0 else -grain):
        return _finding("against", name, step, f"falls from {step}, though the sizes grow")
    if len(steps) >= 3 or step.start <= 0:
        return None
    most = step.start * (LEAP + max(step.share, Fraction(0))) + grain
    return None if step.change <= most else _finding(
        "jumps", name, step, f"goes from {step}, a step of {decimal(step.change, 2)}, where "
                             f"{decimal(most, 2)} is the limit")


def _judge(name: str, step: _Step, course: int, many: int, usual: Fraction, factor: Fraction,
           grain: Fraction) -> OutOfStep | None:
    """What is wrong with one of so `many` steps, of which so many more rise than fall."""
    if not course and step.body and step.body > 0:
        course = 1  # as many steps down as up: the body tells which of them is wrong
    if step.change == 0:
        if step.body is None or step.body <= 0 or (0 < usual <= grain):
            return None
        return _finding("repeats", name, step, f"stays the same from {step}, while the body grows "
                                               f"by {decimal(step.body, 2)}")
    if course and (step.change > 0) != (course > 0) and abs(step.change) > grain:
        direction = "falls" if step.change < 0 else "rises"
        return _finding("against", name, step, f"{direction} from {step}, against its neighbours")
    if many >= 3 and abs(step.change) > factor * usual + grain:
        return _finding("jumps", name, step, f"goes from {step}, a step of "
                        f"{decimal(abs(step.change), 2)}, where {decimal(usual, 2)} is usual and "
                        f"{decimal(factor, 2)} times that is the limit")
    return None


def _finding(kind: str, name: str, step: _Step, text: FindingText) -> OutOfStep:
    return OutOfStep(kind, name, step.after, step.change, f"{name} {text}")


def _usual(steps: Sequence[_Step]) -> dict[Fraction | None, Fraction]:
    """The usual step, for as much as the body grows at each step where that is known."""
    changed = [step for step in steps if step.change]
    if all(step.body for step in changed):  # a step's share of the body's is found once for all
        rate = _median([abs(step.change / step.body) for step in changed if step.body])
        return {step.body: rate * abs(step.body) if step.body else _usual_at(changed, None)
                for step in steps}
    return {step.body: _usual_at(changed, step.body) for step in steps}


def _usual_at(changed: Sequence[_Step], body: Fraction | None) -> Fraction:
    """The usual step where the body grows by `body`; as it is where that is not known."""
    return _median([abs(step.change * body / step.body) if body and step.body
                    else abs(step.change) for step in changed])


def _median(sizes: Sequence[Fraction]) -> Fraction:
    """The middle one, or the mean of the two in the middle; 0 of none."""
    ordered = sorted(sizes) or [Fraction(0)]
    return (ordered[(len(ordered) - 1) // 2] + ordered[len(ordered) // 2]) / 2

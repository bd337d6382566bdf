"""Which inputs moved a fact: those that restore it when they are set back."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import field

from ..machine.records import dataclass
from .compared_facts import ComparedSide, FactKey
from .differences import FactDifference, value_of
from .inputs import Input

KnitAgain = Callable[[frozenset[Input]], ComparedSide]
"""Gives the side after the change with these inputs set back."""
_OF_HEAD = (("version",), ("date",), ("corrections",))
_TRIES = 60  # sides that are knitted to find the causes of one pattern


def causes(found: Iterable[FactDifference], before: ComparedSide, after: ComparedSide,
           inputs: tuple[Input, ...],
           knit: KnitAgain) -> dict[FactKey, tuple[Input, ...]]:
    """Return the inputs that moved each fact, in the order of the inputs.

    Setting these back gives the fact its former value; without any one of them it does not, as far
    as the tries last. A fact that no input restores has none: another engine moved it. Where only
    one input moved, it is the cause of all, and nothing is knitted.
    """
    changed = tuple(found)
    if not inputs or not changed:
        return {}
    if len(inputs) == 1:
        return {one.key: inputs for one in changed}
    trial = _Trial(before, after, knit)
    felt = set(_felt(trial, tuple(sorted(inputs, key=_is_of_head))))
    made = {}
    for one in changed:
        taken = _causes_of(trial, one, inputs, felt)
        made[one.key] = tuple(each for each in inputs if each in taken)
    return made


@dataclass
class _Trial:
    """The sides that were knitted with some inputs set back."""

    before: ComparedSide
    after: ComparedSide
    knit: KnitAgain
    made: dict[frozenset[Input], ComparedSide] = field(default_factory=dict)

    @property
    def is_over(self) -> bool:
        return len(self.made) >= _TRIES

    def side(self, inputs: Iterable[Input]) -> ComparedSide:
        """The side with these inputs set back."""
        key = frozenset(inputs)
        if not key:
            return self.after
        if key not in self.made:
            self.made[key] = self.knit(key)
        return self.made[key]

    def restores(self, one: FactDifference, inputs: Iterable[Input]) -> bool:
        """True where a fact is as it was once these inputs are set back."""
        return self.values(self.side(inputs), one) == self.values(self.before, one)

    def moves(self, one: FactDifference, cause: Input) -> bool:
        """True where a fact is another one when this input alone is set back."""
        return self.values(self.side((cause,)), one) != self.values(self.after, one)

    def values(self, side: ComparedSide, one: FactDifference) -> object:
        """The value of a fact; of a whole size, piece or band, the names of its facts."""
        if not one.is_whole:
            return value_of(side, one.key)
        return frozenset(key for key in side.facts if key.size == one.key.size
                         and one.key.place in ("", key.place))


def _is_of_head(one: Input) -> bool:
    """True for a value that is raised with nearly every change, and seldom steers anything."""
    return one.path[:1] in _OF_HEAD


def _felt(trial: _Trial, inputs: tuple[Input, ...]) -> tuple[Input, ...]:
    """The inputs of which anything is felt, found by halves: most that moved steer nothing.

    Where a half restores all that the inputs restore together, the other half is not looked at.
    """
    if trial.is_over:
        return inputs
    made = _values(trial.side(inputs))
    if made == _values(trial.after):
        return ()
    if len(inputs) == 1:
        return inputs
    first = sum(not _is_of_head(each) for each in inputs) % len(inputs) or len(inputs) // 2
    found = _felt(trial, inputs[:first])
    if found and not trial.is_over and _values(trial.side(inputs[:first])) == made:
        return found
    return (*found, *_felt(trial, inputs[first:]))


def _values(side: ComparedSide) -> dict[FactKey, object]:
    return {key: fact.value for key, fact in side.facts.items()}


def _causes_of(trial: _Trial, one: FactDifference, inputs: tuple[Input, ...], felt: set[Input]
               ) -> set[Input]:
    """A smallest set of inputs that restores a fact, one that is felt alone before several."""
    alone = [each for each in inputs if each in felt
             and (not trial.is_over or frozenset((each,)) in trial.made)
             and trial.moves(one, each)]
    for each in alone:
        if trial.restores(one, (each,)):
            return {each}
    for several in (alone, [each for each in inputs if each in felt], list(inputs)):
        if several and trial.restores(one, several):
            return _least(trial, one, several)
    return set()


def _least(trial: _Trial, one: FactDifference, inputs: list[Input]) -> set[Input]:
    """The inputs without those that it takes none of to restore a fact."""
    taken = set(inputs)
    for each in inputs:
        fewer = taken - {each}
        if fewer and not trial.is_over and trial.restores(one, fewer):
            taken = fewer
    return taken

"""Which sizes of a garment come out the same, for want of a measure that is given by size."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..core.problems import Problem, Severity, note
from ..pattern.places import Places
from .assembled import Assembled


def sizes_alike(places: Places, assembled: Sequence[Assembled]) -> list[Problem]:
    """Return a warning where neighbouring sizes have all measures and counts the same."""
    alike = [(one.garment.size, other.garment.size) for one, other in pairwise(assembled)
             if _of(one) == _of(other)]
    if not alike:
        return []
    (first, second), name = alike[0], next(iter(assembled[0].measures), "a measure")
    return [note(Severity.WARNING, "sizes-alike", places.of("sizes"),
                 found=f"the same measures in the sizes {first} and {second}, so that all pieces "
                       "are alike", expected="sizes that differ",
                 remedy=f"Write a measure by size, such as {name}, or leave one of the two out.")]


def _of(one: Assembled) -> tuple[object, ...]:
    return ({name: (each.value, each.is_length) for name, each in one.measures.items()},
            [count.value for _, _, count in one.garment.counts])

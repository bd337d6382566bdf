"""What is worked out of one thing, kept for as long as it is likely to be asked for again."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import Any, TypeVar

One = TypeVar("One")
T = TypeVar("T")


class Itself:
    """A thing that is like no other, however alike: to compare two plans or expressions takes as
    long as to work out what is kept of them."""

    __slots__ = ("one",)

    def __init__(self, one: Any) -> None:
        self.one = one

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Itself) and self.one is other.one

    def __hash__(self) -> int:
        return id(self.one)


def kept_of(most: int) -> Callable[[Callable[[One], T]], Callable[[One], T]]:
    """Keep what a function returns for each of the last things it was called with, at most so many.

    For functions of what never changes. A thing stays in memory while something is kept of it.
    """
    def keeping(make: Callable[[One], T]) -> Callable[[One], T]:
        kept = lru_cache(maxsize=most)(lambda itself: make(itself.one))

        @wraps(make)
        def looked_up(one: One) -> T:
            return kept(Itself(one))
        return looked_up
    return keeping

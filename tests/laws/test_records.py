"""Classes of fields are as the standard library makes them, whatever is asked for."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from itertools import product
from typing import Any

import pytest
from walebook.machine import records

ASKED = ("frozen", "slots", "kw_only", "unsafe_hash")
WAYS = [dict(zip(ASKED, each, strict=True)) for each in product((False, True), repeat=len(ASKED))]


def many(make: Callable[..., Any], asked: dict[str, bool]) -> type:
    @make(**asked)
    class Many:
        one: int
        other: str = "b"
        aside: int = dataclasses.field(default=0, compare=False)
        unseen: int = dataclasses.field(default=0, repr=False)
        listed: tuple[int, ...] = dataclasses.field(default_factory=tuple)
        doubled: int = dataclasses.field(init=False)

        def __post_init__(self) -> None:
            object.__setattr__(self, "doubled", 2 * self.one)
    return Many


def single(make: Callable[..., Any], asked: dict[str, bool]) -> type:
    @make(**asked)
    class Single:
        one: int
    return Single


def bare(make: Callable[..., Any], asked: dict[str, bool]) -> type:
    @make(**asked)
    class Bare:
        """No fields."""
    return Bare


def by_hand(make: Callable[..., Any], asked: dict[str, bool]) -> type:
    @make(**asked)
    class ByHand:
        one: int

        def __eq__(self, other: object) -> bool:
            return isinstance(other, ByHand) and self.one % 10 == other.one % 10

        def __hash__(self) -> int:
            return self.one % 10

        def __repr__(self) -> str:
            return "by hand"
    return ByHand


def compared_by_hand(make: Callable[..., Any], asked: dict[str, bool]) -> type:
    @make(**asked)
    class ComparedByHand:  # noqa: PLW1641
        one: int

        def __eq__(self, other: object) -> bool:
            return isinstance(other, ComparedByHand)
    return ComparedByHand


KINDS: dict[Callable[..., type], list[dict[str, Any]]] = {
    many: [{"one": 1}, {"one": 1, "aside": 5}, {"one": 1, "unseen": 5}, {"one": 2},
           {"one": 1, "listed": (3,)}, {"one": 1, "other": "c"}],
    single: [{"one": 1}, {"one": 1}, {"one": 2}],
    bare: [{}, {}],
    by_hand: [{"one": 1}, {"one": 11}, {"one": 2}],
    compared_by_hand: [{"one": 1}, {"one": 2}],
}


def hash_of(one: object) -> int | None:
    """The hash of a thing; None of one that has none."""
    try:
        return hash(one)
    except TypeError:
        return None


def seen(made: type, given: list[dict[str, Any]]) -> list[object]:
    """What can be seen of a class and of objects of it."""
    objects = [made(**each) for each in given]
    return [[one == other for one in objects for other in (*objects, object(), None)],
            [one.__eq__(7) for one in objects], [hash_of(one) for one in objects],
            [repr(one) for one in objects],
            [field.name for field in dataclasses.fields(made)],
            [hasattr(one, "__dict__") for one in objects]]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
@pytest.mark.parametrize("asked", WAYS, ids=lambda asked: "-".join(
    name for name, on in asked.items() if on) or "plain")
def test_a_class_is_as_the_library_makes_it(kind, asked):
    if asked["unsafe_hash"] and kind is by_hand:
        with pytest.raises(TypeError):  # the library refuses to replace a hash: none of ours asks
            kind(dataclasses.dataclass, asked)
        return
    ours, theirs = (kind(make, asked) for make in (records.dataclass, dataclasses.dataclass))
    assert seen(ours, KINDS[kind]) == seen(theirs, KINDS[kind])


@pytest.mark.parametrize("slots", (False, True))
def test_a_frozen_object_is_not_changed(slots):
    one = single(records.dataclass, {"frozen": True, "slots": slots})(one=1)
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.one = 2
    with pytest.raises(dataclasses.FrozenInstanceError):
        del one.one
    assert dataclasses.replace(one, one=2).one == 2


def test_objects_of_two_classes_are_never_equal():
    first, second = (single(records.dataclass, {"frozen": True})(one=1) for _ in range(2))
    assert first != second and first == dataclasses.replace(first)


def test_what_is_rarely_asked_for_is_made_by_the_library():
    ordered = single(records.dataclass, {"order": True})
    assert ordered(one=1) < ordered(one=2)
    alike = single(records.dataclass, {"eq": False})
    assert alike(one=1) != alike(one=1)

"""Makes a class of fields, as the standard library's `dataclass` does, with less to load.

The library writes up to six methods for each class and compiles each of them by itself: for the 330
classes that a check loads, that took more than a quarter of it. How one object is compared, hashed
and shown is the same for all classes, and is here.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any

_USUAL = frozenset({"frozen", "slots", "kw_only", "unsafe_hash"})

if TYPE_CHECKING:
    from dataclasses import dataclass
else:
    def dataclass(cls=None, /, **options):
        """Return the class with what its fields ask for; what is rarely asked for the library
        makes."""
        make = _made if options.keys() <= _USUAL else dataclasses.dataclass
        return make(cls, **options) if cls else lambda cls: make(cls, **options)

__all__ = ["dataclass"]


def _made(cls: type, *, unsafe_hash: bool = False, **options: Any) -> type:
    """The class, whose constructor and whose refusal of changes the library writes."""
    made: type = dataclasses.dataclass(repr=False, eq=False, **options)(cls)
    fields = dataclasses.fields(made)
    values = _values([one.name for one in fields if one.compare])

    def equal(self: Any, other: object) -> Any:
        if other.__class__ is not self.__class__:
            return NotImplemented
        return values(self) == values(other)

    def hashed(self: Any) -> int:
        return hash(values(self))

    def shown(self: Any) -> str:
        parts = (f"{one.name}={getattr(self, one.name)!r}" for one in fields if one.repr)
        return f"{type(self).__qualname__}({', '.join(parts)})"

    own = vars(cls)
    methods: dict[str, Any] = {"__repr__": shown, "__eq__": equal}
    if own.get("__hash__") is None:  # a class that says how it is compared has None there
        methods["__hash__"] = hashed if unsafe_hash or options.get("frozen") else None
    for name, method in methods.items():
        if name == "__hash__" or name not in own:
            setattr(made, name, method)
    return made


def _values(names: list[str]) -> Callable[[Any], tuple[object, ...]]:
    """What gives the values that an object is compared and hashed by."""
    if len(names) == 1:
        value = attrgetter(names[0])
        return lambda one: (value(one),)
    return attrgetter(*names) if names else lambda one: ()

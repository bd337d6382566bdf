"""What a declaration of a key says, and the tables that declarations stand in.

A table is a class for one mapping of a source; its attributes are the keys:

    class Package(Keys, example="{mass: 100 g, length: 120 m}"):
        mass = Key(mass("mass of a package"), "Above nothing.", "100 g")

From a table come the reader with its messages (`source.fields`), the page about pattern sources
(`pages.source_page`) and what the tests draw at random (`tests/laws/from_keys.py`).
"""

from __future__ import annotations

from typing import Any, ClassVar, Generic, TypeVar

from ...machine.records import dataclass
from ..source import Listing, Table
from ..values import Entry, Reader, Text, listing_like, table_like

T = TypeVar("T")

_MISSING: Any = object()
WORDS = Text(120)


@dataclass(frozen=True, slots=True)
class Key(Generic[T]):
    """One key: how its value is `read`, what it means, and a value that passes.

    In `meaning`, which is Markdown, {range} stands for the limits of a figure and {words} for the
    words to choose from. `left_out` is what is taken without the key: None for a key that is
    needed, "" where `meaning` says it. One of this key and those in `or_else` is needed. `default`
    is the value of a key that is left out. `inside` is the mapping that may stand in place of a
    single value. `likely` are more values that pass; `beside` are entries that must stand around
    the key, `idle_beside` keys beside which it does nothing, `instead_of` keys beside which it is
    refused, and `needs` keys that it needs beside it. `former` are names that it had before
    (`source.renamed`). Entries under a `shared` key may come from the file that a collection's
    patterns share (`source.shared`). `since` is the version of Walebook that first read it, "" for
    the first one.
    """

    read: Reader[T]
    meaning: str
    example: str
    left_out: str | None = None
    default: T = _MISSING
    or_else: tuple[str, ...] = ()
    by_size: bool = False
    inside: type[Keys] | None = None
    likely: tuple[str, ...] = ()
    beside: str = ""
    idle_beside: tuple[str, ...] = ()
    instead_of: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    former: tuple[str, ...] = ()
    shared: str = ""
    since: str = ""
    name: str = ""

    def __set_name__(self, owner: type, name: str) -> None:
        """Take the name of the attribute; one that Python keeps for itself has a _ behind it."""
        object.__setattr__(self, "name", name.removesuffix("_"))

    @property
    def needed(self) -> bool:
        """True where the mapping must have this key, whatever else it has."""
        return self.left_out is None and not self.or_else

    @property
    def fallback(self) -> T:
        """The value of the key where it is left out. Raises TypeError where it has none."""
        if self.default is _MISSING:
            raise TypeError(f"{self.name} has no default")
        return self.default

    @property
    def line(self) -> str:
        """A line with the key, as a message proposes it: "dial: 6"."""
        return f"{self.name}: {self.example}"

    @property
    def table(self) -> type[Keys] | None:
        """The table of the mapping, or of each mapping, that stands under the key."""
        return self.inside or (self.read.keys if isinstance(self.read, Mapped | Several) else None)


class Keys:
    """A table of the keys of one mapping, in the order in which the page explains them."""

    keys: ClassVar[dict[str, Key[Any]]] = {}
    example: ClassVar[str] = ""

    def __init_subclass__(cls, example: str) -> None:
        """Gather the keys; `example` is a whole mapping that passes, as a message proposes it."""
        own = {key.name: key for key in vars(cls).values() if isinstance(key, Key)}
        cls.keys, cls.example = {**cls.keys, **own}, example


@dataclass(frozen=True, slots=True)
class Mapped:
    """A reader of a mapping that has these keys."""

    keys: type[Keys]

    def __call__(self, entry: Entry) -> Table:
        """The mapping. Raises Fault where it is none."""
        return table_like(entry.label, self.keys.example)(entry)


@dataclass(frozen=True, slots=True)
class Several:
    """A reader of at most `most` values: `what` they are, as a message calls them.

    Each is read by `item`, or is a mapping with `keys`; `by_name` where the designer names each,
    else they are a list, of `least` at least.
    """

    what: str
    most: int
    item: Reader[Any] = WORDS
    keys: type[Keys] | None = None
    by_name: bool = False
    least: int = 1

    def __call__(self, entry: Entry) -> Listing | Table:
        """The values. Raises Fault where there are none."""
        return (table_like if self.by_name else listing_like)(self.what, "")(entry)


@dataclass(frozen=True, slots=True)
class Name:
    """A reader of the name of a `what`: a yarn, a fabric, an edge. What it names is looked up."""

    what: str

    def __call__(self, entry: Entry) -> str:
        """The name. Raises Fault where there is none."""
        return Text(120, f"the name of a {self.what}", "Write one that the pattern has.")(entry)

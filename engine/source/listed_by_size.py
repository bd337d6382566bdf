"""What is said of values by size that stand in a list, `[54 cm, 55 cm]` for `{S: 54 cm, ...}`."""

from __future__ import annotations

from typing import TypeVar

from .source import Listing, Scalar
from .values import Entry, Fault, Reader

T = TypeVar("T")


def or_by_size(reader: Reader[T], sizes: tuple[str, ...]) -> Reader[T]:
    """That reader, which says of a list with a value for each size how these are written."""
    def read(entry: Entry) -> T:
        try:
            return reader(entry)
        except Fault:
            items = entry.node.items if isinstance(entry.node, Listing) else ()
            plain = [f"{size}: {item.text}" for size, item in zip(sizes, items, strict=False)
                     if isinstance(item, Scalar)]
            if len(sizes) > 1 and len(plain) == len(items) == len(sizes):
                raise Fault("wrong-shape", entry.place, "a list",
                            "one value for all sizes, or one for each",
                            f"Write {{{', '.join(plain)}}}.") from None
            raise
    return read

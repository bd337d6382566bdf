"""What a designer says of her whole collection."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CollectionSettings:
    """The name of a collection, its designer, and a few sentences of hers; "" where not given."""

    title: str = ""
    designer: str = ""
    about: str = ""

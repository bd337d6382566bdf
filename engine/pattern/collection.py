"""What a designer says of her whole collection."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CollectionSettings:
    """The name of a collection, its designer, and a few sentences of hers; "" where not given.

    `inches_first` says which unit stands first on its pages, `language` how HTML names theirs.
    """

    title: str = ""
    designer: str = ""
    about: str = ""
    inches_first: bool = False
    language: str = "en"

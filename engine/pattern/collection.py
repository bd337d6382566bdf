"""What a designer says of her whole collection."""

from __future__ import annotations

from dataclasses import dataclass

CM_FIRST, INCHES_FIRST, CM_ONLY = "cm first", "inches first", "cm only"


@dataclass(frozen=True, slots=True, kw_only=True)
class CollectionSettings:
    """The name of a collection, its designer, and a few sentences of hers; "" where not given.

    `contact` is the address of a link to her, `units` says which units its pages show, `language`
    how HTML names theirs.
    """

    title: str = ""
    designer: str = ""
    about: str = ""
    contact: str = ""
    units: str = CM_FIRST
    language: str = "en"

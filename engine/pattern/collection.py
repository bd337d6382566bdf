"""What a designer says of her whole collection."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..machine.records import dataclass
from .former_patterns import FormerPattern

CM_FIRST, INCHES_FIRST, CM_ONLY = "cm first", "inches first", "cm only"


@dataclass(frozen=True, slots=True, kw_only=True)
class CollectionSettings:
    """The name of a collection, its designer, and a few sentences of hers; "" where not given.

    `licence` is that of the patterns without one, `contact` the address of a link to her, `units`
    says which units its pages show, `language` how HTML names theirs. `former` has the values of
    its former patterns, each in a row, `engine` is the number of the rules by which its sources are
    counted.
    """

    title: str = ""
    designer: str = ""
    licence: str = ""
    about: str = ""
    contact: str = ""
    engine: int = 1
    former: Sequence[Sequence[Any]] = ()
    units: str = CM_FIRST
    language: str = "en"

    @property
    def for_patterns(self) -> Mapping[str, str]:
        """What holds for a pattern that does not say it in its source, by its key there."""
        return {"licence": self.licence} if self.licence else {}

    @property
    def former_patterns(self) -> tuple[FormerPattern, ...]:
        """The patterns that were renamed or withdrawn."""
        return tuple(FormerPattern(*row) for row in self.former)

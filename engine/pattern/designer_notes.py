"""Notes that a designer puts at a place of the instructions: where, in which sizes, which words."""

from __future__ import annotations

from ..machine.records import dataclass

MAKING_UP = "making up"
"""Where a note stands that is on the making up, as a piece or a band is named by its key."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DesignerNote:
    """A note in the designer's words.

    `at` is the key of a piece or band, or `MAKING_UP`; "" is the whole page of a size. There it
    stands at a `section` of the steps (of the making up, at a task), at the step that knits the
    `row`, or else at the whole part: before it, or `after` it. It is shown in `sizes`, in all where
    none are named.
    """

    detail: str
    at: str = ""
    section: str = ""
    row: int = 0
    after: bool = False
    sizes: tuple[str, ...] = ()

    def is_of(self, size: str, at: str) -> bool:
        """True where a page of that size shows it at that piece or band."""
        return self.at == at and (not self.sizes or size in self.sizes)

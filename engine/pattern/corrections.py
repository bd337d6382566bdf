"""What was put right in a pattern after it was published."""

from __future__ import annotations

from typing import NamedTuple

from ..machine.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """What was put right: on which day, in which version, in which sizes, and where.

    `version` is "" where the source does not say; without `sizes` all are concerned. `at` is the
    key of the piece or band that it concerns, "" for the whole size, and `step` the number of the
    step there, 0 for all of its steps.
    """

    date: str
    text: str
    version: str = ""
    sizes: tuple[str, ...] = ()
    at: str = ""
    step: int = 0

    def concerns(self, size: str) -> bool:
        """True where a page of this size was put right."""
        return not self.sizes or size in self.sizes


class WithdrawnSize(NamedTuple):
    """A size that was published and is no more: its label, since which day, and the designer's
    sentence, "" without one."""

    label: str
    date: str
    why: str = ""

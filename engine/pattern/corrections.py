"""What was put right in a pattern after it was published."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """What was put right: on which day, in which version, and in which sizes.

    `version` is "" where the source does not say; without `sizes` all are concerned.
    """

    date: str
    text: str
    version: str = ""
    sizes: tuple[str, ...] = ()

    def concerns(self, size: str) -> bool:
        """True where a page of this size was put right."""
        return not self.sizes or size in self.sizes

"""A picture that stands beside a pattern's source."""

from __future__ import annotations

from ..machine.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture beside the source: its file name in the pattern's folder, its text for whoever does
    not see it, the `caption` below it, and its width and height [pixels] where they are known."""

    file: str
    alt: str
    caption: str = ""
    size: tuple[int, int] | None = None

"""Rows of a body's sides at which it has a width."""

from __future__ import annotations

from ..core.counted import Count
from ..core.expression import Expression
from ..core.text_kinds import LevelKey
from ..machine.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A row of the sides where a width is reached: its name, `stitches` of the back, the rows `up`.
    """

    name: LevelKey
    stitches: Count
    up: Expression

    @property
    def row(self) -> int:
        """The row as a number."""
        return int(self.up.value)

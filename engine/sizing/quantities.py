"""Exact lengths and numbers, each with the expression that computes it."""

from __future__ import annotations

from fractions import Fraction

from ..core.expression import Expression, Operand, Product
from ..core.operands import Role
from ..core.problems import Place
from ..core.units import Length
from ..machine.records import dataclass
from ..words.terms.spelled import plainly
from .measure_text import shown, source_of, written

COUNTED = [[Role.STITCHES, Role.STITCH_WIDTH], [Role.ROWS, Role.ROW_HEIGHT]]


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact length [mm], or a plain number: what the expression `made` comes to.

    `name` is what a sum calls it, "" for what is given; `place` where the designer's pattern has
    it.
    """

    made: Expression
    is_length: bool
    name: str = ""
    place: Place | None = None

    @property
    def value(self) -> Fraction:
        """The exact value [mm or plain]."""
        return self.made.value

    @property
    def is_count(self) -> bool:
        """True where it is written as a count of stitches or rows and nothing else."""
        parts = self.made.parts if isinstance(self.made, Product) else ()
        return [part.role for part in parts if isinstance(part, Operand)] in COUNTED

    @property
    def source(self) -> str:
        """Where a given quantity was read; "" for one that is worked out."""
        return source_of(self.made)

    @property
    def working(self) -> str:
        """The sum that computes it; for what is given, the figure and its source."""
        if not self.name:
            return f"{self} [{self.source}]" if self.source else str(self)
        return f"{plainly(self.name)} = {self.sum}"

    @property
    def sum(self) -> str:
        """The sum that computes it, without its own name; a figure is said once."""
        return " = ".join(dict.fromkeys((written(self.made), str(self))))

    @property
    def length(self) -> Length:
        """The quantity as a length. Raises TypeError for a plain number."""
        if not self.is_length:
            raise TypeError(f"{self.working} is a number, not a length")
        return Length(self.value)

    def __str__(self) -> str:
        return shown(self.value, self.is_length)


def plain_name(name: str) -> str:
    """Return the name of a measure or a row as sums write it: with `_` for spaces and hyphens."""
    return name.replace(" ", "_").replace("-", "_")

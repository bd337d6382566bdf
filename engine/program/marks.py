"""What a program puts in that must come out again, and loops that a row leaves to be turned."""

from __future__ import annotations

from ..machine.edge_steps import DrawCord
from ..machine.needles import Needles, of
from ..machine.steps import Side
from .ledger import Ledger


def are_in(book: Ledger, ravel: str) -> bool:
    """True where pins, threads or clips were put in, or a cord below the first row `ravel`."""
    steps = (step for section in book.sections for step in section.steps)
    return any(step.marks or (isinstance(step, DrawCord) and step.edge == ravel)
               for step in steps)


def second_needles(pairs: Needles, carriage: Side) -> Needles:
    """The second needle of every pair in the direction of the last row: that nearer to the
    carriage."""
    return of(*(a if carriage is Side.LEFT else b for a, b in pairs.spans()))

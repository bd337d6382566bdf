"""Vertical darts in a body, as a designer asks for them."""

from __future__ import annotations

from fractions import Fraction

from ..core.units import Length
from ..machine.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Darts:
    """A pair of vertical darts in back and fronts: how far in they lie, and what they take.

    `inset` reaches from the side edge to the dart's middle stitch at the lower edge; None: a
    quarter of the width there. `share` is the part of what goes or comes between two widths that
    the darts take, in pairs of stitches; the sides take the rest.
    """

    inset: Length | None = None
    share: Fraction = Fraction(1)

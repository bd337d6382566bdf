"""How a form is built: what the module of each construction returns of itself."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field

from ..machine.records import dataclass
from ..shape.garment import Cut, Garment
from ..shape.roundings import Roundable


@dataclass(frozen=True, slots=True)
class Builder:
    """What builds a garment in one size, and the counts that a designer can have rounded."""

    build: Callable[[Cut], Garment]
    rounds: Roundable = field(default_factory=dict)

"""What the virtual bed remembers of a second bed that faces it."""

from __future__ import annotations

from dataclasses import field

from ..machine.needles import NONE, Needles
from ..machine.records import dataclass
from ..machine.set_up_steps import Carriage
from ..machine.steps import Dial


@dataclass(slots=True)
class Second:
    """The second bed: whether it faces the main bed, its rack [half pitches] and its needles.

    `loops` are the loops on its needles, by what they are of; no needle holds two. `arm` joins
    its carriage to the main bed's; how that is set, and its dial, nobody knows before a step.
    """

    up: bool = False
    rack: int = 0
    arm: bool = False
    carriage: Carriage | None = None
    dial: Dial | None = None
    working: Needles = NONE
    loops: dict[str, Needles] = field(default_factory=dict)

    @property
    def loaded(self) -> Needles:
        """Its needles that hold a loop."""
        mask = 0
        for on in self.loops.values():
            mask |= on.mask
        return Needles(mask)

    def facing(self, needles: Needles) -> Needles:
        """The main bed's needles that these face; at half pitch none do."""
        return NONE if self.rack % 2 else needles.shifted(self.rack // 2)

    def faced_by(self, needles: Needles) -> Needles:
        """Its needles that face these of the main bed; at half pitch none do."""
        return NONE if self.rack % 2 else needles.shifted(-(self.rack // 2))

    def lay(self, loop: str, needles: Needles) -> None:
        """Put a loop called `loop` on each of these bare needles."""
        self.loops[loop] = self.loops.get(loop, NONE) | needles

    def lift(self, needles: Needles) -> list[tuple[str, Needles]]:
        """Take the loops off `needles` and return them."""
        lifted = [(loop, on & needles) for loop, on in self.loops.items() if on & needles]
        self.loops = {loop: on - needles for loop, on in self.loops.items() if on - needles}
        return lifted

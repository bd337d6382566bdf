"""How the armholes, caps, necks and shoulders of a garment are shaped, as a designer asks.

Source: TECHknitter, "Sweater shoulders: transform stair steps to short rows" (S02).
"""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from fractions import Fraction

from ..core.problems import Place
from ..machine.records import dataclass
from .darts import Darts
from .short_rows import BustDarts, ShirtTail


class ArmholeCurve(Enum):
    """How the stitches of an armhole go."""

    THIRD = "third at once"
    QUARTER = "quarter at once"
    THIRDS = "by thirds"


class CapCurve(Enum):
    """How a sleeve's cap is shaped above the armhole's bind-offs."""

    SLOPE = "slope"
    AS_ARMHOLE = "as the armhole"
    BELL = "bell"


class NeckCurve(Enum):
    """What the sides of a round neck follow."""

    STEPS = "falling steps"
    ELLIPSE = "ellipse"


class NeckSides(Enum):
    """What becomes of the stitches at either side of a neck's centre."""

    BOUND_OFF = "bound off"
    HELD = "held"


class Larger(Enum):
    """Where the stitches of a shoulder go that do not divide by its steps: writers differ."""

    NECK = "neck"  # the last steps have one more: 5, 5, 6 (S02)
    ARMHOLE = "armhole"  # the first steps have one more
    LAST_STEP = "last step"  # equal steps, the last takes what is left


@dataclass(frozen=True, slots=True, kw_only=True)
class ArmholeSpec:
    """The curve of an armhole, and what is bound off before its slope.

    `bind_off` are the bind-offs of one side from the first, every 2nd row, or a share of what goes
    there; None: the curve's own.
    """

    curve: ArmholeCurve = ArmholeCurve.THIRD
    bind_off: tuple[int, ...] | Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CapSpec:
    """The curve of a cap, and `top_bind_offs` at each side, every 2nd row, before its flat top.

    `every_row` is how many decreases of a bell are made on every row: first, and last.
    """

    curve: CapCurve = CapCurve.SLOPE
    top_bind_offs: tuple[int, ...] = ()
    every_row: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NeckSpec:
    """A round neck: its `curve`, the stitches at its `centre`, and the `steps` of one side.

    None and no steps: as many as its width and its rows give. The steps are made every 2nd row, and
    are bound off or held, as `sides` says.
    `centre_place` and `steps_place` are where the source has them.
    """

    curve: NeckCurve = NeckCurve.STEPS
    centre: int | None = None
    steps: tuple[int, ...] = ()
    sides: NeckSides = NeckSides.BOUND_OFF
    centre_place: Place | None = field(default=None, compare=False)
    steps_place: Place | None = field(default=None, compare=False)

    @property
    def held(self) -> bool:
        """True where all its stitches stay on their needles, in hold."""
        return self.sides is NeckSides.HELD


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoulderSpec:
    """The `steps` of a held shoulder from the armhole, what they leave being the last one; without
    steps, where the stitches go that do not divide (`remainder`)."""

    steps: tuple[int, ...] = ()
    remainder: Larger = Larger.NECK


@dataclass(frozen=True, slots=True, kw_only=True)
class Conventions:
    """All that a designer asks of the shaping of a garment, in one size.

    `darts` take in a body inside its sides, `bust` makes its front longer, `tail` its
    middle at the lower edge; None without any.
    """

    armhole: ArmholeSpec = ArmholeSpec()
    cap: CapSpec = CapSpec()
    front_neck: NeckSpec = NeckSpec()
    back_neck: NeckSpec = NeckSpec()
    shoulders: ShoulderSpec = ShoulderSpec()
    darts: Darts | None = None
    bust: BustDarts | None = None
    tail: ShirtTail | None = None

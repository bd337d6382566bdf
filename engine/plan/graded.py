"""A dial graded over the rows of a layer: equal stretches, each a step tighter or looser.

Source: Dorcas Pilfold, "Perfect machine-knit neckband" (D05).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from ..core.expression import Expression, Operand
from ..core.operands import Role
from ..core.spread import shares
from ..fabric.gauge import measure
from ..machine.records import dataclass
from ..machine.steps import Dial
from ..pattern.fabrics import Fabric

WHOLE = 3  # thirds from one number of the dial to the next


def grade_dial(rows: int, start: Dial, end: Dial) -> tuple[tuple[int, Dial], ...]:
    """Return stretches (rows [rows], dial) from `start` to `end`, as equal as can be.

    The published neckband goes down after every 4 of its 12 rows (D05): three stretches a
    number apart. Where the two settings are not whole numbers apart, or are less than two, the
    steps are thirds of a number. Raises ValueError where there are more steps than rows.
    """
    apart = abs(end.thirds - start.thirds)
    step = WHOLE if apart >= 2 * WHOLE and apart % WHOLE == 0 else 1
    stretches = apart // step + 1
    if not 0 < stretches <= rows:
        raise ValueError(f"{stretches} settings from {start} to {end} in {rows} rows")
    by = step if end > start else -step
    return tuple((share, Dial(start.thirds + k * by))
                 for k, share in enumerate(shares(rows, stretches)))


def row_dials(dials: Sequence[Dial], rows: int) -> tuple[Dial, ...]:
    """Return the dial of each of a layer's `rows`, from the garment's edge to the fold [rows].

    The settings follow one another in groups of rows as equal as they can be: 12 rows at three
    settings are 4, 4 and 4 (D05). Raises ValueError for more settings than rows.
    """
    if not 1 <= len(dials) <= rows:
        raise ValueError(f"{len(dials)} settings for {rows} rows")
    return tuple(dial for dial, share in zip(dials, shares(rows, len(dials)), strict=True)
                 for _ in range(share))


@dataclass(frozen=True, slots=True, kw_only=True)
class OuterEdge:
    """An outer edge at another dial than that of its swatch: how long it is about [mm].

    `stitch` is the swatch's, `each` what a number of the dial is worth by the swatch of the
    `other` fabric [mm], `numbers` how many the dial is turned.
    """

    stitches: int
    stitch: Fraction
    numbers: Fraction
    each: Fraction
    other: Fabric

    @property
    def made(self) -> Expression:
        """About how long it is [mm], as it is computed."""
        more = self.numbers * self.each
        stitch = Operand(self.stitch, Role.STITCH_WIDTH)
        turned = Operand(abs(self.numbers), Role.NUMBERS_TURNED) \
            * Operand(abs(self.each), Role.A_NUMBER)
        return Operand(Fraction(self.stitches), Role.STITCHES) * (
            stitch - turned if more < 0 else stitch + turned)


def outer_edge(own: Fabric, fabrics: Iterable[Fabric], stitches: int, dial: Dial
               ) -> OuterEdge | None:
    """Return what `stitches` of a fabric come to at another `dial` than its swatch's.

    By the plain fabric in the same yarn whose dial is nearest, as if stitches widened evenly with
    the dial (common practice, no source); None without one.
    """
    plain = [f for f in fabrics if f.yarn == own.yarn and f.dial != own.dial and not f.chart
             and f.repeat is None and not f.contrast]
    if not plain or dial == own.dial:
        return None
    other = min(plain, key=lambda fabric: abs(fabric.dial.thirds - own.dial.thirds))
    stitch = measure(own.swatches).stitch
    apart = Fraction(other.dial.thirds - own.dial.thirds, WHOLE)
    return OuterEdge(stitches=stitches, stitch=stitch, other=other,
                     numbers=Fraction(dial.thirds - own.dial.thirds, WHOLE),
                     each=(measure(other.swatches).stitch - stitch) / apart)

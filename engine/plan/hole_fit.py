"""Whether a button fits its hole: the room beside the hole, and how far the hole stretches."""

from __future__ import annotations

from ..catalogue.bands import KINDS
from ..core.counted import Count
from ..core.counts import DOWN, UP, Unit, decimal, whole
from ..core.problems import Problem, Severity, error, note
from ..fabric.gauge import Gauge
from ..pattern.holes import ButtonholeKind, Buttonholes
from ..pattern.model import Band, BandRows
from ..pattern.places import Places
from .buttonholes import hole_stitches, reach
from .hole_sizes import slit_rows
from .lengthwise_counts import across_unit

# Two holes of one stitch are not counted as wide as they are: an eyelet counts with the stitch
# that it is moved onto. A slit follows from its button, a loop is chained to go over it.
OF_ONE = (ButtonholeKind.ONE_STITCH, ButtonholeKind.EYELET)
STITCHES_GIVEN = (ButtonholeKind.ENCLOSED, ButtonholeKind.BOUND_OFF)


def hole_passes(places: Places, band: Band, size: str, gauge: Gauge, hole: Count
                ) -> list[Problem]:
    """Return a warning where a button is larger than its hole stretches to (`buttonholes.reach`).

    The way out is a hole by the rule, or the largest button in whole [mm] that passes this one.
    """
    buttonholes = band.buttonholes
    if buttonholes is None or buttonholes.kind in (ButtonholeKind.SLIT, ButtonholeKind.LOOPS):
        return []
    n = 1 if buttonholes.kind in OF_ONE else hole.value
    far = reach(n, gauge.stitch)
    if buttonholes.button.mm <= far.mm:
        return []
    path = f"bands.{band.key}.buttonholes"
    key = "stitches" if buttonholes.kind in STITCHES_GIVEN else "closing"
    return [note(
        Severity.WARNING, "hole-too-small", places.of(f"{path}.{key}", size), size=size,
        found=f"holes of {Unit.STITCHES.of(n)}, {decimal(n * gauge.stitch, 1)} mm, for a button of "
              f"{buttonholes.button.in_mm()}",
        expected=f"a button of at most {decimal(far.mm, 1)} mm, to which such a hole stretches",
        remedy=f"Write {_longer(band, buttonholes, gauge)}, or choose a button of at most "
               f"{whole(far.mm, DOWN)} mm.")]


def _longer(band: Band, buttonholes: Buttonholes, gauge: Gauge) -> str:
    """What to write for a hole by the rule: its stitches, or the closing that takes as many."""
    if buttonholes.kind in STITCHES_GIVEN:
        return f"stitches: {hole_stitches(buttonholes.button, gauge.stitch).value}"
    return next(f"closing: {c.value}" for c in KINDS[band.kind].buttonhole_kinds
                if c in STITCHES_GIVEN)


def button_fits(places: Places, band: Band, size: str, gauge: Gauge, rows: BandRows
                ) -> list[Problem]:
    """Return what is found where a button has no room beside its hole.

    A button is carried where its radius fits between the holes and either edge of the band.
    Loops lie beyond it.
    """
    buttonholes = band.buttonholes
    if buttonholes is None or buttonholes.kind is ButtonholeKind.LOOPS:
        return []
    half, across = min(rows.to_holes, rows.holes_to_fold), across_unit(band)
    if buttonholes.kind is ButtonholeKind.SLIT and (
            found := _slit_fits(places, band, buttonholes, size, gauge, half)):
        return found
    if half * gauge.row >= buttonholes.button.mm / 2:
        return []
    need = whole(buttonholes.button.mm / 2 / gauge.row, UP)
    at = places.of(f"bands.{band.key}.buttonholes.button")
    return [error("button-too-large", at, size=size,
                  found=f"a button of {buttonholes.button.in_mm()} on a band with "
                        f"{across.of(half)} "
                        f"({decimal(half * gauge.row, 1)} mm) beside its holes",
                  expected=f"room for half the button, {decimal(buttonholes.button.mm / 2, 1)} mm",
                  remedy=f"Give each layer at least {across.of(2 * need)}, or choose a button of "
                         f"at most {decimal(2 * half * gauge.row, 1)} mm.")]


def beside_holes(places: Places, band: Band, size: str, rows: BandRows, hole: Count
                 ) -> list[Problem]:
    """Return an error where a hole across a band leaves no stitch beside it at either edge."""
    wide = rows.to_holes + rows.holes_to_fold
    if hole.value + 2 <= wide:
        return []
    return [error("button-too-large", places.of(f"bands.{band.key}.buttonholes"), size=size,
                  found=f"holes of {hole} across a band of {Unit.STITCHES.of(wide)}",
                  expected="a stitch at least on either side of a hole",
                  remedy=f"Give the band {hole.value + 2} stitches of depth, or choose a smaller "
                         "button.")]


def _slit_fits(places: Places, band: Band, buttonholes: Buttonholes, size: str, gauge: Gauge,
               half: int) -> list[Problem]:
    """A slit lies about the middle row, with a row at least beyond either end of it."""
    slit = slit_rows(buttonholes.button, gauge.row)
    if half > slit.value // 2:
        return []
    return [error("slit-too-long", places.of(f"bands.{band.key}.buttonholes.button"), size=size,
                  found=f"slits of {slit} on a band with {Unit.ROWS.of(half)} to its middle",
                  expected="a row at least before a slit and after it",
                  remedy=f"Give each layer at least {slit.value + 2} rows, or choose a smaller "
                         "button.")]

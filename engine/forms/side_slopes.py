"""The sides of a body between two of its widths: spread evenly, or as the designer schedules them.

Source: Jimmy Simmons, "Decrease and increase formulas" (R01, R02).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Expression, Term, plain
from ..core.operands import Role
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from ..pattern.slope_specs import SIDES, Slope
from ..shape.even_gaps import EvenSlope, Finish
from ..shape.garment import CannotShape, Cut
from ..shape.profile import Change, How, in_order, shifted
from ..shape.slopes import (
    CannotFollow,
    SlopeRequest,
    Usual,
    even_slope,
    slope_counts,
    slope_request,
    slope_schedule,
)
from . import dart_places
from .stations import Station

OF_PLACE: FindingText = "Change one of the widths, or the heights between which they lie."
BETWEEN = Usual()  # the last event lies where a straight part or the next slope begins
# One row at least is knitted below what an underarm binds off.
BELOW_UNDERARM = Usual(gap_after=True, least_end=1)
WIDTHS = {Slope.SIDE_TO_HIP: ("hip_width",), Slope.SIDE_TO_WAIST: ("waist_width",),
          Slope.SIDE_TO_CHEST: ("hem_width", "hip_width", "waist_width")}


@dataclass(frozen=True, slots=True, kw_only=True)
class SideStretch:
    """A side from one width to the next: its `changes`, its `slopes` as calculations, and the
    `counts` of what the designer schedules, by name."""

    changes: tuple[Change, ...] = ()
    slopes: tuple[EvenSlope, ...] = ()
    counts: tuple[tuple[str, Count], ...] = ()


def side_stretches(cut: Cut, stations: Sequence[Station]) -> Iterator[SideStretch]:
    """Yield a side from each of its widths to the next one, a stitch at a time.

    Raises CannotShape for what has no rows for it, and CannotFollow for a schedule that does not
    fit, with the figures.
    """
    _check_widths(cut)
    for low, high in pairwise(stations):
        _check_heights(cut, low, high)
        yield _stretch(cut, low, high)


def _check_widths(cut: Cut) -> None:
    """Raise CannotFollow for a slope that ends at a width that is not there."""
    for slope in SIDES:
        wanted: FindingText = " or ".join(WIDTHS[slope])
        if slope in cut.slopes and not any(name in cut.measures for name in WIDTHS[slope]):
            raise CannotFollow(f"slopes.{slope.value}", f"{slope.value} without {wanted}",
                               f"{wanted} as well",
                               f"Give {WIDTHS[slope][0]} with its height, or delete "
                               f"{slope.value}." if slope is not Slope.SIDE_TO_CHEST else
                               f"Give hem_width, or delete {slope.value}.")


def _check_heights(cut: Cut, low: Station, high: Station) -> None:
    foot: FindingText = "the top of the hem" if cut.hem else "the cast-on"
    rows = high.row - low.row
    if rows < (high.name == "underarm"):
        raise CannotShape(f"the {high.name} at row {high.row}, below the {low.name} at row "
                          f"{low.row}" if low.row else
                          f"the {high.name} {Unit.ROWS.of(-rows)} below {foot}"
                          if rows else f"the {high.name} at {foot}",
                          f"Change the heights, so that the {high.name} lies higher.",
                          expected=f"the {high.name} above the {low.name}" if low.row else
                          f"the {high.name} above {foot}")


def _stretch(cut: Cut, low: Station, high: Station) -> SideStretch:
    going = (low.stitches.value - high.stitches.value) // 2
    slope, request = _scheduled(cut, low, high, going)
    if not going and request is None:
        return SideStretch()
    ends = Finish.PLAIN if high.name == "underarm" else Finish.EVENT
    how = How.DECREASE if going > 0 else How.INCREASE
    over = high.up - low.up if low.row else high.up
    events = _events(low, high)
    pairs = dart_places.pairs_of(cut, events)
    at_dart = int(pairs.value)
    rows, beside = int(over.value), abs(going) - dart_places.PAIR * at_dart
    if rows < max(beside, at_dart) + (ends is Finish.PLAIN):
        raise CannotShape(
            f"{Unit.STITCHES.of(abs(going))} to go or to come at each side in "
            f"{Unit.ROWS.of(rows)} between {low.name} and {high.name}", OF_PLACE)
    if at_dart:
        events = events - plain(dart_places.PAIR) * Term(pairs, Role.NUMBER)
    made = slope_schedule(request, events, over,
                          BELOW_UNDERARM if ends is Finish.PLAIN else BETWEEN)
    darts, dart_slopes = dart_places.taken(f"dart_to_{high.name}", pairs, how, (low, over, ends)) \
        if at_dart else ((), ())
    counts = slope_counts("back", f"{slope.value}_", request, made) if slope and going else ()
    return SideStretch(
        changes=shifted(in_order(darts, made.changes(how)), low.row),
        slopes=(*dart_slopes, *even_slope((f"side_to_{high.name}", how), low.up, made)),
        counts=tuple((name, count) for _, name, count in counts))


def _scheduled(cut: Cut, low: Station, high: Station, going: int
           ) -> tuple[Slope | None, SlopeRequest | None]:
    """The slope that leads from a width to the next one, and what the designer asks of it."""
    slopes = {"hip": Slope.SIDE_TO_HIP, "waist": Slope.SIDE_TO_WAIST,
              "chest": Slope.SIDE_TO_CHEST}
    if high.name == "underarm" and low.name != "chest":
        slopes["underarm"] = Slope.SIDE_TO_CHEST
    slope = slopes.get(high.name)
    request = slope_request(cut, slope) if slope else None
    if request and going:
        request = replace(request, change="decrease" if going > 0 else "increase")
    return slope, request


def _events(low: Station, high: Station) -> Expression:
    """How many stitches go or come at each side from a width to another."""
    more, less = sorted((low.stitches, high.stitches), key=lambda one: one.value, reverse=True)
    return (more.term(Role.STITCHES) - less.term(Role.STITCHES)) / plain(2)

"""The sides of a body up to its underarms: its widths at hem, hip and waist in whole numbers.

Source: Jimmy Simmons, "Decrease and increase formulas" (R01, R02).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from ..core.counted import Count
from ..core.counts import Rounding, Unit
from ..core.expression import NOTHING, Expression, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.text_kinds import CountKey, LevelKey
from ..fabric.gauge import rows_along
from ..machine.records import dataclass
from ..shape.even_gaps import EvenSlope
from ..shape.foot import Foot
from ..shape.garment import CannotShape, Cut
from ..shape.profile import Change
from ..shape.roundings import CountKind, Roundable, rule
from ..shape.side_levels import HIP, WAIST
from ..words.terms.part_names import part_name
from . import dart_places
from .body_counts import SEAM, rows_below, width_of
from .lengths import Lengths, chest, lengths
from .side_slopes import side_stretches
from .stations import Station

CHEST = "chest_width"
# The widths below the chest from the lowest, what each is called in the counts, and its height.
LEVELS = (("hem_width", "cast_on", ""), ("hip_width", "hip", "hip_height"),
          ("waist_width", "waist", "waist_height"))
ROUNDS: Roundable = {
    "back hip": CountKind.WIDTH, "back waist": CountKind.WIDTH, "back chest": CountKind.WIDTH,
    "back rows_to_hip": CountKind.SINGLE, "back rows_to_waist": CountKind.SINGLE,
    "back waist_rows": CountKind.SINGLE, "back rows_to_chest": CountKind.SINGLE}
DRAWN = (HIP, WAIST, "underarm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """The sides of a body: stitches cast on and at the `chest`, all `stations`, one side's changes.

    `slopes` are those between two stations, and of the darts beside them.
    `counts` are those of the back that a straight body has not, by name.
    """

    cast_on: Count
    chest: Count
    stations: tuple[Station, ...]
    changes: tuple[Change, ...]
    slopes: tuple[EvenSlope, ...]
    counts: tuple[tuple[str, Count], ...]

    @property
    def levels(self) -> tuple[tuple[str, int], ...]:
        """The rows of a shaped side by name, the underarm last; none of a straight one."""
        return tuple((s.name, s.row) for s in self.stations if s.name in DRAWN
                     ) if self.changes else ()

    @property
    def flare(self) -> int:
        """How many stitches more than at the chest each side begins with, less than 0 for fewer."""
        return (self.cast_on.value - self.chest.value) // 2

    @property
    def flare_made(self) -> Expression:
        """The same as an expression."""
        return (self.cast_on.term(Role.STITCHES, part_name(PartRole.CAST_ON))
                - self.chest.term(Role.STITCHES, part_name(PartRole.AT_CHEST))) / plain(2)


def _given(cut: Cut) -> list[str]:
    """The widths that are there, from the lowest up, the chest last."""
    return [*(name for name, _, _ in LEVELS if name in cut.measures), CHEST]


def widths(cut: Cut) -> dict[CountKey, Callable[[Rounding], Count]]:
    """Return how the widths of a back up to its underarm are counted, by the count's name.

    The lowest of them is cast on: where there is no hem_width, the hip's or the chest's; a waist
    is never cast on.
    """
    given = _given(cut)
    lowest = next(name for name in given if name != "waist_width")
    names: dict[str, CountKey] = {name: f"back {count}" for name, count, _ in LEVELS}
    names[CHEST] = "back chest"
    return {"back cast_on": width_of(cut, lowest, 2 * SEAM),
            **{names[name]: width_of(cut, name, 2 * SEAM) for name in given if name != lowest}}


def sides(cut: Cut, counted: Mapping[str, Count], up: Count, hem: Foot | None) -> Sides:
    """Return the sides by the widths `counted`, `up` to the underarm [rows].

    One stitch at a time at each side, spread over the rows between two widths, or as the designer
    schedules it; the last shaping below an underarm is followed by plain rows, a gap more than
    events (R01, R02), where chest_height does not end it. Darts take their share. Raises
    CannotShape, with the figures.
    """
    cast_on = counted["back cast_on"]
    chest_ = counted.get("back chest", cast_on)
    rows = tuple(_rows(cut, hem))
    at = {name: count.term(Role.ROWS) for name, count in rows}
    stations = [Station(name="lower edge", stitches=cast_on, up=NOTHING)]
    if "hip_width" in cut.measures:
        stations.append(Station(name="hip", stitches=counted.get("back hip", cast_on),
                                up=at["rows_to_hip"]))
    if waist := counted.get("back waist"):
        row = at["rows_to_waist"]
        stations += [Station(name="waist", stitches=waist, up=row),
                     Station(name="upper end of the waist", stitches=waist,
                             up=row + at["waist_rows"])]
    if "rows_to_chest" in at:
        stations.append(Station(name="chest", stitches=chest_, up=at["rows_to_chest"]))
    stations.append(Station(name="underarm", stitches=chest_, up=up.term(Role.ROWS)))
    inset = dart_places.inset_of(cut, cast_on)
    found = [("hip", counted.get("back hip")), ("waist", waist),
             ("chest", counted.get("back chest")), ("dart_inset", inset)]
    stretches = tuple(side_stretches(cut, stations))
    return Sides(cast_on=cast_on, chest=chest_, stations=tuple(stations),
                 changes=tuple(dart_places.placed(
                     (c for part in stretches for c in part.changes), inset)),
                 slopes=tuple(slope for part in stretches for slope in part.slopes),
                 counts=(*((name, count) for name, count in found if count), *rows,
                         *(count for part in stretches for count in part.counts)))


def _rows(cut: Cut, hem: Foot | None) -> Iterator[tuple[str, Count]]:
    """The rows above the cast-on or hem up to each height that is there, by the count's name."""
    heights = [("hip_height", "rows_to_hip", "hip_width"),
               ("waist_height", "rows_to_waist", "waist_width")]
    for height, name, width in heights:
        if width in cut.measures:
            if height not in cut.measures:
                raise CannotShape(f"{width} and no {height}", f"Give {height} as well.")
            yield name, _rows_to(cut, name, height, hem)
    if "waist_width" in cut.measures:
        yield "waist_rows", rows_along(
            cut.length("waist_straight"), cut.gauge, rule(cut, "back waist_rows", CountKind.SINGLE),
            cut.measure("waist_straight"))
    if "chest_height" in cut.measures and len(_given(cut)) > 1:
        yield "rows_to_chest", _rows_to(cut, "rows_to_chest", "chest_height", hem)


def _rows_to(cut: Cut, name: str, height: str, hem: Foot | None) -> Count:
    """The rows up to a height, which lies above the hem."""
    rows = rows_below(cut, f"back {name}", cut.measure(height), (), hem, CountKind.SINGLE)
    if 2 * rows.exact < -1:
        raise CannotShape(f"{height} {cut.length(height).in_cm()}, which lies within the hem",
                          f"Give {height} more than the hem's depth.")
    return rows


def stitches_at(own: Sides, piece: Count, level: Count) -> Count:
    """Return the stitches of half a front where the back has those of `level`."""
    if own.cast_on.value == level.value:
        return piece
    less = (own.cast_on.term(Role.STITCHES, part_name(PartRole.CAST_ON))
            - level.term(Role.STITCHES, part_name(PartRole.THERE))) / plain(2)
    return Count(piece.term(Role.STITCHES, part_name(PartRole.OF_A_FRONT)) - less, Unit.STITCHES)


def girths_of(cut: Cut, own: Sides, fronts: tuple[Count, ...]) -> Lengths:
    """Return the way round a body at its chest, and at its hem, hip and waist where it is shaped
    there; `fronts` are the stitches that its one front or two are cast on with."""
    def around(level: Count) -> Expression:
        if len(fronts) == 1:
            return chest(cut, level, (level,))
        return chest(cut, level, tuple(stitches_at(own, each, level) for each in fronts))
    levels = {s.name: s.stitches for s in own.stations} if own.changes else {}
    if "hip" in levels and levels["hip"].value == own.cast_on.value:
        del levels["lower edge"]
    called: Mapping[LevelKey, str] = {"waist": "waist", "hip": "hip", "lower edge": "hem"}
    shown = {word: around(levels[name]) for name, word in called.items() if name in levels}
    return lengths(chest=around(own.chest), **shown)

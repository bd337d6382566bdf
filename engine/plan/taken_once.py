"""Whether two bands of a garment would be hung on the same stretch of its edges."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import combinations

from ..core.problems import Problem, error
from ..core.text_kinds import FindingText
from ..pattern.model import Band, Pattern
from ..pattern.places import Places
from .band_order import AROUND, FRONT_EDGES, NECK

_PARTS: Mapping[str, tuple[FindingText, ...]] = {AROUND: ("neck", "front edges"), NECK: ("neck",),
          **dict.fromkeys(FRONT_EDGES, ("front edges",))}


def taken_twice(pattern: Pattern) -> Iterator[Problem]:
    """Yield an error for every two bands round a neck or along a front that share some of it: its
    open stitches are hung once."""
    if pattern.garment is None:
        return
    worn = [band for band in pattern.bands.values() if band.edge not in pattern.edges]
    for one, other in combinations(worn, 2):
        both = [part for part in _PARTS.get(one.garment_edge, ())
                if part in _PARTS.get(other.garment_edge, ())]
        if (both and AROUND in (one.garment_edge, other.garment_edge)) or \
                {one.garment_edge, other.garment_edge} == {NECK}:
            yield _shared(pattern.places, one, other, both[0])


def _shared(places: Places, one: Band, other: Band, part: str) -> Problem:
    around = next((band for band in (one, other) if band.garment_edge == AROUND), other)
    rest = one if around is other else other
    remedy = ("Delete one of them." if one.garment_edge == other.garment_edge else
              f'Delete band "{rest.key}", or write edge: '
              f'{"front_edge" if part == NECK else NECK} for band "{around.key}".')
    return error("edge-shared", places.of(f"bands.{other.key}.edge"),
                 found=f'bands "{one.key}" and "{other.key}", which both take the {part}',
                 expected="one band on each stretch of the garment's edges", remedy=remedy)

"""How far along a section of an edge its places lie: a row of a slope is longer than a straight."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import accumulate

from ..core.roots import root_of
from .edging import Section, is_level
from .smooth_line import along_corners


def place_at(section: Section, share: Fraction) -> int:
    """Return how many places lie along so large a share of a section's length, to the nearest: of
    two that are as near, the later."""
    ends = list(accumulate(_each(section), initial=Fraction(0)))
    wanted = share * ends[-1]
    return min(range(len(ends)), key=lambda place: (abs(ends[place] - wanted), -place))


def _each(section: Section) -> Iterator[Fraction]:
    """The length of the edge at each place [mm], from where a band meets the section first.

    A band pulls small steps smooth: the places of such a stretch share its length evenly.
    """
    if not section.segments:
        yield from [section.pitch] * section.places
        return
    stretches = list(_stretches(section))
    for places, length in stretches[::-1] if section.falls else stretches:
        yield from [length / places] * places


def _stretches(section: Section) -> Iterator[tuple[int, Fraction]]:
    """The places of every straight stretch of a shaped edge and its length [mm], upward."""
    left = list(section.segments)
    for line in along_corners(section.segments):
        rows, wide, places = 0, 0, 0
        while (rows, wide) != (line.rows, line.stitches):
            segment = left.pop(0)
            rows, wide = rows + segment.rows, wide + segment.stitches
            places += segment.rows + (abs(segment.stitches) if is_level(segment) else 0)
        yield places, root_of((wide * section.wide) ** 2 + (rows * section.pitch) ** 2)

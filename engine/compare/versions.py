"""Versions of a pattern: which part must rise for what changed, and what the next one is."""

from __future__ import annotations

from collections.abc import Iterable

from .differences import FactDifference

_PARTS = 3
FIRST, SECOND = 0, 1
"""The parts of a version, from 0."""


def numbers(version: str) -> tuple[int, ...]:
    """Return the three numbers of a version; those that are not written are 0."""
    parts = [int(part) for part in version.split(".")]
    return (*parts, *[0] * (_PARTS - len(parts)))


def part_that_rises(found: Iterable[FactDifference]) -> int:
    """Return which part of the version must rise: common practice, no source.

    The first where a size, piece or band is gone, for then a knitter no longer finds her place; the
    second for another count or shaping, and for a size that is new.
    """
    gone = any(one.is_whole and one.after is None for one in found)
    return FIRST if gone else SECOND


def next_version(version: str, part: int) -> str:
    """Return the version after this one whose `part` rises: "1.1.0" and the second give "1.2.0".

    It has as many numbers, and at least the one that rises.
    """
    many = max(len(version.split(".")), part + 1)
    risen = [*numbers(version)[:part], numbers(version)[part] + 1, *[0] * _PARTS]
    return ".".join(map(str, risen[:many]))


def has_risen(before: str, after: str, part: int) -> bool:
    """True where a version is above another in this part, or in one before it."""
    return numbers(after)[:part + 1] > numbers(before)[:part + 1]

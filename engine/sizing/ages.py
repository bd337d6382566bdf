"""Whose bodies the sizes of a chart or a pattern are."""

from __future__ import annotations

from enum import Enum


class Age(Enum):
    """Whose body a size is."""

    BABY = "baby"
    CHILD = "child"
    ADULT = "adult"

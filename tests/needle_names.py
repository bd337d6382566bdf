"""Needles by the names that a text gives them."""

from __future__ import annotations

from walebook.machine.needles import Needle

NAMED = {each.name: each for each in map(Needle, range(-999, 999))}


def needle(name: str) -> Needle:
    """The needle called `name`, such as L12 or R3. Raises KeyError for any other text."""
    return NAMED[name]

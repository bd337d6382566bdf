"""Patterns that a collection had, and has no more under their old name."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple


class FormerPattern(NamedTuple):
    """A pattern that was renamed or withdrawn: its folder then, its title, and on which day.

    `now` is the folder of the pattern that stands in its place, "" where it was withdrawn; `why` is
    the designer's sentence, `sizes` those that had a page.
    """

    folder: str
    title: str
    date: str
    now: str = ""
    why: str = ""
    sizes: Sequence[str] = ()

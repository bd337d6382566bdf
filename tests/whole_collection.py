"""The demo collection: read and knitted once in a process, for every test that looks at it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from walebook_site.sources import Collection, collect

ROOT = Path(__file__).parents[1]


@cache
def collection() -> Collection:
    """Every pattern of the demo, read and proved."""
    return collect(ROOT)

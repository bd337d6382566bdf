"""The demo collection: read and knitted once in a process, for every test that looks at it."""

from __future__ import annotations

import os
from functools import cache
from pathlib import Path

from walebook_site.sources import Collection, collect

ROOT = Path(__file__).parents[1]


@cache
def collection() -> Collection:
    """Every pattern of the demo, read and proved.

    Fails while tests are collected: each process would prove all patterns before its first test.
    """
    assert "PYTEST_CURRENT_TEST" in os.environ, "Ask for the collection in a test or a fixture."
    return collect(ROOT)

"""The demo collection: read and knitted once in a run, for every test that looks at it."""

from __future__ import annotations

import os
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

from walebook_site.proving import prove_all
from walebook_site.sources import Collection, collect

ROOT = Path(__file__).parents[1]
_beforehand: dict[str, str] = {}
WHILE = "PYTEST_CURRENT_TEST"  # pytest's name in the environment of the test that is running


def collection() -> Collection:
    """Every pattern of the demo, read and proved.

    Fails while tests are collected: each process would prove all patterns before its first test.
    """
    assert WHILE in os.environ, "Ask for the collection in a test or a fixture."
    return _collection()


def files() -> Mapping[str, str]:
    """Every page, data file and drawing of the demo's patterns, by path, as `walebook pages` writes
    them. `tests/site/test_cache.py` holds that what a cache has is what `write_pages` makes."""
    assert WHILE in os.environ, "Ask for the pages in a test or a fixture."
    return _files()


def files_of(slug: str) -> dict[str, str]:
    """Those of one pattern."""
    return {path: text for path, text in files().items()
            if path.startswith(f"patterns/{slug}/")}


@cache
def _collection() -> Collection:
    return collect(ROOT)


@cache
def _files() -> Mapping[str, str]:
    return MappingProxyType(_beforehand or dict(_collection().texts()))


def prove_beforehand() -> None:
    """Prove the collection in a process that forks for the tests, in several processes and into the
    cache that a build takes it from. Where that fails, each test that needs it fails by its name.
    """
    try:
        _beforehand.update(prove_all(ROOT, pages=True).texts())
        _collection()
    except Exception as fault:
        print(f"The collection was not proved beforehand: {fault!r}")

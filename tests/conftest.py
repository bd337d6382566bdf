"""How property tests draw their examples, the same every time, and which files are run first."""

from __future__ import annotations

import os
import re

import pytest
from hypothesis import settings

# A fixed sample keeps a run's verdict the same on every machine; WALEBOOK_LONG_RUN draws anew.
settings.register_profile("fixed", derandomize=True, deadline=None, database=None)
settings.register_profile("long", deadline=None, max_examples=2000)
settings.load_profile("long" if os.environ.get("WALEBOOK_LONG_RUN") else "fixed")

# The files that take longest (2026-11-29, by --durations), the longest first: a process that
# begins one of them when the others have ended is waited for.
LONGEST = [f"tests/{name}.py" for name in (
    "site/test_whole_site", "site/test_built_site", "site/test_bench_screens",
    "site/test_at_the_bench", "reader/test_spoiled", "site/test_preview", "site/test_offline",
    "site/test_paper", "reader/test_pages", "laws/test_page_facts",
    "sources/test_compare_engines", "laws/test_own_gauge", "laws/test_shaping",
    "laws/test_keys_drawn", "site/test_broken_build", "laws/test_shaped_charts",
    "site/test_single_file", "laws/test_sheets", "laws/test_more_forms",
    "site/test_offline_failures", "site/test_cache", "laws/test_stitch_charts")]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the longest files first. Refuse a test whose name has an address in it: each process
    would give it another name."""
    first = {name: place for place, name in enumerate(LONGEST)}
    items.sort(key=lambda item: first.get(item.nodeid.split("::")[0], len(first)))
    wrong = [item.nodeid for item in items if re.search(r" at 0x[0-9a-f]+", item.nodeid)]
    if wrong:
        raise pytest.UsageError(f"Give these tests ids that are always the same: {wrong[:3]}")

"""How property tests draw their examples: the same every time, unless a long run is asked for."""

from __future__ import annotations

import os
import re

import pytest
from hypothesis import settings

# A fixed sample keeps a run's verdict the same on every machine; WALEBOOK_LONG_RUN draws anew.
settings.register_profile("fixed", derandomize=True, deadline=None, database=None)
settings.register_profile("long", deadline=None, max_examples=2000)
settings.load_profile("long" if os.environ.get("WALEBOOK_LONG_RUN") else "fixed")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Refuse a test whose name has an address in it: each process would give it another name."""
    wrong = [item.nodeid for item in items if re.search(r" at 0x[0-9a-f]+", item.nodeid)]
    if wrong:
        raise pytest.UsageError(f"Give these tests ids that are always the same: {wrong[:3]}")

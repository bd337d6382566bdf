"""How property tests draw their examples: the same every time, unless a long run is asked for."""

from __future__ import annotations

import os

from hypothesis import settings

# A fixed sample keeps a run's verdict the same on every machine; WALEBOOK_LONG_RUN draws anew.
settings.register_profile("fixed", derandomize=True, deadline=None, database=None)
settings.register_profile("long", deadline=None, max_examples=2000)
settings.load_profile("long" if os.environ.get("WALEBOOK_LONG_RUN") else "fixed")

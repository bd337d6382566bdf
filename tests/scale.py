"""How many examples a law takes."""

from __future__ import annotations

import os

LONG_RUN = int(os.environ.get("WALEBOOK_LONG_RUN", "0"))  # examples of each law, from 2000 up


def examples(number: int) -> int:
    """So many in the test command; in the long run as many as the environment asks for."""
    return LONG_RUN or number

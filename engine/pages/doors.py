"""The one function that a browser calls: which door of the engine answers is named in the asking.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping

from . import own_gauge_door, try_door

_DOORS: Mapping[str, Callable[[str], str]] = {
    "my-gauge": own_gauge_door.answer, "try-it": try_door.answer}


def answer(request: str) -> str:
    """Return what the door named `door` in `request` answers, both JSON.

    Without a name it is that of a reader's own gauge.
    """
    return _DOORS[json.loads(request).get("door", "my-gauge")](request)

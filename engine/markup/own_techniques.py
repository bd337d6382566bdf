"""Pages whose links to techniques lead where the designer says."""

from __future__ import annotations

import re
from collections.abc import Mapping

from .html import esc

_LINK = re.compile(r'(<a\b[^>]*\bhref=")\.\./\.\./techniques/([a-z-]+)\.html(?:#[^"]*)?(")')


def with_own_techniques(page: str, own: Mapping[str, str]) -> str:
    """Return a page with each link to a technique in `own` leading to its address there."""
    if not own:
        return page
    return _LINK.sub(lambda m: f"{m[1]}{esc(own[m[2]])}{m[3]}" if m[2] in own else m[0], page)

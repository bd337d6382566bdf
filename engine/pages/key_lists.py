"""The keys of a mapping as the page about pattern sources explains them, from their declarations.

    <!-- walebook:keys BandKeys: points, shows -->    these keys of a table
    <!-- walebook:keys BandKeys -->                   all others of that table
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..source.keys.key import Keys
from ..source.keys.whole import TABLES
from ..words.keys import explained
from ..words.source_page_text import keys_named

_MARKER = re.compile(r"<!-- walebook:keys (\w+)(?:: ([\w, ]+))? -->")

FEW = 4  # keys that stand open


def fill_keys(markdown: str) -> str:
    """Return the page with every marker replaced by its keys. Raises KeyError for a wrong one."""
    apart: dict[str, set[str]] = {}
    for marker in _MARKER.finditer(markdown):
        apart.setdefault(marker[1], set()).update(_names(marker))
    return _MARKER.sub(lambda marker: _listed(
        TABLES[marker[1]], _names(marker) or
        [name for name in TABLES[marker[1]].keys if name not in apart[marker[1]]]), markdown)


def _names(marker: re.Match[str]) -> list[str]:
    return marker[2].split(", ") if marker[2] else []


def _listed(table: type[Keys], names: Sequence[str]) -> str:
    """The keys; a long list is shut until it is opened, and named at its head."""
    listed = "\n\n".join(f"`{name}`\n:   {explained(table.keys[name], table)}" for name in names)
    return shut(keys_named(names), listed) if len(names) > FEW else listed


def shut(summary: str, markdown: str) -> str:
    """Return Markdown that is shut until its reader opens it; the summary is HTML."""
    return f'<details markdown="1"><summary>{summary}</summary>\n\n{markdown}\n\n</details>'

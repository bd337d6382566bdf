"""Whether a source is a draft, as it says at its top: seen in a source with errors, too."""

from __future__ import annotations

import re

from ..pattern.publishing import Status
from .source import Scalar, Table, parse_source

_LINE = re.compile(r"""^status[ ]*:[ ]+(["']?)draft\1[ ]*(?:#.*)?$""", re.MULTILINE)


def is_draft(source: str) -> bool:
    """Return True where the source says `status: draft`.

    A source that cannot be read as YAML says so by a line that begins with the key. Raises nothing.
    """
    if Status.DRAFT.value not in source:
        return False
    node, _ = parse_source(source, name="")
    if not isinstance(node, Table):
        return _LINE.search(source) is not None
    entry = node.entries.get("status")
    return (entry is not None and isinstance(entry.node, Scalar)
            and entry.node.text == Status.DRAFT.value)

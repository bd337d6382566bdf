"""Words for what was put right in a pattern, and whom it concerns."""

from __future__ import annotations

from ..markup.html import esc
from ..pattern.corrections import Correction
from .words import joined

NONE = "<p>No corrections so far.</p>"


def corrected(one: Correction) -> str:
    """A correction with its date, its version and the sizes that it concerns, as HTML."""
    return f"<strong>{esc(', '.join(_head(one)))}:</strong> {esc(one.text)}"


def in_your_size(one: Correction) -> str:
    """A correction on the page of a size that it concerns, as HTML."""
    since = f"Version {esc(one.version)}, {esc(one.date)}" if one.version else esc(one.date)
    older = f" A file or a sheet of an older version than {esc(one.version)} does not have it." \
        if one.version else ""
    return f"<strong>{since}:</strong> {esc(one.text)}{older}"


def _head(one: Correction) -> list[str]:
    sizes = f"size{'s' * (len(one.sizes) > 1)} {joined(one.sizes)}" if one.sizes else ""
    return [part for part in (one.date, f"version {one.version}" * bool(one.version), sizes)
            if part]

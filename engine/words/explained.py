"""An explanation: why a step is done so. A page gives each once, at the first step that has it."""

from __future__ import annotations


def why(said: str) -> str:
    """Return a sentence, HTML, as an explanation, with the space before it."""
    return f' <small class="wb-why">{said}</small>'

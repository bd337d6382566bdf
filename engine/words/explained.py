"""Words of a step that are set apart. An explanation: why it is done so; a page gives each once, at
the first step that has it. What is stressed, such as a caution: the bench never folds it away."""

from __future__ import annotations

CLEAR = "<em>Keep your feet clear.</em>"
KEEP = "<em>Do not cut it:</em>"


def why(text: str) -> str:
    """Return a sentence, HTML, as an explanation, with the space before it."""
    return f' <small class="wb-why">{text}</small>'


THERE = why("The carriage stands there.")

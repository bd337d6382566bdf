"""The functions of the engine that no source reaches yet, by name, and what they wait for.

They are held by checks, so that the key or the caller, when it comes, has a sound function behind
it. This list only grows shorter: `laws/test_reached.py` takes out what a source
reaches and refuses whatever is new.
"""

from __future__ import annotations

KEYS = {
    "direction": "a piece that is knitted from its top downward",
    "needle": "a needle named by its side and number, where something lies",
    "reader's measure": "the size for a reader's own body",
    "texts": "a caller with texts and no files that wants all pages and counts at once",
}

WAITING: dict[str, str] = {
    "walebook.machine.needles.needle": "needle",
    "walebook.pages.from_texts.make": "texts",
    "walebook.shape.profile.turned_over": "direction",
    "walebook.shape.profile.widened": "direction",
    "walebook.sizing.charts.advise": "reader's measure",
}

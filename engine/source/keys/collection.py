"""The keys of the settings of a whole collection of patterns."""

from __future__ import annotations

from ..values import Text
from .key import Key, Keys


class CollectionKeys(Keys, example="title: Lantern Quay"):
    """What the first page of the site says of all its patterns together."""

    title = Key(Text(80), "The collection's name: the title of the first page.", "Lantern Quay")
    designer = Key(Text(120), "Who made the collection.", "Wren Ashdown", "none is named", "")
    about = Key(Text(600), "A few sentences of hers to whoever chooses a pattern.",
                "Patterns for the weather that we have.", "nothing", "")

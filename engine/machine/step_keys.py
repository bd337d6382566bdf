"""What a text of a step is that names a thing for the engine, as the kinds of `core/text_kinds.py`
are, which stand above this folder."""

from __future__ import annotations

Topic = str
"""What the knitter's hands and eyes attend to: one of TOPICS, worded in words/."""

MethodName = str
"""A way on or off the bed, as a source writes it too: pages print it as it is written."""

TOPICS: tuple[Topic, ...] = (
    "choose holes", "clip ends", "fold up", "look at holes", "cloth", "mark edges",
    "mark neck", "sew facing", "leave facing", "sew off", "waste end", "sew ends",
    "join parts", "darn in", "sew buttons", "count back", "choose slits", "sew slits",
    "join slits", "overcast holes", "sew round holes", "mark loops", "make loops",
    "choose eyelets", "overcast cord eyelets", "leave ends", "needles forward",
    "mark quarter", "mark button", "join holes", "sew on band")

MARKING: frozenset[Topic] = frozenset({"clip ends", "mark loops", "choose slits", "mark quarter",
                                       "mark button"})

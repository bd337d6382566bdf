"""What a text is that no reader of a page meets as it stands.

A constant, a field, a parameter or a function of one of these types is left out where
`tests/laws/test_sentences_in_words.py` looks for what is worded outside `words/`.
"""

from __future__ import annotations

from collections.abc import Mapping

FindingText = str
"""What a finding or a refusal says to whoever writes the source; it stands on no page."""

CountKey = str
"""What a source and counts.json call a count: the key of its piece and its name, "back cast_on"."""

SourceName = str
"""What a source writes to choose a kind of a thing, such as a form or a rib.

Pages print it as it is written.
"""

LevelKey = str
"""The key of a level of a body's sides, by which findings name it too."""

TaskKey = str
"""The key of a task of making up, by which another says that it comes after it."""

TableKey = str
"""The key of a table of figures in counts.json."""

FormulaText = str
"""A sum of measures as a source would write it: "(chest + ease) / 2"."""

Formulas = Mapping[str, FormulaText]
"""The sum of each measure, by its key."""

MeasureKey = str
"""The name of a finished length in counts.json; a page words one that no reader would know."""

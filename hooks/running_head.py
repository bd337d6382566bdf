"""What stands on every printed sheet of a pattern: pattern and size, version, who made it."""

from __future__ import annotations

import re

from walebook.words.credits import made_by, version_text
from walebook_site.facts import BuiltPageFacts


def running_head(facts: BuiltPageFacts | None) -> str:
    """Return the style of the printed sheets; "" for a page that is of no pattern.

    At the head stand pattern and size left, the version right; at the foot designer and licence.
    """
    if facts is None:
        return ""
    left, right, foot = map(_as_css, (facts.heading, version_text(facts.version, facts.date),
                                      made_by(facts.designer, facts.licence)))
    return (f'<style class="wb-running">@page{{@top-left{{content:{left}}}'
            f"@top-right{{content:{right}}}@bottom-left{{content:{foot}}}}}</style>")


def _as_css(text: str) -> str:
    """A string of a style sheet; whatever could end it, or the element it is in, is a code."""
    line = " ".join(text.split())
    return '"' + re.sub(r'[^\w ,.;:()/+–-]', lambda sign: f"\\{ord(sign[0]):x} ", line) + '"'

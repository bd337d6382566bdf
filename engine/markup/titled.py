"""A page of ours as the article of a site: its one Markdown heading becomes HTML."""

from __future__ import annotations

import re

_HEAD = re.compile(r"\A---\n.*?\n---\n+# (.*) \{ #(\S+) \}\n\n", re.DOTALL)


def titled(page: str, behind: str) -> str:
    """Return a page whose body is HTML as HTML alone, with `behind` behind its title.

    Its front matter is left out. Raises ValueError for a page that does not begin with a title.
    """
    found = _HEAD.match(page)
    if found is None:
        raise ValueError("a page of a size begins with its title")
    return f'<h1 id="{found[2]}">{found[1]}</h1>\n{behind}{page[found.end():].strip()}\n'

"""Takes what is finished HTML out of a page before Markdown reads it, and puts it back after.

Markdown passes such stretches as they are, but it reads every tag of them to find their ends:
on a size page, nine tenths of the time that the page takes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

# In a page the engine wrote everything between two headings is HTML: no heading stands in it.
_HEADING = re.compile(r"#{1,6} [^\n]*\{ #[^}\n]* \}\n\n")
_STAND_IN = re.compile(r'<div data-wb-block="(\d+)"></div>')
_ID = re.compile(r'\sid="([^"]+)"')


@dataclass(frozen=True, slots=True)
class Blocks:
    """A page's headings as Markdown with a stand-in for every stretch, and the stretches."""

    markdown: str
    stretches: tuple[str, ...]

    def put_back(self, html: str) -> str:
        """Return the HTML made of the headings with every stretch in its place."""
        return _STAND_IN.sub(lambda at: self.stretches[int(at[1])], html)

    @property
    def anchors(self) -> set[str]:
        """The ids that stand in the stretches: what other pages can link to."""
        return {name for stretch in self.stretches for name in _ID.findall(stretch)}


def take_out(markdown: str) -> Blocks:
    """Return an engine's page taken apart; what is not between headings stays where it is."""
    stretches: list[str] = []
    headings = list(_headings(markdown))
    out = [markdown[:headings[0][0]] if headings else markdown]
    for (start, end), following in pairwise([*headings, (len(markdown), 0)]):
        out.append(markdown[start:end])
        stretch = markdown[end:following[0]]
        if stretch.startswith("<"):
            out.append(f'<div data-wb-block="{len(stretches)}"></div>\n\n')
            stretches.append(stretch.strip())
        else:
            out.append(stretch)
    return Blocks("".join(out), tuple(stretches))


def _headings(text: str) -> Iterator[tuple[int, int]]:
    """Where each heading stands: behind an empty line, or at the beginning of the text."""
    at = len(text) - len(text.lstrip())
    while at >= 0:
        if found := _HEADING.match(text, at):
            yield found.span()
        behind = text.find("\n\n#", at)
        at = behind + 2 if behind >= 0 else -1

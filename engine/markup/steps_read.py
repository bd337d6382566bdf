"""The numbered steps of a size page, read back from its HTML as plain text."""

from __future__ import annotations

from dataclasses import field
from html.parser import HTMLParser

from ..machine.records import dataclass

_LEFT_OUT = frozenset(("svg", "figure", "aside"))
_CHECK = "wb-check"  # what must be true after a step is not the step
_APART = frozenset(("p", "li", "td", "th", "caption", "div"))  # whose texts lie side by side
_ENDLESS = frozenset(("br", "img", "hr", "path", "rect", "use", "input", "wbr"))


def steps_in(html: str) -> dict[str, tuple[str, ...]]:
    """Return the text of every step of each part, in order; a part by the start of its steps' ids.

    Drawings and checkpoints are left out.
    """
    reader = _Steps()
    reader.feed(html)
    reader.close()
    return {part: tuple(texts) for part, texts in reader.found.items()}


@dataclass(eq=False)
class _Steps(HTMLParser):
    """Gathers the texts of the items that lie directly in a list of steps."""

    found: dict[str, list[str]] = field(default_factory=dict)
    _open: list[str] = field(default_factory=list)
    _lists: list[int] = field(default_factory=list)
    _part: str = ""
    _begun: int = 0
    _out: int = 0
    _text: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note what is opened."""
        if tag in _ENDLESS:
            return
        self._open.append(tag)
        named = dict(attrs)
        classes = (named.get("class") or "").split()
        if "wb-steps" in classes:
            self._lists.append(len(self._open))
        elif tag == "li" and self._lists and len(self._open) == self._lists[-1] + 1:
            self._part = (named.get("id") or "").rpartition("-")[0]
            self._begun, self._text = len(self._open), []
        elif not self._out and (tag in _LEFT_OUT or _CHECK in classes):
            self._out = len(self._open)

    def handle_endtag(self, tag: str) -> None:
        """Close what was opened last under this name, and take the text of a step that ends."""
        if tag not in self._open:
            return
        while self._open:
            depth, closed = len(self._open), self._open.pop()
            if depth == self._out:
                self._out = 0
            elif depth == self._begun:
                self._begun = 0
                self.found.setdefault(self._part, []).append(" ".join("".join(self._text).split()))
            elif self._lists and depth == self._lists[-1]:
                self._lists.pop()
            elif closed in _APART and self._begun:
                self._text.append(" ")
            if closed == tag:
                return

    def handle_data(self, data: str) -> None:
        """Take a text that stands in a step."""
        if self._begun and not self._out:
            self._text.append(data)

"""The visible text of a page: headings, paragraphs, lists, tables, drawings, numbered steps."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from html.parser import HTMLParser
from xml.etree.ElementTree import Element

import tinyhtml5

HEADING = re.compile(r"^(#{1,6})[ \t]+(.*?)(?:[ \t]*\{[^}]*\})?[ \t]*$", re.MULTILINE)
FRONT_MATTER = re.compile(r"\A---\n.*?\n---\n", re.DOTALL)
# A checkpoint's words stand in boxes, with nothing between them.
CHECK = re.compile(r"^Check (.+) row counter (\S*) carriage on the (\S+)$")
HIDDEN = {"title", "desc", "script", "style", "template", "aside"}  # a designer's note is no step
BREAKS = {"p", "li", "ul", "ol", "div", "figure", "figcaption", "table", "tr", "td", "th", "dl",
          "dt", "dd", "details", "summary", "nav", "h1", "h2", "h3", "h4", "h5", "h6", "svg"}


@dataclass(slots=True)
class Block:
    """A piece of text that stands by itself: what sort it is, its words, and its list number.

    `kind` is p, li, `key` (a drawing's key), dt, dd, summary, figcaption, `drawn` for text in a
    drawing (with its place in it), or `row` for a table's row (its cells).
    """

    kind: str
    text: str
    cells: tuple[str, ...] = ()
    head: bool = False
    at: tuple[float, float] = (0.0, 0.0)
    depth: int = 0


@dataclass(slots=True)
class Step:
    """A numbered step: its number and its blocks."""

    number: int
    blocks: list[Block] = field(default_factory=list)


@dataclass(slots=True)
class Section:
    """A heading, what stands under it before the next heading, and its steps."""

    title: str
    level: int
    blocks: list[Block] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)


class _Eye(HTMLParser):
    """Gathers the blocks of a page in the order in which they are seen."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.sections: list[Section] = [Section("", 0)]
        self.text: list[str] = []
        self.stack: list[str] = []
        self.hidden = 0
        self.cells: list[str] | None = None
        self.header_row = True
        self.next_number: list[int | None] = []
        self.step: Step | None = None
        self.step_depth = 0
        self.spot = (0.0, 0.0)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in HIDDEN:
            self.hidden += 1
            return
        if tag == "text":
            self.flush("p")
            given = dict(attrs)
            self.spot = (_first(given.get("x")), _first(given.get("y")))
            return
        if tag == "br":
            self.text.append(" ")
        if tag not in BREAKS:
            return
        self.flush(self.stack[-1] if self.stack else "p")
        if tag == "ol":
            given = dict(attrs)
            self.next_number.append(int(given.get("start") or 1))
        elif tag == "ul":
            self.next_number.append(None)
        elif tag == "li" and self.next_number and self.next_number[-1] is not None:
            number = self.next_number[-1]
            self.next_number[-1] = number + 1
            self.step = Step(number)
            self.step_depth = len(self.next_number)
            self.sections[-1].steps.append(self.step)
        elif tag == "tr":
            self.cells, self.header_row = [], True
        elif tag == "td":
            self.header_row = False
        self.stack.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if tag in HIDDEN:
            self.hidden -= 1
            return
        if tag == "text":
            self.flush("drawn")
            return
        if tag not in BREAKS:
            return
        if tag in ("td", "th") and self.cells is not None:
            self.cells.append(self._words())
        else:
            self.flush(tag)
        if tag == "tr" and self.cells is not None:
            self._put(Block("row", " | ".join(self.cells), tuple(self.cells), self.header_row))
            self.cells = None
        if tag in ("ol", "ul") and self.next_number:
            self.next_number.pop()
        if tag == "li" and self.step and len(self.next_number) == self.step_depth:
            self.step = None
        while self.stack and self.stack.pop() != tag:
            pass

    def updatepos(self, i: int, j: int) -> int:
        """Count no lines: nobody asks for them, and they take a tenth of the time."""
        return j

    def handle_data(self, data: str) -> None:
        if not self.hidden:
            self.text.append(data)

    def _words(self) -> str:
        words = " ".join("".join(self.text).split())
        self.text.clear()
        return CHECK.sub(r"Check: \1; row counter \2; carriage on the \3.", words)

    def flush(self, kind: str) -> None:
        """Put the words gathered so far down as one block."""
        if not self.text or (self.cells is not None):
            return
        words = self._words()
        if not words:
            return
        if kind[0] == "h" and kind[1:].isdigit():
            self.sections.append(Section(words.removesuffix("¶"), int(kind[1:])))
            self.step = None
            return
        if kind == "li" and "figure" in self.stack:
            kind = "key"
        self._put(Block(kind, words, at=self.spot, depth=len(self.next_number)))

    def _put(self, block: Block) -> None:
        (self.step.blocks if self.step else self.sections[-1].blocks).append(block)


def _first(value: str | None) -> float:
    return float(value.split()[0]) if value else 0.0


def sections(source: str) -> list[Section]:
    """The sections of a page, from its Markdown with HTML blocks."""
    source = FRONT_MATTER.sub("", source)
    source = HEADING.sub(lambda m: f"<h{len(m[1])}>{m[2]}</h{len(m[1])}>", source)
    eye = _Eye()
    eye.feed(source)
    eye.close()
    eye.flush("p")
    return eye.sections


def built_sections(source: str) -> list[Section]:
    """The sections of a built page's article, as a parser of HTML finds its elements.

    The site's own menus stand around the article. End tags are left out where HTML (13.1.2.4,
    optional tags) lets them be.
    """
    tree = tinyhtml5.parse(source, namespace_html_elements=False)
    eye = _Eye()
    for article in tree.iter("article"):
        _see(eye, article)
    eye.flush("p")
    return eye.sections


def _see(eye: _Eye, element: Element) -> None:
    """Show an element with all that is in it."""
    for inner in element:
        if isinstance(inner.tag, str):  # no comment
            tag = inner.tag.rpartition("}")[2]
            eye.handle_starttag(tag, list(inner.attrib.items()))
            eye.handle_data(inner.text or "")
            _see(eye, inner)
            eye.handle_endtag(tag)
        eye.handle_data(inner.tail or "")

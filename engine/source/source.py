"""Pattern text to a tree of nodes that remember line and column; the only user of yaml.

Every scalar stays text: `no`, `010` and `1:20` are what the designer typed. Tags, anchors,
aliases and merge keys are refused, so nothing in a source can run, grow or point elsewhere.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import field
from typing import Any, NamedTuple, TypeAlias

import yaml

from ..core.problems import Place, Problem, Severity, error, note
from ..core.text import UNSEEN, clip
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from .page_names import SHARED
from .syntax import beyond_depth, read_fault, tab_found

PATTERN_EXAMPLE: FindingText = "title: Slack Tide cardigan bands"
MOST_BYTES = 256 * 1024
MOST_NODES = 5000
MOST_LEVELS = 12

# The parser in C is some eight times as fast; where it was not built, the other one reads alike.
_LOADER: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

_ELSEWHERE = f"What several patterns use can stand in {SHARED}."
_CUT = re.compile(r" *(?<= )(#[^\s#].*)")


@dataclass(frozen=True, slots=True)
class Scalar:
    """A piece of text as typed; "" where nothing was.

    Whether it was `quoted`, and over how many `lines`, tells where its first character stands.
    """

    text: str
    place: Place
    quoted: bool = field(default=False, compare=False)
    lines: int = field(default=1, compare=False)


@dataclass(frozen=True, slots=True)
class Listing:
    """A list."""

    items: tuple[Node, ...]
    place: Place


class Keyed(NamedTuple):
    """A value with the place of its key."""

    place: Place
    node: Node


@dataclass(frozen=True, slots=True)
class Table:
    """A mapping: each key once, in the order written."""

    entries: Mapping[str, Keyed]
    place: Place


Node: TypeAlias = Scalar | Listing | Table


def plain(node: Node | None) -> object:
    """Return a tree as texts, lists and mappings, without its places; None for none."""
    if isinstance(node, Table):
        return {name: plain(keyed.node) for name, keyed in node.entries.items()}
    if isinstance(node, Listing):
        return [plain(item) for item in node.items]
    return node.text if isinstance(node, Scalar) else None


def parse_source(text: str, *, name: str, example: FindingText = PATTERN_EXAMPLE
                 ) -> tuple[Node | None, tuple[Problem, ...]]:
    """Return the tree of `text` and its findings; no tree when it cannot be trusted.

    `name` is the file shown in places, `example` an entry of such a file. A repeated key is an
    error, but the tree is still returned, with the first of the two. Raises nothing.
    """
    text = text.removeprefix("\ufeff")
    problem = _refuse_text(text, name)
    if problem:
        return None, (problem,)
    tree = _Tree(name, re.split("\r\n|\r|\n", text), example)
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            if not tree.take(event):
                break
    except yaml.YAMLError as fault:
        finding = read_fault(fault, text, name)
        # The parser in C also limits nesting, and reads ahead of the tree.
        return None, (*tree.problems, _too_deep(finding.place) if beyond_depth(fault) else finding)
    return tree.finish()


def _refuse_text(text: str, name: str) -> Problem | None:
    size = len(text) if len(text) > MOST_BYTES else len(text.encode("utf-8", "surrogatepass"))
    if size > MOST_BYTES:
        return error("too-large", Place(name, 1, 1), found="a source of more than 256 KiB",
                     expected="at most 256 KiB", remedy="Move long prose to notes.md.")
    match = UNSEEN.search(text)
    if match:
        return error("control-character", _place_at(text, match.start(), name),
                     found=f"the control character U+{ord(match[0]):04X}",
                     expected="text that can be seen", remedy="Delete it.")
    if "\t" in text:
        return tab_found(_place_at(text, text.index("\t"), name))
    return None


def _place_at(text: str, index: int, name: str) -> Place:
    before = text[:index].replace("\r\n", "\n").replace("\r", "\n")
    return Place(name, before.count("\n") + 1, len(before) - before.rfind("\n"))


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not been reached."""

    place: Place
    entries: dict[str, Keyed] | None
    items: list[Node] = field(default_factory=list)
    key: Scalar | None = None

    def close(self) -> Node:
        if self.entries is None:
            return Listing(tuple(self.items), self.place)
        return Table(self.entries, self.place)


class _Tree:
    """Grows the tree event by event, without recursion, and stops where a limit is passed."""

    def __init__(self, name: str, lines: list[str], example: FindingText) -> None:
        self.name, self.lines, self.example = name, lines, example
        self.problems: list[Problem] = []
        self.open: list[_Open] = []
        self.root: Node | None = None
        self.nodes = self.documents = 0
        self.trusted = True

    def take(self, event: Any) -> bool:
        """Take one event; False when reading must stop."""
        mark = event.start_mark
        place = Place(self.name, mark.line + 1, mark.column + 1)
        if isinstance(event, yaml.NodeEvent):
            return self._node(event, place)
        if isinstance(event, yaml.CollectionEndEvent):
            self._add(self.open.pop().close())
        elif isinstance(event, yaml.DocumentStartEvent):
            self.documents += 1
            if self.documents > 1:
                return self._refuse("many-documents", place, "a second document",
                                    "one document in a file", "Delete the line of three dashes.")
        return True

    def finish(self) -> tuple[Node | None, tuple[Problem, ...]]:
        """The tree and its findings once all events are taken."""
        if self.root is None and not self.problems:
            self._refuse("empty-source", Place(self.name, 1, 1), "an empty source",
                         f"entries such as {self.example}", "Write the pattern."
                         if self.example == PATTERN_EXAMPLE else "Write them, or delete the file.")
        return (self.root if self.trusted else None), tuple(self.problems)

    def _node(self, event: Any, place: Place) -> bool:
        self.nodes += 1
        if self.nodes > MOST_NODES:
            return self._refuse("too-many", place, f"more than {MOST_NODES} values",
                                f"at most {MOST_NODES} in a file", "Split the pattern.")
        if isinstance(event, yaml.AliasEvent):
            self._refuse("anchor", place, f"the alias {clip(f'*{event.anchor}')}",
                         "values written out", f"Write the value here. {_ELSEWHERE}")
            self._add(Scalar("", place))
            return True
        self._refuse_marks(event, place)
        if isinstance(event, yaml.ScalarEvent):
            end: Any = event.end_mark
            if event.value and event.style not in ("'", '"', "|", ">"):
                self._warn_of_remark(event.value, end)
            self._add(Scalar(event.value, place, event.style in ("'", '"'),
                             end.line + 2 - place.line))
            return True
        self.open.append(_Open(place, {} if isinstance(event, yaml.MappingStartEvent) else None))
        if len(self.open) > MOST_LEVELS:
            self.trusted = False
            self.problems.append(_too_deep(place))
        return len(self.open) <= MOST_LEVELS

    def _warn_of_remark(self, value: str, end: Any) -> None:
        """Warn of a # with no space behind it, which cuts a value off without a word."""
        line = self.lines[end.line] if end.line < len(self.lines) else ""
        cut = _CUT.match(line, end.column)
        if cut:
            place = Place(self.name, end.line + 1, cut.start(1) + 1)
            self.problems.append(note(
                Severity.WARNING, "cut-by-remark", place,
                found=f'"{clip(cut[1])}" behind "{clip(value)}", which is left out',
                expected="a value in quotes, or a space after the #",
                remedy="YAML takes it for a remark: put the value in quotes to keep it."))

    def _refuse_marks(self, event: Any, place: Place) -> None:
        if event.tag not in (None, "!"):
            tag = event.tag.replace("tag:yaml.org,2002:", "!!", 1)
            self._refuse("tag", place, f"the tag {clip(tag)}", "plain values",
                         "Delete the tag, or put the text in quotes.")
        if event.anchor is not None:
            self._refuse("anchor", place, f"the anchor {clip(f'&{event.anchor}')}",
                         "values written out", f"Delete the anchor. {_ELSEWHERE}")

    def _add(self, node: Node) -> None:
        if not self.open:
            self.root = node
            return
        parent = self.open[-1]
        if parent.entries is None:
            parent.items.append(node)
        elif parent.key is None:
            parent.key = self._key(node)
        else:
            self._enter(parent.entries, parent.key, node)
            parent.key = None

    def _key(self, node: Node) -> Scalar:
        if not isinstance(node, Scalar):
            shape = "a list" if isinstance(node, Listing) else "a mapping"
            self._refuse("bad-key", node.place, f"{shape} as a key", "a word as key",
                         "Write key: value.")
            return Scalar("", node.place)
        if node.text == "<<":
            self._refuse("merge-key", node.place, "the merge key <<", "entries written out",
                         "Write the entries here.")
        return node

    def _enter(self, entries: dict[str, Keyed], key: Scalar, node: Node) -> None:
        first = entries.get(key.text)
        if first is None:
            entries[key.text] = Keyed(key.place, node)
            return
        self.problems.append(error(
            "duplicate-key", key.place, expected="each key once",
            found=f'the key "{clip(key.text)}" again (first on line {first.place.line})',
            remedy="Delete one of the two."))

    def _refuse(self, code: str, place: Place, found: str, expected: str, remedy: str) -> bool:
        self.trusted = False
        self.problems.append(error(code, place, found=found, expected=expected, remedy=remedy))
        return False


def _too_deep(place: Place) -> Problem:
    return error("too-deep", place, found=f"more than {MOST_LEVELS} levels of nesting",
                 expected=f"at most {MOST_LEVELS}", remedy="Write it flatter.")

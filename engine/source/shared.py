"""What several patterns use and a collection writes once: entries taken from its shared file.

A declaration names the section that a value may come from (`Key.shared`). Such a value says
`shared`, or `shared NAME` where it has another name in that file. In notes a text is taken by a
line with nothing but `<!-- shared NAME -->`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import field, replace
from typing import Any

from ..core.problems import Place, Problem, has_errors
from ..core.text import clip, suggest
from ..machine.records import dataclass
from .fields import Findings
from .keys.key import Key, Keys, Several
from .keys.pattern_keys import SHARED_TEXT, PatternKeys, SharedFileKeys
from .page_names import SHARED
from .source import Keyed, Listing, Node, Scalar, Table, parse_source
from .values import Entry

SECTIONS = tuple(SharedFileKeys.keys)
TEXTS = "texts"
_REFERENCE = re.compile(r"shared(?: +(\S.*))?")
_MARKER = re.compile(r"^<!-- shared +(\S.*?) *-->[ \t]*$", re.MULTILINE)
_ONE = {"yarns": "yarn", "fabrics": "fabric", "swatches": "swatch", TEXTS: "text"}
_NAMED = f"{', '.join(SECTIONS[:-1])} or {SECTIONS[-1]}"


def with_shared(node: Node, text: str) -> tuple[Node | None, tuple[Problem, ...]]:
    """Return a pattern's tree with its shared entries, and all findings; None with an error.

    `text` is the shared file, "" where there is none. It is read only when an entry asks for it.
    """
    shelf = _SharedFile(text)
    made = shelf.filled(node, PatternKeys, "")
    problems = tuple(shelf.findings.problems)
    return (None if has_errors(problems) else made), problems


def with_shared_texts(notes: str, text: str, *, file: str) -> tuple[str, tuple[Problem, ...]]:
    """Return notes with the shared texts that they ask for, each one paragraph, and all findings.

    The lines of the notes keep their numbers. `text` is the shared file, `file` that of the notes.
    """
    shelf = _SharedFile(text)

    def taken(marker: re.Match[str]) -> str:
        place = Place(file, notes.count("\n", 0, marker.start()) + 1, 1)
        found = shelf.taken(TEXTS, marker[1], place)
        content = None if found is None else shelf.findings.read(
            Entry(marker[1], found, marker[1], found.place), SHARED_TEXT)
        return content if content is not None else marker[0]

    made = _MARKER.sub(taken, notes)
    return made, tuple(shelf.findings.problems)




@dataclass
class _SharedFile:
    """The shared file, read when something is asked of it, and what is found wrong with that."""

    text: str
    findings: Findings = field(default_factory=Findings)
    _read: bool = False
    _there: Table | None = None

    def filled(self, node: Node, table: type[Keys], label: str) -> Node:
        """A mapping with what is taken in it, and under it; `label` is the name it stands under."""
        if not isinstance(node, Table):
            return node
        entries: dict[str, Keyed] = dict(node.entries)
        for name, key in table.keys.items():
            if name in entries and (key.shared or key.table):
                entries[name] = entries[name]._replace(
                    node=self._under(entries[name].node, key, label))
        return replace(node, entries=entries)

    def _under(self, node: Node, key: Key[Any], label: str) -> Node:
        """What stands under a key: one value, or several by name or in a list."""
        if isinstance(key.read, Several) and isinstance(node, Listing):
            return replace(node, items=tuple(self._one(item, key, label) for item in node.items))
        if isinstance(key.read, Several) and isinstance(node, Table):
            return replace(node, entries={
                name: keyed._replace(node=self._one(keyed.node, key, name))
                for name, keyed in node.entries.items()})
        return self._one(node, key, label)

    def _one(self, node: Node, key: Key[Any], label: str) -> Node:
        if key.shared and isinstance(node, Scalar):
            literal = key.shared == TEXTS and node.quoted
            match = None if literal else _REFERENCE.fullmatch(node.text)
            own = key.name if key.shared == TEXTS else label
            found = self.taken(key.shared, match[1] or own, node.place) if match else None
            node = node if found is None else found
        return self.filled(node, key.table, label) if key.table else node

    def taken(self, section: str, name: str, place: Place) -> Node | None:
        """The entry of that name; None once it is recorded, at `place`, that there is none."""
        if not self._read:
            self._read, self._there = True, self._sections(place)
        if self._there is None:
            return None
        known = _entries(self._there.entries.get(section))
        if name in known and section == TEXTS:
            return self._text(name, known[name].node)
        if name in known:
            return known[name].node
        expected, remedy = suggest(name, known, "Use one of these, or add it there.",
                                   "Add it there, or write it here.")
        self.findings.fault("unknown-name", place,
                            f'no {_ONE[section]} called "{clip(name)}" in {SHARED}',
                            expected, remedy)
        return None

    def _text(self, name: str, node: Node) -> Node | None:
        """The node of a shared text; None once it is recorded that it is none."""
        if isinstance(node, Scalar):
            return node
        self.findings.read(Entry(name, node, name, node.place), SHARED_TEXT)
        return None

    def _sections(self, place: Place) -> Table | None:
        """The shared file; None once it is recorded what keeps it from being used."""
        findings = self.findings
        if not self.text.strip():
            findings.fault("unknown-name", place, f"an entry from {SHARED}, and no such file",
                           f"a file with {_NAMED} in it",
                           f"Write {SHARED}, or write the entry here.")
            return None
        node, problems = parse_source(self.text, name=SHARED)
        findings.problems += problems
        if node is None or has_errors(problems):
            return None
        if not isinstance(node, Table):
            findings.fault("wrong-shape", node.place, f"no mapping in {SHARED}", "a mapping",
                           f"Write entries under {_NAMED}.")
            return None
        for key, keyed in node.entries.items():
            if key not in SECTIONS:
                expected, remedy = suggest(key, SECTIONS,
                                           "Delete it, or write it into the patterns.")
                findings.fault("unknown-key", keyed.place,
                               f'the unknown key "{clip(key)}" in {SHARED}', expected, remedy)
        return node


def _entries(keyed: Keyed | None) -> Mapping[str, Keyed]:
    return keyed.node.entries if keyed is not None and isinstance(keyed.node, Table) else {}

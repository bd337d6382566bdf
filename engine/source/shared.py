"""What several patterns use and a collection writes once: entries taken from its shared file.

An entry of a pattern says `shared`, or `shared NAME` where it has another name in that file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from ..core.problems import Place, Problem, has_errors
from ..core.text import clip, suggest
from .fields import Findings
from .keys.head import PatternKeys
from .page_names import SHARED
from .source import Keyed, Node, Scalar, Table, parse_source

SECTIONS = tuple(key.name for key in PatternKeys.keys.values() if key.shared)
_ASKED = re.compile(r"shared(?: +(\S.*))?")


@dataclass(frozen=True, slots=True)
class _Asked:
    """An entry that is to be taken from the shared file: under which key, and its name there."""

    section: str
    label: str
    name: str
    place: Place


def with_shared(node: Node, text: str) -> tuple[Node | None, tuple[Problem, ...]]:
    """Return a pattern's tree with its shared entries, and all findings; None with an error.

    `text` is the shared file, "" where there is none. It is read only when an entry asks for it.
    """
    asked = list(_asked(node))
    if not asked or not isinstance(node, Table):
        return node, ()
    findings = Findings()
    there = _sections(findings, text, asked[0].place)
    entries = dict(node.entries)
    for each in asked:
        section = entries[each.section]
        found = _taken(findings, there, each) if there is not None else None
        if found is not None and isinstance(section.node, Table):
            own = dict(section.node.entries)
            own[each.label] = own[each.label]._replace(node=found)
            entries[each.section] = section._replace(node=replace(section.node, entries=own))
    problems = tuple(findings.problems)
    return (None if has_errors(problems) else replace(node, entries=entries)), problems


def _asked(node: Node) -> Iterator[_Asked]:
    for section in SECTIONS:
        keyed = node.entries.get(section) if isinstance(node, Table) else None
        for label, entry in _entries(keyed).items():
            said = entry.node
            if isinstance(said, Scalar) and (asked := _ASKED.fullmatch(said.text)):
                yield _Asked(section, label, asked[1] or label, said.place)


def _entries(keyed: Keyed | None) -> Mapping[str, Keyed]:
    return keyed.node.entries if keyed is not None and isinstance(keyed.node, Table) else {}


def _sections(findings: Findings, text: str, asked: Place) -> Table | None:
    """The shared file; None once it is recorded what keeps it from being used."""
    if not text.strip():
        findings.fault("unknown-name", asked, f"an entry from {SHARED}, and no such file",
                       f'a file with {" or ".join(SECTIONS)} in it',
                       f"Write {SHARED}, or write the entry here.")
        return None
    node, problems = parse_source(text, name=SHARED)
    findings.problems += problems
    if node is None or has_errors(problems):
        return None
    if not isinstance(node, Table):
        findings.fault("wrong-shape", node.place, f"no mapping in {SHARED}", "a mapping",
                       f'Write entries under {" or ".join(SECTIONS)}.')
        return None
    for key, keyed in node.entries.items():
        if key not in SECTIONS:
            findings.fault("unknown-key", keyed.place, f'the unknown key "{clip(key)}" in {SHARED}',
                           " or ".join(f'"{section}"' for section in SECTIONS),
                           "Delete it, or write it into the patterns.")
    return node


def _taken(findings: Findings, there: Table, asked: _Asked) -> Node | None:
    """The entry that is asked for; None once it is recorded that there is none."""
    known = _entries(there.entries.get(asked.section))
    if asked.name in known:
        return known[asked.name].node
    what = asked.section.removesuffix("s")
    expected, remedy = suggest(asked.name, known, "Use one of these, or add it there.",
                               "Add it there, or write it here.")
    findings.fault("unknown-name", asked.place,
                   f'no {what} called "{clip(asked.name)}" in {SHARED}', expected, remedy)
    return None

"""Keys that had another name before: read under the new one, and rewritten in a text.

A declaration names them (`Key.former`). Readers know the new names only.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from ..core.problems import Place
from ..machine.records import dataclass
from .fields import Findings
from .keys.key import Keys, Several
from .source import Keyed, Listing, Node, Table, parse_source

_LINE_ENDS = re.compile("(\r\n|\r|\n)")


@dataclass(frozen=True, slots=True)
class Renamed:
    """A key that stands under its `old` name at `place`."""

    place: Place
    old: str
    new: str


def with_new_names(findings: Findings, node: Node, table: type[Keys]) -> Node:
    """Return the tree with the new name of every key, a warning recorded for each old one."""
    renamed: list[Renamed] = []
    made = _renewed(node, table, renamed)
    for each in renamed:
        findings.warn("former-key", each.place, f'"{each.old}", the former name of a key',
                      f'"{each.new}"', f"Write {each.new}, or run walebook fix.")
    return made


def rewritten(text: str, table: type[Keys], *, name: str) -> tuple[str, tuple[Renamed, ...]]:
    """Return a source with the new name of every key, all else as it is, and what was rewritten.

    A text that cannot be read comes back as it is.
    """
    node, _ = parse_source(text, name=name)
    renamed: list[Renamed] = []
    if node is not None:
        _renewed(node, table, renamed)
    parts = _LINE_ENDS.split(text)
    done = []
    for each in sorted(renamed, key=lambda each: each.place.column, reverse=True):
        index = 2 * (each.place.line - 1)
        line, start = parts[index], each.place.column - 1
        start += line[start:start + 1] in ("'", '"')
        if line.startswith(each.old, start):  # not where it is spelt with escapes
            parts[index] = line[:start] + each.new + line[start + len(each.old):]
            done.append(each)
    return "".join(parts), tuple(done)


def _renewed(node: Node, table: type[Keys], renamed: list[Renamed]) -> Node:
    """The mapping with new names, and those under it, each renaming noted."""
    if not isinstance(node, Table):
        return node
    former = {old: key.name for key in table.keys.values() for old in key.former}
    entries: dict[str, Keyed] = {}
    for old, keyed in node.entries.items():
        name = old if former.get(old, old) in node.entries else former.get(old, old)
        if name != old:
            renamed.append(Renamed(keyed.place, old, name))
        key, below = table.keys.get(name), keyed.node
        if key is not None and key.table is not None:
            below = _below(below, key.table, isinstance(key.read, Several), renamed)
        entries[name] = keyed._replace(node=below)
    return replace(node, entries=entries)


def _below(node: Node, table: type[Keys], several: bool, renamed: list[Renamed]) -> Node:
    """What stands under a key: one mapping, or several by name or in a list."""
    if several and isinstance(node, Listing):
        return replace(node, items=tuple(_renewed(item, table, renamed) for item in node.items))
    if several and isinstance(node, Table):
        return replace(node, entries=dict(_each(node, table, renamed)))
    return _renewed(node, table, renamed)


def _each(node: Table, table: type[Keys], renamed: list[Renamed]) -> Iterator[tuple[str, Keyed]]:
    for name, keyed in node.entries.items():
        yield name, keyed._replace(node=_renewed(keyed.node, table, renamed))

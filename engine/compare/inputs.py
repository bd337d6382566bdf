"""The inputs of a pattern that moved: its sources' values, each with its key and its place."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import field, replace
from itertools import zip_longest

from ..core.problems import Place
from ..core.text import clip
from ..machine.records import dataclass
from ..source.source import Keyed, Listing, Node, Scalar, Table, plain

Path = tuple[str | int, ...]
Files = Mapping[str, Node]
"""The trees of the files that a pattern is read from, by their names.

One that cannot be read as YAML is a text, as its notes are.
"""
_SOURCE = "/pattern.yaml"
MOST = 24
"""More inputs than this that moved are taken together by the key they stand under."""


@dataclass(frozen=True, slots=True)
class Input:
    """A value of a source that is another one now: `path` leads to it from the top of its file.

    `before` or `after` is None where it is not there. `order` is true where a mapping has the same
    keys in another order.
    """

    file: str
    path: Path
    before: Node | None = field(compare=False)
    after: Node | None = field(compare=False)
    order: bool = False

    @property
    def key(self) -> str:
        """Its key as a source's reader writes it: "garment.measures.body_length"."""
        return ".".join(str(part + 1) if isinstance(part, int) else part for part in self.path)

    @property
    def place(self) -> Place:
        """Where it stands now, or where it stood."""
        node = self.after or self.before
        assert node is not None
        return node.place


def is_unread(one: Input, node: Node | None) -> bool:
    """Return True where a side of an input is a whole source that is no mapping or list."""
    return not one.path and one.file.endswith(".yaml") and isinstance(node, Scalar)


def moved(before: Files, after: Files) -> tuple[Input, ...]:
    """Return every value that is not as it was, in the order of the files; at most about `MOST`.

    Where there are more, values under one key are taken as one: the finest parts that are few
    enough. One value in the place of which each size has its own now is held to that of each.
    """
    sizes = frozenset(label for file, node in after.items() if file.endswith(_SOURCE)
                      for label in _sizes(node))
    found = tuple(one for file in dict.fromkeys((*after, *before))
                  for one in _between(file, (), before.get(file), after.get(file), sizes))
    while len(found) > MOST and (deepest := max(len(one.path) for one in found)):
        paths = dict.fromkeys((one.file, one.path[:deepest - 1]) for one in found)
        found = tuple(Input(file, path, value_at(before.get(file), path),
                            value_at(after.get(file), path)) for file, path in paths)
    return found


def with_new_names(files: Files, now: Files, names: Mapping[str, str]) -> Files:
    """Return files with the new names of sizes wherever the files `now` have these instead: of what
    stands under them, and where they are listed. A size chart keeps its own.
    """
    return {file: _called(node, now.get(file), names) for file, node in files.items()} \
        if names else files


def _called(node: Node, now: Node | None, names: Mapping[str, str]) -> Node:
    if isinstance(node, Table) and isinstance(now, Table):
        there = {name: new if (new := names.get(name, name)) in now.entries
                 and name not in now.entries else name for name in node.entries}
        return replace(node, entries={
            there[name]: Keyed(keyed.place, _called(
                keyed.node, found.node if (found := now.entries.get(there[name])) else None, names))
            for name, keyed in node.entries.items()})
    if isinstance(node, Listing) and isinstance(now, Listing):
        return replace(node, items=tuple(
            _called(one, other, names) for one, other in zip_longest(node.items, now.items)
            if one is not None))
    if isinstance(node, Scalar) and isinstance(now, Scalar) and names.get(node.text) == now.text:
        return replace(node, text=now.text)
    return node


def _sizes(node: Node) -> Iterator[str]:
    """The sizes of a pattern by the labels under which its source has their values."""
    listed = value_at(node, ("sizes",))
    for one in listed.items if isinstance(listed, Listing) else ():
        name = value_at(one, ("label",)) or one
        if isinstance(name, Scalar):
            yield name.text


def _between(file: str, path: Path, before: Node | None, after: Node | None,
             sizes: Collection[str]) -> Iterator[Input]:
    if isinstance(before, Table) and isinstance(after, Table):
        for name in dict.fromkeys((*after.entries, *before.entries)):
            old, new = before.entries.get(name), after.entries.get(name)
            yield from _between(file, (*path, name), old.node if old else None,
                                new.node if new else None, sizes)
        if _order(before, after) != _order(after, before):
            yield Input(file, path, before, after, order=True)
    elif isinstance(before, Listing) and isinstance(after, Listing) \
            and len(before.items) == len(after.items):
        for number, (one, other) in enumerate(zip(before.items, after.items, strict=True)):
            yield from _between(file, (*path, number), one, other, sizes)
    elif isinstance(before, Scalar) and isinstance(after, Table) and sizes == set(after.entries):
        for name, keyed in after.entries.items():
            yield from _between(file, (*path, name), before, keyed.node, sizes)
    elif plain(before) != plain(after):
        yield Input(file, path, before, after)


def _order(one: Table, other: Table) -> list[str]:
    return [name for name in one.entries if name in other.entries]


def value_at(node: Node | None, path: Path) -> Node | None:
    """Return what stands at a path, None where nothing does."""
    for part in path:
        if isinstance(node, Table) and isinstance(part, str) and part in node.entries:
            node = node.entries[part].node
        elif isinstance(node, Listing) and isinstance(part, int) and part < len(node.items):
            node = node.items[part]
        else:
            return None
    return node


def set_back(files: Files, inputs: Iterable[Input]) -> dict[str, Node]:
    """Return the files with these inputs as they were before, and all else as it is.

    An order is set back after the values, so that it is that of the keys that are there.
    """
    made = dict(files)
    for one in sorted(inputs, key=lambda one: one.order):
        if one.order:
            node = value_at(made.get(one.file), one.path)
            if isinstance(node, Table) and isinstance(one.before, Table):
                made[one.file] = _put(made[one.file], one.path, _ordered(node, one.before))
        elif not one.path:
            made.pop(one.file, None)
            made |= {one.file: one.before} if one.before is not None else {}
        elif one.file in made:
            made[one.file] = _put(made[one.file], one.path, one.before)
    return made


def _ordered(node: Table, like: Table) -> Table:
    names = [*_order(like, node), *(name for name in node.entries if name not in like.entries)]
    return replace(node, entries={name: node.entries[name] for name in names})


def _put(node: Node, path: Path, value: Node | None) -> Node:
    """The tree with another value at a path, or with none there."""
    if not path:
        assert value is not None
        return value
    first, *rest = path
    if isinstance(node, Listing) and isinstance(first, int) and first < len(node.items):
        items = list(node.items)
        items[first] = _put(items[first], tuple(rest), value)
        return replace(node, items=tuple(items))
    if not isinstance(node, Table) or not isinstance(first, str):
        return node
    entries = dict(node.entries)
    if rest and first in entries:
        entries[first] = Keyed(entries[first].place, _put(entries[first].node, tuple(rest), value))
    elif not rest and value is None:
        entries.pop(first, None)
    elif not rest and value is not None:
        entries[first] = Keyed(value.place, value)
    return replace(node, entries=entries)


def as_text(node: Node) -> str:
    """Return a tree as a source that is read to the same values, every one in quotes."""
    return json.dumps(plain(node), ensure_ascii=False)


def shown(node: Node | None) -> str:
    """Return a value as one short line of a source; "" for none."""
    return "" if node is None else clip(_flow(node))


def _flow(node: Node) -> str:
    if isinstance(node, Table):
        return "{" + ", ".join(f"{name}: {_flow(keyed.node)}"
                               for name, keyed in node.entries.items()) + "}"
    if isinstance(node, Listing):
        return "[" + ", ".join(map(_flow, node.items)) + "]"
    return node.text or "(empty)"

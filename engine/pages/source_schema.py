"""The JSON Schema of pattern sources, beds and size charts, made from the declared keys.

An editor can complete keys and words by it, and mark an unknown key. It knows no figures: a length
is a text there, and `walebook check` reads it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from ..source.keys.key import Key, Keys, Mapped, Several
from ..source.keys.whole import within
from ..source.values import Word
from ..words.keys import explained

DRAFT = "https://json-schema.org/draft/2020-12/schema"
Schema = dict[str, Any]
# YAML has 4 and 7.5 as numbers, 2026-11-20 as a text, and yes and no, by its version, as either.
_SCALAR: Schema = {"type": ["string", "number"]}
_SHARED: Schema = {"type": "string", "pattern": r"^shared( +\S.*)?$"}
_YES_NO = {"yes": True, "no": False}


def source_schema(root: type[Keys]) -> Schema:
    """Return the JSON Schema (draft 2020-12) of a file whose keys are in the table `root`."""
    return {"$schema": DRAFT, "title": root.__doc__, **_table(root),
            "$defs": {table.__name__: _table(table) for table in within(root) if table is not root}}


def _table(table: type[Keys]) -> Schema:
    """A mapping: its keys, those that it needs, and of which others it needs one."""
    keys = table.keys.values()
    made: Schema = {"type": "object", "additionalProperties": False, "properties": {
        **{key.name: _entry(key, table) for key in keys},
        **{former: {**_value(key), "deprecated": True} for key in keys for former in key.former}}}
    needed = [_any_of([key.name, *key.former]) for key in keys if key.needed]
    groups = {tuple(n for n in table.keys if n in (key.name, *key.or_else))
              for key in keys if key.or_else}
    needed += [_any_of(group) for group in sorted(groups)]
    return {**made, "allOf": needed} if needed else made


def _any_of(names: Iterable[str]) -> Schema:
    return _either([{"required": [name]} for name in names])


def _entry(key: Key[Any], table: type[Keys]) -> Schema:
    return {"description": explained(key, table), **_value(key)}


def _value(key: Key[Any]) -> Schema:
    """What may stand under a key: a value, a mapping in its place, or either for every size."""
    ways = [_read(key.read)]
    written = [key.example, *key.likely]
    if ways[0] == _SCALAR and any(value.startswith("[") for value in written):
        ways = [{"type": "array", "items": _SCALAR}]
    if key.shared:
        entry = ways[0]["additionalProperties"]
        ways[0] = {**ways[0], "additionalProperties": _either([entry, _SHARED])}
    if key.inside:
        ways.append(_of(key.inside))
    by_piece = isinstance(key.read, Word) and any(value.startswith("{") for value in written)
    if key.by_size or by_piece:
        ways.append({"type": "object", "additionalProperties": ways[0]})
    return _either(ways)


def _either(ways: list[Schema]) -> Schema:
    return ways[0] if len(ways) == 1 else {"anyOf": ways}


def _of(table: type[Keys]) -> Schema:
    return {"$ref": f"#/$defs/{table.__name__}"}


def _read(read: object) -> Schema:
    if isinstance(read, Word):
        words = list(read.choices)
        return {"enum": [*words, *(_YES_NO[word] for word in words if word in _YES_NO)]}
    if isinstance(read, Mapped):
        return _of(read.keys)
    if not isinstance(read, Several):
        return _SCALAR
    items = [_of(read.keys)] if read.keys else []
    if not items or isinstance(read.item, Word):
        items.append(_read(read.item))
    if read.by_name and not read.keys:
        items.append({"type": "object", "additionalProperties": items[0]})  # for some sizes
    item = _either(items)
    if read.by_name:
        return {"type": "object", "additionalProperties": item, "maxProperties": read.most}
    return {"type": "array", "items": item, "maxItems": read.most}

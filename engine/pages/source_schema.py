"""The JSON Schema of pattern sources, beds and size charts, made from the declared keys.

An editor can complete keys and words by it, and mark an unknown key or a value that is misspelt
(`value_shapes`). What needs more of the file than one mapping is left to `walebook check`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from ..forms.registry import FORMS
from ..source.keys.fabric_keys import PackageKeys, YarnKeys
from ..source.keys.garment_keys import GarmentKeys
from ..source.keys.key import WORDS, Key, Keys, Mapped, Several
from ..source.keys.whole import within
from ..source.values import Word
from ..words import value_hints as words
from ..words.keys import explained
from .value_shapes import NAME, Schema, value_shape

DRAFT = "https://json-schema.org/draft/2020-12/schema"
_LINK = re.compile(r"\[([^\]]+)\]\([^)]+\)")  # an editor has no page for it to lead to
_SHARED: Schema = {"type": "string", "pattern": r"^shared( +\S.*)?$"}


def source_schema(root: type[Keys]) -> Schema:
    """Return the JSON Schema (draft 2020-12) of a file whose keys are in the table `root`."""
    return {"$schema": DRAFT, "title": root.__doc__, **_table(root),
            "$defs": {table.__name__: _table(table) for table in within(root) if table is not root}}


def _table(table: type[Keys]) -> Schema:
    """A mapping: its keys, those that it needs, of which others it needs one, and no two."""
    keys = table.keys.values()
    made: Schema = {"type": "object", "additionalProperties": False, "minProperties": 1,
                    "properties": {
        **{key.name: _entry(key, table) for key in keys},
        **{former: {**_value(key), "deprecated": True} for key in keys for former in key.former}}}
    needed = [_any_of([key.name, *key.former]) for key in keys if key.needed]
    groups = {tuple(n for n in table.keys if n in (key.name, *key.or_else))
              for key in keys if key.or_else}
    needed += [_any_of(group) for group in sorted(groups)]
    needed += [_LENGTH_OR_COUNT] * (table is YarnKeys)
    if apart := {key.name: _without(key) for key in keys if key.instead_of}:
        made["dependentSchemas"] = apart
    if beside := {key.name: list(key.needs) for key in keys if key.needs}:
        made["dependentRequired"] = beside
    return {**made, "allOf": needed} if needed else made


# A package without a length is that of a yarn with a count, which says how long it is.
_LENGTH_OR_COUNT: Schema = {"anyOf": [
    {"required": [YarnKeys.count.name]}, {"not": {"required": [YarnKeys.package.name]}},
    {"properties": {YarnKeys.package.name: {"required": [PackageKeys.length.name]}}}]}


def _without(key: Key[Any]) -> Schema:
    """A mapping with that key, and with none of those that it stands instead of."""
    return {"properties": dict.fromkeys(key.instead_of, False),
            "errorMessage": words.instead(key.name, key.instead_of)}


def _any_of(names: Iterable[str]) -> Schema:
    return _either([{"required": [name]} for name in names])


def _entry(key: Key[Any], table: type[Keys]) -> Schema:
    text = _LINK.sub(r"\1", explained(key, table))
    return {"description": text.replace("`", ""), "markdownDescription": text, **_value(key)}


def _value(key: Key[Any]) -> Schema:
    """What may stand under a key: a value, a mapping in its place, or either for every size."""
    schemas: list[Schema] = [{"enum": list(FORMS)} if key is GarmentKeys.form else _read(key.read)]
    written = [key.example, *key.likely]
    if key.shared and isinstance(key.read, Several):
        each = "additionalProperties" if key.read.by_name else "items"
        schemas[0] = {**schemas[0], each: _either([schemas[0][each], _SHARED])}
    elif key.shared and key.table:
        schemas.append(_SHARED)
    if isinstance(key.read, Several) and key.read.by_name and _is_named(key.example):
        schemas[0] = {**schemas[0], "propertyNames": {
            "pattern": NAME, "patternErrorMessage": words.NAME}}
    if key.inside:
        schemas.append(_of(key.inside))
    by_piece = isinstance(key.read, Word) and any(value.startswith("{") for value in written)
    if key.by_size or by_piece:
        schemas[0] = _or_by_name(schemas[0])
    return _either(schemas)


def _or_by_name(schema: Schema) -> Schema:
    """The value, or a mapping with one for each; in one schema, so that its message is the way's.

    What is said of texts and numbers says nothing of a mapping, nor the other way round.
    """
    by_name = {"additionalProperties": schema, "minProperties": 1}
    if "type" not in schema:
        return _either([schema, {"type": "object", **by_name}])
    kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    return {**schema, "type": [*kinds, "object"], **by_name}


def _is_named(example: str) -> bool:
    """True where the designer names the entries: their keys are names, no marks and no sizes."""
    found = re.match(r"\{([^:]+):", example)
    return bool(found and re.fullmatch(NAME, found[1]))


def _either(schemas: list[Schema]) -> Schema:
    return schemas[0] if len(schemas) == 1 else {"anyOf": schemas}


def _of(table: type[Keys]) -> Schema:
    return {"$ref": f"#/$defs/{table.__name__}"}


def _read(read: object) -> Schema:
    if isinstance(read, Mapped):
        return _of(read.keys)
    if not isinstance(read, Several):
        return value_shape(read)
    items = [_of(read.keys)] if read.keys else []
    if not items or read.item != WORDS:
        items.append(value_shape(read.item))
    if read.by_name and not read.keys:
        items.append({"type": "object", "additionalProperties": items[0]})  # for some sizes
    item = _either(items)
    if read.by_name:
        return {"type": "object", "additionalProperties": item, "minProperties": 1,
                "maxProperties": read.most}
    return {"type": "array", "items": item, "minItems": read.least, "maxItems": read.most}

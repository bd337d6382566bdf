"""Words for a key of a pattern source: what it means, its limits, and an example."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..source.keys.key import Key, Keys, Several
from ..source.values import Figure, Text, Word


def explained(key: Key[Any], table: type[Keys]) -> str:
    """Return what a key means, its limits, what holds where it is left out, and an example."""
    read, text = key.read, key.meaning
    one = read.item if isinstance(read, Several) else read
    if isinstance(one, Figure):
        text = text.replace("{range}", one.range.limits)
    if isinstance(read, Word):
        text = text.replace("{words}", _either([f"`{word}`" for word in read.choices], "or"))
    if isinstance(read, Text) and read == Text(read.most):
        text += f" Up to {read.most} characters."
    if key.shared:
        it = "An entry" if isinstance(read, Several) else "It"
        text += f" {it} may be [`shared`](source.md#shared) by several patterns."
    if key.or_else:
        names = [f"`{name}`" for name in table.keys if name in (key.name, *key.or_else)]
        text += f" One of {_either(names, 'and')} is needed."
    elif key.needed:
        text += " Needed."
    elif key.left_out:
        text += f" Default: {key.left_out}."
    if key.idle_beside:
        text += f" Does nothing beside {_either([f'`{name}`' for name in key.idle_beside], 'or')}."
    if key.former:
        text += f" Before: {_either([f'`{name}`' for name in key.former], 'or')}."
    if key.line not in text and "..." not in key.line:
        text += f" Example: `{key.line}`."
    return f"{text} Since version {key.since}." if key.since else text


def _either(words: Sequence[str], joined: str) -> str:
    return f"{', '.join(words[:-1])} {joined} {words[-1]}" if len(words) > 1 else words[0]

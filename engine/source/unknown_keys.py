"""What is said of a key that a mapping does not have: what was most likely meant, what to write."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import TypeAlias

from ..core.problems import Problem, error
from ..core.text import clip, nearest, suggest
from .source import Keyed, Node, Scalar, Table

# From the value of an unknown key: the key most likely meant, and the remedy that says so.
Guess: TypeAlias = Callable[[Node], "tuple[str, str] | None"]

_DECIMALS = re.compile(r"[0-9]{1,3}(?: ?[a-z%\"]{1,6})?")  # what a decimal comma cuts off
_WHOLE = re.compile(r"(?:.*[-+*/( ])?[0-9]{1,6}")  # alone, or the end of a sum
_CLOSE = re.compile(r"([\w-]+):(\S.*)")  # a key in braces whose colon has no space behind it
_RATE = re.compile(r"(?:and )?then .+|every .+")  # what the comma between two rates cuts off


def rejoined(table: Table) -> tuple[Table, tuple[Problem, ...]]:
    """Return a mapping in which a decimal comma is read as a point, with a finding for each: in
    braces such a comma cuts a value in two, as in `{width: 14,2 cm}`."""
    entries: dict[str, Keyed] = {}
    found = []
    last = ""
    for key, keyed in table.entries.items():
        before = entries[last].node if last else None
        cut = isinstance(keyed.node, Scalar) and not keyed.node.text and _DECIMALS.fullmatch(key)
        if cut and isinstance(before, Scalar) and _WHOLE.fullmatch(before.text):
            found.append(error(
                "unknown-key", before.place, found=f'"{before.text},{key}" in braces',
                expected="a point before the decimals",
                remedy=f"Write {before.text}.{key}: in braces a comma begins the next entry."))
            entries[last] = entries[last]._replace(
                node=replace(before, text=f"{before.text}.{key}"))
            continue
        entries[key], last = keyed, key
    return replace(table, entries=entries), tuple(found)


def unknown_key(key: str, keyed: Keyed, what: str, known: tuple[str, ...], guess: Guess | None
                ) -> tuple[Problem, str | None]:
    """Return the finding of an unknown key, and the key that it most likely stands for, if any."""
    found = f'the unknown key "{clip(key)}" in {what}'
    if _RATE.fullmatch(key) and isinstance(keyed.node, Scalar) and not keyed.node.text:
        return error("unknown-key", keyed.place, found=f"{found}, behind a comma",
                     expected="all rates of a slope in one value", remedy="Leave the comma before "
                     "then out, or put the rates in quotes: in braces a comma begins the next "
                     "entry."), None
    close = _CLOSE.fullmatch(key)
    if close and close[1] in known and isinstance(keyed.node, Scalar) and not keyed.node.text:
        place = replace(keyed.place, column=keyed.place.column + close.end(1))
        return error("unknown-key", place, found=f'"{clip(key)}", a colon without a space behind '
                     "it", expected="a space between a key and its value",
                     remedy=f"Write {close[1]}: {clip(close[2])}."), close[1]
    near = nearest(key, known)
    expected, remedy = suggest(key, known, "Delete it, or put it where it belongs.")
    guessed = guess(keyed.node) if guess and not near else None
    if guessed:
        near, remedy = guessed
        expected = f'"{near}"'
    return error("unknown-key", keyed.place, found=found, expected=expected, remedy=remedy), near

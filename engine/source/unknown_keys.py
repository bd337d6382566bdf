"""What is said of a key that a mapping does not have: what was most likely meant, what to write."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeAlias

from ..core.problems import Problem, error
from ..core.text import clip, nearest, suggest
from .source import Keyed, Node, Scalar

# From the value of an unknown key: the key most likely meant, and the remedy that says so.
Guess: TypeAlias = Callable[[Node], "tuple[str, str] | None"]

_DECIMALS = re.compile(r"[0-9]{1,3}(?: ?[a-z%\"]{1,6})?")  # what a decimal comma cuts off
_RATE = re.compile(r"(?:and )?then .+|every .+")  # what the comma between two rates cuts off


def unknown_key(key: str, keyed: Keyed, what: str, known: tuple[str, ...], guess: Guess | None
                ) -> tuple[Problem, str | None]:
    """Return the finding of an unknown key, and the key that it most likely stands for, if any."""
    found = f'the unknown key "{clip(key)}" in {what}'
    if _DECIMALS.fullmatch(key) and isinstance(keyed.node, Scalar) and not keyed.node.text:
        return error("unknown-key", keyed.place, found=f"{found}, behind a comma",
                     expected="one value and its decimals", remedy="Write a point for the decimal "
                     "comma: a comma begins the next entry."), None
    if _RATE.fullmatch(key) and isinstance(keyed.node, Scalar) and not keyed.node.text:
        return error("unknown-key", keyed.place, found=f"{found}, behind a comma",
                     expected="all rates of a slope in one value", remedy="Leave the comma before "
                     "then out, or put the rates in quotes: in braces a comma begins the next "
                     "entry."), None
    near = nearest(key, known)
    expected, remedy = suggest(key, known, "Delete it, or put it where it belongs.")
    guessed = guess(keyed.node) if guess and not near else None
    if guessed:
        near, remedy = guessed
        expected = f'"{near}"'
    return error("unknown-key", keyed.place, found=found, expected=expected, remedy=remedy), near

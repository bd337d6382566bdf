"""The tree of a measure's text: figures, names, operators and calls, and faults in the text."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TypeAlias

from ..machine.records import dataclass


class ExpressionFault(Exception):
    """What is wrong in the text of a measure, `at` which character (from 0)."""

    def __init__(self, code: str, at: int, found: str, expected: str, remedy: str) -> None:
        super().__init__(found)
        self.code, self.at = code, at
        self.found, self.expected, self.remedy = found, expected, remedy


@dataclass(frozen=True, slots=True)
class Number:
    """A figure as written: a length [mm], a plain number, or a length as a count `of` what it
    counts, "stitch" or "row": so many of them are as long as the gauge says."""

    value: Fraction
    is_length: bool
    text: str
    at: int
    of: str = ""


@dataclass(frozen=True, slots=True)
class MeasureName:
    """A measure or body measurement."""

    name: str
    at: int


@dataclass(frozen=True, slots=True)
class Negated:
    """Something with a minus before it."""

    of: MeasureTree
    at: int


@dataclass(frozen=True, slots=True)
class Operation:
    """Two things with one of + - * / between them."""

    sign: str
    left: MeasureTree
    right: MeasureTree
    at: int


@dataclass(frozen=True, slots=True)
class Call:
    """One of min, max and round_to, with what stands in its brackets."""

    name: str
    arguments: tuple[MeasureTree, ...]
    at: int


MeasureTree: TypeAlias = Number | MeasureName | Negated | Operation | Call


def within(tree: MeasureTree) -> Iterator[MeasureTree]:
    """The tree and all its parts, in the order written."""
    if isinstance(tree, Operation):
        yield from within(tree.left)
    yield tree
    if isinstance(tree, Operation):
        yield from within(tree.right)
    elif isinstance(tree, Negated):
        yield from within(tree.of)
    elif isinstance(tree, Call):
        for argument in tree.arguments:
            yield from within(argument)

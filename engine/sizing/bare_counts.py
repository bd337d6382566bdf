"""Measures that are written as a count and nothing else, such as `80 stitches`."""

from __future__ import annotations

from .expression_tree import ExpressionFault, Number
from .expressions import parse_expression


def bare_count(text: str) -> Number | None:
    """Return the count that a measure is written as; None for any other text."""
    try:
        tree = parse_expression(text)
    except ExpressionFault:
        return None
    return tree if isinstance(tree, Number) and tree.of else None

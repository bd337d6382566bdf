"""Where a sum that is written out has brackets."""

from __future__ import annotations

from ...core.branched import shown
from ...core.expression import Difference, Expression, Product, Quotient, Sum
from ...core.expression_parts import inside
from ...core.note_arguments import Noted
from ...core.operands import Role
from ...core.roots import Root
from .as_printed import FIGURES, WHOLE

_BRACKETS = frozenset({Role.ALLOWANCE, Role.TITLED, Role.ALONG})  # their words have brackets
_WITH_BRACKETS = (Sum, Difference, Root, Noted)


def is_bracketed(term: Expression) -> bool:
    """True for a product among the terms of a sum, unless brackets would stand in brackets."""
    return isinstance(term, Product | Quotient) and is_bare(term)


def is_bare(tree: Expression) -> bool:
    """True for what is written without brackets, whatever it is made of."""
    if isinstance(tree := shown(tree), FIGURES):
        return tree.role not in _BRACKETS
    if isinstance(tree, WHOLE):  # written as its value
        return True
    return not isinstance(tree, _WITH_BRACKETS) and all(map(is_bare, inside(tree)))

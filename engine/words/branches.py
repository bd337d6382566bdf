"""Words for one of two ways in which a figure is calculated: a choice that was made, or a sum."""

from __future__ import annotations

from ..core.counts import decimal
from ..core.expression import Chosen, Difference, Expression, LookUp, Operand, Rounded, Sum, Term
from ..core.expression_parts import inside
from ..core.note_arguments import Noted
from .terms.calculation_notes import REASONS
from .terms.operand_words import WORDS
from .terms.working import as_shown, sum_text

_MOST = 4  # figures of a sum that are written out
_DECIMALS = 2


def branches_text(before: Expression, after: Expression) -> str:
    """Return how a figure was calculated and how it is: "75, the least there is → 78, without"."""
    before, after = _bare(before), _bare(after)
    if isinstance(before, Chosen) or isinstance(after, Chosen):
        return f"{_choice_text(before)} → {_choice_text(after)}"
    return f"{_sum_text(before)} → {_sum_text(after)}"


def _bare(tree: Expression) -> Expression:
    """A calculation without its notes, and without the name of the count that it is."""
    while isinstance(tree, Noted | Term):
        tree = tree.of
    return tree


def _choice_text(tree: Expression) -> str:
    """What was chosen and why; of what was calculated and stayed, that there was no choice."""
    if not isinstance(tree, Chosen) or tree.taken is tree.candidates[0]:
        return f"{_value(tree)} as calculated"
    total = decimal(tree.given[0].value, _DECIMALS) if tree.given else ""
    return REASONS[tree.why].format(value=_value(tree), total=total, others=len(tree.given),
                                    unit="").rstrip()


def _sum_text(tree: Expression) -> str:
    """A sum with its figures, where these are few."""
    made = tree.of if isinstance(tree, Rounded) else tree
    parts = len(inside(made))
    if parts > _MOST:
        return f"{_value(tree)}, the sum of {parts} figures"
    text = sum_text(made, as_shown(made))
    if isinstance(made, Operand | Term | LookUp):
        return text
    return f"{text} = {_length(made) if _is_length(made) else _value(tree)}"


def _is_length(made: Expression) -> bool:
    """True for lengths that are added up or taken from each other."""
    return isinstance(made, Sum | Difference) and all(
        isinstance(one, Operand | Term) and WORDS[one.role].unit == "mm" for one in inside(made))


def _length(made: Expression) -> str:
    """A length with the unit that its figures have beside it."""
    in_cm = any(WORDS[one.role].long == "cm" for one in inside(made)
                if isinstance(one, Operand | Term))
    return f"{decimal(made.value / 10, _DECIMALS)} cm" if in_cm else f"{_value(made)} mm"


def _value(tree: Expression) -> str:
    return decimal(tree.value, _DECIMALS)

"""Words for one of two ways in which a figure is calculated: a choice that was made, or a sum."""

from __future__ import annotations

from collections.abc import Mapping

from ..core.branched import shown
from ..core.counts import Unit, decimal
from ..core.expression import (
    Chosen,
    Difference,
    Expression,
    LookUp,
    Operand,
    Product,
    Quotient,
    Rounded,
    Sum,
    Term,
)
from ..core.expression_parts import inside
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Role
from .terms.calculation_notes import REASONS
from .terms.operand_words import WORDS
from .terms.working import as_shown, sum_text

_MOST = 4  # figures of a sum that are written out
_DECIMALS = 2
_LONG = "mm"
_NAMES_UNIT = (ChoiceReason.SECTIONS, ChoiceReason.BAND)  # at the end of its sentence
_STITCHES, _ROWS = Unit.STITCHES.value, Unit.ROWS.value
_A_STITCH, _A_ROW = f"{_LONG} a stitch", f"{_LONG} a row"
_PITCHES = {Role.STITCH_WIDTH: _A_STITCH, Role.BAND_STITCH: _A_STITCH, Role.ROW_HEIGHT: _A_ROW,
            Role.BAND_ROW: _A_ROW}
_ALIKE = (Chosen, Difference, Noted, Rounded, Sum)  # of one unit with their parts
_PRODUCTS: Mapping[tuple[type, tuple[str, ...]], str] = {
    (Product, (_LONG, f"{_STITCHES} per mm")): _STITCHES,
    (Product, (_LONG, f"{_ROWS} per mm")): _ROWS,
    (Quotient, (_LONG, _A_STITCH)): _STITCHES, (Quotient, (_LONG, _A_ROW)): _ROWS,
    (Product, (_STITCHES, _A_STITCH)): _LONG, (Product, (_ROWS, _A_ROW)): _LONG}


def branches_text(before: Expression, after: Expression, unit: str = "") -> str:
    """Return how a figure was calculated and how it is: "75, the least there is → 78, without"; of
    this `unit`, or of that of its figures."""
    before, after = _bare(before), _bare(after)
    unit = unit or unit_of(before) or unit_of(after)
    if isinstance(before, Chosen) or isinstance(after, Chosen):
        return f"{_choice_text(before, unit)} → {_choice_text(after, unit)}"
    return f"{_sum_text(before, unit)} → {_sum_text(after, unit)}"


def _bare(tree: Expression) -> Expression:
    """A calculation without its notes, and without the name of the count that it is."""
    while isinstance(tree, Noted | Term):
        tree = tree.of
    return tree


def _choice_text(tree: Expression, unit: str) -> str:
    """What was chosen and why; of what was calculated and stayed, that there was no choice."""
    if not isinstance(tree, Chosen) or tree.taken is tree.candidates[0]:
        return f"{_value(tree, unit)} as calculated"
    total = decimal(tree.given[0].value, _DECIMALS) if tree.given else ""
    value = _value(tree, "" if tree.why in _NAMES_UNIT else unit)
    return REASONS[tree.why].format(value=value, total=total, others=len(tree.given),
                                    unit=unit).rstrip()


def _sum_text(tree: Expression, unit: str) -> str:
    """A sum with its figures, where these are few."""
    made = tree.of if isinstance(tree, Rounded) else tree
    parts = len(inside(made))
    if parts > _MOST:
        return f"{_value(tree, unit)}, the sum of {parts} figures"
    text = sum_text(made, as_shown(made))
    return text if isinstance(made, Operand | Term | LookUp) else f"{text} = {_value(tree, unit)}"


def _value(tree: Expression, unit: str) -> str:
    """What a calculation comes to, with its unit: a length in that of the figures beside it."""
    in_cm = unit == _LONG and any(WORDS[one.role].long == "cm" for one in inside(tree)
                                  if isinstance(one, Operand | Term))
    return f"{decimal(tree.value / 10, _DECIMALS)} cm" if in_cm else \
        f"{decimal(tree.value, _DECIMALS)} {unit}".rstrip()


def unit_of(tree: Expression) -> str:
    """Return what a calculation comes to is measured in, such as "stitches"; "" where its figures
    are of several units, or none of them has one."""
    tree = shown(tree)
    if isinstance(tree, Operand | Term) and (unit := _unit(tree)):
        return unit
    if isinstance(tree, Product | Quotient):
        parts = tuple(map(_unit, inside(tree)))
        return _PRODUCTS.get((type(tree), parts), "")
    if not isinstance(tree, _ALIKE):
        return ""
    within = tree.candidates if isinstance(tree, Chosen) else inside(tree)
    units = {unit_of(one) for one in within if not _is_plain(one)}
    return units.pop() if len(units) == 1 else ""


def _unit(tree: Expression) -> str:
    """The unit of a figure; of a stitch or a row it is their width or height."""
    if not isinstance(tree, Operand | Term):
        return unit_of(tree)
    return _PITCHES.get(tree.role) or WORDS[tree.role].unit or (
        unit_of(tree.of) if isinstance(tree, Term) else "")


def _is_plain(tree: Expression) -> bool:
    """True for a plain number, such as the row more in "5 + 1"."""
    return isinstance(tree, Operand) and tree.role is Role.NUMBER


"""The spreadsheet formula that computes an expression, over the cells of its inputs."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Protocol

from ..core.branched import Branched
from ..core.counts import GIVEN, NEAREST, Rounding
from ..core.expression import Chosen, Expression, LookUp, Operand, Rounded, Rule, Term
from ..core.expression_parts import inside
from ..core.note_arguments import Noted
from ..machine.records import dataclass
from ..words import sheet_text as words
from .expression_kinds import CALCULATIONS, PLACES
from .sheet_values import Look, SheetCell

LONGEST = 900  # of a formula before a part of it gets a cell to itself [characters]
_NEAR = "1E-9"


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula without its equals sign.

    It is `live` where a cell that can be changed reaches it, and `whole` where no figure in it was
    planned by the engine in a way that no formula here follows.
    """

    text: str
    live: bool
    whole: bool

    def put(self, text: str) -> Formula:
        """Return the same with another text around it or in its place."""
        return Formula(text, self.live, self.whole)


class FormulaCells(Protocol):
    """The cells of one size that formulas read, and where long ones are parted."""

    def figure(self, operand: Operand) -> Formula:
        """Return the cell of an operand, or its figure."""

    def word(self, table: LookUp) -> Formula:
        """Return the cell with the key of a look-up."""

    def outright(self, number: int) -> Formula | None:
        """Return the cell of a count that the designer gives, whatever its measures come to; None
        where she gives it as a measure, to which its figure comes."""

    def known(self, tree: Expression) -> Formula | None:
        """Return the cell that computes this very expression already."""

    def apart(self, formula: Formula, value: Fraction) -> Formula:
        """Put a formula, which comes to a value, into a cell to itself, and return that cell."""


def formula(tree: Expression, cells: FormulaCells) -> Formula:
    """Return the formula of an expression. Raises TypeError for what is none."""
    found = cells.known(tree) or _write(tree, cells)
    return cells.apart(found, tree.value) if len(found.text) > LONGEST else found


def number(figure: Fraction) -> str:
    """A figure as a formula has it: 12, (301/120)."""
    return str(figure) if figure.denominator == 1 and figure >= 0 else f"({figure})"


def figure_cell(figure: Fraction, look: Look) -> SheetCell:
    """Return the cell of a figure."""
    return SheetCell(number(figure), look, computes=True, value=figure)


def unchanged_check(cells: Mapping[str, Fraction | str]) -> SheetCell:
    """Return the check of a row of inputs: whether each cell has what the source gives."""
    tests = ",".join(_is_still(cell, value) for cell, value in cells.items())
    return SheetCell(f'IF(AND({tests}),"{words.GOOD}","{words.CHANGED}")', Look.CHECK,
                     computes=True, value=words.GOOD) if tests else SheetCell()


def _is_still(cell: str, value: Fraction | str) -> str:
    if isinstance(value, str):
        return '{}="{}"'.format(cell, value.replace('"', '""'))
    return f"ABS({cell}-{number(value)})<={_NEAR}"


def _write(tree: Expression, cells: FormulaCells) -> Formula:
    if isinstance(tree, Operand):
        return cells.figure(tree)
    if isinstance(tree, LookUp):
        return _looked_up(tree, cells)
    if isinstance(tree, Term | Noted):
        return formula(tree.of, cells)
    if isinstance(tree, Branched):
        return formula(tree.follows, cells) if tree.follows else replace(
            formula(tree.of, cells), whole=False)
    if isinstance(tree, Chosen):
        return _chosen(tree, cells)
    if isinstance(tree, Rounded):
        return _rounded(tree, cells)
    return _calculation(tree, cells)


def _rounded(tree: Rounded, cells: FormulaCells) -> Formula:
    rule = tree.rounding
    if rule.rule == GIVEN:
        if found := cells.outright(rule.plus):
            return found
        rule = NEAREST
    made = formula(tree.of, cells)
    return made.put(rounded(made.text, rule))


def _looked_up(tree: LookUp, cells: FormulaCells) -> Formula:
    key = cells.word(tree)
    return key.put(_first_that([f'{key.text}="{name}"' for name, _ in tree.entries],
                               [str(entry) for _, entry in tree.entries], "NA()"))


def _calculation(tree: Expression, cells: FormulaCells) -> Formula:
    kind = CALCULATIONS.get(type(tree))
    if kind is None:
        raise TypeError(type(tree).__name__)
    made = [formula(part, cells) for part in inside(tree)]
    return Formula(kind.formula([one.text for one in made]), any(one.live for one in made),
                   all(one.whole for one in made))


def rounded(text: str, rounding: Rounding) -> str:
    """Return the formula that makes the figure of `text` whole as `core.counts.whole` does.

    A count that the designer gives is not made so: it has a cell.
    """
    of, plus = rounding.kind
    steps = text if (of, plus) == (1, 0) else f"({text}-{plus})/{of}"
    if rounding.rule == "up":
        ones = f"-INT(-ROUND({steps},{PLACES}))"
    elif rounding.rule == "down":
        ones = f"INT(ROUND({steps},{PLACES}))"
    else:
        ones = f"INT(ROUND({steps}+0.5,{PLACES}))"
    if rounding.rule not in ("up", "down") or (of, plus) != (1, 0):
        ones = f"MAX(0,{ones})"
    return f"({ones})" if (of, plus) == (1, 0) else f"({ones}*{of}+{plus})"


def _chosen(tree: Chosen, cells: FormulaCells) -> Formula:
    """The choice by its rule: a formula that reads every candidate, each in a cell to itself."""
    candidates = [_cell(one, cells) for one in tree.candidates]
    given = [_cell(one, cells) for one in tree.given]
    every = (*candidates, *given)
    texts, figures = [one.text for one in candidates], [one.text for one in given]
    return Formula(_CHOICES[tree.rule](texts, figures), any(one.live for one in every),
                   all(one.whole for one in every))


def _cell(tree: Expression, cells: FormulaCells) -> Formula:
    """A candidate is named several times in its choice: what is long gets a cell."""
    found = formula(tree, cells)
    return cells.apart(found, tree.value) if len(found.text) > 40 else found


def _first_that(conditions: Sequence[str], texts: Sequence[str], last: str) -> str:
    """The first of `texts` whose condition holds, else `last`."""
    found = last
    for condition, text in reversed(list(zip(conditions, texts, strict=True))):
        found = f"IF({condition},{text},{found})"
    return found


def _nearest_to(texts: Sequence[str], given: Sequence[str]) -> str:
    off = [f"ROUND(ABS({text}-{given[0]}),{PLACES})" for text in texts]
    least = f"MIN({','.join(off)})"
    return _first_that([f"{one}<={least}" for one in off[:-1]], texts[:-1], texts[-1])


def _reaches(texts: Sequence[str], given: Sequence[str]) -> str:
    far, each = given
    return _first_that([f"{text}*{each}>={far}-{_NEAR}" for text in texts[:-1]], texts[:-1],
                       texts[-1])


def _least(texts: Sequence[str], given: Sequence[str]) -> str:
    costs = [f"ROUND({one},{PLACES})" for one in given]
    least = f"MIN({','.join(costs)})"
    pairs = list(reversed(list(zip(costs, texts[1:], strict=True))))
    return _first_that([f"{cost}<={least}" for cost, _ in pairs[:-1]],
                       [text for _, text in pairs[:-1]], pairs[-1][1])


def _adds_up(texts: Sequence[str], given: Sequence[str]) -> str:
    total, *others = given
    rest = "".join(f"+{one}" for one in others)
    return _first_that([f"ABS({text}{rest}-{total})<{_NEAR}" for text in texts], texts, "NA()")


_CHOICES: dict[Rule, Callable[[Sequence[str], Sequence[str]], str]] = {
    Rule.LARGEST: lambda texts, _: f"MAX({','.join(texts)})",
    Rule.SMALLEST: lambda texts, _: f"MIN({','.join(texts)})",
    Rule.NEAREST_TO: _nearest_to, Rule.REACHES: _reaches, Rule.LEAST: _least,
    Rule.ADDS_UP: _adds_up}

"""The expression of a measure, made from its text: worked out exactly, its dimensions checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from fractions import Fraction

from ..core import expression as core
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Role
from ..core.text_kinds import FindingText
from ..machine.records import dataclass
from ..words.terms.part_names import part_name
from .expression_tree import (
    Call,
    ExpressionFault,
    MeasureName,
    MeasureTree,
    Negated,
    Number,
    Operation,
)
from .quantities import Quantity

MOST_BITS = 512  # of a numerator or denominator: no measure of a garment comes near it

@dataclass(frozen=True, slots=True)
class Pitches:
    """What counts are worth in a garment: the width of a stitch, the height of a row [mm].

    A measure that is a bare count has the stitches `beyond` among its own, which are not in its
    width, or its rows lie `above` a hem, which is in its height [mm], both by its name. `apart` are
    the width and the height for measures of pieces in other fabrics, by their names.
    """

    stitch: Fraction
    row: Fraction
    beyond: Mapping[str, core.Expression] = field(default_factory=dict)
    above: Mapping[str, Fraction] = field(default_factory=dict)
    apart: Mapping[str, tuple[Fraction, Fraction]] = field(default_factory=dict)

    def of(self, measure: str) -> Pitches:
        """What counts are worth in a measure."""
        if measure not in self.apart:
            return self
        stitch, row = self.apart[measure]
        return replace(self, stitch=stitch, row=row, apart={})


MadeMeasure = tuple[core.Expression, bool]  # what computes it, and whether it comes to a length


class Reckoning:
    """Makes the expressions of measures from those that are `known` or were `found`."""

    def __init__(self, known: Mapping[str, Quantity], found: Mapping[str, Quantity],
                 pitches: Pitches | None = None) -> None:
        self.known, self.found, self.pitches = known, found, pitches

    def measure(self, name: str, tree: MeasureTree) -> MadeMeasure:
        """The expression of the measure called `name`, as `made` does."""
        if self.pitches is not None and name in self.pitches.apart:
            own = Reckoning(self.known, self.found, self.pitches.of(name))
            return own.measure(name, tree)
        if not isinstance(tree, Number) or not tree.of or self.pitches is None:
            return self.made(tree)
        foot = self.pitches.above.get(name)
        made = self._counted(tree, self.pitches.beyond.get(name))
        return (made if not foot else made + core.Operand(
            foot, Role.LENGTH, part_name(PartRole.OF_THE_HEM))), True

    def _counted(self, number: Number, beyond: core.Expression | None = None) -> core.Expression:
        """So many stitches or rows as a length, less those that lie `beyond` it."""
        if self.pitches is None:
            raise ExpressionFault("bad-measure", number.at, f'"{number.text}" here',
                                  "a length", "Write it with a unit of length, such as 5 cm.")
        stitches = number.of == "stitch"
        many: core.Expression = core.Operand(number.value,
                                             Role.STITCHES if stitches else Role.ROWS)
        if beyond is not None:
            many -= beyond
        each = core.Operand(self.pitches.stitch, Role.STITCH_WIDTH) if stitches else \
            core.Operand(self.pitches.row, Role.ROW_HEIGHT)
        return many * each

    def made(self, tree: MeasureTree) -> MadeMeasure:
        """The expression [mm or plain], and whether it is a length.

        Raises ExpressionFault, and KeyError for a name that is not there.
        """
        made, is_length = self._made(tree)
        value = made.value
        if max(value.numerator.bit_length(), value.denominator.bit_length()) > MOST_BITS:
            raise ExpressionFault("huge-measure", tree.at, "a figure beyond all measure",
                                  "figures of a garment", "Check the sums that it uses.")
        return made, is_length

    def _made(self, tree: MeasureTree) -> MadeMeasure:
        if isinstance(tree, Number) and tree.of:
            return self._counted(tree), True
        if isinstance(tree, Number):
            role = Role.WRITTEN_LENGTH if tree.is_length else Role.WRITTEN
            return core.Operand(tree.value, role, tree.text), tree.is_length
        if isinstance(tree, MeasureName):
            quantity = self._look_up(tree)
            role = Role.MEASURE if quantity.is_length else Role.PLAIN_MEASURE
            return core.Term(quantity.made, role, tree.name), quantity.is_length
        if isinstance(tree, Negated):
            made, is_length = self.made(tree.of)
            return core.Opposite(made), is_length
        if isinstance(tree, Operation):
            return _operate(tree, self.made(tree.left), self.made(tree.right))
        return _call(tree, [self.made(part) for part in tree.arguments])

    def _look_up(self, name: MeasureName) -> Quantity:
        known = self.known.get(name.name)
        return self.found[name.name] if known is None else known


def _kind(is_length: bool) -> FindingText:
    return "a length" if is_length else "a number"


def _operate(tree: Operation, left: MadeMeasure, right: MadeMeasure) -> MadeMeasure:
    (a, a_length), (b, b_length) = left, right
    if tree.sign in "+-":
        if a_length != b_length:
            raise _clash(tree.at, f"{_kind(a_length)} {tree.sign} {_kind(b_length)}")
        return (a + b if tree.sign == "+" else a - b), a_length
    if tree.sign == "*":
        if a_length and b_length:
            raise _clash(tree.at, "a length * a length")
        return a * b, a_length or b_length
    if b_length and not a_length:
        raise _clash(tree.at, "a number / a length")
    if b.value == 0:
        raise ExpressionFault("division-by-nothing", tree.at, "a division by 0",
                              "a divisor other than 0", "Check what it is divided by.")
    return a / b, a_length and not b_length


def _clash(at: int, found: str) -> ExpressionFault:
    return ExpressionFault(
        "unlike-measures", at, found, "lengths added to lengths, and multiplied or divided by "
        "numbers", "Write the unit behind a length, such as 2 cm.")


def _call(tree: Call, arguments: list[MadeMeasure]) -> MadeMeasure:
    if len({is_length for _, is_length in arguments}) > 1:
        raise _clash(tree.at, f"lengths and numbers in one {tree.name}(…)")
    parts, is_length = tuple(made for made, _ in arguments), arguments[0][1]
    if tree.name == "min":
        return core.Chosen(parts, core.Rule.SMALLEST, ChoiceReason.SMALLEST_NAMED), is_length
    if tree.name == "max":
        return core.Chosen(parts, core.Rule.LARGEST, ChoiceReason.LARGEST_NAMED), is_length
    figure, step = parts
    if step.value <= 0:
        raise ExpressionFault("division-by-nothing", tree.at, "a step that is not above 0",
                              "a step such as 0.5 cm", "Check the step.")
    return core.Stepped(figure, step), is_length

"""An expression as a sentence that can be done again on a pocket calculator."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from ...core.branched import Branched, shown
from ...core.counted import Count, Reckoned
from ...core.counts import NEAREST, Rounding, Unit, decimal, in_decimals, to_places, whole
from ...core.expression import (
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
from ...core.expression_parts import inside, off_mm
from ...core.kept import Itself
from ...core.note_arguments import NoteArgument, Noted, NotedCalculation
from ...core.operands import ChoiceReason
from ...core.roots import Along, Hypotenuse, Root
from ...machine.records import dataclass
from .as_printed import (
    FIGURES,
    WHOLE,
    as_printed,
    figures_in,
    from_printed,
    pitch_as_printed,
    read_back,
)
from .brackets import is_bracketed
from .calculation_notes import REASON_ENDS, REASONS, note_text
from .operand_words import WORDS
from .spelled import spelled

# The least to which an exact figure is printed; two for what is not named here.
LEAST_DECIMALS = {Unit.GRAMS: 1, Unit.METRES: 1, Unit.CENTIMETRES: 1}
MOST_DECIMALS = 9  # more than an operand usually has; a closer tie is not met in a garment


def working(tree: Expression, unit: Unit) -> str:
    """Return the sentence that computes `tree`, a count of `unit`.

    Every figure is printed as closely as it takes for the printed sum to come to the printed
    result, and for the printed result to be rounded to the printed count.
    """
    if isinstance(tree := shown(tree), Noted):
        return note_text(tree.note, _spelled_out(tree), _Later(tree.of, unit), tree.value)
    if isinstance(tree, Chosen):
        first = working(tree.candidates[0], unit)
        return first if tree.taken is tree.candidates[0] else f"{first}; {_why(tree, unit)}"
    if isinstance(tree, Rounded):
        return _rounded(tree, unit)
    if isinstance(tree, Difference) and isinstance(tree.of, Rounded):
        return f"{working(tree.of, unit)}, {sum_text(tree.less, as_shown(tree.less))}: {tree.value}"
    if isinstance(tree, Operand | Term | LookUp):
        return sum_text(tree, as_shown(tree))
    return f"{sum_text(tree, as_shown(tree))} = {unit.of(int(tree.value))}"


@dataclass(frozen=True, slots=True)
class _Closely:
    """How figures are printed: decimals more than usual, and millimetres as centimetres."""

    extra: int
    in_cm: bool


def as_shown(tree: Expression, extra: int = 0) -> _Closely:
    """How the figures of a sum are printed: where one length is in centimetres, all of them are."""
    units = {WORDS[one.role].long for one in figures_in(tree)}
    return _Closely(extra, in_cm={"mm", "cm"} <= units)


@dataclass(frozen=True, slots=True)
class _Later:
    """A sentence that is written only where a note has a place for it."""

    of: Expression
    unit: Unit

    def __str__(self) -> str:
        return working(self.of, self.unit)


def _spelled_out(tree: Noted) -> Sequence[NoteArgument]:
    """What a note says besides, another calculation as its sentence."""
    return [working(one.made, one.unit) if isinstance(one, NotedCalculation) else one
            for one in tree.arguments]


def working_of(one: Count | Reckoned) -> str:
    """Return the sentence that computes a count, or a length that is reckoned.

    It is kept for a while: pages, tables and counts.json print it one after the other.
    """
    return _kept(Itself(one.made), None if isinstance(one, Reckoned) else one.unit)


@lru_cache(maxsize=2048)
def _kept(itself: Itself, unit: Unit | None) -> str:
    """The sentence of a count of `unit`, or of a length where there is none."""
    return working(itself.one, unit) if unit else length_working(itself.one)


def length_working(tree: Expression) -> str:
    """Return the sentence that computes a length from `tree` [mm], to the tenth that is printed.

    Its figures are printed as closely as it takes for the printed sum to come to that. A length
    is printed closer itself where it lies halfway between two tenths and its figures have no end,
    and where the printed tenth would be rounded to other centimetres than the length.
    """
    for places in (1, 2, 3):
        result = decimal(tree.value, places)
        if _in_cm(read_back(result)) != _in_cm(tree.value):
            continue
        for extra in range(MOST_DECIMALS):
            if in_decimals(*as_printed(tree, extra), places) == result:
                return _summed(tree, extra, places)
    return _summed(tree, 0, 1)


def _in_cm(mm: Fraction) -> str:
    """A length [mm] in centimetres, to the tenth, as it is printed beside its name."""
    return decimal(mm / 10, 1)


def _summed(tree: Expression, extra: int, places: int) -> str:
    """The sum of a length with its result [mm], or in centimetres where its figures are."""
    how = as_shown(tree, extra)
    result = f"{decimal(tree.value / 10, places + 1)} cm" if how.in_cm else \
        f"{decimal(tree.value, places)} mm"
    return f"{sum_text(tree, how)} = {result}"


def workings_from(total: Count, counts: Sequence[Count]) -> tuple[str, ...]:
    """Return the sentences of a total and of counts that are computed from it.

    These begin with the printed figure of the total, which has as many decimals as it takes for
    each of them to come to its count.
    """
    made = total.made
    if not isinstance(made, Rounded):
        return tuple(working_of(one) for one in (total, *counts))
    least = LEAST_DECIMALS.get(total.unit, 2)
    for places in range(least, least + MOST_DECIMALS):
        result = _closely(made.of.value, made.rounding, places)
        read = [from_printed(one.made, made.of.value, read_back(result)) for one in counts]
        if all(new.value == one.value for new, one in zip(read, counts, strict=True)):
            break
    closer = len(result.partition(".")[2]) - least
    return (_rounded(made, total.unit, result), *(
        _rounded(new, one.unit, closer=closer) if isinstance(new, Rounded) else
        working(new, one.unit) for new, one in zip(read, counts, strict=True)))


def _rounded(tree: Rounded, unit: Unit, result: str = "", closer: int = 0) -> str:
    """A sum and its whole number; `result` is its exact figure as printed, where it is known.

    Its operands have at least `closer` decimals more than usual, where they have so many.
    """
    value, figure_ = int(tree.value), tree.of.value
    usual = _as_usual(tree, unit)
    result, extra = (result, _extra(tree, result, unit)) if result else usual
    sum_ = sum_text(tree.of, as_shown(tree.of, max(closer, extra)))
    if value == figure_:
        return f"{sum_} = {result} {unit.value}"
    half = ", a half goes up" if tree.rounding == NEAREST and figure_.denominator == 2 else ""
    off = "" if tree.pitch is None else _off(_off_as_printed(tree, tree.value, usual))
    return f"{sum_} = {result}, {_made_whole(tree.rounding)}{half}: {value}{off}"


def _made_whole(rounding: Rounding) -> str:
    """How a figure becomes a whole number: "rounded", "nearest even number", "rounded down"."""
    if rounding.rule in ("up", "down"):
        return f"rounded {rounding}"
    if rounding == NEAREST:
        return "rounded"
    return f"nearest {rounding.rule} number" if rounding.rule in ("even", "odd") else str(rounding)


def _as_usual(tree: Rounded, unit: Unit) -> tuple[str, int]:
    """The exact figure as it is usually printed, and how many decimals more its operands take."""
    result = _closely(tree.of.value, tree.rounding, LEAST_DECIMALS.get(unit, 2))
    return result, _extra(tree, result, unit)


def _off_as_printed(tree: Rounded, value: Fraction, printed: tuple[str, int]) -> Fraction:
    """What `value` is off [mm], from the `printed` result and width of a stitch, or height of a
    row: so the difference can be done again with the figures beside it."""
    result, extra = printed
    return (value - read_back(result)) * pitch_as_printed(tree, extra)


def _off(off: Fraction) -> str:
    """How much more or less [mm] a rounding gives, in brackets; nothing where that is 0.0 mm."""
    shown = decimal(abs(off), 1)
    return "" if shown == "0" else f" ({shown} mm {'more' if off > 0 else 'less'})"


def _closely(figure_: Fraction, rounding: Rounding, least: int) -> str:
    """The exact figure to its least decimals, or to as many as round to the same whole number."""
    value = whole(figure_, rounding)
    return next((decimal(figure_, places) for places in range(least, least + MOST_DECIMALS)
                 if whole(to_places(figure_, places), rounding) == value),
                decimal(figure_, least))


def _extra(tree: Rounded, result: str, unit: Unit) -> int:
    """How many decimals more the operands take for their printed figures to come to `result`.

    What a calculator shows of them must be rounded to the count too; where the figure lies
    exactly between two counts, the sentence says which way it is rounded.
    """
    places = max(LEAST_DECIMALS.get(unit, 2), len(result.partition(".")[2]))
    fits = None
    for more in range(MOST_DECIMALS):
        shown = as_printed(tree.of, more)
        if in_decimals(*shown, places) == result:
            if whole(Fraction(*shown), tree.rounding) == tree.value:
                return more
            fits = more if fits is None else fits
    return MOST_DECIMALS if fits is None else fits


_RANKS: dict[type, tuple[int, str]] = {Sum: (1, " + "), Difference: (1, " − "),
                                       Product: (2, " × "), Quotient: (2, " ÷ ")}


def sum_text(tree: Expression, how: _Closely) -> str:
    """A sum as it is written, with brackets where they are needed."""
    if isinstance(tree, FIGURES):
        return spelled(tree.value, tree.role, tree.name, how.extra, in_cm=how.in_cm)
    if (kind := type(tree := shown(tree))) not in _RANKS:
        return _other_text(tree, how)
    rank, sign = _RANKS[kind]
    first, *rest = inside(tree)
    # What is divided by, or taken away, is bracketed where it is a sum of the same rank too.
    tighter = rank + (kind is Difference or kind is Quotient)
    parts = [_within(first, rank, how), *(_within(part, tighter, how) for part in rest)]
    return sign.join(f"({text})" if rank == 1 and is_bracketed(part) else text
                     for part, text in zip((first, *rest), parts, strict=True))


def _other_text(tree: Expression, how: _Closely) -> str:
    """What is no sum. Raises KeyError for what is never told."""
    if isinstance(tree, LookUp):
        return f"{tree.key}: {tree.value}"
    if isinstance(tree, Noted):
        return note_text(tree.note, _spelled_out(tree), sum_text(tree.of, how), tree.value)
    if isinstance(tree, WHOLE):
        return str(tree.value)
    if isinstance(tree, Hypotenuse):
        return f"the slope over {sum_text(tree.wide, how)} and {sum_text(tree.high, how)}"
    if isinstance(tree, Along):
        return " + ".join(f"{sum_text(times, how)} × the slope over {sum_text(wide, how)} and "
                          f"{sum_text(high, how)}" for times, wide, high in tree.stretches)
    if isinstance(tree, Root):
        return f"the square root of ({sum_text(tree.of, how)})"
    raise KeyError(type(tree))


def _within(tree: Expression, least: int, how: _Closely) -> str:
    """A part of a sum, in brackets where it binds less than the sum does."""
    rank = 0 if isinstance(tree := shown(tree), Noted) else _RANKS.get(type(tree), (3, ""))[0]
    return f"({sum_text(tree, how)})" if rank < least else sum_text(tree, how)


def _choice_off(choice: Chosen, unit: Unit) -> Fraction:
    """What a choice is worth [mm]: from the printed figures of its first candidate where it was
    rounded, so that a reader can compute it."""
    first = choice.candidates[0]
    while isinstance(first, Chosen | Noted | Branched):
        first = first.candidates[0] if isinstance(first, Chosen) else first.of
    if isinstance(first, Rounded) and first.pitch is not None:
        return _off_as_printed(first, choice.value, _as_usual(first, unit))
    return off_mm(choice) or Fraction(0)


def _why(choice: Chosen, unit: Unit) -> str:
    """Why the first candidate was not taken."""
    value, off = choice.value, _choice_off(choice, unit)
    more, side = ("more", "wider") if off > 0 else ("less", "narrower")
    total = choice.given[0].value if choice.given else 0
    chosen = ""
    if choice.why is ChoiceReason.BUTTONHOLES:
        made = sum_text(choice.taken, as_shown(choice.taken))
        chosen = f"{made} = {Unit.STITCHES.of(int(value))}"
    return (REASONS[choice.why] + REASON_ENDS.get(choice.why, "")).format(
        value=value, off=f"{decimal(abs(off), 1)} mm", more=more, side=side, chosen=chosen,
        total=total, others=len(choice.given), unit=unit.name_of(int(total)))

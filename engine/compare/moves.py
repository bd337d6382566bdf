"""The way a change took: what moved in the expression of a count, from the count to its inputs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import field, replace
from fractions import Fraction

from ..core.branched import shown
from ..core.expression import Chosen, Expression, LookUp, Operand, Rounded, Term
from ..core.expression_parts import inside
from ..core.note_arguments import Noted
from ..core.operands import Role
from ..core.problems import Place
from ..machine.records import dataclass

Pair = tuple[Expression, Expression]  # of one figure, before and after
Measures = Mapping[str, Pair]
"""The expressions of the measures of a size by name."""
GaugePairs = tuple[Pair, ...]
"""The expressions of the stitches and rows of all fabrics, of those alike one."""
_FEW = 4  # figures that a choice is given which are still followed; a search is given hundreds
_WEIGHTS = (Role.COST, Role.OFF)
_PLAIN = (Role.NUMBER, Role.BED, Role.TRIED)  # without a name they only repeat the figure
_MEASURES = (Role.MEASURE, Role.PLAIN_MEASURE)
_GAUGES = (Role.STITCHES_PER_MM, Role.ROWS_PER_MM, Role.STITCH_WIDTH, Role.BAND_STITCH,
           Role.ROW_HEIGHT, Role.MILLIMETRES)


@dataclass(frozen=True, slots=True)
class Known:
    """The figures that an operand is followed into: measures by name, gauges by their values.

    `unit` is what the count counts, as long as its parts are of that unit for certain.
    """

    measures: Measures = field(default_factory=dict)
    gauges: GaugePairs = ()
    seen: set[tuple[int, int]] = field(default_factory=set, compare=False)
    unit: str = ""

    @property
    def inwards(self) -> Known:
        """The same for parts, of which nobody says the unit."""
        return replace(self, unit="") if self.unit else self


@dataclass(frozen=True, slots=True)
class Move:
    """An operand that had the value `before` and has the value `after`.

    `names` are what it is called before and after, `place` where the source states it now. With
    `role` None the calculation itself is another: `names` are then how it was rounded, or
    `branches` are what was calculated before and what is now. `unit` is what both count, where the
    figure is a count itself, "" of others.
    """

    role: Role | None
    names: tuple[str, str]
    before: Fraction
    after: Fraction
    place: Place | None = None
    branches: Pair | None = field(default=None, compare=False)
    unit: str = field(default="", compare=False)


def moves(before: Expression, after: Expression, known: Known) -> tuple[Move, ...]:
    """Return what moved between two expressions of one count, from the count inwards, each once.

    A measure, and a fabric's gauge, is followed into its own expression. Nothing is followed that
    came to the same value, but for a change of the rounding. Left out are a figure without a name,
    be it a plain number, what the bed counted or what was tried, and what weighs the candidates of
    a search.
    """
    known = replace(known, seen=set())
    return tuple(dict.fromkeys(
        move for move in _walk(before, after, known)
        if move.role not in _WEIGHTS and (move.role not in _PLAIN or move.names[1])))


def tried_in(tree: Expression) -> Iterator[Fraction]:
    """Yield the figures of which a search made what it chose."""
    tree = shown(tree)
    if isinstance(tree, Operand) and tree.role is Role.TRIED:
        yield tree.value
    for part in (tree.taken,) if isinstance(tree, Chosen) else inside(tree):
        yield from tried_in(part)


def _walk(before: Expression, after: Expression, known: Known) -> Iterator[Move]:
    before, after = shown(before), shown(after)
    if before is after or (id(before), id(after)) in known.seen:
        return
    known.seen.add((id(before), id(after)))  # what several figures are made of is followed once
    if isinstance(before, Operand | Term) and isinstance(after, Operand | Term):
        if before.value != after.value:
            yield from _operand(before, after, known)
    elif isinstance(before, Chosen) and isinstance(after, Chosen):
        yield from _chosen(before, after, known)
    elif type(before) is type(after) and len(inside(before)) == len(inside(after)):
        yield from _alike(before, after, known)
    else:
        yield from _otherwise(before, after, known)


def _operand(before: Operand | Term, after: Operand | Term, known: Known
             ) -> Iterator[Move]:
    place = after.place if isinstance(after, Operand) else None
    yield Move(after.role, (before.name, after.name), before.value, after.value, place)
    if isinstance(before, Term) and isinstance(after, Term):
        yield from _walk(before.of, after.of, known)
    elif after.role in _MEASURES and after.name in known.measures:
        rest = {name: each for name, each in known.measures.items() if name != after.name}
        yield from _walk(*known.measures[after.name], replace(known.inwards, measures=rest))
    elif after.role in _GAUGES:
        for pair in _gauges(before.value, after.value, known.gauges):
            yield from _walk(*pair, known.inwards)


def _gauges(before: Fraction, after: Fraction, gauges: GaugePairs) -> Iterator[Pair]:
    """The stitch or row of a fabric that had the one value and has the other, or one over it: an
    operand says only how wide a stitch is, and not of which fabric."""
    for one in gauges:
        values = one[0].value, one[1].value
        if values in ((before, after), (1 / before, 1 / after)):
            yield one


def _chosen(before: Chosen, after: Chosen, known: Known) -> Iterator[Move]:
    fell, falls = ((one.rule, one.why, one.taken is one.candidates[0]) for one in (before, after))
    if before.value != after.value and fell != falls:
        yield _other_branch(before, after, known)
    yield from _walk(before.taken, after.taken, known)
    yield from _walk(before.candidates[0], after.candidates[0], known)
    if len(before.given) == len(after.given) <= _FEW:
        for old, new in zip(before.given, after.given, strict=True):
            yield from _walk(old, new, known.inwards)


def _alike(before: Expression, after: Expression, known: Known) -> Iterator[Move]:
    """What moved between two calculations of one form."""
    if isinstance(before, Rounded) and isinstance(after, Rounded) \
            and before.rounding != after.rounding:
        yield Move(None, (str(before.rounding), str(after.rounding)), before.value, after.value)
    elif isinstance(before, LookUp) and before.value != after.value:
        yield _other_branch(before, after, known)
    within = known if isinstance(before, Noted) else known.inwards
    for old, new in zip(inside(before), inside(after), strict=True):
        yield from _walk(old, new, within)


def _otherwise(before: Expression, after: Expression, known: Known) -> Iterator[Move]:
    """What of the same name moved in two calculations, and that they are not alike."""
    old = _named(before)
    for key, one in _named(after).items():
        if match := old.get(key):
            yield from _walk(match, one, known.inwards)
    if before.value != after.value:
        yield _other_branch(before, after, known)


def _other_branch(before: Expression, after: Expression, known: Known) -> Move:
    return Move(None, ("", ""), before.value, after.value, branches=(before, after),
                unit=known.unit)


def _named(tree: Expression) -> dict[tuple[Role, str], Operand | Term]:
    """The operands with a name, the outer first; none of a name that stands for several figures."""
    found: dict[tuple[Role, str], dict[Fraction, Operand | Term]] = {}
    left, seen = [tree], set[int]()
    for part in left:
        if id(part) in seen:
            continue
        seen.add(id(part))
        if isinstance(part, Operand | Term) and part.name:
            found.setdefault((part.role, part.name), {}).setdefault(part.value, part)
        left += (part.taken, *part.given[:_FEW]) if isinstance(part, Chosen) else inside(part)
    return {key: one for key, several in found.items() if len(several) == 1
            for one in several.values()}

"""What differs between two sides of a pattern: facts that changed, that came or that went."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from ..core.expression import Expression
from ..core.operands import Role
from ..core.problems import Severity
from ..machine.records import dataclass
from .compared_facts import ComparedSide, Fact, FactKey, FactKind
from .moves import GaugePairs, Known, Measures, Move, moves, tried_in

# Of a piece or band.
_OF_PLACES = (FactKind.COUNT, FactKind.SCHEDULE, FactKind.STEPS, FactKind.BAND)
# Facts that an expression computes
_MADE = (FactKind.MEASURE, FactKind.LENGTH, FactKind.COUNT, FactKind.YARN, FactKind.GAUGE,
         FactKind.JOIN, FactKind.BAND)
_YARN_OF = "_stitches"  # behind the key of a piece or band: so many stitches of a yarn it takes
_SPAN = ("cast_on", "stitches", "widest", "rows", "band_stitches", "depth_rows")
"""The counts by which a piece or band takes more stitches or fewer."""
_NEAR = 2  # counts of the same piece or band that are named where an expression names nothing


@dataclass(frozen=True, slots=True)
class FactDifference:
    """A fact with what it was `before` and what it is `after`, None on the side that has none.

    Where all of a size, or of a piece or band in it, is new or gone, that is one difference: its
    key then has no name, and `many` says how many facts it has.
    """

    key: FactKey
    before: Fact | None
    after: Fact | None
    many: int = 1

    @property
    def is_whole(self) -> bool:
        """True where a whole size, piece or band came or went."""
        return not self.key.name


def renamed_sizes(before: ComparedSide, after: ComparedSide) -> dict[str, str]:
    """Return the new name of every size that is called otherwise.

    That is one of which a side says so, or else one of the same place in as long a list, with at
    least half of the counts and measures by which it differs from other sizes: a designer can
    rename a size and correct it at once.
    """
    named = declared_names(before, after)
    if len(before.sizes) != len(after.sizes):
        return named
    return {old: named.get(old, new) for old, new in zip(before.sizes, after.sizes, strict=True)
            if old in named or (old not in after.sizes
                                and new not in (*before.sizes, *named.values())
                               and _alike(_own(before, old), _sized(after, new)))}


def declared_names(before: ComparedSide, after: ComparedSide) -> dict[str, str]:
    """Return the new name of every size of which a side says that it had the other before."""
    pairs = [(old, new) for new, labels in after.former_sizes.items() for old in labels]
    pairs += [(old, new) for old, labels in before.former_sizes.items() for new in labels]
    return {old: new for old, new in pairs if old in before.sizes and old not in after.sizes
            and new in after.sizes and new not in before.sizes}


def _alike(one: Mapping[FactKey, object], other: Mapping[FactKey, object]) -> bool:
    same = sum(other.get(key) == value for key, value in one.items())
    return bool(same) and 2 * same >= len(one)


def _own(side: ComparedSide, size: str) -> dict[FactKey, object]:
    """The counts and measures of a size that are not the same in every size; all of an only one."""
    others = [_sized(side, each) for each in side.sizes if each != size]
    facts = _sized(side, size)
    own = {key: value for key, value in facts.items()
           if any(other.get(key) != value for other in others)}
    return own or facts


def _sized(side: ComparedSide, size: str) -> dict[FactKey, object]:
    return {key._replace(size=""): fact.value for key, fact in side.facts.items()
            if key.size == size and key.kind in (FactKind.COUNT, FactKind.MEASURE)}


def with_sizes(side: ComparedSide, names: Mapping[str, str]) -> ComparedSide:
    """Return a side with the new names of its sizes."""
    if not names:
        return side
    facts = {key._replace(size=names.get(key.size, key.size)): fact
             for key, fact in side.facts.items()}
    return ComparedSide(slug=side.slug, title=side.title, version=side.version, facts=facts,
                        sizes=tuple(names.get(size, size) for size in side.sizes),
                        titles=side.titles, kinds=side.kinds, errors=side.errors,
                        former_sizes=side.former_sizes)


def differences(before: ComparedSide, after: ComparedSide) -> tuple[FactDifference, ...]:
    """Return what differs, in the order of the side after and then of what went.

    Only kinds of facts that are known of both sides are compared. Where a side was not knitted,
    errors are: what else would have been found on it is not known.
    """
    kinds = before.kinds & after.kinds
    changed = [FactDifference(key, before.facts.get(key), after.facts.get(key))
               for key in dict.fromkeys((*after.facts, *before.facts)) if key.kind in kinds
               and value_of(before, key) != value_of(after, key)]
    if before.errors or after.errors:
        return tuple(one for one in changed if Severity.ERROR in (
            fact.value for fact in (one.before, one.after) if fact))
    return tuple(_whole(changed, before, after))


def value_of(side: ComparedSide, key: FactKey) -> object:
    """Return the value of a fact, None where the side has no such fact."""
    fact = side.facts.get(key)
    return fact.value if fact else None


def _whole(changed: Iterable[FactDifference], before: ComparedSide,
           after: ComparedSide) -> Iterator[FactDifference]:
    """The differences, with those of a whole size, piece or band as one."""
    places = [_places(side) for side in (before, after)]
    seen: dict[FactKey, int] = {}
    gathered: list[tuple[FactKey, FactDifference]] = []
    for one in changed:
        key = _whole_key(one, before, after, places)
        seen[key] = seen.get(key, 0) + 1
        if key.name or seen[key] == 1:
            gathered.append((key, one))
    for key, one in gathered:
        yield one if key.name else FactDifference(key, one.before, one.after, seen[key])


def _whole_key(one: FactDifference, before: ComparedSide, after: ComparedSide,
               places: list[set[tuple[str, str]]]
               ) -> FactKey:
    """The key of a size, piece or band that came or went with this fact; else its own."""
    size, kind, place, _ = one.key
    if one.before is not None and one.after is not None:
        return one.key
    if size and (size in before.sizes) != (size in after.sizes):
        return FactKey(size, FactKind.COUNT, "", "")
    at = (size, place)
    if kind in _OF_PLACES and (at in places[0]) != (at in places[1]):
        return FactKey(size, FactKind.COUNT, place, "")
    return one.key


def _places(side: ComparedSide) -> set[tuple[str, str]]:
    """The pieces and bands of every size, which have counts."""
    return {(key.size, key.place) for key in side.facts if key.kind is FactKind.COUNT}


def moves_of_figures(before: ComparedSide, after: ComparedSide, found: Iterable[FactDifference],
         moved: Mapping[FactKey, Collection[object]]) -> dict[FactKey, tuple[Move, ...]]:
    """Return the way that each changed figure took through its expression.

    `moved` has the causes of each. Where an expression names nothing that moved, since the bed
    counted the figure or a search found it, the way leads through the counts of the same piece or
    band that have a cause in common with it; where none comes before it, through those that the
    search was given.
    """
    measures = {size: _measures(before, after, size) for size in after.sizes}
    gauges = _gauges(before, after)
    made: dict[FactKey, tuple[Move, ...]] = {}
    counts: dict[tuple[str, str], list[FactKey]] = {}
    for one in found:
        if one.key.kind in _MADE and one.before and one.after and not one.is_whole:
            own = {name: each for name, each in measures.get(one.key.size, {}).items()
                   if one.key.kind is not FactKind.MEASURE or name != one.key.name}
            path = _moves_of(one.before.made, one.after.made, Known(
                own, () if one.key.kind is FactKind.GAUGE else gauges, unit=one.after.unit))
            if not any(move.role for move in path):
                near = [key for key in counts.get(_place_of(one.key), ())
                        if _share(moved, key, one.key)
                        and (one.key.kind is FactKind.COUNT or key.name in _SPAN)]
                path = (*_through(near, before, after), *path)
            made[one.key] = path
            if one.key.kind is FactKind.COUNT:
                counts.setdefault(_place_of(one.key), []).append(one.key)
    return made | {key: (*_through(near, before, after), *path) for key, path in made.items()
                   if key.kind is FactKind.COUNT and not any(move.role for move in path)
                   and (near := _of_search(key, counts[_place_of(key)], made, before, after))}


def _of_search(one: FactKey, counts: Sequence[FactKey], made: Mapping[FactKey, tuple[Move, ...]],
               before: ComparedSide, after: ComparedSide) -> list[FactKey]:
    """The counts of a place that a search was given, and of which it made this one: those that
    moved by themselves, and whose figures stand in what was chosen before and after."""
    tried = [{figure for tree in side.facts[one].made for figure in tried_in(tree)}
             for side in (before, after)]
    return [key for key in counts if any(move.role for move in made[key])
            and not any(one.name in move.names for move in made[key])
            and all(value_of(side, key) in figures
                    for side, figures in zip((before, after), tried, strict=True))]


def _place_of(key: FactKey) -> tuple[str, str]:
    """The size and the piece or band of a count; of the stitches of a yarn, whose they are."""
    return key.size, key.name.removesuffix(_YARN_OF) if key.kind is FactKind.YARN else key.place


def _share(moved: Mapping[FactKey, Collection[object]], one: FactKey, other: FactKey) -> bool:
    return any(cause in moved.get(other, ()) for cause in moved.get(one, ()))


def _through(near: Sequence[FactKey], before: ComparedSide, after: ComparedSide
             ) -> Iterator[Move]:
    """The counts of a place that moved before a figure, the nearest first, as what moved it."""
    for key in near[:-1 - _NEAR:-1]:
        values = [value_of(side, key) for side in (before, after)]
        if all(isinstance(value, int) for value in values):
            old, new = (Fraction(str(value)) for value in values)
            yield Move(Role.NUMBER, (key.name, key.name), old, new, unit=after.facts[key].unit)


def _moves_of(before: tuple[Expression, ...], after: tuple[Expression, ...], known: Known
         ) -> tuple[Move, ...]:
    pairs = zip(before, after, strict=False)  # a list may have more entries than it had
    return tuple(dict.fromkeys(move for old, new in pairs for move in moves(old, new, known)))


def _gauges(before: ComparedSide, after: ComparedSide) -> GaugePairs:
    """The stitches and rows of all fabrics that both sides have, and that moved."""
    return tuple(dict.fromkeys(
        (old.made[0], fact.made[0]) for key, fact in after.facts.items()
        if key.kind is FactKind.GAUGE and (old := before.facts.get(key))
        and old.made and fact.made and old.made[0] != fact.made[0]))


def _measures(before: ComparedSide, after: ComparedSide, size: str) -> Measures:
    return {key.name: (old.made[0], fact.made[0]) for key, fact in after.facts.items()
            if key.kind is FactKind.MEASURE and key.size == size
            and (old := before.facts.get(key)) and old.made and fact.made}

"""A pattern proved in one size with a reader's figures, and what else would work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import islice
from typing import TypeVar

from ..core.problems import Place, Problem, Severity
from ..fabric.gauge import measure
from ..machine.records import dataclass
from ..pattern.fabrics import Fabric, NeedleBed
from ..pattern.model import Pattern
from ..pattern.publishing import KEEPS, ReaderChange
from ..sizing.charts import Chart
from ..source.keys.fabric_keys import SwatchKeys
from ..source.own_swatch import TypedSwatch
from ..source.source import Scalar
from ..source.values import Entry, Fault
from .own_holes import with_holes_moved
from .own_measures import (
    measures_too_far,
    near_measures,
    not_kept,
    unread_measures,
    with_measures,
)
from .proof import Proof, SizeProof, prove_alone
from .texts import Texts, read_texts

T = TypeVar("T")
MOST_NEEDLES = 400  # of any bed that a source can name
TRIES_OF_MEASURES = 24
ENOUGH = 3  # figures that work
_TOO_LONG = "bed-too-short"


@dataclass(frozen=True, slots=True)
class SourceTexts:
    """What a pattern is read from: its texts, the beds and the size charts."""

    texts: Texts
    beds: Mapping[str, NeedleBed]
    charts: Mapping[str, Chart | None]

    def read(self, swatches: Mapping[str, TypedSwatch]) -> Pattern | None:
        """Return the pattern with these swatches, by fabric; None where it is refused."""
        return read_texts(self.texts, beds=self.beds, charts=self.charts, swatches=swatches)[0]


def published(made: T | None) -> T:
    """Return what was made of a published pattern. Raises ValueError where nothing was."""
    if made is None:
        raise ValueError("a published pattern has no error")
    return made


def unread(swatch: TypedSwatch) -> tuple[str, ...]:
    """Return the keys of the figures of a swatch that cannot be read, or are beyond all limits."""
    return tuple(name for name, key in SwatchKeys.keys.items()
                 if name in swatch or key.needed
                 if not _reads(name, swatch.get(name, "")))


def _reads(name: str, text: str) -> bool:
    place = Place("", 1, 1)
    try:
        SwatchKeys.keys[name].read(Entry(name, Scalar(text, place), name, place))
    except Fault:
        return False
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What a reader wants: a size, her swatches by fabric, her measures by name."""

    size: str
    swatches: Mapping[str, TypedSwatch]
    measures: Mapping[str, str]

    def of(self, ground: SourceTexts, pattern: Pattern) -> Pattern | None:
        """Return the pattern with her figures; None where it is refused. `pattern` is the
        designer's, whose size has the measures that she may change."""
        own = ground.read(self.swatches) if self.swatches else pattern
        return own and with_measures(own, self.size, self.measures)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSizeResult:
    """What came of it: her size knitted, what was found, and what must stay and did not.

    There is no proof where something was refused. By `moved` the uppermost buttonholes lie further
    from their ends than the designer's [stitches].
    """

    proof: Proof | None
    found: tuple[Problem, ...]
    lost: tuple[tuple[str, str, int | Fraction, int | Fraction], ...] = ()
    moved: int


def make(own: Pattern, keeps: tuple[str, ...], size: str,
         theirs: SizeProof | None) -> OwnSizeResult:
    """Return what comes of one size of a reader's own pattern. What the designer `keeps` must be
    as in `theirs`, the designer's own of that size, where something must stay."""
    proof, found = prove_alone(own, size)
    moved = 0
    if proof is None:
        proof, found, moved = with_holes_moved(own, size, found)
    if proof is None or theirs is None:
        return OwnSizeResult(proof=proof, found=found, moved=moved)
    lost = tuple(not_kept(keeps, theirs, proof.sizes[0]))
    return OwnSizeResult(proof=None if lost else proof, found=found, lost=lost, moved=moved)


def has_to_keep(keeps: Iterable[str]) -> bool:
    """Return whether something of the designer's own size must stay besides measures, of all that
    she `keeps` from a reader's change."""
    return bool(set(keeps) & set(KEEPS))


def size_to_keep(pattern: Pattern, size: str) -> SizeProof | None:
    """Return the designer's own proof of a size; None where nothing must stay but measures."""
    if not has_to_keep(pattern.reader_keeps):
        return None
    return published(prove_alone(pattern, size)[0]).sizes[0]


def too_far(change: ReaderChange | None, fabrics: Mapping[str, Fabric],
            own: Mapping[str, Fabric]) -> Iterator[str]:
    """Yield which of a reader's `own` fabrics differ in gauge from the designer's by more than the
    `change` that she allows."""
    most = change.within if change else None
    for key, fabric in own.items():
        hers, theirs = measure(fabric.swatches), measure(fabrics[key].swatches)
        if most is not None and any(abs(a / b - 1) * 100 > most for a, b in (
                (theirs.stitch, hers.stitch), (theirs.row, hers.row))):
            yield key


def measures_near(ground: SourceTexts, pattern: Pattern, wanted: Wanted
                  ) -> Iterator[tuple[str, str]]:
    """Yield the nearest measures with which a size works: a name, and another figure for it."""
    theirs = size_to_keep(pattern, wanted.size)
    working = ((name, measures[name])
               for name, measures in islice(near_measures(wanted.measures), TRIES_OF_MEASURES)
               if works(ground, pattern, replace(wanted, measures=measures), theirs))
    return islice(working, ENOUGH)


def measures_searched(wanted: Wanted) -> tuple[int, int]:
    """Return how many measures near a reader's are tried where none works, and how far each is
    moved, in steps of half a centimetre or a quarter of an inch."""
    tries = TRIES_OF_MEASURES if wanted.measures else 0
    return tries, -(-tries // (2 * len(wanted.measures))) if tries else 0


def works(ground: SourceTexts, pattern: Pattern, wanted: Wanted, theirs: SizeProof | None) -> bool:
    """Return whether a size works with a reader's figures, beside the designer's size to keep."""
    size, measures = wanted.size, wanted.measures
    if any(unread(swatch) for swatch in wanted.swatches.values()) or \
            unread_measures(pattern, size, measures) or \
            any(measures_too_far(pattern, size, measures)):
        return False
    own = wanted.of(ground, pattern)
    return (own is not None
            and not any(too_far(pattern.reader_change, pattern.fabrics, own.fabrics))
            and make(own, pattern.reader_keeps, size, theirs).proof is not None)


def working_sizes(ground: SourceTexts, pattern: Pattern, wanted: Wanted) -> tuple[str, ...]:
    """Return the other sizes that work with a reader's figures, each proved by itself."""
    return tuple(size for size in pattern.sizes if size != wanted.size and works(
        ground, pattern, replace(wanted, size=size), size_to_keep(pattern, size)))


def needles_needed(own: Pattern, size: str, found: tuple[Problem, ...]) -> int | None:
    """Return how many needles a size takes that was refused for want of them; None for no such
    refusal, or where no bed has enough."""
    if {p.code for p in found if p.severity is Severity.ERROR} != {_TOO_LONG}:
        return None
    low, high = own.bed.needles, MOST_NEEDLES
    if not _fits(own, size, high):
        return None
    while high - low > 2:
        middle = (low + high) // 4 * 2
        low, high = (low, middle) if _fits(own, size, middle) else (middle, high)
    return high


def _fits(own: Pattern, size: str, needles: int) -> bool:
    return prove_alone(replace(own, bed=replace(own.bed, needles=needles)), size)[0] is not None

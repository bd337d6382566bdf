"""How many stitches a buttonhole wants, and where the holes of a band go: Robin Hunter, "Knitting
Math: How to Calculate Buttonhole Spacing" (B02); Carpe Lanam, "More finishing techniques" (B04); a
yarn shop's lesson, "The One-Row Buttonhole" (B09); Mary Anne Oger, "Button detail" (B11); an online
book, "How to Become an Expert Knitter" (B12)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import field, replace
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate, pairwise
from typing import NamedTuple

from ..core.counted import Count
from ..core.counts import EVEN, NEAREST, Unit, whole
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Term, plain
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place
from ..core.spread import shares
from ..core.units import Length
from ..machine.records import dataclass
from ..pattern.holes import Gaps, OddGap
from .hole_joins import is_clear


@dataclass(frozen=True, slots=True, kw_only=True)
class BandSpec:
    """What is asked of a band's holes, in whole numbers.

    `stitches` are the band's by its edge; `buttonhole_count` holes of `hole` stitches;
    `lower` and `upper` the stitches before the first and after the last. `end_give` and `band_give`
    say how far each end and the band may be moved by a remedy, never nearer to an end than `least`.
    The holes keep `clear` of `joins`, counted from the upper end. A single hole lies at that end,
    or `at_first`. `gaps` says what becomes of a remainder. `usual_upper` is what grew to `upper`.
    """

    stitches: int
    buttonhole_count: int
    hole: int
    lower: int
    upper: int
    end_give: int = 2
    band_give: int = 2
    odd_gap: OddGap = OddGap.SPREAD
    gaps: Gaps = Gaps.NEAREST
    least: int = 1
    joins: tuple[int, ...] = ()
    clear: int = 0
    at_first: bool = False
    usual_upper: int | None = None

    def __post_init__(self) -> None:
        if self.buttonhole_count < 1 or self.hole < 1 or self.stitches < 1:
            raise ValueError("a band with holes has stitches, at least one hole, and its stitches")


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """Where the holes are: from the band's lower end [stitches]. One hole lies `through` a chosen
    measure, as its sum is written; `above` is how many lie above those in the hem. Of holes that
    are put somewhere `before` computes the stitches below each."""

    stitches: int
    hole: int
    lower: int
    upper: int
    gaps: tuple[int, ...]
    spec: BandSpec
    fixed: bool = False
    through: str = ""
    above: Expression | None = field(default=None, compare=False)
    before: tuple[Expression, ...] = field(default=(), compare=False)

    def __post_init__(self) -> None:
        filled = self.lower + self.hole * self.buttonhole_count + sum(self.gaps) + self.upper
        if filled != self.stitches:
            raise ValueError("a placing adds up to its band")

    @property
    def buttonhole_count(self) -> int:
        """How many holes."""
        return len(self.gaps) + 1

    @property
    def alike(self) -> bool:
        """True where the gaps are alike, and an end or one of them takes the rest."""
        return not self.fixed and self.spec.gaps is not Gaps.NEAREST and self.buttonhole_count > 1

    @property
    def starts(self) -> tuple[int, ...]:
        """The first stitch (from 1) of every hole, from the lower end."""
        return tuple(accumulate((self.hole + gap for gap in self.gaps), initial=self.lower + 1))


# How much longer a hole can be drawn than it lies: the most that a published case passes. A hole of
# two stitches at 22 to 4 in "will easily fit a 5/8 in button": Clearwater Knits, "Small tailored
# buttonholes", http://clearwaterknits.com/sm-tailored-bh/. One of a single stitch takes at most
# 1 cm in worsted yarn: "Eyelet buttonhole", https://knitgrove.com/techniques/eyelet-buttonhole; it
# has up to 20 stitches to 4 in: "Standard yarn weight system", a trade association's table.
STRETCH = Fraction(5, 8) / (2 * Fraction(4, 22))
STRETCH_OF_ONE = Fraction(10) / (Fraction("101.6") / 20)


def reach(hole: int, stitch: Fraction) -> Length:
    """Return the largest button that passes a hole of `hole` stitches, each `stitch` wide [mm].

    Source: the cases beside `STRETCH`. Yarn and tension change it: try a hole on the swatch.
    """
    return Length(hole * stitch * (STRETCH_OF_ONE if hole == 1 else STRETCH))


def hole_stitches(button: Length, stitch: Fraction, place: Place | None = None,
                  width: Expression | None = None) -> Count:
    """Return the stitches of a hole: those the button covers, less one; at least two.

    Where that hole does not stretch to the button (`reach`), as many as the button covers.
    B09 covers 4 and 5; at least two is common practice, no source. `stitch` is its width [mm], and
    `width` what that comes from where it is no swatch's.
    """
    wide = Operand(button.mm, Role.BUTTON, place=place)
    width = width or Operand(stitch, Role.STITCH_WIDTH)
    covered = Rounded(wide / width)
    fewer = Chosen((covered - Operand(Fraction(1), Role.ONE_LESS), plain(2)),
                   Rule.LARGEST, ChoiceReason.LEAST_HOLE)
    made = Chosen((fewer, covered), Rule.REACHES, ChoiceReason.TOO_FEW,
                  (wide, Term(width * plain(STRETCH), Role.STRETCHED)))
    far = whole(reach(int(made.value), stitch).mm)
    return Count(Noted(made, Note.STRETCHES, (far,)), Unit.STITCHES)


def number_every(span: int, hole: int, every: Fraction, *, odd: bool = False) -> int:
    """Return how many holes fit a `span` of stitches from first to last, about `every` apart.

    All in [stitches]; `every` is from the start of one hole to the start of the next, and the
    nearest number of spaces is taken, an even one where the holes must be `odd` in number, so that
    one lies in the middle (B11). At least one hole.
    """
    return int(holes_every(plain(span), hole, Operand(every, Role.APART), odd=odd).value)


def holes_every(span: Expression, hole: int, every: Expression, *, odd: bool = False
                ) -> Expression:
    """Return how many holes `number_every` fits, as an expression."""
    if span.value < hole:
        return plain(1)
    spaces = (span - plain(hole, "hole_stitches")) / every
    return Rounded(spaces, EVEN if odd else NEAREST) + plain(1)


# The one written cost: remedies in the order ends, band, gaps (B12 moves the end; gaps that
# differ by one are B02 and B04), so a gap outweighs any change of the band and the band any
# change of the ends. Each weight is larger than all below it can sum up to.
GAP, BAND, END, LOPSIDED, UPPER = 1_000_000, 10_000, 100, 10, 1


def cost(spec: BandSpec, stitches: int, lower: int, upper: int, odd_gaps: int) -> int:
    """Return what a placing gives up of what was asked.

    1,000,000 for every gap that differs + 10,000 for every stitch the band changes + 100 for
    every stitch an end moves + 10 for every stitch one end moves more than the other + 1 for
    every stitch the upper end moves: it is the lower end that gives (B12).
    """
    down, up = lower - spec.lower, upper - spec.upper
    return (GAP * odd_gaps + BAND * abs(stitches - spec.stitches) + END * (abs(down) + abs(up))
            + LOPSIDED * abs(down - up) + UPPER * abs(up))


def place(spec: BandSpec) -> Placing | None:
    """Return the cheapest placing by `cost`, or None when no placing is sound.

    Sound: ends of at least one stitch within the give, gaps at least as wide as a hole and at
    least two stitches (the closing takes one), gaps that differ by one at most, holes clear of
    joins. Among equals the band that is larger, then the larger lower end. A single hole keeps
    its distance from its own end, and the other end is what is left.
    """
    if spec.buttonhole_count == 1:
        rest = max(1, spec.stitches - spec.hole - (spec.lower if spec.at_first else spec.upper))
        spec = replace(spec, upper=rest) if spec.at_first else replace(spec, lower=rest)
    if spec.gaps is not Gaps.NEAREST and spec.buttonhole_count > 1:
        return _by_rest(spec)
    best = min(sound(spec), default=None)
    if best is None:
        return None
    return Placing(stitches=best.stitches, hole=spec.hole, lower=best.lower, upper=best.upper,
                   spec=spec, gaps=_gaps(best.room(spec), spec.buttonhole_count - 1, spec.odd_gap))


def _by_rest(spec: BandSpec) -> Placing | None:
    """Gaps that are alike: the lower end takes the rest (B12), or one of them (no source)."""
    spaces = spec.buttonhole_count - 1
    room = spec.stitches - spec.lower - spec.upper - spec.buttonhole_count * spec.hole
    gap, rest = divmod(room, spaces)
    lower, gaps = spec.lower, [gap] * spaces
    if spec.gaps is Gaps.EVEN:
        lower += rest
    else:
        gaps[{OddGap.HIGHEST: spaces - 1, OddGap.CENTRE: (spaces - 1) // 2}.get(
            spec.odd_gap, 0)] += rest
    starts = [lower + 1 + k * spec.hole + sum(gaps[:k]) for k in range(spec.buttonhole_count)]
    joins = [spec.stitches - join for join in spec.joins]
    if gap < max(2, spec.hole) or min(lower, spec.upper) < spec.least or (
            joins and not is_clear(starts, spec.hole, joins, spec.clear)):
        return None
    return Placing(stitches=spec.stitches, hole=spec.hole, lower=lower, upper=spec.upper,
                   gaps=tuple(gaps), spec=spec)


class Candidate(NamedTuple):
    """A sound placing, so that the better one is the smaller: its cost, the stitches of the band
    and of the lower end, both less than 0, and those of the upper end."""

    cost: int
    less_stitches: int
    less_lower: int
    upper: int

    @property
    def stitches(self) -> int:
        """The stitches of the band."""
        return -self.less_stitches

    @property
    def lower(self) -> int:
        """The stitches before the first hole."""
        return -self.less_lower

    def room(self, spec: BandSpec) -> int:
        """The stitches between the holes."""
        return self.stitches - self.lower - self.upper - spec.buttonhole_count * spec.hole


@lru_cache(maxsize=256)  # a placing is chosen once, and its search told several times
def sound(spec: BandSpec) -> tuple[Candidate, ...]:
    """Return every sound placing within the give of its ends and its band."""
    return tuple(_sound(spec))


def _sound(spec: BandSpec) -> Iterator[Candidate]:
    spaces = spec.buttonhole_count - 1
    for stitches in _near(spec.stitches, spec.band_give):
        for lower in _near(spec.lower, spec.end_give, spec.least):
            for upper in _near(spec.upper, spec.end_give, spec.least):
                room = stitches - lower - upper - spec.buttonhole_count * spec.hole
                if room < spaces * max(2, spec.hole) or (not spaces and room):
                    continue
                if spec.joins and not _keeps_clear(spec, stitches, lower, room):
                    continue
                odd = room % spaces if spaces else 0
                price = cost(spec, stitches, lower, upper, min(odd, spaces - odd))
                yield Candidate(price, -stitches, -lower, upper)


def place_at(stitches: int, hole: int, middles: Sequence[Expression], name: str = ""
             ) -> Placing | None:
    """Return holes of `hole` stitches with their middles nearest to `middles`; `name` is that of
    the count of such a hole's stitches.

    Those are distances from the lower end [stitches]. None where the holes do not lie apart by
    their own width and two stitches at least, or a stitch from the ends.
    """
    half = plain(hole, name) / plain(2)
    before = sorted((Rounded(middle - half) for middle in middles), key=lambda one: one.value)
    starts = [int(one.value) + 1 for one in before]
    gaps = tuple(b - a - hole for a, b in pairwise(starts))
    lower, upper = starts[0] - 1, stitches - starts[-1] - hole + 1
    if lower < 1 or upper < 1 or min(gaps, default=hole + 2) < max(2, hole):
        return None
    spec = BandSpec(stitches=stitches, buttonhole_count=len(starts), hole=hole, lower=lower,
                    upper=upper)
    return Placing(stitches=stitches, hole=hole, lower=lower, upper=upper, gaps=gaps, spec=spec,
                   fixed=True, before=tuple(before))


def _near(middle: int, give: int, least: int = 1) -> range:
    return range(max(least, middle - give), middle + give + 1)


def _keeps_clear(spec: BandSpec, stitches: int, lower: int, room: int) -> bool:
    """True where the holes of a placing with so much `room` between them keep clear of joins."""
    gaps = _gaps(room, spec.buttonhole_count - 1, spec.odd_gap)
    starts = [lower + 1 + k * spec.hole + sum(gaps[:k]) for k in range(spec.buttonhole_count)]
    return is_clear(starts, spec.hole, [stitches - join for join in spec.joins], spec.clear)


def _gaps(room: int, spaces: int, odd: OddGap) -> tuple[int, ...]:
    """Share `room` among `spaces` gaps, those of the rarer width placed as `odd` says."""
    if not spaces:
        return ()
    small, larger = divmod(room, spaces)
    if odd is OddGap.SPREAD or not larger:
        return shares(room, spaces)
    rare = min(larger, spaces - larger)
    common, other = (small, small + 1) if rare == larger else (small + 1, small)
    first = {OddGap.LOWEST: 0, OddGap.HIGHEST: spaces - rare,
             OddGap.CENTRE: (spaces - rare) // 2}[odd]
    return tuple(other if first <= i < first + rare else common for i in range(spaces))

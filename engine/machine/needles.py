"""Which needles: sets of needles on a bed, named from its centre (L2 L1 | R1 R2, no needle 0).

A set is one integer, a bit a needle, so that a step over two hundred needles costs no more
than a step over two.

Source: several pattern writers, "Bed layout notation" (M07).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from .records import dataclass

_CENTRE = 1024  # bit of R1; L1 is the bit below it. No hand bed comes near it.


class Needle(NamedTuple):
    """One needle by its place: 0 is R1, 1 is R2, -1 is L1, -2 is L2 [needles from centre]."""

    place: int

    @property
    def name(self) -> str:
        """The needle's name, such as L12 or R3."""
        return f"R{self.place + 1}" if self.place >= 0 else f"L{-self.place}"

    def __str__(self) -> str:
        return self.name


# Every needle by its bit: one is looked up in a ninth of the time that it takes to make it.
_BY_BIT = tuple(map(Needle, range(-_CENTRE, _CENTRE)))


@dataclass(frozen=True, slots=True, init=False, eq=False)
class Needles:
    """A set of needles. `mask` holds a bit a needle; use the functions below to build one."""

    mask: int

    def __init__(self, mask: int) -> None:
        # The constructor and comparison of a frozen dataclass take twice and three times as long,
        # and every step makes and compares several sets.
        _set_mask(self, mask)

    def __eq__(self, other: object) -> bool:
        return self.mask == other.mask if isinstance(other, Needles) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.mask)

    def __len__(self) -> int:
        return self.mask.bit_count()

    def __bool__(self) -> bool:
        return self.mask != 0

    def __contains__(self, item: Needle) -> bool:
        return bool(self.mask >> (item.place + _CENTRE) & 1)

    def __iter__(self) -> Iterator[Needle]:
        """The needles from left to right."""
        mask = self.mask
        while mask:
            low = mask & -mask
            yield _BY_BIT[low.bit_length() - 1]
            mask ^= low

    def __or__(self, other: Needles) -> Needles:
        both = self.mask | other.mask
        return self if both == self.mask else Needles(both)

    def __and__(self, other: Needles) -> Needles:
        shared = self.mask & other.mask
        if not shared:
            return NONE
        return self if shared == self.mask else Needles(shared)

    def __sub__(self, other: Needles) -> Needles:
        shared = self.mask & other.mask
        if not shared:
            return self
        return NONE if shared == self.mask else Needles(self.mask ^ shared)

    def __le__(self, other: Needles) -> bool:
        return self.mask | other.mask == other.mask

    @property
    def first(self) -> Needle:
        """The leftmost needle. Raises ValueError when empty."""
        if not self.mask:
            raise ValueError("an empty set of needles has no first needle")
        return _BY_BIT[(self.mask & -self.mask).bit_length() - 1]

    @property
    def last(self) -> Needle:
        """The rightmost needle. Raises ValueError when empty."""
        if not self.mask:
            raise ValueError("an empty set of needles has no last needle")
        return _BY_BIT[self.mask.bit_length() - 1]

    @property
    def across(self) -> int:
        """The needles from the first to the last, those left out between them too [needles]."""
        return self.mask.bit_length() - (self.mask & -self.mask).bit_length() + 1 \
            if self.mask else 0

    @property
    def stretch(self) -> Needles:
        """Every needle from the first to the last; none where the set is empty."""
        low = self.mask & -self.mask
        whole = (1 << self.mask.bit_length()) - low if low else 0
        return self if whole == self.mask else Needles(whole)

    @property
    def is_unbroken(self) -> bool:
        """True for needles side by side, with no other between them; False for none."""
        return self.mask != 0 and self.stretch is self

    def shifted(self, by: int) -> Needles:
        """The set moved `by` needles to the right (negative: to the left)."""
        return Needles(self.mask << by if by >= 0 else self.mask >> -by)

    def mirrored(self) -> Needles:
        """The set with left and right exchanged about the bed's centre (L3 becomes R3)."""
        return self._reversed_about(-1)

    def _reversed_about(self, pivot: int) -> Needles:
        """Each place p becomes `pivot` − p; done on the whole mask at once."""
        if not self.mask:
            return self
        low = (self.mask & -self.mask).bit_length() - 1
        bits = format(self.mask >> low, "b")
        return Needles(int(bits[::-1], 2) << (pivot - self.last.place + _CENTRE))

    def turned_within(self, whole: Needles) -> Needles:
        """The set with its order reversed between the ends of `whole`, as when work is turned."""
        return self._reversed_about(whole.first.place + whole.last.place)

    def spans(self) -> tuple[tuple[Needle, Needle], ...]:
        """The runs of neighbouring needles, from left to right, as (first, last)."""
        if self.is_unbroken:
            return ((self.first, self.last),)
        runs = []
        mask, base = self.mask, 0
        while mask:
            skip = (mask & -mask).bit_length() - 1
            mask >>= skip
            base += skip
            length = (~mask & (mask + 1)).bit_length() - 1
            runs.append((_BY_BIT[base], _BY_BIT[base + length - 1]))
            mask >>= length
            base += length
        return tuple(runs)

    def leftmost(self, count: int) -> Needles:
        """The `count` needles farthest left. Raises ValueError when there are fewer."""
        return Needles(_lowest(self.mask, count))

    def rightmost(self, count: int) -> Needles:
        """The `count` needles farthest right. Raises ValueError when there are fewer."""
        spare = len(self) - count
        if spare < 0:
            raise ValueError(f"asked for {count} of {len(self)} needles")
        return Needles(self.mask & ~_lowest(self.mask, spare))

    def __str__(self) -> str:
        return " ".join(a.name if a == b else f"{a.name}–{b.name}" for a, b in self.spans())


_set_mask = Needles.__dict__["mask"].__set__  # the slot itself


def _lowest(mask: int, count: int) -> int:
    out = 0
    for _ in range(count):
        if not mask:
            raise ValueError(f"asked for {count} needles, there are fewer")
        low = mask & -mask
        out |= low
        mask ^= low
    return out


NONE = Needles(0)


def between(first: Needle, last: Needle) -> Needles:
    """Every needle from `first` to `last`, both included. Raises ValueError when out of order."""
    return stretch_of(first.place, last.place)


def stretch_of(first: int, last: int) -> Needles:
    """Every needle from one place to another, as `between` has them by their needles."""
    if last < first:
        raise ValueError(f"{Needle(first)} lies right of {Needle(last)}")
    return Needles(((1 << (last - first + 1)) - 1) << (first + _CENTRE))


def of(*needles: Needle) -> Needles:
    """The set of just these needles."""
    mask = 0
    for place, in needles:
        mask |= 1 << (place + _CENTRE)
    return Needles(mask)


def doubled(layers: Iterable[tuple[str, Needles]]) -> Needles:
    """Return the needles that lie in more than one of the named layers, such as those of loops."""
    seen = twice = 0
    for _, on in layers:
        twice |= seen & on.mask
        seen |= on.mask
    return Needles(twice)


def every_other(first: Needle, last: Needle) -> Needles:
    """`first` and every second needle after it, up to `last` at most."""
    mask = 0
    for place in range(first.place, last.place + 1, 2):
        mask |= 1 << (place + _CENTRE)
    return Needles(mask)


def centred(count: int, *, extra: str = "left") -> Needles:
    """`count` needles about the bed's centre; an odd one out goes to the `extra` side.

    Layout as written left-0-right: 130 stitches are 65-0-65 (M07).
    Raises ValueError for no stitches or another side than left and right.
    """
    if count < 1 or extra not in ("left", "right"):
        raise ValueError(f"cannot centre {count} stitches with the odd one {extra!r}")
    half = count // 2
    left = half + (count % 2 if extra == "left" else 0)
    return between(Needle(-left), Needle(count - left - 1))


def bed_of(count: int) -> Needles:
    """All needles of a bed with `count` needles, half on each side of its centre.

    Raises ValueError unless `count` is even and positive.
    """
    if count < 2 or count % 2 or count > 2 * 999:
        raise ValueError(f"a bed has an even number of needles, 2 to 1998; got {count}")
    return between(Needle(-count // 2), Needle(count // 2 - 1))

"""The rows, the width and the even slopes of a piece as its counts make them, for the workbook.

The bed counts rows and needles as it knits. Here they are added up from the counts of the form:
another way to the same figure, which the workbook has beside what the bed counted.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Chosen, Expression, Noted, Rule, Sum, Term, plain
from ..core.operands import Note, Reason, Role
from ..proof.proof import KnittedPiece
from ..shape.garment import Garment
from .materials import needles_of
from .sheet_slopes import slopes

Named = tuple[str, str, Expression]
# The counts that make up all rows of a piece: the first of these that it has all of.
_ROWS = (
    ("rows",),
    ("lining_rows",),
    ("rows_to_raglan", "raglan_rows", "strap_rows"),
    ("rows_to_raglan", "raglan_rows", "top_rows"),
    ("rows_to_armhole", "armhole_rows", "shoulder_rows"),
    ("rows_to_underarm", "cap_rows"),
    ("rows_to_underarm",),
)
_WIDTHS = ("upper_arm", "chest", "waist")  # at which a piece can be wider than where it begins
_AT = "at_"  # of an outline of the designer's: how many stitches it has at a corner
# A front without a count has that of the piece it is like, the nearest first.
_LIKE = {"left_front": ("right_front", "back"), "right_front": ("back",), "front": ("back",)}
_LAST = 1  # row over all stitches that were held, above those that the form counts


def derived(garment: Garment, knitted: KnittedPiece) -> Iterator[Named]:
    """Yield the rows of a piece from 0, the needles that it takes at its widest, and the figures of
    its even slopes."""
    counts = _counts(garment, knitted.piece.key)
    yield from _knitted(knitted, counts)
    body = {name: count for piece, name, count in garment.counts if piece == "back"}
    like = {"underarm": body["underarm"]} if "underarm" in body else {}
    yield from slopes(knitted.piece, {**like, **counts})


def _knitted(knitted: KnittedPiece, counts: Mapping[str, Count]) -> Iterator[Named]:
    top = max(state.counter for state in knitted.run.states)
    yield "rows", Unit.ROWS.value, _that_comes_to(top, _all_rows(counts)) or Noted(
        plain(top), Note.TOP_ROW)
    wide = needles_of(knitted)
    yield "widest", Unit.NEEDLES.value, _that_comes_to(wide, _widest(knitted, counts)) or Noted(
        plain(wide), Note.WIDEST)


def _counts(garment: Garment, key: str) -> Mapping[str, Count]:
    """The counts of a piece by name, with those of the pieces that it is like."""
    keys = (key, *_LIKE.get(key, ()))
    return {name: count for each in reversed(keys)
            for piece, name, count in garment.counts if piece == each}


def _that_comes_to(figure: int, sums: Iterator[Expression]) -> Expression | None:
    """The first expression that comes to what the bed counted; None where none does."""
    return next((one for one in sums if one.value == figure), None)


def _all_rows(counts: Mapping[str, Count]) -> Iterator[Expression]:
    for names in _ROWS:
        if all(name in counts for name in names):
            made = tuple(counts[name].term(Role.ROWS) for name in names)
            yield made[0].of if len(made) == 1 else Sum(made)
            yield Sum((*made, plain(_LAST)))


def _widest(knitted: KnittedPiece, counts: Mapping[str, Count]) -> Iterator[Expression]:
    first = Term(knitted.piece.stitches.made, Role.STITCHES)
    wider = tuple(count.term(Role.STITCHES) for name, count in counts.items()
                  if name in _WIDTHS or name.startswith(_AT))
    yield Chosen((first, *wider), Rule.LARGEST, Reason.LARGEST_NAMED) if wider else first

"""The counts of necks and armholes that a form decides by itself, each with its working."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from ..core.counted import Count
from ..core.counts import Unit
from ..core.expression import Chosen, Expression, Sum
from ..core.expression_parts import inside
from ..core.operands import ChoiceReason
from ..shape.openings import Ending
from ..shape.piece import Piece
from ..shape.profile import How
from ..shape.step_sizes import SteppedSlope
from .straight import Counts

FEET = {"armhole_bind_offs": "armhole_bind_off", "neck": "neck_bind_off",
        "neck_bind_offs": "neck_bind_off"}  # what is bound off at the foot of which slope
WITHIN = {ChoiceReason.NECK_SIDES: "neck_side", ChoiceReason.ROW_EACH: "half_neck_centre"}


def workings(counts: Iterable[tuple[str, str, Count]], pieces: Sequence[Piece],
             necks: Iterable[tuple[str, str, Count]]) -> Counts:
    """Return the counts of the `necks` of a garment and of what is bound off below its slopes, but
    for those that are among its `counts` and those of no stitch; before each the choices in it.

    Both sides of a garment, and both fronts, are bound off alike: each is counted once.
    """
    known, found = {(key, name) for key, name, _ in counts}, [*necks]
    names: set[str] = set()
    for piece in pieces:
        for name, count in _feet(piece):
            if name not in names:
                found.append((piece.key, name, count))
            names.add(name)
    return tuple((key, called, each) for key, name, count in found
                 if count.value and (key, name) not in known
                 for called, each in (*_within(name, count).items(), (name, count)))


def _within(name: str, count: Count) -> dict[str, Count]:
    """The choices within the sum of a neck's stitches by name, whose figures it prints."""
    chosen: dict[str, Count] = {}

    def walk(tree: Expression) -> None:
        for each in inside(tree):
            walk(each)
        if isinstance(tree, Chosen) and tree is not count.made and tree.why in WITHIN:
            chosen[WITHIN[tree.why]] = Count(tree, Unit.STITCHES)
    if name in ("neck_centre", "neck_bind_off"):
        walk(count.made)
    return chosen


def _feet(piece: Piece) -> Iterator[tuple[str, Count]]:
    """What is bound off at the armhole of a piece, and at once at the edge of its neck."""
    whole = piece.opening is not None and piece.opening.centre_ends is not Ending.BIND_OFF
    for slope in piece.slopes:
        if not isinstance(slope, SteppedSlope) or slope.how is not How.BIND_OFF:
            continue
        if slope.name not in FEET or (slope.name == "neck" and whole):
            continue
        sizes = slope.steps.sizes
        at_armhole = slope.name == "armhole_bind_offs" and len(sizes) > 1
        yield FEET[slope.name], Count(Sum(sizes) if at_armhole else sizes[0], Unit.STITCHES)

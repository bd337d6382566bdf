"""The stripes of a garment laid on the rows of its pieces, and where they meet in its seams.

Source: a supplier's table, "Worsted and cotton counts" (W06).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from ..catalogue.pocket_edges import LINING
from ..core.counts import decimal
from ..core.problems import Problem, Severity, error, note
from ..core.text import clip, suggest
from ..fabric.piece_fabrics import piece_fabric
from ..fabric.yarn import metres_per_gram
from ..machine.step_keys import StepYarn
from ..pattern.fabrics import Fabric, Materials
from ..pattern.model import GarmentSpec
from ..pattern.places import Places
from ..pattern.stripes import SleeveStripes, StripesFrom, StripesSpec
from ..shape.garment import Garment, Kindred
from ..shape.outline import last_row
from ..shape.piece import Piece
from ..shape.striping import Striped, step_yarns, stripes_of
from ..shape.tasks import Seam
from ..words.terms.yarn_names import yarn_name

SLEEVE = "sleeve"
BODY = ("back", "front", "right_front", "left_front")
# What the counts call the rows from a piece's first one to where its seam ends at the underarm.
TO_UNDERARM = ("rows_to_armhole", "rows_to_raglan", "rows_to_underarm")


def with_stripes(places: Places, spec: GarmentSpec, fabrics: Mapping[str, Fabric], garment: Garment
                 ) -> tuple[Garment, tuple[Problem, ...]]:
    """Return the garment with its pieces striped, and what is wrong with them.

    Where stripes go wrong in a piece is found in each size; the message stands there once.
    """
    stripes = spec.stripes
    if stripes is None:
        return garment, ()
    faults = tuple(_refused(places, spec, fabrics, stripes, garment))
    if faults:
        return garment, faults
    names = step_yarns(stripes, piece_fabric(spec, fabrics).yarn)
    pieces = tuple(_striped(piece, stripes, garment, names) for piece in garment.pieces)
    garment = replace(garment, pieces=pieces)
    return garment, () if stripes.unmatched else tuple(_unmatched(places, garment))


def unlike_yarns(places: Places, spec: GarmentSpec | None, materials: Materials
                ) -> Iterator[Problem]:
    """A warning for each yarn of the stripes that is thinner or thicker than the fabric's.

    Yarns stand for one another within a tenth of their length by mass (W06).
    """
    stripes = spec.stripes if spec else None
    if spec is None or stripes is None:
        return
    own = metres_per_gram(materials.yarns[piece_fabric(spec, materials.fabrics).yarn])
    for key in stripes.yarns:
        long = metres_per_gram(materials.yarns[key])
        if own and long and abs(long - own) > own / 10:
            yield note(
                Severity.WARNING, "stripes-unlike", places.of("garment.stripes.sequence"),
                found=f'stripes of the yarn "{key}", {decimal(long * 100, 0)} m to 100 g, in a '
                      f"fabric that was swatched in one of {decimal(own * 100, 0)} m",
                expected="yarns within a tenth of each other",
                remedy="Check counts and packages; or use a yarn as thick as the fabric's.")


def _refused(places: Places, spec: GarmentSpec, fabrics: Mapping[str, Fabric],
             stripes: StripesSpec, garment: Garment) -> Iterator[Problem]:
    """Pieces that there are not, and pieces that are knitted side by side."""
    keys = {piece.key: piece for piece in garment.pieces}
    for at, name in enumerate(stripes.pieces):
        if name not in keys:
            expected, remedy = suggest(name, keys, "Use one of these.")
            yield error("unknown-name", places.of(f"garment.stripes.pieces.{at}"),
                        found=f'no piece called "{clip(name)}"', expected=expected,
                        remedy=remedy)
    beside = {key for pair in spec.side_by_side for key in pair}
    if found := sorted(beside & {key for key in keys if _has(stripes, key)}):
        yield error("stripes-not-here", places.of("garment.side_by_side"),
                    found=f"striped pieces that are knitted side by side: {', '.join(found)}",
                    expected="one piece at a time, as its yarns hang from it",
                    remedy="Delete them from side_by_side, or name other pieces in the stripes.")
    yield from _in_other_fabrics(places, spec, fabrics, stripes, garment)
    for piece in garment.pieces:
        if _has(stripes, piece.key) and piece.short_rows:
            yield error("stripes-not-here", places.of("garment.stripes"),
                        found=f"stripes in a {piece.title.lower()} with short rows",
                        expected="a piece whose rows all run from side to side",
                        remedy="Delete the stripes, or the short rows: bust_darts, shirt_tail or "
                               "short_rows.")
        if _has(stripes, piece.key) and (piece.quarters or piece.drawn_below):
            how = "in quarters" if piece.quarters else "at both ends"
            yield error("stripes-not-here", places.of("garment.stripes"),
                        found=f"stripes in a hat with a crown {how}",
                        expected="a crown whose rows all hang from one another",
                        remedy="Delete the stripes, or use another shape of crown.")


def _in_other_fabrics(places: Places, spec: GarmentSpec, fabrics: Mapping[str, Fabric],
                      stripes: StripesSpec, garment: Garment) -> Iterator[Problem]:
    """Pieces in fabrics apart that cannot be striped with the others: from a chart, or of another
    yarn, of which the others' names of yarns do not hold."""
    own = piece_fabric(spec, fabrics).yarn
    for piece in garment.pieces:
        fabric = piece_fabric(spec, fabrics, piece.key)
        if not spec.piece_fabrics or not _has(stripes, piece.key):
            continue
        what = f"stripes on the {piece.title.lower()} in the fabric \"{fabric.key}\""
        others = "Name the other pieces in the stripes"
        if fabric.chart:
            yield error("stripes-not-here", places.of("garment.stripes"),
                        found=f"{what}, which is knitted from a stitch chart",
                        expected="a fabric without a chart", remedy=f"{others}: pieces: [back].")
        elif fabric.yarn != own:
            yield error("stripes-not-here", places.of("garment.stripes"),
                        found=f'{what} of the yarn "{fabric.yarn}"',
                        expected=f'a fabric of the yarn "{own}", as the other pieces are',
                        remedy=f"{others}: pieces: [back].")


def _has(stripes: StripesSpec, key: str) -> bool:
    return key in stripes.pieces if stripes.pieces else key != LINING


def _striped(piece: Piece, stripes: StripesSpec, garment: Garment, names: Mapping[str, StepYarn]
             ) -> Piece:
    if not _has(stripes, piece.key):
        return piece
    last = piece.rows + last_row(piece)
    top, shift = last, 0
    body = next((each for each in garment.pieces if each.key in BODY), piece)
    if piece.key == SLEEVE and stripes.sleeves is SleeveStripes.UNDERARM:
        top, shift = body.rows + last_row(body), _up(garment, body) - _up(garment, piece)
    from_top = stripes.begins is StripesFrom.TOP
    yarns = [_yarn_of(stripes, names, top - row - shift if from_top else row + shift - 1)
             for row in range(1, last + 1)]
    return replace(piece, striped=Striped(stripes_of(yarns), last, stripes.carried))


def _yarn_of(stripes: StripesSpec, names: Mapping[str, StepYarn], place: int) -> StepYarn:
    """The yarn of the row so many rows after the first one that is counted."""
    whole = sum(each.rows for each in stripes.sequence)
    if not stripes.repeat and not 0 <= place < whole:
        return StepYarn.MAIN
    left = place % whole
    for each in stripes.sequence:
        if left < each.rows:
            return names[each.yarn]
        left -= each.rows
    raise AssertionError("a place within the sequence")


def _up(garment: Garment, piece: Piece) -> int:
    """The rows of a piece up to the underarm; 0 where it has none [rows]."""
    key = SLEEVE if piece.key == SLEEVE else BODY[0]
    return next((count.value for of, name, count in garment.counts
                 if of == key and name in TO_UNDERARM), 0)


# Where they meet


def _unmatched(places: Places, garment: Garment) -> Iterator[Problem]:
    """A warning for each pair of pieces whose stripes do not meet in a seam sewn row to row."""
    for seam, one, other, first, last in _row_seams(garment):
        for step in range(last):
            here, there = (_worn(piece, row + step)
                           for piece, row in zip((one, other), first, strict=True))
            if here != there:
                yield note(
                    Severity.WARNING, "stripes-unmatched", places.of("garment.stripes"),
                    size=garment.size,
                    found=f"row {first[0] + step} of the {one.title.lower()} in the "
                          f"{yarn_name(here)}, and row {first[1] + step} of the "
                          f"{other.title.lower()}, sewn to it in the {seam} seam, in the "
                          f"{yarn_name(there)}",
                    expected="one yarn on both sides of the seam",
                    remedy="Write sleeves: level at the underarm, name both pieces, or write "
                           "unmatched: yes.")
                break


def _worn(piece: Piece, row: int) -> StepYarn:
    return piece.striped.yarn(row) if piece.striped else StepYarn.MAIN


def _row_seams(garment: Garment) -> Iterator[tuple[str, Piece, Piece, tuple[int, int], int]]:
    """The seams of two pieces sewn row to row: the rows at which they begin, and how many."""
    sewn = {join.seam for join in garment.joins if join.kindred is not Kindred.STITCHES}
    pieces = {piece.key: piece for piece in garment.pieces}
    bodies = [pieces[key] for key in BODY if key in pieces]
    for other in bodies[1:]:
        rows = min(bodies[0].rows, other.rows)
        if Seam.SIDE in sewn:
            yield Seam.SIDE.value, bodies[0], other, (1, 1), _up(garment, other) or rows
        elif Seam.SHOULDER in sewn:  # knitted sideways
            yield Seam.SHOULDER.value, bodies[0], other, (1, 1), rows
    if Seam.RAGLAN in sewn and SLEEVE in pieces:
        arm = pieces[SLEEVE]
        below = _up(garment, arm)
        for body in bodies:
            under = _up(garment, body)
            yield (Seam.RAGLAN.value, body, arm, (under + 1, below + 1),
                   min(body.rows - under, arm.rows - below))

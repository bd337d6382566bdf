"""Ribs of other counts than the pieces above them, and the stitches that come or go between."""

from __future__ import annotations

from dataclasses import replace

from ..core.counted import Count, stated
from ..core.counts import DOWN, Unit
from ..core.edge_parts import SectionRole
from ..core.expression import Operand, Rounded, Term, plain
from ..core.operand_parts import PartRole
from ..core.operands import Role
from ..core.spread import MOST_IN_A_ROW, taken_rows
from ..core.text_kinds import FindingText
from ..pattern.edges import Offer
from ..pattern.rib_specs import RibStitches
from ..words.terms.part_names import part_name
from .edge_counts import one_for_one
from .edge_path import EdgePath
from .edging import Section
from .garment import CannotShape, Cut, Garment
from .piece import Piece
from .ribs import Rib

_LIKE = {"front": "back", "left_front": "right_front"}  # pieces that are counted as another


def counted_as(garment: Garment, piece: Piece) -> str:
    """Return the key under which the stitches of a piece are counted: another's, or its own."""
    own = any((key, name) == (piece.key, "cast_on") for key, name, _ in garment.counts)
    return piece.key if own else _LIKE.get(piece.key, piece.key)


def own_stitches_of(garment: Garment, piece: Piece) -> RibStitches | None:
    """Return the stitches that the rib of a piece is to have; None where it has the piece's."""
    if not isinstance(piece.hem, Rib):
        return None
    return piece.hem.own_stitches.get(counted_as(garment, piece))


def with_own_stitches(cut: Cut, garment: Garment, *, seamed: bool) -> Garment:
    """Return the garment with ribs of as many stitches as is asked, and how many come or go above.

    Raises CannotShape for a rib of a piece that is not in the garment, for a count that the rib
    does not fit, and for more that come or go than one row bears.
    """
    begun = {piece.key for piece in garment.pieces if isinstance(piece.hem, Rib)}
    for piece in garment.pieces:
        for key in piece.hem.own_stitches if isinstance(piece.hem, Rib) else ():
            if key not in begun:
                raise CannotShape(f"stitches of a rib of the {key.replace('_', ' ')}, which begins "
                                  "with none",
                                  "Delete them.", _at(cut, key), "pieces that begin with the rib")
    changed = {piece.key: replace(piece, hem=replace(piece.hem, stitches=_counted(
        cut, piece, piece.hem, wanted, at=_at(cut, counted_as(garment, piece)), seamed=seamed)))
        for piece in garment.pieces
        if isinstance(piece.hem, Rib) and (wanted := own_stitches_of(garment, piece)) is not None}
    if not changed:
        return garment
    return replace(
        garment, pieces=tuple(changed.get(piece.key, piece) for piece in garment.pieces),
        counts=(*garment.counts, *(each for key, piece in changed.items()
                                   if counted_as(garment, piece) == key
                                   for each in _counts(piece))),
        edges={key: _on_rib(edge, list(changed.values())) for key, edge in garment.edges.items()})


def _counted(cut: Cut, piece: Piece, rib: Rib, spec: RibStitches, *, at: str, seamed: bool
             ) -> Count:
    """The stitches of a rib, which it fits; `at` is where the source has them."""
    fits, above = rib.fits(seamed=seamed), piece.stitches
    if isinstance(spec.figure, int):
        made = stated(spec.figure, Unit.STITCHES, spec.place)
        if fits is not None and not fits.allows(made.value, made.exact):
            of, plus = fits.kind
            low = max(0, (made.value - plus) // of) * of + plus
            _refuse(at, piece, f"{made} of a rib", f"{fits}, as the rib needs it",
                    f"Write {low} or {low + of}, or ends: any.")
    else:
        figure = above.term(Role.STITCHES) * Operand(spec.figure, Role.SHARE, place=spec.place)
        pitch = rib.place(rib.stitch) if rib.stitch else cut.of(piece.key).gauge.stitch
        made = Count(Rounded(figure, fits, pitch) if fits else Rounded(figure, pitch=pitch),
                     Unit.STITCHES)
    _need_few(at, piece, rib, made)
    return made


def _need_few(at: str, piece: Piece, rib: Rib, made: Count) -> None:
    """Refuse more stitches that come or go than one row bears, and two that would be four."""
    above = piece.stitches
    most = MOST_IN_A_ROW
    if abs(above.value - made.value) > most * max(above.value, made.value):
        low, high = above.value * (1 - most), above.value / (1 - most)
        _refuse(at, piece, f"{made} of a rib below {above}", "at most one stitch in three that "
                "comes or goes in one row",
                f"Write a number from {-(-low.numerator // low.denominator)} to {int(high)}.")
    if rib.full and made.value > above.value:
        _refuse(at, piece, f"{made} of a full needle rib below {above}", "no more stitches than "
                "the piece has: two lie on every needle when the rib ends, and four would",
                f"Write {above.value} or fewer.")


def _refuse(at: str, piece: Piece, found: FindingText, expected: FindingText,
            remedy: FindingText) -> None:
    raise CannotShape(f"{piece.title.lower()}: {found}", remedy, at, expected)


def _at(cut: Cut, key: str) -> str:
    """Where the source has the stitches of a rib of the piece `key`."""
    return f"{'cuff' if cut.cuff and key == 'sleeve' else 'hem'}.stitches.{key}"


def _counts(piece: Piece) -> tuple[tuple[str, str, Count], ...]:
    """The stitches of a rib, how many come or go above it, and how far apart at least: as many of
    the rib's lie from one to the next, or one more. Where all needles of both beds knit, these are
    the main bed's, and the second bed's are counted too."""
    assert isinstance(piece.hem, Rib) and piece.hem.stitches is not None
    rib, above = piece.hem.stitches, piece.stitches
    own, over = rib.term(Role.STITCHES, part_name(PartRole.OF_RIB)), above.term(Role.STITCHES)
    more = ("increases_above_rib", over - own), ("decreases_above_rib", own - over)
    name, made = more[rib.value > above.value]
    counts = _of_beds(piece.key, rib) if piece.hem.full else ((piece.key, "rib_stitches", rib),)
    if rib.value == above.value:
        return counts
    apart = Rounded(own / Term(made, Role.NUMBER), DOWN)
    return (*counts, (piece.key, name, Count(made, Unit.STITCHES)),
            (piece.key, "apart_in_rib", Count(apart, Unit.STITCHES)))


def _of_beds(key: str, main: Count) -> tuple[tuple[str, str, Count], ...]:
    """The stitches of a full needle rib on either bed, one fewer on the second, and on both."""
    second = Count(main.term(Role.STITCHES) - plain(1), Unit.STITCHES)
    both = (main.term(Role.STITCHES, part_name(PartRole.OF_MAIN_BED))
            + second.term(Role.STITCHES, part_name(PartRole.OF_SECOND_BED)))
    return ((key, "rib_on_main_bed", main), (key, "rib_on_second_bed", second),
            (key, "rib_on_both_beds", Count(both, Unit.STITCHES)))


def _on_rib(edge: EdgePath, pieces: list[Piece]) -> EdgePath:
    """The edge with the stitches of the rib where it is the first row of the only piece."""
    ribs = [piece.hem for piece in pieces if isinstance(piece.hem, Rib)]
    if len(ribs) != 1 or ribs[0].stitches is None:
        return edge
    return replace(edge, sections=tuple(
        _hung(section, ribs[0].stitches) if section.offer is Offer.CAST_ON
        and section.role is SectionRole.LOWER_EDGE else section for section in edge.sections))


def _hung(section: Section, stitches: Count) -> Section:
    return replace(section, places=stitches.value, length=stitches.value * section.pitch,
                   taken=one_for_one(stitches.value, stitches.made))


def changed_at(rib: int, above: int) -> tuple[int, ...]:
    """Return which of the stitches `above` a rib of so many are new or lie two on one needle,
    counted from 1, evenly spread."""
    return taken_rows(abs(above - rib), above) if above != rib else ()

"""What waits on waste yarn: a strip of it for every set of stitches that is hung together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from ..machine.edge_steps import waste_of
from ..machine.needles import NONE, Needle, Needles, of
from ..machine.reasons import Reason
from ..machine.steps import Position, Side
from ..pattern.edges import OPEN, Offer
from ..plan.band import BandPlan
from ..plan.meeting import Meeting
from ..shape.piece import Piece
from ..words.terms.waiting_names import half_names
from .layout import Layout, corner_loops, sections
from .ledger import Ledger


def in_halves(piece: Piece, plans: Sequence[BandPlan]) -> Piece:
    """Return the piece with what two parts of a band take from it on two strips of waste yarn."""
    for plan in plans:
        halves = [m.section for part in plan.strips for m in part.meetings
                  if m.section.half_of]
        if len(halves) == 2 and (name := halves[0].half_of) in (
                *piece.waits, piece.centre_waits):
            first, last = (s.places + sum(s.seams) for s in halves)
            return replace(piece, halves=(name, first, last))
    return piece


def strips_of(piece: Piece, name: str) -> tuple[str, ...]:
    """Return the strips of waste yarn on which what is called `name` waits, from the left."""
    return half_names(name) if piece.halves and piece.halves[0] == name else (name,)


def stands_apart(piece: Piece) -> bool:
    """True where a piece's top waits on more than one strip of waste yarn."""
    return bool(piece.shares) or bool(piece.halves and piece.halves[0] in piece.waits)


def end_apart(book: Ledger, piece: Piece, needles: Needles) -> None:
    """Take a top off on lengths of waste yarn, drawn through its parts from the left."""
    book.unthread(cut=True)
    book.weights_off()
    shares = piece.shares or (len(needles),)
    for name, part in zip(piece.waits, _spans(needles, shares), strict=True):
        put_by(book, piece, part, name)


def put_by(book: Ledger, piece: Piece, needles: Needles, name: str, *, held: bool = False) -> None:
    """Draw waste yarn through stitches with a needle, a length for every strip."""
    strips = strips_of(piece, name)
    shares = piece.halves[1:] if piece.halves and len(strips) > 1 else (len(needles),)
    for strip, part in zip(strips, _spans(needles, shares), strict=True):
        book.take_off(part, strip, held=held, by_needle=True)
        book.bring(part, Position.NON_WORKING)


def _spans(needles: Needles, shares: Sequence[int]) -> Iterator[Needles]:
    """The needles of so many stitches each, from the left."""
    left = list(needles)
    if len(left) != sum(shares):
        raise ValueError(f"{shares} of {len(left)} stitches")
    at = 0
    for share in shares:
        yield of(*left[at:at + share])
        at += share


def hang_edges(book: Ledger, plan: BandPlan, layout: Layout, *, onto_empty: bool) -> None:
    """Hang every section of a band's edge, with the loops of the corners beside it."""
    loops = corner_loops(plan, layout)
    for number, named in enumerate(sections(plan, layout), 1):
        _hang_section(book, named, layout.hem, onto_empty=onto_empty,
                      corners=of(*(loop.needle for loop in loops if loop.section == number)))


def _hang_section(book: Ledger, named: tuple[str, Meeting, Needles], hem: Side, *,
                  onto_empty: bool, corners: Needles) -> None:
    """Hang a section of an edge; waste yarn on which it waits is drawn out when all of it hangs.

    A stitch that lies in a seam goes on the needle of its neighbour. Where more needles are wanted
    than stitches wait, those between get a loop from beside (common practice, no source).
    """
    name, meeting, needles = named
    gaps = gap_needles(meeting, needles, hem)
    picks = tuple(sorted(set(meeting.pick_up.rows))) if gaps else meeting.pick_up.rows
    book.hang(name, needles - gaps, onto_empty=onto_empty, picks=picks,
              from_side=hem, doubled=seam_needles(meeting, needles, hem)
              | beside_missed(meeting, needles, hem), corners=corners)
    if meeting.section.offer is Offer.WAITING:
        book.draw_cord(waste_of(name))
    if gaps:
        section = meeting.section
        steps = len(picks) == section.places and len(gaps) == len(section.turns)
        book.increase(gaps, Reason.FOR_STEPS if steps else Reason.FOR_FACING)


def gap_needles(meeting: Meeting, needles: Needles, hem: Side) -> Needles:
    """Return the needles of a section that no stitch is left for: open stitches are hung once.

    Its outermost needles hold a stitch.
    """
    if meeting.section.offer not in OPEN:
        return NONE
    along = list(needles) if hem is Side.LEFT else list(needles)[::-1]
    again = [n for n, (before, row) in enumerate(pairwise(meeting.pick_up.rows), 1)
             if row == before]
    return of(*(along[min(n, len(along) - 2)] for n in again))


def seam_needles(meeting: Meeting, needles: Needles, hem: Side) -> Needles:
    """Return the needles that take a seam's stitch with their own."""
    seams = meeting.section.seams
    first, last = seams if hem is Side.LEFT else seams[::-1]
    return of(*([needles.first] if first else []), *([needles.last] if last else []))


def beside_missed(meeting: Meeting, needles: Needles, hem: Side) -> Needles:
    """Return the needles that take a waiting stitch with their own, where more wait than needed.

    One that has a seam's stitch already leaves it to the next that has none: stitches keep their
    order, whichever needles take two.
    """
    if meeting.section.offer not in OPEN:
        return NONE
    taken = meeting.pick_up.rows
    along = list(needles) if hem is Side.LEFT else list(needles)[::-1]
    after = (*taken[1:], meeting.section.places + 1)
    seams = seam_needles(meeting, needles, hem)
    free = [n for n in along if n not in seams]
    missed = [*([0] if taken[0] > 1 else []),
              *(at for at, row in enumerate(taken) if after[at] > row + 1)]
    found: list[Needle] = []
    for at in missed:
        near = min((n for n in free if n not in found),
                   key=lambda n: (abs(along.index(n) - at), along.index(n) < at), default=None)
        found += [near] if near else []
    return of(*found)


def strips_hung(hung: Sequence[tuple[str, Meeting, Needles]]
                ) -> tuple[tuple[str, str, int], ...]:
    """Return the strips of waste yarn that a band's sections wait on, as a program names them."""
    return tuple((name, m.section.waits, m.section.places + sum(m.section.seams))
                 for name, m, _ in hung if m.section.offer is Offer.WAITING)


def faced_needles(meeting: Meeting, needles: Needles, hem: Side) -> Needles:
    """Return the needles of a section whose rows lie before a facing: hung through it too."""
    below = meeting.section.places - meeting.section.faced
    through = sum(row > below for row in meeting.pick_up.rows)
    return needles.rightmost(through) if hem is Side.LEFT else needles.leftmost(through)

"""A band longer than the bed, in parts: where it is cut, and the stitch each part has for the join.

It is cut at the centre back or where two sections of its edge meet, never in a buttonhole. The
seam takes a stitch of each of the two parts it joins (mattress stitch; common practice, no
source), so that every cut costs two stitches.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, pairwise

from ..catalogue.bands import KINDS
from ..core.branched import Branched
from ..core.counted import Count
from ..core.counts import DOWN, UP, Unit
from ..core.edge_parts import SectionDetail
from ..core.expression import (
    Chosen,
    Expression,
    Operand,
    Rounded,
    Rule,
    Sum,
    Term,
    plain,
    tried_figure,
)
from ..core.note_arguments import Noted
from ..core.operands import ChoiceReason, Note, Role
from ..machine.records import dataclass
from ..pattern.edges import Offer
from ..shape.corners import feet, squares
from ..shape.edge_counts import one_for_one
from ..shape.edging import Section
from ..words.terms.section_names import CENTRE_BACK, meeting_of
from ..words.terms.waiting_names import half_names
from . import part_planners
from .band import BandPart, BandPlan
from .casing_plan import CasingPlan
from .hole_joins import is_clear
from .hole_specs import shifted
from .meeting import Meeting, as_one, taken

MOST_CUTS = 3
CLEAR = 2  # stitches between a hole and a cut; common practice, no source


@dataclass(frozen=True, slots=True)
class BandCut:
    """A place where a band may be cut: after so many stitches of it, and what lies there: a square
    corner, which may be hollow."""

    after: int
    place: str
    is_centre: bool = False
    at_corner: bool = False
    is_hollow: bool = False


def in_parts(plan: BandPlan, needles: int) -> BandPlan:
    """Return the plan with its parts, where it is longer than `needles` and can be cut.

    The fewest cuts are made; among as many, none at a square corner are taken where there are such,
    then the centre back, then those that leave the longest part shortest, then those that come
    first along the edge. None is cut at a hollow corner, whose loop belongs to both its sides, and
    a facing at no square corner. A plan that fits, or cannot be cut, is returned as it is: so is
    one whose stitches go at corners. The left band of a pair is cut for itself.
    """
    if plan.left:
        plan = replace(plan, left=in_parts(plan.left, needles))
    if plan.widest <= needles or not plan.collar.is_straight or plan.facing or plan.repeat or \
            (plan.mitre and not plan.mitre.turns.longer):
        return plan
    possible = [cut for cut in cuts(plan) if _is_sound(plan, cut)]
    for number in range(1, MOST_CUTS + 1):
        fitting = [chosen for chosen in combinations(possible, number)
                   if max(_widths(plan, chosen)) <= needles]
        if fitting:
            fitting.reverse()  # of equals the first is taken: it comes last
            best_last = sorted(fitting, key=lambda chosen: -_cost(plan, chosen))
            return replace(plan, parts=tuple(_parts(plan, best_last)))
    return plan


def _cost(plan: BandPlan, chosen: Sequence[BandCut]) -> int:
    """What cuts cost, as one figure: a corner more than a band that is not cut at its centre, that
    more than a stitch of the longest part, that more than where the first cut lies."""
    corners = sum(cut.at_corner for cut in chosen)
    centre = any(cut.is_centre for cut in chosen)
    more = plan.stitches.value + 2  # than any part is long, with a stitch for either join
    longest = max(_lengths(plan, chosen))
    return ((2 * corners + (not centre)) * more + longest) * more + chosen[0].after


def cuts(plan: BandPlan) -> Iterator[BandCut]:
    """Yield the places where the edge's sections meet, and the centre back, in their order."""
    edge = [m.section for m in plan.meetings]
    at, hollow, corners = 0, feet(edge), {c.before for c in squares(edge)}
    for number, meeting in enumerate(plan.meetings):
        name, taken = meeting.section.name, meeting.stitches.value
        if meeting.section.centre_back and _stands_open(meeting) and taken > 1:
            yield BandCut(at + taken // 2, CENTRE_BACK, is_centre=True)
        at += taken
        if number + 1 < len(plan.meetings):
            after = plan.meetings[number + 1].section.name
            yield BandCut(at, meeting_of(name, after), at_corner=number + 1 in corners,
                          is_hollow=number + 1 in hollow)


def _stands_open(meeting: Meeting) -> bool:
    """True for stitches that are hung one by one, on as many needles or, under a facing, more."""
    return meeting.section.offer is not Offer.ROWS and \
        meeting.stitches.value >= meeting.section.places > 1


def _is_sound(plan: BandPlan, cut: BandCut) -> bool:
    """No hole is cut, and two stitches stay between it and the one for the join; no hollow
    corner, of a facing no square one, and none beside the stitch that a mitre turns about."""
    holes, casing = plan.placing, plan.casing
    turned = plan.mitre.turns.corners if plan.mitre else ()
    if any(-part_planners.LEFT <= cut.after - corner < part_planners.LEFT for corner in turned):
        return False
    if cut.is_hollow or (cut.at_corner and KINDS[plan.band.kind].faces):
        return False
    if any(first - 1 <= cut.after <= first + 1 for first in casing.openings):
        return False
    return holes is None or is_clear(holes.starts, holes.hole, (cut.after,), CLEAR)


def _lengths(plan: BandPlan, chosen: Sequence[BandCut]) -> list[int]:
    """The stitches of every part, with those for its joins."""
    marks = _marks_of(plan, chosen)
    return [b - a + (a > 0) + (b < plan.stitches.value)
            for a, b in pairwise(marks)]


def _widths(plan: BandPlan, chosen: Sequence[BandCut]) -> list[int]:
    """The most needles that every part takes up, with what comes at the corners of a mitre."""
    return [own + comes for own, comes in zip(_lengths(plan, chosen), _coming(plan, chosen),
                                              strict=True)]


def _coming(plan: BandPlan, chosen: Sequence[BandCut]) -> Iterator[int]:
    """The stitches that come at the corners of every part."""
    marks = _marks_of(plan, chosen)
    for start, end in pairwise(marks):
        mitre = plan.mitre and part_planners.turned_between(plan.mitre, start, end, joined=0)
        yield mitre.wider if mitre else 0


def _parts(plan: BandPlan, tried: Sequence[Sequence[BandCut]]) -> Iterator[BandPlan]:
    """The parts by the last of the cuts that were `tried`, the others costing more."""
    chosen = tried[-1]
    ends = ["", *(cut.place for cut in chosen), ""]
    marks = _marks_of(plan, chosen)
    for number, (own, total) in enumerate(zip(_lengths(plan, chosen), marks[1:], strict=True)):
        part = BandPart(number=number + 1, of=len(marks) - 1, first=ends[number],
                        last=ends[number + 1], buttons=plan.buttons,
                        shares=tuple(b - a + comes for (a, b), comes in zip(
                        pairwise(marks), _coming(plan, chosen), strict=True)))
        yield _part(plan, part, (marks[number], total), own, tried)


def _sought(plan: BandPlan, part: BandPart, own: Expression, tried: Sequence[Sequence[BandCut]]
            ) -> Expression:
    """The stitches of a part as they were found: of all cuts tried, those that cost least."""
    each = (_between_marks(_marks_of(plan, cuts_), part.number - 1) for cuts_ in tried)
    return Chosen((own, *each), Rule.LEAST, ChoiceReason.CUT,
                  tuple(Operand(Fraction(_cost(plan, cuts_)), Role.COST) for cuts_ in tried))


def _marks_of(plan: BandPlan, chosen: Sequence[BandCut]) -> list[int]:
    return [0, *(cut.after for cut in chosen), plan.stitches.value]


def _between_marks(marks: Sequence[int], at: int) -> Expression:
    """The stitches between two neighbouring marks, and one for the join at each that is a cut."""
    joins = (at > 0) + (at + 2 < len(marks))
    return tried_figure(marks[at + 1] - marks[at]) + plain(joins)


def _part(plan: BandPlan, part: BandPart, reach: tuple[int, int], stitches: int,
          tried: Sequence[Sequence[BandCut]]) -> BandPlan:
    """The stitches after the start of its `reach` up to its end, of the whole, and those for the
    joins."""
    start, end = reach
    meetings = tuple(_between(plan.meetings, start, end))
    joins = bool(part.first) + bool(part.last)
    here = tried_figure(end - start) + plain(joins)
    sought, even = _sought(plan, part, here, tried), _even_share(plan, part, int(joins))
    own = Branched(sought, even) if even.value == sought.value else sought
    counts = (end - start, plan.stitches.value, int(joins), stitches)
    holes = plan.placing
    inside = [] if holes is None else [s for s in holes.starts if start < s <= end]
    placing = None if holes is None else shifted(holes, inside, stitches,
                                                 start - bool(part.first))
    places = Sum(tuple(Term(m.section.taken, Role.NUMBER) for m in meetings))
    mitre = plan.mitre and part_planners.turned_between(plan.mitre, start, end,
                                                        joined=int(bool(part.first)))
    return replace(plan, part=part, mitre=mitre, meetings=meetings, left=None,
                   pick_up=as_one(meetings), parts=(),
                   stitches=Count(Noted(own, Note.PART, counts), Unit.STITCHES),
                   edge_rows=Count(Term(places, Role.PLACES), Unit.ROWS),
                   placing=placing, hole=plan.hole if placing else None,
                   casing=_openings_between(plan, start, end))


def _even_share(plan: BandPlan, part: BandPart, joins: int) -> Expression:
    """What a part has where all are alike: the cuts can lie elsewhere for other stitches."""
    return Branched(Rounded(plan.stitches.term(Role.STITCHES) / plain(part.of)) + plain(joins))


def _openings_between(plan: BandPlan, start: int, end: int) -> CasingPlan:
    """The openings of a casing that lie in a part, counted from its own first stitch."""
    return replace(plan.casing, outlets=tuple(
        first - plain(start - bool(start)) for first in plan.casing.outlets
        if start < first.value <= end))


def _between(meetings: Sequence[Meeting], start: int, end: int) -> Iterator[Meeting]:
    """The sections that the stitches after `start` up to `end` take, one of them cut in two."""
    at = 0
    for meeting in meetings:
        first, last = max(start, at), min(end, at + meeting.stitches.value)
        if first < last:
            whole = last - first == meeting.stitches.value
            yield meeting if whole else _half(meeting, last - first, first == at)
        at += meeting.stitches.value


def _half(meeting: Meeting, stitches: int, is_first: bool) -> Meeting:
    """A half of a section whose stitches are hung one by one."""
    part = SectionDetail.TO_CENTRE_BACK if is_first else SectionDetail.FROM_CENTRE_BACK
    waits, first, last = meeting.section.waits, *meeting.section.seams
    strip = waits and half_names(waits)[0 if is_first else 1]
    every = meeting.section.places
    places = every // 2 if is_first else every - every // 2
    section = replace(meeting.section, waits=strip, half_of=waits,
                      seams=(first and is_first, last and not is_first),
                      details=(*meeting.section.details, part),
                      places=places, length=meeting.section.length * places / every,
                      taken=one_for_one(places), line=None,
                      turns=_turns_of_half(meeting.section, places, is_first=is_first))
    own: Expression = section.taken
    if stitches != places:
        own = Rounded(meeting.stitches.term(Role.STITCHES) * plain(Fraction(1, 2)),
                      DOWN if is_first else UP)
    return Meeting(section=section, pick_up=taken(section, stitches),
                   stitches=Count(Noted(own, Note.SECTION, (section.title,)), Unit.STITCHES))


def _turns_of_half(section: Section, places: int, *, is_first: bool) -> tuple[int, ...]:
    """The turns of a held neck that lie in a half with so many of its stitches, from its start."""
    start = 0 if is_first else section.places - places
    return tuple(turn - start for turn in section.turns if 0 < turn - start < places)

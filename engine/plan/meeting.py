"""How a band's stitches meet an edge, section by section, each at its own rate.

Source: an online book, "How to Become an Expert Knitter" (P12).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace
from fractions import Fraction
from itertools import accumulate, groupby

from ..core.branched import Branched
from ..core.counted import Count
from ..core.counts import NEAREST, UP, Rounding, Unit, whole
from ..core.expression import (
    Chosen,
    Difference,
    Expression,
    Operand,
    Rounded,
    Rule,
    Sum,
    Term,
    plain,
    plain_of,
)
from ..core.expression_parts import unrounded
from ..core.note_arguments import Noted
from ..core.operand_parts import PartRole
from ..core.operands import ChoiceReason, Note, Role
from ..core.problems import Place
from ..fabric.gauge import Gauge, counted
from ..machine.records import dataclass
from ..pattern.edges import OPEN, Offer
from ..shape.edge_path import EdgePath
from ..shape.edging import Section
from ..words.terms.part_names import part_name
from ..words.terms.section_names import slope_of, steps_of
from .pickup import (
    PickUp,
    eased,
    of_rows,
    pick_up,
    ruled_width,
    stitches_by_gauge,
    stitches_by_rule,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PickUpRate:
    """Band stitches along an edge: by the band's own `gauge`, or by a `rule` in stitches per row.

    `body` is the gauge of the edge's fabric; `ease` a share of the edge's length. What waits or
    was bound off is taken `one_for_one`, or else by the gauge too, as a facing takes it. What lies
    along the edge is counted in `unit`: rows of a band that is sewn on, which is stretched by a
    share, `stretch`. Its `gauge` is turned by a quarter, so that its stitch is such a row.
    `places` are those of the band's entries in the source.
    """

    body: Gauge
    gauge: Gauge | None
    rule: Fraction | None
    ease: Fraction = Fraction(0)
    one_for_one: bool = True
    unit: Unit = Unit.STITCHES
    stretch: Fraction = Fraction(0)
    places: Mapping[str, Place] = field(default_factory=dict, compare=False)

    @property
    def stitch(self) -> Fraction:
        """The width of a band stitch, as swatched or as the rule implies [mm]."""
        if self.gauge is not None:
            return self.gauge.stitch
        assert self.rule is not None
        return self.body.row / self.rule

    @property
    def width(self) -> Expression:
        """The same width as an expression."""
        rule = self.rule if self.gauge is None else None
        return ruled_width(self.stitch, self.body.row, rule, Role.BAND_STITCH, self.places)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """A section of the edge, the band stitches that take it, and how they are taken."""

    section: Section
    stitches: Count
    pick_up: PickUp


def meet(edge_path: EdgePath, rate: PickUpRate, rounding: Rounding = NEAREST
         ) -> tuple[Meeting, ...]:
    """Return the band's stitches for every section of an edge.

    Stitches that wait or were bound off are taken one for one, rows by the band's gauge or the
    rule along the knitted length (P09, P12); a facing's are all by its gauge ("Faced Band", It's
    All About the Color, 2007). Straight sections one above the other, such as a hem
    and the front edge above it, are rounded as one. `rounding` holds for the band as a whole: the
    longest section of rows gives way.
    """
    single = len(edge_path.sections) == 1
    counts = [_stitches(s, rate, rounding if single else NEAREST) for s in edge_path.sections]
    made = tuple(_meeting(s, c) for s, c in zip(edge_path.sections, counts, strict=True))
    if single:
        return made
    if rate.unit is Unit.ROWS:  # one length, sewn on: what its sections round to must not add up
        return _rounded_in_all(made, rounding)
    if not edge_path.ring:
        made = tuple(m for line in _lines(made) for m in _rounded_once(line))
    if rounding == NEAREST:
        return made
    return _rounded_in_all(made, rounding)


def ruled_stitch(edge_path: EdgePath, rate: PickUpRate) -> Fraction:
    """Return the width of a stitch of a band that was not swatched [mm].

    By the rule, which is in stitches for rows; on an edge that has no rows each place has one
    stitch, whatever the rule, so that the band is as wide as the edge.
    """
    if any(section.offer is Offer.ROWS for section in edge_path.sections):
        return rate.stitch
    return edge_path.length / sum(section.places for section in edge_path.sections)


def _lines(meetings: Sequence[Meeting]) -> Iterator[list[Meeting]]:
    """The sections that lie in one straight line together, any other by itself."""
    for straight, those in groupby(meetings, key=lambda m: m.section.is_straight_rows):
        line = list(those)
        yield from [line] if straight else [[m] for m in line]


def _rounded_once(line: Sequence[Meeting]) -> tuple[Meeting, ...]:
    stitches = max(len(line), whole(_exact(line)))
    return resized(line, stitches, ChoiceReason.SECTIONS,
                   plain_of(stitches, Rounded(_unrounded(line))))


def _rounded_in_all(meetings: Sequence[Meeting], rounding: Rounding) -> tuple[Meeting, ...]:
    """The meetings with as many stitches in all as their exact figures round to together."""
    total = Rounded(_unrounded(meetings), rounding)
    return resized(meetings, int(total.value), made=Term(total, Role.NUMBER))


def _unrounded(meetings: Sequence[Meeting]) -> Sum:
    """What their stitches are before any of them is rounded."""
    return Sum(tuple(Term(unrounded(m.stitches.made), Role.NUMBER) for m in meetings))


def _exact(meetings: Sequence[Meeting]) -> Fraction:
    return sum((m.stitches.exact for m in meetings), Fraction(0))


def _stitches(section: Section, rate: PickUpRate, rounding: Rounding) -> Count:
    if rate.unit is Unit.ROWS:
        return _band_rows(section, rate, rounding)
    if section.offer is not Offer.ROWS:
        if rate.one_for_one or rate.gauge is None or section.places == 1:
            return Count(Noted(_each_hung(section), Note.SECTION, (section.title,)), Unit.STITCHES)
        return _by_width(section, rate, rounding)
    if section.is_straight_rows:
        straight = Count(section.taken, Unit.ROWS)
        own = replace(rate.body, row=section.pitch)
        if rate.gauge is not None:
            return stitches_by_gauge(straight, own, rate.gauge,
                                     ease=rate.ease, rounding=rounding, places=rate.places)
        if rate.rule is not None and own.row == rate.body.row:
            return stitches_by_rule(straight, rate.rule, own, ease=rate.ease, rounding=rounding,
                                    places=rate.places)
    return _along(section, rate, rounding)


def _each_hung(section: Section) -> Expression:
    """Every place, and at each step of a held neck a loop more, so that no hole is left there
    (common practice, no source)."""
    if not section.turns:
        return section.taken
    turns = section.held or Operand(Fraction(len(section.turns), 2), Role.HELD_STEPS)
    return section.taken + plain(2) * turns


def _along(section: Section, rate: PickUpRate, rounding: Rounding) -> Count:
    """By its length: a slope is longer than its rows are high, so that it takes more stitches
    (P12); a rule in stitches per row holds for the rows of the garment's own fabric."""
    places = Unit.ROWS.of(section.places) if section.is_summed else \
        slope_of(section.working) if section.segments else section.working
    along = eased(Term(section.long, Role.ALONG, places), rate.ease, rate.places)
    return counted(along / rate.width, Unit.STITCHES, rate.stitch, rounding)


def _band_rows(section: Section, rate: PickUpRate, rounding: Rounding) -> Count:
    """The rows that are as long as the section once they are stretched: a denser band has more of
    them than the edge (purlwise, "Sewing a vertical band", 2008)."""
    if section.offer is not Offer.ROWS:
        long: Expression = Term(section.taken, Role.STITCHES) * Operand(
            section.pitch, Role.STITCH_WIDTH, part_name(PartRole.OF_EDGE))
    elif section.is_straight_rows:
        rows = section.taken if isinstance(section.taken, Operand | Term) else \
            Term(section.taken, Role.ROWS)
        long = rows * Operand(section.pitch, Role.ROW_HEIGHT)
    else:
        long = Term(section.long, Role.ALONG, slope_of(section.working))
    if rate.stretch:
        long = long / Operand(1 + rate.stretch, Role.SEWN_LONGER,
                              place=rate.places.get("stretch"))
    return counted(long / Operand(rate.stitch, Role.BAND_ROW), Unit.ROWS, rate.stitch, rounding)


def _by_width(section: Section, rate: PickUpRate, rounding: Rounding) -> Count:
    """As many of the band's stitches as are as wide as those of the edge."""
    wide: Expression = Term(section.taken, Role.STITCHES) * Operand(
        section.pitch, Role.STITCH_WIDTH, part_name(PartRole.OF_EDGE))
    if section.turns:
        wide = Term(section.long, Role.ALONG, steps_of(section.working))
    figure = eased(wide, rate.ease, rate.places) / rate.width
    return counted(figure, Unit.STITCHES, rate.stitch, rounding)


def _meeting(section: Section, count: Count) -> Meeting:
    least: Expression = plain(1)
    if section.offer in OPEN:
        taken_ = Term(section.taken, Role.STITCHES)
        least = Rounded((taken_ + plain(seams) if (seams := sum(section.seams)) else taken_)
                        / plain(2), UP)
    raised = Chosen((count.made, plain_of(int(least.value), least)), Rule.LARGEST,
                    ChoiceReason.LEAST_ONE)
    if raised.value > count.value:
        count = Count(raised, count.unit)
    elif section.offer in OPEN:
        count = Count(Branched(count.made, raised), count.unit)
    return Meeting(section=section, stitches=count, pick_up=taken(section, count.value))


def taken(section: Section, stitches: int) -> PickUp:
    """Return how so many stitches are taken from a section: each of a held neck's once, and a loop
    after each of its turns, where there is one for each; else spread evenly."""
    if not section.turns or stitches != section.places + len(section.turns):
        return pick_up(stitches, section.places)
    places = [*range(1, section.places + 1), *section.turns]
    return of_rows(tuple(sorted(places)), section.places)


def resized(meetings: Sequence[Meeting], stitches: int, why: ChoiceReason = ChoiceReason.BAND,
            made: Expression | None = None) -> tuple[Meeting, ...]:
    """Return the meetings with `stitches` in all; the longest section of rows takes the change.

    `why` it does is said in its working, and `made` is what so many stitches come from.
    """
    if len(meetings) == 1 and stitches == meetings[0].stitches.value:
        return tuple(meetings)
    longest = longest_of_rows(meetings)
    all_ = made or Branched(plain(stitches))
    others = tuple(m.stitches.term(Role.TITLED, m.section.title)
                   for n, m in enumerate(meetings) if n != longest)
    left = Difference(all_, Sum(others)) if others else all_
    own = meetings[longest].stitches
    changed = Chosen((own.made, left), Rule.ADDS_UP, why, (all_, *others))
    new = Count(Branched(own.made, changed) if changed.value == own.value else changed,
                meetings[0].stitches.unit)
    return tuple(_meeting(m.section, new) if i == longest else m for i, m in enumerate(meetings))


def longest_of_rows(meetings: Sequence[Meeting]) -> int:
    """Return which of the meetings (from 0) takes a change of the band: the longest of rows."""
    rows = [i for i, m in enumerate(meetings) if m.section.offer is Offer.ROWS] or \
        list(range(len(meetings)))
    return max(rows, key=lambda i: meetings[i].section.length)


def all_stitches(meetings: Sequence[Meeting]) -> Count:
    """Return the band's stitches over all sections, with the sum as its working."""
    if len(meetings) == 1:
        return meetings[0].stitches
    return Count(Sum(tuple(m.stitches.term(Role.TITLED, m.section.title) for m in meetings)),
                 meetings[0].stitches.unit)


def as_one(meetings: Sequence[Meeting]) -> PickUp:
    """Return the whole edge's pick-up, places numbered on from section to section."""
    if len(meetings) == 1:
        return meetings[0].pick_up
    starts = list(accumulate((m.section.places for m in meetings), initial=0))
    rows = tuple(row + start for m, start in zip(meetings, starts, strict=False)
                 for row in m.pick_up.rows)
    return of_rows(rows, starts[-1])

"""A folded band left open for a cord or elastic: where it comes out, how long it is, who may."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from ..catalogue.edge_roles import EdgeRole, role_of
from ..catalogue.section_keys import section_key
from ..core.counted import Count
from ..core.counts import DOWN, EVEN, Unit, decimal
from ..core.expression import Chosen, Expression, Operand, Rounded, Rule, Sum, plain
from ..core.operands import ChoiceReason, Role
from ..core.problems import Problem, Severity, error, note
from ..core.units import Length
from ..fabric.gauge import Gauge
from ..pattern.band_places import place_in
from ..pattern.model import Band, BandRows, Wearer
from ..pattern.places import Places
from ..pattern.specs import BandCord, Openings
from ..shape.edge_path import EdgePath
from ..shape.edging import Zone
from .casing_plan import CasingPlan
from .cord_rules import FROM_EDGE, FROM_MIDDLE, ROOM, STANDARDS, cord_length, long_ends
from .meeting import Meeting, all_stitches

AT_THE_HEAD = (EdgeRole.NECK, EdgeRole.AROUND, EdgeRole.PLACKET, EdgeRole.BRIM)


def cord_refusals(places: Places, wearer: Wearer, band: Band) -> tuple[Problem, ...]:
    """Return what is to be said of a band's cord for whoever wears it; an error refuses it.

    No cord at hood, head or neck (EN 14682, ASTM F1816-18 and 16 CFR Part 1120, in summaries);
    elsewhere ends of 75 mm at most. For a baby none at all is common practice, no source.
    """
    if band.cord is None:
        return ()
    place = places.of(f"bands.{band.key}.cord")
    if wearer is Wearer.BABIES:
        return (error("cord-on-baby", place, found="a cord in a baby's garment",
                      expected=f"none. {STANDARDS}",
                      remedy="Leave the cord out: the casing then takes elastic."),)
    if _at_the_head(band, band.cord):
        return _at_neck(places, wearer, band)
    return long_ends(wearer, place, band.cord.ties)


def _at_neck(places: Places, wearer: Wearer, band: Band) -> tuple[Problem, ...]:
    place, found = places.of(f"bands.{band.key}.cord"), f"a cord along the {band.edge}"
    below = 'write "below_neck: yes" for an edge at a waist or hem.' if _is_own(band) else ""
    if wearer is Wearer.CHILDREN:
        return (error("cord-at-neck", place, found=f"{found} of a child's garment",
                      expected=f"none at hood, head or neck. {STANDARDS}",
                      remedy=f"Leave the cord out, or {below or 'choose another kind of band.'}"),)
    if wearer is Wearer.ANYONE:
        return (note(Severity.WARNING, "cord-at-neck", place, found=found,
                     expected=f"none at hood, head or neck where a child may wear it. {STANDARDS}",
                     remedy=f"Leave the cord out, or {below or 'say who wears it.'}"),)
    return ()


def _is_own(band: Band) -> bool:
    """True where the source describes the edge, or draws it."""
    return role_of(band.garment_edge) in (None, EdgeRole.OUTLINE)


def _at_the_head(band: Band, cord: BandCord) -> bool:
    """True at head, hood, neck or throat, and on an edge of the source that it puts nowhere."""
    return not cord.below_neck if _is_own(band) else role_of(band.garment_edge) in AT_THE_HEAD


def plan_casing(places: Places, band: Band, size: str, edge_path: EdgePath,
                meetings: Sequence[Meeting],
                gauge: Gauge, rows: BandRows) -> tuple[CasingPlan | None, list[Problem]]:
    """Return the casing's plan, or None with the findings where its channel does not hold."""
    spec, free = band.cord, not edge_path.ring
    if spec is None:
        return CasingPlan(free=free), []
    slit = _slit(spec, gauge, band) if spec.openings is Openings.SLITS else None
    if found := _shallow(places, band, size, spec, rows, gauge.row, slit):
        return None, found
    cord = _length(meetings, gauge, spec, band)
    if spec.openings is Openings.ENDS:
        return CasingPlan(cord=cord, free=free), []
    outlets, found = _outlets(places, band, size, meetings, free)
    if outlets is None:
        return None, found
    return CasingPlan(outlets=outlets, slit=slit, cord=cord, free=free), []


def _outlets(places: Places, band: Band, size: str, meetings: Sequence[Meeting], free: bool
             ) -> tuple[tuple[Expression, Expression] | None, list[Problem]]:
    """Two about the middle of a section; at free ends one beside each, which is sewn shut."""
    assert band.cord is not None
    stitches, place = sum(m.stitches.value for m in meetings), f"bands.{band.key}.cord"
    if free and band.cord.at:
        return None, [error(
            "cord-not-round", places.of(f"{place}.at"), size=size,
            found=f"openings in the middle of {band.cord.at}, on an edge that does not go round",
            expected="an opening beside each end, from one to the other",
            remedy="Delete at, or write openings: ends.")]
    middle, found = _middle(places, band, size, meetings)
    if middle is None:
        return None, found
    aside = plain(FROM_EDGE + 1)
    outlets = (aside, _all(meetings) - aside) if free else \
        (middle - plain(FROM_MIDDLE), middle + plain(FROM_MIDDLE))
    first, last = (one.value for one in outlets)
    if first < 2 or last + 2 > stitches or last < first + 4:
        return None, [error(
            "band-too-short", places.of(place), size=size,
            found=f"a casing of {stitches} stitches with its cord about stitch {middle.value}",
            expected=f"at least {FROM_MIDDLE + 2} stitches on either side of it",
            remedy="Write openings: ends, or another section under at.")]
    return outlets, []


def _shallow(places: Places, band: Band, size: str, spec: BandCord, rows: BandRows,
             row: Fraction, slit: Count | None) -> list[Problem]:
    """The channel must be a quarter of an inch deeper than its cord, and no slit reach its edge."""
    layer = rows.to_holes + rows.holes_to_fold
    depth, need = layer * row, spec.width.mm + ROOM
    place = places.of(f"bands.{band.key}.{'rows' if band.rows else 'depth'}", size)
    if depth < need:
        return [error(
            "casing-too-shallow", place, size=size,
            found=f"a cord of {spec.width.in_mm()} in a casing {decimal(depth, 1)} mm deep",
            expected=f"a casing {decimal(ROOM, 0)} mm deeper than its cord: "
                     f"{decimal(need, 1)} mm",
            remedy=f"Make it at least {decimal(need / 10, 1)} cm deep, or the cord thinner.")]
    if slit and slit.value // 2 >= min(rows.to_holes, rows.holes_to_fold):
        return [error(
            "casing-too-shallow", place, size=size,
            found=f"slits of {slit} in a layer of {layer} rows",
            expected="at least a row before and after the slits",
            remedy="Give the casing more depth, or write openings: eyelets.")]
    return []


def _middle(places: Places, band: Band, size: str, meetings: Sequence[Meeting]
            ) -> tuple[Expression | None, list[Problem]]:
    """The stitch about which the cord comes out: of the section of that key, else of the front.

    Round a closed neck the back comes last, round a hem first: it is left out. Any other edge has
    its own middle.
    """
    assert band.cord is not None
    if not band.cord.at:
        behind = [_is_behind(m) for m in meetings]
        first = behind.index(False) if behind[0] and not behind[-1] else 0
        end = behind.index(True) if True in behind[1:] and behind[-1] else len(meetings)
        return _halfway_point(meetings[:first], meetings[first:end]), []
    names = [section_key(m.section.role, m.section.own) for m in meetings]
    if names.count(band.cord.at) == 1:
        at = names.index(band.cord.at)
        return _halfway_point(meetings[:at], meetings[at:at + 1]), []
    return None, [error(
        "no-such-section", places.of(f"bands.{band.key}.cord.at"), size=size,
        found=f'"{band.cord.at}" along {band.edge}',
        expected=f"one of {', '.join(dict.fromkeys(names))}",
        remedy="Name one of them that is there once, or leave it out.")]


def _halfway_point(before: Sequence[Meeting], section: Sequence[Meeting]) -> Expression:
    """All stitches before a section and half of the section, half a stitch less where it is odd."""
    half = Rounded(_all(section) / plain(2), DOWN)
    return _all(before) + half if before else half


def _all(meetings: Sequence[Meeting]) -> Sum:
    return Sum(tuple(m.stitches.term(Role.TITLED, m.section.title) for m in meetings))


def _is_behind(meeting: Meeting) -> bool:
    return meeting.section.zone is Zone.BACK


def _slit(spec: BandCord, gauge: Gauge, band: Band) -> Count:
    """The rows of a slit as long as the cord is wide, an even number, at least 2 [rows].

    Each side of it begins and ends at its own outer edge. Common practice, no source.
    """
    wide = Operand(spec.width.mm, Role.CORD, place=place_in(band, "cord.width"))
    figure = wide / Operand(gauge.row, Role.ROW_HEIGHT)
    return Count(Chosen((Rounded(figure, EVEN, gauge.row), plain(2)), Rule.LARGEST,
                        ChoiceReason.LEAST_SLIT), Unit.ROWS)


def _length(meetings: Sequence[Meeting], gauge: Gauge, spec: BandCord, band: Band) -> Count:
    """The band's own length and an end at either side [cm], rounded up."""
    return cord_length(all_stitches(meetings).term(Role.STITCHES), gauge, spec.ties,
                       place_in(band, "cord.ties"))


def widest_elastic(depth: Fraction) -> Length:
    """Return how wide elastic may be in a channel so deep [mm]: a quarter of an inch less."""
    return Length(max(Fraction(3), depth - ROOM))

"""Buttonholes keep clear of ends, joins and seams, on the front asked for, or are refused."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import accumulate, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.catalogue.bands import KINDS
from walebook.core.expression import plain
from walebook.core.problems import Problem
from walebook.core.units import Length
from walebook.machine.steps import Side
from walebook.pattern.edges import EdgeSection, EdgeShape, EdgeSpec
from walebook.pattern.holes import ButtonholeKind, Buttonholes, Distance
from walebook.pattern.model import Band, Neck, Pattern
from walebook.plan.assemble import assemble
from walebook.plan.assembled import Assembled
from walebook.plan.band import BandPlan
from walebook.plan.band_counts import plan_band
from walebook.plan.band_order import in_working_order, whole_edge
from walebook.plan.own_edges import own_edge

from tests import small_patterns as small
from tests.against import wardrobe
from tests.scale import examples

ONLY = "M"
# Every kind of band that can have holes, with every kind of them.
HOLED = [(kind.name, closing) for kind in KINDS.values() for closing in kind.buttonhole_kinds]


@cache
def source(form: str, neck: Neck) -> tuple[Pattern, Assembled]:
    made = wardrobe.pattern(form, neck=neck, sizes=(ONLY,))
    assert made.garment is not None
    assembled, _ = assemble(made, made.garment, ONLY, bands=plain(30), hidden=1)
    assert assembled is not None
    return made, assembled


@st.composite
def holes(draw: st.DrawFn, closing: ButtonholeKind) -> Buttonholes:
    ends = [Distance(stitches=draw(st.integers(1, 9))) for _ in range(2)]
    every = draw(st.none() | st.integers(40, 120))
    return small.holes(
        f"{draw(st.integers(9, 26))} mm", kind=closing, lower=ends[0], upper=ends[1],
        front=draw(st.sampled_from(Side)), end_give=draw(st.integers(0, 4)),
        band_give=draw(st.integers(0, 2)), every=Length(Fraction(every)) if every else None,
        buttonhole_count=None if every else {ONLY: draw(st.integers(1, 9))})


@st.composite
def bands(draw: st.DrawFn, edge: str, made: tuple[str, ButtonholeKind] | None = None) -> Band:
    kind, closing = made or draw(st.sampled_from(HOLED))
    return small.band(key="holed", edge=edge, fabric="band", kind=kind, stitches_in=1,
                      depth={ONLY: Length(Fraction(draw(st.integers(28, 60))))},
                      buttonholes=draw(holes(closing)))


def planned(
    made: Pattern, assembled: Assembled, band: Band
) -> tuple[BandPlan | None, list[Problem]]:
    """The plan of a band with holes, after those that are worked before it."""
    before: list[BandPlan] = []
    for one in in_working_order((*made.bands.values(), band)):
        if one.edge == band.edge and one is not band:
            continue
        edges = assembled.garment.edges
        run = whole_edge(made.garment, made.fabrics, made.edges, one,
                         edges[{"front_edge": "right_front.front_edge"}.get(one.edge, one.edge)],
                         before)
        plan, problems = plan_band(made, one, ONLY, run)
        if one is band:
            return plan, [p for p in problems if p.severity.value == "error"]
        assert plan is not None, problems
        before.append(plan)
    raise AssertionError("the band is among them")


def check(plan: BandPlan, band: Band) -> None:
    """Ends, joins and front, counted from the sections alone."""
    asked, placing = band.buttonholes, plan.placing
    assert asked is not None and placing is not None
    sewn = KINDS[band.kind].doubled or plan.edge_path.ring
    assert min(placing.lower, placing.upper) >= (2 if sewn else 1)
    least = min(asked.lower.stitches or 0, asked.upper.stitches or 0)
    titles = [m.section.title for m in plan.meetings]
    after = list(accumulate(m.stitches.value for m in plan.meetings))[:-1]
    joins = [at for at, one in zip(after, titles, strict=False) if one not in ("hem", "rib")
             and not (plan.edge_path.fronts and one != "front edge")]
    for start in placing.starts:
        for join in joins[:1] if plan.edge_path.fronts else joins:
            taken = range(start - least, start + placing.hole + least)
            assert not (join in taken and join + 1 in taken), (titles, after, start)


def follow(made: Pattern, assembled: Assembled, band: Band, problem: Problem) -> None:
    """What a finding says to write is free of that finding."""
    found = re.search(r"upper: (\d+) stitches", problem.remedy)
    if found is None:
        return
    asked = band.buttonholes
    assert asked is not None
    better = replace(band, buttonholes=replace(asked, upper=Distance(stitches=int(found[1]))))
    plan, problems = planned(made, assembled, better)
    assert not {p.code for p in problems} & {"hole-at-join", "hole-at-end"}
    if plan is not None:
        check(plan, better)


@pytest.mark.parametrize("edge", ["front_edge", "front_and_neck"])
@pytest.mark.parametrize("neck", [Neck.V, Neck.ROUND])
def test_holes_are_as_far_apart_as_asked_and_reach_the_upper_end_or_are_refused(
        neck: Neck, edge: str) -> None:
    """The distance asked for is kept to half of it, and no room for a hole more is left above:
    the count is the nearest number of spaces (Robin Hunter, B02, in `plan/buttonholes.py`)."""
    made, assembled = source("set-in cardigan", neck)
    end, refusals = Distance(length=Length(Fraction(15))), 0
    for every in range(8, 90, 3):
        band = small.band(key="holed", edge=edge, fabric="band", stitches_in=1,
                          depth={ONLY: Length(Fraction(40))}, buttonholes=small.holes(
                              "18 mm", every=Length(Fraction(every)), lower=end, upper=end,
                              ends_by_default=True))
        plan, problems = planned(made, assembled, band)
        if plan is None:
            assert {p.code for p in problems} <= {"hole-wider-than-gap", "hole-at-join"}
            refusals += 1
            continue
        placing, own = plan.placing, plan.gauge
        assert placing is not None
        wanted = every / own.stitch
        apart = [gap + placing.hole for gap in placing.gaps]
        assert all(abs(one - wanted) <= wanted / 2 + 1 for one in apart), (every, apart)
        usual = round(15 / own.stitch)
        beyond = plan.stitches.value - sum(
            m.stitches.value for m in plan.meetings[:plan.edge_path.fronts or None])
        assert placing.upper - beyond <= usual + max(apart) + 2, (every, placing.starts)
    assert 0 < refusals < 20


REFUSED = {"hole-wider-than-gap", "hole-at-end", "hole-at-join", "hole-on-other-front",
           "button-too-large", "band-too-short"}


def refused(band: Band) -> set[str]:
    """What may be found of a band: one that is knitted lengthwise goes along straight edges."""
    along = KINDS[band.kind].lengthwise and band.edge in ("neck", "front_and_neck")
    return REFUSED | ({"not-lengthwise"} if along else set())


@pytest.mark.parametrize(("form", "neck", "edge"), [
    ("set-in cardigan", Neck.ROUND, "front_edge"), ("set-in cardigan", Neck.V, "front_edge"),
    ("raglan cardigan", Neck.ROUND, "front_edge"), ("set-in cardigan", Neck.ROUND, "neck"),
    ("set-in cardigan", Neck.V, "front_and_neck"), ("set-in pullover", Neck.ROUND, "neck")])
@given(data=st.data())
@settings(max_examples=examples(20), deadline=None)
def test_holes_of_any_band_keep_clear_or_the_finding_says_how(
        form: str, neck: Neck, edge: str, data: st.DataObject) -> None:
    made, assembled = source(form, neck)
    band = data.draw(bands(edge))
    plan, problems = planned(made, assembled, band)
    assert {p.code for p in problems} <= refused(band)
    if plan is None:
        for problem in problems:
            if problem.code == "hole-at-join":
                follow(made, assembled, band, problem)
        return
    check(plan, band)
    asked, placing = band.buttonholes, plan.placing
    assert asked is not None and placing is not None
    if edge == "neck" and not plan.edge_path.ring:
        half = Fraction(placing.stitches, 2)
        for start in placing.starts:  # the first end of a neck is the right front's
            middle = start - 1 + Fraction(placing.hole, 2)
            assert (middle <= half) == (asked.front is Side.RIGHT)


@pytest.mark.parametrize("holed", HOLED, ids=lambda made: f"{made[0]}, {made[1].value}")
def test_each_kind_of_hole_can_lie_on_a_front(holed: tuple[str, ButtonholeKind]) -> None:
    """Else the law above would hold where all is refused."""
    made, assembled = source("set-in cardigan", Neck.ROUND)
    kind, closing = holed
    for holes_, upper in product(range(4, 8), range(2, 9)):
        band = small.band(key="holed", edge="front_edge", fabric="band", kind=kind, stitches_in=1,
                          depth={ONLY: Length(Fraction(45))}, buttonholes=small.holes(
                              "14 mm", kind=closing, buttonhole_count={ONLY: holes_},
                              lower=Distance(stitches=4), upper=Distance(stitches=upper)))
        plan, _ = planned(made, assembled, band)
        if plan is not None:
            check(plan, band)
            return
    raise AssertionError(f"{kind} with {closing.value} holes is refused wherever they end")


@pytest.mark.parametrize("front", Side)
def test_a_single_hole_of_a_neckband_lies_on_the_front_asked_for(front: Side) -> None:
    made, assembled = source("set-in cardigan", Neck.ROUND)
    band = small.band(key="holed", edge="neck", fabric="band", stitches_in=1,
                      depth={ONLY: Length(Fraction(30))}, buttonholes=small.holes(
                          "14 mm", buttonhole_count={ONLY: 1}, front=front,
                          lower=Distance(stitches=3), upper=Distance(stitches=4)))
    plan, problems = planned(made, assembled, band)
    assert plan is not None and plan.placing is not None, problems
    near = plan.placing.lower if front is Side.RIGHT else plan.placing.upper
    assert near == 4 and plan.placing.buttonhole_count == 1


@given(shape=st.sampled_from(EdgeShape), data=st.data())
@settings(max_examples=examples(30), deadline=None)
def test_holes_of_an_own_edge_keep_clear_of_its_marks(shape: EdgeShape,
                                                      data: st.DataObject) -> None:
    made, _ = source("set-in cardigan", Neck.ROUND)
    sections = tuple(EdgeSection(title=f"part {n}", rows={ONLY: data.draw(st.integers(12, 90))})
                     for n in range(data.draw(st.integers(1, 4))))
    edge = EdgeSpec(key="own", fabric="body", shape=shape, sections=sections)
    band = replace(data.draw(bands("own")), own_edge=True)
    made = replace(made, edges={"own": edge})
    plan, problems = plan_band(made, band, ONLY, own_edge(made.places, made.fabrics, edge, ONLY))
    assert {p.code for p in problems if p.severity.value == "error"} <= REFUSED
    if plan is not None:
        check(plan, band)

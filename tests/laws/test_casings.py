"""Casings on any edge: openings in the outer layer alone, mirrored, and a cord that goes round."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.units import read_length
from walebook.machine.reasons import Reason
from walebook.machine.steps import Hold, Knit, Side, Transfer
from walebook.pattern.edges import EdgeSection, EdgeShape, EdgeSpec
from walebook.pattern.model import Fold, Pattern
from walebook.pattern.specs import BandCord, Openings
from walebook.plan.casings import plan_casing
from walebook.plan.meeting import PickUpRate, meet
from walebook.proof.proof import SizeProof, prove
from walebook.shape.edge_path import run_of
from walebook.shape.edging import Zone, waiting

from tests.laws.bands import pattern
from tests.scale import examples

CORD = BandCord(width=read_length("5 mm"), ties=read_length("20 cm"))


def cased(front: int, back: int, openings: Openings, fold: Fold, split: tuple[int, int],
          needles: int = 200) -> Pattern:
    """A waist of two sections of waiting stitches and a casing whose cord comes out in front."""
    source = pattern(fold=fold, split=split, holes=0, needles=needles)
    sections = tuple(EdgeSection(title=title, stitches={"one": n})
                     for title, n in (("front", front), ("rear", back)))
    at = "" if openings is Openings.ENDS else "front"
    band = replace(source.bands["front"], kind="casing", edge="waist",
                   cord=replace(CORD, openings=openings, at=at))
    return replace(source, edges={"waist": EdgeSpec(key="waist", fabric="body", sections=sections,
                                               shape=EdgeShape.ROUND)},
                   bands={"front": band})


def proved(source: Pattern) -> SizeProof:
    proof, found = prove(source)
    assert proof is not None, found
    return proof.sizes[0]


@given(front=st.integers(14, 90), back=st.integers(4, 90), openings=st.sampled_from(Openings),
       fold=st.sampled_from(Fold), split=st.tuples(st.integers(3, 8), st.integers(3, 8)))
@settings(max_examples=examples(40), deadline=None)
def test_any_casing_is_knitted_and_its_openings_lie_in_the_outer_layer(
        front: int, back: int, openings: Openings, fold: Fold, split: tuple[int, int]) -> None:
    (strip,) = proved(cased(front, back, openings, fold, split)).strips
    assert strip.trace.refusal is None and not strip.trace.states[-1].loaded
    done, cord, held = 0, [], []
    for step in strip.program.steps:
        done += step.rows if isinstance(step, Knit) else 0
        if isinstance(step, Transfer) and step.reason is Reason.FOR_CORD:
            cord.append((done, step.needles))
        if isinstance(step, Hold):
            held.append(done)
    depth = sum(split)
    if openings is Openings.EYELETS:
        ((row, needles),) = cord
        assert row == split[0] and len(needles) == 2
    else:
        assert not cord
    if openings is Openings.SLITS:
        assert held and all(row < depth * 3 for row in held)
    else:
        assert not held


@given(front=st.integers(14, 90), back=st.integers(4, 90))
@settings(max_examples=examples(20), deadline=None)
def test_the_openings_lie_about_the_middle_of_their_section(front: int, back: int) -> None:
    (plan,) = proved(cased(front, back, Openings.EYELETS, Fold.LOOSE, (4, 4))).plans
    first, second = plan.casing.openings
    before, behind = first - 1, front - second - 1
    assert abs(before - behind) <= 1 and second - first == 6


@given(front=st.integers(14, 90), back=st.integers(4, 90))
@settings(max_examples=examples(20), deadline=None)
def test_the_cord_is_the_band_and_both_ends(front: int, back: int) -> None:
    (plan,) = proved(cased(front, back, Openings.ENDS, Fold.LOOSE, (4, 4))).plans
    assert plan.casing.cord is not None
    exact = (front + back) * plan.gauge.stitch / 10 + 40
    assert exact <= plan.casing.cord.value < exact + 1


def test_a_casing_in_parts_keeps_its_openings() -> None:
    made = proved(cased(60, 50, Openings.EYELETS, Fold.LOOSE, (4, 4), needles=80))
    (plan,) = made.plans
    assert [p.casing.openings for p in plan.parts] == [(27, 33), ()]
    moved = [sum(isinstance(s, Transfer) and s.reason is Reason.FOR_CORD
                 for s in strip.program.steps) for strip in made.strips]
    assert moved == [1, 0]


def _openings_round(*sections: tuple[str, int, Zone]) -> tuple[int, ...]:
    """The openings of a casing round a closed edge of sections of waiting stitches."""
    source = cased(20, 20, Openings.EYELETS, Fold.LOOSE, (4, 4))
    band = replace(source.bands["front"], edge="neck", cord=CORD)
    gauge = proved(source).plans[0].gauge
    run = run_of("neck", "Neck", [replace(waiting(title, stitches, gauge), zone=zone)
                                  for title, stitches, zone in sections], shape=EdgeShape.ROUND)
    meetings = meet(run, PickUpRate(body=gauge, gauge=gauge, rule=None, ease=Fraction(0)))
    rows = proved(source).plans[0].rows
    made, found = plan_casing(source.places, band, "one", run, meetings, gauge, rows)
    assert made is not None and not found
    return made.openings


def test_round_a_closed_edge_the_cord_comes_out_in_front() -> None:
    """Front 40 and back 30 stitches. From a shoulder round the front: about the 20th. Round a hem
    the back comes first: about the 50th."""
    front, back = ("front", 40, Zone.FRONT), ("back", 30, Zone.BACK)
    assert _openings_round(front, back) == (17, 23)
    assert _openings_round(back, front) == (47, 53)


def test_both_fronts_mirror_eyelets() -> None:
    source = pattern(rows=80, fold=Fold.LOOSE, holes=0)
    band = replace(source.bands["front"], kind="casing", cord=CORD)
    right, left = proved(replace(source, bands={"front": band})).strips
    (a,), (b,) = ([s.needles for s in strip.program.steps
                   if isinstance(s, Transfer) and s.reason is Reason.FOR_CORD]
                  for strip in (right, left))
    assert right.front is Side.RIGHT and a == b.mirrored()

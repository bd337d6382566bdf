"""Bands that go round a whole opening, and bands longer than the bed: knitted in parts."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.catalogue.bands import KINDS
from walebook.catalogue.methods import SEWN
from walebook.machine.edge_steps import Hang
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Attend, Dial, Increase, Knit, Side
from walebook.pages.strips import strip_body
from walebook.pattern.edges import EdgeSection, EdgeShape, EdgeSpec
from walebook.pattern.model import Fold, Pattern
from walebook.plan.graded import row_dials
from walebook.proof.proof import SizeProof, Strip, prove
from walebook.words.terms.section_names import CENTRE_BACK

from tests.laws.bands import pattern
from tests.scale import examples
from tests.whole_collection import collection

TITLES = ("right front", "right neck", "back neck", "left neck", "left front")


def opening(along: int, neck: int, back: int, **said: object) -> Pattern:
    """A pattern whose one band goes from hem round the neck to hem."""
    source = pattern(**said)
    rows = (along, neck, 0, neck, along)
    sections = tuple(
        EdgeSection(title=title, rows={"one": n}) if n else
        EdgeSection(title=title, stitches={"one": back}, centre_back=True)
        for title, n in zip(TITLES, rows, strict=True))
    return replace(source, edges={"front": EdgeSpec(key="front", fabric="body", sections=sections,
                                               shape=EdgeShape.AROUND)})


@st.composite
def openings(draw: st.DrawFn) -> Pattern:
    source = opening(
        draw(st.integers(30, 120)), draw(st.integers(10, 70)), draw(st.integers(2, 40)),
        fold=draw(st.sampled_from(Fold)), front=draw(st.sampled_from(Side)),
        holes=draw(st.integers(0, 6)), split=(draw(st.integers(3, 8)), draw(st.integers(3, 8))),
        needles=2 * draw(st.integers(20, 120)))
    kind = draw(st.sampled_from(("enclosing", "folded")))
    band = source.bands["front"]
    dials = draw(st.lists(st.integers(3, 24).map(Dial), max_size=4))
    return replace(source, bands={"front": replace(band, kind=kind, dials=tuple(dials))})


def proved_one(source: Pattern) -> SizeProof:
    size = proved(source)
    assert size is not None
    return size


def proved(source: Pattern) -> SizeProof | None:
    proof, problems = prove(source)
    if proof is not None:
        return proof.sizes[0]
    assert {p.code for p in problems if p.severity.value == "error"} <= {
        "hole-wider-than-gap", "bed-too-short", "button-too-large"}
    return None


@given(openings())
@settings(max_examples=examples(120), deadline=None)
def test_parts_fit_the_bed_and_come_to_the_band_with_two_stitches_a_join(source: Pattern) -> None:
    size = proved(source)
    if size is None:
        return
    (plan,) = size.plans
    assert len(size.strips) == max(1, len(plan.parts))
    sizes = [len(strip.layout.needles) for strip in size.strips]
    assert max(sizes) <= source.bed.needles
    assert sum(sizes) == plan.stitches.value + 2 * (len(sizes) - 1)
    assert (len(sizes) > 1) == (plan.stitches.value > source.bed.needles)
    for strip in size.strips:
        assert strip.trace.refusal is None and not strip.trace.states[-1].loaded


@given(openings())
@settings(max_examples=examples(80), deadline=None)
def test_parts_hang_the_whole_edge_once_and_their_joins_hang_nothing(source: Pattern) -> None:
    size = proved(source)
    if size is None:
        return
    (plan,) = size.plans
    hung = [len(s.picks) for strip in size.strips for s in strip.program.steps
            if isinstance(s, Hang) and s.picks and "line where" not in s.edge]
    assert sum(hung) == plan.stitches.value
    places = sum(m.section.places for strip in size.strips for m in strip.plan.meetings)
    assert places == plan.edge_path.places
    for strip in size.strips:
        joins = [strip.layout.at(at) for at, join in
                 zip((1, strip.plan.stitches.value), strip.plan.joins, strict=True) if join]
        edges = [s.needles for s in strip.program.steps
                 if isinstance(s, Hang) and s.picks and "line where" not in s.edge]
        assert not any(needle in needles for needle in joins for needles in edges)
        made = [s.needles for s in strip.program.steps if isinstance(s, Increase)]
        assert len(made) == (bool(joins) and strip.plan.band.kind == "folded")
        sewn = [s for s in strip.program.steps if isinstance(s, Attend) and s.to == "join parts"]
        assert len(sewn) == strip.plan.joins[0]


@given(openings())
@settings(max_examples=examples(80), deadline=None)
def test_holes_stay_in_the_front_they_begin_on_and_whole_in_their_part(source: Pattern) -> None:
    size = proved(source)
    if size is None or size.plans[0].placing is None:
        return
    (plan,) = size.plans
    assert plan.placing is not None
    last = plan.placing.starts[-1] + plan.placing.hole - 1
    assert last < plan.meetings[0].stitches.value
    for strip in size.strips:  # 2 stitches stay between a hole and a seam
        if strip.plan.placing:
            ends = (strip.plan.placing.lower, strip.plan.placing.upper)
            assert all(end - join >= 2 for end, join in
                       zip(ends, strip.plan.joins, strict=True) if join)
    for strip in size.strips:  # D04: n + 1 loops over a hole of n stitches; without holes none
        placing = strip.plan.placing
        assert strip.plan.closing_loops.value == (placing.hole + 1 if placing else 0)
    inside = [strip.plan.placing for strip in size.strips if strip.plan.placing]
    assert sum(p.buttonhole_count for p in inside) == plan.placing.buttonhole_count
    before, seen = 0, []
    for strip in size.strips:
        if strip.plan.placing:
            assert strip.with_holes
            seen += [s + before - strip.plan.joins[0] for s in strip.plan.placing.starts]
        before += strip.plan.stitches.value - sum(strip.plan.joins)
    assert tuple(seen) == plan.placing.starts


@given(openings())
@settings(max_examples=examples(60), deadline=None)
def test_one_cut_is_made_at_the_centre_back_wherever_that_will_do(source: Pattern) -> None:
    size = proved(source)
    if size is None or len(size.plans[0].parts) != 2:
        return
    (plan,) = size.plans
    back = plan.meetings[2].stitches.value
    low = sum(m.stitches.value for m in plan.meetings[:2]) + back // 2
    if max(low, plan.stitches.value - low) + 1 <= source.bed.needles:
        part = plan.parts[0].part
        assert part is not None and part.last == CENTRE_BACK


def in_three_parts() -> Pattern:
    """A band of 155 stitches on 80 needles: 100 rows at three stitches for four, then 30, 20 and 30
    stitches."""
    sections = (EdgeSection(title="side", rows={"one": 100}), *(
        EdgeSection(title=f"part {number}", stitches={"one": stitches})
        for number, stitches in enumerate((30, 20, 30), 1)))
    return replace(pattern(holes=0, needles=80), edges={"front": EdgeSpec(
        key="front", fabric="body", sections=sections, shape=EdgeShape.AROUND)})


def test_of_cuts_that_leave_the_longest_part_as_short_the_first_are_taken() -> None:
    """Of 155 stitches 81 do not fit 80 needles. The first part has 75 stitches, with one for its
    join; after 30 or after 50 more the other two are shorter than that."""
    (plan,) = proved_one(in_three_parts()).plans
    assert [part.stitches.value for part in plan.parts] == [75 + 1, 30 + 2, 20 + 30 + 1]


def test_each_part_is_joined_to_the_part_before_it() -> None:
    source = in_three_parts()
    size = proved_one(source)
    assert [re.findall(r"Join this part to part (\d+)<", strip_body(source, size, strip))
            for strip in size.strips] == [[], ["1"], ["2"]]


def test_parts_of_a_folded_band_are_sewn_down_each_by_itself() -> None:
    """Its layers are shut before its parts meet. Those of a facing hang open until all are joined:
    a seam along rows that lie double cannot be turned to the inside (geometry)."""
    for kind, bind_off, own, open_to_the_end in (
            ("folded", SEWN.name, 2, 0), ("facing", "", 0, 1)):
        source = opening(60, 30, 20, holes=0, needles=80)
        band = replace(source.bands["front"], kind=kind, bind_off=bind_off)
        proof, found = prove(replace(source, bands={"front": band}))
        assert proof is not None, [str(p) for p in found]
        size = proof.sizes[0]
        said = [strip_body(proof.pattern, size, strip) for strip in size.strips]
        assert len(said) == 2
        assert sum("back-stitch its waiting stitches down" in each for each in said) == own
        assert sum("both parts, and lay it flat" in each for each in said) == open_to_the_end


@pytest.mark.parametrize("kind", [name for name, kind in KINDS.items() if kind.grades])
@given(dials=st.lists(st.integers(3, 24).map(Dial), min_size=1, max_size=6),
       split=st.tuples(st.integers(3, 8), st.integers(3, 8)), holes=st.sampled_from((0, 4)))
@settings(max_examples=examples(25), deadline=None)
def test_graded_layers_mirror_about_the_fold(kind: str, dials: list[Dial], split: tuple[int, int],
                                             holes: int) -> None:
    """Row for row the second layer has the dials of the first, from the fold back (D05)."""
    source = pattern(rows=90, fold=Fold.LOOSE, split=split, holes=holes if kind != "single" else 0)
    band = replace(source.bands["front"], kind=kind, dials=tuple(dials))
    proof, _ = prove(replace(source, bands={"front": band}))
    assert proof is not None
    strip = proof.sizes[0].strips[0]
    rows = [step.dial for step in strip.program.steps
            if isinstance(step, Knit) and step.yarn == StepYarn.MAIN for _ in range(step.rows)]
    depth = sum(split)
    assert len(rows) == depth * KINDS[kind].layers + (KINDS[kind].layers == 2)
    wanted = list(strip.plan.row_dials)
    assert len(wanted) == depth and list(dict.fromkeys(wanted)) == list(dict.fromkeys(dials))
    first = 1 if kind != "enclosing" else 0  # a band knitted on begins at the garment's dial
    assert rows[first:depth] == wanted[first:]
    if KINDS[kind].layers == 2:
        assert rows[depth] > max(dials)
        assert rows[depth + 1:] == wanted[::-1]


@given(st.lists(st.integers(0, 30), min_size=1, max_size=8), st.integers(0, 20))
def test_settings_share_the_rows_as_evenly_as_they_can(thirds: list[int], more: int) -> None:
    dials = [Dial(10 * n + t % 10) for n, t in enumerate(thirds)]  # all unlike
    rows = row_dials(dials, len(dials) + more)
    counts = [rows.count(dial) for dial in dials]
    assert sum(counts) == len(rows) and max(counts) - min(counts) <= 1
    assert all(a <= b for a, b in pairwise(rows))
    assert Fraction(len(rows), len(dials)) - min(counts) < 1


def test_a_facing_in_parts_is_sewn_down_when_its_parts_are_joined() -> None:
    """A seam along rows that lie double and are sewn flat cannot be turned to the inside."""
    met = 0
    for proof in collection().proofs:
        for size in proof.sizes:
            parts = [s for s in size.strips if isinstance(s, Strip) and s.plan.part
                     and KINDS[s.plan.band.kind].faces]
            told = [[s.to for s in strip.program.steps if isinstance(s, Attend)]
                    for strip in parts]
            for attends in told[:-1]:
                assert "sew facing" not in attends and "leave facing" in attends
                assert "darn in" not in attends  # the end that sews it down still hangs
            for attends in told[-1:]:
                assert attends.index("join parts") < attends.index("sew facing")
                assert attends.index("sew facing") < attends.index("darn in")
                met += 1
    assert met >= 3

"""A band that is sewn on meets its edge at quarters of its length, wherever that edge slopes.

Half of a section's rows are not half of its way where stitches are bound off or decreased in it:
a row of a slope is longer than one that is straight (geometry). The lengths are those of the drawn
steps, pulled smooth as a band pulls them.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate, pairwise
from math import hypot
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.fabric.gauge import Gauge, measure
from walebook.pages.from_texts import prove_made
from walebook.plan.sewn_on import met
from walebook.shape.edging import Section, falling, shaped
from walebook.shape.profile import EdgeSegment, How
from walebook.words import lengthwise_instructions

from tests.laws import pieces
from tests.laws.texts import read_folder, texts_of
from tests.scale import examples

ROOT = Path(__file__).parents[2]
gauges = st.builds(pieces.gauge, st.integers(14, 40), st.integers(16, 60))


def place_lengths(section: Section, gauge: Gauge) -> list[float]:
    """How long the edge is at each of a section's places, in its order [mm]."""
    stitch, row = float(gauge.stitch), float(gauge.row)
    runs, found, at = section.segments, [], 0
    while at < len(runs):
        here, after = runs[at], runs[at + 1] if at + 1 < len(runs) else EdgeSegment(0, 0, None)
        smooth = (not here.stitches and here.rows <= 4 and not after.rows
                  and 0 < abs(after.stitches) <= 4)
        rows = here.rows
        wide = abs(after.stitches if smooth else here.stitches)
        level = smooth or not here.rows
        places = rows + (wide if level else 0)
        found += [hypot(wide * stitch, rows * row) / places] * places
        at += 2 if smooth else 1
    return found[::-1] if section.falls else found


def held(section: Section, gauge: Gauge, rows: int) -> None:
    """Each quarter of the band's rows meets the place nearest to a quarter of the section."""
    ends = [0.0, *accumulate(place_lengths(section, gauge))]
    assert len(ends) == section.places + 1
    assert ends[-1] == pytest.approx(float(section.length), abs=.1)
    plan: Any = SimpleNamespace(meetings=[SimpleNamespace(
        section=section, stitches=SimpleNamespace(value=rows))])
    found = met(plan)
    assert found[-1].place == section.places and found[-1].row == rows
    for one in found:
        wanted = ends[-1] * one.quarter / 4
        nearest = min(abs(end - wanted) for end in ends)
        assert abs(ends[one.place] - wanted) == pytest.approx(nearest, abs=.01)
    assert all(a.place < b.place for a, b in pairwise(found))


@st.composite
def slopes(draw: st.DrawFn) -> Iterator[EdgeSegment]:
    """An armhole: stitches bound off in steps, then decreases, then straight rows."""
    steps = draw(st.lists(st.integers(1, 6), max_size=5))
    runs = [run for step in steps for run in (EdgeSegment(0, 2, None),
                                              EdgeSegment(-step, 0, How.BIND_OFF))]
    decreases = draw(st.integers(0, 12))
    runs += [EdgeSegment(-1, draw(st.integers(1, 4)), How.DECREASE)] * decreases
    return [*runs, EdgeSegment(0, draw(st.integers(16, 60)), None)]  # type: ignore[return-value]


@given(runs=slopes(), gauge=gauges, falls=st.booleans(), rows=st.integers(16, 120))
@settings(max_examples=examples(30), deadline=None)
def test_a_slope_is_met_at_quarters_of_its_length(runs: list[EdgeSegment], gauge: Gauge,
                                                  falls: bool, rows: int) -> None:
    made = shaped("armhole", runs, gauge)
    section = falling(made) if falls else made
    assert section is not None
    held(section, gauge, rows)


GAUGE = pieces.gauge(28, 40)


@pytest.mark.parametrize(("runs", "what"), [
    ([EdgeSegment(-1, 2, How.DECREASE)] * 10, "row"),
    ([EdgeSegment(0, 2, None), EdgeSegment(-4, 0, How.BIND_OFF), EdgeSegment(0, 18, None)],
     "row or stitch")])
def test_a_place_is_called_a_stitch_too_where_stitches_are_bound_off(runs: list[EdgeSegment],
                                                                   what: str) -> None:
    section: Any = shaped("armhole", runs, GAUGE)
    plan: Any = SimpleNamespace(meetings=[SimpleNamespace(
        section=section, stitches=SimpleNamespace(value=12))])
    (_, _, place), = lengthwise_instructions.rows(plan)
    assert place == f"{what} {section.places} of {section.places}"


def test_the_armhole_bands_of_the_collection_are_met_so() -> None:
    proof, problems = prove_made(texts_of(ROOT, "bowline-waistcoat"), **read_folder(ROOT))
    assert proof is not None, problems
    sections = [(m.section, m.stitches.value) for size in proof.sizes for strip in size.strips
                if strip.plan.is_lengthwise for m in strip.plan.meetings if m.section.segments]
    assert sections
    gauge = measure(proof.pattern.fabrics["body"].swatches)
    for section, rows in sections:
        held(section, gauge, rows)

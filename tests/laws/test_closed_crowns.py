"""Crowns that are closed up: every wedge loses a stitch on one row, and no step can be spoiled.

The bed recounts the stitches; here it is held that they go where a crown needs it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.machine.edge_steps import CloseUp
from walebook.machine.headings import Heading
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.steps import Dial, Step
from walebook.pattern.specs import CrownShape, CrownSpec
from walebook.program.piece_program import piece_program
from walebook.shape.crowns import Closed, halvings, wedges
from walebook.shape.piece import Ending, Piece
from walebook.shape.profile import Profile

from tests.scale import examples


def program(stitches: int, closes: tuple[Closed, ...], rows: int, *, mirrored: bool = False
            ) -> Program:
    piece = Piece(key="hat", title="Hat", stitches=stated(stitches, Unit.STITCHES),
                  left=Profile(rows), right=Profile(rows), closes=closes, mirrored=mirrored,
                  ends=Ending.DRAWN_UP, waits=("crown",))
    return piece_program(piece, dial=Dial(18), bed_needles=200)


def closings(made: Program) -> list[CloseUp]:
    return [step for step in made.steps if isinstance(step, CloseUp)]


@given(st.integers(2, 12), st.integers(3, 14), st.integers(0, 3), st.integers(1, 4), st.booleans())
@settings(max_examples=examples(25), deadline=None)
def test_every_wedge_loses_one_stitch_on_the_same_row(number: int, each: int, beside: int,
                                                      every: int, mirrored: bool) -> None:
    spec = CrownSpec(shape=CrownShape.WEDGES, wedges=number, beside=beside, every=every, remain=1)
    width = number * each + beside
    made = program(width, wedges(width, 4, spec), 4 + every * (each - 1), mirrored=mirrored)
    result = run(made)
    assert result.refusal is None, str(result.refusal)
    steps = closings(made)
    assert [len(step.doubled) for step in steps] == [number] * (each - 1)
    for left, step in zip(range(each - 1, 0, -1), steps, strict=True):
        assert len(step.onto) == number * left + beside and step.onto.is_unbroken
        places = [n.place for n in step.doubled]
        assert all(b - a == left for a, b in pairwise(places))  # one in each wedge, at one place
        right, at_left = step.onto.last.place - places[-1], places[0] - step.onto.first.place
        near, far = (at_left, right) if mirrored else (right, at_left)
        assert near == beside - beside // 2 and far - (left - 1) == beside // 2
    counters = [state.counter for step, state in zip(made.steps, result.states, strict=True)
                if isinstance(step, CloseUp)]
    assert counters == [4 + n * every for n in range(each - 1)]


@given(st.integers(8, 190), st.lists(st.integers(1, 5), min_size=1, max_size=3))
@settings(max_examples=examples(25), deadline=None)
def test_halvings_leave_half_and_an_odd_stitch_alone(width: int, after: list[int]) -> None:
    made = program(width, halvings(width, 2, after), 2 + sum(after))
    assert run(made).refusal is None
    left = width
    for step in closings(made):
        assert len(step.onto) == (left + 1) // 2
        assert len(step.onto - step.doubled) == left % 2
        left = len(step.onto)


def spoiled(made: Program) -> Iterator[tuple[str, Program]]:
    """The program with one closing up dropped, doubled, or changed by a needle."""
    steps = made.steps
    for at, step in enumerate(steps):
        if not isinstance(step, CloseUp):
            continue
        around = steps[:at], steps[at + 1:]
        one_less = step.doubled - step.doubled.rightmost(1)
        changes: dict[str, tuple[Step, ...]] = {
            "dropped": (), "doubled": (step, step),
            "fewer": (replace(step, doubled=one_less),),
            "narrower": (replace(step, onto=step.onto - step.onto.rightmost(1)),),
            "left on": (replace(step, needles=step.needles - step.needles.leftmost(1)),),
            "moved": (replace(step, needles=step.needles.shifted(1)),)}
        for name, new in changes.items():
            yield name, replace(made, sections=(ProgramSection(
                heading=Heading.BODY, steps=(*around[0], *new, *around[1])),))


def test_a_spoiled_closing_up_is_refused_wherever_it_stands() -> None:
    spec = CrownSpec(shape=CrownShape.WEDGES, wedges=8, beside=2, every=2, remain=1)
    names = set()
    for made in (program(82, wedges(82, 10, spec), 28),
                 program(71, halvings(71, 9, (4, 2, 1)), 16)):
        assert run(made).refusal is None
        for name, bad in spoiled(made):
            assert run(bad).refusal is not None, name
            names.add(name)
    assert names == {"dropped", "doubled", "fewer", "narrower", "left on", "moved"}

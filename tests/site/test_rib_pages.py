"""Ribs as a knitter is told them: needles in words, both beds drawn, steps with their figures."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.core import counts
from walebook.core.counts import Unit
from walebook.drawings.two_beds import two_bed_diagram, two_beds_said
from walebook.machine.needles import Needle, Needles, between, needle, of
from walebook.machine.rib_steps import Across, KnitBeds, Latch
from walebook.machine.steps import Dial
from walebook.pattern.model import Pattern, RibMake
from walebook.program.piece import piece_program
from walebook.proof.proof import KnittedPiece
from walebook.shape.piece import Ending, Piece
from walebook.shape.profile import Profile
from walebook.shape.ribs import RIBS, Rib
from walebook.words.program import tell
from walebook.words.words import which

from tests.laws import bands

NTH = {"other": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6}
EVERY = re.compile(r"every (\w+) needle from (\w+) to (\w+)")
SOME = re.compile(r"(\d+) of every (\d+) needles from (\w+) to (\w+)")
MADE = [(make, name) for make in RibMake for name in RIBS
        if make is RibMake.TWO_BED or name != "full needle"]


def read_back(said: str) -> Needles:
    """The needles that words at even distances stand for."""
    if found := SOME.search(said):
        size, far = int(found[1]), int(found[2])
        first, last = needle(found[3]), needle(found[4])
    else:
        found = EVERY.search(said)
        assert found is not None, said
        size, far = 1, NTH[found[1]]
        first, last = needle(found[2]), needle(found[3])
    return of(*(Needle(place) for place in range(first.place, last.place + 1)
                if (place - first.place) % far < size))


@given(st.integers(-60, 10), st.integers(1, 3), st.integers(1, 4), st.integers(4, 20))
def test_needles_at_even_distances_are_read_back_from_their_words(start, size, gap, groups):
    far = size + gap
    meant = of(*(Needle(start + far * group + n) for group in range(groups) for n in range(size)))
    assert read_back(which(meant)) == meant


def knitted(make: RibMake, name: str, stitches: int = 46) -> KnittedPiece:
    rib = Rib(make=make, works=RIBS[name], rows=12, dial=Dial(12))
    piece = Piece(key="p", title="Piece", left=Profile(6), right=Profile(6), hem=rib,
                  stitches=counts.given(stitches, Unit.STITCHES, "a law"), ends=Ending.WASTE,
                  waits=("top",))
    program = piece_program(piece, dial=Dial(18), bed_needles=200, second_needles=200)
    result = run(program)
    assert result.refusal is None
    return KnittedPiece(piece=piece, program=program, run=result)


def told(work: KnittedPiece) -> str:
    source: Pattern = bands.pattern()
    return tell(work, replace(source, bed=replace(source.bed, second=True)), "p")


def plain(page: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<svg.*?</svg>|<[^>]+>", " ", page, flags=re.S))


@pytest.mark.parametrize(("make", "name"), MADE)
def test_every_kind_of_rib_is_told_to_its_last_row(make, name):
    work = knitted(make, name)
    said = plain(told(work))
    assert "until the row counter shows 12" in said
    assert "46 stitches on the needles" in said
    assert ("Hang the weights" in said) or ("Hang the cast-on comb" in said)
    if make is RibMake.LATCHED:
        step = next(s for s in work.program.steps if isinstance(s, Latch))
        assert f"Latch up {len(step.needles)} columns" in said
        assert "stitch of row 1" in said and "11 in all" in said
    if make is RibMake.TWO_BED:
        assert "on the main bed" in said and "on the second bed" in said
        assert ("Half pitch" in said) == (name == "full needle")


@pytest.mark.parametrize("name", RIBS)
def test_both_beds_are_drawn_as_the_bed_has_them(name):
    """A dot a stitch: dots, runs of them and bars are counted off the paths of the drawing."""
    work = knitted(RibMake.TWO_BED, name)
    at = next(n for n, s in enumerate(work.program.steps)
              if isinstance(s, KnitBeds) and s.rows == 12)
    state = work.run.states[at]
    assert state.second is not None
    figure = two_bed_diagram(state, prefix="f", title="t", bed=work.program.bed)
    svg = ElementTree.fromstring(figure[figure.index("<svg"):figure.index("</svg>") + 6])
    dots = [p.get("d", "") for p in svg.iter("path") if p.get("stroke-dasharray") == "0 12"]
    drawn = sum(int(Fraction(run)) // 12 + 1 for d in dots for run in re.findall(r"h(\d+)\.1", d))
    assert drawn == len(state.loaded) + len(state.second.loaded)
    said = two_beds_said(state)
    assert f"{len(state.loaded)} stitches on" in said
    assert f"{len(state.second.loaded)} stitches on" in said


def test_a_bed_alone_is_not_drawn_as_two():
    work = knitted(RibMake.MOCK, "1x1")
    with pytest.raises(ValueError, match="one bed"):
        two_bed_diagram(work.run.states[-1], prefix="f", title="t", bed=work.program.bed)


def test_what_moves_across_is_said_with_where_it_lands():
    work = knitted(RibMake.TWO_BED, "2x2")
    said = plain(told(work))
    for step in work.program.steps:
        if isinstance(step, Across):
            assert f"{len(step.needles)} stitches of the" in said
            assert read_back(which(step.needles)) == step.needles
    assert between(needle("L23"), needle("R23")) == work.piece.needles

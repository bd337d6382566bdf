"""Ribs as a knitter is told them: needles in words, both beds drawn, steps with their figures."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from xml.etree import ElementTree

import pytest
from walebook.bed.run import run
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.drawings.two_beds import two_bed_diagram
from walebook.machine.needles import between
from walebook.machine.rib_steps import Across, KnitBeds, Latch
from walebook.machine.steps import Dial
from walebook.pages.program import steps_html
from walebook.pattern.model import Pattern
from walebook.pattern.rib_specs import RibMake
from walebook.program.piece_program import piece_program
from walebook.proof.proof import KnittedPiece
from walebook.shape.piece import Ending, Piece
from walebook.shape.profile import Profile
from walebook.shape.ribs import RIBS, Rib
from walebook.words.two_beds_text import two_beds_text
from walebook.words.words import which

from tests.laws import bands
from tests.laws.needle_words import read
from tests.needle_names import needle

MADE = [(make, name) for make in RibMake for name in RIBS
        if make is RibMake.TWO_BED or name != "full needle"]


def knitted(make: RibMake, name: str, stitches: int = 46, *, own: int = 46) -> KnittedPiece:
    rib = Rib(make=make, works=RIBS[name], rows=12, dial=Dial(12),
              stitches=stated(own, Unit.STITCHES))
    piece = Piece(key="p", title="Piece", left=Profile(6), right=Profile(6), hem=rib,
                  stitches=stated(stitches, Unit.STITCHES), ends=Ending.WASTE,
                  waits=("top",))
    program = piece_program(piece, dial=Dial(18), bed_needles=200, second_needles=200)
    result = run(program)
    assert result.refusal is None
    return KnittedPiece(piece=piece, program=program, trace=result)


def told(work: KnittedPiece) -> str:
    source: Pattern = bands.pattern()
    return steps_html(work, replace(source, bed=replace(source.bed, second=True)), "p")


def plain(page: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<svg.*?</svg>|<[^>]+>", " ", page, flags=re.S))


@pytest.mark.parametrize(("make", "name"), MADE)
def test_every_kind_of_rib_is_told_to_its_last_row(make, name):
    work = knitted(make, name)
    said = plain(told(work))
    assert "until the row counter shows 12" in said
    assert re.search(r"\b46 +stitches\b", said)
    assert ("hang the weights" in said) or ("Hang the cast-on comb" in said)
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
    state = work.trace.states[at]
    assert state.second is not None
    figure = two_bed_diagram(state, prefix="f", title="t", bed=work.program.bed)
    svg = ElementTree.fromstring(figure[figure.index("<svg"):figure.index("</svg>") + 6])
    dots = [p.get("d", "") for p in svg.iter("path") if p.get("stroke-dasharray") == "0 12"]
    drawn = sum(int(Fraction(run)) // 12 + 1 for d in dots for run in re.findall(r"h(\d+)\.1", d))
    assert drawn == len(state.loaded) + len(state.second.loaded)
    said = two_beds_text(state)
    assert f"{len(state.loaded)} stitches on" in said
    assert f"{len(state.second.loaded)} stitches on" in said


def test_a_bed_alone_is_not_drawn_as_two():
    work = knitted(RibMake.MOCK, "1x1")
    with pytest.raises(ValueError, match="one bed"):
        two_bed_diagram(work.trace.states[-1], prefix="f", title="t", bed=work.program.bed)


def test_what_moves_across_is_said_with_where_it_lands():
    work = knitted(RibMake.TWO_BED, "2x2")
    said = plain(told(work))
    for step in work.program.steps:
        if isinstance(step, Across):
            assert f"{len(step.needles)} stitches of the" in said
            assert read(which(step.needles)) == step.needles
    assert between(needle("L23"), needle("R23")) == work.piece.needles


@pytest.mark.parametrize("own", [40, 46, 52])
def test_where_stitches_are_spread_above_a_rib_each_hand_s_act_is_said(own):
    """The carriage out of the way, needles beyond the rib into work, the waste yarn out again, and
    needles with two stitches forward for the next row."""
    said = plain(told(knitted(RibMake.LATCHED, "1x1", own=own)))
    for sentence, when in (
            ("Push the carriage further out to the ", own != 46),
            (f"clear of {'R' if 'out to the right' in said else 'L'}{max(own, 46) // 2} ",
             own != 46),
            ("Bring L23 to L21 and R21 to R23 to working position too.", own < 46),
            ("These needles stay empty, in working position, for the next step: ", own < 46),
            ("draw the waste yarn out if you used it.", own != 46),
            ("Bring all needles that hold two loops fully forward, latches open. Knit the next row "
             "slowly", own > 46)):
        assert (sentence in said) == when, sentence
    assert "The two loops of a needle" not in said

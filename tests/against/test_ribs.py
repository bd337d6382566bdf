"""Ribs against published ones: their set-outs, parities, the needles of a mock rib hem."""

from __future__ import annotations

from fractions import Fraction

import pytest
from walebook.core.counted import stated
from walebook.core.counts import Unit, whole
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Dial, Knit
from walebook.pattern.rib_specs import RibMake
from walebook.program.piece_program import piece_program
from walebook.shape.piece import Piece
from walebook.shape.profile import Profile
from walebook.shape.ribs import RIBS, Rib, faces, fitting

ONE, TWO_ONE, TWO, FULL = (RIBS[name] for name in ("1x1", "2x1", "2x2", "full needle"))


@pytest.mark.parametrize(("works", "parity"), [(ONE, 1), (TWO, 0)])
@pytest.mark.parametrize("asked", range(60, 72))
def test_even_for_two_by_two_and_odd_for_one_by_one(works, parity, asked):
    """P04, Rosee Woodland, Create perfect buttonholes: bands picked up for a rib."""
    assert whole(Fraction(asked), fitting(works, seamed=False)) % 2 == parity


@pytest.mark.parametrize(("works", "main", "second"), [
    (ONE, 30, 30), (TWO_ONE, 40, 20), (TWO, 30, 30)])
def test_sixty_places_set_out(works, main, second):
    """Knitting Technology, third edition, 7.3.1: one and one, two and one, two and two of them."""
    shown = faces(60, works, RibMake.TWO_BED)
    assert (sum(shown), 60 - sum(shown)) == (main, second)


def test_an_odd_number_and_every_other_needle_from_the_second_on():
    """My Knitting Machines and Me, Mock Rib Hem, 2009: the needles left out, on 41 in all."""
    shown = faces(41, ONE, RibMake.HUNG)
    assert [place for place, on in enumerate(shown, 1) if not on] == list(range(2, 41, 2))


def piece(make: RibMake, works: tuple[bool, ...], stitches: int, rows: int) -> Piece:
    rib = Rib(make=make, works=works, rows=rows, dial=Dial(9))
    return Piece(key="p", title="Piece", stitches=stated(stitches, Unit.STITCHES),
                 left=Profile(10), right=Profile(10), hem=rib)


def test_a_folded_rib_takes_twice_its_depth_and_a_joining_row():
    """D01 and D03: hem rows are twice the depth; a loose fold row between is D05."""
    program = piece_program(piece(RibMake.HUNG, ONE, 41, 12), dial=Dial(15), bed_needles=200)
    rows = [s.rows for s in program.sections[0].steps
            if isinstance(s, Knit) and s.yarn == StepYarn.MAIN]
    assert rows == [12, 1, 12, 1]


def test_a_rib_of_130_stitches_lies_65_0_65():
    """D06 and M07: the centred layout of a reader's ribbed band, 30 rows of it."""
    program = piece_program(piece(RibMake.TWO_BED, TWO, 130, 30), dial=Dial(21),
                            bed_needles=200, second_needles=200)
    needles = piece(RibMake.TWO_BED, TWO, 130, 30).needles
    assert (needles.first.name, needles.last.name) == ("L65", "R65")
    assert any(getattr(step, "rows", 0) == 30 for step in program.steps)

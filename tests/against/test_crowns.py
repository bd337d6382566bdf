"""Gathered crowns against published ones, their programs knitted on the bed.

W3-012: Sheila, "Mid-gauge hat for premature baby", needlesofsteel.blogspot.com, 2014-04-21: 62
stitches; 34 rows straight at dial 6; one dot tighter every 2 rows until row 46; every other stitch
onto its neighbour, 31 left; 1 row; a tail 3 times the width drawn through.
W3-013: Roni Knutson, "Golf club covers, chunky", lacecarriage.com, undated: 40 stitches, 20 rows at
dial 9; every second stitch moved, 20 left, emptied needles out of work; 2 rows at dial 7, 2 at 5;
drawn up.
W3-030: Diana Sullivan, "Mobius scarf: waste knitting", diananatters.blogspot.com, 2015-04: yarn for
a sewn, grafted or gathered row is three times the width of the knitting.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from walebook.catalogue.methods import DRAWN
from walebook.core.problems import Place
from walebook.core.units import read_dial
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import TakeOff
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Dial, Knit, SetDial, Transfer
from walebook.machine.trace import Trace
from walebook.pattern.model import Pattern
from walebook.proof.proof import KnittedPiece, prove
from walebook.sizing.measures import Definition

from tests import small_patterns as small
from tests.against import wardrobe

PLACE = Place("patterns/quay/pattern.yaml", 1, 1)
TEN = small.swatch(20, "20 cm", 20, "20 cm", grams=10)  # 1 cm a stitch and a row


def hat(stitches: int, rows: int, crown: int, dial: str) -> Pattern:
    """A hat with these counts; two of its stitches are for the seam."""
    own = {"hat_width": stitches - 2, "hat_depth": rows, "crown": crown}
    measures = {name: {"woman": Definition(f"{cm} cm", PLACE)} for name, cm in own.items()}
    spec = small.spec("hat", chart=wardrobe.chart("heads"), hem=None)
    return small.pattern(
        **small.DESIGNED, slug="quay", title="Quay", sizes=("woman",),
        bed=small.bed("mid", "6.5 mm", 150), yarns=small.wool("Wool", 50, "80 m"),
        fabrics=(replace(small.fabric("body", "6", TEN), dial=read_dial(dial)),),
        garment=replace(spec, measures=measures))


def knitted(pattern: Pattern) -> KnittedPiece:
    proof, problems = prove(pattern)
    assert proof is not None, [str(p) for p in problems]
    return proof.sizes[0].pieces[0]


def above(piece: KnittedPiece, row: int) -> list[tuple[int, str]]:
    """The rows knitted above row `row` of the piece, with the dial of each stretch."""
    out, run = [], piece.trace
    for step, state in zip(piece.program.steps, run.states, strict=True):
        if isinstance(step, Knit) and state.counter > row:
            out.append((step.rows, str(step.dial)))
    return out


def moved(piece: KnittedPiece) -> list[tuple[int, int]]:
    """The rows at which stitches are moved, and the stitches left after each."""
    return [(state.counter, len(state.loaded)) for step, state in zip(
        piece.program.steps, piece.trace.states, strict=True) if isinstance(step, Transfer)]


def test_a_mid_gauge_hat_is_tightened_a_dot_every_two_rows_and_gathered_once():
    made = knitted(hat(62, 47, 12, "6"))
    assert piece_rows(made.trace) == 47
    assert moved(made) == [(46, 31)]
    assert above(made, 34) == [(2, "5.2"), (2, "5.1"), (2, "5"), (2, "4.2"), (2, "4.1"), (2, "4"),
                               (1, "4")]
    assert next(s.rows for s in made.program.steps if isinstance(s, Knit)) == 34
    assert sum(isinstance(s, SetDial) for s in made.program.steps) == 1 + 6


def test_a_golf_club_cover_is_gathered_first_and_tightened_twice_by_two_numbers():
    made = knitted(hat(40, 24, 0, "9"))
    assert moved(made) == [(20, 20)]
    assert above(made, 20) == [(2, "7"), (2, "5")]


def test_emptied_needles_go_out_of_work():
    made = knitted(hat(40, 24, 0, "9"))
    at = next(n for n, s in enumerate(made.program.steps) if isinstance(s, Transfer))
    assert made.program.steps[at].rest
    assert len(made.trace.states[at].working) == 20


@pytest.mark.parametrize("pattern", [hat(62, 47, 12, "6"), hat(40, 24, 0, "9")],
                         ids=["W3-012", "W3-013"])
def test_the_tail_is_three_times_the_width(pattern: Pattern):
    made = knitted(pattern)
    (off,) = [s for s in made.program.steps if isinstance(s, TakeOff)]
    wide = off.needles.last.place - off.needles.first.place + 1
    assert wide >= made.piece.stitches.value - 1  # the width of the knitting, not of the ring
    assert DRAWN.yarn == 3


def test_a_dial_is_never_set_below_nothing():
    made = knitted(hat(62, 47, 12, "1"))
    dials = [s.dial for s in made.program.steps if isinstance(s, Knit)]
    assert min(dials) == Dial(0)


@pytest.mark.parametrize("form", [name for name in FORMS if name in ("hat", "mitten")])
def test_needles_are_emptied_between_stitches_for_few_rows_only(form: str):
    """Published: one row (W3-012) or four (W3-013); a crown of ten rows on every fourth needle
    ladders."""
    proof, problems = prove(wardrobe.pattern(form, of="heads" if form == "hat" else "women",
                                             sizes=("woman",) if form == "hat" else ("M",)))
    assert proof is not None, [str(p) for p in problems]
    for made in proof.sizes[0].pieces:
        rows, gathered = 0, 0
        for step in made.program.steps:
            gathered += isinstance(step, Transfer)
            rows += step.rows if gathered and isinstance(step, Knit) else 0
        assert gathered == 1 and rows in (1, 4)


def piece_rows(trace: Trace) -> int:
    return dict(trace.rows)[StepYarn.MAIN]

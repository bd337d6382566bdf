"""An armhole that a band takes has the rows that the bed knitted on its outermost stitches."""

from __future__ import annotations

import pytest
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import TakeOff
from walebook.machine.steps import Knit
from walebook.pattern.edges import Offer
from walebook.shape.piece import Piece

from tests.laws import pieces

SLEEVELESS = [name for name, form in FORMS.items() if "armhole" in form.edges]


def rows_at_the_edge(piece: Piece, above: int) -> int:
    """Rows the carriage knitted on the outermost stitch at the right, above a row of the piece.

    It is followed up to the shoulder, where the right half's stitches go onto waste yarn.
    """
    program, result = pieces.knit(piece)
    assert result.refusal is None
    counted, before = 0, None
    for step, state in zip(program.steps, result.states, strict=True):
        if isinstance(step, TakeOff) and before and before.loaded.last in step.needles:
            break
        if isinstance(step, Knit) and before and before.loaded.last in before.working:
            counted += max(0, state.counter - max(above, before.counter))
        before = state
    return counted


@pytest.mark.parametrize("form", SLEEVELESS)
@pytest.mark.parametrize("size", ["XS", "M", "2X"])
def test_an_armhole_has_the_rows_of_its_outermost_stitches(form: str, size: str) -> None:
    """Rows knitted while a shoulder is held are none of the armhole's (no source: geometry)."""
    known = pieces.chart("women").measurements(size)
    made = FORMS[form].shape(pieces.cut(form, known, pieces.gauge(26, 38)))
    rows = [s.places for s in made.edges["right_armhole"].sections if s.offer is Offer.ROWS]
    (under,) = [count.value for _, name, count in made.counts if name == "rows_to_armhole"]
    behind = next(p for p in made.pieces if p.key == "back")
    assert rows == [rows_at_the_edge(behind, under)] * 2

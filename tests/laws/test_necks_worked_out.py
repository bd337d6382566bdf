"""Each number of a neck or an armhole that a step uses is worked out under "Calculations".

Forms, necks and gauges are drawn by a seed. What a neck and an armhole have is read off the pieces
as they are knitted; that each has its working is what the page on reading a pattern says.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from random import Random

import pytest
from walebook.catalogue.forms import Construction
from walebook.core.counts import Unit
from walebook.pages.garment_facts import garment_workings
from walebook.shape.garment import Garment
from walebook.shape.profile import How, Profile

from tests.small_sources import head, what_comes_of

FORMS = ("set-in pullover", "set-in cardigan", "set-in slipover", "set-in waistcoat",
         "drop-shoulder pullover", "drop-shoulder cardigan", "raglan pullover", "raglan cardigan",
         "saddle raglan pullover", "saddle raglan cardigan")
LINE = re.compile(r"<b>([^<:]*), (\d+) (stitch|row)")


def source(form: str, neck: str, seed: int) -> str:
    draw = Random(f"{form} {neck} {seed}")
    stitches = draw.randint(28, 60)
    rows = int(stitches * draw.uniform(1.2, 1.6))
    return head(400) + f"""\
fabrics:
  body:
    yarn: wool
    dial: 6
    swatch: {{stitches: {stitches}, width: 20 cm, rows: {rows}, height: 20 cm}}
sizes: [{draw.choice("SML")}]
garment:
  form: {form}
  chart: women
  fabric: body
  neck: {neck}
"""


def first_off(edge: Profile) -> int:
    """What is bound off first at an edge; 0 where nothing is."""
    return next((c.stitches for c in edge.changes if c.how is How.BIND_OFF), 0)


def numbers(garment: Garment) -> Iterator[tuple[str, int, str]]:
    """What goes at the centres and front edges of the necks and at the armholes: the label of each,
    how many, and of what."""
    for piece in garment.pieces:
        if piece.opening is not None and piece.opening.centre:
            yield "Neck centre", piece.opening.centre, "stitch"
        if piece.key == "right_front" and (off := first_off(piece.left)):
            yield "Neck bind off", off, "stitch"
    if garment.form is Construction.SET_IN:
        yield "Armhole bind off", first_off(garment.pieces[0].right), "stitch"


def deep(garment: Garment) -> set[int]:
    """How many rows a neck in the middle of a piece may have: from where it opens to the last row,
    and the row above that."""
    return {piece.opening.inner.rows + more for piece in garment.pieces if piece.opening
            for more in (0, 1)}


@pytest.mark.sampled(20, each=("form", "neck", "seed"))
@pytest.mark.parametrize("neck", ["round", "high", "v", "square", "boat"])
@pytest.mark.parametrize("form", FORMS)
@pytest.mark.parametrize("seed", range(2))
def test_each_has_its_working(form: str, neck: str, seed: int) -> None:
    proof, found = what_comes_of(source(form, neck, seed))
    assert proof is not None, found
    size = proof.sizes[0]
    assert size.assembled is not None
    garment = size.assembled.garment
    told = {(label, int(many), unit) for label, many, unit in LINE.findall(
        "".join(garment_workings(proof.pattern.garment, proof.pattern.fabrics, proof.pattern.bands,
                                 size, ())))}
    assert set(numbers(garment)) <= told
    rows = {many for label, many, _ in told if label == "Neck rows"}
    assert rows and (garment.pieces[1].opening is None or rows <= deep(garment))
    # Records and comparisons have what is counted, so no rows are worked out beside that.
    assert not [(key, name) for key, name, count in garment.workings if count.unit is Unit.ROWS]

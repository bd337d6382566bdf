"""The end that joins shoulders: one rule for the steps, the technique pages and the yarn.

A chain through the work takes four times the width on the bed, however it is made, and every end to
work with is a hand's length longer: common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from walebook.catalogue.methods import BIND_OFFS, LATCH_OFF, PEGS_OFF, SHOULDERS, TOGETHER
from walebook.core.yarn_parts import Beside
from walebook.machine.steps import Side
from walebook.proof.yarn_requirement import yarn_requirements
from walebook.shape.tasks import TaskKind
from walebook.shape.worn import shoulder_of

from tests.laws.random_sources import BandSpec
from tests.laws.test_sewn_ends import made
from tests.laws.test_yarn_sums import source, worn

TECHNIQUES = Path(__file__).parents[2] / "site_src" / "techniques"
HAND_CM = 15  # common practice, no source
STITCH = Fraction(150, 30)  # [mm], from the swatch of the source
WORDS = {3: "three", 4: "four"}


def joined_by(name: str) -> BandSpec:
    return source(garment=worn("drop-shoulder pullover") | {"bind_off": {"shoulders": name}})


def test_shoulders_bound_off_together_take_as_much_as_the_chain_that_binds_them_off() -> None:
    assert min(LATCH_OFF.yarn, PEGS_OFF.yarn) == TOGETHER.yarn == 4


@pytest.mark.parametrize(("piece", "side", "label"), [
    ("back", Side.LEFT, "back, left shoulder"), ("front", Side.RIGHT, "front, right shoulder"),
    ("left_front", Side.LEFT, "left front, shoulder"),
    ("right_front", Side.RIGHT, "right front, shoulder")])
def test_a_shoulder_that_waits_is_labelled_by_its_piece_and_side(piece: str, side: Side, label: str
                                                                 ) -> None:
    """Half a front has one shoulder; of a whole piece the label says which of two."""
    assert shoulder_of(piece, side) == label


@pytest.mark.parametrize("method", SHOULDERS, ids=lambda m: m.name)
def test_the_technique_page_asks_for_what_the_table_has(method) -> None:
    page = (TECHNIQUES / method.page.replace(".html", ".md")).read_text(encoding="utf-8")
    asked = " ".join(page.split("{ #need }")[1].split("##")[0].split())
    assert f"{WORDS[int(method.yarn)]} times the width" in asked
    assert "a hand's length" in asked


@pytest.mark.parametrize("name", [m.name for m in SHOULDERS])
def test_the_end_reaches_across_the_shoulder_and_a_hand_further(name: str) -> None:
    pattern, size = made(joined_by(name))
    assert size.assembled is not None
    garment = size.assembled.garment
    told = {task.end for task in garment.tasks if task.kind is TaskKind.SHOULDERS and task.end}
    joined = [j for j in garment.joins if j.method]
    across = max(j.one for j in joined) * pattern.bed.pitch.mm
    (end,) = told
    least = BIND_OFFS[name].yarn * across + 10 * HAND_CM
    assert least <= end.mm < least + 50


def test_the_seams_yarn_counts_the_chain_and_its_hand() -> None:
    """Against shoulders that are grafted, at three times: one more for the chain."""
    found = {}
    for name in ("bound off together", "grafted"):
        pattern, size = made(joined_by(name))
        assert size.assembled is not None
        found[name] = next(e.amount.metres for need in yarn_requirements(pattern, size)
                           for e in need.extras
                           if e.part.what is Beside.SEAMS)
        joins = [j for j in size.assembled.garment.joins if j.method]
    across = sum((j.one * (1 if j.side else 2) for j in joins), Fraction(0))
    assert found["bound off together"] - found["grafted"] == across * STITCH / 1000

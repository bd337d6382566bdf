"""A loop of every hollow corner hangs with the end of the side beside it, or it is refused.

Between a side of rows and the stitches that wait at its foot lie the corner's own stitches:
without a loop of it a hole is left there (bands/facing.md; common practice, no source). So it is at
the foot of a held neck, whose stitches lie in steps, and of one that is decreased from its foot on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from walebook.bed.run import run
from walebook.machine.edge_steps import Hang
from walebook.machine.needles import NONE
from walebook.machine.programs import Program
from walebook.machine.steps import Step
from walebook.pages import page_names, write_page
from walebook.pages.from_texts import prove_made
from walebook.pattern.edges import Offer
from walebook.pattern.model import Neck
from walebook.proof.proof import Strip, prove
from walebook.shape.corners import squares

from tests.laws.test_one_edge import banded
from tests.laws.test_waste_strips import changed
from tests.laws.texts import read_folder, texts_of

ROOT = Path(__file__).parents[2]
NECKS = [("set-in pullover", Neck.SQUARE), ("drop-shoulder pullover", Neck.BOAT)]


def neckbands(form: str, neck: Neck, kind: str) -> Iterator[Strip]:
    proof, problems = prove(banded(form, neck, None, kind))
    assert proof is not None, [str(p) for p in problems]
    for strip in proof.sizes[0].strips:
        if strip.plan.band.garment_edge == "neck":
            assert strip.trace.refusal is None, strip.trace.refusal
            yield strip


def sides(program: Program) -> list[Hang]:
    """The steps that hang a loop of a corner."""
    return [s for s in program.steps if isinstance(s, Hang) and s.corners]


@pytest.mark.parametrize("kind", ["facing", "folded", "enclosing", "single"])
@pytest.mark.parametrize(("form", "neck"), NECKS)
def test_every_hollow_corner_has_its_loop_beside_the_stitches_that_wait(
        form: str, neck: Neck, kind: str) -> None:
    for strip in neckbands(form, neck, kind):
        hung = {s.edge: s for s in strip.program.steps if isinstance(s, Hang)}
        edges = [hung[name] for name, _ in strip.program.edges if name in hung]
        waits = [m.section.offer is Offer.WAITING for m in strip.plan.meetings]
        found = 0
        for (one, still), (other, moved) in pairwise(zip(edges, waits, strict=False)):
            if still is moved or not (neck is Neck.BOAT or "front neck" in one.edge):
                continue  # a square neck is straight at the front alone
            side, foot = (one, other) if moved else (other, one)
            beside = side.corners & (foot.needles.shifted(1) | foot.needles.shifted(-1))
            assert len(beside) == 1, (one.edge, other.edge)
            found += 1
        assert found == len(squares(strip.plan.edge_path.sections)) == {
            Neck.SQUARE: 2, Neck.BOAT: 4}[neck]


@pytest.mark.parametrize("kind", ["facing", "enclosing"])
@pytest.mark.parametrize(("form", "neck"), NECKS)
def test_a_program_that_leaves_a_corner_open_is_refused(form: str, neck: Neck, kind: str) -> None:
    for strip in neckbands(form, neck, kind):
        for side in sides(strip.program):
            for corners in (NONE, side.corners.shifted(1), side.corners.shifted(-1),
                            side.needles.leftmost(1) | side.needles.rightmost(1)):
                if corners == side.corners:
                    continue
                less = len(side.corners) - len(corners)
                at = strip.program.steps.index(side)

                def spoiled(step: Step, side: Hang = side, corners=corners,  # type: ignore[no-untyped-def]
                            less: int = less) -> Step:
                    return replace(side, corners=corners, claim=side.claim._replace(
                        loops=side.claim.loops - less)) if step is side else step

                refusal = run(changed(strip.program, spoiled)).refusal
                assert refusal and (refusal.code, refusal.step) == ("corner-open", at + 1)


def test_no_loop_of_a_corner_is_taken_where_there_is_none() -> None:
    strip = next(neckbands("set-in pullover", Neck.ROUND, "facing"))
    first = next(s for s in strip.program.steps if isinstance(s, Hang))
    more = replace(first, corners=first.needles.rightmost(1),
                   claim=first.claim._replace(loops=first.claim.loops + 1))
    refusal = run(changed(strip.program, lambda step: more if step is first else step)).refusal
    assert refusal and refusal.code == "corner-open"


HELD = "{front_sides: held, back_sides: held}"


@pytest.mark.parametrize(("neckline", "deep"), [
    (HELD, 2), (HELD, 1), (HELD, 3), (HELD, 4), ("{front_sides: held}", 2)])
def test_a_held_neck_is_hung_out_to_its_edge_at_either_end_of_its_stitches(
        neckline: str, deep: int) -> None:
    """As far in as the side is hung, then a stitch less with each loop; a side of few loops begins
    as far out as it must (arithmetic)."""
    texts = texts_of(ROOT, "fairlead-pullover")
    source = texts.source.replace(HELD, neckline).replace(
        "depth: 2.5 cm", f"depth: 2.5 cm\n    stitches_in: {deep}")
    proof, problems = prove_made(replace(texts, source=source), **read_folder(ROOT))
    assert proof is not None, [str(each) for each in problems]
    size = proof.sizes[0]
    (strip,) = size.strips
    feet = 2 * neckline.count("held")
    hung = sides(strip.program)
    assert [len(side.corners) for side in hung] == [1] * feet
    text = write_page(proof, page_names(proof)[1]).text
    told = re.findall(r"With the (first|last) (\d) loops, [^:]*: (?:go in )?([^.]*)\.", text)
    assert len(told) == feet
    for side, (end, many, steps) in zip(hung, told, strict=True):
        first = side.corners.first == side.needles.first
        assert (end == "first") is first
        figures = [int(one) for one in re.findall(r"\d+", steps.replace("none", "0"))]
        least = min(deep + 1, len(side.needles))
        assert figures[::1 if first else -1] == list(range(least)) and int(many) == least

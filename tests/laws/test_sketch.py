"""The sketch of a garment is drawn from its pieces: read back, it has their measures.

Library: shapely 2 (planar areas). A sketch is in whole millimetres, so that a place may be off by
half of one, and a distance by one.
"""

from __future__ import annotations

import pytest
from shapely import Polygon
from walebook.drawings.garment import View, garment
from walebook.drawings.schematic import outlines
from walebook.proof.proof import Proof, SizeProof

from tests.laws.sketches import Drawn, drawn, sketches
from tests.laws.test_collection import collection

GRAIN = 1.01  # [mm], for either end of a distance half a millimetre


def has_body(proof: Proof) -> bool:
    return any("back" in [piece.key for piece in size.assembled.garment.pieces]
               for size in proof.sizes[:1] if size.assembled)


def proofs() -> dict[str, Proof]:
    return {proof.pattern.slug: proof for proof in collection().proofs if has_body(proof)}


def view(proof: Proof, size: SizeProof, seen: View) -> list[Drawn]:
    text = garment(proof.pattern, size, outlines(proof.pattern, size), views=(seen,))
    (svg,) = sketches(text)
    return list(drawn(svg))


def body(lines: list[Drawn], part: str) -> Drawn:
    return max((one for one in lines if one.part == part and "wb-fill" in one.looks),
               key=lambda one: Polygon(one.points).area)


@pytest.mark.parametrize("slug", ["slack-tide-cardigan", "gangway-pullover", "salt-marsh-pullover"])
def test_a_back_is_as_large_as_its_pieces_less_their_seams(slug: str) -> None:
    proof = proofs()[slug]
    for size in (proof.sizes[0], proof.sizes[-1]):
        assert size.assembled is not None
        back = body(view(proof, size, View.BACK), "back")
        outline = next(o for o in outlines(proof.pattern, size) if o.key == "back")
        piece = size.assembled.garment.pieces[0]
        stitch = float(outline.dimensions[0].length.mm) / piece.stitches.value
        assert max(back.xs) - min(back.xs) == pytest.approx(
            float(outline.width) - 2 * stitch, abs=GRAIN)
        assert max(back.ys) - min(back.ys) == pytest.approx(float(outline.height), abs=GRAIN)
        # A stitch of seam goes off each side as high as the shoulder's outer end; edges are
        # pulled smooth, which changes what is covered by less than 1 %.
        seams = 2 * stitch * max(float(y) for x, y in outline.corners if x > 0)
        assert Polygon(back.points).area == pytest.approx(
            Polygon([(float(x), float(y)) for x, y in outline.corners]).area - seams, rel=0.01)


def test_buttons_lie_at_the_middles_of_the_holes() -> None:
    proof = proofs()["slack-tide-cardigan"]
    for size in proof.sizes[::8]:
        plan = next(p for p in size.plans if p.placing)
        assert plan.placing is not None
        places = sorted(one.points[0][1] for one in view(proof, size, View.FRONT)
                        if "wb-button" in one.looks)
        edge = float(plan.run.length)
        assert places == pytest.approx(
            [edge * (start - 1 + plan.placing.hole / 2) / plan.placing.stitches
             for start in plan.placing.starts], abs=1)

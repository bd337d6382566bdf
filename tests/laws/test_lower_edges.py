"""A lower edge of bare stocking stitch is said to roll, on its piece and on the first page.

That stocking stitch rolls to its knit side at a first or last row, and to its purl side along the
ends of its rows, is common practice, no source. Which pieces of each form begin with a free edge,
and which in a seam, is written here by hand.
"""

from __future__ import annotations

import re
from typing import Any

import pytest
from walebook.pages.overview_page import overview_page
from walebook.pages.pieces import piece_body
from walebook.pages.shared_by_pages import shared
from walebook.proof.proof import Proof

from tests.laws.random_sources import BandSpec, written
from tests.laws.test_any_source import judged
from tests.laws.test_outlines import source as outlined
from tests.laws.test_yarn_sums import HEM, source, worn
from tests.small_sources import proved
from tests.whole_collection import collection

SAID = re.compile(
    r"The (?:lower|long) edge is bare stocking stitch and rolls towards its (\w+) side")


def said(proof: Proof) -> dict[str, str]:
    """To which side each piece of the first size is said to roll."""
    size = proof.sizes[0]
    return {piece.piece.key: found[1] for piece in size.pieces
            if (found := SAID.search(piece_body(proof.pattern, size, piece)))}


def band(edge: str, kind: str = "single") -> BandSpec:
    return {"bands": {edge: {"edge": edge, "kind": kind, "fabric": "band", "depth": "3 cm"}}}


def made(**more: Any) -> Proof:
    proof, found = judged(written(source(**more)))
    assert proof is not None, [str(p) for p in found]
    return proof


def test_the_collection_says_which_lower_edges_roll() -> None:
    found = {proof.pattern.slug: said(proof) for proof in collection().proofs}
    assert {slug: rolls for slug, rolls in found.items() if rolls} == {
        "tide-pool-top": {"back": "knit", "front": "knit", "sleeve": "knit"},
        "fog-bank-shawl": {"shawl": "knit"}, "burgee-kerchief": {"burgee": "knit"}}


@pytest.mark.parametrize("form, more, rolls", [
    ("drop-shoulder pullover", {}, {"back": "knit", "front": "knit", "sleeve": "knit"}),
    ("set-in cardigan", {}, dict.fromkeys(("back", "right_front", "left_front", "sleeve"),
                                          "knit")),
    ("set-in cardigan", {"hem": HEM}, {}),
    ("sideways pullover", {}, {"back": "purl", "front": "purl", "sleeve": "knit"}),
    ("sideways pullover", band("hem"), {"sleeve": "knit"}),
    ("sideways pullover", {"hem": HEM, **band("hem")}, {}),
    ("mitten", {}, {"hand": "knit"}), ("mitten", band("cuff"), {}),
    ("hat", {}, {"hat": "knit"}), ("hat", band("brim"), {}),
])
def test_a_form_says_which_lower_edges_roll(form: str, more: BandSpec, rolls: dict[str, str]
                                            ) -> None:
    own = dict(more)
    bands = {"bands": own.pop("bands")} if "bands" in own else {}
    garment = worn(form, **own)
    if form in ("mitten", "hat"):
        del garment["chart"]
    if form == "hat":
        garment["chart"] = "heads"
    sizes = {"hat": {"wearer": "women", "sizes": ["woman"]}}.get(form, {})
    assert said(made(garment=garment, **bands, **sizes)) == rolls


def test_the_first_page_names_the_pieces_whose_lower_edges_roll() -> None:
    pages = {proof.pattern.slug: overview_page(proof, shared(proof))
             for proof in collection().proofs
             if proof.pattern.slug in ("tide-pool-top", "fog-bank-shawl", "gull-wing-pullover")}
    assert "The lower edges of the back, front and sleeve are bare stocking stitch" in \
        pages["tide-pool-top"]
    assert "The long edge of the shawl is bare stocking stitch" in pages["fog-bank-shawl"]
    assert "bare stocking stitch" not in pages["gull-wing-pullover"]


BED = "bed: {pitch: 4.5 mm, needles: 200}"


def tube(sides: dict[str, Any]) -> Proof:
    """A piece folded across, each of its edges sewn to itself as far as a named part goes."""
    sewn = [{"sew": f"tube.{side}.below", "to": f"tube.{side}.above"} for side in ("left", "right")]
    named = {"wide": "20 cm", "middle": "10 cm", "low": "5 cm", "half": "10 cm", "most": "20 cm"}
    used = {point[key] for side in sides.values() for point in side for key in ("height", "width")}
    return proved(outlined({
        "measures": {"high": "30 cm", **{n: named[n] for n in sorted({"wide", *used})}},
        "pieces": {"tube": {"width": "wide", "height": "high", **sides}},
        "joins": sewn}).replace("bed: standard", BED))


def sewn_up_to(half: str, whole: str, width: str) -> list[dict[str, str]]:
    return [{"height": half, "width": width, "name": "below"},
            {"height": whole, "width": width, "name": "above"}]


@pytest.mark.parametrize("sides, wanted", [
    ({"left": sewn_up_to("half", "most", "middle"), "right": sewn_up_to("low", "half", "middle")},
     ["Above row counter 84 the left edge lies", "Above row counter 42 the right edge lies"]),
    ({"sides": sewn_up_to("half", "most", "wide")},
     ["Above row counter 84 the left and the right edge lie"]),
], ids=("each its own", "alike"))
def test_each_side_rolls_above_its_own_seam(sides: dict[str, Any], wanted: list[str]) -> None:
    """At 42 rows to 10 cm a seam that ends 20 cm up ends at row 84, one 10 cm up at row 42."""
    size = (proof := tube(sides)).sizes[0]
    page = piece_body(proof.pattern, size, size.pieces[0])
    assert re.findall(r"\w+ row counter \d+ the [^.]*? edge lies?(?= in no seam)", page) == wanted

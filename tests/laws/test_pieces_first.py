"""Bands without a garment say what they are hung on; slits and loops have steps as they are worked.

Two knitters who had only the words stopped here: there was nothing to hang, one edge was named for
several bands, and rows were counted to buttonholes that a facing does not have.
"""

from __future__ import annotations

import re

import pytest
from walebook.catalogue.methods import BY_HAND, SEWN, STITCH_OVER
from walebook.core.units import read_dial
from walebook.machine.step_keys import StepYarn
from walebook.pages.overview_page import overview_page
from walebook.pages.shared_by_pages import shared
from walebook.pages.size_page import size_page
from walebook.pattern.edges import Offer
from walebook.proof.proof import Proof
from walebook.words.pieces_first import piece_text, pieces_listed
from walebook_site.whole_blocks import take_out

from tests.laws.pieces import knit
from tests.laws.test_edge_methods import straight
from tests.whole_collection import collection


def page_of(slug: str) -> str:
    proof = next(p for p in collection().proofs if p.pattern.slug == slug)
    return text_of(proof)


def text_of(proof: Proof) -> str:
    made = size_page(proof.pattern, proof.sizes[-1], shared(proof), None)
    return re.sub(r"<[^>]*>", " ", made)


def pieces_named(page: str) -> str:
    return page.partition("Pieces to knit first ")[2].partition("Order of work ")[0]


def test_every_band_without_a_garment_names_the_piece_that_it_is_hung_on() -> None:
    alone = [p for p in collection().proofs if p.pattern.garment is None]
    assert alone
    for proof in alone:
        page = text_of(proof)
        named = pieces_named(page)
        for plan in proof.sizes[-1].plans:
            assert plan.band.title in named, proof.pattern.slug
        assert "takes a separate edge" in named
        assert "to hang the bands on" in page.partition("Tools and materials ")[2]


def test_one_piece_is_called_it_and_several_them() -> None:
    for number, word in ((1, "it"), (2, "them")):
        assert pieces_listed(number, "#x").endswith(f">knit {word} first</a>")


def test_no_heading_of_the_overview_lies_in_what_markdown_does_not_read() -> None:
    for proof in (p for p in collection().proofs if p.pattern.garment is None):
        blocks = take_out(overview_page(proof, shared(proof)))
        hidden = [found for stretch in blocks.stretches
                  for found in re.findall(r"## [^{]*[{] #.*[}]", stretch)]
        assert not hidden, proof.pattern.slug
        assert "{ #pieces-first }" in blocks.markdown and "{ #drawing }" in blocks.markdown


def test_a_garment_names_no_other_piece() -> None:
    worn = next(p for p in collection().proofs if p.pattern.garment is not None)
    assert not pieces_named(text_of(worn))


def test_the_piece_has_the_rows_of_its_edge() -> None:
    """22 cm at 40 rows to 14.2 cm (the source): 220 ÷ 3.55 = 61.97, so 62 rows."""
    named = pieces_named(page_of("chandlery-closings"))
    assert named.count("Knit 62 rows") == 3
    assert named.count("Cast on 24 stitches") == 2  # half front and half back, as the source says


def test_the_bed_knits_the_pieces_by_their_own_figures() -> None:
    """Cast on by hand, knit, bind off or leave on waste yarn: every piece that a page names."""
    said = re.findall(r"Cast on (\d+) stitches .*?Knit (\d+) rows\. +(Keep|Cut)",
                      pieces_named(page_of("chandlery-closings")))
    assert len(said) == 5
    for wide, rows, then in said:
        off = STITCH_OVER if then == "Keep" else SEWN
        _, result = knit(straight(int(wide), int(rows), BY_HAND, off))
        assert result.refusal is None, str(result.refusal)
        assert dict(result.rows)[StepYarn.MAIN] == int(rows)
        assert sum(loops for _, loops in result.states[-1].waiting) == (
            0 if off is STITCH_OVER else int(wide))


@pytest.mark.parametrize("plain", [True, False])
def test_needles_are_named_where_every_one_of_them_works(plain: bool) -> None:
    text = piece_text(20, 62, Offer.ROWS, yarn="Quay", dial=read_dial("5"), label="", plain=plain)
    assert ("(L10 to R10)" in text) is plain
    assert ("as you knitted its swatch" in text) is not plain


def test_the_rows_of_slits_lead_to_their_middle_and_loops_have_none() -> None:
    """4 rows to the middle of a slit of 4: 2 before it, 2 of it, as the steps knit them."""
    page = page_of("chandlery-closings")
    assert re.search(r"Band with slits: Rows to the middle of the slits: 4 rows", page)
    assert re.search(r"to the slits\s*, until the row counter shows\s+2\s", page)
    assert "Facing with loops: Rows to the buttonholes" not in page


def test_a_slit_far_from_its_button_is_to_be_tried_first() -> None:
    """4 rows of 13.2 cm ÷ 40 are 13.2 mm for a button of 18 mm: more than a fifth less."""
    page = page_of("chandlery-closings")
    assert re.search(r"3 slits of 4 rows, 13\.2 mm long, for a button of 18 mm: shorter", page)
    assert "try the button first" in page


def test_a_button_lies_under_the_outer_end_of_a_slit() -> None:
    """As closings/vertical-slit.md says of slits that lie level on a front band."""
    buttons = page_of("chandlery-closings").partition("Band with slits, buttons")[2]
    assert "nearer to the band's outer edge" in buttons.partition("<h2")[0]

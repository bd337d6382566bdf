"""A page names buttons, cords, seams, neckbands and zips only where its size has them.

Common practice in editing patterns, no source. Random garments are held to it in test_any_wish.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache

import pytest
from walebook.forms.registry import FORMS
from walebook.pages import page_names, write_page
from walebook.pages.cautions import cautions
from walebook.pattern.model import Pattern, Wearer
from walebook.proof.proof import Proof, SizeProof
from walebook.source.fabric_reading import size_slug

from tests.against import wardrobe
from tests.laws.named import WORDS, has, named_without
from tests.whole_collection import collection, files_of


@cache
def proofs() -> tuple[Proof, ...]:
    return tuple(collection().proofs)


def size_pages(proof: Proof) -> list[str]:
    return [write_page(proof, name).text for name in page_names(proof)[1:] if name.endswith(".md")]


def test_no_page_of_the_collection_names_what_its_size_has_not() -> None:
    wrong = [f"{proof.pattern.title}, {size.size}: {said}" for proof in proofs()
             for size in proof.sizes for slug in [proof.pattern.slug]
             for page in [files_of(slug)[f"patterns/{slug}/{size_slug(size.size)}.md"]]
             for said in named_without(proof.pattern, size, page)]
    assert wrong == []


# What a garment is closed with, as its summary may call it, and what of `WORDS` that is.
CLOSED = {r"\bbuttoned\b|\bbuttons\b": "buttons", r"\bzip\b": "zip",
          r"\bto (?:wrap and )?tie\b|\bties\b|\bbelt\b(?! of your own)|(?<!ravel )\bcord\b": "cord"}


def test_a_summary_closes_a_garment_with_what_its_sizes_have() -> None:
    wrong = [f"{proof.pattern.title}: {found[0]}" for proof in proofs() if proof.pattern.garment
             for words, what in CLOSED.items()
             for found in re.finditer(words, proof.pattern.summary)
             if any(not _closes(what, proof.pattern, size) for size in proof.sizes)]
    assert wrong == []


def _closes(what: str, pattern: Pattern, size: SizeProof) -> bool:
    """A cord that is drawn out again closes nothing."""
    worn = (pattern.garment and pattern.garment.cord) or any(b.cord for b in pattern.bands.values())
    return bool(worn) if what == "cord" else what in has(pattern, size)


def test_the_collection_has_each_of_these_things_and_lacks_it() -> None:
    found = [has(proof.pattern, size) for proof in proofs() for size in proof.sizes]
    for name in WORDS:
        assert any(name in each for each in found) and any(name not in each for each in found)


def test_children_are_guarded_by_the_standards_on_what_their_garment_has() -> None:
    """Buttons: EN 17394-2, 16 CFR 1501. Cords: EN 14682, ASTM F1816-18, 16 CFR Part 1120."""
    seen = set()
    for proof in proofs():
        pattern = replace(proof.pattern, wearer=Wearer.CHILDREN)
        corded = bool(pattern.garment and pattern.garment.cord) or any(
            band.cord for band in pattern.bands.values())
        for size in proof.sizes:
            said = cautions(pattern.garment, pattern.bands, pattern.wearer, size)
            buttoned = "buttons" in has(pattern, size)
            seen.add((buttoned, corded))
            assert all((standard in said) == buttoned for standard in
                       ("EN 17394-2:2020", "CEN/TS 17394-1:2021", "16 CFR 1501"))
            assert all((standard in said) == corded for standard in
                       ("EN 14682", "ASTM F1816-18", "16 CFR Part 1120"))
            assert "does not claim to meet any standard" in said and "come first" in said
    assert len(seen) >= 3


def bare(form: str, wearer: Wearer) -> Pattern:
    """A garment without a band, a hem or a cord."""
    of = {"hat": "heads"}.get(form, "children" if wearer.is_child else "women")
    sizes = ("child",) if of == "heads" else ("4", "8") if of == "children" else ("M",)
    made = wardrobe.pattern(form, of=of, sizes=sizes, fold=None, band=None)
    return replace(made, wearer=wearer)


@pytest.mark.parametrize("wearer", [Wearer.CHILDREN, Wearer.WOMEN, Wearer.ANYONE],
                         ids=lambda w: w.value)
@pytest.mark.parametrize("form", [f for f in FORMS if f != "sideways pullover"])
def test_a_garment_without_bands_is_cautioned_of_none(form: str, wearer: Wearer) -> None:
    proof = wardrobe.proved(bare(form, wearer))
    for size, page in zip(proof.sizes, size_pages(proof), strict=True):
        assert named_without(proof.pattern, size, page) == []
        said = re.sub(r"\s+", " ", page)
        assert ("wb-children" in page) == (wearer is not Wearer.WOMEN)
        if wearer is not Wearer.WOMEN:  # the rules in force come first, whatever the garment has
            assert "come first" in said
        assert ("This garment is for a child" in said) == wearer.is_child
        sized = wearer is Wearer.ANYONE and form == "hat"  # the chart says whose heads they are
        assert ("If you knit this for a child:" in said) == (wearer is Wearer.ANYONE and not sized)
        assert ("This size is for a child." in said) == sized


@pytest.mark.parametrize(("size", "said"), [
    ("baby", "This size is for a baby."), ("toddler", "This size is for a child."),
    ("tween", "This size is for a child."), ("woman", "If you knit this for a child:")])
def test_a_childs_size_is_called_so_in_a_pattern_for_anyone(size: str, said: str) -> None:
    """Whose heads they are, by the headings of the Craft Yarn Council's chart."""
    made = replace(wardrobe.pattern("hat", of="heads", sizes=(size,), fold=None, band=None),
                   wearer=Wearer.ANYONE)
    (page,) = size_pages(wardrobe.proved(made))
    told = ("This size is for", "If you knit this for", "This garment is for")
    assert said in page
    assert sum(page.count(one) for one in told) == 1


def test_a_sentence_put_in_is_seen() -> None:
    proof = wardrobe.proved(bare("hat", Wearer.WOMEN))
    (size,), (page,) = proof.sizes, size_pages(proof)
    for said in ("Sew on the buttons.", "Pin the zip.", "Work the neckband.", "Cut the cord."):
        assert len(named_without(proof.pattern, size, f"{page}<p>{said}</p>")) == 1

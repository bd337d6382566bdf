"""The making up names a band as its heading on the page does, and no other.

Common practice in editing patterns, no source. A knitter stopped at "Work the neck facing" on a
page whose chapter is "Neckband".
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from walebook.forms.registry import FORMS
from walebook.proof.proof import SizeProof, prove

from tests.site.garments import garment, made_up
from tests.whole_collection import collection

# "Work the waistband on the lower edge while …", "Work the stand collar, then the front bands, …".
WORKED = re.compile(r"\bwork the ([^,.]+?)(?= and the | (?:on|flat|over|while|now)\b|[,.]|$)", re.I)
BOTH = re.compile(r"\bwork the [^,.]+? and the ([^,.]+?)(?= now\b)", re.I)
THEN = re.compile(r"\bthen the ([^,.]+?)(?= over\b|[,.]|$)")


def named(size: SizeProof) -> list[str]:
    """The bands that the making up says to work, each as it is called there."""
    assert size.assembled is not None
    told = [s for s in made_up(size.assembled.garment) if re.search(r"\bwork the\b", s, re.I)]
    found = [name for s in told for name in WORKED.findall(s)]
    found += [name for s in told for name in BOTH.findall(s)]
    return found + [name for s in told if " then the " in s for name in THEN.findall(s)]


def unheaded(size: SizeProof) -> list[str]:
    """Names of bands that no title of a band has, in one or in several of them."""
    heads = {plan.band.title.lower() for plan in size.plans}
    return [name for name in named(size)
            if name.lower() not in heads | {f"{head}s" for head in heads}]


def test_every_band_of_the_making_up_is_a_heading_of_the_page() -> None:
    assembled = [(proof, size) for proof in collection().proofs for size in proof.sizes
                 if size.assembled]
    assert sum(len(named(size)) for _, size in assembled) > 60
    wrong = {
        f"{proof.pattern.slug}: {name}" for proof, size in assembled for name in unheaded(size)
    }
    assert not wrong, "\n".join(sorted(wrong))


@pytest.mark.parametrize("form", [form for form in FORMS
                                  if form.endswith(("pullover", "cardigan"))])
def test_titles_of_the_designers_own_are_the_names(form: str) -> None:
    """Two words in turn, so that a name made of the edge is seen."""
    pattern = garment(form)
    own = ("Zqa one", "Zqb two", "Zqc three", "Zqd four", "Zqe five")
    bands = {key: replace(band, title=title) for (key, band), title in zip(
        pattern.bands.items(), own, strict=False)}
    proof, found = prove(replace(pattern, bands=bands))
    assert proof is not None, [str(p) for p in found]
    for size in proof.sizes:
        assert unheaded(size) == []
        worked = " ".join(named(size)).lower()
        assert all(plan.band.title.lower() in worked for plan in size.plans)


def test_the_ends_of_an_armhole_band_are_sewn_edge_to_edge_in_the_side_seam() -> None:
    """Its finished length counts every stitch: a seam a stitch in would take two (arithmetic). The
    ends of a band that is knitted lengthwise are no sides of rows, but cast on and bound off."""
    told = [(said, any(plan.is_lengthwise for plan in size.plans
                       if plan.band.garment_edge == "armhole"))
            for proof in collection().proofs for size in proof.sizes if size.assembled
            for said in made_up(size.assembled.garment) if "in one with each" in said]
    assert {lengthwise for _, lengthwise in told} == {True, False}
    assert all("in one with each, the ends of its armhole band, "
               f"{'stitch to stitch' if lengthwise else 'edge to edge'}" in said
               for said, lengthwise in told)

"""A technique or band page is read in every size page that names it: it says nothing that one of
these contradicts, and leads to nothing that is on the site alone (common practice in editing, no
source)."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

SITE = Path(__file__).parents[2] / "site_src"

UNTRUE = [
    ("bands/two-bed-rib.md", r"one or two numbers looser than the rib",
     "a rib up to four numbers tighter than the garment is published"),
    ("bands/two-bed-rib.md", r"\d\. Rack to the place",
     "a rib at full pitch that was not racked has nothing to rack back"),
    ("bands/latched-rib.md", r"one or two numbers tighter than the garment\.",
     "the step names the dial, three numbers tighter in a bulky yarn"),
    ("techniques/mattress-seam-by-rows.md", r"half a stitch\s+only",
     "every count of a seam takes a whole stitch of each piece"),
    ("techniques/loose-row-and-chain-off.md", r"the garment's edge and its first row hang",
     "a rolled band has one layer, and a folded one hangs by its first row's bumps"),
    ("techniques/loose-row-and-chain-off.md", r"two short ends of the band shut\*\* with",
     "the ends of a neckband that meet at a shoulder stay open, by its step"),
    ("techniques/setting-in-a-sleeve.md", r"with their markers\.",
     "no step of a cap that is alike at both edges ties a marker in"),
    ("techniques/fold-loose.md", r"quickest of the three",
     "the other two are not told of there"),
    ("techniques/closing-up-a-crown.md", r"as in the \[first turn",
     "a hat's file has no turned fold row"),
    ("techniques/gathering-a-crown.md", r"measure `crown`", "a word of the source"),
]


@pytest.mark.parametrize(("page", "said", "why"), UNTRUE)
def test_a_technique_fits_every_size_page_that_shows_it(page: str, said: str, why: str) -> None:
    assert not re.search(said, (SITE / page).read_text("utf-8")), why


def test_a_crown_that_was_closed_up_begins_its_gathering_at_the_end_of_the_yarn() -> None:
    """Its rows had one dial: the first steps of the gathering are not for it."""
    told = (SITE / "techniques/gathering-a-crown.md").read_text("utf-8")
    assert re.search(r"have done already, leave out: where\s+they narrowed the crown by decreases, "
                     r"go on where the yarn is cut", told)

"""The sketch on a size's cover is printed at the scale that the cover names.

The oracle is the drawing's own frame, of which `data-mm` units are a millimetre of the garment, and
the sheet: A4 less its margins (ISO 216, and print.css) has room for 165 by 150 mm.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from walebook.pages import write_pages

from tests.laws.test_page_facts import collection

COVER = re.compile(r'<svg class="wb-garment[^>]*style="[^"]*--wb-wide:([\d.]+)mm" '
                   r'viewBox="\S+ \S+ (\d+) (\d+)"[^>]*data-mm="(\d+)"[^>]*>.*?</svg>\n'
                   r'<p class="wb-on-paper">The sketch is (?:1 to (\d+)|life size) when printed',
                   re.S)


@pytest.mark.parametrize("slug", ["slack-tide-cardigan", "mooring-hat", "practice-band"])
def test_the_sketch_is_as_wide_on_paper_as_its_scale_says(slug: str) -> None:
    proof = next(each for each in collection() if each.pattern.slug == slug)
    pages = [page.text for page in write_pages(proof) if "wb-steps" in page.text]
    assert pages
    for text in pages:
        found = COVER.search(text)
        assert found is not None
        wide, tall = (Fraction(int(found[n]), int(found[4])) for n in (2, 3))
        scale = int(found[5] or 1)
        assert abs(wide / scale - Fraction(found[1])) <= Fraction(1, 20)
        assert wide / scale <= 165 and tall / scale <= 150
        # No whole scale half as small would do: the sketch is as large as the sheet allows.
        assert scale == 1 or wide / scale > 165 / 2 or tall / scale > 150 / 2

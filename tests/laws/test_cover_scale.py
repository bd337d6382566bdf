"""The garment on a size's cover, front and back, is printed at the scale that the cover names.

The oracle is the drawing's own frame, of which `data-mm` units are a millimetre of the garment, and
the sheet: A4 less its margins (ISO 216, and print.css) has room for 165 by 150 mm.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from tests.whole_collection import files_of

SKETCH = re.compile(r'<svg class="wb-garment[^"]*?( wb-on-paper)?"[^>]*style="[^"]*'
                    r'--wb-wide:([\d.]+)mm" viewBox="\S+ \S+ (\d+) (\d+)"[^>]*data-mm="(\d+)"')
SCALE = re.compile(r'<p class="wb-on-paper">(The sketch is|The sketches are) '
                   r'(?:at a scale of 1 to (\d+)|life size) when printed')
WIDE, TALL = 165, 150  # what the sheet has room for [mm]
# How many views: a garment with sleeves or armholes has a back, what lies flat has one side.
VIEWS = {"slack-tide-cardigan": 2, "bowline-waistcoat": 2, "mooring-hat": 1, "practice-band": 1}


@pytest.mark.parametrize("slug", VIEWS)
def test_the_sketches_are_as_wide_on_paper_as_their_scale_says(slug: str) -> None:
    pages = [text for text in files_of(slug).values() if "wb-steps" in text]
    assert pages
    for text in pages:
        head = text[:text.index("</dl>")]
        said, drawn = SCALE.search(head), SKETCH.findall(head)
        assert said is not None and len(drawn) == VIEWS[slug]
        assert (said[1] == "The sketches are") == (len(drawn) == 2)
        # A screen shows the first alone.
        assert [bool(on_paper) for on_paper, *_ in drawn] == [False, True][:len(drawn)]
        scale = int(said[2] or 1)
        sizes = [(Fraction(int(wide), int(mm)), Fraction(int(tall), int(mm)))
                 for _, _, wide, tall, mm in drawn]
        for (wide, _), (_, written, *_) in zip(sizes, drawn, strict=True):
            assert abs(wide / scale - Fraction(written)) <= Fraction(1, 20)
        assert have_room(sizes, scale)
        # No whole scale half as small would do: the sketch is as large as the sheet allows.
        assert scale == 1 or not have_room(sizes, Fraction(scale, 2))


def have_room(sizes: list[tuple[Fraction, Fraction]], scale: Fraction | int) -> bool:
    """True where sketches [mm] fit side by side, or one below the other."""
    wide, tall = [w / scale for w, _ in sizes], [t / scale for _, t in sizes]
    return (sum(wide) <= WIDE and max(tall) <= TALL) or (max(wide) <= WIDE and sum(tall) <= TALL)

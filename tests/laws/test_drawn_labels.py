"""Labels of drawings have one size on every page: 11 to 16 pixels, on a phone and on a wide screen.

The two figures are the project's own (common practice, no source). A drawing that is wider than the
page of a phone, 328 pixels between its margins, is shown smaller there; none is shown larger than
its `width` says.
"""

from __future__ import annotations

import re

from walebook.pages.shared_by_pages import shared
from walebook.pages.size_page import size_page

from tests.whole_collection import collection

SMALLEST, LARGEST, PHONE = 11, 16, 328
DRAWN = re.compile(r'<svg[^>]*viewBox="\S+ \S+ ([\d.]+) [\d.]+"[^>]*?( width="([\d.]+)")?[^>]*>'
                   r"(.*?)</svg>", re.DOTALL)


def labels(page: str) -> dict[float, str]:
    """The sizes in which labels of drawings are shown [px], each with a drawing that has it."""
    found: dict[float, str] = {}
    for view, _, width, drawn in DRAWN.findall(page):
        for font in map(float, re.findall(r'font-size="([\d.]+)"', drawn)):
            wide = float(width or PHONE)
            for shown in (wide, min(wide, PHONE)):
                found.setdefault(font * shown / float(view), drawn[:80])
    return found


def test_labels_are_between_eleven_and_sixteen_pixels_at_every_width() -> None:
    seen = 0
    for proof in collection().proofs:
        page = size_page(proof.pattern, proof.sizes[-1], shared(proof))
        sizes = labels(page)
        seen += len(sizes)
        odd = {size: drawn for size, drawn in sizes.items() if not SMALLEST <= size <= LARGEST}
        assert not odd, (proof.pattern.slug, odd)
    assert seen > 40
    # What is stretched, as a band once was to 612 pixels, is seen.
    stretched = '<svg viewBox="0 0 340 140" width="612"><g font-size="15"><text>5</text></g></svg>'
    assert max(labels(stretched)) > LARGEST

"""Labels of drawings have one size on every page: 11 to 16 pixels, on a phone and on a wide screen.

The two figures are the project's own (common practice, no source). A drawing that is wider than the
page of a phone, 328 pixels between its margins, is shown smaller there; none is shown larger than
its `width` says.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from walebook.core.units import Length
from walebook.drawings.dimensions import DimensionLine
from walebook.drawings.piece_drawing import draw
from walebook.drawings.piece_frame import PieceFrame, frame_of, inside, label_middle
from walebook.forms.registry import FORMS
from walebook.pages.shared_by_pages import shared
from walebook.pages.size_page import size_page
from walebook.shape.outline import outline

from tests.laws import pieces
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


def test_the_depth_of_a_neck_is_written_about_the_middle_of_its_line() -> None:
    """A label's anchor is start, middle or end (SVG 2, text-anchor); below a line it is the middle,
    so that as much of it lies to either side."""
    cut = pieces.cut("drop-shoulder pullover", pieces.chart("women").measurements("M"),
                     pieces.gauge(26, 38))
    (front,) = [piece for piece in FORMS["drop-shoulder pullover"].shape(cut).pieces
                if piece.key == "front"]
    drawn = outline(front, cut.gauge)
    neck = inside(drawn)
    assert neck is not None
    frame = frame_of(drawn, Fraction(4), {})
    labels = draw(frame, {}).labels
    assert {label.anchor for label in labels} <= {"start", "middle", "end"}
    of_neck = [label for label in labels if label.text in (neck.length.in_cm(),
                                                           neck.length.in_inches())
               and label.x == frame.x(neck.start[0])]
    assert [label.anchor for label in of_neck] == ["middle", "middle"]


@pytest.mark.parametrize(("ends", "middle"), [((30, 90), 60), ((30, 50), 60), ((400, 420), 410),
                                              ((880, 890), 900 - 75),
                                              ((302, 306), 300 + 75)])
def test_a_label_stays_over_its_piece_where_it_fits(ends: tuple[int, int], middle: int) -> None:
    """Above the middle of its line; a letter is 15 pixels wide, which are 150 tenths, so that its
    middle lies 75 from the edge at least. Over a piece that is narrower, at the piece's middle."""
    left, right = (30, 90) if ends[1] <= 90 else (300, 900)
    frame = PieceFrame(outline=None, scale=Fraction(1), left=left, right=right, zero=0, above=0,
                       foot=0, width=1000, height=1000)
    line = DimensionLine(True, *ends, 0, (0, 0), Length(Fraction(400)), "A")
    assert label_middle(frame, line) == middle

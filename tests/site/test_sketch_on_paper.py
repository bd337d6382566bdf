"""A sketch in a PDF has its yarn's colour and its lines: the library there reads no style sheet.

What is painted is read back from the PDF with pypdf: PDF 32000-1, 8.6.8, `rg` and `scn` set the
colour of what is filled, `w` (8.4.4) the width of a line.
"""

from __future__ import annotations

import re
from collections import Counter
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from walebook.drawings.garment_sketch import View, garment
from walebook.drawings.schematic import outlines
from walebook_site.printed_sketch import DASHES, FILLS, LINES, inked
from walebook_site.slimming import slim_html

from tests.whole_collection import collection

PAINT = re.compile(r'\s(?:fill|stroke[a-z-]*)="[^"]*"')
ASSETS = Path(__file__).parents[2] / "site_src" / "assets"
# Classes of whole drawings, and of what says how lines on a yarn are drawn.
OTHER = {"wb-garment", "wb-fabric", "wb-patch", "wb-patches", "wb-clear", "wb-pale", "wb-deep"}


def sketch(slug: str) -> str:
    proof = next(p for p in collection().proofs if p.pattern.slug == slug)
    size = proof.sizes[0]
    return garment(proof.pattern, size,
                   outlines(proof.pattern.garment, proof.pattern.fabrics, size),
                   views=(View.FRONT,))


def filled(html: str) -> set[tuple[int, int, int]]:
    """The colours that a PDF of some HTML fills with."""
    weasyprint = pytest.importorskip("weasyprint")
    reader = PdfReader(BytesIO(weasyprint.HTML(string=html).write_pdf()))
    streams = [page.get_contents().get_data().decode("latin-1") for page in reader.pages]
    found = re.findall(r"([\d.]+) ([\d.]+) ([\d.]+) (?:rg|scn)\b", "\n".join(streams))
    return {(round(255 * float(r)), round(255 * float(g)), round(255 * float(b)))
            for r, g, b in found}


@pytest.mark.parametrize(("slug", "yarn"), [
    ("slack-tide-cardigan", (0xA9, 0xBD, 0xBA)), ("watchkeeper-pullover", (0x2F, 0x42, 0x57))])
def test_a_sketch_is_printed_in_the_colour_of_its_yarn(slug: str, yarn: tuple[int, int, int]
                                                       ) -> None:
    text = sketch(slug)
    assert yarn not in filled(text)  # the library reads no style sheet within a drawing
    assert yarn in filled(inked(text))


def test_a_sketch_of_a_built_page_is_printed_as_one_by_itself() -> None:
    text = sketch("slack-tide-cardigan")
    built = slim_html(text)
    assert len(built) < len(text) and '<path class="wb-fill' in built
    assert Counter(PAINT.findall(inked(built))) == Counter(PAINT.findall(inked(text)))


def test_lines_on_dark_yarn_are_white_and_on_light_yarn_black() -> None:
    assert 'stroke="#fff"' in inked(sketch("watchkeeper-pullover"))
    assert 'stroke="#000"' not in inked(sketch("watchkeeper-pullover"))
    assert 'stroke="#000"' in inked(sketch("slack-tide-cardigan"))
    # One garment in two yarns: a dark body, light bands.
    both = inked(sketch("quayside-waistcoat"))
    assert 'stroke="#000"' in both and 'stroke="#fff"' in both


def test_every_class_of_a_drawing_is_printed() -> None:
    styles = "".join((ASSETS / name).read_text(encoding="utf-8")
                     for name in ("garment.css", "fabric.css"))
    named = set(re.findall(r"\.(wb-[a-z-]+)", styles)) - OTHER
    assert named == FILLS.keys() | LINES.keys() | DASHES.keys()


def test_nothing_else_of_a_page_is_touched() -> None:
    page = '<p class="wb-fill">1</p><svg class="wb-small"><path class="wb-fill" d="M0 0"/></svg>'
    assert inked(page) == page

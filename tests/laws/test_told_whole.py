"""What a size page tells is whole and has one name for a thing: dials, idle needles, titles."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

from walebook.drawings.schematic import garment_schematic, outlines
from walebook.machine.rib_steps import KnitBeds, Zigzag
from walebook.machine.steps import Knit, SetDial
from walebook.machine.two_yarn_steps import KnitTwo
from walebook.pages.pieces import times_of
from walebook.pages.program import numbered, steps_html
from walebook.pages.shared_by_pages import shared
from walebook.pages.size_page import size_page
from walebook.sizing.printed_figures import read_span
from walebook.words.instruction import works
from walebook.words.needle_marks import levels
from walebook.words.piece_text import piece_title
from walebook.words.shaped_edges import ShapingBlock

from tests.laws.pieces import chart
from tests.laws.test_needle_words import moments
from tests.small_sources import head, proved
from tests.whole_collection import collection

ROWS = (Knit, KnitTwo, KnitBeds, Zigzag)


def plain(page: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page))


def test_the_dial_is_set_only_for_a_row() -> None:
    wrong = set()
    for proof in collection().proofs:
        for size in proof.sizes:
            for work in works(size):
                those = [s for s in work.program.steps if isinstance(s, (SetDial, *ROWS))]
                wrong |= {f"{proof.pattern.slug}: {a.reason.name}, then {b.reason.name}"
                          for a, b in pairwise(those)
                          if isinstance(a, SetDial) and isinstance(b, SetDial)}
    assert not wrong, "\n".join(sorted(wrong))


def test_needles_that_leave_work_are_told_to() -> None:
    wrong = set()
    for where, m, told in moments():
        if m.before and m.before.working - m.after.working - m.after.holding:
            said = plain(" ".join((told.text, *told.places, told.after)))
            if not re.search(r"non-working position|out of work", said):
                wrong.add(f"{where}: {said}")
    assert not wrong, "\n".join(sorted(wrong)[:20])


def test_a_piece_has_one_name_in_its_heading_and_its_drawing() -> None:
    wrong = set()
    for proof in collection().proofs:
        for size in proof.sizes:
            drawn = plain(garment_schematic(size, outlines(proof.pattern.garment,
                                                           proof.pattern.fabrics, size)))
            titles = [piece_title(piece.piece, times_of(size, piece)) for piece in size.pieces]
            wrong |= {f"{proof.pattern.slug}/{size.size}: {title}" for title in titles
                      if f" {title}" not in drawn  # or with the piece that it is as, or mirrors
                      and f" and {title[0].lower()}{title[1:]}" not in drawn
                      and f"({title[0].lower()}{title[1:]} mirrored)" not in drawn}
    assert not wrong, "\n".join(sorted(wrong))


def test_a_checkpoint_says_how_many_needles_hold_several_loops_wherever_some_do() -> None:
    """One convention for plain pieces, stitch patterns and bands alike."""
    wrong, said = set(), 0
    for proof in collection().proofs:
        for work in works(proof.sizes[0]):
            html = steps_html(work, proof.pattern, "p")
            texts = re.findall(r'<li id="p-\d+">(.*?)</li>\n', html, flags=re.S)
            told = [m for _, group in numbered(work, proof.pattern) for m in group]
            for text, m in zip(texts, told, strict=True):
                state = m.events[-1].after if isinstance(m, ShapingBlock) else m.after
                check = re.search(r'<p class="wb-check">(.*?)</p>', text)
                if not check or state.second or not state.loaded:
                    continue
                said += 1
                if (len(levels(state)) > 1) != ("loops" in check[1]):
                    wrong.add(f"{proof.pattern.slug}: {plain(text)[-160:]}")
    assert said > 1000
    assert not wrong, f"{len(wrong)}\n" + "\n".join(sorted(wrong)[:9])


def test_centimetres_and_inches_of_a_body_agree_or_are_told_apart() -> None:
    """A cell's print is given as one measure only where both units are one [5 mm]."""
    wrong = []
    for key in ("women", "men", "children", "babies", "heads"):
        made = chart(key)
        for name, row in made.rows.items():
            for size, cell in row.cells.items():
                ends = zip(read_span(cell.cm), read_span(cell.inches), strict=True) \
                    if cell.cm and cell.inches else ()
                apart = any(abs(cm * 10 - inch * Fraction(254, 10)) > 5 for cm, inch in ends)
                if apart != ("the chart prints" in cell.printed):
                    wrong.append(f"{key} {size} {name}: {cell.printed}")
    assert not wrong, "\n".join(wrong)


RIM = head(200) + """\
fabrics:
  body: {yarn: wool, dial: 6, swatch: {stitches: 40, width: 20 cm, rows: 60, height: 20 cm}}
sizes: [M]
edges:
  rim:
    kind: one edge
    fabric: body
    sections:
      - {title: side, rows: 40}
      - {title: back, stitches: 20, stitches_are: bound off}
      - {title: side, rows: 24}
bands:
  rim: {edge: rim, kind: single, pick_up: 3/4, depth: 3 cm}
"""


def test_two_sections_of_one_title_have_each_its_working() -> None:
    """Three stitches for every four rows: 40 rows give 30, 24 rows 18."""
    proof = proved(RIM)
    page = size_page(proof.pattern, proof.sizes[0], shared(proof))
    assert re.findall(r"\b(\d+) × 3/4 = (\d+) stitches", page) == [("40", "30"), ("24", "18")]

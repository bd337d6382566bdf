"""What a size page tells is whole and has one name for a thing: dials, idle needles, titles."""

from __future__ import annotations

import re
from itertools import pairwise

from walebook.drawings.schematic import garment_schematic, outlines
from walebook.machine.rib_steps import KnitBeds, Zigzag
from walebook.machine.steps import Knit, SetDial
from walebook.machine.two_yarn_steps import KnitTwo
from walebook.pages.pieces import piece_title
from walebook.words.told import works

from tests.laws.test_collection import collection
from tests.laws.test_needle_words import moments

ROWS = (Knit, KnitTwo, KnitBeds, Zigzag)


def plain(page: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page))


def test_the_dial_is_set_only_for_a_row() -> None:
    wrong = set()
    for proof in collection().proofs:
        for size in proof.sizes:
            for work in works(size):
                those = [s for s in work.program.steps if isinstance(s, (SetDial, *ROWS))]
                wrong |= {f"{proof.pattern.slug}: {a.purpose!r}, then {b.purpose!r}"
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
            drawn = plain(garment_schematic(size, outlines(proof.pattern, size)))
            wrong |= {f"{proof.pattern.slug}/{size.size}: {title}" for piece in size.pieces
                      if f" {(title := piece_title(size, piece))}" not in drawn}
    assert not wrong, "\n".join(sorted(wrong))

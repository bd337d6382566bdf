"""Pockets and plackets in counts: kept as they are written, or refused in words.

A count is compared with what the same length comes to, worked out beside the check from the swatch:
30 stitches and 42 rows to 10 cm.
"""

from __future__ import annotations

import re

import pytest
from test_garment_sources import messages
from test_pocket_sources import SOUND, START, TOP, proved, size
from walebook.pages.from_texts import make
from walebook.proof.texts import Texts

from tests.laws.texts import read_folder, texts_of
from tests.whole_collection import ROOT

COUNTED = START + ("  pockets: {width: 36 stitches, height: 70 rows, depth: 50 rows, "
                   "from_side: 15 stitches}\n") + TOP
PULLOVER = re.sub(r"^    sizes: .*\n", "", texts_of(ROOT, "mudlark-pullover").source,
                  flags=re.MULTILINE)  # of corrections: it is proved in one size


def test_a_pocket_in_counts_has_these() -> None:
    """Lengths that come to the same: 12 cm are 36 stitches, 5 cm are 15; 20 cm less the hem are 70
    rows (test_pocket_sources)."""
    for knitted in size(COUNTED).pieces:
        if knitted.piece.key == "right_front":
            (slot,) = knitted.piece.pockets
            assert (slot.stitches, slot.row) == (36, 70)
            assert knitted.piece.stitches.value - slot.start - 36 == 15 + 1
        if knitted.piece.key == "pocket_lining":
            assert (knitted.piece.stitches.value, knitted.piece.rows) == (36 + 1, 50)


def test_a_pocket_in_counts_is_the_pocket_of_the_lengths_that_come_to_them() -> None:
    lengths = size(SOUND.replace("height: 20 cm", "height: 20 cm, from_side: 5 cm"))
    counts = size(COUNTED.replace(" depth: 50 rows,", ""))
    assert [(p.piece.key, p.program.sections) for p in lengths.pieces] == [
        (p.piece.key, p.program.sections) for p in counts.pieces]


@pytest.mark.parametrize(("old", "new", "expected"), [
    ("height: 70 rows", "height: 3 rows", "error, pocket-too-low: sizes S, M and L: found a pocket "
     "3 rows above the hem; expected at least 4 rows below the opening. Give it more height."),
    ("depth: 50 rows", "depth: 71 rows", "error, pocket-too-deep: size S: found a lining of 71 "
     "rows below an opening at row 70; expected at most 70 rows, down to the hem. Write depth: "
     "16.7 cm or less, or more height.")])
def test_what_does_not_fit_is_refused(old: str, new: str, expected: str) -> None:
    proof, found = proved(COUNTED.replace(old, new))
    assert proof is None
    code, _, rest = expected.partition(": size")
    assert any(code in each and rest.partition(": ")[2] in each for each in found), found


@pytest.mark.parametrize(("old", "new", "expected"), [
    ("width: 36 stitches", "width: 36 rows", 'bad-length: found "36 rows"'),
    ("height: 70 rows", "height: 70 stitches", 'bad-length: found "70 stitches"'),
    ("width: 36 stitches", "width: 999 stitches", 'out-of-range: found "999"; expected a whole '
     "number from 2 to 300."),
    ("depth: 50 rows", "depth: a few rows", 'bad-number: found "a few"; expected a whole number')])
def test_what_cannot_be_read_is_told(old: str, new: str, expected: str) -> None:
    found = messages(COUNTED.replace(old, new))
    assert any(expected in each for each in found), found


def counted(placket: str) -> tuple[dict[str, int], list[str]]:
    source = PULLOVER.replace("placket: 26 rows", f"placket: {placket}").replace(
        'sizes: ["4", "6", "8", "10"]', 'sizes: ["6"]')
    made = make(Texts(slug="trial", source=source), **read_folder(ROOT))
    rows = made.counts["6"]["front"] if made.counts else {}
    return ({name: each["value"] for name, each in rows.items() if name == "placket_rows"},
            [str(each) for each in made.findings if each.severity.value == "error"])


@pytest.mark.parametrize("rows", [20, 26, 40])
def test_a_placket_in_rows_has_these(rows: int) -> None:
    counts, errors = counted(f"{rows} rows")
    assert counts.get("placket_rows") == rows, errors


def test_a_placket_of_an_odd_number_of_rows_is_refused_where_it_stands() -> None:
    _, errors = counted("25 rows")
    line = PULLOVER.splitlines().index("  placket: 26 rows") + 1
    assert any(f"yaml:{line}:" in each and "found a placket of 25 rows, an odd number: it begins "
               "where the carriage comes back" in each and "Write 24 or 26 rows." in each
               for each in errors), errors

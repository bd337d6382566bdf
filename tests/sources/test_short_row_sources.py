"""Short rows of own pieces that cannot be knitted as asked: what is wrong, and what helps.

A stitch is 5 mm wide and a row 4 mm high. The figures of the messages are reckoned from these by
hand: 40 stitches of 20 cm, 100 rows of 40 cm.
"""

from __future__ import annotations

from typing import Any

import pytest
from walebook.proof.proof import prove

from tests.laws.test_outlines import made, source
from tests.sources.reading import read

MEASURES = {"wide": "20 cm", "high": "40 cm", "up": "20 cm", "mid": "8 cm", "narrow": "12 cm",
            "rise": "4 cm", "low": "2 mm", "top": "39.8 cm", "just": "204 mm", "full": "20 cm",
            "lots": "24 cm", "half": "10 cm"}
SWATCH = {"stitches": "40", "width": "20 cm", "rows": "50", "height": "20 cm"}
STRIP: dict[str, Any] = {"width": "wide", "height": "high"}
TAPER = [{"height": "high", "width": "narrow"}]
CASES: list[tuple[list[dict[str, str]], dict[str, Any], str]] = [
    ([{"height": "low", "middle": "mid"}], {},
     "found strip, short rows 1 above 1 row, where it takes 2; expected figures that make an "
     "own outline. Make their height more."),
    ([{"height": "top", "middle": "mid"}], {},
     "found strip, short rows 1 from row 100 to row 102, where the top is at row 100; expected "
     "figures that make an own outline. Make their height less, or the piece higher."),
    ([{"height": "up", "middle": "full"}], {},
     "found strip, short rows 1 with 40 stitches between them, where it takes 2 to 38 of the 40 "
     "there; expected figures that make an own outline. Change full."),
    ([{"height": "up", "middle": "mid", "rows": "shorter", "extra": "lots"}], {},
     "found strip, short rows 1 of 60 rows more in the middle, in 30 steps of the 12 stitches held "
     "at each edge; expected figures that make an own outline. Make lots less, or "
     "mid less."),
    ([{"height": "up", "middle": "mid", "rows": "longer", "extra": "low"}], {},
     "found strip, short rows 1 of 0 rows more in the middle; expected figures that make an own "
     "outline. Make low more."),
    ([{"height": "up", "middle": "mid"}, {"height": "up", "middle": "mid"}], {},
     "found strip, short rows 2 at row 50, where others end at row 52; expected figures "
     "that make an own outline. Write them from the lowest up, or change their heights."),
    ([{"height": "up", "middle": "mid"}], {"sides": TAPER},
     "found strip, short rows 1 at row 50, where both edges are shaped up to row 100; "
     "expected figures that make an own outline. Give the edges a corner of the same height."),
    ([{"height": "up", "middle": "mid"}],
     {"sides": [{"height": "up", "width": "wide"}, {"height": "just", "width": "wide"}]}, ""),
    ([{"height": "up", "middle": "mid", "times": "2"}],
     {"sides": [{"height": "just", "width": "wide"}]},
     "found strip, short rows 1 from row 50 to row 54, where an edge is shaped or has a corner at "
     "row 52; expected figures that make an own outline. Move the corner, or their "
     "height, by some rows."),
    ([{"height": "up", "middle": "mid", "over": "full"}], {},
     "found strip, short rows 1 over 40 stitches, where it takes 4 to 39 of the 40 there; expected "
     "figures that make an own outline. Change full, or delete over."),
    ([{"height": "up", "middle": "low", "over": "half", "beside": "left"}],
     {"sides": [{"height": "up", "width": "wide"}]},
     "found strip, short rows 1 beside the left edge from row 50, where the carriage is at the "
     "right; expected figures that make an own outline. Write beside: right, or a height that is "
     "no corner's."),
    ([{"height": "up", "middle": "mid", "over": "half"}], {}, ""),
    ([{"height": "up", "middle": "mid", "over": "half", "beside": "left"}], {}, ""),
]


def said(short: list[dict[str, str]], **more: Any) -> list[str]:
    """What is found wrong with a strip that has these short rows."""
    piece = {**STRIP, **more.pop("piece", {}), "short_rows": short}
    _, _, errors = made({"measures": MEASURES, "pieces": {"strip": piece}}, swatch=SWATCH, **more)
    return [str(each) for each in errors]


@pytest.mark.parametrize(("short", "piece", "wanted"), CASES)
def test_short_rows_that_cannot_be_are_named(short: list[dict[str, str]], piece: dict[str, Any],
                                             wanted: str) -> None:
    found = said(short, piece=piece)
    assert [each.split(": size one: ")[1] for each in found] == ([wanted] if wanted else [])


def test_extra_needs_rows_that_get_shorter_or_longer_and_these_need_extra() -> None:
    (one,) = said([{"height": "up", "middle": "mid", "extra": "rise"}])
    assert "two-answers" in one and "Delete extra, or write rows: shorter." in one
    (other,) = said([{"height": "up", "middle": "mid", "rows": "longer"}])
    assert 'missing-key: found no "extra" in short rows' in other


def test_a_measure_that_is_nowhere_is_named() -> None:
    (one,) = said([{"height": "up", "middle": "midle"}])
    assert 'unknown-measure: found no measure called "midle"; expected "mid". Write mid.' in one


def test_the_other_forms_have_none() -> None:
    piece = {**STRIP, "short_rows": [{"height": "up", "middle": "mid"}]}
    _, _, errors = made({"measures": {"hat_around": "50 cm"}, "pieces": {"strip": piece}},
                        form="hat", chart="women", swatch=SWATCH)
    assert any("pieces in a hat" in str(each) for each in errors)


def test_stripes_and_short_rows_do_not_go_together() -> None:
    piece = {**STRIP, "short_rows": [{"height": "up", "middle": "mid"}]}
    striped = {"sequence": [{"yarn": "main", "rows": "4"}, {"yarn": "sea", "rows": "2"}]}
    text = source({"measures": MEASURES, "pieces": {"strip": piece}}, swatch=SWATCH,
                  stripes=striped).replace("sizes:", "  sea: {name: Harbour Quay}\nsizes:", 1)
    pattern, found = read(text)
    assert pattern is not None, found
    _, errors = prove(pattern)
    assert any("stripes in a strip with short rows" in str(each) for each in errors), errors


def test_counts_of_short_rows_can_be_given_and_what_they_cannot_be_is_named() -> None:
    short = [{"height": "up", "middle": "mid", "rows": "shorter", "extra": "rise"}]
    for name, number in (("strip middle of short rows 1", 20), ("strip rows to short rows 1", 51),
                         ("strip rows added by short rows 1", 6)):
        piece = {**STRIP, "short_rows": short}
        _, assembled, errors = made({"measures": MEASURES, "pieces": {"strip": piece}},
                                    swatch=SWATCH, counts={name: str(number)})
        assert assembled is not None, [str(each) for each in errors]
        counts = {f"{key} {of}".replace("_", " "): count.value
                  for key, of, count in assembled.garment.counts}
        assert counts[name] == number
    (odd,) = said(short, counts={"strip middle of short rows 1": "21"})
    assert "strip, middle of short rows 1 21, which is not even;" in odd
    assert "Write 20 or 22." in odd

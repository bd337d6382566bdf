"""What the reader refuses of a band whose rows run along its edge: each with its place on a page.

Spoiled are sentences of the collection's pages; what is right is sense and geometry (see the acts).
"""

from __future__ import annotations

import re

import pytest

from tests.reader import page

WAISTCOAT = "bowline-waistcoat/8"


def refused(text: str, old: str, new: str) -> str:
    """What the reader says of a page on which `old` is spoiled."""
    assert old in text, old
    assert not page.read(text).faults
    return " ".join(str(fault) for fault in page.read(text.replace(old, new)).faults)


@pytest.mark.parametrize(("old", "new", "said"), [
    ("but 2 side by side", "but 3 side by side", "2 and 2 stand side by side at the edges"),
    (", but 2 side by side at either edge: one for the seam, and a firm free edge", "",
     "no line of the table fits"),
    ("set 1 in, 1 out of work", "set 2 in, 1 out of work", "the groups are of"),
    ("2.2 cm (⅞ in)", "2.6 cm (1 in)", "it is 2.2 cm deep"),
    ("so the front armhole from the top down", "so the back armhole from the top down",
     "from the top down comes"),
    (", so the front armhole from the top down", "", "from the top down comes"),
    (" The edge is counted the same way.", "", "from which end the edge is counted"),
    (" Row 1 of the back armhole is the first above the back underarm.", "",
     "where row 1 lies above bound-off stitches"),
    ("stitch 2 of 2", "place 2 of 2", "stitches are counted as stitches"),
    (", through both layers of the hem and the end of the neckband", "", "of two layers are"),
    ("both layers of the hem and the end", "both layers of the end", "of two layers are"),
    ("outer layer is knitted on R1 to R8, the inner one on L8 to L1", "outer layer is knitted on "
     "L8 to L1, the inner one on R1 to R8", "the layer that is sewn first lies outside"),
    ("inner layer: <b>L4 to L5", "inner layer: <b>L5 to L4", "it is worked from the right"),
    (" Here the front edge ends.", "", "the steps end another part there"),
])
def test_a_page_spoiled_so_is_refused(pages: dict[str, str], old: str, new: str, said: str
                                      ) -> None:
    assert said in refused(pages[WAISTCOAT], old, new)


def test_the_ends_of_a_placket_band_come_out_over_their_stitches(pages: dict[str, str]) -> None:
    """8 rows over 5 stitches: 3 of them take two (arithmetic)."""
    text = pages["mudlark-pullover/6"]
    said = (" An end has 8 rows, through both layers: join 2 stitches to one bar each, 3 to two "
            "each, spread evenly.")
    assert "8 rows go over 5 stitches" in refused(text, "2 stitches to one bar each, 3",
                                                  "3 stitches to one bar each, 2")
    assert refused(text, said, "")


def test_no_tool_is_named_where_needles_are_only_pushed(pages: dict[str, str]) -> None:
    """Needles are brought forward by their butts; what moves a stitch is named where it moves."""
    told = [(name, *one) for name, text in pages.items() for one in re.findall(
        r"Make buttonhole (\d+)(.*?)</?(?:li|figure|p)\b", text, re.DOTALL)]
    assert told
    assert not [one for one in told if "tool" in one[-1]]

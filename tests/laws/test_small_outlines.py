"""The small outlines of the order of work: as large as their pieces, all to one scale."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from walebook.drawings.piece_small import HIGH, UNIT, WIDE, Small, small_outlines
from walebook.pages.pieces import piece_anchor
from walebook.pages.shared_by_pages import shared
from walebook.pages.size_page import size_page

from tests.whole_collection import collection

DRAWN = re.compile(r'<svg class="wb-small"[^>]*viewBox="(-?\d+) (-?\d+) (\d+) (\d+)" width="(\d+)" '
                   r'height="(\d+)"><g id="o-([^"]+)" class="wb-out"><path d="([^"]+)"/>')
PART = re.compile(r"([Mhvlz])(-?\d+)?(?:[ ]?(-?\d+))?")


def spread(path: str) -> tuple[int, int]:
    """How far a path reaches across and down [mm]."""
    x = y = 0
    spots = []
    for kind, one, other in PART.findall(path):
        if kind == "M":
            x, y = int(one), int(other)
        elif kind == "h":
            x += int(one)
        elif kind == "v":
            y += int(one)
        elif kind == "l":
            x, y = x + int(one), y + int(other)
        spots.append((x, y))
    across, down = [x for x, _ in spots], [y for _, y in spots]
    return UNIT * (max(across) - min(across)), UNIT * (max(down) - min(down))


def test_every_piece_is_drawn_as_large_as_it_is_and_all_to_one_scale() -> None:
    seen = 0
    for proof in collection().proofs:
        common, size = shared(proof), proof.sizes[0]
        page = size_page(proof.pattern, size, common)
        drawn = {found[6]: found for found in DRAWN.findall(page)}
        scales = [Fraction(int(width), int(across)) for _, _, across, _, width, _, _, _ in
                  drawn.values() if int(across) > 60]
        assert not scales or max(scales) < min(scales) * Fraction(21, 20), proof.pattern.slug
        assert all(int(f[4]) <= WIDE + 6 and int(f[5]) <= HIGH + 6 for f in drawn.values())
        for knitted, outline in zip(size.pieces, common.outlines[size.size], strict=True):
            wide, high = spread(drawn[piece_anchor(knitted)][7])
            assert abs(wide - outline.width) <= UNIT and abs(high - outline.height) <= UNIT
            seen += 1
    assert seen > 40


def _box(wide: int) -> Small:
    """A piece without shaping, 400 mm high."""
    nought, across, high = Fraction(0), Fraction(wide), Fraction(400)
    return Small(corners=((nought, nought), (across, nought), (across, high), (nought, high)),
                 left=nought, width=across, height=high)


@pytest.mark.parametrize("wider", [1, 2, 5])
def test_one_wide_shape_makes_all_others_smaller(wider: int) -> None:
    square, long = _box(400), _box(400 * wider)
    found = {f[6]: int(f[4]) for f in DRAWN.findall("".join(
        small_outlines({"a": square, "b": long}).values()))}
    assert abs(found["b"] - wider * found["a"]) <= 4 * wider

"""The stitches by which an edge is hung: both ends, the middle and the quarters.

Common practice, no source. A mark lies at the stitch nearest to its share of the way from the first
stitch to the last; of two that are equally near, at the later one.

Lost by a change of the engine that no test noticed (`.ci/mutants.py`).
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from walebook.words.band_ends import BandEnds
from walebook.words.hanging_text import marked

SHARES = {"start": Fraction(0), "¼": Fraction(1, 4), "middle": Fraction(1, 2),
          "¾": Fraction(3, 4), "end": Fraction(1)}


@pytest.mark.parametrize("count", [2, 3, 4, 5, 6, 7, 8, 31, 66, 110, 128, 201])
def test_marks_lie_nearest_to_their_share_of_the_way(count: int) -> None:
    named = marked(count, BandEnds(edge="the edge", first="start", last="end"))
    for name, share in SHARES.items():
        wanted = 1 + share * (count - 1)
        nearest = min(range(1, count + 1), key=lambda at: (abs(at - wanted), -at))
        assert name in named[nearest], (name, wanted)
    assert set(named) <= set(range(1, count + 1))

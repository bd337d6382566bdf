"""Even spreading, against an image library's line rasteriser.

A line drawn over a grid of pixels takes a run of pixels in each row, and the runs are as even as
whole numbers can be. Pillow draws it; our shares must be the same runs, as evenly mixed, and the
rows an edge gives must follow each other as they do, but for where the cycle starts.
"""

from collections import Counter
from collections.abc import Sequence
from itertools import groupby, pairwise

import pytest
from PIL import Image, ImageDraw
from walebook.core.spread import shares, taken_rows


def drawn_shares(total: int, parts: int) -> list[int]:
    """The runs of a line that rises `parts` over `total`, for one whole period of it."""
    periods = 3  # the first and the last run are cut by the line's ends
    picture = Image.new("L", (periods * total + 1, periods * parts + 1))
    ends = (0, 0, periods * total, periods * parts)
    ImageDraw.Draw(picture).line(ends, fill=1)
    runs = Counter(place // picture.width for place, on in enumerate(picture.tobytes()) if on)
    return [runs[row] for row in range(parts, 2 * parts)]


def turns(cycle: tuple[int, ...]) -> set[tuple[int, ...]]:
    """The same cycle begun at every place, in both directions."""
    begun = {cycle[at:] + cycle[:at] for at in range(len(cycle))}
    return begun | {tuple(reversed(each)) for each in begun}


def unevenness(run: Sequence[int]) -> int:
    """By how much two equally long stretches of the run differ at most: 0 or 1 when even."""
    lengths = range(1, len(run))
    sums = ([sum(run[at : at + n]) for at in range(len(run) - n + 1)] for n in lengths)
    return max((max(each) - min(each) for each in sums), default=0)


CASES = [(total, parts) for parts in range(1, 24) for total in range(parts, 130, 11)]


def test_shares_are_the_runs_of_a_drawn_line_and_as_evenly_mixed():
    for case in CASES:
        ours, drawn = shares(*case), drawn_shares(*case)
        assert sum(ours) == case[0] and max(ours) - min(ours) <= 1, case
        assert sorted(ours) == sorted(drawn), case
        assert unevenness(ours) <= 1 and unevenness(drawn) <= 1, case


EDGES = [(stitches, rows) for rows in range(4, 120, 5) for stitches in range(1, rows + 1, 4)]


def test_the_rows_taken_are_as_even_as_a_drawn_line():
    for stitches, rows in EDGES:
        edge, taken = (stitches, rows), taken_rows(stitches, rows)
        assert len(set(taken)) == stitches and tuple(sorted(taken)) == taken, edge
        assert taken[0] >= 1 and taken[-1] <= rows, edge
        steps = [later - sooner for sooner, later in pairwise(taken)]
        drawn = drawn_shares(rows, stitches)
        assert set(steps) <= {rows // stitches, -(-rows // stitches)}, edge
        closed = (*steps, rows - taken[-1] + taken[0])  # the edge as one period of the line
        assert sorted(closed) == sorted(drawn), edge
        assert tuple(drawn) in turns(closed), edge


@pytest.mark.parametrize("rows", [*range(2, 60), 150, 199])
def test_two_rows_are_never_missed_together_while_half_are_taken(rows):
    for stitches in range(-(-rows // 2), rows + 1):
        taken = set(taken_rows(stitches, rows))
        missed = [row not in taken for row in range(1, rows + 1)]
        longest = max((len(list(run)) for gone, run in groupby(missed) if gone), default=0)
        assert longest <= 1, (stitches, rows)

"""A facing round square hollow corners with no stitches for them: how far it stretches."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from walebook.core.edge_parts import SectionRole
from walebook.fabric.gauge import measure
from walebook.pattern.edges import EdgeShape
from walebook.plan.band_counts import plan_band
from walebook.plan.facing_stretch import MOST, most_stretched
from walebook.shape.edge_path import EdgePath, run_of
from walebook.shape.edging import shaped, waiting
from walebook.shape.profile import EdgeSegment

from tests.laws.bands import BODY, pattern

GAUGE = measure((BODY,))


def neck(rows: int, wide: int, behind: int, shape: EdgeShape) -> EdgePath:
    """Two straight sides with stitches that wait between them, and a back that lies level."""
    side = shaped(SectionRole.FRONT_NECK, [EdgeSegment(0, rows, None)], GAUGE)
    return run_of("neck", "Neck, round", [
        side, waiting(SectionRole.FRONT_NECK, wide, GAUGE), side,
        waiting(SectionRole.BACK_NECK, behind, GAUGE)], shape=shape)


@given(st.integers(4, 80), st.integers(4, 80), st.integers(4, 80),
       st.fractions(1, 60, max_denominator=10))
def test_each_side_lacks_a_depth_at_each_corner(rows: int, wide: int, behind: int,
                                                depth: Fraction) -> None:
    """A square drawn a depth further out: a foot between two corners is two depths longer; so is
    what goes round the back. Of an open edge each end has one corner (geometry)."""
    foot, up = wide * GAUGE.stitch, rows * GAUGE.row
    around = 2 * up + behind * GAUGE.stitch
    length, lacks = most_stretched(neck(rows, wide, behind, EdgeShape.ROUND), depth)
    assert lacks / length == 2 * depth / min(foot, around)
    length, lacks = most_stretched(neck(rows, wide, behind, EdgeShape.OPEN), depth)
    assert lacks / length == max(2 * depth / foot, depth / up)


def codes(kind: str, rows: int, wide: int, *, mitre: bool = False,
          shape: EdgeShape = EdgeShape.ROUND
          ) -> set[str]:
    source = pattern(holes=0, split=(4, 4))
    band = replace(source.bands["front"], kind=kind, mitre=mitre)
    _, problems = plan_band(source, band, "one", neck(rows, wide, 60, shape))
    return {problem.code for problem in problems}


def test_a_facing_is_warned_of_where_it_must_stretch_more_than_a_share() -> None:
    """On either side of the share, by the depth of the same band; no other kind, and no mitre."""
    deep = plan_band(source := pattern(holes=0, split=(4, 4)),
                     replace(source.bands["front"], kind="facing"), "one",
                     neck(60, 90, 60, EdgeShape.ROUND))[0]
    assert deep is not None
    depth = deep.depth.value * deep.gauge.row
    least = int(2 * depth / MOST / GAUGE.stitch)
    assert "facing-stretched" in codes("facing", 80, least)
    assert "facing-stretched" not in codes("facing", 80, least + 1)
    assert "facing-stretched" not in codes("facing", 80, least, mitre=True)
    assert "facing-stretched" not in codes("folded", 80, least)

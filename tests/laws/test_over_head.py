"""A band along a closed neck goes over the head too: it gives as much as the neck itself.

That a knitted neck gives a third over its length is common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from walebook.plan.over_head import closed_neck, largest_head, stretched
from walebook.plan.worked_measures import own_chart
from walebook.proof.proof import prove

from tests.laws.test_own_gauge import pattern_of


@pytest.mark.parametrize(("ease", "sizes"), [(0, []), (-3, []), (-5, ["S"]), (-18, ["S", "M"])])
def test_a_tight_neckband_on_a_wide_neck_is_warned_of(ease: int, sizes: list[str]) -> None:
    """The head of women's S and M is up to 58.5 cm; 45.9 and 50.8 cm of neck give 61.2 and 67.7."""
    pattern = pattern_of("cutwater-pullover")
    band = replace(pattern.bands["neck"], ease=Fraction(ease, 100))
    proof, problems = prove(replace(pattern, bands={"neck": band}))
    assert proof is not None, [str(p) for p in problems]
    warned = [p for p in problems if p.code == "neck-over-head"]
    assert [p.size for p in warned] == sizes
    for size in proof.sizes:
        assert size.assembled is not None and pattern.garment is not None
        edge = closed_neck(size.assembled.garment)
        head = largest_head(own_chart(pattern.garment), size.size)
        assert edge is not None and head is not None
        (plan,) = size.plans
        long = plan.stitches.value * plan.gauge.stitch * Fraction(4, 3)
        assert (long < head.high.mm) == (size.size in sizes)
        assert stretched(edge, []).length.mm == edge.length * Fraction(4, 3)

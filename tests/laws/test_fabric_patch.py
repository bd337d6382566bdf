"""A patch of fabric has its gauge's proportions, and every stitch of the second colour.

Expected values are the swatch's own figures and the chart's own marks.
"""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree

import pytest
from walebook.drawings.fabric_patch import ACROSS, UPWARD, fabric_patch
from walebook.fabric.gauge import measure
from walebook.pattern.cells import Cell
from walebook.pattern.fabrics import Fabric
from walebook.pattern.model import Pattern

from tests.whole_collection import collection


def fabrics() -> list[tuple[Pattern, Fabric]]:
    """Every fabric of the collection, with its pattern."""
    return [(proof.pattern, fabric) for proof in collection().proofs
            for fabric in proof.pattern.fabrics.values()]


def patch(pattern: Pattern, fabric: Fabric) -> ElementTree.Element:
    text = fabric_patch(measure(fabric.swatches), pattern.yarns[fabric.yarn], name=fabric.key,
                        prefix="p", chart=pattern.stitch_charts.get(fabric.chart),
                        second=pattern.yarns.get(fabric.contrast), repeat=fabric.repeat)
    return ElementTree.fromstring(text)[0]


def test_a_patch_has_the_proportions_of_its_swatch() -> None:
    for pattern, fabric in fabrics():
        _, _, wide, high = map(int, patch(pattern, fabric).attrib["viewBox"].split())
        chart = pattern.stitch_charts.get(fabric.chart)
        across = Fraction(ACROSS * chart.stitches, chart.width) if chart else Fraction(ACROSS)
        if fabric.repeat:
            across *= Fraction(sum(fabric.repeat.works), len(fabric.repeat.works))
        swatch = [(Fraction(s.width.mm, s.stitches), Fraction(s.height.mm, s.rows))
                  for s in fabric.swatches]
        stitch, row = (sum(sides) / len(sides) for sides in zip(*swatch, strict=True))
        right = pytest.approx(float(UPWARD * row / (across * stitch)), rel=0.02)
        assert high / wide == right, (pattern.slug, fabric.key)


def test_every_stitch_of_the_second_colour_is_drawn() -> None:
    contrasts = [(pattern, fabric) for pattern, fabric in fabrics() if fabric.contrast]
    assert contrasts
    for pattern, fabric in contrasts:
        svg, chart = patch(pattern, fabric), pattern.stitch_charts[fabric.chart]
        legs = sum(mark.attrib["d"].count("Q") for mark in svg.iter()
                   if "wb-loop-second" in mark.attrib.get("class", ""))
        seconds = sum(chart.rows[up % chart.height][at % chart.width] is Cell.SECOND
                      for up in range(UPWARD) for at in range(ACROSS))
        assert legs == 2 * seconds > 0, (pattern.slug, fabric.key)

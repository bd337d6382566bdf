"""Bands deeper than is plausible on their edge: each edge has its own range.

The bounds are common practice, no source: the test holds that each is where the page says it is.
"""

from __future__ import annotations

import pytest
from test_garment_sources import read
from walebook.core.problems import fold_sizes, in_order
from walebook.proof.proof import prove

BANDED = """\
title: Sampler
version: 1.0.0
date: 2026-11-28
designer: Isolde Penhallow
licence: CC BY-NC 4.0
summary: A garment with bands.
wearer: women
bed: standard
yarns:
  main: {name: Harbour}
fabrics:
  body:
    yarn: main
    dial: 6
    swatch: {stitches: 40, width: 14.2 cm, rows: 60, height: 15 cm}
sizes: [S, M]
garment: {form: set-in cardigan, chart: women, fabric: body}
bands:
  trim: {edge: front_edge, fabric: body, depth: 3 cm}
"""


def of_depth(band: str, garment: str = "set-in cardigan") -> list[str]:
    """What is unlikely of a garment with this band."""
    text = BANDED.replace("{edge: front_edge, fabric: body, depth: 3 cm}", f"{{{band}}}")
    pattern, problems = read(text.replace("set-in cardigan", garment))
    assert pattern is not None, problems
    return [str(p) for p in fold_sizes(in_order([*problems, *prove(pattern)[1]]))
            if p.code == "unlikely-value"]


@pytest.mark.parametrize(("band", "form", "kind"), [
    ("edge: neck, fabric: body, depth: {}", "set-in cardigan", "neckband: 5 mm to 12 cm"),
    ("edge: neck, fabric: body, depth: {}, kind: single", "set-in pullover",
     "neckband of one layer: 5 mm to 24 cm"),
    ("edge: front_edge, fabric: body, depth: {}", "set-in cardigan",
     "front band: 5 mm to 9 cm"),
    ("edge: front_and_neck, fabric: body, depth: {}", "set-in cardigan, neck: v",
     "front band: 5 mm to 9 cm"),
    ("edge: armhole, fabric: body, depth: {}", "set-in slipover",
     "armhole's band: 5 mm to 8 cm")])
def test_a_band_deeper_than_is_likely_on_its_edge(band: str, form: str, kind: str) -> None:
    """The most that is plausible passes, a millimetre more does not: common practice, no source."""
    most = kind.split(" to ")[1]
    assert of_depth(band.format(most), form) == []
    (found,) = of_depth(band.format(f"{most.split()[0]}.1 cm"), form)
    assert found.endswith(f"deep; expected depth of {'an' if kind[0] == 'a' else 'a'} {kind}. "
                          "Check the figure and its unit.")


def test_rows_of_a_band_come_to_a_depth_too() -> None:
    """40 rows of 2.5 mm a layer are 10 cm."""
    rows = "rows: {to_holes: 20, holes_to_fold: 20, fold_to_holes: 20, to_finish: 20}"
    (found,) = of_depth(f"edge: front_edge, fabric: body, {rows}")
    assert 'found band "trim", 10 cm deep; expected depth of a front band' in found


def test_a_shawl_collar_may_be_deeper_than_a_band() -> None:
    assert of_depth("edge: front_and_neck, fabric: body, kind: shawl collar, depth: 10 cm, "
                    "back_depth: 18 cm", "set-in cardigan, neck: v") == []

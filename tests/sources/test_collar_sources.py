"""Collars and plackets that cannot be had, and the exact message each gets.

Stitches are 5 mm wide and rows 3.5 mm high; figures were worked out by hand from these.
"""

from __future__ import annotations

import pytest
from reading import FILE, messages, read
from test_garment_sources import CHARTS
from test_garment_sources import messages as garment_messages
from test_garment_sources import read as read_garment
from walebook.proof.proof import prove

from tests.small_sources import sampler

SAMPLE = sampler() + """\
edges:
  neck: {kind: one edge, fabric: body, length: 42 cm}
bands:
  collar:
    edge: neck
    kind: shirt collar
    fabric: body
    depth: 7 cm
    points: 2 cm
"""
PULLOVER = """\
title: Sampler
version: 1.0.0
date: 2026-11-25
designer: Wren Ashdown
licence: CC BY-NC 4.0
summary: A pullover.
wearer: women
bed: {pitch: 4.5 mm, needles: 200}
yarns:
  main: {name: Harbour}
fabrics:
  body:
    yarn: main
    dial: 5
    swatch: {stitches: 30, width: 15 cm, rows: 40, height: 14 cm}
sizes: [M]
garment:
  form: set-in pullover
  chart: women
  fabric: body
bands:
  collar:
    edge: neck
    kind: shirt collar
    fabric: body
    depth: 7 cm
    points: 2 cm
"""


def planned(text: str) -> list[str]:
    """The errors and warnings of a source that can be read, when its bands are planned."""
    pattern, problems = read_garment(text, CHARTS) if "garment:" in text else read(text)
    assert pattern is not None, [str(p) for p in problems]
    return [str(p).removeprefix(f"{FILE}:") for p in prove(pattern)[1]
            if p.severity.value in ("error", "warning")]


def test_a_sound_collar_is_planned() -> None:
    assert planned(SAMPLE) == []


@pytest.mark.parametrize(("old", "new", "expected"), [
    ("points: 2 cm", "back_depth: 9 cm",
     "25:17: error, not-this-kind: found back_depth in a band of the kind shirt collar; expected "
     "it only in a band of the kind shawl collar or double shawl collar. Delete it, or choose one "
     "of these kinds."),
    ("kind: shirt collar", "kind: folded",
     "25:13: error, not-this-kind: found points in a band of the kind folded; expected it only in "
     "a band of the kind shirt collar or double shirt collar. Delete it, or choose one of these "
     "kinds."),
])
def test_a_key_of_another_kind(old: str, new: str, expected: str) -> None:
    assert messages(SAMPLE.replace(old, new)) == [expected]


def test_a_shawl_collar_wants_its_depth_at_the_back() -> None:
    text = SAMPLE.replace("shirt collar", "shawl collar").replace("    points: 2 cm\n", "")
    assert messages(text) == [
        '20:3: error, missing-key: found no "back_depth" in band "collar". Add a line such as '
        '"back_depth: 12 cm".']


def test_points_sharper_than_a_stitch_a_row() -> None:
    """7 cm are 20 rows, so 18 stitches are possible; 10 cm of 5 mm are 20."""
    assert planned(SAMPLE.replace("points: 2 cm", "points: 10 cm")) == [
        "25:13: error, points-too-sharp: size M: found points of 20 stitches over the 20 rows of a "
        "layer; expected at most a stitch a row at each end, 18 in all. Write points of at most 9 "
        "cm, or give the collar more depth."]


def test_a_collar_with_points_is_not_cut() -> None:
    """52 cm of 5 mm stitches are 104, and 4 more at each end."""
    text = SAMPLE.replace("42 cm", "52 cm")
    assert planned(text) == [
        '18:48: error, bed-too-short: size M: found band "collar" of 112 stitches, 4 of them a '
        "point at each end, on a bed of 110 needles; expected at most 110 stitches: 2 needles "
        "short. No size fits. Use a thicker yarn or a bed with more needles; a collar with points "
        "or short rows is knitted in one, and only one without them can be cut."]


def test_more_settings_than_rows() -> None:
    """From 5 to 14.1 are 28 thirds, so 29 settings in 20 rows."""
    assert planned(SAMPLE.replace("points: 2 cm", "outer_dial: 14.1")) == [
        "25:17: error, dial-too-far: size M: found 29 settings from 5 to 14.1 in 20 rows; expected "
        "a row at least for each setting. Choose an outer dial nearer to the band's, or give the "
        "collar more depth."]


def test_a_collar_no_longer_at_its_outer_edge() -> None:
    assert planned(SAMPLE.replace("    points: 2 cm\n", "")) == [
        "22:11: warning, collar-rides-up: size M: found a shirt collar with an outer edge no "
        "longer than its neck edge; expected a longer outer edge, or it rides up at the back when "
        "it falls over. Give it points, or an outer_dial looser than its dial."]


def test_a_shawl_collar_too_deep_or_not_deep_enough() -> None:
    """84 stitches: 28 at either side. 7 cm are 20 rows; 40 cm are 94.3 more, 94: 47 pairs."""
    text = SAMPLE.replace("shirt collar", "shawl collar").replace("points: 2 cm",
                                                                 "back_depth: 40 cm")
    assert planned(text) == [
        "25:17: error, collar-too-deep: size M: found 47 pairs of short rows over 28 stitches from "
        "the shoulder to where the neck begins; expected a stitch at least for every pair. Write a "
        "back_depth of at most 26.6 cm, or make the neck deeper at the front."]
    assert planned(text.replace("40 cm", "7.2 cm")) == [
        "25:17: error, collar-not-deeper: size M: found a back depth of 7.2 cm on a collar 7 cm "
        "deep at its ends; expected at least 2 rows more, 0.7 cm. Give back_depth more, or use a "
        "band of one depth."]


def test_a_collar_that_falls_over_on_a_closed_neck() -> None:
    assert planned(PULLOVER) == [
        "24:11: error, collar-needs-opening: size M: found a shirt collar on a neck that is closed "
        "all round; expected a neck that opens at the front, where the collar begins and ends. "
        "Give the garment a placket, choose a cardigan, or use a stand collar."]


def test_a_placket_without_bands_has_no_width() -> None:
    text = PULLOVER.replace("  fabric: body\nbands", "  fabric: body\n  placket: 12 cm\nbands")
    assert garment_messages(text, CHARTS) == []
    assert planned(text) == [
        "17:1: error, cannot-shape: size M: found a placket without bands, whose depth is the "
        "slit's width; expected figures that make a set-in pullover. Add a band with edge: "
        "placket."]


def test_placket_bands_that_hide_all_they_cover() -> None:
    """Two bands hide 2 stitches of 5 mm each, 2 cm in all, of a slit 2 cm wide."""
    text = PULLOVER.replace("  fabric: body\nbands:\n",
                            "  fabric: body\n  placket: 12 cm\nbands:\n"
                            "  slit: {edge: placket, fabric: body, depth: 2.1 cm}\n")
    assert planned(text) == [
        "17:1: error, cannot-shape: size M: found placket bands 2.1 cm deep, which hide 2 stitches "
        "of either edge; expected figures that make a set-in pullover. Give the placket "
        "bands more depth, or write stitches_in: 1."]

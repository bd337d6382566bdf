"""Needles about the centre of the bed, against published layouts and beds."""

from fractions import Fraction
from pathlib import Path

import yaml
from published import CASES, account_for, against
from walebook.core.units import read_length
from walebook.machine.needles import Needle, bed_of, between, centred
from walebook.machine.steps import Side
from walebook.program.layout import lay_out

from tests.needle_names import NAMED, needle

DIRECT = ("M07",)

NOT_FOLLOWED: dict[str, str] = {}

BEDS = sorted((Path(__file__).parents[2] / "patterns" / "_beds").glob("*.yaml"))


def test_every_direct_case_is_accounted_for():
    account_for(globals(), topics={"needle-bed facts"}, direct=DIRECT, not_followed=NOT_FOLLOWED)


@against("M07")
def test_left_zero_right(case):
    for layout, stitches in zip(case["inputs"]["examples"], case["outputs"]["sts"], strict=True):
        left, zero, right = layout.split("-")
        written = between(needle(f"L{left}"), needle(f"R{right}"))
        assert zero == "0" and len(written) == stitches
        assert centred(stitches) == written
        assert all(lay_out(stitches, front).needles == written for front in Side)


@against("M07")
def test_zero_is_a_gap_and_no_needle(case):
    assert "0 is a gap, not a needle" in case["rule"]
    assert [Needle(place).name for place in (-2, -1, 0, 1)] == ["L2", "L1", "R1", "R2"]
    for name in ("L0", "R0", "0"):
        assert name not in NAMED


def test_needles_of_the_beds_met_in_practice():
    """tracykm, Machine knitting explained, tracykm.blogspot.com/2007/03 (M04): 200 needles at
    4.5 mm, 150 at 6.5 mm, 100 at 8 mm."""
    published = {
        Fraction(pitch.removesuffix(" mm")): needles
        for pitch, needles in CASES["M04"]["outputs"]["needles"].items()
    }
    assert published == {Fraction("4.5"): 200, Fraction("6.5"): 150, Fraction(8): 100}
    for needles in published.values():
        ends = between(needle(f"L{needles // 2}"), needle(f"R{needles // 2}"))
        assert bed_of(needles) == ends and len(ends) == needles
    for file in BEDS:
        bed = yaml.safe_load(file.read_text(encoding="utf-8"))
        pitch = read_length(str(bed["pitch"])).mm
        assert published.get(pitch, int(bed["needles"])) == int(bed["needles"])

"""Ribs in the source: what is read, and the exact message that each bad one gets.

Bad sources are good ones with one passage changed, and the place of each finding was counted in
garment.yaml, where the hem is line 22. Findings leave out the file's name.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from walebook.core.expression import NOTHING
from walebook.core.problems import Severity
from walebook.core.units import read_length
from walebook.machine.steps import Dial
from walebook.pattern.rib_specs import RibMake, RibSpec
from walebook.plan.assemble import assemble
from walebook.source.pattern import read_bed, read_pattern
from walebook.source.source import parse_source

from tests.sources.reading import BEDS, changed
from tests.sources.test_garment_sources import CHARTS, GARMENT, HEM, SMALLEST, chart

DOUBLE = {**BEDS, "standard": replace(BEDS["standard"], second=True)}
WELT = ("  welt:\n    yarn: main\n    dial: 4.1\n"
        "    swatch: {stitches: 30, width: 10 cm, rows: 48, height: 10 cm}\n")
FILE = "patterns/harbour-wall/pattern.yaml"


def read(text, beds=DOUBLE):
    node, problems = parse_source(text, name=FILE)
    assert node is not None and not problems
    return read_pattern(node, slug="harbour-wall", beds=beds, charts=CHARTS)


def with_hem(hem: str, text: str = GARMENT) -> str:
    return changed(HEM, f"  hem: {{{hem}}}\n", text)


def spec(hem: str, text: str = GARMENT, beds=DOUBLE) -> RibSpec:
    pattern, problems = read(with_hem(hem, text), beds)
    assert pattern is not None, [str(p) for p in problems]
    assert isinstance(pattern.garment.hem, RibSpec)
    return pattern.garment.hem


def messages(hem: str, beds=DOUBLE, text: str = GARMENT) -> list[str]:
    return [str(p).removeprefix(f"{FILE}:") for p in read(with_hem(hem, text), beds)[1]]


@pytest.mark.parametrize(("hem", "make", "works"), [
    ("kind: mock rib, rib: 1x1, depth: 5 cm", RibMake.MOCK, "10"),
    ("kind: mock rib, needles: 3 in 1 out, depth: 5 cm", RibMake.MOCK, "1110"),
    ("kind: hung mock rib, rib: 2x1, depth: 5 cm", RibMake.HUNG, "110"),
    ("kind: latched rib, rib: 2x2, depth: 5 cm", RibMake.LATCHED, "1100"),
    ("kind: two-bed rib, rib: 2x2, depth: 5 cm", RibMake.TWO_BED, "1100"),
    ("kind: two-bed rib, rib: full needle, depth: 5 cm", RibMake.TWO_BED, "1"),
])
def test_a_rib_is_a_line_in_the_source(hem, make, works):
    """Two dial numbers below the fabric's 6, as of a hem."""
    assert spec(hem) == RibSpec(make=make, works=tuple(w == "1" for w in works),
                                depth=read_length("5 cm"), dial=Dial(12))


def test_a_rib_that_was_swatched_is_knitted_as_its_swatch_was():
    asked = spec("kind: latched rib, rib: 2x2, depth: 5 cm, fabric: welt",
                 changed("sizes: [S", WELT + "sizes: [S", GARMENT))
    assert asked.fabric == "welt" and asked.dial == Dial(13)


def test_the_rows_of_a_rib_come_from_its_swatch():
    """48 rows to 10 cm: 5 cm are 24. Without a swatch the body's 42 make 21, to be even 22."""
    swatched = changed("sizes: [S", WELT + "sizes: [S", GARMENT)
    for hem, text, rows in (("fabric: welt", swatched, 24), ("dial: 4", GARMENT, 22)):
        pattern, _ = read(with_hem(f"kind: latched rib, rib: 2x2, depth: 5 cm, {hem}", text))
        made, _ = assemble(pattern, pattern.garment, "M", bands=NOTHING, hidden=2)
        assert {p.hem.rows for p in made.garment.pieces} == {rows}


def test_a_rib_without_a_swatch_is_remarked_once():
    pattern, _ = read(with_hem("kind: latched rib, rib: 2x2, depth: 5 cm"))
    found = [p for size in pattern.sizes
             for p in assemble(pattern, pattern.garment, size, bands=NOTHING, hidden=2)[1]
             if p.code == "rib-not-swatched"]
    assert [p.severity for p in found] == [Severity.REMARK]
    assert str(found[0]).removeprefix(f"{FILE}:").startswith(
        "22:3: remark, rib-not-swatched: found a latched rib counted by the rows of fabric body")


REFUSED = {
    "a kind there is not": ("kind: fisherman rib, rib: 1x1, depth: 5 cm", [
        '22:15: error, unknown-word: found "fisherman rib"; expected one of hung, mock rib, '
        "hung mock rib, latched rib, two-bed rib. Use one of these words."]),
    "no rib": ("kind: latched rib, depth: 5 cm", [
        '22:3: error, missing-key: found no "rib" in the hem. Add a line such as "rib: 1x1".']),
    "a mock rib of no arrangement": ("kind: mock rib, depth: 5 cm", [
        '22:3: error, missing-key: found neither "rib" nor "needles" in the hem; expected one of '
        'the two. Add a line such as "rib: 1x1".']),
    "a mock rib of two": ("kind: mock rib, rib: 1x1, needles: 2 in 1 out, depth: 5 cm", [
        '22:35: error, two-answers: found both "rib" and "needles" in the hem; expected one of '
        "the two. Delete one of them."]),
    "a rib there is not": ("kind: latched rib, rib: 3x3, depth: 5 cm", [
        '22:33: error, unknown-word: found "3x3"; expected one of 1x1, 2x1, 2x2. '
        "Use one of these words."]),
    "every needle of one bed": ("kind: latched rib, rib: full needle, depth: 5 cm", [
        '22:33: error, unknown-word: found "full needle"; expected one of 1x1, 2x1, 2x2. '
        "Use one of these words."]),
    "a fold in a rib": ("kind: mock rib, rib: 1x1, fold: picot, depth: 5 cm", [
        '22:41: error, not-of-kind: found "fold" in a hem of the kind mock rib; expected only '
        "kind, depth, rib, needles, fabric, ends, stitches, dial. Delete it, or change the kind."]),
    "a rib in a hung hem": ("rib: 1x1, depth: 5 cm", [
        '22:14: error, not-of-kind: found "rib" in a hem of the kind hung; expected only kind, '
        "depth, fold, joining_dial, dial. Delete it, or change the kind."]),
    "too many out": ("kind: mock rib, needles: 2 in 3 out, depth: 5 cm", [
        "22:34: error, bad-repeat: found 3 needles side by side out of work in a rib; expected at "
        "most 2, which are filled from the stitches beside them. Leave fewer out."]),
    "words for needles": ("kind: mock rib, needles: every other, depth: 5 cm", [
        '22:34: error, bad-repeat: found "every other"; expected needles in and out of work, such '
        "as 2 in 1 out. Begin with the needles in work, end with those out of work."]),
    "ends in a hung hem": ("ends: any, depth: 5 cm", [
        '22:15: error, not-of-kind: found "ends" in a hem of the kind hung; expected only kind, '
        "depth, fold, joining_dial, dial. Delete it, or change the kind."]),
    "ends there are not": ("kind: latched rib, rib: 1x1, ends: knit, depth: 5 cm", [
        '22:44: error, unknown-word: found "knit"; expected one of run on, alike, any. '
        "Use one of these words."]),
    "stitches of no piece": ("kind: latched rib, rib: 1x1, stitches: {bck: 96}, depth: 5 cm", [
        '22:54: error, unknown-name: found stitches of the rib of a piece "bck", which has none '
        'here; expected "back". Write back.']),
    "stitches that are a length": (
        "kind: latched rib, rib: 1x1, stitches: {back: 40 cm}, depth: 5 cm", [
            '22:55: error, bad-number: found "40 cm"; expected a whole number from 2 to 2000. '
            "Write digits only."]),
    "a rib of half the stitches": (
        "kind: latched rib, rib: 1x1, stitches: {back: 50 %}, depth: 5 cm", [
            '22:55: error, out-of-range: found "50 %"; expected a percentage from 67 % to 150 %. '
            "Check the figure."]),
    "an unknown fabric": ("kind: latched rib, rib: 1x1, depth: 5 cm, fabric: wlt", [
        '22:59: error, unknown-name: found no fabric called "wlt"; expected "body". '
        "Use one of these, or add the fabric."]),
    "a dial and a fabric": ("kind: latched rib, rib: 1x1, depth: 5 cm, fabric: body, dial: 4", [
        '22:65: error, two-answers: found both "dial" and "fabric" in the hem; expected one of '
        "the two. Delete one of them."]),
}


@pytest.mark.parametrize(("hem", "expected"), REFUSED.values(), ids=REFUSED)
def test_a_bad_rib_gets_its_message(hem, expected):
    assert messages(hem) == expected


def test_a_rib_of_two_beds_on_one():
    assert messages("kind: two-bed rib, rib: 2x2, depth: 5 cm", BEDS) == [
        '22:15: error, no-second-bed: found a two-bed rib on the bed "standard", which has no '
        "second bed; expected a bed that a second one can be set facing. Use such a bed, write "
        "second_bed: yes where yours is described, or use another kind of rib."]


def test_a_rib_in_another_yarn():
    text = changed("  main: {name: Pier Fingering}\n",
                   "  main: {name: Pier Fingering}\n  trim: {name: Pier Silk}\n",
                   changed("sizes: [S", WELT.replace("main", "trim") + "sizes: [S", GARMENT))
    assert messages("kind: latched rib, rib: 1x1, depth: 5 cm, fabric: welt", text=text) == [
        '27:59: error, rib-yarn: found a rib of the yarn "trim" below one of "main"; expected the '
        "same yarn. Swatch the rib in the yarn of the piece above it."]


@pytest.mark.parametrize(("said", "second"), [("yes", True), ("no", False), ("", False)])
def test_a_bed_says_whether_a_second_one_can_face_it(said, second):
    line = f"second_bed: {said}\n" if said else ""
    node, _ = parse_source(f"pitch: 4.5 mm\nneedles: 200\n{line}source: counted\n", name="bed")
    bed, problems = read_bed(node, name="double")
    assert not problems and bed.second is second


BAND = "  pocket:\n    edge: pocket\n"
RIBBED = BAND + "    kind: ribbed\n"


@pytest.mark.parametrize(("rib", "rounding"), [
    ("", "a multiple of 2 plus 1"), ("1x1", "a multiple of 2 plus 1"),
    ("2x1", "a multiple of 3 plus 2"), ("2x2", "a multiple of 4 plus 2")])
def test_a_ribbed_band_is_counted_to_end_as_it_begins(rib, rounding):
    """One by one takes odd numbers, two by two even ones: worked example P04."""
    pattern, problems = read(changed(
        BAND, f"{RIBBED}    rib: {rib}\n" if rib else RIBBED, GARMENT))
    assert pattern is not None, [str(p) for p in problems]
    band = pattern.bands["pocket"]
    said = {"odd": "a multiple of 2 plus 1"}.get(str(band.rounding), str(band.rounding))
    assert band.kind == "ribbed" and said == rounding


BANDS = {
    "a rib in another kind": (BAND + "    rib: 2x2\n", '41:10: error, not-this-kind: found rib in '
                              "a band of the kind enclosing; expected it only in a band of the "
                              "kind ribbed. Delete it, or write kind: ribbed."),
    "a rounding that fits no rib": (
        RIBBED + "    rib: 2x2\n    round: odd\n",
        '43:12: error, cannot-round: found band "pocket" rounded to odd; expected a multiple of 4 '
        "plus 2, as its rib needs it. Leave the rounding out, or use another rib."),
}


@pytest.mark.parametrize(("band", "expected"), BANDS.values(), ids=BANDS)
def test_a_bad_ribbed_band_gets_its_message(band, expected):
    found = [str(p).removeprefix(f"{FILE}:") for p in read(changed(BAND, band, GARMENT))[1]]
    assert found == [expected]


def test_a_rib_below_needles_left_out_is_refused_with_a_way_out():
    text = changed("    dial: 6\n", "    dial: 6\n    needles: 2 in 1 out\n", SMALLEST)
    text = changed("form: set-in cardigan", "form: hat", text)
    text = changed("  fabric: body\n", "  fabric: body\n  hem: {kind: mock rib, rib: 1x1, "
                   "depth: 3 cm}\n", text)
    women = chart("women")
    charts = {"women": replace(women, rows={**women.rows, "head": women.rows["chest"]})}
    node, _ = parse_source(text, name=FILE)
    pattern, problems = read_pattern(node, slug="harbour-wall", beds=DOUBLE, charts=charts)
    assert pattern is not None, [str(p) for p in problems]
    made, found = assemble(pattern, pattern.garment, "M", bands=NOTHING, hidden=2)
    assert made is None
    assert [p.code for p in found] == ["cannot-shape"]
    assert "a rib below a fabric with needles left out of work" in str(found[0])


def refused(hem: str, text: str = GARMENT) -> list[str]:
    """What is wrong with a garment in size M that begins with such a rib."""
    pattern, problems = read(with_hem(hem, text))
    assert pattern is not None, [str(p) for p in problems]
    made, found = assemble(pattern, pattern.garment, "M", bands=NOTHING, hidden=2)
    return [] if made else [str(p).removeprefix(f"{FILE}:") for p in found]


def test_a_rib_of_another_count_says_which_would_do():
    """2x2 that runs on is a multiple of 4 plus 2; one that ends as it begins as well; "any" is
    any count. Where the source gives it by size, the size's line is named."""
    back = "kind: latched rib, rib: 2x2, depth: 5 cm, stitches: {back: %s}"
    assert refused(back % "96") == [
        "22:68: error, cannot-shape: size M: found back: 96 stitches of a rib; expected a "
        "multiple of 4 plus 2, as the rib needs it. Write 94 or 98, or ends: any."]
    assert refused(back % "{S: 94, M: 96, L: 98}") == [
        "22:79: error, cannot-shape: size M: found back: 96 stitches of a rib; expected a "
        "multiple of 4 plus 2, as the rib needs it. Write 94 or 98, or ends: any."]
    for hem in (back % "142", back.replace("rib: 2x2", "rib: 2x2, ends: any") % "141",
                back.replace("rib: 2x2", "rib: 1x1, ends: alike") % "141"):
        assert refused(hem) == []


def test_more_stitches_than_one_row_bears_are_refused():
    """One in three comes or goes at most: common practice, no source."""
    hem = "kind: two-bed rib, rib: 1x1, depth: 5 cm, stitches: {sleeve: %s}"
    found = refused(hem % "20")
    assert len(found) == 1 and found[0].startswith("22:70: error, cannot-shape: size M: found "
                                                   "sleeve: 20 stitches of a rib below ")
    above = int(found[0].partition(" below ")[2].split()[0])
    assert f"Write a number from {-(-2 * above // 3)} to {3 * above // 2}." in found[0]
    assert refused(hem % str(2 * (-(-above // 3)))) == []


def test_four_stitches_on_a_needle_are_refused():
    """Every needle has two after a full needle rib: two of these would be four."""
    hem = "kind: two-bed rib, rib: full needle, depth: 5 cm, stitches: {back: %s}"
    assert refused(hem % "96 %") == []
    assert "four would" in refused(hem % "104 %")[0]


def test_stitches_of_a_rib_that_the_cuff_replaces_are_refused():
    text = changed(HEM, HEM + "  cuff: {depth: 4 cm}\n", GARMENT)
    hem = "kind: latched rib, rib: 1x1, depth: 5 cm, stitches: {sleeve: 90 %}"
    assert messages(hem, text=text) == [
        '22:70: error, unknown-name: found stitches of the rib of a piece "sleeve", which has none '
        "here; expected one of back, right_front. Use one of these."]


def test_the_count_of_a_piece_need_not_fit_a_rib_of_another_count():
    """A 2x2 rib fits 4 n + 2. With stitches apart the back keeps what its measures give, as
    without a rib: and is as many more as the page says."""
    hem = "kind: latched rib, rib: 2x2, depth: 5 cm, stitches: {back: 90 %}"
    pattern, _ = read(with_hem(hem))
    made, _ = assemble(pattern, pattern.garment, "M", bands=NOTHING, hidden=2)
    counts = {name: count.value for key, name, count in made.garment.counts if key == "back"}
    bare, _ = read(changed(HEM, "", GARMENT))
    plain, _ = assemble(bare, bare.garment, "M", bands=NOTHING, hidden=2)
    own = {name: count.value for key, name, count in plain.garment.counts if key == "back"}
    assert counts["cast_on"] == own["cast_on"]
    assert counts["rib_stitches"] % 4 == 2
    assert abs(counts["rib_stitches"] * 10 - counts["cast_on"] * 9) <= 20
    assert counts["increases_above_rib"] == counts["cast_on"] - counts["rib_stitches"]

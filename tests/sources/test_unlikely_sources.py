"""Sources that read well and cannot be knitted, or are unlikely, and the exact words for it.

Every figure in a message was worked out by hand from smallest.yaml: a body stitch of 14.2 cm / 20
= 7.1 mm, a row of 15 cm / 30 = 5 mm, a band stitch of 5 mm ÷ 3/4 = 6.67 mm, 52 × 3/4 = 39
stitches, 3 cm / 5 mm = 6 rows a layer with the holes on the third, a button of 11 mm that covers
2 stitches and so has a hole of 2, ends of 1.25 cm / 6.67 mm = 2 stitches.
"""

from __future__ import annotations

import pytest
from reading import BASE, FILE, SMALLEST, changed, read
from walebook.core.problems import fold_sizes, in_order
from walebook.plan.sense import check
from walebook.proof.proof import prove


def findings(text: str) -> list[str]:
    """What is found in `text` once it is read: is it likely, and can it be knitted?"""
    pattern, problems = read(text)
    assert problems == ()
    assert pattern is not None
    told = fold_sizes(in_order([*check(pattern), *prove(pattern)[1]]))
    return [str(p).removeprefix(f"{FILE}:") for p in told
            if p.code not in ("band-not-swatched", "band-rolls")]


# With an edge hung one stitch in, nothing in smallest.yaml is out of the way.
PLAIN = changed("    depth: 3 cm\n", "    depth: 3 cm\n    stitches_in: 1\n", SMALLEST)
ASKED = "{button: 11 mm, every: 8 cm}"
ROOM = "expected gaps at least as wide as a hole (2 stitches), which takes"
OTHERWISE = "a smaller button, or less distance from the ends."


def test_a_plain_band_has_no_findings() -> None:
    assert findings(PLAIN) == []


def test_too_many_holes_by_number() -> None:
    # 2 + 20 × 2 + 19 × 2 + 2 = 82; in 39 − 4 = 35 stitches there is room for (35 + 2) / 4 = 9.
    assert findings(changed(ASKED, "{button: 11 mm, number: 20}", PLAIN)) == [
        "25:42: error, hole-wider-than-gap: size one size: found 20 holes of 2 stitches on a band "
        f"of 39; {ROOM} 82 stitches. Ask for at most 9 holes, {OTHERWISE}"]


def test_too_many_holes_by_the_distance_between_them() -> None:
    # 33 stitches from the first hole's start to the last's are 220 mm. At 2.6 cm they are 8.46
    # spaces, so 8; at 2.5 cm 8.8, so 9, which is a hole too many. 1 cm asks for 22 spaces.
    assert findings(changed(ASKED, "{button: 11 mm, every: 1 cm}", PLAIN)) == [
        "25:41: error, hole-wider-than-gap: size one size: found 23 holes of 2 stitches on a band "
        f"of 39; {ROOM} 94 stitches. Write a wider every, 2.6 cm or more, {OTHERWISE}"]


@pytest.mark.parametrize(("every", "sound"), [("2.5 cm", False), ("2.6 cm", True)])
def test_the_distance_advised_is_enough_and_no_less_is(every: str, sound: bool) -> None:
    exact = changed(ASKED, f"{{button: 11 mm, every: {every}, end_give: 0, band_give: 0}}", PLAIN)
    assert (findings(exact) == []) is sound


def test_a_band_longer_than_the_bed_by_its_rows() -> None:
    assert findings(changed("rows: 52,", "rows: 200,", PLAIN)) == [
        '18:31: error, bed-too-short: size one size: found band "left_front" of 150 stitches on a '
        "bed of 110 needles; expected at most 110 stitches: 40 needles short. No size fits. Use a "
        "thicker yarn or a bed with more needles, or give the edge in sections: the band is then "
        "cut where two meet."]


def test_a_band_longer_than_the_bed_points_to_its_own_size() -> None:
    text = changed("sizes: [one size]", "sizes: [S, M, L]", PLAIN)
    text = changed("rows: 52,", "length: {S: 26 cm, M: 30 cm, L: 90 cm},", text)
    assert [m.split(" found")[0] for m in findings(text)] == [
        "18:57: error, bed-too-short: size L:", "18:57: warning, out-of-step: size L:"]


def test_an_edge_that_reaches_the_holes() -> None:
    # Two stitches in are 14.2 mm; the holes are 3 rows, 15 mm, from the closing, and a row less is
    # 10 mm: room for one stitch of 7.1 mm. Two want 14.2 / 5 = 3 rows and one more: 8 a layer.
    assert findings(SMALLEST) == [
        "20:3: warning, edge-in-hole: size one size: found the garment's edge 14.2 mm inside the "
        "band (2 stitches in), and the holes 3 rows, 15 mm, from the closing; expected at least a "
        "row between the edge and the holes, or it shows in them. Write stitches_in: 1, or give "
        "the band 4 rows from the holes to the closing, with a depth of 4 cm or more."]
    assert findings(changed("depth: 3 cm", "depth: 4 cm", SMALLEST)) == []


def test_an_edge_that_stays_just_a_row_clear_of_the_holes_is_well() -> None:
    # Two stitches of 10 cm / 20 = 5 mm are 10 mm: exactly a row less than 3 rows.
    assert findings(changed("width: 14.2 cm", "width: 10 cm", SMALLEST)) == []


def test_sizes_with_one_fault_are_told_together() -> None:
    told = findings(changed("sizes: [one size]", "sizes: [S, M, L]", SMALLEST))
    assert [m.split(" found")[0] for m in told] == [
        "20:3: warning, edge-in-hole: sizes S, M and L:"]


def test_stitches_too_wide_for_their_needles() -> None:
    # Half of 4.5 mm is 2.25, five quarters 5.625.
    assert findings(changed("{pitch: 9 mm, needles: 110}", "standard", PLAIN)) == [
        '12:3: warning, gauge-off-bed: found stitches 7.1 mm wide in fabric "body", on needles '
        "4.5 mm apart; expected stitches of 2.3 to 5.6 mm on such a bed. So wide a stitch is rare: "
        "check the swatch's figures, their units, and the bed."]


def test_stitches_too_narrow_for_their_needles() -> None:
    assert findings(changed("pitch: 9 mm", "pitch: 15 mm", PLAIN)) == [
        '12:3: warning, gauge-off-bed: found stitches 7.1 mm wide in fabric "body", on needles '
        "15 mm apart; expected stitches of 7.5 to 18.8 mm on such a bed. So narrow a stitch is "
        "rare: check the swatch's figures, their units, and the bed."]


def test_a_yarn_too_thin_for_the_needles() -> None:
    # needles of 9 mm: (25.4 / 9)² / 9 = 0.885 worsted, of 560 yd to the pound: 1.129 × 0.885 m/g
    assert findings(changed("{name: Harbour Bulky}", "{name: Harbour Bulky, count: 4.2 Nm}",
                            PLAIN)) == [
        '13:11: warning, yarn-off-bed: found a yarn of 420 m to 100 g in fabric "body", on needles '
        "9 mm apart; expected about 100 m to 100 g, half or twice as much at most. So thin a yarn "
        "is rare on this bed: check its count, its package and its ends."]


def test_several_ends_of_a_thin_yarn_suit_the_needles() -> None:
    assert findings(changed("{name: Harbour Bulky}",
                            "{name: Harbour Bulky, count: 4.2 Nm, ends: 4}", PLAIN)) == []


def in_four_sizes(edge: str) -> str:
    text = changed("sizes: [one size]", "sizes: [S, M, L, XL]", PLAIN)
    return changed("rows: 52,", f"{edge},", text)


def test_rows_that_jump_from_one_size_to_the_next() -> None:
    assert findings(in_four_sizes("rows: {S: 52, M: 56, L: 90, XL: 94}")) == [
        '18:49: warning, out-of-step: size L: found edge "front" in rows goes from M 56 to L 90, '
        "a step of 34, where 4 is usual and 2 times that is the limit; expected sizes, the "
        "smallest first, that grow by even steps. Check the figure."]


def test_a_length_that_runs_against_its_neighbours() -> None:
    assert findings(in_four_sizes("length: {S: 26 cm, M: 33 cm, L: 28 cm, XL: 29 cm}")) == [
        '18:57: warning, out-of-step: size L: found edge "front" in cm falls from M 33 to L 28, '
        "against its neighbours; expected sizes, the smallest first, that grow by even steps. "
        "Check the figure."]


def test_one_wrong_figure_is_told_once() -> None:
    told = findings(in_four_sizes("rows: {S: 52, M: 90, L: 60, XL: 64}"))
    assert len([m for m in told if "out-of-step" in m]) == 1


def test_even_sizes_are_in_step() -> None:
    assert findings(in_four_sizes("length: {S: 26 cm, M: 27.5 cm, L: 28.5 cm, XL: 30 cm}")) == []


def test_the_source_with_everything_in_it_has_a_likely_gauge_and_sizes() -> None:
    pattern, _ = read(BASE)
    assert pattern is not None
    assert check(pattern) == ()


def test_a_hole_that_does_not_stretch_to_its_button() -> None:
    # A stitch of 6.67 mm stretches at most by 10 mm in 5.08 mm (one), by 5/8 in in 8/22 in (more):
    # to 13.1 mm and, for two, 22.9 mm. A button of 25 mm covers 3.75 stitches, 4: less one is 3.
    deep = changed("depth: 3 cm", "depth: 6 cm", PLAIN)
    assert findings(changed(ASKED, "{button: 13 mm, every: 8 cm, stitches: 1}", deep)) == []
    assert findings(changed(ASKED, "{button: 25 mm, every: 8 cm, stitches: 1}", deep)) == [
        "25:57: warning, hole-too-small: size one size: found holes of 1 stitch, 6.7 mm, for a "
        "button of 25 mm; expected a button of at most 13.1 mm, to which such a hole stretches. "
        "Write stitches: 3, or choose a button of at most 13 mm."]
    single = changed("    depth: 6 cm\n", "    depth: 6 cm\n    kind: single\n", deep)
    two = "{button: 25 mm, every: 8 cm, closing: two stitches}"
    assert findings(changed(ASKED, two, single)) == [
        "26:56: warning, hole-too-small: size one size: found holes of 2 stitches, 13.3 mm, for a "
        "button of 25 mm; expected a button of at most 22.9 mm, to which such a hole stretches. "
        "Write closing: bound off, or choose a button of at most 22 mm."]

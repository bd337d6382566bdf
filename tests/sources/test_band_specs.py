"""Sources that ask for sections of an edge, graded tension, and holes in chosen places.

Expected messages were written by hand from the rules of the source format, lines and columns
counted in base.yaml.
"""

from __future__ import annotations

import pytest
from reading import BASE, changed, messages, read
from walebook.core.problems import has_errors
from walebook.core.units import read_length
from walebook.machine.steps import Dial
from walebook.proof.proof import prove

NECK = "    {fabric: body, kind: one edge,\n    rows: 52}\n"
HOLES = "      number: {XS: 5, S: 5, M: 6}\n"
# The other keys of base.yaml's buttonholes, beside one that places them.
IDLE = ("{}:7: warning, unused: found odd_gap, end_give, band_give, tolerance beside {} in the "
        'buttonholes of band "front", which nothing uses. Delete them.')

# what is wrong: (passage of base.yaml, what stands there instead, the findings)
CASES: dict[str, tuple[str, str, list[str]]] = {
    "sections beside rows": (NECK, "    {fabric: body, kind: one edge,\n    rows: 52, "
                             "sections: [{title: a, rows: 4}]}\n", [
        '37:15: error, two-answers: found both "rows" and "sections" in edge "neck"; '
        "expected one of the two. Delete one of them."]),
    "a section of two kinds": (NECK, "    kind: one edge\n    fabric: body\n    sections:\n"
                               "      - {title: back, rows: 4, stitches: 9}\n", [
        '39:9: error, two-answers: found "rows" and "stitches" in item 1 of the sections; '
        "expected one of length, rows and stitches. Delete all but one of them."]),
    "a section of no kind": (NECK, "    kind: one edge\n    fabric: body\n    sections:\n"
                             "      - {title: back}\n", [
        '39:9: error, missing-key: found neither "length" nor "rows" nor "stitches" in item 1 of '
        'the sections; expected one of length, rows and stitches. Add a line such as "rows: '
        '58".']),
    "a section without a size": (NECK, "    kind: one edge\n    fabric: body\n    sections:\n"
                                 "      - {title: back, rows: {XS: 4, S: 5}}\n", [
        "39:23: error, missing-size: found no rows for M; expected a value for each of XS, S, M. "
        "Add M."]),
    "dial and dials": ("    dial: 4\n", "    dial: 4\n    dials: [5, 4]\n", [
        '44:5: error, two-answers: found both "dial" and "dials" in band "front"; '
        "expected one of the two. Delete one of them."]),
    "dials of a facing": ("    dial: 4\n", "    dials: [5, 4]\n    kind: facing\n", [
        "43:5: error, dials-of-kind: found dials of a facing band; expected a band whose tension "
        "can be graded: enclosing, folded or single. Write one \"dial\", or choose another kind "
        "of band."]),
    "a mitre with buttonholes": ("    dial: 4\n", "    dial: 4\n    mitre: yes\n", [
        "44:12: error, mitre-of-kind: found a mitre in a band with buttonholes; expected a "
        "band of the kind enclosing, folded, single or facing, without buttonholes. Leave the "
        "mitre out, or choose another kind of band."]),
    "two places for holes": (HOLES, HOLES + "      through: 20 cm\n      in_hem: {depth: 6 cm}\n", [
        '56:7: error, two-answers: found both "in_hem" and "through" in the buttonholes of band '
        '"front"; expected one of the two. Delete one of them.', IDLE.format(59, "through")]),
    "a hem of no depth": (HOLES, HOLES + "      in_hem: {number: 2}\n", [
        '55:7: error, missing-key: found no "depth" in the holes in the hem of the buttonholes of '
        'band "front". Add a line such as "depth: 6 cm".', IDLE.format(58, "in_hem")]),
    "a number and a centre hole": (HOLES, HOLES + "      centre_hole: yes\n", [
        '55:7: error, two-answers: found both "number" and "centre_hole" in the buttonholes of '
        'band "front"; expected one of the two. Write every instead of number, or an odd number '
        "and no centre_hole."]),
}


@pytest.mark.parametrize("what", CASES)
def test_a_bad_specification_gets_its_message(what: str) -> None:
    old, new, expected = CASES[what]
    assert messages(changed(old, new)) == expected


# what cannot be planned: (passage, what stands there instead, code, a part of the message)
UNPLANNED: dict[str, tuple[str, str, str, str]] = {
    "more settings than rows": ("    dial: 4\n    yarn: main\n    depth: 3 cm\n",
                                "    dials: [5, 4.2, 4]\n    yarn: main\n    depth: 1 cm\n",
                                "too-many-dials", "3 settings for 2 rows a layer"),
    "a mitre along a straight edge": ("    pick_up: 3/4\n", "    pick_up: 3/4\n    mitre: yes\n",
                                      "no-corner", "Leave the mitre out"),
    "a hole beyond the band": (HOLES, HOLES + "      through: 80 cm\n", "holes-too-close",
                               "outside the first and the last"),
    "a hole at no measure": (HOLES, HOLES + "      through: bust_line - 2 cm\n",
                             "unknown-measure", "bust_line"),
    "a number for a place": (HOLES, HOLES + "      through: \"3 * 4\"\n", "unlike-measures",
                             "a length from the band's lower end"),
    "too many in the hem": (HOLES, HOLES + "      in_hem: {number: 9, depth: 6 cm}\n",
                            "holes-too-close", "Ask for fewer holes"),
}


@pytest.mark.parametrize("what", UNPLANNED)
def test_a_specification_that_cannot_be_planned_is_refused(what: str) -> None:
    old, new, code, said = UNPLANNED[what]
    pattern, problems = read(changed(old, new))
    assert pattern is not None, problems
    proof, found = prove(pattern)
    assert proof is None and has_errors(found)
    assert any(p.code == code and said in p.message for p in found), found


def test_what_is_left_out_of_the_holes_in_the_hem() -> None:
    pattern, _ = read(changed(HOLES, HOLES + "      in_hem: {depth: 6 cm}\n"))
    assert pattern is not None
    asked = pattern.bands["front"].buttonholes
    assert asked is not None and asked.in_hem is not None
    assert (asked.in_hem.buttonhole_count, asked.in_hem.ends) == (2, read_length("1/2 in"))


def test_settings_are_read_in_their_order() -> None:
    pattern, _ = read(changed("    dial: 4\n", "    dials: [5, 4.2, 4.1]\n"))
    assert pattern is not None
    assert pattern.bands["front"].dials == (Dial(15), Dial(14), Dial(13))
    assert BASE.count("dials") == 0

"""Fabrics with needles left out of work: where a source may name one, and what else it is told.

Each source is base.yaml or smallest.yaml with passages changed; places counted there.
"""

from __future__ import annotations

import pytest
from walebook.proof.proof import prove

from tests.sources.reading import BASE, FILE, changed, read
from tests.sources.test_garment_sources import GARMENT
from tests.sources.test_rib_sources import WELT
from tests.sources.test_rib_sources import messages as rib_messages
from tests.sources.test_rib_sources import spec as rib_spec

FRONT = BASE[:BASE.index("    buttonholes:")]
OUT = changed("    dial: 4.1\n", "    dial: 4.1\n    needles: 2 in 1 out\n", FRONT)
SHORT = changed("{XS: 50 cm, S: 51 cm, M: 52 cm}", "{XS: 40 cm, S: 41 cm, M: 42 cm}", OUT)
LAID = changed("    fold: turned\n", "    fold: loose\n    kind: folded\n"
               "    bind_off: back-stitched\n", SHORT)
WHOSE = ' in a band of the fabric "band", with needles 2 in, 1 out of work; expected '
PLAIN = ", or name a fabric of every needle."


def told(text: str) -> list[str]:
    """The errors of a source, read and planned."""
    pattern, problems = read(text)
    assert pattern is not None, [str(p) for p in problems]
    _, found = prove(pattern)
    return [str(p).removeprefix(f"{FILE}:") for p in found if p.severity.value == "error"]


def test_a_band_is_laid_out_whose_rows_need_no_neighbours() -> None:
    """2 in 1 out with an edge stitch at either end: a multiple of 2 and 4 more. It is asked for a
    multiple of 4 and 1 more, which is odd, so the rounding is left out."""
    assert told(changed("    round: {multiple: 4, plus: 1}\n", "", LAID)) == []


def test_a_rounding_that_never_ends_as_it_begins_is_refused() -> None:
    assert told(LAID) == [
        '51:5: error, cannot-round: found band "front" rounded to a multiple of 4 plus 1; expected '
        "a multiple of 2 plus 4, as needles 2 in, 1 out of work need it. Leave the rounding out, "
        "or use another fabric."]


@pytest.mark.parametrize(("old", "new", "said"), [
    ("    fold: loose\n", "    fold: picot\n",
     f"found a picot fold{WHOSE}a loose fold row. Write fold: loose{PLAIN}"),
    ("    fold: loose\n", "    fold: turned\n",
     f"found a turned fold{WHOSE}a loose fold row. Write fold: loose{PLAIN}"),
    ("    bind_off: back-stitched\n", "",
     f"found stitches chained off{WHOSE}stitches sewn off waste yarn: a chain needs them on "
     f"needles side by side. Write bind_off: back-stitched{PLAIN}"),
    ("    kind: folded\n    bind_off: back-stitched\n", "    kind: stand collar\n",
     f"found the kind stand collar{WHOSE}one of folded, single, facing, lengthwise. Choose another "
     f"kind{PLAIN}"),
    ("    kind: folded\n    bind_off: back-stitched\n", "",
     f"found the kind enclosing{WHOSE}one of folded, single, facing, lengthwise. Choose another "
     f"kind{PLAIN}"),
    ("    stitches_in: 2\n", "    stitches_in: 2\n    buttonholes: {button: 18 mm, number: 4, "
     "closing: slit}\n",
     f"found buttonholes{WHOSE}none: a hole needs stitches on needles side by side. Leave them "
     f"out{PLAIN}"),
    ("    stitches_in: 2\n", "    stitches_in: 2\n    mitre: yes\n",
     f"found a mitre{WHOSE}none: it moves stitches. Leave it out{PLAIN}"),
    ("    stitches_in: 2\n", "    stitches_in: 2\n    facing_fabric: body\n",
     f"found a facing of another fabric{WHOSE}the same needles in both layers. Leave it out"
     f"{PLAIN}"),
])
def test_what_moves_stitches_or_needs_neighbours_is_refused(old: str, new: str, said: str) -> None:
    found = told(changed(old, new, LAID))
    assert len(found) == 1 and f"error, needles-in-band: {said}" in found[0], found


def test_a_rule_says_nothing_of_a_band_on_an_edge_with_needles_left_out() -> None:
    text = changed("  body:\n    yarn: main\n    dial: 6\n", "  body:\n    yarn: main\n"
                   "    dial: 6\n    needles: 1 in 1 out\n")
    found = [one for one in told(text) if "needles-at-edge" in one]
    assert found == [
        '65:14: error, needles-at-edge: found a band without a swatch along an edge of fabric '
        '"body", with needles 1 in, 1 out of work; expected a fabric of the band\'s own: a row and '
        "a stitch of the edge's are not those of every needle. Knit a swatch of the band, and name "
        "its fabric in place of pick_up."]


def test_stitches_hung_one_for_one_lie_on_the_same_needles_in_both() -> None:
    """Two of three needles in the one, all in the other: the band would be half as long again."""
    edge = ("  front: {kind: pair of fronts,\n    fabric: body,\n"
            "    length: {XS: 40 cm, S: 41 cm, M: 42 cm}}\n")
    parts = ("  front:\n    kind: one edge\n    fabric: body\n    sections:\n"
             "      - {title: front, rows: 60}\n"
             "      - {title: neck, stitches: 30, stitches_are: bound off}\n")
    found = told(changed(edge, parts, changed("    round: {multiple: 4, plus: 1}\n", "", LAID)))
    assert found[0].endswith(
        "error, needles-at-edge: size XS: found a band with needles 2 in, 1 out of work on 30 "
        "stitches of the neck, knitted with every needle in work; expected the same needles in "
        "both, where stitches are hung one for one. Give the band a fabric with every needle in "
        "work.")


def test_a_rib_is_knitted_on_the_needles_of_its_swatch() -> None:
    out = "    dial: 4.1\n    needles: {}\n"
    same = changed("    dial: 4.1\n", out.format("1 in 1 out"), WELT)
    hem = "kind: mock rib, {}, depth: 5 cm, fabric: welt"
    assert rib_spec(hem.format("rib: 1x1"), _with(same)).fabric == "welt"
    found = rib_messages(hem.format("needles: 3 in 1 out"), text=_with(same))
    assert len(found) == 1 and found[0].endswith(
        'error, rib-needles: found a mock rib of the fabric "welt", which was swatched with '
        "needles 1 in, 1 out of work; expected needles 3 in, 1 out of work. Write the rib as its "
        "swatch was knitted, or name another fabric.")
    found = rib_messages("kind: latched rib, rib: 1x1, depth: 5 cm, fabric: welt", text=_with(same))
    assert len(found) == 1 and found[0].endswith(
        'error, rib-needles: found a latched rib of the fabric "welt", which was swatched with '
        "needles 1 in, 1 out of work; expected every needle in work. Name a fabric that was "
        "swatched as the rib is knitted.")


def _with(welt: str) -> str:
    return changed("sizes: [S", f"{welt}sizes: [S", GARMENT)

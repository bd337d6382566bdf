"""Cords in hems: what one comes to, and who may have none. Standards as in the cautions page."""

from __future__ import annotations

import re
from pathlib import Path

from test_garment_sources import GARMENT, messages
from test_pocket_sources import proved, size
from walebook.machine.reasons import Reason
from walebook.machine.steps import Transfer
from walebook.shape.foot import Hem

from tests.site.garments import made_up

START = GARMENT[:GARMENT.index("  moved: 2\n")]
CORDED = (START + "  cord: {width: 6 mm, ties: 20 cm}\n"
          "bands:\n  neck: {edge: neck, pick_up: 3/4, depth: 2 cm}\n")

MITTEN = Path(__file__).with_name("codes").joinpath("sizes-alike.yaml").read_text("utf-8")


def test_two_fronts_have_an_eyelet_each_and_a_whole_one_two() -> None:
    for form, number in (("set-in cardigan", 1), ("set-in pullover", 2)):
        made = size(CORDED.replace("set-in cardigan", form))
        for knitted in made.pieces:
            moved = [s for s in knitted.program.steps
                     if isinstance(s, Transfer) and s.reason is Reason.FOR_CORD]
            front = "front" in knitted.piece.key
            assert [len(s.needles) for s in moved] == ([number] if front else [])
            assert knitted.trace.refusal is None


def test_the_cord_goes_round_the_hem_and_hangs_out_at_both_ends() -> None:
    """Of a pullover: the stitches of back and front without 4 for the seams, 10/3 mm each, and
    2 × 20 cm, up to the next centimetre."""
    made = size(CORDED.replace("set-in cardigan", "set-in pullover"))
    assert made.assembled is not None
    garment = made.assembled.garment
    (cord,) = [count for _, name, count in garment.counts if name == "cord"]
    around = sum(p.stitches.value for p in garment.pieces if p.key in ("back", "front")) - 4
    assert cord.value == -(-around // 3) + 40 or cord.value == around // 3 + 40
    assert any("Cut a cord of" in said for said in made_up(garment))
    assert all(isinstance(p.hem, Hem) for p in garment.pieces if p.key == "front")


def test_a_hem_must_be_deeper_than_its_cord() -> None:
    """3 cm are 12 rows of 100/42 mm, 28.6 mm; a cord of 25 mm asks for 31."""
    _, found = proved(CORDED.replace("6 mm", "25 mm"))
    assert "casing-too-shallow: size S: found a cord of 25 mm in a hem 28.6 mm deep; expected a " \
        "hem 6 mm deeper than its cord: 31 mm. Make the hem at least 3.1 cm deep, or the cord " \
        "thinner." in found[0]


def test_a_cord_wants_a_hung_hem() -> None:
    text = CORDED.replace("  hem: {depth: 3 cm, fold: picot, dial: 3.1}\n", "")
    assert "found a cord in a set-in cardigan without a hung hem; expected a hem" in \
        proved(text)[1][0]


def test_what_the_finding_says_to_write_mends_it() -> None:
    """The line that it gives makes the source pass; a form without fronts is given none."""
    bare = CORDED.replace("  hem: {depth: 3 cm, fold: picot, dial: 3.1}\n", "")
    (line,) = re.findall(r'Add a line such as "([^"]+)"', proved(bare)[1][0])
    mended = bare.replace("  cord:", f"  {line}\n  cord:")
    assert mended != bare and not [e for e in proved(mended)[1] if "cord" in e]
    _, found = proved(MITTEN + "  cord: {width: 6 mm, ties: 20 cm}\n")
    assert found and all("cord-without-hem" in e and "Add" not in e for e in found)


def for_(wearer: str, text: str = CORDED) -> str:
    return text.replace("wearer: women", f"wearer: {wearer}")


def test_a_baby_has_no_cord_and_a_child_no_long_one() -> None:
    """ASTM F1816 and 16 CFR Part 1120 (CPSC): at most 3 in (75 mm) outside the channel; for babies
    none at all is common practice, as the cautions page has it."""
    assert "cord-on-baby: found a cord in a baby's garment; expected none." in \
        proved(for_("babies"))[1][0]
    found = proved(for_("children"))[1]
    assert "cord-too-long: found ends of 20 cm in a child's garment; expected at most 7.5 cm" in \
        found[0]
    assert "EN 14682" in found[0] and "ASTM F1816-18" in found[0]
    proof, found = proved(for_("children", CORDED.replace("20 cm", "7 cm")))
    assert proof is not None, found
    proof, found = proved(for_("children", CORDED.replace(", ties: 20 cm", "")))
    assert proof is not None, found


def test_a_garment_for_anyone_is_warned_of() -> None:
    pattern_warned = proved(for_("anyone"))
    assert pattern_warned[0] is not None
    assert "cord-for-anyone" in {p.code for p in pattern_warned[0].findings}


def test_a_cord_without_its_width() -> None:
    assert messages(CORDED.replace("width: 6 mm, ", "")) == [
        '23:3: error, missing-key: found no "width" in the cord. Add a line such as "width: 6 mm".']

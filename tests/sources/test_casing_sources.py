"""Sources that ask for a casing: who may have a cord where, and what is refused with figures.

Standards as in the cautions page: EN 14682, ASTM F1816-18 and 16 CFR Part 1120, read in summaries.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from reading import BASE, changed, messages
from test_garment_sources import GARMENT
from test_pocket_sources import proved
from walebook.catalogue.section_keys import SECTION_KEYS
from walebook.core.edge_parts import SectionRole
from walebook.words.terms.section_names import SECTIONS

START = GARMENT[:GARMENT.index("  moved: 2\n")]
NECK = START.replace("set-in cardigan", "set-in pullover") + (
    "bands:\n  neck: {edge: neck, kind: casing, pick_up: 3/4, depth: 2 cm, "
    "cord: {width: 6 mm}}\n")
WAIST = START + (
    "edges:\n  waist:\n    kind: closed round\n    fabric: body\n    sections:\n"
    "      - {title: front, stitches: 60, stitches_are: on waste yarn}\n"
    "      - {title: back, stitches: 60, stitches_are: on waste yarn}\n"
    "bands:\n  waist: {edge: waist, kind: casing, pick_up: 3/4, depth: 2 cm, "
    "cord: {width: 6 mm, at: front, below_neck: yes}}\n")
# What a source called the sections of a garment's edges on 2026-11-30: a source that was sound
# then is sound today.
WRITTEN = {SectionRole.BACK_NECK: "back neck", SectionRole.FRONT_NECK: "front neck",
           SectionRole.LOWER_EDGE: "lower edge", SectionRole.SLEEVE_TOP: "sleeve top",
           SectionRole.POCKET: "pocket's stitches", SectionRole.FRONT_EDGE: "front edge"}
COWL = (Path(__file__).parents[2] / "patterns" / "foghorn-cowl" / "pattern.yaml").read_text(
    encoding="utf-8")
STANDARDS = ("The rules in force come first; standards to ask for: EN 14682, ASTM F1816-18 and 16 "
             "CFR Part 1120")


def for_(wearer: str, text: str) -> str:
    return text.replace("wearer: women", f"wearer: {wearer}")


def test_an_adult_may_have_a_cord_at_the_neck_and_the_waist() -> None:
    for text in (NECK, WAIST):
        proof, found = proved(text)
        assert proof is not None, found
        assert not {"cord-at-neck", "cord-for-anyone"} & {p.code for p in proof.findings}


def test_a_child_has_no_cord_at_the_neck() -> None:
    proof, found = proved(for_("children", NECK))
    assert proof is None
    assert f"cord-at-neck: found a cord along the neck of a child's garment; expected none at " \
        f"hood, head or neck. {STANDARDS}. Leave the cord out, or choose another kind of band." \
        in found[0]


@pytest.mark.parametrize("wearer", ("children", "anyone"))
@pytest.mark.parametrize("word", ("hood", "left half neck", "rim", "Saum"))
def test_where_an_edge_of_the_source_lies_is_no_matter_of_its_words(word: str, wearer: str
                                                                    ) -> None:
    """A cord along it lies at the neck until the source puts it below, whatever it is called."""
    text = for_(wearer, WAIST).replace("title: front,", f"title: {word},").replace(
        ", at: front", "")
    below = proved(text)
    assert below[0] is not None, below[1]
    assert "cord-at-neck" not in {p.code for p in below[0].findings}
    proof, found = proved(text.replace(", below_neck: yes", ""))
    assert "cord-at-neck" in (found[0] if proof is None else {p.code for p in proof.findings})


def test_what_the_finding_proposes_is_taken() -> None:
    text = for_("children", WAIST)
    _, found = proved(text.replace(", below_neck: yes", ""))
    assert "cord-at-neck: found a cord along the waist of a child's garment" in found[0]
    assert 'Leave the cord out, or write "below_neck: yes" for an edge at a waist or hem.' \
        in found[0]


def test_an_edge_of_an_own_outline_lies_at_the_neck_until_it_is_put_below() -> None:
    """A cowl goes round the neck, and its edge is called "left"."""
    text = COWL.replace("wearer: anyone", "wearer: children").replace("bed: mid", "bed: standard")
    text = text.replace(
        "kind: folded", "kind: casing\n    cord: {width: 6 mm}", 1)
    assert "cord-at-neck" in proved(text)[1][0]
    proof, found = proved(text.replace("6 mm}", "6 mm, below_neck: yes}"))
    assert proof is not None, found


def test_at_the_garment_s_own_neck_the_key_opens_no_way() -> None:
    text = for_("children", NECK).replace("{width: 6 mm}", "{width: 6 mm, below_neck: yes}")
    assert "cord-at-neck" in proved(text)[1][0]


def test_a_child_s_waist_has_short_ends_and_a_baby_s_none() -> None:
    proof, found = proved(for_("children", WAIST))
    assert proof is not None, found  # 7 cm where the source says nothing
    long = for_("children", WAIST).replace("6 mm,", "6 mm, ties: 20 cm,")
    assert f"cord-too-long: found ends of 20 cm in a child's garment; expected at most 7.5 cm " \
        f"outside the channel. {STANDARDS}" in proved(long)[1][0]
    for text in (NECK, WAIST):
        assert "cord-on-baby: found a cord in a baby's garment" in \
            proved(for_("babies", text))[1][0]


def test_a_baby_may_have_elastic_in_a_closed_channel() -> None:
    open_channel = ", cord: {width: 6 mm, at: front, below_neck: yes}"
    proof, found = proved(for_("babies", WAIST.replace(open_channel, "")))
    assert proof is not None, found


def test_a_cord_for_anyone_is_warned_of() -> None:
    for text, code in ((NECK, "cord-at-neck"), (WAIST, "cord-for-anyone")):
        proof, found = proved(for_("anyone", text))
        assert proof is not None, found
        assert code in {p.code for p in proof.findings}


def test_a_channel_must_be_deeper_than_its_cord() -> None:
    """2 cm of rows 100/42 mm high are 8 rows, 19 mm; a cord of 15 mm asks for 21."""
    _, found = proved(WAIST.replace("width: 6 mm", "width: 15 mm"))
    assert "casing-too-shallow: size S: found a cord of 15 mm in a casing 19 mm deep; expected a " \
        "casing 6 mm deeper than its cord: 21 mm. Make it at least 2.1 cm deep, or the cord " \
        "thinner." in found[0]


def test_a_section_must_be_there_once() -> None:
    _, found = proved(WAIST.replace("at: front", "at: middle"))
    assert 'no-such-section: size S: found "middle" along waist; expected one of front, back. ' \
        "Name one of them that is there once, or leave it out." in found[0]


def test_a_short_edge_has_no_room_for_two_eyelets() -> None:
    _, found = proved(WAIST.replace("title: front, stitches: 60", "title: front, stitches: 8"))
    assert "band-too-short: size S: found a casing of 68 stitches with its cord about stitch 4; " \
        "expected at least 5 stitches on either side of it" in found[0]


def test_a_cord_only_in_a_casing() -> None:
    text = changed("    dial: 4\n", "    dial: 4\n    cord: {width: 6 mm}\n", BASE)
    assert messages(text) == [
        "44:5: error, not-this-kind: found cord in a band of the kind enclosing; expected it only "
        "in a band of the kind casing. Delete it, or write kind: casing."]


def test_a_cord_of_open_ends_lies_at_no_section() -> None:
    found = messages(WAIST.replace("at: front", "at: front, openings: ends"))
    assert 'two-answers: found both "openings" and "at" in the cord of band "waist"' in found[-1]


def test_from_front_to_front_a_cord_comes_out_beside_each_end() -> None:
    text = NECK.replace("set-in pullover", "set-in cardigan")
    proof, found = proved(text)
    assert proof is not None, found
    for size in proof.sizes:
        (plan,) = size.plans
        assert plan.casing.openings == (3, plan.stitches.value - 3)
    assert "cord-not-round: size S: found openings in the middle of back neck, on an edge that " \
        "does not go round" in proved(text.replace("6 mm}", "6 mm, at: back neck}"))[1][0]


def test_a_section_keeps_its_key_whatever_pages_call_it(monkeypatch: pytest.MonkeyPatch) -> None:
    text = NECK.replace("set-in", "raglan").replace("6 mm}", "6 mm, at: back neck}")
    assert not any("no-such-section" in line for line in proved(text)[1])
    monkeypatch.setitem(SECTIONS, SectionRole.BACK_NECK, "neck at the back")
    assert not any("no-such-section" in line for line in proved(text)[1])
    other = proved(text.replace("at: back neck", "at: neck at the back"))[1]
    assert any("no-such-section" in line and "back neck" in line for line in other)


def test_every_section_has_one_key() -> None:
    assert SECTION_KEYS.keys() == {*SectionRole} - {SectionRole.OWN}
    assert len({*SECTION_KEYS.values()}) == len(SECTION_KEYS)
    assert WRITTEN.items() <= SECTION_KEYS.items()

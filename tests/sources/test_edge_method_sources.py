"""Sources that name ways on and off: what is read, and what is said of those that do not fit.

Messages are written from the rules of the format; lines and columns counted by hand.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from reading import changed
from reading import messages as band_messages
from test_garment_sources import GARMENT, HEM, messages, sound, spec
from walebook.catalogue.bands import KINDS
from walebook.catalogue.methods import BIND_OFFS, CAST_ONS
from walebook.core.problems import Problem
from walebook.pattern.model import Neck, Pattern
from walebook.plan.sense import check
from walebook.proof.proof import prove

from tests.against import wardrobe

BARE = changed(HEM, "", GARMENT)
ON, OFF = ", ".join(CAST_ONS), ", ".join(BIND_OFFS)
PIPED = "edge: pocket\n    pick_up: 3/4\n"


def test_ways_are_read_for_all_pieces_or_by_piece() -> None:
    text = changed("  moved: 2\n", "  cast_on: latch-tool chain\n"
                   "  bind_off: {sleeve: back-stitched, shoulders: grafted}\n", BARE)
    asked = spec(text)
    assert asked.cast_on == {"": "latch-tool chain"}
    assert asked.bind_off == {"sleeve": "back-stitched", "shoulders": "grafted"}
    assert (spec(BARE).cast_on, spec(BARE).bind_off) == ({}, {})


def test_a_band_ends_as_it_is_told_to() -> None:
    text = changed(PIPED, f"{PIPED}    kind: single\n    bind_off: around the gate pegs\n", GARMENT)
    assert sound(text).bands["pocket"].bind_off == "around the gate pegs"
    assert sound(GARMENT).bands["pocket"].bind_off == ""


@pytest.mark.parametrize(("new", "said"), [
    ("  cast_on: by hnad\n", '22:12: error, unknown-word: found "by hnad"; expected "by hand". '
                             "Write by hand."),
    ("  cast_on: knotted\n", f'22:12: error, unknown-word: found "knotted"; expected one of {ON}. '
                             "Use one of these words."),
    ("  bind_off: {sleeve: sideways}\n", f'22:22: error, unknown-word: found "sideways"; expected '
                                         f"one of {OFF}. Use one of these words."),
])
def test_a_word_that_is_no_way_is_refused(new: str, said: str) -> None:
    assert messages(changed("  moved: 2\n", new, BARE)) == [said]


@pytest.mark.parametrize(("kind", "method", "rest"), [
    ("enclosing", "grafted", ". Leave the line out: such a band ends in one way only."),
    ("folded", "around the gate pegs", "; expected yarnless chain or back-stitched. Write one of "
                                       "these."),
    ("single", "stitch over stitch", "; expected yarnless chain or around the gate pegs or "
                                     "around two gate pegs or latch-tool chain or back-stitched. "
                                     "Write one of these."),
])
def test_a_band_cannot_end_by_every_way(kind: str, method: str, rest: str) -> None:
    assert kind in KINDS
    text = changed(PIPED, f"{PIPED}    kind: {kind}\n    bind_off: {method}\n", GARMENT)
    assert messages(text) == [f'43:15: error, no-such-way: found {method} in band "pocket", whose '
                              f"kind is {kind}{rest}"]


def test_a_band_without_a_garment_reads_its_way_too() -> None:
    assert band_messages(changed("    waste_rows: 8\n", "    waste_rows: 8\n    bind_off: loop\n")
                         ) == [f'50:15: error, unknown-word: found "loop"; expected one of {OFF}. '
                               "Use one of these words."]


# Against the pieces that there are


def refused(form: str, *, hem: bool = False, **methods: dict[str, str]) -> list[str]:
    """What is found of a garment with these ways, each once."""
    made = asked(form, hem=hem, **methods)
    _, problems = prove(made)
    return list(dict.fromkeys(_said(p) for p in problems if p.severity.value == "error"))


def asked(form: str, *, hem: bool = False, neck: Neck = Neck.ROUND, **methods: dict[str, str]
          ) -> Pattern:
    own = "women"
    made = wardrobe.pattern(form, of=own, neck=neck, **({} if hem else {"fold": None}))
    assert made.garment is not None
    return replace(made, garment=replace(made.garment, **methods))


def _said(problem: Problem) -> str:
    return f"{problem.code}: {problem.message}"


PULLOVER = "drop-shoulder pullover"
ABLE = ("stitch over stitch or around the gate pegs or around two gate pegs or latch-tool chain or "
        "yarnless chain or back-stitched")


@pytest.mark.parametrize(("form", "methods", "said"), [
    (PULLOVER, {"bind_off": {"sleev": "back-stitched"}},
     'unknown-name: found no piece called "sleev"; expected "sleeve". Write sleeve.'),
    (PULLOVER, {"bind_off": {"sleeve": "grafted"}},
     f"no-such-way: found grafted for the sleeve; expected {ABLE}. Write one of these."),
    (PULLOVER, {"bind_off": {"back": "latch-tool chain"}},
     "no-such-way: found latch-tool chain for the back, where its last stitches wait on waste "
     "yarn: write shoulders for the way they are joined. Leave the line out."),
    (PULLOVER, {"bind_off": {"shoulders": "stitch over stitch"}},
     "no-such-way: found stitch over stitch for the shoulders; expected bound off together or "
     "grafted or back-stitched. Write one of these."),
    ("hat", {"bind_off": {"": "yarnless chain"}},
     "no-such-way: found yarnless chain for all pieces, of which none can have it; expected hat: "
     "its last stitches are drawn up. Leave the line out."),
    ("triangular shawl", {"bind_off": {"shawl": "stitch over stitch"}},
     "no-such-way: found stitch over stitch for the shawl; expected back-stitched or "
     "around two gate pegs or around the gate pegs. Write one of these."),
])
def test_a_way_that_a_piece_cannot_have_is_refused(form: str, methods: dict[str, dict[str, str]],
                                                   said: str) -> None:
    assert refused(form, **methods) == [said]


def test_a_hem_begins_in_its_own_way() -> None:
    assert refused(PULLOVER, hem=True, cast_on={"back": "by hand"}) == [
        "no-such-way: found by hand for the back, where a hung hem begins on its waste yarn. "
        "Leave the line out."]
    assert refused(PULLOVER, hem=False, cast_on={"back": "waste yarn"}) == []


@pytest.mark.parametrize("form", [PULLOVER, "set-in cardigan"])
def test_a_firm_neck_is_warned_of_where_a_head_must_go_through(form: str) -> None:
    made = asked(form)
    band = replace(made.bands["neck"], kind="single", bind_off="latch-tool chain")
    found = [_said(p) for p in check(replace(made, bands={"neck": band}))
             if p.code == "way-too-firm"]
    closed = form == PULLOVER
    assert found == closed * [
        "way-too-firm: found latch-tool chain at an edge that must go over the head: a plain "
        "chain, with a ridge on the knit side, that hardly stretches; expected an edge that gives. "
        "Write back-stitched, or stretch such an edge of a swatch over the head."]


def test_a_firm_cuff_of_a_mitten_is_warned_of() -> None:
    made = asked("mitten", cast_on={"hand": "latch-tool chain"})
    assert [p.code for p in check(made) if p.code.startswith("way")] == ["way-too-firm"]
    soft = asked("mitten", cast_on={"": "by hand"})
    assert not [p for p in check(soft) if p.code.startswith("way")]


@pytest.mark.parametrize(("new", "said"), [
    ("  bind_off_stretch: {around the gate pegs: 20 %}\n", []),
    ("  bind_off_stretch: {knotted: 20 %}\n", [
        f'22:22: error, unknown-word: found "knotted"; expected one of {OFF}. Use one of these '
        "words."]),
    ("  bind_off_stretch: {back-stitched: 250 %}\n", [
        '22:37: error, out-of-range: found "250 %"; expected a percentage from 0 % to 200 %. Check '
        "the figure."]),
    ("  bind_off_stretch: {back-stitched: far}\n", [
        '22:37: error, bad-percentage: found "far"; expected a percentage such as 2 %. Write a '
        "number and % after it."]),
])
def test_how_far_an_edge_stretches_is_read_by_its_way(new: str, said: list[str]) -> None:
    assert messages(changed("  moved: 2\n", new, BARE)) == said

"""Hats whose tops are closed in other ways: what a knitter must be able to do with both hands.

What is asked here is common practice in knitting and in editing patterns, no source.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.reader import page

TAG = re.compile(r"<[^>]+>")
HATS = ("capstan-hat/man", "fathom-hat/tween", "halyard-hat/child", "mooring-hat/child")


def refused(text: str, told: str, instead: str) -> set[str]:
    """The kinds of fault that the reader finds where a page says something else."""
    assert told in text, told
    return {fault.kind for fault in page.read(text.replace(told, instead)).faults}


def plain(text: str) -> str:
    """A page without its tags, a blank between words."""
    return re.sub(r"\s+([,.])", r"\1", re.sub(r"\s+", " ", TAG.sub(" ", text)))


@pytest.mark.parametrize(("name", "which", "other"), [
    ("capstan-hat/man", "all needles in work", "the needles that hold two loops"),
    ("halyard-hat/child", "the needles that hold two loops", "all needles in work")])
def test_needles_that_hold_two_loops_stand_forward_for_the_next_row(
        pages: dict[str, str], name: str, which: str, other: str) -> None:
    """Of an even number of stitches all hold two, of an odd one the last holds one."""
    text = pages[name]
    forward = f"Bring {which} fully forward, latches open. "
    assert "out-of-place" in refused(text, forward, "")
    assert "range" in refused(text, forward, f"Bring {other} fully forward, latches open. ")
    moved = plain(text).partition("Move the stitch of every other needle")[2]
    assert "How to gather a crown" in moved.partition(forward)[0]


@pytest.mark.parametrize(("name", "told", "instead"), [
    ("compass-hat/woman", "wrap</em> L27: the yarn", "wrap</em> L26: the yarn"),
    ("compass-hat/woman",
     " <em>Do not wrap</em> R28: the yarn would tie the quarters together.", ""),
    ("chandlery-closings/trial", "wrap</em> L1 or R20: the yarn",
     "wrap</em> L1 or R21: the yarn"),
    ("chandlery-closings/trial", "wrap</em> R19: the yarn ", "wrap</em> R18: the yarn ")])
def test_no_yarn_goes_round_a_needle_beside_a_part_that_stays_apart(
        pages: dict[str, str], name: str, told: str, instead: str) -> None:
    """The rule for short rows, that the yarn lies round the first held needle, would tie them."""
    assert refused(pages[name], told, instead) & {"range", "left-out", "out-of-place"}


def test_ends_in_a_double_hat_are_darned_in_before_its_seam_is_closed(pages: dict[str, str]
                                                                      ) -> None:
    """The layers shut them in: no needle reaches them afterwards."""
    said = plain(pages["halyard-hat/child"]).rpartition("Making up")[2]
    stages = ["Leave the last hand's breadth open", "Darn in all ends", "Sew the rest of the seam",
              "Push the end that was knitted first", "Wash the work",
              "Turn the lower edge up by 5 cm"]
    at = [said.index(stage) for stage in stages]
    assert at == sorted(at)
    text = pages["halyard-hat/child"]
    assert refused(text, "Leave the last hand's breadth open.", "")
    assert "from the lower edge" not in said.partition("Calculations")[0]


def test_a_brim_that_turns_up_is_sewn_from_the_side_that_shows_and_turned_up(pages: dict[str, str]
                                                                             ) -> None:
    text = pages["fathom-hat/tween"]
    assert refused(text, "Turn the lower edge up by 6 cm (2⅜ in),", "Turn the lower edge up by "
                   "5 cm (2 in),") == {"count"}
    hem = "At the hem sew the layer that faces you down to the fold, then the other layer from the"
    assert "left-out" in refused(text, f" {hem} fold back up.", "")
    inside = ("inside, which shows when the brim is turned up: at its top the hem's inner layer, "
              "knit side out, below it the purl side.")
    assert "left-out" in refused(text, inside, "purl side, which shows when the brim is turned up.")
    assert "left-out" in refused(text, f" Sew on from the {inside}", "")


@pytest.mark.parametrize(("slug", "told", "instead", "purl"), [
    ("fathom-hat", "{turn_up: 6 cm}", "{turn_up: 3 cm}", False),
    ("fathom-hat", "{turn_up: 6 cm}", "{turn_up: 6 cm}", True)])
def test_the_purl_side_shows_in_a_brim_that_is_deeper_than_its_hem(
        with_another: str, purl: bool) -> None:
    """Of a hem of 3 cm turned up by 3 cm the inner layer alone is seen."""
    text = with_another
    assert ("below it the purl side" in text) == purl
    assert not page.read(text).faults
    layer = "the hem's inner layer, knit side out"
    both = f"at its top {layer}, below it the purl side"
    said, other = (both, layer) if purl else (layer, both)
    assert "hem" in refused(text, f"turned up: {said}.", f"turned up: {other}.")


def test_the_linked_page_has_a_turned_brims_hem_in_the_same_order() -> None:
    """Common practice, no source: from the purl side the inner layers are those that are seen."""
    guide = Path(__file__).parents[2] / "site_src" / "techniques" / "mattress-seam-by-rows.md"
    steps = " ".join(guide.read_text("utf-8").partition("{ #steps }")[2].partition("##")[0].split())
    turned = steps.partition("for a brim that turns up,")[2].partition("{: #foot }")[0]
    assert turned.index("inner layers face you: go down") < turned.index("up the outer ones")
    bars = steps.partition("Find the bars")[2].partition("{: #bar }")[0]
    assert "On the purl side" in bars


def test_the_order_of_work_has_what_the_making_up_has(pages: dict[str, str]) -> None:
    """Washing too, and a brim that is turned up, without which the depth does not come out."""
    for name in HATS:
        text = plain(pages[name])
        short = text.partition("Order of work")[2].partition("Left and right are yours")[0]
        assert "wash" in short, name
        assert ("turn the brim up" in short) == ("Turn the lower edge up by" in text), name


def test_how_long_an_end_is_comes_before_it_is_cut(pages: dict[str, str]) -> None:
    late = re.compile(r"Cut the [^.]*\. Leave an end of about")
    assert not {name for name, text in pages.items() if late.search(plain(text))}


def test_what_a_hat_takes_fits_its_one_start_and_its_crown(pages: dict[str, str]) -> None:
    """A cord is not used again where nothing begins again, nor is waste yarn without a length."""
    for name in HATS:
        tools = plain(pages[name]).partition("Tools and materials")[2].partition("Cautions")[0]
        assert "Ravel cord: about" in tools and "used again" not in tools, name
        assert ("Garter bar" not in tools) or "waste yarn, a hand longer than the work" in tools

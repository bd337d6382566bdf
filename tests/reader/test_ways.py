"""What a page tells once, of its ways and its dangers, is refused where a word of it is wrong."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest

from tests.reader import cautions, grammar, page, ways
from tests.reader.visible import Block, sections

# A page that has the words, the words, others in their place.
WRONG = (
    ("gangway-pullover/2x", "knit side up and head to head, the waste", "purl side up and head to "
                            "head, the waste"),
    ("gangway-pullover/2x", "up through the first loop", "down through the first loop"),
    ("tide-pool-top/l", "Begin at the end away from the yarn", "Begin at the end beside the yarn"),
    ("little-lamp-cardigan/12-mo", "edges are laid knit sides", "edges are laid purl sides"),
    ("bowline-waistcoat/4", "into the front of the first stitch", "into the back of the first "
                            "stitch"),
    ("bowline-waistcoat/4", "Go on two stitches", "Go back two stitches"),
    ("bowline-waistcoat/4", "the one farthest from the carriage", "the one beside the carriage"),
    ("bowline-waistcoat/4", "only on the side away from the carriage", "only on the side of the "
                            "carriage"),
    ("bowline-waistcoat/4", "put them one needle inward", "put them one needle outward"),
    ("bowline-waistcoat/4", "Push the outermost needle", "Push the innermost needle"),
    ("bowline-waistcoat/4", "Keep your feet clear, and take the weights off these stitches. ",
     ""),
    ("bowline-waistcoat/4", "The carriage does not knit needles that are fully forward.", ""),
    ("bowline-waistcoat/4", "these stitches drop off, and", "these stitches stay on, and"),
    ("bowline-waistcoat/4", "Begin at the carriage's side", "Begin at the end away from the yarn"),
    ("bowline-waistcoat/4", "It takes 3 times", "It takes 2 times"),
    ("capstan-pullover/m", "Bring the next empty needle beside the edge to working position. ", ""),
    ("bowline-waistcoat/4", "Keep fingers clear", "Keep hands clear"),
    ("bowline-waistcoat/4", "Keep your feet clear, and take the weights off",
                            "Keep your hands clear, and take the weights off"),
    ("bowline-waistcoat/4", "can come off and choke: sew", "can come off: sew"),
    ("bowline-waistcoat/4", "and count it in again", "and count it out again"),
    ("bollard-slipover/m", "the weights off before you lift", "the weights off after you lift"),
)


@pytest.mark.parametrize(("name", "told", "instead"), WRONG)
def test_a_wrong_word_of_a_way_or_a_caution_is_refused(
        pages: dict[str, str], name: str, told: str, instead: str) -> None:
    assert told in pages[name]
    found = {one.section for one in page.read(pages[name].replace(told, instead)).faults}
    assert found & {ways.SHAPING, ways.EDGES, cautions.TITLE, *ways.WAYS}, found


def test_what_is_said_of_the_bed_is_what_the_bed_did(readings: Mapping[str, page.Reading]) -> None:
    """Not the table of sources alone speaks for these words, but the steps of some page."""
    did = {(title, act) for one in readings.values() for k in one.knitters
           for title, act, _, _ in k.did}
    said = {(title, act.strip("?")) for title, rows in ways.WAYS.items()
            for act, words, source in rows if source == ways.BED and words}
    assert said <= did, said - did


def test_steps_that_go_another_way_than_the_page_tells_are_found(
        readings: Mapping[str, page.Reading]) -> None:
    """The table has no part in it: a bed that did otherwise stands against the page's words."""
    reading = page.Reading("", readings["bowline-waistcoat/4"].groups)
    knitter = readings["bowline-waistcoat/4"].knitters[0]
    before = set(knitter.did)
    reading.knitters = [knitter]
    try:
        for title, act, slot, _ in (one for one in before if one[2]):
            knitter.did = {(title, act, slot, "elsewhere")}
            reading.faults = []
            ways.ways(reading)
            assert [one.message for one in reading.faults] == ["the steps go 'elsewhere'"]
    finally:
        knitter.did = before


def test_every_way_that_the_pages_tell_has_its_sources(
        readings: Mapping[str, page.Reading]) -> None:
    told = {title for one in readings.values() for group in one.groups
            if group.title in (ways.SHAPING, ways.EDGES) for title, _ in ways.entries(group)}
    assert told == set(ways.WAYS)
    assert all(source for title in told for _, _, source in ways.rows_of(title))


@pytest.mark.parametrize("name", cautions.WARNS)
def test_a_caution_that_is_left_out_is_missed(
        pages: dict[str, str], readings: Mapping[str, page.Reading], name: str) -> None:
    """Each stands in a separate block."""
    rows, _ = cautions.WARNS[name]
    have = next(one for one, reading in readings.items() if name in cautions.owed(reading))
    parts = sections(pages[have])
    spoiled = [part if part.title != cautions.TITLE else replace(part, blocks=[
        block for block in part.blocks if not begun(block, rows[0][0])]) for part in parts]
    faults = page.read_parts(spoiled).faults
    found = {one.message for one in faults if one.kind == "caution"}
    assert found == {"it warns of what the page has not" if name in ("child", "anyone") else
                     f"nothing warns of it: {cautions.WARNS[name][1]}"}


def begun(block: Block, act: str) -> bool:
    """Whether a block begins with the sentence of an act."""
    return grammar.read(grammar.sentences(block.text)[0]).act == act

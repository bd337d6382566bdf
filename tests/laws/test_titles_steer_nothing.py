"""What a designer calls a thing changes no step and no sentence but where its name stands.

The pattern has names of no meaning; put in their place, words that the program uses itself must
give the same pages with those words in them, letter for letter.
"""

from __future__ import annotations

import pytest
from walebook.core.units import read_length
from walebook.pages import write_pages
from walebook.pattern.fabrics import NeedleBed
from walebook.pattern.model import Pattern
from walebook.proof.proof import prove
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source

NEUTRAL = ("zqa one", "zqb two", "zqc three", "zqd four", "zqe five", "zqf six")
SOURCE = """title: zqa one
version: 1.0.0
date: 2026-11-25
designer: zqb two
licence: CC BY-NC 4.0
summary: A trial of names.
wearer: women
bed: standard
yarns:
  wool: {name: zqc three}
fabrics:
  body:
    yarn: wool
    dial: 6
    swatch: {stitches: 30, width: 13.4 cm, rows: 40, height: 13.2 cm}
sizes: [M]
edges:
  opening:
    kind: hem to hem
    fabric: body
    sections:
      - {rows: 130, title: zqd four}
      - {stitches: 31, stitches_are: on waste yarn, title: zqe five}
      - {rows: 130, title: zqf six}
  waist:
    kind: closed round
    fabric: body
    sections:
      - {stitches: 40, stitches_are: bound off, title: zqe five}
      - {stitches: 40, stitches_are: bound off, title: zqd four}
bands:
  whole:
    title: zqa one
    edge: opening
    kind: single
    fabric: body
    depth: 3 cm
    buttonholes: {button: 18 mm, number: 4, closing: one stitch}
  waist:
    title: zqb two
    edge: waist
    kind: casing
    fabric: body
    depth: 3 cm
    cord: {width: 6 mm, openings: eyelets}
"""
BED = NeedleBed(name="standard", pitch=read_length("4.5 mm"), needles=200)
# Words that modules look for, or that stand in sentences and names of theirs.
WORDS = ("back neck", "back", "top of the front band", "end of the neckband", "front neck",
         "the fold row", "picot", "for the buttonholes", "buttonhole", "to draw up", "main yarn",
         "waste yarn", "contrast yarn", "the foot of the placket", "all of them", "half",
         "front edge to front edge", "shoulder", "armhole", "neckband", "collar", "hem", "at last")


def made(text: str) -> Pattern:
    node, problems = parse_source(text, name="patterns/trial/pattern.yaml")
    assert node is not None, problems
    pattern, problems = read_pattern(node, slug="trial", beds={"standard": BED})
    assert pattern is not None, problems
    return pattern


def pages(text: str) -> dict[str, str]:
    proof, problems = prove(made(text))
    assert proof is not None, problems
    return {page.path: page.text for page in write_pages(proof)}


def named(text: str, names: tuple[str, ...]) -> str:
    """The text with every neutral name replaced, at the beginning of a sentence too."""
    for neutral, name in zip(NEUTRAL, names, strict=True):
        text = text.replace(neutral, name).replace(neutral.capitalize(), name.capitalize())
    return text


@pytest.fixture(scope="module")
def plain() -> dict[str, str]:
    return pages(SOURCE)


@pytest.mark.parametrize("word", WORDS)
def test_a_name_steers_nothing(word: str, plain: dict[str, str]) -> None:
    names = (f"{word} a", f"{word} b", f"{word} c", word, f"{word} e", f"{word} f")
    said = pages(named(SOURCE, names))
    for path, page in plain.items():
        assert said[path] == named(page, names), path


def test_a_long_band_is_cut_at_the_centre_back_that_is_said_to_be_one() -> None:
    """260 rows and 31 stitches at 30 / 13.4 and 40 / 13.2 to the centimetre are 291 of 200."""
    def joins(text: str) -> str:
        return "".join(pages(text).values())
    assert "centre back" not in joins(SOURCE)
    assert "centre back" in joins(SOURCE.replace("stitches: 31", "stitches: 31, centre_back: yes"))


def test_the_cord_comes_out_in_front_of_what_is_said_to_lie_behind() -> None:
    def starts(text: str) -> tuple[int, ...]:
        proof, _ = prove(made(text))
        assert proof is not None
        return next(p.casing.openings for p in proof.sizes[0].plans if p.casing.openings)
    behind = SOURCE.replace("stitches_are: bound off, title: zqd four}",
                            "stitches_are: bound off, centre_back: yes, title: zqd four}")
    assert behind != SOURCE
    assert starts(SOURCE) != starts(behind)

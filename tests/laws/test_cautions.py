"""A caution names what threatens, what it threatens (a part of the body, a person, the garment that
one wears) and what to do, and stands before the work.

Hazards at the machine: Knitting & Crochet Guild UK, health and safety (hooks); Diana Sullivan,
2011 (weights). Of children's clothes: EN 14682 and 16 CFR Part 1120 (cords), EN 17394-2:2020
(buttons). Garter bar, and what is counted back in: common practice, no source.
"""

from __future__ import annotations

import re
from html import unescape

import pytest
from walebook.words import caution_text

from tests.whole_collection import files

# What threatens, whom or what, and what to do about it. Of a choke or a strangling the neck is
# in the word.
CAUTIONS = {
    caution_text.SHARP: (r"sharp", r"fingers.*children", r"Keep \w+ clear.*keep \w+ away"),
    caution_text.WEIGHTS: (r"drop", r"feet", r"Keep your \w+ clear.*take the weights off"),
    caution_text.GARTER_BAR: (r"heavy.*open", r"fingers", r"Keep \w+ clear.*weights off before"),
    caution_text.BUTTONS: (
        r"come off", r"choke", r"sew them on firmly.*check them after every wash"),
    caution_text.DRAW_CORDS_OUT: (r"left in", r"strangle", r"draw out"),
    caution_text.MARKS_OUT: (r"left in", r"hurt or choke", r"count out.*count it in again before"),
    caution_text.NOTHING_ELSE: (r"small parts.*come off", r"catch or strangle", r"^Add only"),
    caution_text.count_cords(clips=True): (r"stays", r"in the work", r"^Count.*before"),
    caution_text.worn_cords(in_bands=True): (
        r"^Cords", r"strangle", r"none at neck.*Sew each down"),
    caution_text.worn_cords(in_bands=False): (r"^Cords", r"strangle", r"none at neck.*Sew it down")}
BESIDE = {caution_text.PAGE, caution_text.AT_THE_MACHINE}  # a link, and where it leads


def plain(html: str) -> str:
    """The words of a text."""
    return " ".join(unescape(re.sub(r"<[^>]+>", "", html)).split())


@pytest.mark.parametrize("said", CAUTIONS)
def test_a_caution_has_its_hazard_what_it_threatens_and_its_act(said: str) -> None:
    missing = [words for words in CAUTIONS[said] if not re.search(words, plain(said))]
    assert not missing, plain(said)


def test_every_text_of_cautions_is_held() -> None:
    texts = {value for name, value in vars(caution_text).items() if name.isupper()}
    assert texts - BESIDE <= set(CAUTIONS)


def test_cautions_stand_before_the_first_step() -> None:
    """On every size page, and before the gauge, at which a knitter sits down to swatch."""
    pages = [text for path, text in files().items()
             if path.endswith(".md") and not path.endswith("index.md")]
    assert pages
    for page in pages:
        sharp = page.index(caution_text.SHARP)
        assert sharp < page.index('id="gauge"') < page.index("Begin with an empty bed")

"""The colours of the site: every ink can be read on every ground that it stands on."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.contrast import MORE_TEXT, PART, TEXT, contrast

ASSETS = Path(__file__).parents[2] / "site_src" / "assets"
STYLE = ASSETS / "walebook.css"
FONTS = ASSETS / "fonts"
NAMES = {"paper", "leaf", "ink", "soft", "spot", "edge", "line", "wash", "yarn", "yarn-far",
         "second"}
DARK = "@media (prefers-color-scheme: dark)"
CHOSEN = {"light": ':root,\n[data-md-color-scheme="default"]', "dark": DARK,
          "chosen dark": '\n[data-md-color-scheme="slate"]',
          "black on white": '.wb-plain-colours [data-md-color-scheme="default"]',
          "white on black": '.wb-plain-colours [data-md-color-scheme="slate"]'}
# Ink, ground, least contrast. Body text is held to the stricter rule.
PAIRS = [("ink", "paper", MORE_TEXT), ("ink", "leaf", MORE_TEXT), ("ink", "wash", MORE_TEXT),
         ("soft", "paper", TEXT), ("soft", "leaf", TEXT), ("soft", "wash", TEXT),
         ("spot", "paper", TEXT), ("spot", "leaf", TEXT), ("spot", "wash", TEXT),
         ("paper", "ink", MORE_TEXT), ("paper", "spot", TEXT),
         ("edge", "paper", PART), ("edge", "leaf", PART), ("edge", "wash", PART),
         ("spot", "yarn", PART)]
ON_YARN = [("ink", "yarn", TEXT), ("ink", "yarn-far", PART)]


def tokens(scheme: str) -> dict[str, str]:
    """Return the colours of one scheme, by the names of their tokens."""
    text = re.sub(r"/\*.*?\*/", "", STYLE.read_text(encoding="utf-8"), flags=re.DOTALL)
    start = text.index(CHOSEN[scheme] + " {")
    block = text[start:].partition("}")[0]
    return dict(re.findall(r"--wb-([\w-]+): (#[0-9a-f]+);", block))


@pytest.mark.parametrize(("one", "other", "published"), [
    ("#000", "#fff", 21.0),  # WCAG 2.2, "contrast ratio": from 1:1 to 21:1
    ("#767676", "#ffffff", 4.54),  # the lightest grey that meets 4.5:1 on white: WebAIM
    ("#777777", "#ffffff", 4.48),  # the next one, which does not: WebAIM
    ("#ff0000", "#ffffff", 4.0)])  # WebAIM's contrast article names pure red as 4:1
def test_contrast_is_that_of_the_guidelines(one: str, other: str, published: float) -> None:
    """Published figures, from memory; to two decimals, red to none."""
    assert contrast(one, other) == pytest.approx(published, abs=0.005)
    assert contrast(other, one) == contrast(one, other)


@pytest.mark.parametrize("scheme", CHOSEN)
def test_every_ink_can_be_read_on_its_grounds(scheme: str) -> None:
    """WCAG 2.2, 1.4.3, 1.4.6 and 1.4.11."""
    found = tokens(scheme)
    pairs = PAIRS + ON_YARN if "yarn" in found else PAIRS[:-1]
    weak = {(ink, ground): round(contrast(found[ink], found[ground]), 2)
            for ink, ground, least in pairs if contrast(found[ink], found[ground]) < least}
    assert weak == {}


def test_both_schemes_have_every_token_and_the_chosen_dark_is_the_device_s() -> None:
    assert set(tokens("light")) == set(tokens("dark")) == NAMES
    assert tokens("dark") == tokens("chosen dark") != tokens("light")


def test_a_spoiled_token_is_found() -> None:
    """#999 on the paper has about 2.5 to 1: neither text nor the border of a control."""
    assert contrast("#999999", tokens("light")["paper"]) < PART


def test_the_typefaces_are_light_and_have_their_licences_beside_them() -> None:
    """The budget is the project's own: 110 kB for all of them."""
    faces = sorted(FONTS.glob("*.woff2"))
    assert faces and sum(face.stat().st_size for face in faces) <= 110_000
    licences = {path.name.removesuffix(".LICENSE.txt"): path.read_text(encoding="utf-8")
                for path in FONTS.glob("*.LICENSE.txt")}
    assert all("SIL OPEN FONT LICENSE" in text.upper() for text in licences.values())
    assert {face.name for face in faces if not face.name.startswith(tuple(licences))} == set()
    named = set(re.findall(r'url\("fonts/([^"]+)"\)',
                           (ASSETS / "fonts.css").read_text(encoding="utf-8")))
    assert named == {face.name for face in faces}

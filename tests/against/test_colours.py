"""Named colours and their contrast, against other people's figures.

Sources: Pillow 13 `ImageColor.colormap` (the names of CSS). WCAG 2.2, "relative luminance" and
"contrast ratio"; WCAG 2.2 Understanding 1.4.3: #777777 on white is 4.48:1 and so fails 4.5:1 (from
memory), black on white is 21:1. The formula is computed here in floating point as well.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from PIL import ImageColor
from walebook.core.colours import NAMED, contrast, luminance, read_colour
from walebook.drawings.garment_colour import INK, LIGHT_INK, far, lines_on

STYLES = Path(__file__).parents[2] / "site_src" / "assets"


def test_the_names_are_those_of_css() -> None:
    theirs = {name: value if isinstance(value, str) else "#{:02x}{:02x}{:02x}".format(*value[:3])
              for name, value in ImageColor.colormap.items()}
    assert {name: f"#{digits}" for name, digits in NAMED.items()} == {
        name: value.lower() for name, value in theirs.items()}


@pytest.mark.parametrize("said", ["#fff", "ff0000", "#gg0000", "#ff00000", "harbour", "#"])
def test_what_is_no_colour(said: str) -> None:
    with pytest.raises(ValueError, match=re.escape(said)):
        read_colour(said)


def formula(colour: str) -> float:
    """WCAG's own, in floating point."""
    def linear(c: float) -> float:
        return c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
    red, green, blue = (linear(int(colour[at:at + 2], 16) / 255) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("colour", ["#000000", "#ffffff", "#ff0000", "#0a0b0c", "#777777",
                                    "#a9bdba", "#f0e2d6"])
def test_luminance_is_that_of_the_formula(colour: str) -> None:
    assert float(luminance(colour)) == pytest.approx(formula(colour), abs=1e-8)


def test_published_contrasts() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21, abs=1e-7)
    assert float(contrast("#ffffff", "#777777")) == pytest.approx(4.48, abs=0.005)


def test_lines_are_told_from_black_white_and_red_yarn() -> None:
    """Whatever the yarn, light and dark, ink or paper gives its lines 3:1 as the classes say."""
    paper, dark = "#f5f2e8", "#12161d"
    for yarn in ("#000000", "#ffffff", "#ff0000", "#cc0000", "#8b0000", "#a9bdba", "#777777",
                 *(f"#{one:02x}{one:02x}{one:02x}" for one in range(0, 256, 5))):
        kind = lines_on(yarn)
        assert contrast(yarn, paper if kind == "wb-deep" else INK) >= 3, yarn
        assert contrast(yarn, dark if kind == "wb-pale" else LIGHT_INK) >= 3, yarn
        assert far(yarn) != yarn


def test_the_inks_are_those_of_the_page() -> None:
    text = (STYLES / "walebook.css").read_text(encoding="utf-8")
    found = [one.lower() for one in re.findall(r"--wb-ink:\s*(#[0-9a-fA-F]{6})", text)]
    assert {INK, LIGHT_INK} <= set(found)

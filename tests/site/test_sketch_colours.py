"""A sketch in black, white and red yarn, in the light, in the dark and in forced colours.

What a browser paints is read there and held against WCAG 2.2 (contrast ratio, 1.4.11: 3 to 1),
computed here in floating point; in forced colours against the colours of the system.
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import Browser
from walebook.drawings.garment import View, garment
from walebook.drawings.schematic import outlines

from tests.whole_collection import collection

ASSETS = Path(__file__).parents[2] / "site_src" / "assets"
STYLE = "".join((ASSETS / name).read_text(encoding="utf-8")
                for name in ("walebook.css", "garment.css"))
YARNS = {"black": "#000000", "white": "#ffffff", "red": "#ff0000", "none": ""}
PAINTED = """() => ["wb-fill wb-outline", "wb-far wb-outline", "wb-button"].flatMap(looks =>
    [...document.getElementsByClassName(looks)].map(mark => {
        const style = getComputedStyle(mark)
        return [style.fill, style.stroke]
    }))"""
SYSTEM = """() => ["Canvas", "CanvasText"].map(name => {
    const mark = document.createElement("i")
    mark.style.color = name
    document.body.append(mark)
    return getComputedStyle(mark).color
})"""


def sketch(colour: str) -> str:
    proof = next(p for p in collection().proofs if p.pattern.slug == "slack-tide-cardigan")
    yarns = {key: replace(yarn, colour=colour) for key, yarn in proof.pattern.yarns.items()}
    pattern, size = replace(proof.pattern, yarns=yarns), proof.sizes[0]
    return garment(pattern, size, outlines(pattern, size), views=(View.FRONT,))


def luminance(colour: str) -> float:
    found = [int(one) / 255 for one in re.findall(r"\d+", colour)[:3]]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
                        for c in found)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def painted(browser: Browser, text: str, scheme: Literal["light", "dark"],
            forced: Literal["active", "none"]) -> tuple[list[tuple[str, str]], list[str]]:
    page = browser.new_page(color_scheme=scheme, forced_colors=forced)
    page.set_content(f"<!doctype html><style>{STYLE}</style>{text}")
    found, system = page.evaluate(PAINTED), page.evaluate(SYSTEM)
    page.close()
    assert len(found) > 5
    return [(fill, stroke) for fill, stroke in found], system


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_lines_are_told_from_the_yarn(browser: Browser, scheme: Literal["light", "dark"]) -> None:
    for name, colour in YARNS.items():
        marks, _ = painted(browser, sketch(colour), scheme, "none")
        fill, stroke = marks[0]
        assert contrast(fill, stroke) >= 3, (name, fill, stroke)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_forced_colours_are_the_system_s(browser: Browser, scheme: Literal["light", "dark"]
                                         ) -> None:
    for colour in YARNS.values():
        marks, (canvas, text) = painted(browser, sketch(colour), scheme, "active")
        assert set(marks) == {(canvas, text)}

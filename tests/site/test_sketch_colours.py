"""A sketch in black, white and red yarn, in the light, in the dark and in forced colours.

Every form is drawn, in a scheme that the device asks for or the reader has chosen against it. What
a browser paints is read there and held against WCAG 2.2 (contrast ratio, 1.4.11: 3 to 1), computed
in floating point; in forced colours against the colours of the system.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Literal

import pytest
from playwright.sync_api import Browser, Page
from walebook.catalogue.forms import FORM_KINDS
from walebook.drawings.garment_sketch import garment
from walebook.drawings.schematic import outlines
from walebook.pattern.model import Fold
from walebook.proof.proof import Proof

from tests.against.wardrobe import pattern as cut
from tests.against.wardrobe import proved
from tests.contrast import PART, contrast
from tests.whole_collection import collection

ASSETS = Path(__file__).parents[2] / "site_src" / "assets"
STYLE = "".join((ASSETS / name).read_text(encoding="utf-8")
                for name in ("walebook.css", "garment.css"))
YARNS = {"black": "#000000", "white": "#ffffff", "red": "#ff0000", "dark red": "#8b0000",
         "grey": "#777777", "none": ""}
LOOKS = ["wb-fill wb-outline", "wb-far wb-outline", "wb-button"]
PAINTED = """looks => looks.flatMap(one => [...document.getElementsByClassName(one)].map(mark => {
    const { fill, stroke } = getComputedStyle(mark);
    return [one, fill, stroke];
}))"""
SYSTEM = """() => ["Canvas", "CanvasText"].map(name => {
    const mark = document.createElement("i")
    mark.style.color = name
    document.body.append(mark)
    return getComputedStyle(mark).color
})"""
# The device's scheme, and what the page's body says of the reader's choice.
LIGHT, DARK = '<body data-md-color-scheme="default">', '<body data-md-color-scheme="slate">'
SCHEMES: dict[str, tuple[Literal["light", "dark"], str]] = {
    "light": ("light", ""), "dark": ("dark", ""), "dark, chosen": ("light", DARK),
    "light, chosen": ("dark", LIGHT)}
Scheme = Literal["light", "dark"]


@cache
def proofs() -> dict[str, Proof]:
    """A proof for each form: the collection's first, or one cut for the purpose."""
    found: dict[str, Proof] = {}
    for proof in collection().proofs:
        if proof.pattern.garment:
            found.setdefault(proof.pattern.garment.form, proof)
    for form in set(FORM_KINDS) - set(found):
        found[form] = proved(cut(form, fold=Fold.LOOSE))
    return found


def sketch(form: str, colour: str) -> str:
    proof = proofs()[form]
    yarns = {key: replace(yarn, colour=colour) for key, yarn in proof.pattern.yarns.items()}
    pattern, size = replace(proof.pattern, yarns=yarns), proof.sizes[0]
    return garment(pattern, size, outlines(pattern.garment, pattern.fabrics, size))


def digits(colour: str) -> str:
    return "#" + "".join(f"{int(one):02x}" for one in re.findall(r"\d+", colour)[:3])


@pytest.fixture(params=SCHEMES)
def page(request: pytest.FixtureRequest, browser: Browser) -> Iterator[Page]:
    """An empty page in one of the schemes."""
    device, body = SCHEMES[request.param]
    page = browser.new_page(color_scheme=device)
    page.set_content(f"<!doctype html><style>{STYLE}</style>{body}<main></main>")
    yield page
    page.close()


def painted(page: Page, text: str) -> list[tuple[str, str, str]]:
    page.evaluate("text => { document.querySelector('main').innerHTML = text; }", text)
    found = page.evaluate(PAINTED, LOOKS)
    assert found
    return [(looks, fill, stroke) for looks, fill, stroke in found]


def test_lines_are_told_from_the_yarn_in_every_form(page: Page) -> None:
    weak = {(form, name, looks, fill, stroke)
            for form in FORM_KINDS for name, colour in YARNS.items()
            for looks, fill, stroke in painted(page, sketch(form, colour))
            if contrast(digits(fill), digits(stroke)) < PART}
    assert weak == set()


@pytest.mark.parametrize("device", ["light", "dark"])
def test_forced_colours_are_the_system_s(browser: Browser, device: Scheme) -> None:
    page = browser.new_page(color_scheme=device, forced_colors="active")
    page.set_content(f"<!doctype html><style>{STYLE}</style><main></main>")
    canvas, text = page.evaluate(SYSTEM)
    for form in FORM_KINDS:
        for colour in YARNS.values():
            marks = {(fill, stroke) for _, fill, stroke in painted(page, sketch(form, colour))}
            assert marks == {(canvas, text)}, (form, colour)
    page.close()

"""Closings that cannot be had, and the exact message each gets."""

from __future__ import annotations

from reading import FILE, messages, read
from walebook.proof import prove

SAMPLE = """\
title: Sampler
version: 1.0.0
date: 2026-11-25
designer: Wren Ashdown
licence: CC BY-NC 4.0
summary: A band.
wearer: women
bed: bulky
yarns:
  main: {name: Harbour}
fabrics:
  body:
    yarn: main
    dial: 5
    swatch: {stitches: 30, width: 15 cm, rows: 40, height: 14 cm}
sizes: [M]
edges:
  front: {fabric: body, length: 40 cm}
bands:
  front:
    edge: front
    kind: single
    fabric: body
    depth: 1.4 cm
    buttonholes: {button: 14 mm, number: 5, closing: slit}
"""


def findings(text: str) -> list[str]:
    """The errors of a source that can be read, when its bands are planned."""
    pattern, problems = read(text)
    assert pattern is not None, [str(p) for p in problems]
    return [str(p).removeprefix(f"{FILE}:") for p in prove(pattern)[1]
            if p.severity.value == "error"]


def test_a_slit_wants_a_row_before_and_after_it() -> None:
    """14 mm less a tenth is 3.6 rows of 3.5 mm, 4; a band of 4 rows has 2 to its middle."""
    assert findings(SAMPLE) == [
        "25:27: error, slit-too-long: size M: found slits of 4 rows on a band with 2 rows to its "
        "middle; expected a row at least before a slit and after it. Give each layer at least 6 "
        "rows, or choose a smaller button."]
    assert findings(SAMPLE.replace("1.4 cm", "2.1 cm")) == []


def test_a_band_names_the_closings_it_can_have() -> None:
    text = SAMPLE.replace("kind: single", "kind: facing")
    assert messages(text) == [
        '25:54: error, no-such-closing: found slit in a facing band; expected loops. Write '
        "closing: loops."]

"""Small patterns as a designer writes them: the head that checks share, and what a source comes to.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from walebook.core.problems import Problem, has_errors
from walebook.pages.from_texts import read_charts
from walebook.proof.proof import Proof
from walebook.proof.texts import Site, Texts, prove_texts

from tests.laws.texts import read_folder

ROOT = Path(__file__).parents[1]


def head(needles: int = 400, more_yarns: str = "") -> str:
    """All lines above the fabrics, with a bed of so many needles and one yarn, or more."""
    return f"""\
title: A case
version: 1
date: 2024-05-01
designer: Ada Quill
licence: CC0-1.0
summary: A case.
wearer: women
bed: {{pitch: 4.5 mm, needles: {needles}}}
yarns: {{wool: {{name: Harbour wool}}{more_yarns}}}
"""


def sampler(height: str = "14 cm") -> str:
    """All lines above the edges, with a fabric of 30 stitches to 15 cm and 40 rows to `height`."""
    return f"""\
title: Sampler
version: 1.0.0
date: 2026-11-25
designer: Wren Ashdown
licence: CC BY-NC 4.0
summary: A band.
wearer: women
bed: bulky
yarns:
  main: {{name: Harbour}}
fabrics:
  body:
    yarn: main
    dial: 5
    swatch: {{stitches: 30, width: 15 cm, rows: 40, height: {height}}}
sizes: [M]
"""


@cache
def what_comes_of(source: str) -> tuple[Proof | None, tuple[Problem, ...]]:
    """The proof of a source, None where it has errors, and all that is found in it.

    It can name the size charts of the demo, and no bed.
    """
    texts = Texts(slug="trial", source=source)
    proof, found = prove_texts(
        texts, beds={}, charts=read_charts(read_folder(ROOT)["charts"], texts, []),
        site=Site(lambda path: True, lambda proof, name: True))
    return proof, tuple(found)


def proved(source: str) -> Proof:
    """The proof of a source. Fails with its findings where there are errors."""
    proof, found = what_comes_of(source)
    assert proof is not None and not has_errors(found), [str(each) for each in found]
    return proof

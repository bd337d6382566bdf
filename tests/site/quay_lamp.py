"""The worked example as a pattern, in several foldings, and its pages read back.

Its figures are common practice, no source: 52 rows, three stitches for every four rows, 39
stitches, five holes of three.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from html import unescape
from html.parser import HTMLParser

import markdown
from walebook.core.units import read_dial
from walebook.machine.steps import Side
from walebook.pages import write_pages
from walebook.pattern.model import Fold, Pattern, Wearer
from walebook.proof.proof import Proof, prove

from tests import small_patterns as small

SIZES = ("S", "M", "3 months")
EXTENSIONS = ["admonition", "attr_list", "def_list", "md_in_html", "tables",
              "toc"]  # as in mkdocs.yml


def one(value, sizes=SIZES):
    return dict.fromkeys(sizes, value)


def worked(**changes) -> Pattern:
    """The worked example in size M, with a smaller and a larger size around it."""
    holes = small.holes("12 mm", stitches=one(3), buttonhole_count=one(5))
    band = small.band(dial=read_dial("6"), rows=small.layers(4, 4), buttonholes=holes)
    return replace(small.pattern(
        **{**small.DESIGNED, "summary": "Two front bands."}, slug="quay-lamp",
        title="Quay Lamp cardigan", bed=small.bed("standard bed", "4.5 mm", 200),
        yarns=small.wool("Tideline Sport", 50, "150 m", fibre="wool"),
        fabrics=(small.fabric("body", "8", small.swatch(40, "16 cm", 60, "18 cm")),),
        sizes=SIZES, edges=small.edges("body", {"S": 48, "M": 52, "3 months": 60}),
        bands=(band,)), **changes)


def proved(pattern: Pattern) -> Proof:
    proof, findings = prove(pattern)
    assert proof is not None, [str(f) for f in findings]
    return proof


def with_band(**changes) -> Pattern:
    pattern = worked()
    return replace(pattern, bands={"front": replace(pattern.bands["front"], **changes)})


def wide() -> Pattern:
    pattern = with_band()
    holes = replace(pattern.bands["front"].buttonholes, buttonhole_count=one(9), stitches=one(4))
    return replace(pattern, edges={"front": replace(pattern.edges["front"], rows=one(240))},
                   bands={"front": replace(pattern.bands["front"], buttonholes=holes)})


PATTERNS = {"turned": worked(), "picot": with_band(fold=Fold.PICOT),
            "loose, left front": with_band(
                fold=Fold.LOOSE,
                buttonholes=replace(worked().bands["front"].buttonholes, front=Side.LEFT)),
            "no holes": with_band(buttonholes=None), "180 stitches": wide(),
            "baby": worked(wearer=Wearer.BABIES, notes="# Hello\n\nWarm *and* light.")}


_WRITTEN: dict[int, tuple[Proof, dict[str, str]]] = {}


def built(proof: Proof) -> dict[str, str]:
    """The files of a proof, by their paths: written once for each proof."""
    if id(proof) not in _WRITTEN:  # the proof is kept with them: its id stays its own
        _WRITTEN[id(proof)] = proof, {f.path: f.text for f in write_pages(proof)}
    return _WRITTEN[id(proof)][1]


@cache
def body_html(text: str) -> str:
    """A page as the site builder renders it: front matter off, Markdown through."""
    return markdown.markdown(text.split("---\n", 2)[2], extensions=EXTENSIONS)


class Reader(HTMLParser):
    """Gathers elements with their attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))


def pages(proof: Proof) -> dict[str, str]:
    return {path: body_html(text) for path, text in built(proof).items() if path.endswith(".md")}


def steps_of(proof: Proof, size: str = "m") -> list[str]:
    """The steps of a size page, both bands, as plain text."""
    page = pages(proof)[f"patterns/quay-lamp/{size}.md"]
    plain = [unescape(re.sub(r"<[^>]+>", "", step)) for step in
             re.findall(r'<li id="front-(?:left|right)-\d+">(.*?)</li>\s*(?=<li id=|</ol>)', page,
                        re.S)]
    return plain


def where(told: list[str], said: str) -> list[int]:
    return [n for n, step in enumerate(told) if said in step]

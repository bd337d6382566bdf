"""Whole garments built from values, with every band their form takes, and their pages' steps.

Gauges and measures are plain figures of ours; the body charts are the collection's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from html import unescape

from walebook.core.units import read_length
from walebook.forms.registry import FORMS
from walebook.pattern.fabrics import Swatch
from walebook.pattern.holes import Distance
from walebook.pattern.model import Band, Fold, Neck, Pattern
from walebook.proof.proof import Proof, prove
from walebook.shape.garment import Garment
from walebook.words.making_up_instructions import instructions

from tests import small_patterns as small
from tests.against.wardrobe import chart

SIZES = ("S", "M", "L")
TITLES = {"neck": "Neckband", "front_edge": "Front band", "armhole": "Armhole band",
          "brim": "Brim band", "cuff": "Cuff band"}


def garment(form: str, *, neck: Neck = Neck.ROUND, hem: Fold | None = Fold.LOOSE,
            fold: Fold = Fold.LOOSE, bands: bool = True, title: str = "Harbour") -> Pattern:
    """A garment of one of the forms in three sizes, its bands folded by `fold`.

    A shawl's long edge takes no hem.
    """
    hem = None if "shawl" in form else hem
    made = [_band(edge, fold) for edge in TITLES if bands and edge in FORMS[form].edges]
    return small.pattern(
        **small.DESIGNED, slug="harbour", title=title, bed=small.bed("bulky", "9 mm", 400),
        yarns=small.wool("Tideline Aran", 50, "80 m"), sizes=SIZES, bands=tuple(made),
        fabrics=(small.fabric("body", "6", _swatch("14.2 cm", "15 cm")),
                 small.fabric("band", "4", _swatch("13.2 cm", "14.1 cm"))),
        garment=small.spec(form, chart=chart("women"), neck=neck, hem=small.hem(hem)))


def _swatch(width: str, height: str) -> Swatch:
    return small.swatch(20, width, 30, height, grams=12)


def _band(edge: str, fold: Fold) -> Band:
    holes = small.holes(
        "18 mm", every=read_length("8 cm"), lower=Distance(length=read_length("2 cm")),
        upper=Distance(length=read_length("5 cm"))) if edge == "front_edge" else None
    return small.band(key=edge.partition("_")[0], title=TITLES[edge], edge=edge, fabric="band",
                      fold=fold, depth=dict.fromkeys(SIZES, read_length("3 cm")), stitches_in=1,
                      buttonholes=holes)


def made_up(garment: Garment) -> tuple[str, ...]:
    """The steps of the making up as they are read, with the threads at a straight armhole."""
    tied = any(section.tied for key, edge in garment.edges.items() if key.endswith("armhole")
               for section in edge.sections)
    tasks = [replace(task, tied=tied) for task in garment.tasks]
    return tuple(unescape(re.sub(r"<[^>]+>", "", one.text))
                 for one in instructions(tasks, garment.joins))


@cache
def assembled(form: str, neck: Neck = Neck.ROUND, hem: Fold | None = Fold.LOOSE) -> Proof:
    """The garment knitted on the bed in all its sizes."""
    proof, findings = prove(garment(form, neck=neck, hem=hem))
    assert proof is not None, [str(f) for f in findings]
    return proof


STEP = re.compile(r'<li id="((?:[a-z]+-)+)(\d+)">(.*?)</li>\n', re.S)


def steps_under(page: str, anchor: str) -> Iterator[str]:
    """The HTML of the numbered steps whose ids begin with `anchor`, in their order."""
    for prefix, _, told in STEP.findall(page):
        if prefix == f"{anchor}-":
            yield told

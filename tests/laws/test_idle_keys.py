"""A key of a garment changes a page of its form, or the check says that it does nothing there."""

from __future__ import annotations

import copy
from typing import Any

import pytest
import yaml
from walebook.forms.registry import FORMS
from walebook.pages import write_pages
from walebook.proof.proof import prove

from tests.laws.test_any_source import read
from tests.laws.test_defaults_worn import WIDE, source

KEYS: dict[str, Any] = {
    "neck": "v", "moved": "2", "placket": "12 cm", "align": "side seam",
    "cuff": {"depth": "3 cm"}, "hem": {"depth": "3 cm"}, "drawing": "body",
    "armhole": {"curve": "by thirds"}, "cap": {"curve": "bell"}, "neckline": {"curve": "ellipse"},
    "shoulders": {"remainder": "last step"}, "darts": {"inset": "11 cm"},
    "bust_darts": {"extra": "3 cm"}, "shirt_tail": {"depth": "6 cm"},
    "pockets": {"width": "13 cm", "height": "20 cm"}, "cord": {"width": "6 mm"},
    "crown": {"shape": "wedges"}, "slopes": {"sleeve": {"order": "mixed evenly"}},
    "side_by_side": ["sleeves"]}
PLAIN = [form for form in FORMS if FORMS[form].measures]  # an own outline has none by itself


def plain(form: str) -> dict[str, Any]:
    """A garment of this form in one size, with nothing but what must be given."""
    chart = "heads" if form == "hat" else "women" if FORMS[form].is_worn else ""
    made = yaml.safe_load(source(form, chart, "round", (14, 20) if form in WIDE else (20, 28)))
    del made["garment"]["neck"]
    made["sizes"] = {"heads": ["woman"], "women": ["M"]}.get(chart, made["sizes"])
    return made


def published(made: dict[str, Any]) -> tuple[set[str], dict[str, str]]:
    """The findings of a source, and its pages where it can be knitted."""
    pattern, found = read(yaml.safe_dump(made, allow_unicode=True))
    proof, more = prove(pattern) if pattern else (None, ())
    pages = {page.path: page.text for page in write_pages(proof)} if proof else {}
    return {f"{p.code}: {p.found}" for p in (*found, *more)}, pages


@pytest.mark.parametrize("form", PLAIN)
def test_a_key_of_a_garment_is_heard_or_called_idle(form: str) -> None:
    base = plain(form)
    found, pages = published(base)
    for key, value in KEYS.items():
        changed = copy.deepcopy(base)
        changed["garment"][key] = value
        more, other = published(changed)
        assert more - found or other != pages, key


@pytest.mark.parametrize(("garment", "idle"), [
    ({"form": "hat", "crown": {"shape": "side decreases"}, "measures": {"hat_length": "50 cm"}},
     False),
    ({"form": "hat", "crown": {"shape": "quarters"}}, False), ({"form": "hat"}, True)])
def test_moved_is_idle_in_a_crown_without_decreases(garment: dict[str, Any], idle: bool) -> None:
    made = plain("hat")
    made["garment"] |= garment
    _, before = published(made)
    made["garment"]["moved"] = "2"
    found, after = published(made)
    assert before and after
    assert (before == after) is idle
    assert any("moved in a hat" in said for said in found) is idle


def test_a_boat_neck_of_a_sideways_pullover_is_what_it_has() -> None:
    made = plain("sideways pullover")
    made["garment"]["neck"] = "boat"
    assert not any(said.startswith("unused") for said in published(made)[0])

"""Every form on every chart that fits it, all its measures at their defaults, can be worn.

A garment comes about in every size without a warning: its neck passes the head, its sleeves end
at the wrist, its figures run in step. What cannot go together is named here, with the reason.
"""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

import pytest
import yaml
from walebook.core.problems import Problem, Severity
from walebook.forms.registry import FORMS
from walebook.pattern.model import Neck
from walebook.proof.proof import prove

from tests.laws import pieces
from tests.laws.test_any_source import read

CHARTS = {"women": "women", "men": "men", "children": "children", "babies": "babies",
          "heads": "anyone", "european-women": "women"}
# Stitches and rows to 10 cm, from bulky to fine: the ratio about as published (1.28 to 1.50).
GAUGES = ((12, 15), (14, 20), (16, 24), (17, 23), (18, 26), (20, 28), (24, 30), (27, 38), (30, 44))
BODIES = [name for name, form in FORMS.items() if form.is_worn and name != "hat"]
# Forms cut from no body take any chart and make nothing of it: they are held once, on none.
FREE = [name for name, form in FORMS.items() if not form.is_worn and form.measures]
# A form and a chart that cannot go together, and what the chart does not have.
APART = {**{(form, "heads"): "chest" for form in BODIES},
         **{(form, "european-women"): "back_waist_length" for form in BODIES},
         ("hat", "european-women"): "head"}
PAIRS = [(form, key) for form in (*BODIES, "hat") for key in CHARTS if (form, key) not in APART]
# A baby's set-in cap has too few rows of a bulky yarn to fit its armhole: refused with figures.
BULKY = 16
# Too long for every bed there is, whatever the gauge: knitted in two or sideways by its designer.
WIDE = {"triangular shawl"}


def source(form: str, key: str, neck: str, gauge: tuple[int, int]) -> str:
    """A pattern with nothing but what must be given, in every size of the chart."""
    sizes = list(pieces.chart(key).sizes) if key else ["one"]
    swatch = {"stitches": str(gauge[0]), "width": "10 cm", "rows": str(gauge[1]),
              "height": "10 cm"}
    return yaml.safe_dump({
        "title": "Lantern", "version": "1", "date": "2026-11-20", "designer": "Isolde Penhallow",
        "licence": "CC BY-NC 4.0", "summary": "All at its defaults.",
        "wearer": CHARTS.get(key, "anyone"), "bed": {"pitch": "4.5 mm", "needles": "300"},
        "yarns": {"main": {"name": "Quay"}},
        "fabrics": {"body": {"yarn": "main", "dial": "5", "swatch": swatch}}, "sizes": sizes,
        "garment": {"form": form, "fabric": "body", "neck": neck,
                    **({"chart": key} if key else {})}}, allow_unicode=True)


def amiss(text: str) -> list[str]:
    """Every error and warning of a source, in all its sizes; not that of a neck which every source
    here names, and some forms do not shape."""
    pattern, found = read(text)
    more: tuple[Problem, ...] = prove(pattern)[1] if pattern else ()
    return [f"{p.size} {p.code}: {p.found}" for p in (*found, *more)
            if p.severity in (Severity.ERROR, Severity.WARNING)
            and not (p.code == "unused" and p.found.startswith("neck: "))]


def necks(form: str) -> list[str]:
    return [neck.value for neck in Neck] if "neck" in FORMS[form].edges else ["round"]


def whole_product() -> Iterator[tuple[str, str, str, tuple[int, int]]]:
    for form, key in PAIRS:
        for neck in necks(form):
            for gauge in GAUGES:
                if key == "babies" and form.startswith("set-in") and gauge[0] < BULKY:
                    continue
                yield form, key, neck, gauge


SOME = Random(9).sample(list(whole_product()), 24)


# A child's raglan has the least room between neck and underarm: looked at in every run.
PINNED = [("raglan pullover", "children", neck.value, (20, 28)) for neck in Neck]


@pytest.mark.parametrize(("form", "key", "neck", "gauge"), [*SOME, *PINNED])
def test_a_form_at_its_defaults_can_be_worn(form: str, key: str, neck: str, gauge: tuple[int, int]
                                            ) -> None:
    assert amiss(source(form, key, neck, gauge)) == []


@pytest.mark.long
@pytest.mark.parametrize(("form", "key"), PAIRS)
def test_every_form_at_its_defaults_can_be_worn(form: str, key: str) -> None:
    assert [f"{neck} {gauge}: {said}" for one, other, neck, gauge in whole_product()
            if (one, other) == (form, key) for said in amiss(source(form, key, neck, gauge))] == []


# Bands as plain as can be written on every edge that a form has, with their holes at the defaults.
BANDS = {"neck": {"depth": "2.5 cm"}, "armhole": {"depth": "2 cm"},
         "front_edge": {"depth": "3 cm", "buttonholes": {"button": "18 mm", "number": "6"}}}
BANDED = [(form, key, neck, gauge) for form in BODIES for key in ("women", "men")
          for neck in necks(form) for gauge in ((20, 28), (30, 44))]


def banded(form: str, key: str, neck: str, gauge: tuple[int, int]) -> str:
    """The same pattern, with a band on every edge of its form."""
    made = yaml.safe_load(source(form, key, neck, gauge))
    made["bands"] = {edge: {"edge": edge, "fabric": "body", **BANDS[edge]}
                     for edge in FORMS[form].edges if edge in BANDS}
    return yaml.safe_dump(made, allow_unicode=True)


@pytest.mark.parametrize(("form", "key", "neck", "gauge"), Random(4).sample(
    [one for one in BANDED if "front_edge" in FORMS[one[0]].edges], 12) + Random(4).sample(
    [one for one in BANDED if "front_edge" not in FORMS[one[0]].edges], 6))
def test_plain_bands_at_their_defaults_need_no_change(form: str, key: str, neck: str,
                                                      gauge: tuple[int, int]) -> None:
    assert amiss(banded(form, key, neck, gauge)) == []


@pytest.mark.long
@pytest.mark.parametrize("form", BODIES)
def test_plain_bands_of_every_form_need_no_change(form: str) -> None:
    assert [f"{one[1:]}: {said}" for one in BANDED if one[0] == form
            for said in amiss(banded(*one))] == []


@pytest.mark.parametrize("form", FREE)
def test_a_form_cut_from_no_body_needs_no_chart(form: str) -> None:
    gauge = (14, 20) if form in WIDE else (24, 32)
    assert amiss(source(form, "", "round", gauge)) == []


@pytest.mark.parametrize(("form", "key"), APART)
def test_a_chart_that_a_form_cannot_be_cut_from_says_what_it_lacks(form: str, key: str) -> None:
    found = amiss(source(form, key, "round", (20, 28)))
    assert any(f'missing-measurement: no {APART[form, key]} in the chart "{key}"' in said
               for said in found), found


@pytest.mark.parametrize("form", [f for f in BODIES if "front_edge" not in FORMS[f].edges])
def test_a_neck_too_narrow_for_the_head_is_warned_of(form: str) -> None:
    """The law fails where a default is spoiled: 8 cm wide passes no child's head of 51 cm."""
    text = source(form, "children", "round", (20, 28))
    spoiled = text.replace("  neck: round\n", "  neck: round\n  measures: {neck_width: 8 cm}\n")
    assert any("neck-over-head" in said for said in amiss(spoiled))

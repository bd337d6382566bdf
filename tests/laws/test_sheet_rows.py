"""The rows and the width of a piece in a workbook come from its form's counts, not from a figure
that happens to be the same."""

from __future__ import annotations

from dataclasses import replace

import pytest
from walebook.core.counted import Count
from walebook.core.counts import Unit
from walebook.core.expression import Sum, plain
from walebook.core.expression_parts import inside
from walebook.core.units import length_cm
from walebook.pages.sheet_pieces import derived
from walebook.proof.proof import prove
from walebook.sizing.charts import Row, SizeCell
from walebook.sizing.own_sizes import bodiless
from walebook.words.sheet_text import input_text

from tests.laws.test_folds import measures
from tests.laws.test_outlines import source
from tests.sources.reading import read
from tests.whole_collection import collection

# At 30 stitches and 42 rows to 10 cm both pieces are as wide at their widest: 36 cm are 108.
MEASURES = {"back_hem": "30 cm", "back_wide": "36 cm", "back_up": "20 cm", "back_long": "40 cm",
            "front_hem": "36 cm", "front_wide": "36 cm", "front_up": "20 cm", "front_long": "40 cm"}


def piece(key: str) -> dict[str, object]:
    return {"width": f"{key}_hem", "height": f"{key}_long", "sides": [
        {"height": f"{key}_up", "width": f"{key}_wide", "name": f"{key}_side"}]}


@pytest.mark.parametrize("key", ["back", "front"])
def test_an_own_piece_is_as_wide_and_high_as_its_own_counts_say(key: str) -> None:
    """A front of the designer's is not cut like her back, though both come to 108 stitches and 168
    rows: its formula names its measures and no other's."""
    pattern, found = read(source({"measures": MEASURES,
                                  "pieces": {"back": piece("back"), "front": piece("front")}}))
    assert pattern is not None, [str(p) for p in found]
    proof, found = prove(pattern)
    assert proof is not None, [str(p) for p in found]
    (size,) = proof.sizes
    assert size.assembled is not None
    garment = size.assembled.garment
    (knitted,) = [one for one in size.pieces if one.piece.key == key]
    made = {name: tree for name, _, tree in derived(garment, knitted)}
    assert (made["widest"].value, made["rows"].value) == (108, 168)
    for name, tree in made.items():
        named = measures(tree)
        assert named and all(one.startswith(key) for one in named), (name, named)


def test_another_count_of_the_same_value_takes_no_part() -> None:
    """A sleeve's rows are those up to the underarm and those of the cap, whatever it counts too."""
    (proof,) = [one for one in collection().proofs if one.pattern.slug == "slack-tide-cardigan"]
    size = proof.sizes[0]
    assert size.assembled is not None
    garment = size.assembled.garment
    (sleeve,) = [one for one in size.pieces if one.piece.key == "sleeve"]
    whole = next(tree for name, _, tree in derived(garment, sleeve) if name == "rows")
    counted = {name: count.value for key, name, count in garment.counts if key == "sleeve"}
    assert isinstance(whole, Sum)
    assert [part.value for part in whole.parts[:2]] == [counted["rows_to_underarm"],
                                                        counted["cap_rows"]]
    for name in ("rows", "lining_rows"):
        also = Count(plain(int(whole.value)), Unit.ROWS)
        more = replace(garment, counts=(*garment.counts, ("sleeve", name, also)))
        assert next(tree for name, _, tree in derived(more, sleeve) if name == "rows") == whole


def test_a_body_measurement_is_an_input_by_the_label_of_its_row() -> None:
    """Whatever figures are in the label, such as that of a vertebra."""
    cell = SizeCell(length_cm(60), length_cm(62), cm="60–62")
    chart = replace(bodiless(("12",)), key="women", rows={
        "neck_to_wrist": Row("neck_to_wrist", "C7 to wrist, bent", "", "", {"12": cell})})
    low, high = inside(chart.measurement("neck_to_wrist", "12").made.of)
    assert {input_text("", low), input_text("", high)} == {"C7 to wrist, bent"}
    assert low.name == "women 12, C7 to wrist, bent 60–62 cm, middle"

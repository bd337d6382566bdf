"""Rows counted, rows drawn and rows knitted are the same, for every piece of every form."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.units import Length
from walebook.fabric.gauge import Gauge
from walebook.forms.registry import FORMS
from walebook.machine.edge_steps import TakeOff
from walebook.machine.reasons import Reason
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Knit, SetCounter
from walebook.pattern.model import Neck
from walebook.proof.proof import KnittedPiece
from walebook.shape.dimension_names import NECK_DEPTH
from walebook.shape.garment import CannotShape, Garment
from walebook.shape.outline import outline
from walebook.shape.piece import Piece
from walebook.source.fabric_reading import size_slug

from tests.laws import pieces
from tests.scale import examples
from tests.small_patterns import given_length
from tests.whole_collection import collection, files

# What the rows of a piece are counted in, from its cast-on or hem to its top.
HEIGHTS = ("rows_to_armhole", "armhole_rows", "shoulder_rows", "rows_to_raglan",
           "raglan_rows", "strap_rows", "top_rows",
           "rows_to_underarm", "cap_rows")
WORN = [name for name, form in FORMS.items() if form.is_worn and name not in ("hat", "mitten")]
DIVIDED = [name for name in WORN if not name.startswith("sideways")]  # with a neck in its rows
FITTED = [name for name in WORN if name.startswith(("drop", "set-in"))]
sizes = st.sampled_from(pieces.chart("women").sizes)
gauges = st.builds(pieces.gauge, st.integers(18, 34), st.integers(24, 52))


def shaped(form: str, neck: Neck, size: str, gauge: Gauge, *, hem: bool = False
           ) -> Garment | None:
    made = pieces.cut(form, dict(pieces.chart("women").measurements(size)), gauge, neck=neck,
                      band=24, hem=pieces.hem(30, pieces.Fold.LOOSE) if hem else None)
    try:
        return FORMS[form].shape(made)
    except CannotShape:
        return None


def counted(garment: Garment, piece: Piece) -> int:
    """The rows of a piece as its counts have them; a front's are the back's."""
    own = "sleeve" if piece.key == "sleeve" else "back"
    rows = {name: count.value for key, name, count in garment.counts if key == own}
    return rows.get("rows") or sum(rows.get(name, 0) for name in HEIGHTS)


@pytest.mark.parametrize("form", WORN)
@given(neck=st.sampled_from((Neck.ROUND, Neck.V)), size=sizes, gauge=gauges)
@settings(max_examples=examples(6), deadline=None)
def test_a_piece_is_as_high_as_its_rows_are_counted(form: str, neck: Neck, size: str, gauge: Gauge
                                                    ) -> None:
    garment = shaped(form, neck, size, gauge)
    for piece in garment.pieces if garment else ():
        assert outline(piece, gauge).height == counted(garment, piece) * gauge.row, piece.key


@pytest.mark.sampled(20, each=("form", "neck"))
@pytest.mark.parametrize("neck", Neck)
@pytest.mark.parametrize("form", DIVIDED)
@given(size=sizes, gauge=gauges)
@settings(max_examples=examples(4), deadline=None)
def test_a_neck_is_as_deep_as_its_rows_are_counted(form: str, neck: Neck, size: str, gauge: Gauge
                                                   ) -> None:
    garment = shaped(form, neck, size, gauge)
    found = necks(garment) if garment else []
    assert found or garment is None
    for piece, count in found:
        drawn = outline(piece, gauge).dimension(NECK_DEPTH)
        assert drawn is not None and drawn.length.mm == count * gauge.row, piece.key


def necks(garment: Garment) -> list[tuple[Piece, int]]:
    """Each piece with a neck whose rows are counted, and these."""
    every = {piece.key: piece for piece in garment.pieces}
    return [(every[key], count.value) for key, name, count in (
        *garment.counts, *garment.workings) if name == "neck_rows"]


@pytest.mark.sampled(20, each=("form", "neck"))
@pytest.mark.parametrize("neck", Neck)
@pytest.mark.parametrize("form", DIVIDED)
def test_the_bed_knits_a_neck_in_the_rows_that_are_counted(form: str, neck: Neck) -> None:
    """From the counter's reading at which a whole piece divides, or at which stitches are first
    bound off at a front edge; a V there begins with no step."""
    garment = shaped(form, neck, "L", pieces.gauge(20, 36))
    assert garment is not None
    for piece, count in necks(garment):
        program, result = pieces.knit(piece)
        done = [(step, state) for step, state in zip(
            (step for part in program.sections for step in part.steps), result.states, strict=True)]
        divided = [step.rows for step, _ in done if step.reason is Reason.WHERE_DIVIDED
                   and isinstance(step, SetCounter)]
        if not divided and neck is Neck.V:
            continue
        main = [state for step, state in done
                if isinstance(step, Knit) and step.yarn == StepYarn.MAIN]
        edge = main[0].loaded.first
        begins = divided[0] if divided else next(
            state.counter for _, state in done if state.loaded and state.counter > main[0].counter
            and edge < state.loaded.first)
        assert max(state.counter for state in main) - begins == count, piece.key


@pytest.mark.parametrize("form", WORN)
def test_the_bed_knits_the_rows_that_are_counted(form: str) -> None:
    garment = shaped(form, Neck.ROUND, "M", pieces.gauge(26, 38), hem=True)
    assert garment is not None
    for piece in garment.pieces:
        assert last_counter(piece) == counted(garment, piece), piece.key


def last_counter(piece: Piece) -> int:
    """The highest reading of the row counter after rows of the main yarn on the bed."""
    program, result = pieces.knit(piece)
    done = [step for part in program.sections for step in part.steps]
    return max(state.counter for step, state in zip(done, result.states, strict=True)
               if isinstance(step, Knit) and step.yarn == StepYarn.MAIN)


@pytest.mark.parametrize("form", [name for name in WORN if name[:1] != "s" or "set-in" in name])
@given(neck=st.sampled_from((Neck.ROUND, Neck.V)), size=sizes, gauge=gauges, hem=st.booleans())
@settings(max_examples=examples(4), deadline=None)
def test_a_garment_is_as_long_as_its_back_is_drawn(form: str, neck: Neck, size: str, gauge: Gauge,
                                                   hem: bool) -> None:
    garment = shaped(form, neck, size, gauge, hem=hem)
    if garment is not None:
        back = next(p for p in garment.pieces if p.key == "back")
        assert garment.finished["length"].mm == outline(back, gauge).height


@pytest.mark.parametrize("form", ["hat", "mitten", "panelled blanket", "triangular shawl"])
@given(gauge=gauges)
@settings(max_examples=examples(5), deadline=None)
def test_a_straight_piece_is_as_high_as_its_rows_are_counted(form: str, gauge: Gauge) -> None:
    known = {"head": given_length(Length(Fraction(560)))}
    garment = FORMS[form].shape(pieces.cut(form, known, gauge))
    counts = {(key, name): count.value for key, name, count in garment.counts}
    for piece in garment.pieces:
        assert outline(piece, gauge).height == counts[piece.key, "rows"] * gauge.row, piece.key


@pytest.mark.parametrize("drop", ["0 cm", "1 mm", "3 mm", "6 mm"])
@pytest.mark.parametrize("form", FITTED)
def test_shoulders_without_a_slope_are_as_high_as_their_rows_are_counted(form: str, drop: str
                                                                         ) -> None:
    gauge = pieces.gauge(20, 28)
    made = pieces.cut(form, dict(pieces.chart("women").measurements("M")), gauge, band=24,
                      own={"shoulder_drop": drop})
    garment = FORMS[form].shape(made)
    for piece in garment.pieces:
        assert outline(piece, gauge).height == counted(garment, piece) * gauge.row, piece.key
        assert last_counter(piece) == counted(garment, piece), piece.key
    assert pieces.faults(garment) == []


STEPS = r'id="p-{}-steps">(.*?)(?:<h2 |\Z)'  # of a piece, by its key
CHECKED = re.compile(r"row counter <b>(\d+)</b>| off on waste yarn:")


def knitted_off(work: KnittedPiece) -> list[int]:
    """Where each half stood when waste yarn took it off [rows]: what the counter was set to, and
    the rows since. No pass without yarn and no row of waste yarn that drops stitches is among them.
    """
    rows, found = 0, []
    for step in work.program.steps:
        if isinstance(step, SetCounter):
            rows = step.rows
        elif isinstance(step, Knit):
            rows += step.rows
        elif isinstance(step, TakeOff) and not step.by_needle:
            found.append(rows)
    return found[:2]


def checked_last(page: str, piece: str) -> list[int]:
    """What the page's checks want on the row counter before each half is knitted off [rows]."""
    steps = re.search(STEPS.format(piece), page, re.DOTALL)
    assert steps, piece
    seen = [match[1] for match in CHECKED.finditer(steps[1])]
    return [int(before) for before, off in pairwise(seen) if off is None][:2]


def test_a_divided_piece_has_as_many_rows_as_its_page_checks_last() -> None:
    """Of both halves alike, and counts.json says the same: what takes the stitches off runs the
    row counter up, and is no row of the piece."""
    found = 0
    for proof in collection().proofs:
        folder = f"patterns/{proof.pattern.slug}"
        counts = json.loads(files()[f"{folder}/counts.json"])["counts"]
        for size in proof.sizes:
            page = files()[f"{folder}/{size_slug(size.size)}.md"]
            for work in size.pieces:
                if work.piece.opening and (rows := knitted_off(work)):
                    found += 1
                    key = work.piece.key
                    published = counts[size.size][key]["rows"]["value"]
                    assert rows == checked_last(page, key) == [published] * 2, (page[:60], key)
    assert found > 100

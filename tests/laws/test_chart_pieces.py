"""Pieces knitted from a stitch chart: every one fits, is knitted to its end, and cannot be spoiled.

The bed knows nothing of charts: what it refuses of a spoiled program is evidence that the rows
are the chart's.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.core.counted import stated
from walebook.core.counts import Unit
from walebook.core.units import Length
from walebook.forms.registry import FORMS
from walebook.machine.headings import Heading
from walebook.machine.programs import Program, ProgramSection
from walebook.machine.step_keys import StepYarn
from walebook.machine.steps import Cross, Dial, Knit, Slip, Step, Transfer, Tuck
from walebook.machine.two_yarn_steps import KnitTwo, ThreadContrast
from walebook.pattern.cells import Cell
from walebook.pattern.model import Fold
from walebook.pattern.stitch_chart import StitchChart
from walebook.program.piece_program import piece_program
from walebook.shape.foot import Hem
from walebook.shape.garment import CannotShape, Cut
from walebook.shape.piece import Ending, Piece
from walebook.shape.profile import Profile

from tests.laws import pieces
from tests.laws.test_spoiled_programs import changes
from tests.scale import examples
from tests.small_patterns import cells_of, given_length

LACE = ("||||||", "||>|||", "||||||", "||<|||")
ROPE = ("||||||", "|//((|", "||||||")
TUCKED = ("||||", "|u|v", "|u||")
LADDER = ("|.||", "|.|>")
CHECKS = ("||||", "x|xx", "|x||", "||||")

# What no count can tell: as many loops on as many needles, looking otherwise. The row's words,
# which are read back to the chart's marks in another law, are what holds these.
SURVIVORS = {
    ("other way", "Transfer"): "an eyelet's stitch on its other neighbour: the same needle is "
                               "empty and a needle beside it holds two",
    ("moved", "Cross"): "a crossing a needle aside: as many stitches change places, none is lost",
    ("doubled", "SetCarriage"): "a lever set twice to one place stands there",
    ("doubled", "SetYarns"): "the same",
    ("first flipped", "Cross"): "which of the crossed stitches lies in front is for the eye",
}


def chart(lines: tuple[str, ...], edge: int = 1) -> StitchChart:
    """A chart from its lines, the top one first."""
    return StitchChart(title="any", rows=tuple(map(cells_of, lines))[::-1], edge=edge)


def piece(made: StitchChart, *, repeats: int = 3, rows: int = 12, mirrored: bool = False,
          hem: bool = False) -> Piece:
    """A straight piece of so many repeats and rows."""
    stitches = stated(repeats * made.stitches + 2 * made.edge, Unit.STITCHES)
    waits = made.leaves_out
    return Piece(key="panel", title="Panel", stitches=stitches, left=Profile(rows),
                 right=Profile(rows), chart=made, mirrored=mirrored,
                 hem=Hem(rows=4, dial=Dial(12), fold=Fold.PICOT) if hem else None,
                 ends=Ending.WASTE if waits else Ending.BIND_OFF,
                 waits=("panel, top",) if waits else ())


@pytest.mark.sampled(20, each=("lines", "mirrored", "rows", "hem"))
@pytest.mark.parametrize("lines", [LACE, ROPE, TUCKED, LADDER, CHECKS])
@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("rows", [1, 9, 12, 13, 14])
@pytest.mark.parametrize("hem", [False, True])
def test_a_piece_is_knitted_from_its_chart_to_its_end(lines: tuple[str, ...], mirrored: bool,
                                                      rows: int, hem: bool) -> None:
    program, result = pieces.knit(piece(chart(lines), rows=rows, mirrored=mirrored, hem=hem))
    assert result.refusal is None
    assert pieces.last_row(program, result) == rows  # set to 0 above the hem


@pytest.mark.parametrize("lines", [LACE, ROPE, TUCKED, LADDER, CHECKS])
def test_the_mirrored_piece_is_the_mirror_of_the_other(lines: tuple[str, ...]) -> None:
    one = piece_program(piece(chart(lines)), dial=Dial(18), bed_needles=200)
    other = piece_program(piece(chart(lines), mirrored=True), dial=Dial(18), bed_needles=200)
    assert pieces.mirrored(one) == tuple(section.steps for section in other.sections)


def spoiled(program: Program) -> Iterator[tuple[str, Step, Program]]:
    """Every spoiled version of the rows knitted from the chart."""
    at = next(n for n, s in enumerate(program.sections) if s.heading is Heading.CHART)
    rows = list(program.sections[at].steps)

    def with_rows(steps: list[Step]) -> Program:
        sections = list(program.sections)
        sections[at] = ProgramSection(heading=Heading.CHART, steps=tuple(steps))
        return replace(program, sections=tuple(sections))

    for n, step in enumerate(rows):
        before, after = rows[:n], rows[n + 1:]
        yield "dropped", step, with_rows(before + after)
        yield "doubled", step, with_rows([*before, step, step, *after])
        for what, change in (*changes(step), *of_charts(step)):
            yield what, step, with_rows([*before, change, *after])


def of_charts(step: Step) -> Iterator[tuple[str, Step]]:
    """The small wrong changes of steps that only charts have."""
    if isinstance(step, Knit) and step.fills:
        yield "fills moved", replace(step, fills=step.fills.shifted(1))
    if isinstance(step, Knit) and step.passes:
        yield "passes moved", replace(step, passes=step.passes.shifted(1))
    if isinstance(step, KnitTwo):
        yield "picks moved", replace(step, picks=step.picks.shifted(1))
        yield "yarns exchanged", replace(step, yarn=step.contrast, contrast=step.yarn)
    if isinstance(step, ThreadContrast):
        yield "other yarn", replace(step, yarn=StepYarn.WASTE)
    if isinstance(step, Transfer):
        yield "other way", replace(step, by=-step.by)
    if isinstance(step, Cross):
        yield "first flipped", replace(step, first=step.first.other)
        yield "other groups", replace(step, left=step.left + 1)
    if isinstance(step, Tuck):
        yield "slip for tuck", Slip(claim=step.claim, needles=step.needles)
    if isinstance(step, Slip):
        yield "tuck for slip", Tuck(claim=step.claim, needles=step.needles)


@pytest.mark.parametrize("lines", [LACE, ROPE, TUCKED, LADDER, CHECKS])
def test_spoiled_rows_are_refused_or_argued_by_name(lines: tuple[str, ...]) -> None:
    program, result = pieces.knit(piece(chart(lines)))
    assert result.refusal is None
    lived, made = set(), 0
    for what, step, bad in spoiled(program):
        made += 1
        if run(bad).refusal is None:
            lived.add((what, type(step).__name__))
    assert made > 150
    there = {type(step).__name__ for step in program.steps}
    assert lived == {(what, kind) for what, kind in SURVIVORS if kind in there}


def test_rows_of_another_order_are_refused() -> None:
    """A row's stitches moved a row too early leave a needle filled that the row does not name."""
    program, _ = pieces.knit(piece(chart(LACE)))
    rows = next(list(s.steps) for s in program.sections if s.heading is Heading.CHART)
    for at, step in enumerate(rows[:-1]):
        if type(step) is type(rows[at + 1]):
            continue
        swapped = [*rows[:at], rows[at + 1], step, *rows[at + 2:]]
        sections = tuple(ProgramSection(heading=s.heading, steps=tuple(swapped))
                         if s.heading is Heading.CHART else s for s in program.sections)
        assert run(replace(program, sections=sections)).refusal is not None


# In a form


@settings(deadline=None, max_examples=examples(40))
@given(st.integers(300, 2500), st.integers(1, 5),
       st.sampled_from([LACE, ROPE, TUCKED, LADDER, CHECKS]), st.integers(16, 80), st.booleans())
def test_panels_are_whole_repeats_that_the_bed_knits(width: int, panels: int,
                                                     lines: tuple[str, ...], tenths: int,
                                                     hem: bool) -> None:
    made = chart(lines)
    cut = blanket(made, Fraction(tenths, 2), width, panels, hem)
    try:
        garment = FORMS["panelled blanket"].shape(cut)
    except CannotShape as fault:
        assert "blanket_width" in fault.remedy
        return
    panel = garment.pieces[0]
    assert (panel.stitches.value - 2 * made.edge) % made.stitches == 0
    # rounded to the nearest whole repeat, and a seam takes a stitch of each edge
    off = abs(garment.finished["width"].mm - width)
    assert off <= Fraction(panels * made.stitches, 2) * cut.gauge.stitch
    _, result = pieces.knit(panel)
    assert result.refusal is None
    assert dict(result.rows)[StepYarn.MAIN] >= panel.rows


def blanket(made: StitchChart, around: Fraction, width: int, panels: int, hem: bool) -> Cut:
    return replace(
        pieces.cut("panelled blanket", {}, pieces.gauge(around, around * Fraction(7, 5)),
                   own={"blanket_width": f"{width} mm", "blanket_length": "900 mm",
                        "panels": str(panels)},
                   hem=pieces.hem(30, Fold.PICOT) if hem else None), chart=made)


@pytest.mark.parametrize("form", ["hat", "mitten", "triangular shawl"])
def test_a_shaped_piece_leaves_no_needles_out_of_work(form: str) -> None:
    known = {"head": given_length(Length(Fraction(560)))} if form == "hat" else {}
    cut = replace(pieces.cut(form, known, pieces.gauge(22, 30)), chart=chart(LADDER))
    with pytest.raises(CannotShape, match="which leaves 1 of 4 needles out of work"):
        FORMS[form].shape(cut)


def test_a_piece_that_repeats_do_not_fill_is_no_piece() -> None:
    with pytest.raises(ValueError, match="15 stitches are not a multiple of 6 plus 2; 14 or 20"):
        replace(piece(chart(LACE)), stitches=stated(15, Unit.STITCHES))


def test_the_last_row_is_plain_where_the_chart_would_tuck() -> None:
    program, _ = pieces.knit(piece(chart(TUCKED), rows=4))
    last = [s for s in program.steps if isinstance(s, Knit)][-1]
    assert not last.passes
    assert chart(TUCKED).rows[0].count(Cell.TUCK) == 1  # row 4 is the chart's row 1 again

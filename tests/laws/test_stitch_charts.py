"""What holds for every stitch chart, on every piece: words and marks agree, nothing is lost.

Random charts are made of whole columns and crossings, so that most can be knitted; the words are
read back here by a reader of their own, which shares nothing with what wrote them.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections import Counter
from fractions import Fraction
from itertools import pairwise
from types import SimpleNamespace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from walebook.bed.run import run
from walebook.core.counts import whole
from walebook.drawings.chart import chart_drawing, chart_figure
from walebook.fabric.chart_on_bed import Align, Placed, RepeatLine, Unfit, multiple, place_repeat
from walebook.machine.headings import Heading
from walebook.machine.needles import Needle, bed_of
from walebook.machine.programs import Program
from walebook.machine.set_up_steps import Weight
from walebook.machine.step_keys import CastOnMethod, StepYarn
from walebook.machine.steps import Dial, Knit, Side
from walebook.pattern.cells import Cell, Cells, crossings, emptied, loops_taken, marks_of
from walebook.pattern.chart_flaws import flaws, most_tucked
from walebook.pattern.stitch_chart import StitchChart, longest_float, mirrored, turned_over
from walebook.program.chart_actions import ChartRows, Doing, row_actions
from walebook.program.ledger import Ledger
from walebook.source.source import parse_source
from walebook.words.chart_key import Drawn
from walebook.words.chart_text import PLAIN, rows_text
from walebook.words.instruction import Moment
from walebook.words.repeats import in_goes

from tests.laws.needle_words import read
from tests.needle_names import needle
from tests.scale import examples
from tests.small_patterns import cells_of

_LACE = ("|", "|", "|<", ">|", "|<<", ">>|", ">|<")
_PIECES = (*_LACE, "x", "u", "v", "/(", "//((", ")\\", "))\\\\", "/((", ")\\\\")


@st.composite
def charts(draw: st.DrawFn, pieces: tuple[str, ...] = _PIECES) -> StitchChart:
    """A chart of whole crossings and moves, some needles out of work, rows filled up plain."""
    rows = ["".join(draw(st.lists(st.sampled_from(pieces), min_size=1, max_size=4)))
            for _ in range(draw(st.integers(1, 4)))]
    wide = max(map(len, rows)) + 1
    out = draw(st.booleans())
    cells = tuple(cells_of(row.ljust(wide, "|") + (".|" if out else "")) for row in rows)
    edge = draw(st.integers(0, 3))
    assume(not flaws(cells, edge))
    return StitchChart(title="any", rows=cells, edge=edge)


@st.composite
def placings(draw: st.DrawFn, pieces: tuple[str, ...] = _PIECES) -> Placed:
    """A chart on a piece, whole or cut at its ends."""
    chart = draw(charts(pieces))
    least = chart.stitches + 2 * chart.edge
    align = draw(st.sampled_from([*Align, RepeatLine("front edge", 3), RepeatLine("side", 11)]))
    times, more = draw(st.integers(1, 6)), draw(st.integers(0, chart.stitches - 1))
    if align is Align.WHOLE:
        more = 0
    if isinstance(align, RepeatLine):
        more += chart.stitches
    return place_repeat(chart, least + (times - 1) * chart.stitches + more, align=align,
                        mirror=draw(st.booleans()))


# ------------------------------------------------------------------- marks, written and read


@given(charts())
def test_a_chart_is_read_back_from_its_text(chart: StitchChart) -> None:
    source = "repeat: |\n" + "".join(f"  {line}\n" for line in map(marks_of, chart.rows[::-1]))
    node, problems = parse_source(source, name="any.yaml")
    assert problems == ()
    text = node.entries["repeat"].node.text  # type: ignore[union-attr]
    assert tuple(map(cells_of, text.splitlines()[::-1])) == chart.rows


@given(charts())
def test_mirroring_and_turning_over_twice_is_nothing(chart: StitchChart) -> None:
    assert mirrored(mirrored(chart)) == chart == turned_over(turned_over(chart))
    assert turned_over(mirrored(chart)) == mirrored(turned_over(chart))


@given(charts())
def test_a_crossing_leans_alike_from_both_sides_and_otherwise_in_the_mirror(
        chart: StitchChart) -> None:
    for row, back, glass in zip(chart.rows, turned_over(chart).rows, mirrored(chart).rows,
                                strict=True):
        leans = [c.left_in_front for c in crossings(row)]
        assert [c.left_in_front for c in crossings(back)] == leans[::-1]
        assert [c.left_in_front for c in crossings(glass)] == [not lean for lean in leans[::-1]]


@given(st.lists(st.text("|.<>/()\\uvx", min_size=1, max_size=7), min_size=1, max_size=3),
       st.integers(0, 2))
def test_any_marks_are_sound_or_cannot_be_a_chart(lines: list[str], edge: int) -> None:
    rows = tuple(map(cells_of, lines))
    if flaws(rows, edge):
        with pytest.raises(ValueError):
            StitchChart(title="any", rows=rows, edge=edge)
        return
    chart = StitchChart(title="any", rows=rows, edge=edge)
    assert flaws(mirrored(chart).rows, edge) == () == flaws(turned_over(chart).rows, edge)


# ------------------------------------------------------------------------- on the needles


@given(placings())
def test_repeats_tile_the_piece(placed: Placed) -> None:
    chart, edge = placed.chart, placed.chart.edge
    assert len(placed.needles) == (2 * edge + sum(placed.cut)
                                   + placed.repeats * chart.stitches)
    for laid, row in zip(chart.rows, placed.rows, strict=True):
        assert row[placed.bounds[0]:placed.bounds[-1]] == laid * placed.repeats
        plain = (Cell.KNIT,) * edge
        assert row[:edge] == plain == row[len(row) - edge:]
    columns = [column for column in placed.columns if column is not None]
    steps = {(b - a) % chart.width for a, b in pairwise(columns)}
    assert steps <= {1 % chart.width} or steps <= {chart.width - 1}


@given(placings())
def test_stitches_are_neither_made_nor_lost_in_a_row(placed: Placed) -> None:
    stitches = len(placed.needles)
    for row in placed.rows:
        loops = loops_taken(row)
        assert sum(loops) == stitches
        assert all(loops[at] == 0 for at in emptied(row))
        assert stitches - len(emptied(row)) == sum(bool(loop) for loop in loops)
        empty = sorted(place for place, in placed.at(emptied(row)))
        assert all(b - a > 1 for a, b in pairwise(empty))
        assert placed.at(emptied(row)) <= placed.needles


def reflected(row: Cells) -> Cells:
    """The row in a mirror: every mark that leans leans the other way."""
    return cells_of(marks_of(row)[::-1].translate(str.maketrans("<>/\\()", "><\\/)(")))


@given(charts(), st.integers(1, 5), st.integers(0, 9), st.sampled_from(
    [(Align.CENTRE, Align.CENTRE), (Align.LEFT, Align.RIGHT), (Align.RIGHT, Align.LEFT)]))
def test_the_other_front_is_the_mirror_on_the_bed(
        chart: StitchChart, times: int, more: int, aligns: tuple[Align, Align]) -> None:
    count = times * chart.stitches + 2 * chart.edge + more
    one, other = (place_repeat(chart, count, align=align, mirror=mirror)
                  for align, mirror in zip(aligns, (False, True), strict=True))
    assert one.needles == other.needles.mirrored()
    assert one.cut == other.cut[::-1]
    assert other.rows == tuple(map(reflected, one.rows))
    assert one.columns == other.columns[::-1]


@given(charts(), st.integers(1, 5))
def test_a_symmetrical_chart_is_symmetrical_on_the_bed(chart: StitchChart, times: int) -> None:
    both = tuple(row + reflected(row) for row in chart.rows)
    assume(not flaws(both, chart.edge))
    twin = StitchChart(title="twin", rows=both, edge=chart.edge)
    assert mirrored(twin) == twin
    placed = place_repeat(twin, times * twin.stitches + 2 * twin.edge)
    assert placed.needles == placed.needles.mirrored()
    assert all(reflected(row) == row for row in placed.rows)


@given(charts(), st.integers(1, 400))
def test_a_piece_is_filled_or_the_two_nearest_counts_are_named(chart: StitchChart,
                                                              stitches: int) -> None:
    fits = [n * chart.stitches + 2 * chart.edge for n in range(1, 402)]
    if stitches in fits:
        assert place_repeat(chart, stitches).cut == (0, 0)
        return
    with pytest.raises(Unfit) as refused:
        place_repeat(chart, stitches)
    below = [fit for fit in fits if fit < stitches]
    assert refused.value.below == (below[-1] if below else None)
    assert refused.value.above == next(fit for fit in fits if fit > stitches)


@given(charts(), st.integers(1, 400))
def test_stitches_rounded_by_the_charts_rule_fit(chart: StitchChart, stitches: int) -> None:
    least = chart.stitches + 2 * chart.edge
    rounded = whole(Fraction(stitches + least), multiple(chart))
    assert place_repeat(chart, rounded).cut == (0, 0)


# ------------------------------------------------------------------------------ the words

def places(said: str) -> list[int]:
    """The needles that words name, by their places."""
    return [place for place, in read(said)]


def marks_told(phrase: str) -> dict[int, str]:
    """The mark of each needle that one phrase of a row's words speaks of."""
    if told := re.fullmatch(r"move the stitch(?:es)? of (.+) one needle to the (left|right)",
                            phrase):
        return dict.fromkeys(places(told[1]), "<" if told[2] == "left" else ">")
    if told := re.fullmatch(r"(tuck|slip|second colour) on (.+)", phrase):
        return dict.fromkeys(places(told[2]), {"tuck": "u", "slip": "v"}.get(told[1], "x"))
    told = re.fullmatch(
        r"cross in groups of (\d+) on (.+): of each, the (\d+) (left|right)-hand stitch(?:es)? "
        r"first, (\d+) needles? to the (left|right), then the (\d+) (left|right)-hand "
        r"stitch(?:es)?, (\d+) needles? to the (left|right)", phrase)
    assert told, phrase
    size, first, second = int(told[1]), int(told[3]), int(told[7])
    assert (int(told[5]), int(told[9])) == (second, first) and first + second == size
    assert told[4] != told[6] and told[8] != told[10] and told[4] == told[10]
    # what goes back first lies behind, as the knitter sees it
    group = ("/" * second + "(" * first if told[4] == "right" else ")" * first + "\\" * second)
    here = places(told[2])
    assert len(here) % size == 0
    return dict(zip(here, group * (len(here) // size), strict=True))


def rows_told(numbers: str) -> list[int]:
    out: list[int] = []
    for part in re.split(r", | and ", numbers.split(" ", 1)[1]):
        ends = part.split(" to ")
        out += range(int(ends[0]), int(ends[-1]) + 1)
    return out


@settings(deadline=None)
@given(placings())
def test_the_words_read_back_give_the_chart(placed: Placed) -> None:
    read_back(placed)


def read_back(placed: Placed) -> None:
    """Hold the words of all rows to the marks where the chart lies."""
    first, wide = placed.first.place, len(placed.columns)
    out = [at for at, cell in enumerate(placed.rows[0]) if cell is Cell.OUT]
    rows: dict[int, str] = {}
    for numbers, said in rows_text(placed):
        marks = ["." if at in out else "|" for at in range(wide)]
        for phrase in said.split("; ") if said != PLAIN else ():
            for place, mark in marks_told(phrase).items():
                assert marks[place - first] == "|"
                marks[place - first] = mark
        for row in rows_told(numbers):
            assert row not in rows
            rows[row] = "".join(marks)
    assert [rows[n] for n in sorted(rows)] == [marks_of(row) for row in placed.rows]
    assert sorted(rows) == list(range(1, placed.chart.height + 1))


# ----------------------------------------------------------------------------- the drawing

_SVG = "{http://www.w3.org/2000/svg}"


def drawn(placed: Placed) -> ET.Element:
    html = chart_drawing(placed, prefix="c", title="A <chart> & more")
    return ET.fromstring(html.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" '))


@settings(deadline=None, max_examples=examples(60))
@given(placings())
def test_the_drawing_has_every_mark_once(placed: Placed) -> None:
    """A subpath begins with M; counted against the words' actions, not against the cells."""
    figure = drawn(placed)
    marks: Counter[str] = Counter()
    for path in figure.iter(f"{_SVG}path"):
        if "data-mark" in path.attrib:
            marks[path.attrib["data-mark"]] += path.attrib["d"].count("M")
    acts: Counter[Doing] = Counter()
    for row in range(1, placed.chart.height + 1):
        for action in row_actions(placed, row):
            acts[action.doing] += len(action.needles)
    moved = sum(marks[d.name.lower()] for d in (Drawn.EYELET_LEFT, Drawn.EYELET_RIGHT,
                                                Drawn.MOVED_LEFT, Drawn.MOVED_RIGHT))
    assert moved == acts[Doing.MOVE]
    assert (marks["tuck"], marks["slip"]) == (acts[Doing.TUCK], acts[Doing.SLIP])
    assert marks["second"] == acts[Doing.SECOND]
    crossed = marks["near"] + marks["far"]
    assert crossed >= acts[Doing.CROSS]  # a crossing over the cut of two strips is in both
    if len(placed.columns) <= 22:
        assert crossed == acts[Doing.CROSS]
    assert marks["edge"] == 2 * placed.chart.edge * placed.chart.height


@settings(deadline=None, max_examples=examples(40))
@given(placings())
def test_every_row_is_numbered_at_both_sides_and_no_colour_is_used(placed: Placed) -> None:
    figure = drawn(placed)
    texts = Counter(text.text for text in figure.iter(f"{_SVG}text"))
    strips = sum(" to " in (text or "") for text in texts.elements())
    for row in range(1, placed.chart.height + 1):
        assert texts[str(row)] == 2 * strips
    named = {needle(t).place for t in texts if t and re.fullmatch(r"[LR]\d+", t)}
    assert named == {p for p, in placed.taken if int(Needle(p).name[1:]) % 5 == 0}
    for part in figure.iter():
        for attribute in ("fill", "stroke"):
            assert part.attrib.get(attribute, "none") in ("none", "currentColor")
    assert figure.find(f".//{_SVG}title").text == "A <chart> & more"  # type: ignore[union-attr]


def test_the_key_names_what_is_drawn_and_nothing_else() -> None:
    chart = StitchChart(title="Ladder", rows=(cells_of("|.|u"), cells_of("|.||")),
                        words=((Cell.OUT, "<b>ladder</b>"),))
    html = chart_figure(place_repeat(chart, 8), prefix="c", title="Ladder")
    assert "&lt;b&gt;ladder&lt;/b&gt;" in html and "<b>ladder" not in html
    assert Drawn.TUCK.value in html and Drawn.PLAIN.value in html
    assert Drawn.SLIP.value not in html and Drawn.EYELET_LEFT.value not in html
    assert "needle out of work" not in html  # the designer's words stand in its place


@settings(deadline=None, max_examples=examples(60))
@given(placings())
def test_the_key_has_words_for_each_mark_and_counts_the_stitches_on_a_needle(
        placed: Placed) -> None:
    figure = drawn(placed)
    words = ["".join(entry.itertext()) for entry in figure.iter("li")]
    assert words and len({*words}) == len(words)
    assert all(re.search("[a-z]{3}", said) for said in words)
    on_one = {loops for row in placed.rows
              for cell, loops in zip(row, loops_taken(row), strict=True)
              if loops > 1 and cell not in (Cell.LEFT, Cell.RIGHT)}
    assert on_one == {number for number, word in ((2, "two"), (3, "three"))
                      if any(f"{word} stitches on one needle" in said for said in words)}


# ------------------------------------------------------------------------- run on the bed


def written_rows(placed: Placed, times: int) -> Program:
    """The chart `times` over, then a plain row, on an otherwise bare bed."""
    log = Ledger(side=Side.RIGHT)
    log.set_counter(0)
    log.bring(placed.needles)
    log.thread("main", fresh=True)
    log.set_dial(Dial(18))
    log.cast_on(placed.needles, CastOnMethod.BY_HAND)
    log.hang_weights(Weight.EVEN, placed.needles)
    log.knit(2)
    for row in range(1, times * placed.chart.height + 1):
        ChartRows(placed).knit(log, row)
    log.cut_contrast()
    log.knit(1)
    log.section(Heading.BODY)
    return Program(name="chart", bed=bed_of(400), starts=Side.RIGHT,
                   sections=tuple(log.sections), totals=log.totals, crossed=log.crossed)


@settings(deadline=None, max_examples=examples(120))
@given(placings())
def test_a_chart_is_knitted_on_the_bed(placed: Placed) -> None:
    """The virtual bed shares nothing with the chart: it recounts every claim, or refuses."""
    program = written_rows(placed, 2)
    result = run(program)
    assert len(result.states) == len(program.steps)  # nothing refused but the work left on
    assert result.states[-1].loaded == placed.needles
    assert not result.states[-1].doubled
    two = [row for row in placed.rows if Cell.SECOND in row]
    assert dict(result.rows) == {"main": 3 + 2 * placed.chart.height,
                                 **({StepYarn.CONTRAST: 2 * len(two)} if two else {})}
    assert dict(result.stitches).get(StepYarn.CONTRAST, 0) == 2 * sum(
        row.count(Cell.SECOND) for row in two)


@pytest.mark.parametrize("rows", [("|x||", "||x|"), ("||||", "x|||"), ("||||", "||||")])
@pytest.mark.parametrize("more", [0, 1])
def test_whole_repeats_are_one_instruction_though_a_second_yarn_begins_in_the_first(
        rows: tuple[str, ...], more: int) -> None:
    """Three times the chart's rows, then those left over, of which each is knitted alike. The yarn
    is put in once, so that the steps of the first repeat are more than those of the others."""
    chart = StitchChart(title="any", rows=tuple(map(cells_of, rows)), edge=0)
    program = written_rows(place_repeat(chart, 12, align=Align.WHOLE), 4)
    ends = [at for at, step in enumerate(program.steps, 1) if isinstance(step, Knit)]
    work = SimpleNamespace(program=program, trace=run(program))
    whole = Moment(work=work, pattern=None, at=ends[0], upto=ends[3 * len(rows) + more])
    found = [(goes.rows, goes.times) for goes in in_goes(whole, len(rows))]
    assert found == [(len(rows), 3)] + [(1, 1)] * more
    assert not [*in_goes(whole, 3)] or len({*rows}) == 1, "three rows are no repeat"


@settings(deadline=None, max_examples=examples(60))
@given(placings())
def test_the_bed_holds_what_the_marks_say_before_and_after_every_row(placed: Placed) -> None:
    """Read off the bed: empty needles where stitches moved away, loops piled up where none knit."""
    program = written_rows(placed, 1)
    states = run(program).states
    piled: Counter[int] = Counter()
    row = -2  # two rows are knitted below the chart
    for at, step in enumerate(program.steps):
        if not isinstance(step, Knit):
            continue
        if 0 <= row < placed.chart.height:
            cells = placed.rows[row]
            assert states[at - 1].working - states[at - 1].loaded == placed.at(emptied(cells))
            colours = {on for label, on in states[at].loops if label == StepYarn.CONTRAST}
            new = placed.at(i for i, cell in enumerate(cells) if cell is Cell.SECOND)
            assert Cell.SECOND not in cells or new in colours  # each loop of the yarn that made it
            for place, cell in enumerate(cells):
                if cell not in (Cell.TUCK, Cell.SLIP):
                    piled[place] = 0
                piled[place] += cell is Cell.TUCK
            loops = [sum(Needle(placed.first.place + place) in on for _, on in states[at].loops)
                     for place in range(len(cells))]
            assert loops == [(cell is not Cell.OUT) + piled[place]
                             for place, cell in enumerate(cells)]
        row += step.rows


@given(charts(("|", "u", "v")))
def test_tucked_rows_are_counted_until_the_needle_knits(chart: StitchChart) -> None:
    """Against a plain walk up a column, the repeat over itself; what is slipped keeps its loops."""
    most = 0
    for column in range(chart.width):
        loops = 0
        for row in chart.rows * 3:
            loops = {Cell.TUCK: loops + 1, Cell.SLIP: loops}.get(row[column], 0)
            most = max(most, loops)
    assert most_tucked(chart.rows)[0] == most


@given(charts())
def test_a_float_is_the_longest_run_of_either_colour(chart: StitchChart) -> None:
    """Against a plain search: the repeat three times over, the runs between two of the other."""
    longest = 0
    for row in chart.rows:
        text = "".join("x" if cell is Cell.SECOND else "o" for cell in row if cell is not Cell.OUT)
        for own, other in ("xo", "ox"):
            runs = re.findall(f"(?<={own}){other}+(?={own})", text * 3)
            longest = max(longest, *map(len, runs), 0)
    assert longest_float(chart)[0] == longest

"""The tech editor's workbook: its formulas come to the engine's figures, and follow its inputs.

Outside the project: `formulas`, an interpreter of spreadsheet formulas from the registry, and, in
the long run, the spreadsheet program of the distribution without its windows. Neither is ours. The
form of the file is ECMA-376, Office Open XML, which openpyxl reads.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import warnings
from collections.abc import Iterator, Mapping
from fractions import Fraction
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from typing import Any

import formulas
import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.counts import Rounding, whole
from walebook.machine.steps import Knit
from walebook.pages.sheet import line_units, one_line, workbook
from walebook.pages.sheet_formulas import rounded
from walebook.pages.sheet_values import Look, Workbook
from walebook.proof.proof import Proof
from walebook.shape.profile import How
from walebook_site.reading import Folder, Reading
from walebook_site.sheet_file import sheet_file
from walebook_site.sources import Prover

from tests.scale import examples
from tests.whole_collection import ROOT, collection

Values = Mapping[tuple[str, str], Any]
"""What every cell comes to, by the title of its sheet and its address, such as D2."""
QUICK = ("practice-band",)
SLUGS = [pytest.param(slug, marks=() if slug in QUICK else pytest.mark.long)
         for slug in Reading(ROOT).folders()]
"""The interpreter takes some seconds a pattern: the long run takes all."""


def proof_of(slug: str) -> Proof:
    (found,) = [proof for proof in collection().proofs if proof.pattern.slug == slug]
    return found


def interpreted(file: Path, changed: Mapping[tuple[str, str], float] | None = None) -> Values:
    """Compute a workbook with the interpreter; some cells may be changed before."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        model = formulas.ExcelModel().loads(str(file)).finish()
        names = {(name.rpartition("]")[2].rpartition("'!")[0], name.rpartition("!")[2]): name
                 for name in model.cells}
        given_ = {names[sheet.upper(), cell]: value
                  for (sheet, cell), value in (changed or {}).items()}
        found = model.calculate(inputs=given_)
    values = {}
    for name, one in found.items():
        if hasattr(one, "value") and one.value.shape == (1, 1):
            sheet, _, cell = name.rpartition("'!")
            values[sheet.rpartition("]")[2], cell] = one.value[0, 0]
    return values


def counted(file: Path) -> Iterator[tuple[str, tuple[Any, ...], int]]:
    """The rows of counts in a workbook's file, as their formulas stand: sheet, cells, number."""
    for sheet in openpyxl.load_workbook(file).worksheets:
        rows = list(sheet.iter_rows(values_only=True))
        if rows and "Kind" in rows[0]:
            for number, row in enumerate(rows[1:], start=2):
                yield sheet.title, row, number


def written(folder: Path, book: Workbook) -> Path:
    file = folder / f"{book.slug}.xlsx"
    file.write_bytes(sheet_file(book))
    return file


@pytest.mark.parametrize("slug", SLUGS)
def test_every_cell_is_the_engines_figure(slug: str, tmp_path: Path) -> None:
    book = workbook(proof_of(slug))
    file = written(tmp_path, book)
    values = interpreted(file)
    checked = 0
    for sheet, row, number in counted(file):
        at = openpyxl.utils.get_column_letter(len(row) - 4)
        assert values[sheet.upper(), f"{at}{number}"] == "same", (sheet, row[0])
        checked += 1
    assert checked > 20
    assert saved(file) == {name: pytest.approx(values[name], abs=1e-9) if isinstance(one, float)
                           else values[name] for name, one in saved(file).items()}


def test_no_figure_that_does_not_follow_is_called_the_same_after_a_change(tmp_path: Path) -> None:
    """It was: the published figure beside the planned one, which nothing had computed anew."""
    book = workbook(proof_of("practice-band"))
    file = written(tmp_path, book)
    (inputs,) = [sheet for sheet in book.sheets if sheet.title == "Inputs"]
    row = next(n for n, cells in enumerate(inputs.rows[1:], start=2)
               if cells[3].look is Look.INPUT and cells[3].value == 4)
    values = interpreted(file, {("Inputs", f"D{row}"): 5})
    assert values["ABOUT", "B3"] == 1
    check = openpyxl.utils.get_column_letter([c.text for c in inputs.rows[0]].index("Check") + 1)
    assert {n for n in range(2, len(inputs.rows) + 1)
            if values["INPUTS", f"{check}{n}"] == "changed"} == {row}
    kinds: dict[str, set[str]] = {}
    for sheet, cells, number in counted(file):
        at = openpyxl.utils.get_column_letter(len(cells) - 4)
        kinds.setdefault(str(cells[-4]), set()).add(values[sheet.upper(), f"{at}{number}"])
    assert kinds.pop("formula") <= {"same", "differs"}
    assert set().union(*kinds.values()) == {"planned figure: run walebook"}


def saved(file: Path) -> Values:
    """The values that a workbook's file has of its formulas, for what calculates nothing."""
    shown = openpyxl.load_workbook(file, data_only=True)
    return {(sheet.title.upper(), cell.coordinate): shown[sheet.title][cell.coordinate].value
            for sheet in openpyxl.load_workbook(file).worksheets
            for row in sheet.iter_rows() for cell in row if cell.data_type == "f"}


def test_a_published_figure_is_a_number_and_no_formula(tmp_path: Path) -> None:
    for _, row, _ in counted(written(tmp_path, workbook(proof_of("practice-band")))):
        many = (len(row) - 8) // 2
        assert all(one is None or isinstance(one, int | float) or (row[1] != "mm" and "/" in one)
                   for one in row[3 + many:3 + 2 * many]), row


def test_nine_of_ten_figures_follow_an_input_in_each_pattern() -> None:
    books = [workbook(proof) for proof in collection().proofs]
    few = {book.slug: (book.live, book.counted) for book in books
           if book.live / book.counted < 0.9}
    assert few == {}


def _rows(book: Workbook, of: str) -> Mapping[str, tuple[str, ...]]:
    """The rows of a sheet of counts by what they are called."""
    (sheet,) = [sheet for sheet in book.sheets if sheet.title == of]
    return {row[0].text: tuple(cell.text for cell in row) for row in sheet.rows}


@pytest.mark.parametrize(("slug", "piece"), [
    ("bollard-slipover", "back"), ("ropewalk-cardigan", "sleeve"), ("watch-below-robe", "front")])
def test_what_the_bed_counts_of_a_piece_is_a_formula_beside_it(slug: str, piece: str) -> None:
    """The form adds the rows up, the bed knits them: two ways, which must meet in every size."""
    proof = proof_of(slug)
    book = workbook(proof)
    many = len(proof.sizes)
    title = piece if piece != "front" else "right_front"
    rows = _rows(book, title)
    for at, size in enumerate(proof.sizes):
        (knitted,) = [one for one in size.pieces if one.piece.key == title]
        top = max(state.counter for step, state in zip(
            knitted.program.steps, knitted.trace.states, strict=True) if isinstance(step, Knit))
        wide = max(len(state.loaded) for state in knitted.trace.states)
        assert rows["rows"][3 + many + at] == str(top)
        assert int(rows["widest"][3 + many + at]) >= wide
    for name in ("rows", "widest"):
        assert rows[name][4 + 2 * many].startswith("formula")


def test_a_length_of_the_source_stands_in_millimetres_and_says_so() -> None:
    """The source has an ease of 8 cm in each size."""
    proof = proof_of("slack-tide-cardigan")
    many = len(proof.sizes)
    row = _rows(workbook(proof), "Measures")["ease"]
    assert row[1] == "mm" and row[3 + many:3 + 2 * many] == ("80",) * many


def test_what_is_computed_of_a_band_and_not_rounded_has_its_unit() -> None:
    rows = _rows(workbook(proof_of("practice-band")), "front")
    assert [rows[name][1] for name in ("length", "depth")] == ["mm", "mm"]


def test_the_rows_between_increases_are_those_that_are_knitted() -> None:
    """Read from the steps' own data, change by change, and not from the schedule's blocks."""
    proof = proof_of("slack-tide-cardigan")
    rows, many = _rows(workbook(proof), "sleeve"), len(proof.sizes)
    for at, size in enumerate(proof.sizes):
        (sleeve,) = [one.piece for one in size.pieces if one.piece.key == "sleeve"]
        made = [0, *(one.row for one in sleeve.right.changes if one.how is How.INCREASE)]
        apart = [high - low for low, high in pairwise(made)]
        first, times, then, more = (int(rows[f"increases, {what}"][3 + many + at]) for what in (
            "rows apart at first", "so many at first", "rows apart then", "so many then"))
        assert apart == [first] * times + [then] * more


def test_every_shaped_edge_stands_in_words_and_takes_a_remark() -> None:
    proof = proof_of("bollard-slipover")
    remarks = {("Shaping", "Back, right edge"): ("too steep", "open", "")}
    rows = _rows(workbook(proof, (), remarks), "Shaping")
    assert rows["Back, right edge"][3].startswith("bind off 3 on row 86; decrease 1 on row 90")
    assert rows["Back, right edge"][-3:] == ("too steep", "open", "")


RULES = [Rounding(rule) for rule in ("nearest", "up", "down", "even", "odd")] + [
    Rounding("multiple", 4), Rounding("multiple", 6, 2), Rounding("up", 4, 1),
    Rounding("down", 3, 2), Rounding("up", 2), Rounding("down", 2)]


@settings(max_examples=examples(60), deadline=None)
@given(st.fractions(0, 400, max_denominator=64), st.sampled_from(RULES))
def test_a_rounding_is_that_of_the_engine(figure: Fraction, rule: Rounding) -> None:
    compute = formulas.Parser().ast(f"={rounded('A1', rule)}")[1].compile()
    assert float(compute(A1=float(figure))) == whole(figure, rule)


def changed_source(slug: str, change: Mapping[str, str]) -> Proof | None:
    """The proof of a pattern whose text says something else, None where it is refused."""
    reading = Reading(ROOT)
    folder = reading.folder(slug)
    text = folder.source or ""
    for old, new in change.items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    made = Prover.of(reading).prove(Folder(**{
        **{name: getattr(folder, name) for name in folder.__dataclass_fields__}, "source": text}))
    return made.proof


def test_what_a_designer_wrote_is_no_formula(tmp_path: Path) -> None:
    after = changed_source("practice-band", {"title: Practice band": "title: =1+1"})
    assert after
    file = written(tmp_path, workbook(after))
    about = openpyxl.load_workbook(file)["About"]
    assert about["A1"].data_type == "s" and str(about["A1"].value).startswith("=1+1, version")


def test_the_same_bytes_each_time() -> None:
    book = workbook(proof_of("practice-band"))
    assert sheet_file(book) == sheet_file(book)
    properties = openpyxl.load_workbook(BytesIO(sheet_file(book))).properties
    assert f"{properties.modified:%F}" == f"{properties.created:%F}" == book.date


def test_all_sizes_stand_in_one_line() -> None:
    """The worked example: 52 rows, three stitches for every four, 39 for 3 months."""
    lines = one_line(proof_of("practice-band"))["front"]
    assert re.fullmatch(r"39 \(\d+(, \d+){3}\)", lines["band_stitches"])


def test_the_line_of_all_sizes_says_in_which_order_and_unit() -> None:
    proof = proof_of("practice-band")
    (lines,) = [sheet for sheet in workbook(proof).sheets if sheet.title == "One line"]
    head, *rows = [[cell.text for cell in row] for row in lines.rows]
    assert head == ["Of", "Count", "Unit", "3 months (6 months, 12 months, 18 months, 24 months)"]
    (band,) = [row for row in rows if row[1] == "band stitches"]
    assert band[2] == "stitches" and band[3].startswith("39 (")
    assert line_units(proof)["front"]["band_stitches"] == "stitches"


def test_a_figure_of_a_body_names_its_chart_and_which_figure_it_is() -> None:
    """Two rows were called bust, and both came from "a chart or a rule". The chart's file has the
    figures of each measurement behind its column, in centimetres."""
    rows = _rows(workbook(proof_of("slack-tide-cardigan")), "Inputs")
    found = [(name, row[2]) for name, row in rows.items() if name.startswith("bust")]
    assert [name for name, _ in found] == ["bust, the lower figure", "bust, the higher figure"]
    for name, key in (("bust, the higher figure", "chest"),
                      ("back waist length", "back_waist_length")):
        place = re.fullmatch(r"(patterns/_sizes/women\.yaml):(\d+):\d+ \(size chart women\)",
                             rows[name][2])
        lines = (ROOT / place[1]).read_text(encoding="utf-8").split("\n")[:int(place[2])]
        assert lines[-1].startswith("    cm: {")
        assert [line for line in lines if re.match(r"  \w", line)][-1] == f"  {key}:"


@pytest.mark.parametrize("slug", ["slack-tide-cardigan", "practice-band"])
def test_every_row_that_takes_a_remark_has_a_place_and_a_name_that_no_other_has(slug: str) -> None:
    """A remark comes back with the line that it is about. Swatches of a fabric share its name."""
    book = workbook(proof_of(slug))
    for sheet in book.sheets:
        head, *rows = [[cell.text for cell in row] for row in sheet.rows]
        if "Remark" not in head or sheet.title == "Findings":
            continue
        at = head.index("Place in the source")
        assert not [row for row in rows if not re.search(r"\.yaml:\d+:\d+", row[at])], sheet.title
        if sheet.title not in ("Gauges", "Joins"):
            assert len({row[0] for row in rows}) == len(rows), sheet.title


def test_what_a_row_is_of_stands_at_its_place() -> None:
    """Yarn at its yarn, a band's counts at the band, joins and shaping of pieces at the garment."""
    book, source = workbook(proof_of("slack-tide-cardigan")), ROOT / (
        "patterns/slack-tide-cardigan/pattern.yaml")
    lines = source.read_text(encoding="utf-8").split("\n")
    for sheet, name, key in (("Yarn", "breakwater back stitches", "breakwater"),
                             ("neck", "fold rows", "neck"), ("Yarn", "waste metres", "garment"),
                             ("Shaping", "Back, left edge", "garment")):
        file, line, _ = _rows(book, sheet)[name][2].split(":")
        assert (ROOT / file, lines[int(line) - 1].strip()) == (source, f"{key}:"), name


def test_inputs_have_names_that_can_be_read() -> None:
    """The words and the name of an operand are one phrase."""
    names = list(_rows(workbook(proof_of("slack-tide-cardigan")), "Inputs"))
    assert not [name for name in names if "hem hem" in name or "source stitches" in name]
    assert "rows to join the hem" in names and "length in the source: ends" in names
    assert [name for name in names if name.startswith("pick-up rule, for ")]


def test_a_count_that_comes_of_a_measure_has_the_place_of_the_measure() -> None:
    """A remark on it came back without any place. Its chest is the chart's bust and the ease."""
    proof = proof_of("slack-tide-cardigan")
    book = workbook(proof)
    place = _rows(book, "Measures")["chest width"][2]
    assert re.fullmatch(r"patterns/slack-tide-cardigan/pattern\.yaml:\d+:\d+", place)
    assert _rows(book, "back")["stitches"][2] == place


def test_titles_of_sheets_are_taken_by_every_program() -> None:
    """At most 31 signs, none of []:*?/\\ and no two alike: what spreadsheet programs take."""
    for proof in collection().proofs:
        titles = [sheet.title for sheet in workbook(proof).sheets]
        assert len({title.lower() for title in titles}) == len(titles)
        assert all(0 < len(title) < 32 and not set(title) & set("[]:*?/\\") for title in titles)


def test_a_spoiled_formula_is_seen(tmp_path: Path) -> None:
    """A sheet in which one sum has another figure says so in its check."""
    book = workbook(proof_of("practice-band"))
    file = written(tmp_path, book)
    made = openpyxl.load_workbook(file)
    cell = next(row[3] for row in made["front"].iter_rows(min_row=2) if row[0].value
                == "band stitches")
    cell.value = f"{cell.value}+1"
    made.save(file)
    values = interpreted(file)
    checks = [value for (sheet, _), value in values.items() if sheet == "FRONT"]
    assert "differs" in checks


def cells_off(book: openpyxl.Workbook, published: Workbook) -> tuple[int, list[str]]:
    """How many cells of counts a computed workbook has, and those that are not what is published,
    or whose check is anything but "same"; a formula that came to an error is one of them."""
    held, off = 0, []
    for sheet in published.sheets:
        head = [cell.text for cell in sheet.rows[0]]
        if "Check" not in head:
            continue
        check, made = head.index("Check"), book[sheet.title]
        sizes = [name for name in head if f"{name}, published" in head]
        for number, row in enumerate(sheet.rows[1:], start=2):
            found = [cell.value for cell in made[number]]
            off += [f"{sheet.title}, {row[0].text}: {found[check]}"] * (found[check] != "same")
            near = Fraction("0.005001" if row[1].text == "mm" else "0.000001")
            for size in sizes:
                is_, was = (head.index(size), head.index(f"{size}, published"))
                if not row[was].text:
                    continue
                held += 1
                wanted = Fraction(row[was].text.strip("()"))
                if not isinstance(found[is_], int | float) or abs(
                        Fraction(found[is_]) - wanted) > near:
                    off.append(f"{sheet.title}, {row[0].text}, {size}: {found[is_]}, not {wanted}")
    return held, off


def computed(folder: Path) -> Path:
    """Let the spreadsheet program compute the workbooks of a folder, and return where they are."""
    subprocess.run(["soffice", "--headless", f"-env:UserInstallation=file://{folder}/settings",
                    "--convert-to", "xlsx", "--outdir", str(folder / "computed"),
                    *map(str, sorted(folder.glob("*.xlsx")))],
                   check=True, capture_output=True, timeout=900)
    return folder / "computed"


NEEDS_SOFFICE = pytest.mark.skipif(not shutil.which("soffice"),
                                   reason="this machine has no spreadsheet program")


@pytest.mark.long
@NEEDS_SOFFICE
def test_a_spreadsheet_program_comes_to_the_engines_figures(tmp_path: Path) -> None:
    """Every cell of every pattern of the collection; how many there were is printed."""
    books = {f"{book.slug}.xlsx": book for proof in collection().proofs
             for book in [workbook(proof)] if written(tmp_path, book)}
    made_in = computed(tmp_path)
    held, off = 0, list[str]()
    for name, book in books.items():
        made = openpyxl.load_workbook(made_in / name, data_only=True)
        cells, wrong = cells_off(made, book)
        held, off = held + cells, [*off, *(f"{name}, {each}" for each in wrong)]
    print(f"{held} cells of {len(books)} patterns")
    assert held > 200 * len(books) / 2
    assert off == []


def test_a_cell_that_is_off_or_an_error_is_seen(tmp_path: Path) -> None:
    """What the spreadsheet program could hand back: another figure, and an error instead of one."""
    book = workbook(proof_of("practice-band"))
    made = openpyxl.load_workbook(written(tmp_path, book))
    for sheet in book.sheets:  # as computed: every cell what is published
        head = [cell.text for cell in sheet.rows[0]]
        for number, row in enumerate(sheet.rows[1:] if "Check" in head else (), start=2):
            for place, name in enumerate(head, start=1):
                if f"{name}, published" in head and row[place - 1].text:
                    was = row[head.index(f"{name}, published")].text
                    made[sheet.title].cell(number, place).value = float(Fraction(was.strip("()")))
            made[sheet.title].cell(number, head.index("Check") + 1).value = "same"
    held, off = cells_off(made, book)
    assert held > 50 and off == []
    made["front"]["D2"].value = made["front"]["D2"].value + 1
    made["front"]["D3"].value = "#NAME?"
    assert len(cells_off(made, book)[1]) == 2


def test_inputs_are_marked_to_be_changed() -> None:
    book = workbook(proof_of("practice-band"))
    (inputs,) = [sheet for sheet in book.sheets if sheet.title == "Inputs"]
    looks = {cell.look for row in inputs.rows[1:] for cell in row}
    assert {Look.INPUT, Look.FIXED} <= looks

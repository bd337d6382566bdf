"""The workbook follows its inputs: after any change of them it is the engine on those inputs.

Inputs of every kind are drawn on every pattern of the collection, and changed in the source and in
the sheet alike. Every row that calls itself a formula which follows all its inputs must then be
what the engine makes of the changed source; other rows promise less.
"""

from __future__ import annotations

import os
import random
from fractions import Fraction
from pathlib import Path

import openpyxl
import pytest
from walebook.pages.sheet import workbook
from walebook.pages.sheet_values import SheetCell, Workbook
from walebook_site.reading import Reading

from tests.laws.calculator import Calculator, Cell
from tests.laws.changed_inputs import (
    FIRST,
    GivenInput,
    cells_changed,
    changed_proof,
    given_inputs,
)
from tests.laws.test_sheets import NEEDS_SOFFICE, computed, interpreted, proof_of, written
from tests.whole_collection import ROOT

LONG = "WALEBOOK_LONG_RUN" in os.environ
DRAWS = 12 if LONG else 2  # of inputs, on each pattern
SLUGS = tuple(Reading(ROOT).folders())
Changes = tuple[tuple[GivenInput, str], ...]
Row = tuple[SheetCell, ...]


def drawn(inputs: list[GivenInput], by: random.Random) -> Changes:
    """One to four inputs with other figures, at most one in a line; one alone each third time."""
    many = by.choice((1, 2, 4))
    found: dict[tuple[str, int], tuple[GivenInput, str]] = {}
    for one in by.sample(inputs, min(many, len(inputs))):
        found.setdefault((one.file, one.line), (one, one.drawn(by)))
    return tuple(found.values())


def formula_rows(book: Workbook) -> dict[tuple[str, str], tuple[int, Row]]:
    """The rows that are whole formulas, by sheet and count, with their numbers."""
    return {(sheet.title, row[0].text): (number, row) for sheet, kind in _counted(book)
            for number, row in enumerate(sheet.rows[1:], start=2) if row[kind].text == "formula"}


def _counted(book: Workbook):
    for sheet in book.sheets:
        head = [cell.text for cell in sheet.rows[0]]
        if "Kind" in head:
            yield sheet, head.index("Kind")


def published(book: Workbook) -> dict[tuple[str, str], Row]:
    """Every row of counts of a workbook, by sheet and count."""
    return {(sheet.title, row[0].text): row for sheet, _ in _counted(book)
            for row in sheet.rows[1:]}


def held(book: Workbook, after: Workbook, sizes: int, value) -> tuple[int, int, list[str]]:
    """How many figures of whole formulas were held to the engine's, how many moved, which are off.

    A count that the changed garment has no more is no figure to hold.
    """
    engine, many, moved, off = published(after), 0, 0, []
    for (sheet, name), (number, row) in formula_rows(book).items():
        other = engine.get((sheet, name))
        for size in range(sizes if other else 0):
            was, now = row[3 + sizes + size].text, other[3 + sizes + size].text
            if not was or not now:
                continue
            wanted = Fraction(now.strip("()"))
            found = value((sheet, FIRST + size, number))
            near = 0.0051 if row[1].text == "mm" else 1e-6
            if not abs(float(found) - float(wanted)) <= near:
                off.append(f"{sheet}, {name}, {size}: {found}, engine {float(wanted)}")
            many, moved = many + 1, moved + (was != now)
    return many, moved, off


@pytest.mark.sampled(7)
@pytest.mark.parametrize("slug", SLUGS)
def test_after_changed_inputs_it_is_the_engine_on_them(slug: str) -> None:
    """Inputs of which the engine makes no garment, or that it refuses, are drawn again."""
    proof = proof_of(slug)
    book, sizes = workbook(proof), len(proof.sizes)
    inputs, by = given_inputs(proof, book), random.Random(f"{slug} {DRAWS}")
    many = moves = done = 0
    for _ in range(20 * DRAWS):
        changes = drawn(inputs, by)
        after = changed_proof(slug, changes)
        if after is None or done == DRAWS:
            continue
        cells = Calculator(book, cells_changed(changes))
        number, moved, off = held(book, workbook(after), sizes, cells.value)
        assert off == [], (slug, [(one.label, one.figure, new) for one, new in changes])
        many, moves, done = many + number, moves + moved, done + 1
    assert done == DRAWS and many >= 5 * DRAWS


# One cell was enough, before the choices of the engine stood in the formulas (2026-12-01).
ONE_CELL = [("gull-wing-pullover", "swatch height", "14.5", "14.8"),
            ("mudlark-pullover", "ease: as written", "9", "9.4"),
            ("bowline-waistcoat", "ease: as written", "8", "7.4"),
            ("cutwater-pullover", "swatch height", "15.1", "15.4")]


@pytest.mark.parametrize(("slug", "label", "figure", "new"), ONE_CELL)
def test_one_changed_cell_is_followed(slug: str, label: str, figure: str, new: str) -> None:
    proof = proof_of(slug)
    book = workbook(proof)
    one = next(one for one in given_inputs(proof, book)
               if (one.label, one.figure) == (label, figure))
    after = changed_proof(slug, [(one, new)])
    assert after
    many, moved, off = held(book, workbook(after), len(proof.sizes),
                            Calculator(book, cells_changed([(one, new)])).value)
    assert off == [] and many > 40 and moved > 2


def test_all_kinds_of_inputs_are_drawn() -> None:
    """Of each pattern that measures itself: its lengths, its body and both sides of its swatch."""
    proof = proof_of("slack-tide-cardigan")
    inputs = given_inputs(proof, workbook(proof))
    assert {"swatch width", "swatch height", "swatch stitches", "swatch rows", "bust", "button",
            "ease: as written", "mass of a package"} <= {one.label for one in inputs}
    assert {Path(one.file).parent.name for one in inputs} == {
        "slack-tide-cardigan", "_sizes", "_beds"}


def test_a_formula_that_does_not_follow_is_seen() -> None:
    """A figure in the place of a formula is right until an input changes."""
    proof = proof_of("practice-band")
    book = workbook(proof)
    one = next(one for one in given_inputs(proof, book) if one.label == "swatch height")
    new = f"{float(one.figure) * 0.9:.1f}"
    after = changed_proof("practice-band", [(one, new)])
    assert after
    cells = cells_changed([(one, new)])
    assert held(book, workbook(after), len(proof.sizes), Calculator(book, cells).value)[2] == []
    engine, at = published(workbook(after)), 3 + len(proof.sizes)
    (sheet, name), (number, row) = next(
        (key, one) for key, one in formula_rows(book).items()
        if one[1][at].text != engine[key][at].text)
    spoiled = {**cells, (sheet, FIRST, number): float(Fraction(row[at].text.strip("()")))}
    _, _, off = held(book, workbook(after), len(proof.sizes), Calculator(book, spoiled).value)
    assert any(each.startswith(f"{sheet}, {name}, 0") for each in off)


def test_the_calculator_computes_as_an_interpreter_of_formulas_does(tmp_path: Path) -> None:
    book = workbook(proof_of("practice-band"))
    values, cells = interpreted(written(tmp_path, book)), Calculator(book, {})
    checked = 0
    for sheet in book.sheets:
        for at, row in enumerate(sheet.rows, start=1):
            for column, cell in enumerate(row, start=1):
                if not cell.computes or not cell.text:
                    continue
                found = values[sheet.title.upper(), _address(column, at)]
                ours = cells.value((sheet.title, column, at))
                assert found == ours or abs(float(found) - float(ours)) < 1e-9, cell.text
                checked += 1
    assert checked > 200


def _address(column: int, row: int) -> str:
    return f"{openpyxl.utils.get_column_letter(column)}{row}"


@pytest.mark.long
@NEEDS_SOFFICE
def test_a_spreadsheet_program_follows_changed_inputs(tmp_path: Path) -> None:
    """An editor changes cells of every pattern, and saves: the program comes to what the engine
    makes of the changed sources."""
    cases = {}
    for slug in SLUGS:
        proof = proof_of(slug)
        book, by = workbook(proof), random.Random(f"{slug} in a spreadsheet")
        inputs, after = given_inputs(proof, book), None
        while after is None:
            changes = drawn(inputs, by)
            after = changed_proof(slug, changes)
        file = written(tmp_path, book)
        made = openpyxl.load_workbook(file)
        for (sheet, column, row), figure in cells_changed(changes).items():
            made[sheet].cell(row, column).value = figure
        made.save(file)
        cases[file.name] = book, workbook(after), len(proof.sizes)
    made_in = computed(tmp_path)
    many = 0
    for name, (book, after_book, sizes) in cases.items():
        found = openpyxl.load_workbook(made_in / name, data_only=True)

        def value(cell: Cell, found: openpyxl.Workbook = found) -> object:
            return found[cell[0]].cell(cell[2], cell[1]).value

        number, _, off = held(book, after_book, sizes, value)
        assert off == [], name
        many += number
    print(f"{many} figures of {len(cases)} patterns")
    assert many > 40 * len(cases)

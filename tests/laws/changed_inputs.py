"""Inputs of a workbook that are changed at random, each in its source and in its cells alike."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

import yaml
from walebook.pages.sheet_values import Look, Sheet, Workbook
from walebook.proof.proof import Proof
from walebook_site.reading import Reading
from walebook_site.sources import Prover

from tests.laws.calculator import Cell
from tests.whole_collection import ROOT

FIRST = 4  # the column of the first size
_PLACE = re.compile(r"(patterns/.+\.yaml):(\d+):(\d+)")
_NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?(?= ?(cm|mm|m|g|%|in|)\b|)")
_SHARES = ("0.9", "0.94", "0.96", "0.98", "1.02", "1.04", "1.07", "1.1")
# What a number of the source can be in its cell: as it is, cm in mm, per cent, metres, inches.
_SCALES = (Fraction(1), Fraction(10), Fraction(1, 100), Fraction(1000), Fraction(254, 10))
_SWATCH = {"stitches": 2, "width": 3, "rows": 4, "height": 5}  # with the column of each


@dataclass(frozen=True)
class GivenInput:
    """A figure that a source states, with its cells: `figure` lies at `start` in a line of a file,
    and is in its cell so many times, and `more` besides."""

    label: str
    cells: tuple[Cell, ...]
    file: str
    line: int
    start: int
    figure: str
    times: Fraction
    more: Fraction = Fraction(0)

    def drawn(self, by: random.Random) -> str:
        """Another figure, near this one; of whole numbers without a unit a whole one."""
        old = Fraction(self.figure)
        if self.times == 10 or "." in self.figure:
            near = by.choice(("0.97", "0.98", "0.99", "1.01", "1.02", "1.03")
                             if self.label.startswith("swatch") else _SHARES)
            return f"{round(float(old * Fraction(near)), 1):g}"
        return str(old + by.choice((-1, 1) if self.label.startswith("swatch") else (-2, -1, 1, 2)))

    def in_cell(self, figure: str) -> float:
        """A figure of the source as its cell has it."""
        return float(Fraction(figure) * self.times + self.more)


@dataclass
class EditedReading(Reading):
    """The files of the collection, some of them with another text."""

    texts: Mapping[str, str] = field(default_factory=dict)

    def text(self, path: Path) -> str | None:
        name = self.name(path)
        return self.texts[name] if name in self.texts else super().text(path)


def given_inputs(proof: Proof, book: Workbook) -> list[GivenInput]:
    """Every figure of a pattern's source, its swatches and its body chart that is an input of its
    workbook, with all the cells that have it."""
    (inputs,) = [sheet for sheet in book.sheets if sheet.title == "Inputs"]
    return [*_written(inputs), *_swatches(proof), *_body(proof, inputs)]


def _figures(sheet: Sheet) -> Iterator[tuple[str, str, Cell, Fraction]]:
    """The cells of a sheet of inputs that have a figure and can be changed."""
    for at, row in enumerate(sheet.rows[1:], start=2):
        for column, cell in enumerate(row, start=1):
            if cell.look is Look.INPUT and re.fullmatch(r"\(?-?\d+(/\d+)?\)?", cell.text):
                yield row[0].text, row[2].text, (sheet.title, column, at), \
                    Fraction(cell.text.strip("()"))


def _written(sheet: Sheet) -> Iterator[GivenInput]:
    """The figures that stand in the text at the place of their cell, and nowhere else there."""
    found: dict[tuple[str, int, int], GivenInput] = {}
    for label, place, cell, value in _figures(sheet):
        if not (at := _PLACE.fullmatch(place)) or not (ROOT / at[1]).is_file():
            continue
        line, column = int(at[2]) - 1, int(at[3]) - 1
        text = (ROOT / at[1]).read_text(encoding="utf-8").split("\n")[line]
        value_ends = re.search(r"[}\]]|, [a-z]", text[column:])
        end = column + value_ends.start() if value_ends else len(text)
        fits = [(one, times, more) for one in _NUMBER.finditer(text, column, end)
                for times, more in _scaled(Fraction(one[0]), one[1], value)]
        if len(fits) != 1 or not value:
            continue
        one, times, more = fits[0]
        key = at[1], line, one.start()
        cells = (*(found[key].cells if key in found else ()), cell)
        found[key] = GivenInput(label, cells, at[1], line, one.start(), one[0], times, more)
    yield from found.values()


def _scaled(written: Fraction, unit: str, value: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    """How a number of the source comes to the figure of a cell: times what, and what more."""
    if unit == "%" and 1 + written / 100 == value:
        yield Fraction(1, 100), Fraction(1)
    elif written and value / written in _SCALES and (value == written or unit):
        yield value / written, Fraction(0)


def _swatches(proof: Proof) -> Iterator[GivenInput]:
    """What was counted and measured of each swatch; a row for the mean follows a fabric's."""
    row = 2
    for fabric in proof.pattern.fabrics.values():
        for swatch in fabric.swatches:
            if swatch.place and swatch.place.file.endswith("pattern.yaml"):
                yield from _swatch(swatch.place.file, swatch.place.line - 1,
                                   swatch.place.column - 1, row)
            row += 1
        row += bool(fabric.swatches)


def _swatch(file: str, line: int, column: int, row: int) -> Iterator[GivenInput]:
    lines = (ROOT / file).read_text(encoding="utf-8").split("\n")
    for name, at in _SWATCH.items():
        for number in range(line, min(line + 6, len(lines))):
            one = re.compile(rf"\b{name}: (\d+(?:\.\d+)?)( cm)?").search(
                lines[number], column if number == line else 0)
            if one:
                yield GivenInput(f"swatch {name}", (("Gauges", at, row),), file, number,
                                 one.start(1), one[1], Fraction(10 if one[2] else 1))
                break


def _body(proof: Proof, sheet: Sheet) -> Iterator[GivenInput]:
    """The figures of the chart of sizes, in centimetres, by what it calls each measurement."""
    source = (ROOT / "patterns" / proof.pattern.slug / "pattern.yaml").read_text(encoding="utf-8")
    for path in sorted((ROOT / "patterns/_sizes").glob("*.yaml")):
        if not re.search(rf"\bchart: {re.escape(path.stem)}\b", source):
            continue
        text = path.read_text(encoding="utf-8")
        lines, file = text.split("\n"), path.relative_to(ROOT).as_posix()
        for key, row in yaml.safe_load(text)["measurements"].items():
            begins = lines.index(f"  {key}:")
            number = next((n for n in range(begins, len(lines))
                           if lines[n].startswith("    cm: {")), None)
            label = row.get("label", key.replace("_", " "))
            if number is not None:
                yield from _measured(sheet, label, file, number, lines[number])


def _measured(sheet: Sheet, label: str, file: str, line: int, text: str) -> Iterator[GivenInput]:
    by_value: dict[Fraction, list[Cell]] = {}
    for name, place, cell, value in _figures(sheet):
        if name.partition(", the ")[0] == label and not _PLACE.fullmatch(place):
            by_value.setdefault(value, []).append(cell)
    for value, cells in by_value.items():
        fits = [one for one in re.finditer(r"(?<=[ \-–])\d+(?:\.\d+)?(?=[,}\-–])", text)
                if Fraction(one[0]) * 10 == value]
        if len(fits) == 1 and len({column for _, column, _ in cells}) == 1:
            yield GivenInput(label, tuple(cells), file, line, fits[0].start(), fits[0][0],
                             Fraction(10))


def changed_proof(slug: str, changes: Sequence[tuple[GivenInput, str]]) -> Proof | None:
    """The proof of a pattern whose sources have other figures, None where it is refused."""
    texts: dict[str, list[str]] = {}
    for one, new in sorted(changes, key=lambda each: -each[0].start):
        lines = texts.setdefault(one.file, (ROOT / one.file).read_text(encoding="utf-8")
                                 .split("\n"))
        line = lines[one.line]
        lines[one.line] = line[:one.start] + new + line[one.start + len(one.figure):]
    reading = EditedReading(ROOT, texts={file: "\n".join(lines) for file, lines in texts.items()})
    return Prover.of(reading).prove(reading.folder(slug)).proof


def cells_changed(changes: Sequence[tuple[GivenInput, str]]) -> dict[Cell, float]:
    """The cells of the workbook with the figures of the changed source."""
    return {cell: one.in_cell(new) for one, new in changes for cell in one.cells}

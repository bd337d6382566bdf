"""The command for workbooks: written, read back with remarks, and what it says of bad input."""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path

import openpyxl
import pytest
from walebook_site.command import main

from tests.site.builds import make_project

SLUG = "harbour-front"


@pytest.fixture
def root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    made = make_project(tmp_path / "lane")
    monkeypatch.chdir(made)
    return made


def remark(root: Path, count: str, *, remark: str = "", status: str = "") -> None:
    """Write beside a count, as an editor does in her spreadsheet."""
    book = openpyxl.load_workbook(root / f"{SLUG}.xlsx")
    (sheet,) = [one for one in book.worksheets if one["A1"].value == "Count"
                and any(row[0].value == count for row in one.iter_rows())]
    head = [cell.value for cell in sheet[1]]
    (row,) = [row for row in sheet.iter_rows() if row[0].value == count]
    for name, said in (("Remark", remark), ("Status", status)):
        if said:
            row[head.index(name)].value = said
    book.save(root / f"{SLUG}.xlsx")


def answered(root: Path) -> str:
    """What the next workbook has under Answer."""
    book = openpyxl.load_workbook(root / f"{SLUG}.xlsx")
    return " ".join(str(row[-1]) for sheet in book.worksheets
                    for row in list(sheet.iter_rows(values_only=True))[1:]
                    if sheet["A1"].value == "Count" and row[-1])


def test_remarks_come_back_and_stay_until_they_are_done(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source = root / "patterns" / SLUG / "pattern.yaml"
    before, kept = source.read_bytes(), source.with_name("remarks.yaml")
    assert main(["sheet", SLUG]) == 0
    remark(root, "band stitches", remark='39? I make it "40"', status="open")
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    said = capsys.readouterr().out
    assert '39? I make it "40" [open]' in said and "1 remark kept in" in said
    text = kept.read_text()
    kept.write_text(text.replace('answer: ""', 'answer: "39: 52 × 3/4"'))
    assert main(["check"]) == 0
    assert main(["sheet", SLUG]) == 0
    assert answered(root) == "39: 52 × 3/4"
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    assert "39: 52 × 3/4" in kept.read_text()
    remark(root, "band stitches", status="done")
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    assert not kept.exists() and source.read_bytes() == before


@pytest.mark.parametrize("changed", [{"remark": "39?"}, {"remark": "39?", "status": "open"},
                                     {"status": "waiting"}])
def test_a_workbook_with_unread_remarks_is_not_written_over(
        root: Path, capsys: pytest.CaptureFixture[str], changed: dict[str, str]) -> None:
    file = root / f"{SLUG}.xlsx"
    assert main(["sheet", SLUG]) == 0
    if "remark" not in changed:
        remark(root, "band stitches", remark="39?", status="open")
        assert main(["sheet", "--read", file.name]) == 0
    remark(root, "band stitches", **changed)
    came = file.read_bytes()
    capsys.readouterr()
    assert main(["sheet", SLUG]) == 1
    assert (f"{file.name} has 1 remark that you have not read. Read it first: walebook sheet "
            f"--read {file.name}. Nothing was written.") in capsys.readouterr().err
    assert file.read_bytes() == came
    assert main(["sheet", SLUG, "--out", "other.xlsx"]) == 0
    assert main(["sheet", "--read", file.name]) == 0
    assert main(["sheet", SLUG]) == 0


def after_an_answer(root: Path, text: str) -> Path:
    """The file of remarks, in which the one about the band's stitches is read and answered."""
    kept = root / "patterns" / SLUG / "remarks.yaml"
    assert main(["sheet", SLUG]) == 0
    remark(root, "band stitches", remark=text)
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    kept.write_text(kept.read_text().replace('answer: ""', 'answer: "yes"'))
    return kept


def test_a_remark_that_was_let_go_does_not_keep_its_workbook(root: Path) -> None:
    kept = after_an_answer(root, "39?")
    remark(root, "band stitches", status="done")
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    assert not kept.exists() and main(["sheet", SLUG]) == 0


def beside(root: Path, title: str, number: int, *, remark: str, status: str = "") -> None:
    """Write beside a row of a sheet, by the row's number in the file."""
    book = openpyxl.load_workbook(root / f"{SLUG}.xlsx")
    head = [cell.value for cell in book[title][1]]
    for name, said in (("Remark", remark), ("Status", status)):
        book[title].cell(number, head.index(name) + 1).value = said
    book.save(root / f"{SLUG}.xlsx")


def test_every_sheet_that_an_editor_reads_takes_remarks(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What she wrote comes back to its row in the next workbook, with the designer's answer, and is
    listed with its place."""
    source = root / "patterns" / SLUG / "pattern.yaml"
    kept = source.with_name("remarks.yaml")
    assert main(["sheet", SLUG]) == 0
    book = openpyxl.load_workbook(root / f"{SLUG}.xlsx")
    for title in ("Inputs", "Gauges", "Joins", "Findings"):
        assert [cell.value for cell in book[title][1]][-3:] == ["Remark", "Status", "Answer"]
    first, again = 2, 3
    beside(root, "Inputs", first, remark="one input")
    beside(root, "Inputs", again, remark="another input")
    beside(root, "Gauges", 2, remark="measured dry?", status="open")
    beside(root, "Findings", 2, remark="I would widen it")
    place = book["Findings"]["C2"].value
    capsys.readouterr()
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    said = capsys.readouterr().out
    assert "measured dry? [open]" in said and "4 remarks kept in" in said
    swatch = next(n for n, line in enumerate(source.read_text(encoding="utf-8").splitlines(), 1)
                  if line.strip().startswith("swatch: "))
    assert re.search(rf"^\S+pattern\.yaml:{swatch}:\d+: Gauges, ", said, re.MULTILINE)
    assert f"{place}: Findings, {book['Findings']['B2'].value}: I would widen it" in said
    kept.write_text(kept.read_text().replace('answer: ""', 'answer: "yes"'))
    assert main(["sheet", SLUG]) == 0
    new = openpyxl.load_workbook(root / f"{SLUG}.xlsx")
    for title, number, remark_ in (("Inputs", first, "one input"),
                                   ("Inputs", again, "another input"),
                                   ("Gauges", 2, "measured dry?"),
                                   ("Findings", 2, "I would widen it")):
        cells = [cell.value for cell in new[title][number]][-3:]
        assert (cells[0], cells[2]) == (remark_, "yes"), title


def test_what_the_designer_has_not_answered_is_not_done(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    kept = root / "patterns" / SLUG / "remarks.yaml"
    assert main(["sheet", SLUG]) == 0
    remark(root, "band stitches", remark="39?", status="done")
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    assert "is done for the editor, and has no answer" in capsys.readouterr().out
    assert 'remark: "39?"' in kept.read_text()
    kept.write_text(kept.read_text().replace('answer: ""', 'answer: "yes, 39"'))
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    assert not kept.exists()


def test_a_check_says_in_one_line_that_remarks_are_open(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    def said() -> list[str]:
        capsys.readouterr()
        assert main(["check"]) == 0
        return [line for line in capsys.readouterr().out.splitlines() if "tech editor" in line]

    assert said() == []
    assert main(["sheet", SLUG]) == 0
    remark(root, "band stitches", remark="39?", status="done")
    remark(root, "edge rows", remark="52?")
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    assert said() == [f"{SLUG}: 2 open remarks of the tech editor, 2 without your answer: "
                      f"patterns/{SLUG}/remarks.yaml"]
    kept = root / "patterns" / SLUG / "remarks.yaml"
    kept.write_text(kept.read_text().replace('answer: ""', 'answer: "yes"', 1))
    assert said() == [f"{SLUG}: 2 open remarks of the tech editor, 1 without your answer: "
                      f"patterns/{SLUG}/remarks.yaml"]
    kept.write_text("- [")
    (line,) = [one for one in _checked(capsys) if "remarks.yaml" in one]
    assert "cannot be read as YAML" in line


def _checked(capsys: pytest.CaptureFixture[str]) -> list[str]:
    capsys.readouterr()
    assert main(["check"]) == 0
    return capsys.readouterr().out.splitlines()


def test_another_remark_has_no_answer_yet(root: Path) -> None:
    kept = after_an_answer(root, "first")
    remark(root, "band stitches", remark="second")
    assert main(["sheet", "--read", f"{SLUG}.xlsx"]) == 0
    assert 'remark: "second"' in kept.read_text() and 'answer: ""' in kept.read_text()


def test_all_sizes_for_other_programs(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", SLUG, "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    assert said["pattern"] == SLUG and said["counts"]
    assert {part: set(names) for part, names in said["units"].items()} == {
        part: set(names) for part, names in said["counts"].items()}


@pytest.mark.parametrize(("name", "content", "said"), [
    ("gone.xlsx", None, "there is no file gone.xlsx"),
    ("text.xlsx", b"no workbook", "text.xlsx is no workbook (xlsx) that can be read"),
    ("text.ods", b"no workbook", "text.ods is no workbook (xlsx) that can be read"),
    ("empty.xlsx", b"", "empty.xlsx is no workbook (xlsx) that can be read")])
def test_what_is_no_workbook_is_named(root: Path, capsys: pytest.CaptureFixture[str], name: str,
                                      content: bytes | None, said: str) -> None:
    if content is not None:
        (root / name).write_bytes(content)
    assert main(["sheet", "--read", name]) == 1
    printed = capsys.readouterr().err
    assert said in printed and "Traceback" not in printed


def test_a_workbook_of_another_is_no_workbook_of_ours(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    openpyxl.Workbook().save(root / "other.xlsx")
    assert main(["sheet", "--read", "other.xlsx"]) == 1
    assert "no sheet About that names its pattern" in capsys.readouterr().err


def test_a_workbook_leads_nowhere_but_to_a_pattern(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", SLUG]) == 0
    book = openpyxl.load_workbook(f"{SLUG}.xlsx")
    book["About"]["A2"].value = "The pattern's folder: ../patterns/harbour-front/.."
    book.save("led.xlsx")
    assert main(["sheet", "--read", "led.xlsx"]) == 1
    assert "there is none in" in capsys.readouterr().err
    assert not list(root.rglob("remarks.yaml"))


@pytest.mark.parametrize("text", ["- [", "- {remark: x}", "words", "\xff"])
def test_a_spoiled_file_of_remarks_is_named_and_stays(
        root: Path, capsys: pytest.CaptureFixture[str], text: str) -> None:
    kept = root / "patterns" / SLUG / "remarks.yaml"
    kept.write_bytes(text.encode("latin-1"))
    assert main(["sheet", SLUG]) == 1
    assert "remarks.yaml" in capsys.readouterr().err
    assert kept.read_bytes() == text.encode("latin-1")


def test_no_workbook_of_a_pattern_with_errors(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source = root / "patterns" / SLUG / "pattern.yaml"
    source.write_text(source.read_text().replace("title:", "titel:"))
    assert main(["sheet", SLUG]) == 1
    assert "no workbook was written" in capsys.readouterr().err
    assert not (root / f"{SLUG}.xlsx").exists()


def test_without_the_library_it_says_what_to_install(
        root: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "openpyxl", None)
    assert main(["sheet", SLUG]) == 1
    assert "pip install 'walebook[sheet]'" in capsys.readouterr().err

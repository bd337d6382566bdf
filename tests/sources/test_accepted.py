"""Remarks: one short line each, once for all patterns, quiet once accepted until they change."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from reading import BASE, HERE, changed, messages
from walebook.core.problems import Place, Severity, note, render
from walebook_site.command import main

GARMENT = (HERE / "garment.yaml").read_text(encoding="utf-8").replace(
    "bed: standard", "bed: {pitch: 4.5 mm, needles: 200}").replace("L: 36 cm", "L: 31 cm")
CHART = (HERE / "women.yaml").read_text(encoding="utf-8")
LONG = "Known to run tight at the upper arm of larger sizes. " * 6
REMARKS = f"""remarks:
  - short: Tight at the upper arm.
    text: {LONG.strip()}
    source: who says so
    rows: [upper_arm]
  - text: Choose by the chest. Not by the age.
    source: who says so
"""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    sizes = tmp_path / "patterns" / "_sizes"
    sizes.mkdir(parents=True)
    (sizes / "women.yaml").write_text(CHART + REMARKS, encoding="utf-8")
    add(tmp_path, "harbour-wall")
    return tmp_path


def add(root: Path, slug: str, text: str = GARMENT) -> None:
    folder = root / "patterns" / slug
    folder.mkdir(exist_ok=True)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8")


def told(root: Path, capsys: pytest.CaptureFixture[str], code: str) -> list[str]:
    """What the command prints about a code."""
    main(["check", "--root", str(root)])
    return [block for block in capsys.readouterr().out.split("\n\n") if code in block]


def marks(root: Path, capsys: pytest.CaptureFixture[str]) -> list[str]:
    return re.findall(r"chart-remark [0-9a-f]{8}", "\n".join(told(root, capsys, "chart-remark")))


def accepting(*asked: str, text: str = GARMENT) -> str:
    return changed("sizes: [S, M, L]", f"accepted: [{', '.join(asked)}]\nsizes: [S, M, L]", text)


def test_remarks_of_a_chart_are_short_lines_under_one_place(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    [block] = told(root, capsys, "chart-remark")
    place, one, other = block.splitlines()
    assert place == "patterns/harbour-wall/pattern.yaml:19:10: remark, chart-remark: 2 remarks:"
    assert re.fullmatch(r"    chart-remark [0-9a-f]{8}: chart women: Tight at the upper arm\.", one)
    assert other.endswith("chart women: Choose by the chest.")
    assert max(map(len, (one, other))) < 130


def test_a_remark_that_stands_alone_has_its_place_in_its_line(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    first, other = marks(root, capsys)
    add(root, "harbour-wall", accepting(other))
    [one] = told(root, capsys, "chart-remark")
    assert one == (f"patterns/harbour-wall/pattern.yaml:20:10: remark, {first}: chart women: Tight "
                   "at the upper arm.")


def test_for_an_editor_each_remark_has_a_line_with_its_place(
        root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["check", "--root", str(root), "--form", "lines"])
    lines = [one for one in capsys.readouterr().out.splitlines() if "chart-remark" in one]
    assert len(lines) == 2
    assert all(one.startswith("patterns/harbour-wall/pattern.yaml:19:10: ") for one in lines)


def test_a_remark_that_two_patterns_have_is_told_once(root: Path,
                                                      capsys: pytest.CaptureFixture[str]) -> None:
    add(root, "second")
    add(root, "third")
    [block] = told(root, capsys, "chart-remark")
    _, *found = block.splitlines()
    assert len(found) == 2
    assert all(one.endswith(" (also in second, third)") for one in found)


def test_an_accepted_remark_is_quiet(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = marks(root, capsys)
    add(root, "harbour-wall", accepting(*asked))
    assert told(root, capsys, "chart-remark") == []
    add(root, "second")  # which accepts nothing
    assert len(marks(root, capsys)) == 2


@pytest.mark.parametrize(("old", "new"), [
    ("at the upper arm of larger", "at the upper arm of the larger"), ("M: 28,", "M: 29,"),
    ("who says so\n    rows", "another who says so\n    rows")],
    ids=["its text", "a figure it is about", "who says so"])
def test_an_accepted_remark_is_told_again_when_its_facts_change(
        root: Path, capsys: pytest.CaptureFixture[str], old: str, new: str) -> None:
    asked = marks(root, capsys)
    add(root, "harbour-wall", accepting(*asked))
    chart = root / "patterns" / "_sizes" / "women.yaml"
    text = chart.read_text(encoding="utf-8")
    assert old in text
    chart.write_text(text.replace(old, new, 1), encoding="utf-8")
    found = told(root, capsys, "chart-remark")
    [again] = [one for one in found if "Tight at the upper arm." in one]
    mark = re.search("chart-remark [0-9a-f]{8}", again)
    assert mark is not None
    assert mark[0] not in asked
    assert (f'16:12: warning, accepted-gone: found "{asked[0]}", which no remark of this pattern '
            "has; expected the mark of a remark that it has. Read the remarks again: accept the "
            "new one, or delete this.") in found[0]


@pytest.mark.parametrize("sizes", ["S, M, {label: Grand, as: L}",
                                   "{label: A, as: S}, {label: B, as: M}, {label: C, as: L}"],
                         ids=["one size", "all sizes"])
def test_an_accepted_remark_stays_accepted_when_a_size_is_renamed(
        root: Path, capsys: pytest.CaptureFixture[str], sizes: str) -> None:
    asked = marks(root, capsys)
    assert len(asked) == 2
    text = accepting(*asked)
    for label, column in re.findall(r"label: (\w+), as: (\w)", sizes):
        text = re.sub(rf"([{{ ]){column}: ", rf"\g<1>{label}: ", text)
    add(root, "harbour-wall", changed("sizes: [S, M, L]", f"sizes: [{sizes}]", text))
    assert main(["check", "--root", str(root)]) == 0
    printed = capsys.readouterr().out
    assert "chart-remark" not in printed
    assert "accepted-gone" not in printed


def test_a_remark_that_no_longer_occurs_is_a_finding(root: Path,
                                                     capsys: pytest.CaptureFixture[str]) -> None:
    add(root, "harbour-wall", accepting("hem-not-swatched 01234567"))
    assert len(told(root, capsys, "accepted-gone")) == 1


@pytest.mark.parametrize("asked", ["chart-remark", "chart-remark 12", "tight 01234567",
                                   "unlikely-value 01234567"])
def test_only_a_remark_can_be_accepted_by_its_code_and_mark(asked: str) -> None:
    text = changed("sizes: [XS, S, M]", f"accepted: [{asked}]\nsizes: [XS, S, M]", BASE)
    [found] = messages(text)
    assert found.startswith(f'30:12: error, bad-accepted: found "{asked}"; expected the code and '
                            "the mark of a remark, such as chart-remark 1a2b3c4d.")


def test_a_warning_cannot_be_accepted() -> None:
    """Its line has no mark; and one that is made up is told to be gone."""
    said = render(note(Severity.WARNING, "unlikely-value", Place("a", 1, 1), found="x"))
    assert not re.search("unlikely-value [0-9a-f]{8}", said)


def test_a_yarn_whose_swatch_was_not_weighed_is_told(root: Path,
                                                     capsys: pytest.CaptureFixture[str]) -> None:
    found = told(root, capsys, "yarn-not-weighed")
    assert found
    assert all(one.startswith("patterns/harbour-wall/pattern.yaml:10:3: caution, yarn-not-weighed: "
                              "found ") for one in found)

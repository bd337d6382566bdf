"""A draft is shown while it is written, and nothing of it is published.

What a draft is, common practice of publishing programs, no source.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from walebook.source.status import is_draft
from walebook_site.command import main
from walebook_site.proving import prove_all

from tests.site.builds import commands, make_project

ROOT = Path(__file__).parents[2]
SMALLEST = (ROOT / "tests" / "sources" / "smallest.yaml").read_text(encoding="utf-8")
DRAFT = f"status: draft\n{SMALLEST}"
BROKEN = DRAFT.replace("rows:", "rowz:", 1)


def project(root: Path, draft: str) -> Path:
    """A folder with a published pattern and a draft."""
    shutil.copytree(ROOT / "patterns" / "_beds", root / "patterns" / "_beds")
    for slug, text in (("harbour-front", SMALLEST), ("slip-way", draft)):
        (root / "patterns" / slug).mkdir()
        (root / "patterns" / slug / "pattern.yaml").write_text(text, encoding="utf-8")
    return root


@pytest.mark.parametrize(("source", "expected"), [
    (DRAFT, True), (SMALLEST, False), (BROKEN, True),
    (f'status: "draft"  # until the sleeves fit\n{SMALLEST}', True),
    (f"{{status: draft, {SMALLEST}", False),
    (f"status: draft\nsizes: [S, M\n{SMALLEST}", True),  # no YAML
    (f"status: draft\n\t{SMALLEST}", True),
    ("{title: draft, status: published}", False), ("{title: x, status: draft}", True),
    ("summary: >\n  status: draft\n", False), ("status: [draft]", False),
    ("# status: draft\n", False)])
def test_a_draft_is_known_even_where_the_source_has_errors(source: str, expected: bool) -> None:
    assert is_draft(source) is expected


def test_a_draft_has_no_page_and_stands_in_no_list(tmp_path: Path) -> None:
    found = prove_all(project(tmp_path, DRAFT), pages=True)
    assert found.drafts == ("slip-way",) and [p.slug for p in found.patterns] == ["harbour-front"]
    assert not any("slip-way" in f"{path}{text}" for path, text in found.texts())
    assert not any("slip-way" in card.html for card in found.cards())


def test_errors_of_a_draft_are_listed_and_stop_nothing(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    root = project(tmp_path, BROKEN)
    assert main(["check", "--root", str(root)]) == 0
    said = capsys.readouterr().out
    assert "patterns/slip-way/pattern.yaml:" in said and "unknown-key" in said
    assert "Drafts, not published: slip-way." in said
    assert main(["pages", str(tmp_path / "out"), "--root", str(root)]) == 0
    assert (tmp_path / "out" / "patterns" / "harbour-front" / "counts.json").is_file()
    assert not (tmp_path / "out" / "patterns" / "slip-way").exists()


def test_a_draft_checked_alone_is_not_called_no_pattern(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    root = project(tmp_path, DRAFT)
    assert main(["check", "slip-way", "--root", str(root)]) == 0
    said = capsys.readouterr().out.splitlines()[-1]
    assert said.startswith("1 draft checked: 0 errors") and "0 patterns" not in said
    assert said.endswith("Drafts, not published: slip-way.")


def test_errors_of_what_a_published_pattern_uses_still_stop(tmp_path: Path) -> None:
    root = project(tmp_path, DRAFT)
    source = root / "patterns" / "harbour-front" / "pattern.yaml"
    source.write_text(BROKEN.removeprefix("status: draft\n"), encoding="utf-8")
    assert main(["check", "--root", str(root)]) == 1


def test_a_link_to_a_draft_is_a_fault_of_a_published_page_alone(tmp_path: Path) -> None:
    root = project(tmp_path, DRAFT)
    link = "See the [slip way](../slip-way/index.html) and [front](../harbour-front/index.html).\n"
    for slug in ("harbour-front", "slip-way"):
        (root / "patterns" / slug / "notes.md").write_text(link, encoding="utf-8")
    faults = [p for p in prove_all(root, pages=True).problems if "slip-way" in p.found]
    assert [p.place.file for p in faults] == ["patterns/harbour-front/notes.md"]
    (root / "patterns" / "slip-way" / "pattern.yaml").write_text(SMALLEST, encoding="utf-8")
    assert prove_all(root, pages=True).is_sound  # and not taken from what was kept


def test_a_built_site_has_no_trace_of_a_draft(tmp_path: Path) -> None:
    root = make_project(tmp_path)
    (root / "patterns" / "slip-way").mkdir()
    (root / "patterns" / "slip-way" / "pattern.yaml").write_text(BROKEN, encoding="utf-8")
    with commands() as run:
        done = run.run(root, "mkdocs", "build")
    assert done.code == 0, done.printed
    assert not (root / "site" / "patterns" / "slip-way").exists()
    assert (root / "site" / "patterns" / "harbour-front" / "index.html").is_file()
    for path in (root / "site").rglob("*"):
        assert path.is_dir() or b"slip-way" not in path.read_bytes(), path


def test_a_site_of_drafts_alone_is_built(tmp_path: Path) -> None:
    root = make_project(tmp_path)
    (root / "patterns" / "harbour-front" / "pattern.yaml").write_text(DRAFT, encoding="utf-8")
    with commands() as run:
        done = run.run(root, "mkdocs", "build")
    assert done.code == 0, done.printed
    assert not (root / "site" / "patterns" / "harbour-front").exists()

"""The command writes the kind of a front edge where the source or a record shows it, else never."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from reading import BASE, SMALLEST, messages
from walebook_site.command import main

FLOW = SMALLEST.replace(", kind: pair of fronts", "")
BLOCK = FLOW.replace("  front: {fabric: body, rows: 52}",
                     "  front:\n    fabric: body  # as it is\n    rows: 52")
HOLES = BASE.replace("front: {kind: pair of fronts,", "front: {")
LEFT = ("edge front has no kind. Write kind: pair of fronts or kind: one edge\n"
        "0 keys renamed.\n")


@pytest.fixture
def root(tmp_path: Path) -> Path:
    (tmp_path / "patterns" / "trial").mkdir(parents=True)
    return tmp_path


def fixed(root: Path, text: str, record: object = None) -> str:
    """The source after the command; `record` lies beside it."""
    path = root / "patterns" / "trial" / "pattern.yaml"
    path.write_bytes(text.encode())
    if record is not None:
        path.with_name("published.json").write_text(json.dumps(record), encoding="utf-8")
    assert main(["fix", "--root", str(root)]) == 0
    return path.read_bytes().decode()


def published(text: str) -> dict[str, object]:
    """A record that counts the bands of a source."""
    return {"counts": {"M": {key: {} for key in ("left_front", "front") if f"  {key}:\n" in text}}}


def test_an_edge_that_does_not_say_its_kind_is_an_error() -> None:
    assert FLOW != SMALLEST
    (found,) = messages(FLOW)
    assert found.startswith('18:3: error, edge-not-said: found no "kind" in edge "front"; ')


def test_a_zip_shows_two_fronts(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    zipped = FLOW[:FLOW.index("    buttonholes:")] + "    zip: 1 cm\n"
    assert fixed(root, zipped) == zipped.replace("front: {", "front: {kind: pair of fronts, ")
    assert capsys.readouterr().out == (
        "patterns/trial/pattern.yaml:18:10: edge front has kind: pair of fronts now\n"
        "0 keys renamed, 1 edge got a kind.\n")


def test_buttonholes_on_a_front_show_two_fronts(root: Path) -> None:
    after = fixed(root, HOLES)
    assert after == HOLES.replace("front: {", "front: {kind: pair of fronts, ", 1)
    assert messages(after) == messages(BASE)


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_a_published_version_shows_two_fronts(root: Path, ends: str) -> None:
    text = BLOCK.replace("\n", ends)
    after = fixed(root, text, published(BLOCK))
    assert after == text.replace("    fabric: body  #",
                                 f"    kind: pair of fronts{ends}    fabric: body  #")
    assert messages(after) == messages(SMALLEST)
    assert fixed(root, after, published(BLOCK)) == after


@pytest.mark.parametrize("record", [
    None, {}, [], {"counts": []}, {"counts": {"M": {"other": {}}}}, {"counts": {"M": 7}}])
def test_where_nothing_shows_it_the_designer_is_asked(
        root: Path, record: object, capsys: pytest.CaptureFixture[str]) -> None:
    assert fixed(root, FLOW, record) == FLOW
    assert capsys.readouterr().out.endswith(LEFT)


@pytest.mark.parametrize("edge", ["  front: {fabric: body, sections: [{title: a, rows: 52}]}",
                                  "  front: {fabric: body, kind: one edge, rows: 52}",
                                  "  front: {}", "  other: {fabric: body, rows: 52}"])
def test_another_edge_is_left(root: Path, edge: str) -> None:
    text = FLOW.replace("  front: {fabric: body, rows: 52}", edge)
    assert edge in text
    assert fixed(root, text, published(FLOW)) == text


def test_it_can_show_what_it_would_write(root: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = root / "patterns" / "trial" / "pattern.yaml"
    path.write_text(HOLES, encoding="utf-8")
    assert main(["fix", "--show", "--root", str(root)]) == 0
    assert path.read_text(encoding="utf-8") == HOLES
    assert capsys.readouterr().out.endswith(
        "0 keys to rename, 1 edge to get a kind. Nothing was written.\n")

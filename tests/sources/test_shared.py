"""Yarns and fabrics that a collection writes once: the same as written out, and no other way."""

from __future__ import annotations

import re
from pathlib import Path

import jsonschema
import pytest
import yaml
from reading import HERE
from walebook.pages import SCHEMAS
from walebook_site.command import main
from walebook_site.page_texts import pages_of
from walebook_site.sources import collect

WRITTEN_OUT = (HERE / "smallest.yaml").read_text(encoding="utf-8")
SHARING = WRITTEN_OUT.replace("""  main: {name: Harbour Bulky}
""", """  main: shared harbour
""").replace("""  body:
    yarn: main
    dial: 6.1
    swatch: {stitches: 20, width: 14.2 cm, rows: 30, height: 15 cm}
""", """  body: shared
""")
SHARED = """\
yarns:
  harbour: {name: Harbour Bulky}
fabrics:
  body:
    yarn: main
    dial: 6.1
    swatch: {stitches: 20, width: 14.2 cm, rows: 30, height: 15 cm}
"""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    assert SHARING.count("shared") == 2
    write(tmp_path, SHARING, SHARED)
    return tmp_path


def write(root: Path, source: str, shared: str | None) -> None:
    folder = root / "patterns" / "harbour-wall"
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "pattern.yaml").write_text(source, encoding="utf-8")
    if shared is not None:
        (root / "patterns" / "_shared.yaml").write_text(shared, encoding="utf-8")


def pages(root: Path) -> dict[str, str]:
    """The pages, and the counts without the lines of the source that they name."""
    (proof,) = collect(root).proofs
    return {path: re.sub(r'"line": \d+, "column": \d+', "", text)
            for path, text in pages_of(proof)[1].items()}


def test_what_is_shared_is_as_if_written_out(root: Path, tmp_path_factory: pytest.TempPathFactory
                                             ) -> None:
    other: Path = tmp_path_factory.mktemp("written-out")
    write(other, WRITTEN_OUT, None)
    assert pages(root) == pages(other)


def errors(root: Path, capsys: pytest.CaptureFixture[str]) -> list[str]:
    main(["check", "--form", "lines", "--quiet", "--root", str(root)])
    return capsys.readouterr().out.splitlines()


WRONG = {
    "no file": (SHARING, None, [
        "harbour-wall/pattern.yaml:10:9: error, unknown-name: found an entry from "
        "patterns/_shared.yaml, and no such file; expected a file with yarns or fabrics in it. "
        "Write patterns/_shared.yaml, or write the entry here."]),
    "another name": (SHARING.replace("shared harbour", "shared harbuor"), SHARED, [
        'harbour-wall/pattern.yaml:10:9: error, unknown-name: found no yarn called "harbuor" in '
        'patterns/_shared.yaml; expected "harbour". Write harbour.']),
    "another section": (SHARING, SHARED.replace("yarns:", "yarn:"), [
        '_shared.yaml:1:1: error, unknown-key: found the unknown key "yarn" in '
        'patterns/_shared.yaml; expected "yarns" or "fabrics". Delete it, or write it into the '
        "patterns.",
        'harbour-wall/pattern.yaml:10:9: error, unknown-name: found no yarn called "harbour" in '
        "patterns/_shared.yaml. Add it there, or write it here."]),
    "a list": (SHARING, "- yarns\n", [
        "_shared.yaml:1:1: error, wrong-shape: found no mapping in patterns/_shared.yaml; "
        "expected a mapping. Write entries under yarns or fabrics."]),
    "a fault in an entry": (SHARING, SHARED.replace("dial: 6.1", "dail: 6.1"), [
        '_shared.yaml:6:5: error, unknown-key: found the unknown key "dail" in fabric "body"; '
        'expected "dial". Write dial.']),
    "no YAML": (SHARING, "yarns: [\n", ["_shared.yaml:"]),
}


@pytest.mark.parametrize("case", WRONG)
def test_a_fault_is_told_where_it_stands(tmp_path: Path, case: str,
                                         capsys: pytest.CaptureFixture[str]) -> None:
    source, shared, expected = WRONG[case]
    write(tmp_path, source, shared)
    told = errors(tmp_path, capsys)
    assert len(told) == len(expected)
    for line, said in zip(told, expected, strict=True):
        assert line.startswith(f"patterns/{said}"), line


def test_a_change_of_what_is_shared_is_seen(root: Path, capsys: pytest.CaptureFixture[str]
                                            ) -> None:
    assert errors(root, capsys) == []
    write(root, SHARING, SHARED.replace("rows: 30", "rows: 3000"))
    assert errors(root, capsys)
    write(root, SHARING, SHARED)
    assert errors(root, capsys) == []


def test_a_file_that_nothing_asks_for_is_not_read(root: Path, capsys: pytest.CaptureFixture[str]
                                                  ) -> None:
    write(root, WRITTEN_OUT, "yarns: [\n")
    assert errors(root, capsys) == []


def test_an_editor_takes_what_is_shared() -> None:
    check = jsonschema.Draft202012Validator(SCHEMAS["pattern"]())
    said = yaml.safe_load(re.sub(r"date: (\S+)", r'date: "\1"', SHARING))
    assert [fault.message for fault in check.iter_errors(said)] == []
    said["yarns"]["main"] = "sharde"
    assert list(check.iter_errors(said))

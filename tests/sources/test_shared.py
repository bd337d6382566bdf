"""Yarns and fabrics that a collection writes once: the same as written out, and no other way."""

from __future__ import annotations

import re
from pathlib import Path

import jsonschema
import pytest
import yaml
from PIL import Image
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
    """The pages, and the counts without the places in the sources that they name."""
    (proof,) = collect(root).proofs
    return {path: re.sub(r'"file": "[^"]+", "line": \d+, "column": \d+', "", text)
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
        "patterns/_shared.yaml, and no such file; expected a file with yarns, fabrics, swatches or "
        "texts in it. "
        "Write patterns/_shared.yaml, or write the entry here."]),
    "another name": (SHARING.replace("shared harbour", "shared harbuor"), SHARED, [
        'harbour-wall/pattern.yaml:10:9: error, unknown-name: found no yarn called "harbuor" in '
        'patterns/_shared.yaml; expected "harbour". Write harbour.']),
    "another section": (SHARING, SHARED.replace("yarns:", "yarn:"), [
        '_shared.yaml:1:1: error, unknown-key: found the unknown key "yarn" in '
        'patterns/_shared.yaml; expected "yarns". Write yarns.',
        'harbour-wall/pattern.yaml:10:9: error, unknown-name: found no yarn called "harbour" in '
        "patterns/_shared.yaml. Add it there, or write it here."]),
    "a list": (SHARING, "- yarns\n", [
        "_shared.yaml:1:1: error, wrong-shape: found no mapping in patterns/_shared.yaml; "
        "expected a mapping. Write entries under yarns, fabrics, swatches or texts."]),
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


# -- swatches and texts

SWATCH = "{stitches: 20, width: 14.2 cm, rows: 30, height: 15 cm}"
TEXTS = """\
swatches:
  body: {stitches: 20, width: 14.2 cm, rows: 30, height: 15 cm}
  cone: {stitches: 40, width: 28.4 cm, rows: 60, height: 30 cm}
texts:
  licence: CC BY-NC 4.0
  washing: >
    Wash it by hand at 30 °C,

    and dry it *flat*.
"""


@pytest.mark.parametrize(("out", "sharing"), [
    (f"swatch: {SWATCH}", "swatch: shared"), (f"swatch: {SWATCH}", "swatch: shared body"),
    (f"swatches: [{SWATCH}, {SWATCH}]", f"swatches: [shared body, {SWATCH}]"),
    (f"swatches: [{SWATCH}]", "swatches: [shared]")])
def test_a_swatch_is_as_if_written_out(tmp_path: Path, out: str, sharing: str) -> None:
    assert WRITTEN_OUT.count(f"swatch: {SWATCH}") == 1
    for name, said in (("one", out), ("two", sharing)):
        write(tmp_path / name, WRITTEN_OUT.replace(f"swatch: {SWATCH}", said), TEXTS)
    assert pages(tmp_path / "one") == pages(tmp_path / "two")


def test_a_fabric_that_is_shared_may_share_its_swatch(root: Path) -> None:
    before = pages(root)
    write(root, SHARING, SHARED.replace(f"swatch: {SWATCH}", "swatch: shared") + TEXTS)
    assert pages(root) == before


@pytest.mark.parametrize("said", ["shared", "shared licence", "'CC BY-NC 4.0'"])
def test_a_text_is_as_if_written_out(tmp_path: Path, said: str) -> None:
    for name, licence in (("one", "CC BY-NC 4.0"), ("two", said)):
        assert "licence: CC BY-NC 4.0" in WRITTEN_OUT
        write(tmp_path / name, WRITTEN_OUT.replace("licence: CC BY-NC 4.0", f"licence: {licence}"),
              TEXTS)
    assert pages(tmp_path / "one") == pages(tmp_path / "two")


@pytest.mark.parametrize("said", ["shared", "shared below", "Sewn from the inside."])
def test_a_caption_is_as_if_written_out(tmp_path: Path, said: str) -> None:
    texts = "texts: {caption: Sewn from the inside., below: Sewn from the inside.}\n"
    for name, caption in (("one", "Sewn from the inside."), ("two", said)):
        write(tmp_path / name, f"pictures: [{{file: end.png, alt: Its end, caption: {caption}}}]\n"
              + WRITTEN_OUT, texts)
        Image.new("RGB", (8, 6)).save(tmp_path / name / "patterns" / "harbour-wall" / "end.png")
    made = pages(tmp_path / "two")
    assert "Sewn from the inside." in made["patterns/harbour-wall/index.md"]
    assert made == pages(tmp_path / "one")


def test_in_quotes_a_text_says_what_it_says(tmp_path: Path) -> None:
    source = WRITTEN_OUT.replace("licence: CC BY-NC 4.0", 'licence: "shared alike"')
    write(tmp_path, source, TEXTS)
    assert "shared alike" in pages(tmp_path)["patterns/harbour-wall/index.md"]


def test_notes_take_a_text_at_its_marker(tmp_path: Path) -> None:
    """The notes are as if the text stood there, in one paragraph; lines keep their numbers."""
    for name, said in (("one", "Wash it by hand at 30 °C, and dry it *flat*."),
                       ("two", "<!-- shared washing -->")):
        notes = f"Before.\n\n{said}\n\nBehind.\n"
        write(tmp_path / name, WRITTEN_OUT, TEXTS)
        (tmp_path / name / "patterns" / "harbour-wall" / "notes.md").write_text(
            notes, encoding="utf-8")
    assert pages(tmp_path / "one") == pages(tmp_path / "two")
    assert "<em>flat</em>" in pages(tmp_path / "two")["patterns/harbour-wall/index.md"]


NOT_THERE = {
    "a swatch": (WRITTEN_OUT.replace(f"swatch: {SWATCH}", "swatch: shared bdoy"),
                 '15:13: error, unknown-name: found no swatch called "bdoy" in '
                 'patterns/_shared.yaml; expected "body". Write body.'),
    "a text": (WRITTEN_OUT.replace("licence: CC BY-NC 4.0", "licence: shared lience"),
               '5:10: error, unknown-name: found no text called "lience" in '
               'patterns/_shared.yaml; expected "licence". Write licence.'),
    "a text of the key's name": (
        WRITTEN_OUT.replace("designer: Wren Ashdown", "designer: shared"),
        '4:11: error, unknown-name: found no text called "designer" in patterns/_shared.yaml; '
        "expected one of licence, washing. Use one of these, or add it there."),
}


@pytest.mark.parametrize("case", NOT_THERE)
def test_what_is_not_there_is_told(tmp_path: Path, case: str,
                                   capsys: pytest.CaptureFixture[str]) -> None:
    source, said = NOT_THERE[case]
    write(tmp_path, source, TEXTS)
    assert errors(tmp_path, capsys) == [f"patterns/harbour-wall/pattern.yaml:{said}"]


def test_a_fault_in_a_shared_swatch_or_text_is_told_where_it_stands(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source = WRITTEN_OUT.replace(f"swatch: {SWATCH}", "swatch: shared")
    write(tmp_path, source, TEXTS.replace("rows: 30, ", "rwos: 30, "))
    told = errors(tmp_path, capsys)
    assert told and told[0].startswith("patterns/_shared.yaml:2:40: error, unknown-key: ")
    write(tmp_path, WRITTEN_OUT.replace("licence: CC BY-NC 4.0", "licence: shared"),
          TEXTS.replace("licence: CC", "licence: [CC").replace("NC 4.0", "NC 4.0]"))
    assert errors(tmp_path, capsys) == [
        "patterns/_shared.yaml:5:12: error, wrong-shape: found a list; expected text. Write the "
        "value alone, not as a list."]


def test_a_marker_without_its_text_is_told_in_the_notes(
        tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    write(tmp_path, WRITTEN_OUT, TEXTS)
    (tmp_path / "patterns" / "harbour-wall" / "notes.md").write_text(
        "Before.\n\n<!-- shared wshing -->\n", encoding="utf-8")
    assert errors(tmp_path, capsys) == [
        'patterns/harbour-wall/notes.md:3:1: error, unknown-name: found no text called "wshing" '
        'in patterns/_shared.yaml; expected "washing". Write washing.']


def test_the_file_has_a_schema_of_its_own() -> None:
    check = jsonschema.Draft202012Validator(SCHEMAS["shared"]())
    said = yaml.safe_load(TEXTS + SHARED)
    assert [fault.message for fault in check.iter_errors(said)] == []
    assert list(check.iter_errors({"swatch": {}}))
    pattern = jsonschema.Draft202012Validator(SCHEMAS["pattern"]())
    source = yaml.safe_load(re.sub(r"date: (\S+)", r'date: "\1"', WRITTEN_OUT).replace(
        SWATCH, "shared body"))
    assert [fault.message for fault in pattern.iter_errors(source)] == []

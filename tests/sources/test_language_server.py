"""A real language server for YAML completes, explains and marks a source as one types.

What it must offer is what `source.md` says of each key. Skipped where the server is not installed:
`.ci/scripts.py` brings it with the other packages of node.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from faults import faulty
from language_server import SERVER, Editor, editor, node
from reading import SMALLEST, changed
from test_schema_faults import PASSED, SHAPE, is_refused
from walebook.pages.source_schema import source_schema
from walebook.source.keys.pattern_keys import PatternKeys

pytestmark = pytest.mark.skipif(not (SERVER.exists() and node()), reason="no language server here")
MODELINE = "# yaml-language-server: $schema=../../pattern.schema.json\n"
ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A source in a collection that has the schema beside its settings."""
    home: Path = tmp_path_factory.mktemp("lantern-lane")
    folder = home / "patterns" / "harbour-front"
    folder.mkdir(parents=True)
    (home / "pattern.schema.json").write_text(json.dumps(source_schema(PatternKeys)),
                                              encoding="utf-8")
    (folder / "pattern.yaml").write_text(MODELINE + SMALLEST, encoding="utf-8")
    return folder / "pattern.yaml"


@pytest.fixture(scope="module")
def desk(file: Path) -> Iterator[Editor]:
    with editor(file.parents[2]) as made:
        yield made


def place(text: str, before: str) -> tuple[int, int]:
    """Line and column behind a passage."""
    head = text.partition(before)[0] + before
    return head.count("\n") + 1, len(head.rpartition("\n")[2]) + 1


def offered(desk: Editor, file: Path, text: str, before: str) -> list[str]:
    desk.write(file, text)
    found = desk.ask("textDocument/completion", desk.at(file, *place(text, before)))
    return [each["label"] for each in (found["items"] if isinstance(found, dict) else found)]


def test_a_sound_source_is_not_marked_and_slips_are_as_they_are_typed(desk: Editor, file: Path
                                                                      ) -> None:
    good = MODELINE + SMALLEST
    assert desk.write(file, good) == []
    looked_at(desk, file, SLIPS[:4])
    assert desk.write(file, good) == []


def looked_at(desk: Editor, file: Path, slips: list[tuple[str, str, str]]) -> None:
    """Type each slip into the sound source; the line where it stands must be marked so."""
    good = MODELINE + SMALLEST
    for old, new, said in slips:
        text = changed(old, new, good)
        line = place(text, new.strip().partition("\n")[0])[0]
        for _ in range(3):  # a busy server may still send what it marked in the text before
            marked = desk.write(file, text)
            if found := any(said in each["message"] for each in marked
                            if each["range"]["start"]["line"] == line - 1):
                break
        assert found, marked


# a passage of smallest.yaml, what is typed instead, what is said of it at its line
SLIPS = [
    ("designer:", "desinger:", "desinger is not allowed"),
    ("wearer: men", "wearer: cats", '"babies"'),
    ("depth: 3 cm", "depth: 3,5 cm", "expected a depth such as 3 cm, 9 rows"),
    ("depth: 3 cm", "depth: 3", "expected a depth such as 3 cm, 9 rows"),
    ("button: 11 mm", "button: 11 g", "expected a length"),
    ("dial: 6.1", "dial: six", "expected a setting such as 6"),
    ("rows: 52", "rows: 0", "minimum of 1"),
    ("date: 2026-10-30", "date: 2026-02-30", "expected a date such as 2026-10-30"),
    ("    depth: 3 cm", "    depth: 3 cm\n    rows: {to_holes: 4, holes_to_fold: 4, "
     "fold_to_holes: 4, to_finish: 4}", "delete one of the two"),
]


def test_keys_and_words_are_completed(desk: Editor, file: Path) -> None:
    good = MODELINE + SMALLEST
    keys = offered(desk, file, good + "    \n", "every: 8 cm}\n    ")
    assert {"kind", "fold", "ease", "zip"} <= set(keys)
    assert not {"edge", "depth", "pick_up"} & set(keys), "these are there already"
    for old, new, words in (("wearer: men", "wearer: ", {"women", "babies"}),
                            ("    depth: 3 cm", "    depth: 3 cm\n    kind: ", {"folded", "zip"}),
                            ("bands:\n", "garment:\n  form: \nbands:\n", {"set-in cardigan"})):
        text = changed(old, new, good)
        at = new.partition("bands:")[0].rstrip("\n")
        assert words - {"zip"} <= set(offered(desk, file, text, at)), old


def test_a_key_is_explained_where_the_mouse_lies(desk: Editor, file: Path) -> None:
    text = MODELINE + SMALLEST
    desk.write(file, text)
    found = desk.ask("textDocument/hover", desk.at(file, *place(text, "    pick_u")))
    said = found["contents"]["value"]
    assert "stitches for rows" in said and "`3/4`" in said
    assert "](" not in said.partition("Source")[0]


@pytest.mark.long
def test_the_server_marks_nine_of_ten_shape_faults_and_nothing_in_the_collection(
        desk: Editor, file: Path) -> None:
    looked_at(desk, file, SLIPS)
    for path in sorted((ROOT / "patterns").glob("[a-z]*/pattern.yaml")):
        assert desk.write(file, MODELINE + path.read_text(encoding="utf-8")) == [], path
    cases = [case for case in faulty() if case.code in SHAPE and is_refused(case) is not None]
    passed = [case.what for case in cases if not desk.write(file, MODELINE + case.text)]
    assert len(cases) - len(passed) >= len(cases) * 9 / 10
    assert sorted(passed) == sorted(PASSED)

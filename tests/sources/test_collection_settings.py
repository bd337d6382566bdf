"""The settings of a collection: what the first page says, and what is said of a slip in them."""

from __future__ import annotations

from pathlib import Path

import pytest
from walebook.pages.lists import opening
from walebook.proof.texts import collection_of
from walebook_site.sources import collect

FILE = "patterns/collection.yaml"
WHOLE = "title: Lantern Quay\ndesigner: Wren Ashdown\nabout: For wet <weather>.\n"


def test_the_first_page_begins_with_what_the_designer_says() -> None:
    settings, found = collection_of(WHOLE, file=FILE)
    assert settings is not None and found == ()
    said = opening(settings, 3)
    assert said.startswith("# Lantern Quay { #patterns }")
    assert "For wet &lt;weather&gt;." in said and "Wren Ashdown" in said


@pytest.mark.parametrize(("patterns", "told"), [(1, "1 pattern for"), (26, "26 patterns for")])
def test_without_sentences_of_hers_it_has_plain_ones(patterns: int, told: str) -> None:
    settings, _ = collection_of("title: Lantern Quay\n", file=FILE)
    assert settings is not None
    assert told in opening(settings, patterns) and "wb-credit" not in opening(settings, patterns)


@pytest.mark.parametrize(("text", "code", "line", "column"), [
    ("titel: Lantern Quay\n", "unknown-key", 1, 1),
    ("designer: Wren Ashdown\n", "missing-key", 1, 1),
    (f"title: Lantern Quay\nabout: {'x' * 601}\n", "too-long", 2, 8),
    ("title: Quay\nabout: Write here in a few sentences what\n", "placeholder", 2, 8),
    ("- Lantern Quay\n", "wrong-shape", 1, 1)])
def test_a_slip_is_a_finding_with_its_place(
        tmp_path: Path, text: str, code: str, line: int, column: int) -> None:
    (tmp_path / "patterns").mkdir()
    (tmp_path / FILE).write_text(text, encoding="utf-8")
    places = [(p.code, p.place.line, p.place.column) for p in collect(tmp_path).problems
              if p.place.file == FILE]
    assert (code, line, column) in places

"""A space that is none to YAML, put in the place of any space of a source, is named where it is.

U+00A0 and U+2009 are the no-break and the thin space of Unicode; a web page and a word processor
write them. Where the tool reads one as a space, nothing is said.
"""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from reading import HERE
from test_garment_sources import BEDS, CHARTS, GARMENT
from walebook.core.problems import Problem
from walebook.pattern.model import Pattern
from walebook.proof.texts import Texts, bed_of, chart_of, collection_of, read_texts

BANDS = """\
bands:
  neck: {edge: neck, fabric: body, depth: 3 cm}
"""
SOURCE = re.sub(r"(?s)\ngarment:.*", """
garment:
  form: set-in cardigan
  chart: women
  fabric: body
  hem: {depth: 3 cm}
  measures:
    ease: 4 in
    body_length: back_waist_length + 12 cm
""", GARMENT) + BANDS
SPACES = [match.start() for match in re.finditer(" ", SOURCE)]


def read(text: str, shared: str = "") -> tuple[Pattern | None, tuple[Problem, ...]]:
    return read_texts(Texts(slug="pier", source=text, shared=shared), beds=BEDS, charts=CHARTS)


def wrong(found: tuple[Problem, ...]) -> list[Problem]:
    return [p for p in found if p.severity.value == "error"]


def test_the_source_without_such_a_space_is_sound() -> None:
    pattern, found = read(SOURCE)
    assert pattern is not None and not wrong(found)


@pytest.mark.parametrize("hard", ["\u00a0", "\u2009"])
def test_each_such_space_is_named_at_its_column_or_read_as_a_space(hard: str) -> None:
    named = 0
    for at in SPACES:
        text = SOURCE[:at] + hard + SOURCE[at + 1:]
        found = wrong(read(text)[1])
        if not found:
            continue
        line, column = text.count("\n", 0, at) + 1, at - text.rfind("\n", 0, at)
        assert [(p.code, p.place.line, p.place.column) for p in found] == [
            ("hard-space", line, column)], SOURCE[at - 20:at + 20]
        named += 1
    assert named > len(SPACES) / 2


def test_the_finding_says_what_stands_beside_it() -> None:
    (found,) = wrong(read(SOURCE.replace("4 in", "4\u00a0in"))[1])
    assert found.found == 'a no-break space (U+00A0) between "4" and "in"'
    assert found.remedy == "Delete it, and press the space bar."


def test_other_errors_are_said_beside_it() -> None:
    text = SOURCE.replace("4 in", "4\u00a0in").replace("title:", "titel:")
    assert [p.code for p in wrong(read(text)[1])] == ["unknown-key", "hard-space"]


def test_what_a_plain_space_would_not_mend_is_said_as_it_is() -> None:
    text = SOURCE.replace("set-in cardigan", "set-in\u00a0balloon")
    assert [p.code for p in wrong(read(text)[1])] == ["unknown-form"]


def test_such_a_space_in_the_shared_file_is_named_there() -> None:
    text = re.sub(r"(?m)^  body:\n(?:    .*\n)+", "  body: shared\n", SOURCE)
    fabric = re.search(r"(?m)^  body:\n(?:    .*\n)+", SOURCE)
    shared = "fabrics:\n" + fabric[0].replace("dial: ", "dial:\u00a0")
    (found,) = wrong(read(text, shared)[1])
    assert (found.code, found.place.file) == ("hard-space", "patterns/_shared.yaml")


def a_bed(text: str) -> tuple[object, tuple[Problem, ...]]:
    return bed_of(text, file="patterns/_beds/loft.yaml", name="loft")


def a_chart(text: str) -> tuple[object, tuple[Problem, ...]]:
    return chart_of(text, file="patterns/_sizes/women.yaml", key="women")


def a_collection(text: str) -> tuple[object, tuple[Problem, ...]]:
    return collection_of(text, file="patterns/collection.yaml")


@pytest.mark.parametrize(("read_file", "text", "word"), [
    (a_bed, "pitch: 9 mm\nneedles: 110\nsource: measured\n", "pitch: 9"),
    (a_chart, (HERE / "women.yaml").read_text(encoding="utf-8"), "title: "),
    (a_collection, "title: Quay\nunits: cm first\n", "cm first")])
def test_such_a_space_in_another_file_is_named(
        read_file: Callable[[str], tuple[object, tuple[Problem, ...]]], text: str, word: str
) -> None:
    made, found = read_file(text)
    assert made is not None and not wrong(found)
    (one,) = wrong(read_file(text.replace(word, word.replace(" ", "\u00a0"), 1))[1])
    assert one.code == "hard-space"

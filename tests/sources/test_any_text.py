"""Whatever the text, reading it raises nothing and returns a pattern or at least one error."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from reading import BASE, read
from walebook.core.problems import has_errors

from tests.scale import examples

LINES = BASE.splitlines(keepends=True)
ODDITIES = ["", "{}", "[]", "~", "no", "010", "1:20", "-1", "0", "3/0", "1e9", "44", "44 sm", "½",
            "² cm", "٣ cm", "２", "''", "|", ">-", "*a", "&a b", "!!x y", "<<: 1", "? x", "%",
            "9" * 60, "a: b: c", "{a: b}", "[a, [b, {c: d}]]", "\t", "\r", "\x85", "\u2028", "M",
            "7/8\"", "1 1/2 m⁹⁹", "2 stitches stitches", "st", "multiple", "²/3", "0x1F", "1_0"]


def settled(text: str) -> None:
    pattern, findings = read(text)
    assert (pattern is None) == has_errors(findings)
    lines = len(text.splitlines()) + 1
    assert all(1 <= f.place.line <= lines and f.place.column >= 1 for f in findings)
    assert all(f.found and "\n" not in f.message for f in findings)


@given(st.text(st.characters(exclude_categories=())))
@settings(max_examples=examples(400), deadline=None)
def test_any_text(text: str) -> None:
    settled(text)


@given(st.text("abM :-[]{},#&*!|>'\"%@`?\n\t\r<=0", max_size=60))
@settings(max_examples=examples(600), deadline=None)
def test_any_text_of_the_marks_yaml_knows(text: str) -> None:
    settled(text)


@given(st.data())
@settings(max_examples=examples(600), deadline=None)
def test_a_sound_source_with_passages_replaced(data: st.DataObject) -> None:
    text = BASE
    for _ in range(data.draw(st.integers(1, 4))):
        begin = data.draw(st.integers(0, len(text)))
        end = data.draw(st.integers(begin, min(len(text), begin + 30)))
        piece = data.draw(st.sampled_from(ODDITIES) | st.text(max_size=8))
        text = text[:begin] + piece + text[end:]
    settled(text)


@given(st.data())
@settings(max_examples=examples(400), deadline=None)
def test_a_sound_source_with_values_replaced(data: st.DataObject) -> None:
    lines = list(LINES)
    for _ in range(data.draw(st.integers(1, 5))):
        number = data.draw(st.integers(0, len(lines) - 1))
        key = lines[number].partition(":")[0]
        lines[number] = f"{key}: {data.draw(st.sampled_from(ODDITIES))}\n"
    settled("".join(lines))


@given(st.permutations(LINES), st.integers(0, len(LINES)))
@settings(max_examples=examples(200), deadline=None)
def test_lines_moved_and_lost(lines: list[str], number: int) -> None:
    settled("".join(lines[:number]))

"""Sources written to do harm: each is refused with a message, quickly, and nothing of it runs."""

from __future__ import annotations

import time
from collections.abc import Callable
from functools import partial
from typing import Any

import pytest
import yaml
from reading import BASE, changed, messages, read
from walebook.core.text import nearest
from walebook.proof.texts import bed_of, chart_of, collection_of
from walebook.source import source
from walebook.source.source import MOST_LEVELS, MOST_NODES, parse_source

BOMB = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{new}: &{new} [{', '.join([f'*{old}'] * 9)}]\n"
    for old, new in zip("abcd", "bcde", strict=True))
SHARED = "What several patterns use can stand in patterns/_shared.yaml."
TAG = "expected plain values. Delete the tag, or put the text in quotes."

# what is tried: (the source, its findings)
CASES: dict[str, tuple[str, list[str]]] = {
    "a tag that calls the system": ("title: !!python/object/apply:os.system [touch ran]", [
        f"1:8: error, tag: found the tag !!python/object/apply:os.system; {TAG}"]),
    "a tag that builds an object": ("title: !!python/object:builtins.dict {}", [
        f"1:8: error, tag: found the tag !!python/object:builtins.dict; {TAG}"]),
    "a tag of the pattern's own": ("title: !include /etc/passwd", [
        f"1:8: error, tag: found the tag !include; {TAG}"]),
    "a tag that changes nothing": ("title: !!str Bands", [
        f"1:8: error, tag: found the tag !!str; {TAG}"]),
    "a tag by directive": ("%TAG ! tag:example.org,2000:\n---\ntitle: !run x", [
        f"3:8: error, tag: found the tag tag:example.org,2000:run; {TAG}"]),
    "an anchor": ("title: &name Bands", [
        "1:8: error, anchor: found the anchor &name; expected values written out. "
        f"Delete the anchor. {SHARED}"]),
    "an alias": ("title: *name", [
        "1:8: error, anchor: found the alias *name; expected values written out. "
        f"Write the value here. {SHARED}"]),
    "a list that holds itself": ("sizes: &s [*s]", [
        "1:8: error, anchor: found the anchor &s; expected values written out. "
        f"Delete the anchor. {SHARED}",
        "1:12: error, anchor: found the alias *s; expected values written out. "
        f"Write the value here. {SHARED}"]),
    "a merge": ("yarns:\n  <<: {main: {name: Harbour Bulky}}", [
        "2:3: error, merge-key: found the merge key <<; expected entries written out. "
        "Write the entries here."]),
    "ten million characters": ("title: " + 10_000_000 * "a", [
        "1:1: error, too-large: found a source of more than 256 KiB; expected at most 256 KiB. "
        "Move long prose to notes.md."]),
    "few characters of many bytes": ("title: " + 70_000 * "🧶", [
        "1:1: error, too-large: found a source of more than 256 KiB; expected at most 256 KiB. "
        "Move long prose to notes.md."]),
    "brackets without end": (400 * "[", [
        f"1:{MOST_LEVELS + 1}: error, too-deep: found more than 12 levels of nesting; "
        "expected at most 12. Write it flatter."]),
    "mappings without end": ("".join(f"{' ' * n}a:\n" for n in range(400)), [
        "13:13: error, too-deep: found more than 12 levels of nesting; "
        "expected at most 12. Write it flatter."]),
    "values without end": ("sizes:\n" + 60_000 * "- M\n", [
        f"{MOST_NODES - 1}:3: error, too-many: found more than 5000 values; "
        "expected at most 5000 in a file. Split the pattern."]),
    "sizes by the hundred": (changed("[XS, S, M]", f"[{', '.join(f'S{n}' for n in range(99))}]"), [
        "30:199: error, too-many: found more than 40 sizes; expected at most 40. "
        "Leave some out."]),
    "a null byte": ("title: Ba\0nds", [
        "1:10: error, control-character: found the control character U+0000; "
        "expected text that can be seen. Delete it."]),
    "an escape for the terminal": ("title: Bands\ndate: \x1b[2J", [
        "2:7: error, control-character: found the control character U+001B; "
        "expected text that can be seen. Delete it."]),
    "a line turned round": ("title: Bands\r\ndesigner: \u202eNerw", [
        "2:11: error, control-character: found the control character U+202E; "
        "expected text that can be seen. Delete it."]),
    "a break that only some count": ("title: a\u2028b", [
        "1:9: error, control-character: found the control character U+2028; "
        "expected text that can be seen. Delete it."]),
    "half a surrogate pair": ("title: \ud83e", [
        "1:8: error, control-character: found the control character U+D83E; "
        "expected text that can be seen. Delete it."]),
    "half a surrogate pair, escaped": (changed("title: Slack", r'title: "\ud83e" # '), [
        "1:8: error, syntax: found text that is not YAML. Compare it with a pattern that is read."
    ]),
    "a null byte, escaped": (changed("designer: Wren Ashdown", r'designer: "\0"'), [
        "4:11: error, control-character: found the control character U+0000; "
        "expected text that can be seen. Delete it."]),
    "a key with an escape for the terminal": (changed("designer: Wren Ashdown",
                                                      'designer: Wren\n"\\e[2J": 1'), [
        '5:1: error, unknown-key: found the unknown key "\\u001b[2J" in the pattern; expected one '
        "of title, version, date, designer, licence, summary, wearer, status, publish, "
        "contact, reader_may_change, reader_must_keep, bed, skills, pictures, corrections, "
        "withdrawn_sizes, notes, techniques, accepted, yarns, charts, fabrics, sizes, garment, "
        "edges, bands. Delete it, or put it where it belongs."]),
    "a name that is a format": (changed(
        "bands:\n  front:\n    title: Front band\n    edge: front\n",
        'bands:\n  "{0.x}{":\n    fabrik: band\n'), [
        '39:3: error, bad-name: found the name "{0.x}{"; expected small letters and digits, with '
        "single spaces, - or _ between words. Rename it; a title may hold anything.",
        '39:3: error, missing-key: found no "edge" in band "{0.x}{". '
        'Add a line such as "edge: front".',
        '40:5: error, unknown-key: found the unknown key "fabrik" in band "{0.x}{"; '
        'expected "fabric". Write fabric.']),
    "a key as long as a book": (changed("bed: bulky", f"bed: bulky\n{'k' * 900}: 1"), [
        "9:1: error, unknown-key: found the unknown key "
        f'"{"k" * 59}…" in the pattern; expected one of title, version, date, designer, licence, '
        "summary, wearer, status, publish, contact, reader_may_change, reader_must_keep, bed, "
        "skills, pictures, corrections, withdrawn_sizes, notes, techniques, accepted, yarns, "
        "charts, fabrics, sizes, garment, edges, bands. Delete it, or put it where it belongs."]),
    "a length that is a program": (changed("depth: 3 cm", "depth: 3 __import__('os').abort()"), [
        "45:12: error, bad-length: found \"3 __import__('os').abort()\"; expected a length such "
        "as 3 cm, or 9 rows. Give it in mm, cm, m, in, yd or ligne."]),
    "a length as long as a book": (changed("depth: 3 cm", f"depth: {'9' * 2000} cm"), [
        "45:12: error, too-long: found 2003 characters; expected at most 40. "
        "Shorten it; long prose belongs in notes.md."]),
    "a picture by its drive": (changed("file: front.png", r"file: C:\front.png"), [
        r'11:12: error, bad-picture: found "C:\front.png"; expected a plain file name without a '
        "folder. Put the picture into the pattern's folder and write its name."]),
    "a picture that is hidden": (changed("file: front.png", "file: .front.png"), [
        '11:12: error, bad-picture: found ".front.png"; expected a plain file name without a '
        "folder. Put the picture into the pattern's folder and write its name."]),
    "nothing at all": ("", [
        "1:1: error, empty-source: found an empty source; expected entries such as title: Slack "
        "Tide cardigan bands. Write the pattern."]),
    "nothing but a remark": ("# later\n", [
        "1:1: error, empty-source: found an empty source; expected entries such as title: Slack "
        "Tide cardigan bands. Write the pattern."]),
    "a list for a pattern": ("- title\n- version\n", [
        "1:1: error, wrong-shape: found a list; expected the pattern as a mapping. "
        "Write it as title: My cardigan bands."]),
    "a word for a pattern": ("bands", [
        '1:1: error, wrong-shape: found "bands"; expected the pattern as a mapping. '
        "Write it as title: My cardigan bands."]),
}


@pytest.mark.parametrize("name", CASES)
def test_the_findings_of_a_hostile_source(name: str) -> None:
    text, expected = CASES[name]
    assert messages(text) == expected


@pytest.mark.parametrize("name", [n for n in CASES if n != "half a surrogate pair, escaped"])
def test_the_parser_written_in_python_refuses_them_alike(
        name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    # It takes the escaped half pair for text; fields refuse it then, as the next check shows.
    monkeypatch.setattr(source, "_LOADER", yaml.BaseLoader)
    text, expected = CASES[name]
    assert messages(text) == expected


def test_half_a_pair_that_the_parser_lets_through_is_refused_as_a_value(
        monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(source, "_LOADER", yaml.BaseLoader)
    assert messages(changed("title: Slack", r'title: "\ud83e" # ')) == [
        "1:8: error, control-character: found the control character U+D83E; "
        "expected text that can be seen. Delete it."]


def test_a_bomb_of_aliases_never_grows() -> None:
    findings = messages(BOMB)
    assert findings[0] == ("1:4: error, anchor: found the anchor &a; expected values written out. "
                           f"Delete the anchor. {SHARED}")
    assert len(findings) == 5 + 4 * 9  # one for each anchor and alias as typed: none is followed
    assert parse_source(BOMB, name="bomb.yaml")[0] is None


def test_brackets_beyond_what_the_parser_itself_takes_get_the_same_words() -> None:
    [finding] = read(100_000 * "[")[1]
    assert (finding.code, finding.message) == (
        "too-deep", "found more than 12 levels of nesting; expected at most 12. Write it flatter.")


def test_thousands_of_wrong_keys_are_all_named_within_seconds() -> None:
    began = time.perf_counter()
    findings = messages("".join(f"fabricz{n}: 1\n" for n in range(2400)))
    assert sum("unknown-key" in finding for finding in findings) == 2400
    assert time.perf_counter() - began < 20  # a guard against hanging, not a measurement


def test_markup_in_texts_is_carried_as_it_is() -> None:
    script = '<script>alert("wool")</script> & *more* {{ x }}'
    text = changed("title: Slack Tide cardigan bands", f"title: '{script}'")
    text = changed("alt: The front band", f"alt: '{script}'", text)
    pattern, findings = read(text)
    assert findings == ()
    assert pattern is not None
    assert (pattern.title, pattern.pictures[0].alt) == (script, script)


def test_a_byte_order_mark_before_the_source_moves_no_column() -> None:
    assert messages("\ufeff" + BASE) == []
    assert messages("\ufeff" + changed("title: Slack Tide cardigan bands", "titel: x")) == [
        '1:1: error, unknown-key: found the unknown key "titel" in the pattern; '
        'expected "title". Write title.']


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_lines_count_alike_whatever_ends_them(ending: str) -> None:
    text = changed("dial: 4.1", "dial: high").replace("\n", ending)
    assert [m.split(" ")[0] for m in messages(text)] == ["28:11:"]


@pytest.mark.parametrize(("read", "entry"), [
    (partial(bed_of, name="mid"), "pitch: 6.5 mm"), (partial(chart_of, key="women"), "sizes: ["),
    (collection_of, "title: Lantern Lane")])
def test_an_empty_file_beside_patterns_is_no_pattern(read: Callable[..., Any], entry: str) -> None:
    _, (one,) = read("# later\n", file="patterns/some.yaml")
    assert one.code == "empty-source" and one.expected.startswith(f"entries such as {entry}")
    assert one.remedy == "Write them, or delete the file."


def test_a_word_is_no_slip_for_one_that_only_rhymes_with_it() -> None:
    """The fault that was found: `wearer: ladies` was to be babies. A slip within the word, or in
    the first letter alone of a long one, is still found."""
    worn = ["women", "men", "children", "babies", "anyone"]
    assert [nearest(word, worn) for word in ("ladies", "babys", "vomen", "wimen", "bebies")] == [
        None, "babies", "women", "women", "babies"]

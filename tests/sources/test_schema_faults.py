"""The schema alone refuses nine of ten of the shape faults that this folder has.

A shape fault is one that a value or a mapping shows by itself. What needs another place of the
file, the size charts, the folder or the bed, is none; nor is a text that is no plain YAML: the
editor's YAML says that itself.
"""

from __future__ import annotations

import random
import re
from functools import cache
from typing import Any

import jsonschema
import pytest
import yaml
from declared import ALL, Declared, in_place, value_of, written
from faults import Core, Faulty, faulty
from reading import SMALLEST, changed
from test_any_source import FILE, SOURCES, shelf, slip
from test_source_schema import holders
from walebook.core.problems import Place, has_errors
from walebook.pages.source_schema import source_schema
from walebook.pages.value_shapes import value_shape
from walebook.source.keys.key import Mapped, Name, Several
from walebook.source.keys.pattern_keys import PatternKeys
from walebook.source.keys.whole import TABLES
from walebook.source.pattern import read_pattern
from walebook.source.source import Scalar, parse_source
from walebook.source.spellings import middles
from walebook.source.values import Entry, Fault

SHAPE = {"unknown-key", "missing-key", "two-answers", "empty-value", "wrong-shape", "too-many",
         "too-long", "unknown-word", "unknown-form", "bad-number", "bad-length", "bad-mass",
         "bad-percentage", "bad-dial", "bad-colour", "bad-date", "bad-version", "out-of-range",
         "odd-needles", "bad-name", "bad-repeat", "bad-accepted", "bad-picture", "bad-size-name",
         "bad-measure", "control-character", "stitches-not-said", "edge-without-repeat"}
# What the schema passes, and why.
RANGE = "how long a length in any unit is, no regular expression says"
SUMS = "one figure beside another"
PASSED = {
    "a button in centimetres": RANGE, "a hem too shallow": RANGE, "an arm of five metres": RANGE,
    "an ease too great": RANGE, "codes/out-of-range.yaml": RANGE,
    "a rounding that adds too much": SUMS, "more than a multiple": SUMS,
    "ends with a point and a nought": "2.0 is a whole number to JSON Schema",
    "a leading zero": "YAML 1.2 reads 010 as 10",
    "a sum over two lines": "YAML makes one line of it",
    "a sum that is not closed": "no regular expression counts brackets",
    "names hard to tell apart": "a-b beside a b: one key beside another",
    "a number and a centre hole": "they may stand together where centre_hole is no",
    "a hem of no depth": "needed only where the garment has no hem",
    "a picture called as one that the site makes": "the site's own names are not in the schema",
    "no chart": "needed only by a form that is cut from a body",
}


@cache
def judge() -> Any:
    return jsonschema.Draft202012Validator(source_schema(PatternKeys))


def is_refused(case: Faulty) -> bool | None:
    """Whether the schema refuses the source; None where it is no YAML."""
    try:
        value = yaml.load(case.text, Core)
    except (yaml.YAMLError, ValueError, RecursionError):
        return None
    return not judge().is_valid(value)


def test_the_schema_alone_refuses_nine_of_ten_shape_faults() -> None:
    found = {case.what: said for case in faulty()
             if case.code in SHAPE and (said := is_refused(case)) is not None}
    passed = sorted(what for what, refused in found.items() if not refused)
    assert len(found) > 120
    assert (len(found) - len(passed)) / len(found) >= 9 / 10, "\n".join(passed)
    assert passed == sorted(PASSED)


def passes(text: str) -> bool:
    return bool(judge().is_valid(yaml.load(text, Core)))


def is_read(text: str) -> bool:
    """True where the reader takes the source without an error."""
    beds, charts = shelf()
    node, findings = parse_source(text, name=FILE)
    if node is None or has_errors(findings):
        return False
    return not has_errors(read_pattern(node, slug="trial", beds=beds, charts=charts)[1])


@pytest.mark.parametrize("seeds", [range(50), pytest.param(range(50, 1500), id="many",
                                                           marks=pytest.mark.long)])
def test_what_the_reader_takes_the_schema_takes_too(seeds: range) -> None:
    """Sources of the collection with a slip of the pen, by seed."""
    taken = 0
    for seed in seeds:
        chance = random.Random(seed)
        text = slip(SOURCES[chance.choice(sorted(SOURCES))], chance)
        if is_read(text):
            taken += 1
            assert passes(text), f"seed {seed}"
    assert taken > len(seeds) / 10


# Ways to write a value, each right for some keys and wrong for most.
WRITTEN = (
    "0", "1", "2", "4", "7", "12", "24", "100", "110", "400", "010", "1.5", "6.1", "6.2", "6.3",
    "15", "15.1", "0.2", "3/4", "5/4", "1 1/2", "½", "1 ½", "1½", "-3", "32 cm", "12.5 in",
    "17 1/4 in", "17-1/4 in", '17.25"', "17.25″", "3/4 in", "½ in", "2½ in", "2-½ in", "28 ligne",
    "28L", "24 l", "9mm", "1 m", "2 yards", "-1.5 cm", "−1.5 cm", "- 2 cm", "50 g", "2 oz", "1 kg",
    "1/2 lb", "2 %", "2%", "-3 %", "−3 %", "2.5 %", "0 %", "2026-10-30", "2024-02-29", "2026-02-28",
    "1.2", "1.2.0", "1.2.3.4", "2 in 1 out", "2 in, 1 out", "3 in 1 out, 1 in 1 out",
    "3 in 1 out 1 in 1 out", "2 in 2 out,", "12 in 12 out", "02 in 01 out", "2 stitches", "1 st",
    "3sts", "1 stitch", "cut", "5 cm", "28–30", "28-30", "16.5", "22-1/2", "22-1/2–23", "black",
    "White", "#FF0000", "#a9bdba", "slategray", "chart-remark 1a2b3c4d", "front.png", "Name 1.JPEG",
    "S", "36/38", "3-6 mo", "Wren Ashdown", "zwei\nZeilen", " x ", "ease + 2 cm", "yes", "no")


@pytest.mark.parametrize("read", {repr(key.read): key.read for table in TABLES.values()
                                  for key in table.keys.values()}.items(),
                         ids=lambda each: re.sub(r" at 0x[0-9a-f]+", "", str(each[0]))[:60])
def test_a_value_that_a_reader_takes_fits_its_shape(read: tuple[str, Any]) -> None:
    reader = read[1].item if isinstance(read[1], Several) else read[1]
    if isinstance(reader, Mapped | Name) or reader is middles:
        return
    shape = jsonschema.Draft202012Validator(value_shape(reader))
    spelt = re.compile(getattr(reader, "spelt", ""))
    for text in WRITTEN:
        at = Place(FILE, 1, 1)
        try:
            reader(Entry("it", Scalar(text, at), "it", at))
        except Fault:
            continue
        if spelt.pattern and not spelt.fullmatch(text.strip()):
            continue  # refused later on, by what reads the whole mapping
        assert shape.is_valid(text), text


def pairs() -> list[tuple[Declared, str]]:
    """Keys with one that answers the same question, both of one mapping."""
    return [(one, other) for one in ALL if one.root is PatternKeys
            for other in one.key.instead_of]


@pytest.mark.parametrize(("one", "other"), pairs(), ids=str)
def test_of_two_keys_that_exclude_each_other_the_reader_refuses_one(one: Declared, other: str
                                                                    ) -> None:
    source = in_place(one, value_of(one.key.example))
    around = next(holders(source, [*(key.name for _, key in one.above), one.key.name]))
    around[other] = value_of(one.table.keys[other].example)
    assert not is_read(written(source))
    assert not judge().is_valid(source)


@pytest.mark.parametrize("one", [one for one in ALL if one.key.needs], ids=str)
def test_a_key_without_the_one_that_it_needs_is_refused_by_both(one: Declared) -> None:
    source = in_place(one, value_of(one.key.example))
    around = next(holders(source, [*(key.name for _, key in one.above), one.key.name]))
    for name in one.key.needs:
        around.pop(name)
    assert not is_read(written(source))
    assert not judge().is_valid(source)


@pytest.mark.parametrize("size", ["M-to-keep", "All day", "Indexed", "Contra", "36/38", "1"])
def test_a_size_that_is_taken_though_it_is_like_one_that_is_not(size: str) -> None:
    text = changed("[one size]", f"[{size}]", SMALLEST)
    assert is_read(text) and passes(text)

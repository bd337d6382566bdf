"""Slips of the pen in whole sources: whatever comes of them is refused in words, or knitted.

The sources of the collection are changed by seed: figures, units, keys, lines and marks. Never an
exception, never more than 2 s of processor and 300 MB, and every finding says where, what was
found, and what to do or what was expected.
"""

from __future__ import annotations

import random
import re
import resource
import time
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from walebook.core.codes import CODES
from walebook.core.problems import Problem, Severity, has_errors, render
from walebook.pages import write_pages
from walebook.pattern.fabrics import NeedleBed
from walebook.proof.verdict import judge, without_accepted
from walebook.sizing.charts import Chart
from walebook.source.pattern import read_bed, read_pattern
from walebook.source.size_chart import read_chart
from walebook.source.source import parse_source

PATTERNS = Path(__file__).parents[2] / "patterns"
FILE = "patterns/trial/pattern.yaml"
SOURCES = {path.parent.name: path.read_text(encoding="utf-8")
           for path in sorted(PATTERNS.glob("[a-z]*/pattern.yaml"))}
FIGURE = re.compile(r"(?<![\w.-])\d+(?:\.\d+)?(?![\w.-])")
UNIT = re.compile(r"(?<=\d )(?:cm|mm|m|g|%)\b")
WORD = re.compile(r"(?<=: )[a-z][a-z -]+")
ODD = ("", "{}", "[]", "~", "-1", "0", "1e9", "½", "3\"", "22-1/2 in", "٣ cm", "#1", "'", "{a: b}",
       "[a, [b]]", "&a", "*a", "!x y", "|", "9" * 60, "chest", "chest / 0", "1000000 m", "M", "yes",
       "\u2028", "\x1b[2J", "none at all", "-20 %", "1/0", "99999", "0.0000001 cm")


def slip(text: str, chance: random.Random) -> str:
    """The text with one slip in it."""
    kind = chance.choice(("figure", "figure", "figure", "unit", "word", "odd", "odd", "lost",
                          "twice", "moved", "mark"))
    found = list({"figure": FIGURE, "unit": UNIT, "word": WORD}.get(kind, FIGURE).finditer(text))
    lines = text.splitlines(keepends=True)
    at = chance.randrange(len(lines))
    if kind in ("figure", "unit", "word") and found:
        one = chance.choice(found)
        return text[:one.start()] + _other(kind, one[0], found, chance) + text[one.end():]
    if kind == "odd":
        lines[at] = lines[at].partition(":")[0] + f": {chance.choice(ODD)}\n"
    elif kind == "lost":
        del lines[at]
    elif kind == "twice":
        lines.insert(at, lines[at])
    elif kind == "moved":
        lines.insert(chance.randrange(len(lines)), lines.pop(at))
    else:
        place = chance.randrange(len(text))
        return text[:place] + chance.choice("{}[]:,-#\"'|>&*!%@`?x0 \t\n") + text[place:]
    return "".join(lines)


def _other(kind: str, said: str, found: list[re.Match[str]], chance: random.Random) -> str:
    if kind == "unit":
        return chance.choice(("in", "m", "mm", "cm", "g", "kg", "%", "yd", "", "sm"))
    if kind == "word":
        return chance.choice(found)[0]
    return chance.choice((f"{said}0", f"{said}000000", f"0.0{said}", f"-{said}", "0", f"{said}/7",
                          chance.choice(found)[0], f"{said}.5", f"{said} 1/2"))


@cache
def shelf() -> tuple[dict[str, NeedleBed], dict[str, Chart | None]]:
    """The beds and charts of the collection."""
    beds, charts = {}, {}
    for path in (PATTERNS / "_beds").glob("*.yaml"):
        node, _ = parse_source(path.read_text(encoding="utf-8"), name=path.name)
        assert node is not None
        bed, _ = read_bed(node, name=path.stem)
        assert bed is not None
        beds[path.stem] = bed
    for path in (PATTERNS / "_sizes").glob("*.yaml"):
        node, _ = parse_source(path.read_text(encoding="utf-8"), name=path.name)
        assert node is not None
        charts[path.stem] = read_chart(node, key=path.stem)[0]
    return beds, charts


def found_in(text: str, *, sizes: int) -> tuple[Problem, ...]:
    """Every finding of a source, knitted in so many of its sizes; its pages are written too."""
    node, findings = parse_source(text, name=FILE)
    if node is None:
        return findings
    beds, charts = shelf()
    pattern, more = read_pattern(node, slug="trial", beds=beds, charts=charts)
    assert (pattern is None) == has_errors(more)
    if pattern is None or has_errors(findings):
        return findings + more
    proof, last = judge(replace(pattern, sizes=pattern.sizes[:sizes]))
    assert (proof is None) == has_errors(last)
    if proof is not None:
        assert all(size.assembled for size in proof.sizes) or pattern.garment is None
        assert all(page.text for page in write_pages(proof))
    return without_accepted(pattern.places, pattern.accepted, findings + more + last,
                            proved=proof is not None)


def settled(seed: int, *, sizes: int) -> None:
    chance = random.Random(seed)
    text = SOURCES[chance.choice(sorted(SOURCES))]
    for _ in range(chance.choice((1, 1, 1, 2, 4))):
        text = slip(text, chance)
    began = time.process_time()
    findings = found_in(text, sizes=sizes)
    assert time.process_time() - began < 2, seed
    lines = text.splitlines()
    for one in findings:
        assert one.code in CODES, seed
        assert one.place.file == FILE, seed
        assert 1 <= one.place.line <= len(lines) + 1, seed
        assert one.place.column >= 1, seed
        assert one.found, (seed, one)
        assert one.expected or one.remedy or one.severity is Severity.REMARK, (seed, one)
        assert "\x1b" not in render(one, lines), seed
        assert len(one.message) < 2500, (seed, one)


def most_memory() -> int:
    """The most this process ever held [MB]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024


@pytest.mark.parametrize("part", range(10))
def test_any_slip_is_refused_in_words_or_knitted(part: int) -> None:
    shelf()
    before = most_memory()
    for seed in range(30):
        settled(1000 * part + seed, sizes=1)
    assert most_memory() - before < 300


@pytest.mark.long
@pytest.mark.parametrize("part", range(20))
def test_thousands_of_slips_in_every_size(part: int) -> None:
    shelf()
    before = most_memory()
    for seed in range(200):
        settled(1_000_000 + 1000 * part + seed, sizes=40)
    assert most_memory() - before < 300


def test_the_sources_unchanged_have_no_error() -> None:
    for text in SOURCES.values():
        assert not has_errors(parse_source(text, name=FILE)[1])


def test_a_garment_that_is_only_warned_of_is_knitted() -> None:
    """A bind-off that may be too short left the garment out, and its pages could not be written."""
    text = (Path(__file__).parent / "codes" / "edge-too-short.yaml").read_text(encoding="utf-8")
    assert "edge-too-short" in {one.code for one in found_in(text, sizes=40)}

"""All that a source can ask for is refused in words, or knitted and told in every size it has."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import fields, replace
from functools import cache
from pathlib import Path

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from walebook.core.codes import CODES
from walebook.core.problems import Problem, has_errors
from walebook.machine.programs import Program
from walebook.machine.steps import Side
from walebook.pages import write_pages
from walebook.pages.pieces import piece_anchor
from walebook.pages.program import numbered
from walebook.pages.strips import strip_anchor
from walebook.pattern.fabrics import NeedleBed
from walebook.pattern.model import Pattern
from walebook.plan.sense import check
from walebook.proof.proof import Proof, Strip, Work, prove
from walebook.source.pattern import read_bed, read_pattern
from walebook.source.source import parse_source
from walebook.words.instruction import Moment, works

from tests.laws import pieces
from tests.laws.named import named_without
from tests.laws.random_sources import sources, written
from tests.scale import examples

FILE = "patterns/lantern/pattern.yaml"
SHELF = Path(__file__).parents[2] / "patterns"
# What is found says all where nothing is expected in its place.
NOTHING_EXPECTED = {"unused", "missing-key", "chart-remark", "no-such-way", "no-dial"}
SIDES = re.compile(r"\b(?:right|left)\b")
ID = re.compile(r'\bid="([^"]*)"|^#+ .*\{ #(.*) \}$', re.MULTILINE)


@cache
def beds() -> dict[str, NeedleBed]:
    """The beds of the collection."""
    found = {}
    for path in sorted((SHELF / "_beds").glob("*.yaml")):
        node, _ = parse_source(path.read_text(encoding="utf-8"), name=path.name)
        assert node is not None
        bed, _ = read_bed(node, name=path.stem)
        assert bed is not None
        found[path.stem] = bed
    return found


@cache
def charts() -> dict[str, object]:
    """The size charts of the collection."""
    return {path.stem: pieces.chart(path.stem) for path in (SHELF / "_sizes").glob("*.yaml")}


def read(text: str) -> tuple[Pattern | None, tuple[Problem, ...]]:
    """The pattern that a source says, and what is found in reading it."""
    node, faults = parse_source(text, name=FILE)
    assert node is not None, faults
    made, found = read_pattern(node, slug="lantern", beds=beds(), charts=charts())
    return made, (*faults, *found)


def judged(text: str) -> tuple[Proof | None, tuple[Problem, ...]]:
    """The proof of a source, as a site comes to it, and all findings."""
    made, found = read(text)
    if made is None:
        assert has_errors(found)
        return None, found
    proof, more = prove(made)
    assert (proof is None) == has_errors(more)
    return proof, (*found, *check(made), *more)


def faults_of_words(text: str, found: tuple[Problem, ...]) -> list[str]:
    """Findings that do not stand in the source, or do not say what is found and what to do."""
    lines = text.splitlines()
    wrong = []
    for each in found:
        at = each.place
        here = at.file == FILE and 1 <= at.line <= len(lines) \
            and 1 <= at.column <= len(lines[at.line - 1]) + 1
        says_all = each.remedy or each.code == "chart-remark"  # one line says what to know and do
        said = each.found and says_all and "\n" not in each.message and ".." not in each.message
        if not (here and said and each.code in CODES and each.code != "bed-refuses"
                and (each.expected or each.code in NOTHING_EXPECTED)):
            wrong.append(str(each))
    return wrong


def untold(work: Work, pattern: Pattern, page: str) -> list[str]:
    """Steps of a program that no numbered step of the page takes up, in order and once."""
    prefix = strip_anchor(work) if isinstance(work, Strip) else piece_anchor(work)
    done = number = 0
    wrong = []
    for title, told in numbered(work, pattern):
        for each in told:
            number += 1
            first = done if isinstance(each, Moment) else each.first
            upto = done + len(each.steps) if isinstance(each, Moment) else each.upto
            said = re.search(rf'<li id="{prefix}-{number}"><p>\S', page)
            if first != done or upto <= done or said is None:
                wrong.append(f"{prefix}, {title}, step {number}")
            done = upto
    return wrong if done == len(work.program.steps) else [*wrong, f"{prefix} ends early"]


def faults_of_page(text: str) -> list[str]:
    """Ids that are there twice or that no link can name, links to nothing, counts in bad words."""
    ids = [one or other for one, other in ID.findall(text)]
    words = re.sub(r"<[^>]*>", " ", text)
    return [*(f"{name} twice" for name, times in Counter(ids).items() if times > 1),
            *(f"{name!r} is no id" for name in ids if not re.fullmatch(r"[\w.-]+", name)),
            *(f"no {name}" for name in re.findall(r'href="#([^"]+)"', text) if name not in ids),
            *re.findall(r"(?:(?<!and) (?<![\d,/–×] ))\b1 (?:stitches|rows|needles|holes)\b.{30}",
                        words),
            *re.findall(r".{20}(?:Fraction\(|<built-in| object at ).{20}", words)]


def assert_knitted_and_told(proof: Proof) -> None:
    """Every program ran to its end on the bed, every join closes, every step is on the page."""
    written = {page.path: page.text for page in write_pages(proof) if page.path.endswith(".md")}
    for path, text in written.items():
        assert faults_of_page(text) == [], path
    for size, page in zip(proof.sizes, list(written.values())[1:], strict=True):
        assert all(work.trace.refusal is None for work in works(size))
        assert [wrong for work in works(size) for wrong in untold(work, proof.pattern, page)] == []
        assert size.assembled is None or all(join.closes for join in size.assembled.garment.joins)
        assert named_without(proof.pattern, size, page) == []


@given(text=sources())
@settings(max_examples=examples(30), deadline=None)
def test_any_source_is_refused_in_words_or_knitted_and_explained(text: str) -> None:
    proof, found = judged(text)
    assert faults_of_words(text, found) == []
    if proof is not None:
        assert_knitted_and_told(proof)


# What must not change, whatever else is asked for


def told_alike(program: Program) -> tuple[tuple[tuple[str, object], ...], ...]:
    """The steps of a program by their fields, what they are called without its right and left."""
    return tuple((("step", type(step).__name__), *(
        (f.name, SIDES.sub("", value) if isinstance(value := getattr(step, f.name), str)
         else value) for f in fields(step))) for step in program.steps)


def programs(text: str) -> list[Program] | None:
    """Everything that is knitted for a source, in all sizes; None where it is refused."""
    proof, _ = judged(text)
    return None if proof is None else [w.program for size in proof.sizes for w in works(size)]


def pocketed(front: Work) -> bool:
    """True for a front with a pocket, which a single one has on the left alone."""
    return bool(front.piece.pockets)


@given(text=sources())
@settings(max_examples=examples(20), deadline=None)
def test_fronts_are_knitted_as_each_others_mirror(text: str) -> None:
    proof, _ = judged(text)
    for size in proof.sizes if proof else ():
        fronts = {work.piece.key: work for work in size.pieces}
        pairs = [(fronts["right_front"].program, fronts["left_front"].program)] \
            if "left_front" in fronts and pocketed(fronts["right_front"]) \
            == pocketed(fronts["left_front"]) else []
        plain: dict[tuple[str, int], dict[Side, Program]] = {}
        for strip in size.strips:
            part = strip.plan.part.number if strip.plan.part else 0
            if strip.plan.placing is None:
                plain.setdefault((strip.plan.band.key, part), {})[strip.front] = strip.program
        pairs += [(both[Side.RIGHT], both[Side.LEFT]) for both in plain.values() if len(both) == 2]
        for right, left in pairs:
            turned = replace(right, sections=tuple(
                replace(section, steps=steps) for section, steps in
                zip(right.sections, pieces.mirrored(right), strict=True)))
            assert told_alike(turned) == told_alike(left)


@given(text=sources())
@settings(max_examples=examples(10), deadline=None)
def test_what_a_source_does_not_use_changes_no_step(text: str) -> None:
    source = yaml.safe_load(text)
    source["yarns"]["spare"] = {"name": "Spare"}
    source["fabrics"]["spare"] = {**source["fabrics"]["body"], "yarn": "spare"}
    source["fabrics"]["spare"].pop("contrast", None)
    source["fabrics"]["spare"].pop("chart", None)
    assert programs(written(source)) == programs(text)


@given(text=sources(), times=st.integers(2, 4))
@settings(max_examples=examples(10), deadline=None)
def test_a_swatch_measured_over_more_stitches_changes_no_step(text: str, times: int) -> None:
    """As many stitches in as much width: the gauge is a ratio, common practice, no source."""
    source = yaml.safe_load(text)
    for fabric in source["fabrics"].values():
        for swatch in [*fabric.get("swatches", []), *([fabric["swatch"]] if "swatch" in fabric
                                                      else [])]:
            swatch |= {"stitches": str(int(swatch["stitches"]) * times),
                       "width": f"{10 * times} cm"}
            if "mass" in swatch:
                swatch["mass"] = f"{int(swatch['mass'].removesuffix(' g')) * times} g"
    assert programs(written(source)) == programs(text)

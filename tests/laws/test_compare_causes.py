"""Setting the named causes of a change back restores it; what no change names is as it was.

Inputs of the collection's patterns are moved at random, one to four at a time. What the report says
is held to the published counts.json of both sides, and the causes are set back in the source by
code of this test.
"""

from __future__ import annotations

import json
import os
import random
import re
from dataclasses import replace
from functools import cache, partial
from typing import Any

import pytest
from walebook.compare.compared_facts import ComparedSide
from walebook.compare.inputs import moved, plain
from walebook.compare.report import Changed
from walebook.pages.comparison import report_of
from walebook.pages.counts_json import counts_json
from walebook.pages.shared_by_pages import shared
from walebook.proof.advice import advise_all
from walebook.source.source import parse_source
from walebook_site.compared_sides import Knitted, with_inputs_back
from walebook_site.reading import Reading
from walebook_site.standing import Standing

from tests.whole_collection import ROOT

DRAWN = 200 if os.environ.get("WALEBOOK_LONG_RUN") else 6
# Knitted in a few hundredths of a second, of as many forms and bands as there are.
PATTERNS = ("bollard-slipover", "boatshed-buttonholes", "chandlery-closings", "fog-bank-shawl",
            "gull-wing-pullover", "harbour-light-mittens", "lamplighter-hat",
            "little-lamp-cardigan", "net-loft-blanket", "practice-band", "ropewalk-cardigan",
            "signal-hat", "storm-lantern-cardigan", "tide-pool-top", "tideline-hat")
LEFT = ("version", "date", "corrections", "sizes", "accepted")
NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])")
GROUPS = {"measure": "measures", "finished length": "lengths", "count": "counts", "yarn": "yarn",
          "gauge": "gauges", "join": "joins", "band measure": "bands"}
Path = tuple[str | int, ...]
# Of these the expressions name nothing that moved: what the bed counted, where no count of the
# piece moved, and how deep a hem is that is knitted by another dial.
OPEN = re.compile(r"\w+_stitches|hem_rows")


@cache
def knitted() -> Knitted:
    return Knitted.of(Standing(Reading(ROOT)))


def leaves(value: Any, path: Path = ()) -> dict[Path, str]:
    """Every text of a source with a number in it, by its path."""
    if isinstance(value, dict):
        return {p: t for key, each in value.items() if path or key not in LEFT
                for p, t in leaves(each, (*path, key)).items()}
    if isinstance(value, list):
        return {p: t for n, each in enumerate(value) for p, t in leaves(each, (*path, n)).items()}
    return {path: value} if NUMBER.search(value) else {}


def put(value: Any, path: Path, text: str) -> Any:
    """The source with another text at a path."""
    if not path:
        return text
    made = list(value) if isinstance(value, list) else dict(value)
    made[path[0]] = put(made[path[0]], path[1:], text)
    return made


def nudged(text: str, by: random.Random) -> str:
    """A text whose first number is another one, a tenth larger at most."""
    def other(found: re.Match[str]) -> str:
        number = found[0]
        if "." in number:
            return f"{float(number) * by.choice((0.95, 1.05, 1.1)):.2f}"
        return str(int(number) + by.choice((1, 1, 2)))
    return NUMBER.sub(other, text, count=1)


def published(slug: str, source: Any) -> dict[str, Any] | None:
    """The counts.json of a source, None where it is not knitted."""
    folder = replace(knitted().standing.folder(slug), source=json.dumps(source))
    proof = knitted().prover.prove(folder).proof
    return json.loads(counts_json(proof, shared(proof), advise_all(proof))) if proof else None


def figures(counts: dict[str, Any]) -> dict[tuple[str, ...], Any]:
    """Every published figure, by kind, size, place and name."""
    found: dict[tuple[str, ...], Any] = {
        ("yarn", size, "", name): each["value"]
        for size, named in counts.get("materials", {}).items() for name, each in named.items()}
    for fabric, gauge in counts.get("gauges", {}).items():
        found |= {("gauge", "", fabric, name): gauge[name]["mm"] for name in ("stitch", "row")}
        found |= {("gauge", "", fabric, name): one["value"]
                  for name, one in gauge["yarn"].items()}
    for kind, group in GROUPS.items():
        for size, named in counts.get(group, {}).items() if kind != "gauge" else ():
            for name, one in named.items():
                if kind in ("measure", "finished length"):
                    found[kind, size, "", name] = one.get("mm", one.get("number"))
                elif kind == "join":
                    found[kind, size, "", name] = [one["one"]["value"], one["other"]["value"],
                                                   one["ease"], one["allowed"]]
                else:
                    found |= {(kind, size, name, key): each["value"] for key, each in one.items()}
    return found


@cache
def draw(seed: int) -> tuple[str, Any, Any, dict[Path, str]]:
    """A pattern, its source before and after, and the former texts of the inputs that moved.

    Inputs that make no pattern together are drawn again.
    """
    by = random.Random(seed)
    while True:
        slug = by.choice(PATTERNS)
        before = plain(parse_source(knitted().standing.folder(slug).source, name="x")[0])
        there = leaves(before)
        paths = by.sample(sorted(there, key=str), min(len(there), by.randint(1, 4)))
        after = before
        for path in paths:
            after = put(after, path, nudged(there[path], by))
        if published(slug, after):
            return slug, before, after, {path: there[path] for path in paths}


def _repeated(one: Changed) -> str:
    """A way that says of a figure what it was and is, and so nothing."""
    return " → ".join(text.partition(" ")[0] for text in (one.before, one.after))


@pytest.mark.parametrize("seed", range(DRAWN))
def test_named_causes_restore_what_they_moved(seed):
    slug, before, after, former = draw(seed)
    old, new = published(slug, before), published(slug, after)
    name = f"patterns/{slug}/pattern.yaml"
    files = dict(knitted().files(slug))
    changed = files | {name: parse_source(json.dumps(after), name=name)[0]}
    inputs = moved(files, changed)
    report = report_of(knitted().side(slug), knitted().as_if(slug, changed), inputs,
                       partial(with_inputs_back, knitted(), slug, changed))
    assert {one.path for one in inputs} == set(former)
    assert not [one for one in report.changes if not one.causes]
    others = [one for one in report.changes
              if one.kind in GROUPS and one.name and one.before and one.after]
    assert not [one for one in others if _repeated(one) in one.path]
    assert not [one for one in others if one.before == one.after]
    assert not [one for one in others if not one.path and not OPEN.fullmatch(one.name)]
    told = {(c.kind, c.size, c.place, c.name): c for c in report.changes if c.kind in GROUPS}
    was, now = figures(old), figures(new)
    if "yarn" not in old:  # a pattern without a garment publishes no yarn
        told = {key: one for key, one in told.items() if key[0] != "yarn" or not key[2]}
    assert set(told) == {key for key in {**was, **now} if was.get(key) != now.get(key)}
    for causes in {one.causes for one in told.values()}:
        source = after
        for number in causes:
            source = put(source, inputs[number].path, former[inputs[number].path])
        back = figures(published(slug, source) or {})
        for key, one in told.items():
            if one.causes == causes:
                assert back.get(key) == was.get(key), (key, one)


@pytest.mark.parametrize("seed", range(0, DRAWN, 4))
def test_schedules_findings_and_steps_are_restored_too(seed):
    slug, _, after, _ = draw(seed)
    name = f"patterns/{slug}/pattern.yaml"
    files = dict(knitted().files(slug))
    changed = files | {name: parse_source(json.dumps(after), name=name)[0]}
    inputs = moved(files, changed)
    before, back = knitted().side(slug), partial(with_inputs_back, knitted(), slug, changed)
    report = report_of(before, knitted().as_if(slug, changed), inputs, back)
    was = values(before)
    for one in report.changes:
        key = (one.size, one.kind, one.place, one.name)
        back_again = values(back(frozenset(inputs[n] for n in one.causes)))
        assert one.name == "" or back_again.get(key) == was.get(key), one


def values(side: ComparedSide) -> dict[tuple[str, ...], object]:
    return {(key.size, key.kind.value, key.place, key.name): fact.value
            for key, fact in side.facts.items()}

"""No text for people steers anything: with all of them drawn at random, the same is knitted.

Every title and name that a form, a plan or a designer gives, and every phrase for a reason or a
heading, is another word; the steps, the counts and the structure of the pages must be the same.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from enum import Enum
from pathlib import Path
from random import Random
from typing import Any

import pytest
from walebook.machine.steps import Step
from walebook.pages import from_texts, write_pages
from walebook.pattern.edges import EdgeSection
from walebook.pattern.fabrics import Yarn
from walebook.pattern.model import Band, Pattern
from walebook.pattern.specs import BandCord
from walebook.pattern.stitch_chart import StitchChart
from walebook.proof.proof import Proof, prove
from walebook.proof.yarn_extras import Extra
from walebook.proof.yarn_shares import YarnShare
from walebook.shape.edging import EdgePath, Section
from walebook.shape.garment import Join
from walebook.shape.piece import Piece
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source
from walebook.words import headings, reasons
from walebook.words.instruction import works

from tests.laws.texts import read_folder, texts_of

ROOT = Path(__file__).parents[2]
# What is called something, and which of its fields say so.
CALLED: dict[type, tuple[str, ...]] = {
    Piece: ("title",), Join: ("title",), Section: ("name", "detail"), EdgePath: ("name", "detail"),
    Extra: ("title",), YarnShare: ("title",), Band: ("title",), Yarn: ("name",),
    EdgeSection: ("title",), BandCord: ("at",),
    Pattern: ("title", "designer", "summary"), StitchChart: ("title",)}
# Patterns with pieces, bands, holes, pockets, charts, a placket, a collar and edges of the source's
# own: a size of each.
SHOWN = ("quayside-waistcoat", "little-lamp-cardigan", "gangway-pullover", "watch-below-robe",
         "salt-marsh-pullover", "chandlery-closings")


class Other:
    """Another word for every text, the same one for the same text."""

    def __init__(self, seed: int) -> None:
        self._draw, self._words = Random(seed), dict[str, str]()

    def __call__(self, text: str) -> str:
        if not text or text in self._words.values():
            return text
        if text not in self._words:
            letters = "".join(self._draw.choices("bdfghjkpqvwxz", k=8))
            self._words[text] = letters.capitalize() if text[:1].isupper() else letters
        return self._words[text]


def called_otherwise(patch: pytest.MonkeyPatch, other: Callable[[str], str],
                     left: tuple[type, ...] = ()) -> None:
    """Let everything that is made be called another word."""
    for kind, named in CALLED.items():
        if kind not in left:
            patch.setattr(kind, "__init__", _with_others(kind, named, other))
    for table in (reasons._SAID, headings._TITLES):
        for key, text in list(table.items()):
            number = " {number}" if "{number}" in text else ""
            patch.setitem(table, key, other(text) + number)


def _with_others(kind: type, named: tuple[str, ...], other: Callable[[str], str]) -> Any:
    plain = kind.__init__  # type: ignore[misc]

    def made(self: object, **given: Any) -> None:
        plain(self, **{name: other(value) if name in named else value
                       for name, value in given.items()})
    return made


def one_size(slug: str) -> Proof:
    """A pattern of the collection in its second size, read and proved."""
    texts, shelf, found = texts_of(ROOT, slug), read_folder(ROOT), []
    node, _ = parse_source(texts.source, name=texts.file)
    assert node is not None
    pattern, problems = read_pattern(
        node, slug=slug, beds=from_texts._beds(shelf["beds"], found),
        charts=from_texts._charts(shelf["charts"], texts, found))
    assert pattern is not None, problems
    proof, problems = prove(replace(pattern, sizes=pattern.sizes[:2][-1:]))
    assert proof is not None, problems
    return proof


def facts(value: object) -> object:
    """What a value is but for the texts in it."""
    if isinstance(value, Enum):
        return value.name
    if isinstance(value, str):
        return ""
    if isinstance(value, Step):
        return type(value), *(facts(getattr(value, f.name)) for f in fields(value))
    return value


def programs(proof: Proof) -> list[object]:
    return [(section.heading, section.side, facts(step)) for size in proof.sizes
            for work in works(size) for section in work.program.sections for step in section.steps]


def figures(value: Any) -> Iterator[object]:
    """The numbers of a JSON value in their order."""
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        for inner in value:
            yield from figures(inner)
    elif not isinstance(value, str):
        yield value


def structure(page: str) -> list[str]:
    """The tags of a page with their classes, and its headings; scripts' data are texts."""
    bare = re.sub(r"<script.*?</script>|<desc.*?</desc>", "", page, flags=re.DOTALL)
    return [f"{tag} {''.join(re.findall(r'class=.[^ >]*', rest))}"
            for tag, rest in re.findall(r"<(/?\w+)([^>]*)>", bare)] + re.findall(
                r"^#+", bare, flags=re.MULTILINE)


def shown(proof: Proof) -> tuple[list[object], list[object], dict[str, list[str]]]:
    pages = {page.path: page.text for page in write_pages(proof)}
    counts = [one for path, text in pages.items() if path.endswith(".json")
              for one in figures(json.loads(text)["counts"])]
    return programs(proof), counts, {path: structure(text) for path, text in pages.items()
                                     if path.endswith(".md")}


# The making up finds a join's sentence by its title until it is a list of tasks.
UNTIL_TASKS = (Join,)


@pytest.mark.parametrize("slug", SHOWN)
def test_whatever_everything_is_called(slug: str, monkeypatch: pytest.MonkeyPatch) -> None:
    steps, counts, pages = shown(one_size(slug))
    with monkeypatch.context() as patch:
        called_otherwise(patch, Other(len(slug)))
        assert shown(one_size(slug))[:2] == (steps, counts)
    with monkeypatch.context() as patch:
        called_otherwise(patch, Other(len(slug)), left=UNTIL_TASKS)
        others = shown(one_size(slug))[2]
    for path, tags in pages.items():
        assert others[path] == tags, path

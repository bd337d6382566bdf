"""No text for people steers anything: with all of them drawn at random, the same is knitted.

Every title and name that a form, a plan or a designer gives, and every phrase for a reason or a
heading, is another word; the steps, the counts and the structure of the pages must be the same.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages
from random import Random
from typing import Any

import pytest
import walebook
from walebook.machine.steps import Step
from walebook.pages import from_texts, write_pages
from walebook.pattern.specs import BandCord
from walebook.proof.proof import Proof, prove
from walebook.source.pattern import read_pattern
from walebook.source.source import parse_source
from walebook.words import reason_phrases, section_titles
from walebook.words.instruction import works

from tests.laws.texts import read_folder, texts_of

ROOT = Path(__file__).parents[2]
# Fields that hold a text for people, wherever a value of the engine has one.
TEXTS = {"title", "name", "detail", "summary", "designer", "licence", "alt", "fibre", "publisher",
         "label"}
# Names that are keys: something else is found by them, and nobody reads them.
KEYS = {"Task.name": "other tasks need it by this name", "Row.name": "measures are sums of it",
        "Dimension.name": "a measure is drawn by it", "Fit.name": "the name of a measure",
        "MeasureName.name": "the name of a measure in a sum", "Call.name": "min or max in a sum",
        "OutOfStep.name": "the name of a measure", "Quantity.name": "the name of a measure",
        "OwnSize.name": "a size's pages and figures are found by it",
        "SteppedSlope.name": "a schedule of counts.json is found by it",
        "EvenSlope.name": "a schedule of counts.json is found by it"}
HOLDERS = ("pattern", "sizing", "shape", "plan", "proof")


def holders() -> dict[type, tuple[str, ...]]:
    """Every kind of value of these folders that holds texts for people, with their fields."""
    found: dict[type, tuple[str, ...]] = {BandCord: ("at",)}  # a section by its title
    for module in walk_packages(walebook.__path__, "walebook."):
        if module.name.split(".")[1] not in HOLDERS:
            continue
        for kind in vars(import_module(module.name)).values():
            if isinstance(kind, type) and is_dataclass(kind) and kind.__module__ == module.name:
                held = tuple(f.name for f in fields(kind) if f.type == "str" and f.name in TEXTS
                             and f"{kind.__name__}.{f.name}" not in KEYS)
                found |= {kind: held} if held else {}
    return found


CALLED = holders()
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
    for table in (reason_phrases._PHRASES, section_titles._TITLES):
        for key, text in list(table.items()):
            number = " {number}" if "{number}" in text else ""
            patch.setitem(table, key, other(text) + number)


def _with_others(kind: type, named: tuple[str, ...], other: Callable[[str], str]) -> Any:
    plain = kind.__init__  # type: ignore[misc]

    order = [f.name for f in fields(kind)]  # type: ignore[arg-type]

    def made(self: object, *first: Any, **more: Any) -> None:
        given = {**dict(zip(order, first, strict=False)), **more}
        plain(self, **{name: other(value) if name in named else value
                       for name, value in given.items()})
    return made


def one_size(slug: str) -> Proof:
    """A pattern of the collection in its second size, read and proved."""
    texts, shelf, found = texts_of(ROOT, slug), read_folder(ROOT), []
    node, _ = parse_source(texts.source, name=texts.file)
    assert node is not None
    pattern, problems = read_pattern(
        node, slug=slug, beds=from_texts.read_beds(shelf["beds"], found),
        charts=from_texts.read_charts(shelf["charts"], texts, found))
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


@pytest.mark.parametrize("slug", SHOWN)
def test_whatever_everything_is_called(slug: str, monkeypatch: pytest.MonkeyPatch) -> None:
    steps, counts, pages = shown(one_size(slug))
    with monkeypatch.context() as patch:
        called_otherwise(patch, Other(len(slug)))
        others = shown(one_size(slug))
    assert others[:2] == (steps, counts)
    for path, tags in pages.items():
        assert others[2][path] == tags, path

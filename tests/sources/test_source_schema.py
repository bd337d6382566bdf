"""The schema that editors read takes what the reader takes, and no key or word that it refuses.

It is judged by jsonschema, a library that knows nothing of ours.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml
from declared import ALL, Declared, in_place, value_of
from walebook.pages.source_schema import source_schema
from walebook.source.keys.collection_keys import CollectionKeys
from walebook.source.keys.key import Keys
from walebook.source.keys.pattern_keys import BedFileKeys, PatternKeys
from walebook.source.keys.size_chart_keys import ChartFileKeys
from walebook.source.values import Word

SHELF = Path(__file__).parents[2] / "patterns"
FILES = [*((PatternKeys, path) for path in sorted(SHELF.glob("[a-z]*/pattern.yaml"))),
         *((BedFileKeys, path) for path in sorted(SHELF.glob("_beds/*.yaml"))),
         *((ChartFileKeys, path) for path in sorted(SHELF.glob("_sizes/*.yaml"))),
         (CollectionKeys, SHELF / "collection.yaml")]


@cache
def judge(root: type[Keys]) -> Any:
    schema = source_schema(root)
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def faults(root: type[Keys], value: object) -> list[str]:
    return [f"{one.json_path}: {one.message[:200]}" for one in judge(root).iter_errors(value)]


@pytest.mark.parametrize("loader", [yaml.BaseLoader, yaml.SafeLoader])
def test_every_file_of_the_collection_meets_it(loader: Any) -> None:
    """Whether YAML makes numbers of its figures or not."""
    assert len(FILES) > 30
    for root, path in FILES:
        value = yaml.load(path.read_text(encoding="utf-8"), loader)
        value = json.loads(json.dumps(value, default=str))  # YAML 1.1 has dates; 1.2 has none
        assert faults(root, value) == [], path


def holders(node: Any, names: list[str]) -> Iterator[dict[str, Any]]:
    """The mappings that have the last of the names, below the others, whatever lies between."""
    if isinstance(node, list):
        for each in node:
            yield from holders(each, names)
    if isinstance(node, dict):
        if names[0] in node and len(names) == 1:
            yield node
        elif names[0] in node:
            yield from holders(node[names[0]], names[1:])
        else:
            yield from holders(list(node.values()), names)


def with_slip(one: Declared, source: Any) -> Any:
    """The file with a key that nothing has beside the one that is tried."""
    made = deepcopy(source)
    around = next(holders(made, [*(key.name for _, key in one.above), one.key.name]))
    around["hook_size"] = "4 mm"
    return made


@pytest.mark.parametrize("one", ALL, ids=str)
def test_the_example_of_a_key_meets_it_and_another_key_does_not(one: Declared) -> None:
    source = in_place(one, value_of(one.key.example))
    assert faults(one.root, source) == []
    assert faults(one.root, with_slip(one, source))
    for likely in one.key.likely:
        value = likely if "\n" in likely else value_of(likely)
        assert faults(one.root, in_place(one, value)) == [], likely


@pytest.mark.parametrize("one", [one for one in ALL if isinstance(one.key.read, Word)], ids=str)
def test_a_word_that_is_none_of_a_key_is_marked(one: Declared) -> None:
    assert faults(one.root, in_place(one, "crocheted"))


@pytest.mark.parametrize("root", [PatternKeys, BedFileKeys, ChartFileKeys, CollectionKeys])
def test_what_a_file_needs_is_marked_where_it_is_missing(root: type[Keys]) -> None:
    _, path = next((each, path) for each, path in FILES if each is root)
    whole = yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)
    needed = [key.name for key in root.keys.values() if key.needed]
    assert needed
    for name in needed:
        assert faults(root, {key: value for key, value in whole.items() if key != name}), name

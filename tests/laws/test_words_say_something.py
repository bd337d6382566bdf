"""No text in a table of words is empty: one that is lost leaves a gap in a sentence or a list.

What may be empty is named here, with its reason.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from importlib import import_module
from pkgutil import iter_modules

import walebook.words as words

# Module, name and key of the texts that are empty on purpose.
NOTHING_TO_SAY = {
    ("sheet_text", "STEP_COLUMNS", "1"): "a column that keeps the place of the unit",
    ("sheet_text", "STEP_COLUMNS", "2"): "one that keeps the place of the source's line",
    ("reason_phrases", "_PHRASES", "AT_THIS_SETTING"): "the step before set the dial for them",
    ("set_up_instructions", "_AGAIN", "AGAIN"): "its sentence says that they hang as before",
    ("task_instructions", "JOINED", "back-stitched 1"): "a word that knitters know, with a page",
    ("task_instructions", "JOINED", "grafted 1"): "a word that knitters know, with a page",
}


def texts() -> Iterator[tuple[str, str, str, str]]:
    """Module, name, key and text of every constant of the folder that is a text, or has some."""
    for found in iter_modules(words.__path__):
        module = import_module(f"walebook.words.{found.name}")
        for name, value in vars(module).items():
            if not name.startswith("__"):
                for key, text in _in(value):
                    yield found.name, name, key, text


def _in(value: object, key: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(value, str):
        yield key, value
    elif isinstance(value, Mapping):
        for each, inner in value.items():
            yield from _in(inner, each.name if isinstance(each, Enum) else str(each))
    elif isinstance(value, tuple | list):
        for at, inner in enumerate(value):
            yield from _in(inner, f"{key} {at}".strip())


def test_no_text_of_a_table_is_empty() -> None:
    found = list(texts())
    assert len(found) > 500
    assert {each[:3] for each in found if not each[3].strip()} == set(NOTHING_TO_SAY)


def test_no_name_of_a_table_and_no_word_of_a_list_is_empty() -> None:
    """What is looked up under a lost name is not found; two members of one text would be one."""
    members = [(name, key, each.value) for found in iter_modules(words.__path__)
               for name, value in vars(import_module(f"walebook.words.{found.name}")).items()
               if isinstance(value, type) and issubclass(value, Enum)
               and value.__module__ == f"walebook.words.{found.name}"
               for key, each in value.__members__.items()]
    assert len(members) > 10
    assert not [each for each in members if each[2] == ""]
    keys = [(found.name, name, key) for found in iter_modules(words.__path__)
            for name, value in vars(import_module(f"walebook.words.{found.name}")).items()
            if isinstance(value, Mapping) and not name.startswith("__") for key in value]
    assert len(keys) > 200
    assert not [each for each in keys if each[2] == ""]

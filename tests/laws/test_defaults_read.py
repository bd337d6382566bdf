"""What the page about pattern sources says of a key that is left out is what its reader takes."""

from __future__ import annotations

import re
from contextlib import suppress
from typing import Any

import pytest
from walebook.core.problems import Place
from walebook.pattern.model import Neck
from walebook.source.keys.key import Key
from walebook.source.keys.whole import TABLES
from walebook.source.source import Scalar
from walebook.source.values import YES_NO, Entry, Fault, Word, word

HERE = Place("defaults.yaml", 1, 1)
# A value that no reader takes from the text: it is said in words, and why.
WORDED = {
    "CollectionKeys.engine": "a number that rises: the newest, held below",
    "CorrectionKeys.step": "no step is number 0",
    "NoteKeys.row": "no row is number 0",
    "GarmentKeys.align": "the word `centre` alone would not say of what",
    "InHemKeys.ends": "12.7 mm, which the page names as its source does",
    "OwnPieceKeys.times": "a number of times, in a word",
    "OwnShortRowKeys.times": "a number of times, in a word",
}


def read(key: Key[Any], text: str) -> list[Any]:
    """What the reader makes of a text as a source would have it; empty where it refuses it."""
    with suppress(Fault):
        return [key.read(Entry(key.name, Scalar(text, HERE), key.name, HERE))]
    return []


def said(key: Key[Any]) -> list[Any]:
    """The values that a default's text begins with: what follows a comma or colon explains it."""
    assert key.left_out is not None
    return [value for text in {key.left_out, re.split(r"[,:] ", key.left_out)[0]}
            for value in read(key, text)]


def given() -> dict[str, Key[Any]]:
    """Every key with a text and a value for where it is left out."""
    found = {}
    for table, keys in TABLES.items():
        for name, key in keys.keys.items():
            with suppress(TypeError):
                if key.left_out is not None and not callable(key.fallback):
                    found[f"{table}.{name}"] = key
    return found


def unlike(keys: dict[str, Key[Any]]) -> set[str]:
    """The keys whose text gives no value, or another than is taken."""
    return {name for name, key in keys.items()
            if key.fallback not in (None, "", ()) and key.fallback not in said(key)}


def test_the_text_of_a_default_is_its_value() -> None:
    assert unlike(given()) == WORDED.keys()


def test_the_engine_that_is_left_out_is_the_newest() -> None:
    engine = TABLES["CollectionKeys"].keys["engine"]
    assert isinstance(engine.read, Word)
    assert engine.fallback == max(engine.read.choices.values())


@pytest.mark.parametrize("spoiled", [
    Key(word(Neck), "The neck.", "round", "square", Neck.ROUND),
    Key(YES_NO, "Whether it is.", "yes", "yes", False),
    Key(YES_NO, "Whether it is.", "yes", "as the fabric has it", True)])
def test_a_text_of_another_value_is_found(spoiled: Key[Any]) -> None:
    assert unlike({"spoiled": spoiled}) == {"spoiled"}

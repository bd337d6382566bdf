"""The sentence of every published count is made again from its published expression alone.

Names of operands are published without the spaces and commas that part them from their figures,
so sentences are compared without these.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from copy import deepcopy
from typing import Any

import pytest
from walebook.core.counts import Unit
from walebook.core.expression import plain
from walebook.core.note_arguments import Noted, NotedLength, NoteWord
from walebook.core.operands import Note
from walebook.pages.expression_json import TreeWriter
from walebook.pages.expression_read import read_tree
from walebook.words.terms.working import working

from tests.laws.test_expressions import counts, published

# Counts of bands whose sentences pages write in other words, where the calculation says little.
WORDED = {"buttonholes", "lower_end", "upper_end", "gaps", "closing_gaps", "parts", "cord_openings",
          "rows_to_holes", "rows_holes_to_fold", "fold_rows", "rows_fold_to_holes",
          "rows_to_finish"}


def bare(sentence: str) -> str:
    """A sentence without spaces and commas."""
    return sentence.replace(" ", "").replace(",", "")


def remade(count: dict[str, Any]) -> str:
    """The sentence of a published count, made from its expression."""
    return working(read_tree(count["expression"]), Unit(count["unit"]))


def unlike(document: dict[str, Any]) -> Iterator[str]:
    """The counts of a file whose sentence is another one than their expression gives."""
    for name, count in counts(document):
        if not isinstance(count["expression"], list) and \
                bare(remade(count)) != bare(count["working"]):
            yield name


def test_every_sentence_is_made_again() -> None:
    seen = 0
    for slug, document in published().items():
        other = set(unlike(document)) - WORDED
        assert not other, (slug, other)
        seen += json.dumps(document).count('"with"')
    assert seen


def test_a_spoiled_argument_of_a_note_gives_another_sentence() -> None:
    document = next(d for d in published().values() if '"with"' in json.dumps(d["counts"]))
    name, count = next((name, count) for name, count in counts(document)
                       if "with" in count["expression"] and name not in WORDED)
    spoiled = deepcopy(count)
    assert bare(remade(spoiled)) == bare(count["working"])
    del spoiled["expression"]["with"]
    with pytest.raises((IndexError, KeyError)):
        remade(spoiled)
    spoiled["expression"]["with"] = ["another"] * len(count["expression"]["with"])
    assert bare(remade(spoiled)) != bare(count["working"]), name


@pytest.mark.parametrize("said", [
    (3,), ("front",), (None,), (NoteWord.BOTH_LAYERS,), (NotedLength(plain(5).value),),
    (NotedLength(plain(5).value, is_exact=True),)])
def test_arguments_of_every_kind_are_read_back(said: tuple[Any, ...]) -> None:
    tree = Noted(plain(2), Note.SECTION, said)
    assert read_tree(json.loads(TreeWriter().of(tree))) == tree

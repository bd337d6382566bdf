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
from walebook.core.expression import Difference, Operand, Term, plain
from walebook.core.note_arguments import (
    Noted,
    NotedAmount,
    NotedCalculation,
    NotedLength,
    NotedParts,
    NotedSchedule,
    NoteWord,
)
from walebook.core.operands import Note
from walebook.pages.expression_json import TreeWriter
from walebook.pages.expression_read import read_tree
from walebook.words.terms.working import working

from tests.laws.test_expressions import counts, published

# Counts of bands whose sentences pages write in other words, where the calculation says little.
WORDED = {"buttonholes", "lower_end", "upper_end", "gaps", "closing_gaps", "parts", "cord_openings",
          "rows_to_holes", "rows_holes_to_fold", "fold_rows", "rows_fold_to_holes",
          "rows_to_finish"}


# Texts that stand beside a calculation: a chart's title, what a section of an edge is called, and
# the sum of the measure where a hole lies.
TEXTS = {("for chart", 1), ("section", 0), ("through", 0)}


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


def texts_in(data: Any) -> Iterator[tuple[str, int]]:
    """The notes in JSON with a text beside the calculation, and its place among the arguments."""
    if isinstance(data, dict):
        if data.get("is") == "noted":
            yield from ((data["note"], place) for place, one in enumerate(data.get("with", []))
                        if isinstance(one, str))
        data = list(data.values())
    if isinstance(data, list):
        for one in data:
            yield from texts_in(one)


def test_no_note_has_a_sentence_that_was_made_before() -> None:
    assert {text for document in published().values() for text in texts_in(document)} == TEXTS


def test_the_arguments_of_caps_are_calculated() -> None:
    """The stitches above the bind-offs come from a count, and the rows add up to those found."""
    seen = 0
    for document in published().values():
        for name, count in counts(document):
            tree = read_tree(count["expression"]) if name == "cap_rows" else None
            if not isinstance(tree, Noted) or tree.note not in (Note.CAP, Note.CAP_GIVEN):
                continue
            above, top, rows, schedule, other, *_ = tree.arguments
            assert isinstance(schedule, NotedSchedule) and isinstance(other, NotedParts)
            parts = {which: one.value for one, which in other.parts}
            decreased = (schedule.first or 0) + sum(each * n for each, n in schedule.blocks)
            assert rows == tree.value == decreased + sum(parts.values())
            if isinstance(above, NotedCalculation):
                assert isinstance(above.made, Difference) and above.made.value > top
                assert isinstance(above.made.of, Term) and not isinstance(above.made.of.of, Operand)
                seen += 1
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
    (NotedLength(plain(5).value, is_exact=True),), (NotedSchedule(None, ((2, 3), (1, 4))),),
    (NotedSchedule(0, ()),),
    (NotedParts(((NotedAmount(2, Unit.ROWS), NoteWord.OF_BIND_OFFS),)),)])
def test_arguments_of_every_kind_are_read_back(said: tuple[Any, ...]) -> None:
    tree = Noted(plain(2), Note.SECTION, said)
    assert read_tree(json.loads(TreeWriter().of(tree))) == tree

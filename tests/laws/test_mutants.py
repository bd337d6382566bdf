"""The tool that changes the engine to see whether a test notices: what it changes, and what not."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from cosmic_ray.mutating import mutate_code

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / ".ci"))

from mutant_drawing import changes, operators  # noqa: E402
from mutant_tests import lines_about  # noqa: E402
from mutants import ARGUED, argued  # noqa: E402
from own_operators import OWN  # noqa: E402

MODULE = '''"""What it is for."""

from __future__ import annotations

LEAST = 2


def said(rows: int | None) -> str:
    """Rows in words."""
    if rows is None:
        raise ValueError("no rows")
    return (f"{rows} rows"
            if rows >= LEAST else "one row")
'''


@pytest.mark.parametrize("own", OWN)
def test_an_operator_of_ours_makes_what_it_says(own: type) -> None:
    for example in own.examples():
        made = mutate_code(example.pre_mutation_code, own(), example.occurrence)
        assert made == example.post_mutation_code


def test_what_no_reader_meets_is_not_changed() -> None:
    kinds = operators()
    made = {mutate_code(MODULE, kinds[kind], occurrence)
            for _, kind, occurrence in changes(MODULE, kinds)}
    assert MODULE.replace('f"{rows} rows"', '""') in made
    assert MODULE.replace('"one row"', '""') in made
    assert MODULE.replace("rows is None", "not rows is None") in made
    for kept in ('"""What it is for."""', "int | None", '"""Rows in words."""', '"no rows"'):
        assert all(code and kept in code for code in made), kept


def test_a_change_is_tried_by_the_tests_of_its_whole_statement() -> None:
    assert lines_about(MODULE, 13) == range(12, 14)
    assert lines_about(MODULE, 10) == range(10, 11)
    assert lines_about(MODULE, 5) is None


def test_each_mutant_that_is_argued_for_still_has_its_line() -> None:
    for name in argued():
        path, _, changed = name.partition(" ")
        text = (ROOT / path).read_text(encoding="utf-8")
        lines = {line.strip() for line in text.splitlines()}
        before = changed.partition(": ")[2].partition(" => ")[0]
        assert any(line and before.startswith(line) for line in lines), name


def test_each_mutant_that_is_argued_for_has_its_reason_above_it() -> None:
    lines = ARGUED.read_text(encoding="utf-8").splitlines()
    for before, line in zip(["", *lines], lines, strict=False):
        assert not line.startswith("engine/") or before.startswith(("#", "engine/")), line

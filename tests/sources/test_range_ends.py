"""Just beyond what is plausible a figure is warned of, just beyond what is allowed it is refused.

Of every kind of figure that a source takes, and of every measure of every form. The bounds are
those of the tables; one step beyond is a tenth of a millimetre, a whole number, a third of a dial,
a day, or a thousandth.
"""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from typing import Any

import pytest
from walebook.core.problems import Place
from walebook.core.ranges import MEASURES, Measured, Range
from walebook.core.units import read_dial, read_length
from walebook.sizing.measures import Definition, evaluate
from walebook.source.keys.whole import figures_read
from walebook.source.source import Scalar
from walebook.source.values import Entry, Fault, Figure

HERE = Place("ends", 1, 1)
UNITS = {Measured.LENGTH: " mm", Measured.MASS: " g", Measured.SHARE: " %"}
STEPS = {Measured.LENGTH: Fraction(1, 10), Measured.COUNT: Fraction(1)}
KINDS = {figure.range.kind: figure for figure in figures_read()}
UNREAD = ("bad-number", "bad-dial")  # of a figure with a minus, where none is read


def beyond(row: Range, written: str, step: int) -> str:
    """The text of what lies a `step` beyond an end of a range."""
    if row.measured is Measured.DATE:
        return (date.fromisoformat(written) + timedelta(step)).isoformat()
    if row.measured is Measured.DIAL:
        whole, third = divmod(int(read_dial(written).thirds) + step, 3)
        return f"{whole}.{third}" if third else str(whole)
    worth = read_length(written).mm if row.measured is Measured.LENGTH else \
        Fraction(written.split()[0])
    worth += step * STEPS.get(row.measured, Fraction(1, 1000))
    text = f"{float(worth):.4f}".rstrip("0").rstrip(".")
    return text + UNITS.get(row.measured, "")


def cases(row: Range) -> list[tuple[str, str]]:
    """The ends of a range and a step beyond each, and what is found of it, "" for nothing.

    A mass is above its hard limit of nothing, not at it.
    """
    made = []
    for inner, outer, step in ((row.low, row.least, -1), (row.high, row.most, 1)):
        made.append((beyond(row, inner, 0), ""))
        if beyond(row, inner, 0) != beyond(row, outer, 0):
            at_limit = "out-of-range" if beyond(row, outer, 0) == "0 g" else "unlikely-value"
            made += [(beyond(row, inner, step), "unlikely-value"),
                     (beyond(row, outer, 0), at_limit)]
        made.append((beyond(row, outer, step), "out-of-range"))
    return made


def code_of(figure: Figure[Any], text: str) -> str:
    """What is found of a figure so written; "" for nothing."""
    entry = Entry("figure", Scalar(text, HERE), "figure", HERE)
    try:
        figure(entry)
    except Fault as fault:
        return fault.problem.code
    return next((problem.code for problem in entry.doubts), "")


@pytest.mark.parametrize("kind", KINDS)
def test_a_figure_is_judged_at_the_ends_of_its_range(kind: str) -> None:
    figure = KINDS[kind]
    for text, code in cases(figure.range):
        found = code_of(figure, text)
        assert found == code or (text[0] == "-" and found in UNREAD), text


@pytest.mark.parametrize("name", MEASURES)
def test_a_measure_is_judged_at_the_ends_of_its_range(name: str) -> None:
    for text, code in cases(MEASURES[name]):
        _, found = evaluate({name: Definition(text, HERE)}, {}, {name: MEASURES[name]}, size="M")
        assert [problem.code for problem in found] == [code] * bool(code), text

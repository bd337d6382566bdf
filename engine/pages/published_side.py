"""A pattern as a side of a comparison, read from what any engine's command publishes of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from ..compare.compared_facts import ComparedSide, Fact, FactKey, FactKind
from ..core.problems import Place, Problem, Severity
from ..markup.steps_read import steps_in
from ..source.fabric_reading import size_slug
from ..words.moved import steps_shown
from .pattern_facts import finding_fact, side_of_counts


def side_published(slug: str, counts: str, pages: Mapping[str, str],
                   findings: Sequence[Problem]) -> ComparedSide:
    """Return the side that a counts.json, the pages of the sizes and the findings are.

    `pages` are by the names of their files without an ending. Where there is no counts.json the
    pattern was not knitted. Raises NotCounts.
    """
    facts = dict(finding_fact(each, f"patterns/{slug}/") for each in findings)
    errors = tuple(each for each in findings if each.severity is Severity.ERROR)
    if not counts:
        return ComparedSide(slug=slug, facts=facts, errors=errors)
    side = side_of_counts(counts)
    for size in side.sizes:
        for part, texts in steps_in(pages.get(size_slug(size), "")).items():
            facts[FactKey(size, FactKind.STEPS, part, "steps")] = Fact(
                texts, steps_shown(len(texts)), texts=partial(tuple, texts))
    return replace(side, facts={**side.facts, **facts}, errors=errors,
                   kinds=side.kinds | {FactKind.FINDING, FactKind.STEPS})


def findings_read(data: Mapping[str, Any]) -> dict[str, tuple[Problem, ...]]:
    """Return the findings of each pattern from the JSON of a check.

    A remark that several patterns have is one of each. Raises KeyError, TypeError or ValueError for
    what is no such JSON.
    """
    found: dict[str, list[Problem]] = {}
    for one in data["findings"]:
        for slug in (one["pattern"], *one["also_in"]):
            file = one["file"].replace(f"patterns/{one['pattern']}/", f"patterns/{slug}/")
            found.setdefault(slug, []).extend(
                Problem(severity=Severity(one["severity"]), code=one["code"],
                        place=Place(file, one["line"], one["column"]), found=one["found"],
                        expected=one["expected"], remedy=one["remedy"], size=size)
                for size in one["sizes"] or ("",))
    return {slug: tuple(problems) for slug, problems in found.items()}

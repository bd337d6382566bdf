"""A pattern as a side of a comparison: every fact of its proof, or of its published counts."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import islice
from typing import Any

from ..compare.compared_facts import ComparedSide, Fact, FactKey, FactKind
from ..core.expression import Expression
from ..core.problems import Problem, Severity
from ..markup.steps_read import steps_in
from ..pattern.fabrics import Fabric
from ..pattern.model import Pattern
from ..plan.band import BandPlan
from ..proof.proof import KnittedPiece, Proof, SizeProof, Strip
from ..proof.yarn_requirement import yarn_requirements
from ..sizing.measure_text import shown
from ..words.moved import (
    count_shown,
    exact_shown,
    finding_named,
    join_closer,
    join_shown,
    strip_steps,
    with_more_places,
)
from .counts_json import gauge_figures, hundredths, material_counts
from .exact_figures import exact_figures
from .expression_json import READ
from .expression_read import read_tree
from .notion_sizes import notion_sizes
from .program import steps_html
from .sheet_pieces import derived
from .shown_counts import (
    FactPairs,
    band_facts,
    count_fact,
    counted_places,
    piece_facts,
    titles_of,
)

PUBLISHED = {FactKind.MEASURE: "measures", FactKind.LENGTH: "lengths", FactKind.COUNT: "counts",
             FactKind.YARN: "yarn", FactKind.GAUGE: "gauges", FactKind.JOIN: "joins",
             FactKind.BAND: "bands"}
"""The kinds of facts that a counts.json can have, and where; it has no steps, and of the shaping of
edges the schedules of even slopes alone."""


class NotCounts(Exception):
    """Why a text is no counts.json that can be compared."""


def side_of(slug: str, proof: Proof | None, problems: tuple[Problem, ...]) -> ComparedSide:
    """Return the side that a proof and its findings are; without a proof, the findings alone."""
    facts = dict(finding_fact(problem, f"patterns/{slug}/") for problem in problems)
    if proof is None:
        errors = tuple(p for p in problems if p.severity is Severity.ERROR)
        return ComparedSide(slug=slug, facts=facts, errors=errors)
    facts |= dict(_gauges(proof.pattern.fabrics))
    for size in proof.sizes:
        facts |= dict(_sized(proof.pattern, size))
    pattern = proof.pattern
    return ComparedSide(slug=slug, title=pattern.title, version=pattern.version,
                        sizes=tuple(size.size for size in proof.sizes), facts=facts,
                        titles=titles_of(proof), former_sizes=pattern.former_sizes)


def finding_fact(problem: Problem, folder: str) -> tuple[FactKey, Fact]:
    """Return a finding as a fact: the same one whatever its folder and its line."""
    name = finding_named(problem)
    file = problem.place.file.removeprefix(folder)
    return FactKey(problem.size, FactKind.FINDING, file, name), Fact(problem.severity, name)


def _sized(pattern: Pattern, size: SizeProof) -> FactPairs:
    yield from _measured(size)
    for key, place in counted_places(size):
        if isinstance(place, BandPlan):
            yield from band_facts(place)
            for exact in exact_figures(pattern.fabrics, place):
                yield (FactKey(size.size, FactKind.BAND, key, exact.name),
                       _exact(exact.made.value, exact.unit, exact.made))
        else:
            yield from _added_up(size, place, piece_facts(size, place, key))
            yield from _steps(pattern, size.size, key, place)
    for strip in size.strips:
        yield from _steps(pattern, size.size, strip.plan.band.key, strip)
    for requirement in yarn_requirements(pattern, size):
        for name, count in requirement.counts:
            yield FactKey(size.size, FactKind.YARN, requirement.yarn.key, name), count_fact(count)
    for name, count in material_counts(pattern.garment, pattern.fabrics, pattern.edges, size):
        yield FactKey(size.size, FactKind.YARN, "", name), count_fact(count)
    for key, name, length in notion_sizes(pattern.garment, size):
        yield (FactKey(size.size, FactKind.MATERIAL, key, name),
               Fact(length.mm, length.in_mm(), closer=partial(
                   with_more_places, partial(exact_shown, length.mm, "mm"))))


def _added_up(size: SizeProof, knitted: KnittedPiece, facts: FactPairs) -> FactPairs:
    """The facts of a piece; its rows and its width, which the bed counts, as sums of its counts."""
    sums = {name: made for name, _, made in islice(derived(size.assembled.garment, knitted), 2)} \
        if size.assembled else {}
    for key, fact in facts:
        made = sums.get(key.name) if key.kind is FactKind.COUNT else None
        yield key, replace(fact, made=(made,)) if made and made.value == fact.value else fact


def _measured(size: SizeProof) -> FactPairs:
    """The measures and finished lengths of a garment, and both sides of its joins."""
    if size.assembled is not None:
        for name, one in size.assembled.measures.items():
            yield (FactKey(size.size, FactKind.MEASURE, "", name),
                   _length(hundredths(one.value), one.made, is_length=one.is_length))
        for name, length in size.assembled.garment.lengths.items():
            yield (FactKey(size.size, FactKind.LENGTH, "", name),
                   _length(hundredths(length.length.mm), length.made))
        for join in size.assembled.garment.joins:
            yield (FactKey(size.size, FactKind.JOIN, "", join.title),
                   _join(join.unit, join.sewn, str(join.ease), str(join.tolerance)))


def _steps(pattern: Pattern, size: str, key: str, work: Strip | KnittedPiece) -> FactPairs:
    """The steps of a strip or piece; how many there are is asked where they differ."""
    name = "steps"
    if isinstance(work, Strip):
        name = strip_steps(work.front.value, work.plan.part.number if work.plan.part else 0)
    yield (FactKey(size, FactKind.STEPS, key, name),
           Fact(work.program.sections, "", texts=partial(_instructions, work, pattern)))


def _instructions(work: Strip | KnittedPiece, pattern: Pattern) -> tuple[str, ...]:
    return steps_in(steps_html(work, pattern, "step")).get("step", ())


def _length(hundredth: str, *made: Expression, is_length: bool = True) -> Fact:
    """A length or number to the hundredth to which it is published: so both sides are alike."""
    exact = Fraction(hundredth)
    return Fact((is_length, hundredth), shown(exact, is_length), made,
                closer=partial(with_more_places, partial(shown, exact, is_length)))


def _gauges(fabrics: Mapping[str, Fabric]) -> FactPairs:
    """The stitch and row of every fabric that was swatched, and the yarn in a stitch of it."""
    for fabric in fabrics.values():
        for name, unit, made in gauge_figures(fabric.swatches) if fabric.swatches else ():
            yield FactKey("", FactKind.GAUGE, fabric.key, name), _exact(made.value, unit, made)


def _exact(value: Fraction, unit: str, *made: Expression) -> Fact:
    return Fact((value, unit), exact_shown(value, unit), made,
                closer=partial(with_more_places, partial(exact_shown, value, unit)))


def _join(unit: str, sewn: tuple[Expression, ...], ease: str, allowed: str) -> Fact:
    """Both sides of a join, by their values, the ease between them and what it may be off."""
    values = tuple(side.value for side in sewn)
    return _both(values, unit, ease, allowed, sewn)


def _both(values: tuple[Fraction, ...], unit: str, ease: str, allowed: str,
          made: tuple[Expression, ...]) -> Fact:
    return Fact((values, unit, ease, allowed), join_shown(values, unit), made, closer=partial(
        join_closer, values, unit, Fraction(ease), Fraction(allowed)))


def side_of_counts(text: str) -> ComparedSide:
    """Return the side that a published counts.json is. Raises NotCounts, and nothing else.

    Where its expressions have another form than ours, its values alone are known.
    """
    try:
        data = json.loads(text)
        followed = data.get("expression_version") in READ
        facts = dict(_published(data, followed))
        kinds = frozenset(kind for kind, group in PUBLISHED.items() if group in data)
        return ComparedSide(slug=data["pattern"], version=data["version"],
                            sizes=tuple(data["sizes"]),
                            facts=facts, kinds=kinds)
    except (KeyError, TypeError, ValueError, AttributeError, ZeroDivisionError,
            RecursionError) as fault:
        raise NotCounts(f"{type(fault).__name__}: {fault}") from fault


def _read_length(data: Mapping[str, Any], followed: bool) -> Fact:
    made = (read_tree(data["expression"]),) if followed else ()
    return _length(data["mm"] if "mm" in data else data["number"], *made,
                   is_length="mm" in data)


def _read_count(data: Mapping[str, Any], followed: bool) -> Fact:
    value, trees = data["value"], data["expression"] if followed else []
    made = map(read_tree, trees if isinstance(trees, list) else [trees])
    value = tuple(value) if isinstance(value, list) else value
    return Fact(value, count_shown(value, data["unit"]), tuple(made), unit=data["unit"])


def _read_exact(value: str, unit: str, tree: Any, followed: bool) -> Fact:
    return _exact(Fraction(value), unit, *((read_tree(tree),) if followed else ()))


def _read_gauge(gauge: Mapping[str, Any], followed: bool) -> Iterator[tuple[str, Fact]]:
    """The figures of a fabric by name, as `gauge_figures` has them."""
    for name in ("stitch", "row"):
        yield name, _read_exact(gauge[name]["mm"], "mm", gauge[name]["expression"], followed)
    for name, one in gauge["yarn"].items():
        yield name, _read_exact(one["value"], name, one["expression"], followed)


def _read_join(join: Mapping[str, Any], followed: bool) -> Fact:
    values = tuple(Fraction(join[side]["value"]) for side in ("one", "other"))
    made = tuple(read_tree(join[side]["expression"]) for side in ("one", "other")) \
        if followed else ()
    return _both(values, join["unit"], join["ease"], join["allowed"], made)


def _published(data: Mapping[str, Any], followed: bool) -> FactPairs:
    yield from _published_exactly(data, followed)
    for kind, group in PUBLISHED.items():
        if kind in (FactKind.GAUGE, FactKind.JOIN, FactKind.BAND):
            continue
        for size, named in data.get(group, {}).items():
            for name, one in named.items():
                if kind in (FactKind.MEASURE, FactKind.LENGTH):
                    yield FactKey(size, kind, "", name), _read_length(one, followed)
                    continue
                for each, count in one.items():  # of a piece, band or yarn
                    yield FactKey(size, kind, name, each), _read_count(count, followed)
    for size, named in data.get("materials", {}).items():
        for name, one in named.items():
            yield FactKey(size, FactKind.YARN, "", name), _read_count(one, followed)


def _published_exactly(data: Mapping[str, Any], followed: bool) -> FactPairs:
    """Gauges, joins, and what is computed of bands and not rounded."""
    for fabric, gauge in data.get("gauges", {}).items():
        for name, fact in _read_gauge(gauge, followed):
            yield FactKey("", FactKind.GAUGE, fabric, name), fact
    for size, joins in data.get("joins", {}).items():
        for title, join in joins.items():
            yield FactKey(size, FactKind.JOIN, "", title), _read_join(join, followed)
    for size, bands in data.get("bands", {}).items():
        for band, named in bands.items():
            for name, one in named.items():
                yield FactKey(size, FactKind.BAND, band, name), _read_exact(
                    one["value"], one["unit"], one["expression"], followed)

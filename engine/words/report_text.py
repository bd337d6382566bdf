"""Reports of comparisons as they are printed: in a terminal, or as Markdown for a pull request."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from ..compare.report import Changed, MovedInput, PatternState, Report
from . import comparison_text as words

_LINES = 12  # changes under one cause in a short report
_SIZES = 3  # sizes that a line of a short report gives
_OPERANDS = 2  # operands that a line of a short report gives
_MARKS = re.compile(r"([\\`*_{}\[\]()#+!|<>~-])")


def report_text(reports: Sequence[Report], *, everything: bool = False) -> str:
    """Return the reports of the patterns that differ, short or whole, and a line that sums up."""
    blocks = ["\n".join(_block(one, everything)) for one in reports if _is_reported(one)]
    return "\n\n".join((*blocks, words.summary_text(reports))) + "\n"


def _is_reported(report: Report) -> bool:
    return report.differs or report.state is PatternState.BROKEN or bool(report.inputs)


def _block(report: Report, everything: bool) -> Iterator[str]:
    yield words.head_text(report)
    yield from (f"  {line}" for line in _remarks(report))
    for causes, changes in _by_cause(report).items():
        yield f"  {_cause(report, causes)}"
        lines = list(_lines(report, changes, everything))
        shown = lines if everything else lines[:_LINES]
        yield from (f"    {line}" for line in shown)
        if len(shown) < len(lines):
            yield f"    {words.more_text(len(lines) - len(shown))}"
    if idle := _idle(report):
        yield f"  {words.no_effect_text(idle)}"


def _remarks(report: Report) -> Iterator[str]:
    """What is to be known before the changes are read."""
    if report.former:
        yield words.former_text(report)
    yield from report.errors
    yield from (words.renamed_text(old, new) for old, new in report.renamed)
    if report.unknown and report.changes:
        yield words.unknown_text(report.unknown)


def _cause(report: Report, causes: tuple[int, ...]) -> str:
    """The line above the changes that have the same causes."""
    if causes:
        return f"{words.because_text([report.inputs[n] for n in causes])}:"
    if report.by_engine:
        return words.BY_ENGINE
    sought = report.state is PatternState.CHANGED and _has_causes(report)
    return words.BESIDE if sought else words.CHANGED


def _has_causes(report: Report) -> bool:
    """True where the sources of both sides are known, so that causes were sought."""
    return not report.unknown


def _idle(report: Report) -> list[MovedInput]:
    """The inputs that moved nothing; where nothing could be compared, none is known to."""
    if report.state not in (PatternState.CHANGED, PatternState.SAME) or not _has_causes(report):
        return []
    used = {n for one in report.changes for n in one.causes}
    return [one for n, one in enumerate(report.inputs) if n not in used]


def _by_cause(report: Report) -> dict[tuple[int, ...], list[Changed]]:
    found: dict[tuple[int, ...], list[Changed]] = {}
    for one in report.changes:
        found.setdefault(one.causes, []).append(one)
    return found


def _lines(report: Report, changes: Sequence[Changed], everything: bool) -> Iterator[str]:
    """A line for each fact, with its values by size; the steps below it in a whole report."""
    facts: dict[tuple[str, str, str], list[Changed]] = {}
    for one in changes:
        facts.setdefault((one.kind, one.place, one.name), []).append(one)
    for same in facts.values():
        path = same[0].path if everything else same[0].path[:_OPERANDS]
        by = f" ({words.path_text(path)})" if path else ""
        yield f"{_fact(same[0])}: {_values(report, same, everything)}{by}"
        if everything:
            for one in same:
                size = words.sizes_text([one.size], ())
                yield from (f"  {f'{size}, ' * bool(size)}{words.step_text(step)}"
                            for step in one.steps)


def _fact(one: Changed) -> str:
    return words.fact_named(one) if one.name else one.title or words.EVERY_FACT


def _values(report: Report, same: Sequence[Changed], everything: bool) -> str:
    """The values by size, sizes with the same ones together."""
    values: dict[str, list[str]] = {}
    for one in same:
        values.setdefault(words.values_text(one), []).append(one.size)
    sizes = dict.fromkeys((*report.sizes, *(one.size for one in same)))
    texts = [words.in_sizes_text(value, words.sizes_text(each, list(sizes)))
             for value, each in values.items()]
    if everything or len(texts) <= _SIZES:
        return "; ".join(texts)
    return words.some_text(texts[:_SIZES], sum(map(len, list(values.values())[_SIZES:])))


def report_markdown(reports: Sequence[Report]) -> str:
    """Return the reports as Markdown: a heading a pattern, its causes, and a table of its facts."""
    blocks = ["\n".join(_markdown(one)) for one in reports if _is_reported(one)]
    return "\n\n".join((*blocks, words.summary_text(reports))) + "\n"


def _markdown(report: Report) -> Iterator[str]:
    yield f"### {_escaped(words.head_text(report))}\n"
    yield from (f"{_escaped(line)}\n" for line in _remarks(report))
    for causes, changes in _by_cause(report).items():
        yield f"{_escaped(_cause(report, causes))}\n"
        yield from _table(report, changes)
        yield ""
    if idle := _idle(report):
        yield _escaped(words.no_effect_text(idle))


def _table(report: Report, changes: Sequence[Changed]) -> Iterator[str]:
    """A row for each fact, a column for each size that has one."""
    sizes = [size for size in dict.fromkeys(("", *report.sizes, *(c.size for c in changes)))
             if any(one.size == size for one in changes)]
    heads = [words.FACT, *(_escaped(words.sizes_text([size], ())) or words.EVERY_SIZE
                           for size in sizes), words.BY]
    yield f"| {' | '.join(heads)} |"
    yield f"|{' --- |' * len(heads)}"
    rows: dict[tuple[str, str, str], dict[str, Changed]] = {}
    for one in changes:
        rows.setdefault((one.kind, one.place, one.name), {})[one.size] = one
    for row in rows.values():
        first = next(iter(row.values()))
        cells = [_fact(first),
                 *(words.values_text(row[size]) if size in row else "" for size in sizes),
                 ", ".join(first.path)]
        yield f"| {' | '.join(map(_escaped, cells))} |"


def _escaped(text: str) -> str:
    """A text of a source as Markdown that shows it as it is."""
    return _MARKS.sub(r"\\\1", text.replace("\n", " "))
